"""Is it within what the client wants to spend."""

from __future__ import annotations

from dataclasses import replace

from hushwright.evaluation.results import REPORTED, Evaluation, Quantity
from hushwright.verdicts.check import Case, Check
from hushwright.verdicts.hints import SHORT

_SIGNED = "Prices and times are the workshop's own; a sum binds nobody before both have signed a quote with its date."


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
    basis = f"budget in the build file, {taxed} tax"
    return (Case("total", "", quantity, limit, basis, "brief.budget.total", hint=hint, caution=_SIGNED),)


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
