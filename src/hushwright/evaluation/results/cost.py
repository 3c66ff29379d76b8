"""What a build takes of material and time, and what that costs; money in decimals of the build's currency."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from hushwright.costing.money import NOTHING
from hushwright.costing.quote import Quote
from hushwright.costing.rolls import Roll

US_AMOUNTS = {"ft": ("m", 0.3048), "ft2": ("m2", 0.3048**2), "ft3": ("m3", 0.3048**3), "lb": ("kg", 0.45359237)}
"""What a price in US units is for: unit of the take-off, and its size; exact by definition."""

Allotment = tuple[tuple[str, str], Decimal]
"""Part of an amount: group and what it buys, and how much."""


@dataclass(frozen=True, slots=True)
class Thing:
    """Material, part or work piece of one place: amounts by unit (`piece`, `m`, `m2`, `m3`, `kg`)."""

    kind: str
    name: str
    size: float | None  # thickness or diameter [m]
    group: str
    buys: str
    amounts: tuple[tuple[str, float], ...]
    place: str
    is_bought: bool = True
    pieces: tuple[float, ...] = ()  # lengths of what is cut from bars [m]
    bays: tuple[tuple[float, float], ...] = ()  # width and length of what strips off a roll fill [m]

    def amount(self, unit: str) -> float | None:
        """Amount in one unit, `None` where it is not counted so."""
        own, size = US_AMOUNTS.get(unit, (unit, 1.0))
        found = dict(self.amounts).get(own)
        return None if found is None else found / size


@dataclass(frozen=True, slots=True)
class PurchaseLine:
    """One line of the purchase list."""

    name: str
    kind: str
    size: float | None
    need: Decimal
    with_waste: Decimal
    unit: str
    packs: int
    pack: Decimal
    amount: Decimal
    unit_price: Decimal
    cost: Decimal
    sale: Decimal  # with markup
    uncertainty: float  # standard uncertainty of the cost
    known: bool  # whether the price has a range of its own
    tax_rate: Decimal
    typed: str
    supplier: str
    date: str
    note: str
    place: str
    shares: tuple[Allotment, ...]  # of the sale
    bars: tuple[tuple[float, ...], ...] = ()  # pieces on each bar, where packs are bars [m]
    rolls: tuple[Roll, ...] = ()  # what is cut from each, where the price says how wide they are


@dataclass(frozen=True, slots=True)
class CoveredLine:
    """A thing that something else pays for."""

    name: str
    size: float | None
    by: str
    amount: float
    unit: str


@dataclass(frozen=True, slots=True)
class Unpriced:
    """A thing or job without a price, and why."""

    name: str
    size: float | None
    amount: float
    unit: str
    reason: str
    place: str


@dataclass(frozen=True, slots=True)
class Job:
    """One job: hours, cost, and what it is done to."""

    name: str
    trade: str
    hours: Decimal
    rate: Decimal
    cost: Decimal
    uncertainty: float
    known: bool
    things: tuple[tuple[str, float | None, float, str], ...]  # name, size, amount, unit
    hold_point: str
    note: str
    place: str
    shares: tuple[Allotment, ...]


@dataclass(frozen=True, slots=True)
class CostShare:
    """Sale of one group or purpose, and its mass where it has one."""

    name: str
    material: Decimal
    labour: Decimal

    @property
    def total(self) -> Decimal:
        """Both."""
        return self.material + self.labour


@dataclass(frozen=True, slots=True)
class CostResult:
    """Everything about money; ``quote`` is `None` where the file has no prices."""

    currency: str
    purchase: tuple[PurchaseLine, ...]
    covered: tuple[CoveredLine, ...]
    unpriced: tuple[Unpriced, ...]
    jobs: tuple[Job, ...]
    by_group: tuple[CostShare, ...]
    by_purpose: tuple[CostShare, ...]
    quote: Quote | None
    uncertainty: float  # standard uncertainty of the quote without tax
    notes: tuple[str, ...]
    markup: Decimal = NOTHING
    """Share added to bought material."""
    contingency: Decimal = NOTHING
    """Share of material and labour added for what nobody foresaw."""

    @property
    def bought(self) -> Decimal:
        """What the purchase list comes to."""
        return sum((line.cost for line in self.purchase), NOTHING)

    @property
    def material(self) -> Decimal:
        """What was bought, with the markup."""
        return sum((line.sale for line in self.purchase), NOTHING)

    @property
    def labour(self) -> Decimal:
        """All jobs."""
        return sum((job.cost for job in self.jobs), NOTHING)

    @property
    def hours(self) -> Decimal:
        """Of all jobs [h]."""
        return sum((job.hours for job in self.jobs), Decimal(0))


NO_COST = CostResult("", (), (), (), (), (), (), None, 0.0, ())
