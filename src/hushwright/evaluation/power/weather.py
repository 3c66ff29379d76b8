"""Cases of a year: twelve months, the hottest and the coldest day, each with its air and its sun."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import cast

import numpy as np
from numpy.typing import NDArray

from hushwright.document.schema.climate import MONTHS
from hushwright.evaluation.guard import at
from hushwright.evaluation.heat.weather import STEP as DAY_STEP
from hushwright.evaluation.heat.weather import sun_on
from hushwright.evaluation.power.case import Weathered
from hushwright.model.climate_in_place import DayInPlace
from hushwright.model.power_in_place import SolarInPlace
from hushwright.physics.electrical.panels import Mounting, cell_temperature, panel_power
from hushwright.physics.thermal.exposure import surface_irradiance
from hushwright.physics.thermal.mean_day import (
    MEAN_DAYS,
    daily_extraterrestrial,
    mean_day_irradiance,
    sun_of_mean_day,
)
from hushwright.physics.thermal.network import design_day_temperature

Array = NDArray[np.float64]

HOTTEST, COLDEST = "hottest day", "coldest day"
ANY_DAY = "a day"
"""Case of a build whose file names no weather."""

_DAY = 86_400.0
_RANGE = 8.0
"""K between the coldest and the warmest hour of a mean day where no design day says it; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Season:
    """One case: month from 0 on, or a design day; how warm it is between the coldest (0) and the hottest day (1)."""

    name: str
    month: int | None
    day: DayInPlace | None
    warmth: float
    mean: float  # °C
    daily_range: float  # K


@lru_cache(maxsize=64)
def seasons_of(weather: Weathered | None, outdoors: float) -> tuple[Season, ...]:
    """Every case of a year.

    Parameters
    ----------
    weather : Weathered or None
        Design days and year of the climate.
    outdoors : float
        Air temperature where there is none [°C].

    Returns
    -------
    tuple of Season
        January to December and the design days; one case where the file names no weather.
    """
    if weather is None:
        return (Season(ANY_DAY, None, None, 1.0, outdoors, 0.0),)
    days = {name: day for name, day in ((HOTTEST, weather.day("hottest")), (COLDEST, weather.day("coldest"))) if day}
    means = {name: (day.highest + day.lowest) / 2.0 for name, day in days.items()}
    ranges = {name: day.highest - day.lowest for name, day in days.items()}
    cold, warm = means.get(COLDEST, outdoors), means.get(HOTTEST, outdoors)
    low, high = (cold, warm) if weather.year is None else (weather.year.coldest, weather.year.warmest)
    found = []
    for month, name in enumerate(MONTHS):
        turn = month if weather.stands.latitude >= 0.0 else (month + 6) % 12
        mean = (low + high) / 2.0 - (high - low) / 2.0 * math.cos(2.0 * math.pi * turn / 12.0)
        warmth = 1.0 if len(days) < 2 or warm <= cold else min(max((mean - cold) / (warm - cold), 0.0), 1.0)
        swing = warmth * ranges.get(HOTTEST, _RANGE) + (1.0 - warmth) * ranges.get(COLDEST, _RANGE)
        found.append(Season(name, month, None, warmth, mean, swing))
    return (*found, *(Season(name, None, day, float(name == HOTTEST), means[name], ranges[name])
                      for name, day in days.items()))  # fmt: skip


def air_of(season: Season, step: float) -> Array:
    """Air temperature over the day [°C], by the sun from midnight."""
    return design_day_temperature(season.mean + season.daily_range / 2.0, season.daily_range, step)


def panels_in(solar: SolarInPlace, season: Season, weather: Weathered, step: float) -> Array:
    """Power of panels over the day before their charger [W], by the sun from midnight.

    Parameters
    ----------
    solar : SolarInPlace
        The panels.
    season : Season
        The case.
    weather : Weathered
        Where the van stands.
    step : float
        Length of a step [s].

    Returns
    -------
    ndarray
        Power in every step.
    """
    with at(solar.place):
        light = _light(solar, season, weather, step) * (1.0 - solar.shading)
        cells = cell_temperature(light, air_of(season, step), weather.wind, cast(Mounting, solar.mounted))
        return panel_power(light, cells, solar.power, -solar.coefficient) * (1.0 - solar.losses)


def _light(solar: SolarInPlace, season: Season, weather: Weathered, step: float) -> Array:
    """Irradiance of the plane of the panels without shade [W/m²]."""
    azimuth = (weather.stands.heading + solar.towards) % (2.0 * math.pi)
    times = (np.arange(round(_DAY / step)) + 0.5) * step
    if season.day is not None:
        over_day = sun_on(weather.stands, season.day, solar.tilt, azimuth)
        return np.asarray(over_day[(times / DAY_STEP).astype(int)])
    assert season.month is not None
    latitude, day = weather.stands.latitude, float(MEAN_DAYS[season.month])
    above = daily_extraterrestrial(latitude, day)
    total = solar.sun[season.month] if solar.sun else solar.clearness * above
    sky = mean_day_irradiance(latitude, day, total, times)
    if solar.tilt == 0.0:
        return sky.global_horizontal
    return surface_irradiance(sun_of_mean_day(latitude, day, times), sky, solar.tilt, azimuth, weather.stands.ground)
