"""Money of a Build: purchase, jobs, cost by group and by what it buys, quote."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from datetime import date
from decimal import Decimal

from hushwright.costing.money import NOTHING, exact, payable, smallest_coin
from hushwright.costing.purchase import hours_worked
from hushwright.costing.quote import QuoteLine, quoted
from hushwright.document.schema.costs import BUYS
from hushwright.evaluation.cost.pricing import Naming, divided, first_unit, naming_of, owned, priced
from hushwright.evaluation.cost.take_off import VEHICLE, things_of, together
from hushwright.evaluation.results import REPORTED, Contribution, Quantity
from hushwright.evaluation.results.cost import (
    NO_COST,
    CostResult,
    CostShare,
    Job,
    PurchaseLine,
    Thing,
    Unpriced,
)
from hushwright.model.build import Build
from hushwright.model.costs_in_place import Costs, OperationInPlace

_NAMED = 4
_OLD = 183  # days after which a price is told as old; common practice, no source
CONTINGENCY = "not foreseen"


def cost_of(build: Build) -> CostResult:
    """What a build takes and costs; :data:`NO_COST` with its notes where the file has no prices.

    Parameters
    ----------
    build : Build
        What is there.

    Returns
    -------
    CostResult
        A thing without a price is in ``unpriced``; it never counts as nothing.
    """
    costs = build.costs
    if not costs.currency:
        return NO_COST
    coin = smallest_coin(costs.currency)
    things = things_of(build)
    naming = naming_of(things)
    things = owned(things, costs, naming)
    lines, covered, unpriced = priced(things, costs, naming, coin)
    jobs = tuple(_job(operation, things, naming, coin) for operation in costs.operations)
    unpriced += _unworked(things, costs, naming)
    quote = quoted(_quote_lines(lines, jobs, costs, coin), coin)
    rest = tuple(CostShare(line.name, line.material, line.labour) for line in quote.lines if line.name == CONTINGENCY)
    groups = _shares(lines, jobs, 0) + rest
    purposes = tuple(sorted(_shares(lines, jobs, 1), key=lambda each: _order(each.name))) + rest
    spread = math.hypot(_spread(lines, costs.markup), _job_spread(jobs, costs.labour_spread))
    spread *= 1.0 + float(costs.contingency)
    return CostResult(costs.currency, lines, covered, unpriced, jobs, groups, purposes, quote, spread,
                      _notes(build, lines, naming), costs.markup, costs.contingency)  # fmt: skip


def cost_quantities(build: Build, cost: CostResult, quantities: dict[str, Quantity]) -> None:
    """What the verdict on the budget asks."""
    if cost.quote is None:
        return
    with_tax = build.costs.budget_with_tax
    total = float(cost.quote.gross if with_tax else cost.quote.net)
    factor = total / float(cost.quote.net) if cost.quote.net else 1.0
    known = [(line.place, line.name, factor * line.uncertainty) for line in cost.purchase if line.known]
    known += [(job.place, job.name, factor * job.uncertainty) for job in cost.jobs if job.known]
    shares = tuple(Contribution(path, name, change) for path, name, change in sorted(known, key=lambda each: -each[2]))
    own = math.sqrt(sum(each.change**2 for each in shares))
    common = math.sqrt(max((factor * cost.uncertainty) ** 2 - own**2, 0.0))
    quantities["budget"] = Quantity(total, f"money {cost.currency}", common, shares, _missing(cost) + cost.notes)


def _missing(cost: CostResult) -> tuple[str, ...]:
    if not cost.unpriced:
        return ()
    return (f"the sum is too low: it lacks what has no price, {_some(each.name for each in cost.unpriced)}",)


def _some(names: Iterable[str]) -> str:
    """The first few names, and how many there are besides."""
    told = list(dict.fromkeys(names))
    return ", ".join(told[:_NAMED]) + (f" and {len(told) - _NAMED} more things" if len(told) > _NAMED else "")


def _job(operation: OperationInPlace, things: Sequence[Thing], naming: Naming, coin: Decimal) -> Job:
    """Hours of an operation on everything it is done to."""
    meaning = naming.meaning(operation.to)
    done = [thing for thing in things if meaning.takes_in(thing)]
    weights: dict[tuple[str, str], Decimal] = {}
    amount = NOTHING if operation.per != "job" else Decimal(1)
    for thing in done:
        size = thing.amount(operation.per) if operation.per != "job" else 1.0
        owner = (thing.group, operation.buys or thing.buys)
        weights[owner] = weights.get(owner, NOTHING) + exact(size or 0.0)
    if operation.per != "job":
        amount = sum(weights.values(), NOTHING)
    hours = hours_worked(amount, exact(operation.time))
    cost = payable(hours * operation.rate, coin)
    spread = float(amount) * operation.spread / 3600.0 * float(operation.rate)
    owners = weights or {("workshop", operation.buys or "workshop"): Decimal(1)}
    return Job(
        operation.name, operation.trade, hours, operation.rate, cost, spread, operation.spread > 0.0,
        _done_to(done, operation.per), operation.hold_point, operation.note, operation.place,
        divided(cost, owners, coin),
    )  # fmt: skip


def _done_to(done: Iterable[Thing], per: str) -> tuple[tuple[str, float | None, float, str], ...]:
    found = []
    for thing in together(tuple(done)):
        unit = per if thing.amount(per) is not None else first_unit(thing)
        found.append((thing.name, thing.size, thing.amount(unit) or 0.0, unit))
    return tuple(found)


def _unworked(things: Sequence[Thing], costs: Costs, naming: Naming) -> tuple[Unpriced, ...]:
    """Things that no job names; everything where the file has no labour at all, told as one."""
    if not costs.labour_given:
        return (Unpriced("labour", None, 1.0, "job", "the file has no `labour`", "labour"),)
    meaning = naming.meaning(name for operation in costs.operations for name in operation.to)
    left = [
        thing for thing in together(tuple(things))
        if thing.group != VEHICLE and not meaning.takes_in(thing)
    ]  # fmt: skip
    return tuple(
        Unpriced(f"work on {thing.name}", thing.size, thing.amount(unit := first_unit(thing)) or 0.0, unit,
                 "no job names it", thing.place)
        for thing in left
    )  # fmt: skip


def _shares(lines: Sequence[PurchaseLine], jobs: Sequence[Job], key: int) -> tuple[CostShare, ...]:
    """Sale by group (0) or by what it buys (1), largest first."""
    material: dict[str, Decimal] = {}
    labour: dict[str, Decimal] = {}
    for into, shares in ((material, [each.shares for each in lines]), (labour, [each.shares for each in jobs])):
        for one in shares:
            for owner, amount in one:
                into[owner[key]] = into.get(owner[key], NOTHING) + amount
    names = dict.fromkeys([*material, *labour])
    found = [CostShare(name, material.get(name, NOTHING), labour.get(name, NOTHING)) for name in names]
    return tuple(sorted(found, key=lambda each: -each.total))


def _order(purpose: str) -> int:
    return BUYS.index(purpose) if purpose in BUYS else len(BUYS)


def _quote_lines(
    lines: Sequence[PurchaseLine], jobs: Sequence[Job], costs: Costs, coin: Decimal
) -> tuple[QuoteLine, ...]:
    """One line for each purpose and rate of tax, and what nobody foresaw in proportion to their rates."""
    sums: dict[tuple[str, Decimal], list[Decimal]] = {}
    for rate, shares, column in (
        *((line.tax_rate, line.shares, 0) for line in lines), *((costs.labour_tax, job.shares, 1) for job in jobs)
    ):  # fmt: skip
        for (_, purpose), amount in shares:
            sums.setdefault((purpose, rate), [NOTHING, NOTHING])[column] += amount
    ordered = sorted(sums, key=lambda key: (_order(key[0]), -key[1]))
    found = [QuoteLine(purpose, sums[purpose, rate][0], sums[purpose, rate][1], rate) for purpose, rate in ordered]
    if costs.contingency:
        for rate in sorted({line.tax_rate for line in found}, reverse=True):
            base = sum((line.net for line in found if line.tax_rate == rate and line.name != CONTINGENCY), NOTHING)
            found.append(QuoteLine(CONTINGENCY, payable(base * costs.contingency, coin), NOTHING, rate))
    return tuple(found)


def _spread(lines: Sequence[PurchaseLine], markup: Decimal) -> float:
    """Standard uncertainty of material: prices without a range err together, others each on its own."""
    together_ = sum(line.uncertainty for line in lines if not line.known)
    alone = sum(line.uncertainty**2 for line in lines if line.known)
    return (1.0 + float(markup)) * math.sqrt(together_**2 + alone)


def _job_spread(jobs: Sequence[Job], share: float) -> float:
    """Standard uncertainty of labour, likewise."""
    together_ = share * float(sum((job.cost for job in jobs if not job.known), NOTHING))
    return math.hypot(together_, math.sqrt(sum(job.uncertainty**2 for job in jobs if job.known)))


def _notes(build: Build, lines: Sequence[PurchaseLine], naming: Naming) -> tuple[str, ...]:
    """Old prices, prices that nothing uses, and jobs without anything to do."""
    notes = []
    today = _date(build.document.root.date)
    old = [line.name for line in lines if today and (of := _date(line.date)) and (today - of).days > _OLD]
    if old:
        notes.append(f"{REPORTED}ask again, these prices are older than half a year: {_some(old)}")
    idle = [price.of for price in build.costs.prices if not naming.has(price.of)]
    if idle:
        notes.append(f"{REPORTED}the file prices what this van does not have, so it is not in the sum: {_some(idle)}")
    lost = [
        f"{name} (in the job {operation.name})" for operation in build.costs.operations for name in operation.to
        if not naming.has(name)
    ]  # fmt: skip
    if lost:
        notes.append(f"{REPORTED}jobs name what this van does not have, which takes no hours: {_some(lost)}")
    return tuple(notes)


def _date(text: str) -> date | None:
    try:
        return date.fromisoformat(text.strip())
    except ValueError:
        return None
