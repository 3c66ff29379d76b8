"""Verdicts as text: one block each, worst first."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from hushwright.document.document import Document
from hushwright.report.labels import OUTCOMES, label
from hushwright.report.layout import WIDTH, labelled, side_by_side, wrapped
from hushwright.report.units_out import restated, shown, shown_difference, shown_spread
from hushwright.units import System
from hushwright.verdicts.verdict import Outcome, Verdict, likelihood

_ORDER: dict[Outcome, int] = {"fails": 0, "unproven": 1, "meets": 2, "not_applicable": 3}
_SUREST = 0.9999  # an open verdict is never told as certain
SENSES = {"at_most": "at most", "at_least": "at least"}


def worst_first(verdicts: Sequence[Verdict]) -> tuple[Verdict, ...]:
    """Order of a report: what fails by chance, then what is unproven by chance, what meets, what does not apply."""
    return tuple(sorted(verdicts, key=lambda one: (_ORDER[one.verdict], 1.0 if one.chance is None else one.chance)))


def verdict_block(verdict: Verdict, document: Document, system: System) -> list[str]:
    """Lines of one verdict; one that does not apply takes a single line."""
    title = f"{OUTCOMES[verdict.verdict]}  {verdict.id}"
    if verdict.verdict == "not_applicable" and verdict.value is None:
        first, *more = wrapped(f"{title}: {restated(verdict.reason or verdict.question, system)}", hanging=2)
        return [first.replace(title.replace("  ", " "), title, 1), *more]
    return [*_title((verdict,)), *_body(verdict, document, system)]


def blocks_of(verdicts: Sequence[Verdict], document: Document, system: System) -> list[tuple[Outcome, list[str]]]:
    """Blocks of verdicts in order, each with its outcome; states in which all is the same share one block."""
    blocks = [
        (group[0].verdict, block_of(group, document, system))
        for group in alike([one for one in verdicts if one.value is not None], document, system)
    ]
    blocks += [(one.verdict, verdict_block(one, document, system)) for one in verdicts if one.value is None]
    return sorted(blocks, key=lambda block: _ORDER[block[0]])


def alike(verdicts: Iterable[Verdict], document: Document, system: System) -> list[list[Verdict]]:
    """Verdicts of which everything but the state is told in the same words, together."""
    found: dict[tuple[str, ...], list[Verdict]] = {}
    for verdict in verdicts:
        found.setdefault((verdict.verdict, *_body(verdict, document, system)), []).append(verdict)
    return list(found.values())


def block_of(group: Sequence[Verdict], document: Document, system: System) -> list[str]:
    """One block for verdicts that are told alike."""
    return [*_title(group), *_body(group[0], document, system)]


def _title(group: Sequence[Verdict]) -> list[str]:
    """Outcome, ids and states; a block of several states names them all."""
    word = OUTCOMES[group[0].verdict]
    inset = len(word) + 2
    states = list(dict.fromkeys(one.state for one in group if one.state))
    lines = wrapped(", ".join(one.id for one in group), indent=inset)
    if states:
        named = f"({label('state')}{'s' if len(states) > 1 else ''} {', '.join(states)})"
        together = f"{lines[-1]}  {named}"
        lines[-1:] = [together] if len(together) <= WIDTH else [lines[-1], *wrapped(named, indent=inset)]
    return [word + lines[0][len(word) :], *lines[1:]]


def _body(verdict: Verdict, document: Document, system: System) -> list[str]:
    lines = wrapped(restated(verdict.question, system), indent=2, hanging=2)
    lines += side_by_side(numbers_of(verdict, system), indent=4)
    for line in verdict.lines:
        told = f"{line.told}; {restated(line.text, system)}"
        lines += labelled(line.name, told, indent=4, column=18)
    return lines + _why(verdict, document, system)


def once(notes: Iterable[str], *, but: str = "") -> list[str]:
    """Notes, each once: those that differ in their numbers alone are told with the largest."""
    found: dict[str, str] = {}
    for note in notes:
        alike = re.sub(r"\d+(?:\.\d+)?", "#", note)
        found[alike] = max(found.get(alike, ""), note)
    return [note for alike, note in found.items() if alike != re.sub(r"\d+(?:\.\d+)?", "#", but)]


def numbers_of(verdict: Verdict, system: System) -> list[str]:
    """Value with its spread, limit, margin, and the chance where it says more than the outcome does."""
    parts = []
    like = largest_of(verdict)
    if verdict.value is not None:
        spread = ""
        if verdict.uncertainty:  # what is counted or typed as exact has none
            spread = f" {shown_spread(2.0 * verdict.uncertainty, verdict.kind, system, like=like)} (2u)"
        named = f"{verdict.counts}:" if verdict.counts else label("value")
        parts.append(f"{named} {shown(verdict.value, verdict.kind, system, like=like)}{spread}")
    if verdict.limit is not None:
        limit = shown(verdict.limit, verdict.kind, system, like=like)
        parts.append(f"{label('limit')} {SENSES[verdict.sense]} {limit}")
    if verdict.margin is not None:
        margin = shown_difference(verdict.margin, verdict.kind, system, signed=True, like=like)
        parts.append(f"{label('margin')} {margin}")
    told = chance_told(verdict)
    if told:
        parts.append(f"{label('chance')} {told}" if told.endswith(")") else told)
    return parts


def yes_or_no(one: Verdict) -> str:
    """Answer of a verdict that counts what must not be, or what has to be there at least once; else nothing."""
    if one.kind != "count" or one.value is None or (one.sense, one.limit) not in (("at_most", 0.0), ("at_least", 1.0)):
        return ""
    assert one.limit is not None
    if one.value == 0.0 if one.sense == "at_most" else one.value >= one.limit:
        return "yes"
    return f"no, {one.counts}: {one.value:g}" if one.counts else "no"


def largest_of(verdict: Verdict) -> float:
    """The larger of value and limit: all numbers of a verdict are written in its unit."""
    return max((abs(each) for each in (verdict.value, verdict.limit) if each is not None), default=0.0)


def chance_told(verdict: Verdict) -> str:
    """How likely an open limit is met, ``unlikely (12 %)``; what the number says where something else keeps it open."""
    if verdict.chance is None or verdict.verdict != "unproven":
        return ""
    if verdict.margin is not None and abs(verdict.margin) >= 2.0 * (verdict.uncertainty or 0.0):
        return label("would_do" if verdict.margin >= 0.0 else "would_not_do")
    return f"{likelihood(verdict.chance)} ({percent(min(verdict.chance, _SUREST))})"


def percent(share: float) -> str:
    """Share in per cent, never rounded to certainty.

    Examples
    --------
    >>> percent(0.884), percent(0.001), percent(0.9999), percent(1.0)
    ('88 %', 'under 1 %', 'over 99 %', '100 %')
    """
    if 0.0 < share < 0.01:
        return "under 1 %"
    if 0.99 < share < 1.0:
        return "over 99 %"
    return f"{100.0 * share:.0f} %"


def percent_cell(share: float) -> str:
    """Share in per cent for a table: ``<1 %`` where there is hardly any."""
    return percent(share).replace("under ", "<").replace("over ", ">")


def placed(path: str, document: Document) -> str:
    """Path with its line in the file, ``vehicle.ribs (line 31)``; a text that is no path stays as it is."""
    line = document.place(path).line if path and " " not in path else 0
    return f"{path} (line {line})" if line else path


def count_of_outcomes(verdicts: Sequence[Verdict]) -> str:
    """How many verdicts came out how, ``2 fail, 1 unproven, 7 meet``."""
    words = {"fails": "fail", "unproven": "unproven", "meets": "meet", "not_applicable": "not applicable"}
    numbers = {outcome: sum(one.verdict == outcome for one in verdicts) for outcome in words}
    return ", ".join(f"{number} {words[outcome]}" for outcome, number in numbers.items() if number) or "no verdict"


def _why(verdict: Verdict, document: Document, system: System) -> list[str]:
    """Basis, reason, hint, caution, and where the method ends."""
    from hushwright.evaluation.results import REPORTED  # late: the first page of the app waits for no law

    basis = restated(verdict.basis, system)
    if verdict.place:
        basis = f"{basis}; {placed(verdict.place, document)}" if basis else placed(verdict.place, document)
    lines = labelled(label("basis"), basis, indent=4, column=14)
    if verdict.verdict != "meets":
        lines += labelled(label("reason"), restated(verdict.reason, system), indent=4, column=14)
        lines += labelled(label("hint"), restated(verdict.hint, system), indent=4, column=14)
    for note in once(verdict.validity, but="" if verdict.verdict == "meets" else verdict.reason):
        lines += labelled(label("validity"), restated(note.removeprefix(REPORTED), system), indent=4, column=14)
    return lines
