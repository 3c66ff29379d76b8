"""Audible danger signals against noise after ISO 7731."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES, FloatArray, third_to_octave_levels
from hushwright.physics.acoustics.weighting import a_weighted_level

LEAST_LEVEL: Final = 65.0
"""Least A-weighted level of an audible danger signal [dB]; ISO 7731:2003, clause 5 (memory)."""

OVER_NOISE: Final = 15.0
"""A-weighted level over the noise that makes a signal heard [dB]; ISO 7731:2003 (memory)."""

OVER_OCTAVE: Final = 10.0
"""Level over the masked threshold in one octave 250 Hz to 4 kHz that makes it heard [dB]; ISO 7731:2003 (memory)."""

OVER_THIRD: Final = 13.0
"""Level over the masked threshold in one third octave that makes it heard [dB]; ISO 7731:2003 (memory)."""

_SLOPE_OF_THIRDS: Final = 2.5
"""dB by which the masked threshold may fall from a third octave to the next higher; ISO 7731:2003, annex B (memory)."""

_SLOPE_OF_OCTAVES: Final = 7.5
"""dB by which it may fall from an octave to the next higher; ISO 7731:2003, annex B (memory)."""

_LOWEST, _HIGHEST = 180.0, 5700.0
"""Hz, edges of the octaves 250 Hz to 4 kHz."""


@dataclass(frozen=True, slots=True)
class SignalOverNoise:
    """How far a signal stands over the noise.

    Parameters
    ----------
    level : float
        A-weighted level of the signal [dB].
    over_noise : float
        A-weighted level of the signal over that of the noise [dB].
    over_octave : float
        Level over the masked threshold in the best octave [dB].
    over_third : float
        Level over the masked threshold in the best third octave [dB].

    References
    ----------
    .. [1] ISO 7731:2003, *Danger signals for public and work areas – Auditory danger signals* (memory).

    Examples
    --------
    >>> SignalOverNoise(70.0, 16.0, 8.0, 9.0).margin
    1.0
    """

    level: float
    over_noise: float
    over_octave: float
    over_third: float

    @property
    def margin(self) -> float:
        """What is left over the least level and over the rule that serves best [dB]; below zero it is not heard."""
        best = max(self.over_noise - OVER_NOISE, self.over_octave - OVER_OCTAVE, self.over_third - OVER_THIRD)
        return min(self.level - LEAST_LEVEL, best)


def masked_threshold(levels: ArrayLike, slope: float = _SLOPE_OF_THIRDS) -> FloatArray:
    """Level below which the noise masks a tone, band by band.

    Parameters
    ----------
    levels : array_like, shape (n_band,)
        Band levels of the noise, low bands first [dB].
    slope : float, optional
        How far the threshold falls from a band to the next higher [dB]: 2.5 in third octaves, 7.5 in octaves.

    Returns
    -------
    ndarray, shape (n_band,)
        Masked threshold [dB], never below the noise.

    Raises
    ------
    InvalidInput
        If the slope is not above zero.

    Notes
    -----
    ``L_T,i = max(L_N,i, L_T,i−1 − slope)``: low noise masks upward.

    References
    ----------
    .. [1] ISO 7731:2003, annex B (memory).

    Examples
    --------
    >>> masked_threshold([80.0, 60.0, 60.0], 7.5).tolist()
    [80.0, 72.5, 65.0]
    """
    if not slope > 0.0:
        raise InvalidInput(f"slope is {slope} dB; it must be above zero")
    noise = np.asarray(levels, dtype=np.float64)
    steps = slope * np.arange(noise.size)
    return np.asarray(np.maximum(np.maximum.accumulate(noise + steps) - steps, noise))


def signal_over_noise(signal: ArrayLike, noise: ArrayLike) -> SignalOverNoise:
    """Hold an audible danger signal against the noise where people are.

    Parameters
    ----------
    signal : array_like, shape (27,)
        Third-octave levels of the signal there [dB].
    noise : array_like, shape (27,)
        Third-octave levels of the noise there [dB].

    Returns
    -------
    SignalOverNoise
        Levels over the noise [dB].

    Raises
    ------
    InvalidInput
        If there are not 27 levels of both.

    Notes
    -----
    One of the three rules is enough, and 65 dB(A) are asked for always. Bands outside 250 Hz to 4 kHz count in the
    A-weighted levels alone.

    References
    ----------
    .. [1] ISO 7731:2003, clause 5 (memory).

    Examples
    --------
    A tone of 80 dB at 1 kHz in an even noise of 50 dB in every band:

    >>> tone = [-200.0] * 27
    >>> tone[16] = 80.0
    >>> found = signal_over_noise(tone, [50.0] * 27)
    >>> round(found.over_third, 1), round(found.over_octave, 1), round(found.margin, 1)
    (30.0, 25.2, 15.0)
    """
    heard, around = np.asarray(signal, dtype=np.float64), np.asarray(noise, dtype=np.float64)
    if heard.shape != FREQUENCIES.shape or around.shape != FREQUENCIES.shape:
        raise InvalidInput(f"{heard.shape} levels of signal and {around.shape} of noise given; 27 are needed of both")
    level = a_weighted_level(heard)
    inside = (FREQUENCIES > _LOWEST) & (FREQUENCIES < _HIGHEST)
    thirds = (heard - masked_threshold(around))[inside]
    octaves = third_to_octave_levels(heard) - masked_threshold(third_to_octave_levels(around), _SLOPE_OF_OCTAVES)
    return SignalOverNoise(level, level - a_weighted_level(around), float(np.max(octaves[3:8])), float(np.max(thirds)))
