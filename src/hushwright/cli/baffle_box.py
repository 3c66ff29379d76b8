"""``hushwright baffle-box``: the smallest baffle box that quietens one run."""

from __future__ import annotations

from typing import Annotated

import typer

from hushwright.cli.options import FileArgument, Units, UnitsOption, refuse, refuse_file
from hushwright.cli.output import say

NOT_ALL = 1
SizeOption = Annotated[str, typer.Option(metavar="LENGTH", help="Most it may measure outside that way, `900 mm`.")]


def baffle_box(
    file: FileArgument,
    run: Annotated[str, typer.Argument(metavar="RUN", help="Run of `air` that gets the box.", show_default=False)],
    length: SizeOption = "",
    width: SizeOption = "",
    height: SizeOption = "",
    curve: Annotated[
        float, typer.Option("--nc", metavar="NC", help="Noise curve to keep to; left out, the brief's `fans_alone`.")
    ] = 0.0,
    units: UnitsOption = Units.METRIC,
) -> None:
    """Design the baffle box of a run, so that its fan keeps under a noise curve in the quiet room.

    A box that the run has gives the space there is, unless sizes are given here. Prints the design and the line for the
    build file.

    Exit code 0 when the box takes all that is asked, 1 when none does, 2 when the call is wrong.
    """
    from hushwright.cli.reading import read_build
    from hushwright.errors import InvalidInput
    from hushwright.units import parse_quantity

    build, _ = read_build(file)
    from hushwright.evaluation.box_design import design_box
    from hushwright.evaluation.guard import CannotEvaluate, located
    from hushwright.report.box_text import box_text

    try:
        sizes = [parse_quantity(text, "length").value if text else None for text in (length, width, height)]
        with located(build.document):
            found = design_box(build, run, length=sizes[0], width=sizes[1], height=sizes[2],
                               curve=curve if curve > 0.0 else None)  # fmt: skip
    except CannotEvaluate as problem:
        if problem.place and problem.diagnostic is not None:
            refuse_file((problem.diagnostic,))
        refuse(problem.note)
    except InvalidInput as problem:
        refuse(str(problem))
    say(box_text(found, units.system))
    if not found.design.meets:
        raise typer.Exit(NOT_ALL)
