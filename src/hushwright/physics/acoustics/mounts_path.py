"""Sound that shakes the base, passes the mounts and is radiated by the floating floor."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES, N_BANDS
from hushwright.physics.acoustics.modal_coupling import radiation_factor_forced
from hushwright.physics.acoustics.radiation import radiation_efficiency
from hushwright.physics.air import AIR_20C, Air

FloatArray = NDArray[np.float64]
ComplexArray = NDArray[np.complex128]


@dataclass(frozen=True, slots=True)
class MountedFloor:
    """The leaf that stands on the mounts.

    Parameters
    ----------
    width : float
        Width [m], > 0.
    length : float
        Length [m], > 0.
    surface_density : float
        Mass per area of the leaf that bends [kg/m²], > 0.
    bending_stiffness : float
        Bending stiffness per width [N·m], > 0.
    loss_factor : tuple of float, shape (27,)
        Total loss factor in place [-], > 0.
    carried_mass : float
        All mass that rides on the mounts [kg], > 0: it moves as one body at low frequency.

    Raises
    ------
    InvalidInput
        If a value is not above 0 or there are not 27 loss factors.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005.

    Examples
    --------
    >>> MountedFloor(1.58, 2.25, 25.0, 4000.0, (0.05,) * 27, 744.0).area
    3.555
    """

    width: float
    length: float
    surface_density: float
    bending_stiffness: float
    loss_factor: tuple[float, ...]
    carried_mass: float

    def __post_init__(self) -> None:
        values = (self.width, self.length, self.surface_density, self.bending_stiffness, self.carried_mass)
        if not min(values) > 0.0:
            raise InvalidInput(f"mounted floor has the values {values}; all must be above 0")
        if len(self.loss_factor) != N_BANDS or not min(self.loss_factor) > 0.0:
            raise InvalidInput(f"{len(self.loss_factor)} loss factors {self.loss_factor[:3]}…; 27 above 0 are needed")

    @property
    def area(self) -> float:
        """Area [m²]."""
        return self.width * self.length


@dataclass(frozen=True, slots=True)
class MountBorne:
    """Power that the floor radiates because of its mounts, per band.

    Parameters
    ----------
    power : tuple of float, shape (27,)
        Radiated sound power [W], as into free half space.
    body_share : tuple of float, shape (27,)
        Part of it from the floor moving as one body [-].
    bending_share : tuple of float, shape (27,)
        Part of it from free bending waves [-]; the rest is the near field at the mounts.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005.

    Examples
    --------
    >>> MountBorne((1e-9,) * 27, (0.5,) * 27, (0.4,) * 27).power[0]
    1e-09
    """

    power: tuple[float, ...]
    body_share: tuple[float, ...]
    bending_share: tuple[float, ...]


def airborne_velocity_squared(
    incident_level: ArrayLike, reduction: ArrayLike, width: float, height: float, air: Air = AIR_20C
) -> FloatArray:
    """Mean square velocity of a panel that sound drives, from its sound reduction index.

    Parameters
    ----------
    incident_level : array_like, shape (27,)
        Level that goes with R outside [dB re 20 µPa].
    reduction : array_like, shape (27,)
        Sound reduction index of the panel alone [dB].
    width : float
        Width of the panel or bay [m], > 0.
    height : float
        Height of the panel or bay [m], > 0.
    air : Air, optional
        Air [-].

    Returns
    -------
    ndarray, shape (27,)
        Mean square velocity [m²/s²].

    Raises
    ------
    InvalidInput
        If a side is not above 0.

    Notes
    -----
    ``⟨v²⟩ = τ·p²/(4ρc)/(ρ c σ)`` with the radiation factor σ of forced motion. Free bending waves that radiate badly
    add velocity without adding to τ: where the panel is little damped the result is a lower bound.

    References
    ----------
    .. [1] F. Fahy and P. Gardonio, *Sound and Structural Vibration*, 2nd ed., Academic Press, 2007, ch. 5.

    Examples
    --------
    >>> squared = airborne_velocity_squared((70.0,) * 27, (20.0,) * 27, 0.6, 1.6)
    >>> round(float(10.0 * np.log10(squared[16] / 2.5e-15)))
    42
    """
    intensity = 4e-10 * 10.0 ** (np.asarray(incident_level, dtype=np.float64) / 10.0)
    intensity = intensity / (4.0 * air.characteristic_impedance)
    wavenumber = 2.0 * np.pi * FREQUENCIES / air.speed_of_sound
    radiation = radiation_factor_forced(wavenumber, (width, height))
    passing = 10.0 ** (-np.asarray(reduction, dtype=np.float64) / 10.0)
    return np.asarray(passing * intensity / (air.characteristic_impedance * radiation))


def mount_borne_power(
    base_velocity_squared: tuple[float, ...],
    base_mobility: tuple[complex, ...],
    insertion_loss: tuple[float, ...],
    count: int,
    floor: MountedFloor,
    air: Air = AIR_20C,
    *,
    floor_mobility: tuple[complex, ...] | None = None,
) -> MountBorne:
    r"""Sound power that reaches the room through the mounts.

    Parameters
    ----------
    base_velocity_squared : tuple of float, shape (27,)
        Mean square velocity of the base where the mounts stand, without them [m²/s²].
    base_mobility : tuple of complex, shape (27,)
        Driving-point mobility of the base under one mount [m/(N·s)].
    insertion_loss : tuple of float, shape (27,)
        Insertion loss of the mount between these two mobilities [dB]; negative at its resonance.
    count : int
        Number of mounts [-], ≥ 1.
    floor : MountedFloor
        What stands on them [-].
    air : Air, optional
        Air in the room [-].
    floor_mobility : tuple of complex, shape (27,), optional
        Driving-point mobility of the floor over one mount [m/(N·s)]; left out, that of the leaf and its share of the
        carried mass.

    Returns
    -------
    MountBorne
        Radiated power [W] and its parts [-].

    Raises
    ------
    InvalidInput
        If there is no mount or an array has not 27 values.

    Notes
    -----
    Per mount the force behind a rigid block would be ``v/(Y_b + Y_f)``; the mount takes its insertion loss off. The
    forces at different mounts are taken as unrelated. Each force F moves the floor in three ways:

    - as one body, ``v = ΣF/(ωM)`` over the squares, radiating with the factor of a uniform piston of its size;
    - free bending waves, power ``F²·Re Y∞`` (``Y∞ = 1/(8 sqrt(B m″))``), ``⟨v²⟩ = W/(ω η m″ S)``, radiating with the
      radiation efficiency of free waves;
    - the near field at the mount, ``W = ρ F²/(2π c m″²)`` below coincidence.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 5–7.
    .. [2] F. Fahy and P. Gardonio, *Sound and Structural Vibration*, 2nd ed., Academic Press, 2007, ch. 3.

    Examples
    --------
    >>> floor = MountedFloor(1.58, 2.25, 25.0, 4000.0, (0.05,) * 27, 744.0)
    >>> stiff = mount_borne_power((1e-10,) * 27, (1e-4 + 0j,) * 27, (0.0,) * 27, 12, floor)
    >>> soft = mount_borne_power((1e-10,) * 27, (1e-4 + 0j,) * 27, (20.0,) * 27, 12, floor)
    >>> round(stiff.power[10] / soft.power[10])
    100
    """
    if count < 1:
        raise InvalidInput(f"{count} mounts; at least 1 is needed")
    for name, values in (("velocities", base_velocity_squared), ("insertion losses", insertion_loss)):
        if len(values) != N_BANDS:
            raise InvalidInput(f"{len(values)} {name} given; there are {N_BANDS} bands")
    over = _floor_mobility(floor, count) if floor_mobility is None else np.asarray(floor_mobility)
    blocked = np.abs(np.asarray(base_mobility) + over) ** 2
    passing = 10.0 ** (-np.asarray(insertion_loss) / 10.0)
    force_squared = count * np.asarray(base_velocity_squared) / blocked * passing
    body, bending, near = _radiated(force_squared, floor, air)
    total = body + bending + near
    # Silence has no parts: the shares of nothing are given as 0.
    parts = np.where(total > 0.0, total, 1.0)
    return MountBorne(tuple(total.tolist()), tuple((body / parts).tolist()), tuple((bending / parts).tolist()))


def _infinite_mobility(floor: MountedFloor) -> float:
    return 1.0 / (8.0 * math.sqrt(floor.bending_stiffness * floor.surface_density))


def _floor_mobility(floor: MountedFloor, count: int) -> ComplexArray:
    """Leaf and body in parallel ways of giving way: their mobilities add."""
    body = count / (2j * np.pi * FREQUENCIES * floor.carried_mass)
    return np.asarray(_infinite_mobility(floor) + body, dtype=np.complex128)


def _radiated(force_squared: FloatArray, floor: MountedFloor, air: Air) -> tuple[FloatArray, FloatArray, FloatArray]:
    angular = 2.0 * np.pi * FREQUENCIES
    wavenumber = angular / air.speed_of_sound
    rho_c = air.characteristic_impedance
    # A small piston radiates k²S/2π; written so that it levels off at 1 for a large one.
    small = wavenumber**2 * floor.area / (2.0 * np.pi)
    body = rho_c * floor.area * small / (1.0 + small) * force_squared / (angular * floor.carried_mass) ** 2
    coincidence = air.speed_of_sound**2 / (2.0 * np.pi) * math.sqrt(floor.surface_density / floor.bending_stiffness)
    efficiency = radiation_efficiency(FREQUENCIES, coincidence, 2.0 * (floor.width + floor.length), floor.area, air=air)
    injected = force_squared * _infinite_mobility(floor)
    bending = rho_c * efficiency * injected / (angular * np.asarray(floor.loss_factor) * floor.surface_density)
    near = air.density * force_squared / (2.0 * np.pi * air.speed_of_sound * floor.surface_density**2)
    near = np.where(coincidence > FREQUENCIES, near, 0.0)
    return body, np.asarray(bending), np.asarray(near)
