"""Every number that leaves the program, in metric or US customary units, never both."""

from __future__ import annotations

import math
import re
from typing import Final

from hushwright.library.us_names import names_with_sizes, short_name, sized_name
from hushwright.units import KINDS, STANDARD_GRAVITY, Kind, System, format_quantity, parse_quantity

CURVES: Final = ("NC", "NR")
"""Kinds of verdict whose number is that of a noise curve."""

MONEY: Final = "money"
"""How the kind of a sum of money begins; its currency follows, ``money EUR``."""

# Unit of each kind where a number goes out bare, beside its unit (JSON); what is not listed stays metric.
_BARE: Final[dict[System, dict[str, str]]] = {
    "metric": {
        "length": "mm", "area": "m2", "volume": "m3", "mass": "kg", "surface_density": "kg/m2", "density": "kg/m3",
        "level": "dB", "level_a": "dB(A)", "temperature": "°C", "time": "s", "pressure": "Pa", "volume_flow": "l/s",
        "speed": "m/s", "power": "W", "energy": "Wh", "charge": "Ah", "voltage": "V", "current": "A",
        "apparent_power": "VA", "angle": "°", "share": "%", "frequency": "Hz", "stiffness": "N/mm", "force": "N",
        "force_per_length": "N/m", "flow_resistivity": "kPa·s/m2", "dynamic_stiffness": "MN/m3", "modulus": "MPa",
        "rain_rate": "mm/h", "latitude": "°", "mass_per_length": "kg/m",
        "concentration": "ppm", "resistance": "mΩ", "irradiation": "kWh/m2", "cross_section": "mm2",
        "burning_rate": "mm/min", "luminous_intensity": "cd",
        "capacitance_per_length": "pF/m",
    },
    "us": {
        "length": "in", "area": "ft2", "volume": "ft3", "mass": "lb", "surface_density": "lb/ft2",
        "density": "lb/ft3", "temperature": "°F", "pressure": "inH2O", "volume_flow": "cfm", "speed": "ft/min",
        "stiffness": "lbf/in", "force": "lbf", "force_per_length": "lbf/ft", "modulus": "psi", "rain_rate": "in/h",
        "flow_resistivity": "rayl/m", "mass_per_length": "lb/ft", "burning_rate": "in/min",
        "capacitance_per_length": "pF/ft", "cross_section": "kcmil",
    },
}  # fmt: skip

# Units of prose that have a US form: spelling in the text → kind. Longest first, so that mm is not read as m.
_PROSE: Final[dict[str, Kind]] = {
    "kg/m²": "surface_density", "kg/m2": "surface_density", "kg/m³": "density", "kg/m3": "density",
    "N/mm": "stiffness", "kN/m": "stiffness", "mm/h": "rain_rate", "mm/min": "burning_rate",
    "km/h": "speed", "m/s": "speed",
    "l/s": "volume_flow", "m³/h": "volume_flow", "kPa": "pressure", "Pa": "pressure", "MPa": "modulus",
    "GPa": "modulus", "N/m": "force_per_length", "kN": "force", "N": "force", "m²": "area", "m2": "area",
    "mm²": "cross_section",
    "m³": "volume", "m3": "volume", "mm": "length", "cm": "length", "m": "length", "kg": "mass", "l": "volume",
    "°C": "temperature", "kPa·s/m²": "flow_resistivity", "kPa·s/m2": "flow_resistivity", "MN/m³": "dynamic_stiffness",
}  # fmt: skip
# What US handbooks write where units.py keeps SI: rayl (mks), and pounds-force per cubic inch.
_US_ALONE: Final[dict[str, tuple[float, str]]] = {
    "flow_resistivity": (1.0, "rayl/m"),
    "dynamic_stiffness": (0.45359237 * STANDARD_GRAVITY / 0.0254**3, "lbf/in³"),
}
_NUMBER = r"[-−]?\d+(?:\.\d+)?"
_KELVIN = "K"  # in prose always a difference of temperatures
_FAHRENHEIT_OF_A_KELVIN = 1.8
_QUANTITY_IN_PROSE = re.compile(
    rf"(?<![\w.,/])({_NUMBER})(?:(\s?(?:\.\.|–|to|±)\s?)({_NUMBER}))?(\s?)"
    rf"({'|'.join(re.escape(unit) for unit in sorted((*_PROSE, _KELVIN), key=len, reverse=True))})(?![\w/²³·(])"
)


