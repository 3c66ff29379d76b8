"""Lengths cut from bars as they are sold: battens and bearers, the longest first, each from the first bar with room."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from hushwright.errors import InvalidInput

SAW_CUT = 0.003  # m, blade of a mitre saw; common practice, no source
_TOUCH = 1e-7  # m, to which lengths are the same


@dataclass(frozen=True, slots=True)
class Bar:
    """A bar as it is sold, the pieces cut from it and what is left over [m]."""

    length: float
    pieces: tuple[float, ...]
    left: float


def cut_from_bars(pieces: Iterable[float], length: float, kerf: float = SAW_CUT) -> tuple[Bar, ...]:
    """Bars for some pieces.

    Parameters
    ----------
    pieces : iterable of float
        Lengths that are needed [m].
    length : float
        Length of a bar [m].
    kerf : float, optional
        Width of the saw cut [m].

    Returns
    -------
    tuple of Bar
        In the order in which they are begun [m].

    Raises
    ------
    InvalidInput
        If a piece is longer than a bar, or a length is not above zero.

    Notes
    -----
    First fit, longest first: at most 11/9 of the fewest bars that there can be, and 6/9 of a bar. A cut lies between
    two pieces, so pieces and bar are each taken a cut longer than they are and the bound holds with cuts as well.

    References
    ----------
    G. Dósa, The tight bound of first fit decreasing bin-packing algorithm is FFD(I) <= 11/9 OPT(I) + 6/9, in
    Combinatorics, Algorithms, Probabilistic and Experimental Methodologies, LNCS 4614 (2007) 1-11.

    Examples
    --------
    Of bearers that are longer than half a bar, each takes one for itself.

    >>> [bar.pieces for bar in cut_from_bars([1.582] * 3 + [1.2], 3.0)]
    [(1.582, 1.2), (1.582,), (1.582,)]
    """
    ordered = sorted(pieces, reverse=True)
    if ordered and (ordered[-1] <= 0.0 or kerf < 0.0 or not math.isfinite(ordered[0])):
        raise InvalidInput(f"a piece of {ordered[-1]} m cannot be cut with a blade of {kerf} m")
    if ordered and ordered[0] > length + _TOUCH:
        raise InvalidInput(f"a piece of {ordered[0]} m is longer than the bar of {length} m")
    rooms: list[float] = []
    bars: list[list[float]] = []
    for piece in ordered:
        at = next((at for at, room in enumerate(rooms) if piece <= room + _TOUCH), len(rooms))
        if at == len(rooms):
            rooms.append(length)
            bars.append([])
        bars[at].append(piece)
        rooms[at] -= piece + kerf
    return tuple(Bar(length, tuple(bar), max(room, 0.0)) for bar, room in zip(bars, rooms, strict=True))


def joined(pieces: Sequence[float], length: float) -> tuple[float, ...]:
    """Pieces with those longer than a bar in parts: whole bars end to end and the rest.

    Parameters
    ----------
    pieces : sequence of float
        Lengths that are needed [m].
    length : float
        Length of a bar, above zero [m].

    Returns
    -------
    tuple of float
        Lengths, none above that of the bar [m].

    Examples
    --------
    >>> joined([2.0, 6.5], 3.0)
    (2.0, 3.0, 3.0, 0.5)
    """
    found: list[float] = []
    for piece in pieces:
        whole = int((piece - _TOUCH) / length) if piece > length + _TOUCH else 0
        found += [length] * whole + [piece - whole * length]
    return tuple(found)
