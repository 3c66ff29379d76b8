"""Where the sun stands and what sun and sky send to the ground."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.thermal._guard import FloatArray, between, finite_array

SOLAR_CONSTANT = 1366.1
"""Irradiance above the air at the mean distance of the sun [W/m²], ASTM E490."""

_YEAR = 365.2425 * 86_400.0  # s
_EARTH_CLOCK_LAG = 69.0  # s between terrestrial and universal time in the 2020s; ±10 s moves nothing that matters here
_REFRACTION_AT_HORIZON = 0.5667  # degrees, usual value of the algorithm


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
    .. [1] I. Reda and A. Andreas, *Solar Energy* 76 (2004), 577-589.

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
        If a time is not a finite number.

    References
    ----------
    .. [1] I. Reda and A. Andreas, *Solar Energy* 76 (2004), 577-589.

    Examples
    --------
    Noon in late June at 54° N, 0° E:

    >>> sun = sun_position([1750507200.0], SitePosition(math.radians(54.0), 0.0))
    >>> round(math.degrees(sun.zenith_angle[0]), 1), round(math.degrees(sun.azimuth[0]))
    (30.6, 179)
    """
    from pvlib import spa

    seconds = np.atleast_1d(finite_array("time", time, "s"))
    place = (math.degrees(site.latitude), math.degrees(site.longitude), site.altitude)
    found = spa.solar_position(
        seconds, *place, pressure / 100.0, temperature, _EARTH_CLOCK_LAG, _REFRACTION_AT_HORIZON, numthreads=1
    )
    return SunPosition(np.radians(np.asarray(found[0])), np.radians(np.asarray(found[4])))


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
    import pandas
    from pvlib import clearsky

    seconds = np.atleast_1d(finite_array("time", time, "s"))
    months = pandas.DatetimeIndex([f"2025-{month:02d}-15" for month in range(1, 13)])
    place = (math.degrees(site.latitude), math.degrees(site.longitude))
    monthly = np.asarray(clearsky.lookup_linke_turbidity(months, *place, interp_turbidity=False), dtype=np.float64)
    middles = (np.arange(12) + 0.5) / 12.0
    return np.interp(seconds / _YEAR % 1.0, middles, monthly, period=1.0)


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

    References
    ----------
    .. [1] P. Ineichen and R. Perez, *Solar Energy* 73 (2002), 151-157.

    Examples
    --------
    >>> sky = clear_sky(SunPosition(np.radians([30.0]), np.array([3.1])), 3.0)
    >>> round(float(sky.global_horizontal[0]), -1)
    900.0
    """
    from pvlib import atmosphere, clearsky

    haze = finite_array("Linke turbidity", turbidity, "")
    if np.any(haze < 1.0):
        raise InvalidInput(f"Linke turbidity is {float(haze.min())}; clean dry air has 1, nothing less")
    zenith = np.degrees(sun.zenith_angle)
    shown = np.where(zenith < 90.0, zenith, 90.0)
    relative = atmosphere.get_relative_airmass(shown, model="kastenyoung1989")
    absolute = atmosphere.get_absolute_airmass(
        relative, atmosphere.alt2pres(altitude) if pressure is None else pressure
    )
    extra = extraterrestrial_irradiance(day) if day is not None else 1364.0
    # At night the library divides by a sun that is below the horizon and sets the result to zero itself.
    with np.errstate(divide="ignore", invalid="ignore"):
        found = clearsky.ineichen(zenith, absolute, haze, altitude, extra)
    beam, sky = (np.nan_to_num(np.asarray(found[key])) for key in ("dni", "dhi"))
    return SkyIrradiance(np.nan_to_num(np.asarray(found["ghi"])), beam, sky)


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
