"""Spectra of sources: octaves into thirds, standard shapes, and levels that fit an A-weighted figure."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import (
    FREQUENCIES,
    N_BANDS,
    OCTAVE_BANDS,
    THIRD_OCTAVE_BANDS,
    FloatArray,
    band_edges,
)
from hushwright.physics.acoustics.published import published_row, published_values
from hushwright.physics.acoustics.weighting import A_WEIGHTING, a_weighted_level

VocalEffort = Literal["normal", "raised", "loud", "shout"]


@dataclass(frozen=True, slots=True)
class Spectrum:
    """Third-octave band levels 25 Hz–10 kHz, with the bands that no source gives.

    Parameters
    ----------
    levels : tuple of float, shape (27,)
        Band levels [dB].
    assumed : tuple of float, shape (n_assumed,)
        Bands whose level is continued, not given [Hz].
    basis : str
        Where the rest is from [-].

    References
    ----------
    .. [1] IEC 61260-1:2014 for the bands.
    """

    levels: tuple[float, ...]
    assumed: tuple[float, ...]
    basis: str

    def array(self) -> FloatArray:
        """Levels as an array, shape (27,) [dB]."""
        return np.array(self.levels)


def _check_run(
    levels: ArrayLike, bands: Sequence[float], allowed: tuple[float, ...], what: str
) -> tuple[FloatArray, int]:
    """Levels and the place of the first band; the bands must be neighbours in rising order."""
    values = np.asarray(levels, dtype=np.float64)
    if values.ndim != 1 or values.size != len(bands) or values.size == 0:
        raise InvalidInput(f"{values.size} levels for {len(bands)} bands")
    if np.any(np.isnan(values)) or np.any(values == np.inf):
        raise InvalidInput(f"levels {values.tolist()} dB hold one that is no number")
    if bands[0] not in allowed:
        raise InvalidInput(f"{bands[0]:g} Hz is not one of the {what} {allowed[0]:g} to {allowed[-1]:g} Hz")
    first = allowed.index(bands[0])
    if tuple(bands) != tuple(allowed[first : first + len(bands)]):
        raise InvalidInput(f"bands {list(bands)} Hz are no unbroken rising run of {what}")
    return values, first


def _end_slope(values: FloatArray, per_octave: int, *, end: Literal["low", "high"]) -> float:
    """Change per band going outward at one end, over the last octave that is given; 0 for a single band."""
    ordered = values[::-1] if end == "low" else values
    reach = min(per_octave, ordered.size - 1)
    if reach == 0 or not np.all(np.isfinite(ordered[[-1, -1 - reach]])):
        return 0.0
    return float((ordered[-1] - ordered[-1 - reach]) / reach)


def _continued(values: FloatArray, first: int, count: int, per_octave: int) -> FloatArray:
    """Values over all bands, going on at both ends with the end slopes."""
    low = _end_slope(values, per_octave, end="low")
    high = _end_slope(values, per_octave, end="high")
    after = count - first - values.size
    return np.concatenate(
        [values[0] + low * np.arange(first, 0, -1), values, values[-1] + high * np.arange(1, after + 1)]
    )


def octaves_to_thirds(
    levels: ArrayLike, bands: Sequence[float] = OCTAVE_BANDS, *, basis: str = "octave levels"
) -> Spectrum:
    """Third-octave levels from octave levels.

    Parameters
    ----------
    levels : array_like, shape (n_octave,)
        Octave-band levels [dB].
    bands : sequence of float, shape (n_band,), optional
        Nominal octaves [Hz], an unbroken run of 31.5 Hz to 8 kHz.
    basis : str, optional
        Where the levels are from [-].

    Returns
    -------
    Spectrum
        27 levels [dB]; thirds of octaves that are not given are listed as assumed.

    Raises
    ------
    InvalidInput
        If the bands are no unbroken run or a level is no number.

    Notes
    -----
    The energy of an octave is shared equally by its thirds, so octave sums return exactly. Octaves beyond those given
    go on with the slope between the last two (ours; no source).

    References
    ----------
    .. [1] IEC 61260-1:2014, clause 5: an octave is three adjacent thirds.

    Examples
    --------
    >>> spectrum = octaves_to_thirds([60, 56, 53, 51, 49, 45, 40], (63, 125, 250, 500, 1000, 2000, 4000))
    >>> round(spectrum.levels[4], 2), spectrum.assumed[:3]
    (55.23, (25, 31.5, 40))
    """
    values, first = _check_run(levels, bands, OCTAVE_BANDS, "octaves")
    octave = _continued(values, first, len(OCTAVE_BANDS), 1)
    given = np.zeros(len(OCTAVE_BANDS), dtype=bool)
    given[first : first + values.size] = True
    thirds = np.repeat(octave - 10.0 * math.log10(3.0), 3)
    assumed = tuple(band for band, known in zip(THIRD_OCTAVE_BANDS, np.repeat(given, 3), strict=True) if not known)
    return Spectrum(tuple(thirds.tolist()), assumed, basis)


def complete_thirds(levels: ArrayLike, bands: Sequence[float], *, basis: str = "third-octave levels") -> Spectrum:
    """All 27 third-octave levels from an unbroken run of them.

    Parameters
    ----------
    levels : array_like, shape (n_band,)
        Band levels [dB].
    bands : sequence of float, shape (n_band,)
        Nominal third octaves [Hz], an unbroken run.
    basis : str, optional
        Where the levels are from [-].

    Returns
    -------
    Spectrum
        27 levels [dB]; bands that are not given are listed as assumed.

    Raises
    ------
    InvalidInput
        If the bands are no unbroken run or a level is no number.

    Notes
    -----
    Bands beyond those given go on with the mean slope of the last octave given (ours; no source).

    References
    ----------
    .. [1] IEC 61260-1:2014, clause 5.

    Examples
    --------
    >>> complete_thirds([50.0, 51.0], (1000, 1250)).levels[-1]
    60.0
    """
    values, first = _check_run(levels, bands, THIRD_OCTAVE_BANDS, "third octaves")
    full = _continued(values, first, N_BANDS, 3)
    return Spectrum(tuple(full.tolist()), tuple(band for band in THIRD_OCTAVE_BANDS if band not in bands), basis)


def spectrum_with_level(shape: Spectrum, level_a: float) -> Spectrum:
    """A spectrum of the same shape with a given A-weighted level.

    Parameters
    ----------
    shape : Spectrum
        Shape; its own level does not matter [dB].
    level_a : float
        A-weighted level [dB].

    Returns
    -------
    Spectrum
        Band levels [dB].

    Raises
    ------
    InvalidInput
        If the shape is silent or the level is no number.

    References
    ----------
    .. [1] IEC 61672-1:2013.

    Examples
    --------
    >>> round(a_weighted_level(spectrum_with_level(pink_noise(), 65.0).levels), 1)
    65.0
    """
    present = a_weighted_level(shape.levels)
    if not (math.isfinite(present) and math.isfinite(level_a)):
        raise InvalidInput(f"a shape of {present} dB(A) cannot be set to {level_a} dB(A)")
    return Spectrum(tuple(level + level_a - present for level in shape.levels), shape.assumed, shape.basis)


def pink_noise(band_level: float = 0.0) -> Spectrum:
    """Pink noise: the same level in every third octave.

    Parameters
    ----------
    band_level : float, optional
        Level of each band [dB].

    Returns
    -------
    Spectrum
        Band levels [dB].

    References
    ----------
    .. [1] IEC 60268-1:1985, pink noise.

    Examples
    --------
    >>> pink_noise(50.0).levels[0]
    50.0
    """
    return Spectrum((float(band_level),) * N_BANDS, (), "pink noise, equal energy in every third octave")


def rating_spectrum(kind: Literal["pink", "traffic"]) -> Spectrum:
    """Spectrum No 1 or No 2 of ISO 717-1 with the A-weighting taken off and 0 dB(A) in total.

    Parameters
    ----------
    kind : {"pink", "traffic"}
        No 1, A-weighted pink noise, or No 2, A-weighted urban traffic [-].

    Returns
    -------
    Spectrum
        Band levels [dB], 0 dB(A) together; bands outside 50–5000 Hz are assumed.

    Raises
    ------
    InvalidInput
        If the kind is neither.

    Notes
    -----
    The table of the standard is A-weighted in whole decibels; the weighting is taken off at exact mid-bands.

    References
    ----------
    .. [1] ISO 717-1:2020, annex B (50–5000 Hz values from memory, closed on the printed results of annex C).

    Examples
    --------
    >>> round(rating_spectrum("traffic").levels[3] - rating_spectrum("traffic").levels[16], 1)
    13.2
    """
    numbers = {"pink": "1", "traffic": "2"}
    if kind not in numbers:
        raise InvalidInput(f"{kind!r} is no spectrum of ISO 717-1; it is pink or traffic")
    row = f"iso717_spec{numbers[kind]}_50_5000"
    pairs = published_values("rating_spectra.csv", "f_", id=row)
    bands = [band for band, _ in pairs]
    first = THIRD_OCTAVE_BANDS.index(bands[0])
    flat = np.array([value for _, value in pairs]) - A_WEIGHTING[first : first + len(bands)]
    basis = published_row("rating_spectra.csv", id=row)["what"]
    return spectrum_with_level(complete_thirds(flat, bands, basis=basis), 0.0)


def speech_levels(effort: VocalEffort = "normal") -> Spectrum:
    """Sound pressure levels of a voice, 1 m in front of the lips.

    Parameters
    ----------
    effort : {"normal", "raised", "loud", "shout"}, optional
        Vocal effort [-].

    Returns
    -------
    Spectrum
        Band levels [dB]; bands outside 160 Hz–8 kHz are assumed.

    Raises
    ------
    InvalidInput
        If the effort is not in the table.

    Notes
    -----
    ``band level = spectrum level + 10 lg bandwidth``, with the bandwidth of the exact band [1]_.

    References
    ----------
    .. [1] ANSI S3.5-1997 (R2017), *Calculation of the speech intelligibility index*, table 3 (found).

    Examples
    --------
    >>> round(speech_levels("normal").levels[13], 1)
    54.9
    """
    key = f"SPEECH-{effort}"
    pairs = published_values("source_spectra.csv", "f_", id=key)
    bands = [band for band, _ in pairs]
    first = THIRD_OCTAVE_BANDS.index(bands[0])
    low, high = band_edges(FREQUENCIES[first : first + len(bands)])
    levels = np.array([value for _, value in pairs]) + 10.0 * np.log10(high - low)
    return complete_thirds(levels, bands, basis=published_row("source_spectra.csv", id=key)["source"])


def speech_sound_power(effort: VocalEffort = "normal", *, directivity_index: float = 0.0) -> Spectrum:
    """Sound power levels of a voice.

    Parameters
    ----------
    effort : {"normal", "raised", "loud", "shout"}, optional
        Vocal effort [-].
    directivity_index : float, optional
        By how much the level in front exceeds that of a voice radiating alike to all sides [dB].

    Returns
    -------
    Spectrum
        Sound power levels [dB re 1 pW].

    Raises
    ------
    InvalidInput
        If the effort is not in the table.

    Notes
    -----
    ``Lw = Lp(1 m) + 10 lg 4π − DI`` [1]_. With DI = 0 the power is too high above about 1 kHz, where a voice radiates
    forward: on the safe side for what leaves a room (assumption, common practice, no source).

    References
    ----------
    .. [1] ANSI S3.5-1997, table 3; ISO 80000-8:2020 for the level of a point source.

    Examples
    --------
    >>> round(speech_sound_power().levels[13], 1)
    65.9
    """
    front = speech_levels(effort)
    shift = 10.0 * math.log10(4.0 * math.pi) - directivity_index
    return Spectrum(tuple(level + shift for level in front.levels), front.assumed, front.basis)
