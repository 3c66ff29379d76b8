"""A check as a value: its question, and the cases it finds in an Evaluation."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from hushwright.evaluation.results import REPORTED, Evaluation, Line, Quantity
from hushwright.library.records import Limit
from hushwright.verdicts.hints import Judged, hint_of
from hushwright.verdicts.verdict import Outcome, Sense, Verdict, chance_of_meeting, outcome


@dataclass(frozen=True, slots=True)
class Case:
    """One quantity held against one limit in one state.

    ``hint`` begins with a verb wherever the case may fail; in it ``{short}`` and ``{enough}`` stand for amounts, see
    `hushwright.verdicts.hints`.
    """

    key: str
    state: str
    quantity: Quantity
    limit: float | None
    basis: str
    place: str
    hint: str = ""
    caution: str = ""
    lines: tuple[Line, ...] = ()
    question: str = ""  # of this case, where it asks more closely than its check


@dataclass(frozen=True, slots=True)
class Check:
    """A question that every Build is asked.

    ``cases`` yields nothing where the Build has no such thing; then the verdict is ``not_applicable``.
    ``counts`` says what a bare number is a number of.
    """

    reference: str
    group: str
    question: str
    sense: Sense
    cases: Callable[[Evaluation], tuple[Case, ...]]
    nothing: str
    counts: str = ""


def of_library(evaluation: Evaluation, name: str) -> tuple[float, str]:
    """Limit of the library by its name, and the basis that tells it."""
    limit = evaluation.build.library.find(Limit, name)
    return limit.value.value, f"{name}: {limit.source}"


def state_of_takes(evaluation: Evaluation) -> str:
    """State that stands for use: the first in which takes are recorded, with mounts loaded and doors closed."""
    states = evaluation.build.states
    return next((state.name for state in states if state.takes), states[0].name)


def slug(text: str) -> str:
    """Text as part of an identifier.

    Examples
    --------
    >>> slug("Harbour quay / record")
    'harbour-quay-record'
    """
    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-")


def verdicts_of(check: Check, evaluation: Evaluation) -> tuple[Verdict, ...]:
    """Judge every case of a check."""
    cases = check.cases(evaluation)
    if not cases:
        return (_not_applicable(check),)
    return tuple(_judged(check, case) for case in cases)


def _not_applicable(check: Check) -> Verdict:
    return Verdict(
        check.reference, check.group, check.question, "", "", None, None, check.sense, None, None, None,
        "not_applicable", "", "", reason=check.nothing,
    )  # fmt: skip


def _judged(check: Check, case: Case) -> Verdict:
    """Verdict of one case; without a limit there is nothing to meet, and what nobody says has no number."""
    quantity = case.quantity
    if case.limit is None:
        return _verdict(check, case, None, None, "not_applicable", "the brief names no limit")
    blocking = tuple(note for note in quantity.validity if not note.startswith(INFORMING))
    if not quantity.known:
        return _verdict(check, case, None, None, "unproven", _reason("unproven", blocking))
    margin = case.limit - quantity.value if check.sense == "at_most" else quantity.value - case.limit
    chance = chance_of_meeting(margin, quantity.standard_uncertainty)
    verdict = outcome(margin, quantity.standard_uncertainty, valid=not blocking)
    return _verdict(check, case, margin, chance, verdict, _reason(verdict, blocking, margin))


def _verdict(
    check: Check, case: Case, margin: float | None, chance: float | None, verdict: Outcome, reason: str
) -> Verdict:
    quantity = case.quantity
    return Verdict(
        id=f"{check.reference}-{slug(case.key)}", group=check.group, question=case.question or check.question,
        state=case.state, kind=quantity.kind, value=quantity.value if quantity.known else None, limit=case.limit,
        sense=check.sense, margin=margin, uncertainty=quantity.standard_uncertainty if quantity.known else None,
        chance=chance, verdict=verdict, basis=case.basis, place=case.place, reason=reason,
        hint=hint_of(Judged(case.hint, quantity, case.limit, check.sense, case.place), verdict, margin),
        caution=case.caution, lines=case.lines, contributions=quantity.contributions,
        method_uncertainty=quantity.method_uncertainty, validity=quantity.validity,
        counts=check.counts if quantity.kind == "count" else "",
    )  # fmt: skip


INFORMING = ("octaves below", REPORTED.rstrip())
"""Notes that begin so tell what was left out on request; they do not make a verdict unproven."""


def _reason(verdict: str, blocking: tuple[str, ...], margin: float | None = None) -> str:
    if verdict != "unproven":
        return ""
    if blocking:
        return blocking[0]
    if margin is not None and margin < 0.0:
        return "nominally not met: the value is beyond the limit, by less than twice the standard uncertainty"
    return "the margin does not survive twice the standard uncertainty"
