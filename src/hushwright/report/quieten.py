"""Steps to quiet in words: a table of the steps, where they end, what stood in the way, which ways out there are."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

from hushwright.report.labels import OUTCOMES
from hushwright.report.layout import heading, labelled, table, wrapped
from hushwright.report.told_apart import apart
from hushwright.report.units_out import bare_number, restated, shown, shown_difference, unit_of
from hushwright.report.verdict_text import percent
from hushwright.search.quiet_steps import Price, Quietened, QuietStep, Touched
from hushwright.search.reckoning import DEPTH_OF_A_POINT, MASS_OF_A_POINT, MONEY_OF_A_POINT
from hushwright.units import System

STEPS_HEAD: Final = ["step", "gains", "then", "mass", "room", "price", "touches"]
_LEAST_MASS = 0.05  # kg
_LEAST_LENGTH = 0.0005  # m
_NAMED = 4  # verdicts in a cell
ON_AIR: Final = (
    "Whether longer ducts and bigger boxes find room, and what they weigh where no fitting lists it, is not checked."
)
RANKED: Final = (
    f"Chosen by decibels per effort: one point for the work, one for each {MASS_OF_A_POINT:g} kg, one for each"
    f" {1000 * DEPTH_OF_A_POINT:g} mm of room, one for each {100 * MONEY_OF_A_POINT:g} % of the price. Prices are of"
    " what is built in, not of whole packs, plates and rolls."
)


def quietened_text(found: Quietened, system: System) -> str:
    """Whole answer as text for a terminal."""
    title = "Steps to quiet"
    lines = [
        title,
        "═" * len(title),
        *wrapped(found.question, indent=2),
        *(line for each in end_lines(found, system) for line in wrapped(each, indent=2)),
    ]
    if found.steps:
        lines += heading("Steps, in their order")
        rows = [
            ["", *STEPS_HEAD[1:-1]],
            *(step_cells(each, found.kind, found.currency, system)[:-1] for each in found.steps),
        ]
        lines += table([[str(at or ""), *row[1:]] for at, row in enumerate(rows)], right=(0, 1, 2, 3, 4, 5))
        for at, step in enumerate(found.steps, start=1):
            lines += labelled(str(at), restated(step.name, system), column=5)
            for change in step.changed:
                lines += wrapped(change, indent=5, hanging=7)
            if step.touched:
                lines += wrapped(f"touches {touched_text(step.touched)}", indent=5, hanging=7)
        lines += wrapped(restated(RANKED, system), indent=2)
    for word, told in (("left", left_text(found)), ("measure", found.measure)):
        lines += labelled(word, restated(told, system))
    for each in found.would_take:
        lines += labelled("takes", each)
    for each in found.ways_out:
        lines += labelled("way out", restated(each, system))
    for refused in refused_lines(found, system):
        lines += labelled("not taken", refused)
    if moves_air(found):
        lines += labelled("caution", ON_AIR)
    if found.recount:
        lines += labelled("caution", restated(recount_text(found), system))
    return "\n".join(lines)


def moves_air(found: Quietened) -> bool:
    """Whether any step changes a run of ducts."""
    return any(part.startswith("run ") for each in found.steps for part in each.where.split("; "))


def end_lines(found: Quietened, system: System) -> list[str]:
    """Where the steps end, in sentences."""
    sense = "at most" if found.sense == "at_most" else "at least"
    begin, end = (shown(each, found.kind, system) for each in (found.start, found.end))
    doubt = f"± {shown_difference(found.doubt, found.kind, system)}"
    limit = f"{sense} {shown(found.limit, found.kind, system)}"
    number = len(found.steps)
    steps = f"{number} step{'s' if number != 1 else ''}"
    taken = f"; together {price_text(found.price, found.currency, system)}" if number else ""
    said = {
        "meets": f"It meets: {begin} now, {end} {doubt} with {steps} ({limit}){taken}.",
        "number": f"The number meets, it is not sure: {begin} now, {end} {doubt} with {steps} ({limit}){taken}.",
        "short": f"The nearest {'so far' if found.is_cut_short else 'you can get'} is {end} {doubt}: {begin} now,"
                 f" {steps} ({limit}){taken}.",
    }[found.ending]  # fmt: skip
    lines = [said, *_far_off(found, system)]
    if found.is_cut_short:
        lines.append("The search ended after its last round: take these steps and search again, there may be more.")
    elif found.ending == "short":
        lines.append(
            "No further change that was tried gains half a decibel without breaking what is met"
            " or making worse what is not."
        )
    elif found.met_after is not None and 0 < found.met_after < number:
        lines.append(f"The number itself meets after step {found.met_after}; what follows makes it surer.")
    return lines


def _far_off(found: Quietened, system: System) -> list[str]:
    """How much of what is wanted the steps gain, where that is not enough."""
    if found.ending != "short":
        return []
    wanted, gained = abs(found.start - found.limit), abs(found.start - found.end)
    curve = f" {found.kind}" if found.kind in ("NC", "NR") else ""
    told = [shown_difference(each, found.kind, system) + curve for each in (gained, wanted, wanted - gained)]
    missing = f"That is {told[0]} of the {told[1]} that are wanted; {told[2]} are still missing."
    if not found.steps:
        missing = f"Nothing of the {told[1]} that are wanted can be gained so."
    end = "" if found.is_cut_short else " Such steps do not bring it there; below stands what it would take."
    return [missing + end]


def recount_text(found: Quietened) -> str:
    """Which plates to count anew, as their number in the file is of the build before."""
    names = ", ".join(found.recount)
    return f"Numbers of plates in the prices are still those of before; lay out and count anew: {names}."


def step_cells(step: QuietStep, kind: str, currency: str, system: System, *, by_name: bool = True) -> list[str]:
    """One step as cells of the table, numbers in one piece; ``by_name`` calls verdicts as `check` does."""
    price = step.price
    numbers = [shown_difference(step.gain, "margin", system, signed=True), shown(step.value, kind, system)]
    return [
        restated(step.name, system), *(_whole(each) for each in numbers), _amount(_mass(price, system)),
        _room(price, system), _amount(_money(price, currency)), touched_text(step.touched, by_name=by_name),
    ]  # fmt: skip


def _whole(text: str) -> str:
    return text.replace(" ", "\u00a0")


def _amount(text: str) -> str:
    """Its number and unit in one piece, what is said beside it not."""
    return text if text[:1].isalpha() else text.replace(" ", "\u00a0", 1)


def price_text(price: Price, currency: str, system: System) -> str:
    """What all steps take, in words."""
    told = [_mass(price, system) or "no mass", _room(price, system),
            _money(price, currency)]  # fmt: skip
    return ", ".join(each for each in told if each)


def left_text(found: Quietened) -> str:
    """What is left comes from, largest share first."""
    band = f"in {found.band}: " if found.band else ""
    return band + ", ".join(f"{each.name} {percent(each.share)}" for each in found.left) if found.left else ""


def refused_lines(found: Quietened, system: System, *, by_name: bool = True) -> list[str]:
    """Changes that would gain, and what they would break or make worse."""
    return [
        f"{restated(each.name, system)} ({shown_difference(each.gain, 'margin', system, signed=True)}):"
        f" {_harmed(each.breaks, by_name=by_name)}"
        for each in found.refused
    ]


def _harmed(breaks: Sequence[Touched], *, by_name: bool) -> str:
    """What a change would do to the verdicts that it must not touch so."""
    told = touched_text(breaks, by_name=by_name, lost="misses its limit then")
    if not any(each.missed for each in breaks):
        return f"would break {told}"
    if all(each.missed and each.before == each.after for each in breaks):
        return f"would make worse what misses its limit already: {told.replace(' (worse)', '')}"
    return f"would break or make worse {told}"


def touched_text(touched: Sequence[Touched], *, by_name: bool = True, lost: str = "worse") -> str:
    """Verdicts with what becomes of them, by the names that `check` knows or by their questions."""
    told = []
    on = apart([each.question for each in touched], [each.verdict for each in touched])
    for each, which in list(zip(touched, on, strict=True))[:_NAMED]:
        after = OUTCOMES[each.after].lower()
        if each.before == each.after:
            missed = each.margin is None or each.margin < 0.0
            after = "worse" if each.missed and missed else lost if missed else after
        asked = f"“{each.question}”{f' {which}' if which else ''}"
        told.append(f"{each.verdict if by_name else asked} ({after})")
    left = len(touched) - _NAMED
    more = f" and {left} more of the {len(touched)} verdicts that it changes" if left > 0 else ""
    return ", ".join(told) + more


def _mass(price: Price, system: System) -> str:
    known = "" if abs(price.mass) < _LEAST_MASS else shown_difference(price.mass, "mass", system, signed=True)
    if not price.unweighed:
        return known
    return f"{known} without ducts" if known else "mass not known"


def _room(price: Price, system: System) -> str:
    """Room that is lost, or what grows over the wheels; a sign before each."""
    changes = (("headroom", -price.headroom), ("width", -price.width), ("length", -price.length),
               ("wheel boxes", price.boxes))  # fmt: skip
    return ", ".join(
        f"{shown_difference(value, 'length', system, signed=True)} {name}"
        for name, value in changes
        if abs(value) >= _LEAST_LENGTH
    )


def _money(price: Price, currency: str) -> str:
    if price.money is None or not currency:
        return "no price in the file"
    known = f"{price.money:+.0f} {currency}" if round(price.money) else f"0 {currency}"
    if not price.unpriced:
        return known
    missing = f"{', '.join(price.unpriced[:2])}{' and more' if len(price.unpriced) > 2 else ''}"
    return f"{known}; no price: {missing}" if round(price.money) else f"no price in the file: {missing}"


def quietened_nodes(found: Quietened, system: System) -> dict[str, Any]:
    """Whole answer for other programs."""
    return {
        "verdict": found.verdict, "question": found.question, "kind": found.kind,
        "unit": unit_of(found.kind, system), "sense": found.sense,
        "limit": bare_number(found.limit, found.kind, system),
        "start": bare_number(found.start, found.kind, system), "end": bare_number(found.end, found.kind, system),
        "twice_uncertainty": found.doubt, "ending": found.ending, "number_meets_after": found.met_after,
        "takes": _price_node(found.price, system), "currency": found.currency,
        "steps": [
            {"what": each.what, "where": each.where, "changes": list(each.changed), "gain": each.gain,
             "value": bare_number(each.value, found.kind, system), "score": each.score,
             "takes": _price_node(each.price, system), "touches": [_touched_node(one) for one in each.touched]}
            for each in found.steps
        ],
        "not_taken": [{"what": each.what, "where": each.where, "gain": each.gain,
                       "breaks": [_touched_node(one) for one in each.breaks]} for each in found.refused],
        "left": [{"way": each.name, "share": each.share} for each in found.left], "band": found.band,
        "ways_out": [restated(each, system) for each in found.ways_out], "measure": restated(found.measure, system),
        "would_take": list(found.would_take), "tried": found.tried, "plates_to_count_anew": list(found.recount),
    }  # fmt: skip


def _price_node(price: Price, system: System) -> dict[str, Any]:
    lengths = {"headroom": price.headroom, "width": price.width, "length": price.length, "wheel_boxes": price.boxes}
    return {
        "mass": bare_number(price.mass, "mass", system), "money": price.money,
        "mass_is_known": not price.unweighed, "without_price": list(price.unpriced),
        **{name: bare_number(value, "length", system) for name, value in lengths.items()},
    }  # fmt: skip


def _touched_node(one: Touched) -> dict[str, Any]:
    return {"verdict": one.verdict, "before": one.before, "after": one.after}
