"""Where the sun stands and what sun and sky send to the ground."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.thermal._guard import FloatArray, between, finite_array

SOLAR_CONSTANT = 1366.1
"""Irradiance above the air at the mean distance of the sun [W/m²], ASTM E490."""

_YEAR = 365.2425 * 86_400.0  # s
_FIRST_TIME, _LAST_TIME = (
    -631_152_000.0,
    2_524_608_000.0,
)  # s, 1950 to 2050: years for which the almanac's terms are given
_NOON_OF_2000 = 946_728_000.0  # s, 1 January 2000 at noon, universal time
_DAY = 86_400.0  # s
_ON_THE_LINE = 1e-6  # cells, less than which a place is on the line between two
_RADIUS_OF_SUN = 0.26667  # degrees
_REFRACTION_AT_HORIZON = 0.5667  # degrees, usual value


@dataclass(frozen=True, slots=True)
class SitePosition:
    """Where the van stands.

    Parameters
    ----------
    latitude : float
        Latitude, north positive [rad].
    longitude : float
        Longitude, east positive [rad].
    altitude : float, optional
        Height above the sea [m].

    Raises
    ------
    InvalidInput
        If it is not on the earth.

    References
    ----------
    .. [1] ISO 6709:2022.

    Examples
    --------
    >>> round(SitePosition(math.radians(54.0), math.radians(10.0)).latitude, 3)
    0.942
    """

    latitude: float
    longitude: float
    altitude: float = 0.0

    def __post_init__(self) -> None:
        between("latitude", self.latitude, -math.pi / 2, math.pi / 2, "rad")
        between("longitude", self.longitude, -math.pi, math.pi, "rad")
        between("altitude", self.altitude, -450.0, 9000.0, "m")


@dataclass(frozen=True, slots=True, eq=False)
class SunPosition:
    """Where the sun stands at given times.

    Parameters
    ----------
    zenith_angle : ndarray, shape (n_time,)
        Angle from straight up, with refraction [rad].
    azimuth : ndarray, shape (n_time,)
        Compass direction, clockwise from north [rad].

    References
    ----------
    .. [1] J. J. Michalsky, *Solar Energy* 40 (1988), 227-235.

    Examples
    --------
    >>> SunPosition(np.array([0.5]), np.array([3.1])).zenith_angle.tolist()
    [0.5]
    """

    zenith_angle: FloatArray
    azimuth: FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class SkyIrradiance:
    """What sun and sky send to the ground.

    Parameters
    ----------
    global_horizontal : ndarray, shape (n_time,)
        On level ground [W/m²].
    direct_normal : ndarray, shape (n_time,)
        Beam, square to the sun [W/m²].
    diffuse_horizontal : ndarray, shape (n_time,)
        From the sky on level ground [W/m²].

    References
    ----------
    .. [1] ISO 9488:2022.

    Examples
    --------
    >>> SkyIrradiance(np.array([800.0]), np.array([850.0]), np.array([90.0])).direct_normal.tolist()
    [850.0]
    """

    global_horizontal: FloatArray
    direct_normal: FloatArray
    diffuse_horizontal: FloatArray


def sun_position(
    time: ArrayLike, site: SitePosition, pressure: float = 101_325.0, temperature: float = 12.0
) -> SunPosition:
    """Position of the sun.

    Parameters
    ----------
    time : array_like, shape (n_time,)
        Seconds since the start of 1970, universal time [s].
    site : SitePosition
        Place.
    pressure : float, optional
        Air pressure, for refraction [Pa].
    temperature : float, optional
        Air temperature, for refraction [°C].

    Returns
    -------
    SunPosition
        Zenith angle and azimuth [rad].

    Raises
    ------
    InvalidInput
        If a time is not a finite number, or lies outside 1950 to 2050.

    Notes
    -----
    The almanac's approximate position: mean longitude and anomaly, two terms of the equation of the centre, obliquity;
    good to 0.01° from 1950 to 2050 [1]_. Refraction after Saemundsson [2]_ (ch. 16), scaled by pressure and
    temperature, as long as the upper edge of the sun is seen.

    References
    ----------
    .. [1] J. J. Michalsky, "The Astronomical Almanac's algorithm for approximate solar position (1950-2050)",
       *Solar Energy* 40 (1988), 227-235.
    .. [2] J. Meeus, *Astronomical Algorithms*, 2nd ed., Willmann-Bell, 1998.

    Examples
    --------
    Noon in late June at 54° N, 0° E:

    >>> sun = sun_position([1750507200.0], SitePosition(math.radians(54.0), 0.0))
    >>> round(math.degrees(sun.zenith_angle[0]), 1), round(math.degrees(sun.azimuth[0]))
    (30.6, 179)
    """
    seconds = np.atleast_1d(finite_array("time", time, "s"))
    for value in (float(seconds.min()), float(seconds.max())):
        between("time", value, _FIRST_TIME, _LAST_TIME, "s since 1970")
    days = (seconds - _NOON_OF_2000) / _DAY
    right_ascension, declination = _of_almanac(days)
    # Greenwich mean sidereal time in hours, then the angle of the hour at the place.
    sidereal = 6.697375 + 0.0657098242 * days + (seconds % _DAY) / 3600.0
    hour = np.radians(15.0 * sidereal) + site.longitude - right_ascension
    height = np.arcsin(
        np.sin(declination) * math.sin(site.latitude)
        + np.cos(declination) * math.cos(site.latitude) * np.cos(hour)
    )  # fmt: skip
    azimuth = np.arctan2(
        -np.cos(declination) * np.sin(hour),
        np.sin(declination) * math.cos(site.latitude) - np.cos(declination) * math.sin(site.latitude) * np.cos(hour),
    )
    seen = height + _refraction(height, pressure, temperature)
    return SunPosition(np.asarray(0.5 * np.pi - seen), np.asarray(azimuth % (2.0 * np.pi)))


def _of_almanac(days: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Right ascension and declination of the sun [rad] by days since noon of 1 January 2000."""
    mean_longitude = 280.460 + 0.9856474 * days
    anomaly = np.radians(357.528 + 0.9856003 * days)
    longitude = np.radians(mean_longitude + 1.915 * np.sin(anomaly) + 0.020 * np.sin(2.0 * anomaly))
    obliquity = np.radians(23.439 - 4.0e-7 * days)
    right_ascension = np.arctan2(np.cos(obliquity) * np.sin(longitude), np.cos(longitude))
    return np.asarray(right_ascension), np.asarray(np.arcsin(np.sin(obliquity) * np.sin(longitude)))


