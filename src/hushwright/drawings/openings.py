"""Doors and windows to build from: each seen from inside its room, with a section through its leaf or panes.

Both the clear opening and the leaf or pane that lies over its frame are drawn and measured. What the file does not know
(hinge side of a door without `swing`, heights of several latches) is said beside the drawing instead of drawn.
"""

from __future__ import annotations

from collections.abc import Iterator

from hushwright.drawings.build_ups import layer_shapes
from hushwright.drawings.geometry import labelled, spoken
from hushwright.drawings.numbers import length_text
from hushwright.drawings.primitives import (
    FIRST_ROW,
    NEXT_ROW,
    NORMAL,
    SMALL,
    Balloon,
    Circle,
    Dimension,
    Drawing,
    Element,
    Hatch,
    Line,
    Polyline,
    Text,
    box,
    chain,
)
from hushwright.library.us_names import sized_name
from hushwright.model.build import Build, LayerInPlace, OpeningInPlace, Room
from hushwright.model.cuts_in_place import DoorInPlace
from hushwright.model.use_in_place import SwingInPlace
from hushwright.units import System, format_quantity

_SECTION_FROM = 0.50  # m from the opening to its section
_HINGE = (0.016, 0.09)  # m, width and height of the sign of a hinge
_SHOWN_FROM = 0.02  # m between floor and opening, from which their distance finds room on the drawing
_CENTRED = 0.002  # m that the edges differ from the centre line
_KINDS = ("door", "window")


def openings_drawn(build: Build, system: System) -> tuple[Drawing, ...]:
    """A drawing of every door and window of the rooms.

    Parameters
    ----------
    build : Build
        The build.
    system : {"metric", "us"}
        Units of the sizes in the key.

    Returns
    -------
    tuple of Drawing
        Seen from inside; x runs to the right of who looks, from the centre line of the van on its ends, from the
        B-pillar line on its sides; y is the height over the steel floor.
    """
    rooms = {room.name: room for room in build.rooms}
    return tuple(_drawing(build, rooms[each.room], each, system) for each in build.openings
                 if each.kind in _KINDS and not each.in_vehicle and each.room in rooms
                 and each.face in ("front", "rear", "left", "right"))  # fmt: skip


def _drawing(build: Build, room: Room, opening: OpeningInPlace, system: System) -> Drawing:
    middle, low = _across(opening, opening.centre), opening.centre[2] - opening.height / 2.0
    left, right, high = middle - opening.width / 2.0, middle + opening.width / 2.0, low + opening.height
    door = next((each for each in build.doors if each.name == opening.name), None)
    swing = next((each for each in build.use.swings if each.name == opening.name), None)
    floor = room.section.floor_height
    over = opening.overlap
    typed = build.document.root.openings[opening.name].swing
    leaf = _over_frame(opening, (left, right), (low, high), in_front=typed is None or typed.opens == "in")
    found: list[Element] = [
        *leaf,
        Line((left - 0.15, floor), (right + 0.15, floor), "floor"),
        Text((right + 0.15, floor), "finished floor", size=SMALL, across="left", shift=(0.001, 0.0)),
        Line((left - 0.15, 0.0), (right + 0.15, 0.0), "body"),
        Text((right + 0.15, 0.0), "steel floor", size=SMALL, across="left", shift=(0.001, 0.0)),
    ]
    if opening.face in ("front", "rear"):
        top = (0.0, high + over + 0.035)
        found += [Line((0.0, 0.0), top, "datums"),
                  Text(top, "centre line", "datums", size=SMALL, across="left", upward="top",
                       shift=(0.001, 0.0))]  # fmt: skip
    if swing is not None and door is not None:
        found += _leaf(opening, door, swing, (left, right), (low, high))
    found += _sizes(opening, (left, right), (low, high), floor)
    found += _section(opening, right + over + _SECTION_FROM, low - opening.overlap_below, high + over)
    where = f"{spoken(room.name)}, {spoken(opening.face)}"
    return Drawing(f"opening-{opening.name.replace('_', '-')}", f"{labelled(opening.name, 40)}: {where}",
                   "seen from inside the room; beside it the section, outside to the left", tuple(found),
                   tuple(_key(opening, system)), tuple(_remarks(build, opening, door, swing, system)))  # fmt: skip


