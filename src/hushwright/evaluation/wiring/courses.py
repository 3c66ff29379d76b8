"""Courses of circuits and signal lines through the van: leg by leg from source to load, and what they pass."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.results.wiring import CircuitResult
from hushwright.evaluation.wiring.beside import Beside, beside
from hushwright.model.build import Build
from hushwright.model.routes_in_place import Point, RouteInPlace
from hushwright.model.signals_in_place import LineInPlace

_SAME = 0.02  # m, stops that are nearer to each other are told in one


@dataclass(frozen=True, slots=True)
class Leg:
    """A straight piece of a way with its share of length, slack included [m], and of the drop [V]."""

    owner: str
    points: tuple[Point, ...]  # two; none where the file gives a length without a way
    length: float
    conductor: str  # as chosen or given, a gauge or metric
    area: float
    number: int = 1  # of alike cables
    current: float | None = None
    drop: float | None = None
    voltage: float | None = None


@dataclass(frozen=True, slots=True)
class Stop:
    """Something on the way; ``kind`` is ``end``, ``fuse``, ``isolator`` or ``passage``."""

    kind: str
    text: str
    at: Point


@dataclass(frozen=True, slots=True)
class Course:
    """Way of a circuit from its source, the circuits before it included; or of a signal line, or all through a gland.

    ``carries`` is ``power`` or ``signals``.
    """

    name: str
    carries: str
    legs: tuple[Leg, ...]
    stops: tuple[Stop, ...]
    besides: tuple[Beside, ...]

    @property
    def length(self) -> float:
        """Whole length one way [m]."""
        return sum(leg.length for leg in self.legs)


def course_of_circuit(evaluation: Evaluation, name: str) -> Course | None:
    """Course of a circuit; `None` where there is none of the name."""
    wiring = evaluation.build.wiring
    placed = next((each for each in wiring.circuits if each.name == name), None) if wiring is not None else None
    results = {each.name: each for each in evaluation.wiring.circuits}
    if placed is None or name not in results:
        return None
    build = evaluation.build
    chain = [results[each] for each in (*reversed(placed.upstream), name) if each in results]
    routes = {each.name: each for each in build.routes}
    legs = [leg for circuit in chain for leg in _legs_of(circuit, routes.get(circuit.route))]
    stops = [stop for circuit in chain for stop in _stops_of(build, circuit, routes.get(circuit.route))]
    ways = tuple(dict.fromkeys(each.route for each in chain if each.route in routes))
    return Course(name, "power", tuple(legs), _told_once(stops),
                  beside(build, ways, frozenset(each.name for each in chain)))  # fmt: skip


def course_of_line(evaluation: Evaluation, name: str) -> Course | None:
    """Course of a signal line; `None` where there is none of the name."""
    signals = evaluation.build.signals
    line = next((each for each in signals.lines if each.name == name), None) if signals is not None else None
    if line is None:
        return None
    route = next((each for each in evaluation.build.routes if each.name == line.route), None)
    if route is None:
        return Course(name, "signals", (_leg_of_line(line, (), line.length),), (), ())
    legs = tuple(_leg_of_line(line, points, length) for points, length in _shares(route, line.length))
    ends = (Stop("end", line.comes_from, route.points[0]), Stop("end", line.goes_to, route.points[-1]))
    stops = _told_once([ends[0], *_passages(evaluation.build, route), ends[1]])
    return Course(name, "signals", legs, stops, beside(evaluation.build, (route.name,), frozenset((name,))))


def _leg_of_line(line: LineInPlace, points: tuple[Point, ...], length: float) -> Leg:
    return Leg(line.name, points, length, "", line.conductor, line.number)


def _legs_of(circuit: CircuitResult, route: RouteInPlace | None) -> Iterator[Leg]:
    drop = circuit.drop * circuit.voltage
    shares = _shares(route, circuit.length) if route is not None else (((), circuit.length),)
    for points, length in shares:
        part = length / circuit.length if circuit.length > 0.0 else 0.0
        yield Leg(circuit.name, points, length, circuit.conductor, circuit.area, 1, circuit.current, part * drop,
                  circuit.voltage)  # fmt: skip


def _shares(route: RouteInPlace, length: float) -> tuple[tuple[tuple[Point, ...], float], ...]:
    """Straight pieces of a route, each with its share of the length of a cable on it."""
    pairs = [(one, other) for one, other in zip(route.points, route.points[1:], strict=False) if one != other]
    return tuple((pair, length * math.dist(*pair) / route.way) for pair in pairs)


def _stops_of(build: Build, circuit: CircuitResult, route: RouteInPlace | None) -> Iterator[Stop]:
    placed = next((each for each in build.wiring.circuits if each.name == circuit.name), None) if build.wiring else None
    if route is None:
        return
    yield Stop("end", circuit.takes_from, route.points[0])
    if circuit.fuse is not None:
        away = placed.fuse.distance if placed is not None and placed.fuse is not None else None
        yield Stop("fuse", f"{circuit.fuse:g} A {circuit.fuse_type}, {circuit.name}", _along(route, away or 0.0))
    if placed is not None and placed.isolator is not None:
        yield Stop("isolator", circuit.name, placed.isolator.point)
    yield from _passages(build, route)
    yield Stop("end", ", ".join(circuit.gives_to), route.points[-1])


def _along(route: RouteInPlace, distance: float) -> Point:
    """Place on a route at a distance from its begin [m]."""
    left = distance
    for one, other in zip(route.points, route.points[1:], strict=False):
        run = math.dist(one, other)
        if left <= run and run > 0.0:
            return _between(one, other, left / run)
        left -= run
    return route.points[-1]


def _between(one: Point, other: Point, share: float) -> Point:
    return tuple(a + share * (b - a) for a, b in zip(one, other, strict=True))  # type: ignore[return-value]  # three


def _passages(build: Build, route: RouteInPlace) -> Iterator[Stop]:
    """Where a route meets walls of the floating room, and the openings and cuts of the vehicle that it passes."""
    for each in route.crossings:
        through = f"{each.opening}, {each.room}.{each.face}" if each.opening else f"no gland, {each.room}.{each.face}"
        yield Stop("passage", through, each.point)
    met = {each.opening for each in route.crossings}
    for name in route.passes:
        place = _place_of(build, name) if name not in met else None
        if place is not None:
            yield Stop("passage", name, _nearest(route, place))


def _place_of(build: Build, name: str) -> Point | None:
    """Middle of an opening or cut."""
    opening = next((each for each in build.openings if each.name == name), None)
    if opening is not None:
        return opening.centre
    cut = next((each for each in build.cuts if each.name == name), None)
    if cut is None:
        return None
    vehicle = build.vehicle
    if cut.face in ("left", "right"):
        half = vehicle.section.half_width_at("left", min(max(cut.up, 0.0), vehicle.floor_to_bow))
        return cut.along, half if cut.face == "left" else -half, cut.up
    if cut.face in ("front", "rear"):
        return 0.0 if cut.face == "front" else vehicle.load_length, cut.along, cut.up
    return cut.along, cut.up, vehicle.floor_to_bow if cut.face in ("roof", "ceiling") else 0.0


def _nearest(route: RouteInPlace, place: Point) -> Point:
    """Place on a route that is nearest to another one."""
    found = [_foot(one, other, place) for one, other in zip(route.points, route.points[1:], strict=False)]
    return min(found, key=lambda each: math.dist(each, place))


def _foot(one: Point, other: Point, place: Point) -> Point:
    run = math.dist(one, other)
    if run <= 0.0:
        return one
    share = sum((b - a) * (p - a) for a, b, p in zip(one, other, place, strict=True)) / run**2
    return _between(one, other, min(max(share, 0.0), 1.0))


def _told_once(stops: Sequence[Stop]) -> tuple[Stop, ...]:
    """Stops in their order, an end that two circuits share told once."""
    found: list[Stop] = []
    for stop in stops:
        if not any(each.kind == stop.kind and each.text == stop.text and math.dist(each.at, stop.at) < _SAME
                   for each in found):  # fmt: skip
            found.append(stop)
    return tuple(found)
