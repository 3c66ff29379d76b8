"""Water in air, for arrays of temperatures."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from hushwright.physics.thermal._guard import FloatArray

_MASS_RATIO = 0.621945  # molar mass of water over that of dry air, ASHRAE Fundamentals
_PRESSURE = 101_325.0  # Pa


def saturation_pressures(temperature: ArrayLike) -> FloatArray:
    """Saturation pressure of water vapour, over ice below 0 °C.

    Parameters
    ----------
    temperature : array_like, any shape
        Temperature [°C].

    Returns
    -------
    ndarray, same shape
        Saturation pressure [Pa].

    Notes
    -----
    The two branches of `hushwright.physics.thermal.moisture.saturation_pressure`.

    References
    ----------
    .. [1] ISO 13788:2012, annex E.

    Examples
    --------
    >>> [round(float(value)) for value in saturation_pressures([-5.0, 20.0])]
    [401, 2337]
    """
    warm = np.asarray(temperature, dtype=np.float64)
    water = 17.269 * warm / (237.3 + warm)
    ice = 21.875 * warm / (265.5 + warm)
    return np.asarray(610.5 * np.exp(np.where(warm >= 0.0, water, ice)), dtype=np.float64)


def humidity_ratio(temperature: ArrayLike, relative_humidity: ArrayLike) -> FloatArray:
    """Water per dry air.

    Parameters
    ----------
    temperature : array_like, any shape
        Temperature [°C].
    relative_humidity : array_like, same shape
        Relative humidity [-].

    Returns
    -------
    ndarray, same shape
        Humidity ratio [kg/kg].

    Notes
    -----
    ``0.622 p/(101325 − p)``.

    References
    ----------
    .. [1] ASHRAE Handbook, Fundamentals, ch. 1.

    Examples
    --------
    >>> round(float(humidity_ratio(20.0, 0.5)), 5)
    0.00726
    """
    vapour = np.asarray(relative_humidity, dtype=np.float64) * saturation_pressures(temperature)
    return np.asarray(_MASS_RATIO * vapour / (_PRESSURE - vapour), dtype=np.float64)


def relative_humidity_of(temperature: ArrayLike, ratio: ArrayLike) -> FloatArray:
    """Relative humidity from temperature and humidity ratio.

    Parameters
    ----------
    temperature : array_like, any shape
        Temperature [°C].
    ratio : array_like, same shape
        Humidity ratio [kg/kg].

    Returns
    -------
    ndarray, same shape
        Relative humidity [-]; above one the air holds more than it can.

    References
    ----------
    .. [1] ASHRAE Handbook, Fundamentals, ch. 1.

    Examples
    --------
    >>> round(float(relative_humidity_of(20.0, humidity_ratio(20.0, 0.5))), 6)
    0.5
    """
    water = np.asarray(ratio, dtype=np.float64)
    vapour = water * _PRESSURE / (_MASS_RATIO + water)
    return np.asarray(vapour / saturation_pressures(temperature), dtype=np.float64)
