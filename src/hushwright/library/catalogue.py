"""Records as rows of text in one of two systems of units, for lists and for the reference page."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Any

from hushwright.library.records import KINDS, Limit, Record
from hushwright.library.values import COLUMN_UNITS, Spread
from hushwright.units import KINDS as QUANTITIES
from hushwright.units import Kind as QuantityKind
from hushwright.units import System

# Unit of a table column → kind of quantity and the unit shown to those who use US customary units.
_US: dict[str, tuple[QuantityKind, str]] = {
    "degC": ("temperature", "°F"),
    "kg": ("mass", "lb"),
    "kg/m2": ("surface_density", "lb/ft2"),
    "kg/m3": ("density", "lb/ft3"),
    "m": ("length", "ft"),
    "mm": ("length", "in"),
    "m2": ("area", "ft2"),
    "N": ("force", "lbf"),
    "N/m": ("force_per_length", "lbf/ft"),
    "N/mm": ("stiffness", "lbf/in"),
    "MPa": ("modulus", "psi"),
    "GPa": ("modulus", "psi"),
    "mm/h": ("rain_rate", "in/h"),
    "m/s": ("speed", "ft/s"),
}
_KELVIN_IN_FAHRENHEIT = 1.8
_SYMBOLS = {"degC": "°C", "um": "µm"}
_LIMIT_UNITS = {"m": "mm"}  # limits hold SI; people read millimetres


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a list: the field it shows, its table unit, the unit shown, and what it means."""

    field: str
    unit: str
    shown_unit: str
    sentence: str

    @property
    def title(self) -> str:
        """Heading, ``youngs modulus [GPa]``."""
        words = self.field.replace("_", " ")
        return f"{words} [{self.shown_unit}]" if self.shown_unit not in ("", "-") else words


def columns(kind: str, system: System = "metric") -> tuple[Column, ...]:
    """Columns of the list of one kind, after its name."""
    record = KINDS[kind].record
    declared = [each for each in fields(record) if "form" in each.metadata]
    if issubclass(record, Limit):  # its unit stands beside each value
        declared = [each for each in declared if each.name != "unit"]
    return tuple(
        Column(each.name, each.metadata["unit"], _shown(each.metadata["unit"], system), each.metadata["sentence"])
        for each in declared
    )


def cells(kind: str, record: Record, system: System = "metric") -> tuple[str, ...]:
    """Text of each of `columns`, in the unit shown; empty where the record has no value.

    Examples
    --------
    >>> from hushwright.library.read import read_library
    >>> mdf = read_library().find("sheet", "MDF")
    >>> cells("sheet", mdf)[0], cells("sheet", mdf, "us")[0]
    ('760 (700–800)', '47.4 (43.7–49.9)')
    """
    if isinstance(record, Limit):
        unit = _LIMIT_UNITS.get(record.unit, record.unit)
        value = f"{_text(record.value, unit, system)} {_shown(unit, system)}".removesuffix(" -")
        return tuple(value if each.field == "value" else str(getattr(record, each.field)) for each in columns(kind))
    return tuple(_text(getattr(record, each.field), each.unit, system) for each in columns(kind))


def _shown(unit: str, system: System) -> str:
    if ":" in unit:
        return ":".join(_shown(part, system) for part in unit.split(":"))
    if system == "us" and unit == "K":
        return "°F"
    return _US[unit][1] if system == "us" and unit in _US else _SYMBOLS.get(unit, unit)


def _text(value: Any, unit: str, system: System) -> str:
    if value is None or value == ():
        return ""
    if isinstance(value, Spread):
        middle, low, high = (_number(each, unit, system) for each in (value.value, value.low, value.high))
        return middle if value.low == value.high else f"{middle} ({low}–{high})"
    if isinstance(value, float):
        return _number(value, unit, system)
    if isinstance(value, tuple):
        return ", ".join(
            _pair(each, unit, system) if isinstance(each, tuple) else _text(each, unit, system) for each in value
        )
    return str(value)


def _pair(pair: tuple[float, float], unit: str, system: System) -> str:
    units = unit.split(":") if ":" in unit else (unit, unit)
    return ":".join(_number(value, each, system) for value, each in zip(pair, units, strict=True))


def _number(value: float, unit: str, system: System) -> str:
    if system == "us" and unit in _US:
        kind, shown_unit = _US[unit]
        return _rounded(QUANTITIES[kind].units[shown_unit].from_si(value), 3)
    if system == "us" and unit == "K":
        return _rounded(value * _KELVIN_IN_FAHRENHEIT, 3)
    return _rounded(value / COLUMN_UNITS.get(unit, 1.0), 6)


def _rounded(number: float, digits: int) -> str:
    rounded = float(f"{number:.{digits}g}")
    return f"{rounded:.0f}" if abs(rounded) >= 1e4 else f"{rounded:g}"
