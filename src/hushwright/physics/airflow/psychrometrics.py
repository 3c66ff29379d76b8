"""Moist air: vapour pressure, humidity ratio, relative humidity, dew point, volume and enthalpy."""

from __future__ import annotations

import math

from hushwright.errors import InvalidInput
from hushwright.physics.airflow._guard import not_negative, positive, share

STANDARD_PRESSURE = 101_325.0  # Pa
_ZERO_CELSIUS = 273.15
_TRIPLE_POINT = 0.01  # °C: ice below, water above
_COLDEST, _HOTTEST = -100.0, 200.0
_MOLAR_MASS_RATIO = 0.621945  # water over dry air


def saturation_vapour_pressure(temperature: float) -> float:
    """Vapour pressure over water, below 0.01 °C over ice.

    Parameters
    ----------
    temperature : float
        Temperature [°C], −100 to 200.

    Returns
    -------
    float
        Saturation vapour pressure [Pa].

    Raises
    ------
    InvalidInput
        If the temperature is out of range.

    Notes
    -----
    Hyland and Wexler's polynomials, as in [1]_ (eq. 5 and 6).

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2017, ch. 1.

    Examples
    --------
    >>> round(saturation_vapour_pressure(25.0))
    3169
    """
    if not _COLDEST <= temperature <= _HOTTEST:
        raise InvalidInput(f"temperature is {temperature} °C; the vapour pressure holds from −100 to 200 °C")
    kelvin = temperature + _ZERO_CELSIUS
    if temperature < _TRIPLE_POINT:
        exponent = (
            -5.6745359e3 / kelvin + 6.3925247 - 9.677843e-3 * kelvin + 6.2215701e-7 * kelvin**2
            + 2.0747825e-9 * kelvin**3 - 9.484024e-13 * kelvin**4 + 4.1635019 * math.log(kelvin)
        )  # fmt: skip
    else:
        exponent = (
            -5.8002206e3 / kelvin + 1.3914993 - 4.8640239e-2 * kelvin + 4.1764768e-5 * kelvin**2
            - 1.4452093e-8 * kelvin**3 + 6.5459673 * math.log(kelvin)
        )  # fmt: skip
    return math.exp(exponent)


def dew_point_temperature(vapour_pressure: float) -> float:
    """Temperature at which the air is saturated by the vapour it holds; below 0.01 °C the frost point.

    Parameters
    ----------
    vapour_pressure : float
        Partial pressure of water vapour [Pa], above 0.

    Returns
    -------
    float
        Dew point [°C].

    Raises
    ------
    InvalidInput
        If the pressure has no dew point between −100 and 200 °C.

    Notes
    -----
    The saturation pressure is inverted by halving the interval until the last bit but a few. The dew point of
    `hushwright.physics.thermal.moisture` inverts the formula of ISO 13788 instead, that of its condensation.

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2017, ch. 1.

    Examples
    --------
    >>> round(dew_point_temperature(0.5 * saturation_vapour_pressure(20.0)), 2)
    9.26
    """
    positive("vapour pressure", vapour_pressure, "Pa")
    low, high = _COLDEST, _HOTTEST
    if not saturation_vapour_pressure(low) <= vapour_pressure <= saturation_vapour_pressure(high):
        raise InvalidInput(f"vapour pressure is {vapour_pressure} Pa; its dew point is not between −100 and 200 °C")
    for _ in range(60):
        middle = 0.5 * (low + high)
        if saturation_vapour_pressure(middle) < vapour_pressure:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def humidity_ratio(vapour_pressure: float, pressure: float = STANDARD_PRESSURE) -> float:
    """Mass of water vapour per mass of dry air.

    Parameters
    ----------
    vapour_pressure : float
        Partial pressure of water vapour [Pa].
    pressure : float, optional
        Static pressure [Pa].

    Returns
    -------
    float
        Humidity ratio [kg/kg].

    Raises
    ------
    InvalidInput
        If the vapour pressure is below zero or not below the static pressure.

    Notes
    -----
    ``w = 0.621945 pw/(p − pw)``.

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2017, ch. 1, eq. 20.

    Examples
    --------
    >>> round(humidity_ratio(3169.7, 95461.0), 5)
    0.02136
    """
    not_negative("vapour pressure", vapour_pressure, "Pa")
    if vapour_pressure >= pressure:
        raise InvalidInput(f"vapour pressure is {vapour_pressure} Pa of {pressure} Pa in all; no dry air would be left")
    return _MOLAR_MASS_RATIO * vapour_pressure / (pressure - vapour_pressure)


