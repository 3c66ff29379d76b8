"""Criteria for noise in rooms: NC, NR and hearing-test limits; limits by band and margins to them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import (
    N_BANDS,
    OCTAVE_BANDS,
    THIRD_OCTAVE_BANDS,
    FloatArray,
    third_to_octave_levels,
)
from hushwright.physics.acoustics.published import published_row, published_values

CurveSet = Literal["classic", "2019"]
Transducer = Literal["supra_aural", "insert", "circumaural", "bone", "sound_field"]

_CRITERIA: Final = "noise_criteria.csv"
_NC_CURVES: Final = tuple(range(15, 75, 5))
_HEARING: Final = "hearing_test_limits.csv"
_ATTENUATION: Final = {"supra_aural": "supra", "insert": "insert", "circumaural": "circum"}


@dataclass(frozen=True, slots=True)
class BandLimits:
    """Highest permitted band levels of one criterion.

    Parameters
    ----------
    name : str
        Name of the criterion [-].
    bands : tuple of float, shape (n_band,)
        The nine octaves or the 27 third octaves [Hz].
    limits : tuple of float, shape (n_band,)
        Limits [dB]; a band without one has +inf.
    basis : str
        Where they are from [-].
    validity : tuple of str, optional
        What is to be said with any result [-].

    References
    ----------
    .. [1] ANSI/ASA S12.2-2019; ISO/R 1996:1971; ISO 8253-1:2010.
    """

    name: str
    bands: tuple[float, ...]
    limits: tuple[float, ...]
    basis: str
    validity: tuple[str, ...] = ()

    def margins(self, levels: ArrayLike) -> FloatArray:
        """Limit minus level by band; positive is good, +inf where there is no limit.

        Parameters
        ----------
        levels : array_like, shape (27,) or shape of ``bands``
            Band levels [dB]; thirds are summed where the limits are octaves.

        Returns
        -------
        ndarray, shape (n_band,)
            Margins [dB].

        Raises
        ------
        InvalidInput
            If the number of levels fits neither.
        """
        given = np.asarray(levels, dtype=np.float64)
        if given.shape == (N_BANDS,) and len(self.bands) == len(OCTAVE_BANDS):
            given = third_to_octave_levels(given)
        if given.shape != (len(self.bands),):
            raise InvalidInput(f"{given.shape} levels given; {self.name} has {len(self.bands)} bands")
        return np.asarray(self.limits) - given


@dataclass(frozen=True, slots=True)
class CriterionRating:
    """Rating of a spectrum on a family of curves.

    Parameters
    ----------
    value : float
        Number of the curve, interpolated [-].
    governing_band : float
        Octave that touches it [Hz].
    validity : tuple of str, optional
        What is to be said with it [-].

    References
    ----------
    .. [1] ANSI/ASA S12.2-2019; ISO/R 1996:1971.
    """

    value: float
    governing_band: float
    validity: tuple[str, ...] = ()

    @property
    def whole(self) -> float:
        """Next whole number at or above the value [-]; −inf for silence."""
        return float(math.ceil(self.value - 1e-9)) if math.isfinite(self.value) else self.value

    @property
    def curve_of_five(self) -> float:
        """Lowest curve in steps of five at or above the value [-]; −inf for silence."""
        return 5.0 * math.ceil(self.value / 5.0 - 1e-9) if math.isfinite(self.value) else self.value


def _octaves(levels: ArrayLike) -> FloatArray:
    given = np.asarray(levels, dtype=np.float64)
    if given.shape == (N_BANDS,):
        return third_to_octave_levels(given)
    if given.shape != (len(OCTAVE_BANDS),):
        raise InvalidInput(f"{given.shape} levels given; give 27 third octaves or the 9 octaves 31.5 Hz to 8 kHz")
    return given


def _nc_table(curve_set: CurveSet) -> tuple[tuple[float, ...], FloatArray]:
    """Octaves of the set and levels, shape (n_curve, n_octave); the 16 Hz octave is below our bands."""
    rows = [dict(published_values(_CRITERIA, "l_", family=f"NC-{curve_set}", curve=str(curve))) for curve in _NC_CURVES]
    bands = tuple(band for band in OCTAVE_BANDS if band in rows[0])
    return bands, np.array([[row[band] for band in bands] for row in rows])


def _on_curves(level: float, curves: FloatArray) -> float:
    """Curve number at a level by straight lines between printed curves, going on beyond them with the end slope."""
    if not math.isfinite(level):
        return level
    place = int(np.clip(np.searchsorted(curves, level), 1, len(curves) - 1))
    low, high = curves[place - 1], curves[place]
    if high == low:  # two curves of the 2019 set share 90 dB in a low octave: the lower one is the tangent
        return float(_NC_CURVES[place - 1])
    return float(_NC_CURVES[place - 1] + 5.0 * (level - low) / (high - low))


def noise_criterion(
    levels: ArrayLike, *, curve_set: CurveSet = "classic", lowest_band: float = 31.5
) -> CriterionRating:
    """NC rating by the tangent method.

    Parameters
    ----------
    levels : array_like, shape (27,) or (9,)
        Third-octave levels, or the octaves 31.5 Hz to 8 kHz [dB].
    curve_set : {"classic", "2019"}, optional
        Curves of 1957, 63 Hz to 8 kHz, or of ANSI/ASA S12.2-2019, which start at 16 Hz [-].
    lowest_band : float, optional
        Lowest octave that counts [Hz], for a criterion such as "NC 25 from 250 Hz up".

    Returns
    -------
    CriterionRating
        Interpolated rating [-] and the octave that governs [Hz].

    Raises
    ------
    InvalidInput
        If the number of levels is wrong, or no octave counts.

    Notes
    -----
    In each octave the rating of the curve through the level, by straight lines between printed curves; the highest
    governs [1]_. Below NC 15 and above NC 70 the lines go on and the result says so. The 16 Hz octave of the 2019 set
    lies below our bands and is left out.

    References
    ----------
    .. [1] ANSI/ASA S12.2-2019, *Criteria for evaluating room noise*; L. L. Beranek, *Noise Control* 3 (1957) 19–27.

    Examples
    --------
    >>> rating = noise_criterion([-40, 46, 44, 38, 31, 27, 22, 24, 21])
    >>> rating.whole, rating.curve_of_five, rating.governing_band
    (27.0, 30.0, 4000)
    """
    octave = dict(zip(OCTAVE_BANDS, _octaves(levels).tolist(), strict=True))
    bands, curves = _nc_table(curve_set)
    numbers = {
        band: _on_curves(octave[band], curves[:, column]) for column, band in enumerate(bands) if band >= lowest_band
    }
    if not numbers:
        raise InvalidInput(f"the lowest band is {lowest_band} Hz; NC curves end at 8000 Hz")
    governing = max(numbers, key=lambda band: numbers[band])
    value = numbers[governing]
    notes = [f"NC {value:.0f} lies outside the printed curves NC 15 to NC 70"] if not 15 <= value <= 70 else []
    if lowest_band > bands[0]:
        notes.append(f"octaves below {lowest_band:g} Hz do not count")
    return CriterionRating(value, governing, tuple(notes))


def noise_criterion_limits(number: float, *, curve_set: CurveSet = "classic", lowest_band: float = 31.5) -> BandLimits:
    """Octave limits of an NC curve.

    Parameters
    ----------
    number : float
        NC number [-], 10 to 70; below 15 the curves are continued.
    curve_set : {"classic", "2019"}, optional
        Curves of 1957 or of ANSI/ASA S12.2-2019 [-].
    lowest_band : float, optional
        Lowest octave that has a limit [Hz].

    Returns
    -------
    BandLimits
        Limits of the nine octaves [dB].

    Raises
    ------
    InvalidInput
        If the number is not between 10 and 70.

    References
    ----------
    .. [1] ANSI/ASA S12.2-2019; L. L. Beranek, *Noise Control* 3 (1957) 19–27.

    Examples
    --------
    >>> noise_criterion_limits(25, lowest_band=250).limits[2:5]
    (inf, 37.0, 31.0)
    """
    if not 10 <= number <= 70:
        raise InvalidInput(f"NC {number} is outside NC 10 to NC 70")
    bands, curves = _nc_table(curve_set)
    place = min(max(int((number - 15) // 5), 0), len(_NC_CURVES) - 2)
    share = (number - _NC_CURVES[place]) / 5.0
    levels = dict(zip(bands, (curves[place] + share * (curves[place + 1] - curves[place])).tolist(), strict=True))
    limits = tuple(levels.get(band, math.inf) if band >= lowest_band else math.inf for band in OCTAVE_BANDS)
    notes = [f"NC {number:g} lies below the lowest printed curve, NC 15"] if number < 15 else []
    if lowest_band > bands[0]:
        notes.append(f"octaves below {lowest_band:g} Hz have no limit")
    source = published_row(_CRITERIA, family=f"NC-{curve_set}", curve="15")["source"]
    return BandLimits(f"NC {number:g}", OCTAVE_BANDS, limits, source, tuple(notes))


def _nr_coefficients() -> tuple[FloatArray, FloatArray]:
    rows = [dict(published_values(_CRITERIA, "l_", family=family, curve="coeff")) for family in ("NR-a", "NR-b")]
    start, slope = (np.array([row[band] for band in OCTAVE_BANDS]) for row in rows)
    return start, slope


def noise_rating(levels: ArrayLike, *, lowest_band: float = 31.5) -> CriterionRating:
    """NR rating by the tangent method.

    Parameters
    ----------
    levels : array_like, shape (27,) or (9,)
        Third-octave levels, or the octaves 31.5 Hz to 8 kHz [dB].
    lowest_band : float, optional
        Lowest octave that counts [Hz].

    Returns
    -------
    CriterionRating
        Rating [-] and the octave that governs [Hz].

    Raises
    ------
    InvalidInput
        If the number of levels is wrong, or no octave counts.

    Notes
    -----
    ``NR = max (L − a)/b`` over the octaves [1]_.

    References
    ----------
    .. [1] ISO/R 1996:1971 (NR curves; withdrawn, in use), coefficients found on a public page.

    Examples
    --------
    >>> round(noise_rating([62.2, 43.3, 30.7, 21.3, 14.5, 10.0, 6.6, 4.2, 2.3]).value)
    10
    """
    start, slope = _nr_coefficients()
    counts = np.array([band >= lowest_band for band in OCTAVE_BANDS])
    if not counts.any():
        raise InvalidInput(f"the lowest band is {lowest_band} Hz; NR curves end at 8000 Hz")
    numbers = np.where(counts, (_octaves(levels) - start) / slope, -np.inf)
    place = int(np.argmax(numbers)) if np.isfinite(numbers).any() else int(np.argmax(counts))
    notes = (f"octaves below {lowest_band:g} Hz do not count",) if lowest_band > OCTAVE_BANDS[0] else ()
    return CriterionRating(float(numbers[place]), OCTAVE_BANDS[place], notes)


def noise_rating_limits(number: float, *, lowest_band: float = 31.5) -> BandLimits:
    """Octave limits of an NR curve.

    Parameters
    ----------
    number : float
        NR number [-], 0 to 130.
    lowest_band : float, optional
        Lowest octave that has a limit [Hz].

    Returns
    -------
    BandLimits
        Limits of the nine octaves [dB].

    Raises
    ------
    InvalidInput
        If the number is not between 0 and 130.

    References
    ----------
    .. [1] ISO/R 1996:1971.

    Examples
    --------
    >>> noise_rating_limits(10).limits[5]
    10.0
    """
    if not 0 <= number <= 130:
        raise InvalidInput(f"NR {number} is outside NR 0 to NR 130")
    start, slope = _nr_coefficients()
    limits = tuple(
        value if band >= lowest_band else math.inf
        for band, value in zip(OCTAVE_BANDS, (start + slope * number).tolist(), strict=True)
    )
    notes = (f"octaves below {lowest_band:g} Hz have no limit",) if lowest_band > OCTAVE_BANDS[0] else ()
    return BandLimits(f"NR {number:g}", OCTAVE_BANDS, limits, "ISO/R 1996:1971, L = a + b NR", notes)


def earphone_attenuation(transducer: Literal["supra_aural", "insert", "circumaural"]) -> FloatArray:
    """Typical sound attenuation of earphones.

    Parameters
    ----------
    transducer : {"supra_aural", "insert", "circumaural"}
        Kind of earphone [-].

    Returns
    -------
    ndarray, shape (27,)
        Attenuation [dB]; NaN where the table has none.

    Raises
    ------
    InvalidInput
        If the kind is unknown.

    References
    ----------
    .. [1] ISO 8253-1:2010, table 3 (found).

    Examples
    --------
    >>> float(earphone_attenuation("insert")[16])
    37.0
    """
    if transducer not in _ATTENUATION:
        raise InvalidInput(f"{transducer!r} is no earphone; it is one of {', '.join(_ATTENUATION)}")
    table = dict(published_values(_HEARING, "b_", id=f"8253-1_att_{_ATTENUATION[transducer]}"))
    return np.array([table.get(band, math.nan) for band in THIRD_OCTAVE_BANDS])


def hearing_test_limits(
    transducer: Transducer = "supra_aural",
    *,
    lowest_tone: Literal[125, 250, 500] = 125,
    uncertainty: Literal[2, 5] = 2,
    lowest_level: float = 0.0,
) -> BandLimits:
    """Highest permitted background in a hearing-test room.

    Parameters
    ----------
    transducer : {"supra_aural", "insert", "circumaural", "bone", "sound_field"}, optional
        How the test tones reach the ear [-].
    lowest_tone : {125, 250, 500}, optional
        Lowest test tone [Hz]; 500 Hz only for earphones.
    uncertainty : {2, 5}, optional
        Error the background may cause [dB]; 5 dB allows 8 dB more noise.
    lowest_level : float, optional
        Lowest hearing level to be tested [dB], −10 to 40; the limits move with it.

    Returns
    -------
    BandLimits
        Limits of the 27 third octaves [dB], +inf where the table has none.

    Raises
    ------
    InvalidInput
        If the combination is not in the tables or the lowest level is out of range.

    Notes
    -----
    Earphones other than supra-aural ones: the limit moves by the difference of the attenuations [1]_. That the 8 dB
    hold for bone conduction and sound field too, and that limits move with the lowest level, is from memory.

    References
    ----------
    .. [1] ISO 8253-1:2010, *Audiometric test methods*, tables 2 to 4; ISO 8253-2:2009, table 2 (found).

    Examples
    --------
    >>> hearing_test_limits().limits[1], hearing_test_limits(uncertainty=5).limits[1]
    (56.0, 64.0)
    """
    family = {"bone": "8253-1_bone", "sound_field": "8253-2_field"}.get(transducer, "8253-1_air")
    if transducer not in _ATTENUATION and family == "8253-1_air":
        raise InvalidInput(f"{transducer!r} is no transducer of ISO 8253")
    if uncertainty not in (2, 5) or not -10 <= lowest_level <= 40:
        raise InvalidInput(f"uncertainty {uncertainty} dB (2 or 5) or lowest level {lowest_level} dB (−10 to 40)")
    if lowest_tone not in (125, 250, 500) or (lowest_tone == 500 and family != "8253-1_air"):
        raise InvalidInput(f"ISO 8253 has no limits for {transducer} with a lowest tone of {lowest_tone} Hz")
    table = dict(published_values(_HEARING, "b_", id=f"{family}_{lowest_tone}"))
    limits = np.array([table.get(band, math.inf) for band in THIRD_OCTAVE_BANDS])
    beyond = [band for band in table if band not in THIRD_OCTAVE_BANDS]
    notes = tuple(f"the limit at {band:g} Hz lies above the bands that are computed" for band in beyond)
    if transducer in ("insert", "circumaural"):
        extra = earphone_attenuation(transducer) - earphone_attenuation("supra_aural")
        lost = [
            band for band, more in zip(THIRD_OCTAVE_BANDS, extra, strict=True) if math.isnan(more) and band in table
        ]
        if lost:
            listed = ", ".join(f"{band:g}" for band in lost)
            notes = (f"no attenuation printed at {listed} Hz; no gain over supra-aural earphones counted there",)
        limits = limits + np.nan_to_num(extra, nan=0.0)
    limits = limits + (8.0 if uncertainty == 5 else 0.0) + lowest_level
    name = f"hearing test, {transducer.replace('_', ' ')}, from {lowest_tone} Hz"
    return BandLimits(
        name,
        THIRD_OCTAVE_BANDS,
        tuple(limits.tolist()),
        published_row(_HEARING, id=f"{family}_{lowest_tone}")["source"],
        notes,
    )
