"""The plan: the van cut level, seen from above, front to the left."""

from __future__ import annotations

from collections.abc import Sequence

from hushwright.drawings.geometry import bands, half_width
from hushwright.drawings.in_plan import body_in_plan, ends_in_plan, openings_in_plan, outline_in_plan, sides_in_plan
from hushwright.drawings.primitives import (
    FIRST_ROW,
    NEXT_ROW,
    NORMAL,
    Balloon,
    Dimension,
    Drawing,
    Element,
    Line,
    Polyline,
    Text,
    box,
    chain,
)
from hushwright.drawings.room_names import room_name
from hushwright.drawings.things import Thing, things_of
from hushwright.drawings.use_in_plan import places_in_plan, swings_in_plan
from hushwright.model.build import Build
from hushwright.units import System, format_quantity

CUT_HEIGHT = 1.2  # m over the steel floor; common practice, no source
_CROSS = 0.03  # m, arm of the cross of what has no size


def plan(build: Build, height: float = CUT_HEIGHT, system: System = "metric", scale: float = 20.0) -> Drawing:
    """Plan of the whole load space.

    Parameters
    ----------
    build : Build
        The build.
    height : float
        Height of the cut over the steel floor [m].
    system : {"metric", "us"}
        Units of the words.
    scale : float
        At which it will be shown, for the room that the names of the rooms take [-].

    Returns
    -------
    Drawing
        x is the station, y runs to the right of the van.
    """
    found = body_in_plan(build, height)
    for room in build.rooms:
        found += ends_in_plan(build, room, height)
        found += sides_in_plan(build, room, height)
    found.append(outline_in_plan(build, height))
    numbered, key = _numbered(build, system)
    places, letters = places_in_plan(build)
    sizes = _dimensions(build, height)
    inside = [*_wheel_boxes(build), *openings_in_plan(build, height), *swings_in_plan(build), *places, *numbered]
    found += [*inside, *_names(build, height, system, scale, (*inside, *_across(sizes)))]
    found += [*_section_marks(build, height), *sizes]
    at = format_quantity(height, "length", system)
    seen = f"cut {at} over the steel floor, seen from above, front of the van to the left"
    return Drawing("plan", "Plan", seen, tuple(found), key + letters)


def _wheel_boxes(build: Build) -> list[Element]:
    """Boxes of the body dashed, their lining with a line, where they lie under the cut."""
    boxes = build.vehicle.wheel_boxes
    if boxes is None:
        return []
    between, _, front, rear = boxes
    found: list[Element] = []
    for sign, face in ((-1.0, "left"), (1.0, "right")):
        outer = sign * half_width(build.vehicle, 0.0, 0.0)
        ys = sorted((sign * between / 2.0, outer))
        found.append(Polyline(box((front, ys[0]), (rear, ys[1])), "hidden", f"wheel_box_{face}", closed=True))
        for room in build.rooms:
            surface = room.surface(f"wheel_box_{face}")
            if surface is None:
                continue
            lining = surface.thickness
            start, end = max(room.front, front - lining), min(room.rear, rear + lining)
            y = sign * (between / 2.0 - lining)
            wall = sign * room.section.half_width_at(face, room.section.floor_height)
            corners = ((start, wall), (start, y), (end, y), (end, wall))
            found.append(Polyline(corners, "structure", surface.name))
    return found


def _numbered(build: Build, system: System) -> tuple[list[Element], tuple[tuple[str, str], ...]]:
    found: list[Element] = []
    key = []
    for thing in things_of(build, system):
        found += thing_from_above(thing)
        found.append(Balloon((thing.station, -thing.y), thing.number, part=thing.part, beside=_is_a_point(thing)))
        key.append((thing.number, thing.text))
    return found, tuple(key)


def _is_a_point(thing: Thing) -> bool:
    """Whether all that is known of a fitting is where its centre lies."""
    return thing.layer == "fittings" and min(thing.size[:2]) <= 0.0


