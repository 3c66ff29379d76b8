"""Ducts and boxes where they lie: the pieces of a run one after the other along its route."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from hushwright.drawings.geometry import spoken
from hushwright.drawings.primitives import Circle, Element, Hatch, Point, Polyline, box
from hushwright.model.air_in_place import (
    BaffleBoxInPlace,
    BendInPlace,
    FlexibleInPlace,
    PieceInPlace,
    ReducerInPlace,
    StraightInPlace,
)
from hushwright.model.build import Build

Place = tuple[float, float, float]
"""Station, y to the left, height over the steel floor [m]."""
_ALONG = 0.7  # share of its length, from which a piece runs along the van
_ROUND = 24  # sides of a round duct that is filled


@dataclass(frozen=True, slots=True)
class Stretch:
    """A straight stretch of a piece: its number on the sheet of runs, ends, outer width and height [m]."""

    number: str
    text: str
    part: str  # name of its route
    start: Place
    end: Place
    width: float
    height: float
    round: bool
    lined: bool

    @property
    def runs_along(self) -> bool:
        """Whether it runs along the van."""
        return abs(self.end[0] - self.start[0]) > _ALONG * math.dist(self.start, self.end)

    @property
    def front(self) -> float:
        """Station at which it begins [m]."""
        return min(self.start[0], self.end[0]) - (0.0 if self.runs_along else self.width / 2.0)

    @property
    def rear(self) -> float:
        """Station at which it ends [m]."""
        return max(self.start[0], self.end[0]) + (0.0 if self.runs_along else self.width / 2.0)


def stretches(build: Build) -> Iterator[Stretch]:
    """Everything of the runs whose route is in the file; pieces fill their way, each by its share of the length."""
    routes = {each.run: each for each in build.routes if each.run}
    for letter, run in zip("ABCDEFGHIJKLMNOPQRSTUVWXYZ", build.air.runs, strict=False):
        route = routes.get(run.name)
        pieces = [(number, piece.what) for number, piece in enumerate(run.pieces, 1) if length_of(piece.what) > 0.0]
        whole = sum(length_of(what) for _, what in pieces)
        if route is None or whole <= 0.0:
            continue
        way = sum(math.dist(a, b) for a, b in zip(route.points, route.points[1:], strict=False))
        at = 0.0
        for number, what in pieces:
            end = at + length_of(what) * way / whole
            text = f"{_word(what)}, {spoken(run.name)}"
            for a, b in _between(route.points, at, end):
                yield Stretch(f"{letter}{number}", text, route.name, a, b, *_size(what))
            at = end


def length_of(what: PieceInPlace) -> float:
    """Length of a piece along its middle [m]; 0 of ends, fans and filters, of which no length is in the file."""
    if isinstance(what, StraightInPlace | FlexibleInPlace | ReducerInPlace | BaffleBoxInPlace):
        return what.length
    return what.angle * (what.radius or 0.0) if isinstance(what, BendInPlace) else 0.0


def _word(what: PieceInPlace) -> str:
    words = {BaffleBoxInPlace: "baffle box", BendInPlace: "bend", FlexibleInPlace: "flexible duct",
             ReducerInPlace: "reducer"}  # fmt: skip
    return words.get(type(what), "duct")


def _size(what: PieceInPlace) -> tuple[float, float, bool, bool]:
    """Outer width and height, whether round, whether an absorber lines it."""
    if isinstance(what, BaffleBoxInPlace):
        return what.width, what.height, False, True
    if isinstance(what, FlexibleInPlace):
        return what.diameter, what.diameter, True, what.lined
    if isinstance(what, ReducerInPlace):
        large = max(what.before, what.after, key=lambda shape: shape.area)
        return large.width, large.height, large.round, False
    assert isinstance(what, StraightInPlace | BendInPlace)
    lining = what.lining if isinstance(what, StraightInPlace) else 0.0
    return what.shape.width + 2.0 * lining, what.shape.height + 2.0 * lining, what.shape.round, lining > 0.0


def _between(points: tuple[Place, ...], low: float, high: float) -> Iterator[tuple[Place, Place]]:
    """Straight parts of a way between two distances along it [m]."""
    gone = 0.0
    for a, b in zip(points, points[1:], strict=False):
        long = math.dist(a, b)
        first, last = max(low - gone, 0.0), min(high - gone, long)
        if last - first > 1e-6:
            yield _on(a, b, first / long), _on(a, b, last / long)
        gone += long


def _on(a: Place, b: Place, share: float) -> Place:
    return (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]), a[2] + share * (b[2] - a[2]))


def across(stretch: Stretch, station: float, *, cut: bool) -> tuple[list[Element], Point]:
    """A stretch as a section shows it, and its middle; filled where it is cut, thin where it is seen beyond.

    What runs along the van shows its end, what runs across it its length.
    """
    layer, tone = ("air" if cut else "beyond"), ("absorber" if stretch.lined else "duct")
    a, b = stretch.start, stretch.end
    if stretch.runs_along:
        share = (station - a[0]) / (b[0] - a[0]) if cut else (1.0 if b[0] > a[0] else 0.0)
        _, y, z = _on(a, b, min(max(share, 0.0), 1.0))
        middle, half = (-y, z), (stretch.width / 2.0, stretch.height / 2.0)
        outline = _ring(middle, half[0]) if stretch.round else box(
            (middle[0] - half[0], z - half[1]), (middle[0] + half[0], z + half[1]))  # fmt: skip
    else:
        start, end = (-a[1], a[2]), (-b[1], b[2])
        middle, long = ((start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0), math.dist(start, end) or 1.0
        off = (-(end[1] - start[1]) / long * stretch.height / 2.0, (end[0] - start[0]) / long * stretch.height / 2.0)
        outline = ((start[0] - off[0], start[1] - off[1]), (end[0] - off[0], end[1] - off[1]),
                   (end[0] + off[0], end[1] + off[1]), (start[0] + off[0], start[1] + off[1]))  # fmt: skip
    edge: Element = Polyline(outline, layer, stretch.part, closed=True)
    if stretch.round and stretch.runs_along:
        edge = Circle(middle, stretch.width / 2.0, layer, stretch.part)
    return ([Hatch(outline, layer, stretch.part, tone, lines=stretch.lined), edge] if cut else [edge]), middle


def _ring(centre: Point, radius: float) -> tuple[Point, ...]:
    angles = (2.0 * math.pi * index / _ROUND for index in range(_ROUND))
    return tuple((centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle)) for angle in angles)
