"""Distances of a method, round in either system: no sixteenths where nobody measures them."""

from __future__ import annotations

import re
from typing import Final

from hushwright.units import System

_IN_US: Final = {
    "7 m": "23 ft", "3.5 m": "12 ft", "2 m": "6 ft 7 in", "1.5 m": "5 ft", "1 m": "40 in", "0.7 m": "28 in",
    "0.5 m": "20 in", "5 m/s": "11 mph",
}  # fmt: skip
_DISTANCE = re.compile(
    rf"(?<![\d.])(?:{'|'.join(re.escape(each) for each in sorted(_IN_US, key=len, reverse=True))})\b"
)


def in_units(text: str, system: System) -> str:
    """Text with the round distances of the other system.

    Examples
    --------
    >>> in_units("0.7 m apart, wind under 5 m/s", "us")
    '28 in apart, wind under 11 mph'
    """
    return _DISTANCE.sub(lambda found: _IN_US[found[0]], text) if system == "us" else text
