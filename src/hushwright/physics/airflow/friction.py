"""Friction of air along the walls of a duct."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hushwright.errors import InvalidInput
from hushwright.physics.air import AIR_20C, Air
from hushwright.physics.airflow._guard import not_negative, positive

LAMINAR_END = 2000.0
TURBULENT_BEGIN = 4000.0
_ROUGHEST = 0.05  # end of the Moody chart


@dataclass(frozen=True, slots=True)
class DuctSection:
    """Cross-section of a duct; ``round_section`` and ``rectangular_section`` make one.

    Parameters
    ----------
    area : float
        Free area [m²].
    hydraulic_diameter : float
        Four times the area over the wetted perimeter [m].
    """

    area: float
    hydraulic_diameter: float

    def __post_init__(self) -> None:
        positive("area of the duct", self.area, "m²")
        positive("hydraulic diameter of the duct", self.hydraulic_diameter, "m")
        if self.hydraulic_diameter > 1.000001 * self.equivalent_diameter:
            raise InvalidInput(
                f"hydraulic diameter is {self.hydraulic_diameter} m; no section of {self.area} m² has more than "
                f"{self.equivalent_diameter:.4g} m"
            )

    @property
    def perimeter(self) -> float:
        """Wetted perimeter [m]."""
        return 4.0 * self.area / self.hydraulic_diameter

    @property
    def equivalent_diameter(self) -> float:
        """Diameter of the circle of the same area [m]."""
        return math.sqrt(4.0 * self.area / math.pi)

    def velocity(self, volume_flow_rate: float) -> float:
        """Mean velocity [m/s].

        Parameters
        ----------
        volume_flow_rate : float
            Volume flow rate [m³/s].
        """
        return volume_flow_rate / self.area

    def velocity_pressure(self, volume_flow_rate: float, air: Air = AIR_20C) -> float:
        """Pressure of the mean velocity, ``ρ v²/2`` [Pa].

        Parameters
        ----------
        volume_flow_rate : float
            Volume flow rate [m³/s].
        air : Air, optional
            State of the air.
        """
        return 0.5 * air.density * self.velocity(volume_flow_rate) ** 2

    def reynolds_number(self, volume_flow_rate: float, air: Air = AIR_20C) -> float:
        """Reynolds number on the hydraulic diameter [-].

        Parameters
        ----------
        volume_flow_rate : float
            Volume flow rate [m³/s].
        air : Air, optional
            State of the air.
        """
        return air.density * self.velocity(volume_flow_rate) * self.hydraulic_diameter / air.viscosity


def round_section(diameter: float) -> DuctSection:
    """Round cross-section.

    Parameters
    ----------
    diameter : float
        Inner diameter [m].

    Returns
    -------
    DuctSection
        Area [m²] and hydraulic diameter [m].

    Raises
    ------
    InvalidInput
        If the diameter is not above zero.

    References
    ----------
    .. [1] F. M. White, *Fluid Mechanics*, 7th ed., McGraw-Hill, 2011, ch. 6.

    Examples
    --------
    >>> round(round_section(0.125).velocity(0.060), 2)
    4.89
    """
    positive("diameter of the duct", diameter, "m")
    return DuctSection(math.pi * diameter**2 / 4.0, diameter)


def rectangular_section(width: float, height: float) -> DuctSection:
    """Rectangular cross-section.

    Parameters
    ----------
    width : float
        Inner width [m].
    height : float
        Inner height [m].

    Returns
    -------
    DuctSection
        Area [m²] and hydraulic diameter [m].

    Raises
    ------
    InvalidInput
        If a side is not above zero.

    References
    ----------
    .. [1] F. M. White, *Fluid Mechanics*, 7th ed., McGraw-Hill, 2011, ch. 6.

    Examples
    --------
    >>> round(rectangular_section(0.350, 0.200).hydraulic_diameter, 4)
    0.2545
    """
    positive("width of the duct", width, "m")
    positive("height of the duct", height, "m")
    return DuctSection(width * height, 2.0 * width * height / (width + height))


def equal_friction_diameter(width: float, height: float) -> float:
    """Diameter of the round duct that loses as much at the same flow as a rectangular one.

    Parameters
    ----------
    width : float
        Inner width [m].
    height : float
        Inner height [m].

    Returns
    -------
    float
        Diameter [m].

    Raises
    ------
    InvalidInput
        If a side is not above zero.

    Notes
    -----
    ``1.30 (ab)^0.625/(a + b)^0.25``, for comparison with duct charts.

    References
    ----------
    .. [1] R. G. Huebscher, "Friction equivalents for round, square and rectangular ducts", *ASHVE Trans.* 54 (1948)
       101-118.

    Examples
    --------
    >>> round(equal_friction_diameter(0.350, 0.200), 4)
    0.2864
    """
    positive("width of the duct", width, "m")
    positive("height of the duct", height, "m")
    return 1.30 * math.pow(width * height, 0.625) / math.pow(width + height, 0.25)


def darcy_friction_factor(reynolds_number: float, relative_roughness: float = 0.0) -> float:
    r"""Darcy friction factor of a straight duct.

    Parameters
    ----------
    reynolds_number : float
        Reynolds number on the hydraulic diameter [-], above 0.
    relative_roughness : float, optional
        Roughness over hydraulic diameter [-], 0 to 0.05.

    Returns
    -------
    float
        Darcy friction factor [-], four times Fanning's.

    Raises
    ------
    InvalidInput
        If the Reynolds number is not above zero or the wall rougher than the law covers.

    Notes
    -----
    Colebrook's law from Re = 4000 up,

    .. math:: 1/\sqrt f = -2\lg\left(\varepsilon/3.7D + 2.51/(Re\sqrt f)\right),

    solved without iteration after Clamond [2]_; ``64/Re`` up to 2000; between the two, where nobody knows, a straight
    line, so that more flow never costs less.

    References
    ----------
    .. [1] C. F. Colebrook, *J. Inst. Civ. Eng.* 11 (1939) 133-156.
    .. [2] D. Clamond, "Efficient resolution of the Colebrook equation", *Ind. Eng. Chem. Res.* 48 (2009) 3665-3671.

    Examples
    --------
    >>> round(darcy_friction_factor(1e5, 1e-4), 6)
    0.018514
    """
    positive("Reynolds number", reynolds_number, "")
    if not 0.0 <= relative_roughness <= _ROUGHEST:
        raise InvalidInput(f"relative roughness is {relative_roughness}; Colebrook's law holds from 0 to 0.05")
    if reynolds_number <= LAMINAR_END:
        return 64.0 / reynolds_number
    from fluids.friction import friction_factor

    turbulent = float(
        friction_factor(Re=max(reynolds_number, TURBULENT_BEGIN), eD=relative_roughness, Method="Clamond")
    )
    if reynolds_number >= TURBULENT_BEGIN:
        return turbulent
    within = (reynolds_number - LAMINAR_END) / (TURBULENT_BEGIN - LAMINAR_END)
    return (1.0 - within) * 64.0 / LAMINAR_END + within * turbulent


def friction_loss(
    section: DuctSection, length: float, roughness: float, volume_flow_rate: float, air: Air = AIR_20C
) -> float:
    """Pressure that friction takes in a straight duct.

    Parameters
    ----------
    section : DuctSection
        Cross-section.
    length : float
        Length [m].
    roughness : float
        Absolute roughness of the wall [m].
    volume_flow_rate : float
        Volume flow rate [m³/s], 0 or more.
    air : Air, optional
        State of the air.

    Returns
    -------
    float
        Loss of total pressure [Pa].

    Raises
    ------
    InvalidInput
        If a number is impossible.

    Notes
    -----
    ``f L/D_h · ρ v²/2`` (Darcy and Weisbach).

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2017, ch. 21 (duct design).

    Examples
    --------
    >>> round(friction_loss(rectangular_section(0.350, 0.200), 1.0, 0.09e-3, 0.5), 1)
    2.3
    """
    not_negative("length of the duct", length, "m")
    not_negative("roughness of the duct", roughness, "m")
    if not_negative("volume flow rate", volume_flow_rate, "m³/s") == 0.0:
        return 0.0
    factor = darcy_friction_factor(
        section.reynolds_number(volume_flow_rate, air), roughness / section.hydraulic_diameter
    )
    return factor * length / section.hydraulic_diameter * section.velocity_pressure(volume_flow_rate, air)
