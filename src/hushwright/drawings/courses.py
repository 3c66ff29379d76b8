"""The course of a circuit or signal line in the van: plan above, left side with the heights below, every stop named."""

from __future__ import annotations

from hushwright.drawings.electrical import length_with_unit
from hushwright.drawings.geometry import half_width, labelled, spoken
from hushwright.drawings.in_plan import outline_in_plan
from hushwright.drawings.plan import CUT_HEIGHT
from hushwright.drawings.primitives import (
    NORMAL,
    Balloon,
    Circle,
    Drawing,
    Element,
    Hatch,
    Line,
    Point,
    Polyline,
    Text,
    box,
)
from hushwright.evaluation.wiring.beside import Beside
from hushwright.evaluation.wiring.courses import Course, Leg, Stop
from hushwright.model.build import Build
from hushwright.units import System, format_quantity

_BETWEEN = 0.35  # m between the plan and the side below it
_KINDS = {"fuse": "fuse", "isolator": "isolator of", "passage": "through"}
Spot = tuple[float, float, float]


def course(build: Build, one: Course, system: System = "metric") -> Drawing:
    """Picture of a course.

    Parameters
    ----------
    build : Build
        The van.
    one : Course
        What runs through it.
    system : {"metric", "us"}
        Units of the lengths in the key.

    Returns
    -------
    Drawing
        x is the station; y runs to the right of the van in the plan, and up in the side below it.
    """
    low = -half_width(build.vehicle, 0.0, CUT_HEIGHT) - _BETWEEN - build.vehicle.floor_to_bow
    found = van_in_plan(build) + _side(build, low)
    for each in one.besides:
        layer = "signals" if each.signals and not (each.mains or each.low_voltage) else "routes"
        for points in (_in_plan(each.points), _in_side(each.points, low)):
            found.append(Polyline(points, layer, each.route, dashed=True))
    layer = "course" if one.carries == "power" else "line"
    for leg in one.legs:
        if leg.points:
            for begin, end in (_in_plan(leg.points), _in_side(leg.points, low)):
                found.append(Line(begin, end, layer, leg.owner))
    key = []
    for mark, spot, part, text in marks_of(one, system):
        for place in (_in_plan((spot,))[0], _in_side((spot,), low)[0]):
            found += [Circle(place, 0.012, layer, part), Balloon(place, mark, "text", part)]
        key.append((mark, text))
    seen = "seen from above, and from the left below; front of the van to the left"
    return Drawing(f"course-{one.name}", f"Course of {spoken(one.name)}", seen, tuple(found), tuple(key),
                   tuple(beside_text(each, system) for each in one.besides))  # fmt: skip


def marks_of(one: Course, system: System) -> tuple[tuple[str, Spot, str, str], ...]:
    """Mark, place, part and words of every leg, numbered, and of every stop, lettered."""
    found = []
    legs = [leg for leg in one.legs if leg.points]
    for number, leg in enumerate(legs, 1):
        begin, end = leg.points
        middle = ((begin[0] + end[0]) / 2.0, (begin[1] + end[1]) / 2.0, (begin[2] + end[2]) / 2.0)
        found.append((str(number), middle, leg.owner, leg_text(leg, system)))
    for index, stop in enumerate(one.stops):
        found.append((letter(index), stop.at, stop.text, stop_text(stop)))
    return tuple(found)


def letter(index: int) -> str:
    """Letters of stops: A to Z, then AA and on.

    Examples
    --------
    >>> letter(0), letter(27)
    ('A', 'BB')
    """
    return chr(ord("A") + index % 26) * (index // 26 + 1)


def size_of(leg: Leg, system: System) -> str:
    """Size of the conductor; a gauge keeps its name where gauges are bought."""
    size = format_quantity(leg.area, "cross_section", system)
    if leg.conductor.endswith(" AWG") and system == "us":
        size = leg.conductor
    return f"{leg.number} × {size}" if leg.number > 1 else size


def leg_text(leg: Leg, system: System) -> str:
    """A leg in words: length, size, current, what is lost in it."""
    parts = [length_with_unit(leg.length, system), size_of(leg, system)]
    if leg.current is not None:
        parts.append(f"{leg.current:.3g} A")
    if leg.drop is not None and leg.voltage is not None:
        parts.append(f"loses {leg.drop:.2g} V of {leg.voltage:g} V")
    return f"{spoken(leg.owner)}: {', '.join(parts)}"


def stop_text(stop: Stop) -> str:
    """A stop in words."""
    text = spoken(stop.text)
    return f"{_KINDS[stop.kind]} {text}" if stop.kind in _KINDS else text


def beside_text(one: Beside, system: System) -> str:
    """What runs beside, how long and how near."""
    carried = "; ".join(
        f"{what} {', '.join(spoken(each) for each in names)}"
        for what, names in (("mains:", one.mains), ("low voltage:", one.low_voltage), ("signals:", one.signals))
        if names
    )
    along = length_with_unit(one.along, system)
    nearest = format_quantity(one.nearest, "length", system)
    way = "on the same way" if one.shared else f"beside it for {along}, at {nearest}"
    bundled = ", in one bundle" if one.bundled else ""
    return f"{spoken(one.route)} {way}{bundled}: {carried or 'carries nothing that the file names'}"


def van_in_plan(build: Build) -> list[Element]:
    """Outline of the load space and the rooms in it, as the ground of a picture."""
    found: list[Element] = [outline_in_plan(build, CUT_HEIGHT)]
    for room in build.rooms:
        left, right = (room.section.half_width_at(side, CUT_HEIGHT) for side in ("left", "right"))
        corners = box((room.front, -left), (room.rear, right))
        found += [Hatch(corners, "body", room.name, "room"), Polyline(corners, "hidden", room.name, closed=True),
                  Text(((room.front + room.rear) / 2.0, right), labelled(room.name), part=room.name, size=NORMAL,
                       bold=True, shift=(0.0, -0.004))]  # fmt: skip
    return found


def _side(build: Build, low: float) -> list[Element]:
    vehicle = build.vehicle
    found: list[Element] = [Polyline(box((0.0, low), (vehicle.load_length, low + vehicle.floor_to_bow)), "body",
                                     "vehicle", closed=True)]  # fmt: skip
    for room in build.rooms:
        floor, ceiling = low + room.section.floor_height, low + room.section.ceiling_height
        corners = box((room.front, floor), (room.rear, ceiling))
        found += [Hatch(corners, "body", room.name, "room"), Polyline(corners, "hidden", room.name, closed=True)]
    return found


def _in_plan(points: tuple[Spot, ...]) -> tuple[Point, ...]:
    return tuple((station, -y) for station, y, _ in points)


def _in_side(points: tuple[Spot, ...], low: float) -> tuple[Point, ...]:
    return tuple((station, low + z) for station, _, z in points)
