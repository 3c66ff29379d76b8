"""Whether moving air is felt: jets from terminals, velocity at the neck, share of people who complain."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Literal

from hushwright.errors import InvalidInput
from hushwright.physics.airflow._guard import not_negative, open_share, positive

Jet = Literal["round", "grille"]

# Decay constants of the centre-line velocity; ASHRAE Fundamentals, ch. 20 (memory): free openings, wide grilles.
_DECAY = {"round": 6.0, "grille": 5.0}
_SKIN = 34.0  # °C, of the neck
_STILL = 0.05  # m/s


@dataclass(frozen=True, slots=True)
class JetVelocity:
    """Velocity on the centre line of a jet.

    Parameters
    ----------
    velocity : float
        Velocity [m/s].
    validity : tuple of str
        What the value leaves out; empty within the measured range.
    """

    velocity: float
    validity: tuple[str, ...] = field(default=())


@dataclass(frozen=True, slots=True)
class DraughtRating:
    """Share of people who complain of draught.

    Parameters
    ----------
    draught_rating : float
        Share of people [-], 0 to 1.
    validity : tuple of str
        What lies outside the range of the experiments; empty when nothing does.
    """

    draught_rating: float
    validity: tuple[str, ...] = field(default=())


def terminal_velocity(volume_flow_rate: float, area: float, free_share: float = 1.0) -> float:
    """Velocity of the air in the free area of a terminal.

    Parameters
    ----------
    volume_flow_rate : float
        Volume flow rate [m³/s].
    area : float
        Face of the terminal [m²].
    free_share : float, optional
        Free share of the face [-].

    Returns
    -------
    float
        Velocity [m/s].

    Raises
    ------
    InvalidInput
        If a number is impossible.

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2017, ch. 20 (space air diffusion).

    Examples
    --------
    >>> terminal_velocity(0.033, 0.06, 0.5)
    1.1
    """
    not_negative("volume flow rate", volume_flow_rate, "m³/s")
    return volume_flow_rate / (positive("area of the terminal", area, "m²") * open_share("free share", free_share))


def jet_velocity(
    outlet_velocity: float,
    outlet_area: float,
    distance: float,
    temperature_difference: float = 0.0,
    jet: Jet = "grille",
) -> JetVelocity:
    r"""Velocity at the middle of a jet, some way from the terminal.

    Parameters
    ----------
    outlet_velocity : float
        Velocity in the free area [m/s].
    outlet_area : float
        Free area [m²].
    distance : float
        Distance along the jet [m].
    temperature_difference : float, optional
        Supply air less room air [K], for the note only.
    jet : {"round", "grille"}, optional
        Kind of terminal.

    Returns
    -------
    JetVelocity
        Velocity [m/s] and validity.

    Raises
    ------
    InvalidInput
        If a number is impossible or the kind unknown.

    Notes
    -----
    .. math:: v = K v_0 \sqrt{A_0}/x

    and never above ``v0``, with K = 6 for round openings and 5 for grilles [1]_ (from memory). A free isothermal jet:
    a wall or ceiling beside it carries it up to 1.4 times as far; in a small room it turns back where it fills a
    quarter of the section.

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2017, ch. 20 (space air diffusion).

    Examples
    --------
    >>> round(jet_velocity(1.1, 0.03, 1.5).velocity, 2)
    0.64
    """
    not_negative("velocity at the terminal", outlet_velocity, "m/s")
    positive("free area of the terminal", outlet_area, "m²")
    positive("distance from the terminal", distance, "m")
    if jet not in _DECAY:
        raise InvalidInput(f"kind of jet is {jet!r}; known are {', '.join(_DECAY)}")
    spread = math.sqrt(outlet_area) / distance
    velocity = outlet_velocity * min(1.0, _DECAY[jet] * spread)
    notes = []
    if abs(temperature_difference) > 3.0:
        bent = "sinks" if temperature_difference < 0.0 else "rises"
        notes.append(f"the jet differs by {temperature_difference:+.0f} K from the room and {bent}, which is left out")
    if 0.0 < velocity < 0.25:
        notes.append(f"below 0.25 m/s ({velocity:.2f} m/s here) a jet breaks up sooner than the law says")
    return JetVelocity(velocity, tuple(notes))


def throw(outlet_velocity: float, outlet_area: float, velocity: float = 0.25, jet: Jet = "grille") -> float:
    """Distance at which a jet has slowed to a velocity.

    Parameters
    ----------
    outlet_velocity : float
        Velocity in the free area [m/s].
    outlet_area : float
        Free area [m²].
    velocity : float, optional
        Velocity at the end of the throw [m/s].
    jet : {"round", "grille"}, optional
        Kind of terminal.

    Returns
    -------
    float
        Distance [m]; 0 where the terminal itself is slower.

    Raises
    ------
    InvalidInput
        If a number is impossible or the kind unknown.

    Notes
    -----
    ``jet_velocity`` solved for the distance.

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2017, ch. 20 (space air diffusion).

    Examples
    --------
    >>> round(throw(1.1, 0.03), 1)
    3.8
    """
    not_negative("velocity at the terminal", outlet_velocity, "m/s")
    positive("free area of the terminal", outlet_area, "m²")
    positive("velocity at the end of the throw", velocity, "m/s")
    if jet not in _DECAY:
        raise InvalidInput(f"kind of jet is {jet!r}; known are {', '.join(_DECAY)}")
    if outlet_velocity <= velocity:
        return 0.0
    return _DECAY[jet] * math.sqrt(outlet_area) * outlet_velocity / velocity


def draught_rating(temperature: float, velocity: float, turbulence_intensity: float = 0.4) -> DraughtRating:
    r"""Share of people who complain of draught at the neck.

    Parameters
    ----------
    temperature : float
        Local air temperature [°C].
    velocity : float
        Local mean velocity [m/s].
    turbulence_intensity : float, optional
        Standard deviation of the velocity over its mean [-]; 0.4 where mixing air is not known better.

    Returns
    -------
    DraughtRating
        Share of people [-] and validity.

    Raises
    ------
    InvalidInput
        If velocity or turbulence is below zero.

    Notes
    -----
    .. math:: DR = (34 - t)(v - 0.05)^{0.62}(0.37\, v\, Tu + 3.14)

    in percent with Tu in percent [1]_; below 0.05 m/s zero, and at most 100, as the standard has it. People sitting
    at light work, thermally neutral; from 20 to 26 °C, up to 0.5 m/s, 10 to 60 % turbulence. People who sing or play
    feel it less.

    References
    ----------
    .. [1] ISO 7730:2005, *Ergonomics of the thermal environment*, cl. 6.2.

    Examples
    --------
    >>> round(draught_rating(24.5, 0.22).draught_rating, 2)
    0.2
    """
    not_negative("velocity at the neck", velocity, "m/s")
    not_negative("turbulence intensity", turbulence_intensity, "")
    notes = []
    if not 20.0 <= temperature <= 26.0:
        notes.append(f"draught at {temperature:.3g} °C; it was studied from 20 to 26 °C")
    if velocity > 0.5:
        notes.append(f"draught at {velocity:.2g} m/s; it was studied up to 0.5 m/s")
    if not 0.1 <= turbulence_intensity <= 0.6:
        notes.append(f"turbulence intensity is {turbulence_intensity:.0%}; it was studied from 10 to 60 %")
    if velocity <= _STILL or temperature >= _SKIN:
        return DraughtRating(0.0, tuple(notes))
    gust = 0.37 * velocity * 100.0 * turbulence_intensity + 3.14
    percent = (_SKIN - temperature) * math.pow(velocity - _STILL, 0.62) * gust
    return DraughtRating(min(percent, 100.0) / 100.0, tuple(notes))
