"""Which one length would settle what does not fit, computed from the numbers and rounded to the side that fits."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import replace

from hushwright.document.nodes import parse_path
from hushwright.errors import Mend
from hushwright.model.build import LayerInPlace, OpeningInPlace, Room, VehicleInPlace
from hushwright.model.section import Section

_ROUND = 1000.0  # 1/m: mends are told in whole millimetres
_GRAIN = 1e-6  # m, below which a length is called whole already
_SHALLOWEST = 0.01  # m, a space shallower than that is no mend
_LEAST_SHARE = 0.6  # of a width or height, below which lessening it is no mend
_MOST = 2
EDGE = 0.02
"""m, how far an edge may pass the finished face before it is told; frames overlap by more."""


def up(length: float) -> float:
    """Next whole millimetre from below.

    Examples
    --------
    >>> up(0.0772), up(0.078)
    (0.078, 0.078)
    """
    return math.ceil(_ROUND * (length - _GRAIN)) / _ROUND


def down(length: float) -> float:
    """Next whole millimetre from above.

    Examples
    --------
    >>> down(0.0772)
    0.077
    """
    return math.floor(_ROUND * (length + _GRAIN)) / _ROUND


def beyond(opening: OpeningInPlace, owner: Room | None, vehicle: VehicleInPlace) -> float:
    """How far an opening reaches beyond its face [m]; negative inside."""
    return max(_over_edges(opening, owner, vehicle).values())


def too_far_where(opening: OpeningInPlace, owner: Room | None, vehicle: VehicleInPlace) -> tuple[str, str]:
    """Which edge of its face an opening passes furthest, and what is free in that direction, in words."""
    over = _over_edges(opening, owner, vehicle)
    edge = max(over, key=lambda each: over[each])
    section, front, rear = _bounds(owner, vehicle)
    if edge in ("below", "above"):
        low, high = section.floor_height, section.ceiling_height
        return edge, f"which runs from {1000 * low:.0f} mm to {1000 * high:.0f} mm over the steel floor"
    if edge != "past the sides of":
        return edge, f"which runs from station {1000 * front:.0f} mm to {1000 * rear:.0f} mm"
    middle, half = opening.centre[2], opening.height / 2.0
    width = {"ceiling": section.ceiling_width, "floor": section.floor_width}.get(opening.face)
    wide = 2.0 * _clear(section, middle - half, middle + half) if width is None else width
    return edge, f"which is {1000 * wide:.0f} mm wide there"


def _over_edges(opening: OpeningInPlace, owner: Room | None, vehicle: VehicleInPlace) -> dict[str, float]:
    """How far an opening passes each edge of its face [m]; negative inside."""
    section, front, rear = _bounds(owner, vehicle)
    station, across, middle = opening.centre
    low, high = middle - opening.height / 2.0, middle + opening.height / 2.0
    if opening.face in ("ceiling", "floor"):
        width = section.ceiling_width if opening.face == "ceiling" else section.floor_width
        sides = {"past the sides of": opening.height / 2.0 - width / 2.0}
    else:
        sides = {"below": section.floor_height - low, "above": high - section.ceiling_height}
    if opening.face in ("front", "rear"):
        return {"past the sides of": abs(across) + opening.width / 2.0 - _clear(section, low, high)} | sides
    ends = {"past the front end of": front - (station - opening.width / 2.0),
            "past the rear end of": station + opening.width / 2.0 - rear}  # fmt: skip
    return ends | sides


def common(first: OpeningInPlace, second: OpeningInPlace) -> float:
    """How far two openings of one face reach into each other, the lesser of both directions [m]."""
    along, height = along_of(first.face), up_of(first.face)
    return min(
        (first.width + second.width) / 2.0 - abs(first.centre[along] - second.centre[along]),
        (first.height + second.height) / 2.0 - abs(first.centre[height] - second.centre[height]),
    )


def along_of(face: str) -> int:
    """Direction of a face's width: stations on a side, ceiling or floor, across on an end."""
    return 1 if face in ("front", "rear") else 0


def up_of(face: str) -> int:
    """Direction of a face's height: up on a wall, across on ceiling or floor."""
    return 1 if face in ("ceiling", "floor") else 2


