"""What a drawing is made of: frozen primitives in metres, each on the layer of a trade.

Places are true metres of the view. Sizes that a person reads on paper (text, the distance of a dimension line, a
balloon) are metres on paper: they stay the same at every scale.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

Point = tuple[float, float]
Axis = Literal["x", "y", "along"]
Across = Literal["left", "centre", "right"]
Upward = Literal["bottom", "middle", "top"]

SMALL, NORMAL, LARGE = 0.0025, 0.003, 0.0042  # m on paper, height of a line of text
FIRST_ROW, NEXT_ROW = 0.009, 0.0065  # m on paper, from the outline to the first dimension line, and to each next


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line."""

    start: Point
    end: Point
    layer: str
    part: str = ""
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Polyline:
    """Several straight lines in one, open or closed."""

    points: tuple[Point, ...]
    layer: str
    part: str = ""
    closed: bool = False
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle."""

    centre: Point
    radius: float
    layer: str
    part: str = ""
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Arc:
    """A part of a circle, anticlockwise from one angle to the other [rad]."""

    centre: Point
    radius: float
    start: float
    end: float
    layer: str
    part: str = ""
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Text:
    """A line of text; ``shift`` and ``size`` are metres on paper, ``angle`` [rad] turns it about its place."""

    at: Point
    text: str
    layer: str = "text"
    part: str = ""
    size: float = SMALL
    across: Across = "centre"
    upward: Upward = "middle"
    angle: float = 0.0
    shift: Point = (0.0, 0.0)
    bold: bool = False
    clear: bool = False  # with a margin of paper round the letters, as bold ones have


@dataclass(frozen=True, slots=True)
class Dimension:
    """A distance between two places, along x, along y or along their own line.

    The dimension line lies at ``level`` (the y of an x distance, the x of a y distance), moved by ``offset`` metres on
    paper; along their own line it is only moved, to the left of the way from start to end.
    """

    start: Point
    end: Point
    axis: Axis = "along"
    level: float = 0.0
    offset: float = FIRST_ROW
    row: int = 0  # where the text stands when it does not fit: 0 under the line, 1 one line lower
    layer: str = "dimensions"
    part: str = ""

    @property
    def length(self) -> float:
        """The distance shown [m]."""
        across, up = self.end[0] - self.start[0], self.end[1] - self.start[1]
        if self.axis == "x":
            return abs(across)
        return abs(up) if self.axis == "y" else (across * across + up * up) ** 0.5


@dataclass(frozen=True, slots=True)
class Hatch:
    """A filled shape with holes; ``tone`` names a colour of the table, ``lines`` draws slanted lines over it."""

    outline: tuple[Point, ...]
    layer: str
    part: str = ""
    tone: str = ""
    lines: bool = False
    holes: tuple[tuple[Point, ...], ...] = ()


@dataclass(frozen=True, slots=True)
class Balloon:
    """A number in a ring on the thing that it names, or ``beside`` it; moved aside where another one is."""

    at: Point
    text: str
    layer: str = "text"
    part: str = ""
    beside: bool = False


Element = Line | Polyline | Circle | Arc | Text | Dimension | Hatch | Balloon


@dataclass(frozen=True, slots=True)
class Drawing:
    """One view, true to size in metres; ``key`` explains its balloons. A diagram is not ``to_scale``."""

    name: str
    title: str
    seen: str
    elements: tuple[Element, ...]
    key: tuple[tuple[str, str], ...] = ()
    remarks: tuple[str, ...] = ()
    to_scale: bool = True


def box(low: Point, high: Point) -> tuple[Point, Point, Point, Point]:
    """Corners of an upright rectangle, anticlockwise.

    Examples
    --------
    >>> box((0.0, 0.0), (2.0, 1.0))
    ((0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (0.0, 1.0))
    """
    return (low, (high[0], low[1]), high, (low[0], high[1]))


def bare_size(elements: Iterable[Element]) -> Point:
    """Width and height of the lines and fills of a drawing, without texts and sizes [m].

    Examples
    --------
    >>> bare_size([Line((0.0, 0.0), (2.0, 0.0), "body"), Line((1.0, -1.0), (1.0, 0.5), "body")])
    (2.0, 1.5)
    """
    points: list[Point] = []
    for element in elements:
        if isinstance(element, Line):
            points += (element.start, element.end)
        elif isinstance(element, Polyline):
            points += element.points
        elif isinstance(element, Hatch):
            points += element.outline
    if not points:
        return 0.0, 0.0
    xs, ys = zip(*points, strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)


def area_of(outline: tuple[Point, ...]) -> float:
    """Area of a closed outline [m²].

    Examples
    --------
    >>> area_of(box((0.0, 0.0), (2.0, 1.0)))
    2.0
    """
    after = (*outline[1:], outline[0])
    return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(outline, after, strict=True))) / 2.0


def distinct(places: Iterable[float], least: float = 2e-4) -> tuple[float, ...]:
    """Places in rising order, those closer to the last one than a least distance left out.

    Examples
    --------
    >>> distinct((0.3, 0.1, 0.10005))
    (0.1, 0.3)
    """
    kept: list[float] = []
    for place in sorted(places):
        if not kept or place - kept[-1] > least:
            kept.append(place)
    return tuple(kept)


def chain(
    places: tuple[float, ...], axis: Axis, level: float, offset: float = FIRST_ROW, reach: float | None = None
) -> tuple[Dimension, ...]:
    """Dimensions from each place to the next along one axis; places closer than a tenth of a millimetre are one.

    ``reach`` is the coordinate from which the extension lines rise, ``level`` when left out.
    """
    apart = distinct(places)
    base = level if reach is None else reach
    found = []
    for index, (a, b) in enumerate(zip(apart, apart[1:], strict=False)):
        start, end = ((a, base), (b, base)) if axis == "x" else ((base, a), (base, b))
        found.append(Dimension(start, end, axis, level, offset, index % 2))
    return tuple(found)
