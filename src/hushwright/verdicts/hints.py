"""What to do next, as a sentence that begins with a verb: do, find out or measure, each with its amount."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import cast

from hushwright.evaluation.results import Contribution, Quantity
from hushwright.units import Kind, format_quantity
from hushwright.verdicts.verdict import Outcome, Sense

SHORT = "{short}"
"""Stands in a hint for what is missing until the limit is surely met: a difference of the quantity's kind."""

ENOUGH = "{enough}"
"""Stands in a hint for what the limit itself would have to be, so that the value surely meets it."""

CLEAR_UP = "ask whoever approves the van whether the reason stands in the way; the number itself would do"
_FINDING_OUT = ("ask ", "find out", "list ", "name ", "type ", "give ", "say ", "look ")
_WORTH = 0.05
"""Share of u² from which an input is named."""
_SMALL = 0.01
"""m, below which tenths of a millimetre are told."""
_DECIBELS = ("NC", "NR", "margin", "level", "level_a")
_ALIKE = (*_DECIBELS, "share", "concentration", "count")
"""Kinds that have one unit everywhere, so that it need not stand twice."""


@dataclass(frozen=True, slots=True)
class Judged:
    """What a hint is about: its text with places for amounts, and the quantity held against a limit."""

    hint: str
    quantity: Quantity
    limit: float | None
    sense: Sense
    place: str


def hint_of(case: Judged, verdict: Outcome, margin: float | None) -> str:
    """Hint of a case once it is judged; what meets keeps its remarks without amounts."""
    quantity = case.quantity
    if not quantity.known:
        return _found_out(case)
    if verdict in ("meets", "not_applicable") or margin is None:
        return _without_amounts(case.hint)
    short = 2.0 * quantity.standard_uncertainty - margin
    if verdict == "unproven" and short <= 0.0:
        return _joined(CLEAR_UP, _without_amounts(case.hint))
    told = _with_amounts(case, short)
    if verdict == "fails":
        return told
    return _joined(measured(quantity), told) if margin >= 0.0 or not told else _joined(told, measured(quantity))


def _found_out(case: Judged) -> str:
    """What nobody says is found out and typed."""
    rest = _without_amounts(case.hint)
    if rest.startswith(_FINDING_OUT):
        return rest
    return _joined(f"find out and type `{case.place}`", rest)


def _joined(*parts: str) -> str:
    return "; ".join(part for part in parts if part)


def _without_amounts(hint: str) -> str:
    return "; ".join(part for part in hint.split("; ") if SHORT not in part and ENOUGH not in part)


def _with_amounts(case: Judged, short: float) -> str:
    if SHORT not in case.hint and ENOUGH not in case.hint:
        return case.hint
    kind = case.quantity.kind
    enough = (case.limit or 0.0) + (short if case.sense == "at_most" else -short)
    return case.hint.replace(SHORT, difference(short, kind)).replace(ENOUGH, amount(enough, kind))


def measured(quantity: Quantity) -> str:
    """What to measure so that the doubt shrinks: the largest input, or the thing itself where the method doubts most.

    Examples
    --------
    >>> from hushwright.evaluation.results import Contribution
    >>> measured(Quantity(30.0, "level_a", 0.5, (Contribution("openings.door.gap", "gap of the door", 0.9),)))
    'measure gap of the door: its range alone takes 1.8 of the 2.1 dB of doubt'
    """
    doubt = quantity.standard_uncertainty
    if doubt <= 0.0:
        return ""
    whole = difference(2.0 * doubt, quantity.kind)
    largest = max(quantity.contributions, key=lambda each: abs(each.change), default=None)
    told = []
    if largest is None or abs(largest.change) < quantity.method_uncertainty:
        method = _bare(2.0 * quantity.method_uncertainty, quantity.kind)
        is_all = whole.split(" ")[0] == method.split(" ")[0]
        all_of_it = f"makes the {whole}" if is_all else f"takes {method} of the {whole}"
        way = "measure it on the van itself: the method alone"
        if quantity.kind.startswith("money"):
            way = "ask for firm prices and hours: the usual spread of those without a range of their own"
        told.append(f"{way} {all_of_it} of doubt")
    if largest is not None and largest.change**2 >= _WORTH * doubt**2:
        own = _bare(2.0 * abs(largest.change), quantity.kind)
        told.append(f"{_asked(largest)}: its range alone takes {own} of the {whole} of doubt")
    return "; ".join(told)


def _asked(one: Contribution) -> str:
    """What to do to know an input better: prices are asked, hours agreed, everything else is measured."""
    if one.path.startswith("prices."):
        return f"ask for a firm price of {one.label}"
    return f"find out the hours of {one.label}" if one.path.startswith("labour.") else f"measure {one.label}"


def difference(value: float, kind: str) -> str:
    """Write a difference of two values of a kind, rounded up so that it is enough.

    Examples
    --------
    >>> difference(5.01, "temperature"), difference(1.23, "NC"), difference(0.0402, "length")
    ('5.1 K', '1.3 dB', '41 mm')
    """
    if kind in _DECIBELS:
        return f"{_up(value, 0.1):g} dB"
    if kind == "temperature":
        return f"{_up(value, 0.1):g} K"
    if kind == "length" and value < 10.0:
        step = 0.0001 if value < _SMALL else 0.001
        return f"{1000.0 * _up(value, step):.4g} mm"
    if kind == "mass":
        return f"{math.ceil(value):.0f} kg"
    return f"{value:.3g}" if kind == "count" else amount(value, kind)


def amount(value: float, kind: str) -> str:
    """Write a value of a kind."""
    if kind in _DECIBELS:
        return f"{value:.0f} dB" if kind != "level_a" else f"{value:.0f} dB(A)"
    if kind.startswith("money"):
        return f"{math.ceil(value):.0f} {kind.partition(' ')[2]}".strip()
    return format_quantity(value, cast("Kind", kind))


def _bare(value: float, kind: str) -> str:
    """Number without its unit where that follows once and is the same in every system of units."""
    if kind not in _ALIKE and not kind.startswith("money"):
        return difference(value, kind)
    return difference(value, kind).rpartition(" ")[0] or difference(value, kind)


def _up(value: float, step: float) -> float:
    return math.ceil(value / step - 1e-9) * step
