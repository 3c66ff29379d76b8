"""The march through time: exact steps, thermostats, coils and the water of the rooms."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hushwright.physics.air import AIR_20C
from hushwright.physics.thermal._guard import FloatArray
from hushwright.physics.thermal.humidity import humidity_ratio
from hushwright.physics.thermal.matrices import AIR_HEAT_CAPACITY, Assembly
from hushwright.physics.thermal.occupants import HEAT_OF_VAPORISATION
from hushwright.physics.thermal.rooms import OUTSIDE, Drive, HeatNetwork

_RATED_OUTSIDE = 35.0  # °C, ISO 5151
_SWEEPS = 4
_COOLEST_OUTSIDE = 20.0  # °C; below it the capacity is not taken to rise further


@dataclass(frozen=True, slots=True, eq=False)
class Steps:
    """What the march wrote down.

    Parameters
    ----------
    temperature : ndarray, shape (n_node, n_step + 1)
        Temperatures [°C].
    humidity_ratio : ndarray, shape (n_room, n_step + 1)
        Humidity ratios [kg/kg].
    inputs : ndarray, shape (n_step, n_node)
        Heat from surroundings and gains at nodes of 0 °C [W].
    applied : ndarray, shape (n_step, n_node)
        Heat of heaters and coolers in each node [W].
    heating : ndarray, shape (n_heater, n_step)
        Heat of each heater [W].
    cooling : ndarray, shape (n_cooler, n_step)
        Sensible cooling of each cooler [W].
    condensate : ndarray, shape (n_cooler, n_step)
        Water that each coil sheds [kg/s].

    References
    ----------
    .. [1] ISO 52016-1:2017.
    """

    temperature: FloatArray
    humidity_ratio: FloatArray
    inputs: FloatArray
    applied: FloatArray
    heating: FloatArray
    cooling: FloatArray
    condensate: FloatArray

    @property
    def latent_cooling(self) -> FloatArray:
        """Heat of the water that each coil sheds [W]."""
        return self.condensate * HEAT_OF_VAPORISATION

    @property
    def total_cooling(self) -> FloatArray:
        """Sensible and latent cooling of each cooler [W]."""
        return self.cooling + self.latent_cooling


class _Unit:
    """A heater or a cooler during the march: sign, limits, and whether it runs."""

    __slots__ = (
        "allowed",
        "coil",
        "contact",
        "given",
        "limits",
        "most",
        "on",
        "room",
        "row",
        "setpoint",
        "sign",
        "threshold",
        "wet",
    )

    def __init__(self, room: int, row: int, sign: float, setpoint: float, hysteresis: float) -> None:
        self.room, self.row, self.sign, self.setpoint = room, row, sign, setpoint
        self.threshold = setpoint - sign * hysteresis
        self.on = False
        self.allowed: list[bool] = []
        self.limits: list[float] = []
        self.coil = 0.0
        self.given, self.most, self.contact = 0.0, 0.0, 0.0
        self.wet = 0.0

    def capacity(self, step: int, temperature: float, ratio: float) -> tuple[float, float]:
        """Greatest sensible heat [W] and air that touches the coil [m³/s], by the state of the room."""
        total = self.limits[step]
        if self.sign > 0.0:
            return total, 0.0
        warmer = AIR_HEAT_CAPACITY * (max(temperature, self.setpoint) - self.coil)
        damper = HEAT_OF_VAPORISATION * max(ratio - self.wet, 0.0)
        return total * warmer / (warmer + damper), total / ((warmer + damper) * AIR_20C.density)


def march(
    network: HeatNetwork,
    drive: Drive,
    parts: Assembly,
    matrices: Sequence[Sequence[FloatArray]],
    temperatures: FloatArray,
    water: FloatArray,
) -> Steps:
    """March a network through its drive.

    Parameters
    ----------
    network : HeatNetwork
        Rooms, envelopes, heaters and coolers.
    drive : Drive
        What acts on them.
    parts : Assembly
        The network as arrays.
    matrices : sequence of triples of ndarray
        Exact matrices of one step for each set of air flows.
    temperatures : ndarray, shape (n_node,)
        Temperatures at the start [°C].
    water : ndarray, shape (n_room,)
        Humidity ratios at the start [kg/kg].

    Returns
    -------
    Steps
        Temperatures [°C], water [kg/kg], heat of the units [W].

    References
    ----------
    .. [1] ISO 52016-1:2017.

    Examples
    --------
    >>> from hushwright.physics.thermal.matrices import assemble, step_matrices
    >>> from hushwright.physics.thermal.rooms import Envelope, RoomNode
    >>> shell = Envelope("shell", "quiet room", "outside", 20.0, 0.04, 4e3, 1.5, 15e3, 0.13)
    >>> box = HeatNetwork((RoomNode("quiet room", 6.5),), (shell,))
    >>> drive = Drive(300.0, {"outside": np.full(2, 10.0)}, np.full(2, 0.5))
    >>> parts = assemble(box, drive)
    >>> march(box, drive, parts, step_matrices(parts, 300.0), np.full(3, 10.0), np.full(1, 4e-3)).temperature.shape
    (3, 3)
    """
    units = _units(network, drive)
    count, nodes, rooms = drive.count, parts.capacities.size, len(network.rooms)
    wetness = _Moisture(network, drive, parts)
    inputs = node_inputs(parts)
    responses = [once / parts.capacities for _, once, _ in matrices]
    # One state for heat and water: humidity ratios follow the temperatures in the same product.
    state = np.empty((count + 1, nodes + rooms))
    forced = _forced(parts, responses, inputs, wetness)
    advance = [_joined(triple[0], inverse * wetness.store).dot
               for triple, inverse in zip(matrices, wetness.inverses, strict=True)]  # fmt: skip
    record = _Record(network, count, nodes)
    state[0, :nodes], state[0, nodes:] = temperatures, water
    rows, added, which = list(state), list(forced), parts.regime.tolist()
    row = rows[0]
    for step in range(count):
        before, row = row, rows[step + 1]
        advance[which[step]](before, row)
        row += added[step]
        for unit in units:
            if unit.on or ((row[unit.room] - unit.threshold) * unit.sign < 0.0 and unit.allowed[step]):
                coils = _control(units, step, row, before, responses[which[step]], record)
                if coils:
                    wetness.dry(which[step], row[nodes:], coils, record.condensate[step])
                break
    return Steps(
        state[:, :nodes].T,
        state[:, nodes:].T,
        inputs,
        record.applied,
        record.heating.T,
        record.cooling.T,
        record.condensate.T,
    )


def _joined(heat: FloatArray, water: FloatArray) -> FloatArray:
    """One matrix that advances the temperatures and, beside them, the humidity ratios."""
    nodes, rooms = len(heat), len(water)
    whole = np.zeros((nodes + rooms, nodes + rooms))
    whole[:nodes, :nodes], whole[nodes:, nodes:] = heat, water
    return whole


def _forced(parts: Assembly, responses: Sequence[FloatArray], inputs: FloatArray, wetness: _Moisture) -> FloatArray:
    """What surroundings, gains and people add to the state in each step."""
    nodes = inputs.shape[1]
    forced = np.empty((len(inputs), nodes + wetness.sources.shape[1]))
    for index, (response, inverse) in enumerate(zip(responses, wetness.inverses, strict=True)):
        chosen = _steps_of(parts, index)
        forced[chosen, :nodes] = inputs[chosen] @ response.T
        forced[chosen, nodes:] = wetness.sources[chosen] @ inverse.T
    return forced


def node_inputs(parts: Assembly) -> FloatArray:
    """Heat from surroundings and gains into each node, nodes' own temperatures left out.

    Parameters
    ----------
    parts : Assembly
        The network as arrays.

    Returns
    -------
    ndarray, shape (n_step, n_node)
        Heat flow at nodes of 0 °C [W].

    References
    ----------
    .. [1] ISO 52016-1:2017.

    Examples
    --------
    See `march`.

    >>> from hushwright.physics.thermal.matrices import assemble
    >>> from hushwright.physics.thermal.rooms import Envelope, RoomNode
    >>> shell = Envelope("shell", "quiet room", "outside", 20.0, 0.05, 4e3, 1.5, 15e3, 0.13)
    >>> drive = Drive(300.0, {"outside": np.full(1, 10.0)}, np.full(1, 0.5))
    >>> float(node_inputs(assemble(HeatNetwork((RoomNode("quiet room", 6.5),), (shell,)), drive))[0, 1])
    4000.0
    """
    inputs = np.ascontiguousarray(parts.gains.T)
    for index, regime in enumerate(parts.regimes):
        chosen = _steps_of(parts, index)
        inputs[chosen] += parts.outer[:, chosen].T @ regime.source.T
    return inputs


def mean_temperatures(
    parts: Assembly, matrices: Sequence[Sequence[FloatArray]], steps: Steps, step: float
) -> FloatArray:
    """Mean temperature of each node in each step, from the exact integral.

    Parameters
    ----------
    parts : Assembly
        The network as arrays.
    matrices : sequence of triples of ndarray
        Exact matrices of one step for each set of air flows.
    steps : Steps
        What the march wrote down.
    step : float
        Length of a step [s].

    Returns
    -------
    ndarray, shape (n_node, n_step)
        Mean temperatures [°C].

    Notes
    -----
    ``∫T dt = Φ₁ T + Φ₂ b``: nothing of the temperature at the end of the step enters, so that an account made with it
    checks the march.

    References
    ----------
    .. [1] C. F. Van Loan, *IEEE Transactions on Automatic Control* 23 (1978), 395-404.

    Examples
    --------
    >>> from hushwright.physics.thermal.matrices import assemble, step_matrices
    >>> from hushwright.physics.thermal.rooms import Envelope, RoomNode
    >>> shell = Envelope("shell", "quiet room", "outside", 20.0, 0.04, 4e3, 1.5, 15e3, 0.13)
    >>> box = HeatNetwork((RoomNode("quiet room", 6.5),), (shell,))
    >>> drive = Drive(300.0, {"outside": np.full(2, 10.0)}, np.full(2, 0.5))
    >>> parts = assemble(box, drive)
    >>> exact = step_matrices(parts, 300.0)
    >>> still = march(box, drive, parts, exact, np.full(3, 10.0), np.full(1, 4e-3))
    >>> round(float(mean_temperatures(parts, exact, still, 300.0)[0, 0]), 9)
    10.0
    """
    mean = np.empty_like(steps.applied)
    begin = steps.temperature.T[:-1]
    forced = (steps.inputs + steps.applied) / parts.capacities
    for index, (_, once, twice) in enumerate(matrices):
        chosen = _steps_of(parts, index)
        mean[chosen] = (begin[chosen] @ once.T + forced[chosen] @ twice.T) / step
    return mean.T


def _steps_of(parts: Assembly, index: int) -> slice | np.ndarray:
    """Steps in which a set of air flows holds; all of them without a search when there is one set."""
    return slice(None) if len(parts.regimes) == 1 else np.flatnonzero(parts.regime == index)


class _Record:
    """Heat and water of the units, step by step."""

    __slots__ = ("applied", "condensate", "cooling", "heating")

    def __init__(self, network: HeatNetwork, count: int, nodes: int) -> None:
        self.applied = np.zeros((count, nodes))
        self.heating = np.zeros((count, len(network.heaters)))
        self.cooling = np.zeros((count, len(network.coolers)))
        self.condensate = np.zeros((count, len(network.coolers)))


def _units(network: HeatNetwork, drive: Drive) -> list[_Unit]:
    rooms = {room.name: index for index, room in enumerate(network.rooms)}
    units = []
    for row, heater in enumerate(network.heaters):
        unit = _Unit(rooms[heater.room], row, 1.0, heater.setpoint, heater.hysteresis)
        unit.allowed = _allowed(drive.heater_allowed.get(heater.room), drive.count)
        unit.limits = [heater.capacity] * drive.count
        units.append(unit)
    warm = np.maximum(drive.surroundings[OUTSIDE], _COOLEST_OUTSIDE) - _RATED_OUTSIDE
    for row, cooler in enumerate(network.coolers):
        unit = _Unit(rooms[cooler.room], row, -1.0, cooler.setpoint, cooler.hysteresis)
        unit.allowed = _allowed(drive.cooler_allowed.get(cooler.room), drive.count)
        unit.limits = np.maximum(cooler.capacity * (1.0 - cooler.capacity_slope * warm), 0.0).tolist()
        unit.coil = cooler.coil_temperature
        unit.wet = float(humidity_ratio(cooler.coil_temperature, 1.0))
        units.append(unit)
    return units


def _allowed(given: FloatArray | None, count: int) -> list[bool]:
    return [True] * count if given is None else [bool(value) for value in given]


def _control(
    units: Sequence[_Unit], step: int, now: FloatArray, before: FloatArray, response: FloatArray, record: _Record
) -> list[tuple[int, int, float]]:
    """Let thermostats act on the end of a step; changes ``now`` and returns room, cooler and contact flow of coils."""
    running = [unit for unit in units if _runs(unit, step, float(now[unit.room]))]
    nodes = response.shape[0]
    for unit in running:
        unit.given = 0.0
        unit.most, unit.contact = unit.capacity(step, float(before[unit.room]), float(before[nodes + unit.room]))
    # A unit moves its neighbour's room too; with more than one the sweeps settle what each has to give.
    for _ in range(1 if len(running) < 2 else _SWEEPS):
        for unit in running:
            missing = (unit.setpoint - float(now[unit.room])) * unit.sign / float(response[unit.room, unit.room])
            given = min(max(unit.given + missing, 0.0), unit.most)
            now[:nodes] += response[:, unit.room] * (unit.sign * (given - unit.given))
            unit.given = given
    coils: list[tuple[int, int, float]] = []
    for unit in running:
        unit.on = unit.given > 0.0
        record.applied[step, unit.room] += unit.sign * unit.given
        if unit.sign > 0.0:
            record.heating[step, unit.row] = unit.given
        elif unit.on:
            record.cooling[step, unit.row] = unit.given
            coils.append((unit.room, unit.row, unit.contact * unit.given / unit.most))
    return coils


def _runs(unit: _Unit, step: int, free: float) -> bool:
    """Whether a unit runs in a step that would end at a temperature without it; remembers that it stopped."""
    if not unit.allowed[step]:
        unit.on = False
    elif not unit.on:
        return (free - unit.threshold) * unit.sign < 0.0
    return unit.on


class _Moisture:
    """Implicit steps of the rooms' humidity ratio."""

    def __init__(self, network: HeatNetwork, drive: Drive, parts: Assembly) -> None:
        rooms = [room.name for room in network.rooms]
        outside = humidity_ratio(drive.surroundings[OUTSIDE], drive.outside_relative_humidity)
        self.store = parts.air_masses / drive.step
        self.sources = np.zeros((drive.count, len(rooms)))
        for name, values in drive.vapour.items():
            self.sources[:, rooms.index(name)] += np.asarray(values)
        self.inverses = []
        for index, regime in enumerate(parts.regimes):
            carried = AIR_20C.density * regime.inflow
            system = np.diag(self.store + carried.sum(axis=1)) - carried[:, :-1]
            self.inverses.append(np.linalg.inv(system))
            chosen = _steps_of(parts, index)
            self.sources[chosen] += np.outer(outside[chosen], carried[:, -1])
        self.wet = [float(humidity_ratio(unit.coil_temperature, 1.0)) for unit in network.coolers]

    def dry(self, regime: int, water: FloatArray, coils: Sequence[tuple[int, int, float]], shed: FloatArray) -> None:
        """Change humidity ratios at the end of a step by what coils shed [kg/s], and write that down.

        A coil adds ``c (w_coil − w)`` to one row of the system; the change of a low-rank update is solved for the wet
        rooms alone.
        """
        drying = [coil for coil in coils if water[coil[0]] > self.wet[coil[1]]]
        if not drying:
            return
        inverse = self.inverses[regime]
        places = [room for room, _, _ in drying]
        carried = np.array([AIR_20C.density * contact for _, _, contact in drying])
        lowest = np.array([self.wet[row] for _, row, _ in drying])
        excess = water[places] - lowest
        if len(drying) == 1:
            flow = carried * excess / (1.0 + carried[0] * inverse[places[0], places[0]])
        else:
            small = np.eye(len(drying)) + carried[:, None] * inverse[np.ix_(places, places)]
            flow = np.linalg.solve(small, carried * excess)
        water -= inverse[:, places] @ flow
        for (_, row, _), amount in zip(drying, flow, strict=True):
            shed[row] = amount
