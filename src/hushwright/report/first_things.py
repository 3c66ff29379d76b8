"""The short form of the check report: what to do first, and what meets on one line each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from hushwright.evaluation.results import REPORTED
from hushwright.report.labels import OUTCOMES, label
from hushwright.report.labels import heading as words
from hushwright.report.layout import heading, table, wrapped
from hushwright.report.units_out import restated, shown, shown_spread
from hushwright.report.verdict_text import SENSES
from hushwright.units import System
from hushwright.verdicts.verdict import Verdict

_THINGS: Final = 3


def first_things(ordered: Sequence[Verdict], system: System) -> list[str]:
    """The worst open verdict of each group, the worst groups first, with what to try; nothing where none is open."""
    chosen: dict[str, Verdict] = {}
    for one in ordered:
        if one.verdict in ("fails", "unproven") and one.hint:
            chosen.setdefault(one.group, one)
    if not chosen:
        return []
    lines = heading(words("first_things"))
    for number, one in enumerate(list(chosen.values())[:_THINGS], start=1):
        advice = restated(one.hint.split("; ")[0], system)
        told = f"{number}. {restated(one.question, system)} {advice[0].upper()}{advice[1:]} ({one.id})."
        lines += wrapped(told, indent=2, hanging=5)
    return lines


def without_reports(ordered: Sequence[Verdict]) -> list[Verdict]:
    """Verdicts without notes that only inform."""
    return [
        replace(one, validity=tuple(note for note in one.validity if not note.startswith(REPORTED))) for one in ordered
    ]


def met_lines(ordered: Sequence[Verdict], system: System) -> list[str]:
    """Verdicts that meet, a line each: id, value with its spread, limit."""
    rows = [
        (
            f"{OUTCOMES[one.verdict]}  {one.id}",
            _value(one, system),
            "" if one.limit is None else f"{SENSES[one.sense]} {shown(one.limit, one.kind, system)}",
        )
        for one in ordered
        if one.verdict == "meets"
    ]
    return table(rows, indent=0, right=(1,))


def _value(one: Verdict, system: System) -> str:
    if one.value is None:
        return ""
    spread = "" if not one.uncertainty else f" {shown_spread(2.0 * one.uncertainty, one.kind, system)}"
    return f"{shown(one.value, one.kind, system)}{spread}"


def more_lines(file: str) -> list[str]:
    """Where the rest of the report is."""
    return wrapped(f"{label('more')}: hushwright check {file} --all, or --only GROUP for one group.", hanging=2)