def shown(value: float, kind: str, system: System, *, signed: bool = False, like: float = 0.0) -> str:
    """Write a value with its unit as a person reads it; noise curves before their number, ``NC 25``.

    ``like`` is the largest of the values that it stands beside: all are written in the unit of that one.

    Examples
    --------
    >>> shown(24.64, "NC", "metric"), shown(0.066, "length", "us", signed=True), shown(-3.0, "margin", "us")
    ('NC 24.6', '+2 5/8 in', '-3 dB')
    >>> shown(6.096, "length", "metric"), shown(6.096, "length", "metric", like=12.0)
    ('6096 mm', '6.1 m')
    """
    if kind in CURVES:
        return f"{kind} {value:.1f}".removesuffix(".0")
    name = quantity_kind(kind)
    if name == "money":
        return f"{'+' if signed and value > 0.0 else ''}{grouped(value)} {unit_of(kind, system)}".rstrip()
    if name == "length":
        text = _length(value, system, like)
    elif system == "us" and name in _US_ALONE:
        size, unit = _US_ALONE[name]
        text = f"{float(f'{value / size:.4g}'):g} {unit}"
    else:
        text = format_quantity(value, name, system, digits=_digits(value, name), like=like)
    return f"+{text}" if signed and value > 0.0 else text


def grouped(value: float) -> str:
    r"""Money by thousands; whole numbers from a hundred on, where nobody asks for cents of an estimate.

    Examples
    --------
    >>> grouped(61234.56), grouped(-18.4)
    ('61\xa0235', '-18.40')
    """
    return f"{value:,.{0 if abs(value) >= 100.0 else 2}f}".replace(",", "\u00a0")


def _digits(value: float, kind: Kind) -> int | None:
    """Significant digits of a report: nobody weighs a van to the gram or a room to the litre."""
    if kind == "mass":
        return 4 if abs(value) >= 1000.0 else 3
    if kind == "frequency":
        return 3
    return 3 if kind in ("area", "volume", "count") and abs(value) < 1000.0 else None


def _length(value: float, system: System, like: float = 0.0) -> str:
    """Length to a millimetre, small ones to a tenth, or workshop inches; distances across a yard in whole feet."""
    if system == "us" and max(abs(value), abs(like)) >= 10.0:
        return f"{value / 0.3048:.{0 if abs(value) >= 3.0 else 1}f} ft"
    if system == "metric" and max(abs(value), abs(like)) < 1e-3:
        return format_quantity(value, "length", system, digits=2)
    return format_quantity(round(value, 3 if abs(value) >= 0.1 else 4), "length", system, like=like)


def shown_spread(value: float, kind: str, system: System, *, like: float = 0.0) -> str:
    """Write the half width of a spread: two digits are all that is known of it; ``like`` as for :func:`shown`.

    Examples
    --------
    >>> shown_spread(0.0231, "length", "metric"), shown_spread(0.0231, "length", "us"), shown_spread(6.02, "NC", "us")
    ('±23 mm', '±0.91 in', '±6')
    """
    if value == 0.0 or not math.isfinite(value):
        return "±0"
    places = 1 - math.floor(math.log10(abs(value)))
    rounded = round(value, max(places, 0) if kind in CURVES else places)
    if kind in CURVES or kind == "temperature":
        return f"±{shown_difference(rounded, kind, system)}"
    bare = "level" if kind == "level_a" else quantity_kind(kind)
    if bare == "money":
        return f"±{grouped(float(f'{value:.2g}'))} {unit_of(kind, system)}".rstrip()
    return f"±{format_quantity(value, bare, system, digits=2, like=like)}"


