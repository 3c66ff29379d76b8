"""Reference contours of the rating standards, and how they settle on a curve.

Values are rounded as the standards ask before they are compared with a contour, so that a computed curve and the same
curve typed from a report rate alike.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS, FloatArray
from hushwright.physics.acoustics.published import published_values

BUILDING_BANDS: Final = THIRD_OCTAVE_BANDS[3:24]
"""Nominal third-octave bands [Hz] in which sound reduction is reported, 50 Hz to 5 kHz."""

_TABLE: Final = "rating_spectra.csv"
_EPSILON: Final = 1e-9  # a value printed as 33.05 is 33.0499… in binary and must still round up


@dataclass(frozen=True, slots=True)
class ContourFit:
    """Where a rating contour came to rest on a curve.

    Parameters
    ----------
    value : float
        The rating [dB].
    deficiency_sum : float
        What the curve lacks below the contour in all bands [dB].
    deficiencies : tuple of pairs, shape (n_lacking, 2)
        Bands [Hz] that lack something with what they lack [dB], largest first.

    References
    ----------
    .. [1] ISO 717-1:2020; ASTM E413-22.
    """

    value: float
    deficiency_sum: float
    deficiencies: tuple[tuple[float, float], ...]


def half_up(values: ArrayLike, step: float = 1.0) -> NDArray[np.int64]:
    """Multiples of a step, halves rounded up, as integers so that later sums and comparisons are exact.

    Parameters
    ----------
    values : array_like, shape (n_value,)
        Values [dB or -].
    step : float, optional
        Step to round to, in the unit of the values [dB or -].

    Returns
    -------
    ndarray of int
        Number of steps [-].

    References
    ----------
    .. [1] ISO 80000-1:2009, annex B, rule B (halves away from zero, here upward as the rating standards print it).

    Examples
    --------
    >>> half_up([33.05, 33.04], 0.1).tolist()
    [331, 330]
    """
    return np.floor(np.asarray(values, dtype=np.float64) / step + 0.5 + _EPSILON).astype(np.int64)


def pick_bands(reduction: ArrayLike, bands: Sequence[float] | None, wanted: tuple[float, ...]) -> FloatArray:
    """Values of the wanted bands out of a curve whose bands are known by its length or given.

    Parameters
    ----------
    reduction : array_like, shape (27,) or (21,) or (n_band,)
        Curve [dB].
    bands : sequence of float, shape (n_band,), optional
        Nominal bands [Hz]; without them 27 values are 25 Hz–10 kHz and 21 are 50–5000 Hz.
    wanted : tuple of float, shape (n_wanted,)
        Nominal bands to pick [Hz].

    Returns
    -------
    ndarray, shape (n_wanted,)
        Values [dB].

    Raises
    ------
    InvalidInput
        If the number of values fits no bands, or a wanted band is missing or not finite.

    References
    ----------
    .. [1] ISO 717-1:2020, clause 4.4; ASTM E413-22, clause 5.

    Examples
    --------
    >>> pick_bands(range(27), None, (25.0, 10000.0)).tolist()
    [0.0, 26.0]
    """
    curve = np.asarray(reduction, dtype=np.float64)
    known = {len(THIRD_OCTAVE_BANDS): THIRD_OCTAVE_BANDS, len(BUILDING_BANDS): BUILDING_BANDS}
    labels = tuple(bands) if bands is not None else known.get(curve.size, ())
    if curve.ndim != 1 or curve.size != len(labels):
        raise InvalidInput(f"a curve of shape {curve.shape}, {len(labels)} bands; give 27 or 21 values, or the bands")
    place = {float(label): index for index, label in enumerate(labels)}
    missing = [band for band in wanted if band not in place or not np.isfinite(curve[place[band]])]
    if missing:
        listed = ", ".join(f"{band:g}" for band in missing)
        raise InvalidInput(f"this rating needs the bands {listed} Hz; they are not there")
    return curve[[place[band] for band in wanted]]


def published_contour(identifier: str) -> tuple[tuple[float, ...], FloatArray]:
    """Bands and values of a contour or spectrum out of the table of rating spectra.

    Parameters
    ----------
    identifier : str
        Row of the table [-].

    Returns
    -------
    tuple of tuple and ndarray
        Nominal bands [Hz] and values [dB].

    Raises
    ------
    InvalidInput
        If the table has no such row.

    References
    ----------
    .. [1] ISO 717-1:2020, clause 4.4; ASTM E413-22, clause 5.

    Examples
    --------
    >>> bands, values = published_contour("stc_contour")
    >>> bands[0], float(values[0])
    (125.0, -16.0)
    """
    pairs = published_values(_TABLE, "f_", id=identifier)
    return tuple(band for band, _ in pairs), np.array([value for _, value in pairs])


def settle(
    curve: NDArray[np.int64], contour: NDArray[np.int64], step: int, allowed: int, allowed_band: int | None
) -> tuple[int, NDArray[np.int64]]:
    """Highest shift of a contour at which a curve lacks no more than allowed.

    Parameters
    ----------
    curve, contour : ndarray of int, shape (n_band,)
        Curve and contour in whole units, decibels or tenths [dB or 0.1 dB].
    step : int
        The shift is a multiple of it [dB or 0.1 dB].
    allowed : int
        Sum of what the curve may lack [dB or 0.1 dB].
    allowed_band : int or None
        What one band may lack [dB or 0.1 dB].

    Returns
    -------
    tuple of int and ndarray
        Shift, and what each band lacks there [dB or 0.1 dB], in the unit of the curve.

    References
    ----------
    .. [1] ISO 717-1:2020, clause 4.4; ASTM E413-22, clause 5.

    Examples
    --------
    >>> shift, lacking = settle(np.array([30, 30]), np.array([0, 4]), 1, 2, None)
    >>> shift, lacking.tolist()
    (28, [0, 2])
    """
    # The loop starts where the curve lacks nothing and goes up, so it ends at the last shift allowed.
    shift = int(np.min(curve - contour)) // step * step
    while True:
        lacking = np.maximum(contour + shift + step - curve, 0)
        if lacking.sum() > allowed or (allowed_band is not None and lacking.max() > allowed_band):
            return shift, np.maximum(contour + shift - curve, 0)
        shift += step


def contour_fit(value: float, lacking: NDArray[np.int64], unit: float, bands: tuple[float, ...]) -> ContourFit:
    """Rating with the bands that hold it down.

    Parameters
    ----------
    value : float
        Rating [dB].
    lacking : ndarray of int, shape (n_band,)
        What each band lacks, in whole units [dB or 0.1 dB].
    unit : float
        Size of a unit [dB].
    bands : tuple of float, shape (n_band,)
        Nominal bands [Hz].

    Returns
    -------
    ContourFit
        Rating and deficiencies [dB].

    References
    ----------
    .. [1] ISO 717-1:2020, clause 4.4; ASTM E413-22, clause 5.

    Examples
    --------
    >>> contour_fit(30.0, np.array([0, 2]), 1.0, (125.0, 160.0)).deficiencies
    ((160.0, 2.0),)
    """
    pairs = [(band, round(int(lack) * unit, 1)) for band, lack in zip(bands, lacking, strict=True) if lack > 0]
    pairs.sort(key=lambda pair: -pair[1])
    return ContourFit(value, round(int(lacking.sum()) * unit, 1), tuple(pairs))
