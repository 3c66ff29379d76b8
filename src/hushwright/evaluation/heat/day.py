"""The hottest and the coldest day: the session in two rooms with sun, people, gear, air, heater and cooler."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from hushwright.evaluation.guard import at
from hushwright.evaluation.heat.people import Acting
from hushwright.evaluation.heat.walls import Pane
from hushwright.evaluation.heat.weather import STEP, Weather, weather_of
from hushwright.evaluation.results import REPORTED
from hushwright.evaluation.results.heat import BEFORE, HeatDay, InState, SilentCooler, SurfaceDew, UnitDuty
from hushwright.model.climate_in_place import CoolerInPlace, DayInPlace, HeaterInPlace, PlaceOnEarth
from hushwright.physics.thermal.exposure import glass_solar_gain
from hushwright.physics.thermal.humidity import saturation_pressures
from hushwright.physics.thermal.network import NetworkRun, minutes_until_too_warm, run_network
from hushwright.physics.thermal.rooms import Cooler, Drive, Envelope, Heater, HeatNetwork, RoomNode

_SETTLED = 0.05
"""K from one midnight to the next at which the day repeats."""

_MOST_DAYS = 14
_MINUTE = 60.0
_LONGEST_TAKE = 4.0 * 3600.0
"""s, time that a take is followed with the cooler silent."""

_FULL = 0.98
"""Share of its capacity from which a unit counts as full."""

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class DayCase:
    """All that one day depends on, as values."""

    day: DayInPlace
    stands: PlaceOnEarth
    colour: float
    wind: float
    rooms: tuple[RoomNode, ...]
    walls: tuple[Envelope, ...]
    surface_factors: tuple[tuple[str, str, float], ...]  # room, face, of faces towards outdoors
    panes: tuple[Pane, ...]
    acting: tuple[Acting, ...]
    phases: tuple[tuple[str, float, float], ...]
    warm_up: float
    heaters: tuple[HeaterInPlace, ...]
    coolers: tuple[CoolerInPlace, ...]
    warmest: float

    @property
    def network(self) -> HeatNetwork:
        """Rooms, walls and units for the laws."""
        heaters = tuple(Heater(each.room, each.power, each.setpoint, efficiency=each.efficiency)
                        for each in self.heaters)  # fmt: skip
        coolers = tuple(
            Cooler(each.room, each.capacity, each.capacity / each.power_draw, each.setpoint,
                   coil_temperature=each.coil, capacity_slope=each.fades)
            for each in self.coolers
        )  # fmt: skip
        return HeatNetwork(self.rooms, self.walls, heaters, coolers)

    def state_at(self, times: Array) -> list[Acting | None]:
        """What acts at each time; nobody is there before and after the session."""
        by_name = {each.state: each for each in self.acting}
        found: list[Acting | None] = [None] * times.size
        for name, begin, end in self.phases:
            for index in np.flatnonzero((times >= begin) & (times < end)):
                found[int(index)] = by_name[name]
        return found


@lru_cache(maxsize=128)
def day_of(case: DayCase) -> tuple[HeatDay, tuple[SilentCooler, ...]]:
    """One day until it repeats, and how long takes go on with silent coolers.

    Parameters
    ----------
    case : DayCase
        Rooms, walls, weather, session.

    Returns
    -------
    tuple of HeatDay and tuple of SilentCooler
        The latter on the hottest day alone.
    """
    with at(case.day.place):
        weather = weather_of(case.stands, case.day, case.colour, case.wind)
        times = _middles(0.0, weather.outdoors.size, STEP)
        acting = case.state_at(times)
        drive = _drive(case, weather, times, acting, STEP)
        run, settled = _settled(case.network, drive)
        silent = _silent(case, weather, run) if case.day.name == "hottest" else ()
    notes = () if settled else (f"{REPORTED}the day had not settled after {_MOST_DAYS} days; the last is told",)
    return _result(case, weather, run, acting, notes), silent


def _middles(begin: float, count: int, step: float) -> Array:
    """Middles of steps from a time on [s]."""
    return np.asarray(begin + (np.arange(count) + 0.5) * step, dtype=np.float64)


def _settled(network: HeatNetwork, drive: Drive) -> tuple[NetworkRun, bool]:
    """The same day over and over until it starts as it ended."""
    start: Sequence[float] | None = None
    for _ in range(_MOST_DAYS):
        run = run_network(network, drive, start)
        start = [float(value) for value in run.temperature[:, -1]]
        if float(np.max(np.abs(run.temperature[:, -1] - run.temperature[:, 0]))) < _SETTLED:
            return run, True
    return run, False


def _drive(case: DayCase, weather: Weather, times: Array, acting: Sequence[Acting | None], step: float) -> Drive:
    """What acts step by step; ``times`` pick the steps of the day's weather."""
    which = np.minimum((times / STEP).astype(int), weather.outdoors.size - 1)
    gains: dict[tuple[str, str], Array] = {}
    vapour: dict[str, Array] = {}
    flows: dict[tuple[str, str], Array] = {}
    for index, each in enumerate(acting):
        if each is None:
            continue
        for room, kind, heat in each.gains:
            gains.setdefault((room, kind), np.zeros(times.size))[index] = heat
        for room, water in each.vapour:
            vapour.setdefault(room, np.zeros(times.size))[index] = water
        for source, target, flow in each.flows:
            flows.setdefault((source, target), np.zeros(times.size))[index] = flow
    for pane in case.panes:
        sun = glass_solar_gain(weather.irradiance[pane.face][which], pane.area, pane.solar_factor)
        gains[pane.room, "sun"] = gains.get((pane.room, "sun"), np.zeros(times.size)) + sun
    begins = case.phases[0][1] if case.phases else 0.0
    warming = (times >= begins - case.warm_up) & (times < begins)
    coolers, heaters = (
        {each.room: _allowed(acting, warming, each.runs_in, silent=getattr(each, "silent_in_takes", False))
         for each in units}
        for units in (case.coolers, case.heaters)
    )  # fmt: skip
    return Drive(
        step, {name: values[which] for name, values in weather.surroundings.items()}, weather.humidity[which], flows,
        gains, vapour, coolers, heaters,
    )  # fmt: skip