def _over_frame(
    opening: OpeningInPlace, across: tuple[float, float], up: tuple[float, float], *, in_front: bool
) -> list[Element]:
    """Clear opening and leaf or pane, the one behind the other in broken lines, with the sizes of the leaf."""
    over, name = opening.overlap, opening.name
    (left, right), (low, high) = across, up
    clear, leaf = (
        box((left, low), (right, high)),
        box((left - over, low - opening.overlap_below), (right + over, high + over)),
    )
    tone = "glass" if opening.kind == "window" else "sheet"
    if over <= 0.0:
        return [Hatch(clear, "openings", name, tone), Polyline(clear, "openings", name, closed=True)]
    front, behind = (leaf, clear) if in_front else (clear, leaf)
    return [
        Hatch(front, "openings", name, tone),
        Polyline(front, "openings", name, closed=True),
        Polyline(behind, "openings", name, closed=True, dashed=True),
        *chain((left - over, right + over), "x", high, FIRST_ROW + 1.3 * NEXT_ROW, high + over),
        *chain((low - opening.overlap_below, high + over), "y", left, -FIRST_ROW - 3.9 * NEXT_ROW, left - over),
    ]


def _across(opening: OpeningInPlace, place: tuple[float, float, float]) -> float:
    """Place across the picture: who looks rearward has the left of the van at the right hand."""
    station, y, _ = place
    return {"front": -y, "rear": y, "left": -station, "right": station}[opening.face]


def _leaf(
    opening: OpeningInPlace,
    door: DoorInPlace,
    swing: SwingInPlace,
    across: tuple[float, float],
    up: tuple[float, float],
) -> list[Element]:
    """Hinges, handle and the way the leaf swings: broken lines meet at its hinges."""
    (left, right), (low, high) = across, up
    at_left = abs(_across(opening, (*swing.hinge, 0.0)) - left) < abs(_across(opening, (*swing.hinge, 0.0)) - right)
    edge, other, into = (left, right, 1.0) if at_left else (right, left, -1.0)
    middle = (low + high) / 2.0
    found: list[Element] = [Line((other, end), (edge, middle), "hidden", opening.name) for end in (low, high)]
    step = door.hinge_spacing / max(door.hinges - 1, 1)
    places = [middle + step * (index - (door.hinges - 1) / 2.0) for index in range(door.hinges)]
    for z in places:
        x0, x1 = sorted((edge - into * _HINGE[0], edge + into * _HINGE[0]))
        found.append(Polyline(box((x0, z - _HINGE[1] / 2.0), (x1, z + _HINGE[1] / 2.0)), "fittings", opening.name,
                              closed=True))  # fmt: skip
    handle = edge + into * door.handle_distance
    found += [Circle((handle, middle), 0.02, "fittings", opening.name),
              Dimension((edge, high), (handle, high), "x", high, FIRST_ROW * 1.1)]  # fmt: skip
    hinged = chain((low, *places, high), "y", edge, -FIRST_ROW if at_left else FIRST_ROW)
    return [*found, *(hinged if len(places) > 1 else ())]


def _sizes(
    opening: OpeningInPlace, across: tuple[float, float], up: tuple[float, float], floor: float
) -> list[Element]:
    (left, right), (low, high) = across, up
    base = min(low, 0.0)
    found: list[Element] = [
        *chain((left, right), "x", base, -FIRST_ROW),
        *chain(
            (*((floor,) if abs(low - floor) > _SHOWN_FROM else ()), low, high), "y", left, -FIRST_ROW - NEXT_ROW * 1.3
        ),
        *chain((0.0, low), "y", left, -FIRST_ROW - NEXT_ROW * 2.6),
    ]
    if opening.face in ("front", "rear") and abs(left + right) <= _CENTRED:
        found.append(Text(((left + right) / 2.0, base), "its middle on the centre line", size=SMALL, upward="top",
                          shift=(0.0, -FIRST_ROW - 0.004)))  # fmt: skip
    elif opening.face in ("front", "rear"):
        found += chain((left, 0.0, right), "x", base, -FIRST_ROW - NEXT_ROW)
    else:
        way = 1.0 if opening.face == "right" else -1.0
        edge = left if way > 0.0 else right
        found.append(Text((edge, base), f"{length_text(abs(edge))} behind the B-pillar line", size=SMALL, upward="top",
                          shift=(0.0, -0.012)))  # fmt: skip
    return found


def _section(opening: OpeningInPlace, x: float, low: float, high: float) -> list[Element]:
    """Section through leaf or panes, outside to the left."""
    found: list[Element] = []
    at, places = x, [x]
    for layer in opening.layers:
        found += layer_shapes(layer, at, at + layer.thickness, low, high, opening.name)
        at += layer.thickness
        places.append(at)
    middles = [(a + b) / 2.0 for a, b in zip(places, places[1:], strict=False)]
    for index, middle in enumerate(middles):  # thicknesses stand in the key: side by side they would find no room
        up = low + (0.3 + 0.4 * index / len(middles)) * (high - low)
        found.append(Balloon((middle, up), str(index + 1), part=opening.name, beside=True))
    if len(places) > 1:
        found += chain((x, at), "x", high, FIRST_ROW)
    found.append(Text(((x + at) / 2.0, low), "section", size=NORMAL, upward="top", shift=(0.0, -0.002)))
    return found


