"""Curves over bands as typst source: axis, grid, lines, bands of uncertainty, each line told apart without colour."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from hushwright.drawings.typeset import literal
from hushwright.report.papers.blocks import Chart, Curve

_WIDE, _HIGH = 150.0, 55.0  # mm
_STEPS: Final = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0)
_COLOURS: Final = ("#1f4e79", "#a8322a", "#2b6e4f", "#7a5195", "#9a6400", "#20262b")
_DASHES: Final = ("none", "(3mm, 1mm)", "(1mm, 1mm)", "(3mm, 1mm, 0.6mm, 1mm)", "(5mm, 1.5mm)", "(0.6mm, 0.6mm)")
_MOST = 9  # names along the axis


def chart_source(chart: Chart) -> str:
    """Source of a chart with its key; nothing where no curve has a value."""
    values = [each for curve in chart.curves for each in _reach(curve) if each is not None and math.isfinite(each)]
    if not values:
        return ""
    low, high, step = _scale(min(values), max(values))
    parts = [*_grid(chart, low, high, step)]
    for number, curve in enumerate(chart.curves):
        parts += _line(curve, number, low, high)
    head = (
        f'#block(sticky: true, below: 1mm, text(weight: "bold", {literal(chart.heading)}))\n' if chart.heading else ""
    )
    return (
        f"#block(breakable: false, above: 4mm, below: 4mm)[{head}#block(width: {_WIDE + 16}mm, height: {_HIGH + 9}mm,"
        f" above: 6.5mm)[{''.join(parts)}]\n{_key(chart.curves)}]"
    )


def _reach(curve: Curve) -> list[float | None]:
    spread = curve.spread or (0.0,) * len(curve.values)
    found: list[float | None] = []
    for value, u in zip(curve.values, spread, strict=True):
        found += [None] if value is None else [value - u, value + u]
    return found


def _scale(low: float, high: float) -> tuple[float, float, float]:
    step = next((each for each in _STEPS if (high - low) / each <= 7.0), _STEPS[-1])
    return step * math.floor(low / step), step * math.ceil(high / step + 1e-9), step


def _x(at: int, count: int) -> float:
    return 12.0 + _WIDE * (at / max(count - 1, 1))


def _y(value: float, low: float, high: float) -> float:
    return _HIGH * (1.0 - (value - low) / ((high - low) or 1.0))


def _grid(chart: Chart, low: float, high: float, step: float) -> list[str]:
    count = len(chart.axis)
    found = []
    for number in range(round((high - low) / step) + 1):
        value = low + number * step
        y = _y(value, low, high)
        found.append(f'#place(dx: 12mm, dy: {y:.2f}mm, line(length: {_WIDE}mm, stroke: 0.1mm + rgb("#c4cacf")))\n')
        found.append(_label(f"{value:g}", 0.0, y - 1.6, 10.5, "right"))
    every = max(1, math.ceil(count / _MOST))
    for at in range(0, count, every):
        found.append(_label(chart.axis[at], _x(at, count) - 8.0, _HIGH + 1.5, 16.0, "center"))
    found.append(_label(f"[{chart.unit}]", 0.0, -5.0, 20.0, "left"))
    found.append(_label(f"[{chart.along}]", _WIDE - 8.0, _HIGH + 5.0, 20.0, "right"))
    return found


def _label(words: str, x: float, y: float, width: float, side: str) -> str:
    body = f"text(size: 7pt, {literal(words)})"
    return f"#place(dx: {x:.2f}mm, dy: {y:.2f}mm, box(width: {width}mm, align({side}, {body})))\n"


def _line(curve: Curve, number: int, low: float, high: float) -> list[str]:
    count = len(curve.values)
    colour = _COLOURS[number % len(_COLOURS)]
    found = []
    if curve.spread:
        for run in _runs(curve.values):
            ring = [(at, value + curve.spread[at]) for at, value in run]
            ring += [(at, value - curve.spread[at]) for at, value in reversed(run)]
            points = ", ".join(f"({_x(at, count):.2f}mm, {_y(value, low, high):.2f}mm)" for at, value in ring)
            found.append(f'#place(polygon(fill: rgb("{colour}22"), {points}))\n')
    for run in _runs(curve.values):
        steps = [f"curve.{'line' if number_ else 'move'}(({_x(at, count):.2f}mm, {_y(value, low, high):.2f}mm))"
                 for number_, (at, value) in enumerate(run)]  # fmt: skip
        found.append(f'#place(curve(stroke: (paint: rgb("{colour}"), thickness: 0.5mm, dash: {_DASHES[number % 6]}),'
                     f" {', '.join(steps)}))\n")  # fmt: skip
    return found


def _runs(values: Sequence[float | None]) -> list[list[tuple[int, float]]]:
    """Unbroken parts of a curve of at least two points."""
    runs: list[list[tuple[int, float]]] = [[]]
    for at, value in enumerate(values):
        if value is None:
            runs.append([])
        else:
            runs[-1].append((at, value))
    return [run for run in runs if len(run) > 1]


def _key(curves: Sequence[Curve]) -> str:
    cells = "".join(
        f'box(line(length: 9mm, stroke: (paint: rgb("{_COLOURS[at % 6]}"), thickness: 0.5mm,'
        f" dash: {_DASHES[at % 6]}))),"
        f" text(size: 8pt, {literal(curve.name + (' (band: ±2u)' if curve.spread else ''), breakable=True)}),"
        for at, curve in enumerate(curves)
    )
    return f"#grid(columns: (11mm, 1fr, 11mm, 1fr), row-gutter: 1.4mm, align: horizon, {cells})"