def vapour_pressure_of(humidity_ratio: float, pressure: float = STANDARD_PRESSURE) -> float:
    """Partial pressure of the water vapour in air.

    Parameters
    ----------
    humidity_ratio : float
        Mass of water vapour per mass of dry air [kg/kg].
    pressure : float, optional
        Static pressure [Pa].

    Returns
    -------
    float
        Vapour pressure [Pa].

    Raises
    ------
    InvalidInput
        If a number is impossible.

    Notes
    -----
    ``pw = p w/(0.621945 + w)``.

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2017, ch. 1, eq. 20.

    Examples
    --------
    >>> round(vapour_pressure_of(0.01), 0)
    1603.0
    """
    not_negative("humidity ratio", humidity_ratio, "kg/kg")
    return positive("pressure", pressure, "Pa") * humidity_ratio / (_MOLAR_MASS_RATIO + humidity_ratio)


def humidity_ratio_at(temperature: float, relative_humidity: float, pressure: float = STANDARD_PRESSURE) -> float:
    """Humidity ratio of air whose temperature and relative humidity are known.

    Parameters
    ----------
    temperature : float
        Air temperature [°C].
    relative_humidity : float
        Relative humidity [-], 0 to 1.
    pressure : float, optional
        Static pressure [Pa].

    Returns
    -------
    float
        Humidity ratio [kg/kg].

    Raises
    ------
    InvalidInput
        If a number is impossible.

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2017, ch. 1.

    Examples
    --------
    >>> round(humidity_ratio_at(20.0, 0.5), 5)
    0.00726
    """
    return humidity_ratio(
        share("relative humidity", relative_humidity) * saturation_vapour_pressure(temperature), pressure
    )


def relative_humidity(humidity_ratio: float, temperature: float, pressure: float = STANDARD_PRESSURE) -> float:
    """Relative humidity of air that holds so much vapour; above 1 when more than saturated.

    Parameters
    ----------
    humidity_ratio : float
        Mass of water vapour per mass of dry air [kg/kg].
    temperature : float
        Air temperature [°C].
    pressure : float, optional
        Static pressure [Pa].

    Returns
    -------
    float
        Relative humidity [-]; above 1 the surplus rains out or fogs the coldest surface.

    Raises
    ------
    InvalidInput
        If a number is impossible.

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2017, ch. 1.

    Examples
    --------
    >>> round(relative_humidity(0.0065, 40.0), 2)
    0.14
    """
    return vapour_pressure_of(humidity_ratio, pressure) / saturation_vapour_pressure(temperature)


def humidity_ratio_from_wet_bulb(
    temperature: float, wet_bulb_temperature: float, pressure: float = STANDARD_PRESSURE
) -> float:
    """Humidity ratio from a dry and a wet thermometer.

    Parameters
    ----------
    temperature : float
        Air temperature [°C].
    wet_bulb_temperature : float
        Temperature of the wet bulb [°C], not above the air's.
    pressure : float, optional
        Static pressure [Pa].

    Returns
    -------
    float
        Humidity ratio [kg/kg].

    Raises
    ------
    InvalidInput
        If the wet bulb is warmer than the air, or so cold that the air would hold less than nothing.

    Notes
    -----
    Heat balance of the wick over water, below 0 °C over ice [1]_ (eq. 33 and 35).

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2017, ch. 1.

    Examples
    --------
    >>> round(humidity_ratio_from_wet_bulb(40.0, 20.0), 4)
    0.0065
    """
    dry, wet = temperature, wet_bulb_temperature
    if wet > dry:
        raise InvalidInput(f"wet bulb is {wet} °C in air of {dry} °C; it cannot be warmer than the air")
    saturated = humidity_ratio(saturation_vapour_pressure(wet), pressure)
    if wet >= 0.0:
        ratio = ((2501.0 - 2.326 * wet) * saturated - 1.006 * (dry - wet)) / (2501.0 + 1.86 * dry - 4.186 * wet)
    else:
        ratio = ((2830.0 - 0.24 * wet) * saturated - 1.006 * (dry - wet)) / (2830.0 + 1.86 * dry - 2.1 * wet)
    if ratio < 0.0:
        raise InvalidInput(f"wet bulb is {wet} °C in air of {dry} °C; even dry air does not cool it so far")
    return ratio


