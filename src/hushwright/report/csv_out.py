"""Tables for spreadsheets: text that no spreadsheet takes for a formula."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from typing import Final

_FORMULA: Final = ("=", "+", "-", "@", "\t", "\r")
"""What a spreadsheet may take for the begin of a formula."""

Cell = str | float | int | None


def csv_text(rows: Iterable[Sequence[Cell]]) -> str:
    """Rows as comma-separated lines, points in decimals, no line end after the last.

    Examples
    --------
    >>> print(csv_text([("state", "temperature [°C]"), ("=drive", -3.25), (None, 2.0)]))
    state,temperature [°C]
    '=drive, -3.25
    ,2
    """
    written = io.StringIO()
    writer = csv.writer(written, lineterminator="\n")
    for row in rows:
        writer.writerow([_cell(each) for each in row])
    return written.getvalue().rstrip("\n")


def _cell(value: Cell) -> str:
    """A number below zero gets a space before its sign, which leaves it a number; other text an apostrophe."""
    if value is None:
        return ""
    if isinstance(value, str):
        return f"'{value}" if value.startswith(_FORMULA) else value
    text = f"{value:.10g}"
    return f" {text}" if text.startswith(_FORMULA) else text
