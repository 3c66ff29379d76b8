"""Checks of input that every law of this folder shares."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput

FloatArray = NDArray[np.float64]


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


def between(name: str, value: float, low: float, high: float, unit: str) -> float:
    """Return the value when it lies in the closed range, else raise with the value and the range shown."""
    if not low <= value <= high:
        raise InvalidInput(f"{name} is {value} {unit}; it must lie between {low} and {high} {unit}")
    return float(value)


def finite_array(name: str, values: ArrayLike, unit: str) -> FloatArray:
    """Array of finite numbers, or an error that shows the first that is not."""
    array = np.asarray(values, dtype=np.float64)
    if array.size == 0 or not np.all(np.isfinite(array)):
        shown = array[~np.isfinite(array)][:1].tolist() or "empty"
        raise InvalidInput(f"{name} is {shown} {unit}; every value must be a finite number")
    return array
