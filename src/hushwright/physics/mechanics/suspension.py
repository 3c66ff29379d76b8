"""A stiff body on springs: load on each, sag and tilt, and the six ways in which it swings."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.air import STANDARD_GRAVITY
from hushwright.physics.mechanics._guard import ComplexArray, FloatArray, angular, not_negative, positive
from hushwright.physics.mechanics.rigid_body import RigidBody, Vector, mass_matrix

_MOTIONS: Final = ("fore and aft", "sideways", "up and down", "roll", "pitch", "yaw")


@dataclass(frozen=True, slots=True)
class Support:
    """Where a body rests on a spring, and how stiff that is along each axis.

    Parameters
    ----------
    place : tuple of three floats
        Place of the spring [m].
    stiffness : tuple of three floats
        Stiffness along x, y, z [N/m].
    loss_factor : float, optional
        Loss factor [-].

    Raises
    ------
    InvalidInput
        If a stiffness is not above zero; a rigid mount is no spring.

    References
    ----------
    .. [1] L. Meirovitch, *Analytical Methods in Vibrations*, Macmillan, 1967.

    Examples
    --------
    >>> Support((0.5, 0.4, 0.0), (65e3, 65e3, 130e3)).stiffness[2]
    130000.0
    """

    place: Vector
    stiffness: Vector
    loss_factor: float = 0.1

    def __post_init__(self) -> None:
        for axis, value in zip("xyz", self.stiffness, strict=True):
            positive(f"support stiffness along {axis}", value, "N/m")
        not_negative("loss factor", self.loss_factor, "")
        if not all(math.isfinite(value) for value in self.place):
            raise InvalidInput(f"support at {self.place} m; a place needs three finite numbers")


@dataclass(frozen=True, slots=True)
class Rest:
    """How a body comes to rest on its supports.

    Parameters
    ----------
    loads : tuple of floats, length n_support
        Vertical load on each support [N]; below zero it is pulled.
    displacement : tuple of three floats
        Displacement of the centre [m].
    rotation : tuple of three floats
        Rotation about x (roll), y (pitch), z (yaw) [rad].
    deflections : tuple of floats, length n_support
        Downward deflection at each support [m].

    References
    ----------
    .. [1] L. Meirovitch, *Analytical Methods in Vibrations*, Macmillan, 1967.
    """

    loads: tuple[float, ...]
    displacement: Vector
    rotation: Vector
    deflections: tuple[float, ...]

    @property
    def tilt(self) -> float:
        """Angle between the floor and level [rad]."""
        return math.hypot(self.rotation[0], self.rotation[1])

    @property
    def lifted(self) -> tuple[int, ...]:
        """Numbers [-] of the supports that are pulled instead of pressed."""
        return tuple(number for number, load in enumerate(self.loads) if load <= 0.0)


@dataclass(frozen=True, slots=True)
class SwingMode:
    """One natural mode of a body on springs.

    Parameters
    ----------
    frequency : float
        Natural frequency [Hz], without damping.
    shape : tuple of floats, length 6
        Displacement of the centre [m] and rotation [rad] along x, y, z, scaled to unit modal mass.
    energy_shares : tuple of floats, length 6
        Share of the kinetic energy in each of the six motions [-].
    loss_factor : float
        Loss factor of the mode [-].

    References
    ----------
    .. [1] L. Meirovitch, *Analytical Methods in Vibrations*, Macmillan, 1967.
    """

    frequency: float
    shape: tuple[float, ...]
    energy_shares: tuple[float, ...]
    loss_factor: float

    @property
    def motion(self) -> str:
        """Name of the motion [-] that holds most of the energy."""
        return _MOTIONS[int(np.argmax(self.energy_shares))]


def rest_on(body: RigidBody, supports: Sequence[Support], gravity: float = STANDARD_GRAVITY) -> Rest:
    """Loads, sag and tilt of a body on its supports.

    Parameters
    ----------
    body : RigidBody
        What is carried [-].
    supports : sequence of Support, length n_support
        Springs with their slow stiffness [-].
    gravity : float, optional
        Acceleration of free fall [m/s²].

    Returns
    -------
    Rest
        Loads [N], displacement [m], rotation [rad].

    Raises
    ------
    InvalidInput
        If the supports do not hold the body.

    Notes
    -----
    Four and more supports carry as their stiffness has it: ``K q = weight`` with six equations. Supports of unequal
    height (an uneven vehicle floor, unequal free heights) are not included, small rotations are assumed. A load below
    zero means that the support is pulled; one that only stands there lifts off and the others carry more.

    References
    ----------
    .. [1] L. Meirovitch, *Analytical Methods in Vibrations*, Macmillan, 1967.

    Examples
    --------
    >>> from hushwright.physics.mechanics.rigid_body import box_body
    >>> body = box_body(400.0, (0.1, 0.0, 0.9), (2.2, 1.6, 1.9))
    >>> corners = [Support((x, y, 0.0), (65e3, 65e3, 130e3)) for x in (-1.0, 1.0) for y in (-0.7, 0.7)]
    >>> [round(load) for load in rest_on(body, corners).loads]
    [883, 883, 1079, 1079]
    """
    matrix = _stiffness_matrix(body, supports).real
    weight = np.array([0.0, 0.0, -body.mass * positive("gravity", gravity, "m/s²"), 0.0, 0.0, 0.0])
    moved = np.linalg.solve(matrix, weight)
    at_supports = [_transport(body, support.place) @ moved for support in supports]
    sags = tuple(-float(motion[2]) for motion in at_supports)
    values = [float(value) for value in moved]
    return Rest(
        loads=tuple(sag * support.stiffness[2] for sag, support in zip(sags, supports, strict=True)),
        displacement=(values[0], values[1], values[2]),
        rotation=(values[3], values[4], values[5]),
        deflections=sags,
    )


def swing_modes(body: RigidBody, supports: Sequence[Support]) -> tuple[SwingMode, ...]:
    """Six natural modes of a body on its supports, lowest first.

    Parameters
    ----------
    body : RigidBody
        What is carried [-].
    supports : sequence of Support, length n_support
        Springs with their dynamic stiffness [-].

    Returns
    -------
    tuple of six SwingMode
        Frequencies [Hz], shapes and energy shares.

    Raises
    ------
    InvalidInput
        If the supports do not hold the body.

    Notes
    -----
    ``K q = ω² M q``; the loss factor of a mode is the share of its elastic energy times the loss factor of each
    support. Gravity on the raised centre softens the roll by ``m g h``, which is left out (below 1 % on rubber).

    References
    ----------
    .. [1] L. Meirovitch, *Analytical Methods in Vibrations*, Macmillan, 1967.

    Examples
    --------
    >>> from hushwright.physics.mechanics.rigid_body import box_body
    >>> body = box_body(400.0, (0.0, 0.0, 0.0), (2.2, 1.6, 1.9))
    >>> corners = [Support((x, y, 0.0), (65e3, 65e3, 130e3)) for x in (-1.0, 1.0) for y in (-0.7, 0.7)]
    >>> [(round(mode.frequency, 2), mode.motion) for mode in swing_modes(body, corners)][:1]
    [(4.06, 'fore and aft')]
    """
    stiffness = _stiffness_matrix(body, supports)
    mass = mass_matrix(body)
    root = np.linalg.cholesky(mass)
    inverse = np.linalg.inv(root)
    values, vectors = np.linalg.eigh(inverse @ stiffness.real @ inverse.T)
    modes = []
    for value, vector in zip(values, vectors.T, strict=True):
        shape = inverse.T @ vector
        energy = shape * (mass @ shape)
        loss = float(shape @ stiffness.imag @ shape) / float(shape @ stiffness.real @ shape)
        modes.append(
            SwingMode(
                frequency=math.sqrt(float(value)) / (2.0 * math.pi),
                shape=tuple(float(part) for part in shape),
                energy_shares=tuple(float(part) for part in energy),
                loss_factor=loss,
            )
        )
    return tuple(modes)


def point_mobility(
    body: RigidBody,
    supports: Sequence[Support],
    drive: tuple[Vector, Vector],
    response: tuple[Vector, Vector],
    frequency: ArrayLike,
) -> ComplexArray:
    """Velocity at one point of a body on supports for a unit force at another.

    Parameters
    ----------
    body : RigidBody
        What is carried [-].
    supports : sequence of Support, length n_support
        Springs with their dynamic stiffness [-].
    drive : tuple of place and direction
        Place [m] and direction of the force [-].
    response : tuple of place and direction
        Place [m] and direction of the velocity [-].
    frequency : array_like, shape (n_frequency,)
        Frequency [Hz], above zero.

    Returns
    -------
    ndarray, shape (n_frequency,)
        Mobility [m/(N·s)].

    Raises
    ------
    InvalidInput
        If the supports do not hold the body or a frequency is not above zero.

    Notes
    -----
    ``Y = jω dᵀ (K(1 + jη) − ω² M)⁻¹ e``. The same both ways round.

    References
    ----------
    .. [1] L. Meirovitch, *Analytical Methods in Vibrations*, Macmillan, 1967.

    Examples
    --------
    Far above its modes the box is a mass.

    >>> from hushwright.physics.mechanics.rigid_body import box_body
    >>> body = box_body(400.0, (0.0, 0.0, 0.0), (2.2, 1.6, 1.9))
    >>> corners = [Support((x, y, 0.0), (65e3, 65e3, 130e3)) for x in (-1.0, 1.0) for y in (-0.7, 0.7)]
    >>> centre_up = ((0.0, 0.0, 0.0), (0.0, 0.0, 1.0))
    >>> value = point_mobility(body, corners, centre_up, centre_up, 1000.0)
    >>> round(abs(complex(value)) * 2 * np.pi * 1000.0 * 400.0, 2)
    1.0
    """
    omega = angular(frequency)
    stiffness, mass = _stiffness_matrix(body, supports), mass_matrix(body)
    push = _transport(body, drive[0]).T @ _unit(drive[1])
    look = _transport(body, response[0]).T @ _unit(response[1])
    flat = omega.reshape(-1)
    systems = stiffness[None] - flat[:, None, None] ** 2 * mass[None]
    moved = np.linalg.solve(systems, np.broadcast_to(push.astype(np.complex128)[:, None], (flat.size, 6, 1)))[..., 0]
    return np.asarray((1j * flat * (moved @ look)).reshape(omega.shape))


def _unit(direction: Vector) -> FloatArray:
    """Direction scaled to length one."""
    length = math.hypot(*direction)
    if not (math.isfinite(length) and length > 0.0):
        raise InvalidInput(f"direction {direction} has no length")
    return np.asarray(direction, dtype=np.float64) / length


def _transport(body: RigidBody, place: Vector) -> FloatArray:
    """Matrix that turns motion of the centre (displacement, rotation) into displacement at a place."""
    x, y, z = (place[axis] - body.centre[axis] for axis in range(3))
    turning = np.array([[0.0, z, -y], [-z, 0.0, x], [y, -x, 0.0]])
    return np.hstack([np.eye(3), turning])


def _stiffness_matrix(body: RigidBody, supports: Sequence[Support]) -> ComplexArray:
    """Complex stiffness (6, 6) about the centre; refuses supports that leave a motion free."""
    total = np.zeros((6, 6), dtype=np.complex128)
    for support in supports:
        transport = _transport(body, support.place)
        spring = np.asarray(support.stiffness) * (1.0 + 1j * support.loss_factor)
        total += transport.T @ (spring[:, None] * transport)
    scale = np.sqrt(np.clip(np.diag(total).real, 1e-300, None))
    if not supports or float(np.min(np.linalg.eigvalsh(total.real / np.outer(scale, scale)))) < 1e-12:
        raise InvalidInput(f"{len(supports)} supports leave the body free to tip; it needs three, not in one line")
    return total