def shown_difference(value: float, kind: str, system: System, *, signed: bool = False, like: float = 0.0) -> str:
    """Write a margin: a difference of two values of a kind; ``like`` as for :func:`shown`.

    Examples
    --------
    >>> shown_difference(5.0, "temperature", "us"), shown_difference(-13.2, "NC", "metric")
    ('9 °F', '-13.2')
    """
    sign = "+" if signed and value > 0.0 else ""
    if kind in CURVES:
        return f"{sign}{value:.1f}".removesuffix(".0")
    if quantity_kind(kind) == "count":
        return f"{sign}{value:.3g}"
    if kind == "temperature":
        return f"{sign}{_bare(value, kind, system, is_difference=True):.3g} {unit_of(kind, system)}"
    if kind == "level_a":
        return f"{sign}{shown(value, 'level', system)}"
    return f"{sign}{shown(value, kind, system, like=like)}"


def bare_number(value: float | None, kind: str, system: System, *, is_difference: bool = False) -> float | None:
    """Return the number that stands beside :func:`unit_of`; nothing for what is not a number.

    Examples
    --------
    >>> bare_number(1.905, "length", "metric"), bare_number(1.905, "length", "us"), unit_of("length", "us")
    (1905.0, 75.0, 'in')
    """
    if value is None or not math.isfinite(value):
        return None
    if kind.startswith(MONEY):
        return round(value, 3)
    return float(f"{_bare(value, kind, system, is_difference=is_difference):.6g}")


def unit_of(kind: str, system: System) -> str:
    """Unit in which :func:`bare_number` gives a kind; the curve's name for a noise curve, empty for counts."""
    if kind in CURVES:
        return kind
    if kind.startswith(MONEY):
        return kind.removeprefix(MONEY).strip()
    name = quantity_kind(kind)
    return _BARE[system].get(name) or _BARE["metric"].get(name, "")


def quantity_kind(kind: str) -> Kind:
    """Kind of `hushwright.units` that a verdict's kind is written as; one that does not apply has none."""
    if kind in CURVES or not kind:
        return "count"
    if kind.startswith(MONEY):
        return "money"
    return "level" if kind == "margin" else KINDS[kind].name  # type: ignore[return-value]


def restated(text: str, system: System) -> str:
    """Prose whose quantities are written in metric units, in the wanted system.

    Names of library records stay names: beside one that holds a metric size stands that size in US units.

    Examples
    --------
    >>> restated("shoes 30 mm, floor 85..100 mm under 5 kg/m²; 250 Hz", "us")
    'shoes 1.181 in, floor 3 3/8 in..3 15/16 in under 1.024 lb/ft²; 250 Hz'
    >>> restated("cool it by 2.5 K more, 0.04 W/(m·K)", "us")
    'cool it by 4.5 °F more, 0.04 W/(m·K)'
    >>> restated("space 93 mm with rock wool 40 kg/m3", "us")
    'space 3 11/16 in with rock wool 40 (2.5 lb/ft³)'
    """
    if system == "metric":
        return text
    names = names_with_sizes()
    parts = re.split(f"({'|'.join(map(re.escape, names))})", text)
    return "".join(
        sized_name(part, system) if part in names else _QUANTITY_IN_PROSE.sub(_in_us_units, part) for part in parts
    )


def shown_name(name: str, system: System) -> str:
    """Name of a library record, without metric units where the other system is wanted and it has such a name."""
    return short_name(name, system)


def _in_us_units(found: re.Match[str]) -> str:
    first, joint, second, _, unit = found.groups()

    def written(number: str) -> str:
        if unit == _KELVIN:
            return f"{float(number.replace('−', '-')) * _FAHRENHEIT_OF_A_KELVIN:.3g} °F"
        kind = _PROSE[unit]
        return shown(parse_quantity(f"{number.replace('−', '-')} {unit}", kind).value, kind, "us")

    return written(first) if second is None else f"{written(first)}{joint}{written(second)}"


def _bare(value: float, kind: str, system: System, *, is_difference: bool) -> float:
    unit = KINDS[quantity_kind(kind)].units.get(unit_of(kind, system))
    if unit is None:
        return value
    return unit.from_si(value) - (unit.from_si(0.0) if is_difference else 0.0)
