"""Wool and open foam as a fluid: Johnson–Champoux–Allard with a limp frame."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.layers import Porous
from hushwright.physics.air import AIR_20C, Air

ComplexArray = NDArray[np.complex128]


def characteristic_lengths(porous: Porous, *, air: Air = AIR_20C) -> tuple[float, float]:
    """Viscous and thermal characteristic length.

    Parameters
    ----------
    porous : Porous
        Material (flow resistivity [Pa·s/m²] and so on).
    air : Air, optional
        Air in the pores (viscosity [Pa·s]).

    Returns
    -------
    tuple of float
        Viscous and thermal length [m].

    Notes
    -----
    Where they are not given: ``Λ = sqrt(8 α∞ μ/(φ σ))`` and ``Λ' = 2 Λ``, fibres across the flow [1]_.

    References
    ----------
    .. [1] J.-F. Allard and N. Atalla, *Propagation of Sound in Porous Media*, 2nd ed., Wiley, 2009, ch. 5.

    Examples
    --------
    >>> [round(1e6 * length) for length in characteristic_lengths(Porous(10_000.0, 0.98, 1.0, 40.0))]
    [122, 243]
    """
    viscous = porous.viscous_length
    if viscous is None:
        viscous = float(np.sqrt(8.0 * porous.tortuosity * air.viscosity / (porous.porosity * porous.flow_resistivity)))
    thermal = porous.thermal_length if porous.thermal_length is not None else 2.0 * viscous
    return viscous, thermal


def effective_density(porous: Porous, frequency: ArrayLike, *, air: Air = AIR_20C, limp: bool = True) -> ComplexArray:
    r"""Effective density of the fluid that stands for the blanket, per total volume.

    Parameters
    ----------
    porous : Porous
        Material (flow resistivity [Pa·s/m²] and so on).
    frequency : array_like, shape (...)
        Frequency [Hz], > 0.
    air : Air, optional
        Air in the pores (density [kg/m³] and so on).
    limp : bool, optional
        Whether the frame moves with the air [-]; otherwise it stands still.

    Returns
    -------
    ndarray, shape (...)
        Complex density [kg/m³] for time factor exp(+jωt).

    Raises
    ------
    InvalidInput
        If a frequency is not positive.

    Notes
    -----
    Rigid frame [1]_: ``ρ_eq = (ρ0 α∞/φ)·(1 + φσ/(jωρ0α∞)·sqrt(1 + 4jα∞²μρ0ω/(σΛφ)²))``. Limp frame [2]_:
    ``ρ_limp = (ρ_t ρ_eq − ρ0²)/(ρ_t + ρ_eq − 2ρ0)`` with ``ρ_t = ρ_1 + φρ0``.

    References
    ----------
    .. [1] J.-F. Allard and N. Atalla, *Propagation of Sound in Porous Media*, 2nd ed., Wiley, 2009, ch. 5.
    .. [2] R. Panneton, "Comments on the limp frame equivalent fluid model for porous media", *J. Acoust. Soc. Am.* 122
       (2007) EL217–EL222.

    Examples
    --------
    >>> wool = Porous(10_000.0, 0.98, 1.0, 40.0)
    >>> round(float(effective_density(wool, 1.0).real), 1)
    41.2
    """
    omega = 2.0 * np.pi * _positive(frequency)
    viscous, _ = characteristic_lengths(porous, air=air)
    rho, sigma, phi, tortuosity = air.density, porous.flow_resistivity, porous.porosity, porous.tortuosity
    inertia = np.sqrt(1.0 + 4j * tortuosity**2 * air.viscosity * rho * omega / (sigma * viscous * phi) ** 2)
    rigid = rho * tortuosity / phi * (1.0 + phi * sigma / (1j * omega * rho * tortuosity) * inertia)
    if not limp:
        return np.asarray(rigid, dtype=np.complex128)
    total = porous.density + phi * rho
    return np.asarray((total * rigid - rho**2) / (total + rigid - 2.0 * rho), dtype=np.complex128)


def effective_bulk_modulus(porous: Porous, frequency: ArrayLike, *, air: Air = AIR_20C) -> ComplexArray:
    r"""Effective bulk modulus of the fluid that stands for the blanket, per total volume.

    Parameters
    ----------
    porous : Porous
        Material (thermal length [m], porosity [-]).
    frequency : array_like, shape (...)
        Frequency [Hz], > 0.
    air : Air, optional
        Air in the pores (pressure [Pa] and so on).

    Returns
    -------
    ndarray, shape (...)
        Complex bulk modulus [Pa] for time factor exp(+jωt).

    Raises
    ------
    InvalidInput
        If a frequency is not positive.

    Notes
    -----
    ``K_eq = (γP0/φ)/(γ − (γ−1)/(1 + 8μ/(jΛ'²Pr ωρ0)·sqrt(1 + jρ0ωPrΛ'²/(16μ))))`` [1]_: isothermal at low, adiabatic at
    high frequency.

    References
    ----------
    .. [1] Y. Champoux and J.-F. Allard, *J. Appl. Phys.* 70 (1991) 1975–1979.

    Examples
    --------
    >>> wool = Porous(10_000.0, 0.98, 1.0, 40.0)
    >>> round(float(effective_bulk_modulus(wool, 1.0).real) / 101_325, 2)
    1.02
    """
    omega = 2.0 * np.pi * _positive(frequency)
    _, thermal = characteristic_lengths(porous, air=air)
    ratio = air.density * omega * air.prandtl_number * thermal**2 / (16.0 * air.viscosity)
    exchange = 1.0 + np.sqrt(1.0 + 1j * ratio) / (2j * ratio)
    gamma = air.heat_capacity_ratio
    return np.asarray(gamma * air.pressure / porous.porosity / (gamma - (gamma - 1.0) / exchange), dtype=np.complex128)


def _positive(frequency: ArrayLike) -> NDArray[np.float64]:
    """Frequency as an array, refused when it is not positive."""
    values = np.asarray(frequency, dtype=np.float64)
    if np.any(~(values > 0.0)):
        raise InvalidInput(f"lowest frequency is {float(np.min(values))} Hz; it must be positive")
    return values
