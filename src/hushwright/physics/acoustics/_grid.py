"""Directions and frequencies over which transmission is averaged, and the radiation factor on them; internal."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from hushwright.physics.acoustics.bands import FREQUENCIES
from hushwright.physics.acoustics.quadrature import Incidence, Quadrature
from hushwright.physics.acoustics.radiation import radiation_factor
from hushwright.physics.acoustics.radiation_series import LARGEST, small_panel_radiation_factor

FloatArray = NDArray[np.float64]

_DEPTH_BREADTH = 0.02  # rad, of a standing wave across a hard space
_NO_PEAK = 0.5  # rad, spreads the directions of a peak that is not there
_GOLDEN = 0.6180339887498949


@dataclass(frozen=True, slots=True, eq=False)
class Grid:
    """Frequencies (rows) and directions (columns) with weights that sum to one along a row."""

    frequency: FloatArray
    place: FloatArray
    cosine: FloatArray
    sine_squared: FloatArray
    across: FloatArray
    weight: FloatArray
    pressure_weight: FloatArray


@lru_cache(maxsize=16)
def lattice(quadrature: Quadrature, incidence: Incidence) -> Grid:
    """Rank-one lattice: each frequency of a band shifts the directions, so the band sees all of them.

    Mid-points in θ crowd where sin²θ is 0 or 1, which is where coincidence and grazing waves need them.
    """
    count = quadrature.per_band
    part = (np.arange(count) + 0.5) / count - 0.5
    frequency = (FREQUENCIES[:, None] * 10.0 ** (0.1 * part)).reshape(-1, 1)
    order = np.arange(frequency.size)[:, None]
    shift = (
        np.mod(0.5 + (order % count) * _GOLDEN, 1.0)
        if count < 4
        else (np.mod(order * _stride(count), count) + 0.5) / count
    )
    place = (np.arange(quadrature.angles)[None, :] + shift) / quadrature.angles
    theta = incidence.lowest + (incidence.highest - incidence.lowest) * place
    turn = np.mod(np.arange(quadrature.angles)[None, :] * _GOLDEN + order * math.sqrt(2.0), 1.0)
    cosine = np.cos(theta)
    weight = np.sin(2.0 * theta)
    weight = weight / weight.sum(axis=1, keepdims=True)
    span = math.sin(incidence.highest) ** 2 - math.sin(incidence.lowest) ** 2
    return Grid(
        frequency,
        np.broadcast_to((place), cosine.shape),
        cosine,
        np.square(np.sin(theta)),
        np.square(np.cos(np.pi / 2.0 * turn)),
        weight,
        weight * span / (4.0 * cosine),
    )


def _stride(count: int) -> int:
    """A step near the golden share of a count that has no common divisor with it."""
    step = max(1, round(count * _GOLDEN))
    while math.gcd(step, count) != 1:
        step += 1
    return step


@dataclass(frozen=True, slots=True, eq=False)
class Peak:
    """A direction in which much passes: its angle [rad], its breadth [rad] and whether it is there, by frequency."""

    centre: FloatArray
    breadth: FloatArray
    active: NDArray[np.bool_]


def coincidence_peak(frequency: FloatArray, coincidence: FloatArray, total_loss: FloatArray) -> Peak:
    """Peak of a leaf at sinθ = sqrt(f_c/f), as broad as its losses make it.

    Parameters
    ----------
    frequency : ndarray, shape (n_frequency,)
        Frequency [Hz].
    coincidence : ndarray, shape (n_frequency,)
        Coincidence frequency [Hz].
    total_loss : ndarray, shape (n_frequency,)
        Loss factor with radiation [-].

    Returns
    -------
    Peak
        Angle and breadth [rad].

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 6.

    Examples
    --------
    >>> peak = coincidence_peak(np.array([4000.0]), np.array([2000.0]), np.array([0.04]))
    >>> round(float(np.degrees(peak.centre[0])))
    45
    """
    centre = np.arcsin(np.sqrt(np.minimum(coincidence / frequency, 1.0)))
    breadth = np.clip(0.25 * total_loss * np.tan(np.minimum(centre, 1.4)), 0.004, 0.2)
    return Peak(centre, breadth, frequency > coincidence)


def depth_peak(frequency: FloatArray, first: float, order: int) -> Peak:
    """Peak of a hard empty space at cosθ = n·f_1/f, a standing wave across its depth.

    Parameters
    ----------
    frequency : ndarray, shape (n_frequency,)
        Frequency [Hz].
    first : float
        First standing wave for sound straight on [Hz].
    order : int
        Number of half waves across [-].

    Returns
    -------
    Peak
        Angle and breadth [rad].

    References
    ----------
    .. [1] F. Fahy and P. Gardonio, *Sound and Structural Vibration*, 2nd ed., Academic Press, 2007, ch. 5.

    Examples
    --------
    >>> peak = depth_peak(np.array([4000.0]), 2000.0, 1)
    >>> round(float(np.degrees(peak.centre[0])))
    60
    """
    cosine = np.minimum(order * first / frequency, 1.0)
    return Peak(np.arccos(cosine), np.full(frequency.shape, _DEPTH_BREADTH), frequency > order * first)


def focus(grid: Grid, incidence: Incidence, peaks: list[Peak]) -> tuple[Grid, int]:
    """Grid with directions drawn towards peaks, and the first row that differs.

    Half of the directions follow bells as broad as the peaks, so that few of them find a sharp one.

    Parameters
    ----------
    grid : Grid
        Frequencies [Hz] and directions.
    incidence : Incidence
        Range of directions [rad].
    peaks : list of Peak
        Angles and breadths [rad].

    Returns
    -------
    tuple
        The grid, and the number of its first rows that are as before [-].

    References
    ----------
    .. [1] Importance sampling; our own choice of bells.

    Examples
    --------
    >>> from hushwright.physics.acoustics.quadrature import DEFAULT, DIFFUSE
    >>> focus(lattice(DEFAULT, DIFFUSE), DIFFUSE, [])[1]
    216
    """
    frequency = grid.frequency[:, 0]
    rows = np.zeros(frequency.size, dtype=bool)
    for peak in peaks:
        rows |= peak.active
    if not rows.any():
        return grid, frequency.size
    first = int(np.argmax(rows))
    knots = np.linspace(-1.0, 1.0, 33) * 1.45
    spans = [np.linspace(incidence.lowest, incidence.highest, 17)[None, :].repeat(frequency.size - first, axis=0)]
    bells = []
    for peak in peaks:
        centre = np.clip(peak.centre[first:, None], incidence.lowest, incidence.highest)
        breadth = np.where(peak.active, peak.breadth, _NO_PEAK)[first:, None]
        bells.append((centre, breadth))
        spans.append(np.clip(centre + breadth * np.tan(knots), incidence.lowest, incidence.highest))
    table = np.sort(np.concatenate(spans, axis=1), axis=1)
    share = _share(table, bells, incidence)
    place = grid.place[first:]
    theta = np.array([np.interp(at, x, y) for at, x, y in zip(place, share, table, strict=True)])
    density = _density(theta, bells, incidence)
    return _with_directions(grid, first, theta, 1.0 / density, incidence), first


def _share(theta: FloatArray, bells: list[tuple[FloatArray, FloatArray]], incidence: Incidence) -> FloatArray:
    """Share of directions below an angle: half evenly, half in bells."""
    span = incidence.highest - incidence.lowest
    total = 0.5 * (theta - incidence.lowest) / span
    for centre, breadth in bells:
        start = np.arctan((incidence.lowest - centre) / breadth)
        stop = np.arctan((incidence.highest - centre) / breadth)
        total = total + 0.5 / len(bells) * (np.arctan((theta - centre) / breadth) - start) / (stop - start)
    return np.asarray(total)


def _density(theta: FloatArray, bells: list[tuple[FloatArray, FloatArray]], incidence: Incidence) -> FloatArray:
    """Derivative of `_share`."""
    total = np.full(theta.shape, 0.5 / (incidence.highest - incidence.lowest))
    for centre, breadth in bells:
        start = np.arctan((incidence.lowest - centre) / breadth)
        stop = np.arctan((incidence.highest - centre) / breadth)
        total += 0.5 / len(bells) / (breadth * (1.0 + np.square((theta - centre) / breadth)) * (stop - start))
    return total


def _with_directions(grid: Grid, first: int, theta: FloatArray, spacing: FloatArray, incidence: Incidence) -> Grid:
    """The grid with other directions from a row on."""
    cosine, sine = np.cos(theta), np.sin(theta)
    weight = 2.0 * sine * cosine * spacing
    weight /= weight.sum(axis=1, keepdims=True)
    span = math.sin(incidence.highest) ** 2 - math.sin(incidence.lowest) ** 2

    def joined(base: FloatArray, new: FloatArray) -> FloatArray:
        return np.concatenate([base[:first], new])

    return Grid(
        grid.frequency,
        grid.place,
        joined(grid.cosine, cosine),
        joined(grid.sine_squared, np.square(sine)),
        grid.across,
        joined(grid.weight, weight),
        joined(grid.pressure_weight, weight * span / (4.0 * cosine)),
    )


@lru_cache(maxsize=256)
def radiation_grid(
    quadrature: Quadrature, incidence: Incidence, width: float, height: float, speed: float
) -> FloatArray:
    """Radiation factor on the grid, integrated where the panel is small against the wavelength."""
    grid = lattice(quadrature, incidence)
    wave = 2.0 * np.pi * grid.frequency / speed
    factor = radiation_factor(wave, grid.cosine, width, height)
    # Above that size against the wave the closed form is within 0.1 dB.
    small = int(np.searchsorted(wave[:, 0] * math.hypot(width, height), LARGEST))
    if small:
        factor[:small] = small_panel_radiation_factor(wave[:small], grid.cosine[:small], width, height)
    factor.setflags(write=False)
    return factor
