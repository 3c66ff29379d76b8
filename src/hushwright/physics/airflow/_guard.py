"""Checks of input that every law of this folder shares."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hushwright.errors import InvalidInput
from hushwright.physics._guard import not_negative, positive, share

FloatArray = NDArray[np.float64]

__all__ = ["FloatArray", "not_negative", "open_share", "positive", "share"]


def open_share(name: str, value: float) -> float:
    """Return the value when it lies above zero and not above one, else raise with the value shown."""
    if not 0.0 < value <= 1.0:
        raise InvalidInput(f"{name} is {value}; it must lie above 0 and not above 1")
    return float(value)
