"""Masses at their places: axle and wheel loads, centre of gravity, stability, and what the scales say."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from hushwright.errors import InvalidInput
from hushwright.physics.mechanics._guard import not_negative, positive, share
from hushwright.physics.mechanics.rigid_body import Vector

WHEELS: Final = ("front left", "front right", "rear left", "rear right")
"""Wheels in the order of every tuple of wheel loads."""


@dataclass(frozen=True, slots=True)
class PlacedMass:
    """A mass at its place.

    Parameters
    ----------
    name : str
        What it is.
    mass : float
        Mass [kg]; below zero for something taken out.
    position : tuple of three floats
        Centre, x forward, y left, z up from the ground [m].
    standard_uncertainty : float, optional
        Standard uncertainty of the mass [kg]; zero for a weighed item.

    Raises
    ------
    InvalidInput
        If a value is not a finite number or the uncertainty is below zero.

    References
    ----------
    .. [1] ISO 8855:2011, axis system.

    Examples
    --------
    >>> PlacedMass("bank", 46.0, (-0.5, 0.3, 0.7)).mass
    46.0
    """

    name: str
    mass: float
    position: Vector
    standard_uncertainty: float = 0.0

    def __post_init__(self) -> None:
        if not all(math.isfinite(value) for value in (self.mass, *self.position)):
            raise InvalidInput(f"{self.name} has mass {self.mass} kg at {self.position} m; all must be finite numbers")
        not_negative(f"uncertainty of {self.name}", self.standard_uncertainty, "kg")


@dataclass(frozen=True, slots=True)
class Axles:
    """Where the axles are.

    Parameters
    ----------
    front : float
        Front axle, x forward [m].
    rear : float
        Rear axle [m], behind the front axle.
    front_track : float
        Distance of the front wheels' centres [m].
    rear_track : float
        Distance of the rear wheels' centres, of the pairs' middles with twin wheels [m].

    Raises
    ------
    InvalidInput
        If the rear axle is not behind the front axle or a track is not above zero.

    References
    ----------
    .. [1] ISO 8855:2011.

    Examples
    --------
    >>> Axles(1.45, -2.85, 1.75, 1.75).wheelbase
    4.3
    """

    front: float
    rear: float
    front_track: float
    rear_track: float

    def __post_init__(self) -> None:
        positive("distance from rear to front axle", self.front - self.rear, "m")
        positive("front track", self.front_track, "m")
        positive("rear track", self.rear_track, "m")

    @property
    def wheelbase(self) -> float:
        """Distance between the axles [m]."""
        return self.front - self.rear


@dataclass(frozen=True, slots=True)
class AxleLoads:
    """Loads on level ground.

    Parameters
    ----------
    wheels : tuple of four floats
        Load of each wheel, in the order of `WHEELS` [kg].
    centre_of_gravity : tuple of three floats
        Centre of gravity [m].
    static_stability_factor : float
        Mean track over twice the height of the centre of gravity [-].
    standard_uncertainty : tuple of two floats
        Standard uncertainty of the front and the rear axle load [kg].

    References
    ----------
    .. [1] ISO 8855:2011; NHTSA, *Consumer Information Regulations: Rollover Resistance* (SSF).

    Examples
    --------
    >>> AxleLoads((600.0, 580.0, 700.0, 690.0), (0.0, 0.0, 0.9), 0.97, (5.0, 8.0)).rear
    1390.0
    """

    wheels: tuple[float, float, float, float]
    centre_of_gravity: Vector
    static_stability_factor: float
    standard_uncertainty: tuple[float, float]

    @property
    def front(self) -> float:
        """Load of the front axle [kg]."""
        return self.wheels[0] + self.wheels[1]

    @property
    def rear(self) -> float:
        """Load of the rear axle [kg]."""
        return self.wheels[2] + self.wheels[3]

    @property
    def total(self) -> float:
        """Mass of the vehicle [kg]."""
        return sum(self.wheels)

    @property
    def left_share(self) -> float:
        """Share of the left wheels [-]."""
        return (self.wheels[0] + self.wheels[2]) / self.total


def axle_loads(masses: Sequence[PlacedMass], axles: Axles) -> AxleLoads:
    """Axle and wheel loads, centre of gravity and static stability factor of all masses together.

    Parameters
    ----------
    masses : sequence of PlacedMass, length n_mass
        Everything that is on the wheels: vehicle, build, people, litres.
    axles : Axles
        Where the axles are.

    Returns
    -------
    AxleLoads
        Loads [kg], centre [m], factor [-] and uncertainties [kg].

    Raises
    ------
    InvalidInput
        If there is no mass on the whole or its centre is not above the ground.

    Notes
    -----
    Moments about the axles; each mass presses on the axles by its station and on left and right by its side, so that
    all moments balance. How a stiff body spreads a one-sided load over front and rear depends on the suspension and is
    not known here.

    References
    ----------
    .. [1] ISO 8855:2011; moments of statics.

    Examples
    --------
    >>> van = axle_loads([PlacedMass("all", 3000.0, (0.0, 0.0, 1.0))], Axles(2.0, -2.0, 1.7, 1.7))
    >>> van.front, van.static_stability_factor
    (1500.0, 0.85)
    """
    total = sum(each.mass for each in masses)
    positive("mass of all together", total, "kg")
    mass = np.array([each.mass for each in masses])
    places = np.array([each.position for each in masses])
    front = (places[:, 0] - axles.rear) / axles.wheelbase
    shares = np.array([front, 1.0 - front])
    lean = places[:, 1] / np.array([[axles.front_track], [axles.rear_track]])
    left, right = (mass * shares * (0.5 + lean)).sum(axis=1), (mass * shares * (0.5 - lean)).sum(axis=1)
    wheels = (left[0], right[0], left[1], right[1])
    variance = ((np.array([each.standard_uncertainty for each in masses]) * shares) ** 2).sum(axis=1)
    centre = mass @ places / total
    height = positive("height of the centre of gravity", float(centre[2]), "m")
    factor = 0.5 * (axles.front_track + axles.rear_track) / (2.0 * height)
    spread = np.sqrt(variance)
    return AxleLoads(
        (float(wheels[0]), float(wheels[1]), float(wheels[2]), float(wheels[3])),
        (float(centre[0]), float(centre[1]), float(centre[2])),
        factor,
        (float(spread[0]), float(spread[1])),
    )


def vehicle_on_axles(front_load: float, rear_load: float, axles: Axles, height: float, side: float = 0.0) -> PlacedMass:
    """Bare vehicle as one mass, from its axle loads.

    Parameters
    ----------
    front_load : float
        Load of the front axle [kg].
    rear_load : float
        Load of the rear axle [kg].
    axles : Axles
        Where the axles are.
    height : float
        Height of its centre of gravity above the ground [m].
    side : float, optional
        Offset of its centre to the left [m].

    Returns
    -------
    PlacedMass
        The vehicle [kg].

    Raises
    ------
    InvalidInput
        If a load or the height is not above zero.

    References
    ----------
    .. [1] Moments of statics.

    Examples
    --------
    >>> round(vehicle_on_axles(1240.0, 840.0, Axles(1.45, -2.85, 1.75, 1.75), 0.8).position[0], 3)
    -0.287
    """
    positive("front axle load", front_load, "kg")
    positive("rear axle load", rear_load, "kg")
    total = front_load + rear_load
    station = (front_load * axles.front + rear_load * axles.rear) / total
    return PlacedMass("vehicle", total, (station, side, positive("height", height, "m")))


def static_stability_factor(track: float, height: float) -> float:
    """Half the track over the height of the centre of gravity.

    Parameters
    ----------
    track : float
        Distance of the wheels' centres, mean of both axles [m].
    height : float
        Height of the centre of gravity [m].

    Returns
    -------
    float
        Static stability factor [-]: the sideways acceleration in g at which a stiff vehicle tips.

    Raises
    ------
    InvalidInput
        If a value is not above zero.

    References
    ----------
    .. [1] NHTSA, *Consumer Information Regulations: Rollover Resistance*.

    Examples
    --------
    >>> round(static_stability_factor(1.75, 0.95), 4)
    0.9211
    """
    return positive("track", track, "m") / (2.0 * positive("height", height, "m"))


def height_from_raised_axle(total: float, load_change: float, lift: float, axles: Axles, wheel_radius: float) -> float:
    """Height of the centre of gravity, by weighing the front axle level and with the rear axle raised.

    Parameters
    ----------
    total : float
        Mass of the vehicle [kg].
    load_change : float
        Growth of the front axle load when the rear is raised [kg].
    lift : float
        Height by which the rear wheels are raised [m].
    axles : Axles
        Where the axles are.
    wheel_radius : float
        Loaded radius of the wheels [m].

    Returns
    -------
    float
        Height above the ground [m].

    Raises
    ------
    InvalidInput
        If a value is not above zero or the lift is more than the wheelbase.

    Notes
    -----
    ``h = r + l Δm/(m tan θ)``, ``sin θ = lift/l``; suspension locked, tanks full or empty.

    References
    ----------
    .. [1] ISO 10392:2011, axle lift method.

    Examples
    --------
    >>> round(height_from_raised_axle(3000.0, 60.0, 0.6, Axles(2.0, -2.0, 1.7, 1.7), 0.34), 2)
    0.87
    """
    ratio = positive("lift", lift, "m") / axles.wheelbase
    if ratio >= 1.0:
        raise InvalidInput(f"lift is {lift} m; it must be less than the wheelbase of {axles.wheelbase} m")
    tangent = ratio / math.sqrt(1.0 - ratio**2)
    shifted = positive("load change", load_change, "kg") / positive("total mass", total, "kg")
    return positive("wheel radius", wheel_radius, "m") + axles.wheelbase * shifted / tangent


def not_listed_allowance(masses: Sequence[PlacedMass], weighed: Sequence[bool], allowance_share: float = 0.07) -> float:
    """Mass to add for what is not listed yet: it shrinks as items are weighed.

    Parameters
    ----------
    masses : sequence of PlacedMass, length n_mass
        What the build adds to the vehicle.
    weighed : sequence of bool, length n_mass
        Whether each was weighed.
    allowance_share : float, optional
        Share of the items that were not weighed [-].

    Returns
    -------
    float
        Allowance [kg].

    Raises
    ------
    InvalidInput
        If lengths differ or the share is none.

    References
    ----------
    .. [1] Common practice, no source.

    Examples
    --------
    >>> items = [PlacedMass("floor", 90.0, (0.0, 0.0, 0.8)), PlacedMass("walls", 210.0, (0.0, 0.0, 1.5))]
    >>> round(not_listed_allowance(items, [True, False]), 1)
    14.7
    """
    if len(masses) != len(weighed):
        raise InvalidInput(f"{len(weighed)} marks given for {len(masses)} masses")
    open_mass = sum(each.mass for each, done in zip(masses, weighed, strict=True) if not done and each.mass > 0.0)
    return share("allowance", allowance_share) * open_mass
