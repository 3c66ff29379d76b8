"""Numbers of laws for a person and for programs: in the unit of the law's text, or in US customary units."""

from __future__ import annotations

import math
from typing import Any, Final

from hushwright.evaluation.laws.calls import Plain
from hushwright.evaluation.laws.units import kinds_of
from hushwright.report.units_out import bare_number, unit_of
from hushwright.units import KINDS, Kind, System, format_quantity

_DIGITS: Final = 5
_AS_WORKSHOPS_WRITE: Final = ("length", "pressure", "modulus", "volume_flow", "frequency", "angle", "flow_resistivity")
"""Kinds that metric output writes in the unit that fits the size; all others keep the unit of the law's text."""

_PLAIN_UNIT: Final = str.maketrans({"²": "2", "³": "3", "⁴": "4"})
_FOOT_PER_SECOND: Final = 0.3048
_FAHRENHEIT_OF_A_KELVIN: Final = 1.8
_LEAST, _MOST = 1e-4, 1e7
"""Sizes between which a number is written out."""


def told(value: Plain, unit: str, name: str, system: System) -> str:
    """Value as a person reads it.

    Examples
    --------
    >>> told(0.0127, "m", "", "us"), told((100.0, 200.0), "Hz", "", "metric"), told(True, "", "", "metric")
    ('0.5 in', '100 Hz, 200 Hz', 'yes')
    """
    if isinstance(value, tuple):
        return ", ".join(told_all(value, unit, name, system)) or "none"
    return _one(value, unit, name, system, 0.0)


def told_all(values: tuple[Plain, ...], unit: str, name: str, system: System) -> list[str]:
    """Values of a list, all in the unit of the largest."""
    sizes = [abs(one) for one in values if isinstance(one, int | float) and math.isfinite(one)]
    like = max(sizes, default=0.0)
    return [told(one, unit, name, system) if isinstance(one, tuple) else _one(one, unit, name, system, like)
            for one in values]  # fmt: skip


def number_node(value: Plain, unit: str, name: str, system: System) -> Any:
    """Value for a program, in :func:`unit_node`; nothing for what is not finite."""
    if isinstance(value, tuple):
        return [number_node(one, unit, name, system) for one in value]
    if isinstance(value, complex):
        return {"real": value.real, "imaginary": value.imag}
    if isinstance(value, bool | str) or value is None:
        return value
    if not math.isfinite(value):
        return None
    if system == "us" and unit == "K":
        return value * _FAHRENHEIT_OF_A_KELVIN
    kind = _kind(unit, name)
    if system == "us" and kind is not None and unit_node(unit, name, system) != unit:
        return bare_number(_si(value, unit, kind), kind, system)
    return value


def unit_node(unit: str, name: str, system: System) -> str:
    """Unit in which :func:`number_node` gives a value."""
    if system == "metric":
        return unit
    if unit == "K":
        return _of_kelvin(name)
    kind = _kind(unit, name)
    other = "" if kind is None else unit_of(kind, "us")
    return other if kind is not None and other != unit_of(kind, "metric") else unit


def _of_kelvin(name: str) -> str:
    """Unit of a difference of temperatures, or of an absolute one."""
    return "°R" if name.startswith("absolute") else "°F"


def _kind(unit: str, name: str) -> Kind | None:
    kinds = kinds_of(unit, name)
    return kinds[0] if kinds else None


def _si(value: float, unit: str, kind: Kind) -> float:
    return KINDS[kind].units[unit.translate(_PLAIN_UNIT)].to_si(value)


def _one(value: Plain, unit: str, name: str, system: System, like: float) -> str:
    if value is None:
        return "none"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str | tuple):
        return str(value)
    shown_unit = "" if unit in ("-", "") else f" {unit}"
    if isinstance(value, complex):
        sign = "−" if value.imag < 0.0 else "+"
        return f"{_written(value.real)} {sign} {_written(abs(value.imag))} i{shown_unit}"
    if not math.isfinite(value):
        return "no number" if math.isnan(value) else f"{'−' if value < 0.0 else ''}infinite"
    kind = _kind(unit, name)
    if kind is None and unit == "K" and system == "us":
        return f"{_written(value * _FAHRENHEIT_OF_A_KELVIN)} {_of_kelvin(name)}"
    if kind == "speed" and system == "us":
        return f"{_written(value / _FOOT_PER_SECOND)} ft/s"
    if kind is not None and (system == "us" or kind in _AS_WORKSHOPS_WRITE):
        return format_quantity(_si(value, unit, kind), kind, system, _DIGITS, like=like)
    return f"{_written(value)}{shown_unit}"


def _written(number: float) -> str:
    """Number to five digits, written out unless very small or very large."""
    rounded = float(f"{number:.{_DIGITS}g}")
    if rounded == 0.0 or _LEAST <= abs(rounded) < _MOST:
        return f"{rounded:.10f}".rstrip("0").rstrip(".")
    return f"{rounded:.{_DIGITS}g}"
