"""Grilles and air terminals: their noise, throttling dampers beside them, and how fast the air may be."""

from __future__ import annotations

import math
from typing import Final, Literal

import numpy as np

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import OCTAVE_BANDS, FloatArray
from hushwright.physics.acoustics.duct_bands import DuctPower, power_from_octaves
from hushwright.physics.acoustics.duct_flow_noise import silence
from hushwright.physics.acoustics.spaces import require_range

TerminalKind = Literal["round", "slot"]
DamperPlace = Literal["neck", "plenum inlet", "supply duct"]
TerminalSide = Literal["supply", "return"]

_OCTAVES: Final[FloatArray] = np.array(OCTAVE_BANDS)
_SPREAD: Final = 5.0  # dB, Long 2014: good for about ±5 dB (memory)

# ASHRAE Handbook, HVAC Applications, ch. 49: speed in the neck [m/s] by the RC(N) or NC of the room.
_LIMITS: Final = {
    "supply": ((25.0, 1.8), (30.0, 2.2), (35.0, 2.5), (40.0, 2.8), (45.0, 3.2)),
    "return": ((25.0, 2.2), (30.0, 2.5), (35.0, 3.0), (40.0, 3.4), (45.0, 3.8)),
}
_THROTTLE_RATIO: Final = (1.5, 2.0, 2.5, 3.0, 4.0, 6.0)
_THROTTLE: Final = {
    "neck": (5.0, 9.0, 12.0, 15.0, 18.0, 24.0),
    "plenum inlet": (2.0, 3.0, 4.0, 5.0, 6.0, 9.0),
    "supply duct": (0.0, 0.0, 0.0, 2.0, 3.0, 5.0),
}


def terminal_noise(
    velocity: float, area: float, loss_coefficient: float, kind: TerminalKind = "round", *, throttling: float = 0.0
) -> DuctPower:
    r"""Noise of a grille or an air terminal.

    Parameters
    ----------
    velocity : float
        Air velocity before it, over its face [m/s].
    area : float
        Area of the face or neck to which the velocity belongs [m²].
    loss_coefficient : float
        Total pressure loss over the velocity pressure [-], > 0.
    kind : {"round", "slot"}, optional
        Shape of the spectrum: broad terminals and grilles, or slots [-].
    throttling : float, optional
        Increment of a damper beside it [dB], see `throttling_increment`.

    Returns
    -------
    DuctPower
        Sound power levels [dB].

    Raises
    ------
    InvalidInput
        If a value is impossible.

    Notes
    -----
    Total ``10 + 10 lg S + 30 lg ζ + 60 lg U``; octaves ``−5.82 − 0.15 A − 1.13 A²`` (slot −11.82) with A the octaves by
    which the band lies below the peak at ``160 U`` [1]_ (from memory; the shape is that of the terminals in Long's
    table 14.9). Good for ±5 dB; data of the terminal go first.

    References
    ----------
    .. [1] M. Long, *Architectural Acoustics*, 2nd ed., Academic Press, 2014, ch. 13; Reynolds and Bledsoe 1991.

    Examples
    --------
    >>> round(terminal_noise(2.0, 0.0123, 3.0).octaves[2], 1)
    17.5
    """
    require_range("air velocity", velocity, 0.0, 100.0, "m/s")
    require_range("face area", area, 0.0, 100.0, "m²", open_low=True)
    require_range("loss coefficient", loss_coefficient, 0.0, 1e4, "", open_low=True)
    if kind not in ("round", "slot"):
        raise InvalidInput(f"{kind!r} is no kind of terminal; it is 'round' or 'slot'")
    if velocity == 0.0:
        return silence()
    total = 10.0 + 10.0 * math.log10(area) + 30.0 * math.log10(loss_coefficient) + 60.0 * math.log10(velocity)
    below = np.round(np.log2(160.0 * velocity / 1000.0)) - np.round(np.log2(_OCTAVES / 1000.0))
    shape = (-5.82 if kind == "round" else -11.82) - 0.15 * below - 1.13 * below**2
    levels = total + throttling + shape
    basis = "terminal noise (Long 2014, ch. 13)"
    return power_from_octaves(levels, OCTAVE_BANDS, standard_uncertainty=_SPREAD, basis=basis)


def throttling_increment(pressure_ratio: float, place: DamperPlace = "neck") -> float:
    """What a throttling damper adds to the noise of a terminal.

    Parameters
    ----------
    pressure_ratio : float
        Throttled pressure loss over the least one [-], 1 to 6.
    place : {"neck", "plenum inlet", "supply duct"}, optional
        Where the damper sits [-].

    Returns
    -------
    float
        Increment of the level of the terminal [dB].

    Raises
    ------
    InvalidInput
        If the ratio is below 1 or above 6, or the place is unknown.

    References
    ----------
    .. [1] ASHRAE Handbook, *HVAC Applications*, ch. 49, table of throttled volume dampers.

    Examples
    --------
    >>> throttling_increment(2.0), throttling_increment(1.0)
    (9.0, 0.0)
    """
    require_range("pressure ratio of the damper", pressure_ratio, 1.0, 6.0, "")
    if place not in _THROTTLE:
        raise InvalidInput(f"{place!r} is no place of a damper; known are {', '.join(_THROTTLE)}")
    return float(np.interp(pressure_ratio, (1.0, *_THROTTLE_RATIO), (0.0, *_THROTTLE[place])))


def terminal_speed_limit(room_criterion: float, side: TerminalSide = "supply") -> float:
    """Highest speed in the neck of a terminal for a room criterion.

    Parameters
    ----------
    room_criterion : float
        RC(N) or NC of the room [-], 25 to 45.
    side : {"supply", "return"}, optional
        Air into the room or out of it [-].

    Returns
    -------
    float
        Speed in the free opening [m/s].

    Raises
    ------
    InvalidInput
        If the criterion is outside the table or the side is neither.

    References
    ----------
    .. [1] ASHRAE Handbook, *HVAC Applications*, ch. 49, table of greatest free-opening velocities.

    Examples
    --------
    >>> terminal_speed_limit(25.0), terminal_speed_limit(30.0, "return")
    (1.8, 2.5)
    """
    require_range("room criterion", room_criterion, 25.0, 45.0, "")
    if side not in _LIMITS:
        raise InvalidInput(f"{side!r} is no side of a terminal; it is 'supply' or 'return'")
    curves, speeds = zip(*_LIMITS[side], strict=True)
    return float(np.interp(room_criterion, curves, speeds))
