"""What mounts gain over bolting down: insertion loss between mobilities that give way, waves in the mount."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.mechanics._guard import ComplexArray, FloatArray, angular, not_negative


@dataclass(frozen=True, slots=True)
class MountPath:
    """One mount as a way for vibration: spring, losses and its own moving mass.

    Parameters
    ----------
    spring_stiffness : float
        Stiffness at low audio frequency [N/m]; infinite for a bolt, a bottomed mount or a touching stop.
    loss_factor : float, optional
        Loss factor [-].
    rubber_mass : float, optional
        Mass of the rubber between the plates [kg]; zero leaves the waves in the mount out.

    Raises
    ------
    InvalidInput
        If the stiffness is not above zero or another value is negative.

    References
    ----------
    .. [1] ISO 10846-1:2008, *Vibro-acoustic transfer properties of resilient elements*.

    Examples
    --------
    >>> round(MountPath(182e3, 0.1, 0.05).first_wave_frequency)
    954
    """

    spring_stiffness: float
    loss_factor: float = 0.1
    rubber_mass: float = 0.0

    def __post_init__(self) -> None:
        if not self.spring_stiffness > 0.0:
            raise InvalidInput(f"dynamic stiffness is {self.spring_stiffness} N/m; it must be above zero")
        not_negative("loss factor", self.loss_factor, "")
        not_negative("moving mass", self.rubber_mass, "kg")

    @property
    def is_rigid(self) -> bool:
        """Whether the path is a bolt [-]."""
        return math.isinf(self.spring_stiffness)

    @property
    def first_wave_frequency(self) -> float:
        """Frequency [Hz] at which half a wave stands in the mount; infinite without moving mass."""
        if self.is_rigid or self.rubber_mass == 0.0:
            return math.inf
        return math.sqrt(self.spring_stiffness / self.rubber_mass) / 2.0


def mount_impedances(path: MountPath, frequency: ArrayLike) -> tuple[ComplexArray, ComplexArray]:
    """Driving and transfer impedance of a mount with its far end held.

    Parameters
    ----------
    path : MountPath
        The mount, not rigid [-].
    frequency : array_like, shape (n_frequency,)
        Frequency [Hz], above zero.

    Returns
    -------
    tuple of two ndarrays, shape (n_frequency,)
        Driving impedance and blocked transfer impedance [N·s/m].

    Raises
    ------
    InvalidInput
        If the path is rigid or a frequency is not above zero.

    Notes
    -----
    A rod in compression waves: with ``Z0 = √(k m)`` and ``κ = ω √(m/k)``, ``Z_drive = Z0/(j tan κ)`` and
    ``Z_transfer = Z0/(j sin κ)``, k complex. Well below the first wave both are ``k/(jω)``.

    References
    ----------
    .. [1] J. C. Snowdon, *Vibration and Shock in Damped Mechanical Systems*, Wiley, 1968.
    .. [2] ISO 10846-1:2008, *Vibro-acoustic transfer properties of resilient elements*.

    Examples
    --------
    >>> drive, transfer = mount_impedances(MountPath(182e3, 0.0, 0.05), 20.0)
    >>> round(abs(complex(transfer)) * 2 * np.pi * 20.0 / 1e3, 1)
    182.1
    """
    if path.is_rigid:
        raise InvalidInput(f"mount stiffness is {path.spring_stiffness} N/m; a rigid mount has no impedance")
    omega = angular(frequency)
    spring = path.spring_stiffness * (1.0 + 1j * path.loss_factor)
    if path.rubber_mass == 0.0:
        light = np.asarray(spring / (1j * omega))
        return light, light.copy()
    wave_impedance = np.sqrt(spring * path.rubber_mass)
    phase = omega * np.sqrt(path.rubber_mass / spring)
    transfer = wave_impedance / (1j * np.sin(phase))
    return np.asarray(transfer * np.cos(phase)), np.asarray(transfer)


def bridge_mobility(path: MountPath, frequency: ArrayLike) -> ComplexArray:
    """Mobility of a mount seen as a point bridge between two leaves.

    Parameters
    ----------
    path : MountPath
        The mount [-].
    frequency : array_like, shape (n_frequency,)
        Frequency [Hz], above zero.

    Returns
    -------
    ndarray, shape (n_frequency,)
        Blocked transfer mobility [m/(N·s)]: ``jω/k`` low down, zero for a rigid path.

    Raises
    ------
    InvalidInput
        If a frequency is not above zero.

    References
    ----------
    .. [1] ISO 10846-1:2008, *Vibro-acoustic transfer properties of resilient elements*.

    Examples
    --------
    >>> float(abs(bridge_mobility(MountPath(float("inf")), 100.0)))
    0.0
    """
    if path.is_rigid:
        return np.zeros(angular(frequency).shape, dtype=np.complex128)
    return np.asarray(1.0 / mount_impedances(path, frequency)[1])


def insertion_loss(
    path: MountPath,
    base_mobility: ArrayLike,
    room_mobility: ArrayLike,
    frequency: ArrayLike,
    air_stiffness: ArrayLike = 0.0,
) -> FloatArray:
    """Insertion loss of a mount between a base and a room that both give way, against a rigid fixing.

    Parameters
    ----------
    path : MountPath
        The mount [-].
    base_mobility : array_like, shape (n_frequency,)
        Mobility of the vehicle at the mount [m/(N·s)].
    room_mobility : array_like, shape (n_frequency,)
        Mobility of the floor at the mount [m/(N·s)].
    frequency : array_like, shape (n_frequency,)
        Frequency [Hz], above zero.
    air_stiffness : array_like, shape (n_frequency,), optional
        This mount's share of the stiffness of the air beside it [N/m], complex.

    Returns
    -------
    ndarray, shape (n_frequency,)
        Insertion loss [dB]; negative where the mount makes it worse, zero for a rigid path.

    Raises
    ------
    InvalidInput
        If a frequency is not above zero, or both sides have no mobility at all.

    Notes
    -----
    Without moving mass it is ``20 lg |1 + Y_mount/(Y_base + Y_room)|`` [1]_: a soft mount on a soft sheet gains little.
    With it, ``20 lg |(1 + Z_d (Y_b + Y_r) + (Z_d² − Z_t²) Y_b Y_r)/(Z_t (Y_b + Y_r))|`` [2]_, and waves in the mount
    cap the gain above `MountPath.first_wave_frequency`. Air in parallel adds ``K/(jω)`` to both impedances. Only
    motion along the mount is counted; rocking of the contact passes some more.

    References
    ----------
    .. [1] I. L. Vér and L. L. Beranek, *Noise and Vibration Control Engineering*, 2nd ed., Wiley, 2006, ch. 13;
       T. E. Vigran, *Building Acoustics*, Taylor & Francis, 2008, eq. (2.43).
    .. [2] J. C. Snowdon, *Vibration and Shock in Damped Mechanical Systems*, Wiley, 1968.

    Examples
    --------
    >>> loss = insertion_loss(MountPath(182e3, 0.0), 0.5e-3, 0.5e-3, [100.0])
    >>> round(float(loss[0]), 2)
    11.11
    """
    base, room = np.asarray(base_mobility, dtype=np.complex128), np.asarray(room_mobility, dtype=np.complex128)
    omega = angular(frequency)
    both = base + room
    if np.any(np.abs(both) == 0.0):
        raise InvalidInput(f"base and room mobility add up to zero in {both.tolist()}; nothing would move")
    if path.is_rigid:
        return np.zeros(np.broadcast_shapes(omega.shape, both.shape))
    drive, transfer = mount_impedances(path, frequency)
    beside = np.asarray(air_stiffness, dtype=np.complex128) / (1j * omega)
    # drive² − transfer² written as a product: the difference of the two nearly equal squares would lose digits
    mixed = (drive - transfer) * (drive + transfer + 2.0 * beside)
    passed = (transfer + beside) * both
    with np.errstate(divide="ignore"):
        ratio = np.abs((1.0 + (drive + beside) * both + mixed * base * room) / passed)
        return np.asarray(20.0 * np.log10(ratio), dtype=np.float64)


def floor_reduction_improvement(
    path: MountPath,
    count: int,
    base_mobility: ArrayLike,
    floor_mobility: ArrayLike,
    frequency: ArrayLike,
    *,
    air_stiffness: ArrayLike = 0.0,
    rigid_count: int = 0,
) -> FloatArray:
    """What a floor on mounts gains for structure-borne sound over the same floor bolted down.

    Parameters
    ----------
    path : MountPath
        One of the mounts [-].
    count : int
        Number of ways between body and floor, good mounts and bridges together [-].
    base_mobility : array_like, shape (n_frequency,)
        Mobility of the vehicle at one mount [m/(N·s)].
    floor_mobility : array_like, shape (n_frequency,)
        Mobility of the floor at one mount [m/(N·s)], see `floating_floor_mobility`.
    frequency : array_like, shape (n_frequency,)
        Frequency [Hz], above zero.
    air_stiffness : array_like, shape (n_frequency,), optional
        Stiffness of the air under the whole floor [N/m], complex: `piston_air_stiffness`.
    rigid_count : int, optional
        How many of the ways are rigid [-]: bottomed mounts, touching stops, bolts.

    Returns
    -------
    ndarray, shape (n_frequency,)
        Improvement [dB]; negative near the resonance.

    Raises
    ------
    InvalidInput
        If the counts do not fit or a frequency is not above zero.

    Notes
    -----
    Energies passed by the ways add: ``−10 lg ((1 − n/N) 10^(−IL/10) + n/N)``. One bridge among twelve mounts caps the
    improvement at 10.8 dB.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005.

    Examples
    --------
    >>> path = MountPath(20e3)
    >>> touching = floor_reduction_improvement(path, 12, 1e-4, 1e-4, 1000.0, rigid_count=1)
    >>> round(float(touching), 1)
    10.8
    """
    if not (isinstance(count, int) and count >= 1):
        raise InvalidInput(f"number of mounts is {count}; it must be a whole number, one or more")
    if not (isinstance(rigid_count, int) and 0 <= rigid_count <= count):
        raise InvalidInput(f"{rigid_count} of {count} mounts are said to be rigid; it must be 0 to {count}")
    share = np.asarray(air_stiffness, dtype=np.complex128) / count
    loss = insertion_loss(path, base_mobility, floor_mobility, frequency, share)
    bridged = rigid_count / count
    passed = (1.0 - bridged) * 10.0 ** (-loss / 10.0) + bridged
    return np.asarray(-10.0 * np.log10(passed), dtype=np.float64)
