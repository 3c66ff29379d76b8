"""Temperatures of rooms, skins and leaves step by step, with heaters, coolers, water and an account of every flow."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from hushwright.errors import InvalidInput
from hushwright.physics.thermal._guard import FloatArray
from hushwright.physics.thermal.control import Steps, march, mean_temperatures
from hushwright.physics.thermal.humidity import humidity_ratio, relative_humidity_of
from hushwright.physics.thermal.matrices import Assembly, assemble, step_matrices
from hushwright.physics.thermal.rooms import OUTSIDE, Drive, HeatNetwork

_SETTLED = 0.01  # K from one day's start to the next
_MOST_DAYS = 60


@dataclass(frozen=True, slots=True, eq=False)
class NetworkRun:
    """What happened in the rooms.

    Parameters
    ----------
    step : float
        Length of a step [s].
    room_names : tuple of str
        The rooms in the order of the rows.
    temperature : ndarray, shape (n_node, n_step + 1)
        Temperatures [°C]: rooms first, then skin and leaf of each envelope.
    relative_humidity : ndarray, shape (n_room, n_step + 1)
        Relative humidity of the rooms [-]; above one water condenses on whatever is coldest.
    humidity_ratio : ndarray, shape (n_room, n_step + 1)
        Water per dry air [kg/kg].
    heat_flows : mapping of str to ndarray, shape (n_step,)
        Mean heat into all rooms and walls by cause, out of them negative [W].
    stored_heat : ndarray, shape (n_step,)
        Heat that rooms and walls took up in each step [J].
    water_flows : mapping of str to ndarray, shape (n_step,)
        Mean water into all rooms by cause [kg/s].
    stored_water : ndarray, shape (n_step,)
        Water that the air took up in each step [kg].
    heating : ndarray, shape (n_heater, n_step)
        Heat of each heater [W].
    cooling : ndarray, shape (n_cooler, n_step)
        Sensible cooling of each cooler [W].
    latent_cooling : ndarray, shape (n_cooler, n_step)
        Latent cooling of each cooler [W].
    electrical_power : ndarray, shape (n_step,)
        Electrical power of all coolers and energy taken by all heaters [W].
    condensate : ndarray, shape (n_cooler, n_step)
        Water that each coil sheds [kg/s].

    References
    ----------
    .. [1] ISO 52016-1:2017.

    Examples
    --------
    See `run_network`.
    """

    step: float
    room_names: tuple[str, ...]
    temperature: FloatArray
    relative_humidity: FloatArray
    humidity_ratio: FloatArray
    heat_flows: Mapping[str, FloatArray]
    stored_heat: FloatArray
    water_flows: Mapping[str, FloatArray]
    stored_water: FloatArray
    heating: FloatArray
    cooling: FloatArray
    latent_cooling: FloatArray
    electrical_power: FloatArray
    condensate: FloatArray

    def room(self, name: str) -> FloatArray:
        """Air temperature of one room at the ends of the steps.

        Parameters
        ----------
        name : str
            Name of the room.

        Returns
        -------
        ndarray, shape (n_step + 1,)
            Temperature [°C].

        References
        ----------
        .. [1] ISO 52016-1:2017.
        """
        if name not in self.room_names:
            raise InvalidInput(f"room {name!r} is not among {list(self.room_names)}")
        return np.asarray(self.temperature[self.room_names.index(name)])

    @property
    def heat_imbalance(self) -> float:
        """Sum of all heat flows less what was stored, over the greatest sum of flows of one sign [-]."""
        flows = np.array([float(flow.sum()) * self.step for flow in self.heat_flows.values()])
        scale = max(float(np.abs(flows).sum()), float(np.abs(self.stored_heat).sum()), 1e-9)
        return abs(float(flows.sum() - self.stored_heat.sum())) / scale

    @property
    def water_imbalance(self) -> float:
        """Sum of all water flows less what was stored, over the sum of their sizes [-]."""
        flows = np.array([float(flow.sum()) * self.step for flow in self.water_flows.values()])
        scale = max(float(np.abs(flows).sum()), float(np.abs(self.stored_water).sum()), 1e-12)
        return abs(float(flows.sum() - self.stored_water.sum())) / scale


def run_network(
    network: HeatNetwork,
    drive: Drive,
    start_temperature: float | Sequence[float] | None = None,
    start_relative_humidity: float | None = None,
) -> NetworkRun:
    """Temperatures, humidity, heating and cooling of coupled rooms.

    Parameters
    ----------
    network : HeatNetwork
        Rooms, envelopes, heaters and coolers.
    drive : Drive
        What acts on them.
    start_temperature : float or sequence of floats, length n_node, optional
        Temperature of everything, or of each node, at the start [°C]; the steady state of the first step without
        heaters and coolers when left out.
    start_relative_humidity : float, optional
        Relative humidity of the rooms at the start [-]; the water of the outdoor air when left out.

    Returns
    -------
    NetworkRun
        Temperatures [°C], humidity [-], heat and water flows [W, kg/s].

    Raises
    ------
    InvalidInput
        If a name in the drive is unknown or the start does not fit.

    Notes
    -----
    Each room is one well-mixed air node, each envelope a skin and a leaf node. Within a step everything that acts is
    constant and the solution ``T(t + h) = e^{Ah} T + ∫e^{As} ds b`` is exact, so that no step is too stiff; one
    matrix exponential for each set of air flows. A unit starts when its room leaves setpoint and hysteresis and then
    gives in each step the heat that ends it at the setpoint, up to its capacity: cycling faster than a step is
    averaged. Humidity follows by implicit steps; the linings' own moisture is left out. Flows of the account come from
    mean temperatures of each step, ``∫T dt = Φ₁T + Φ₂b``, never from the change of the store.

    References
    ----------
    .. [1] ISO 52016-1:2017 (nodes); C. Moler and C. Van Loan, *SIAM Review* 45 (2003), 3-49 (exponential).

    Examples
    --------
    A closed room of 12 W/K with 240 W in it ends up 20 K warmer than outside.

    >>> from hushwright.physics.thermal.rooms import Envelope, RoomNode
    >>> shell = Envelope("shell", "quiet room", "outside", 20.0, 0.04, 4e3, 1.4967, 15e3, 0.13)
    >>> still = Drive(300.0, {"outside": np.full(12 * 72, 10.0)}, np.full(12 * 72, 0.5),
    ...               gains={("quiet room", "equipment"): np.full(12 * 72, 240.0)})
    >>> run = run_network(HeatNetwork((RoomNode("quiet room", 6.5),), (shell,)), still, 10.0)
    >>> round(float(run.room("quiet room")[-1]), 1), run.heat_imbalance < 1e-9
    (29.7, True)
    """
    parts = assemble(network, drive)
    matrices = step_matrices(parts, drive.step)
    temperatures = _start(parts, start_temperature)
    outside = humidity_ratio(drive.surroundings[OUTSIDE], drive.outside_relative_humidity)
    rooms = len(network.rooms)
    if start_relative_humidity is None:
        water = np.full(rooms, outside[0])
    else:
        water = humidity_ratio(temperatures[:rooms], np.full(rooms, start_relative_humidity))
    steps = march(network, drive, parts, matrices, temperatures, water)
    return _account(network, drive, parts, matrices, steps, outside)


def _start(parts: Assembly, given: float | Sequence[float] | None) -> FloatArray:
    count = parts.capacities.size
    if given is None:
        first = parts.regimes[parts.regime[0]]
        return np.asarray(np.linalg.solve(first.loss, first.source @ parts.outer[:, 0] + parts.gains[:, 0]))
    start = np.broadcast_to(np.asarray(given, dtype=np.float64), (count,)) if np.ndim(given) == 0 else np.asarray(given)
    if start.shape != (count,) or not np.all(np.isfinite(start)):
        raise InvalidInput(f"start has {start.shape} temperatures; the network has {count} nodes")
    return np.array(start, dtype=np.float64)


def _account(
    network: HeatNetwork,
    drive: Drive,
    parts: Assembly,
    matrices: Sequence[Sequence[FloatArray]],
    steps: Steps,
    outside: FloatArray,
) -> NetworkRun:
    rooms = len(network.rooms)
    mean = mean_temperatures(parts, matrices, steps, drive.step)
    flows = parts.heat_flows(mean)
    flows["heater"] = steps.heating.sum(axis=0)
    flows["cooler"] = -steps.cooling.sum(axis=0)
    masses = parts.air_masses
    power = sum(
        (steps.total_cooling[row] / unit.coefficient_of_performance for row, unit in enumerate(network.coolers)),
        np.zeros(drive.count),
    ) + sum((steps.heating[row] / unit.efficiency for row, unit in enumerate(network.heaters)), np.zeros(drive.count))
    water_flows = {
        "ventilation": parts.water_exchange(steps.humidity_ratio[:, 1:], outside),
        "people": sum((np.asarray(values) for values in drive.vapour.values()), np.zeros(drive.count)),
        "condensate": -steps.condensate.sum(axis=0),
    }
    return NetworkRun(
        drive.step,
        tuple(room.name for room in network.rooms),
        steps.temperature,
        relative_humidity_of(steps.temperature[:rooms], steps.humidity_ratio),
        steps.humidity_ratio,
        flows,
        parts.capacities @ np.diff(steps.temperature, axis=1),
        water_flows,
        masses @ np.diff(steps.humidity_ratio, axis=1),
        steps.heating,
        steps.cooling,
        steps.latent_cooling,
        power,
        steps.condensate,
    )


def settled_day(network: HeatNetwork, drive: Drive, start_relative_humidity: float | None = None) -> NetworkRun:
    """The same day over and over until it starts as it ended.

    Parameters
    ----------
    network : HeatNetwork
        Rooms, envelopes, heaters and coolers.
    drive : Drive
        One day.
    start_relative_humidity : float, optional
        Relative humidity of the rooms at the start [-].

    Returns
    -------
    NetworkRun
        The settled day [°C, W].

    Raises
    ------
    InvalidInput
        If the day does not settle within 60 days.

    References
    ----------
    .. [1] ISO 13792:2012, design day until it repeats.

    Examples
    --------
    >>> from hushwright.physics.thermal.rooms import Envelope, RoomNode
    >>> shell = Envelope("shell", "quiet room", "outside", 20.0, 0.04, 4e3, 1.5, 15e3, 0.13)
    >>> day = Drive(300.0, {"outside": design_day_temperature(32.0, 12.0, 300.0)}, np.full(288, 0.5))
    >>> run = settled_day(HeatNetwork((RoomNode("quiet room", 6.5),), (shell,)), day)
    >>> bool(abs(run.room("quiet room")[0] - run.room("quiet room")[-1]) < 0.01)
    True
    """
    start: Sequence[float] | None = None
    for _ in range(_MOST_DAYS):
        run = run_network(network, drive, start, start_relative_humidity)
        if float(np.max(np.abs(run.temperature[:, -1] - run.temperature[:, 0]))) < _SETTLED:
            return run
        start = [float(value) for value in run.temperature[:, -1]]
    apart = float(np.max(np.abs(run.temperature[:, -1] - run.temperature[:, 0])))
    raise InvalidInput(f"after {_MOST_DAYS} days the day still ends {apart:.2f} K from where it started")


def minutes_until_too_warm(
    network: HeatNetwork, drive: Drive, room: str, limit: float, start_temperature: float | Sequence[float]
) -> float:
    """How long a room stays below a temperature while every cooler is silent.

    Parameters
    ----------
    network : HeatNetwork
        Rooms, envelopes, heaters and coolers; the coolers do not run.
    drive : Drive
        What acts on them from the start of the take on; steps of a minute or less.
    room : str
        Room that is judged.
    limit : float
        Highest temperature [°C].
    start_temperature : float or sequence of floats, length n_node
        Temperature of everything, or of each node, when the cooler stops [°C].

    Returns
    -------
    float
        Time until the limit [min]; infinite when it is not reached within the drive.

    Raises
    ------
    InvalidInput
        If the room is unknown or the steps are longer than a minute.

    References
    ----------
    .. [1] ISO 52016-1:2017 (network); the question is ours.

    Examples
    --------
    >>> from hushwright.physics.thermal.rooms import Envelope, RoomNode
    >>> shell = Envelope("shell", "quiet room", "outside", 20.0, 0.04, 4e3, 1.5, 15e3, 0.13)
    >>> take = Drive(60.0, {"outside": np.full(240, 30.0)}, np.full(240, 0.5),
    ...              gains={("quiet room", "people"): np.full(240, 300.0)})
    >>> box = HeatNetwork((RoomNode("quiet room", 6.5),), (shell,))
    >>> 0.0 < minutes_until_too_warm(box, take, "quiet room", 28.0, 24.0) < 240.0
    True
    """
    if drive.step > 60.0:
        raise InvalidInput(f"step is {drive.step} s; minutes until too warm need steps of 60 s or less")
    run = run_network(replace(network, coolers=()), replace(drive, cooler_allowed={}), start_temperature)
    temperatures = run.room(room)
    above = np.flatnonzero(temperatures >= limit)
    if above.size == 0:
        return math.inf
    first = int(above[0])
    if first == 0:
        return 0.0
    low, high = temperatures[first - 1], temperatures[first]
    return float((first - 1 + (limit - low) / (high - low)) * drive.step / 60.0)


# Hours 1 to 24 of solar time; ASHRAE Handbook, Fundamentals, 2009, ch. 14, share of the daily range (memory).
_RANGE_SHARE = (
    *(0.88, 0.92, 0.95, 0.98, 1.00, 0.98, 0.91, 0.74, 0.55, 0.38, 0.23, 0.13),
    *(0.05, 0.00, 0.00, 0.06, 0.14, 0.24, 0.39, 0.50, 0.59, 0.68, 0.75, 0.82),
)


def design_day_temperature(highest_temperature: float, daily_range: float, step: float) -> FloatArray:
    """Air temperature through a design day, by solar time from midnight.

    Parameters
    ----------
    highest_temperature : float
        Highest temperature of the day [°C].
    daily_range : float
        Difference of the highest and the lowest temperature [K]; zero for a steady winter day.
    step : float
        Length of a step [s].

    Returns
    -------
    ndarray, shape (n_step,)
        Temperature in the middle of each step [°C].

    Raises
    ------
    InvalidInput
        If the range is below zero or the step does not divide the day.

    References
    ----------
    .. [1] ASHRAE Handbook, Fundamentals, 2009, ch. 14, table of daily range (memory).

    Examples
    --------
    >>> day = design_day_temperature(32.0, 12.0, 3600.0)
    >>> round(float(day.max()), 1), round(float(day.min()), 1)
    (32.0, 20.1)
    """
    count = 86_400.0 / step if step > 0.0 else 0.5
    if abs(count - round(count)) > 1e-9 or daily_range < 0.0:
        raise InvalidInput(f"step {step} s must divide the day and the range {daily_range} K must be 0 or more")
    hours = (np.arange(round(count)) + 0.5) * step / 3600.0
    shares = np.interp(hours, np.arange(25), (_RANGE_SHARE[-1], *_RANGE_SHARE))
    return np.asarray(highest_temperature - daily_range * shares)
