"""Dimensions on paper: line, ticks, extension lines, and the length where no other text stands.

A length stands over the middle of its line. Where the line is too short for it, or something stands there already, it
moves under the line, beside it, or further out with a thin line back to what it measures.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from hushwright.drawings.marks import Box, Letters, Mark, Stroke, apart, extent, text_width
from hushwright.drawings.numbers import length_text
from hushwright.drawings.primitives import SMALL, Dimension, Point
from hushwright.units import System

_TICK, _BEYOND, _FREE = 0.9, 1.2, 1.0  # mm: half a tick, extension past the line, gap at the object
_OVER, _UNDER = 0.55, 0.9  # mm between a line and the text over or under it
_SIDES = 1.4  # mm that a line is longer than the text over it
_BETWEEN = 0.1  # mm between lines of text, whose letters are lower than the line is high
_ROWS = 5  # on either side of a line, tried for a text that finds no place


@dataclass(frozen=True, slots=True)
class _Line:
    """A dimension with the ends of its line and its text over the middle."""

    dimension: Dimension
    start: Point
    end: Point
    text: str
    angle: float

    @property
    def run(self) -> float:
        return math.dist(self.start, self.end)

    @property
    def size(self) -> float:
        return 1000.0 * SMALL

    @property
    def wide(self) -> float:
        return text_width(self.text, self.size)

    @property
    def fits(self) -> bool:
        return self.wide < self.run - _SIDES


def dimensions_on_paper(
    dimensions: Sequence[Dimension], factor: float, system: System, texts: Iterable[Box]
) -> list[Mark]:
    """Marks of dimensions; none of their texts lies over another.

    Parameters
    ----------
    dimensions : sequence of Dimension
        What is measured.
    factor : float
        Millimetres on paper for a metre of the drawing.
    system : {"metric", "us"}
        Units of the lengths.
    texts : iterable of Box
        Where text stands already [mm].

    Returns
    -------
    list of Mark
        Lines first, then texts: those that fit over their line before those that look for a place.
    """
    taken = list(texts)
    marks: list[Mark] = []
    lines = []
    for dimension in dimensions:
        found, line = _strokes(dimension, factor, system)
        marks += found
        lines.append(line)
    for line in (*(each for each in lines if each.fits), *(each for each in lines if not each.fits)):
        placed = _written(line, taken)
        taken += [extent([mark]) for mark in placed if isinstance(mark, Letters)]
        marks += placed
    return marks


def ends_of(dimension: Dimension, factor: float) -> tuple[Point, Point, Point, Point]:
    """Measured places and the ends of the dimension line [mm on paper]."""
    a, b = _at(dimension.start, factor), _at(dimension.end, factor)
    off = 1000.0 * dimension.offset
    if dimension.axis == "x":
        y = dimension.level * factor + off
        return a, b, (a[0], y), (b[0], y)
    if dimension.axis == "y":
        x = dimension.level * factor + off
        return a, b, (x, a[1]), (x, b[1])
    run = math.dist(a, b) or 1.0
    nx, ny = -(b[1] - a[1]) / run * off, (b[0] - a[0]) / run * off
    return a, b, (a[0] + nx, a[1] + ny), (b[0] + nx, b[1] + ny)


def _at(point: Point, factor: float) -> Point:
    return (point[0] * factor, point[1] * factor)


def _strokes(dimension: Dimension, factor: float, system: System) -> tuple[list[Mark], _Line]:
    """Dimension line with slanted ticks and extension lines."""
    a, b, c, d = ends_of(dimension, factor)
    layer, part = dimension.layer, dimension.part
    marks: list[Mark] = [Stroke((c, d), layer, part)]
    for near, far in ((a, c), (b, d)):
        run = math.dist(near, far)
        if run > _FREE:
            x, y = (far[0] - near[0]) / run, (far[1] - near[1]) / run
            marks.append(Stroke(((near[0] + x * _FREE, near[1] + y * _FREE), (far[0] + x * _BEYOND,
                                far[1] + y * _BEYOND)), layer, part))  # fmt: skip
        marks.append(Stroke(((far[0] - _TICK, far[1] - _TICK), (far[0] + _TICK, far[1] + _TICK)), layer, part))
    angle = math.atan2(d[1] - c[1], d[0] - c[0])
    if angle > math.pi / 2.0 + 1e-6 or angle <= -math.pi / 2.0 + 1e-6:
        angle += math.pi  # read from below or from the right
    return marks, _Line(dimension, c, d, length_text(dimension.length, system), angle % (2.0 * math.pi))


def _written(line: _Line, taken: Sequence[Box]) -> list[Mark]:
    """Text at the first place where it lies over no other; tied to its line where that is not next to it."""
    first: Letters | None = None
    for along, away in _places(line):
        letters = _letters(line, along, away)
        first = first or letters
        box = extent([letters])
        if all(apart(box, other, _BETWEEN) for other in taken):
            return [*_tie(line, along, away), letters]
    assert first is not None
    return [first]


def _places(line: _Line) -> Iterator[tuple[float, float]]:
    """Along the line from its middle and away from it [mm], in the order in which they are tried."""
    size, own = line.size, line.dimension.row
    under = [-(_UNDER + size * (1.0 + 1.05 * row)) for row in range(_ROWS)]
    over = [_OVER + 1.05 * size * row for row in range(_ROWS)]
    if line.fits:
        slack = (line.run - _SIDES - line.wide) / 2.0
        yield from ((share * slack, _OVER) for share in (0.0, 0.5, -0.5, 1.0, -1.0))
    yield 0.0, under[own]
    yield 0.0, under[1 - own]
    aside = (line.run + line.wide) / 2.0 + _UNDER
    others = [(along, away) for away in (*under, *over) for along in (0.0, aside, -aside, 1.5 * aside, -1.5 * aside)]
    yield from sorted(others, key=lambda place: abs(place[0]) + 1.3 * abs(place[1]))


def _letters(line: _Line, along: float, away: float) -> Letters:
    cos, sin = math.cos(line.angle), math.sin(line.angle)
    x, y = (line.start[0] + line.end[0]) / 2.0, (line.start[1] + line.end[1]) / 2.0
    place = (x + along * cos - away * sin, y + along * sin + away * cos)
    return Letters(place, line.text, line.size, "centre", "bottom", line.angle, line.dimension.layer,
                   line.dimension.part, covers=True)  # fmt: skip


def _tie(line: _Line, along: float, away: float) -> list[Mark]:
    """Thin line from the middle of a dimension line to its text, where the text is not next to it."""
    near = _OVER if away > 0.0 else -(_UNDER + line.size)
    if abs(away - near) < 1.1 * line.size and abs(along) < line.run / 2.0:
        return []
    cos, sin = math.cos(line.angle), math.sin(line.angle)
    x, y = (line.start[0] + line.end[0]) / 2.0, (line.start[1] + line.end[1]) / 2.0
    up = away - 0.2 if away > 0.0 else away + 0.8 * line.size
    to = along - math.copysign(min(abs(along), line.wide / 2.0), along)
    end = (x + to * cos - up * sin, y + to * sin + up * cos)
    return [Stroke(((x, y), end), line.dimension.layer, line.dimension.part)]
