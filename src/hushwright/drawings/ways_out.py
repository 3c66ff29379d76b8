"""How people get out: ways through openings with their clear widths; alarms, exhausts and intakes."""

from __future__ import annotations

import math

from hushwright.drawings.courses import van_in_plan
from hushwright.drawings.geometry import half_width, spoken
from hushwright.drawings.in_plan import openings_in_plan
from hushwright.drawings.plan import CUT_HEIGHT
from hushwright.drawings.primitives import Balloon, Circle, Drawing, Element, Line, Point, Polyline, Text
from hushwright.drawings.room_names import name_alone
from hushwright.drawings.use_in_plan import swings_in_plan
from hushwright.model.build import Build
from hushwright.model.safety_in_place import SafetyInPlace, WayOutInPlace
from hushwright.units import System, format_quantity

_OUTSIDE = 0.35  # m, how far a way is drawn beyond the last opening
_APART = 0.06  # m, between ways that go through the same opening
_HEAD = 0.07  # m, of an arrow
_MARK = 0.05  # m, of a thing on the wall or ceiling
_NEXT = 0.24  # m, between things drawn side by side
_LINES = "thick lines are ways out, dashed where a room has another one"
_KINDS = {"smoke": "smoke detector", "carbon monoxide": "carbon monoxide detector",
          "carbon dioxide": "carbon dioxide detector"}  # fmt: skip


def doors(build: Build, system: System = "metric", scale: float = 20.0) -> Drawing | None:
    """Plan of the ways out of every room with the clear width of each opening.

    Parameters
    ----------
    build : Build
        The van.
    system : {"metric", "us"}
        Units of the widths.
    scale : float
        At which it will be shown [-].

    Returns
    -------
    Drawing or None
        x is the station, y runs to the right of the van; nothing where the file names no door and no way out.
    """
    said = build.safety
    if said is None or not (said.ways_out or said.doors):
        return None
    found = [*_ground(build), *_ways(build, said)]
    key = []
    for number, door in enumerate(said.doors, start=1):
        at = _centre(build, door.name)
        if at is None:
            continue
        found.append(Balloon(at, str(number), part=door.name))
        width, height = (format_quantity(each, "length", system) for each in (door.clear_width, door.clear_height))
        inside = f", opens from inside by {door.inside}" if door.inside else ""
        key.append((str(number), f"{spoken(door.name)}: {width} wide and {height} high are clear{inside}"))
    found += _names(build, scale, found)
    seen = f"seen from above, front of the van to the left; {_LINES}"
    return Drawing("ways-out", "Ways out and clear widths", seen, tuple(found), tuple(key))


def safety(build: Build, system: System = "metric", scale: float = 20.0) -> Drawing | None:
    """Plan of detectors, sounders and lights of each room, exhausts and intakes, the bank, and the ways out.

    Parameters
    ----------
    build : Build
        The van.
    system : {"metric", "us"}
        Units of the distances.
    scale : float
        At which it will be shown [-].

    Returns
    -------
    Drawing or None
        As `doors`; nothing where the file says nothing of safety. Detectors stand at their distance from an edge,
        elsewhere along it nobody says where.
    """
    said = build.safety
    if said is None or not (said.ways_out or said.detectors or said.sounders or said.exhausts or said.equipment):
        return None
    found = [*_ground(build), *_ways(build, said)]
    key = []
    for number, (at, name, what) in enumerate(_things(build, said, system), start=1):
        found += [Circle(at, _MARK, "signals", name), Balloon(at, str(number), part=name)]
        key.append((str(number), what))
    found += _names(build, scale, found)
    seen = f"seen from above, front of the van to the left; {_LINES}; things without a place in the file stand in a row"
    return Drawing("safety", "Alarms, equipment and ways out", seen, tuple(found), tuple(key))


def _ground(build: Build) -> list[Element]:
    van = [each for each in van_in_plan(build) if not isinstance(each, Text)]  # names go where nothing else is
    return [*van, *openings_in_plan(build, CUT_HEIGHT), *swings_in_plan(build)]


def _names(build: Build, scale: float, drawn: list[Element]) -> list[Element]:
    return [name_alone(room, CUT_HEIGHT, scale, drawn) for room in build.rooms]


