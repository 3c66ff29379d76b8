"""Weather of a design day round the van: air, humidity, what the sun makes of each face."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from hushwright.evaluation.heat.walls import CAB, SUNLIT
from hushwright.model.climate_in_place import DayInPlace, PlaceOnEarth
from hushwright.physics.thermal.conduction import surface_resistances
from hushwright.physics.thermal.exposure import (
    VehicleFace,
    face_orientation,
    sol_air_temperature,
    surface_irradiance,
)
from hushwright.physics.thermal.humidity import humidity_ratio, relative_humidity_of
from hushwright.physics.thermal.network import design_day_temperature
from hushwright.physics.thermal.rooms import OUTSIDE
from hushwright.physics.thermal.sun import (
    SitePosition,
    SkyIrradiance,
    SunPosition,
    clear_sky,
    extraterrestrial_irradiance,
    linke_turbidity,
    split_global,
    sun_position,
)

STEP = 300.0
"""s, steps of the day."""

_FACES: tuple[VehicleFace, ...] = ("roof", "left", "right", "front", "rear")
_START_OF_YEAR = 1_735_689_600.0
"""s, 1 January 2025, universal time: a year of 365 days."""

_DAY = 86_400.0
_SECONDS_PER_TURN = 86_400.0
_OVERCAST = 0.25
"""Share of the clear sky's sun that comes through a closed cover of cloud; common practice, no source."""

_CAB = 0.02
"""K for each W/m² on level ground: a cab behind glass stands about 20 K over the air in full sun; common practice, no
source."""

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Weather:
    """One day in steps: temperatures round the van [°C], humidity outdoors, irradiance of faces [W/m²]."""

    surroundings: Mapping[str, Array]
    humidity: Array
    irradiance: Mapping[str, Array]

    @property
    def outdoors(self) -> Array:
        """Air temperature outdoors [°C]."""
        return self.surroundings[OUTSIDE]


@lru_cache(maxsize=64)
def weather_of(stands: PlaceOnEarth, day: DayInPlace, colour: float, wind: float) -> Weather:
    """Weather of a design day.

    Parameters
    ----------
    stands : PlaceOnEarth
        Where the van stands, and how.
    day : DayInPlace
        The day.
    colour : float
        Share of the sun that the paint takes up.
    wind : float
        Wind along the skin [m/s].

    Returns
    -------
    Weather
        In steps of five minutes from midnight, by the sun.
    """
    air = design_day_temperature(day.highest, day.highest - day.lowest, STEP)
    water = humidity_ratio(day.highest, day.humidity)
    # Colder air cannot hold it: dew falls.
    humidity = np.minimum(relative_humidity_of(air, np.full(air.size, float(water))), 1.0)
    level, faces = _sunlight(stands, day, air.size)
    around = {OUTSIDE: air, CAB: air + _CAB * level}
    for face, irradiance in faces.items():
        tilt = face_orientation(face, 0.0)[0] if day.sky == "clear" else math.pi / 2.0
        coefficient = 1.0 / surface_resistances("horizontal", wind).outside
        around[SUNLIT + face] = sol_air_temperature(air, irradiance, colour, coefficient, tilt)
    shone = {str(face): irradiance for face, irradiance in faces.items()}
    return Weather(MappingProxyType(around), humidity, MappingProxyType(shone))


def sun_on(stands: PlaceOnEarth, day: DayInPlace, tilt: float, azimuth: float) -> Array:
    """Irradiance of a plane on a design day [W/m²], in steps of five minutes from midnight, by the sun.

    Parameters
    ----------
    stands : PlaceOnEarth
        Where the van stands.
    day : DayInPlace
        The day.
    tilt, azimuth : float
        Of the plane [rad].

    Returns
    -------
    ndarray
        Irradiance.
    """
    count = round(_DAY / STEP)
    if day.sky == "no sun":
        return np.zeros(count)
    sun, sky, bright = _sky(stands, day, count)
    return surface_irradiance(sun, sky, tilt, azimuth, stands.ground, bright)


def _sunlight(stands: PlaceOnEarth, day: DayInPlace, count: int) -> tuple[Array, dict[VehicleFace, Array]]:
    """Sun on level ground and on each face; without sun nothing of it is loaded."""
    if day.sky == "no sun":
        return np.zeros(count), {face: np.zeros(count) for face in _FACES}
    sun, sky, bright = _sky(stands, day, count)
    found = {}
    for face in _FACES:
        tilt, azimuth = face_orientation(face, stands.heading)
        found[face] = surface_irradiance(sun, sky, tilt, azimuth, stands.ground, bright)
    return sky.global_horizontal, found


@lru_cache(maxsize=64)
def _sky(stands: PlaceOnEarth, day: DayInPlace, count: int) -> tuple[SunPosition, SkyIrradiance, Array | None]:
    """Where the sun stands on a design day and what it sends."""
    site = SitePosition(stands.latitude, stands.longitude, stands.altitude)
    noon_shift = stands.longitude / (2.0 * math.pi) * _SECONDS_PER_TURN
    time = _START_OF_YEAR + (day.day - 1) * _DAY + (np.arange(count) + 0.5) * STEP - noon_shift
    sun = sun_position(time, site)
    sky: SkyIrradiance = clear_sky(sun, linke_turbidity(time, site), stands.altitude, day.day)
    bright: Array | None = extraterrestrial_irradiance(day.day)
    if day.sky == "overcast":
        sky, bright = split_global(_OVERCAST * sky.global_horizontal, sun, day.day), None
    return sun, sky, bright
