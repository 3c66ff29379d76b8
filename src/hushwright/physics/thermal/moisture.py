"""Water vapour in rooms and build-ups: saturation, surfaces, condensation inside."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from hushwright.errors import InvalidInput
from hushwright.physics.thermal._guard import between, not_negative, positive, share

VAPOUR_PERMEABILITY_OF_AIR: Final = 2.0e-10
"""Water vapour permeability of still air [kg/(m·s·Pa)], ISO 13788."""

TIGHT_THICKNESS: Final = 1e5
"""Vapour diffusion thickness that stands for metal and glass [m]."""

MOULD_LIMIT: Final = 0.8
"""Monthly relative humidity at a surface above which mould may grow [-], ISO 13788."""


@dataclass(frozen=True, slots=True)
class Climate:
    """Air on one side.

    Parameters
    ----------
    temperature : float
        Air temperature [°C].
    relative_humidity : float
        Relative humidity [-].

    Raises
    ------
    InvalidInput
        If the temperature is outside −60 to 100 °C or the humidity is no share.

    References
    ----------
    .. [1] ISO 13788:2012.

    Examples
    --------
    >>> round(Climate(20.0, 0.5).vapour_pressure, 1)
    1168.5
    """

    temperature: float
    relative_humidity: float

    def __post_init__(self) -> None:
        between("temperature", self.temperature, -60.0, 100.0, "°C")
        share("relative humidity", self.relative_humidity)

    @property
    def vapour_pressure(self) -> float:
        """Partial pressure of the water vapour [Pa]."""
        return self.relative_humidity * saturation_pressure(self.temperature)


@dataclass(frozen=True, slots=True)
class VapourLayer:
    """A layer as heat and vapour see it.

    Parameters
    ----------
    thermal_resistance : float
        Thermal resistance [m²·K/W].
    vapour_diffusion_thickness : float
        Thickness of still air with the same resistance to vapour [m]; infinite for metal and glass.

    Raises
    ------
    InvalidInput
        If a value is below zero.

    References
    ----------
    .. [1] ISO 13788:2012.

    Examples
    --------
    >>> VapourLayer(1.0, vapour_diffusion_thickness(0.04, 1.0)).vapour_diffusion_thickness
    0.04
    """

    thermal_resistance: float
    vapour_diffusion_thickness: float

    def __post_init__(self) -> None:
        not_negative("thermal resistance", self.thermal_resistance, "m²·K/W")
        if not self.vapour_diffusion_thickness >= 0.0:
            raise InvalidInput(
                f"vapour diffusion thickness is {self.vapour_diffusion_thickness} m; it must be 0 or more"
            )


@dataclass(frozen=True, slots=True)
class Season:
    """A stretch of time with steady air on both sides.

    Parameters
    ----------
    inside : Climate
        Air in the room.
    outside : Climate
        Air on the cold side.
    duration : float
        Length of the season [s].

    Raises
    ------
    InvalidInput
        If the duration is not above zero.

    References
    ----------
    .. [1] ISO 13788:2012.

    Examples
    --------
    >>> Season(Climate(20.0, 0.5), Climate(-5.0, 0.8), 90 * 86400.0).duration
    7776000.0
    """

    inside: Climate
    outside: Climate
    duration: float

    def __post_init__(self) -> None:
        positive("season", self.duration, "s")


@dataclass(frozen=True, slots=True)
class SeasonMoisture:
    """What a season does to a build-up.

    Parameters
    ----------
    temperature : tuple of floats, length n_layer + 1
        Temperature of the planes between layers, outside first [°C].
    saturation_pressure : tuple of floats, length n_layer + 1
        Saturation pressure in those planes [Pa].
    vapour_pressure : tuple of floats, length n_layer + 1
        Vapour pressure in those planes at the start of the season [Pa].
    condensed : tuple of floats, length n_layer + 1
        Water gained in each plane over the season, negative when it dries [kg/m²].
    accumulated : tuple of floats, length n_layer + 1
        Water in each plane at the end of the season [kg/m²].

    References
    ----------
    .. [1] ISO 13788:2012.

    Examples
    --------
    >>> SeasonMoisture((0.0,), (611.0,), (500.0,), (0.0,), (0.0,)).accumulated
    (0.0,)
    """

    temperature: tuple[float, ...]
    saturation_pressure: tuple[float, ...]
    vapour_pressure: tuple[float, ...]
    condensed: tuple[float, ...]
    accumulated: tuple[float, ...]


def saturation_pressure(temperature: float) -> float:
    """Saturation pressure of water vapour, over ice below 0 °C.

    Parameters
    ----------
    temperature : float
        Temperature [°C].

    Returns
    -------
    float
        Saturation pressure [Pa].

    Raises
    ------
    InvalidInput
        If the temperature is outside −60 to 100 °C.

    Notes
    -----
    ``610.5 exp(17.269 ϑ/(237.3 + ϑ))`` from 0 °C up, ``610.5 exp(21.875 ϑ/(265.5 + ϑ))`` below.

    References
    ----------
    .. [1] ISO 13788:2012, annex E.

    Examples
    --------
    >>> round(saturation_pressure(20.0), 1), round(saturation_pressure(-5.0), 1)
    (2337.0, 401.2)
    """
    between("temperature", temperature, -60.0, 100.0, "°C")
    if temperature >= 0.0:
        return 610.5 * math.exp(17.269 * temperature / (237.3 + temperature))
    return 610.5 * math.exp(21.875 * temperature / (265.5 + temperature))


def dew_point_temperature(vapour_pressure: float) -> float:
    """Temperature at which vapour of this pressure condenses.

    Parameters
    ----------
    vapour_pressure : float
        Partial pressure of the water vapour [Pa].

    Returns
    -------
    float
        Dew point [°C].

    Raises
    ------
    InvalidInput
        If the pressure is not above zero.

    Notes
    -----
    ISO 13788's own saturation pressure, inverted; `hushwright.physics.airflow.psychrometrics` inverts that of the
    ASHRAE Handbook. From −20 to 40 °C they agree within 0.06 K.

    References
    ----------
    .. [1] ISO 13788:2012, annex E.

    Examples
    --------
    >>> round(dew_point_temperature(Climate(20.0, 0.5).vapour_pressure), 2)
    9.27
    """
    ratio = math.log(positive("vapour pressure", vapour_pressure, "Pa") / 610.5)
    if ratio >= 0.0:
        return 237.3 * ratio / (17.269 - ratio)
    return 265.5 * ratio / (21.875 - ratio)


def vapour_diffusion_thickness(thickness: float, vapour_resistance_factor: float) -> float:
    """Thickness of still air that holds vapour back as the layer does.

    Parameters
    ----------
    thickness : float
        Thickness of the layer [m].
    vapour_resistance_factor : float
        Vapour resistance over that of air [-]; infinite for metal and glass.

    Returns
    -------
    float
        Vapour diffusion thickness [m].

    Raises
    ------
    InvalidInput
        If the thickness is not above zero or the factor below one.

    References
    ----------
    .. [1] ISO 13788:2012; ISO 10456:2007.

    Examples
    --------
    >>> vapour_diffusion_thickness(0.016, 50.0)
    0.8
    """
    positive("thickness", thickness, "m")
    if not vapour_resistance_factor >= 1.0:
        raise InvalidInput(
            f"vapour resistance factor is {vapour_resistance_factor}; nothing lets more through than air, 1"
        )
    return thickness * vapour_resistance_factor


def surface_factor(thermal_transmittance: float, inside_surface_resistance: float = 0.25) -> float:
    """Temperature factor of the inside surface.

    Parameters
    ----------
    thermal_transmittance : float
        Thermal transmittance [W/(m²·K)].
    inside_surface_resistance : float, optional
        Resistance at the surface that is judged [m²·K/W]: 0.25 behind furniture, 0.13 at glass.

    Returns
    -------
    float
        Share of the temperature difference that the surface keeps [-].

    Raises
    ------
    InvalidInput
        If a value is not above zero or their product is above one.

    Notes
    -----
    ``f_Rsi = (ϑ_si − ϑ_e)/(ϑ_i − ϑ_e) = 1 − U R_si``.

    References
    ----------
    .. [1] ISO 13788:2012.

    Examples
    --------
    >>> round(surface_factor(0.8), 3)
    0.8
    """
    positive("thermal transmittance", thermal_transmittance, "W/(m²·K)")
    positive("surface resistance", inside_surface_resistance, "m²·K/W")
    factor = 1.0 - thermal_transmittance * inside_surface_resistance
    if factor < 0.0:
        raise InvalidInput(
            f"transmittance {thermal_transmittance} W/(m²·K) is more than a surface of {inside_surface_resistance} "
            "m²·K/W lets through"
        )
    return factor


def required_surface_factor(
    inside: Climate, outside_temperature: float, surface_humidity: float = MOULD_LIMIT
) -> float:
    """Temperature factor that keeps the surface below a relative humidity.

    Parameters
    ----------
    inside : Climate
        Air in the room.
    outside_temperature : float
        Temperature outside [°C].
    surface_humidity : float, optional
        Highest relative humidity at the surface [-]: 0.8 against mould, 1 against dew.

    Returns
    -------
    float
        Least temperature factor [-]; below zero when even the outside temperature does no harm.

    Raises
    ------
    InvalidInput
        If it is not colder outside than inside or a humidity is no share.

    References
    ----------
    .. [1] ISO 13788:2012.

    Examples
    --------
    >>> round(required_surface_factor(Climate(20.0, 0.55), 5.0), 2)
    0.61
    """
    positive("surface humidity", share("surface humidity", surface_humidity), "")
    if not inside.temperature > outside_temperature:
        raise InvalidInput(f"{outside_temperature} °C outside is not colder than {inside.temperature} °C inside")
    coldest = dew_point_temperature(inside.vapour_pressure / surface_humidity)
    return (coldest - outside_temperature) / (inside.temperature - outside_temperature)


def surface_relative_humidity(inside: Climate, outside_temperature: float, temperature_factor: float) -> float:
    """Relative humidity of the room's air at a cold surface.

    Parameters
    ----------
    inside : Climate
        Air in the room.
    outside_temperature : float
        Temperature outside [°C].
    temperature_factor : float
        Temperature factor of the surface [-].

    Returns
    -------
    float
        Relative humidity at the surface [-]; one or more is dew.

    Raises
    ------
    InvalidInput
        If the factor is no share.

    References
    ----------
    .. [1] ISO 13788:2012.

    Examples
    --------
    >>> round(surface_relative_humidity(Climate(20.0, 0.5), -5.0, 0.85), 2)
    0.63
    """
    share("temperature factor", temperature_factor)
    surface = outside_temperature + temperature_factor * (inside.temperature - outside_temperature)
    return inside.vapour_pressure / saturation_pressure(surface)


def plane_temperatures(
    layers: Sequence[VapourLayer],
    inside_temperature: float,
    outside_temperature: float,
    inside_surface_resistance: float = 0.13,
    outside_surface_resistance: float = 0.04,
) -> tuple[float, ...]:
    """Temperatures of the planes between the layers in the steady state.

    Parameters
    ----------
    layers : sequence of VapourLayer, length n_layer
        Layers from outside to inside.
    inside_temperature : float
        Temperature of the room [°C].
    outside_temperature : float
        Temperature outside [°C].
    inside_surface_resistance : float, optional
        Surface resistance inside [m²·K/W].
    outside_surface_resistance : float, optional
        Surface resistance outside [m²·K/W].

    Returns
    -------
    tuple of floats, length n_layer + 1
        Temperatures from the outside surface to the inside surface [°C].

    Raises
    ------
    InvalidInput
        If there is no layer or no resistance.

    References
    ----------
    .. [1] ISO 13788:2012.

    Examples
    --------
    >>> [round(t, 2) for t in plane_temperatures([VapourLayer(0.83, 1.0)], 20.0, 0.0)]
    [0.8, 17.4]
    """
    if not layers:
        raise InvalidInput(f"{len(layers)} layers given; a build-up needs one or more")
    resistances = [outside_surface_resistance, *(layer.thermal_resistance for layer in layers)]
    total = positive("total resistance", sum(resistances) + inside_surface_resistance, "m²·K/W")
    passed, temperatures = 0.0, []
    for resistance in resistances:
        passed += resistance
        temperatures.append(outside_temperature + (inside_temperature - outside_temperature) * passed / total)
    return tuple(temperatures)
