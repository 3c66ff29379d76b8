"""A check as a value: its question, and the cases it finds in an Evaluation."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from hushwright.evaluation.results import Evaluation, Line, Quantity
from hushwright.verdicts.verdict import Sense, Verdict, chance_of_meeting, outcome


@dataclass(frozen=True, slots=True)
class Case:
    """One quantity held against one limit in one state."""

    key: str
    state: str
    quantity: Quantity
    limit: float | None
    basis: str
    place: str
    hint: str = ""
    caution: str = ""
    lines: tuple[Line, ...] = ()


@dataclass(frozen=True, slots=True)
class Check:
    """A question that every Build is asked.

    ``cases`` yields nothing where the Build has no such thing; then the verdict is ``not_applicable``.
    """

    reference: str
    group: str
    question: str
    sense: Sense
    cases: Callable[[Evaluation], tuple[Case, ...]]
    nothing: str


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
    quantity = case.quantity
    identifier = f"{check.reference}-{slug(case.key)}"
    common = {"hint": case.hint, "caution": case.caution, "lines": case.lines, "contributions": quantity.contributions,
              "method_uncertainty": quantity.method_uncertainty, "validity": quantity.validity}  # fmt: skip
    uncertainty = quantity.standard_uncertainty
    if case.limit is None:
        return Verdict(
            identifier, check.group, check.question, case.state, quantity.kind, quantity.value, None, check.sense,
            None, uncertainty, None, "not_applicable", case.basis, case.place, reason="the brief names no limit", **common,
        )  # fmt: skip
    margin = case.limit - quantity.value if check.sense == "at_most" else quantity.value - case.limit
    blocking = tuple(note for note in quantity.validity if not note.startswith(REPORTED))
    verdict = outcome(margin, uncertainty, valid=not blocking)
    return Verdict(
        identifier, check.group, check.question, case.state, quantity.kind, quantity.value, case.limit, check.sense,
        margin, uncertainty, chance_of_meeting(margin, uncertainty), verdict, case.basis, case.place,
        reason=_reason(verdict, blocking), **common,
    )  # fmt: skip


REPORTED = ("octaves below", "reported:")
"""Notes that begin so tell what was left out on request; they do not make a verdict unproven."""


def _reason(verdict: str, blocking: tuple[str, ...]) -> str:
    if verdict != "unproven":
        return ""
    return blocking[0] if blocking else "the margin does not survive twice the standard uncertainty"
