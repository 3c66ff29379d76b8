"""Bending of plates: stiffness and loss as the passing wave sees them, mobilities, coincidence."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache, reduce

import numpy as np
from numpy.typing import NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES
from hushwright.physics.acoustics.constants import IN_SITU_LOSS, PAD_BELL_WIDTH
from hushwright.physics.acoustics.layers import BondedPlates, DampedPlate, LooseBoards, Panel, Plate
from hushwright.physics.air import AIR_20C, Air

FloatArray = NDArray[np.float64]
ComplexArray = NDArray[np.complex128]
Number = float | FloatArray

_METAL_OR_GLASS = 4e10  # Pa
_SOFT_BOARD = 3.3e9  # Pa, gypsum boards and the softest particle boards
LIMP_STIFFNESS = 1e-9
"""Bending stiffness [N·m] under which a leaf counts as limp."""


@dataclass(frozen=True, slots=True)
class Leaf:
    """One leaf at a set of frequencies; holds arrays, so it is not hashable by value.

    Parameters
    ----------
    surface_density : float
        Mass per area [kg/m²].
    bending_stiffness : ndarray, shape (n_frequency,)
        Bending stiffness per width [N·m].
    loss_factor : ndarray, shape (n_frequency,)
        Loss factor [-].
    """

    surface_density: float
    bending_stiffness: FloatArray
    loss_factor: FloatArray


def mounted_loss_factor(internal_loss: float, density: float, youngs_modulus: float) -> float:
    """Loss factor of a panel as mounted, from that of its material alone.

    Parameters
    ----------
    internal_loss : float
        Loss factor of the material, edges free [-].
    density : float
        Density [kg/m³].
    youngs_modulus : float
        Young's modulus [Pa].

    Returns
    -------
    float
        Loss factor in place [-]: that of its family in `constants.IN_SITU_LOSS`, or of the material where that is more.

    Raises
    ------
    InvalidInput
        If the loss factor is negative.

    Notes
    -----
    What a panel loses at its edges outweighs what glass or metal lose inside [1]_. Tables print the inner loss; the
    method of this package needs the whole. Families by density and modulus: glass, metal, lead, masonry, gypsum and
    soft boards, wood and plastics.

    References
    ----------
    .. [1] C. Hopkins, *Sound Insulation*, Butterworth-Heinemann, 2007, ch. 2 (coupling and total loss factors).

    Examples
    --------
    >>> mounted_loss_factor(0.2, 1000.0, 1e9)
    0.2
    >>> mounted_loss_factor(0.001, 2500.0, 64e9) == IN_SITU_LOSS["glass"]
    True
    """
    if not internal_loss >= 0.0:
        raise InvalidInput(f"loss factor is {internal_loss}; it must not be negative")
    return max(internal_loss, IN_SITU_LOSS[_family(density, youngs_modulus)])


def _family(density: float, youngs_modulus: float) -> str:
    """Family of a solid; the bounds part the rows of the material tables."""
    if youngs_modulus >= _METAL_OR_GLASS:
        return "glass" if 2350.0 <= density <= 2620.0 else "metal"
    if density > 8000.0:
        return "lead"
    if density > 1450.0:
        return "masonry"
    return "gypsum" if 600.0 <= density <= 1300.0 and youngs_modulus <= _SOFT_BOARD else "wood"


def pad_loss_factor(
    peak_loss_factor: float, peak_temperatures: tuple[float, float, float], temperature: float, frequency: float
) -> float:
    """Loss factor of a damping pad at a temperature and frequency.

    Parameters
    ----------
    peak_loss_factor : float
        Largest loss factor of the pad [-].
    peak_temperatures : tuple of float
        Temperature [°C] of the peak at 10, 100 and 1000 Hz.
    temperature : float
        Temperature of the pad [°C].
    frequency : float
        Frequency [Hz].

    Returns
    -------
    float
        Loss factor [-].

    Raises
    ------
    InvalidInput
        If the frequency is not positive.

    Notes
    -----
    The peak temperature goes linearly with lg f through the three printed points [1]_ and on with the last slope;
    around it ``η = η_max/(1 + (ΔT/w)²)`` with w from `constants.PAD_BELL_WIDTH` (common practice, no source).

    References
    ----------
    .. [1] I. L. Vér and L. L. Beranek, *Noise and Vibration Control Engineering*, 2nd ed., Wiley, 2006, table 14.1.

    Examples
    --------
    >>> round(pad_loss_factor(0.5, (10.0, 26.7, 51.7), 26.7, 100.0), 3)
    0.5
    >>> round(pad_loss_factor(0.5, (10.0, 26.7, 51.7), 0.0, 100.0), 2)
    0.2
    """
    if not frequency > 0.0:
        raise InvalidInput(f"frequency is {frequency} Hz; it must be positive")
    step = math.log10(frequency) - 1.0
    low, middle, high = peak_temperatures
    best = low + (middle - low) * step if step < 1.0 else middle + (high - middle) * (step - 1.0)
    return peak_loss_factor / (1.0 + ((temperature - best) / PAD_BELL_WIDTH) ** 2)


def free_layer_damping(
    plate: Plate, pad_thickness: float, pad_modulus: float, pad_loss_factor: float
) -> tuple[float, float]:
    """Bending stiffness and loss factor of a plate with a pad on all of one side.

    Parameters
    ----------
    plate : Plate
        The bare plate (thickness [m] and so on).
    pad_thickness : float
        Thickness of the pad [m].
    pad_modulus : float
        Young's modulus of the pad [Pa].
    pad_loss_factor : float
        Loss factor of the pad [-].

    Returns
    -------
    tuple of float
        Bending stiffness per width [N·m] and loss factor [-] of the pair.

    Notes
    -----
    Two bonded layers bending about their common neutral plane with complex moduli: ``B = B1 + B2 + A1A2/(A1 +
    A2)·d²`` with stretching stiffnesses A and distance d of the mid-planes [1]_ [2]_.

    References
    ----------
    .. [1] H. Oberst, *Acustica* 2 (1952), Akustische Beihefte 181–194.
    .. [2] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 3.

    Examples
    --------
    >>> steel = Plate(0.001, 7850.0, 207e9, 0.3, 0.001)
    >>> stiffness, loss = free_layer_damping(steel, 0.003, 0.5e9, 0.4)
    >>> round(loss, 3)
    0.109
    """
    stretch = plate.extensional_stiffness * (1.0 + 1j * plate.loss_factor)
    pad_stretch = pad_modulus * pad_thickness * (1.0 + 1j * pad_loss_factor)
    pair = stretch * plate.thickness**2 / 12.0 + pad_stretch * pad_thickness**2 / 12.0
    if abs(stretch) + abs(pad_stretch) > 0.0:
        pair += stretch * pad_stretch / (stretch + pad_stretch) * ((plate.thickness + pad_thickness) / 2.0) ** 2
    return pair.real, (pair.imag / pair.real if pair.real > 0.0 else plate.loss_factor)


def complex_stiffness(
    panel: Panel, frequency: Number, wavenumber_squared: Number, across: Number | None = None
) -> ComplexArray:
    """Complex bending stiffness that a bending wave of given wavenumber meets.

    Parameters
    ----------
    panel : Plate, DampedPlate, BondedPlates or LooseBoards
        The panel (thickness [m] and so on).
    frequency : float or ndarray, shape (...)
        Frequency [Hz].
    wavenumber_squared : float or ndarray, shape (...)
        Square of the wavenumber along the panel [1/m²].
    across : float, ndarray or None, optional
        Squared cosine of the angle between the wave and the width [-]; None is the mean over all directions.

    Returns
    -------
    complex or ndarray, shape (...)
        Bending stiffness per width times (1 + jη) [N·m].

    Notes
    -----
    Orthotropic: ``sqrt B = cos²φ·sqrt B_across + sin²φ·sqrt B`` [1]_; thick plates lose stiffness to shear,
    ``B/(1 + B k²/(5/6·G h))`` [1]_; bonded plates after Ross, Kerwin and Ungar [2]_: the coupled part is weighed with
    ``g/(1 + g)``, ``g = G(1 + jβ)/(k² h_core)·(1/A1 + 1/A2)``; more than two plates are folded one by one.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 3 and 6.
    .. [2] D. Ross, E. E. Ungar and E. M. Kerwin, in *Structural Damping*, ASME, 1959.

    Examples
    --------
    >>> value = complex_stiffness(Plate(0.001, 7850.0, 207e9, 0.3, 0.01), 1000.0, 100.0)
    >>> round(complex(value).real, 2)
    18.96
    """
    if isinstance(panel, Plate):
        return _plate_stiffness(panel, wavenumber_squared, across)
    if isinstance(panel, DampedPlate):
        return _damped_stiffness(panel, frequency, wavenumber_squared, across)
    if isinstance(panel, LooseBoards):
        none = np.zeros((), dtype=np.complex128)
        return sum((_plate_stiffness(p, wavenumber_squared, across) for p in panel.plates), none)
    return _bonded_stiffness(panel, wavenumber_squared, across)


def _plate_stiffness(plate: Plate, wavenumber_squared: Number, across: Number | None) -> ComplexArray:
    """One plate with orthotropy, shear and loss."""
    stiffness: Number = plate.bending_stiffness
    if plate.youngs_modulus_across is not None:
        root_up, root_across = math.sqrt(stiffness), math.sqrt(plate.bending_stiffness_across)
        weight = 0.5 if across is None else across
        stiffness = (weight * root_across + (1.0 - weight) * root_up) ** 2
    if plate.shear_stiffness > 0.0:
        stiffness = stiffness / (1.0 + plate.bending_stiffness * wavenumber_squared / plate.shear_stiffness)
    return np.asarray(stiffness * (1.0 + 1j * plate.loss_factor), dtype=np.complex128)


def _damped_stiffness(
    damped: DampedPlate, frequency: Number, wavenumber_squared: Number, across: Number | None
) -> ComplexArray:
    """Bare and padded share side by side; the stored energies add by area."""
    bare = _plate_stiffness(damped.plate, wavenumber_squared, across)
    base = damped.plate.bending_stiffness
    if base <= 0.0 or damped.coverage == 0.0:
        return bare
    factors = _padded(damped.plate, damped.pad_thickness, damped.pad_modulus, damped.pad_losses)
    padded = factors[0] if factors.size == 1 else np.interp(np.log(frequency), np.log(FREQUENCIES), factors)
    share = 1.0 - damped.coverage + damped.coverage * padded / (base * (1.0 + 1j * damped.plate.loss_factor))
    return np.asarray(bare * share, dtype=np.complex128)


@lru_cache(maxsize=256)
def _padded(plate: Plate, pad_thickness: float, pad_modulus: float, losses: tuple[float, ...]) -> ComplexArray:
    """Complex stiffness of the padded part for each loss factor of the pad."""
    pairs = [free_layer_damping(plate, pad_thickness, pad_modulus, loss) for loss in losses]
    return np.array([stiffness * (1.0 + 1j * loss) for stiffness, loss in pairs])


def _bonded_stiffness(bonded: BondedPlates, wavenumber_squared: Number, across: Number | None) -> ComplexArray:
    """Fold the plates one by one; each joint couples with the shear of its core."""
    shear = bonded.core_shear_modulus * (1.0 + 1j * bonded.core_loss_factor) / bonded.core_thickness
    safe = np.maximum(wavenumber_squared, 1e-12)

    def fold(done: tuple[ComplexArray, float, float], plate: Plate) -> tuple[ComplexArray, float, float]:
        stiffness, stretch, thickness = done
        own = _plate_stiffness(plate, wavenumber_squared, across)
        added = plate.extensional_stiffness
        if min(stretch, added) <= 0.0:
            return stiffness + own, stretch + added, thickness + plate.thickness + bonded.core_thickness
        distance = (thickness + plate.thickness) / 2.0 + bonded.core_thickness
        coupling = shear / safe * (1.0 / stretch + 1.0 / added)
        joint = stretch * added / (stretch + added) * distance**2 * coupling / (1.0 + coupling)
        return stiffness + own + joint, stretch + added, thickness + plate.thickness + bonded.core_thickness

    first = bonded.plates[0]
    start = (
        np.asarray(_plate_stiffness(first, wavenumber_squared, across)),
        first.extensional_stiffness,
        first.thickness,
    )
    return np.asarray(reduce(fold, bonded.plates[1:], start)[0])


def free_wave(panel: Panel | tuple[Panel, ...], frequency: FloatArray, surface_density: float | None = None) -> Leaf:
    """Bending stiffness and loss factor at the free bending wave of a panel, or of panels side by side.

    Parameters
    ----------
    panel : Plate, DampedPlate, BondedPlates, LooseBoards or a tuple of them
        The panel (thickness [m] and so on), or all panels of one leaf, whose stiffnesses add.
    frequency : ndarray, shape (n_frequency,)
        Frequency [Hz].
    surface_density : float or None, optional
        Mass per area of the leaf [kg/m²] with what is limp in it; None is that of the panels.

    Returns
    -------
    Leaf
        Surface density [kg/m²], stiffness [N·m] and loss factor [-] at each frequency.

    Notes
    -----
    ``k⁴ = ω² m/B(k)`` [1]_, solved by repetition; B falls slowly with k, so four rounds settle it within 1 %.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 3.

    Examples
    --------
    >>> leaf = free_wave(Plate(0.001, 7850.0, 207e9, 0.3, 0.01), np.array([1000.0]))
    >>> round(float(leaf.loss_factor[0]), 3)
    0.01
    """
    omega = 2.0 * np.pi * frequency
    panels = panel if isinstance(panel, tuple) else (panel,)
    mass = sum(each.surface_density for each in panels) if surface_density is None else surface_density

    def total(wavenumber_squared: Number) -> ComplexArray:
        none = np.zeros(frequency.shape, dtype=np.complex128)
        return sum((complex_stiffness(each, frequency, wavenumber_squared) for each in panels), none)

    stiffness = total(0.0)
    for _ in range(4):
        stiffness = total(omega * np.sqrt(mass / np.maximum(stiffness.real, LIMP_STIFFNESS)))
    real = np.maximum(stiffness.real, LIMP_STIFFNESS)
    return Leaf(mass, real, np.maximum(stiffness.imag, 0.0) / real)


def coincidence_frequency(surface_density: float, bending_stiffness: float, *, air: Air = AIR_20C) -> float:
    """Lowest frequency at which the bending wave is as long as the wave in air.

    Parameters
    ----------
    surface_density : float
        Mass per area [kg/m²].
    bending_stiffness : float
        Bending stiffness per width [N·m].
    air : Air, optional
        Air (speed of sound [m/s]).

    Returns
    -------
    float
        Coincidence frequency [Hz]; infinite for a limp leaf.

    Raises
    ------
    InvalidInput
        If the surface density is not positive.

    Notes
    -----
    ``f_c = c²/(2π)·sqrt(m/B)`` [1]_.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 6.

    Examples
    --------
    >>> glass = Plate(0.006, 2500.0, 63.71e9, 0.24, 0.02)
    >>> round(coincidence_frequency(glass.surface_density, glass.bending_stiffness), -1)
    2080.0
    """
    if not surface_density > 0.0:
        raise InvalidInput(f"surface density is {surface_density} kg/m²; it must be positive")
    if bending_stiffness <= LIMP_STIFFNESS:
        return math.inf
    return air.speed_of_sound**2 / (2.0 * math.pi) * math.sqrt(surface_density / bending_stiffness)


def point_mobility(leaf: Leaf) -> FloatArray:
    """Driving-point mobility of a large leaf for a point force.

    Parameters
    ----------
    leaf : Leaf
        The leaf (surface density [kg/m²], stiffness [N·m]).

    Returns
    -------
    ndarray, shape (n_frequency,)
        Mobility [m/(N·s)], real.

    Notes
    -----
    ``Y = 1/(8 sqrt(B m))`` [1]_.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 5.

    Examples
    --------
    >>> leaf = Leaf(8.0, np.array([20.0]), np.array([0.01]))
    >>> round(float(point_mobility(leaf)[0]), 5)
    0.00988
    """
    return np.asarray(1.0 / (8.0 * np.sqrt(leaf.bending_stiffness * leaf.surface_density)))


def line_mobility(leaf: Leaf, frequency: FloatArray) -> ComplexArray:
    """Driving-point mobility of a large leaf for a line force, per length of line.

    Parameters
    ----------
    leaf : Leaf
        The leaf (surface density [kg/m²], stiffness [N·m]).
    frequency : ndarray, shape (n_frequency,)
        Frequency [Hz].

    Returns
    -------
    ndarray, shape (n_frequency,)
        Mobility times length [m²/(N·s)].

    Notes
    -----
    ``Y' = (1 − j)/(4 m c_B)`` with the bending wave speed ``c_B = (ω² B/m)^(1/4)`` [1]_.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 5.

    Examples
    --------
    >>> leaf = Leaf(8.0, np.array([20.0]), np.array([0.01]))
    >>> round(float(abs(line_mobility(leaf, np.array([1000.0]))[0])), 6)
    0.000443
    """
    speed = (np.square(2.0 * np.pi * frequency) * leaf.bending_stiffness / leaf.surface_density) ** 0.25
    return np.asarray((1.0 - 1j) / (4.0 * leaf.surface_density * speed))
