"""What every load takes in each state of the day plan, and what runs at once."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from hushwright.evaluation.power.case import Powered
from hushwright.evaluation.power.weather import Season
from hushwright.evaluation.results.heat import BEFORE
from hushwright.model.power_in_place import ALWAYS, STANDING, LoadOnBank
from hushwright.model.power_loads import COOLER, EQUIPMENT, FANS, HEATER, LIGHTS, parts_of

OWN = "own draw of the bank"
_RUNS = 1.0
"""W of mean power from which heater or cooler counts as running in a state."""


@dataclass(frozen=True, slots=True)
class Taken:
    """A load in one state of one case: mean power and power while it runs, its start [W]."""

    load: LoadOnBank
    mean: float
    running: float

    @property
    def start(self) -> float:
        """What its start adds to its running power [W]."""
        return max(self.load.surge - self.running, 0.0) if self.running > 0.0 else 0.0


def whens(case: Powered) -> tuple[str, ...]:
    """States of the day plan, the time before the session, and the rest of the day."""
    return (*dict.fromkeys(phase.state for phase in case.power.day), BEFORE, STANDING)


@lru_cache(maxsize=4096)
def taken_in(case: Powered, when: str, season: Season) -> tuple[Taken, ...]:
    """Every load at one time of the day.

    Parameters
    ----------
    case : Powered
        Loads and what air and heat say.
    when : str
        A state, the time before the session, or the rest of the day.
    season : Season
        The case, for heater and cooler.

    Returns
    -------
    tuple of Taken
        In the order of the loads.
    """
    return tuple(_taken(case, load, when, season) for load in case.power.loads)


def _taken(case: Powered, load: LoadOnBank, when: str, season: Season) -> Taken:
    what = load.of[0]
    if what in (COOLER, HEATER):
        mean, running = _unit(case, load, when, season)
        return Taken(load, mean * load.duty, running)
    if when == BEFORE:
        return Taken(load, 0.0, 0.0)
    here = when in load.states or ALWAYS in load.states
    if load.power or not what:
        return Taken(load, load.power * load.duty, load.power) if here else Taken(load, 0.0, 0.0)
    if load.states and not here:
        return Taken(load, 0.0, 0.0)
    if what == FANS:
        power = dict(case.fans).get(when, 0.0)
        return Taken(load, power * load.duty, power)
    power = _rest(case, load, when)
    return Taken(load, power * load.duty, power)


def _rest(case: Powered, load: LoadOnBank, when: str) -> float:
    """Lamps or gear of the heat less the loads that are parts of them [W]."""
    assert load.of[0] in (LIGHTS, EQUIPMENT)
    whole = sum(getattr(each, load.of[0]) for each in case.lamps
                if each.room == load.of[1] and when in (each.states or case.usual))  # fmt: skip
    return max(float(whole) - parts_of(case.power.loads, load.of, when), 0.0)


def _unit(case: Powered, load: LoadOnBank, when: str, season: Season) -> tuple[float, float]:
    """Mean and greatest power of a heater or cooler [W], between the coldest and the hottest day by warmth."""
    if load.states and when not in load.states and ALWAYS not in load.states and when != BEFORE:
        return 0.0, 0.0
    rating, runs_in = next((power, states) for kind, room, power, states in case.ratings if (kind, room) == load.of)
    hot, cold = (_drawn(case, load.of, day, when, runs_in) for day in ("hottest", "coldest"))
    if hot is None and cold is None:
        return 0.0, 0.0
    warm = hot if hot is not None else cold
    cool = cold if cold is not None else hot
    assert warm is not None
    assert cool is not None
    mean = season.warmth * warm + (1.0 - season.warmth) * cool
    return mean, rating if max(warm, cool) >= _RUNS else 0.0


def _drawn(case: Powered, key: tuple[str, str], day: str, when: str, runs_in: tuple[str, ...]) -> float | None:
    """Mean power on one design day [W]; of states that the session leaves out the mean of those it has."""
    units = [unit for name, unit in case.duties if name == day and (unit.kind, unit.room) == key]
    draws = dict(units[0].draws) if units else None
    if draws is None:
        return None
    if when in draws:
        return draws[when]
    if when not in case.usual or (runs_in and when not in runs_in):
        return 0.0
    known = [power for state, power in draws.items() if state != BEFORE and (not runs_in or state in runs_in)]
    return sum(known) / len(known) if known else 0.0
