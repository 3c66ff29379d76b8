"""Third-octave and octave bands after IEC 61260-1 (base ten), and sums of levels over them."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput

FloatArray = NDArray[np.float64]

THIRD_OCTAVE_BANDS: Final[tuple[float, ...]] = (
    25, 31.5, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150,
    4000, 5000, 6300, 8000, 10000,
)  # fmt: skip
"""Nominal labels [Hz] of the 27 bands every spectrum inside Hushwright has, 25 Hz to 10 kHz."""

OCTAVE_BANDS: Final[tuple[float, ...]] = (31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000)
"""Nominal labels [Hz] of the octaves whose three thirds all lie in `THIRD_OCTAVE_BANDS`."""

N_BANDS: Final = len(THIRD_OCTAVE_BANDS)
_FIRST_BAND_NUMBER: Final = -16  # 25 Hz = 1000 · 10^(−16/10)


def exact_midband(band: ArrayLike) -> FloatArray:
    """Exact mid-band frequency of nominal third-octave bands.

    Parameters
    ----------
    band : array_like, shape (n_band,)
        Nominal band label [Hz].

    Returns
    -------
    ndarray, shape (n_band,)
        Exact mid-band frequency [Hz], ``1000 · 10^(k/10)``.

    Raises
    ------
    InvalidInput
        If a label is not within 4 % of an exact mid-band frequency.

    References
    ----------
    .. [1] IEC 61260-1:2014, *Electroacoustics – Octave-band and fractional-octave-band filters*, clause 5.

    Examples
    --------
    >>> exact_midband([1000, 5000]).round(2).tolist()
    [1000.0, 5011.87]
    """
    label = np.asarray(band, dtype=np.float64)
    exact = 1000.0 * 10.0 ** (np.round(10.0 * np.log10(label / 1000.0)) / 10.0)
    if np.any(np.abs(label / exact - 1.0) > 0.04):
        raise InvalidInput(f"{label.tolist()} Hz holds a label that is no third-octave band")
    return np.asarray(exact, dtype=np.float64)


FREQUENCIES: Final[FloatArray] = exact_midband(THIRD_OCTAVE_BANDS)
"""Exact mid-band frequencies [Hz] of `THIRD_OCTAVE_BANDS`; read-only."""
FREQUENCIES.setflags(write=False)


def band_edges(frequency: ArrayLike) -> tuple[FloatArray, FloatArray]:
    """Lower and upper edge of third-octave bands.

    Parameters
    ----------
    frequency : array_like, shape (n_band,)
        Exact mid-band frequency [Hz].

    Returns
    -------
    tuple of two ndarrays, shape (n_band,)
        Band edges [Hz], mid-band times 10^(∓1/20).

    References
    ----------
    .. [1] IEC 61260-1:2014, clause 5.

    Examples
    --------
    >>> [round(float(edge), 1) for edge in band_edges(1000.0)]
    [891.3, 1122.0]
    """
    middle = np.asarray(frequency, dtype=np.float64)
    return middle * 10.0**-0.05, middle * 10.0**0.05


def energy_sum_level(levels: ArrayLike, axis: int = -1) -> FloatArray:
    """Level of the sum of energies.

    Parameters
    ----------
    levels : array_like, shape (..., n_level, ...)
        Levels [dB]; −inf stands for silence.
    axis : int, optional
        Axis that is summed [-].

    Returns
    -------
    ndarray
        Level of the sum [dB].

    References
    ----------
    .. [1] ISO 80000-8:2020, level of a power quantity.

    Examples
    --------
    >>> round(float(energy_sum_level([60.0, 60.0])), 2)
    63.01
    """
    with np.errstate(divide="ignore"):
        return np.asarray(10.0 * np.log10(np.sum(10.0 ** (np.asarray(levels, dtype=np.float64) / 10.0), axis=axis)))


def third_to_octave_levels(levels: ArrayLike) -> FloatArray:
    """Octave-band levels from the 27 third-octave levels.

    Parameters
    ----------
    levels : array_like, shape (27,)
        Band levels [dB] of `THIRD_OCTAVE_BANDS`.

    Returns
    -------
    ndarray, shape (9,)
        Band levels [dB] of `OCTAVE_BANDS`.

    Raises
    ------
    InvalidInput
        If there are not 27 levels.

    References
    ----------
    .. [1] IEC 61260-1:2014, clause 5: an octave is three adjacent thirds.

    Examples
    --------
    >>> third_to_octave_levels([50.0] * 27).round(2).tolist()[:2]
    [54.77, 54.77]
    """
    third = np.asarray(levels, dtype=np.float64)
    if third.shape != (N_BANDS,):
        raise InvalidInput(f"{third.shape} levels given; octave sums need the {N_BANDS} third-octave bands")
    return energy_sum_level(third.reshape(len(OCTAVE_BANDS), 3))


def third_to_octave_reduction(reduction: ArrayLike) -> FloatArray:
    """Octave-band sound reduction from third octaves, for equal incident energy in the three thirds.

    Parameters
    ----------
    reduction : array_like, shape (27,)
        Sound reduction index [dB] of `THIRD_OCTAVE_BANDS`.

    Returns
    -------
    ndarray, shape (9,)
        Sound reduction index [dB] of `OCTAVE_BANDS`.

    Raises
    ------
    InvalidInput
        If there are not 27 values.

    References
    ----------
    .. [1] ISO 10140-2:2021, clause on conversion to octave bands.

    Examples
    --------
    >>> third_to_octave_reduction([30.0] * 27).round(2).tolist()[:2]
    [30.0, 30.0]
    """
    mean = third_to_octave_levels(-np.asarray(reduction, dtype=np.float64))
    return np.asarray(10.0 * np.log10(3.0) - mean)
