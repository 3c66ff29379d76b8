"""Single-number ratings of sound reduction and of absorption.

Values are rounded as the standards ask before they are compared with a contour, so that a computed curve and the same
curve typed from a report rate alike.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS, FloatArray, energy_sum_level
from hushwright.physics.acoustics.published import published_values

BUILDING_BANDS: Final = THIRD_OCTAVE_BANDS[3:24]
"""Nominal third-octave bands [Hz] in which sound reduction is reported, 50 Hz to 5 kHz."""

TermRange = Literal["100-3150", "50-3150", "50-5000", "100-5000"]

_TABLE: Final = "rating_spectra.csv"
_EPSILON: Final = 1e-9  # a value printed as 33.05 is 33.0499… in binary and must still round up


@dataclass(frozen=True, slots=True)
class ContourFit:
    """Where a rating contour came to rest on a curve.

    ``value`` is the rating; ``deficiency_sum`` [dB] what the curve lacks below the contour in all bands, and
    ``deficiencies`` the bands [Hz] that lack something with what they lack [dB], largest first.
    """

    value: float
    deficiency_sum: float
    deficiencies: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class AdaptationTerms:
    """Spectrum adaptation terms C (pink noise, voices) and Ctr (urban traffic) [dB] for one range of bands."""

    c: float
    ctr: float


@dataclass(frozen=True, slots=True)
class Rating:
    """The usual single numbers of one curve 50–5000 Hz [dB]; terms are to be added to ``rw``."""

    rw: int
    c: int
    ctr: int
    c_50_5000: int
    ctr_50_5000: int
    stc: int
    oitc: int


@dataclass(frozen=True, slots=True)
class AbsorptionRating:
    """ISO 11654 rating: weighted coefficient [-], shape indicator ("", "L", "M", "H" or joined) and class A–E or ""."""

    weighted: float
    indicator: str
    absorption_class: str


@dataclass(frozen=True, slots=True)
class LiningImprovement:
    """What a lining adds to the rating of a reference element [dB]."""

    rw: float
    rw_plus_c: float
    rw_plus_ctr: float
    rw_plus_c_50_3150: float
    rw_plus_c_50_5000: float
    rw_plus_c_100_5000: float
    rw_plus_ctr_50_3150: float
    rw_plus_ctr_50_5000: float
    rw_plus_ctr_100_5000: float


def _half_up(values: ArrayLike, step: float = 1.0) -> NDArray[np.int64]:
    """Multiples of ``step``, halves rounded up, as integers so that later sums and comparisons are exact."""
    return np.floor(np.asarray(values, dtype=np.float64) / step + 0.5 + _EPSILON).astype(np.int64)


def _in_bands(reduction: ArrayLike, bands: Sequence[float] | None, wanted: tuple[float, ...]) -> FloatArray:
    """Values of the wanted bands out of a curve whose bands are known by its length or given."""
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


def _contour(identifier: str) -> tuple[tuple[float, ...], FloatArray]:
    pairs = published_values(_TABLE, "f_", id=identifier)
    return tuple(band for band, _ in pairs), np.array([value for _, value in pairs])


def _settle(
    curve: NDArray[np.int64], contour: NDArray[np.int64], step: int, allowed: int, allowed_band: int | None
) -> tuple[int, NDArray[np.int64]]:
    """Highest shift, a multiple of ``step``, at which the curve lacks no more than allowed; all in the same unit."""
    # From above every contour value the curve lacks nothing, so one pass upward finds the last shift allowed.
    shift = int(np.min(curve - contour)) // step * step
    while True:
        lacking = np.maximum(contour + shift + step - curve, 0)
        if lacking.sum() > allowed or (allowed_band is not None and lacking.max() > allowed_band):
            return shift, np.maximum(contour + shift - curve, 0)
        shift += step


def _fit(value: float, lacking: NDArray[np.int64], unit: float, bands: tuple[float, ...]) -> ContourFit:
    pairs = [(band, round(int(lack) * unit, 1)) for band, lack in zip(bands, lacking, strict=True) if lack > 0]
    pairs.sort(key=lambda pair: -pair[1])
    return ContourFit(value, round(int(lacking.sum()) * unit, 1), tuple(pairs))


def weighted_index_fit(
    reduction: ArrayLike, bands: Sequence[float] | None = None, *, in_tenths: bool = False, octaves: bool = False
) -> ContourFit:
    """Weighted single number after ISO 717-1, with the bands that hold it down.

    Parameters
    ----------
    reduction : array_like, shape (27,) or (21,) or (n_band,)
        Sound reduction index or level difference [dB].
    bands : sequence of float, optional
        Nominal bands [Hz] of the values; without them 27 values are 25 Hz–10 kHz and 21 are 50–5000 Hz.
    in_tenths : bool, optional
        Move the reference curve in steps of 0.1 dB, for statements of uncertainty, not of 1 dB [-].
    octaves : bool, optional
        Rate octave bands 125–2000 Hz (field measurements only) [-].

    Returns
    -------
    ContourFit
        Rating, sum of unfavourable deviations and deviations by band [dB].

    Raises
    ------
    InvalidInput
        If a band the rating needs is missing.

    Notes
    -----
    Values rounded to 0.1 dB; the curve is moved up until the sum of unfavourable deviations would exceed 32.0 dB
    (octaves 10.0 dB); the rating is its value at 500 Hz [1]_.

    References
    ----------
    .. [1] ISO 717-1:2020, *Rating of sound insulation – Airborne*, clauses 4.4 and 4.5.

    Examples
    --------
    >>> curve = [33, 36, 39, 42, 45, 48, 51, 52, 53, 54, 55, 56, 56, 56, 56, 56]
    >>> fit = weighted_index_fit(curve, BUILDING_BANDS[3:19])
    >>> fit.value, fit.deficiency_sum
    (54.0, 32.0)
    """
    labels, contour = _contour("iso717_ref_oct" if octaves else "iso717_ref")
    tenths = _half_up(_in_bands(reduction, bands, labels), 0.1)
    contour_tenths = _half_up(contour, 0.1)
    allowed = 100 if octaves else 320
    shift, lacking = _settle(tenths, contour_tenths, 1 if in_tenths else 10, allowed, None)
    return _fit((520 + shift) / 10, lacking, 0.1, labels)


def weighted_sound_reduction_index(
    reduction: ArrayLike, bands: Sequence[float] | None = None, *, in_tenths: bool = False, octaves: bool = False
) -> float:
    """Weighted sound reduction index Rw (or Dw, DnT,w) after ISO 717-1.

    Parameters
    ----------
    reduction : array_like, shape (27,) or (21,) or (n_band,)
        Sound reduction index or level difference [dB].
    bands : sequence of float, optional
        Nominal bands [Hz]; see `weighted_index_fit`.
    in_tenths : bool, optional
        Move the reference curve in steps of 0.1 dB, not of 1 dB [-].
    octaves : bool, optional
        Rate octave bands 125–2000 Hz [-].

    Returns
    -------
    float
        Weighted index [dB].

    Raises
    ------
    InvalidInput
        If a band from 100 to 3150 Hz is missing.

    References
    ----------
    .. [1] ISO 717-1:2020, clauses 4.4 and 4.5.

    Examples
    --------
    >>> weighted_sound_reduction_index([30.0] * 27)
    30.0
    """
    return weighted_index_fit(reduction, bands, in_tenths=in_tenths, octaves=octaves).value


def weighted_level_difference(
    reduction: ArrayLike,
    bands: Sequence[float] | None = None,
    *,
    spectrum: Literal["pink", "traffic"],
    term_range: TermRange = "100-3150",
    octaves: bool = False,
) -> float:
    """A-weighted level difference for the normalised spectra of ISO 717-1, before rounding (Rw + C or Rw + Ctr).

    Parameters
    ----------
    reduction : array_like, shape (27,) or (21,) or (n_band,)
        Sound reduction index or level difference [dB].
    bands : sequence of float, optional
        Nominal bands [Hz]; see `weighted_index_fit`.
    spectrum : {"pink", "traffic"}
        Spectrum No 1 or No 2 [-].
    term_range : {"100-3150", "50-3150", "50-5000", "100-5000"}, optional
        Bands that are summed [Hz].
    octaves : bool, optional
        Use octave bands 125–2000 Hz [-].

    Returns
    -------
    float
        Level difference [dB].

    Raises
    ------
    InvalidInput
        If a band of the range is missing.

    Notes
    -----
    ``X = −10 lg Σ 10^((L − R)/10)`` with R rounded to 0.1 dB [1]_.

    References
    ----------
    .. [1] ISO 717-1:2020, clause 4.6 and Annex B.

    Examples
    --------
    >>> round(weighted_level_difference([30.0] * 27, spectrum="traffic"), 1)
    30.0
    """
    labels, levels = _spectrum(spectrum, term_range, octaves)
    rounded = _half_up(_in_bands(reduction, bands, labels), 0.1) / 10.0
    return -float(energy_sum_level(levels - rounded))


def _spectrum(spectrum: str, term_range: TermRange, octaves: bool) -> tuple[tuple[float, ...], FloatArray]:
    number = {"pink": "1", "traffic": "2"}[spectrum]
    if octaves:
        return _contour(f"iso717_spec{number}_oct")
    suffix = {"100-3150": "", "50-3150": "_50_3150", "50-5000": "_50_5000", "100-5000": "_50_5000"}[term_range]
    labels, levels = _contour(f"iso717_spec{number}{suffix}")
    first = labels.index(float(term_range.split("-")[0]))
    return labels[first:], levels[first:]


def spectrum_adaptation_terms(
    reduction: ArrayLike,
    bands: Sequence[float] | None = None,
    *,
    term_range: TermRange = "100-3150",
    in_tenths: bool = False,
    octaves: bool = False,
) -> AdaptationTerms:
    """Spectrum adaptation terms C and Ctr after ISO 717-1.

    Parameters
    ----------
    reduction : array_like, shape (27,) or (21,) or (n_band,)
        Sound reduction index or level difference [dB].
    bands : sequence of float, optional
        Nominal bands [Hz]; see `weighted_index_fit`.
    term_range : {"100-3150", "50-3150", "50-5000", "100-5000"}, optional
        Bands that are summed [Hz].
    in_tenths : bool, optional
        Round the index and the terms to 0.1 dB, not to 1 dB [-].
    octaves : bool, optional
        Use octave bands [-].

    Returns
    -------
    AdaptationTerms
        C and Ctr [dB].

    Raises
    ------
    InvalidInput
        If a band is missing.

    References
    ----------
    .. [1] ISO 717-1:2020, clause 4.6 and Annex B.

    Examples
    --------
    >>> spectrum_adaptation_terms([30.0] * 27)
    AdaptationTerms(c=0.0, ctr=0.0)
    """
    step = 0.1 if in_tenths else 1.0
    index = weighted_sound_reduction_index(reduction, bands, in_tenths=in_tenths, octaves=octaves)
    pink, traffic = (
        round(int(_half_up(difference, step)) * step - index, 1) + 0.0
        for difference in (
            weighted_level_difference(reduction, bands, spectrum="pink", term_range=term_range, octaves=octaves),
            weighted_level_difference(reduction, bands, spectrum="traffic", term_range=term_range, octaves=octaves),
        )
    )
    return AdaptationTerms(pink, traffic)


def transmission_class_fit(
    reduction: ArrayLike, bands: Sequence[float] | None = None, *, eight_decibel_rule: bool = True
) -> ContourFit:
    """Sound transmission class after ASTM E413, with the bands that hold it down.

    Parameters
    ----------
    reduction : array_like, shape (27,) or (21,) or (n_band,)
        Transmission loss [dB].
    bands : sequence of float, optional
        Nominal bands [Hz]; see `weighted_index_fit`.
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
    labels, contour = _contour("stc_contour")
    curve = _half_up(_in_bands(reduction, bands, labels))
    shift, lacking = _settle(curve, _half_up(contour), 1, 32, 8 if eight_decibel_rule else None)
    return _fit(float(shift), lacking, 1.0, labels)