def _things(build: Build, said: SafetyInPlace, system: System) -> list[tuple[Point, str, str]]:
    """Place, name and words of everything that warns, and of what it warns of."""
    found: list[tuple[Point, str, str]] = []
    for room in build.rooms:
        inside: list[tuple[float | None, str]] = []
        for one in said.detectors:
            if one.room == room.name:
                edge = format_quantity(one.from_edge, "length", system)
                where = f"on the {'ceiling' if one.on_ceiling else 'wall'}, {edge} from its edge"
                told = f"{_KINDS.get(one.kind, one.kind)} {where}"
                if one.at is not None:
                    found.append(((one.at[0], -one.at[1]), room.name, told))
                else:
                    inside.append((one.from_edge, told))
        inside += [(None, f"sounder, {each.level:.0f} dB(A) at {format_quantity(each.distance, 'length', system)}")
                   for each in said.sounders if each.room == room.name]  # fmt: skip
        inside += [(None, f"flashing light, {each.intensity:g} cd")
                   for each in said.visual_signals if each.room == room.name]  # fmt: skip
        left = room.section.half_width_at("left", CUT_HEIGHT)
        step = min(_NEXT, (room.length - 0.3) / max(len(inside) - 1, 1))
        for at, (edge_at, what) in enumerate(inside):
            station = room.front + 0.2 + step * at
            found.append(((station, -left + (0.15 if edge_at is None else edge_at)), room.name, what))
    for exhaust in said.exhausts:
        apart = format_quantity(exhaust.apart.value, "length", system)
        found.append(((exhaust.at[0], -exhaust.at[1]), exhaust.name,
                      f"exhaust of {spoken(exhaust.name)}, {apart} from intakes"))  # fmt: skip
    found += [((at[0], -at[1]), name, f"intake of {spoken(name)}") for name, at in said.intakes]
    bank = next((each for each in build.masses if said.bank is not None and each.fitting == said.bank.name), None)
    if bank is not None:
        found.append(((bank.station, -bank.y), bank.fitting, "bank"))
    found += [((each.at[0], -each.at[1]), each.fitting, f"{each.kind}{f', {each.size}' if each.size else ''}")
              for each in said.equipment]  # fmt: skip
    return found


def _ways(build: Build, said: SafetyInPlace) -> list[Element]:
    found: list[Element] = []
    named: set[str] = set()
    for index, way in enumerate(said.ways_out):
        points = _points(build, way, _APART * (index - (len(said.ways_out) - 1) / 2.0))
        if len(points) < 2:
            continue
        first = next(each for each in said.ways_out if each.room == way.room)
        found.append(Polyline(points, "line", way.room, dashed=way is not first))
        (x0, y0), (x1, y1) = points[-2:]
        angle = math.atan2(y1 - y0, x1 - x0)
        for turn in (2.7, -2.7):  # rad, both sides of the head
            tip = (x1 + _HEAD * math.cos(angle + turn), y1 + _HEAD * math.sin(angle + turn))
            found.append(Line((x1, y1), tip, "line", way.room))
        if way.through[-1] in named:
            continue
        named.add(way.through[-1])
        found.append(Text((x1, y1), "out", shift=(0.004 if x1 > x0 else 0.0, 0.003 if y1 > y0 else -0.003)))
    return found


def _points(build: Build, way: WayOutInPlace, aside: float) -> tuple[Point, ...]:
    """From the middle of the room through every opening to the outside."""
    room = next((each for each in build.rooms if each.name == way.room), None)
    if room is None:
        return ()
    points = [((room.front + room.rear) / 2.0 + aside, aside)]
    last = None
    for name in way.through:
        last = next((each for each in build.openings if each.name == name), None)
        if last is None:
            return ()
        at = _in_plan(build, last.centre, last.face, last.in_vehicle)
        points.append((at[0], at[1] + aside) if last.face in ("front", "rear") else (at[0] + aside, at[1]))
    if last is None:
        return ()
    way_out = {"front": (-1.0, 0.0), "rear": (1.0, 0.0), "left": (0.0, -1.0), "right": (0.0, 1.0)}
    dx, dy = way_out.get(last.face, (0.0, 0.0))
    x, y = points[-1]
    return (*points, (x + _OUTSIDE * dx, y + _OUTSIDE * dy))


def _centre(build: Build, name: str) -> Point | None:
    one = next((each for each in build.openings if each.name == name), None)
    return None if one is None else _in_plan(build, one.centre, one.face, one.in_vehicle)


def _in_plan(build: Build, centre: tuple[float, float, float], face: str, in_vehicle: bool) -> Point:
    """Middle of an opening seen from above; one in a side of the van lies in its skin."""
    if in_vehicle and face in ("left", "right"):
        half = half_width(build.vehicle, 0.0, CUT_HEIGHT)
        return centre[0], -half if face == "left" else half
    return centre[0], -centre[1]
