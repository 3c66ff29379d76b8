"""Columns of the timeline: each maker gives what its domain knows over the session, or says why it knows nothing.

A domain adds its own by a function in :data:`MAKERS`.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from hushwright.evaluation.results import SILENCE, Evaluation
from hushwright.report.labels import label
from hushwright.report.units_out import bare_number, unit_of
from hushwright.units import System

STEP: Final = 60.0
"""s, steps of the timeline."""

THE_VAN: Final = "the van"
"""Part of columns that belong to no room."""


@dataclass(frozen=True, slots=True)
class Moments:
    """Times [s] from the begin of the session, each with its state, and the phases (state, begin, end)."""

    times: tuple[float, ...]
    states: tuple[str, ...]
    phases: tuple[tuple[str, float, float], ...]

    def by_state(self, values: dict[str, float]) -> tuple[float | None, ...]:
        """Value of each moment's state; nothing for states that are not there."""
        return tuple(values.get(state) for state in self.states)

    def between(self, times: Sequence[float], values: Sequence[float]) -> tuple[float | None, ...]:
        """Values at other times, straight between their points; nothing outside them."""
        return tuple(_straight(time, times, values) for time in self.times)

    def held(self, times: Sequence[float], values: Sequence[float]) -> tuple[float | None, ...]:
        """Values that hold from each point to the next; the last moment closes the step before it."""
        found: list[float | None] = []
        for time in self.times:
            at = (bisect_left if time == self.times[-1] else bisect_right)(times, time) - 1
            found.append(values[at] if at >= 0 and time <= times[-1] else None)
        return tuple(found)


@dataclass(frozen=True, slots=True)
class Column:
    """One quantity over the session, in the units of the output; columns of one chart share its name."""

    part: str  # room, or THE_VAN
    name: str
    unit: str
    values: tuple[float | None, ...]
    digits: int = 0
    chart: str = ""


@dataclass(frozen=True, slots=True)
class NotComputed:
    """What a maker has no column for, and why."""

    what: str
    why: str


Maker = Callable[[Evaluation, Moments, System], Iterable["Column | NotComputed"]]


def moments_of(evaluation: Evaluation) -> Moments | None:
    """Moments of the session; `None` where there is none."""
    known = {state.name for state in evaluation.build.states}
    phases: list[tuple[str, float, float]] = []
    end = 0.0
    for phase in evaluation.build.air.session:
        if phase.state in known and phase.duration > 0.0:
            phases.append((phase.state, end, end + phase.duration))
            end += phase.duration
    if not phases:
        return None
    times = sorted({*(step * STEP for step in range(int(end / STEP) + 1)), *(begin for _, begin, _ in phases), end})
    begins = [begin for _, begin, _ in phases]
    states = tuple(phases[bisect_right(begins, time) - 1][0] for time in times)
    return Moments(tuple(times), states, tuple(phases))


def columns_of(
    evaluation: Evaluation, moments: Moments, system: System
) -> tuple[tuple[Column, ...], tuple[NotComputed, ...]]:
    """All columns, and what is not computed."""
    found = [each for maker in MAKERS for each in maker(evaluation, moments, system)]
    columns = tuple(each for each in found if isinstance(each, Column))
    return columns, tuple(each for each in found if isinstance(each, NotComputed))


def _straight(time: float, times: Sequence[float], values: Sequence[float]) -> float | None:
    if not times or not times[0] <= time <= times[-1]:
        return None
    index = min(bisect_right(times, time), len(times) - 1)
    if index == 0:
        return values[0]
    before, after = times[index - 1], times[index]
    share = (time - before) / (after - before) if after > before else 1.0
    return values[index - 1] + share * (values[index] - values[index - 1])


def _people(evaluation: Evaluation, moments: Moments, _system: System) -> Iterable[Column]:
    for room in evaluation.build.rooms:
        counts = {state.name: float(state.people_in(room.name)) for state in evaluation.build.states}
        yield Column(room.name, label("people"), "", moments.by_state(counts))


