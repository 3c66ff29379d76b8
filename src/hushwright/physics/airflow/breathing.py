"""What a person gives to the air of a room and takes from it: carbon dioxide, water vapour, oxygen."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from hushwright.errors import InvalidInput
from hushwright.physics.air import AIR_20C, Air
from hushwright.physics.airflow._guard import not_negative, positive

Sex = Literal["male", "female", "unspecified"]

RESPIRATORY_QUOTIENT = 0.85  # CO2 out over O2 in, for light and moderate work; Persily and de Jonge 2017
_GAS_FACTOR = 0.000211  # l/s per (MJ/day · met · K/kPa), ibidem
_SECONDS_PER_DAY = 86_400.0
_OLDEST = 120.0

# Lower end of the age group [a], mean body mass [kg] of males and of females; Persily and de Jonge 2017, table 4.
_MEAN_MASS: tuple[tuple[float, float, float], ...] = (
    (0.0, 8.0, 7.7), (1.0, 12.8, 12.3), (3.0, 18.8, 18.3), (6.0, 31.9, 31.7), (11.0, 57.6, 55.9),
    (16.0, 77.3, 65.9), (21.0, 84.9, 71.9), (30.0, 87.0, 74.8), (40.0, 90.5, 77.1), (50.0, 89.5, 77.5),
    (60.0, 89.5, 76.8), (70.0, 83.9, 70.8), (80.0, 76.1, 64.1),
)  # fmt: skip
# Lower end of the age group [a], then (slope [MJ/(day kg)], constant [MJ/day]) of males and of females; Schofield 1985.
# The boundaries are those of the table above, whose group 16 to 20 takes the line of the adults.
_BASAL_LINES: tuple[tuple[float, tuple[float, float], tuple[float, float]], ...] = (
    (0.0, (0.249, -0.127), (0.244, -0.130)),
    (3.0, (0.095, 2.110), (0.085, 2.033)),
    (11.0, (0.074, 2.754), (0.056, 2.898)),
    (16.0, (0.063, 2.896), (0.062, 2.036)),
    (30.0, (0.048, 3.653), (0.034, 3.538)),
    (60.0, (0.049, 2.459), (0.038, 2.755)),
)
# Total and latent heat [W] of a person at 24 °C; ASHRAE Fundamentals 2009 (SI), ch. 18, table 1. The zeros are ours.
_TOTAL_HEAT = (0.0, 95.0, 105.0, 115.0, 130.0, 145.0, 160.0, 220.0, 250.0, 295.0, 425.0, 470.0, 525.0)
_LATENT_HEAT = (0.0, 30.0, 35.0, 45.0, 55.0, 70.0, 80.0, 140.0, 160.0, 185.0, 255.0, 285.0, 315.0)


@dataclass(frozen=True, slots=True)
class Person:
    """One person in a room.

    Parameters
    ----------
    met : float
        Metabolic rate over that at rest [met]; above 0, 1.0 at rest.
    sex : {"male", "female", "unspecified"}, optional
        Unspecified is the mean of both.
    age : float, optional
        Age [a].
    mass : float, optional
        Body mass [kg]; the mean of the age group when left out.

    Raises
    ------
    InvalidInput
        If a number or the sex is impossible.
    """

    met: float
    sex: Sex = "unspecified"
    age: float = 35.0
    mass: float | None = None

    def __post_init__(self) -> None:
        positive("metabolic rate", self.met, "met")
        if self.met > 20.0:
            raise InvalidInput(f"metabolic rate is {self.met} met; nobody keeps up more than 20")
        if self.sex not in ("male", "female", "unspecified"):
            raise InvalidInput(f"sex is {self.sex!r}; known are male, female, unspecified")
        if not 0.0 <= self.age <= _OLDEST:
            raise InvalidInput(f"age is {self.age} a; it must lie between 0 and {_OLDEST:.0f}")
        if self.mass is not None:
            positive("body mass", self.mass, "kg")


@dataclass(frozen=True, slots=True)
class Breath:
    """What people give to the air and take from it in a second.

    Parameters
    ----------
    carbon_dioxide : float
        Carbon dioxide given off [m³/s], at the state of the room air.
    oxygen : float
        Oxygen used up [m³/s], at the state of the room air.
    water_vapour : float
        Water vapour given off by breath and skin [kg/s].
    """

    carbon_dioxide: float = 0.0
    oxygen: float = 0.0
    water_vapour: float = 0.0

    def __add__(self, other: Breath) -> Breath:
        return Breath(
            self.carbon_dioxide + other.carbon_dioxide,
            self.oxygen + other.oxygen,
            self.water_vapour + other.water_vapour,
        )


def basal_metabolic_rate(person: Person) -> float:
    """Energy that a body takes at rest.

    Parameters
    ----------
    person : Person
        Sex, age and, if known, body mass.

    Returns
    -------
    float
        Basal metabolic rate [W].

    Notes
    -----
    ``BMR = slope · mass + constant`` by sex and age [1]_; without a body mass, that of the age group in the United
    States [2]_. Unspecified sex is the mean of both.

    References
    ----------
    .. [1] W. N. Schofield, "Predicting basal metabolic rate", *Hum. Nutr. Clin. Nutr.* 39C suppl. 1 (1985) 5-41
       (coefficients from memory; they give all 26 rates printed in [2]_ within 0.01 MJ/day).
    .. [2] A. Persily and L. de Jonge, *Indoor Air* 27 (2017) 868-879, table 4.

    Examples
    --------
    >>> round(basal_metabolic_rate(Person(1.0, "male", 35.0)) * 86400 / 1e6, 2)
    7.83
    """
    if person.sex == "unspecified":
        both = [basal_metabolic_rate(Person(person.met, sex, person.age, person.mass)) for sex in ("male", "female")]
        return sum(both) / 2.0
    column = 1 if person.sex == "male" else 2
    mass = person.mass
    if mass is None:
        mass = next(row[column] for row in reversed(_MEAN_MASS) if person.age >= row[0])
    lines = next(row for row in reversed(_BASAL_LINES) if person.age >= row[0])
    slope, constant = lines[1] if person.sex == "male" else lines[2]
    rate = (slope * mass + constant) * 1e6 / _SECONDS_PER_DAY
    return positive("basal metabolic rate", rate, f"W for {mass} kg")


def metabolic_heat(person: Person) -> float:
    """Energy that a person turns over, nearly all of it heat.

    Parameters
    ----------
    person : Person
        Sex, age, body mass and what the person does.

    Returns
    -------
    float
        Heat, sensible and latent together [W].

    Notes
    -----
    ``basal metabolic rate · met``; mechanical work is neglected.

    References
    ----------
    .. [1] A. Persily and L. de Jonge, *Indoor Air* 27 (2017) 868-879.

    Examples
    --------
    >>> round(metabolic_heat(Person(1.3)))
    105
    """
    return basal_metabolic_rate(person) * person.met


def carbon_dioxide_generation(person: Person, air: Air = AIR_20C) -> float:
    r"""Carbon dioxide that a person gives off.

    Parameters
    ----------
    person : Person
        Sex, age, body mass and what the person does.
    air : Air, optional
        State of the air in which the volume is counted.

    Returns
    -------
    float
        Volume of carbon dioxide per time [m³/s].

    Notes
    -----
    .. math:: \dot V = 0.000211\, RQ\, BMR\, M\, T/p

    in l/s, with RQ = 0.85, BMR in MJ/day, the metabolic rate M in met, T in K and p in kPa [1]_. The printed table
    holds for 273 K and 101 kPa: at 20 °C the same breath takes 7 % more room. Single people differ by about a fifth.

    References
    ----------
    .. [1] A. Persily and L. de Jonge, "Carbon dioxide generation rates for building occupants", *Indoor Air* 27
       (2017) 868-879.

    Examples
    --------
    >>> round(carbon_dioxide_generation(Person(1.2, "male", 35.0), Air(temperature=0.0)) * 1000, 4)
    0.0045
    """
    megajoule_per_day = basal_metabolic_rate(person) * _SECONDS_PER_DAY / 1e6
    litres = RESPIRATORY_QUOTIENT * megajoule_per_day * person.met * air.absolute_temperature / (air.pressure / 1000.0)
    return _GAS_FACTOR * litres / 1000.0


def oxygen_consumption(person: Person, air: Air = AIR_20C) -> float:
    """Oxygen that a person uses up.

    Parameters
    ----------
    person : Person
        Sex, age, body mass and what the person does.
    air : Air, optional
        State of the air in which the volume is counted.

    Returns
    -------
    float
        Volume of oxygen per time [m³/s].

    Notes
    -----
    Carbon dioxide over the respiratory quotient 0.85 [1]_.

    References
    ----------
    .. [1] A. Persily and L. de Jonge, *Indoor Air* 27 (2017) 868-879.

    Examples
    --------
    >>> person = Person(1.2)
    >>> round(carbon_dioxide_generation(person) / oxygen_consumption(person), 2)
    0.85
    """
    return carbon_dioxide_generation(person, air) / RESPIRATORY_QUOTIENT


def latent_heat_of_vaporization(temperature: float) -> float:
    """Heat that water takes to evaporate.

    Parameters
    ----------
    temperature : float
        Temperature of the evaporating water [°C], 0 to 100.

    Returns
    -------
    float
        Heat per mass [J/kg].

    Raises
    ------
    InvalidInput
        If the temperature is out of range.

    Notes
    -----
    ``2501 − 2.36 t`` kJ/kg, the line through the steam table within 0.2 % up to 50 °C.

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2017, ch. 1 (line from memory).

    Examples
    --------
    >>> round(latent_heat_of_vaporization(21.0) / 1000)
    2451
    """
    if not 0.0 <= temperature <= 100.0:
        raise InvalidInput(f"temperature of the water is {temperature} °C; the line holds from 0 to 100 °C")
    return 2.501e6 - 2360.0 * temperature


def water_vapour_of_latent_heat(latent_heat: float, temperature: float = 24.0) -> float:
    """Water vapour that carries a latent heat.

    Parameters
    ----------
    latent_heat : float
        Latent heat [W].
    temperature : float, optional
        Temperature of the evaporating water [°C].

    Returns
    -------
    float
        Mass of water per time [kg/s].

    Raises
    ------
    InvalidInput
        If the heat is below zero or the temperature out of range.

    Notes
    -----
    ``latent heat / heat of vaporization``; 1 W is 1.47 g/h.

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2017, ch. 1 and 18.

    Examples
    --------
    >>> round(water_vapour_of_latent_heat(1.0, 21.0) * 3.6e6, 2)
    1.47
    """
    return not_negative("latent heat", latent_heat, "W") / latent_heat_of_vaporization(temperature)


def moisture_generation(person: Person) -> float:
    """Water vapour that a person gives off, at a room temperature of about 24 °C.

    Parameters
    ----------
    person : Person
        Sex, age, body mass and what the person does.

    Returns
    -------
    float
        Mass of water per time [kg/s].

    Notes
    -----
    The latent share is read from the table of people's heat [1]_ at the person's own heat, straight lines between its
    rows; above its last row (525 W) the last share is kept. In a room of 20 °C about a third less evaporates, at 26 °C
    a quarter more [2]_.

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2009 (SI), ch. 18, table 1.
    .. [2] W. P. Jones, *Air Conditioning Engineering*, 5th ed., table 7.16.

    Examples
    --------
    A person sitting and reading, in grams an hour:

    >>> round(moisture_generation(Person(1.3)) * 3.6e6)
    51
    """
    heat = metabolic_heat(person)
    latent = float(np.interp(heat, _TOTAL_HEAT, _LATENT_HEAT))
    if heat > _TOTAL_HEAT[-1]:
        latent = heat * _LATENT_HEAT[-1] / _TOTAL_HEAT[-1]
    return water_vapour_of_latent_heat(latent)


def breath(people: tuple[Person, ...], air: Air = AIR_20C) -> Breath:
    """What all people of a room give to its air and take from it.

    Parameters
    ----------
    people : tuple of Person
        Everybody in the room; may be empty.
    air : Air, optional
        State of the air in which the volumes are counted.

    Returns
    -------
    Breath
        Carbon dioxide [m³/s], oxygen [m³/s] and water vapour [kg/s].

    References
    ----------
    .. [1] A. Persily and L. de Jonge, *Indoor Air* 27 (2017) 868-879.
    .. [2] *ASHRAE Handbook, Fundamentals*, 2009 (SI), ch. 18, table 1.

    Examples
    --------
    >>> round(breath((Person(2.0), Person(1.3))).carbon_dioxide * 1000, 4)
    0.0119
    """
    total = Breath()
    for person in people:
        total = total + Breath(
            carbon_dioxide_generation(person, air), oxygen_consumption(person, air), moisture_generation(person)
        )
    return total
