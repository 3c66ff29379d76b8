"""Checks of input that every law of this folder shares."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput
from hushwright.physics._guard import not_negative, positive, share

FloatArray = NDArray[np.float64]

__all__ = ["FloatArray", "between", "finite_array", "not_negative", "positive", "share"]


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