def _refraction(height: FloatArray, pressure: float, temperature: float) -> FloatArray:
    """How much higher the sun is seen than it stands [rad]; nothing once it has set."""
    degrees = np.degrees(height)
    shown = np.maximum(degrees, -_RADIUS_OF_SUN - _REFRACTION_AT_HORIZON)
    arc_minutes = 1.02 / np.tan(np.radians(shown + 10.3 / (shown + 5.11)))
    lifted = pressure / 101_000.0 * 283.0 / (273.0 + temperature) * arc_minutes / 60.0
    return np.where(degrees >= -_RADIUS_OF_SUN - _REFRACTION_AT_HORIZON, np.radians(lifted), 0.0)


def linke_turbidity(time: ArrayLike, site: SitePosition) -> FloatArray:
    """Haze of the air at a place through the year, from the monthly world map.

    Parameters
    ----------
    time : array_like, shape (n_time,)
        Seconds since the start of 1970, universal time [s].
    site : SitePosition
        Place.

    Returns
    -------
    ndarray, shape (n_time,)
        Linke turbidity [-].

    Raises
    ------
    InvalidInput
        If a time is not a finite number.

    References
    ----------
    .. [1] J. Remund et al., "Worldwide Linke turbidity information", ISES Solar World Congress, 2003.

    Examples
    --------
    >>> found = linke_turbidity([1750507200.0], SitePosition(math.radians(54.0), math.radians(10.0)))
    >>> bool(2.0 < found[0] < 5.0)
    True
    """
    seconds = np.atleast_1d(finite_array("time", time, "s"))
    middles = (np.arange(12) + 0.5) / 12.0
    monthly = np.asarray(_haze_by_month(site.latitude, site.longitude))
    return np.asarray(np.interp(seconds / _YEAR % 1.0, middles, monthly, period=1.0), dtype=np.float64)


