"""Heavy doors with seals: force to close, latch, hinges, sag, threshold."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from hushwright.errors import InvalidInput
from hushwright.physics.air import STANDARD_GRAVITY
from hushwright.physics.mechanics._guard import not_negative, positive

OPERATING_FORCE_CLASSES: Final[tuple[tuple[int, float, float], ...]] = (
    (1, 75.0, 100.0),
    (2, 50.0, 50.0),
    (3, 25.0, 25.0),
    (4, 10.0, 10.0),
)
"""Class, greatest closing force and greatest force at the hand-operated lever [N]; EN 12217 (memory).

The edition of 2015 adds a lighter class 5, which is not listed here.
"""

PULL_LIMIT: Final = 150.0
"""Force that an adult may be asked for at a heavy studio door, one hand [N]; common practice, no source."""

STUMBLE_HEIGHT: Final = 0.020
"""Threshold above which people stumble and trolleys stop [m]; common practice, no source."""


@dataclass(frozen=True, slots=True)
class DoorLeaf:
    """A hinged leaf with seals all round.

    Parameters
    ----------
    width : float
        From the hinge line to the latch edge [m].
    height : float
        Height of the leaf [m].
    mass : float
        Mass of the leaf [kg].
    seal_force : float
        Force of one row of seal per length at its closed gap [N/m].
    seal_rows : int, optional
        Rows of seal, one behind the other [-].
    bottom_seal : bool, optional
        Whether the seal runs along the threshold too.

    Raises
    ------
    InvalidInput
        If a value is impossible.

    References
    ----------
    .. [1] Statics of rigid bodies.

    Examples
    --------
    >>> leaf = DoorLeaf(0.62, 1.62, 43.0, 80.0, seal_rows=2)
    >>> round(leaf.seal_length, 2), round(leaf.total_seal_force)
    (4.48, 717)
    """

    width: float
    height: float
    mass: float
    seal_force: float
    seal_rows: int = 1
    bottom_seal: bool = True

    def __post_init__(self) -> None:
        positive("door width", self.width, "m")
        positive("door height", self.height, "m")
        positive("door mass", self.mass, "kg")
        not_negative("seal force", self.seal_force, "N/m")
        if self.seal_rows < 0:
            raise InvalidInput(f"seal rows are {self.seal_rows}; they must be 0 or more")

    @property
    def seal_length(self) -> float:
        """Length of one row of seal [m]."""
        return 2.0 * self.height + (2.0 if self.bottom_seal else 1.0) * self.width

    @property
    def total_seal_force(self) -> float:
        """Force of all seals square to the leaf [N]."""
        return self.seal_force * self.seal_rows * self.seal_length

    @property
    def seal_moment(self) -> float:
        """Moment of all seals about the hinge line [N·m]; the row at the hinges has no arm."""
        edges = (2.0 if self.bottom_seal else 1.0) * 0.5 * self.width**2
        return self.seal_force * self.seal_rows * (self.height * self.width + edges)


@dataclass(frozen=True, slots=True)
class DoorForces:
    """Forces at a door that is closed against its seals.

    Parameters
    ----------
    hand_force : float
        Push or pull at the handle that closes the leaf without help [N].
    latch_preload : float
        Force that the latches hold together [N].
    lever_force : float
        Hand force at the lever when the latches pull the leaf in [N].
    hinge_separation : float
        Force of all seals on the hinges, square to the leaf [N].

    References
    ----------
    .. [1] Statics of rigid bodies.

    Examples
    --------
    >>> DoorForces(404.0, 358.0, 36.0, 359.0).lever_force
    36.0
    """

    hand_force: float
    latch_preload: float
    lever_force: float
    hinge_separation: float


@dataclass(frozen=True, slots=True)
class HingeLoads:
    """Loads on hinges from the weight of the leaf.

    Parameters
    ----------
    vertical : float
        Weight that hinges carry together [N].
    horizontal : float
        Pull on the top hinge and push on the bottom one, along the leaf [N].
    sag : float
        Drop of the latch edge from what the hinges and their ground give [m].

    References
    ----------
    .. [1] Statics of rigid bodies.

    Examples
    --------
    >>> HingeLoads(422.0, 109.0, 0.0004).sag
    0.0004
    """

    vertical: float
    horizontal: float
    sag: float


def door_forces(
    leaf: DoorLeaf, handle_distance: float, latch_distance: float | None = None, lever_advantage: float = 1.0
) -> DoorForces:
    """Force at the handle, at the latches and at the hinges of a leaf closed against its seals.

    Parameters
    ----------
    leaf : DoorLeaf
        The leaf with its seals.
    handle_distance : float
        From the hinge line to the handle [m].
    latch_distance : float, optional
        From the hinge line to the latches [m]; the width of the leaf when left out.
    lever_advantage : float, optional
        Way of the hand over the way of the latch, less friction [-]; one without a pull-in latch.

    Returns
    -------
    DoorForces
        Forces [N].

    Raises
    ------
    InvalidInput
        If a distance is beyond the leaf or the advantage below one.

    Notes
    -----
    ``F a = f n (h w + 2·w²/2)``: moments of the seals about the hinge line. The seal at the hinges adds to their load
    alone.

    References
    ----------
    .. [1] Statics of rigid bodies; lever advantage: common practice, no source.

    Examples
    --------
    >>> forces = door_forces(DoorLeaf(0.62, 1.62, 43.0, 80.0, seal_rows=2), 0.55, lever_advantage=10.0)
    >>> round(forces.hand_force), round(forces.latch_preload), round(forces.lever_force)
    (404, 358, 36)
    """
    latch = leaf.width if latch_distance is None else latch_distance
    for name, distance in (("handle", handle_distance), ("latch", latch)):
        if not 0.0 < distance <= leaf.width:
            raise InvalidInput(f"{name} is {distance} m from the hinges; the leaf is {leaf.width} m wide")
    if not lever_advantage >= 1.0:
        raise InvalidInput(f"lever advantage is {lever_advantage}; it must be 1 or more")
    preload = leaf.seal_moment / latch
    return DoorForces(
        leaf.seal_moment / handle_distance, preload, preload / lever_advantage, leaf.total_seal_force - preload
    )


def hinge_loads(
    leaf: DoorLeaf, hinge_spacing: float, hinge_stiffness: float = math.inf, fittings_mass: float = 0.0
) -> HingeLoads:
    """Loads on the outer hinges and the sag of the latch edge.

    Parameters
    ----------
    leaf : DoorLeaf
        The leaf.
    hinge_spacing : float
        Distance of the outermost hinges [m].
    hinge_stiffness : float, optional
        Sideways stiffness of one hinge with the frame or rib that it is screwed to [N/m].
    fittings_mass : float, optional
        Mass of what hangs on the latch edge: lock, handle, closer, hanging person's pull [kg].

    Returns
    -------
    HingeLoads
        Forces [N] and sag [m].

    Raises
    ------
    InvalidInput
        If the spacing is more than the leaf's height or a value is impossible.

    Notes
    -----
    ``H = (m g w/2 + m_f g w)/s``; both hinges give ``H/k``, the leaf turns by ``2H/(k s)`` and its edge drops by that
    times the width. Middle hinges are left out; they share the weight, not the moment.

    References
    ----------
    .. [1] Statics of rigid bodies.

    Examples
    --------
    >>> loads = hinge_loads(DoorLeaf(0.62, 1.62, 43.0, 80.0), 1.2, hinge_stiffness=2e5)
    >>> round(loads.vertical), round(loads.horizontal), round(loads.sag * 1e3, 2)
    (422, 109, 0.56)
    """
    positive("hinge spacing", hinge_spacing, "m")
    if hinge_spacing > leaf.height:
        raise InvalidInput(f"hinges are {hinge_spacing} m apart; the leaf is {leaf.height} m high")
    if not hinge_stiffness > 0.0:
        raise InvalidInput(f"hinge stiffness is {hinge_stiffness} N/m; it must be above zero")
    weight = leaf.mass * STANDARD_GRAVITY
    extra = not_negative("mass of fittings", fittings_mass, "kg") * STANDARD_GRAVITY
    horizontal = (0.5 * weight + extra) * leaf.width / hinge_spacing
    sag = 2.0 * horizontal / hinge_stiffness / hinge_spacing * leaf.width
    return HingeLoads(weight + extra, horizontal, sag)


def operating_force_class(closing_force: float, lever_force: float = 0.0) -> int:
    """Class of the forces that a person needs at a door.

    Parameters
    ----------
    closing_force : float
        Force at the handle to close the leaf or start it moving [N].
    lever_force : float, optional
        Force at the lever [N].

    Returns
    -------
    int
        Class [-]: 4 is the lightest, 1 the heaviest, 0 none of them.

    Raises
    ------
    InvalidInput
        If a force is below zero.

    References
    ----------
    .. [1] EN 12217:2015, classes of operating forces (memory).

    Examples
    --------
    >>> operating_force_class(60.0, 30.0), operating_force_class(404.0)
    (1, 0)
    """
    not_negative("closing force", closing_force, "N")
    not_negative("lever force", lever_force, "N")
    fitting = [
        number for number, hand, lever in OPERATING_FORCE_CLASSES if closing_force <= hand and lever_force <= lever
    ]
    return max(fitting, default=0)


def wind_on_door(leaf: DoorLeaf, wind_speed: float, handle_distance: float, pressure_coefficient: float = 1.2) -> float:
    """Force at the handle of an open leaf in the wind.

    Parameters
    ----------
    leaf : DoorLeaf
        The leaf.
    wind_speed : float
        Wind speed [m/s].
    handle_distance : float
        From the hinge line to the handle [m].
    pressure_coefficient : float, optional
        Net pressure over the velocity pressure [-].

    Returns
    -------
    float
        Force [N].

    Raises
    ------
    InvalidInput
        If a value is impossible.

    Notes
    -----
    ``c ρ v²/2 · h w · (w/2)/a`` with 1.2 kg/m³.

    References
    ----------
    .. [1] EN 1991-1-4:2005, free-standing plates.

    Examples
    --------
    >>> round(wind_on_door(DoorLeaf(0.62, 1.62, 43.0, 80.0), 10.0, 0.55))
    41
    """
    not_negative("wind speed", wind_speed, "m/s")
    positive("handle distance", handle_distance, "m")
    pressure = positive("pressure coefficient", pressure_coefficient, "") * 0.6 * wind_speed**2
    return pressure * leaf.height * leaf.width * 0.5 * leaf.width / handle_distance
