"""Papers on the screen: page by page before anything is printed, and as files to take along."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, Any, Protocol
from urllib.parse import quote

from fastapi import Response
from nicegui import background_tasks, run, ui

from hushwright.app.frame import button
from hushwright.errors import UnreadableDocument
from hushwright.units import System

if TYPE_CHECKING:
    from hushwright.app.computing import Computed
    from hushwright.app.desk import Desk
    from hushwright.report.papers.common import Case

TITLES = {
    "dossier": "Dossier", "promise": "Promise sheet", "client": "Summary", "quote": "Quote",
    "purchase": "Purchase list", "jobs": "Job cards", "hold-points": "Hold points", "venue": "Venue sheet",
    "handover": "Handover book",
}  # fmt: skip
_PDF, _XLSX = "application/pdf", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
_KEPT = 4  # papers kept as pictures


class Shown(Protocol):
    """The view that shows papers, as far as they need it."""

    page: Any
    paper: str

    def refresh(self) -> None:
        """Show what now holds."""


def draw_papers(views: Shown) -> None:
    """Draw the choice of papers, what can be taken along, and the pages of the chosen one."""
    page, computed = views.page, views.page.open.computed
    if computed is None or computed.evaluation is None:
        ui.label("Not computed yet.")
        return
    chosen = views.paper or "client"
    address = f"/paper/{quote(page.session.name, safe='')}"
    with ui.element("div").classes("hw-row"):
        for name, title in TITLES.items():
            made = button(title, partial(_choose, views, name))
            made.props(f'aria-pressed="{"true" if name == chosen else "false"}"')
    if page.open.is_stale:
        ui.label("These pages belong to the text before the last change; it is being computed.").classes("hw-note")
    taken = ((f"{chosen}.pdf", f"Take {TITLES[chosen].lower()} as PDF"), ("drawings.pdf", "Take drawings as PDF"),
             ("cost.xlsx", "Take cost as workbook"))  # fmt: skip
    with ui.element("div").classes("hw-row"):
        for name, text in taken:
            ui.link(text, f"{address}/{name}?units={page.system}&take=1")
    sheets = ui.html("<p>Being set …</p>", sanitize=False)
    background_tasks.create(_show(sheets, computed, page.session.name, chosen, page.system, address))


async def _show(sheets: Any, computed: Computed, name: str, chosen: str, system: System, address: str) -> None:
    """Put the pages on the screen once they are set, which is done beside the event loop."""
    number = len(await run.io_bound(_pages, computed, name, chosen, system) or ())
    pictures = "".join(
        f'<img class="hw-paper" loading="lazy" alt="{TITLES[chosen]}, page {at} of {number}"'
        f' src="{address}/{chosen}.png?units={system}&page={at}&of={computed.seconds}">'
        for at in range(1, number + 1)
    )
    if not sheets.is_deleted:
        sheets.set_content(f'<div class="hw-papers">{pictures}</div>')


def _choose(views: Shown, name: str) -> None:
    views.paper = name
    views.refresh()


def paper_route(desk: Desk) -> Callable[..., Response]:
    """Answer with a paper of an open build: a picture of a page, a PDF or the workbook."""

    def paper(name: str, file: str, units: str = "metric", page: int = 1, take: int = 0) -> Response:
        try:
            computed = desk.open(name).computed
        except UnreadableDocument:
            computed = None
        system: System = "us" if units == "us" else "metric"
        kind, _, ending = file.rpartition(".")
        found = _file(computed, name, kind, ending, system, page) if computed is not None else None
        if found is None:
            return Response(status_code=404)
        headers = {"cache-control": "no-store"}
        if take:
            headers["content-disposition"] = f'attachment; filename="{kind}.{ending}"'
        return Response(found[0], media_type=found[1], headers=headers)

    return paper


def _file(computed: Computed, name: str, kind: str, ending: str, system: System, page: int) -> tuple[bytes, str] | None:
    """Content and type of one file; `None` where there is no such thing."""
    if computed.evaluation is None:
        return None
    if ending == "png" and kind in TITLES:
        pages = _pages(computed, name, kind, system)
        return (pages[page - 1], "image/png") if 1 <= page <= len(pages) else None
    if ending == "pdf" and kind in TITLES:
        from hushwright.report.papers.every_paper import PAPERS
        from hushwright.report.papers.setting import paper_pdf

        return paper_pdf(PAPERS[kind](_case(computed, system)), computed.evaluation.build, system), _PDF
    if (kind, ending) == ("drawings", "pdf"):
        return _drawings(computed, system), _PDF
    return (_workbook(computed, system), _XLSX) if (kind, ending) == ("cost", "xlsx") else None


def _case(computed: Computed, system: System) -> Case:
    from hushwright.evaluation.cost.options import options_of
    from hushwright.report.papers.common import Case

    assert computed.evaluation is not None
    return Case(computed.evaluation, computed.verdicts, options_of(computed.evaluation.build), system)


def _drawings(computed: Computed, system: System) -> bytes:
    from hushwright.drawings.every_sheet import every_sheet
    from hushwright.drawings.paper import PAPERS as SIZES
    from hushwright.drawings.sheets import sheets_pdf

    assert computed.evaluation is not None
    build, size = computed.evaluation.build, SIZES["Tabloid" if system == "us" else "A3"]
    return sheets_pdf(every_sheet(build, size, system), build, size, system)


def _workbook(computed: Computed, system: System) -> bytes:
    from hushwright.evaluation.cost.options import options_of
    from hushwright.evaluation.cost.take_off import things_of
    from hushwright.report.cost_tables import cost_sheets
    from hushwright.report.workbook import workbook

    assert computed.evaluation is not None
    build = computed.evaluation.build
    sheets = cost_sheets(computed.evaluation.cost, things_of(build), options_of(build), system)
    return workbook(sheets, build.title or build.file)


_pictures: dict[tuple[str, str, str, str], tuple[bytes, ...]] = {}


def _pages(computed: Computed, name: str, kind: str, system: System) -> tuple[bytes, ...]:
    """Pages of a paper as pictures; those of the last few papers are kept."""
    from hushwright.report.papers.every_paper import PAPERS
    from hushwright.report.papers.setting import paper_pictures

    key: Any = (name, computed.text, kind, system)
    if key not in _pictures:
        assert computed.evaluation is not None
        pages = paper_pictures(PAPERS[kind](_case(computed, system)), computed.evaluation.build, system)
        while len(_pictures) >= _KEPT:
            _pictures.pop(next(iter(_pictures)))
        _pictures[key] = pages
    return _pictures[key]
