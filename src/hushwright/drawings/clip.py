"""What of a drawing lies in an upright window: lines are cut at its edges, words stay where their place is inside."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from hushwright.drawings.primitives import Arc, Circle, Dimension, Element, Hatch, Line, Point, Polyline, Text

_STEPS = 180  # straight pieces of a whole circle that is cut


def clipped(elements: Iterable[Element], low: Point, high: Point) -> Iterator[Element]:
    """Elements inside a window; of circles and outlines that cross its edge the pieces inside."""
    for element in elements:
        if isinstance(element, Line):
            cut = cut_in_window(element.start, element.end, low, high)
            if cut is not None:
                yield Line(*cut, element.layer, element.part, element.dashed)
        elif isinstance(element, Polyline):
            closing = (element.points[0],) if element.closed else ()
            yield from _chain((*element.points, *closing), low, high, element.layer, element.part)
        elif isinstance(element, Circle):
            yield from _circle(element, low, high)
        elif isinstance(element, Arc | Hatch):
            continue
        elif isinstance(element, Dimension):
            if _within(element.start, low, high) and _within(element.end, low, high):
                yield element
        elif isinstance(element, Text):
            if _within(element.at, low, high):
                yield element
        elif _within(element.at, low, high):
            yield element


def _within(point: Point, low: Point, high: Point) -> bool:
    return low[0] <= point[0] <= high[0] and low[1] <= point[1] <= high[1]


def _circle(circle: Circle, low: Point, high: Point) -> Iterator[Element]:
    (x, y), r = circle.centre, circle.radius
    if all(_within(each, low, high) for each in ((x - r, y - r), (x + r, y + r))):
        yield circle
        return
    angles = (2.0 * math.pi * index / _STEPS for index in range(_STEPS + 1))
    points = tuple((x + r * math.cos(angle), y + r * math.sin(angle)) for angle in angles)
    yield from _chain(points, low, high, circle.layer, circle.part)


def _chain(points: tuple[Point, ...], low: Point, high: Point, layer: str, part: str) -> Iterator[Element]:
    """Pieces of a line of several corners, joined as long as it stays inside."""
    run: list[Point] = []
    for a, b in zip(points, points[1:], strict=False):
        cut = cut_in_window(a, b, low, high)
        if cut is None or (run and math.dist(run[-1], cut[0]) > 1e-9):
            if len(run) > 1:
                yield Polyline(tuple(run), layer, part)
            run = []
        if cut is not None:
            run = [*run, cut[1]] if run else [*cut]
    if len(run) > 1:
        yield Polyline(tuple(run), layer, part)


def cut_in_window(a: Point, b: Point, low: Point, high: Point) -> tuple[Point, Point] | None:
    """A straight line cut at the edges of a window (Liang and Barsky 1984); `None` outside.

    Examples
    --------
    >>> cut_in_window((-1.0, 0.5), (2.0, 0.5), (0.0, 0.0), (1.0, 1.0))
    ((0.0, 0.5), (1.0, 0.5))
    """
    run = (b[0] - a[0], b[1] - a[1])
    first, last = 0.0, 1.0
    for axis in (0, 1):
        for edge, sign in ((low[axis], -1.0), (high[axis], 1.0)):
            slope, room = sign * run[axis], sign * (edge - a[axis])
            if slope == 0.0:
                if room < 0.0:
                    return None
                continue
            at = room / slope
            first, last = (max(first, at), last) if slope < 0.0 else (first, min(last, at))
    if first >= last:
        return None
    return (a[0] + first * run[0], a[1] + first * run[1]), (a[0] + last * run[0], a[1] + last * run[1])
