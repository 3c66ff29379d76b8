"""``hushwright cost``: what a build takes and what it costs."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from hushwright.cli.options import FileArgument, JsonOption, Units, UnitsOption
from hushwright.cli.output import say
from hushwright.cli.writing import WORKBOOK, check_file, write_bytes

if TYPE_CHECKING:
    from hushwright.evaluation.results import Evaluation
    from hushwright.units import System


def cost(
    file: FileArgument,
    as_json: JsonOption = False,
    as_csv: Annotated[bool, typer.Option("--csv", help="Print the purchase list as a table for spreadsheets.")] = False,
    xlsx: Annotated[
        str, typer.Option("--xlsx", metavar="PATH", help="Write all tables as a workbook to this file.")
    ] = "",
    units: UnitsOption = Units.METRIC,
) -> None:
    """Sum what a build costs: quantities from its geometry, purchase in whole packs, hours job by job.

    By what it buys, without and with tax; purchase list, jobs, options. What has no price is listed and never counted
    as nothing.

    Exit code 0 when everything has a price, 1 when something has none, 2 when the file cannot be read.
    """
    from hushwright.cli.reading import read_evaluation

    if xlsx:
        check_file(Path(xlsx), WORKBOOK)
    evaluation, _ = read_evaluation(file, as_json=as_json)
    if xlsx:
        write_bytes(Path(xlsx), _workbook(evaluation, units.system))
        say(f"Written: {xlsx}")
    if as_csv:
        from hushwright.report.cost_tables import plain_cells, purchase_sheet
        from hushwright.report.csv_out import csv_text

        sheet = purchase_sheet(evaluation.cost, units.system)
        say(csv_text([sheet.columns, *(plain_cells(row) for row in sheet.rows)]))
    elif as_json:
        from hushwright.report.as_json import SCHEMA, written
        from hushwright.report.cost import cost_nodes

        say(written({"schema": SCHEMA, **cost_nodes(evaluation, units.system)}))
    elif not xlsx:
        from hushwright.evaluation.cost.options import options_of
        from hushwright.report.cost_text import cost_text

        say(cost_text(evaluation, options_of(evaluation.build), units.system))
    if evaluation.cost.unpriced or evaluation.cost.quote is None:
        raise typer.Exit(1)


def _workbook(evaluation: Evaluation, system: System) -> bytes:
    from hushwright.evaluation.cost.options import options_of
    from hushwright.evaluation.cost.take_off import things_of
    from hushwright.report.cost_tables import cost_sheets
    from hushwright.report.workbook import workbook

    build = evaluation.build
    sheets = cost_sheets(evaluation.cost, things_of(build), options_of(build), system)
    return workbook(sheets, build.title or build.file)
