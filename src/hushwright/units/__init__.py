"""Quantities as a workshop writes them to SI, and back: the only room that knows unit texts.

A closed parser. What it does not understand it refuses, with an example of what it expects, because a
quantity misread is worse than a quantity asked for again. Inside the program everything is SI with these fixed
exceptions: levels in dB, temperatures in °C, charge in Ah; angles and latitudes are in radians, shares are 0 to 1.
"""

from hushwright.units.kinds import KINDS, STANDARD_GRAVITY, BareLength, Kind, KindOfQuantity, System, Unit, spoken
from hushwright.units.reading import ParsedQuantity, UnreadableQuantity, parse_difference, parse_quantity
from hushwright.units.writing import format_quantity

__all__ = [
    "KINDS",
    "STANDARD_GRAVITY",
    "BareLength",
    "Kind",
    "KindOfQuantity",
    "ParsedQuantity",
    "System",
    "Unit",
    "UnreadableQuantity",
    "format_quantity",
    "parse_difference",
    "parse_quantity",
    "spoken",
]
