"""The exact radiation factor of a small panel as a double series, so that many sizes cost next to nothing."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.gauss import gauss_nodes
from hushwright.physics.acoustics.radiation import pair_density

FloatArray = NDArray[np.float64]

LARGEST = 24.0
"""Wavenumber times diagonal [-] up to which the series holds."""

# Each is the largest argument plus a margin after which the coefficients are below 1e-6.
_WAVE_TERMS = 42
_ANGLE_TERMS = 22
_DISTANCES = 40
_TURNS = 12  # directions in a quarter circle; the mean of cos(x cos φ) over them is J0(x) to 1e-9 up to x = 24


def small_panel_radiation_factor(wavenumber: ArrayLike, cosine: ArrayLike, width: float, height: float) -> FloatArray:
    r"""Radiation factor of a panel that is small against the wave, forced by sound at an angle.

    Parameters
    ----------
    wavenumber : array_like, shape (...)
        Wavenumber in air [1/m]; times the diagonal at most 24.
    cosine : array_like, shape (...)
        Cosine of the angle to the normal [-]; both arguments are broadcast together.
    width : float
        Width of the panel [m].
    height : float
        Height of the panel [m].

    Returns
    -------
    ndarray, shape (...)
        Radiation resistance over ρc [-], mean over the directions along the panel.

    Raises
    ------
    InvalidInput
        If a side is not positive or the panel is too large against the wave.

    Notes
    -----
    The integral of :func:`hushwright.physics.acoustics.radiation.radiation_factor` with the diagonal L as its unit,
    ``σ = (2u/π)∫W(r) J0(u r sinθ) sin(u r) dr``, u = kL. J0·sin is smooth and depends on no size: it is expanded once
    in Chebyshev polynomials of u and sin²θ at fixed distances r [2]_; a size only enters by the weights of those
    distances, which integrate W times any polynomial. Agrees with the integral within 1e-5, in strips of 1:60 within
    3e-4.

    References
    ----------
    .. [1] J. L. Davy, *J. Acoust. Soc. Am.* 126 (2009) 694–702.
    .. [2] L. N. Trefethen, *Approximation Theory and Approximation Practice*, SIAM, 2013, ch. 19.

    Examples
    --------
    >>> from hushwright.physics.acoustics.radiation import radiation_factor
    >>> series = small_panel_radiation_factor([2.0, 5.0], [0.1, 0.9], 2.0, 1.2)
    >>> bool(np.allclose(series, radiation_factor([2.0, 5.0], [0.1, 0.9], 2.0, 1.2, exact=True), rtol=1e-4))
    True
    """
    if not (width > 0.0 and height > 0.0):
        raise InvalidInput(f"panel is {width} m × {height} m; both sides must be positive")
    scaled = np.asarray(wavenumber, dtype=np.float64) * math.hypot(width, height)
    if scaled.size and not 0.0 <= float(scaled.min()) <= float(scaled.max()) <= LARGEST * (1.0 + 1e-9):
        raise InvalidInput(
            f"wavenumber times diagonal is up to {scaled.max():.1f}; the series holds from 0 to {LARGEST}"
        )
    sine_squared = 1.0 - np.square(np.asarray(cosine, dtype=np.float64))
    scaled, sine_squared = np.broadcast_arrays(scaled, sine_squared)
    waves = np.polynomial.chebyshev.chebvander(2.0 * scaled.ravel() / LARGEST - 1.0, _WAVE_TERMS - 1)
    angles = np.polynomial.chebyshev.chebvander(2.0 * sine_squared.ravel() - 1.0, _ANGLE_TERMS - 1)
    series = np.sum((waves @ _coefficients(width, height)) * angles, axis=1)
    return np.asarray((2.0 / math.pi * scaled.ravel() * series).reshape(scaled.shape))


@lru_cache(maxsize=512)
def _coefficients(width: float, height: float) -> FloatArray:
    return np.asarray(_expansion() @ _distance_weights(width, height))


@lru_cache(maxsize=1)
def _expansion() -> FloatArray:
    """Chebyshev coefficients of J0(u r sinθ)·sin(u r) in u and sin²θ at every distance."""
    distance = 0.5 * (gauss_nodes(_DISTANCES)[0] + 1.0)
    wave, to_wave = _chebyshev(_WAVE_TERMS)
    angle, to_angle = _chebyshev(_ANGLE_TERMS)
    argument = LARGEST * wave[:, None, None] * distance
    along = argument * np.sqrt(angle)[None, :, None]
    turns = np.cos(0.5 * math.pi * (np.arange(_TURNS) + 0.5) / _TURNS)
    bessel = np.mean([np.cos(along * turn) for turn in turns], axis=0)
    return np.asarray(np.einsum("pi,ijr,qj->pqr", to_wave, bessel * np.sin(argument), to_angle, optimize=True))


def _chebyshev(count: int) -> tuple[FloatArray, FloatArray]:
    """Nodes on 0 to 1, and the matrix from values there to coefficients."""
    nodes = np.cos(math.pi * (np.arange(count) + 0.5) / count)
    matrix = 2.0 / count * np.polynomial.chebyshev.chebvander(nodes, count - 1).T
    matrix[0] *= 0.5
    return np.asarray(0.5 * (nodes + 1.0)), np.asarray(matrix)


def _distance_weights(width: float, height: float) -> FloatArray:
    """Weights at the fixed distances that integrate polynomials times W exactly; W bends at both sides' lengths."""
    diagonal = math.hypot(width, height)
    nodes, weights = gauss_nodes(_DISTANCES)
    edges = np.array([0.0, *sorted((width / diagonal, height / diagonal)), 1.0])
    half = 0.5 * np.diff(edges)[:, None]
    fine = (0.5 * (edges[1:] + edges[:-1])[:, None] + half * nodes).ravel()
    density = (half * weights).ravel() * pair_density(fine * diagonal, width, height)
    legendre = np.polynomial.legendre.legvander
    moments = density @ legendre(2.0 * fine - 1.0, _DISTANCES - 1)
    scale = 2.0 * np.arange(_DISTANCES) + 1.0
    return np.asarray(0.5 * weights * (legendre(nodes, _DISTANCES - 1) @ (scale * moments)))
