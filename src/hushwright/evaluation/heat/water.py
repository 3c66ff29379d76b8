"""Water in build-ups through a year of months, and how damp their surfaces become."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from hushwright.document.schema.climate import MONTHS
from hushwright.evaluation.guard import at
from hushwright.evaluation.heat.layers import ThermalBuildUp
from hushwright.evaluation.results.air import RoomAir
from hushwright.evaluation.results.heat import FaceWater
from hushwright.model.climate_in_place import YearInPlace
from hushwright.physics.thermal.condensation import YearMoisture, yearly_condensation
from hushwright.physics.thermal.humidity import humidity_ratio
from hushwright.physics.thermal.moisture import Climate, Season, saturation_pressure, surface_relative_humidity

_MONTH = 365.0 / 12.0 * 86_400.0
_PRESSURE, _MASS_RATIO = 101_325.0, 0.621945
"""Pa and [-]: air at sea level, water over dry air; ASHRAE Handbook, Fundamentals, ch. 1."""


@dataclass(frozen=True, slots=True)
class DampWall:
    """A wall towards outdoors as the year sees it."""

    name: str
    room: str
    build_up: ThermalBuildUp
    surface_factor: float
    outside_resistance: float
    inside_resistance: float
    place: str


def vapour_excess(air: RoomAir, temperature: float, outdoor_temperature: float, outdoor_humidity: float) -> float:
    """Vapour pressure that people add to a room's air over that outdoors [Pa]."""
    inside = float(humidity_ratio(temperature, air.humidity))
    outside = float(humidity_ratio(outdoor_temperature, outdoor_humidity))
    return max(_pressure(inside) - _pressure(outside), 0.0)


def _pressure(ratio: float) -> float:
    return ratio * _PRESSURE / (_MASS_RATIO + ratio)


@dataclass(frozen=True, slots=True)
class RoomYear:
    """Air of a room over the year: temperature in use [°C], vapour that people add [Pa], coldest day of use [°C]."""

    temperature: float
    excess: float
    coldest_use: float | None


@lru_cache(maxsize=64)
def months_of(year: YearInPlace, room: RoomYear) -> tuple[Season, ...]:
    """Monthly means outdoors and in a room.

    Parameters
    ----------
    year : YearInPlace
        Coldest and warmest month, share of the time in use.
    room : RoomYear
        The room while it is in use.

    Returns
    -------
    tuple of Season
        January to December. Outdoors follows a cosine with its least in January; a room out of use is as outdoors, and
        temperatures and vapour pressures of both times are averaged by their share.
    """
    found = []
    for month in range(len(MONTHS)):
        outside = _outdoors(year, month)
        share = year.in_use if _used(room, outside) else 0.0
        found.append(_season(outside, room, share))
    return tuple(found)


@lru_cache(maxsize=64)
def months_in_use(year: YearInPlace, room: RoomYear) -> tuple[tuple[str, Season], ...]:
    """Months in which the van is used, as if it were so all the time; all of them where it is never cold enough."""
    found = [(MONTHS[month], _outdoors(year, month)) for month in range(len(MONTHS))]
    used = [(name, outside) for name, outside in found if _used(room, outside)]
    return tuple((name, _season(outside, room, 1.0)) for name, outside in used or found)


def _used(room: RoomYear, outside: Climate) -> bool:
    """Whether a month is no colder than the coldest day on which the van is used."""
    return room.coldest_use is None or outside.temperature >= room.coldest_use


def _outdoors(year: YearInPlace, month: int) -> Climate:
    swing = math.cos(2.0 * math.pi * month / len(MONTHS))
    cold = (year.coldest + year.warmest) / 2.0 - (year.warmest - year.coldest) / 2.0 * swing
    damp = (year.humidity_in_cold + year.humidity_in_warmth) / 2.0
    return Climate(cold, damp + (year.humidity_in_cold - year.humidity_in_warmth) / 2.0 * swing)


def _season(outside: Climate, room: RoomYear, share: float) -> Season:
    summer = min(max(20.0 + 0.5 * (outside.temperature - 10.0), 20.0), 25.0)  # EN 15026, annex C (memory)
    warm = max(room.temperature, summer, outside.temperature)
    pressure = min(outside.vapour_pressure + room.excess, saturation_pressure(warm))
    mean = share * warm + (1.0 - share) * outside.temperature
    vapour = share * pressure + (1.0 - share) * outside.vapour_pressure
    return Season(Climate(mean, min(vapour / saturation_pressure(mean), 1.0)), outside, _MONTH)


@lru_cache(maxsize=512)
def water_of(wall: DampWall, months: tuple[Season, ...], used: tuple[tuple[str, Season], ...]) -> FaceWater:
    """Water in one build-up over a year, and the dampest month at its surface.

    Parameters
    ----------
    wall : DampWall
        The wall.
    months : tuple of Season
        Means of each month outdoors and in the room, for the water.
    used : tuple of pairs
        Months in which the van is used, by name, as if it always were: an empty van is as damp as the weather, which
        says nothing about its surfaces.

    Returns
    -------
    FaceWater
        Peak and rest [kg/m²], plane that gets wettest, surface.
    """
    with at(wall.place):
        year = yearly_condensation(wall.build_up.vapour_layers(), months, wall.inside_resistance,
                                   wall.outside_resistance)  # fmt: skip
        damp = [
            (surface_relative_humidity(month.inside, month.outside.temperature, wall.surface_factor), name)
            for name, month in used
        ]  # fmt: skip
    dampest, month_name = max(damp)
    plane = ""
    if year.peak_water > 0.0:
        wettest = max((season.accumulated for season in year.seasons), key=sum)
        plane = _between(wall.build_up, wettest.index(max(wettest)))
    return FaceWater(wall.name, wall.room, year.peak_water, year.water_left, plane, _saturation(year), dampest,
                     month_name, wall.place)  # fmt: skip


def _saturation(year: YearMoisture) -> tuple[float, ...]:
    """Highest vapour pressure over saturation in the planes of a build-up, month by month from January on."""
    found = [0.0] * len(year.seasons)
    for index, season in enumerate(year.seasons):
        pairs = zip(season.vapour_pressure, season.saturation_pressure, strict=True)
        found[(year.first + index) % len(found)] = max(vapour / limit for vapour, limit in pairs)
    return tuple(found)


def _between(build_up: ThermalBuildUp, plane: int) -> str:
    """Names of the layers on both sides of a plane."""
    parts = build_up.bay.parts
    if plane == 0 or plane >= len(parts):
        return "at a surface"
    return f"between {parts[plane - 1].name} and {parts[plane].name}"