def sound_transmission_class(
    reduction: ArrayLike, bands: Sequence[float] | None = None, *, eight_decibel_rule: bool = True
) -> int:
    """Sound transmission class STC after ASTM E413.

    Parameters
    ----------
    reduction : array_like, shape (27,) or (21,) or (n_band,)
        Transmission loss [dB].
    bands : sequence of float, optional
        Nominal bands [Hz]; see `weighted_index_fit`.
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
        Nominal bands [Hz]; see `weighted_index_fit`.

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
    labels, levels = _contour("oitc_spectrum")
    _, weighting = _contour("a_weight")
    return 100.13 - float(energy_sum_level(levels + weighting - _in_bands(reduction, bands, labels)))


def outdoor_indoor_transmission_class(reduction: ArrayLike, bands: Sequence[float] | None = None) -> int:
    """Outdoor-indoor transmission class OITC after ASTM E1332.

    Parameters
    ----------
    reduction : array_like, shape (27,) or (21,) or (n_band,)
        Transmission loss [dB].
    bands : sequence of float, optional
        Nominal bands [Hz]; see `weighted_index_fit`.

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
    return int(_half_up(outdoor_indoor_level_difference(reduction, bands)))


def rate(reduction: ArrayLike, bands: Sequence[float] | None = None) -> Rating:
    """All usual single numbers of one curve.

    Parameters
    ----------
    reduction : array_like, shape (27,) or (21,) or (n_band,)
        Sound reduction index [dB], at least 50–5000 Hz.
    bands : sequence of float, optional
        Nominal bands [Hz]; see `weighted_index_fit`.

    Returns
    -------
    Rating
        Rw, C, Ctr, C and Ctr 50–5000 [dB], STC and OITC [-].

    Raises
    ------
    InvalidInput
        If a band from 50 to 5000 Hz is missing.

    References
    ----------
    .. [1] ISO 717-1:2020.
    .. [2] ASTM E413-22; ASTM E1332-22.

    Examples
    --------
    >>> rate([30.0] * 27)
    Rating(rw=30, c=0, ctr=0, c_50_5000=0, ctr_50_5000=0, stc=30, oitc=30)
    """
    usual = spectrum_adaptation_terms(reduction, bands)
    wide = spectrum_adaptation_terms(reduction, bands, term_range="50-5000")
    return Rating(
        rw=int(weighted_sound_reduction_index(reduction, bands)),
        c=int(usual.c),
        ctr=int(usual.ctr),
        c_50_5000=int(wide.c),
        ctr_50_5000=int(wide.ctr),
        stc=sound_transmission_class(reduction, bands),
        oitc=outdoor_indoor_transmission_class(reduction, bands),
    )


