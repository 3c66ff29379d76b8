"""Stiff bodies: mass, centre, inertia, and several joined into one."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hushwright.errors import InvalidInput
from hushwright.physics.mechanics._guard import FloatArray, positive

Vector = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class RigidBody:
    """A stiff body: mass, centre and inertia about that centre.

    Parameters
    ----------
    mass : float
        Mass [kg].
    centre : tuple of three floats
        Centre of mass, x forward, y left, z up [m].
    inertia : tuple of three floats
        Moments of inertia about the axes through the centre [kg·m²].
    products : tuple of three floats, optional
        Products of inertia xy, xz, yz about the centre, ``∫xy dm`` and so on [kg·m²].

    Raises
    ------
    InvalidInput
        If mass or a moment is not above zero, or no body can have such an inertia.

    References
    ----------
    .. [1] ISO 8855:2011, axis system; L. Meirovitch, *Analytical Methods in Vibrations*, Macmillan, 1967.

    Examples
    --------
    >>> RigidBody(400.0, (0.0, 0.0, 0.9), (180.0, 250.0, 260.0)).mass
    400.0
    """

    mass: float
    centre: Vector
    inertia: Vector
    products: Vector = (0.0, 0.0, 0.0)

    def __post_init__(self) -> None:
        positive("mass", self.mass, "kg")
        if not all(math.isfinite(value) for value in (*self.centre, *self.inertia, *self.products)):
            raise InvalidInput(f"centre {self.centre} m and inertia {self.inertia} kg·m² must be finite numbers")
        if float(np.min(np.linalg.eigvalsh(inertia_matrix(self)))) <= 0.0:
            raise InvalidInput(f"inertia {self.inertia} with products {self.products} kg·m² belongs to no body")


def box_body(mass: float, centre: Vector, size: Vector) -> RigidBody:
    """Body of a solid, even box.

    Parameters
    ----------
    mass : float
        Mass [kg].
    centre : tuple of three floats
        Centre [m].
    size : tuple of three floats
        Length, width and height [m].

    Returns
    -------
    RigidBody
        The body, inertia in [kg·m²].

    Raises
    ------
    InvalidInput
        If mass or a side is not above zero.

    References
    ----------
    .. [1] L. Meirovitch, *Analytical Methods in Vibrations*, Macmillan, 1967.

    Examples
    --------
    >>> [round(value, 1) for value in box_body(120.0, (0.0, 0.0, 0.0), (2.0, 1.0, 1.0)).inertia]
    [20.0, 50.0, 50.0]
    """
    length, width, height = (positive("side of a box", side, "m") for side in size)
    x, y, z = length**2, width**2, height**2
    return RigidBody(mass, centre, (mass * (y + z) / 12.0, mass * (x + z) / 12.0, mass * (x + y) / 12.0))


def combined_body(bodies: Sequence[RigidBody]) -> RigidBody:
    """Body made of several that are fixed to each other: floor, walls, ceiling, people.

    Parameters
    ----------
    bodies : sequence of RigidBody, length n_body
        The parts [-].

    Returns
    -------
    RigidBody
        Their sum, inertia [kg·m²] moved to the common centre by the parallel-axis theorem.

    Raises
    ------
    InvalidInput
        If there is no body.

    References
    ----------
    .. [1] L. Meirovitch, *Analytical Methods in Vibrations*, Macmillan, 1967.

    Examples
    --------
    >>> left, right = (box_body(10.0, (0.0, y, 0.0), (1.0, 1.0, 1.0)) for y in (1.0, -1.0))
    >>> both = combined_body([left, right])
    >>> both.mass, round(both.inertia[0], 2)
    (20.0, 23.33)
    """
    if not bodies:
        raise InvalidInput("0 bodies given; a combined body needs one or more")
    mass = sum(body.mass for body in bodies)
    centre = sum((body.mass * np.asarray(body.centre) for body in bodies), np.zeros(3)) / mass
    total = np.zeros((3, 3))
    for body in bodies:
        arm = np.asarray(body.centre) - centre
        total += inertia_matrix(body) + body.mass * (float(arm @ arm) * np.eye(3) - np.outer(arm, arm))
    moments = (float(total[0, 0]), float(total[1, 1]), float(total[2, 2]))
    products = (-float(total[0, 1]), -float(total[0, 2]), -float(total[1, 2]))
    return RigidBody(mass, (float(centre[0]), float(centre[1]), float(centre[2])), moments, products)


def inertia_matrix(body: RigidBody) -> FloatArray:
    """Tensor of inertia about the centre.

    Parameters
    ----------
    body : RigidBody
        The body [-].

    Returns
    -------
    ndarray, shape (3, 3)
        Inertia [kg·m²], products with a minus sign.

    References
    ----------
    .. [1] L. Meirovitch, *Analytical Methods in Vibrations*, Macmillan, 1967.

    Examples
    --------
    >>> inertia_matrix(RigidBody(1.0, (0.0, 0.0, 0.0), (1.0, 2.0, 3.0))).diagonal().tolist()
    [1.0, 2.0, 3.0]
    """
    (xx, yy, zz), (xy, xz, yz) = body.inertia, body.products
    return np.array([[xx, -xy, -xz], [-xy, yy, -yz], [-xz, -yz, zz]])


def mass_matrix(body: RigidBody) -> FloatArray:
    """Mass and inertia for motion of the centre and rotation about it.

    Parameters
    ----------
    body : RigidBody
        The body [-].

    Returns
    -------
    ndarray, shape (6, 6)
        Mass [kg] in the first three rows, inertia [kg·m²] in the last three.

    References
    ----------
    .. [1] L. Meirovitch, *Analytical Methods in Vibrations*, Macmillan, 1967.

    Examples
    --------
    >>> mass_matrix(RigidBody(5.0, (0.0, 0.0, 0.0), (1.0, 2.0, 3.0))).diagonal().tolist()
    [5.0, 5.0, 5.0, 1.0, 2.0, 3.0]
    """
    matrix = np.zeros((6, 6))
    matrix[:3, :3] = body.mass * np.eye(3)
    matrix[3:, 3:] = inertia_matrix(body)
    return matrix
