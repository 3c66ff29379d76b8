"""Kinds of quantity and the units each accepts: the only place that knows unit texts."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal, get_args

Kind = Literal[
    "length", "area", "volume", "mass", "surface_density", "density", "level", "level_a", "temperature", "time",
    "pressure", "volume_flow", "speed", "power", "energy", "charge", "voltage", "current", "apparent_power", "angle",
    "share", "count", "frequency", "stiffness", "force", "force_per_length", "flow_resistivity", "dynamic_stiffness",
    "modulus", "rain_rate", "latitude", "mass_per_length", "concentration", "resistance",
    "irradiation", "money", "cross_section", "capacitance_per_length", "burning_rate", "luminous_intensity",
]  # fmt: skip
System = Literal["metric", "us"]
BareLength = Literal["mm", "in"] | None


@dataclass(frozen=True, slots=True)
class Unit:
    """One spelling's size: SI = number × multiplier / divisor + offset (a divisor keeps 93 mm at 0.093 exactly)."""

    text: str
    multiplier: float
    divisor: float = 1.0
    offset: float = 0.0

    def to_si(self, number: float) -> float:
        """Return the number in SI."""
        return number * self.multiplier / self.divisor + self.offset

    def from_si(self, value: float) -> float:
        """Return the SI value as a number of this unit."""
        return (value - self.offset) * self.divisor / self.multiplier


@dataclass(frozen=True, slots=True)
class KindOfQuantity:
    """What one kind accepts: units by exact spelling, example for the refusal, unit of the SI value."""

    name: str
    unit: str
    example: str
    units: Mapping[str, Unit]
    bare: bool
    either_case: Mapping[str, Unit]


STANDARD_GRAVITY: Final = 9.80665
"""Acceleration of free fall [m/s²] in units of weight; the laws have their own, since they know no units of ours."""

# Exact by definition: international foot and pound (1959), standard gravity (1901).
_POUND = 0.45359237
_FOOT = 0.3048
_POUND_FORCE = _POUND * STANDARD_GRAVITY
_PSI = _POUND_FORCE / 0.0254**2
_BTU_PER_HOUR = 1055.05585262 / 3600.0
_KILO_CIRCULAR_MIL = 1000.0 * math.pi / 4.0 * 25.4e-6**2
_INCH_OF_WATER = 0.0254 * 1000.0 * STANDARD_GRAVITY  # conventional: water of 1000 kg/m³

