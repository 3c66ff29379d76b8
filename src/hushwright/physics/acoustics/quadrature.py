"""Directions and frequencies over which transmission is averaged, and the radiation factor on them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES
from hushwright.physics.acoustics.radiation import radiation_factor

FloatArray = NDArray[np.float64]

_GOLDEN = 0.6180339887498949
_EXACT_BELOW = 24.0
"""Wavenumber times diagonal up to which the radiation factor is integrated; above, the closed form is within 0.1 dB."""


@dataclass(frozen=True, slots=True)
class Quadrature:
    """Number of directions and of frequencies per third octave over which is averaged [-]."""

    angles: int = 16
    per_band: int = 8

    def __post_init__(self) -> None:
        if self.angles < 4 or self.per_band < 1:
            raise InvalidInput(f"{self.angles} angles × {self.per_band} frequencies; at least 4 × 1 are needed")


DEFAULT = Quadrature()
FINE = Quadrature(96, 10)


@dataclass(frozen=True, slots=True)
class Incidence:
    """Polar angles [rad] from which sound arrives with equal strength per solid angle; all is a diffuse field."""

    lowest: float = 0.0
    highest: float = math.pi / 2.0

    def __post_init__(self) -> None:
        if not 0.0 <= self.lowest < self.highest <= math.pi / 2.0 + 1e-12:
            raise InvalidInput(f"angles {self.lowest} to {self.highest} rad; they must rise within 0 to π/2")


DIFFUSE = Incidence()


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
    """A coincidence to draw directions to: its frequency [Hz] and loss factor [-] at each frequency of the grid."""

    coincidence: FloatArray
    total_loss: FloatArray


def focus(grid: Grid, incidence: Incidence, peaks: list[Peak]) -> tuple[Grid, int]:
    """Grid with directions drawn towards the coincidence of each leaf, and the first row that differs.

    Half of the directions follow bells as wide as the coincidence, so that few of them find a sharp one.
    """
    frequency = grid.frequency[:, 0]
    rows = np.zeros(frequency.size, dtype=bool)
    for peak in peaks:
        rows |= frequency > peak.coincidence
    if not rows.any():
        return grid, frequency.size
    first = int(np.argmax(rows))
    knots = np.linspace(-1.0, 1.0, 33) * 1.45
    spans = [np.linspace(incidence.lowest, incidence.highest, 17)[None, :].repeat(frequency.size - first, axis=0)]
    bells = []
    for peak in peaks:
        sine = np.sqrt(np.minimum(peak.coincidence[first:] / frequency[first:], 1.0))
        centre = np.arcsin(sine)
        breadth = np.clip(0.25 * peak.total_loss[first:] * np.tan(np.minimum(centre, 1.4)), 0.004, 0.2)
        bells.append((centre[:, None], breadth[:, None]))
        spans.append(np.clip(centre[:, None] + breadth[:, None] * np.tan(knots), incidence.lowest, incidence.highest))
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


@lru_cache(maxsize=64)
def radiation_grid(
    quadrature: Quadrature, incidence: Incidence, width: float, height: float, speed: float
) -> FloatArray:
    """Radiation factor on the grid, integrated where the panel is small against the wavelength."""
    grid = lattice(quadrature, incidence)
    wave = 2.0 * np.pi * grid.frequency / speed
    factor = radiation_factor(wave, grid.cosine, width, height)
    small = int(np.searchsorted(wave[:, 0] * math.hypot(width, height), _EXACT_BELOW))
    if small:
        factor[:small] = radiation_factor(wave[:small], grid.cosine[:small], width, height, exact=True)
    factor.setflags(write=False)
    return factor
