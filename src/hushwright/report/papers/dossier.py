"""The dossier: everything about a build in one document."""

from __future__ import annotations

from collections.abc import Sequence

from hushwright.drawings.every_sheet import every_sheet
from hushwright.drawings.paper import PAPERS
from hushwright.evaluation.results.mass import MassResult
from hushwright.report.labels import OUTCOMES
from hushwright.report.method_steps import steps_of
from hushwright.report.papers.blocks import Block, Contents, Drawn, Heading, PageBreak, Paper, Say, Table
from hushwright.report.papers.brief_part import brief_blocks
from hushwright.report.papers.common import Case, card, cautions, spoken, summary, title_of
from hushwright.report.papers.curves import sound_charts, timeline_charts
from hushwright.report.papers.from_lines import as_blocks
from hushwright.report.papers.glossary import GLOSSARY
from hushwright.report.papers.money import quote_blocks
from hushwright.report.text import SECTIONS
from hushwright.report.units_out import shown
from hushwright.report.verdict_text import worst_first
from hushwright.verdicts.judge import GROUPS
from hushwright.verdicts.verdict import Verdict

_NOT_IN_DOSSIER = ("template", "parts", "part", "plate")
_FIRST, _PARTS = 3, 2


def dossier(case: Case) -> Paper:
    """Everything: verdict, brief, assumptions, verdicts, curves, session, results, mass, money, words, drawings."""
    blocks: list[Block] = [
        *title_of(case, "Dossier"), *_at_a_glance(case), Heading("Contents", 3), Contents(), *brief_blocks(case),
        *_assumptions(case), *_verdicts(case), Heading("Curves", fresh=True), *sound_charts(case),
        Heading("The session over time", fresh=True), *timeline_charts(case), *_results(case), *_masses(case),
        *_money(case), Heading("Cautions", fresh=True), *cautions(case), *_words(), *_methods(case), *_drawings(case),
    ]  # fmt: skip
    return Paper("dossier", "Dossier", tuple(blocks))


def _at_a_glance(case: Case) -> list[Block]:
    """How many came out how, group by group, and what to do first."""
    rows = []
    for group in GROUPS:
        ours = [one for one in case.verdicts if one.group == group]
        if ours:
            worst = worst_first(ours)[0]
            rows.append((group, OUTCOMES[worst.verdict], summary(ours), case.told(worst.question)))
    blocks: list[Block] = [
        Say(f"{summary(case.verdicts)}.", "strong"),
        Table(("group", "worst", "verdicts", "the worst asks"), tuple(rows), (0.8, 1.0, 1.6, 3.4), mark=1),
    ]
    return blocks + first_things(case)


def first_things(case: Case) -> list[Block]:
    """The worst open verdicts with what to try."""
    open_ones = [one for one in worst_first(case.verdicts) if one.verdict in ("fails", "unproven") and one.hint]
    by_question: dict[str, Verdict] = {}
    for one in open_ones:
        by_question.setdefault(one.question, one)
    chosen = list(by_question.values())[:_FIRST]
    if not chosen:
        return []
    rows = tuple((OUTCOMES[one.verdict], case.told(one.question), _begun(case.told(one.hint))) for one in chosen)
    return [Heading("What to do first", 3), Table(("", "question", "try"), rows, (1.0, 2.2, 3.6), mark=0)]


def _begun(hint: str) -> str:
    """Begin of a hint that has many parts; its card has the rest."""
    parts = hint.split("; ")
    return "; ".join(parts[:_PARTS]) + (" …" if len(parts) > _PARTS else "")


def _assumptions(case: Case) -> list[Block]:
    rows = tuple((case.told(one.text), one.path, case.told(one.source)) for one in case.evaluation.assumptions)
    lead = "What the build file leaves out and the library fills in. Each may be replaced by a value of this van."
    return [Heading("Assumptions", fresh=True), Say(lead),
            Table(("assumed", "place in the file", "from"), rows, (2.4, 2.2, 2.0), small=True)]  # fmt: skip


