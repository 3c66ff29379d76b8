"""Heat through build-ups: surfaces, layers, ribs as bridges, fixings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hushwright.errors import InvalidInput
from hushwright.physics.thermal._guard import between, not_negative, positive, share
from hushwright.physics.thermal.layers import HeatFlow, ThermalLayer, radiative_coefficient

_LARGEST_LIMIT_RATIO = 1.5  # ISO 6946: above it the mean of the two limits says little
_INSIDE_CONVECTION = {"horizontal": 2.5, "up": 5.0, "down": 0.7}  # W/(m²·K), ISO 6946 annex on surfaces


@dataclass(frozen=True, slots=True)
class SurfaceResistances:
    """Surface resistances on both sides of a build-up.

    Parameters
    ----------
    inside : float
        On the side of the room [m²·K/W].
    outside : float
        On the side of the surroundings [m²·K/W].

    Raises
    ------
    InvalidInput
        If a value is below zero.

    References
    ----------
    .. [1] ISO 6946:2017.

    Examples
    --------
    >>> SurfaceResistances(0.13, 0.04).outside
    0.04
    """

    inside: float
    outside: float

    def __post_init__(self) -> None:
        not_negative("inside surface resistance", self.inside, "m²·K/W")
        not_negative("outside surface resistance", self.outside, "m²·K/W")


@dataclass(frozen=True, slots=True)
class BuildUpSection:
    """A part of a face with the same layers from outside to inside: a bay, a rib, a batten.

    Parameters
    ----------
    area_share : float
        Share of the face [-].
    layers : tuple of SolidLayer, AirLayer or KnownLayer
        Layers from outside to inside; every section of a face has the same number, cut at the same depths.

    Raises
    ------
    InvalidInput
        If the share is no share or there is no layer.

    References
    ----------
    .. [1] ISO 6946:2017.

    Examples
    --------
    >>> from hushwright.physics.thermal.layers import SolidLayer
    >>> BuildUpSection(0.1, (SolidLayer(0.04, 0.13),)).area_share
    0.1
    """

    area_share: float
    layers: tuple[ThermalLayer, ...]

    def __post_init__(self) -> None:
        share("area share", self.area_share)
        if not self.layers:
            raise InvalidInput(f"the section with area share {self.area_share} has 0 layers; it needs one or more")


@dataclass(frozen=True, slots=True)
class MixedResistance:
    """Total thermal resistance of a face with bridges.

    Parameters
    ----------
    value : float
        Mean of the two limits [m²·K/W].
    upper : float
        Upper limit, heat goes straight through [m²·K/W].
    lower : float
        Lower limit, every plane has one temperature [m²·K/W].
    validity : tuple of str
        What goes beyond the method; empty when nothing does.

    References
    ----------
    .. [1] ISO 6946:2017.

    Examples
    --------
    >>> MixedResistance(1.0, 1.1, 0.9, ()).greatest_relative_error
    0.1
    """

    value: float
    upper: float
    lower: float
    validity: tuple[str, ...] = ()

    @property
    def greatest_relative_error(self) -> float:
        """Half the distance of the limits over the value [-]."""
        return round((self.upper - self.lower) / (2.0 * self.value), 12)

    @property
    def transmittance(self) -> float:
        """Thermal transmittance [W/(m²·K)]."""
        return 1.0 / self.value


def surface_resistances(heat_flow: HeatFlow, wind_speed: float = 4.0) -> SurfaceResistances:
    """Surface resistances by direction of heat flow and wind.

    Parameters
    ----------
    heat_flow : {"horizontal", "up", "down"}
        Direction of the heat: a warm room loses heat up through its roof and down through its floor.
    wind_speed : float, optional
        Wind along the outside [m/s]; 4 m/s is the design value of the standard.

    Returns
    -------
    SurfaceResistances
        Inside and outside [m²·K/W].

    Raises
    ------
    InvalidInput
        If the wind is below zero or above 40 m/s.

    Notes
    -----
    ``R = 1/(h_c + 0.9 h_r0)``; inside h_c is 5.0 up, 2.5 sideways, 0.7 down at 20 °C; outside ``4 + 4v`` at 0 °C.

    References
    ----------
    .. [1] ISO 6946:2017, annex on surfaces (convection from memory).

    Examples
    --------
    >>> found = surface_resistances("horizontal")
    >>> round(found.inside, 2), round(found.outside, 2)
    (0.13, 0.04)
    """
    between("wind speed", wind_speed, 0.0, 40.0, "m/s")
    inside = 1.0 / (_INSIDE_CONVECTION[heat_flow] + 0.9 * radiative_coefficient(20.0))
    outside = 1.0 / (4.0 + 4.0 * wind_speed + 0.9 * radiative_coefficient(0.0))
    return SurfaceResistances(inside, outside)


def thermal_resistance(layers: Sequence[ThermalLayer], heat_flow: HeatFlow = "horizontal") -> float:
    """Thermal resistance of layers, surface to surface.

    Parameters
    ----------
    layers : sequence of SolidLayer, AirLayer or KnownLayer, length n_layer
        Layers from outside to inside.
    heat_flow : {"horizontal", "up", "down"}, optional
        Direction of the heat.

    Returns
    -------
    float
        Sum of the layers [m²·K/W].

    Raises
    ------
    InvalidInput
        If there is no layer.

    References
    ----------
    .. [1] ISO 6946:2017.

    Examples
    --------
    >>> from hushwright.physics.thermal.layers import SolidLayer
    >>> round(thermal_resistance([SolidLayer(0.040, 0.040), SolidLayer(0.016, 0.13)]), 3)
    1.123
    """
    if not layers:
        raise InvalidInput(f"{len(layers)} layers given; a build-up needs one or more")
    return sum(layer.resistance(heat_flow) for layer in layers)


def mixed_thermal_resistance(
    sections: Sequence[BuildUpSection],
    heat_flow: HeatFlow = "horizontal",
    surfaces: SurfaceResistances | None = None,
) -> MixedResistance:
    """Total thermal resistance of a face whose layers are bridged by ribs, battens or frames.

    Parameters
    ----------
    sections : sequence of BuildUpSection, length n_section
        Parts of the face with their shares; the shares add up to one.
    heat_flow : {"horizontal", "up", "down"}, optional
        Direction of the heat.
    surfaces : SurfaceResistances, optional
        Surface resistances [m²·K/W]; those of the standard when left out.

    Returns
    -------
    MixedResistance
        Value, both limits [m²·K/W] and notes.

    Raises
    ------
    InvalidInput
        If shares do not add up to one or sections differ in their number of layers.

    Notes
    -----
    Upper limit ``1/R' = Σ f/R_T``, lower limit ``R'' = R_se + Σ_j 1/(Σ f/R_j) + R_si``; the value is their mean. The
    standard does not cover metal through insulation: where the limits are more than 1.5 apart the result says so, and
    the truth may lie anywhere between them.

    References
    ----------
    .. [1] ISO 6946:2017, combined method.

    Examples
    --------
    >>> from hushwright.physics.thermal.layers import SolidLayer
    >>> wool = BuildUpSection(0.9, (SolidLayer(0.04, 0.04),))
    >>> batten = BuildUpSection(0.1, (SolidLayer(0.04, 0.13),))
    >>> round(mixed_thermal_resistance([wool, batten]).transmittance, 3)
    0.994
    """
    _check_sections(sections)
    around = surfaces or surface_resistances(heat_flow)
    ends = around.inside + around.outside
    straight = sum(each.area_share / (ends + thermal_resistance(each.layers, heat_flow)) for each in sections)
    lower = ends
    for index in range(len(sections[0].layers)):
        parallel = [(each.area_share, each.layers[index].resistance(heat_flow)) for each in sections]
        if all(resistance > 0.0 for portion, resistance in parallel if portion > 0.0):
            lower += 1.0 / sum(portion / resistance for portion, resistance in parallel if portion > 0.0)
    upper = 1.0 / straight
    notes: tuple[str, ...] = ()
    if upper / lower > _LARGEST_LIMIT_RATIO:
        notes = (
            f"limits of the resistance are {upper / lower:.2f} apart; ISO 6946 holds up to {_LARGEST_LIMIT_RATIO}",
        )
    return MixedResistance((upper + lower) / 2.0, upper, lower, notes)


def _check_sections(sections: Sequence[BuildUpSection]) -> None:
    total = sum(each.area_share for each in sections)
    if not abs(total - 1.0) < 1e-6:
        raise InvalidInput(f"area shares of {len(sections)} sections add up to {total}; they must add up to 1")
    counts = {len(each.layers) for each in sections}
    if len(counts) != 1:
        raise InvalidInput(f"sections have {sorted(counts)} layers; all must be cut at the same depths")


def thermal_transmittance(
    layers: Sequence[ThermalLayer],
    heat_flow: HeatFlow = "horizontal",
    surfaces: SurfaceResistances | None = None,
) -> float:
    """Thermal transmittance of layers without bridges.

    Parameters
    ----------
    layers : sequence of SolidLayer, AirLayer or KnownLayer, length n_layer
        Layers from outside to inside.
    heat_flow : {"horizontal", "up", "down"}, optional
        Direction of the heat.
    surfaces : SurfaceResistances, optional
        Surface resistances [m²·K/W]; those of the standard when left out.

    Returns
    -------
    float
        Thermal transmittance [W/(m²·K)].

    Raises
    ------
    InvalidInput
        If there is no layer.

    Notes
    -----
    ``U = 1/(R_si + Σ d/λ + R_se)``.

    References
    ----------
    .. [1] ISO 6946:2017.

    Examples
    --------
    >>> from hushwright.physics.thermal.layers import SolidLayer
    >>> round(thermal_transmittance([SolidLayer(0.04, 0.04)], surfaces=SurfaceResistances(0.13, 0.04)), 3)
    0.855
    """
    around = surfaces or surface_resistances(heat_flow)
    return 1.0 / (around.inside + thermal_resistance(layers, heat_flow) + around.outside)


def bridged_transmittance(
    thermal_transmittance: float,
    area: float,
    linear_bridges: Sequence[tuple[float, float]] = (),
    point_bridges: Sequence[tuple[float, int]] = (),
) -> float:
    """Thermal transmittance of a face with linear and point bridges added.

    Parameters
    ----------
    thermal_transmittance : float
        Transmittance of the undisturbed face [W/(m²·K)].
    area : float
        Area of the face [m²].
    linear_bridges : sequence of pairs, optional
        Linear transmittance [W/(m·K)] and length [m] of each.
    point_bridges : sequence of pairs, optional
        Point transmittance [W/K] and number [-] of each.

    Returns
    -------
    float
        Transmittance of the face [W/(m²·K)].

    Raises
    ------
    InvalidInput
        If area or transmittance are not above zero or a bridge is below zero.

    Notes
    -----
    ``U + (Σψl + Σχn)/A``: the way for steel ribs and for mounts and screws that cross the wool.

    References
    ----------
    .. [1] ISO 10211:2017; ISO 13789:2017.

    Examples
    --------
    >>> round(bridged_transmittance(0.6, 6.0, linear_bridges=[(0.05, 12.0)], point_bridges=[(0.02, 12)]), 3)
    0.74
    """
    positive("thermal transmittance", thermal_transmittance, "W/(m²·K)")
    positive("area", area, "m²")
    for per_length, length in linear_bridges:
        not_negative("linear bridge", min(per_length, length), "W/(m·K) or m")
    for each, count in point_bridges:
        not_negative("point bridge", min(each, count), "W/K")
    added = sum(per_length * length for per_length, length in linear_bridges)
    added += sum(each * count for each, count in point_bridges)
    return thermal_transmittance + added / area
