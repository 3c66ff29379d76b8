"""Checks of input that the laws of every domain share."""

from __future__ import annotations

import math

from hushwright.errors import InvalidInput


def positive(name: str, value: float, unit: str) -> float:
    """Return the value when it is finite and above zero, else raise with the value shown."""
    if not (math.isfinite(value) and value > 0.0):
        raise InvalidInput(f"{name} is {value} {unit}; it must be a finite number above zero".replace("  ", " "))
    return float(value)


def not_negative(name: str, value: float, unit: str) -> float:
    """Return the value when it is finite and not below zero, else raise with the value shown."""
    if not (math.isfinite(value) and value >= 0.0):
        raise InvalidInput(f"{name} is {value} {unit}; it must be a finite number, zero or more".replace("  ", " "))
    return float(value)


def share(name: str, value: float) -> float:
    """Return the value when it lies between zero and one, else raise with the value shown."""
    if not 0.0 <= value <= 1.0:
        raise InvalidInput(f"{name} is {value}; a share lies between 0 and 1")
    return float(value)
