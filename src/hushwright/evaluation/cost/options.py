"""What each option of the file changes: price, mass, or why it cannot be had."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache

from hushwright.costing.money import payable, smallest_coin
from hushwright.document.read import read_document_text
from hushwright.document.save import set_value
from hushwright.errors import InvalidInput, UnreadableDocument
from hushwright.evaluation.cost.cost import cost_of
from hushwright.evaluation.mass.mass import masses_in
from hushwright.evaluation.results.cost import CostResult
from hushwright.evaluation.wiring.cables import with_cables
from hushwright.library.library import Library
from hushwright.library.read import read_library
from hushwright.model.build import Build
from hushwright.model.resolve import resolve

Totals = tuple[tuple[str, float], ...]
"""Total mass [kg] by state."""


@dataclass(frozen=True, slots=True)
class OptionResult:
    """An option beside the build as it is: price without and with tax, mass [kg]; ``problem`` where it cannot be."""

    name: str
    note: str
    net: Decimal
    gross: Decimal
    mass: float
    problem: str
    place: str


def options_of(build: Build) -> tuple[OptionResult, ...]:
    """Every option, computed by its edits of the file.

    Parameters
    ----------
    build : Build
        As the file has it.

    Returns
    -------
    tuple of OptionResult
        Differences to the build: negative saves.
    """
    if not build.costs.options:
        return ()
    base, own = _cost_and_mass(build)
    found = []
    for option in build.costs.options:
        other, masses, problem = (
            _edited(build.document.text, build.file, option.edits) if option.edits else (None, (), "")
        )
        coin = smallest_coin(build.costs.currency)
        net = option.price
        gross = payable(option.price * (1 + build.costs.tax), coin)
        if other is not None and other.quote is not None and base.quote is not None:
            net += other.quote.net - base.quote.net
            gross += other.quote.gross - base.quote.gross
        problem = problem or _without_price(base, other)
        change = _largest_change(own, masses) if other is not None else 0.0
        found.append(OptionResult(option.name, option.note, payable(net, coin), gross, change, problem, option.place))
    return tuple(found)


def _without_price(base: CostResult, other: CostResult | None) -> str:
    """Why an option has no price: it takes what the list does not hold."""
    if other is None:
        return ""
    known = {(each.name, each.size) for each in base.unpriced}
    new = [each for each in other.unpriced if (each.name, each.size) not in known]
    sizes = ["" if each.size is None else f" {1000.0 * each.size:g} mm" for each in new]
    return f"no price for {', '.join(each.name + size for each, size in zip(new, sizes, strict=True))}" if new else ""


@lru_cache(maxsize=64)
def _edited(text: str, file: str, edits: tuple[tuple[str, str], ...]) -> tuple[CostResult | None, Totals, str]:
    """Cost and masses of the file with some values changed, or what stands against it."""
    try:
        for path, new in edits:
            text = set_value(text, path, new)
    except (InvalidInput, UnreadableDocument) as refused:
        return None, (), str(refused)
    document, problems = read_document_text(text, file)
    if document is None:
        return None, (), problems[0].note if problems else "the file cannot be read with it"
    build, more = resolve(document, _library())
    errors = [each for each in (*problems, *more) if each.severity == "error"]
    if build is None or errors:
        return None, (), f"{errors[0].place.dotted}: {errors[0].note}" if errors else "no build"
    return (*_cost_and_mass(build), "")


def _cost_and_mass(build: Build) -> tuple[CostResult, Totals]:
    """Cost, and total mass of every state: with its cables and what is not listed, as in a check."""
    whole = with_cables(build)
    return cost_of(whole), tuple((state.name, masses_in(whole, state).total) for state in whole.states)


def _largest_change(own: Totals, other: Totals) -> float:
    """Change of the total mass [kg] in the state where it is largest: not everything is aboard in all of them."""
    known = dict(own)
    return max((mass - known[state] for state, mass in other if state in known), key=abs, default=0.0)


@lru_cache(maxsize=1)
def _library() -> Library:
    return read_library()
