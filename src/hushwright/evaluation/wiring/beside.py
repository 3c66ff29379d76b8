"""What runs beside a way: other routes in one bundle with it or close to it, and what they carry."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from hushwright.model.build import Build
from hushwright.model.routes_in_place import Point, RouteInPlace

CLOSE = 0.15
"""m, from which two ways lie beside each other; common practice, no source."""
_LEAST = 0.1  # m over which they do, shorter is a crossing
_STEP = 0.025  # m


@dataclass(frozen=True, slots=True)
class Beside:
    """A route that runs beside a way: over which length, how near at the least [m], and what it carries."""

    route: str
    points: tuple[Point, ...]
    along: float
    nearest: float
    shared: bool  # whether it is one of the ways itself
    bundled: bool
    mains: tuple[str, ...]
    low_voltage: tuple[str, ...]
    signals: tuple[str, ...]


def beside(build: Build, ways: Sequence[str], own: frozenset[str]) -> tuple[Beside, ...]:
    """Routes beside some ways, and what else lies on these themselves.

    Parameters
    ----------
    build : Build
        What is there.
    ways : sequence of str
        Routes in question.
    own : frozenset of str
        Circuits and lines in question, which are not beside themselves.

    Returns
    -------
    tuple of Beside
        Longest first; ducts are left out.
    """
    routes = {each.name: each for each in build.routes}
    found = []
    for other in build.routes:
        if other.run:
            continue
        carried = _carried(build, other.name, own)
        bundled = any(other.name in routes[way].bundle for way in ways)
        shared = other.name in ways
        along, nearest = (other.length, 0.0) if shared else _close(other, [routes[way] for way in ways])
        if (shared and any(carried)) or (not shared and (bundled or along >= _LEAST)):
            found.append(Beside(other.name, other.points, along, nearest, shared, bundled and not shared, *carried))
    return tuple(sorted(found, key=lambda each: -each.along))


def _carried(build: Build, route: str, own: frozenset[str]) -> tuple[tuple[str, ...], tuple[str, ...], tuple[str, ...]]:
    """Mains circuits, low-voltage circuits and signal lines on a route."""
    circuits = build.wiring.circuits if build.wiring is not None else ()
    lines = build.signals.lines if build.signals is not None else ()
    there = [each for each in circuits if each.route == route and each.name not in own]
    return (
        tuple(each.name for each in there if each.alternating),
        tuple(each.name for each in there if not each.alternating),
        tuple(each.name for each in lines if each.route == route and each.name not in own),
    )


def _close(other: RouteInPlace, ways: Iterable[RouteInPlace]) -> tuple[float, float]:
    """Over which length of a route it is close to others, and how near it comes [m]."""
    pairs = [_close_to(other.points, way.points) for way in ways]
    return max((along for along, _ in pairs), default=0.0), min((near for _, near in pairs), default=math.inf)


@lru_cache(maxsize=512)
def _close_to(points: tuple[Point, ...], way: tuple[Point, ...]) -> tuple[float, float]:
    along, nearest = 0.0, math.inf
    for one, other in zip(points, points[1:], strict=False):
        run = math.dist(one, other)
        steps = max(1, math.ceil(run / _STEP))
        for step in range(steps):
            share = (step + 0.5) / steps
            here = tuple(a + share * (b - a) for a, b in zip(one, other, strict=True))
            distance = _distance(here, way)
            nearest = min(nearest, distance)
            along += run / steps if distance <= CLOSE else 0.0
    return along, nearest


def _distance(place: Sequence[float], way: tuple[Point, ...]) -> float:
    """From a place to a way [m]."""
    best = math.inf
    for one, other in zip(way, way[1:], strict=False):
        run = math.dist(one, other)
        share = 0.0
        if run > 0.0:
            share = sum((b - a) * (p - a) for a, b, p in zip(one, other, place, strict=True)) / run**2
        share = min(max(share, 0.0), 1.0)
        best = min(best, math.dist(place, tuple(a + share * (b - a) for a, b in zip(one, other, strict=True))))
    return best
