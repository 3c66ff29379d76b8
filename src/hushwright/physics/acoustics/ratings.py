"""Single-number ratings of sound reduction after ISO 717-1; the American classes and absorbers are one import away."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.absorption_rating import AbsorptionRating, absorption_rating
from hushwright.physics.acoustics.bands import FloatArray, energy_sum_level
from hushwright.physics.acoustics.rating_contours import (
    BUILDING_BANDS,
    ContourFit,
    contour_fit,
    half_up,
    pick_bands,
    published_contour,
    settle,
)
from hushwright.physics.acoustics.transmission_classes import (
    outdoor_indoor_level_difference,
    outdoor_indoor_transmission_class,
    sound_transmission_class,
    transmission_class_fit,
)

__all__ = [
    "BUILDING_BANDS", "AbsorptionRating", "AdaptationTerms", "ContourFit", "LiningImprovement", "Rating",
    "absorption_rating", "lining_improvement", "outdoor_indoor_level_difference", "outdoor_indoor_transmission_class",
    "rate", "sound_transmission_class", "spectrum_adaptation_terms", "transmission_class_fit", "weighted_index_fit",
    "weighted_level_difference", "weighted_sound_reduction_index",
]  # fmt: skip

TermRange = Literal["100-3150", "50-3150", "50-5000", "100-5000"]
_TERM_TABLES: Final = {"100-3150": "", "50-3150": "_50_3150", "50-5000": "_50_5000", "100-5000": "_50_5000"}


@dataclass(frozen=True, slots=True)
class AdaptationTerms:
    """Spectrum adaptation terms C (pink noise, voices) and Ctr (urban traffic) [dB] for one range of bands."""

    spectrum_adaptation_term_c: float
    spectrum_adaptation_term_ctr: float


@dataclass(frozen=True, slots=True)
class Rating:
    """The usual single numbers of one curve 50–5000 Hz [dB]; terms are to be added to ``rw``."""

    rw: int
    spectrum_adaptation_term_c: int
    spectrum_adaptation_term_ctr: int
    spectrum_adaptation_term_c_50_5000: int
    spectrum_adaptation_term_ctr_50_5000: int
    stc: int
    oitc: int


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
    labels, contour = published_contour("iso717_ref_oct" if octaves else "iso717_ref")
    tenths = half_up(pick_bands(reduction, bands, labels), 0.1)
    contour_tenths = half_up(contour, 0.1)
    allowed = 100 if octaves else 320
    shift, lacking = settle(tenths, contour_tenths, 1 if in_tenths else 10, allowed, None)
    return contour_fit((520 + shift) / 10, lacking, 0.1, labels)


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
    rounded = half_up(pick_bands(reduction, bands, labels), 0.1) / 10.0
    return -float(energy_sum_level(levels - rounded))


def _spectrum(spectrum: str, term_range: TermRange, octaves: bool) -> tuple[tuple[float, ...], FloatArray]:
    if spectrum not in ("pink", "traffic") or term_range not in _TERM_TABLES:
        raise InvalidInput(f"no spectrum {spectrum!r} for {term_range!r} Hz in ISO 717-1")
    number = "1" if spectrum == "pink" else "2"
    if octaves:
        return published_contour(f"iso717_spec{number}_oct")
    labels, levels = published_contour(f"iso717_spec{number}{_TERM_TABLES[term_range]}")
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
    AdaptationTerms(spectrum_adaptation_term_c=0.0, spectrum_adaptation_term_ctr=0.0)
    """
    step = 0.1 if in_tenths else 1.0
    index = weighted_sound_reduction_index(reduction, bands, in_tenths=in_tenths, octaves=octaves)
    pink, traffic = (
        round(int(half_up(difference, step)) * step - index, 1) + 0.0
        for difference in (
            weighted_level_difference(reduction, bands, spectrum="pink", term_range=term_range, octaves=octaves),
            weighted_level_difference(reduction, bands, spectrum="traffic", term_range=term_range, octaves=octaves),
        )
    )
    return AdaptationTerms(pink, traffic)


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
    >>> rating = rate([30.0] * 27)
    >>> rating.rw, rating.spectrum_adaptation_term_c, rating.stc, rating.oitc
    (30, 0, 30, 30)
    """
    usual = spectrum_adaptation_terms(reduction, bands)
    wide = spectrum_adaptation_terms(reduction, bands, term_range="50-5000")
    return Rating(
        rw=int(weighted_sound_reduction_index(reduction, bands)),
        spectrum_adaptation_term_c=int(usual.spectrum_adaptation_term_c),
        spectrum_adaptation_term_ctr=int(usual.spectrum_adaptation_term_ctr),
        spectrum_adaptation_term_c_50_5000=int(wide.spectrum_adaptation_term_c),
        spectrum_adaptation_term_ctr_50_5000=int(wide.spectrum_adaptation_term_ctr),
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
    labels, bare = published_contour(f"lining_{element}")
    lined = bare + pick_bands(improvement, bands, labels)

    def difference(term_range: TermRange | None = None, spectrum: Literal["pink", "traffic"] = "pink") -> float:
        if term_range is None:
            return weighted_sound_reduction_index(lined, labels) - weighted_sound_reduction_index(bare, labels)
        values = (
            half_up(weighted_level_difference(curve, labels, spectrum=spectrum, term_range=term_range))
            for curve in (lined, bare)
        )
        return float(next(values) - next(values))

    ranges: tuple[TermRange, ...] = ("100-3150", "50-3150", "50-5000", "100-5000")
    pink = [difference(term_range) for term_range in ranges]
    traffic = [difference(term_range, "traffic") for term_range in ranges]
    return LiningImprovement(difference(), pink[0], traffic[0], *pink[1:], *traffic[1:])