def _allowed(acting: Sequence[Acting | None], warming: NDArray[np.bool_], states: tuple[str, ...], *,
             silent: bool) -> Array:  # fmt: skip
    """Whether a unit may run: before the session, and in its states but for takes in which it is silent."""
    return np.array([
        float(bool(early) if each is None else (not states or each.state in states) and not (silent and each.takes))
        for each, early in zip(acting, warming, strict=True)
    ])  # fmt: skip


def _silent(case: DayCase, weather: Weather, run: NetworkRun) -> tuple[SilentCooler, ...]:
    """How long every take may last from its begin with all coolers silent."""
    if not case.coolers:
        return ()
    by_name = {each.state: each for each in case.acting}
    shortest: dict[tuple[str, str], SilentCooler] = {}
    for name, begin, _ in case.phases:
        acting = by_name[name]
        if not acting.takes:
            continue
        count = int(min(_LONGEST_TAKE, weather.outdoors.size * STEP - begin) / _MINUTE)
        times = _middles(begin, count, _MINUTE)
        drive = _drive(case, weather, times, [acting] * count, _MINUTE)
        start = run.temperature[:, round(begin / STEP)]
        for room, people in acting.people:
            if people:
                minutes = minutes_until_too_warm(case.network, drive, room, case.warmest, [float(t) for t in start])
                time = minutes * _MINUTE if np.isfinite(minutes) else None
                found = SilentCooler(room, name, begin, time, float(start[run.room_names.index(room)]))
                known = shortest.get((room, name))
                if known is None or (time is not None and (known.time is None or time < known.time)):
                    shortest[room, name] = found
    return tuple(shortest.values())


def _result(
    case: DayCase, weather: Weather, run: NetworkRun, acting: Sequence[Acting | None], notes: tuple[str, ...]
) -> HeatDay:
    count = len(run.room_names)
    session = np.array([each is not None for each in acting])
    flows = {name: float(values[session].sum() * STEP) for name, values in run.heat_flows.items()}
    told = tuple(dict.fromkeys(REPORTED + note for each in case.acting for note in each.notes))
    return HeatDay(
        case.day.name,
        run.room_names,
        case.phases,
        tuple(float(time) for time in np.arange(run.temperature.shape[1]) * STEP),
        tuple(float(value) for value in weather.outdoors),
        tuple(tuple(float(value) for value in row) for row in run.temperature[:count].T),
        tuple(tuple(min(float(value), 1.0) for value in row) for row in run.relative_humidity.T),
        _in_states(run, acting, case.acting),
        _duties(case, run, session, acting),
        float(run.electrical_power.sum() * STEP),
        tuple(sorted(flows.items(), key=lambda pair: -abs(pair[1]))),
        _dew(case, weather, run, acting),
        (*notes, *told),
    )


