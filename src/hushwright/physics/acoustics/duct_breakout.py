"""Sound through the wall of a duct, out of it and into it."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cache
from typing import Final, Literal, TypeAlias

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import N_BANDS, OCTAVE_BANDS, FloatArray
from hushwright.physics.acoustics.duct_bands import DUCT_OCTAVES, DuctLoss, DuctPower, attenuated, loss_from_octaves
from hushwright.physics.acoustics.published import published_row
from hushwright.physics.acoustics.spaces import require_range
from hushwright.physics.air import AIR_20C, Air

Direction = Literal["breakout", "break-in"]
Seam = Literal["long seam", "spiral"]

_LARGEST: Final = 45.0  # dB, ASHRAE: no rectangular duct wall is credited with more
_SPREAD: Final = 3.0  # dB, common practice, no source
_SOURCE: Final = "ASHRAE Handbook, HVAC Applications, 2019, ch. 49"


@dataclass(frozen=True, slots=True)
class RectangularDuctWall:
    """Bare rectangular sheet metal duct as a wall.

    Parameters
    ----------
    width : float
        Outer width [m].
    height : float
        Outer height [m].
    surface_density : float
        Mass per area of the sheet [kg/m²].
    length : float
        Length over which it radiates or is met by sound [m].

    Raises
    ------
    InvalidInput
        If a value is impossible.

    References
    ----------
    .. [1] ASHRAE Handbook, *HVAC Applications*, 2019, ch. 49.

    Examples
    --------
    >>> round(RectangularDuctWall(0.3, 0.2, 5.6, 2.0).surface_area, 6)
    2.0
    """

    width: float
    height: float
    surface_density: float
    length: float

    def __post_init__(self) -> None:
        _require_wall(self.width, self.height, self.surface_density, self.length)

    @property
    def area(self) -> float:
        """Area of the section [m²]."""
        return self.width * self.height

    @property
    def perimeter(self) -> float:
        """Perimeter of the section [m]."""
        return 2.0 * (self.width + self.height)

    @property
    def surface_area(self) -> float:
        """Area of the wall [m²]."""
        return self.perimeter * self.length

    @property
    def longest_side(self) -> float:
        """Longer side [m]."""
        return max(self.width, self.height)


@dataclass(frozen=True, slots=True)
class OvalDuctWall:
    """Bare flat oval sheet metal duct as a wall.

    Parameters
    ----------
    width : float
        Longer outer axis [m].
    height : float
        Shorter outer axis, diameter of the round ends [m].
    surface_density : float
        Mass per area of the sheet [kg/m²].
    length : float
        Length over which it radiates or is met by sound [m].

    Raises
    ------
    InvalidInput
        If a value is impossible or the width is not above the height.

    References
    ----------
    .. [1] ASHRAE Handbook, *HVAC Applications*, 2019, ch. 49.

    Examples
    --------
    >>> round(OvalDuctWall(0.6, 0.15, 5.6, 2.0).perimeter, 3)
    1.371
    """

    width: float
    height: float
    surface_density: float
    length: float

    def __post_init__(self) -> None:
        _require_wall(self.width, self.height, self.surface_density, self.length)
        if not self.width > self.height:
            raise InvalidInput(f"flat oval duct {self.width} m by {self.height} m: the first is the longer axis")

    @property
    def flat_sides(self) -> float:
        """Flat part of the perimeter [m]."""
        return 2.0 * (self.width - self.height)

    @property
    def area(self) -> float:
        """Area of the section [m²]."""
        return self.height * (self.width - self.height) + math.pi / 4.0 * self.height**2

    @property
    def perimeter(self) -> float:
        """Perimeter of the section [m]."""
        return self.flat_sides + math.pi * self.height

    @property
    def surface_area(self) -> float:
        """Area of the wall [m²]."""
        return self.perimeter * self.length

    @property
    def longest_side(self) -> float:
        """Longer axis [m]."""
        return self.width


@dataclass(frozen=True, slots=True)
class RoundDuctWall:
    """Bare round sheet metal duct as a wall.

    Parameters
    ----------
    diameter : float
        Outer diameter [m].
    length : float
        Length over which it radiates or is met by sound [m].
    seam : {"long seam", "spiral"}, optional
        How it is made [-].

    Raises
    ------
    InvalidInput
        If a value is impossible.

    References
    ----------
    .. [1] ASHRAE Handbook, *HVAC Applications*, 2019, ch. 49.

    Examples
    --------
    >>> round(RoundDuctWall(0.125, 2.0).surface_area, 3)
    0.785
    """

    diameter: float
    length: float
    seam: Seam = "spiral"

    def __post_init__(self) -> None:
        require_range("duct diameter", self.diameter, 0.0, 5.0, "m", open_low=True)
        require_range("duct length", self.length, 0.0, 100.0, "m", open_low=True)
        if self.seam not in ("long seam", "spiral"):
            raise InvalidInput(f"{self.seam!r} is no seam of a round duct; it is 'long seam' or 'spiral'")

    @property
    def area(self) -> float:
        """Area of the section [m²]."""
        return math.pi / 4.0 * self.diameter**2

    @property
    def perimeter(self) -> float:
        """Perimeter of the section [m]."""
        return math.pi * self.diameter

    @property
    def surface_area(self) -> float:
        """Area of the wall [m²]."""
        return self.perimeter * self.length


DuctWall: TypeAlias = RectangularDuctWall | OvalDuctWall | RoundDuctWall
"""Any duct whose wall lets sound through."""


def _require_wall(width: float, height: float, surface_density: float, length: float) -> None:
    require_range("duct width", width, 0.0, 5.0, "m", open_low=True)
    require_range("duct height", height, 0.0, 5.0, "m", open_low=True)
    require_range("surface density of the duct wall", surface_density, 0.0, 100.0, "kg/m²", open_low=True)
    require_range("duct length", length, 0.0, 100.0, "m", open_low=True)


def _rectangular_out(wall: RectangularDuctWall, frequency: FloatArray) -> FloatArray:
    q = wall.surface_density
    a, b = 1000.0 * wall.width, 1000.0 * wall.height
    crossing = 613_000.0 / math.sqrt(a * b)
    below = 10.0 * np.log10(frequency * q**2 / (a + b)) + 17.0
    above = 20.0 * np.log10(q * frequency) - 45.0
    return np.minimum(_LARGEST, np.where(frequency < crossing, below, above))


def _oval_out(wall: OvalDuctWall, frequency: FloatArray) -> FloatArray:
    q, perimeter = wall.surface_density, 1000.0 * wall.perimeter
    share = wall.flat_sides / wall.perimeter
    return np.asarray(10.0 * np.log10(q**2 * frequency / (share**2 * perimeter)) + 20.0)


def _in_from_out(
    wall: RectangularDuctWall | OvalDuctWall, out: FloatArray, frequency: FloatArray, speed_of_sound: float
) -> FloatArray:
    """Break-in from breakout: 3 dB less above the first cross mode, below it the larger of two."""
    cut_on = speed_of_sound / (2.0 * wall.longest_side)
    with np.errstate(divide="ignore"):
        plane = out - 4.0 + 10.0 * np.log10(wall.area / wall.longest_side**2) + 20.0 * np.log10(frequency / cut_on)
    floor = 10.0 * math.log10(wall.perimeter * wall.length / (2.0 * wall.area))
    return np.where(frequency < cut_on, np.maximum(plane, floor), out - 3.0)


@cache
def _round_rows(direction: str, seam: str) -> tuple[tuple[float, tuple[float, ...], bool], ...]:
    """Diameter [m], octaves 63 Hz to 4 kHz [dB] and whether a value is only a limit, by rising diameter."""
    stem, rows = ("OUT" if direction == "breakout" else "IN"), []
    for number in range(1, 10):
        row = published_row("duct_breakout_round.csv", id=f"CIRC-{stem}-{number}")
        if row["seam"] == seam:
            cells = [row[f"b_{band:g}"] for band in DUCT_OCTAVES[:7]]
            values = tuple(float(cell.strip(">()")) for cell in cells)
            rows.append((float(row["diameter_mm"]) / 1000.0, values, any(cell[0] in ">(" for cell in cells)))
    return tuple(sorted(rows))


def _round_loss(wall: RoundDuctWall, direction: Direction) -> DuctLoss:
    rows = _round_rows(direction, wall.seam)
    nearest = min(abs(math.log(wall.diameter / diameter)) for diameter, _, _ in rows)
    chosen = [row for row in rows if abs(math.log(wall.diameter / row[0])) <= nearest + 1e-9]
    values = np.min([row[1] for row in chosen], axis=0)  # of two ducts of one size the worse
    notes = []
    if any(row[2] for row in chosen):
        notes.append("round duct wall: some bands were limited by the background of the test and may be higher")
    if nearest > math.log(1.3):
        size = 1000.0 * chosen[0][0]
        notes.append(f"round duct of {1e3 * wall.diameter:.0f} mm: nearest one measured is {size:.0f} mm")
    basis = f"round duct, {wall.seam}, {direction} ({_SOURCE})"
    return loss_from_octaves(values, DUCT_OCTAVES[:7], standard_uncertainty=_SPREAD, basis=basis, notes=notes)


def wall_transmission_loss(wall: DuctWall, direction: Direction = "breakout", air: Air = AIR_20C) -> DuctLoss:
    """Transmission loss of the wall of a duct.

    Parameters
    ----------
    wall : RectangularDuctWall, OvalDuctWall or RoundDuctWall
        The duct (sides [m], sheet [kg/m²]).
    direction : {"breakout", "break-in"}, optional
        Out of the duct or into it [-].
    air : Air, optional
        Air in the duct [-].

    Returns
    -------
    DuctLoss
        Transmission loss [dB].

    Raises
    ------
    InvalidInput
        If the direction is neither.

    Notes
    -----
    Rectangular [1]_, sides in mm: ``10 lg[f q²/(a+b)] + 17`` below ``613 000/√(ab)`` Hz, ``20 lg(q f) − 45`` above, at
    most 45 dB. Flat oval: ``10 lg[q² f/(g² P)] + 20``, g the flat share of the perimeter P, said to hold up to
    ``8115 in·Hz/b``. Break-in: 3 dB less above the first cross mode f₁; below it the larger of
    ``TL − 4 + 10 lg(A/a²) + 20 lg(f/f₁)`` and ``10 lg[P L/(2A)]``. Formulas from memory, closed on the printed tables.
    Round ducts are the measured row nearest in diameter. The ducts tested were 6.1 m long; the values are those of
    the section.

    References
    ----------
    .. [1] ASHRAE Handbook, *HVAC Applications*, 2019, ch. 49.

    Examples
    --------
    >>> wall = RectangularDuctWall(0.305, 0.305, 4.88, 6.1)
    >>> [round(level) for level in wall_transmission_loss(wall).octaves]
    [21, 24, 27, 30, 33, 36, 41, 45]
    >>> [round(level) for level in wall_transmission_loss(wall, "break-in").octaves[:4]]
    [16, 16, 16, 25]
    """
    if direction not in ("breakout", "break-in"):
        raise InvalidInput(f"{direction!r} is no direction; it is 'breakout' or 'break-in'")
    if isinstance(wall, RoundDuctWall):
        return _round_loss(wall, direction)
    frequency = np.array(OCTAVE_BANDS)
    notes = []
    if isinstance(wall, RectangularDuctWall):
        out = _rectangular_out(wall, frequency)
    else:
        out = _oval_out(wall, frequency)
        limit = 8115.0 * 0.0254 / wall.height
        out = np.where(frequency <= limit, out, np.minimum(_LARGEST, out[frequency <= limit][-1:]))
        notes.append(f"flat oval duct: the rule ends at {limit:.0f} Hz, its last value is kept above")
    if direction == "break-in":
        out = _in_from_out(wall, out, frequency, air.speed_of_sound)
    values = np.maximum(0.0, out)
    basis = f"duct wall, {direction} ({_SOURCE})"
    return loss_from_octaves(values, OCTAVE_BANDS, standard_uncertainty=_SPREAD, basis=basis, notes=notes)


def breakout_power(inside: DuctPower, wall: DuctWall) -> DuctPower:
    """Sound power that a length of duct radiates.

    Parameters
    ----------
    inside : DuctPower
        Sound power that enters this length (levels [dB]).
    wall : RectangularDuctWall, OvalDuctWall or RoundDuctWall
        The length of duct (sides, length [m]).

    Returns
    -------
    DuctPower
        Radiated sound power levels [dB].

    Notes
    -----
    ``L_W,out = L_W,in + 10 lg(P L/A) − TL``, and never more than 3 dB below what enters: half of it goes out at most
    [1]_. The decay inside along the length is not counted (safe side).

    References
    ----------
    .. [1] ASHRAE Handbook, *HVAC Applications*, 2019, ch. 49.

    Examples
    --------
    >>> from hushwright.physics.acoustics.duct_bands import power_from_octaves
    >>> wall = RectangularDuctWall(0.305, 0.305, 4.88, 6.1)
    >>> round(breakout_power(power_from_octaves([70.0] * 8), wall).octaves[0], 1)
    67.0
    """
    loss = wall_transmission_loss(wall, "breakout")
    spread = 10.0 * math.log10(wall.surface_area / wall.area)
    net = np.maximum(3.0, loss.array() - spread)
    return attenuated(inside, replace(loss, attenuation=tuple(net.tolist())))


def break_in_power(sound_pressure_level: ArrayLike, wall: DuctWall) -> DuctPower:
    """Sound power that enters a length of duct from the room it passes, in each direction along it.

    Parameters
    ----------
    sound_pressure_level : array_like, shape (27,)
        Levels of the diffuse field round it [dB].
    wall : RectangularDuctWall, OvalDuctWall or RoundDuctWall
        The length of duct (sides, length [m]).

    Returns
    -------
    DuctPower
        Sound power levels [dB] inside, one way along the duct.

    Raises
    ------
    InvalidInput
        If there are not 27 levels.

    Notes
    -----
    The field brings ``L_p − 6 + 10 lg(P L)`` to the wall; inside there is ``TL_in + 3`` dB less in each direction [1]_.

    References
    ----------
    .. [1] ASHRAE Handbook, *HVAC Applications*, 2019, ch. 49.

    Examples
    --------
    >>> wall = RectangularDuctWall(0.305, 0.305, 4.88, 6.1)
    >>> round(break_in_power([70.0] * 27, wall).sound_power_level[4], 1)
    53.7
    """
    loss = wall_transmission_loss(wall, "break-in")
    met = np.asarray(sound_pressure_level, dtype=np.float64) - 6.0 + 10.0 * math.log10(wall.surface_area)
    if met.shape != (N_BANDS,):
        raise InvalidInput(f"{met.shape} levels given; there are {N_BANDS} third octaves")
    levels = met - loss.array() - 3.0
    return DuctPower(tuple(levels.tolist()), loss.standard_uncertainty, loss.assumed, loss.notes, loss.basis)