def _air(evaluation: Evaluation, moments: Moments, _system: System) -> Iterable[Column | NotComputed]:
    session = evaluation.air.session
    if session is None:
        yield NotComputed(f"{label('carbon_dioxide')}, {label('humidity')}", "the file names no room")
        return
    for index, room in enumerate(session.rooms):
        gas = [1e6 * row[index] for row in session.carbon_dioxide]
        damp = [100.0 * row[index] for row in session.humidity]
        yield Column(room, label("carbon_dioxide"), "ppm", moments.between(session.times, gas),
                     chart=label("carbon_dioxide"))  # fmt: skip
        yield Column(room, label("humidity"), "%", moments.between(session.times, damp), chart=label("humidity"))


def _heat(evaluation: Evaluation, moments: Moments, system: System) -> Iterable[Column | NotComputed]:
    """Air temperature of each room on each day; the days' clock is turned to that of the session."""
    climate = evaluation.build.climate
    if climate is None or not evaluation.heat.days:
        why = "the file has no `climate`" if climate is None else "`climate` names no hottest and no coldest day"
        yield NotComputed(label("temperature"), why)
        return
    unit = unit_of("temperature", system)
    for day in evaluation.heat.days:
        name = label(f"{day.name}_day")
        clock = [time - climate.session_begins for time in day.times]
        for index, room in enumerate(day.rooms):
            values = moments.between(clock, [row[index] for row in day.temperature])
            shown = tuple(None if each is None else bare_number(each, "temperature", system) for each in values)
            yield Column(room, name, unit, shown, digits=1, chart=f"{label('temperature')}, {name}")


def _background(evaluation: Evaluation, moments: Moments, _system: System) -> Iterable[Column | NotComputed]:
    """Level of each situation and of fans alone, state by state."""
    levels: dict[tuple[str, str], dict[str, float]] = {}
    for one in evaluation.backgrounds:
        level = next((line.value for line in one.lines if line.unit == "dB(A)"), SILENCE)
        levels.setdefault((one.room, one.situation), {})[one.state] = level
    for fan in evaluation.air.sounds:
        levels.setdefault((fan.room, label("fans_alone")), {})[fan.state] = fan.level_a
    if not levels:
        yield NotComputed(label("background"), "the file has no quiet room, no state with takes, or no sound outdoors")
        return
    for (room, situation), by_state in levels.items():
        yield Column(room, situation, "dB(A)", moments.by_state(by_state))


def _power(evaluation: Evaluation, moments: Moments, system: System) -> Iterable[Column | NotComputed]:
    """Charge of the bank, what every source gives and all loads take, on the day on which least is left."""
    course = evaluation.power.course
    if course is None:
        why = "the file has no `power`" if evaluation.build.power is None else "`power` names no bank"
        yield NotComputed(label("charge"), why)
        return
    begins = _session_begins(evaluation, moments)
    clock = [time - begins for time in course.times]
    chart = f"{label('charge')}, {course.case}"
    yield Column(THE_VAN, chart, "%", moments.between(clock, [100.0 * each for each in course.charge]), 1, chart)
    unit = unit_of("power", system)
    for name, values in (*course.sources, (label("taken"), course.demand)):
        yield Column(THE_VAN, name.replace("_", " "), unit, moments.held(clock, values))


def _session_begins(evaluation: Evaluation, moments: Moments) -> float:
    """When the session begins on the clock of the day plan [s]."""
    climate, power = evaluation.build.climate, evaluation.build.power
    if climate is not None or power is None:
        return climate.session_begins if climate is not None else 0.0
    first = moments.phases[0][0]
    return next((phase.begins for phase in power.day if phase.state == first), power.day[0].begins)


MAKERS: Final[tuple[Maker, ...]] = (_people, _air, _heat, _background, _power)
"""Makers of columns in their order, one or more a domain."""
