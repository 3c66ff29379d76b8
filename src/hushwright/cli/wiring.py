"""``hushwright wiring``: the schedule of circuits."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from hushwright.cli.options import FileArgument, Units, UnitsOption, refuse
from hushwright.cli.output import say
from hushwright.cli.writing import check_new, write_new

if TYPE_CHECKING:
    from hushwright.evaluation.results import Evaluation
    from hushwright.units import System

_SCALE = 25.0  # of the picture


def wiring(
    file: FileArgument,
    as_csv: Annotated[
        bool, typer.Option("--csv", help="Print a table for spreadsheets, a row for each circuit.")
    ] = False,
    course: Annotated[
        str | None,
        typer.Option("--course", metavar="NAME", help="Tell the way of one circuit or signal line, leg by leg."),
    ] = None,
    picture: Annotated[
        str | None,
        typer.Option("--picture", metavar="FILE", help="With --course: draw it too, SVG in a new file."),
    ] = None,
    units: UnitsOption = Units.METRIC,
) -> None:
    """List the circuits with way, conductor and fuse, and the rules that each number comes from.

    The circuits are those of `power.circuits` in the build file; conductors that it leaves out are the thinnest that
    serve.
    """
    from hushwright.cli.reading import read_evaluation

    if picture is not None:
        check_new(Path(picture))
    evaluation, _ = read_evaluation(file)
    if course is not None or picture is not None:
        _tell_course(evaluation, course or "", picture, units.system)
        return
    from hushwright.report.wiring import circuit_csv, schedule

    say(circuit_csv(evaluation, units.system) if as_csv else schedule(evaluation, units.system))


def _tell_course(evaluation: Evaluation, name: str, picture: str | None, system: System) -> None:
    """Tell a course by its key, and write its picture where that is asked for."""
    from hushwright.drawings.courses import course as drawn
    from hushwright.evaluation.wiring.courses import course_of_circuit, course_of_line

    found = course_of_circuit(evaluation, name) or course_of_line(evaluation, name)
    if found is None:
        signals = evaluation.build.signals
        names = [each.name for each in evaluation.wiring.circuits]
        names += [each.name for each in signals.lines] if signals is not None else []
        refuse(f"no circuit or signal line is called {name!r}; there are {', '.join(names) or 'none'}.")
    drawing = drawn(evaluation.build, found, system)
    if picture is not None:
        from hushwright.drawings.svg import svg

        write_new(Path(picture), svg(drawing, _SCALE, system).encode())
    say("\n".join([drawing.title, *(f"  {mark:<3} {text}" for mark, text in drawing.key),
                   *(f"  beside it: {text}" for text in drawing.remarks)]))  # fmt: skip
    if picture is not None:
        say(f"\n{picture}")
