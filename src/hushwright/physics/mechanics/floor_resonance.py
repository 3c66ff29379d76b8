"""Vertical resonances of a floor on mounts with air beneath it."""

from __future__ import annotations

import math
from typing import Final, NamedTuple

import numpy as np

from hushwright.errors import InvalidInput
from hushwright.physics.air import AIR_20C, Air
from hushwright.physics.mechanics._guard import FloatArray, positive
from hushwright.physics.mechanics.air_spring import UnderFloorAir, air_stiffness

_SEARCH_BOTTOM: Final = 0.5  # Hz
_SEARCH_TOP: Final = 300.0  # Hz; no floor on mounts resonates above
_SEARCH_POINTS: Final = 800
_SAME_SPAN: Final = 1e-4  # relative step for the slope


class FloorResonance(NamedTuple):
    """One vertical resonance: frequency [Hz] and the share of the floor's mass that swings in it [-]."""

    frequency: float
    mass_share: float


def floor_resonances(
    mass: float, spring_stiffness: float, space: UnderFloorAir | None = None, air: Air = AIR_20C
) -> tuple[FloorResonance, ...]:
    """Vertical resonances of a floor on mounts with the air beneath it, over a heavy base, the strongest first.

    Parameters
    ----------
    mass : float
        Mass on the mounts [kg].
    spring_stiffness : float
        Dynamic stiffness of all mounts together [N/m].
    space : UnderFloorAir, optional
        The air under the floor [-]; none leaves it out.
    air : Air, optional
        State of the air [-].

    Returns
    -------
    tuple of FloorResonance
        Frequency [Hz] and share of the floor's mass [-].

    Raises
    ------
    InvalidInput
        If mass or stiffness is not above zero, or no resonance lies below 300 Hz.

    Notes
    -----
    Zeros of ``k + Re K(ω) − ω²m``; the share of a zero is ``m`` over the slope against ω². Partly open edges give two:
    air that sways through the edge low down, and the floor on its trapped air higher up. The less is open, the more
    of the floor moves to the upper one. Shares add up to one only without losses; fill and narrow slits shift them.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005.

    Examples
    --------
    Air that cannot get out turns a 10 Hz floor into a 30 Hz one.

    >>> closed = UnderFloorAir(3.4, 0.030, 0.79, open_share=0.0)
    >>> mounts = 500.0 * (2 * np.pi * 10.0) ** 2
    >>> round(floor_resonances(500.0, mounts)[0].frequency, 1)
    10.0
    >>> round(floor_resonances(500.0, mounts, closed)[0].frequency, 1)
    30.2
    """
    positive("mass on the mounts", mass, "kg")
    positive("stiffness of the mounts", spring_stiffness, "N/m")

    def excess(frequency: FloatArray) -> FloatArray:
        """Stiffness left over after the inertia [N/m]."""
        beneath = 0.0 if space is None else air_stiffness(space, frequency, air).real
        return np.asarray(spring_stiffness + beneath - mass * (2.0 * np.pi * frequency) ** 2, dtype=np.float64)

    trial = np.geomspace(_SEARCH_BOTTOM, _SEARCH_TOP, _SEARCH_POINTS)
    values = excess(trial)
    # the excess falls through zero at a resonance and jumps upwards where the air itself resonates
    falling = np.flatnonzero((values[:-1] > 0.0) & (values[1:] <= 0.0))
    if falling.size == 0:
        raise InvalidInput(f"{mass} kg on {spring_stiffness} N/m show no resonance below {_SEARCH_TOP:g} Hz")
    low, high = trial[falling], trial[falling + 1]
    for _ in range(40):
        middle = np.sqrt(low * high)
        above = excess(middle) > 0.0
        low, high = np.where(above, middle, low), np.where(above, high, middle)
    found = np.sqrt(low * high)
    upper, lower = found * (1.0 + _SAME_SPAN), found * (1.0 - _SAME_SPAN)
    slope = (excess(lower) - excess(upper)) / ((2.0 * math.pi) ** 2 * (upper**2 - lower**2))
    pairs = [FloorResonance(float(one), float(mass / fall)) for one, fall in zip(found, slope, strict=True)]
    return tuple(sorted(pairs, key=lambda pair: -pair.mass_share))
