"""Marks on paper: strokes, rings, fills and lines of text, in millimetres, x to the right and y upward."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from hushwright.drawings.primitives import Across, Point, Upward

Box = tuple[float, float, float, float]
"""Left, bottom, right, top [mm]."""


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

_WIDTHS: Final = {
    each: width for letters, width in (
        (" ',.:;ijl|", 0.24), ("!()-[]f{}tIr", 0.31), ("/²³°", 0.36), ("\"*?szcx", 0.44), ("FJLYkvy–", 0.48),
        ("#$+0123456789<=>VX^_aeg~×", 0.498), ("AESTZ`bhnou", 0.54), ("CKPRdpqµ", 0.57), ("&BD", 0.60),
        ("GHNOQUΩ", 0.66), ("Mw", 0.72), ("W%@m", 0.81), ("…", 0.96),
    ) for each in letters
}  # fmt: skip
"""Width of a letter as a share of its size, as the text font has it."""
_BOLD: Final = 1.06  # wider than plain, as the same font has it


@lru_cache(maxsize=4096)
def text_width(text: str, size: float) -> float:
    """Width of a line of text in the unit of its size: of the letters of the text font, to a few percent.

    Examples
    --------
    >>> round(text_width("1582", 2.5), 2), round(text_width("window", 2.5), 2)
    (4.98, 8.32)
    """
    return size * sum(_WIDTHS.get(each, 0.62 if each.isupper() else 0.52) for each in text)


def extent(marks: Iterable[Mark]) -> tuple[float, float, float, float]:
    """Left, bottom, right, top of everything [mm]."""
    xs: list[float] = []
    ys: list[float] = []
    for mark in marks:
        for x, y in corners(mark):
            xs.append(x)
            ys.append(y)
    if not xs:
        return 0.0, 0.0, 1.0, 1.0
    return min(xs), min(ys), max(xs), max(ys)


def corners(mark: Mark) -> tuple[Point, ...]:
    """Points between which a mark lies [mm]."""
    if isinstance(mark, Stroke):
        return mark.points
    if isinstance(mark, Fill):
        return mark.outline
    if isinstance(mark, Ring):
        (x, y), r = mark.centre, mark.radius
        return ((x - r, y - r), (x + r, y + r))
    width = text_width(mark.text, mark.size) * (_BOLD if mark.bold else 1.0)
    left = {"left": 0.0, "centre": -width / 2.0, "right": -width}[mark.across]
    low = {"bottom": 0.0, "middle": -mark.size / 2.0, "top": -mark.size}[mark.upward]
    cos, sin = math.cos(mark.angle), math.sin(mark.angle)
    return tuple(
        (mark.at[0] + x * cos - y * sin, mark.at[1] + x * sin + y * cos)
        for x in (left, left + width)
        for y in (low, low + mark.size)
    )


def apart(one: Box, other: Box, least: float = 0.0) -> bool:
    """Whether two boxes are at least a distance apart [mm], beside or above each other; below zero they may overlap.

    Examples
    --------
    >>> apart((0.0, 0.0, 2.0, 1.0), (2.5, 0.0, 3.0, 1.0), 0.4), apart((0.0, 0.0, 2.0, 1.0), (1.0, 0.5, 3.0, 2.0))
    (True, False)
    """
    across = max(other[0] - one[2], one[0] - other[2])
    up = max(other[1] - one[3], one[1] - other[3])
    return max(across, up) >= least
