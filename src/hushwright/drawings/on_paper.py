"""A drawing at a scale: what is written on paper gets its place, and everything becomes strokes, fills and letters.

Marks are in millimetres on paper, x to the right and y upward, from the same origin as the drawing.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from hushwright.drawings.dimensions import dimensions_on_paper
from hushwright.drawings.marks import Box, Fill, Letters, Mark, Ring, Stroke, extent
from hushwright.drawings.primitives import (
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
)
from hushwright.units import System

_BALLOON = 2.3  # mm on paper, radius
_LINE_SPACING = 2.2  # mm between slanted lines of a fill
_ARC_STEP = math.radians(6.0)


def on_paper(drawing: Drawing, scale: float, system: System = "metric") -> tuple[Mark, ...]:
    """All marks of a drawing at a scale; fills lie undermost, letters on top."""
    factor = 1000.0 / scale
    marks: list[Mark] = []
    for element in drawing.elements:
        if not isinstance(element, Balloon | Dimension):
            marks += _marks(element, factor)
    dimensions = [element for element in drawing.elements if isinstance(element, Dimension)]
    marks += dimensions_on_paper(dimensions, factor, system, _boxes(marks))
    taken: list[Point] = []
    texts = _boxes(marks)
    for element in drawing.elements:
        if isinstance(element, Balloon):
            marks += _balloon(element, factor, taken, texts)
    order = {Fill: 0, Stroke: 0, Ring: 1, Letters: 2}
    return tuple(sorted(marks, key=lambda mark: order[type(mark)]))


def _boxes(marks: Iterable[Mark]) -> list[Box]:
    return [extent([mark]) for mark in marks if isinstance(mark, Letters)]


def _marks(element: Element, factor: float) -> list[Mark]:
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
    assert isinstance(element, Text)
    x, y = _at(element.at, factor)
    place = (x + 1000.0 * element.shift[0], y + 1000.0 * element.shift[1])
    return [Letters(place, element.text, 1000.0 * element.size, element.across, element.upward, element.angle,
                    element.layer, element.part, element.bold, element.bold or element.clear)]  # fmt: skip


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


def _beside(place: Point, text: Box) -> bool:
    """Whether a balloon at a place covers no part of a text."""
    away = (max(text[0] - place[0], 0.0, place[0] - text[2]), max(text[1] - place[1], 0.0, place[1] - text[3]))
    return math.hypot(*away) > 0.9 * _BALLOON


def _balloon(balloon: Balloon, factor: float, taken: list[Point], texts: list[Box]) -> list[Mark]:
    """Ring with its number on the first free place round the thing, tied to it where it had to move."""
    centre = _at(balloon.at, factor)
    apart = (each for each in _round(centre) if all(math.dist(each, other) > 2.15 * _BALLOON for other in taken))
    if balloon.beside:
        apart = (each for each in apart if math.dist(each, centre) > 2.0 * _BALLOON)
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
