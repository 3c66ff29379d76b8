"""``hushwright wiring``: the schedule of circuits."""

from __future__ import annotations

from typing import Annotated

import typer

from hushwright.cli.options import FileArgument, Units, UnitsOption
from hushwright.cli.output import say


def wiring(
    file: FileArgument,
    as_csv: Annotated[
        bool, typer.Option("--csv", help="Print a table for spreadsheets, a row for each circuit.")
    ] = False,
    units: UnitsOption = Units.METRIC,
) -> None:
    """List the circuits with way, conductor and fuse, and the rules that each number comes from.

    The circuits are those of `power.circuits` in the build file; conductors that it leaves out are the thinnest that
    serve.
    """
    from hushwright.cli.reading import read_evaluation

    evaluation, _ = read_evaluation(file)
    from hushwright.report.wiring import circuit_csv, schedule

    say(circuit_csv(evaluation, units.system) if as_csv else schedule(evaluation, units.system))
