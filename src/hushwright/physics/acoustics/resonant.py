"""Free bending waves of a leaf between its edges: their losses, and what they pass of a diffuse field."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hushwright.physics.acoustics.plates import LIMP_STIFFNESS, Leaf
from hushwright.physics.acoustics.radiation import radiation_efficiency
from hushwright.physics.air import AIR_20C, Air

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class FreeWaves:
    """Free waves of a leaf in a field of given edges.

    Parameters
    ----------
    efficiency : ndarray, shape (n_frequency,)
        Radiation efficiency [-].
    total_loss : ndarray, shape (n_frequency,)
        Loss factor in place with radiation to both sides [-].
    coincidence : ndarray, shape (n_frequency,)
        Coincidence frequency for the stiffness at each frequency [Hz].
    first_mode : ndarray, shape (n_frequency,)
        First mode of the field for the stiffness at each frequency [Hz].
    """

    efficiency: FloatArray
    total_loss: FloatArray
    coincidence: FloatArray
    first_mode: FloatArray


def free_waves(
    leaf: Leaf, frequency: FloatArray, perimeter: float, area: float, *, edge_factor: float = 1.0, air: Air = AIR_20C
) -> FreeWaves:
    """Radiation, losses, coincidence and first mode of a leaf between edges.

    Parameters
    ----------
    leaf : Leaf
        The leaf (surface density [kg/m²], stiffness [N·m], loss factor [-]).
    frequency : ndarray, shape (n_frequency,)
        Frequency [Hz].
    perimeter : float
        Length of the edges or ribs round the field [m].
    area : float
        Area of the field [m²].
    edge_factor : float, optional
        Gain of the edges below coincidence [-].
    air : Air, optional
        Air (speed of sound [m/s]).

    Returns
    -------
    FreeWaves
        Efficiency and loss factor [-], coincidence and first mode [Hz].

    Notes
    -----
    ``η_total = η + 2ρcσ_r/(ωm)``; first mode of a simply supported rectangle of that perimeter and area,
    ``f_11 = (π/2)·sqrt(B/m)·(1/a² + 1/b²)`` [1]_.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 4 and 6.

    Examples
    --------
    >>> leaf = Leaf(15.0, np.array([1217.0]), np.array([0.03]))
    >>> waves = free_waves(leaf, np.array([500.0]), 5.5, 1.875)
    >>> round(float(waves.coincidence[0]), -1), round(float(waves.first_mode[0]), 1)
    (2080.0, 15.3)
    """
    mass = leaf.surface_density
    root = np.sqrt(leaf.bending_stiffness / mass)
    coincidence = air.speed_of_sound**2 / (2.0 * np.pi) / root
    efficiency = radiation_efficiency(frequency, coincidence, perimeter, area, edge_factor=edge_factor, air=air)
    radiated = 2.0 * air.characteristic_impedance * efficiency / (2.0 * np.pi * frequency * mass)
    curvature = (perimeter**2 / 4.0 - 2.0 * area) / area**2
    return FreeWaves(
        efficiency, np.maximum(leaf.loss_factor, 1e-5) + radiated, coincidence, 0.5 * np.pi * root * curvature
    )


def resonant_over_mass_law(leaf: Leaf, waves: FreeWaves, frequency: FloatArray) -> FloatArray:
    """Resonant transmission of a leaf over (2ρc/ωm)².

    Parameters
    ----------
    leaf : Leaf
        The leaf (surface density [kg/m²], stiffness [N·m]).
    waves : FreeWaves
        Its free waves (coincidence [Hz] and so on).
    frequency : ndarray, shape (n_frequency,)
        Frequency [Hz].

    Returns
    -------
    ndarray, shape (n_frequency,)
        ``(π/2)(f_c/f)σ_r²/η`` below coincidence [-], 0 above, where the forced waves hold everything.

    Notes
    -----
    Below its first mode a leaf has no free waves; what is left falls with the response of that mode, ``1/(1 +
    (f_11/f)⁴)``.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 6.

    Examples
    --------
    >>> leaf = Leaf(15.0, np.array([1217.0]), np.array([0.03]))
    >>> waves = free_waves(leaf, np.array([500.0, 4000.0]), 5.5, 1.875)
    >>> resonant_over_mass_law(leaf, waves, np.array([500.0, 4000.0])).round(2).tolist()
    [0.24, 0.0]
    """
    free = 0.5 * np.pi * waves.coincidence / frequency * np.square(waves.efficiency) / waves.total_loss
    there = (frequency < waves.coincidence) & (leaf.bending_stiffness > LIMP_STIFFNESS)
    return np.where(there, free / (1.0 + (waves.first_mode / frequency) ** 4), 0.0)


def resonant_transmission(
    leaf: Leaf, frequency: FloatArray, perimeter: float, area: float, *, edge_factor: float = 1.0, air: Air = AIR_20C
) -> FloatArray:
    """Transmission factor of one leaf through its free waves alone, in a diffuse field.

    Parameters
    ----------
    leaf : Leaf
        The leaf (surface density [kg/m²], stiffness [N·m], loss factor [-]).
    frequency : ndarray, shape (n_frequency,)
        Frequency [Hz].
    perimeter : float
        Length of the edges or ribs round the field [m].
    area : float
        Area of the field [m²].
    edge_factor : float, optional
        Gain of the edges below coincidence [-].
    air : Air, optional
        Air (density [kg/m³]).

    Returns
    -------
    ndarray, shape (n_frequency,)
        ``(2ρc/ωm)²·(π/2)(f_c/f)σ_r²/η`` below coincidence [-]; this part, not the forced one, goes on along the
        structure.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 6.

    Examples
    --------
    >>> leaf = Leaf(15.0, np.array([1217.0]), np.array([0.03]))
    >>> round(float(-10 * np.log10(resonant_transmission(leaf, np.array([500.0]), 5.5, 1.875)[0])), 1)
    41.4
    """
    waves = free_waves(leaf, frequency, perimeter, area, edge_factor=edge_factor, air=air)
    mass_law = np.square(air.characteristic_impedance / (np.pi * frequency * leaf.surface_density))
    return np.asarray(mass_law * resonant_over_mass_law(leaf, waves, frequency))
