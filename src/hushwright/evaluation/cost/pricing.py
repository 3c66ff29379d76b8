"""Which price a thing of the build has, and what is bought for all things of one price."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import lru_cache

from hushwright.costing.bars import cut_from_bars, joined
from hushwright.costing.money import allotted, exact, payable
from hushwright.costing.purchase import Bought, bought
from hushwright.costing.rolls import Roll, cut_from_rolls
from hushwright.evaluation.cost.take_off import summed
from hushwright.evaluation.results.cost import US_AMOUNTS, Allotment, CoveredLine, PurchaseLine, Thing, Unpriced
from hushwright.library.library import Library, plain
from hushwright.model.costs_in_place import Costs, PriceInPlace

_SAME_SIZE = 5e-5  # m, to which thicknesses and diameters of a price and a thing agree; common practice, no source
_UNITS = ("piece", "m2", "m", "m3", "kg")  # how a thing without a price is counted, first that it has

Priced = tuple[tuple[PurchaseLine, ...], tuple[CoveredLine, ...], tuple[Unpriced, ...]]


@lru_cache(maxsize=1024)
def names_meant(typed: str) -> frozenset[str]:
    """Plain names that a typed one stands for: itself, and the record of the library that has it as another name."""
    library = Library()
    records = {library.find(kind, typed).name for kind in library.kind_holding(typed)}
    return frozenset({plain(typed), *map(plain, records)})


_plain = lru_cache(maxsize=1024)(plain)


@dataclass(frozen=True, slots=True)
class Meaning:
    """Names and kinds of the things that typed names mean."""

    names: frozenset[str]
    kinds: frozenset[str]

    def takes_in(self, thing: Thing) -> bool:
        """Whether a thing is meant, by its name or its kind."""
        return _plain(thing.name) in self.names or _plain(thing.kind) in self.kinds


@dataclass(frozen=True, slots=True)
class Naming:
    """Which things a typed name means: those of that name, else those of that kind."""

    names: frozenset[str]
    kinds: frozenset[str]

    def meaning(self, typed: Iterable[str]) -> Meaning:
        """What several typed names mean together."""
        each = [self.meant(name) for name in typed]
        names = frozenset(name for meant, _ in each for name in meant)
        return Meaning(names, frozenset(kind for _, kind in each if kind is not None))

    def has(self, typed: str) -> bool:
        """Whether a typed name means anything in the build."""
        meant, kind = self.meant(typed)
        return bool(meant & self.names) or kind in self.kinds

    def meant(self, typed: str) -> tuple[frozenset[str], str | None]:
        """Names and kind of the things that a typed name means.

        A name that something in the build has is no kind: the price of the fitting `cooler` is not that of every
        device that cools. A kind is no other name of a record: `glass` is every pane.
        """
        plainly = _plain(typed)
        meant = frozenset({plainly}) if plainly in self.kinds else names_meant(typed)
        return meant, None if meant & self.names else plainly


class _Prices:
    """Prices of things, found by name and kind without going through all of them."""

    def __init__(self, naming: Naming, prices: Sequence[PriceInPlace]) -> None:
        self._by_name: dict[str, list[PriceInPlace]] = {}
        self._by_kind: dict[str, list[PriceInPlace]] = {}
        for price in prices:
            meant, kind = naming.meant(price.of)
            for name in meant:
                self._by_name.setdefault(name, []).append(price)
            if kind is not None:
                self._by_kind.setdefault(kind, []).append(price)

    def of(self, thing: Thing) -> PriceInPlace | None:
        """Price of a thing: by name before kind, by size before any size, first in the file; `None` without one."""
        for prices in (self._by_name.get(_plain(thing.name), ()), self._by_kind.get(_plain(thing.kind), ())):
            sized = (price for price in prices if price.size is not None and same_size(price.size, thing.size))
            found = next(sized, None) or next((price for price in prices if price.size is None), None)
            if found is not None:
                return found
        return None


def same_size(one: float, other: float | None) -> bool:
    """Whether two thicknesses or diameters [m] are one and the same to somebody who buys."""
    return other is not None and abs(one - other) <= _SAME_SIZE


def owned(things: Iterable[Thing], costs: Costs, naming: Naming) -> tuple[Thing, ...]:
    """Things with what they buy as their price says it, where it says so."""
    found = []
    prices = _Prices(naming, costs.prices)
    for thing in things:
        price = prices.of(thing)
        found.append(thing if price is None or not price.buys else replace(thing, buys=price.buys))
    return tuple(found)


def naming_of(things: Iterable[Thing]) -> Naming:
    """Names and kinds of everything in a build."""
    listed = tuple(things)
    return Naming(frozenset(_plain(thing.name) for thing in listed), frozenset(_plain(each.kind) for each in listed))


def priced(things: Iterable[Thing], costs: Costs, naming: Naming, coin: Decimal) -> Priced:
    """Purchase lines, what something else pays for, and what has no price, in order of first use."""
    lots: dict[tuple[str, float | None, str], list[Thing]] = {}
    chosen: dict[str, PriceInPlace] = {}
    prices = _Prices(naming, costs.prices)
    for thing in things:
        if not thing.is_bought:
            continue
        price = prices.of(thing)
        place = "" if price is None else price.place
        if price is not None:
            chosen[place] = price
        size = None if thing.size is None else round(thing.size, 5)
        lots.setdefault((thing.name, size, place), []).append(thing)
    lines: list[PurchaseLine] = []
    covered: list[CoveredLine] = []
    unpriced: list[Unpriced] = []
    for (_, _, place), lot in lots.items():
        price = chosen.get(place)
        unit = first_unit(lot[0]) if price is None or price.covered_by else price.per
        amount = summed(lot, unit)
        if price is None:
            unpriced.append(Unpriced(lot[0].name, lot[0].size, amount, unit, "no price in the file", lot[0].place))
        elif price.covered_by:
            covered.append(CoveredLine(lot[0].name, lot[0].size, price.covered_by, amount, unit))
        elif price.amount is None:
            unpriced.append(Unpriced(lot[0].name, lot[0].size, amount, unit, "its price is unknown", price.place))
        elif lot[0].amount(price.per) is None:
            told = f"the price is per {price.per} and it is counted in {' and '.join(dict(lot[0].amounts))}"
            counted = first_unit(lot[0])
            unpriced.append(Unpriced(lot[0].name, lot[0].size, summed(lot, counted), counted, told, price.place))
        else:
            lines.append(_line(lot, price, costs, coin))
    return tuple(lines), tuple(covered), tuple(unpriced)


def first_unit(thing: Thing) -> str:
    """Unit in which a thing is told where no price says one."""
    return next((unit for unit in _UNITS if thing.amount(unit) is not None), thing.amounts[0][0])


def _line(lot: list[Thing], price: PriceInPlace, costs: Costs, coin: Decimal) -> PurchaseLine:
    """What is bought for all things of one name and size, and whose part it is."""
    assert price.amount is not None
    need = exact(summed(lot, price.per))
    bars, rolls = _bars(lot, price), rolls_of(lot, price)
    purchase = _purchase(need, price, coin, len(bars), rolls, lot[0].size)
    sale = payable(purchase.cost * (1 + costs.markup), coin)
    spread = price.spread or price.amount * exact(costs.price_spread)
    weights: dict[tuple[str, str], Decimal] = {}
    for thing in lot:
        owner = (thing.group, thing.buys)
        weights[owner] = weights.get(owner, Decimal(0)) + exact(thing.amount(price.per) or 0.0)
    return PurchaseLine(
        lot[0].name, lot[0].kind, lot[0].size, need, purchase.with_waste, price.per, purchase.packs, price.pack,
        purchase.amount, price.amount, purchase.cost, sale, float(spread * purchase.amount), price.spread > 0,
        price.tax, price.typed, price.supplier, price.date, price.note, price.place, divided(sale, weights, coin), bars,
        rolls,
    )  # fmt: skip


def _purchase(
    need: Decimal, price: PriceInPlace, coin: Decimal, bars: int, rolls: tuple[Roll, ...], size: float | None
) -> Bought:
    """Packs by the plates or rolls of a layout where there is one, else by waste."""
    assert price.amount is not None
    if not rolls:
        return bought(need, price.amount, coin, waste=price.waste, pack=price.pack, packs=price.plates, bars=bars)
    if price.pack > 0:
        return bought(need, price.amount, coin, pack=price.pack, packs=max(price.plates, len(rolls)))
    cut = sum(roll.width * roll.used for roll in rolls) / area_of_unit(price.per, size)
    return bought(exact(cut), price.amount, coin)


def area_of_unit(per: str, size: float | None) -> float:
    """Area of one unit of a price [m²]; 0 where it says none."""
    unit, amount = US_AMOUNTS.get(per, (per, 1.0))
    if unit == "m2":
        return amount
    return amount / size if unit == "m3" and size else 0.0


def rolls_of(lot: Sequence[Thing], price: PriceInPlace) -> tuple[Roll, ...]:
    """Rolls that the things of a price take; what has no bays takes strips as wide as the roll, by its area."""
    one = area_of_unit(price.per, lot[0].size)
    if price.width <= 0.0 or one <= 0.0:
        return ()
    bays: list[tuple[float, float]] = []
    for thing in lot:
        area = thing.amount("m2") or 0.0
        bays += thing.bays or ([(price.width, area / price.width)] if area > 0.0 else [])
    length = float(price.pack) * one / price.width if price.pack > 0 else math.inf
    return cut_from_rolls(bays, price.width, length)


def _bars(lot: Sequence[Thing], price: PriceInPlace) -> tuple[tuple[float, ...], ...]:
    """Pieces on each bar as it is sold, width by width; nothing where the things of a price are not cut from bars."""
    unit, metres = US_AMOUNTS.get(price.per, (price.per, 1.0))
    length = float(price.pack) * metres
    if unit != "m" or length <= 0.0:
        return ()
    widths: dict[float, list[float]] = {}
    for thing in lot:
        if thing.pieces:
            section = (thing.amount("m3") or 0.0) / (thing.amount("m") or 1.0)
            widths.setdefault(round(section, 8), []).extend(thing.pieces)
    return tuple(bar.pieces for pieces in widths.values() for bar in cut_from_bars(joined(pieces, length), length))


def divided(amount: Decimal, weights: dict[tuple[str, str], Decimal], coin: Decimal) -> tuple[Allotment, ...]:
    """Amount by owner, in whole coins that add up to it; evenly where nobody has a weight."""
    owners = list(weights)
    shares = [weights[owner] for owner in owners]
    if not any(shares):
        shares = [Decimal(1)] * len(owners)
    return tuple(zip(owners, allotted(amount, shares, coin), strict=True))
