"""Solar panels: temperature of the cells, power."""

from __future__ import annotations

import math
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput
from hushwright.physics._guard import not_negative, positive

FloatArray = NDArray[np.float64]
Mounting = Literal["in the open", "close to the roof"]

_TEST_IRRADIANCE, _TEST_TEMPERATURE = 1000.0, 25.0
# King, Boyson and Kratochvil 2004, table 1: glass on both sides in an open rack, and close to a roof.
_RACK = {"in the open": (-3.47, -0.0594, 3.0), "close to the roof": (-2.98, -0.0471, 1.0)}


def cell_temperature(
    irradiance: ArrayLike, temperature: ArrayLike, wind_speed: float, mounting: Mounting = "close to the roof"
) -> FloatArray:
    r"""Temperature of solar cells.

    Parameters
    ----------
    irradiance : array_like, of any shape
        Irradiance on the panel [W/m²].
    temperature : array_like, same shape or one value
        Air temperature [°C].
    wind_speed : float
        Wind [m/s].
    mounting : {"in the open", "close to the roof"}, optional
        How the air gets behind the panel.

    Returns
    -------
    ndarray, same shape
        Temperature of the cells [°C].

    Raises
    ------
    InvalidInput
        If the mounting is unknown or the wind below zero.

    Notes
    -----
    .. math:: \vartheta_c = \vartheta_a + G\,e^{a + b v} + \frac{G}{1000}\Delta T

    A panel flat on a roof with no gap at all becomes warmer than either.

    References
    ----------
    .. [1] D. L. King, W. E. Boyson and J. A. Kratochvil, *Photovoltaic Array Performance Model*, Sandia National
       Laboratories, SAND2004-3535, 2004, table 1.

    Examples
    --------
    >>> round(float(cell_temperature(900.0, 20.0, 5.0, "in the open")), 3)
    43.509
    """
    if mounting not in _RACK:
        raise InvalidInput(f"mounting is {mounting!r}; known are {', '.join(_RACK)}")
    a, b, difference = _RACK[mounting]
    warmed = math.exp(a + b * not_negative("wind", wind_speed, "m/s")) + difference / _TEST_IRRADIANCE
    return np.asarray(np.asarray(temperature) + np.asarray(irradiance) * warmed, dtype=np.float64)


def panel_power(
    irradiance: ArrayLike, cell_temperature: ArrayLike, rated_power: float, temperature_coefficient: float
) -> FloatArray:
    r"""Power of panels at their best point.

    Parameters
    ----------
    irradiance : array_like, of any shape
        Irradiance on the panel [W/m²].
    cell_temperature : array_like, same shape or one value
        Temperature of the cells [°C].
    rated_power : float
        Power at 1000 W/m² and 25 °C [W].
    temperature_coefficient : float
        Change of the power with each kelvin [1/K], below zero.

    Returns
    -------
    ndarray, same shape
        Power [W], never below zero.

    Raises
    ------
    InvalidInput
        If the rated power is not above zero.

    Notes
    -----
    .. math:: P = \frac{G}{1000} P_0 \left(1 + \gamma (\vartheta_c - 25)\right)

    References
    ----------
    .. [1] A. P. Dobos, *PVWatts Version 5 Manual*, NREL/TP-6A20-62641, 2014.

    Examples
    --------
    >>> round(float(panel_power(900.0, 30.0, 100.0, -0.003)), 2)
    88.65
    """
    rated = positive("rated power", rated_power, "W")
    by_warmth = 1.0 + temperature_coefficient * (np.asarray(cell_temperature, dtype=np.float64) - _TEST_TEMPERATURE)
    light = np.asarray(irradiance, dtype=np.float64) / _TEST_IRRADIANCE
    return np.asarray(np.maximum(light * rated * by_warmth, 0.0), dtype=np.float64)
