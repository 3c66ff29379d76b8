"""Prices, labour and options in place; money as decimals of the build's currency."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class PriceInPlace:
    """What a thing costs: ``amount`` per unit in the build's currency, `None` where another part pays."""

    of: str
    size: float | None
    amount: Decimal | None
    typed: str  # "18.40 USD" where it was given in another currency
    spread: Decimal  # standard uncertainty per unit, 0 where the file says nothing of it
    per: str
    pack: Decimal
    plates: int  # packs that are bought, 0 where need and waste say
    waste: Decimal
    covered_by: str
    tax: Decimal
    buys: str
    date: str
    supplier: str
    note: str
    place: str
    width: float = 0.0  # of the roll it comes off [m], 0 where the file does not say


@dataclass(frozen=True, slots=True)
class OperationInPlace:
    """A job: seconds for one unit, or for the whole."""

    name: str
    trade: str
    to: tuple[str, ...]
    per: str
    time: float
    spread: float
    rate: Decimal
    buys: str
    hold_point: str
    note: str
    place: str


@dataclass(frozen=True, slots=True)
class OptionInPlace:
    """An alternative: edits of the file and a price of its own."""

    name: str
    edits: tuple[tuple[str, str], ...]
    price: Decimal
    note: str
    place: str


@dataclass(frozen=True, slots=True)
class Costs:
    """Everything about money that the build file says."""

    currency: str
    markup: Decimal
    contingency: Decimal
    price_spread: float  # standard uncertainty, share
    labour_spread: float
    tax: Decimal
    labour_tax: Decimal
    prices: tuple[PriceInPlace, ...]
    operations: tuple[OperationInPlace, ...]
    labour_given: bool
    options: tuple[OptionInPlace, ...]
    budget: Decimal | None
    budget_with_tax: bool


EMPTY_COSTS = Costs("", Decimal(0), Decimal(0), 0.0, 0.0, Decimal(0), Decimal(0), (), (), False, (), None, False)
