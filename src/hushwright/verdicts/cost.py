"""Is it within what the client wants to spend."""

from __future__ import annotations

from dataclasses import replace

from hushwright.document.nodes import parse_path
from hushwright.document.schema import BuildFile
from hushwright.evaluation.cost.take_off import DONOR
from hushwright.evaluation.results import REPORTED, Evaluation, Quantity
from hushwright.evaluation.results.cost import CostResult
from hushwright.verdicts.check import Case, Check
from hushwright.verdicts.hints import SHORT

_SIGNED = "A sum binds nobody before both have signed a quote with its date."
_TYPICAL = ("typical", "assumed")


def _budget(evaluation: Evaluation) -> tuple[Case, ...]:
    costs, cost = evaluation.build.costs, evaluation.cost
    quantity = evaluation.quantities.get("budget")
    limit = None if costs.budget is None else float(costs.budget)
    if quantity is None:
        if limit is None:
            return ()
        nothing = Quantity(0.0, "money", validity=("the build file has no prices, so nothing can be summed",))
        return (Case("total", "", nothing, limit, "budget in the build file", "brief.budget.total",
                     hint="give `prices` and `labour`"),)  # fmt: skip
    if limit is not None:
        quantity = _surely_over(quantity, limit)
    taxed = "with" if costs.budget_with_tax else "without"
    largest = sorted(cost.by_purpose, key=lambda each: -each.total)[:3]
    hint = f"save {SHORT}; most goes into " + ", ".join(
        f"{each.name} {each.total:.0f} {cost.currency}" for each in largest
    )
    if cost.unpriced:
        hint = f"{hint}; `hushwright cost` lists the {len(cost.unpriced)} without a price"
    basis = f"budget in the build file, {taxed} tax; {donor_told(cost)}"
    caution = f"{origin_told(cost, evaluation.build.document.root)} {_SIGNED}"
    return (Case("total", "", quantity, limit, basis, "brief.budget.total", hint=hint, caution=caution),)


def donor_told(cost: CostResult) -> str:
    """Whether the sum holds the van itself, and at how much."""
    if paid := next((each for each in cost.covered if each.name == DONOR), None):
        payer = "the client brings it" if paid.by == "client" else f"covered by {paid.by}"
        return f"the {DONOR} is not in the sum, {payer}"
    bought = sum(each.sale for each in cost.purchase if each.kind == DONOR or each.name == DONOR)
    if bought:
        return f"the {DONOR} is in the sum at {bought:.0f} {cost.currency} without tax"
    return f"the {DONOR} has no price and is not in the sum"


def origin_told(cost: CostResult, root: BuildFile) -> str:
    """Which share of the sum rests on typical prices and hours, and which on those of the workshop."""
    whole = sum(float(each.sale) for each in cost.purchase) + sum(float(each.cost) for each in cost.jobs)
    typical = sum(float(each.sale) for each in cost.purchase if _is_typical(each.place, root))
    typical += sum(float(each.cost) for each in cost.jobs if _is_typical(each.place, root))
    if whole <= 0.0 or typical <= 0.0:
        return "All prices and hours are as the build file gives them."
    if typical >= whole:
        return "All prices and hours are typical ones, not the workshop's own."
    return (
        f"{100.0 * typical / whole:.0f} % of the sum are typical prices and hours, "
        f"{100.0 * (1.0 - typical / whole):.0f} % are as the build file gives them."
    )


def _is_typical(place: str, root: BuildFile) -> bool:
    """Whether a price, or the hours or rate of a job, is called typical where it stands in the file."""
    path = parse_path(place)
    if len(path) != 3 or not isinstance(path[2], int):
        return False
    if path[:2] == ("prices", "items") and root.prices is not None:
        price = root.prices.items[path[2]].price
        return price is not None and price.origin in _TYPICAL
    if path[:2] == ("labour", "operations") and root.labour is not None:
        return _TYPICAL[0] in (root.labour.operations[path[2]].time.origin, root.labour.rate.origin)
    return False


def _surely_over(quantity: Quantity, limit: float) -> Quantity:
    """Over the limit even without what has no price, a sum needs none of it to fail."""
    if quantity.value - 2.0 * quantity.standard_uncertainty <= limit:
        return quantity
    told = tuple(note if note.startswith(REPORTED) else f"{REPORTED}{note}" for note in quantity.validity)
    return replace(quantity, validity=told)


CHECKS = (
    Check("budget", "Budget", "Does the van cost no more than the client wants to spend?", "at_most", _budget,
          "the build file has neither budget nor prices"),
)  # fmt: skip