@lru_cache(maxsize=64)
def _haze_by_month(latitude: float, longitude: float) -> tuple[float, ...]:
    """Twelve values of the world map at a place: a grid of 5 minutes of arc from the north-west, each twenty-fold.

    The map is a file that comes with pvlib; the program around it takes 0.8 s to load and is not needed to read it. A
    place on the line between two cells belongs to the northern or eastern one.
    """
    from importlib.util import find_spec

    import h5py

    found = find_spec("pvlib")
    if found is None or not found.submodule_search_locations:
        raise InvalidInput("the world map of haze is not there: the package pvlib that holds it is not installed")
    folder = Path(found.submodule_search_locations[0])
    with h5py.File(folder / "data" / "LinkeTurbidities.h5", "r") as world:
        grid = world["LinkeTurbidity"]
        rows, columns = grid.shape[:2]
        row = min(int((0.5 * math.pi - latitude) / math.pi * rows - _ON_THE_LINE), rows - 1)
        column = min(int((longitude + math.pi) / (2.0 * math.pi) * columns + _ON_THE_LINE), columns - 1)
        return tuple(float(value) / 20.0 for value in grid[row, column])


def clear_sky(
    sun: SunPosition,
    turbidity: ArrayLike,
    altitude: float = 0.0,
    day: ArrayLike | None = None,
    pressure: float | None = None,
) -> SkyIrradiance:
    """Irradiance under a clear sky.

    Parameters
    ----------
    sun : SunPosition
        Positions of the sun.
    turbidity : array_like, shape (n_time,) or one value
        Linke turbidity [-].
    altitude : float, optional
        Height above the sea [m].
    day : array_like, shape (n_time,) or one value, optional
        Day of the year, for the distance of the sun [-]; the mean distance when left out.
    pressure : float, optional
        Air pressure, for the mass of air in the way [Pa]; by the altitude when left out.

    Returns
    -------
    SkyIrradiance
        Global, direct and diffuse irradiance [W/m²].

    Raises
    ------
    InvalidInput
        If the turbidity is below one.

    Notes
    -----
    Air mass after Kasten and Young 1989; global irradiance and beam after Ineichen and Perez, each falling with air
    mass and haze, the beam bounded by what the clearest sky leaves it.

    References
    ----------
    .. [1] P. Ineichen and R. Perez, *Solar Energy* 73 (2002), 151-157.

    Examples
    --------
    >>> sky = clear_sky(SunPosition(np.radians([30.0]), np.array([3.1])), 3.0)
    >>> round(float(sky.global_horizontal[0]), -1)
    900.0
    """
    haze = finite_array("Linke turbidity", turbidity, "")
    if np.any(haze < 1.0):
        raise InvalidInput(f"Linke turbidity is {float(haze.min())}; clean dry air has 1, nothing less")
    cosine = np.maximum(np.cos(sun.zenith_angle), 0.0)
    mass = _air_mass(sun.zenith_angle, standard_pressure(altitude) if pressure is None else pressure)
    extra = extraterrestrial_irradiance(day) if day is not None else 1364.0
    low, high = math.exp(-altitude / 8000.0), math.exp(-altitude / 1250.0)
    scale, fall = 5.09e-5 * altitude + 0.868, 3.92e-5 * altitude + 0.0387
    level = scale * extra * cosine * np.exp(-fall * mass * (low + high * (haze - 1.0)))
    beam = extra * (0.664 + 0.163 / low) * np.exp(-0.09 * mass * (haze - 1.0))
    # The beam is never more than what would leave the clearest sky its own light.
    most = level * (1.0 - (0.1 - 0.2 * np.exp(-haze)) / (0.1 + 0.882 / low)) / np.maximum(cosine, 1e-9)
    beam = np.where(cosine > 0.0, np.minimum(beam, np.maximum(most, 0.0)), 0.0)
    return SkyIrradiance(np.asarray(level), np.asarray(beam), np.asarray(level - beam * cosine))


