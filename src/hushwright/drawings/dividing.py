"""Where a plane is divided so that every piece fits on a sheet and no joint runs through or beside a hole."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise, product

from hushwright.drawings.primitives import Point

SHEET_LENGTH, SHEET_WIDTH = 2.44, 1.22  # m; common practice, no source: 8 ft by 4 ft, the smaller of the usual sheets
_BESIDE = 0.03  # m that a joint keeps from a hole; common practice, no source
_FURTHEST = 0.6  # m by which a joint is moved for that, at the most
_LEAST = 0.05  # m, the narrowest piece
_TOUCH = 1e-9  # m
_MOST_PLACES = 12  # for one line

Holes = Sequence[tuple[Point, ...]]


def divided(low: Point, high: Point, holes: Holes = (), *, staggered: bool = False) -> tuple[list[float], list[float]]:
    """Lines at which an upright rectangle is divided, its edges among them.

    Parameters
    ----------
    low, high : Point
        Corners of the rectangle [m].
    holes : sequence of outlines
        What joints keep clear of where they can.
    staggered : bool
        Whether joints lie half a piece on, as in every other layer.

    Returns
    -------
    tuple of two lists
        Lines across x and across y [m], in as few pieces as can be.

    Examples
    --------
    >>> divided((0.0, 0.0), (2.0, 2.0))
    ([0.0, 2.0], [0.0, 1.0, 2.0])
    """
    wide, high_ = high[0] - low[0], high[1] - low[1]
    ways = [(sheet, (_count(wide, sheet[0]), _count(high_, sheet[1])))
            for sheet in ((SHEET_LENGTH, SHEET_WIDTH), (SHEET_WIDTH, SHEET_LENGTH))]  # fmt: skip
    sheet, (across, up) = min(ways, key=lambda way: way[1][0] * way[1][1])
    xs = _lines(low[0], high[0], across, staggered)
    ys = _lines(low[1], high[1], up, staggered and across == 1)
    return (_clear(xs, [_span(hole, 0) for hole in holes], sheet[0]),
            _clear(ys, [_span(hole, 1) for hole in holes], sheet[1]))  # fmt: skip


def _count(length: float, sheet: float) -> int:
    return max(math.ceil(length / sheet - 1e-9), 1)


def _lines(low: float, high: float, count: int, staggered: bool) -> list[float]:
    step = (high - low) / count
    if count == 1 or not staggered:
        return [low + step * index for index in range(count + 1)]
    return [low, *(low + step * (index + 0.5) for index in range(count)), high]


def _span(hole: tuple[Point, ...], axis: int) -> tuple[float, float]:
    values = [point[axis] for point in hole]
    return min(values) - _BESIDE, max(values) + _BESIDE


def _clear(lines: list[float], spans: list[tuple[float, float]], sheet: float) -> list[float]:
    """Lines moved, all together as little as can be, to where none meets a hole and every piece fits on a sheet."""
    inner = lines[1:-1]
    if not inner or not any(low + _TOUCH < line < high - _TOUCH for low, high in spans for line in inner):
        return lines
    edges = [edge for span in spans for edge in span]
    edges += [edge + way for edge in edges for way in (-sheet, sheet)]
    choices = [_nearest_free(line, edges, spans) for line in inner]
    whole = [[lines[0], *places, lines[-1]] for places in product(*choices)]
    fits = [each for each in whole if all(_LEAST <= b - a <= sheet + _TOUCH for a, b in pairwise(each))]
    return min(fits, key=lambda each: sum(abs(a - b) for a, b in zip(each, lines, strict=True)), default=lines)


def _nearest_free(line: float, edges: list[float], spans: list[tuple[float, float]]) -> list[float]:
    """Places near a line at which no hole is, the nearest first."""
    free = [
        place
        for place in (line, *edges)
        if abs(place - line) <= _FURTHEST and not any(low + _TOUCH < place < high - _TOUCH for low, high in spans)
    ]
    return sorted(free, key=lambda place: abs(place - line))[:_MOST_PLACES]
