"""Air that passes an open door because the rooms differ in temperature, and what leaks through closed ones."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hushwright.errors import InvalidInput
from hushwright.physics.air import AIR_20C, STANDARD_GRAVITY, Air
from hushwright.physics.airflow._guard import not_negative, open_share, positive
from hushwright.physics.airflow.element import DuctElement

_ORIFICE = 0.6  # discharge coefficient of a sharp-edged crack
_LEAST_DIFFERENCE = 0.5  # K; below it people's movement exchanges more than buoyancy does
_LARGEST_DIFFERENCE = 40.0


@dataclass(frozen=True, slots=True)
class DoorFlow:
    """Air that passes an open door, as much in each direction.

    Parameters
    ----------
    volume_flow_rate : float
        Volume flow rate in each direction [m³/s].
    validity : tuple of str
        What the value leaves out or guesses; empty within the range of the measurements.
    """

    volume_flow_rate: float
    validity: tuple[str, ...] = ()


def door_exchange(
    width: float, height: float, temperature_difference: float, air: Air = AIR_20C, opening: float = 1.0
) -> DoorFlow:
    r"""Air exchanged through an open door between two rooms of different temperature.

    Parameters
    ----------
    width : float
        Clear width [m].
    height : float
        Clear height [m].
    temperature_difference : float
        Difference between the rooms [K], of either sign.
    air : Air, optional
        Mean state of the air.
    opening : float, optional
        Share of the clear width that stands open [-], above 0 to 1.

    Returns
    -------
    DoorFlow
        Volume flow rate in each direction [m³/s] and validity.

    Raises
    ------
    InvalidInput
        If a size is not above zero, the opening is no share or the difference exceeds 40 K.

    Notes
    -----
    .. math:: q = \tfrac13 C_d\, w\, h \sqrt{g\, h\, \Delta T/T}

    Warm air leaves above, cold air enters below a neutral level at half height [1]_; the discharge coefficient falls
    to ``0.40 + 0.0045 ΔT`` by mixing between the two [2]_. Both from memory. Within half a kelvin people's movement
    moves more air than buoyancy: the value is then the least that passes.

    References
    ----------
    .. [1] W. G. Brown and K. R. Solvason, "Natural convection through rectangular openings in partitions",
       *Int. J. Heat Mass Transfer* 5 (1962) 859-868.
    .. [2] D. E. Kiel and D. J. Wilson, "Combining door swing pumping with density driven flow", *ASHRAE Trans.* 95
       (1989) 590-599.

    Examples
    --------
    >>> round(door_exchange(0.62, 1.62, 2.0).volume_flow_rate * 1000, 1)
    45.1
    """
    positive("width of the door", width, "m")
    positive("height of the door", height, "m")
    open_share("opening of the door", opening)
    difference = abs(temperature_difference)
    if not difference <= _LARGEST_DIFFERENCE:
        raise InvalidInput(f"temperature difference is {temperature_difference} K; the law holds up to 40 K")
    discharge = 0.40 + 0.0045 * difference
    buoyancy = math.sqrt(STANDARD_GRAVITY * height * difference / air.absolute_temperature)
    flow = discharge / 3.0 * opening * width * height * buoyancy
    notes = []
    if difference < _LEAST_DIFFERENCE:
        notes.append(f"rooms differ by {difference:.1f} K only: people's movement exchanges more than the value says")
    if opening < 0.5:
        notes.append(f"the door stands {opening:.0%} open: measured were wide openings")
    return DoorFlow(flow, tuple(notes))


def crack_flow(area: float, pressure_difference: float, air: Air = AIR_20C, exponent: float = 0.65) -> float:
    """Air that leaks through cracks and seals under a pressure difference.

    Parameters
    ----------
    area : float
        Equivalent leakage area at 4 Pa [m²].
    pressure_difference : float
        Pressure difference [Pa], 0 or more.
    air : Air, optional
        State of the air.
    exponent : float, optional
        Exponent of the pressure [-], 0.5 for holes to 1 for fine cracks.

    Returns
    -------
    float
        Volume flow rate [m³/s].

    Raises
    ------
    InvalidInput
        If a number is impossible.

    Notes
    -----
    ``q = 0.6 A sqrt(2·4/ρ) (Δp/4)^n``: an orifice of the area at 4 Pa, a power law from there [1]_ (from memory).

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2017, ch. 16 (ventilation and infiltration).

    Examples
    --------
    A slit of 2 m by 0.5 mm under 10 Pa, in litres a second:

    >>> round(crack_flow(0.001, 10.0) * 1000, 2)
    2.81
    """
    not_negative("leakage area", area, "m²")
    not_negative("pressure difference", pressure_difference, "Pa")
    if not 0.5 <= exponent <= 1.0:
        raise InvalidInput(f"exponent of the leak is {exponent}; it lies between 0.5 (holes) and 1 (fine cracks)")
    return _ORIFICE * area * math.sqrt(8.0 / air.density) * math.pow(pressure_difference / 4.0, exponent)


@dataclass(frozen=True, slots=True)
class Crack(DuctElement):
    """Cracks and seals as a way of the air, to be joined with ducts and fans.

    Parameters
    ----------
    area : float
        Equivalent leakage area at 4 Pa [m²].
    exponent : float, optional
        Exponent of the pressure [-], 0.5 for holes to 1 for fine cracks.

    Raises
    ------
    InvalidInput
        If a number is impossible.
    """

    area: float
    exponent: float = 0.65

    def __post_init__(self) -> None:
        positive("leakage area", self.area, "m²")
        crack_flow(self.area, 4.0, exponent=self.exponent)

    def _loss(self, volume_flow_rate: float, air: Air) -> float:
        at_four_pascal = crack_flow(self.area, 4.0, air, self.exponent)
        return 4.0 * math.pow(volume_flow_rate / at_four_pascal, 1.0 / self.exponent)


# Largest leakage [m³/s per m² of duct wall at 1 Pa]; EN 1507 and EN 12237 (from memory).
_TIGHTNESS = {"A": 0.027e-3, "B": 0.009e-3, "C": 0.003e-3, "D": 0.001e-3}


def duct_leakage(wall_area: float, pressure: float, tightness_class: str = "B") -> float:
    """Most air that a duct may lose through its joints.

    Parameters
    ----------
    wall_area : float
        Surface of the duct [m²].
    pressure : float
        Mean static pressure over its surroundings [Pa], of either sign.
    tightness_class : str, optional
        Class of airtightness, A to D.

    Returns
    -------
    float
        Volume flow rate [m³/s].

    Raises
    ------
    InvalidInput
        If the area is below zero or the class unknown.

    Notes
    -----
    ``q = f A |p|^0.65`` with f = 0.027, 0.009, 0.003, 0.001 l/(s m²) for A to D [1]_ (from memory).

    References
    ----------
    .. [1] EN 12237:2003, *Ductwork, strength and leakage of circular sheet metal ducts*; EN 1507:2006.

    Examples
    --------
    >>> round(duct_leakage(2.0, 100.0) * 1000, 2)
    0.36
    """
    not_negative("wall area of the duct", wall_area, "m²")
    if tightness_class not in _TIGHTNESS:
        raise InvalidInput(f"tightness class is {tightness_class!r}; known are {', '.join(_TIGHTNESS)}")
    return _TIGHTNESS[tightness_class] * wall_area * math.pow(abs(pressure), 0.65)
