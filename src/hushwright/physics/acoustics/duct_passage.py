"""Sound that runs along a passage between two linings: the wave that is lost slowest."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.polynomial import legendre
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES, FloatArray
from hushwright.physics.acoustics.layers import Porous
from hushwright.physics.acoustics.porous import effective_bulk_modulus, effective_density
from hushwright.physics.acoustics.spaces import require_range
from hushwright.physics.air import AIR_20C, Air

ComplexArray = NDArray[np.complex128]

_DECIBEL: Final = 20.0 * math.log10(math.e)
_FINE: Final = 10  # order of the polynomials in each layer: within 0.05 dB/m of 28 up to 50 kPa·s/m² and 100 mm


@lru_cache(maxsize=8)
def _lobatto(order: int) -> tuple[FloatArray, FloatArray]:
    """Weights of the Gauss–Lobatto nodes on −1…1 and stiffness matrix of the polynomials through them."""
    inner = legendre.Legendre.basis(order).deriv().roots()
    nodes = np.concatenate([[-1.0], np.sort(inner.real), [1.0]])
    height = legendre.Legendre.basis(order)(nodes)
    weights = 2.0 / (order * (order + 1) * height**2)
    distance = nodes[:, None] - nodes[None, :]
    np.fill_diagonal(distance, 1.0)
    slope = height[:, None] / height[None, :] / distance
    np.fill_diagonal(slope, 0.0)
    slope[0, 0], slope[-1, -1] = -order * (order + 1) / 4.0, order * (order + 1) / 4.0
    return weights, slope.T @ (weights[:, None] * slope)


def passage_wavenumber(
    half_passage: float,
    lining: Porous,
    lining_thickness: float,
    frequency: ArrayLike = FREQUENCIES,
    air: Air = AIR_20C,
    *,
    order: int = _FINE,
) -> ComplexArray:
    r"""Wavenumber along a plane passage with the same lining on both sides.

    Parameters
    ----------
    half_passage : float
        Half of the free width [m].
    lining : Porous
        Lining (flow resistivity [Pa·s/m²] and so on), in which sound also travels along the passage.
    lining_thickness : float
        Thickness of the lining on each side [m], on a hard back; 0 is a hard wall.
    frequency : array_like, shape (n_band,), optional
        Frequency [Hz], > 0.
    air : Air, optional
        Air in passage and lining [-].
    order : int, optional
        Order of the polynomials across each layer [-].

    Returns
    -------
    ndarray, shape (n_band,)
        Wavenumber [1/m] of the wave that is lost slowest, its imaginary part ≤ 0 for the time factor e^{jωt}.

    Raises
    ------
    InvalidInput
        If a dimension or a frequency is out of range.

    Notes
    -----
    Across half of the passage, air and lining as two fluids [1]_:

    .. math:: \frac{d}{dy}\left(\frac1\rho\frac{dp}{dy}\right)+\left(\frac{\omega^2}{K}-\frac{k_z^2}{\rho}\right)p=0

    with dp/dy = 0 in the middle and at the hard back: a linear eigenvalue problem in k_z², solved with one polynomial
    per layer, so that no root can be missed. Of all waves the one with the smallest loss is taken: what is left after
    some widths. Lining as limp Johnson–Champoux–Allard fluid.

    References
    ----------
    .. [1] R. A. Scott, *Proc. Phys. Soc.* 58 (1946) 358–368 (lining in which sound travels along the duct).
    .. [2] M. L. Munjal, *Acoustics of Ducts and Mufflers*, 2nd ed., Wiley, 2014, ch. 6.

    Examples
    --------
    >>> wool = Porous(15_000.0, 0.97, 1.0, 40.0)
    >>> round(float(-8.686 * passage_wavenumber(0.05, wool, 0.05, [500.0])[0].imag))
    21
    """
    require_range("half width of the passage", half_passage, 0.0, 2.0, "m", open_low=True)
    require_range("lining thickness", lining_thickness, 0.0, 0.5, "m")
    values = np.atleast_1d(np.asarray(frequency, dtype=np.float64))
    if values.size == 0 or not np.all(values > 0.0):
        raise InvalidInput(f"frequencies are {values.tolist()} Hz; each must be above 0")
    if lining_thickness == 0.0:
        return np.asarray(2.0 * math.pi * values / air.speed_of_sound, dtype=np.complex128)
    return _slowest_loss(half_passage, lining, lining_thickness, tuple(values.tolist()), air, order).copy()


@lru_cache(maxsize=4096)
def _slowest_loss(
    half_passage: float, lining: Porous, thickness: float, frequency: tuple[float, ...], air: Air, order: int
) -> ComplexArray:
    values = np.array(frequency)
    omega = 2.0 * math.pi * values
    weights, stiffness = _lobatto(order)
    count = 2 * order + 1
    mass = np.zeros((values.size, count), dtype=np.complex128)
    operator = np.zeros((values.size, count, count), dtype=np.complex128)
    density = np.stack([np.full(values.size, air.density + 0j), effective_density(lining, values, air=air)])
    still = air.density * air.speed_of_sound**2
    modulus = np.stack([np.full(values.size, still + 0j), effective_bulk_modulus(lining, values, air=air)])
    for layer, length in enumerate((half_passage, thickness)):
        place = slice(layer * order, layer * order + order + 1)
        line = weights * length / 2.0
        mass[:, place] += line / density[layer][:, None]
        operator[:, place, place] -= stiffness * (2.0 / length) / density[layer][:, None, None]
        operator[:, place, place] += np.eye(order + 1) * line * (omega**2 / modulus[layer])[:, None, None]
    squared = np.linalg.eigvals(operator / mass[:, :, None])
    along = np.sqrt(squared)
    along = np.where(along.imag > 0.0, -along, along)
    return np.asarray(np.take_along_axis(along, np.argmin(-along.imag, axis=1)[:, None], axis=1)[:, 0])


def passage_loss(
    width: float,
    height: float,
    lining: Porous,
    *,
    lining_on_width: float,
    lining_on_height: float,
    frequency: ArrayLike = FREQUENCIES,
    air: Air = AIR_20C,
    order: int = _FINE,
) -> ComplexArray:
    """Wavenumber along a rectangular passage lined on all four sides.

    Parameters
    ----------
    width : float
        Free width [m].
    height : float
        Free height [m].
    lining : Porous
        Lining (flow resistivity [Pa·s/m²] and so on).
    lining_on_width : float
        Thickness of the linings that bound the width [m].
    lining_on_height : float
        Thickness of the linings that bound the height [m].
    frequency : array_like, shape (n_band,), optional
        Frequency [Hz], > 0.
    air : Air, optional
        Air in passage and lining [-].
    order : int, optional
        Order of the polynomials across each layer [-].

    Returns
    -------
    ndarray, shape (n_band,)
        Wavenumber [1/m] along the passage; its loss is −8.686 times the imaginary part [dB/m].

    Raises
    ------
    InvalidInput
        If a dimension or a frequency is out of range.

    Notes
    -----
    ``k_z² = k_w² + k_h² − k²``, each from the plane passage: exact for linings that react locally, near it otherwise.

    References
    ----------
    .. [1] M. L. Munjal, *Acoustics of Ducts and Mufflers*, 2nd ed., Wiley, 2014, ch. 6.

    Examples
    --------
    >>> wool = Porous(15_000.0, 0.97, 1.0, 40.0)
    >>> along = passage_loss(0.1, 0.1, wool, lining_on_width=0.05, lining_on_height=0.05, frequency=[500.0])
    >>> round(float(-8.686 * along[0].imag))
    35
    """
    by_width = passage_wavenumber(width / 2.0, lining, lining_on_width, frequency, air, order=order)
    by_height = passage_wavenumber(height / 2.0, lining, lining_on_height, frequency, air, order=order)
    free = 2.0 * math.pi * np.atleast_1d(np.asarray(frequency, dtype=np.float64)) / air.speed_of_sound
    along = np.sqrt(by_width**2 + by_height**2 - free**2)
    return np.asarray(np.where(along.imag > 0.0, -along, along), dtype=np.complex128)


def decibel_per_metre(wavenumber: ComplexArray) -> FloatArray:
    """Loss along a passage.

    Parameters
    ----------
    wavenumber : ndarray, shape (n_band,)
        Complex wavenumber along it [1/m].

    Returns
    -------
    ndarray, shape (n_band,)
        Loss [dB/m].

    References
    ----------
    .. [1] ISO 80000-8:2020, attenuation.

    Examples
    --------
    >>> decibel_per_metre(np.array([10.0 - 1.0j])).round(2).tolist()
    [8.69]
    """
    return np.asarray(-_DECIBEL * np.asarray(wavenumber).imag, dtype=np.float64)
