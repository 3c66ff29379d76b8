"""Records as rows of text, for lists on the command line and for the reference page."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Any

from hushwright.library.records import KINDS, Record
from hushwright.library.values import COLUMN_UNITS, Spread


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a list: the field it shows, the unit it is shown in, and what it means."""

    field: str
    unit: str
    sentence: str

    @property
    def title(self) -> str:
        """Heading, ``youngs modulus [GPa]``."""
        words = self.field.replace("_", " ")
        return f"{words} [{self.unit}]" if self.unit not in ("", "-") else words


def columns(kind: str) -> tuple[Column, ...]:
    """Columns of the list of one kind, after its name."""
    declared = (each for each in fields(KINDS[kind].record) if "form" in each.metadata)
    return tuple(Column(each.name, each.metadata["unit"], each.metadata["sentence"]) for each in declared)


def cells(kind: str, record: Record) -> tuple[str, ...]:
    """Text of each of `columns`, in the column's unit; empty where the record has no value.

    Examples
    --------
    >>> from hushwright.library.read import read_library
    >>> cells("sheet", read_library().find("sheet", "MDF"))[0]
    '760 (700–800)'
    """
    return tuple(_text(getattr(record, each.field), each.unit) for each in columns(kind))


def _text(value: Any, unit: str) -> str:
    factor = COLUMN_UNITS.get(unit, 1.0)
    if value is None or value == ():
        return ""
    if isinstance(value, Spread):
        shown = _number(value.value, factor)
        return (
            shown
            if value.low == value.high
            else f"{shown} ({_number(value.low, factor)}–{_number(value.high, factor)})"
        )
    if isinstance(value, float):
        return _number(value, factor)
    if isinstance(value, tuple):
        return ", ".join(
            _text(each, unit) if not isinstance(each, tuple) else ":".join(_text(part, unit) for part in each)
            for each in value
        )
    return str(value)


def _number(value: float, factor: float) -> str:
    shown = round(value / factor, 9)
    return f"{shown:.0f}" if abs(shown) >= 1e4 else f"{shown:.6g}"
