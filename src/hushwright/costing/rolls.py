"""Strips cut from rolls: full widths first, narrower ones side by side off one length, none joined that fits."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from hushwright.costing.bars import joined
from hushwright.errors import InvalidInput

_TOUCH = 1e-6  # m, that a strip may be wider or longer than its place

Strip = tuple[float, float]
"""Width and length [m]."""


@dataclass(frozen=True, slots=True)
class Slice:
    """A length cut right across a roll, and the strips that are cut from it side by side [m]."""

    length: float
    strips: tuple[Strip, ...]


@dataclass(frozen=True, slots=True)
class Roll:
    """One roll with what is cut from it, one slice after the other, and what is left of its length [m]."""

    width: float
    slices: tuple[Slice, ...]
    left: float

    @property
    def used(self) -> float:
        """Length that is cut off [m]."""
        return math.fsum(each.length for each in self.slices)


def cut_from_rolls(bays: Iterable[Strip], width: float, length: float = math.inf) -> tuple[Roll, ...]:
    """Strips that fill bays, and the rolls they come off.

    Parameters
    ----------
    bays : iterable of tuple of float
        Width and length of every bay [m].
    width : float
        Width of a roll, above zero [m].
    length : float, optional
        Length of a roll, above zero; without an end where it is left out [m].

    Returns
    -------
    tuple of Roll
        A bay wider than the roll takes strips beside each other; one longer than the roll is joined at a roll's end.

    Raises
    ------
    InvalidInput
        If a width or length is not above zero.

    Notes
    -----
    Rests of bays are set first fit, longest first, into slices that are long and wide enough; slices likewise onto
    rolls. Of a slice what lies behind a shorter strip counts as offcut.

    References
    ----------
    G. Dósa, The tight bound of first fit decreasing bin-packing algorithm is FFD(I) <= 11/9 OPT(I) + 6/9, in
    Combinatorics, Algorithms, Probabilistic and Experimental Methodologies, LNCS 4614 (2007) 1-11.

    Examples
    --------
    Two bays of 0.9 m off a roll of 0.6 m: two full strips, and both rests of 0.3 m beside each other.

    >>> [(round(each.used, 1), len(each.slices)) for each in cut_from_rolls([(0.9, 2.0), (0.9, 2.0)], 0.6, 10.0)]
    [(6.0, 3)]
    """
    if not (width > 0.0 and length > 0.0):
        raise InvalidInput(f"a roll of {width} m by {length} m has nothing on it")
    rooms: list[float] = []
    rolls: list[list[Slice]] = []
    for one in sorted(slices_of(bays, width, length), key=lambda each: -each.length):
        at = next((at for at, room in enumerate(rooms) if one.length <= room + _TOUCH), len(rooms))
        if at == len(rooms):
            rooms.append(length)
            rolls.append([])
        rolls[at].append(one)
        rooms[at] -= one.length
    return tuple(Roll(width, tuple(each), max(room, 0.0)) for each, room in zip(rolls, rooms, strict=True))


def slices_of(bays: Iterable[Strip], width: float, length: float = math.inf) -> tuple[Slice, ...]:
    """Slices of a roll that fill bays: those of full width, and those shared by rests.

    Examples
    --------
    >>> slices_of([(0.9, 2.0)], 0.6)
    (Slice(length=2.0, strips=((0.6, 2.0),)), Slice(length=2.0, strips=((0.30000000000000004, 2.0),)))
    """
    full: list[Slice] = []
    rests: list[Strip] = []
    for across, along in bays:
        if not (across > 0.0 and along > 0.0 and math.isfinite(across * along)):
            raise InvalidInput(f"a bay of {across} m by {along} m takes no strip")
        number = int((across + _TOUCH) / width)
        rest = across - number * width
        for part in joined((along,), length) if math.isfinite(length) else (along,):
            full += [Slice(part, ((width, part),))] * number
            rests += [(rest, part)] if rest > _TOUCH else []
    return (*full, *_side_by_side(rests, width))


def _side_by_side(rests: list[Strip], width: float) -> list[Slice]:
    rooms: list[float] = []
    found: list[list[Strip]] = []
    for strip in sorted(rests, key=lambda each: (-each[1], -each[0])):
        at = next((at for at, room in enumerate(rooms) if strip[0] <= room + _TOUCH), len(rooms))
        if at == len(rooms):
            rooms.append(width)
            found.append([])
        found[at].append(strip)
        rooms[at] -= strip[0]
    return [Slice(strips[0][1], tuple(strips)) for strips in found]