def _in_states(
    run: NetworkRun, acting: Sequence[Acting | None], states: Sequence[Acting]
) -> tuple[InState, ...]:  # fmt: skip
    """Lowest and highest temperature in each room with people that is not aired, at the ends of a state's steps."""
    found = []
    for state in states:
        steps = np.flatnonzero([each is not None and each.state == state.state for each in acting])
        for room, people in state.people:
            if people and steps.size and room not in state.aired:
                values = run.room(room)[steps + 1]
                found.append(InState(room, state.state, float(values.min()), float(values.max())))
    return tuple(found)


def _duties(
    case: DayCase, run: NetworkRun, session: NDArray[np.bool_], acting: Sequence[Acting | None]
) -> tuple[UnitDuty, ...]:  # fmt: skip
    """What each heater and cooler did."""
    when = _when(case, acting)
    found = []
    for row, unit in enumerate(case.heaters):
        heat = run.heating[row]
        found.append(UnitDuty("heater", unit.room, float(heat.sum() * STEP), 0.0,
                              float(heat.sum() * STEP / unit.efficiency), float(heat.max()),
                              _share_full(heat, unit.power, session), 0.0,
                              _means(heat / unit.efficiency, when)))  # fmt: skip
    for row, cooler in enumerate(case.coolers):
        sensible, latent = run.cooling[row], run.latent_cooling[row]
        both = sensible + latent
        found.append(UnitDuty("cooler", cooler.room, float(sensible.sum() * STEP), float(latent.sum() * STEP),
                              float(both.sum() * STEP * cooler.power_draw / cooler.capacity), float(both.max()),
                              _share_full(both, cooler.capacity, session),
                              float(run.condensate[row].sum() * STEP),
                              _means(both * cooler.power_draw / cooler.capacity, when)))  # fmt: skip
    return tuple(found)


def _when(case: DayCase, acting: Sequence[Acting | None]) -> dict[str, NDArray[np.bool_]]:
    """Steps of each state of the session, and those before it."""
    times = _middles(0.0, len(acting), STEP)
    begins = case.phases[0][1] if case.phases else 0.0
    states = {each.state: np.array([one is each for one in acting]) for each in case.acting}
    return {BEFORE: (times >= begins - case.warm_up) & (times < begins), **states}


def _means(power: Array, when: dict[str, NDArray[np.bool_]]) -> tuple[tuple[str, float], ...]:
    """Mean power in each state that has steps."""
    return tuple((name, float(power[steps].mean())) for name, steps in when.items() if steps.any())


def _share_full(power: Array, capacity: float, session: NDArray[np.bool_]) -> float:
    """Share of the session in which a unit gives all it has."""
    during = power[session]
    return float(np.mean(during >= _FULL * capacity)) if during.size else 0.0


def _dew(
    case: DayCase, weather: Weather, run: NetworkRun, acting: Sequence[Acting | None]
) -> tuple[SurfaceDew, ...]:  # fmt: skip
    """Dampest face of each room while people are in it, as if the cold had lasted."""
    found = []
    for index, room in enumerate(run.room_names):
        steps = np.flatnonzero([each is not None and dict(each.people).get(room, 0) > 0 for each in acting])
        faces = [(name, factor) for where, name, factor in case.surface_factors if where == room]
        if not steps.size or not faces:
            continue
        inside, outside = run.temperature[index, steps + 1], weather.outdoors[steps]
        pressure = np.minimum(run.relative_humidity[index, steps + 1], 1.0) * saturation_pressures(inside)
        name, factor = min(faces, key=lambda pair: pair[1])
        surface = outside + factor * (inside - outside)
        damp = pressure / saturation_pressures(surface)
        worst = int(np.argmax(damp))
        found.append(SurfaceDew(room, name, float(damp[worst]), float(surface[worst])))
    return tuple(found)
