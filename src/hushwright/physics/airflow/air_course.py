"""How the air of coupled rooms changes in time: exact for people and flows that change in stages."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hushwright.errors import InvalidInput
from hushwright.physics.airflow._exponential import matrix_exponential
from hushwright.physics.airflow._guard import FloatArray, positive
from hushwright.physics.airflow.room_air import (
    OUTDOOR_CARBON_DIOXIDE,
    AirNetwork,
    _checked,
    _flow_matrices,
)

# 1 000 stuffy and 1 500 stale (common practice, no source); 5 000 over a working day, 30 000 over 15 minutes (ACGIH).
CARBON_DIOXIDE_LIMITS = (1000e-6, 1500e-6, 5000e-6, 30_000e-6)
_STEPS_A_LEVEL = 24  # equal steps before the step is doubled
_NEVER = 1e9  # s, thirty years: what takes longer does not happen
_TIME_CONSTANTS = 60.0  # after so many, nothing moves within double precision


@dataclass(frozen=True, slots=True)
class Stage:
    """A time in which nobody comes or goes and no fan or door is changed.

    Parameters
    ----------
    duration : float
        Duration [s].
    network : AirNetwork
        Rooms and flows; the rooms are the same in all stages.
    sources : tuple of float, one per room
        Gas that each room gains [m³/s].
    """

    duration: float
    network: AirNetwork
    sources: tuple[float, ...]

    def __post_init__(self) -> None:
        positive("duration of a stage", self.duration, "s")
        _checked(self.network, self.sources)


@dataclass(frozen=True, slots=True)
class AirCourse:
    """Fractions in all rooms over time.

    Parameters
    ----------
    rooms : tuple of str
        Names of the rooms.
    times : tuple of float, length n_time
        Times from the start [s]; the first is 0.
    fractions : tuple of tuple of float, shape (n_time, n_room)
        Fraction at each time in each room [-].
    """

    rooms: tuple[str, ...]
    times: tuple[float, ...]
    fractions: tuple[tuple[float, ...], ...]

    def of(self, room: str) -> tuple[float, ...]:
        """Course of one room, as fractions [-].

        Parameters
        ----------
        room : str
            Name of the room.
        """
        if room not in self.rooms:
            raise InvalidInput(f"room is {room!r}; the course has {', '.join(self.rooms)}")
        column = self.rooms.index(room)
        return tuple(row[column] for row in self.fractions)


@dataclass(frozen=True, slots=True)
class GasBalance:
    """Where the gas of all rooms together came from and went, each term from its own integral.

    Parameters
    ----------
    produced : float
        Given off in the rooms [m³].
    brought_in : float
        Came with outdoor air [m³].
    carried_away : float
        Left with the air that went outdoors [m³].
    stored : float
        More in the rooms at the end than at the start [m³].
    """

    produced: float
    brought_in: float
    carried_away: float
    stored: float


def _rates(network: AirNetwork, sources: Sequence[float], outdoor: float) -> tuple[FloatArray, FloatArray]:
    """Return matrix [1/s] and constant [1/s] of dx/dt = A x + b."""
    matrix, inward = _flow_matrices(network)
    volumes = np.array([room.volume for room in network.rooms])
    gains = _checked(network, sources)
    return -matrix / volumes[:, None], (inward * outdoor + gains) / volumes


def _propagator(matrix: FloatArray, constant: FloatArray, duration: float) -> FloatArray:
    """Exact step of (fractions, 1, integrals of the fractions) over a duration."""
    count = len(constant)
    whole = np.zeros((2 * count + 1, 2 * count + 1))
    whole[:count, :count] = matrix
    whole[:count, count] = constant
    whole[count + 1 :, :count] = np.eye(count)
    return matrix_exponential(whole * duration)


def _initial(stages: Sequence[Stage], start: Sequence[float] | None, outdoor: float) -> FloatArray:
    if not stages:
        raise InvalidInput(f"stages are {list(stages)}; a course needs at least one")
    first = stages[0].network
    for stage in stages:
        if stage.network.rooms != first.rooms:
            raise InvalidInput(f"a stage has the rooms {stage.network.names}; the first has {first.names}")
    count = len(first.rooms)
    fractions = np.full(count, outdoor) if start is None else _checked(first, start, "fractions at the start")
    return np.concatenate([fractions, [1.0], np.zeros(count)])


def air_course(
    stages: Sequence[Stage],
    start: Sequence[float] | None = None,
    outdoor: float = OUTDOOR_CARBON_DIOXIDE,
    step: float = 60.0,
) -> AirCourse:
    """Fractions of a gas in coupled rooms through the stages of a session.

    Parameters
    ----------
    stages : sequence of Stage
        What follows on what.
    start : sequence of float, one per room, optional
        Fractions at the start [-]; outdoor air when left out.
    outdoor : float, optional
        Fraction outdoors [-].
    step : float, optional
        Longest time between two printed points [s]. The values at the points do not depend on it.

    Returns
    -------
    AirCourse
        Times [s] and fractions [-]; every change of stage is a point.

    Raises
    ------
    InvalidInput
        If there is no stage, the rooms change, or a number is impossible.

    Notes
    -----
    ``V dx/dt = Σ q_in x_from − Σ q_out x + source`` is linear within a stage; a step is a matrix exponential and
    hence exact, whatever its length.

    References
    ----------
    .. [1] J. Axley, "Multizone airflow modeling in buildings", *HVAC&R Research* 13 (2007) 907-928.
    .. [2] C. Van Loan, "Computing integrals involving the matrix exponential", *IEEE Trans. Autom. Control* 23
       (1978) 395-404.

    Examples
    --------
    Two people in 8 m³ with the fan stopped, after a quarter of an hour, in parts per million:

    >>> from hushwright.physics.airflow.room_air import Room
    >>> stage = Stage(900.0, AirNetwork((Room("quiet", 8.0),)), (2 * 0.0048e-3,))
    >>> round(air_course([stage]).of("quiet")[-1] * 1e6)
    1500
    """
    positive("step", step, "s")
    state = _initial(stages, start, outdoor)
    count = len(stages[0].network.rooms)
    times, rows = [0.0], [state[:count]]
    begin = 0.0
    for stage in stages:
        points = max(1, math.ceil(stage.duration / step - 1e-9))
        advance = _propagator(*_rates(stage.network, stage.sources, outdoor), stage.duration / points)
        for point in range(1, points + 1):
            state = advance @ state
            times.append(begin + stage.duration * point / points)
            rows.append(state[:count])
        begin += stage.duration
    fractions = tuple(tuple(float(value) for value in row) for row in rows)
    return AirCourse(stages[0].network.names, tuple(times), fractions)


def gas_balance(
    stages: Sequence[Stage], start: Sequence[float] | None = None, outdoor: float = OUTDOOR_CARBON_DIOXIDE
) -> GasBalance:
    """Gas produced, brought in, carried away and stored over all stages, no term being the rest of the others.

    Parameters
    ----------
    stages : sequence of Stage
        What follows on what.
    start : sequence of float, one per room, optional
        Fractions at the start [-]; outdoor air when left out.
    outdoor : float, optional
        Fraction outdoors [-].

    Returns
    -------
    GasBalance
        Four volumes of gas [m³]; ``produced + brought_in − carried_away = stored`` but for rounding.

    Raises
    ------
    InvalidInput
        As ``air_course``.

    Notes
    -----
    What is carried away is the flow outdoors times the time integral of the room's fraction, which the matrix
    exponential yields exactly.

    References
    ----------
    .. [1] C. Van Loan, "Computing integrals involving the matrix exponential", *IEEE Trans. Autom. Control* 23
       (1978) 395-404.

    Examples
    --------
    >>> from hushwright.physics.airflow.room_air import Room, exchange
    >>> network = AirNetwork((Room("quiet", 8.0),), exchange("quiet", "outdoors", 0.02))
    >>> balance = gas_balance([Stage(3600.0, network, (1e-5,))])
    >>> round(balance.produced, 4), round(balance.stored, 4)
    (0.036, 0.004)
    """
    state = _initial(stages, start, outdoor)
    count = len(stages[0].network.rooms)
    volumes = np.array([room.volume for room in stages[0].network.rooms])
    begin = state[:count].copy()
    produced = brought = carried = 0.0
    for stage in stages:
        state = np.concatenate([state[: count + 1], np.zeros(count)])
        state = _propagator(*_rates(stage.network, stage.sources, outdoor), stage.duration) @ state
        index = {name: number for number, name in enumerate(stage.network.names)}
        produced += sum(stage.sources) * stage.duration
        for flow in stage.network.flows:
            if flow.source not in index:
                brought += flow.volume_flow_rate * outdoor * stage.duration
            elif flow.target not in index:
                carried += flow.volume_flow_rate * float(state[count + 1 + index[flow.source]])
    stored = float(np.sum(volumes * (state[:count] - begin)))
    return GasBalance(float(produced), float(brought), float(carried), stored)


def _crossing(
    matrix: FloatArray, constant: FloatArray, before: FloatArray, room: int, limit: float, step: float
) -> float:
    """Time within a step at which one room meets a limit that lies between both ends, by guarded Newton."""
    count = len(constant)
    low, high, guess = 0.0, step, 0.5 * step
    rising = before[room] < limit
    for _ in range(60):
        state = _propagator(matrix, constant, guess) @ before
        error = state[room] - limit
        if abs(error) <= 1e-12 * abs(limit):
            break
        low, high = (guess, high) if (error < 0.0) == rising else (low, guess)
        slope = float(matrix[room] @ state[:count] + constant[room])
        newton = guess - error / slope if slope else 0.5 * (low + high)
        guess = newton if low < newton < high else 0.5 * (low + high)
        if high - low < 1e-9 * step:
            break
    return guess


def times_to_reach(
    network: AirNetwork,
    sources: Sequence[float],
    fraction_limits: Sequence[float] = CARBON_DIOXIDE_LIMITS,
    start: Sequence[float] | None = None,
    outdoor: float = OUTDOOR_CARBON_DIOXIDE,
) -> tuple[tuple[float, ...], ...]:
    """When each room first meets each limit while nothing is changed, for instance with the fan stopped.

    Parameters
    ----------
    network : AirNetwork
        Rooms and flows.
    sources : sequence of float, one per room
        Gas that each room gains [m³/s].
    fraction_limits : sequence of float, length n_limit, optional
        Limits as fractions [-]; those of carbon dioxide when left out.
    start : sequence of float, one per room, optional
        Fractions at the start [-]; outdoor air when left out.
    outdoor : float, optional
        Fraction outdoors [-].

    Returns
    -------
    tuple of tuple of float, shape (n_room, n_limit)
        Times [s]; infinite where the limit is not met in thirty years, 0 where the start is at it.

    Raises
    ------
    InvalidInput
        If a number is impossible.

    Notes
    -----
    The exact solution is walked in steps that double, and the step with the crossing is refined. A limit can be met
    from below or, as by oxygen, from above. A room that no air joins fills evenly, ``t = V (x − x0)/source``.

    References
    ----------
    .. [1] J. Axley, "Multizone airflow modeling in buildings", *HVAC&R Research* 13 (2007) 907-928.

    Examples
    --------
    Two people in 8 m³ with the fan stopped, in minutes:

    >>> from hushwright.physics.airflow.room_air import Room
    >>> times = times_to_reach(AirNetwork((Room("quiet", 8.0),)), [2 * 0.0048e-3], [1500e-6, 5000e-6])
    >>> [round(time / 60, 1) for time in times[0]]
    [15.0, 63.6]
    """
    matrix, constant = _rates(network, sources, outdoor)
    levels = _checked_limits(fraction_limits)
    state = _initial([Stage(1.0, network, tuple(float(each) for each in sources))], start, outdoor)
    count = len(constant)
    found = np.where(state[:count, None] == levels[None, :], 0.0, np.inf)
    span, longest = _spans(network, sources, outdoor, levels, state[:count])
    time, step = 0.0, span / (16.0 * _STEPS_A_LEVEL)
    while time < longest and np.any(np.isinf(found)):
        states = _walked(_propagator(matrix, constant, step), state)
        over = states[:, :count, None] - levels
        crossed = (over[:-1] * over[1:] <= 0.0) & (over[:-1] != over[1:])
        for room, column in np.argwhere(crossed.any(axis=0) & np.isinf(found)):
            first = int(np.argmax(crossed[:, room, column]))
            within = _crossing(matrix, constant, states[first], int(room), float(levels[column]), step)
            found[room, column] = time + first * step + within
        time, state = time + _STEPS_A_LEVEL * step, states[-1]
        step *= 2.0
    return tuple(tuple(float(each) for each in row) for row in found)


def _walked(advance: FloatArray, state: FloatArray) -> FloatArray:
    """States at the begin and after each step of a level."""
    states = [state]
    for _ in range(_STEPS_A_LEVEL):
        states.append(advance @ states[-1])
    return np.array(states)


def _checked_limits(limits: Sequence[float]) -> FloatArray:
    values = np.asarray(limits, dtype=np.float64)
    if values.ndim != 1 or values.size == 0 or not np.all(np.isfinite(values) & (values > 0.0)):
        raise InvalidInput(f"limits are {list(limits)}; each must be a finite fraction above zero")
    return values


def _spans(
    network: AirNetwork, sources: Sequence[float], outdoor: float, levels: FloatArray, begin: FloatArray
) -> tuple[float, float]:
    """Return a time in which little happens, and one after which nothing new does."""
    matrix, constant = _rates(network, sources, outdoor)
    rates = np.abs(np.linalg.eigvals(matrix))
    moving = rates[rates > 1e-9 * float(np.max(rates))]
    quickest, slowest = (1.0 / float(np.max(moving)), 1.0 / float(np.min(moving))) if moving.size else (math.inf, 0.0)
    way = float(np.max(np.abs(levels[None, :] - begin[:, None])))
    steepest = float(np.max(np.abs(matrix @ begin + constant)))
    fastest_fill = way / steepest if steepest > 0.0 else math.inf
    # A group of rooms without outdoor air fills for ever: slowest if its whole volume shares the smallest source.
    whole = sum(room.volume for room in network.rooms)
    least = min((abs(each) for each in sources if each), default=0.0)
    filling = 2.0 * whole * way / least if least > 0.0 and moving.size < len(rates) else 0.0
    span = min(quickest, fastest_fill)
    return (1.0, 1.0) if span > _NEVER else (span, min(_NEVER, _TIME_CONSTANTS * slowest + filling))
