"""The space round the inner box: which faces it lies behind and where it goes round an edge."""

from __future__ import annotations

from hushwright.model.build import GapEdge, Room, Surface

_ROUND = (("left", "ceiling"), ("right", "ceiling"), ("left", "floor"), ("right", "floor"))


def gap_edges(room: Room | None) -> tuple[GapEdge, ...]:
    """Edges over which the gap behind one face opens into the gap behind the next."""
    if room is None:
        return ()
    found = [_edge(room, first, second, room.length) for first, second in _ROUND]
    for end in ("front", "rear"):
        for side in ("left", "right"):
            found.append(_edge(room, side, end, room.section.side_length(side)))
        found.append(_edge(room, "ceiling", end, room.section.ceiling_width))
        found.append(_edge(room, "floor", end, room.section.floor_width))
    for side in ("left", "right"):
        box = room.surface(f"wheel_box_{side}")
        if box is not None:
            found.append(_edge(room, side, f"wheel_box_{side}", box.width))
            found.append(_edge(room, "floor", f"wheel_box_{side}", box.width))
    return tuple(edge for edge in found if edge is not None)


def _edge(room: Room, first: str, second: str, length: float) -> GapEdge | None:
    depths = [_depth(room.surface(face)) for face in (first, second)]
    if min(depths) <= 0.0 or length <= 0.0:
        return None
    return GapEdge(first, second, length, min(depths))


def _depth(surface: Surface | None) -> float:
    cut = surface.last_cavity if surface is not None else None
    if surface is None or cut is None:
        return 0.0
    layer = surface.layers[cut]
    return layer.thickness + (layer.cavity.extra_depth if layer.cavity is not None else 0.0)
