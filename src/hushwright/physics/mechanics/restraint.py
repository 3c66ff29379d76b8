"""Holding the floating room and heavy fittings in a crash: rules and loads at anchors."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from hushwright.errors import InvalidInput
from hushwright.physics.air import STANDARD_GRAVITY
from hushwright.physics.mechanics._guard import FloatArray, not_negative, positive
from hushwright.physics.mechanics.rigid_body import Vector

Direction = Literal["forward", "rearward", "left", "right", "up"]
CargoRule = Literal["van", "road", "united states", "australia"]

DIRECTIONS: Final[dict[str, Vector]] = {
    "forward": (1.0, 0.0, 0.0),
    "rearward": (-1.0, 0.0, 0.0),
    "left": (0.0, 1.0, 0.0),
    "right": (0.0, -1.0, 0.0),
    "up": (0.0, 0.0, 1.0),
}
"""Directions in which a mass wants to go, as unit vectors."""

OCCUPIED_LEVEL: Final = 10.0
"""Design level where people ride beside heavy fittings, every direction [g]; EN 1789 for ambulances."""

# VDI 2700 sheet 16 and ISO 27956 by plated mass: Berg, Sicks and Cheynet, ESV 2009, paper 09-0008. From 2.0 to 3.5 t
# its text says 0.9 and 0.7, its figure 0.8 and 0.6: the cautious text is taken.
_VAN_RULE = ((2000.0, (0.9, 0.5, 0.7)), (3500.0, (0.9, 0.5, 0.7)), (7500.0, (0.8, 0.5, 0.5)))


@dataclass(frozen=True, slots=True)
class RestraintShares:
    """Inertia as shares of the weight.

    Parameters
    ----------
    forward : float
        Towards the front [g].
    rearward : float
        Towards the rear [g].
    sideways : float
        To either side [g].
    upward : float
        Off the floor, beyond the weight itself [g].
    basis : str
        Where the shares come from.

    Raises
    ------
    InvalidInput
        If a share is below zero.

    References
    ----------
    .. [1] EN 12195-1:2010; ISO 27956:2009.

    Examples
    --------
    >>> RestraintShares(0.8, 0.5, 0.5, 0.2, "own").toward("left")
    0.5
    """

    forward: float
    rearward: float
    sideways: float
    upward: float
    basis: str

    def __post_init__(self) -> None:
        for value in (self.forward, self.rearward, self.sideways, self.upward):
            not_negative("restraint share", value, "g")

    def toward(self, direction: Direction) -> float:
        """Share in one direction.

        Parameters
        ----------
        direction : {"forward", "rearward", "left", "right", "up"}
            Where the mass wants to go.

        Returns
        -------
        float
            Share of the weight [g].

        References
        ----------
        .. [1] EN 12195-1:2010.
        """
        if direction not in DIRECTIONS:
            raise InvalidInput(f"direction is {direction!r}; known are {', '.join(DIRECTIONS)}")
        named = {"forward": self.forward, "rearward": self.rearward, "up": self.upward}
        return named.get(direction, self.sideways)


@dataclass(frozen=True, slots=True)
class AnchorLoad:
    """Load of one anchor in one direction of the crash.

    Parameters
    ----------
    position : tuple of three floats
        Place of the anchor [m].
    force : tuple of three floats
        Force that the body puts on the anchor [N].
    axis : tuple of three floats
        Direction in which the anchor is pulled out, from the structure to the body; a unit vector.

    References
    ----------
    .. [1] Statics of rigid bodies.

    Examples
    --------
    >>> load = AnchorLoad((0.0, 0.0, 0.0), (300.0, 0.0, 400.0), (0.0, 0.0, 1.0))
    >>> load.pull, load.shear
    (400.0, 300.0)
    """

    position: Vector
    force: Vector
    axis: Vector = (0.0, 0.0, 1.0)

    @property
    def pull(self) -> float:
        """Force along the axis [N]; above zero pulls the anchor out, below presses it on."""
        return float(np.dot(self.force, self.axis))

    @property
    def shear(self) -> float:
        """Force across the axis [N]."""
        return math.sqrt(max(float(np.dot(self.force, self.force)) - self.pull**2, 0.0))

    @property
    def resultant(self) -> float:
        """Pull and shear together, pressing left out [N]."""
        return math.hypot(max(self.pull, 0.0), self.shear)


def cargo_rule(plated_mass: float, rule: CargoRule = "van") -> RestraintShares:
    """Shares of the weight that cargo must be held against in ordinary driving with full braking.

    Parameters
    ----------
    plated_mass : float
        Greatest permissible mass of the vehicle [kg].
    rule : {"van", "road", "united states", "australia"}, optional
        The rule: delivery vans by plated mass, European road transport, 49 CFR 393, load restraint of Australia.

    Returns
    -------
    RestraintShares
        Shares [g] with their basis.

    Raises
    ------
    InvalidInput
        If the rule is unknown or the mass outside its range.

    Notes
    -----
    Cargo rules keep a load in place while driving; they are no crash rule. A room in which people ride or beside which
    they ride is held to a design level such as `OCCUPIED_LEVEL` instead.

    References
    ----------
    .. [1] VDI 2700 sheet 16; ISO 27956:2009; F. A. Berg et al., ESV 2009, paper 09-0008.
    .. [2] EN 12195-1:2010 (memory); 49 CFR 393.102; Australian load restraint guide.

    Examples
    --------
    >>> cargo_rule(3500.0).forward
    0.9
    """
    positive("plated mass", plated_mass, "kg")
    if rule == "road":
        return RestraintShares(0.8, 0.5, 0.6, 0.0, "EN 12195-1, sideways for loads that tip")
    if rule == "united states":
        return RestraintShares(0.8, 0.5, 0.5, 0.2, "49 CFR 393.102")
    if rule == "australia":
        return RestraintShares(0.8, 0.5, 0.5, 0.2, "Australian performance standard of load restraint")
    if rule != "van":
        raise InvalidInput(f"cargo rule is {rule!r}; known are van, road, united states, australia")
    for limit, (forward, rearward, sideways) in _VAN_RULE:
        if plated_mass <= limit:
            return RestraintShares(forward, rearward, sideways, 0.0, f"ISO 27956 and VDI 2700-16, up to {limit:.0f} kg")
    raise InvalidInput(f"plated mass is {plated_mass} kg; the rule for delivery vans ends at {_VAN_RULE[-1][0]:.0f} kg")


def design_level(acceleration: float, basis: str = "chosen by the workshop") -> RestraintShares:
    """The same level in every direction.

    Parameters
    ----------
    acceleration : float
        Level [g].
    basis : str, optional
        Why this level.

    Returns
    -------
    RestraintShares
        Shares [g].

    Raises
    ------
    InvalidInput
        If the level is not above zero.

    References
    ----------
    .. [1] EN 1789:2020, fixed equipment in an occupied compartment (10 g).

    Examples
    --------
    >>> design_level(OCCUPIED_LEVEL, "EN 1789").upward
    10.0
    """
    positive("design level", acceleration, "g")
    return RestraintShares(acceleration, acceleration, acceleration, acceleration, basis)


def anchor_loads(
    mass: float,
    centre: Vector,
    anchors: Sequence[Vector],
    shares: RestraintShares,
    direction: Direction,
    axis: Vector = (0.0, 0.0, 1.0),
) -> tuple[AnchorLoad, ...]:
    """Load on each anchor of a stiff body in a crash.

    Parameters
    ----------
    mass : float
        Mass [kg].
    centre : tuple of three floats
        Centre of mass [m].
    anchors : sequence of tuples of three floats, length n_anchor
        Places of the anchors [m].
    shares : RestraintShares
        Inertia as shares of the weight.
    direction : {"forward", "rearward", "left", "right", "up"}
        Where the mass wants to go.
    axis : tuple of three floats, optional
        Direction in which an anchor is pulled out; a unit vector.

    Returns
    -------
    tuple of AnchorLoad, length n_anchor
        Forces [N].

    Raises
    ------
    InvalidInput
        If the anchors lie on one line or the mass is not above zero.

    Notes
    -----
    The body is stiff and every anchor an equal spring in three directions; forces and moments balance. The weight acts
    too, except upward, where the share is what is left beyond it. Friction helps nothing. Anchors carry pressure as
    well, so that the line about which the body would tip runs through the middle of the anchors: on the safe side
    against tipping over an edge. An anchor goes into structure,
    never into skin.

    References
    ----------
    .. [1] Statics of rigid bodies; elastic method for groups of fasteners.

    Examples
    --------
    100 kg at 0.5 m height on four anchors, 1 g forward:

    >>> feet = [(x, y, 0.0) for x in (-0.5, 0.5) for y in (-0.4, 0.4)]
    >>> loads = anchor_loads(100.0, (0.0, 0.0, 0.5), feet, design_level(1.0), "forward")
    >>> [round(load.pull) for load in loads], round(loads[0].shear)
    ([0, 0, -490, -490], 245)
    """
    if direction not in DIRECTIONS:
        raise InvalidInput(f"direction is {direction!r}; known are {', '.join(DIRECTIONS)}")
    if not abs(float(np.linalg.norm(axis)) - 1.0) < 1e-6:
        raise InvalidInput(f"axis {axis} has length {float(np.linalg.norm(axis))}; it must be a unit vector")
    weight = positive("mass", mass, "kg") * STANDARD_GRAVITY
    force = weight * shares.toward(direction) * np.asarray(DIRECTIONS[direction])
    if direction != "up":  # upward shares are what is left beyond the weight
        force = force - np.array([0.0, 0.0, weight])
    places = np.asarray(anchors, dtype=np.float64).reshape(-1, 3)
    forces = _shared(force, np.asarray(centre, dtype=np.float64), places)
    return tuple(
        AnchorLoad(
            (float(place[0]), float(place[1]), float(place[2])), (float(each[0]), float(each[1]), float(each[2])), axis
        )
        for place, each in zip(places, forces, strict=True)
    )


def _shared(force: FloatArray, centre: FloatArray, places: FloatArray) -> FloatArray:
    """Forces on equal springs at the places that balance a force at the centre."""
    if places.shape[0] < 2:
        raise InvalidInput(f"{places.shape[0]} anchors given; three that are not on one line are needed")
    middle = places.mean(axis=0)
    arms = places - middle
    inertia = sum((float(arm @ arm) * np.eye(3) - np.outer(arm, arm) for arm in arms), np.zeros((3, 3)))
    values = np.linalg.eigvalsh(inertia)
    if values[0] < 1e-9 * max(values[-1], 1e-12):
        raise InvalidInput(
            f"the {places.shape[0]} anchors at {places.tolist()} m lie on one line and let the body turn"
        )
    turn = np.linalg.solve(inertia, np.cross(centre - middle, force))
    return np.asarray(force / places.shape[0] + np.cross(turn, arms), dtype=np.float64)
