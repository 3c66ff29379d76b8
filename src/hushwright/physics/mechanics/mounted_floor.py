"""A room on its elastic mounts: the load each finds, its state there, and the springs that are left for vibration."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from hushwright.physics.mechanics.elastic_mount import ElasticMount, MountState
from hushwright.physics.mechanics.insertion_loss import MountPath
from hushwright.physics.mechanics.rigid_body import RigidBody, Vector
from hushwright.physics.mechanics.rubber import temperature_factor
from hushwright.physics.mechanics.suspension import Rest, Support, rest_on

CONTACT_STIFFNESS: Final = 1e8
"""Stiffness that stands for metal on metal in the swing of the whole [N/m]; common practice, no source."""


@dataclass(frozen=True, slots=True)
class PlacedMount:
    """An elastic mount and where it stands.

    Parameters
    ----------
    place : tuple of three floats
        Place of its top [m].
    mount : ElasticMount
        The mount [-].

    References
    ----------
    .. [1] L. Meirovitch, *Analytical Methods in Vibrations*, Macmillan, 1967.
    """

    place: Vector
    mount: ElasticMount


@dataclass(frozen=True, slots=True)
class MountedRoom:
    """A room at rest on its mounts.

    Parameters
    ----------
    rest : Rest
        Loads [N], displacement [m] and tilt [rad] without creep.
    states : tuple of MountState, length n_mount
        State of each mount [-].
    supports : tuple of Support, length n_mount
        Springs for vibration with their dynamic stiffness [N/m].
    paths : tuple of MountPath, length n_mount
        The mounts as ways for structure-borne sound [-].

    References
    ----------
    .. [1] L. Meirovitch, *Analytical Methods in Vibrations*, Macmillan, 1967.
    """

    rest: Rest
    states: tuple[MountState, ...]
    supports: tuple[Support, ...]
    paths: tuple[MountPath, ...]

    @property
    def vertical_stiffness(self) -> float:
        """Dynamic stiffness of all mounts together [N/m]."""
        return sum(support.stiffness[2] for support in self.supports)

    @property
    def rigid_count(self) -> int:
        """Number [-] of mounts that are no spring any more."""
        return sum(state.is_rigid for state in self.states)

    @property
    def mean_height(self) -> float:
        """Mean height of the mounts under load [m]."""
        return sum(state.height for state in self.states) / len(self.states)


def settle(
    body: RigidBody, placed: Sequence[PlacedMount], temperature: float = 20.0, duration: float = 60.0
) -> MountedRoom:
    """Put a room on its mounts.

    Parameters
    ----------
    body : RigidBody
        Room with all that stands in it [-].
    placed : sequence of PlacedMount, length n_mount
        The mounts [-].
    temperature : float, optional
        Temperature of the rubber [°C].
    duration : float, optional
        Time under load [s], one minute or more.

    Returns
    -------
    MountedRoom
        Loads [N], states and springs.

    Raises
    ------
    InvalidInput
        If the mounts do not hold the body or a value is impossible.

    Notes
    -----
    Loads are shared as the slow stiffness at the temperature has it. A mount that bottoms would draw more load; that
    second round is not computed, the mount is reported as rigid instead.

    References
    ----------
    .. [1] L. Meirovitch, *Analytical Methods in Vibrations*, Macmillan, 1967.

    Examples
    --------
    >>> from hushwright.physics.mechanics.rigid_body import box_body
    >>> mount = ElasticMount(130e3, 65e3, 196.0, 1030.0, free_height=0.030, free_travel=0.012)
    >>> places = [(x, y, 0.0) for x in (-1.0, -0.33, 0.33, 1.0) for y in (-0.65, 0.0, 0.65)]
    >>> room = settle(box_body(444.0, (0.0, 0.0, 0.9), (2.2, 1.6, 1.9)), [PlacedMount(p, mount) for p in places])
    >>> room.rigid_count, round(room.states[0].load), round(room.mean_height * 1e3, 1)
    (0, 363, 27.2)
    """
    slow = [_support(one, temperature_factor(temperature, one.mount.temperature_stiffening)[0]) for one in placed]
    rest = rest_on(body, slow)
    states = tuple(one.mount.under(load, temperature, duration) for one, load in zip(placed, rest.loads, strict=True))
    pairs = list(zip(placed, states, strict=True))
    supports = tuple(
        Support(
            one.place,
            (_finite(state.shear_spring_stiffness),) * 2 + (_finite(state.spring_stiffness),),
            one.mount.loss_factor,
        )
        for one, state in pairs
    )
    paths = tuple(
        MountPath(state.spring_stiffness, one.mount.loss_factor, one.mount.rubber_mass) for one, state in pairs
    )
    return MountedRoom(rest, states, supports, paths)


def _support(placed: PlacedMount, factor: float) -> Support:
    """Slow spring of a mount at the temperature."""
    sideways, along = placed.mount.shear_stiffness * factor, placed.mount.static_stiffness * factor
    return Support(placed.place, (sideways, sideways, along), placed.mount.loss_factor)


def _finite(stiffness: float) -> float:
    """Stiffness that the swing of the whole can be computed with [N/m]."""
    return min(stiffness, CONTACT_STIFFNESS)
