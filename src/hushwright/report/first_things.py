"""The short form of the check report: what to do first, each open question once, what meets by group."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from hushwright.document.document import Document
from hushwright.evaluation.results import REPORTED
from hushwright.report.labels import OUTCOMES, label
from hushwright.report.labels import heading as words
from hushwright.report.layout import heading, table, wrapped
from hushwright.report.units_out import restated, shown, shown_spread
from hushwright.report.verdict_text import SENSES, alike, block_of, chance_told
from hushwright.units import System
from hushwright.verdicts.judge import GROUPS
from hushwright.verdicts.verdict import Outcome, Verdict

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


def open_blocks(ordered: Sequence[Verdict], document: Document, system: System) -> list[str]:
    """Each open question once: its worst verdict in full, the others of the same question on a line each."""
    asked: dict[tuple[Outcome, str], list[Verdict]] = {}
    for one in without_reports([each for each in ordered if each.verdict in ("fails", "unproven")]):
        asked.setdefault((one.verdict, one.question), []).append(one)
    lines: list[str] = []
    for of_question in asked.values():
        shown_whole, *others = alike(of_question, document, system)
        lines += ["", *block_of(shown_whole, document, system)]
        also = [_row(one, system) for group in others for one in group]
        if also:
            lines += [f"    {label('also')}", *table(also, indent=6, right=(1,))]
    return lines


def _row(one: Verdict, system: System) -> tuple[str, str, str, str]:
    limit = "" if one.limit is None else f"{SENSES[one.sense]} {shown(one.limit, one.kind, system)}"
    return one.id, _value(one, system), limit, chance_told(one)


def _value(one: Verdict, system: System) -> str:
    if one.value is None:
        return ""
    spread = "" if not one.uncertainty else f" {shown_spread(2.0 * one.uncertainty, one.kind, system)}"
    return f"{shown(one.value, one.kind, system)}{spread}"


def met_lines(ordered: Sequence[Verdict], system: System) -> list[str]:
    """What meets, group by group: how many, and which of them is nearest to its limit."""
    met = [one for one in ordered if one.verdict == "meets"]
    rows = []
    for group in dict.fromkeys([*GROUPS, *(one.group for one in met)]):
        of_group = [one for one in met if one.group == group]
        if of_group:  # they come with the least sure first; what is counted or exact is nowhere near
            near = next((one for one in of_group if one.uncertainty), None)
            rows.append((group, str(len(of_group)), *(("", "", "") if near is None else _row(near, system)[:3])))
    if not rows:
        return []
    return [OUTCOMES["meets"], *table([("", "", label("nearest"), "", ""), *rows], right=(1, 3))]


def more_lines(file: str) -> list[str]:
    """Where the rest of the report is."""
    return wrapped(f"{label('more')}: hushwright check {file} --all, or --only GROUP for one group.", hanging=2)
