"""A-weighting and A-weighted differences."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES, FloatArray, energy_sum_level

_POLES = (20.598997, 107.65265, 737.86223, 12194.217)  # Hz, IEC 61672-1 annex E


def _gain(frequency: FloatArray) -> FloatArray:
    f1, f2, f3, f4 = _POLES
    low = frequency**2 / (frequency**2 + f1**2)
    middle = frequency**2 / np.sqrt((frequency**2 + f2**2) * (frequency**2 + f3**2))
    return np.asarray(low * middle * f4**2 / (frequency**2 + f4**2))


def a_weighting(frequency: ArrayLike) -> FloatArray:
    r"""A-weighting.

    Parameters
    ----------
    frequency : array_like, shape (n_frequency,)
        Frequency [Hz], > 0; exact mid-band, not nominal.

    Returns
    -------
    ndarray
        Weighting [dB].

    Raises
    ------
    InvalidInput
        If a frequency is not above zero.

    Notes
    -----
    .. math:: A = 20\lg\frac{f_4^2 f^4}{(f^2+f_1^2)\sqrt{(f^2+f_2^2)(f^2+f_3^2)}(f^2+f_4^2)} - A_{1000}

    with f₁ = 20.60, f₂ = 107.7, f₃ = 737.9 and f₄ = 12 194 Hz, and A₁₀₀₀ (−2.000 dB) so that 1 kHz has 0 dB [1]_.

    References
    ----------
    .. [1] IEC 61672-1:2013, *Sound level meters*, annex E (constants from memory, checked on the printed table).

    Examples
    --------
    >>> a_weighting([100.0, 1000.0]).round(1).tolist()
    [-19.1, 0.0]
    """
    f = np.asarray(frequency, dtype=np.float64)
    if np.any(~(f > 0)):
        raise InvalidInput(f"frequency is {f.tolist()} Hz; it must be above zero")
    return np.asarray(20.0 * np.log10(_gain(f) / _gain(np.array(1000.0))))


A_WEIGHTING: FloatArray = a_weighting(FREQUENCIES)
"""A-weighting [dB] of the 27 bands; read-only."""
A_WEIGHTING.setflags(write=False)


def a_weighted_level(levels: ArrayLike) -> float:
    """A-weighted level of a spectrum.

    Parameters
    ----------
    levels : array_like, shape (27,)
        Third-octave band levels [dB]; −inf stands for silence.

    Returns
    -------
    float
        A-weighted level [dB].

    Raises
    ------
    InvalidInput
        If there are not 27 levels.

    References
    ----------
    .. [1] IEC 61672-1:2013.

    Examples
    --------
    >>> round(a_weighted_level([40.0] * 27), 1)
    51.8
    """
    third = np.asarray(levels, dtype=np.float64)
    if third.shape != FREQUENCIES.shape:
        raise InvalidInput(f"{third.shape} levels given; the A-weighted level needs the 27 third-octave bands")
    return float(energy_sum_level(third + A_WEIGHTING))


def a_weighted_difference(levels: ArrayLike, level_difference: ArrayLike) -> float:
    """A-weighted level difference for a spectrum: what the ear gains when the spectrum passes an isolation.

    Parameters
    ----------
    levels : array_like, shape (27,)
        Band levels of the sound outside [dB].
    level_difference : array_like, shape (27,)
        Level difference by band [dB].

    Returns
    -------
    float
        A-weighted level outside minus A-weighted level inside [dB].

    Raises
    ------
    InvalidInput
        If there are not 27 values.

    References
    ----------
    .. [1] ISO 717-1:2020, clause 3 (the same quantity for a spectrum of one's own).

    Examples
    --------
    >>> round(a_weighted_difference([60.0] * 27, [30.0] * 27), 1)
    30.0
    """
    third = np.asarray(levels, dtype=np.float64)
    return a_weighted_level(third) - a_weighted_level(third - np.asarray(level_difference, dtype=np.float64))
