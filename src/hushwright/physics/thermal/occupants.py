"""Heat that people give off, sensible and latent, by what they do and how warm the room is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from hushwright.errors import InvalidInput
from hushwright.physics.thermal._guard import between, positive

HEAT_OF_VAPORISATION: Final = 2.45e6
"""Heat of vaporisation of water at about 21 °C [J/kg]."""

_METABOLIC_UNIT = 58.15  # W/m² of body surface, ISO 8996
_STEP = 2.0  # K between columns of the first table
_COLUMNS = (20.0, 22.0, 24.0, 26.0)
# Jones, Air Conditioning Engineering, 5th ed., table 7.16: total, then sensible at 20, 22, 24 and 26 °C, all in W.
_BY_TEMPERATURE: dict[str, tuple[float, tuple[float, float, float, float]]] = {
    "seated at rest": (115.0, (90.0, 80.0, 75.0, 65.0)),
    "office work": (140.0, (100.0, 90.0, 80.0, 70.0)),
    "standing": (150.0, (105.0, 95.0, 82.0, 72.0)),
    "eating in restaurant": (160.0, (110.0, 100.0, 85.0, 75.0)),
    "light work in factory": (235.0, (130.0, 115.0, 100.0, 80.0)),
    "dancing": (265.0, (140.0, 125.0, 105.0, 90.0)),
}
# ASHRAE Fundamentals 2009/2013 (SI), ch. 18, table 1, at 24 °C: adjusted total and sensible, both in W. The note of the
# table keeps the total at 27 °C and takes about 20 % off the sensible part.
_AT_24: dict[str, tuple[float, float]] = {
    "seated at theatre, matinee": (95.0, 65.0),
    "seated at theatre, night": (105.0, 70.0),
    "seated, very light work": (115.0, 70.0),
    "moderately active office work": (130.0, 75.0),
    "standing, light work": (130.0, 75.0),
    "walking, standing": (145.0, 75.0),
    "sedentary work": (160.0, 80.0),
    "light bench work": (220.0, 80.0),
    "moderate dancing": (250.0, 90.0),
    "walking 4.8 km/h": (295.0, 110.0),
    "bowling": (425.0, 170.0),
    "heavy work": (425.0, 170.0),
    "heavy machine work": (470.0, 185.0),
    "athletics": (525.0, 210.0),
}

ACTIVITIES: Final = (*_BY_TEMPERATURE, *_AT_24)
"""Activities whose heat is known."""


@dataclass(frozen=True, slots=True)
class OccupantHeat:
    """Heat of one person.

    Parameters
    ----------
    sensible_heat : float
        Heat that warms the room [W].
    latent_heat : float
        Heat carried off as vapour [W].
    validity : tuple of str, optional
        What goes beyond the source; empty when nothing does.

    References
    ----------
    .. [1] ASHRAE Handbook, Fundamentals, 2009, ch. 18.

    Examples
    --------
    >>> OccupantHeat(70.0, 45.0).total_heat
    115.0
    """

    sensible_heat: float
    latent_heat: float
    validity: tuple[str, ...] = ()

    @property
    def total_heat(self) -> float:
        """Sensible and latent heat [W]."""
        return self.sensible_heat + self.latent_heat

    @property
    def vapour(self) -> float:
        """Water given off [kg/s]."""
        return self.latent_heat / HEAT_OF_VAPORISATION


def occupant_heat(activity: str, temperature: float = 24.0) -> OccupantHeat:
    """Sensible and latent heat of one person by activity.

    Parameters
    ----------
    activity : str
        One of `ACTIVITIES`.
    temperature : float, optional
        Temperature of the room [°C].

    Returns
    -------
    OccupantHeat
        Sensible and latent heat [W].

    Raises
    ------
    InvalidInput
        If the activity is unknown or the room is outside 0 to 45 °C.

    Notes
    -----
    Between the columns of the table along straight lines; beyond them the last slope goes on, the total stays, and the
    result says so.

    References
    ----------
    .. [1] W. P. Jones, *Air Conditioning Engineering*, 5th ed., table 7.16.
    .. [2] ASHRAE Handbook, Fundamentals (SI), 2009, ch. 18, table 1.

    Examples
    --------
    >>> heat = occupant_heat("standing", 26.0)
    >>> heat.sensible_heat, heat.latent_heat
    (72.0, 78.0)
    """
    between("room temperature", temperature, 0.0, 45.0, "°C")
    if activity in _BY_TEMPERATURE:
        total, row = _BY_TEMPERATURE[activity]
        sensible, low, high = _along(row, temperature), _COLUMNS[0], _COLUMNS[-1]
    elif activity in _AT_24:
        total, at_24 = _AT_24[activity]
        sensible, low, high = at_24 * (1.0 - 0.2 * (temperature - 24.0) / 3.0), 24.0, 27.0
    else:
        raise InvalidInput(f"activity is {activity!r}; known are {', '.join(ACTIVITIES)}")
    return _bounded(total, sensible, temperature, low, high)


def metabolic_heat(metabolic_rate: float, temperature: float = 24.0, body_surface: float = 1.8) -> OccupantHeat:
    """Sensible and latent heat of one person by metabolic rate: singers, players, listeners.

    Parameters
    ----------
    metabolic_rate : float
        Metabolic rate [met], 0.8 to 8.
    temperature : float, optional
        Temperature of the room [°C].
    body_surface : float, optional
        Surface of the body [m²].

    Returns
    -------
    OccupantHeat
        Sensible and latent heat [W].

    Raises
    ------
    InvalidInput
        If the rate, the temperature or the surface is impossible.

    Notes
    -----
    The total is ``58.15 M A``. The sensible part runs between the rows of the table by total and temperature; outside
    the rows (115 to 265 W) its share stays that of the nearest row and the result says so.

    References
    ----------
    .. [1] ISO 8996:2021 (58.15 W/m² per met).
    .. [2] W. P. Jones, *Air Conditioning Engineering*, 5th ed., table 7.16.

    Examples
    --------
    >>> heat = metabolic_heat(2.0, 24.0)
    >>> round(heat.total_heat), round(heat.sensible_heat)
    (209, 95)
    """
    between("metabolic rate", metabolic_rate, 0.8, 8.0, "met")
    between("room temperature", temperature, 0.0, 45.0, "°C")
    total = _METABOLIC_UNIT * metabolic_rate * positive("body surface", body_surface, "m²")
    rows = sorted(_BY_TEMPERATURE.values())
    totals = [row[0] for row in rows]
    shares = [_along(row[1], temperature) / row[0] for row in rows]
    if totals[0] <= total <= totals[-1]:
        sensible = float(np.interp(total, totals, [t * s for t, s in zip(totals, shares, strict=True)]))
        notes: tuple[str, ...] = ()
    else:
        sensible = total * shares[0 if total < totals[0] else -1]
        notes = (f"heat of {total:.0f} W is outside the rows of the table, {totals[0]:.0f} to {totals[-1]:.0f} W",)
    heat = _bounded(total, sensible, temperature, _COLUMNS[0], _COLUMNS[-1])
    return OccupantHeat(heat.sensible_heat, heat.latent_heat, (*notes, *heat.validity))


def _along(row: tuple[float, ...], temperature: float) -> float:
    """Value at a temperature along the columns; beyond them the last slope goes on."""
    index = min(max(int((temperature - _COLUMNS[0]) // _STEP), 0), len(_COLUMNS) - 2)
    slope = (row[index + 1] - row[index]) / _STEP
    return row[index] + slope * (temperature - _COLUMNS[index])


def _bounded(total: float, sensible: float, temperature: float, low: float, high: float) -> OccupantHeat:
    """Heat with its note; never less than nothing, never more sensible heat than the body makes."""
    notes: tuple[str, ...] = ()
    if not low <= temperature <= high:
        notes = (f"room of {temperature:g} °C is outside the table of people's heat, {low:g} to {high:g} °C",)
    kept = min(max(sensible, 0.0), total)
    if kept != sensible:
        notes = (*notes, f"sensible heat of {sensible:.0f} W was held at {kept:.0f} W")
    return OccupantHeat(kept, total - kept, notes)
