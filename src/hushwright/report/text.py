"""The check report as text, at most 100 columns, readable without colour."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from hushwright.evaluation.results import Evaluation
from hushwright.model.build import Build
from hushwright.report import air, cost, heat, power, safety, sections, signals, structure, wiring
from hushwright.report.explained import explained
from hushwright.report.first_things import first_things, met_lines, more_lines, open_blocks
from hushwright.report.labels import heading as words
from hushwright.report.layout import heading, wrapped
from hushwright.report.units_out import restated
from hushwright.report.verdict_text import blocks_of, count_of_outcomes, worst_first
from hushwright.units import System
from hushwright.verdicts.verdict import Verdict

Section = Callable[[Evaluation, System], list[str]]
SECTIONS: Final[tuple[tuple[str, Section], ...]] = (
    ("Quiet", sections.weakest_paths), ("Quiet", sections.between_rooms), ("Quiet", sections.neighbours),
    ("Air", air.fans), ("Quiet", sections.faces), ("Quiet", sections.resonances), ("Air", air.air),
    ("Heat", heat.heat),
    ("Space", sections.headroom), ("Mounts", sections.mounts), ("Mass", sections.masses), ("Mass", structure.wheels),
    ("Anchoring", structure.anchoring), ("Doors", structure.doors),
    ("Safety", safety.safety), ("Safety", safety.venues), ("Papers", safety.papers),
    ("Power", power.power), ("Wiring", wiring.wiring), ("Signals", signals.signals), ("Budget", cost.cost),
)  # fmt: skip
"""Parts of the report, each with the group of verdicts that it stands behind."""


def check_report(
    evaluation: Evaluation,
    verdicts: Sequence[Verdict],
    measure_next: Sequence[str],
    system: System,
    groups: Sequence[str] = (),
    *,
    whole: bool = True,
) -> str:
    """Report of a check.

    Parameters
    ----------
    evaluation
        What was computed.
    verdicts
        What was judged; shown worst first.
    measure_next
        Lines of the list of what to measure next, ready to print.
    system
        ``metric`` or ``us``.
    groups
        Groups of verdicts whose parts are shown; all when left out.
    whole
        With every note and table; otherwise each open question stands once, what meets and what is assumed is counted,
        and tables beyond the weakest paths are left out.
    """
    build = evaluation.build
    ordered = worst_first(verdicts)
    root = build.document.root
    lines = title_lines(build.title, build.file, count_of_outcomes(verdicts), date=root.date, note=root.note)
    lines += first_things(ordered, system) + heading(words("verdicts"))
    lines += _every_verdict(ordered, build, system) if whole else _in_short(ordered, build, system)
    for group, section in SECTIONS:
        if (not groups or group in groups) and (whole or section is sections.weakest_paths):
            lines += section(evaluation, system)
    lines += sections.assumptions(evaluation, system) if whole else sections.assumptions_by_source(evaluation)
    if measure_next:
        lines += [*heading(words("measure_next")), *measure_next]
    lines += _notes(evaluation, system) + cautions(verdicts, system)
    more = [] if whole else more_lines(build.file)
    foot = explained("\n".join(lines)) if whole else []
    return "\n".join([*lines, *foot, "", *closing(ordered, build.file), *more])


def _in_short(ordered: Sequence[Verdict], build: Build, system: System) -> list[str]:
    """Each open question once, what meets by group, what does not apply."""
    lines = open_blocks(ordered, build.document, system)
    met = met_lines(ordered, system)
    lines += ["", *met] if met else []
    idle = [one for one in ordered if one.verdict == "not_applicable"]
    blocks = [line for _, block in blocks_of(idle, build.document, system) for line in block]
    return [*lines, "", *blocks] if blocks else lines


def _every_verdict(ordered: Sequence[Verdict], build: Build, system: System) -> list[str]:
    lines: list[str] = []
    before = ""
    for outcome, block in blocks_of(ordered, build.document, system):
        # What is open gets air around it; what is well stands close together.
        lines += [""] if outcome in ("fails", "unproven") or outcome != before else []
        lines += block
        before = outcome
    return lines


def title_lines(title: str, file: str, summary: str, *, date: str = "", note: str = "") -> list[str]:
    """Head of a report: what, of which date, out of which file, what the file remarks, how it came out."""
    named = ", ".join(text for text in (title, date) if text)
    lines = wrapped(f"{named} [{file}]" if named else file, hanging=2)
    lines += wrapped(note, indent=2, hanging=2)
    return [*lines, "═" * 40, *wrapped(summary, indent=2, hanging=2)]


def cautions(verdicts: Sequence[Verdict], system: System) -> list[str]:
    """Every caution once."""
    texts = dict.fromkeys(one.caution for one in verdicts if one.caution)
    if not texts:
        return []
    lines = heading(words("cautions"))
    for text in texts:
        lines += wrapped(f"! {restated(text, system)}", indent=2, hanging=4)
    return lines


def closing(ordered: Sequence[Verdict], file: str) -> list[str]:
    """Last lines, which stay on the screen: how it came out, and where to go on."""
    worst = next((one for one in ordered if one.verdict in ("fails", "unproven")), None)
    lines = wrapped(f"{count_of_outcomes(ordered)}.")
    if worst is not None:
        lines += wrapped(f"How a number came about: hushwright check {file} --explain {worst.id}", hanging=2)
    return lines


def _notes(evaluation: Evaluation, system: System) -> list[str]:
    lines: list[str] = []
    for note in evaluation.notes:
        lines += wrapped(restated(note, system), indent=2, hanging=4)
    return [*heading(words("notes")), *lines] if lines else []
