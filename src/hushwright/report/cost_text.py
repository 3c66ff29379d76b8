"""The cost command as text: quote, purchase list, jobs, options, what has no price."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from hushwright.evaluation.cost.options import OptionResult
from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.results.cost import CostResult, PurchaseLine
from hushwright.report.cost import amount_of, coins, cost, in_system, named, unit_words, without_price
from hushwright.report.labels import heading as words
from hushwright.report.labels import label
from hushwright.report.layout import heading, shortened, table, wrapped
from hushwright.report.plates import plates_told
from hushwright.report.text import title_lines
from hushwright.report.units_out import shown
from hushwright.units import System

_NAME = 40
_ALL = 10_000
_NO_MASS = 0.05  # kg


def cost_text(evaluation: Evaluation, options: Sequence[OptionResult], system: System) -> str:
    """Everything about money, at most 100 columns wide."""
    build, found = evaluation.build, evaluation.cost
    lines = title_lines(build.title, build.file, "", date=build.document.root.date)
    if found.quote is None:
        return "\n".join([*lines, "", *wrapped(NO_PRICES)])
    lines += cost(evaluation, system) if not found.unpriced else []
    if found.unpriced:  # first what is not in the sum
        lines += without_price(found.unpriced, system, _ALL) + cost(evaluation, system)
    lines += _purchase(found, system)
    lines += [line for told in plates_told(build, system) for line in wrapped(told, indent=2, hanging=4)]
    lines += _jobs(found) + _options(options, found, system) + _covered(found, system)
    return "\n".join(lines)


NO_PRICES = (
    "The build file has no `prices`, so nothing can be summed. Begin with `prices: {currency: EUR}`; then this command"
    " lists everything that needs a price."
)


def _purchase(found: CostResult, system: System) -> list[str]:
    rows: list[tuple[str, ...]] = [
        (label("purchase"), label("need"), label("buy"), label("unit_price"), label("total"))
    ]
    ordered = sorted(found.purchase, key=lambda one: (one.supplier, one.name, one.size or 0.0))
    rows += [_purchase_row(one, system) for one in ordered]
    rows.append((label("total"), "", "", "", coins(sum((one.cost for one in ordered), Decimal(0)))))
    return [*heading(words("purchase")), *table(rows, right=(1, 2, 3, 4))] if ordered else []


def _purchase_row(one: PurchaseLine, system: System) -> tuple[str, ...]:
    told, factor = in_system(one.unit, system)
    buy = amount_of(float(one.amount), one.unit, system)
    if one.pack:
        buy = f"{one.packs} × {float(one.pack) * factor:.4g} {unit_words(told, 1)}"
    price = round(one.unit_price / Decimal(repr(factor)), 2)
    return (shortened(named(one.name, one.size, system), _NAME), amount_of(float(one.need), one.unit, system), buy,
            coins(price), coins(one.cost))  # fmt: skip


def _jobs(found: CostResult) -> list[str]:
    if not found.jobs:
        return []
    rows: list[tuple[str, ...]] = [(label("job"), label("hours"), label("total"), label("hold_point"))]
    rows += [(shortened(job.name, _NAME), str(job.hours), coins(job.cost), job.hold_point) for job in found.jobs]
    total = sum((job.cost for job in found.jobs), Decimal(0))
    rows.append((label("total"), str(found.hours), coins(total), ""))
    return [*heading(words("jobs")), *table(rows, right=(1, 2))]


def _options(options: Sequence[OptionResult], found: CostResult, system: System) -> list[str]:
    if not options:
        return []
    rows: list[tuple[str, ...]] = [(label("option"), label("without_tax"), label("with_tax"), label("mass"))]
    problems: list[str] = []
    for one in options:
        if one.problem:
            problems += wrapped(f"{one.name}: {one.problem}", indent=2, hanging=4)
            continue
        mass = shown(round(one.mass, 2), "mass", system, signed=True) if abs(one.mass) >= _NO_MASS else "0"
        rows.append((shortened(one.name, _NAME), signed(one.net), signed(one.gross), mass))
    lines = table(rows, right=(1, 2, 3)) if len(rows) > 1 else []
    return [*heading(f"{words('options')} [{found.currency}]"), *lines, *problems]


def signed(amount: Decimal) -> str:
    """Money with its sign.

    Examples
    --------
    >>> signed(Decimal("40.00")), signed(Decimal("-9.50"))
    ('+40.00', '-9.50')
    """
    return f"+{coins(amount)}" if amount > 0 else coins(amount)


def _covered(found: CostResult, system: System) -> list[str]:
    by: dict[str, list[str]] = {}
    for one in found.covered:
        by.setdefault(one.by, []).append(named(one.name, one.size, system))
    lines: list[str] = []
    for name, parts in by.items():
        lines += wrapped(f"{name}: {'; '.join(parts)}", indent=2, hanging=4)
    return [*heading(words("covered")), *lines] if lines else []
