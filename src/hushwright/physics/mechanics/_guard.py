"""Checks of input that every law of this folder shares."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput
from hushwright.physics._guard import not_negative, positive, share

FloatArray = NDArray[np.float64]
ComplexArray = NDArray[np.complex128]

__all__ = ["FloatArray", "angular", "not_negative", "positive", "share"]


def angular(frequency: ArrayLike) -> FloatArray:
    """Angular frequency [rad/s] of frequencies [Hz], all of which must be above zero."""
    hertz = np.asarray(frequency, dtype=np.float64)
    if hertz.size == 0 or not np.all(np.isfinite(hertz)) or np.any(hertz <= 0.0):
        raise InvalidInput(f"frequency is {hertz.tolist()} Hz; every frequency must be a finite number above zero")
    return np.asarray(2.0 * np.pi * hertz, dtype=np.float64)
