"""State of the air and the free fall, shared by every domain."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from hushwright.errors import InvalidInput

_GAS_CONSTANT_DRY_AIR = 287.055  # J/(kg K), ISO 2533
_HEAT_CAPACITY_RATIO = 1.4
_ZERO_CELSIUS = 273.15  # K

STANDARD_GRAVITY: Final = 9.80665
"""Acceleration of free fall [m/s²], ISO 80000-3."""


@dataclass(frozen=True, slots=True)
class Air:
    """Dry air taken as an ideal gas.

    Parameters
    ----------
    temperature : float, optional
        Temperature [°C], −40 to 60.
    pressure : float, optional
        Static pressure [Pa], 50 000 to 110 000.

    Raises
    ------
    InvalidInput
        If a value is outside the range in which the formulas below were checked.

    Notes
    -----
    ``density = p/(287.055 T)`` and ``speed = sqrt(1.4 · 287.055 T)`` [1]_; viscosity after Sutherland [2]_. Humidity
    changes the speed of sound by less than 0.5 % in a room and is left out.

    References
    ----------
    .. [1] ISO 2533:1975, *Standard atmosphere*.
    .. [2] F. M. White, *Viscous Fluid Flow*, 2nd ed., McGraw-Hill, 1991, table 1-2 (constants from memory).

    Examples
    --------
    >>> air = Air(temperature=20.0)
    >>> round(air.density, 3), round(air.speed_of_sound, 1)
    (1.204, 343.2)
    """

    temperature: float = 20.0
    pressure: float = 101_325.0

    def __post_init__(self) -> None:
        if not -40.0 <= self.temperature <= 60.0:
            raise InvalidInput(f"air temperature is {self.temperature} °C; the formulas hold from −40 to 60 °C")
        if not 5e4 <= self.pressure <= 1.1e5:
            raise InvalidInput(f"air pressure is {self.pressure} Pa; the formulas hold from 50 000 to 110 000 Pa")

    @property
    def absolute_temperature(self) -> float:
        """Temperature [K]."""
        return self.temperature + _ZERO_CELSIUS

    @property
    def density(self) -> float:
        """Density [kg/m³]."""
        return self.pressure / (_GAS_CONSTANT_DRY_AIR * self.absolute_temperature)

    @property
    def speed_of_sound(self) -> float:
        """Speed of sound [m/s]."""
        return math.sqrt(_HEAT_CAPACITY_RATIO * _GAS_CONSTANT_DRY_AIR * self.absolute_temperature)

    @property
    def characteristic_impedance(self) -> float:
        """Density times speed of sound [Pa·s/m]."""
        return self.density * self.speed_of_sound

    @property
    def viscosity(self) -> float:
        """Dynamic viscosity [Pa·s]."""
        kelvin = self.absolute_temperature
        return 1.716e-5 * math.pow(kelvin / 273.15, 1.5) * (273.15 + 110.4) / (kelvin + 110.4)

    @property
    def heat_capacity_ratio(self) -> float:
        """Ratio of specific heats [-]."""
        return _HEAT_CAPACITY_RATIO

    @property
    def prandtl_number(self) -> float:
        """Prandtl number [-]; 0.71 for air at room temperature (White 1991)."""
        return 0.71


AIR_20C = Air()
