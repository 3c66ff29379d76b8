"""Schedules of circuits and of signal lines, and the routes in plan."""

from __future__ import annotations

import math

from hushwright.drawings.geometry import half_width, labelled, spoken
from hushwright.drawings.in_plan import outline_in_plan
from hushwright.drawings.numbers import length_text
from hushwright.drawings.plan import CUT_HEIGHT
from hushwright.drawings.primitives import (
    NORMAL,
    Balloon,
    Circle,
    Drawing,
    Element,
    Point,
    Polyline,
    Text,
    box,
)
from hushwright.drawings.sheets import Table
from hushwright.evaluation.results.wiring import CircuitResult, WiringResults
from hushwright.model.build import Build
from hushwright.units import System, format_quantity

_BETWEEN = 0.5  # m between the two views of the routes
_SHORT = 0.35  # m, under which a number stands beside its route and not on it


def length_with_unit(length: float, system: System) -> str:
    """Length of a cable: metres to the centimetre, or feet and inches."""
    return format_quantity(length, "length", "us") if system == "us" else f"{length:.2f} m"


def circuit_schedule(results: WiringResults, system: System) -> Table:
    """Schedule of circuits: what each feeds, over what, behind what."""
    rows = [("circuit", "from", "to", "V", "A", "conductor", "length", "own drop", "in all", "fuse",
             "residual device", "isolator",
             "route")]  # fmt: skip
    for circuit in results.circuits:
        fuse = f"{circuit.fuse:g} A {circuit.fuse_type}" if circuit.fuse is not None else (
            f"behind {spoken(circuit.guarded_by)}" if circuit.guarded_by else "none")  # fmt: skip
        residual = f"{1000 * circuit.residual[0]:.0f} mA, type {circuit.residual[1]}" if circuit.residual else "none"
        rows.append((
            spoken(circuit.name), spoken(circuit.takes_from), ", ".join(spoken(each) for each in circuit.gives_to),
            f"{circuit.voltage:.3g}" + (" ~" if circuit.alternating else ""), f"{circuit.current:.3g}",
            _conductor(circuit, system), length_with_unit(circuit.length, system),
            f"{100 * circuit.drop:.1f} %", f"{100 * circuit.drop_from_source:.1f} %", fuse, residual,
            circuit.isolator or "none", spoken(circuit.route) or "none",
        ))  # fmt: skip
    title = f"Circuits, after {results.rules}" if results.rules else "Circuits"
    return Table(title, tuple(rows), (1.5, 1.2, 1.7, 0.6, 0.6, 1.3, 0.9, 0.7, 0.7, 1.4, 1.1, 0.9, 1.0))


def _conductor(circuit: CircuitResult, system: System) -> str:
    """Conductor by its name, in US units with the gauge to buy; whether the file leaves it to be chosen."""
    gauge = circuit.gauge if system == "us" and circuit.gauge not in ("", circuit.conductor) else ""
    told = [each for each in (gauge, "chosen" if circuit.chosen else "") if each]
    return circuit.conductor + (f" ({', '.join(told)})" if told else "")


def signal_schedule(build: Build, system: System) -> Table:
    """Schedule of signal lines with their connectors."""
    rows = [("line", "kind", "from", "to", "number", "connectors", "length of one", "route", "passes")]
    if build.signals is not None:
        rows += [(
            spoken(line.name), line.kind, spoken(line.comes_from), spoken(line.goes_to), str(line.number),
            ", ".join(line.connectors) or "none told", length_with_unit(line.length, system),
            spoken(line.route) or "none", ", ".join(spoken(each) for each in line.passes) or "nothing",
        ) for line in build.signals.lines]  # fmt: skip
    return Table("Signal lines", tuple(rows), (1.4, 1.1, 1.3, 1.3, 0.7, 1.6, 1.0, 1.2, 1.2))


def routes(build: Build, system: System = "metric") -> Drawing:
    """Routes of cables and ducts from above and, below, from the left side, numbered.

    Parameters
    ----------
    build : Build
        The build.
    system : {"metric", "us"}
        Units of the lengths in the key.

    Returns
    -------
    Drawing
        x is the station; in the upper view y runs to the right of the van, in the lower one upward.
    """
    found, floor = _grounds(build)
    key = []
    for number, route in enumerate(build.routes, 1):
        above = tuple((station, -y) for station, y, _ in route.points)
        beside = tuple((station, floor + z) for station, _, z in route.points)
        layer = "air" if route.run else "routes"
        for points in (above, beside):
            found.append(Polyline(points, layer, route.name))
            found.append(Balloon(_amid(points), str(number), layer, route.name, beside=_length(points) < _SHORT))
            found += [Circle(point, 0.012, layer, route.name) for point in points]
        heights = sorted({round(z, 3) for _, _, z in route.points})
        span = " to ".join(length_text(z, system) for z in dict.fromkeys((heights[0], heights[-1])))
        through = f", through {', '.join(spoken(each) for each in route.passes)}" if route.passes else ""
        key.append(
            (str(number), f"{spoken(route.name)}: {length_with_unit(route.length, system)}, height {span}{through}")
        )
    seen = "above: seen from above; below: seen from the left, both with the front of the van to the left"
    return Drawing("routes", "Routes", seen, tuple(found), tuple(key))


def _grounds(build: Build) -> tuple[list[Element], float]:
    """Outlines of van and rooms in both views, and at which y the steel floor of the lower one lies."""
    vehicle = build.vehicle
    found: list[Element] = [outline_in_plan(build, CUT_HEIGHT)]
    floor = -half_width(vehicle, 0.0, CUT_HEIGHT) - _BETWEEN - vehicle.floor_to_bow - vehicle.bows.depth
    roof = floor + vehicle.floor_to_bow + vehicle.bows.depth
    found.append(Polyline(box((0.0, floor), (vehicle.load_length, roof)), "body", "vehicle", closed=True))
    found.append(Text((0.0, roof), "from the left", across="left", upward="bottom", shift=(0.0, 0.001)))
    found.append(Text((0.0, half_width(vehicle, 0.0, CUT_HEIGHT)), "from above", across="left", upward="bottom",
                      shift=(0.0, 0.001)))  # fmt: skip
    for room in build.rooms:
        half = room.section.half_width_at("left", CUT_HEIGHT)
        low, high = floor + room.section.floor_height, floor + room.section.ceiling_height
        for corners, top in (
            (box((room.front, -half), (room.rear, half)), half),
            (box((room.front, low), (room.rear, high)), high),
        ):
            found.append(Polyline(corners, "hidden", room.name, closed=True))
            found.append(Text((room.rear, top), labelled(room.name), part=room.name, size=NORMAL, across="right",
                              bold=True, shift=(-0.002, -0.005)))  # fmt: skip
    return found, floor


def _amid(points: tuple[Point, ...]) -> Point:
    """Middle of the longest leg of a route."""
    a, b = max(zip(points, points[1:], strict=False), key=lambda pair: math.dist(*pair), default=(points[0],) * 2)
    return (a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0


def _length(points: tuple[Point, ...]) -> float:
    return sum(math.dist(a, b) for a, b in zip(points, points[1:], strict=False))
