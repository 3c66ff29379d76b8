"""All that power depends on, as one value that can be remembered."""

from __future__ import annotations

from dataclasses import dataclass, field

from hushwright.evaluation.heat.weather import STEP
from hushwright.evaluation.results.air import AirResults
from hushwright.evaluation.results.heat import HeatResults, UnitDuty
from hushwright.model.build import Build
from hushwright.model.climate_in_place import DayInPlace, LoadInPlace, PlaceOnEarth, YearInPlace
from hushwright.model.faces import hash_once
from hushwright.model.power_in_place import PowerInPlace

Rating = tuple[str, str, float, tuple[str, ...]]
"""Heater or cooler, its room, greatest power that it takes [W], states in which it may run."""


@dataclass(frozen=True, slots=True)
class Weathered:
    """What the weather does to power."""

    stands: PlaceOnEarth
    wind: float
    days: tuple[DayInPlace, ...]
    year: YearInPlace | None

    def day(self, name: str) -> DayInPlace | None:
        """Hottest or coldest day."""
        return next((each for each in self.days if each.name == name), None)


@dataclass(frozen=True, slots=True)
class Powered:
    """Bank, sources, loads, plan, and what air and heat say of fans, heaters and coolers."""

    power: PowerInPlace
    states: tuple[tuple[str, bool], ...]  # name, whether it is on the road
    fans: tuple[tuple[str, float], ...]  # state, power [W]
    duties: tuple[tuple[str, UnitDuty], ...]  # hottest or coldest, unit
    ratings: tuple[Rating, ...]
    lamps: tuple[LoadInPlace, ...]
    weather: Weathered | None
    begins: float  # s, session of the heat
    warm_up: float  # s
    outdoors: float  # °C, where the file names no weather
    step: float = STEP
    kept_hash: int = field(default=0, init=False, repr=False, compare=False)

    def __hash__(self) -> int:
        return hash_once(self)

    @property
    def usual(self) -> tuple[str, ...]:
        """States of the day plan that are not on the road."""
        road = {name for name, on_the_road in self.states if on_the_road}
        return tuple(dict.fromkeys(phase.state for phase in self.power.day if phase.state not in road))


def powered(build: Build, air: AirResults, heat: HeatResults) -> Powered | None:
    """What power depends on; `None` where the file has no power.

    Parameters
    ----------
    build : Build
        What is there.
    air : AirResults
        Power of the fans.
    heat : HeatResults
        Power of heaters and coolers.

    Returns
    -------
    Powered or None
        Bank, sources, loads, plan and weather.
    """
    if build.power is None:
        return None
    climate = build.climate
    weather: Weathered | None = None
    lamps: tuple[LoadInPlace, ...] = ()
    ratings: tuple[Rating, ...] = ()
    if climate is not None:
        weather = Weathered(climate.stands, climate.wind, climate.days, climate.year)
        lamps = climate.loads
        ratings = (
            *(("cooler", each.room, each.power_draw, each.runs_in) for each in climate.coolers),
            *(("heater", each.room, each.power / each.efficiency, each.runs_in) for each in climate.heaters),
        )
    return Powered(
        build.power,
        tuple((state.name, state.road) for state in build.states),
        tuple((each.state, each.power) for each in air.states),
        tuple((day.name, unit) for day in heat.days for unit in day.units),
        ratings, lamps, weather,
        climate.session_begins if climate is not None else 0.0,
        climate.warm_up if climate is not None else 0.0,
        build.air.outdoor_temperature,
    )  # fmt: skip
