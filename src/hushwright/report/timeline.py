"""The session over time: tables and charts for a terminal, and a table for spreadsheets."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from hushwright.evaluation.results import Evaluation
from hushwright.report.csv_out import csv_text
from hushwright.report.labels import heading as words
from hushwright.report.labels import label
from hushwright.report.layout import heading, table, wrapped
from hushwright.report.timeline_columns import THE_VAN, Column, Moments, NotComputed, columns_of, moments_of
from hushwright.units import System

_ROWS: Final = 26
"""Most rows of a table beside those at which a phase begins."""

_STEPS: Final = (1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 240.0)  # min
_MINUTE = 60.0
_WIDE, _HIGH = 72, 8
_MARKS: Final = "ox+*#%&@"
_NOTHING = "·"


def timeline_text(evaluation: Evaluation, system: System) -> str:
    """Tables of every room, charts, and what is not computed.

    Parameters
    ----------
    evaluation
        What was computed.
    system
        ``metric`` or ``us``.
    """
    build = evaluation.build
    named = ", ".join(text for text in (build.title, build.document.root.date) if text)
    lines = wrapped(f"{named} [{build.file}]" if named else build.file, hanging=2)
    moments = moments_of(evaluation)
    if moments is None:
        return "\n".join([*lines, *heading(words("timeline")), f"  {label('not_computed')}: {_NO_SESSION}"])
    columns, missing = columns_of(evaluation, moments, system)
    lines += heading(words("timeline")) + _phases(evaluation, moments)
    for part in dict.fromkeys(column.part for column in columns):
        here = [column for column in columns if column.part == part]
        lines += ["", f"  {part.replace('_', ' ') if part != THE_VAN else part}", *_table(moments, here)]
    lines += _charts(moments, columns) + _missing(missing) + _notes(evaluation, columns)
    return "\n".join(lines)


_NO_SESSION = "the file names no session and no state"


def timeline_csv(evaluation: Evaluation, system: System) -> str:
    """One row a minute, one column a quantity and room; empty where nothing is computed.

    Parameters
    ----------
    evaluation
        What was computed.
    system
        ``metric`` or ``us``.
    """
    moments = moments_of(evaluation)
    if moments is None:
        return csv_text([("time [min]", label("state"))])
    columns, _ = columns_of(evaluation, moments, system)
    names = [f"{column.part} {column.name}" + (f" [{column.unit}]" if column.unit else "") for column in columns]
    rows: list[tuple[str | float | None, ...]] = [("time [min]", label("state"), *names)]
    for index, (time, state) in enumerate(zip(moments.times, moments.states, strict=True)):
        values = (column.values[index] for column in columns)
        rounded = (None if each is None else round(each, 2) for each in values)
        rows.append((round(time / _MINUTE, 2), state, *rounded))
    return csv_text(rows)


def _phases(evaluation: Evaluation, moments: Moments) -> list[str]:
    told = ", ".join(f"{state} {(end - begin) / _MINUTE:.0f} min" for state, begin, end in moments.phases)
    climate = evaluation.build.climate
    if climate is not None:
        begins = round(climate.session_begins / _MINUTE)
        told += f"; from {begins // 60}:{begins % 60:02d} by the sun"
    return wrapped(told, indent=2, hanging=4)


def _table(moments: Moments, columns: Sequence[Column]) -> list[str]:
    rows = [("min", label("state"), *(column.name for column in columns)),
            ("", "", *(f"[{column.unit}]" if column.unit else "" for column in columns))]  # fmt: skip
    before = ""
    for index in _shown(moments):
        state = moments.states[index]
        begins = any(begin == moments.times[index] for _, begin, _ in moments.phases)
        rows.append((f"{moments.times[index] / _MINUTE:.0f}", state if begins or state != before else "",
                     *(_cell(column, index) for column in columns)))  # fmt: skip
        before = state
    return table(rows, indent=4, right=(0, *range(2, len(columns) + 2)))


def _cell(column: Column, index: int) -> str:
    value = column.values[index]
    return _NOTHING if value is None else f"{value:.{column.digits}f}".replace("-", "−")


def _shown(moments: Moments) -> list[int]:
    """Rows of the table: an even step, and where phases begin and the session ends."""
    end = moments.times[-1]
    step = next((each for each in _STEPS if end / _MINUTE / each <= _ROWS), _STEPS[-1]) * _MINUTE
    marks = {0.0, end, *(begin for _, begin, _ in moments.phases)}
    return [index for index, time in enumerate(moments.times) if time in marks or time % step == 0.0]


def _charts(moments: Moments, columns: Sequence[Column]) -> list[str]:
    lines: list[str] = []
    for name in dict.fromkeys(column.chart for column in columns if column.chart):
        drawn = [column for column in columns if column.chart == name and any(v is not None for v in column.values)]
        if drawn:
            lines += ["", *_chart(name, drawn, moments)]
    return lines


def _chart(name: str, columns: Sequence[Column], moments: Moments) -> list[str]:
    """Values over time, a mark a room; where two fall on one place the first is seen."""
    values = [value for column in columns for value in column.values if value is not None]
    low, high = min(values), max(values)
    if high - low < 1.0:
        low, high = low - 0.5, high + 0.5
    grid = [[" "] * _WIDE for _ in range(_HIGH)]
    for mark, column in reversed(list(zip(_MARKS, columns, strict=False))):
        for across, index in enumerate(_sampled(moments)):
            value = column.values[index]
            if value is not None:
                grid[round((high - value) / (high - low) * (_HIGH - 1))][across] = mark
    told = ", ".join(f"{mark} {column.part.replace('_', ' ')}" for mark, column in zip(_MARKS, columns, strict=False))
    scale = {0: high, (_HIGH - 1) // 2: high - (high - low) * ((_HIGH - 1) // 2) / (_HIGH - 1), _HIGH - 1: low}
    digits = 0 if high - low >= 20.0 else 1
    names = {row: f"{value:.{digits}f}".replace("-", "−") for row, value in scale.items()}
    lines = [f"  {name} [{columns[0].unit}]   {told}"]
    lines += [f"  {names.get(row, ''):>8} │{''.join(cells).rstrip()}" for row, cells in enumerate(grid)]
    return [*lines, f"  {'':>8} └{'─' * _WIDE}", *_axis(moments)]


def _sampled(moments: Moments) -> list[int]:
    """Moment of each place across the chart."""
    last = len(moments.times) - 1
    return [round(across * last / (_WIDE - 1)) for across in range(_WIDE)]


def _axis(moments: Moments) -> list[str]:
    """Minutes and states under a chart, each where its phase begins."""
    end = moments.times[-1]
    minutes, states = [" "] * (_WIDE + 8), [" "] * (_WIDE + 8)
    for state, begin, _ in moments.phases:
        _put(minutes, round(begin / end * (_WIDE - 1)), f"{begin / _MINUTE:.0f}")
        _put(states, round(begin / end * (_WIDE - 1)), state)
    _put(minutes, _WIDE - 1, f"{end / _MINUTE:.0f} min")
    lead = " " * 12
    return [lead + "".join(minutes).rstrip(), lead + "".join(states).rstrip()]


def _put(line: list[str], at: int, text: str) -> None:
    """Write a text unless one stands there; cut where the line ends."""
    if any(cell != " " for cell in line[max(at - 1, 0) : at + 1]):
        return
    for offset, letter in enumerate(text[: len(line) - at]):
        line[at + offset] = letter


def _missing(missing: Sequence[NotComputed]) -> list[str]:
    lines: list[str] = []
    for each in missing:
        lines += wrapped(f"{label('not_computed')}: {each.what}, for {each.why}", indent=2, hanging=4)
    return ["", *lines] if lines else []


def _notes(evaluation: Evaluation, columns: Sequence[Column]) -> list[str]:
    """What columns stand for."""
    names = {column.name for column in columns}
    told = []
    if label("humidity") in names:
        told.append(f"{label('humidity')} at the brief's air temperature")
    if evaluation.heat.days:
        told.append("temperatures on the days of `climate`")
    if any(column.unit == "dB(A)" for column in columns):
        told.append(f"{label('background')} where takes are recorded")
    return ["", *wrapped("; ".join(told) + ".", indent=2, hanging=2)] if told else []