def lining_improvement(
    improvement: ArrayLike,
    bands: Sequence[float] | None = None,
    *,
    element: Literal["heavy_wall", "heavy_floor", "lightweight_wall"] = "heavy_wall",
) -> LiningImprovement:
    """What a lining adds to the rating of a standard basic element.

    Parameters
    ----------
    improvement : array_like, shape (27,) or (21,) or (n_band,)
        Improvement of sound reduction by the lining [dB].
    bands : sequence of float, optional
        Nominal bands [Hz]; see `weighted_index_fit`.
    element : {"heavy_wall", "heavy_floor", "lightweight_wall"}, optional
        Basic element [-].

    Returns
    -------
    LiningImprovement
        Differences of the ratings with and without the lining [dB].

    Raises
    ------
    InvalidInput
        If a band from 50 to 5000 Hz is missing.

    References
    ----------
    .. [1] ISO 717-1:2020, Annexes D and E.

    Examples
    --------
    >>> lining_improvement([5.0] * 27).rw
    5.0
    """
    labels, bare = _contour(f"lining_{element}")
    lined = bare + _in_bands(improvement, bands, labels)

    def difference(term_range: TermRange | None = None, spectrum: Literal["pink", "traffic"] = "pink") -> float:
        if term_range is None:
            return weighted_sound_reduction_index(lined, labels) - weighted_sound_reduction_index(bare, labels)
        values = (
            _half_up(weighted_level_difference(curve, labels, spectrum=spectrum, term_range=term_range))
            for curve in (lined, bare)
        )
        return float(next(values) - next(values))

    ranges: tuple[TermRange, ...] = ("100-3150", "50-3150", "50-5000", "100-5000")
    pink = [difference(term_range) for term_range in ranges]
    traffic = [difference(term_range, "traffic") for term_range in ranges]
    return LiningImprovement(difference(), pink[0], traffic[0], *pink[1:], *traffic[1:])


