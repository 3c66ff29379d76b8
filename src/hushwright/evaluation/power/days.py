"""The bank over days in all cases at once: how long it lasts, what goes without, who gives, takes and loses."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from hushwright.evaluation.guard import at
from hushwright.evaluation.power.case import Powered
from hushwright.evaluation.power.flow import Asked, Grid, asked_of, grid_of, kind_of
from hushwright.evaluation.power.loads import OWN
from hushwright.evaluation.power.weather import Season, seasons_of
from hushwright.evaluation.results.power import EnergyShare, PowerBalance, PowerCase, PowerCourse
from hushwright.model.power_in_place import STANDING
from hushwright.physics.electrical.bank_run import BankLaw, BankRun, run_bank

Array = NDArray[np.float64]
_DAY = 86_400.0
_NOTHING = 1.0
"""W that nobody goes without."""

_MOST_DAYS = 60
"""Days that are followed at most."""


class Days(NamedTuple):
    """Everything about days."""

    cases: tuple[PowerCase, ...]
    worst: str
    tightest: str
    balance: PowerBalance
    course: PowerCourse
    coldest_cells: float


@dataclass(frozen=True, slots=True, eq=False)
class _Run:
    """Cases side by side: what was asked, what the bank did."""

    asked: Asked
    bank: BankRun
    used: dict[str, Array]  # of every source at the bank's voltage [W]
    short: Array  # power that lacks at the bank's voltage [W]

    @property
    def unmet(self) -> Array:
        """Power that something goes without [W], a row a step over all days."""
        days = len(self.short) // len(self.asked.demand)
        return self.short + np.tile(self.asked.without, (days, 1))


def days_of(case: Powered, law: BankLaw) -> Days:
    """Follow the bank from the begin of the first day on.

    Parameters
    ----------
    case : Powered
        Everything.
    law : BankLaw
        The bank.

    Returns
    -------
    Days
        Every case, and the energies of the tightest one.
    """
    seasons = seasons_of(case.weather, case.outdoors)
    grid = grid_of(case)
    with at("power.bank"):
        alone, planned = _runs(case, law, *(asked_of(case, grid, seasons, fed=fed) for fed in (False, True)))
    lasts = _lasts(alone, _in_use(grid), case.step)
    cases = _cases(case, seasons, planned, lasts)
    used = [each for each in cases if each.used]
    worst = min(used, key=lambda each: math.inf if each.off_grid is None else each.off_grid)
    tightest = max(used, key=lambda each: (each.unmet, -each.lowest_charge))
    column = cases.index(tightest)
    coldest = min(float(planned.asked.temperature[:, index].min()) for index, each in enumerate(cases) if each.used)
    return Days(cases, worst.name, tightest.name, _balance(case, planned, column, tightest.name),
                _course(case, grid, planned, column, tightest.name), coldest)  # fmt: skip


def horizon_of(case: Powered) -> int:
    """Days that are followed to see how long the bank lasts: those that the wanted hours of use take, and one more."""
    wanted = math.ceil(case.power.limits.off_grid / use_a_day(case)) + 1
    return max(case.power.days, min(wanted, _MOST_DAYS))


def use_a_day(case: Powered) -> float:
    """Time in the states of the day plan [s]; the rest of the day the van stands idle."""
    return float(np.count_nonzero(_in_use(grid_of(case)))) * case.step


def _in_use(grid: Grid) -> NDArray[np.bool_]:
    return ~grid.when((STANDING,))


def _runs(case: Powered, law: BankLaw, alone: Asked, planned: Asked) -> tuple[_Run, _Run]:
    """The bank without and with the feeders, side by side in one sweep."""
    bank = case.power.bank
    assert bank is not None
    both, days = (alone, planned) if case.power.feeders else (alone,), horizon_of(case)
    wanted = np.hstack([sum(each.offered.values(), -each.demand) for each in both])
    warm = np.hstack([each.temperature >= bank.coldest_charge for each in both]).astype(np.float64)
    start = np.full(wanted.shape[1], bank.begins)
    run = run_bank(law, start, np.tile(wanted, (days, 1)), np.tile(warm, (days, 1)), case.step)
    size = alone.demand.shape[1]
    last = case.power.days * len(alone.demand)
    return (_shared(alone, _part(run, slice(0, size), days * len(alone.demand)), days),
            _shared(planned, _part(run, slice(-size, None), last), case.power.days))  # fmt: skip


def _part(run: BankRun, columns: slice, count: int) -> BankRun:
    """Some cases of a run, over its first steps."""
    return BankRun(
        run.state_of_charge[: count + 1, columns], run.current[:count, columns], run.power[:count, columns],
        run.resistance_loss[:count, columns], run.charge_loss[:count, columns], run.stored[: count + 1, columns],
    )  # fmt: skip


def _shared(asked: Asked, run: BankRun, days: int) -> _Run:
    """Who gave what: the sun first, then the engine, then shore and generators; and what lacks."""
    offered = sum(asked.offered.values(), np.zeros(asked.demand.shape))
    wanted, given = np.tile(offered - asked.demand, (days, 1)), np.tile(offered, (days, 1))
    short = np.where(wanted < 0.0, np.maximum(run.power - wanted, 0.0), 0.0)
    left = np.where(wanted < 0.0, given, np.tile(asked.demand, (days, 1)) + run.power)
    used = {}
    for name, each in asked.offered.items():
        used[name] = np.minimum(np.tile(each, (days, 1)), left)
        left = left - used[name]
    return _Run(asked, run, used, np.where(short > _NOTHING, short, 0.0))


def _lasts(run: _Run, in_use: NDArray[np.bool_], step: float) -> list[tuple[float, float] | None]:
    """Time of use, and time by the clock, until something goes without power in each case [s].

    The part of the step that still holds counts.
    """
    unmet = run.unmet
    days = len(unmet) // len(run.asked.demand)
    whole = np.tile(run.asked.demand + run.asked.without, (days, 1))
    used = np.tile(in_use, days)
    found: list[tuple[float, float] | None] = []
    for column in range(unmet.shape[1]):
        lacking = np.flatnonzero(unmet[:, column] > 0.0)
        if not lacking.size:
            found.append(None)
            continue
        first = int(lacking[0])
        held = max(1.0 - float(unmet[first, column] / whole[first, column]), 0.0)
        use = float(np.count_nonzero(used[:first])) + held * bool(used[first])
        found.append((step * use, step * (first + held)))
    return found


def _two(lasts: tuple[float, float] | None) -> tuple[float | None, float | None]:
    return (None, None) if lasts is None else lasts


def _cases(
    case: Powered, seasons: tuple[Season, ...], run: _Run, lasts: list[tuple[float, float] | None]
) -> tuple[PowerCase, ...]:  # fmt: skip
    bank = case.power.bank
    assert bank is not None
    months = case.power.limits.months
    sun = sum((run.asked.offered[each.name] for each in case.power.solar), np.zeros(run.asked.demand.shape))
    unmet, cold = run.unmet, run.asked.temperature < bank.coldest_charge
    return tuple(
        PowerCase(
            season.name, season.month is None or season.month in months, *_two(lasts[index]),
            float(run.bank.state_of_charge[:, index].min()), float(unmet[:, index].sum() * case.step),
            float(cold[:, index].mean()), float(sun[:, index].sum() * case.step),
        )
        for index, season in enumerate(seasons)
    )  # fmt: skip


def _balance(case: Powered, run: _Run, column: int, name: str) -> PowerBalance:
    days, asked = case.power.days, run.asked

    def a_day(power: Array) -> float:
        return float(power[:, column].sum() * case.step) / days

    def daily(power: Array) -> float:
        return float(power[:, column].sum() * case.step)

    met = np.tile(asked.demand, (days, 1))
    met = np.where(met > 0.0, 1.0 - run.short / np.maximum(met, _NOTHING), 1.0)
    served = asked.direct + asked.through
    mains = served + asked.without
    share = np.where(mains > 0.0, served / np.maximum(mains, 1e-9), 1.0)
    past = np.where(mains > 0.0, asked.direct / np.maximum(mains, 1e-9), 0.0)
    loads = []
    for load in case.power.loads:
        power = asked.loads[load.name]
        by_bank = power if load.side == "dc" else power * (share - past)
        energy = a_day(np.tile(by_bank, (days, 1)) * met) + (daily(power * past) if load.side == "ac" else 0.0)
        loads.append(EnergyShare(load.name, load.side, energy))
    assert case.power.bank is not None
    own = np.full(met.shape, case.power.bank.own_draw)
    loads.append(EnergyShare(OWN, "dc", a_day(own * met)))
    sources, lost = [], []
    for source, used in run.used.items():
        came = a_day(used) / asked.efficiency[source]
        direct = daily(asked.direct_by[source]) if source in asked.direct_by else 0.0
        sources.append(EnergyShare(source, kind_of(case, source), came + direct))
        lost.append(EnergyShare(f"charger of {source}", "loss", came - a_day(used)))
    lost.append(EnergyShare("converter", "loss", a_day(np.tile(asked.converter_loss, (days, 1)) * met)))
    lost.append(EnergyShare("resistance of the bank", "loss", a_day(run.bank.resistance_loss)))
    lost.append(EnergyShare("charge that does not return", "loss", a_day(run.bank.charge_loss)))
    change = float(run.bank.stored[-1, column] - run.bank.stored[0, column]) / days
    return PowerBalance(name, tuple(sources), tuple(loads), tuple(lost), change)


def _course(case: Powered, grid: Grid, run: _Run, column: int, name: str) -> PowerCourse:
    count = grid.times.size
    times = grid.begins + np.arange(count) * case.step
    direct = run.asked.direct_by
    sources = []
    for source, used in run.used.items():
        power = used[:count, column] + (direct[source][:, column] if source in direct else 0.0)
        sources.append((source, tuple(float(value) for value in power)))
    demand = run.asked.demand[:, column] + run.asked.direct[:, column]
    return PowerCourse(
        name, tuple(float(time) for time in times),
        tuple(float(value) for value in run.bank.state_of_charge[:count, column]), tuple(sources),
        tuple(float(value) for value in demand), tuple(float(value) for value in run.unmet[:count, column]),
    )  # fmt: skip
