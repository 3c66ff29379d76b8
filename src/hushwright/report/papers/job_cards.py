"""Job cards: what is to be done, after which drawings, with lines to write on."""

from __future__ import annotations

from typing import Final

from hushwright.drawings.every_sheet import every_sheet
from hushwright.drawings.paper import PAPERS
from hushwright.evaluation.cost.take_off import things_of
from hushwright.evaluation.results.cost import Job
from hushwright.report.cost import amount_of, named
from hushwright.report.papers.blocks import Blanks, Caution, Heading, Paper, Printed, Say, Table, Together
from hushwright.report.papers.common import Case, title_of
from hushwright.report.papers.hold_tables import anchors

_FAMILIES: Final = {
    "plan": "plan", "left-side": "left side", "right-side": "right side", "section": "sections", "floor": "floor",
    "ceiling": "ceiling", "build-ups": "build-ups", "battens": "battens and bearers", "opening": "doors and windows",
    "air": "duct runs", "routes": "routes", "power": "single-line diagram", "circuits": "circuits",
    "signals": "signal lines", "safety": "alarms, equipment and ways out", "cuts": "cuts",
    "template": "templates", "parts": "parts", "plates": "plates",
}  # fmt: skip
"""Beginnings of the names of sheets, in their order, and what they are called on a card."""

_OF_A_KIND: Final = {
    "sheet": ("build-ups", "parts", "plates"), "batten": ("battens", "section"), "bearer": ("battens", "floor"),
    "mount": ("floor",), "gland": ("routes", "signals"), "absorber": ("ceiling", "build-ups"),
    "fill": ("build-ups", "section"), "alarm": ("safety", "circuits"), "detector": ("safety", "circuits"), "anchor": (),
}  # fmt: skip
_OF_A_GROUP: Final = {
    "build-ups": ("build-ups",), "treatments": ("ceiling",), "openings": ("opening",), "air": ("air", "section"),
    "climate": ("plan",), "power": ("power", "circuits", "routes"), "signals": ("signals", "routes"),
    "safety": ("safety",), "cuts": ("cuts", "template"), "fittings": ("plan", "left-side", "right-side"),
}  # fmt: skip


def jobs(case: Case) -> Paper:
    """A card for each job, in order; short ones share a page, none is parted that fits on one."""
    found = case.evaluation.cost
    blocks = title_of(case, "Job cards")
    if not found.jobs:
        blocks.append(Say("The build file names no jobs under “labour”."))
    rows = tuple(
        (str(at), job.name, job.trade or "any", str(job.hours), job.hold_point) for at, job in enumerate(found.jobs, 1)
    )
    if rows:
        rows = (*rows, ("", "total", "", str(found.hours), ""))
        columns = ("", "job", "trade", "hours", "hold point after it")
        blocks.append(Table(columns, rows, (0.4, 3, 1.2, 0.8, 2), right=(3,), total=True))
    sheets = _sheets(case)
    for number, job in enumerate(found.jobs, start=1):
        blocks.append(Together(_card(case, number, job, sheets)))
    return Paper("jobs", "Job cards", tuple(blocks))


def _sheets(case: Case) -> frozenset[str]:
    """Families of which the build has a sheet."""
    paper = PAPERS["Letter" if case.system == "us" else "A4"]
    names = [sheet.name for sheet in every_sheet(case.evaluation.build, paper, case.system)]
    return frozenset(each for each in _FAMILIES if any(name == each or name.startswith(f"{each}-") for name in names))


def _card(case: Case, number: int, job: Job, sheets: frozenset[str]) -> tuple[Printed, ...]:
    told = f"planned {job.hours} h" + (f", {job.trade}" if job.trade else "")
    blocks: list[Printed] = [Heading(f"{number}. {job.name[:1].upper()}{job.name[1:]}"), Say(told, "strong")]
    if job.note:
        blocks.append(Say(case.told(job.note)))
    kinds = _kinds(case, job)
    if drawn := _drawn(kinds, sheets):
        blocks.append(Say(f"Drawings: {drawn}.", "small"))
    rows = tuple(
        (named(name, size, case.system), amount_of(amount, unit, case.system), "")
        for name, size, amount, unit in job.things
    )
    if rows:
        blocks.append(Table(("to", "amount", "done"), rows, (3, 1, 0.8), right=(1,)))
    if any(kind == "anchor" for kind, _ in kinds):
        blocks += anchors(case, "done")
    blocks.append(Blanks((("begun", ""), ("done", ""), ("hours taken", ""), ("by", "")), 4))
    blocks.append(Blanks((("what went otherwise", ""),)))
    if job.hold_point:
        blocks.append(
            Caution(f"Hold point after this job: {job.hold_point}. Nobody goes on before its sheet is signed.")
        )
    return tuple(blocks)


def _kinds(case: Case, job: Job) -> frozenset[tuple[str, str]]:
    """Kind and group of everything that a job is done to."""
    done = {(name, size) for name, size, *_ in job.things}
    things = things_of(case.evaluation.build)
    return frozenset((one.kind, one.group) for one in things if (one.name, one.size) in done)


def _drawn(kinds: frozenset[tuple[str, str]], sheets: frozenset[str]) -> str:
    """Drawings that show a job, in the order of the sheets."""
    wanted = {each for kind, group in kinds for each in _OF_A_KIND.get(kind, _OF_A_GROUP.get(group, ()))}
    return ", ".join(told for each, told in _FAMILIES.items() if each in wanted & sheets)
