"""Cross-sections: polygons of (y, z), and what remains of one after the build-ups."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hushwright.errors import InvalidInput

Point = tuple[float, float]
_LEAST_HALF_WIDTH = 0.1  # m, under which a body is none
LEAST_HEIGHT = 0.2  # m between floor and ceiling, under which nothing is a room
_LEAST_RUN = 1e-6  # m, heights closer than this are one


@dataclass(frozen=True, slots=True)
class Section:
    """A closed cross-section: floor line, left and right side from floor to ceiling, ceiling line.

    ``left`` and ``right`` are polylines of (y, z) from the floor up; left has y > 0.
    """

    left: tuple[Point, ...]
    right: tuple[Point, ...]

    @property
    def polygon(self) -> tuple[Point, ...]:
        """Corners, anticlockwise seen from behind, starting at the right foot."""
        return (*self.right[:1], *self.left, *reversed(self.right[1:]))

    @property
    def floor_height(self) -> float:
        """Height of the finished floor [m]."""
        return self.left[0][1]

    @property
    def ceiling_height(self) -> float:
        """Height of the finished ceiling [m]."""
        return self.left[-1][1]

    @property
    def height(self) -> float:
        """Finished floor to finished ceiling [m]."""
        return self.ceiling_height - self.floor_height

    @property
    def area(self) -> float:
        """Area [m²]."""
        corners = self.polygon
        twice = sum(y0 * z1 - y1 * z0 for (y0, z0), (y1, z1) in zip(corners, (*corners[1:], corners[0]), strict=True))
        return abs(twice) / 2.0

    @property
    def floor_width(self) -> float:
        """Width at the floor [m]."""
        return self.left[0][0] - self.right[0][0]

    @property
    def ceiling_width(self) -> float:
        """Width at the ceiling [m]."""
        return self.left[-1][0] - self.right[-1][0]

    def side_length(self, side: str) -> float:
        """Developed height of a side, floor to ceiling [m]."""
        line = self.left if side == "left" else self.right
        return sum(math.dist(a, b) for a, b in zip(line, line[1:], strict=False))

    def half_width_at(self, side: str, height: float) -> float:
        """Distance of a side from the centre line at a height [m]."""
        line = self.left if side == "left" else self.right
        return abs(_y_at(line, height))

    def width_at(self, height: float) -> float:
        """Clear width at a height [m]."""
        return self.half_width_at("left", height) + self.half_width_at("right", height)

    def height_within(self, half_width: float) -> float:
        """Largest headroom that holds over the whole band of ± half_width round the centre line [m]."""
        top = self.ceiling_height
        for line in (self.left, self.right):
            for height in _heights_where(line, half_width):
                if height > self.floor_height + 0.5 * self.height:
                    top = min(top, height)
        return top - self.floor_height


def _y_at(line: tuple[Point, ...], height: float) -> float:
    for (y0, z0), (y1, z1) in zip(line, line[1:], strict=False):
        if z0 <= height <= z1 and z1 > z0:
            return y0 + (y1 - y0) * (height - z0) / (z1 - z0)
    return line[0][0] if height < line[0][1] else line[-1][0]


def _heights_where(line: tuple[Point, ...], half_width: float) -> list[float]:
    found = []
    for (y0, z0), (y1, z1) in zip(line, line[1:], strict=False):
        low, high = sorted((abs(y0), abs(y1)))
        if low <= half_width <= high and abs(y1 - y0) > 1e-12:
            found.append(z0 + (z1 - z0) * (half_width - abs(y0)) / (abs(y1) - abs(y0)))
    return found


def body_section(widths: tuple[tuple[float, float], ...], top: float) -> Section:
    """Section of the bare body from (height, width) pairs up to a height.

    Parameters
    ----------
    widths : tuple of (height, width)
        Heights over the steel floor [m] and widths there [m], lowest first.
    top : float
        Height at which the section ends [m]; beyond the last pair the last slope goes on.

    Returns
    -------
    Section
        The section.

    Raises
    ------
    InvalidInput
        If fewer than two pairs are given, heights do not rise, or the section closes below ``top``.

    Examples
    --------
    >>> body_section(((0.0, 1.8), (2.0, 1.6)), 2.0).area
    3.4
    """
    if len(widths) < 2 or top <= _LEAST_RUN:
        raise InvalidInput(f"{len(widths)} widths given up to {top} m; a section needs at least two heights")
    heights = [height for height, _ in widths]
    if any(b <= a for a, b in zip(heights, heights[1:], strict=False)):
        raise InvalidInput(f"heights {heights} m do not rise")
    below = [(0.0, widths[0][1]), *widths] if heights[0] > 0.0 else list(widths)
    half = [(height, width / 2.0) for height, width in below]
    first = next((index for index, pair in enumerate(half) if pair[0] >= top), len(half) - 1)
    before, last = half[first - 1], half[first]
    slope = (last[1] - before[1]) / (last[0] - before[0])
    end = last[1] + slope * (top - last[0])
    if end <= _LEAST_HALF_WIDTH:
        raise InvalidInput(f"the section is only {2 * end:.3f} m wide at {top:.3f} m")
    line = [*(pair for pair in half if pair[0] < top - _LEAST_RUN), (top, end)]
    return Section(
        left=tuple((y, z) for z, y in line),
        right=tuple((-y, z) for z, y in line),
    )


def shrunk(body: Section, left: float, right: float, floor: float, ceiling_height: float) -> Section:
    """What remains of a section inside build-ups of given thickness.

    Parameters
    ----------
    body : Section
        The bare section.
    left, right : float
        Thickness of the side build-ups, square to the wall [m].
    floor : float
        Height of the finished floor [m].
    ceiling_height : float
        Height of the finished ceiling [m].

    Returns
    -------
    Section
        The finished section.

    Raises
    ------
    InvalidInput
        If nothing remains.

    Examples
    --------
    >>> inside = shrunk(body_section(((0.0, 1.8), (2.0, 1.8)), 2.0), 0.1, 0.1, 0.1, 1.9)
    >>> round(inside.floor_width, 3), round(inside.height, 3)
    (1.6, 1.8)
    """
    if ceiling_height - floor < LEAST_HEIGHT:
        raise InvalidInput(f"only {ceiling_height - floor:.3f} m of height remain between floor and ceiling")
    lines = [_offset(line, thickness, sign) for line, thickness, sign in
             ((body.left, left, 1.0), (body.right, right, -1.0))]  # fmt: skip
    cut = [_between(line, floor, ceiling_height) for line in lines]
    if min(a[0] - b[0] for a in cut[0] for b in cut[1]) < 0.2:
        raise InvalidInput(f"less than 0.2 m of width remain inside build-ups of {left:.3f} m and {right:.3f} m")
    return Section(left=cut[0], right=cut[1])


def _offset(line: tuple[Point, ...], thickness: float, sign: float) -> tuple[Point, ...]:
    """Move a side inwards, square to each of its segments, corners mitred."""
    moved = []
    for (y0, z0), (y1, z1) in zip(line, line[1:], strict=False):
        run = math.hypot(y1 - y0, z1 - z0)
        dy, dz = -sign * (z1 - z0) / run * thickness, sign * (y1 - y0) / run * thickness
        moved.append(((y0 + dy, z0 + dz), (y1 + dy, z1 + dz)))
    points = [moved[0][0]]
    points += [_meet(a, b) for a, b in zip(moved, moved[1:], strict=False)]
    return (*points, moved[-1][1])


def _meet(first: tuple[Point, Point], second: tuple[Point, Point]) -> Point:
    (y1, z1), (y2, z2) = first
    (y3, z3), (y4, z4) = second
    cross = (y1 - y2) * (z3 - z4) - (z1 - z2) * (y3 - y4)
    if abs(cross) < 1e-12:
        return (y2, z2)
    a, b = y1 * z2 - z1 * y2, y3 * z4 - z3 * y4
    return ((a * (y3 - y4) - (y1 - y2) * b) / cross, (a * (z3 - z4) - (z1 - z2) * b) / cross)


def _between(line: tuple[Point, ...], low: float, high: float) -> tuple[Point, ...]:
    """Cut a side to heights low..high; beyond its ends the last slope goes on."""
    stretched = [_on_line(line[0], line[1], low)] if line[0][1] > low else []
    stretched += list(line)
    if line[-1][1] < high:
        stretched.append(_on_line(line[-2], line[-1], high))
    whole = tuple(stretched)
    inner = [point for point in whole if low < point[1] < high]
    return ((_y_at(whole, low), low), *inner, (_y_at(whole, high), high))


def _on_line(a: Point, b: Point, height: float) -> Point:
    share = (height - a[1]) / (b[1] - a[1])
    return (a[0] + share * (b[0] - a[0]), height)
