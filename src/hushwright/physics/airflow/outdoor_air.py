"""How much outdoor air the standards ask for."""

from __future__ import annotations

from typing import Literal

from hushwright.errors import InvalidInput
from hushwright.physics.airflow._guard import not_negative

Use = Literal["studio", "music", "office", "meeting", "lecture"]
Category = Literal["I", "II", "III", "IV"]

# Outdoor air [m³/s] per person and per m² of floor; ASHRAE 62.1, table 6-1.
_PER_PERSON_AND_AREA: dict[str, tuple[float, float]] = {
    "studio": (5.0e-3, 0.3e-3),
    "music": (5.0e-3, 0.3e-3),
    "office": (2.5e-3, 0.3e-3),
    "meeting": (2.5e-3, 0.3e-3),
    "lecture": (3.8e-3, 0.3e-3),
}
# Outdoor air [m³/s] per person, and per m² of a low-polluting room; EN 16798-1, annex B (memory).
_CATEGORIES: dict[str, tuple[float, float]] = {
    "I": (10.0e-3, 1.0e-3),
    "II": (7.0e-3, 0.7e-3),
    "III": (4.0e-3, 0.4e-3),
    "IV": (2.5e-3, 0.3e-3),
}
_LEAST_PER_PERSON = 4.0e-3  # m³/s, ibidem


def breathing_zone_flow(people: int, floor_area: float, use: Use = "studio") -> float:
    """Outdoor air that the American standard asks for in the zone where people breathe.

    Parameters
    ----------
    people : int
        Number of people [-].
    floor_area : float
        Floor area [m²].
    use : {"studio", "music", "office", "meeting", "lecture"}, optional
        What the room is used for.

    Returns
    -------
    float
        Volume flow rate of outdoor air [m³/s].

    Raises
    ------
    InvalidInput
        If a number is below zero or the use unknown.

    Notes
    -----
    ``people · rate + floor area · rate``; divided by 0.8 where warm air comes in at the ceiling. Values of studio from
    memory, the others found in a public copy.

    References
    ----------
    .. [1] ANSI/ASHRAE 62.1, *Ventilation for acceptable indoor air quality*, 6.2 and table 6-1.

    Examples
    --------
    >>> round(breathing_zone_flow(3, 6.0) * 1000, 1)
    16.8
    """
    not_negative("number of people", people, "")
    not_negative("floor area", floor_area, "m²")
    if use not in _PER_PERSON_AND_AREA:
        raise InvalidInput(f"use of the room is {use!r}; known are {', '.join(_PER_PERSON_AND_AREA)}")
    per_person, per_area = _PER_PERSON_AND_AREA[use]
    return people * per_person + floor_area * per_area


def category_flow(people: int, floor_area: float, category: Category = "II") -> float:
    """Outdoor air that the European standard asks for, people and building together.

    Parameters
    ----------
    people : int
        Number of people [-].
    floor_area : float
        Floor area of a low-polluting room [m²].
    category : {"I", "II", "III", "IV"}, optional
        Category of indoor environment, I the best.

    Returns
    -------
    float
        Volume flow rate of outdoor air [m³/s], never below 4 l/s a person.

    Raises
    ------
    InvalidInput
        If a number is below zero or the category unknown.

    References
    ----------
    .. [1] EN 16798-1:2019, annex B (values from memory).

    Examples
    --------
    >>> round(category_flow(4, 3.6, "III") * 1000, 1)
    17.4
    """
    not_negative("number of people", people, "")
    not_negative("floor area", floor_area, "m²")
    if category not in _CATEGORIES:
        raise InvalidInput(f"category is {category!r}; known are {', '.join(_CATEGORIES)}")
    per_person, per_area = _CATEGORIES[category]
    return max(people * per_person + floor_area * per_area, people * _LEAST_PER_PERSON)
