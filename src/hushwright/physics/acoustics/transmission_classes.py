"""American single numbers of transmission loss: STC after ASTM E413, OITC after ASTM E1332."""

from __future__ import annotations

from collections.abc import Sequence

from numpy.typing import ArrayLike

from hushwright.physics.acoustics.bands import energy_sum_level
from hushwright.physics.acoustics.rating_contours import (
    ContourFit,
    contour_fit,
    half_up,
    pick_bands,
    published_contour,
    settle,
)


def transmission_class_fit(
    reduction: ArrayLike, bands: Sequence[float] | None = None, *, eight_decibel_rule: bool = True
) -> ContourFit:
    """Sound transmission class after ASTM E413, with the bands that hold it down.

    Parameters
    ----------
    reduction : array_like, shape (27,) or (21,) or (n_band,)
        Transmission loss [dB].
    bands : sequence of float, optional
        Nominal bands [Hz]; without them 27 values are 25 Hz–10 kHz and 21 are 50–5000 Hz.
    eight_decibel_rule : bool, optional
        Allow no single band to lack more than 8 dB [-].

    Returns
    -------
    ContourFit
        Class, sum of deficiencies and deficiencies by band [dB].

    Raises
    ------
    InvalidInput
        If a band from 125 to 4000 Hz is missing.

    Notes
    -----
    Losses rounded to whole decibels; the contour is moved up until the deficiencies would exceed 32 dB together or
    8 dB in one band [1]_.

    References
    ----------
    .. [1] ASTM E413-22, *Classification for rating sound insulation*.

    Examples
    --------
    >>> fit = transmission_class_fit([30.0] * 27)
    >>> fit.value, fit.deficiency_sum
    (30.0, 30.0)
    """
    labels, contour = published_contour("stc_contour")
    curve = half_up(pick_bands(reduction, bands, labels))
    shift, lacking = settle(curve, half_up(contour), 1, 32, 8 if eight_decibel_rule else None)
    return contour_fit(float(shift), lacking, 1.0, labels)


def sound_transmission_class(
    reduction: ArrayLike, bands: Sequence[float] | None = None, *, eight_decibel_rule: bool = True
) -> int:
    """Sound transmission class STC after ASTM E413.

    Parameters
    ----------
    reduction : array_like, shape (27,) or (21,) or (n_band,)
        Transmission loss [dB].
    bands : sequence of float, optional
        Nominal bands [Hz]; without them 27 values are 25 Hz–10 kHz and 21 are 50–5000 Hz.
    eight_decibel_rule : bool, optional
        Allow no single band to lack more than 8 dB [-].

    Returns
    -------
    int
        Class [-].

    Raises
    ------
    InvalidInput
        If a band from 125 to 4000 Hz is missing.

    References
    ----------
    .. [1] ASTM E413-22.

    Examples
    --------
    >>> sound_transmission_class([30.0] * 27)
    30
    """
    return int(transmission_class_fit(reduction, bands, eight_decibel_rule=eight_decibel_rule).value)


def outdoor_indoor_level_difference(reduction: ArrayLike, bands: Sequence[float] | None = None) -> float:
    """A-weighted level difference for the transportation spectrum of ASTM E1332, before rounding.

    Parameters
    ----------
    reduction : array_like, shape (27,) or (21,) or (n_band,)
        Transmission loss [dB].
    bands : sequence of float, optional
        Nominal bands [Hz]; without them 27 values are 25 Hz–10 kHz and 21 are 50–5000 Hz.

    Returns
    -------
    float
        Level difference [dB]; rounded it is the outdoor-indoor transmission class.

    Raises
    ------
    InvalidInput
        If a band from 80 to 4000 Hz is missing.

    Notes
    -----
    ``100.13 − 10 lg Σ 10^((L − R + A)/10)``, 80–4000 Hz [1]_; L and A in the table beside the code are from memory,
    closed on the standard's own 100.13 dB(A).

    References
    ----------
    .. [1] ASTM E1332-22, *Classification for rating outdoor-indoor sound attenuation*.

    Examples
    --------
    >>> round(outdoor_indoor_level_difference([30.0] * 27), 1)
    30.0
    """
    labels, levels = published_contour("oitc_spectrum")
    _, weighting = published_contour("a_weight")
    return 100.13 - float(energy_sum_level(levels + weighting - pick_bands(reduction, bands, labels)))


def outdoor_indoor_transmission_class(reduction: ArrayLike, bands: Sequence[float] | None = None) -> int:
    """Outdoor-indoor transmission class OITC after ASTM E1332.

    Parameters
    ----------
    reduction : array_like, shape (27,) or (21,) or (n_band,)
        Transmission loss [dB].
    bands : sequence of float, optional
        Nominal bands [Hz]; without them 27 values are 25 Hz–10 kHz and 21 are 50–5000 Hz.

    Returns
    -------
    int
        Class [-].

    Raises
    ------
    InvalidInput
        If a band from 80 to 4000 Hz is missing.

    References
    ----------
    .. [1] ASTM E1332-22.

    Examples
    --------
    >>> outdoor_indoor_transmission_class([30.0] * 27)
    30
    """
    return int(half_up(outdoor_indoor_level_difference(reduction, bands)))