# Each line: spellings (the first is the one shown), multiplier, divisor, offset. Spellings in _EITHER_CASE may be
# typed in any case; every other one only as it stands, because m and M, W and w or Pa and PA are not the same thing.
_TABLE: dict[str, tuple[tuple[str, float, float, float], ...]] = {
    "length": (
        ("mm", 1, 1000, 0), ("cm", 1, 100, 0), ("m", 1, 1, 0),
        ("in inch inches", 127, 5000, 0), ("ft foot feet", 381, 1250, 0),
    ),
    "area": (
        ("m2 sqm", 1, 1, 0), ("cm2", 1, 10_000, 0), ("mm2", 1, 1_000_000, 0),
        ("ft2 sqft", _FOOT**2, 1, 0), ("in2 sqin", 0.0254**2, 1, 0),
    ),
    "volume": (
        ("m3", 1, 1, 0), ("l L litre litres liter liters", 1, 1000, 0), ("cm3", 1, 1_000_000, 0),
        ("ft3 cuft", _FOOT**3, 1, 0), ("in3 cuin", 0.0254**3, 1, 0),
    ),
    "mass": (
        ("kg", 1, 1, 0), ("g", 1, 1000, 0), ("t", 1000, 1, 0),
        ("lb lbs", _POUND, 1, 0), ("oz", _POUND, 16, 0),
    ),
    "surface_density": (("kg/m2", 1, 1, 0), ("g/m2", 1, 1000, 0), ("lb/ft2 psf lb/sqft", _POUND / _FOOT**2, 1, 0)),
    "density": (
        ("kg/m3", 1, 1, 0), ("g/cm3", 1000, 1, 0), ("kg/l kg/L", 1000, 1, 0), ("lb/ft3 pcf", _POUND / _FOOT**3, 1, 0),
    ),
    "level": (("dB", 1, 1, 0),),
    "level_a": (("dB(A) dBA dB_A", 1, 1, 0),),
    "temperature": (("°C degC C", 1, 1, 0), ("°F degF F", 5, 9, -160.0 / 9.0), ("K", 1, 1, -273.15)),
    "time": (
        ("s sec", 1, 1, 0), ("ms", 1, 1000, 0), ("min", 60, 1, 0),
        ("h hr hour hours", 3600, 1, 0), ("day days d", 86_400, 1, 0),
    ),
    "pressure": (
        ("Pa", 1, 1, 0), ("hPa mbar", 100, 1, 0), ("kPa", 1000, 1, 0), ("bar", 100_000, 1, 0), ("psi", _PSI, 1, 0),
        ("inH2O inwg", _INCH_OF_WATER, 1, 0),
    ),
    "volume_flow": (
        ("m3/s", 1, 1, 0), ("l/s L/s", 1, 1000, 0), ("m3/h", 1, 3600, 0), ("l/min L/min", 1, 60_000, 0),
        ("cfm ft3/min", _FOOT**3, 60, 0),
    ),
    "speed": (
        ("m/s", 1, 1, 0), ("km/h", 1000, 3600, 0), ("mph", 1609.344, 3600, 0), ("ft/min fpm", _FOOT, 60, 0),
        ("ft/s", _FOOT, 1, 0),
    ),
    "power": (("W", 1, 1, 0), ("kW", 1000, 1, 0), ("BTU/h", _BTU_PER_HOUR, 1, 0)),
    "energy": (
        ("Wh", 3600, 1, 0), ("kWh", 3_600_000, 1, 0), ("J", 1, 1, 0), ("kJ", 1000, 1, 0), ("MJ", 1_000_000, 1, 0),
    ),
    "charge": (("Ah", 1, 1, 0), ("mAh", 1, 1000, 0)),
    "voltage": (("V", 1, 1, 0), ("mV", 1, 1000, 0), ("kV", 1000, 1, 0)),
    "current": (("A", 1, 1, 0), ("mA", 1, 1000, 0), ("kA", 1000, 1, 0)),
    "apparent_power": (("VA", 1, 1, 0), ("kVA", 1000, 1, 0)),
    "angle": (("° deg degrees", math.pi, 180, 0), ("rad", 1, 1, 0)),
    "share": (("%", 1, 100, 0),),
    "count": (),
    "money": (),
    "cross_section": (
        ("mm2", 1, 1_000_000, 0), ("cm2", 1, 10_000, 0), ("kcmil", _KILO_CIRCULAR_MIL, 1, 0), ("in2", 0.0254**2, 1, 0),
    ),
    "frequency": (("Hz", 1, 1, 0), ("kHz", 1000, 1, 0)),
    "stiffness": (
        ("N/m", 1, 1, 0), ("kN/m", 1000, 1, 0), ("N/mm", 1000, 1, 0), ("lbf/in lb/in", _POUND_FORCE / 0.0254, 1, 0),
    ),
    "force": (("N", 1, 1, 0), ("kN", 1000, 1, 0), ("lbf", _POUND_FORCE, 1, 0)),
    "force_per_length": (
        ("N/m", 1, 1, 0), ("kN/m", 1000, 1, 0), ("N/mm", 1000, 1, 0), ("lbf/ft lb/ft", _POUND_FORCE / _FOOT, 1, 0),
        ("lbf/in lb/in", _POUND_FORCE / 0.0254, 1, 0),
    ),
    "flow_resistivity": (
        ("Pa·s/m2 Pas/m2 N·s/m4 Ns/m4 rayl/m", 1, 1, 0), ("kPa·s/m2 kPas/m2 kN·s/m4 kNs/m4", 1000, 1, 0),
    ),
    "dynamic_stiffness": (("N/m3", 1, 1, 0), ("MN/m3 N/cm3", 1_000_000, 1, 0), ("kN/m3", 1000, 1, 0)),
    "modulus": (
        ("Pa", 1, 1, 0), ("kPa", 1000, 1, 0), ("MPa N/mm2", 1_000_000, 1, 0), ("GPa kN/mm2", 1_000_000_000, 1, 0),
        ("N/m2", 1, 1, 0), ("psi", _PSI, 1, 0),
    ),
    "rain_rate": (("mm/h", 1, 3_600_000, 0), ("m/s", 1, 1, 0), ("in/h", 0.0254, 3600, 0)),
    "latitude": (("° deg degrees °N", math.pi, 180, 0), ("°S", -math.pi, 180, 0), ("rad", 1, 1, 0)),
    "concentration": (("ppm", 1, 1_000_000, 0), ("%", 1, 100, 0)),
    "resistance": (("mΩ mohm milliohm", 1, 1000, 0), ("Ω ohm", 1, 1, 0), ("kΩ kohm", 1000, 1, 0)),
    "irradiation": (("kWh/m2", 3_600_000, 1, 0), ("Wh/m2", 3600, 1, 0), ("MJ/m2", 1_000_000, 1, 0)),
    "capacitance_per_length": (("pF/m", 1, 1e12, 0), ("nF/m", 1, 1e9, 0), ("pF/ft", 1, 1e12 * _FOOT, 0)),
    "burning_rate": (("mm/min", 1, 60_000, 0), ("m/s", 1, 1, 0), ("in/min", 0.0254, 60, 0)),
    "luminous_intensity": (("cd", 1, 1, 0),),
    "mass_per_length": (("kg/m", 1, 1, 0), ("g/m", 1, 1000, 0), ("lb/ft", _POUND / _FOOT, 1, 0)),
}  # fmt: skip

