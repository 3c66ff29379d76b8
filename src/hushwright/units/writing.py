"""SI values to text for a person, in metric or US customary units."""

from __future__ import annotations

import math
from fractions import Fraction

from hushwright.errors import InvalidInput
from hushwright.units.kinds import KINDS, Kind, System, spoken

# How values are shown: from which size on (SI), in which unit, with how many decimals. First line that fits.
_SHOWN: dict[System, dict[str, tuple[tuple[float, str, int], ...]]] = {
    "metric": {
        "length": ((10.0, "m", 2), (0.0, "mm", 1)),
        "area": ((0.0, "m2", 3),),
        "volume": ((0.1, "m3", 3), (0.0, "l", 2)),
        "mass": ((0.0, "kg", 2),),
        "surface_density": ((0.0, "kg/m2", 2),),
        "density": ((0.0, "kg/m3", 1),),
        "level": ((0.0, "dB", 1),),
        "level_a": ((0.0, "dB(A)", 1),),
        "temperature": ((-300.0, "°C", 1),),
        "time": ((86_400.0 * 3, "day", 2), (7200.0, "h", 2), (120.0, "min", 1), (0.0, "s", 2)),
        "pressure": ((10_000.0, "kPa", 2), (0.0, "Pa", 1)),
        "volume_flow": ((0.0, "l/s", 1),),
        "speed": ((10.0, "km/h", 1), (0.0, "m/s", 2)),
        "power": ((10_000.0, "kW", 2), (0.0, "W", 1)),
        "energy": ((3_600_000.0, "kWh", 2), (0.0, "Wh", 1)),
        "charge": ((0.0, "Ah", 1),),
        "voltage": ((0.0, "V", 2),),
        "current": ((1000.0, "kA", 2), (0.5, "A", 2), (0.0, "mA", 1)),
        "apparent_power": ((1000.0, "kVA", 2), (0.0, "VA", 1)),
        "angle": ((0.0, "°", 2),),
        "share": ((0.0, "%", 1),),
        "frequency": ((10_000.0, "kHz", 2), (0.0, "Hz", 1)),
        "stiffness": ((0.0, "N/mm", 2),),
        "force": ((10_000.0, "kN", 2), (0.0, "N", 1)),
        "force_per_length": ((0.0, "N/m", 1),),
        "flow_resistivity": ((1000.0, "kPa·s/m2", 2), (0.0, "Pa·s/m2", 1)),
        "dynamic_stiffness": ((0.0, "MN/m3", 3),),
        "modulus": ((1e9, "GPa", 2), (1e5, "MPa", 3), (0.0, "kPa", 2)),
        "rain_rate": ((0.0, "mm/h", 1),),
        "latitude": ((0.0, "°N", 2),),
        "mass_per_length": ((0.0, "kg/m", 3),),
        "concentration": ((0.0, "ppm", 0),),
        "resistance": ((1.0, "Ω", 2), (0.0, "mΩ", 2)),
        "irradiation": ((0.0, "kWh/m2", 2),),
        "cross_section": ((0.0, "mm2", 2),),
        "burning_rate": ((0.0, "mm/min", 0),),
        "luminous_intensity": ((0.0, "cd", 1),),
        "capacitance_per_length": ((0.0, "pF/m", 1),),
    },
    "us": {
        "area": ((0.0, "ft2", 2),),
        "cross_section": ((0.0, "kcmil", 1),),
        "volume": ((0.0, "ft3", 2),),
        "mass": ((0.0, "lb", 1),),
        "surface_density": ((0.0, "lb/ft2", 3),),
        "density": ((0.0, "lb/ft3", 2),),
        "temperature": ((-300.0, "°F", 1),),
        "pressure": ((10_000.0, "psi", 2), (0.0, "inH2O", 3)),
        "volume_flow": ((0.0, "cfm", 1),),
        "speed": ((10.0, "mph", 1), (0.0, "ft/min", 0)),
        "stiffness": ((0.0, "lbf/in", 1),),
        "force": ((0.0, "lbf", 1),),
        "force_per_length": ((0.0, "lbf/ft", 2),),
        "modulus": ((0.0, "psi", 1),),
        "rain_rate": ((0.0, "in/h", 2),),
        "burning_rate": ((0.0, "in/min", 2),),
        "mass_per_length": ((0.0, "lb/ft", 3),),
        "capacitance_per_length": ((0.0, "pF/ft", 1),),
    },
}
_PRINTED = str.maketrans({"2": "²", "3": "³", "4": "⁴"})