def _verdicts(case: Case) -> list[Block]:
    blocks: list[Block] = [Heading("Verdicts", fresh=True)]
    for group in GROUPS:
        ours = worst_first([one for one in case.verdicts if one.group == group])
        if ours:
            blocks.append(Heading(f"{group}: {summary(ours)}", 2))
            blocks += [card(case, one) for one in ours]
    return blocks


def _results(case: Case) -> list[Block]:
    """Every part of the check report: paths, faces, resonances, air, heat, mounts, anchoring, wiring, signals …"""
    blocks: list[Block] = [Heading("Results in full", fresh=True)]
    for group, section in SECTIONS:
        if group != "Budget":
            blocks += as_blocks(section(case.evaluation, case.system), 3)
    notes = [Say(case.told(note), "small") for note in case.evaluation.notes]
    return blocks + ([Heading("Notes", 2), *notes] if notes else [])


def _masses(case: Case) -> list[Block]:
    build, system = case.evaluation.build, case.system
    rows = [
        (item.group, spoken(item.name), shown(item.mass, "mass", system), shown(item.station, "length", system),
         shown(item.y, "length", system), shown(item.z, "length", system), ", ".join(item.fixed_to))
        for item in sorted(build.masses, key=lambda item: (item.group, -item.mass)) if item.mass > 0.0
    ]  # fmt: skip
    total = sum(item.mass for item in build.masses)
    rows.append(("total", "", shown(total, "mass", system), "", "", "", ""))
    columns = ("group", "part", "mass", "station", "left of the middle", "over the floor", "fixed to")
    return [
        Heading("Mass", fresh=True), _wheels(case, case.evaluation.masses),
        Table(columns, tuple(rows), (1.1, 2.8, 1, 1, 1, 1, 1), right=(2, 3, 4, 5), small=True, total=True),
    ]  # fmt: skip


def _wheels(case: Case, masses: Sequence[MassResult]) -> Table:
    columns = ("state", "total", "front axle", "rear axle", "front left", "front right", "rear left", "rear right")
    rows = tuple(
        (spoken(one.state),
         *(shown(load, "mass", case.system) for load in (one.total, one.front, one.rear, *one.wheels)))
        for one in masses
    )  # fmt: skip
    return Table(columns, rows, (1.6, 1, 1, 1, 1, 1, 1, 1), right=tuple(range(1, 8)), small=True)


def _money(case: Case) -> list[Block]:
    if case.evaluation.cost.quote is None:
        return []
    return [Heading("Cost", fresh=True), *quote_blocks(case)]


def _words() -> list[Block]:
    return [Heading("Glossary", fresh=True), Table(("word", "meaning"), GLOSSARY, (1.0, 3.2))]


def _methods(case: Case) -> list[Block]:
    """Each step of the methods once, with its source, by group."""
    blocks: list[Block] = [Heading("Methods and their sources", fresh=True)]
    for group in GROUPS:
        steps = dict.fromkeys(step for one in case.verdicts if one.group == group for step in steps_of(one.id))
        if steps:
            blocks += [Heading(group, 3), Table(("step", "source"), tuple(steps), (1.3, 1.0), small=True)]
    return blocks


def _drawings(case: Case) -> list[Block]:
    """Views, schedules and lists on lying pages; templates, parts and plates are printed by the command `draw`."""
    paper = PAPERS["Letter" if case.system == "us" else "A4"]
    sheets = every_sheet(case.evaluation.build, paper, case.system)
    chosen = [sheet for sheet in sheets if sheet.name.split("-")[0] not in _NOT_IN_DOSSIER]
    lead = "Sheets on the pages that follow; templates, parts and plates are printed on their own."
    return [Heading("Drawings", fresh=True), Say(lead),
            Table(("sheet", "shows"), tuple((sheet.name, sheet.title) for sheet in chosen), (1, 3)),
            *(Drawn(sheet, (at, len(chosen))) for at, sheet in enumerate(chosen, start=1)), PageBreak()]  # fmt: skip