def mends_of_place(opening: OpeningInPlace, owner: Room | None, vehicle: VehicleInPlace) -> tuple[Mend, ...]:
    """Single lengths that would bring an opening back onto its face."""
    section, front, rear = _bounds(owner, vehicle)
    middle = opening.centre[2]
    low, high = middle - opening.height / 2.0, middle + opening.height / 2.0
    floor, ceiling = section.floor_height, section.ceiling_height
    tried: list[tuple[str, str, float]] = []
    if opening.face not in ("ceiling", "floor"):
        if low < floor:
            tried.append(("raise", "sill", up(floor)))
        if high > ceiling:
            tried += [("lower", "sill", down(ceiling - opening.height)), ("lessen", "height", down(ceiling - low))]
    across = opening.centre[along_of(opening.face)]
    if opening.face in ("front", "rear"):
        clear = _clear(section, low, high)
        ends = (-clear, clear)
    else:
        ends = (front, rear)
    if across - opening.width / 2.0 < ends[0]:
        tried.append(("move", "offset", up(ends[0] + opening.width / 2.0)))
    if across + opening.width / 2.0 > ends[1]:
        tried.append(("move", "offset", down(ends[1] - opening.width / 2.0)))
    tried.append(("lessen", "width", down(2.0 * min(across - ends[0], ends[1] - across))))
    return _that_hold(opening, tried, lambda moved: beyond(moved, owner, vehicle) <= EDGE)


def mends_of_overlap(
    first: OpeningInPlace, second: OpeningInPlace, owner: Room | None, vehicle: VehicleInPlace
) -> tuple[Mend, ...]:
    """Single lengths that would take one of two openings out of the other."""
    along = along_of(first.face)
    apart = (first.width + second.width) / 2.0
    tried = [("move", "offset", up(first.centre[along] + apart)), ("move", "offset", down(first.centre[along] - apart))]
    if first.face not in ("ceiling", "floor"):
        top, bottom = (first.centre[2] + sign * first.height / 2.0 for sign in (1.0, -1.0))
        tried += [("raise", "sill", up(top)), ("lower", "sill", down(bottom - second.height))]

    def holds(moved: OpeningInPlace) -> bool:
        return common(first, moved) <= EDGE and beyond(moved, owner, vehicle) <= EDGE

    return _that_hold(second, tried, holds)


def mend_of_depth(layers: Iterable[LayerInPlace], excess: float, face: str) -> tuple[Mend, ...]:
    """The deepest space of a face made shallower, where it bears that."""
    spaces = [each for each in layers if each.kind == "cavity" and each.cavity is not None and ".layers." in each.place]
    deepest = max(spaces, key=lambda each: each.thickness, default=None)
    if deepest is None or deepest.cavity is None:
        return ()
    left, space = down(deepest.thickness - excess), deepest.cavity
    battens = space.frame.depth if space.frame is not None else 0.0
    ribs = space.ribs.depth if space.ribs is not None and not space.extra_depth else 0.0
    typed_fill = space.fill_thickness if space.fill_thickness < deepest.thickness + space.extra_depth - _GRAIN else 0.0
    if left < max(_SHALLOWEST, battens, ribs, typed_fill):
        return ()
    return (Mend(f"make the space of {face} shallower:", (*parse_path(deepest.place), "cavity"), left),)


def _that_hold(
    opening: OpeningInPlace, tried: Iterable[tuple[str, str, float]], holds: Callable[[OpeningInPlace], bool]
) -> tuple[Mend, ...]:
    name = opening.name.replace("_", " ")
    found = []
    for verb, field, length in tried:
        moved = _with(opening, field, length)
        if moved is not None and holds(moved):
            found.append(Mend(f"{verb} the {field} of {name} to", (*parse_path(opening.place), field), length))
    return tuple(found[:_MOST])


def _with(opening: OpeningInPlace, field: str, length: float) -> OpeningInPlace | None:
    """An opening with another sill, offset, width or height; `None` where a round one has no such size."""
    station, across, middle = opening.centre
    low = middle - opening.height / 2.0
    if field == "sill":
        return replace(opening, centre=(station, across, length + opening.height / 2.0))
    if field == "offset":
        ends = along_of(opening.face) == 1
        return replace(opening, centre=(station, length, middle) if ends else (length, across, middle))
    if opening.round or length < _LEAST_SHARE * (opening.width if field == "width" else opening.height):
        return None
    if field == "width":
        return replace(opening, width=length)
    return replace(opening, height=length, centre=(station, across, low + length / 2.0))


def _bounds(owner: Room | None, vehicle: VehicleInPlace) -> tuple[Section, float, float]:
    if owner is None:
        return vehicle.section, 0.0, vehicle.load_length
    return owner.section, owner.front, owner.rear


def _clear(section: Section, low: float, high: float) -> float:
    """Half the clear width between two heights [m]."""
    return min(section.half_width_at(side, each) for side in ("left", "right") for each in (low, high))