def moist_air_volume(temperature: float, humidity_ratio: float, pressure: float = STANDARD_PRESSURE) -> float:
    """Volume of moist air per mass of the dry air in it.

    Parameters
    ----------
    temperature : float
        Air temperature [°C].
    humidity_ratio : float
        Mass of water vapour per mass of dry air [kg/kg].
    pressure : float, optional
        Static pressure [Pa].

    Returns
    -------
    float
        Volume [m³/kg].

    Raises
    ------
    InvalidInput
        If a number is impossible.

    Notes
    -----
    ``v = 287.042 T (1 + 1.607858 w)/p``.

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2017, ch. 1, eq. 26.

    Examples
    --------
    >>> round(moist_air_volume(30.0, 0.02, 95461.0), 4)
    0.9409
    """
    not_negative("humidity ratio", humidity_ratio, "kg/kg")
    positive("pressure", pressure, "Pa")
    kelvin = positive("absolute temperature", temperature + _ZERO_CELSIUS, "K")
    return 287.042 * kelvin * (1.0 + 1.607858 * humidity_ratio) / pressure


def moist_air_density(temperature: float, humidity_ratio: float, pressure: float = STANDARD_PRESSURE) -> float:
    """Density of moist air.

    Parameters
    ----------
    temperature : float
        Air temperature [°C].
    humidity_ratio : float
        Mass of water vapour per mass of dry air [kg/kg].
    pressure : float, optional
        Static pressure [Pa].

    Returns
    -------
    float
        Density [kg/m³].

    Raises
    ------
    InvalidInput
        If a number is impossible.

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2017, ch. 1.

    Examples
    --------
    >>> round(moist_air_density(30.0, 0.02, 95461.0), 4)
    1.0841
    """
    return (1.0 + humidity_ratio) / moist_air_volume(temperature, humidity_ratio, pressure)


def moist_air_enthalpy(temperature: float, humidity_ratio: float) -> float:
    """Enthalpy of moist air per mass of the dry air in it, from 0 °C and liquid water.

    Parameters
    ----------
    temperature : float
        Air temperature [°C].
    humidity_ratio : float
        Mass of water vapour per mass of dry air [kg/kg].

    Returns
    -------
    float
        Enthalpy [J/kg].

    Raises
    ------
    InvalidInput
        If the humidity ratio is below zero.

    Notes
    -----
    ``h = 1006 t + w (2 501 000 + 1860 t)``.

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2017, ch. 1, eq. 30.

    Examples
    --------
    >>> round(moist_air_enthalpy(30.0, 0.02))
    81316
    """
    not_negative("humidity ratio", humidity_ratio, "kg/kg")
    return 1006.0 * temperature + humidity_ratio * (2.501e6 + 1860.0 * temperature)


def pressure_at_altitude(altitude: float) -> float:
    """Air pressure of the standard atmosphere.

    Parameters
    ----------
    altitude : float
        Height above the sea [m], −500 to 11 000.

    Returns
    -------
    float
        Static pressure [Pa].

    Raises
    ------
    InvalidInput
        If the height is out of range.

    Notes
    -----
    ``p = 101325 (1 − 2.25577e-5 z)^5.2559``.

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2017, ch. 1, eq. 3.

    Examples
    --------
    >>> round(pressure_at_altitude(500.0), -1)
    95460.0
    """
    if not -500.0 <= altitude <= 11_000.0:
        raise InvalidInput(f"altitude is {altitude} m; the standard atmosphere is used from −500 to 11 000 m")
    return STANDARD_PRESSURE * math.pow(1.0 - 2.25577e-5 * altitude, 5.2559)
