"""Rectangles cut from plates on a panel saw: every cut goes right through the piece that lies on the table.

Shelves are filled first fit, tallest first; what stands lower than its shelf leaves room above, which is filled in the
same way. Shelves then go into the first plate that has room for them.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import product
from typing import Literal

from hushwright.errors import InvalidInput

_TOUCH = 1e-7  # m, to which lengths are the same


@dataclass(frozen=True, slots=True)
class Blank:
    """A rectangle to be cut; ``turns`` where its grain does not matter."""

    name: str
    width: float
    height: float
    turns: bool = False

    @property
    def turned(self) -> Blank:
        """The same lying on its other side."""
        return replace(self, width=self.height, height=self.width)


@dataclass(frozen=True, slots=True)
class Stock:
    """A plate as it is bought, its grain along the length, and the width of the saw cut [m]."""

    length: float
    width: float
    kerf: float

    @property
    def area(self) -> float:
        """Area of a plate [m²]."""
        return self.length * self.width

    def takes(self, blank: Blank) -> bool:
        """Whether a blank fits as it lies."""
        return blank.width <= self.length + _TOUCH and blank.height <= self.width + _TOUCH


@dataclass(frozen=True, slots=True)
class Area:
    """A rectangle on a plate: a blank by its name, or what is left over, without one."""

    name: str
    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class SawCut:
    """A cut across x or y at a place, from one edge of the piece to the other; the blade takes ``wide`` beyond it.

    ``fence`` is the width of what comes off: how far the fence stands from the blade.
    """

    across: Literal["x", "y"]
    at: float
    fence: float
    start: float
    end: float
    wide: float


@dataclass(frozen=True, slots=True)
class CutPlate:
    """A plate with its blanks, the cuts in the order in which they are made, and what is left over."""

    stock: Stock
    blanks: tuple[Area, ...]
    cuts: tuple[SawCut, ...]
    offcuts: tuple[Area, ...]

    @property
    def used(self) -> float:
        """Share of the plate that becomes blanks [-]."""
        return sum(each.width * each.height for each in self.blanks) / self.stock.area


@dataclass(frozen=True, slots=True)
class Shelf:
    """Blanks beside each other, the tallest first; above each what fits into the room that it leaves."""

    height: float
    blanks: tuple[Blank, ...]
    above: tuple[tuple[Shelf, ...], ...]


def shelved(blanks: Iterable[Blank], width: float, kerf: float = 0.0, *, refilled: bool = False) -> tuple[Shelf, ...]:
    """Shelves of a width for some blanks: first fit, tallest first.

    Parameters
    ----------
    blanks : iterable of Blank
        What is to be cut, as it lies [m].
    width : float
        Width of every shelf [m].
    kerf : float
        Width of the saw cut [m].
    refilled : bool
        Whether the room above a blank that is lower than its shelf is filled with others [-].

    Returns
    -------
    tuple of Shelf
        The highest first.

    Raises
    ------
    InvalidInput
        If a blank is wider than the shelf.

    Notes
    -----
    Each blank goes on the first shelf that has room for it. Without kerf and refilling, the shelves together are at
    most 1.7 times as high as the lowest arrangement that there is, and one blank more.

    References
    ----------
    E. G. Coffman Jr, M. R. Garey, D. S. Johnson, R. E. Tarjan, Performance bounds for level-oriented two-dimensional
    packing algorithms, SIAM Journal on Computing 9 (1980) 808-826.

    Examples
    --------
    >>> [shelf.height for shelf in shelved([Blank("a", 2.0, 1.0), Blank("b", 1.0, 3.0), Blank("c", 1.0, 0.5)], 3.0)]
    [3.0, 0.5]
    """
    left = sorted(blanks, key=lambda blank: (-blank.height, -blank.width, blank.name))
    wide = next((blank for blank in left if blank.width > width + _TOUCH), None)
    if wide is not None:
        raise InvalidInput(f"{wide.name} is {wide.width} m wide and does not fit into {width} m")
    found: list[Shelf] = []
    while left:
        row, left = _row(left, width, left[0].height, kerf)
        above: list[tuple[Shelf, ...]] = []
        for blank in row:
            shelves: tuple[Shelf, ...] = ()
            if refilled:
                shelves, left = _filled(left, blank.width, row[0].height - blank.height - kerf, kerf)
            above.append(shelves)
        found.append(Shelf(row[0].height, tuple(row), tuple(above)))
    return tuple(found)


def _row(ordered: Sequence[Blank], width: float, height: float, kerf: float) -> tuple[list[Blank], list[Blank]]:
    """Blanks that go beside each other into a width and under a height, and those that are left, in order."""
    row: list[Blank] = []
    left: list[Blank] = []
    x = 0.0
    for blank in ordered:
        if blank.height <= height + _TOUCH and x + blank.width <= width + _TOUCH:
            row.append(blank)
            x += blank.width + kerf
        else:
            left.append(blank)
    return row, left


def _filled(
    ordered: Sequence[Blank], width: float, height: float, kerf: float
) -> tuple[tuple[Shelf, ...], list[Blank]]:
    """Shelves in a rectangle of a plate, and the blanks that found no place in it."""
    found: list[Shelf] = []
    left = list(ordered)
    while True:
        first = next((b for b in left if b.height <= height + _TOUCH and b.width <= width + _TOUCH), None)
        if first is None:
            return tuple(found), left
        row, left = _row(left, width, first.height, kerf)
        above: list[tuple[Shelf, ...]] = []
        for blank in row:
            shelves, left = _filled(left, blank.width, row[0].height - blank.height - kerf, kerf)
            above.append(shelves)
        found.append(Shelf(row[0].height, tuple(row), tuple(above)))
        height -= row[0].height + kerf


def cut_from_plates(blanks: Sequence[Blank], stock: Stock) -> tuple[CutPlate, ...]:
    """Plates for some blanks, the fewest of several ways to lay them.

    Parameters
    ----------
    blanks : sequence of Blank
        What is to be cut [m].
    stock : Stock
        The plate [m].

    Returns
    -------
    tuple of CutPlate
        Shelves along the length or across it, blanks that may turn lying or standing, room above filled or not:
        whichever needs the fewest plates; among those the one whose last plate is the emptiest.

    Raises
    ------
    InvalidInput
        If a blank fits on no plate.

    Notes
    -----
    Shelves go into the first plate with room, the highest first. Without kerf and turning, that takes at most 2.125
    times as many plates as the best arrangement, and five more.

    References
    ----------
    F. R. K. Chung, M. R. Garey, D. S. Johnson, On packing two-dimensional bins, SIAM Journal on Algebraic and Discrete
    Methods 3 (1982) 66-76 (bound from memory).

    Examples
    --------
    >>> plates = cut_from_plates([Blank("a", 1.2, 0.6)] * 4, Stock(2.5, 1.25, 0.003))
    >>> len(plates), len(plates[0].cuts), round(plates[0].used, 3)
    (1, 6, 0.922)
    """
    for blank in blanks:
        if not (stock.takes(blank) or (blank.turns and stock.takes(blank.turned))):
            size = f"{blank.width} m by {blank.height} m"
            raise InvalidInput(f"{blank.name}, {size}, fits on no plate of {stock.length} m by {stock.width} m")
    ways = [
        _laid([_lying(blank, stock, flat=flat) for blank in blanks], stock, across=across, refilled=refilled)
        for across, flat, refilled in product((False, True), (True, False), (True, False))
    ]
    return min(ways, key=lambda plates: (len(plates), plates[-1].used if plates else 0.0))


def _lying(blank: Blank, stock: Stock, *, flat: bool) -> Blank:
    """A blank that may turn on its longer side, or on its shorter one, where it fits so."""
    if not blank.turns:
        return blank
    ways = sorted((blank, blank.turned), key=lambda each: -each.width if flat else each.width)
    return next(each for each in ways if stock.takes(each))


def _laid(blanks: Sequence[Blank], stock: Stock, *, across: bool, refilled: bool) -> tuple[CutPlate, ...]:
    """Plates with shelves along their length, or across it: then everything is laid out turned and turned back."""
    bed = Stock(stock.width, stock.length, stock.kerf) if across else stock
    shelves = shelved([blank.turned for blank in blanks] if across else blanks, bed.length, bed.kerf, refilled=refilled)
    rooms: list[float] = []
    piles: list[list[Shelf]] = []
    for shelf in shelves:
        at = next((at for at, room in enumerate(rooms) if shelf.height <= room + _TOUCH), len(rooms))
        if at == len(rooms):
            rooms.append(bed.width)
            piles.append([])
        piles[at].append(shelf)
        rooms[at] -= shelf.height + bed.kerf
    plates = [_sawn(pile, bed) for pile in piles]
    return tuple(_turned_back(plate, stock) for plate in plates) if across else tuple(plates)


class _Saw:
    """A plate being cut: what has come off it so far."""

    def __init__(self, kerf: float) -> None:
        self.kerf = kerf
        self.blanks: list[Area] = []
        self.cuts: list[SawCut] = []
        self.offcuts: list[Area] = []

    def region(self, x: float, y: float, width: float, height: float, shelves: Sequence[Shelf]) -> None:
        """Cut shelves off a rectangle, one after the other, then each into its blanks."""
        if min(width, height) <= _TOUCH:
            return
        starts = []
        top = y + height
        for shelf in shelves:
            starts.append(y)
            y = self._cut("y", y, shelf.height, top, (x, x + width))
        self._left_over(x, y, width, top - y)
        for start, shelf in zip(starts, shelves, strict=True):
            self._shelf(x, start, width, shelf)

    def _shelf(self, x: float, y: float, width: float, shelf: Shelf) -> None:
        starts = []
        end = x + width
        for blank in shelf.blanks:
            starts.append(x)
            x = self._cut("x", x, blank.width, end, (y, y + shelf.height))
        self._left_over(x, y, end - x, shelf.height)
        for start, blank, above in zip(starts, shelf.blanks, shelf.above, strict=True):
            self.blanks.append(Area(blank.name, start, y, blank.width, blank.height))
            low = self._cut("y", y, blank.height, y + shelf.height, (start, start + blank.width))
            self.region(start, low, blank.width, y + shelf.height - low, above)

    def _cut(
        self, across: Literal["x", "y"], begins: float, fence: float, edge: float, along: tuple[float, float]
    ) -> float:
        """Where the rest begins after a cut; no cut where the piece ends there anyway."""
        at = begins + fence
        if edge - at <= _TOUCH:
            return edge
        wide = min(self.kerf, edge - at)
        self.cuts.append(SawCut(across, at, fence, *along, wide))
        return at + wide

    def _left_over(self, x: float, y: float, width: float, height: float) -> None:
        if min(width, height) > _TOUCH:
            self.offcuts.append(Area("", x, y, width, height))


def _sawn(pile: Sequence[Shelf], stock: Stock) -> CutPlate:
    saw = _Saw(stock.kerf)
    saw.region(0.0, 0.0, stock.length, stock.width, pile)
    return CutPlate(stock, tuple(saw.blanks), tuple(saw.cuts), tuple(saw.offcuts))


def _turned_back(plate: CutPlate, stock: Stock) -> CutPlate:
    """A plate laid out across, as it lies along its length."""

    def turned(areas: tuple[Area, ...]) -> tuple[Area, ...]:
        return tuple(Area(each.name, each.y, each.x, each.height, each.width) for each in areas)

    cuts = tuple(replace(cut, across="y" if cut.across == "x" else "x") for cut in plate.cuts)
    return CutPlate(stock, turned(plate.blanks), cuts, turned(plate.offcuts))


def least_plates(blanks: Iterable[Blank], stock: Stock) -> int:
    """Number of plates that no layout can go below.

    The area of the blanks, each with a cut on two of its sides, takes so many; and of blanks that do not turn and are
    longer and wider than half a plate, each takes one for itself.

    Parameters
    ----------
    blanks : iterable of Blank
        What is to be cut [m].
    stock : Stock
        The plate [m].

    Returns
    -------
    int
        Number of plates [-].

    Examples
    --------
    >>> least_plates([Blank("a", 1.0, 1.0)] * 4, Stock(2.0, 1.0, 0.0))
    2
    """
    kerf, listed = stock.kerf, tuple(blanks)
    alone = sum(
        not blank.turns and blank.width > stock.length / 2.0 and blank.height > stock.width / 2.0 for blank in listed
    )
    need = sum((blank.width + kerf) * (blank.height + kerf) for blank in listed)
    plate = (stock.length + kerf) * (stock.width + kerf)
    whole = int(need / plate)
    return max(whole + int(need - whole * plate > 1e-6 * plate), alone)