def absorption_rating(absorption: ArrayLike) -> AbsorptionRating:
    """Weighted absorption coefficient, shape indicator and class after ISO 11654.

    Parameters
    ----------
    absorption : array_like, shape (27,) or (5,)
        Absorption coefficient [-] in third octaves 25 Hz–10 kHz, or the practical coefficient in the octaves
        250–4000 Hz.

    Returns
    -------
    AbsorptionRating
        Weighted coefficient [-], indicator, class.

    Raises
    ------
    InvalidInput
        If the shape is another or a value is negative.

    Notes
    -----
    Thirds are averaged into octaves and rounded to 0.05, at most 1.00. The curve 0.80, 1.00, 1.00, 1.00, 0.90 is moved
    down in steps of 0.05 until the values lack no more than 0.10 together. An indicator is set where a value exceeds
    the moved curve by 0.25 or more [1]_.

    References
    ----------
    .. [1] ISO 11654:1997, *Sound absorbers for use in buildings* (reference curve and classes from memory).

    Examples
    --------
    >>> absorption_rating([0.35, 0.70, 0.65, 0.60, 0.55])
    AbsorptionRating(weighted=0.6, indicator='', absorption_class='C')
    """
    values = np.asarray(absorption, dtype=np.float64)
    if values.shape == (len(THIRD_OCTAVE_BANDS),):
        values = values.reshape(9, 3)[3:8].mean(axis=1)
    if values.shape != (5,) or np.any(~np.isfinite(values)) or np.any(values < 0):
        raise InvalidInput(f"absorption {np.asarray(absorption).tolist()}; give 27 thirds or 5 octaves, none negative")
    # Twentieths as integers keep the comparison with 0.10 exact.
    practical = np.minimum(_half_up(values, 0.05), 20)
    curve = np.array([16, 20, 20, 20, 18])
    shift = next(shift for shift in range(21) if np.maximum(curve - shift - practical, 0).sum() <= 2)
    excess = practical - np.maximum(curve - shift, 0) >= 5
    indicator = "".join(
        letter for letter, hit in zip("LMH", (excess[0], excess[1:3].any(), excess[3:].any()), strict=True) if hit
    )
    twentieths = 20 - shift
    floors = (("A", 18), ("B", 16), ("C", 12), ("D", 6), ("E", 3))
    return AbsorptionRating(
        round(twentieths * 0.05, 2), indicator, next((name for name, floor in floors if twentieths >= floor), "")
    )
