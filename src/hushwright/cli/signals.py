"""``hushwright signals``: the list of cables."""

from __future__ import annotations

from typing import Annotated

import typer

from hushwright.cli.options import FileArgument, Units, UnitsOption
from hushwright.cli.output import say


def signals(
    file: FileArgument,
    as_csv: Annotated[bool, typer.Option("--csv", help="Print a table for spreadsheets, a row for each line.")] = False,
    units: UnitsOption = Units.METRIC,
) -> None:
    """List the cables for signals with their lengths and connectors, and the headphones with their levels.

    The lines are those of `signals` in the build file; lengths follow their routes.
    """
    from hushwright.cli.reading import read_evaluation

    evaluation, _ = read_evaluation(file)
    from hushwright.report.signals import cable_csv, cable_list

    say(cable_csv(evaluation, units.system) if as_csv else cable_list(evaluation, units.system))
