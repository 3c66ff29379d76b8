"""Rooms whose air is well mixed, joined to each other and to outdoors by flows: what settles in the end."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from hushwright.errors import InvalidInput
from hushwright.physics.airflow._guard import FloatArray, not_negative, positive

OUTDOORS = "outdoors"
OUTDOOR_CARBON_DIOXIDE = 420e-6  # volume fraction; common practice, no source
OUTDOOR_OXYGEN = 0.2095  # volume fraction of dry air
_UNBALANCED_SHARE = 1e-6
_NO_FLOW = 1e-12  # m³/s: a litre in thirty years


@dataclass(frozen=True, slots=True)
class Room:
    """A room full of well-mixed air.

    Parameters
    ----------
    name : str
        Name; ``"outdoors"`` is taken.
    volume : float
        Air volume without furniture and people [m³].
    """

    name: str
    volume: float

    def __post_init__(self) -> None:
        positive(f"volume of {self.name}", self.volume, "m³")
        if self.name == OUTDOORS:
            raise InvalidInput(f"a room is called {self.name!r}, which means the air outside")


@dataclass(frozen=True, slots=True)
class AirFlow:
    """Air that goes from one room to another, or from or to outdoors.

    Parameters
    ----------
    source : str
        Room that the air leaves, or ``"outdoors"``.
    target : str
        Room that it enters, or ``"outdoors"``.
    volume_flow_rate : float
        Volume flow rate [m³/s], 0 or more.
    """

    source: str
    target: str
    volume_flow_rate: float

    def __post_init__(self) -> None:
        not_negative(f"flow from {self.source} to {self.target}", self.volume_flow_rate, "m³/s")
        if self.source == self.target:
            raise InvalidInput(f"a flow leaves {self.source!r} and enters {self.target!r}")


@dataclass(frozen=True, slots=True)
class AirNetwork:
    """Rooms and the flows between them; as much air enters a room as leaves it.

    Parameters
    ----------
    rooms : tuple of Room
        The rooms, each name once.
    flows : tuple of AirFlow, optional
        The flows; several may join the same rooms. A door or leak in both directions is two flows.

    Raises
    ------
    InvalidInput
        If a name is unknown or twice there, or a room gets more or less air than it gives; ``with_leakage`` closes
        such a balance by leakage.
    """

    rooms: tuple[Room, ...]
    flows: tuple[AirFlow, ...] = field(default=())

    def __post_init__(self) -> None:
        _check_names(self.rooms, self.flows)
        largest = max((flow.volume_flow_rate for flow in self.flows), default=0.0)
        for room, surplus in zip(self.rooms, _surplus(self.rooms, self.flows), strict=True):
            if abs(surplus) > _UNBALANCED_SHARE * largest:
                raise InvalidInput(f"{room.name} gets {surplus:.6g} m³/s more than it gives; rooms do not store air")

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the rooms, in their order."""
        return tuple(room.name for room in self.rooms)


def _check_names(rooms: Sequence[Room], flows: Sequence[AirFlow]) -> None:
    names = [room.name for room in rooms]
    if not names or len(set(names)) < len(names):
        raise InvalidInput(f"rooms are {names}; there must be at least one, each name once")
    for flow in flows:
        for name in (flow.source, flow.target):
            if name != OUTDOORS and name not in names:
                raise InvalidInput(f"a flow names {name!r}; rooms are {', '.join(names)} and {OUTDOORS}")


def _surplus(rooms: Sequence[Room], flows: Sequence[AirFlow]) -> list[float]:
    gained = {room.name: 0.0 for room in rooms} | {OUTDOORS: 0.0}
    for flow in flows:
        gained[flow.target] += flow.volume_flow_rate
        gained[flow.source] -= flow.volume_flow_rate
    return [gained[room.name] for room in rooms]


def exchange(first: str, second: str, volume_flow_rate: float) -> tuple[AirFlow, AirFlow]:
    """Equal flows in both directions: an open door, a leak that breathes.

    Parameters
    ----------
    first : str
        One room, or ``"outdoors"``.
    second : str
        The other.
    volume_flow_rate : float
        Volume flow rate in each direction [m³/s].

    Returns
    -------
    tuple of AirFlow
        There and back.

    Raises
    ------
    InvalidInput
        If the flow is below zero or both ends are the same.

    References
    ----------
    .. [1] J. Axley, "Multizone airflow modeling in buildings", *HVAC&R Research* 13 (2007) 907-928.

    Examples
    --------
    >>> [flow.target for flow in exchange("quiet", "control", 0.03)]
    ['control', 'quiet']
    """
    return AirFlow(first, second, volume_flow_rate), AirFlow(second, first, volume_flow_rate)


def with_leakage(rooms: tuple[Room, ...], flows: tuple[AirFlow, ...]) -> AirNetwork:
    """Network in which whatever fans bring too much into a room leaks outdoors, and too little leaks in.

    Parameters
    ----------
    rooms : tuple of Room
        The rooms.
    flows : tuple of AirFlow
        The flows, balanced or not.

    Returns
    -------
    AirNetwork
        Rooms, flows, and one more flow for each room that was out of balance.

    Raises
    ------
    InvalidInput
        If a name is unknown or twice there.

    References
    ----------
    .. [1] J. Axley, "Multizone airflow modeling in buildings", *HVAC&R Research* 13 (2007) 907-928.

    Examples
    --------
    >>> with_leakage((Room("quiet", 6.0),), (AirFlow("outdoors", "quiet", 0.03),)).flows[-1].target
    'outdoors'
    """
    _check_names(rooms, flows)
    leaks = []
    for room, surplus in zip(rooms, _surplus(rooms, flows), strict=True):
        if surplus > 0.0:
            leaks.append(AirFlow(room.name, OUTDOORS, surplus))
        elif surplus < 0.0:
            leaks.append(AirFlow(OUTDOORS, room.name, -surplus))
    return AirNetwork(rooms, (*flows, *leaks))