def _key(opening: OpeningInPlace, system: System) -> Iterator[tuple[str, str]]:
    yield "", f"{opening.number} alike" if opening.number > 1 else "one piece"
    for number, layer in enumerate(opening.layers, 1):
        yield str(number), _layer(layer, system)


def _layer(layer: LayerInPlace, system: System) -> str:
    size = length_text(layer.thickness, system)
    if layer.cavity is None:
        return f"{sized_name(layer.name, system)}, {size}"
    fill = layer.cavity.fill
    return f"space {size}" + (f" with {sized_name(fill.name, system)}" if fill is not None else "")


def _remarks(
    build: Build, opening: OpeningInPlace, door: DoorInPlace | None, swing: SwingInPlace | None, system: System
) -> Iterator[str]:
    """Sizes, seals, frames, hardware, weight, and what is not in the file."""
    yield from _overlap(opening, system)
    seals = opening.seals
    if seals is not None:
        rows = f"{seals.rows} rows" if seals.rows > 1 else "one row"
        whole = format_quantity(seals.length * seals.rows, "length", system)
        gap = format_quantity(seals.residual_gap, "length", system, digits=2)
        yield f"Seal: {sized_name(seals.seal.name, system)}, {rows}, {whole} in all; no wider gap than {gap} is left."
    if opening.kind == "window" and any(layer.is_cavity for layer in opening.layers):
        yield ("Each frame is fixed to its own leaf and touches the other nowhere." if opening.frames == "separate"
               else "One frame holds both panes.")  # fmt: skip
    if opening.reveal > 0.0:
        yield f"Niche {length_text(opening.reveal, system)} deep before the pane."
    yield f"Weight {format_quantity(opening.mass, 'mass', system, digits=3)}."
    if door is not None:
        yield from _hung(build, door, swing, system)


def _overlap(opening: OpeningInPlace, system: System) -> Iterator[str]:
    """Clear size, size of leaf or pane, and what frame that takes."""
    clear = " × ".join(length_text(side, system) for side in (opening.width, opening.height))
    what = "pane" if opening.kind == "window" else "leaf"
    if opening.overlap <= 0.0:
        yield (f"Clear {clear}; the {what} is as large. Not in the file: how far it lies over its frame (`overlap`);"
               " settle it before sawing.")  # fmt: skip
        return
    leaf = " × ".join(length_text(side, system) for side in opening.leaf_size)
    over = length_text(opening.overlap, system)
    where = "at both sides and the head" if opening.overlap_below < opening.overlap else "at every edge"
    yield (f"Clear {clear}, which is the frame inside; {what} {leaf}, {over} over the frame {where}. The frame"
           f" reaches at least as far as the {what}; how much further is the maker's.")  # fmt: skip


def _hung(build: Build, door: DoorInPlace, swing: SwingInPlace | None, system: System) -> Iterator[str]:
    """Hinges, latches, handle, threshold and the way the leaf moves."""
    apart = length_text(door.hinge_spacing, system)
    latches = "one latch, at the handle" if door.latches == 1 else f"{door.latches} latches"
    each = "Each of the two frames: " if door.frames > 1 else ""
    threshold = "" if door.kind == "window" else f"; {_threshold(door, system)}"
    yield f"{each}{door.hinges} hinges, outer ones {apart} apart; {latches}{threshold}."
    way = build.safety.door(door.name) if build.safety is not None else None
    if way is not None and way.said:
        lock = "no lock" if way.lock == "none" else f"lock {way.lock}"
        yield f"Opened from inside by {way.inside}; {lock}; keep for the road: {way.keep}."
    typed = build.document.root.openings[door.name].swing
    missing = [] if door.latches == 1 else ["at what heights the latches sit"]
    if swing is not None and typed is not None:
        into = "into the room" if typed.opens == "in" else "out of the room"
        yield (f"Hinges at the {typed.hinge} as one faces it from inside; opens {into}. Broken lines meet at the"
               " hinges.")  # fmt: skip
    else:
        if way is not None and way.said:
            yield "Slides." if way.swing == "slides" else f"Opens {way.swing}."
        missing.insert(0, "on which side the hinges are, so that none is drawn")
    if missing:
        yield f"Not in the file, to be settled before it is built: {'; '.join(missing)}."


def _threshold(door: DoorInPlace, system: System) -> str:
    if door.threshold <= 0.0:
        return "no threshold above the floor beside it"
    return f"threshold {length_text(door.threshold, system)} high"