_EITHER_CASE = frozenset(
    spelling
    for spellings in (
        "in inch inches ft foot feet sqm ft2 sqft in2 sqin ft3 cuft in3 cuin litre litres liter liters",
        "kg lb lbs oz kg/m2 lb/ft2 psf lb/sqft kg/m3 pcf lb/ft3 dB dB(A) dBA sec min hr hour hours day days psi",
        "cfm ft3/min km/h mph ft/min fpm ft/s kWh BTU/h deg degrees Hz kHz lbf lbf/in lbf/ft lb/in lb/ft in/h",
        "°N °S degC degF inH2O inwg",
    )
    for spelling in spellings.split()
)

_EXAMPLES: dict[str, tuple[str, str]] = {
    "length": ("m", "1.83 m, 93 mm, 3/4 in or 6 ft 3 in"),
    "area": ("m²", "0.5 m² or 5 ft2"),
    "volume": ("m³", "6.5 m³, 40 l or 230 ft3"),
    "mass": ("kg", "43 kg or 95 lb"),
    "surface_density": ("kg/m²", "5 kg/m² or 1 lb/ft2"),
    "density": ("kg/m³", "680 kg/m³ or 42 lb/ft3"),
    "level": ("dB", "60 dB"),
    "level_a": ("dB(A)", "35 dB(A)"),
    "temperature": ("°C", "20 °C or 68 °F"),
    "time": ("s", "4 h 30 min, 90 s or 2 days"),
    "pressure": ("Pa", "160 Pa or 0.5 inH2O"),
    "volume_flow": ("m³/s", "60 l/s, 200 m³/h or 85 cfm"),
    "speed": ("m/s", "3 m/s, 80 km/h or 50 mph"),
    "power": ("W", "520 W or 1.6 kW"),
    "energy": ("J", "4.9 kWh or 661 Wh"),
    "charge": ("Ah", "230 Ah"),
    "voltage": ("V", "25.6 V"),
    "current": ("A", "40 A"),
    "apparent_power": ("VA", "2 kVA"),
    "angle": ("rad", "30° or 0.5 rad"),
    "share": ("0 to 1", "75 % or 0.75"),
    "count": ("a bare number", "12"),
    "money": ("in the currency of `prices`", "1250 or 18.40"),
    "frequency": ("Hz", "125 Hz or 2 kHz"),
    "stiffness": ("N/m", "130 N/mm or 740 lbf/in"),
    "force": ("N", "80 N or 18 lbf"),
    "force_per_length": ("N/m", "80 N/m or 5.5 lbf/ft"),
    "flow_resistivity": ("Pa·s/m²", "10 kPa·s/m² or 10000 Pa·s/m²"),
    "dynamic_stiffness": ("N/m³", "10 MN/m³"),
    "modulus": ("Pa", "210 GPa or 6.5 N/mm²"),
    "rain_rate": ("m/s", "15 mm/h"),
    "latitude": ("rad", "54° or 54 °N"),
    "concentration": ("share of the volume", "1400 ppm"),
    "resistance": ("Ω", "8 mΩ or 0.008 ohm"),
    "irradiation": ("J/m²", "4.5 kWh/m²"),
    "capacitance_per_length": ("F/m", "100 pF/m or 30 pF/ft"),
    "burning_rate": ("m/s", "60 mm/min or 2.4 in/min"),
    "luminous_intensity": ("cd", "15 cd"),
    "cross_section": ("m²", "2.5 mm² or 5 kcmil"),
    "mass_per_length": ("kg/m", "0.3 kg/m or 0.2 lb/ft"),
}


def _build_kinds() -> dict[str, KindOfQuantity]:
    kinds: dict[str, KindOfQuantity] = {}
    for name in get_args(Kind):
        exact: dict[str, Unit] = {}
        any_case: dict[str, Unit] = {}
        for spellings, multiplier, divisor, offset in _TABLE[name]:
            shown, *_ = names = spellings.split()
            unit = Unit(shown, multiplier, divisor, offset)
            for spelling in names:
                exact[spelling] = unit
                if spelling in _EITHER_CASE:
                    any_case[spelling.casefold()] = unit
        unit_text, example = _EXAMPLES[name]
        kinds[name] = KindOfQuantity(name, unit_text, example, exact, name in ("share", "count", "money"), any_case)
    return kinds


KINDS: Mapping[str, KindOfQuantity] = _build_kinds()


def spoken(name: str) -> str:
    """Name of a kind in a sentence."""
    return name.replace("_", " ").replace(" a", " in dB(A)") if name == "level_a" else name.replace("_", " ")
