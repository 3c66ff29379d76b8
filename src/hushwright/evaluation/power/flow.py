"""What loads ask and sources offer step by step, in all cases side by side."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from hushwright.evaluation.power.case import Powered
from hushwright.evaluation.power.loads import taken_in, whens
from hushwright.evaluation.power.weather import Season, air_of, panels_in
from hushwright.evaluation.results.heat import BEFORE
from hushwright.model.power_in_place import ALWAYS, STANDING, ConverterInPlace, ShoreInPlace
from hushwright.physics.electrical.bank import NOMINAL_CELL
from hushwright.physics.electrical.converter import ConverterLoss, loss_by_efficiencies, loss_by_points

Array = NDArray[np.float64]
_DAY = 86_400.0


@dataclass(frozen=True, slots=True, eq=False)
class Grid:
    """Steps of one day from the begin of its plan: time after midnight [s], index in ``whens``."""

    begins: float
    times: Array
    which: NDArray[np.int64]
    whens: tuple[str, ...]

    def when(self, states: tuple[str, ...]) -> NDArray[np.bool_]:
        """Steps in states; `standing` is the rest of the day with the time before the session, `always` all of it."""
        if ALWAYS in states:
            return np.ones(self.times.size, dtype=np.bool_)
        wanted = {*states, BEFORE} if STANDING in states else set(states)
        return np.array([name in wanted for name in self.whens])[self.which]

    def since_midnight(self, step: float) -> NDArray[np.int64]:
        """Number of each step as counted from midnight."""
        return np.asarray(self.times / step, dtype=np.int64)


def grid_of(case: Powered) -> Grid:
    """Steps of one day of the plan.

    Parameters
    ----------
    case : Powered
        Plan, and when heater and cooler are switched on before the session.

    Returns
    -------
    Grid
        From the first phase on, or from the time before the session when that is earlier.
    """
    names = whens(case)
    early = _warm_up(case)
    first = min([phase.begins for phase in case.power.day] + ([early[0]] if early else []))
    begins = math.floor(first / case.step) * case.step
    times = np.asarray((begins + (np.arange(round(_DAY / case.step)) + 0.5) * case.step) % _DAY, dtype=np.float64)
    which = np.full(times.size, names.index(STANDING), dtype=np.int64)
    if early:
        which[(times >= early[0]) & (times < early[1])] = names.index(BEFORE)
    for phase in case.power.day:
        which[(times >= phase.begins) & (times < phase.begins + phase.duration)] = names.index(phase.state)
    return Grid(begins, times, which, names)


def _warm_up(case: Powered) -> tuple[float, float] | None:
    """Time before the first phase with people in the rooms in which heater and cooler run."""
    usual = set(case.usual)
    first = next((phase.begins for phase in case.power.day if phase.state in usual), None)
    if first is None or not case.warm_up or not case.duties:
        return None
    return max(first - case.warm_up, 0.0), first


def losses_of(converter: ConverterInPlace) -> ConverterLoss:
    """Losses of the converter over its rating."""
    own = converter.idle / converter.rating
    if converter.curve:
        return loss_by_points(own, converter.curve)
    return loss_by_efficiencies(own, converter.best, converter.full)


@dataclass(frozen=True, slots=True, eq=False)
class Asked:
    """Power over one day; arrays of a row a step and a column a case [W]."""

    loads: dict[str, Array]  # mean power of every load, by name
    direct: Array  # mains power that a feeder gives without the converter
    direct_by: dict[str, Array]  # the same by feeder
    through: Array  # mains power through the converter
    converter_loss: Array
    without: Array  # mains power that nothing gives
    demand: Array  # at the bank's voltage
    offered: dict[str, Array] = field(default_factory=dict)  # at the bank's voltage, by source
    efficiency: dict[str, float] = field(default_factory=dict)
    temperature: Array = field(default_factory=lambda: np.zeros(0))  # of the cells [°C]


def asked_of(case: Powered, grid: Grid, seasons: tuple[Season, ...], *, fed: bool) -> Asked:
    """What loads ask and sources offer over one day in every case.

    Parameters
    ----------
    case : Powered
        Loads and sources.
    grid : Grid
        Steps of the day.
    seasons : tuple of Season
        Cases.
    fed : bool
        Whether shore and generator are plugged in as planned.

    Returns
    -------
    Asked
        Powers.
    """
    loads, apparent = _loads(case, grid, seasons)
    nothing = np.zeros((grid.times.size, len(seasons)))
    mains = sum((loads[each.name] for each in case.power.loads if each.side == "ac"), nothing)
    direct_by: dict[str, Array] = {}
    charging: dict[str, Array] = {}
    fed_now = np.zeros(mains.shape, dtype=np.bool_)
    if fed:
        direct_by, charging, fed_now = _feeders(case, grid, mains, apparent)
    direct = sum(direct_by.values(), nothing)
    rest = np.where(fed_now, 0.0, mains)
    through, lost = _converted(case, grid, rest, fed_now)
    demand = through + lost + sum((loads[each.name] for each in case.power.loads if each.side == "dc"), nothing)
    own = 0.0 if case.power.bank is None else case.power.bank.own_draw
    offered, efficiency = _offered(case, grid, seasons)
    offered.update(charging)
    return Asked(loads, direct, direct_by, through, lost, rest - through, demand + own, offered, efficiency,
                 _cells(case, grid, seasons))  # fmt: skip


def _loads(case: Powered, grid: Grid, seasons: tuple[Season, ...]) -> tuple[dict[str, Array], Array]:
    """Mean power of every load, and the apparent power of all on the mains side."""
    shape = (len(grid.whens), len(seasons), len(case.power.loads))
    means = [each.mean for when in grid.whens for season in seasons for each in taken_in(case, when, season)]
    table = np.array(means, dtype=np.float64).reshape(shape)
    found = {load.name: table[:, :, index][grid.which] for index, load in enumerate(case.power.loads)}
    apparent = np.zeros((grid.times.size, len(seasons)))
    for load in case.power.loads:
        if load.side == "ac":
            apparent += found[load.name] / load.power_factor
    return found, apparent


def _feeders(
    case: Powered, grid: Grid, mains: Array, apparent: Array
) -> tuple[dict[str, Array], dict[str, Array], NDArray[np.bool_]]:  # fmt: skip
    """Mains power of shore and generators, what their chargers offer [W], and when loads hang on one: the strongest."""
    direct: dict[str, Array] = {}
    charging: dict[str, Array] = {}
    fed = np.zeros(mains.shape, dtype=np.bool_)
    for feeder in sorted(case.power.feeders, key=lambda each: -each.supply):
        here = grid.when(feeder.in_states)[:, np.newaxis]
        carries = here & ~fed & (apparent <= feeder.supply)
        direct[feeder.name] = np.where(carries, mains, 0.0)
        left = np.where(here, feeder.supply - np.where(carries, apparent, 0.0), 0.0)
        charging[feeder.name] = np.minimum(charger_power(case, feeder.current) * here, left * feeder.efficiency)
        fed |= carries
    return direct, charging, fed


def charger_power(case: Powered, current: float) -> float:
    """Power of a charger's current at the bank's nominal voltage [W]."""
    return 0.0 if case.power.bank is None else current * case.power.bank.cells * NOMINAL_CELL


def _converted(case: Powered, grid: Grid, rest: Array, fed: NDArray[np.bool_]) -> tuple[Array, Array]:
    """Mains power through the converter and what it loses [W]."""
    converter = case.power.converter
    if converter is None:
        return np.zeros(rest.shape), np.zeros(rest.shape)
    through = np.minimum(rest, converter.rating)
    standing = {STANDING, BEFORE}
    planned = {"always": np.ones(grid.times.size, dtype=np.bool_),
               "in use": np.array([name not in standing for name in grid.whens])[grid.which],
               "with loads": np.zeros(grid.times.size, dtype=np.bool_)}[converter.on]  # fmt: skip
    on = ((through > 0.0) | planned[:, np.newaxis]) & ~fed
    lost = losses_of(converter).at(through / converter.rating) * converter.rating
    return through, np.where(on, lost, 0.0)


def _offered(
    case: Powered, grid: Grid, seasons: tuple[Season, ...]
) -> tuple[dict[str, Array], dict[str, float]]:  # fmt: skip
    """What sun and engine offer at the bank's voltage [W], and the efficiency of their chargers."""
    found: dict[str, Array] = {}
    order = grid.since_midnight(case.step)
    for solar in case.power.solar:
        here = grid.when(solar.in_states or (ALWAYS,))
        assert case.weather is not None
        over_day = [panels_in(solar, season, case.weather, case.step)[order] for season in seasons]
        found[solar.name] = np.stack(over_day, axis=1) * here[:, np.newaxis] * solar.efficiency
    for alternator in case.power.alternators:
        here = grid.when(alternator.in_states)
        power = np.where(here, charger_power(case, alternator.current), 0.0)
        found[alternator.name] = np.repeat(power[:, np.newaxis], len(seasons), axis=1)
    efficiency = {each.name: each.efficiency for each in case.power.sources}
    return found, efficiency


def _cells(case: Powered, grid: Grid, seasons: tuple[Season, ...]) -> Array:
    """Temperature of the cells [°C]: as typed, else that of the air outdoors."""
    bank = case.power.bank
    if bank is not None and bank.temperature is not None:
        return np.full((grid.times.size, len(seasons)), bank.temperature)
    order = grid.since_midnight(case.step)
    return np.stack([air_of(season, case.step)[order] for season in seasons], axis=1)


def kind_of(case: Powered, name: str) -> str:
    """Kind of a source by name."""
    source = next(each for each in case.power.sources if each.name == name)
    if isinstance(source, ShoreInPlace):
        return source.kind
    return "alternator" if source in case.power.alternators else "solar"