def _flow_matrices(network: AirNetwork) -> tuple[FloatArray, FloatArray]:
    """Return the flows out of (diagonal) and into (minus, off it) each room, and from outdoors into each."""
    index = {name: number for number, name in enumerate(network.names)}
    matrix = np.zeros((len(index), len(index)))
    outdoor = np.zeros(len(index))
    for flow in network.flows:
        if flow.volume_flow_rate < _NO_FLOW:
            continue
        if flow.source in index:
            matrix[index[flow.source], index[flow.source]] += flow.volume_flow_rate
        if flow.target in index and flow.source in index:
            matrix[index[flow.target], index[flow.source]] -= flow.volume_flow_rate
        elif flow.target in index:
            outdoor[index[flow.target]] += flow.volume_flow_rate
    return matrix, outdoor


def _checked(network: AirNetwork, numbers: Sequence[float], name: str = "sources") -> FloatArray:
    """Return the numbers as an array when there is one finite number for each room, else raise."""
    values = np.asarray(numbers, dtype=np.float64)
    if values.shape != (len(network.rooms),) or not np.all(np.isfinite(values)):
        raise InvalidInput(f"{name} are {list(numbers)}; one finite number for each of {', '.join(network.names)}")
    return values


def _groups(network: AirNetwork) -> list[set[str]]:
    """Rooms and outdoors in groups that exchange no air with each other."""
    groups = [{name} for name in (*network.names, OUTDOORS)]
    for flow in network.flows:
        if flow.volume_flow_rate >= _NO_FLOW:
            joined = [group for group in groups if flow.source in group or flow.target in group]
            groups = [group for group in groups if group not in joined] + [set().union(*joined)]
    return groups


def steady_fractions(
    network: AirNetwork,
    sources: Sequence[float],
    outdoor: float = OUTDOOR_CARBON_DIOXIDE,
    start: Sequence[float] | None = None,
) -> tuple[float, ...]:
    """Fraction of a gas in each room once nothing changes any more.

    Parameters
    ----------
    network : AirNetwork
        Rooms and flows.
    sources : sequence of float, one per room
        Gas that each room gains [m³/s]; below zero where it is used up.
    outdoor : float, optional
        Fraction outdoors [-].
    start : sequence of float, one per room, optional
        Fractions at the start [-], which matter only to rooms without outdoor air; outdoor air when left out.

    Returns
    -------
    tuple of float, one per room
        Fractions [-]. In rooms that no outdoor air reaches: infinite with a source, else the mean of the start.

    Raises
    ------
    InvalidInput
        If the count of numbers is not that of the rooms.

    Notes
    -----
    ``Σ q_in x_from − Σ q_out x + source = 0`` in each room. The same balance holds for water vapour with the humidity
    ratio as the fraction and ``vapour per time / density of the air`` as the source (see ``moisture_source``).

    References
    ----------
    .. [1] J. Axley, "Multizone airflow modeling in buildings", *HVAC&R Research* 13 (2007) 907-928.

    Examples
    --------
    Four seated adults, 40 l/s, in parts per million:

    >>> network = AirNetwork((Room("quiet", 6.0),), exchange("quiet", "outdoors", 0.040))
    >>> round(steady_fractions(network, [4 * 0.0048e-3])[0] * 1e6)
    900
    """
    gains = _checked(network, sources)
    begin = np.full(len(gains), outdoor) if start is None else _checked(network, start, "fractions at the start")
    matrix, inward = _flow_matrices(network)
    result = np.zeros(len(gains))
    for group in _groups(network):
        members = [number for number, name in enumerate(network.names) if name in group]
        if not members:
            continue
        if OUTDOORS in group:
            inner = matrix[np.ix_(members, members)]
            result[members] = np.linalg.solve(inner, inward[members] * outdoor + gains[members])
            continue
        gained = float(np.sum(gains[members]))
        volumes = np.array([network.rooms[number].volume for number in members])
        mean = float(np.sum(volumes * begin[members]) / np.sum(volumes))
        result[members] = mean if gained == 0.0 else np.copysign(np.inf, gained)
    return tuple(float(value) for value in result)


def moisture_source(water_vapour: float, density: float) -> float:
    """Water vapour given off, as the source of a balance of humidity ratios.

    Parameters
    ----------
    water_vapour : float
        Water vapour given off, below zero where it is taken out of the air [kg/s].
    density : float
        Density of the air [kg/m³].

    Returns
    -------
    float
        Source [m³/s] that raises the humidity ratio [kg/kg] of a room.

    Raises
    ------
    InvalidInput
        If the density is not above zero.

    Notes
    -----
    ``V ρ dw/dt = Σ ρ q (w_from − w) + g``, divided by ρ; one density for all rooms, which 10 K between them change
    by 3 %.

    References
    ----------
    .. [1] ISO 13788:2012, annex on moisture given off indoors (form of the balance, from memory).

    Examples
    --------
    >>> moisture_source(1.2e-5, 1.2)
    1e-05
    """
    return water_vapour / positive("density of the air", density, "kg/m³")
