"""How well a finite panel radiates: forced waves and free bending waves."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.gauss import gauss_nodes
from hushwright.physics.air import AIR_20C, Air

FloatArray = NDArray[np.float64]

# Davy 2009: width of the transition, offset at grazing, exponent of the sum.
_TRANSITION = 1.3
_OFFSET = 0.124

_HIGHEST = 2.0  # cap of the radiation efficiency near coincidence, EN ISO 12354-1:2017 annex B (from memory)


def radiation_factor(
    wavenumber: ArrayLike, cosine: ArrayLike, width: float, height: float, *, exact: bool = False
) -> FloatArray:
    r"""Radiation factor of a panel that carries a wave forced by sound at an angle.

    Parameters
    ----------
    wavenumber : array_like, shape (...)
        Wavenumber in air [1/m].
    cosine : array_like, shape (...)
        Cosine of the angle to the normal [-]; both arguments are broadcast together.
    width : float
        Width of the panel [m].
    height : float
        Height of the panel [m].
    exact : bool, optional
        Whether to integrate [-]; otherwise the closed form is used.

    Returns
    -------
    ndarray, shape (...)
        Radiation resistance over ρc [-], mean over the directions along the panel; 1/cosθ for a very large panel.

    Raises
    ------
    InvalidInput
        If a side is not positive.

    Notes
    -----
    Exact: ``σ = (2k/π)∫W(R) J0(kR sinθ) sin(kR) dR``, ``W(R) = ∫(1 − R cosψ/Lx)(1 − R sinψ/Ly) dψ`` over the
    directions in which R stays inside the panel. Closed form [1]_: with a = 2S/U, g = cosθ, ``q = 2π/(k²S)``,
    ``p = 1.3·sqrt(π/(2ka))`` (at most 1), ``h = 1/((2/3)·sqrt(2ka/π) − 0.124)``, ``σ = 1/sqrt(g² + q²)`` for g ≥ p,
    else ``1/sqrt((h − (h/p − 1) g)² + q²)``.

    References
    ----------
    .. [1] J. L. Davy, "The forced radiation efficiency of finite size flat panels that are excited by incident sound",
       *J. Acoust. Soc. Am.* 126 (2009) 694–702.

    Examples
    --------
    >>> round(float(radiation_factor(100.0, 1.0, 3.0, 3.0)), 2)
    1.0
    """
    if not (width > 0.0 and height > 0.0):
        raise InvalidInput(f"panel is {width} m × {height} m; both sides must be positive")
    wave, g = np.broadcast_arrays(np.asarray(wavenumber, dtype=np.float64), np.asarray(cosine, dtype=np.float64))
    if exact:
        return _radiation_integral(wave, g, width, height)
    area = width * height
    half = area / (width + height)
    q = 2.0 * np.pi / (np.square(wave) * area)
    p = np.minimum(_TRANSITION * np.sqrt(np.pi / (2.0 * wave * half)), 1.0)
    h = 1.0 / (2.0 / 3.0 * np.sqrt(2.0 * wave * half / np.pi) - _OFFSET)
    slanted = np.where(g >= p, g, h - (h / p - 1.0) * g)
    return np.asarray(1.0 / np.sqrt(np.square(slanted) + np.square(q)))


def _radiation_integral(wave: FloatArray, cosine: FloatArray, width: float, height: float) -> FloatArray:
    """Integrate over distances between points of the panel; about 20 points per wavelength."""
    from scipy.special import j0

    flat_wave, flat_cosine = wave.ravel(), cosine.ravel()
    longest = math.hypot(width, height)
    count = int(max(400, 20 * longest * float(flat_wave.max()) / (2.0 * math.pi)))
    nodes, weights = gauss_nodes(16)
    edges = np.linspace(0.0, longest, count // 16 + 2)
    distance = ((edges[1:] + edges[:-1])[:, None] / 2.0 + np.diff(edges)[:, None] / 2.0 * nodes).ravel()
    weight = (np.diff(edges)[:, None] / 2.0 * weights).ravel() * pair_density(distance, width, height)
    result = np.empty(flat_wave.shape)
    for index, (k, g) in enumerate(zip(flat_wave, flat_cosine, strict=True)):
        sine = math.sqrt(max(0.0, 1.0 - g * g))
        result[index] = 2.0 * k / math.pi * float(np.sum(weight * j0(k * sine * distance) * np.sin(k * distance)))
    return result.reshape(wave.shape)


def pair_density(distance: FloatArray, width: float, height: float) -> FloatArray:
    """Share of point pairs of a rectangle at a distance, integrated over the directions of a quarter circle.

    Parameters
    ----------
    distance : ndarray, shape (n_distance,)
        Distance of two points [m].
    width : float
        Width of the rectangle [m].
    height : float
        Height of the rectangle [m].

    Returns
    -------
    ndarray, shape (n_distance,)
        W(R) [rad], π/2 at no distance and 0 at the diagonal.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 6.

    Examples
    --------
    >>> pair_density(np.array([0.0, 1.0]), 1.0, 1.0).round(3).tolist()
    [1.571, 0.071]
    """
    low = np.where(distance > width, np.arccos(np.minimum(1.0, width / np.maximum(distance, 1e-12))), 0.0)
    high = np.where(distance > height, np.arcsin(np.minimum(1.0, height / np.maximum(distance, 1e-12))), np.pi / 2.0)

    def primitive(angle: FloatArray) -> FloatArray:
        return np.asarray(
            angle
            - distance / width * np.sin(angle)
            + distance / height * np.cos(angle)
            + np.square(distance) / (width * height) * np.square(np.sin(angle)) / 2.0
        )

    return np.where(high > low, primitive(high) - primitive(low), 0.0)


def radiation_efficiency(
    frequency: ArrayLike,
    coincidence: ArrayLike,
    perimeter: float,
    area: float,
    *,
    edge_factor: float = 1.0,
    air: Air = AIR_20C,
) -> FloatArray:
    r"""Radiation efficiency of free bending waves in a panel.

    Parameters
    ----------
    frequency : array_like, shape (...)
        Frequency [Hz].
    coincidence : array_like, shape (...)
        Coincidence frequency of the panel [Hz].
    perimeter : float
        Length of edges and ribs that reflect the waves [m].
    area : float
        Area [m²].
    edge_factor : float, optional
        Gain of the edges below coincidence [-]: 1 simply supported in a flat wall, 2 clamped or at the foot of a niche.
    air : Air, optional
        Air (speed of sound [m/s]).

    Returns
    -------
    ndarray, shape (...)
        Radiation efficiency [-].

    Raises
    ------
    InvalidInput
        If perimeter or area is not positive, or the gain is not 1 to 4.

    Notes
    -----
    Below coincidence, with ``μ = sqrt(f_c/f)``: ``σ = U/(2π μ k S sqrt(μ²−1))·(ln((μ+1)/(μ−1)) + 2μ/(μ²−1))``; above it
    ``1/sqrt(1 − f_c/f)``; both at most the value at coincidence, ``(0.5 − 0.15·L1/L2)·sqrt(k_c L1)`` with the shorter
    side L1 of the rectangle that has this perimeter and area [1]_ [2]_, and at most 2 [3]_.

    References
    ----------
    .. [1] F. G. Leppington, E. G. Broadbent and K. H. Heron, *Proc. R. Soc. Lond. A* 382 (1982) 245–271.
    .. [2] G. Maidanik, *J. Acoust. Soc. Am.* 34 (1962) 809–826.
    .. [3] EN ISO 12354-1:2017, annex B (from memory).

    Examples
    --------
    >>> radiation_efficiency([500.0, 20_000.0], 2000.0, 5.0, 1.5).round(3).tolist()
    [0.041, 1.054]
    """
    if not (perimeter > 0.0 and area > 0.0):
        raise InvalidInput(f"perimeter {perimeter} m and area {area} m² must both be positive")
    if not 1.0 <= edge_factor <= 4.0:
        raise InvalidInput(f"gain of the edges is {edge_factor}; it must be 1 to 4")
    frequency, coincidence = np.broadcast_arrays(np.asarray(frequency, float), np.asarray(coincidence, float))
    k = 2.0 * np.pi * frequency / air.speed_of_sound
    half = perimeter / 4.0
    root = math.sqrt(max(half * half - area, 0.0))
    short, long = max(half - root, 1e-6), half + root
    critical_wave = 2.0 * np.pi * np.minimum(coincidence, 1e9) / air.speed_of_sound
    at_coincidence = np.clip((0.5 - 0.15 * short / long) * np.sqrt(critical_wave * short), 1.0, _HIGHEST)
    ratio = coincidence / frequency
    below = np.maximum(ratio, 1.0 + 1e-6)
    mu = np.sqrt(below)
    edge = edge_factor * perimeter / (2.0 * np.pi * mu * k * area * np.sqrt(below - 1.0))
    slow = edge * (np.log((mu + 1.0) / (mu - 1.0)) + 2.0 * mu / (below - 1.0))
    fast = 1.0 / np.sqrt(np.maximum(1.0 - ratio, 1e-9))
    return np.asarray(np.minimum(np.where(ratio >= 1.0, slow, fast), at_coincidence))
