"""``hushwright timeline``: the session over time."""

from __future__ import annotations

from typing import Annotated

import typer

from hushwright.cli.options import FileArgument, Units, UnitsOption
from hushwright.cli.output import say


def timeline(
    file: FileArgument,
    as_csv: Annotated[bool, typer.Option("--csv", help="Print a table for spreadsheets, a row a minute.")] = False,
    units: UnitsOption = Units.METRIC,
) -> None:
    """Show the session over time: people, carbon dioxide, humidity, temperature and background, room by room.

    The session is that of `brief.session`, temperatures those of the hottest and the coldest day. What the file does
    not hold is named with the reason.
    """
    from hushwright.cli.reading import read_evaluation

    evaluation, _ = read_evaluation(file)
    from hushwright.report.timeline import timeline_csv, timeline_text

    say(timeline_csv(evaluation, units.system) if as_csv else timeline_text(evaluation, units.system))
