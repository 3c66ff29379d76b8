"""Signs and words on the lines of a single-line diagram: isolator, fuse, residual-current device, what it is of."""

from __future__ import annotations

from collections.abc import Sequence

from hushwright.drawings.electrical import length_with_unit
from hushwright.drawings.geometry import spoken
from hushwright.drawings.marks import text_width
from hushwright.drawings.primitives import (
    SMALL,
    Circle,
    Element,
    Hatch,
    Line,
    Point,
    Polyline,
    Text,
    box,
)
from hushwright.drawings.single_line_ways import Way
from hushwright.evaluation.results.wiring import CircuitResult
from hushwright.units import System

_CLEAR = 0.0025  # m on paper from an upright line to the signs beside it
_ISOLATOR, _FUSE, _RING, _NEXT = 0.0034, 0.005, 0.0012, 0.0016  # m on paper: lengths of signs, radius, between them
_WORDS, _LEAST = 0.77 * SMALL, 0.8  # and how much smaller a long name may stand

Upright = tuple[float, float, float]
"""An upright line: where, from and to which height."""


def free_place(way: Way, uprights: Sequence[Upright], across: float) -> tuple[Point, float]:
    """Where signs and words stand on a way: between two columns, where no upright line passes."""
    x, y = way.signs
    level = [end[0] for pair in zip(way.points, way.points[1:], strict=False) for end in pair
             if pair[0][1] == pair[1][1] == y]  # fmt: skip
    while x + way.room < max(level, default=x):
        reach = (x + 1e-6, x + way.room)
        if not any(reach[0] < at < reach[1] and low - 0.004 < y < high + 0.004 for at, low, high in uprights):
            return (x, y), way.room
        x += across
    return way.signs, way.room


def signs_of(circuit: CircuitResult, run: Point, room: float, system: System) -> list[Element]:
    """Isolator, fuse and residual-current device on a level line, name over it and what it is of below."""
    layer, name = "power", circuit.name
    x, y = run
    found: list[Element] = []
    at = x + _CLEAR
    if circuit.isolator:
        found += [Hatch(box((at, y - 0.0004), (at + _ISOLATOR, y + 0.0004)), layer, name, "paper"),
                  Line((at, y), (at + _ISOLATOR, y + 0.0017), layer, name)]  # fmt: skip
        at += _ISOLATOR + _NEXT
    if circuit.fuse is not None:
        corners = box((at, y - 0.001), (at + _FUSE, y + 0.001))
        found += [Hatch(corners, layer, name, "paper"), Polyline(corners, layer, name, closed=True),
                  Line((at, y), (at + _FUSE, y), layer, name)]  # fmt: skip
        at += _FUSE + _NEXT
    if circuit.residual is not None:
        found.append(Circle((at + _RING, y), _RING, layer, name))
    size = _WORDS * max(_LEAST, min(1.0, (room - 0.0012) / max(text_width(spoken(circuit.name), _WORDS), 1e-9)))
    title = _fitting(spoken(circuit.name), room, size)
    over = 0.0024 if circuit.isolator else 0.0015
    found.append(Text(run, title, part=name, size=size, across="left", upward="bottom", shift=(0.0012, over)))
    for at_line, text in enumerate(_lines(circuit, room, system)):
        down = -(0.0016 + 1.15 * _WORDS * at_line)
        found.append(Text(run, text, part=name, size=_WORDS, across="left", upward="top", shift=(0.0012, down)))
    return found


def _lines(circuit: CircuitResult, room: float, system: System) -> list[str]:
    """What a circuit is of, in as many lines as its room asks for."""
    gauged = system == "us" and circuit.gauge
    parts = [circuit.gauge if gauged else circuit.conductor, length_with_unit(circuit.length, system)]
    if circuit.fuse is not None:
        parts.append(f"{circuit.fuse:g} A")
    if circuit.residual is not None:
        parts.append(f"{1000 * circuit.residual[0]:.0f} mA {circuit.residual[1]}")
    lines: list[str] = []
    for part in parts:
        longer = f"{lines[-1]}, {part}" if lines else part
        if lines and text_width(longer, _WORDS) <= room - 0.0012:
            lines[-1] = longer
        else:
            lines.append(part)
    return lines


def _fitting(text: str, room: float, size: float) -> str:
    """Text cut to the letters that its room has."""
    most = len(text)
    while most > 4 and text_width(short(text, most), size) > room - 0.0012 + 1e-9:
        most -= 1
    return short(text, most)


def short(text: str, most: int) -> str:
    """Text of at most so many letters."""
    return text if len(text) <= most else text[: most - 1] + "…"
