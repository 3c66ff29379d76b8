"""Absorption of sound by the air."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FloatArray

_REFERENCE_PRESSURE = 101_325.0  # Pa
_REFERENCE_TEMPERATURE = 293.15  # K
_TRIPLE_POINT = 273.16  # K


def air_attenuation(
    frequency: ArrayLike, *, temperature: float = 20.0, relative_humidity: float = 0.5, pressure: float = 101_325.0
) -> FloatArray:
    r"""Attenuation of a pure tone by the air.

    Parameters
    ----------
    frequency : array_like, shape (n_frequency,)
        Frequency [Hz], > 0; exact mid-band, not nominal.
    temperature : float, optional
        Air temperature [°C], −20 to 50.
    relative_humidity : float, optional
        Relative humidity [-], above 0 to 1.
    pressure : float, optional
        Static pressure [Pa], up to 200 000.

    Returns
    -------
    ndarray
        Attenuation [dB/m].

    Raises
    ------
    InvalidInput
        If a value is outside the range of the standard.

    Notes
    -----
    Relaxation of oxygen and nitrogen, equations 3 to 5 and B.3 of the standard [1]_; its own accuracy is ±10 % for
    molar concentrations of water vapour from 0.05 % to 5 %.

    References
    ----------
    .. [1] ISO 9613-1:1993, *Attenuation of sound during propagation outdoors – Absorption by the atmosphere*.

    Examples
    --------
    >>> round(1000 * float(air_attenuation(1000.0)), 2)
    4.66
    """
    f = np.asarray(frequency, dtype=np.float64)
    if np.any(~(f > 0)):
        raise InvalidInput(f"frequency is {f.tolist()} Hz; it must be above zero")
    if not -20.0 <= temperature <= 50.0:
        raise InvalidInput(f"temperature is {temperature} °C; ISO 9613-1 holds from −20 to 50 °C")
    if not 0.0 < relative_humidity <= 1.0:
        raise InvalidInput(f"relative humidity is {relative_humidity}; it must be above 0 and at most 1")
    if not 0.0 < pressure <= 200_000.0:
        raise InvalidInput(f"pressure is {pressure} Pa; ISO 9613-1 holds up to 200 000 Pa")
    kelvin = temperature + 273.15
    share = pressure / _REFERENCE_PRESSURE
    ratio = kelvin / _REFERENCE_TEMPERATURE
    saturation = 10.0 ** (-6.8346 * (_TRIPLE_POINT / kelvin) ** 1.261 + 4.6151)  # B.3
    water = 100.0 * relative_humidity * saturation / share  # molar concentration, percent
    oxygen = share * (24.0 + 4.04e4 * water * (0.02 + water) / (0.391 + water))  # equation 3
    nitrogen = share / math.sqrt(ratio) * (9.0 + 280.0 * water * math.exp(-4.170 * (ratio ** (-1.0 / 3.0) - 1.0)))
    classical = 1.84e-11 / share * math.sqrt(ratio)  # equation 5
    relaxation = ratio**-2.5 * (
        0.01275 * math.exp(-2239.1 / kelvin) / (oxygen + f**2 / oxygen)
        + 0.1068 * math.exp(-3352.0 / kelvin) / (nitrogen + f**2 / nitrogen)
    )
    return np.asarray(8.686 * f**2 * (classical + relaxation))


def air_absorption_area(
    frequency: ArrayLike,
    volume: float,
    *,
    temperature: float = 20.0,
    relative_humidity: float = 0.5,
    pressure: float = 101_325.0,
) -> FloatArray:
    """Equivalent absorption area of the air in a room.

    Parameters
    ----------
    frequency : array_like, shape (n_frequency,)
        Frequency [Hz], > 0.
    volume : float
        Volume of the room [m³], ≥ 0.
    temperature : float, optional
        Air temperature [°C].
    relative_humidity : float, optional
        Relative humidity [-].
    pressure : float, optional
        Static pressure [Pa].

    Returns
    -------
    ndarray
        Absorption area [m²].

    Raises
    ------
    InvalidInput
        If the volume is negative or the air is outside the range of the standard.

    Notes
    -----
    ``A = 4 m V`` with the power attenuation ``m = a/(10 lg e)`` [1]_.

    References
    ----------
    .. [1] EN 12354-6:2003, clause 4; ISO 9613-1:1993.

    Examples
    --------
    >>> round(float(air_absorption_area(1000.0, 100.0)), 2)
    0.43
    """
    if not volume >= 0.0:
        raise InvalidInput(f"volume is {volume} m³; it must not be negative")
    attenuation = air_attenuation(
        frequency, temperature=temperature, relative_humidity=relative_humidity, pressure=pressure
    )
    return 4.0 * volume * attenuation / (10.0 * math.log10(math.e))
