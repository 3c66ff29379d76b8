"""Tables of money and material: the same for text, CSV, XLSX and paper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from hushwright.evaluation.cost.options import OptionResult
from hushwright.evaluation.results.cost import CostResult, CostShare, PurchaseLine, Thing
from hushwright.report.cost import in_system, share, steps_to_sum, unit_words
from hushwright.report.units_out import bare_number, restated, unit_of
from hushwright.units import System

Cell = str | int | float | Decimal | None


@dataclass(frozen=True, slots=True)
class Sheet:
    """A table with its title; numbers stay numbers, money stays decimal."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


def cost_sheets(
    cost: CostResult, things: Sequence[Thing], options: Sequence[OptionResult], system: System
) -> tuple[Sheet, ...]:
    """Every table of a build's money, those without a row left out."""
    found = (
        quote_sheet(cost), reckoning_sheet(cost), _shares("Cost by group", "group", cost.by_group, cost.currency),
        purchase_sheet(cost, system), jobs_sheet(cost), covered_sheet(cost, system), unpriced_sheet(cost, system),
        options_sheet(options, cost, system), quantities_sheet(things, system),
    )  # fmt: skip
    return tuple(sheet for sheet in found if sheet.rows)


def quote_sheet(cost: CostResult) -> Sheet:
    """Lines by what they buy, sums, tax by rate."""
    money = f"[{cost.currency}]"
    columns = ("buys", f"material {money}", f"labour {money}", f"without tax {money}", "tax rate")
    if cost.quote is None:
        return Sheet("Quote", columns, ())
    rows: list[tuple[Cell, ...]] = [
        (line.name, line.material, line.labour, line.net, share(line.tax_rate)) for line in cost.quote.lines
    ]
    rows.append(("without tax", None, None, cost.quote.net, None))
    rows += [(f"tax {share(rate)} of {net}", None, None, tax, share(rate)) for rate, net, tax in cost.quote.taxes]
    rows.append(("with tax", None, None, cost.quote.gross, None))
    return Sheet("Quote", columns, tuple(rows))


def reckoning_sheet(cost: CostResult) -> Sheet:
    """From the purchase list to the sum without tax."""
    columns = ("part of the sum", f"money [{cost.currency}]")
    return Sheet("From purchase to quote", columns, tuple(steps_to_sum(cost)) if cost.quote is not None else ())


def _shares(title: str, first: str, shares: Sequence[CostShare], currency: str) -> Sheet:
    money = f"[{currency}]"
    columns = (first, f"material {money}", f"labour {money}", f"total {money}")
    return Sheet(title, columns, tuple((one.name, one.material, one.labour, one.total) for one in shares))


def purchase_sheet(cost: CostResult, system: System) -> Sheet:
    """What is bought, from whom, how much, for how much; purchase cost without markup."""
    columns = (
        "supplier", "item", f"size [{unit_of('length', system)}]", "need", "with waste", "unit", "packs", "pack of",
        "buy", f"unit price [{cost.currency}]", f"cost [{cost.currency}]", "price of", "note",
    )  # fmt: skip
    ordered = sorted(cost.purchase, key=lambda one: (one.supplier, one.name, one.size or 0.0))
    return Sheet("Purchase list", columns, tuple(_purchase(one, system) for one in ordered))


def _purchase(one: PurchaseLine, system: System) -> tuple[Cell, ...]:
    told, factor = in_system(one.unit, system)
    amounts = [round(float(amount) * factor, 3) for amount in (one.need, one.with_waste, one.pack, one.amount)]
    return (
        one.supplier, restated(one.name, system), bare_number(one.size, "length", system), amounts[0], amounts[1],
        unit_words(told, 1), one.packs or None, amounts[2] if one.pack else None, amounts[3],
        round(one.unit_price / Decimal(repr(factor)), 4), one.cost, one.date,
        "; ".join(text for text in (one.typed, one.note) if text),
    )  # fmt: skip


def jobs_sheet(cost: CostResult) -> Sheet:
    """Jobs in order with hours and cost."""
    money = f"[{cost.currency}]"
    columns = ("job", "trade", "hours", f"rate {money}", f"cost {money}", "hold point after it", "note")
    rows = tuple((job.name, job.trade, job.hours, job.rate, job.cost, job.hold_point, job.note) for job in cost.jobs)
    return Sheet("Jobs", columns, rows)


def covered_sheet(cost: CostResult, system: System) -> Sheet:
    """What something else pays for."""
    columns = ("item", f"size [{unit_of('length', system)}]", "amount", "unit", "covered by")
    rows = tuple(
        (restated(one.name, system), bare_number(one.size, "length", system), *_amount(one.amount, one.unit, system),
         one.by)
        for one in cost.covered
    )  # fmt: skip
    return Sheet("Covered by others", columns, rows)


def unpriced_sheet(cost: CostResult, system: System) -> Sheet:
    """What has no price; it is in no sum."""
    columns = ("item", f"size [{unit_of('length', system)}]", "amount", "unit", "why", "place in the file")
    rows = tuple(
        (restated(one.name, system), bare_number(one.size, "length", system), *_amount(one.amount, one.unit, system),
         one.reason, one.place)
        for one in cost.unpriced
    )  # fmt: skip
    return Sheet("Without a price", columns, rows)


def options_sheet(options: Sequence[OptionResult], cost: CostResult, system: System) -> Sheet:
    """Alternatives beside the build: more or less money and mass."""
    columns = ("option", f"without tax [{cost.currency}]", f"with tax [{cost.currency}]",
               f"mass [{unit_of('mass', system)}]", "note")  # fmt: skip
    rows = tuple(
        (one.name, None, None, None, one.problem) if one.problem
        else (one.name, one.net, one.gross, bare_number(round(one.mass, 2), "mass", system), one.note)
        for one in options
    )  # fmt: skip
    return Sheet("Options", columns, rows)


def quantities_sheet(things: Sequence[Thing], system: System) -> Sheet:
    """Everything that was counted from the geometry, place by place."""
    units = ("piece", "m", "m2", "m3", "kg")
    told = [in_system(unit, system) for unit in units]
    size = f"size [{unit_of('length', system)}]"
    columns = ("group", "kind", "item", size, *(unit_words(unit, 1) for unit, _ in told), "place in the file")
    rows = []
    for one in things:
        numbers: list[Cell] = []
        for unit, (_, factor) in zip(units, told, strict=True):
            amount = one.amount(unit)
            numbers.append(None if amount is None else round(amount * factor, 3))
        name = restated(one.name, system)
        rows.append((one.group, one.kind, name, bare_number(one.size, "length", system), *numbers, one.place))
    return Sheet("Quantities", columns, tuple(rows))


def _amount(amount: float, unit: str, system: System) -> tuple[float, str]:
    told, factor = in_system(unit, system)
    return round(amount * factor, 3), unit_words(told, amount)


def plain_cells(row: Sequence[Cell]) -> list[str | int | float | None]:
    """Row without decimals, for tables as text."""
    return [float(cell) if isinstance(cell, Decimal) else cell for cell in row]
