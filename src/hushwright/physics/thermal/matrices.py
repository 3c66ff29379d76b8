"""A heat network as matrices: stores, losses and sources for each set of air flows, and the exact step."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from hushwright.errors import InvalidInput
from hushwright.physics.air import AIR_20C
from hushwright.physics.thermal._guard import FloatArray
from hushwright.physics.thermal.rooms import OUTSIDE, RADIANT_SHARE, Drive, HeatNetwork

AIR_HEAT_CAPACITY: Final = 1006.0
"""Heat capacity of dry air at constant pressure [J/(kg·K)]."""

_PADE_REACH = 5.37  # norm up to which the quotient of order 13 holds to the last bit
_PADE = tuple(float(math.factorial(26 - k) // (math.factorial(13 - k) * math.factorial(k))) for k in range(14))

_MOST_REGIMES = 2000  # sets of air flows; each needs a matrix exponential of its own


@dataclass(frozen=True, slots=True, eq=False)
class Regime:
    """The network while one set of air flows holds.

    Parameters
    ----------
    loss : ndarray, shape (n_node, n_node)
        Conductances between nodes and to the surroundings [W/K].
    source : ndarray, shape (n_node, n_surroundings)
        Conductances from the surroundings [W/K].
    inflow : ndarray, shape (n_room, n_room + 1)
        Air into each room from each room and, last, from outdoors [m³/s].

    References
    ----------
    .. [1] ISO 52016-1:2017.
    """

    loss: FloatArray
    source: FloatArray
    inflow: FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class Assembly:
    """The network with what acts on it, as arrays.

    Parameters
    ----------
    capacities : ndarray, shape (n_node,)
        Heat capacities [J/K].
    air_masses : ndarray, shape (n_room,)
        Masses of dry air [kg].
    outer : ndarray, shape (n_surroundings, n_step)
        Temperatures of the surroundings [°C].
    outdoors : int
        Row of the outdoor air among the surroundings [-].
    gains : ndarray, shape (n_node, n_step)
        Heat put into each node [W].
    gain_sums : dict of str to ndarray, shape (n_step,)
        Heat by kind [W].
    regimes : tuple of Regime
        One for each set of air flows.
    regime : ndarray of int, shape (n_step,)
        Which set holds in each step [-].
    faces : tuple of (str, int, int, float)
        Envelopes towards the surroundings: name, skin node, row of the surroundings, conductance [W/K].

    References
    ----------
    .. [1] ISO 52016-1:2017.
    """

    capacities: FloatArray
    air_masses: FloatArray
    outer: FloatArray
    outdoors: int
    gains: FloatArray
    gain_sums: dict[str, FloatArray]
    regimes: tuple[Regime, ...]
    regime: np.ndarray
    faces: tuple[tuple[str, int, int, float], ...]

    def heat_flows(self, mean: FloatArray) -> dict[str, FloatArray]:
        """Heat into the network by cause, from mean temperatures of each step.

        Parameters
        ----------
        mean : ndarray, shape (n_node, n_step)
            Mean temperature of each node in each step [°C].

        Returns
        -------
        dict of str to ndarray, shape (n_step,)
            Heat flows [W].

        References
        ----------
        .. [1] ISO 52016-1:2017.
        """
        flows = {name: g * (self.outer[row] - mean[node]) for name, node, row, g in self.faces}
        flows.update(self.gain_sums)
        count = self.air_masses.size
        air = np.zeros(mean.shape[1])
        carried = AIR_20C.density * AIR_HEAT_CAPACITY
        for index, regime in enumerate(self.regimes):
            chosen = self.regime == index
            around = np.vstack([mean[:count, chosen], self.outer[self.outdoors, chosen]])
            entering = regime.inflow @ around - regime.inflow.sum(axis=1)[:, None] * mean[:count, chosen]
            air[chosen] = carried * entering.sum(axis=0)
        flows["ventilation"] = air
        return flows

    def water_exchange(self, ratios: FloatArray, outside_ratio: FloatArray) -> FloatArray:
        """Water that the air flows bring into all rooms.

        Parameters
        ----------
        ratios : ndarray, shape (n_room, n_step)
            Humidity ratio of the rooms [kg/kg].
        outside_ratio : ndarray, shape (n_step,)
            Humidity ratio outdoors [kg/kg].

        Returns
        -------
        ndarray, shape (n_step,)
            Water [kg/s].

        References
        ----------
        .. [1] ISO 52016-1:2017.
        """
        water = np.zeros(ratios.shape[1])
        for index, regime in enumerate(self.regimes):
            chosen = self.regime == index
            around = np.vstack([ratios[:, chosen], outside_ratio[chosen]])
            entering = regime.inflow @ around - regime.inflow.sum(axis=1)[:, None] * ratios[:, chosen]
            water[chosen] = AIR_20C.density * entering.sum(axis=0)
        return water


def assemble(network: HeatNetwork, drive: Drive) -> Assembly:
    """Arrays of a network and its drive.

    Parameters
    ----------
    network : HeatNetwork
        Rooms, envelopes, heaters and coolers.
    drive : Drive
        What acts on them.

    Returns
    -------
    Assembly
        Matrices [W/K], capacities [J/K], gains [W].

    Raises
    ------
    InvalidInput
        If a name is unknown or the air flows take on too many different sets of values.

    References
    ----------
    .. [1] ISO 52016-1:2017.

    Examples
    --------
    >>> from hushwright.physics.thermal.rooms import Envelope, RoomNode
    >>> shell = Envelope("shell", "quiet room", "outside", 20.0, 0.04, 4e3, 1.5, 15e3, 0.13)
    >>> box = HeatNetwork((RoomNode("quiet room", 6.5),), (shell,))
    >>> assemble(box, Drive(300.0, {"outside": np.full(2, 10.0)}, np.full(2, 0.5))).capacities.size
    3
    """
    rooms = {room.name: index for index, room in enumerate(network.rooms)}
    places = {name: index for index, name in enumerate(drive.surroundings)}
    if both := set(rooms) & set(places):
        raise InvalidInput(f"{sorted(both)} are rooms and surroundings at once")
    for used in (*(room for room, _ in drive.gains), *drive.vapour, *drive.cooler_allowed, *drive.heater_allowed):
        if used not in rooms:
            raise InvalidInput(f"room {used!r} of the drive is not among {sorted(rooms)}")
    count = len(rooms) + 2 * len(network.envelopes)
    loss, source, faces = _conductances(network, rooms, places, count)
    masses = np.array([AIR_20C.density * room.volume for room in network.rooms])
    capacities = np.concatenate(
        [
            masses * AIR_HEAT_CAPACITY + [room.contents_heat_capacity for room in network.rooms],
            *((wall.area * wall.skin_heat_capacity, wall.area * wall.leaf_heat_capacity) for wall in network.envelopes),
        ]
    )
    inflows, regime = _inflow_sets(drive, rooms)
    regimes = tuple(_with_air(loss, source, inflow, places[OUTSIDE]) for inflow in inflows)
    gains, sums = _gains(network, drive, rooms, count)
    outer = np.array([np.asarray(values, dtype=np.float64) for values in drive.surroundings.values()])
    return Assembly(capacities, masses, outer, places[OUTSIDE], gains, sums, regimes, regime, faces)


def step_matrices(parts: Assembly, step: float) -> tuple[tuple[FloatArray, FloatArray, FloatArray], ...]:
    """Exact matrices of one step for each set of air flows.

    Parameters
    ----------
    parts : Assembly
        The network as arrays.
    step : float
        Length of the step [s].

    Returns
    -------
    tuple of triples of ndarray, shape (n_node, n_node)
        ``e^{Ah}`` [-], its integral [s] and the integral of that [s²].

    Notes
    -----
    All three are blocks of one matrix exponential.

    References
    ----------
    .. [1] C. F. Van Loan, *IEEE Transactions on Automatic Control* 23 (1978), 395-404.

    Examples
    --------
    >>> from hushwright.physics.thermal.rooms import Envelope, RoomNode
    >>> shell = Envelope("shell", "quiet room", "outside", 20.0, 0.04, 4e3, 1.5, 15e3, 0.13)
    >>> box = HeatNetwork((RoomNode("quiet room", 6.5),), (shell,))
    >>> parts = assemble(box, Drive(300.0, {"outside": np.full(2, 10.0)}, np.full(2, 0.5)))
    >>> step_matrices(parts, 300.0)[0][0].shape
    (3, 3)
    """
    count = parts.capacities.size
    found = []
    for regime in parts.regimes:
        block = np.zeros((3 * count, 3 * count))
        block[:count, :count] = -regime.loss / parts.capacities[:, None]
        block[:count, count : 2 * count] = np.eye(count)
        block[count : 2 * count, 2 * count :] = np.eye(count)
        # Scaled to the step, so that the blocks of unlike size do not cost digits.
        block[:count, :count] *= step
        power = _exponential(block)
        once, twice = power[:count, count : 2 * count] * step, power[:count, 2 * count :] * step**2
        found.append((power[:count, :count], once, twice))
    return tuple(found)


def _exponential(matrix: FloatArray) -> FloatArray:
    """Exponential of a matrix: halved until it is small, a Padé quotient of order 13, squared again.

    Written out because the package that has it costs a fifth of a second to load. N. J. Higham, *SIAM Journal on Matrix
    Analysis and Applications* 26 (2005), 1179-1193.
    """
    norm = float(np.abs(matrix).sum(axis=0).max())
    halvings = max(0, math.ceil(math.log2(norm / _PADE_REACH))) if norm > 0.0 else 0
    small = matrix / 2.0**halvings
    second = small @ small
    fourth = second @ second
    sixth = fourth @ second
    b, unit = _PADE, np.eye(matrix.shape[0])
    odd = sixth @ (b[13] * sixth + b[11] * fourth + b[9] * second)
    odd = small @ (odd + b[7] * sixth + b[5] * fourth + b[3] * second + b[1] * unit)
    even = sixth @ (b[12] * sixth + b[10] * fourth + b[8] * second)
    even = even + b[6] * sixth + b[4] * fourth + b[2] * second + b[0] * unit
    power = np.linalg.solve(even - odd, even + odd)
    for _ in range(halvings):
        power = power @ power
    return np.asarray(power, dtype=np.float64)


def _conductances(
    network: HeatNetwork, rooms: dict[str, int], places: dict[str, int], count: int
) -> tuple[FloatArray, FloatArray, tuple[tuple[str, int, int, float], ...]]:
    loss, source = np.zeros((count, count)), np.zeros((count, len(places)))
    faces = []
    for index, wall in enumerate(network.envelopes):
        skin = len(rooms) + 2 * index
        _join(loss, skin, skin + 1, wall.area / wall.core_resistance)
        _join(loss, skin + 1, rooms[wall.room], wall.area / wall.inside_resistance)
        outer = wall.area / wall.outside_resistance
        if wall.surroundings in rooms:
            _join(loss, skin, rooms[wall.surroundings], outer)
        elif wall.surroundings in places:
            loss[skin, skin] += outer
            source[skin, places[wall.surroundings]] += outer
            faces.append((f"through {wall.name}", skin, places[wall.surroundings], outer))
        else:
            raise InvalidInput(f"{wall.surroundings!r} beyond {wall.name} is neither a room nor among {sorted(places)}")
    names = [name for name, *_ in faces]
    if len(set(names)) != len(names):
        raise InvalidInput(f"envelopes are named {names}; each needs a name of its own")
    return loss, source, tuple(faces)


def _join(loss: FloatArray, first: int, second: int, conductance: float) -> None:
    loss[first, first] += conductance
    loss[second, second] += conductance
    loss[first, second] -= conductance
    loss[second, first] -= conductance


def _inflow_sets(drive: Drive, rooms: dict[str, int]) -> tuple[Sequence[FloatArray], np.ndarray]:
    """Different sets of air flows, each as inflow from rooms and outdoors, and which holds in each step."""
    for pair in drive.flows:
        if unknown := [name for name in pair if name not in rooms and name != OUTSIDE]:
            raise InvalidInput(f"air flow {pair} names {unknown[0]!r}; known are {[*rooms, OUTSIDE]}")
    if not drive.flows:
        return [np.zeros((len(rooms), len(rooms) + 1))], np.zeros(drive.count, dtype=np.intp)
    table = np.array([np.asarray(values, dtype=np.float64) for values in drive.flows.values()])
    which, firsts = _same_columns(table)
    sets = table[:, firsts]
    if sets.shape[1] > _MOST_REGIMES:
        raise InvalidInput(f"air flows take {sets.shape[1]} sets of values; round them to at most {_MOST_REGIMES}")
    inflows = []
    for flows in sets.T:
        inflow, given = np.zeros((len(rooms), len(rooms) + 1)), np.zeros(len(rooms))
        for (origin, target), flow in zip(drive.flows, flows, strict=True):
            if target in rooms:
                inflow[rooms[target], rooms.get(origin, len(rooms))] += flow
            if origin in rooms:
                given[rooms[origin]] += flow
        # What a room gives away without getting it back comes through leaks from outdoors.
        inflow[:, -1] += np.maximum(given - inflow.sum(axis=1), 0.0)
        inflows.append(inflow)
    return inflows, which


def _same_columns(table: FloatArray) -> tuple[np.ndarray, np.ndarray]:
    """Number of the set each column belongs to, and the first column of each set."""
    code = np.zeros(table.shape[1], dtype=np.intp)
    for values in table:
        kinds, place = np.unique(values, return_inverse=True)
        _, code = np.unique(code * kinds.size + place, return_inverse=True)
    firsts = np.unique(code, return_index=True)[1]
    return code, firsts


def _with_air(loss: FloatArray, source: FloatArray, inflow: FloatArray, outdoors: int) -> Regime:
    carried = AIR_20C.density * AIR_HEAT_CAPACITY * inflow
    count = inflow.shape[0]
    with_air, with_source = loss.copy(), source.copy()
    with_air[:count, :count] += np.diag(carried.sum(axis=1)) - carried[:, :count]
    with_source[:count, outdoors] += carried[:, -1]
    return Regime(with_air, with_source, inflow)


def _gains(
    network: HeatNetwork, drive: Drive, rooms: dict[str, int], count: int
) -> tuple[FloatArray, dict[str, FloatArray]]:
    gains = np.zeros((count, drive.count))
    sums: dict[str, FloatArray] = {}
    for (room, kind), values in drive.gains.items():
        if kind not in RADIANT_SHARE:
            raise InvalidInput(f"gain of {room} is of kind {kind!r}; known are {sorted(RADIANT_SHARE)}")
        heat = np.asarray(values, dtype=np.float64)
        sums[kind] = sums.get(kind, np.zeros(drive.count)) + heat
        radiant = RADIANT_SHARE[kind]
        gains[rooms[room]] += (1.0 - radiant) * heat
        seen = [
            (len(rooms) + 2 * index + (1 if wall.room == room else 0), wall.area)
            for index, wall in enumerate(network.envelopes)
            if room in (wall.room, wall.surroundings)
        ]
        area = sum(size for _, size in seen)
        for node, size in seen:
            gains[node] += radiant * heat * size / area
    return gains, sums
