"""Sun on a mean day of a month in closed form: height of the sun, daily sum above the air, course over the day."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.thermal._guard import between, finite_array, not_negative
from hushwright.physics.thermal.sun import SkyIrradiance, SunPosition, extraterrestrial_irradiance

FloatArray = NDArray[np.float64]

MEAN_DAYS = (17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344)
"""Day of the year whose sum above the air is the mean of its month, January to December; Klein 1977."""

_DAY = 86_400.0
_LOW_SUN = 0.065
"""Least cosine of the zenith angle by which the beam is found from level ground."""


def solar_declination(day: float) -> float:
    """Declination of the sun.

    Parameters
    ----------
    day : float
        Day of the year, 1 to 366 [-].

    Returns
    -------
    float
        Declination [rad], north positive.

    Raises
    ------
    InvalidInput
        If the day is outside the year.

    References
    ----------
    .. [1] J. W. Spencer, *Search* 2 (1971), 172.

    Examples
    --------
    >>> round(math.degrees(solar_declination(172.0)), 1), round(math.degrees(solar_declination(355.0)), 1)
    (23.5, -23.4)
    """
    turn = 2.0 * math.pi * (between("day of the year", day, 1.0, 367.0, "") - 1.0) / 365.0
    first = 0.006918 - 0.399912 * math.cos(turn) + 0.070257 * math.sin(turn)
    second = -0.006758 * math.cos(2.0 * turn) + 0.000907 * math.sin(2.0 * turn)
    return first + second - 0.002697 * math.cos(3.0 * turn) + 0.00148 * math.sin(3.0 * turn)


def sunset_angle(latitude: float, declination: float) -> float:
    """Hour angle at which the sun sets.

    Parameters
    ----------
    latitude : float
        Latitude, north positive [rad].
    declination : float
        Declination of the sun [rad].

    Returns
    -------
    float
        Angle after noon [rad]; 0 where the sun does not rise, π where it does not set.

    References
    ----------
    .. [1] J. A. Duffie and W. A. Beckman, *Solar Engineering of Thermal Processes*, 4th ed., Wiley, 2013, eq. 1.6.10.

    Examples
    --------
    >>> round(math.degrees(sunset_angle(math.radians(54.0), solar_declination(172.0))), 1)
    126.7
    """
    between("latitude", latitude, -0.5 * math.pi, 0.5 * math.pi, "rad")
    # At the very pole the tangent is huge and finite, so that polar day and night come out of the bounds.
    return math.acos(min(max(-math.tan(latitude) * math.tan(declination), -1.0), 1.0))


def daily_extraterrestrial(latitude: float, day: float) -> float:
    r"""Sum over a day of the sun on a level plane above the air.

    Parameters
    ----------
    latitude : float
        Latitude, north positive [rad].
    day : float
        Day of the year, 1 to 366 [-].

    Returns
    -------
    float
        Irradiation [J/m²].

    Raises
    ------
    InvalidInput
        If latitude or day are out of range.

    Notes
    -----
    .. math:: H_0 = \frac{86400}{\pi} E_0 \left(\cos\varphi\cos\delta\sin\omega_s + \omega_s\sin\varphi\sin\delta\right)

    References
    ----------
    .. [1] J. A. Duffie and W. A. Beckman, *Solar Engineering of Thermal Processes*, 4th ed., Wiley, 2013, eq. 1.10.3.

    Examples
    --------
    The book's example 1.10.1, 43° N on 15 April: 33.8 MJ/m² (memory).

    >>> round(daily_extraterrestrial(math.radians(43.0), 105.0) / 1e6, 1)
    33.8
    """
    declination = solar_declination(day)
    sunset = sunset_angle(latitude, declination)
    level = math.cos(latitude) * math.cos(declination) * math.sin(sunset)
    level += sunset * math.sin(latitude) * math.sin(declination)
    return max(_DAY / math.pi * float(extraterrestrial_irradiance(day)) * level, 0.0)


def sun_of_mean_day(latitude: float, day: float, time: ArrayLike) -> SunPosition:
    """Position of the sun over one day by solar time.

    Parameters
    ----------
    latitude : float
        Latitude, north positive [rad].
    day : float
        Day of the year, 1 to 366 [-].
    time : array_like, shape (n_time,)
        Time after midnight, by the sun [s].

    Returns
    -------
    SunPosition
        Zenith angle and azimuth [rad], without refraction.

    Raises
    ------
    InvalidInput
        If a time is not finite, or the day is outside the year.

    References
    ----------
    .. [1] J. A. Duffie and W. A. Beckman, *Solar Engineering of Thermal Processes*, 4th ed., Wiley, 2013, eq. 1.6.5.

    Examples
    --------
    >>> sun = sun_of_mean_day(math.radians(54.0), 172.0, [43_200.0])
    >>> round(math.degrees(sun.zenith_angle[0]), 1), round(math.degrees(sun.azimuth[0]))
    (30.5, 180)
    """
    declination = solar_declination(day)
    hour = 2.0 * np.pi * (finite_array("time", time, "s") / _DAY - 0.5)
    least = math.sin(latitude) * math.sin(declination)
    height = least + math.cos(latitude) * math.cos(declination) * np.cos(hour)
    across = math.cos(declination) * np.sin(hour)
    along = math.sin(latitude) * math.cos(declination) * np.cos(hour) - math.cos(latitude) * math.sin(declination)
    azimuth = (np.pi + np.arctan2(across, along)) % (2.0 * np.pi)
    return SunPosition(np.arccos(np.clip(height, -1.0, 1.0)), np.asarray(azimuth, dtype=np.float64))


def monthly_diffuse_share(clearness: float, sunset: float) -> float:
    """Share of the sky in the mean daily sum of a month.

    Parameters
    ----------
    clearness : float
        Sum on level ground over that above the air [-].
    sunset : float
        Hour angle at which the sun sets [rad].

    Returns
    -------
    float
        Diffuse over global sum [-].

    Raises
    ------
    InvalidInput
        If the clearness is no share.

    Notes
    -----
    Published for a clearness of 0.3 to 0.8; beyond, the value at the end is kept.

    References
    ----------
    .. [1] D. G. Erbs, S. A. Klein and J. A. Duffie, *Solar Energy* 28 (1982), 293-302 (memory).

    Examples
    --------
    >>> round(monthly_diffuse_share(0.5, 1.6), 3), round(monthly_diffuse_share(0.5, 1.2), 3)
    (0.429, 0.391)
    """
    share = min(max(between("clearness", clearness, 0.0, 1.0, ""), 0.3), 0.8)
    if sunset <= math.radians(81.4):
        return 1.391 - 3.560 * share + 4.189 * share**2 - 2.137 * share**3
    return 1.311 - 3.022 * share + 3.427 * share**2 - 1.821 * share**3


def mean_day_irradiance(latitude: float, day: float, daily_sum: float, time: ArrayLike) -> SkyIrradiance:
    """Sun on level ground over a mean day of a month, from its daily sum.

    Parameters
    ----------
    latitude : float
        Latitude, north positive [rad].
    day : float
        Mean day of the month, see `MEAN_DAYS` [-].
    daily_sum : float
        Irradiation of level ground over the day [J/m²].
    time : array_like, shape (n_time,)
        Time after midnight, by the sun, in even steps over the whole day [s].

    Returns
    -------
    SkyIrradiance
        Global, direct and diffuse irradiance [W/m²]; the sum over the steps is the daily sum.

    Raises
    ------
    InvalidInput
        If the sum is below zero or above that outside the air.

    References
    ----------
    .. [1] M. Collares-Pereira and A. Rabl, *Solar Energy* 22 (1979), 155-164, global over the day.
    .. [2] B. Y. H. Liu and R. C. Jordan, *Solar Energy* 4 (1960), 1-19, diffuse over the day.

    Examples
    --------
    >>> times = (np.arange(288) + 0.5) * 300.0
    >>> sky = mean_day_irradiance(math.radians(48.0), 162.0, 5.87 * 3.6e6, times)
    >>> round(float(sky.global_horizontal.sum()) * 300.0 / 3.6e6, 2), round(float(sky.global_horizontal.max()), -1)
    (5.87, 660.0)
    """
    above = daily_extraterrestrial(latitude, day)
    if not_negative("daily sum", daily_sum, "J/m²") > above:
        raise InvalidInput(f"daily sum is {daily_sum:.0f} J/m²; above the air there are {above:.0f} J/m² on that day")
    sun = sun_of_mean_day(latitude, day, time)
    if daily_sum == 0.0:
        nothing = np.zeros(sun.zenith_angle.size)
        return SkyIrradiance(nothing, nothing, nothing)
    sunset = sunset_angle(latitude, solar_declination(day))
    hour = 2.0 * np.pi * (finite_array("time", time, "s") / _DAY - 0.5)
    course = np.maximum(np.cos(hour) - math.cos(sunset), 0.0)
    course = np.where(np.abs(hour) < sunset, course, 0.0)
    steepness = 0.409 + 0.5016 * math.sin(sunset - math.pi / 3.0)
    peak = 0.6609 - 0.4767 * math.sin(sunset - math.pi / 3.0)
    step = _DAY / hour.size
    level = _with_sum(course * np.maximum(steepness + peak * np.cos(hour), 0.0), daily_sum, step)
    diffuse = monthly_diffuse_share(daily_sum / above, sunset) * daily_sum
    sky = np.minimum(_with_sum(course, diffuse, step), level)
    height = np.maximum(np.cos(sun.zenith_angle), _LOW_SUN)
    return SkyIrradiance(level, (level - sky) / height, sky)


def _with_sum(course: FloatArray, total: float, step: float) -> FloatArray:
    """Course scaled to a sum over the day."""
    return np.asarray(course * (total / (float(course.sum()) * step)), dtype=np.float64)