def standard_pressure(altitude: float) -> float:
    """Air pressure at a height in the standard atmosphere.

    Parameters
    ----------
    altitude : float
        Height above the sea [m].

    Returns
    -------
    float
        Pressure [Pa].

    Raises
    ------
    InvalidInput
        If it is not a height on the earth.

    References
    ----------
    .. [1] ISO 2533:1975.

    Examples
    --------
    >>> round(standard_pressure(0.0)), round(standard_pressure(1000.0))
    (101325, 89875)
    """
    between("altitude", altitude, -450.0, 9000.0, "m")
    return float(101_325.0 * (1.0 - 0.0065 * altitude / 288.15) ** 5.25588)


def _air_mass(zenith_angle: FloatArray, pressure: float) -> FloatArray:
    """Air in the way of the beam over that at noon by the sea; F. Kasten and A. T. Young, Applied Optics 28 (1989)."""
    degrees = np.minimum(np.degrees(zenith_angle), 90.0)
    relative = 1.0 / (np.cos(np.radians(degrees)) + 0.50572 * (96.07995 - degrees) ** -1.6364)
    return np.asarray(relative * pressure / 101_325.0)


def split_global(global_horizontal: ArrayLike, sun: SunPosition, day: ArrayLike) -> SkyIrradiance:
    """Beam and sky parts of a measured global irradiance.

    Parameters
    ----------
    global_horizontal : array_like, shape (n_time,)
        On level ground [W/m²].
    sun : SunPosition
        Positions of the sun.
    day : array_like, shape (n_time,) or one value
        Day of the year [-].

    Returns
    -------
    SkyIrradiance
        Global, direct and diffuse irradiance [W/m²].

    Raises
    ------
    InvalidInput
        If an irradiance is below zero.

    References
    ----------
    .. [1] D. G. Erbs, S. A. Klein and J. A. Duffie, *Solar Energy* 28 (1982), 293-302.

    Examples
    --------
    >>> sky = split_global([500.0], SunPosition(np.radians([50.0]), np.array([3.1])), 172)
    >>> round(float(sky.diffuse_horizontal[0] / 500.0), 2)
    0.46
    """
    level = np.atleast_1d(finite_array("global irradiance", global_horizontal, "W/m²"))
    if np.any(level < 0.0):
        raise InvalidInput(f"global irradiance is {float(level.min())} W/m²; it cannot be below zero")
    height = np.maximum(np.cos(sun.zenith_angle), 0.065)
    clearness = np.clip(level / (extraterrestrial_irradiance(day) * height), 0.0, 1.0)
    middle = 0.9511 - 0.1604 * clearness + 4.388 * clearness**2 - 16.638 * clearness**3 + 12.336 * clearness**4
    diffuse_share = np.where(clearness <= 0.22, 1.0 - 0.09 * clearness, np.where(clearness > 0.8, 0.165, middle))
    # Close to the horizon the quotient for the beam has no meaning: all of the little that arrives is sky.
    low = np.cos(sun.zenith_angle) < math.cos(math.radians(87.0))
    diffuse = np.where(low, level, diffuse_share * level)
    beam = np.where(low, 0.0, (level - diffuse) / height)
    return SkyIrradiance(level, beam, diffuse)


def extraterrestrial_irradiance(day: ArrayLike) -> FloatArray:
    """Irradiance above the air by the day of the year.

    Parameters
    ----------
    day : array_like, shape (n_time,) or one value
        Day of the year, 1 to 366 [-].

    Returns
    -------
    ndarray, same shape
        Irradiance square to the sun [W/m²].

    Raises
    ------
    InvalidInput
        If a day is outside 1 to 367.

    References
    ----------
    .. [1] J. W. Spencer, *Search* 2 (1971), 172.

    Examples
    --------
    >>> [round(float(value)) for value in extraterrestrial_irradiance([3, 185])]
    [1414, 1320]
    """
    days = finite_array("day of the year", day, "")
    if np.any((days < 1.0) | (days > 367.0)):
        raise InvalidInput(f"day of the year is {days.tolist()}; it lies between 1 and 366")
    turn = 2.0 * np.pi * (days - 1.0) / 365.0
    factor = 1.00011 + 0.034221 * np.cos(turn) + 0.00128 * np.sin(turn)
    factor = factor + 0.000719 * np.cos(2.0 * turn) + 7.7e-5 * np.sin(2.0 * turn)
    return np.asarray(SOLAR_CONSTANT * factor, dtype=np.float64)
