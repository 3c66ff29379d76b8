"""Layers of a build-up as heat sees them: solid, still air, known resistance."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from hushwright.physics.thermal._guard import between, not_negative, positive, share

HeatFlow = Literal["horizontal", "up", "down"]

STEFAN_BOLTZMANN: Final = 5.670374e-8
"""Stefan–Boltzmann constant [W/(m²·K⁴)], CODATA 2018."""

_WIDEST_AIR_LAYER = 0.3  # m, ISO 6946: wider spaces are rooms of their own


@dataclass(frozen=True, slots=True)
class SolidLayer:
    """A layer that conducts.

    Parameters
    ----------
    thickness : float
        Thickness [m].
    thermal_conductivity : float
        Thermal conductivity [W/(m·K)].

    Raises
    ------
    InvalidInput
        If a value is not above zero.

    References
    ----------
    .. [1] ISO 6946:2017.

    Examples
    --------
    >>> round(SolidLayer(0.04, 0.04).resistance("horizontal"), 3)
    1.0
    """

    thickness: float
    thermal_conductivity: float

    def __post_init__(self) -> None:
        positive("layer thickness", self.thickness, "m")
        positive("thermal conductivity", self.thermal_conductivity, "W/(m·K)")

    def resistance(self, heat_flow: HeatFlow) -> float:
        """Thermal resistance, the same for every direction of heat flow.

        Parameters
        ----------
        heat_flow : {"horizontal", "up", "down"}
            Direction of the heat.

        Returns
        -------
        float
            Resistance from surface to surface [m²·K/W].

        References
        ----------
        .. [1] ISO 6946:2017.
        """
        return self.thickness / self.thermal_conductivity


@dataclass(frozen=True, slots=True)
class AirLayer:
    """Still air between two faces.

    Parameters
    ----------
    thickness : float
        Thickness [m], up to 0.3 m.
    emissivities : tuple of two floats, optional
        Emissivity of both faces [-]; 0.9 for anything painted, wooden or woven.
    mean_temperature : float, optional
        Mean temperature of the layer [°C].

    Raises
    ------
    InvalidInput
        If the layer is wider than 0.3 m or an emissivity is no share.

    Notes
    -----
    ``R = 1/(h_a + h_r)`` with the greater of conduction 0.025/d and the convection of the standard; radiation
    ``h_r = 4σT³/(1/ε1 + 1/ε2 − 1)``.

    References
    ----------
    .. [1] ISO 6946:2017, annex on airspaces (constants from memory).

    Examples
    --------
    >>> [round(AirLayer(d).resistance("horizontal"), 2) for d in (0.005, 0.010, 0.025)]
    [0.11, 0.15, 0.18]
    """

    thickness: float
    emissivities: tuple[float, float] = (0.9, 0.9)
    mean_temperature: float = 10.0

    def __post_init__(self) -> None:
        positive("air layer thickness", self.thickness, "m")
        between("air layer thickness", self.thickness, 0.0, _WIDEST_AIR_LAYER, "m")
        for emissivity in self.emissivities:
            positive("emissivity", share("emissivity", emissivity), "")

    def resistance(self, heat_flow: HeatFlow) -> float:
        """Thermal resistance for one direction of heat flow.

        Parameters
        ----------
        heat_flow : {"horizontal", "up", "down"}
            Direction of the heat.

        Returns
        -------
        float
            Resistance from surface to surface [m²·K/W].

        References
        ----------
        .. [1] ISO 6946:2017.
        """
        convection = {"horizontal": 1.25, "up": 1.95, "down": 0.12 * self.thickness**-0.44}[heat_flow]
        first, second = self.emissivities
        radiation = radiative_coefficient(self.mean_temperature) / (1.0 / first + 1.0 / second - 1.0)
        return float(1.0 / (max(convection, 0.025 / self.thickness) + radiation))


@dataclass(frozen=True, slots=True)
class KnownLayer:
    """A layer whose resistance is known as such: a tested panel, a facing, glazing without its surfaces.

    Parameters
    ----------
    thermal_resistance : float
        Thermal resistance [m²·K/W].

    Raises
    ------
    InvalidInput
        If it is below zero.

    References
    ----------
    .. [1] ISO 6946:2017.

    Examples
    --------
    >>> KnownLayer(0.5).resistance("up")
    0.5
    """

    thermal_resistance: float

    def __post_init__(self) -> None:
        not_negative("thermal resistance", self.thermal_resistance, "m²·K/W")

    def resistance(self, heat_flow: HeatFlow) -> float:
        """Thermal resistance as given.

        Parameters
        ----------
        heat_flow : {"horizontal", "up", "down"}
            Direction of the heat.

        Returns
        -------
        float
            Resistance from surface to surface [m²·K/W].

        References
        ----------
        .. [1] ISO 6946:2017.
        """
        return self.thermal_resistance


ThermalLayer = SolidLayer | AirLayer | KnownLayer


def radiative_coefficient(temperature: float) -> float:
    """Radiative heat transfer coefficient of black surfaces.

    Parameters
    ----------
    temperature : float
        Mean temperature of the surfaces [°C].

    Returns
    -------
    float
        Coefficient [W/(m²·K)].

    Raises
    ------
    InvalidInput
        If the temperature is outside −60 to 150 °C.

    Notes
    -----
    ``h_r0 = 4σT³``.

    References
    ----------
    .. [1] ISO 6946:2017, annex on surfaces.

    Examples
    --------
    >>> round(radiative_coefficient(10.0), 1), round(radiative_coefficient(20.0), 1)
    (5.1, 5.7)
    """
    between("surface temperature", temperature, -60.0, 150.0, "°C")
    return 4.0 * STEFAN_BOLTZMANN * (temperature + 273.15) ** 3
