"""``hushwright report`` and ``hushwright change``: papers as PDF."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from hushwright.cli.options import FileArgument, Units, UnitsOption, refuse
from hushwright.cli.output import say
from hushwright.cli.writing import PDF, check_file, check_folder, save_paper

if TYPE_CHECKING:
    from collections.abc import Sequence

    from hushwright.report.papers.common import Case
    from hushwright.units import System

NAMES = "dossier, promise, client, quote, purchase, jobs, hold-points, venue, handover"


def report(
    file: FileArgument,
    only: Annotated[
        list[str] | None, typer.Option("--only", metavar="PAPER", help=f"One paper only, again for more: {NAMES}.")
    ] = None,
    out: Annotated[
        str, typer.Option("--out", metavar="PATH", help="Folder for the papers, or a PDF file for one paper.")
    ] = "",
    units: UnitsOption = Units.METRIC,
) -> None:
    """Write the papers of a build as PDF: dossier, promise sheet, summary for the client, quote, purchase list, job
    cards, hold-point sheets, venue sheet, handover book.

    Left out, `--out` is a folder beside the build file, named after it. The same file gives the same bytes.
    """
    from hushwright.report.papers.every_paper import PAPERS

    names = _chosen(only or (), tuple(PAPERS))
    single = len(names) == 1 and out.lower().endswith(".pdf")
    folder = Path(out) if out else Path(file).with_name(f"{Path(file).stem}-papers")
    if single:
        check_file(Path(out), PDF)
    else:
        check_folder(folder)
    case = _case(file, units.system)
    written = [Path(out) if single else folder / f"{name}.pdf" for name in names]
    for name, path in zip(names, written, strict=True):
        _write(path, case, name)
    say("\n".join(f"Written: {path}" for path in written))


def change(
    old: Annotated[str, typer.Argument(metavar="OLD", help="Build file as agreed.", show_default=False)],
    new: Annotated[str, typer.Argument(metavar="NEW", help="Build file as it is to be.", show_default=False)],
    out: Annotated[str, typer.Option("--out", metavar="PATH", help="Write the change order as PDF to this file.")] = "",
    units: UnitsOption = Units.METRIC,
) -> None:
    """Tell what differs between two revisions of a build file, and what that does to price, mass and every verdict."""
    if out:
        check_file(Path(out), PDF)
    before, after = _case(old, units.system), _case(new, units.system)
    from hushwright.report.papers.as_text import paper_text
    from hushwright.report.papers.change import change_order

    paper = change_order(before, after)
    if not out:
        say(paper_text(paper))
        return
    from hushwright.report.papers.setting import paper_pdf

    save_paper(Path(out), paper_pdf(paper, after.evaluation.build, units.system))
    say(f"Written: {Path(out)}")


def _chosen(typed: Sequence[str], known: tuple[str, ...]) -> tuple[str, ...]:
    from difflib import get_close_matches

    for name in typed:
        if name not in known:
            near = get_close_matches(name, known, n=2)
            hint = f"perhaps {' or '.join(near)}?" if near else f"there are {', '.join(known)}."
            refuse(f"No paper is called {name!r}; {hint}")
    return tuple(dict.fromkeys(typed)) or known


def _case(file: str, system: System) -> Case:
    from hushwright.cli.reading import judged, read_evaluation

    evaluation, _ = read_evaluation(file)
    from hushwright.evaluation.cost.options import options_of
    from hushwright.report.papers.common import Case

    return Case(evaluation, judged(evaluation), options_of(evaluation.build), system)


def _write(path: Path, case: Case, name: str) -> None:
    from hushwright.report.papers.every_paper import PAPERS
    from hushwright.report.papers.setting import paper_pdf

    save_paper(path, paper_pdf(PAPERS[name](case), case.evaluation.build, case.system))