def format_quantity(
    value: float, kind: Kind, system: System = "metric", digits: int | None = None, *, like: float = 0.0
) -> str:
    """Write an SI value for a person, in one of two systems of units.

    Parameters
    ----------
    value
        The value in SI (see the module for the exceptions); nan is written ``unknown``.
    kind
        Which kind it is.
    system
        ``metric`` or ``us``.
    digits
        Significant digits; the usual rounding of the kind when left out.
    like
        The largest of the values that it stands beside, in SI: they all are written in the unit of that one.

    Examples
    --------
    >>> format_quantity(1.905, "length", "metric"), format_quantity(1.905, "length", "us")
    ('1905 mm', '6 ft 3 in')
    >>> format_quantity(9.0, "speed"), format_quantity(9.0, "speed", like=10.0)
    ('9 m/s', '32.4 km/h')
    """
    if math.isnan(value):
        return "unknown"
    if math.isinf(value):
        raise InvalidInput(f"a {spoken(kind)} of {value} cannot be written")
    if kind == "count":
        return _rounded(value, 6, digits)
    if kind == "money":
        return f"{value:.2f}" if digits is None else _rounded(value, 2, digits)
    if kind == "length" and system == "us":
        return _feet_and_inches(value) if digits is None else f"{_rounded(value / 0.0254, 0, digits)} in"
    rows = _SHOWN[system].get(kind) or _SHOWN["metric"][kind]
    unit_text, decimals = next((text, places) for least, text, places in rows if max(abs(value), abs(like)) >= least)
    if kind == "latitude" and value < 0.0:
        unit_text = "°S"
    number = _rounded(KINDS[kind].units[unit_text].from_si(value), decimals, digits)
    joint = "" if unit_text == "°" else " "
    shown = unit_text if unit_text == "inH2O" else unit_text.translate(_PRINTED)
    return f"{number}{joint}{shown}"


def _rounded(number: float, decimals: int, digits: int | None) -> str:
    if digits is not None and number != 0.0:
        decimals = digits - 1 - math.floor(math.log10(abs(number)))
    text = f"{round(number, decimals):.{max(decimals, 0)}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


_EXACT = 0.01
"""Sixteenths of an inch within which one is meant: 0.016 mm."""


def _feet_and_inches(value: float) -> str:
    """Workshop inches to a sixteenth, feet from 3 ft on; decimals under 2 in where no sixteenth is meant."""
    inches = abs(value) / 0.0254
    sign = "-" if value < 0.0 else ""
    if inches < 0.5 or (inches < 2.0 and abs(inches * 16.0 - round(inches * 16.0)) > _EXACT):
        text = _rounded(inches, 3, None)
        return f"{sign if text != '0' else ''}{text} in"
    sixteenths = round(inches * 16.0)
    feet, left = divmod(sixteenths, 12 * 16) if sixteenths >= 36 * 16 else (0, sixteenths)
    whole, part = divmod(left, 16)
    fraction = f"{Fraction(part, 16)}" if part else ""
    inch_text = " ".join(text for text in (str(whole) if whole else "", fraction) if text)
    parts = (f"{feet} ft" if feet else "", f"{inch_text} in" if inch_text else "")
    return sign + " ".join(text for text in parts if text)
