"""Condensation inside build-ups over the seasons, after Glaser."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from hushwright.errors import InvalidInput
from hushwright.physics.thermal.moisture import (
    TIGHT_THICKNESS,
    VAPOUR_PERMEABILITY_OF_AIR,
    Season,
    SeasonMoisture,
    VapourLayer,
    plane_temperatures,
    saturation_pressure,
)

_THINNEST = 1e-3  # m of still air; a layer without any resistance would make the slope of the pressure infinite


@dataclass(frozen=True, slots=True)
class YearMoisture:
    """What a year does to a build-up that starts dry with the first month that condenses.

    Parameters
    ----------
    seasons : tuple of SeasonMoisture
        The months in the order in which they were computed.
    first : int
        Index of the first computed month in the list that was given [-].
    peak_water : float
        Most water in the build-up at the end of any month [kg/m²].
    water_left : float
        Water that has not dried after twelve months [kg/m²].

    References
    ----------
    .. [1] ISO 13788:2012.

    Examples
    --------
    >>> YearMoisture((), 0, 0.2, 0.0).dries
    True
    """

    seasons: tuple[SeasonMoisture, ...]
    first: int
    peak_water: float
    water_left: float

    @property
    def dries(self) -> bool:
        """Whether the build-up is dry again at the end of the year."""
        return self.water_left <= 1e-9


def interstitial_condensation(
    layers: Sequence[VapourLayer],
    seasons: Sequence[Season],
    inside_surface_resistance: float = 0.13,
    outside_surface_resistance: float = 0.04,
    start_water: Sequence[float] | None = None,
) -> tuple[SeasonMoisture, ...]:
    """Water that condenses and dries in the planes of a build-up, season after season.

    Parameters
    ----------
    layers : sequence of VapourLayer, length n_layer
        Layers from outside to inside.
    seasons : sequence of Season, length n_season
        Steady climates in their order.
    inside_surface_resistance : float, optional
        Surface resistance inside [m²·K/W].
    outside_surface_resistance : float, optional
        Surface resistance outside [m²·K/W].
    start_water : sequence of floats, length n_layer + 1, optional
        Water in each plane at the start [kg/m²]; dry when left out.

    Returns
    -------
    tuple of SeasonMoisture, length n_season
        Temperatures, pressures and water of each season [kg/m²].

    Raises
    ------
    InvalidInput
        If there is no layer or no season, or the start does not fit the planes.

    Notes
    -----
    Over the vapour diffusion thickness the vapour pressure is a string that hangs below the saturation pressures of
    the planes and is tied to the saturation pressure where a plane is wet. Where it bends, water gathers or leaves
    with ``δ₀ (Δp_in/s_in − Δp_out/s_out)``. A plane that dries within a season is untied at that time. Capillary
    transport, air leaks through the build-up and heat of condensation are left out, as in the standard; a leak of
    room air through a joint can bring far more water than diffusion.

    References
    ----------
    .. [1] ISO 13788:2012; H. Glaser, *Kältetechnik* 11 (1959), 345-349.

    Examples
    --------
    A wool-filled wall with a steel skin gathers water behind the skin in the cold.

    >>> from hushwright.physics.thermal.moisture import Climate
    >>> wall = [VapourLayer(0.0, float("inf")), VapourLayer(1.5, 0.05), VapourLayer(0.1, 1.0)]
    >>> cold = Season(Climate(20.0, 0.5), Climate(-5.0, 0.8), 30 * 86400.0)
    >>> round(interstitial_condensation(wall, [cold])[0].accumulated[1], 3)
    0.369
    """
    if not seasons:
        raise InvalidInput(f"{len(seasons)} seasons given; one or more are needed")
    thicknesses = [min(max(layer.vapour_diffusion_thickness, _THINNEST), TIGHT_THICKNESS) for layer in layers]
    depths = [sum(thicknesses[:index]) for index in range(len(thicknesses) + 1)]
    water = list(start_water) if start_water is not None else [0.0] * len(depths)
    if len(water) != len(depths) or min(water) < 0.0:
        raise InvalidInput(f"water at the start is {water} kg/m²; {len(depths)} planes need a value of 0 or more each")
    results = []
    for season in seasons:
        temperatures = plane_temperatures(
            layers,
            season.inside.temperature,
            season.outside.temperature,
            inside_surface_resistance,
            outside_surface_resistance,
        )
        saturation = [saturation_pressure(temperature) for temperature in temperatures]
        ends = (season.outside.vapour_pressure, season.inside.vapour_pressure)
        pressures, before = _hanging_string(depths, saturation, ends, water), list(water)
        water = _one_season(depths, saturation, ends, water, season.duration)
        gained = tuple(after - earlier for after, earlier in zip(water, before, strict=True))
        results.append(SeasonMoisture(temperatures, tuple(saturation), tuple(pressures), gained, tuple(water)))
    return tuple(results)


def yearly_condensation(
    layers: Sequence[VapourLayer],
    months: Sequence[Season],
    inside_surface_resistance: float = 0.13,
    outside_surface_resistance: float = 0.04,
) -> YearMoisture:
    """Condensation through a year of months, starting dry with the first month that condenses.

    Parameters
    ----------
    layers : sequence of VapourLayer, length n_layer
        Layers from outside to inside.
    months : sequence of Season, length n_month
        The months of a year in their order.
    inside_surface_resistance : float, optional
        Surface resistance inside [m²·K/W].
    outside_surface_resistance : float, optional
        Surface resistance outside [m²·K/W].

    Returns
    -------
    YearMoisture
        Every month, the peak and what is left after the year [kg/m²].

    Raises
    ------
    InvalidInput
        If there is no layer or no month.

    References
    ----------
    .. [1] ISO 13788:2012, section on interstitial condensation.

    Examples
    --------
    >>> from hushwright.physics.thermal.moisture import Climate
    >>> wall = [VapourLayer(0.0, float("inf")), VapourLayer(1.5, 0.05), VapourLayer(0.1, 1.0)]
    >>> months = [Season(Climate(20.0, 0.5), Climate(t, 0.8), 30 * 86400.0) for t in (-2, 5, 15, 20, 12, 3)]
    >>> year = yearly_condensation(wall, months)
    >>> year.first, year.dries
    (5, True)
    """
    around = (inside_surface_resistance, outside_surface_resistance)
    wet = [sum(interstitial_condensation(layers, [month], *around)[0].condensed) > 0.0 for month in months]
    first = next((index for index in range(len(wet)) if wet[index] and not wet[index - 1]), 0)
    ordered = [*months[first:], *months[:first]]
    seasons = interstitial_condensation(layers, ordered, *around)
    totals = [sum(season.accumulated) for season in seasons]
    return YearMoisture(seasons, first, max(totals), totals[-1])


def _hanging_string(
    depths: Sequence[float], saturation: Sequence[float], ends: tuple[float, float], water: Sequence[float]
) -> list[float]:
    """Vapour pressure in each plane: the lower hull between the ends and the wet planes."""
    last = len(depths) - 1
    heights = list(saturation)
    heights[0], heights[last] = min(ends[0], saturation[0]), min(ends[1], saturation[last])
    tied = [0, *(plane for plane in range(1, last) if water[plane] > 0.0), last]
    pressures = [0.0] * len(depths)
    slope = partial(_slope, depths, heights)
    for left, right in zip(tied[:-1], tied[1:], strict=True):
        hull = [left]
        for plane in range(left + 1, right + 1):
            while len(hull) > 1 and slope(hull[-2], hull[-1]) >= slope(hull[-1], plane):
                hull.pop()
            hull.append(plane)
        for start, end in zip(hull[:-1], hull[1:], strict=True):
            for plane in range(start, end + 1):
                pressures[plane] = heights[start] + slope(start, end) * (depths[plane] - depths[start])
    return pressures


def _slope(depths: Sequence[float], heights: Sequence[float], first: int, second: int) -> float:
    return (heights[second] - heights[first]) / (depths[second] - depths[first])


def _rates(depths: Sequence[float], pressures: Sequence[float], saturation: Sequence[float]) -> list[float]:
    """Water gained per time in each inner plane [kg/(m²·s)]; zero where the string runs straight."""
    rates = [0.0] * len(depths)
    for plane in range(1, len(depths) - 1):
        if pressures[plane] >= saturation[plane] * (1.0 - 1e-12):
            inflow = _slope(depths, pressures, plane, plane + 1)
            rates[plane] = VAPOUR_PERMEABILITY_OF_AIR * (inflow - _slope(depths, pressures, plane - 1, plane))
    return rates


def _one_season(
    depths: Sequence[float],
    saturation: Sequence[float],
    ends: tuple[float, float],
    water: Sequence[float],
    duration: float,
) -> list[float]:
    """Water at the end of a season, untying each plane when it has dried."""
    now, remaining = list(water), duration
    while remaining > 0.0:
        rates = _rates(depths, _hanging_string(depths, saturation, ends, now), saturation)
        drying = {plane: now[plane] / -rate for plane, rate in enumerate(rates) if rate < 0.0 < now[plane]}
        step = min([remaining, *drying.values()])
        for plane, rate in enumerate(rates):
            dried = plane in drying and drying[plane] <= step
            now[plane] = 0.0 if dried else max(now[plane] + rate * step, 0.0)
        remaining -= step
    return now