def thing_from_above(thing: Thing) -> list[Element]:
    """Outline of a thing in plan where its size is known; else a small cross at the centre of a fitting."""
    along, across, _ = thing.size
    if _is_a_point(thing):
        x, y = thing.station, -thing.y
        arms = (((x - _CROSS, y), (x + _CROSS, y)), ((x, y - _CROSS), (x, y + _CROSS)))
        return [Line(*arm, thing.layer, thing.part, dashed=thing.above) for arm in arms]
    if along <= 0.0 or across <= 0.0:
        return []
    corners = box((thing.station - along / 2.0, -thing.y - across / 2.0),
                  (thing.station + along / 2.0, -thing.y + across / 2.0))  # fmt: skip
    return [Polyline(corners, thing.layer, thing.part, closed=True, dashed=thing.above)]


def _names(build: Build, height: float, system: System, scale: float, drawn: Sequence[Element]) -> list[Element]:
    middle = Line((0.0, 0.0), (build.vehicle.load_length, 0.0), "hidden")
    found: list[Element] = [middle]
    for room in build.rooms:
        found += room_name(room, height, system, scale, (*drawn, middle))
    half = half_width(build.vehicle, 0.0, height)
    found.append(Text((0.0, half), "front", shift=(-0.006, 0.002), across="right", upward="bottom"))
    return found


def _section_marks(build: Build, height: float) -> list[Element]:
    """Where the sections are cut, with the way one looks."""
    half = half_width(build.vehicle, 0.0, height)
    found: list[Element] = []
    for name, station in build.drawn.sections:
        for y, upward, shift in ((half, "bottom", 0.0045), (-half, "top", -0.0045)):
            start = (station, y * 1.01)
            found.append(Line(start, (station, y * 1.06), "sections"))
            found.append(Text((station, y * 1.06), name, "sections", size=NORMAL, bold=True, shift=(0.0, shift / 5),
                              upward="bottom" if upward == "bottom" else "top"))  # fmt: skip
    return found


def _dimensions(build: Build, height: float) -> list[Element]:
    vehicle = build.vehicle
    half = half_width(vehicle, 0.0, height)
    rooms = [place for room in build.rooms for place in (room.front, room.rear)]
    below, above = -half, half
    found: list[Element] = list(chain((0.0, *rooms, vehicle.load_length), "x", below, -FIRST_ROW - 0.006))
    found.append(Dimension((0.0, below), (vehicle.load_length, below), "x", below, -FIRST_ROW - NEXT_ROW - 0.007))
    if vehicle.wheel_boxes is not None:
        _, _, front, rear = vehicle.wheel_boxes
        found += chain((0.0, front, rear, vehicle.load_length), "x", above, FIRST_ROW + 0.006)
    for room in build.rooms:
        inner = [room.section.half_width_at(side, height) for side in ("left", "right")]
        at = room.front + 0.1 * room.length
        found.append(Dimension((at, -inner[0]), (at, inner[1]), "y", at, 0.0))
    if build.rooms:
        depths = _depths(build, height)
        found += chain(depths, "y", vehicle.load_length, FIRST_ROW + 0.003)
    found.append(Dimension((vehicle.load_length, below), (vehicle.load_length, above), "y", vehicle.load_length,
                           FIRST_ROW + NEXT_ROW + 0.004))  # fmt: skip
    return found


def _across(sizes: Sequence[Element]) -> list[Line]:
    """Lines of the sizes that stand inside the rooms."""
    return [Line(each.start, each.end, each.layer) for each in sizes
            if isinstance(each, Dimension) and each.offset == 0.0]  # fmt: skip


def _depths(build: Build, height: float) -> tuple[float, ...]:
    """Skin, inner leaf and finished face on both sides of the last room."""
    room = build.rooms[-1]
    left = half_width(build.vehicle, 0.0, height)
    found = [-left, left]
    for face, sign in (("left", -1.0), ("right", 1.0)):
        surface = room.surface(face)
        if bands(surface):
            found.append(sign * room.section.half_width_at(face, height))
    return tuple(found)
