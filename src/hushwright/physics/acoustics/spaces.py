"""Layers between and before leaves: air, blankets, glued foam, perforated facings."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.constants import (
    EDGE_ABSORPTION,
    FACE_ABSORPTION,
    GLASS_FACE_ABSORPTION,
    REVEAL_ABSORPTION,
)


def require_range(what: str, value: float, low: float, high: float, unit: str, *, open_low: bool = False) -> None:
    """Refuse what no material can have, with the value shown.

    Parameters
    ----------
    what : str
        Name of the quantity for the message [-].
    value : float
        Value in its unit [-].
    low : float
        Lowest value in the same unit [-].
    high : float
        Highest value in the same unit [-].
    unit : str
        Unit for the message [-].
    open_low : bool, optional
        Whether the lowest value itself is refused [-].

    Raises
    ------
    InvalidInput
        If the value is outside the range or not finite.

    References
    ----------
    .. [1] The rule of this package: input out of range is never clipped.

    Examples
    --------
    >>> require_range("thickness", 0.01, 0.0, 1.0, "m")
    """
    inside = (low < value if open_low else low <= value) and value <= high
    if not (math.isfinite(value) and inside):
        bound = "more than" if open_low else "at least"
        raise InvalidInput(f"{what} is {value} {unit}; it must be {bound} {low:g} and at most {high:g} {unit}".rstrip())


@dataclass(frozen=True, slots=True)
class Porous:
    """Wool or open foam as a limp frame filled with air.

    Parameters
    ----------
    flow_resistivity : float
        Static airflow resistivity [Pa·s/m²].
    porosity : float
        Porosity [-].
    tortuosity : float
        High-frequency tortuosity [-], 1 or more.
    density : float
        Bulk density [kg/m³].
    viscous_length : float or None, optional
        Viscous characteristic length [m]; None takes ``sqrt(8 α∞ μ/(φ σ))``.
    thermal_length : float or None, optional
        Thermal characteristic length [m]; None takes twice the viscous length.

    Raises
    ------
    InvalidInput
        If a value is impossible.

    References
    ----------
    .. [1] J.-F. Allard and N. Atalla, *Propagation of Sound in Porous Media*, 2nd ed., Wiley, 2009, ch. 5.

    Examples
    --------
    >>> Porous(10_000.0, 0.98, 1.0, 40.0).density
    40.0
    """

    flow_resistivity: float
    porosity: float
    tortuosity: float
    density: float
    viscous_length: float | None = None
    thermal_length: float | None = None

    def __post_init__(self) -> None:
        require_range("flow resistivity", self.flow_resistivity, 10.0, 1e8, "Pa·s/m²")
        require_range("porosity", self.porosity, 0.05, 1.0, "")
        require_range("tortuosity", self.tortuosity, 1.0, 10.0, "")
        require_range("bulk density", self.density, 0.0, 3000.0, "kg/m³", open_low=True)
        for length in (self.viscous_length, self.thermal_length):
            if length is not None:
                require_range("characteristic length", length, 1e-7, 0.01, "m")


@dataclass(frozen=True, slots=True)
class PorousLayer:
    """Blanket that fills its own thickness, open to the layers beside it.

    Parameters
    ----------
    porous : Porous
        Material of the blanket (flow resistivity [Pa·s/m²] and so on).
    thickness : float
        Thickness [m].

    Raises
    ------
    InvalidInput
        If the thickness is negative.

    References
    ----------
    .. [1] J.-F. Allard and N. Atalla, *Propagation of Sound in Porous Media*, 2nd ed., Wiley, 2009, ch. 11.

    Examples
    --------
    >>> round(PorousLayer(Porous(10_000.0, 0.98, 1.0, 40.0), 0.05).surface_density, 2)
    2.0
    """

    porous: Porous
    thickness: float

    def __post_init__(self) -> None:
        require_range("blanket thickness", self.thickness, 0.0, 2.0, "m")

    @property
    def surface_density(self) -> float:
        """Mass per area [kg/m²]."""
        return self.porous.density * self.thickness


@dataclass(frozen=True, slots=True)
class Gap:
    """Air space between two leaves, with or without a blanket in it.

    Parameters
    ----------
    thickness : float
        Clear depth between the leaves [m].
    fill : Porous or None, optional
        Blanket in the space (flow resistivity [Pa·s/m²] and so on).
    fill_thickness : float, optional
        Thickness of the blanket [m], at most the depth; it hangs in the middle.
    bay_perimeter : float or None, optional
        Perimeter of one bay between ribs or studs [m]; None takes the whole partition.
    bay_area : float or None, optional
        Area of one bay [m²]; None takes the whole partition.
    edge_absorption : float or None, optional
        Absorption of the rim of the space [-]; None takes that of its kind, see `settled_absorption`.
    face_absorption : float or None, optional
        Absorption of the two faces of the space together [-]; None takes that of its kind.

    Raises
    ------
    InvalidInput
        If the blanket is thicker than the space or a value is impossible.

    References
    ----------
    .. [1] J. L. Davy, "The improvement of a simple theoretical model for the prediction of the sound insulation of
       double leaf walls", *J. Acoust. Soc. Am.* 127 (2010) 841–849: losses of empty cavities at their rim.

    Examples
    --------
    >>> Gap(0.05, Porous(10_000.0, 0.98, 1.0, 40.0), 0.04).surface_density
    1.6
    """

    thickness: float
    fill: Porous | None = None
    fill_thickness: float = 0.0
    bay_perimeter: float | None = None
    bay_area: float | None = None
    edge_absorption: float | None = None
    face_absorption: float | None = None

    def __post_init__(self) -> None:
        require_range("gap", self.thickness, 0.0, 5.0, "m")
        require_range("fill thickness", self.fill_thickness, 0.0, 5.0, "m")
        require_range("edge absorption", self.edge_absorption or 0.0, 0.0, 1.0, "")
        require_range("face absorption", self.face_absorption or 0.0, 0.0, 2.0, "")
        if self.fill_thickness > self.thickness * (1.0 + 1e-9):
            raise InvalidInput(f"fill thickness is {self.fill_thickness} m; the gap is only {self.thickness} m deep")
        if self.fill is None and self.fill_thickness > 0.0:
            raise InvalidInput(f"fill thickness is {self.fill_thickness} m but no fill material is given")
        if (self.bay_perimeter is None) != (self.bay_area is None):
            raise InvalidInput(
                f"bay perimeter {self.bay_perimeter} m and area {self.bay_area} m² must be given together"
            )
        if self.bay_perimeter is not None and self.bay_area is not None:
            require_range("bay perimeter", self.bay_perimeter, 0.0, 1000.0, "m", open_low=True)
            require_range("bay area", self.bay_area, 0.0, 1e4, "m²", open_low=True)

    @property
    def surface_density(self) -> float:
        """Mass per area of the blanket [kg/m²]."""
        return 0.0 if self.fill is None else self.fill.density * self.fill_thickness


DEEPEST_SPACER = 0.025
"""Depth [m] up to which two panes form a sealed unit on a spacer; deeper ones stand in frames (common practice)."""


def settled_absorption(gap: Gap, depth: float, *, between_glass: bool) -> tuple[float, float]:
    """Absorption of rim and faces of a gap, by its kind where it does not state its own.

    Parameters
    ----------
    gap : Gap
        The gap, with its own values [-] or None.
    depth : float
        Depth of the whole space that the gap is part of [m].
    between_glass : bool
        Whether the leaves on both sides are glass [-].

    Returns
    -------
    tuple of float
        Absorption of the rim and of both faces together [-].

    References
    ----------
    .. [1] docs/accuracy.md: the constants set on the fit half.

    Examples
    --------
    >>> settled_absorption(Gap(0.1, edge_absorption=0.8, face_absorption=0.01), 0.1, between_glass=True)
    (0.8, 0.01)
    """
    edge, face = gap.edge_absorption, gap.face_absorption
    if edge is None:
        edge = REVEAL_ABSORPTION if between_glass and depth > DEEPEST_SPACER else EDGE_ABSORPTION
    if face is None:
        face = GLASS_FACE_ABSORPTION if between_glass else FACE_ABSORPTION
    return edge, face


@dataclass(frozen=True, slots=True)
class GluedFoam:
    """Foam glued to both neighbours: a spring, half of its mass on each side.

    Parameters
    ----------
    dynamic_stiffness : float
        Dynamic stiffness per area [N/m³].
    thickness : float
        Thickness [m]; 0 stands for no foam.
    density : float
        Density [kg/m³].
    loss_factor : float
        Loss factor of the spring [-].

    Raises
    ------
    InvalidInput
        If a value is impossible.

    References
    ----------
    .. [1] C. Hopkins, *Sound Insulation*, Butterworth-Heinemann, 2007, ch. 4 (linings on a resilient layer).

    Examples
    --------
    >>> round(GluedFoam(10e6, 0.03, 60.0, 0.1).surface_density, 2)
    1.8
    """

    dynamic_stiffness: float
    thickness: float
    density: float
    loss_factor: float

    def __post_init__(self) -> None:
        require_range("dynamic stiffness", self.dynamic_stiffness, 0.0, 1e13, "N/m³", open_low=True)
        require_range("foam thickness", self.thickness, 0.0, 2.0, "m")
        require_range("foam density", self.density, 0.0, 3000.0, "kg/m³")
        require_range("foam loss factor", self.loss_factor, 0.0, 2.0, "")

    @property
    def surface_density(self) -> float:
        """Mass per area [kg/m²]."""
        return self.density * self.thickness


@dataclass(frozen=True, slots=True)
class PerforatedFacing:
    """Thin sheet with round holes: mass of the air in the holes beside the mass of the sheet.

    Parameters
    ----------
    thickness : float
        Thickness [m].
    density : float
        Density of the sheet [kg/m³].
    open_area_ratio : float
        Share of open area [-].
    hole_radius : float
        Radius of a hole [m].

    Raises
    ------
    InvalidInput
        If a value is impossible.

    References
    ----------
    .. [1] J.-F. Allard and N. Atalla, *Propagation of Sound in Porous Media*, 2nd ed., Wiley, 2009, ch. 9.

    Examples
    --------
    >>> round(PerforatedFacing(0.001, 7850.0, 0.2, 0.0015).surface_density, 2)
    6.28
    """

    thickness: float
    density: float
    open_area_ratio: float
    hole_radius: float

    def __post_init__(self) -> None:
        require_range("facing thickness", self.thickness, 0.0, 0.1, "m")
        require_range("facing density", self.density, 0.0, 25_000.0, "kg/m³", open_low=True)
        require_range("open area ratio", self.open_area_ratio, 0.0, 0.95, "", open_low=True)
        require_range("hole radius", self.hole_radius, 0.0, 0.1, "m", open_low=True)

    @property
    def surface_density(self) -> float:
        """Mass per area of the sheet [kg/m²]."""
        return self.thickness * self.density * (1.0 - self.open_area_ratio)
