"""A drawing at a scale: what is written on paper gets its place, and everything becomes strokes, fills and letters.

Marks are in millimetres on paper, x to the right and y upward, from the same origin as the drawing.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from hushwright.drawings.numbers import length_text
from hushwright.drawings.primitives import (
    SMALL,
    Across,
    Arc,
    Balloon,
    Circle,
    Dimension,
    Drawing,
    Element,
    Hatch,
    Line,
    Point,
    Polyline,
    Text,
    Upward,
)
from hushwright.units import System

_BALLOON = 2.3  # mm on paper, radius
_TICK, _BEYOND, _FREE = 0.9, 1.2, 1.0  # mm: half a tick, extension past the line, gap at the object
_LINE_SPACING = 2.2  # mm between slanted lines of a fill
_ARC_STEP = math.radians(6.0)


@dataclass(frozen=True, slots=True)
class Stroke:
    """Points joined by straight lines."""

    points: tuple[Point, ...]
    layer: str
    part: str = ""
    closed: bool = False
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Ring:
    """A circle; filled with paper where ``covers``."""

    centre: Point
    radius: float
    layer: str
    part: str = ""
    dashed: bool = False
    covers: bool = False


@dataclass(frozen=True, slots=True)
class Fill:
    """A filled shape with holes."""

    outline: tuple[Point, ...]
    holes: tuple[tuple[Point, ...], ...]
    tone: str
    layer: str
    part: str = ""


@dataclass(frozen=True, slots=True)
class Letters:
    """A line of text; ``covers`` clears the paper behind it."""

    at: Point
    text: str
    size: float
    across: Across
    upward: Upward
    angle: float
    layer: str
    part: str = ""
    bold: bool = False
    covers: bool = False


Mark = Stroke | Ring | Fill | Letters


def text_width(text: str, size: float) -> float:
    """Width of a line of text, roughly, in the unit of its size.

    Examples
    --------
    >>> text_width("1582", 2.5)
    4.98
    """
    return size * sum(0.62 if each.isupper() else 0.25 if each in " .,:;'|il" else 0.498 for each in text)


def on_paper(drawing: Drawing, scale: float, system: System = "metric") -> tuple[Mark, ...]:
    """All marks of a drawing at a scale; fills lie undermost, letters on top."""
    factor = 1000.0 / scale
    marks: list[Mark] = []
    for element in drawing.elements:
        if not isinstance(element, Balloon):
            marks += _marks(element, factor, system)
    taken: list[Point] = []
    texts = [_box_of(mark) for mark in marks if isinstance(mark, Letters)]
    for element in drawing.elements:
        if isinstance(element, Balloon):
            marks += _balloon(element, factor, taken, texts)
    order = {Fill: 0, Stroke: 0, Ring: 1, Letters: 2}
    return tuple(sorted(marks, key=lambda mark: order[type(mark)]))


def extent(marks: Iterable[Mark]) -> tuple[float, float, float, float]:
    """Left, bottom, right, top of everything [mm]."""
    xs: list[float] = []
    ys: list[float] = []
    for mark in marks:
        for x, y in _corners(mark):
            xs.append(x)
            ys.append(y)
    if not xs:
        return 0.0, 0.0, 1.0, 1.0
    return min(xs), min(ys), max(xs), max(ys)


def _corners(mark: Mark) -> tuple[Point, ...]:
    if isinstance(mark, Stroke):
        return mark.points
    if isinstance(mark, Fill):
        return mark.outline
    if isinstance(mark, Ring):
        (x, y), r = mark.centre, mark.radius
        return ((x - r, y - r), (x + r, y + r))
    width = text_width(mark.text, mark.size)
    left = {"left": 0.0, "centre": -width / 2.0, "right": -width}[mark.across]
    low = {"bottom": 0.0, "middle": -mark.size / 2.0, "top": -mark.size}[mark.upward]
    cos, sin = math.cos(mark.angle), math.sin(mark.angle)
    return tuple(
        (mark.at[0] + x * cos - y * sin, mark.at[1] + x * sin + y * cos)
        for x in (left, left + width)
        for y in (low, low + mark.size)
    )


def _marks(element: Element, factor: float, system: System) -> list[Mark]:
    if isinstance(element, Line):
        points = (_at(element.start, factor), _at(element.end, factor))
        return [Stroke(points, element.layer, element.part, dashed=element.dashed)]
    if isinstance(element, Polyline):
        return [Stroke(tuple(_at(each, factor) for each in element.points), element.layer, element.part,
                       element.closed, element.dashed)]  # fmt: skip
    if isinstance(element, Circle):
        return [Ring(_at(element.centre, factor), element.radius * factor, element.layer, element.part,
                     element.dashed)]  # fmt: skip
    if isinstance(element, Arc):
        return [_arc(element, factor)]
    if isinstance(element, Hatch):
        return _hatch(element, factor)
    if isinstance(element, Dimension):
        return dimension_marks(element, factor, system)
    assert isinstance(element, Text)
    x, y = _at(element.at, factor)
    place = (x + 1000.0 * element.shift[0], y + 1000.0 * element.shift[1])
    return [Letters(place, element.text, 1000.0 * element.size, element.across, element.upward, element.angle,
                    element.layer, element.part, element.bold, element.bold)]  # fmt: skip


def _at(point: Point, factor: float) -> Point:
    return (point[0] * factor, point[1] * factor)


def _arc(arc: Arc, factor: float) -> Stroke:
    sweep = (arc.end - arc.start) % (2.0 * math.pi)
    steps = max(2, math.ceil(sweep / _ARC_STEP))
    angles = (arc.start + sweep * index / steps for index in range(steps + 1))
    points = tuple(
        _at((arc.centre[0] + arc.radius * math.cos(a), arc.centre[1] + arc.radius * math.sin(a)), factor)
        for a in angles
    )
    return Stroke(points, arc.layer, arc.part, dashed=arc.dashed)


def _hatch(hatch: Hatch, factor: float) -> list[Mark]:
    outline = tuple(_at(each, factor) for each in hatch.outline)
    holes = tuple(tuple(_at(each, factor) for each in hole) for hole in hatch.holes)
    marks: list[Mark] = []
    if hatch.tone:
        marks.append(Fill(outline, holes, hatch.tone, hatch.layer, hatch.part))
    if hatch.lines:
        marks += [Stroke(pair, "fills", hatch.part) for pair in slanted(outline, _LINE_SPACING)]
    return marks


def slanted(outline: tuple[Point, ...], spacing: float) -> list[tuple[Point, Point]]:
    """Lines at 45 degrees inside a closed outline."""
    turned = [((x - y), (x + y)) for x, y in outline]  # u is constant along a line, v runs with it
    low, high = min(u for u, _ in turned), max(u for u, _ in turned)
    step = spacing * math.sqrt(2.0)
    found = []
    for index in range(math.ceil(low / step), math.floor(high / step) + 1):
        u = index * step
        crossings = sorted(
            v0 + (v1 - v0) * (u - u0) / (u1 - u0)
            for (u0, v0), (u1, v1) in zip(turned, (*turned[1:], turned[0]), strict=True)
            if (u0 <= u) != (u1 <= u)
        )
        pairs = zip(crossings[::2], crossings[1::2], strict=False)
        found += [(((v0 + u) / 2.0, (v0 - u) / 2.0), ((v1 + u) / 2.0, (v1 - u) / 2.0)) for v0, v1 in pairs]
    return found


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


def dimension_marks(dimension: Dimension, factor: float, system: System) -> list[Mark]:
    """Dimension line with slanted ticks, extension lines and the length over it."""
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
    return [*marks, _number(dimension, c, d, system)]


def _number(dimension: Dimension, c: Point, d: Point, system: System) -> Letters:
    """Text over the middle of the line, read from below or from the right; under it where it does not fit."""
    size = 1000.0 * SMALL
    text = length_text(dimension.length, system)
    angle = math.atan2(d[1] - c[1], d[0] - c[0])
    if angle > math.pi / 2.0 + 1e-6 or angle <= -math.pi / 2.0 + 1e-6:
        angle += math.pi
    fits = text_width(text, size) < math.dist(c, d) - 1.4
    away = 0.55 if fits else -(0.9 + size * (1.0 + 1.05 * dimension.row))
    middle = ((c[0] + d[0]) / 2.0 - math.sin(angle) * away, (c[1] + d[1]) / 2.0 + math.cos(angle) * away)
    return Letters(middle, text, size, "centre", "bottom", angle % (2.0 * math.pi), dimension.layer, dimension.part,
                   covers=True)  # fmt: skip


def _box_of(letters: Letters) -> tuple[float, float, float, float]:
    """Left, bottom, right, top of a line of text [mm]."""
    xs, ys = zip(*_corners(letters), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _beside(place: Point, text: tuple[float, float, float, float]) -> bool:
    """Whether a balloon at a place covers no part of a text."""
    away = (max(text[0] - place[0], 0.0, place[0] - text[2]), max(text[1] - place[1], 0.0, place[1] - text[3]))
    return math.hypot(*away) > 0.9 * _BALLOON


def _balloon(
    balloon: Balloon, factor: float, taken: list[Point], texts: list[tuple[float, float, float, float]]
) -> list[Mark]:
    """Ring with its number on the first free place round the thing, tied to it where it had to move."""
    centre = _at(balloon.at, factor)
    apart = (each for each in _round(centre) if all(math.dist(each, other) > 2.15 * _BALLOON for other in taken))
    free = (each for each in apart if all(_beside(each, text) for text in texts))
    place = next(free, centre)
    taken.append(place)
    marks: list[Mark] = []
    gone = math.dist(place, centre)
    if gone > _BALLOON:
        edge = tuple(p + (q - p) * _BALLOON / gone for p, q in zip(place, centre, strict=True))
        marks.append(Stroke(((edge[0], edge[1]), centre), balloon.layer, balloon.part))
        if all(math.dist(centre, other) > _BALLOON for other in taken[:-1]):
            marks.append(Ring(centre, 0.4, balloon.layer, balloon.part))
    marks.append(Ring(place, _BALLOON, balloon.layer, balloon.part, covers=True))
    marks.append(Letters(place, balloon.text, 2.4, "centre", "middle", 0.0, balloon.layer, balloon.part))
    return marks


def _round(centre: Point) -> Iterable[Point]:
    yield centre
    for ring in range(1, 12):
        for index in range(8 * ring):
            angle = math.pi / 4.0 + 2.0 * math.pi * index / (8 * ring)
            yield (centre[0] + ring * 2.4 * math.cos(angle), centre[1] + ring * 2.4 * math.sin(angle))
