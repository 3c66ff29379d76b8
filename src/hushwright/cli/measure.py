"""``hushwright measure``: a sheet to take to the donor van."""

from __future__ import annotations

from hushwright.cli.options import FileArgument, Units, UnitsOption
from hushwright.cli.output import say


def measure(file: FileArgument, units: UnitsOption = Units.METRIC) -> None:
    """Print a sheet of what to measure on the donor van, largest effect on the verdicts first, with sketches."""
    from hushwright.cli.reading import read_evaluation
    from hushwright.report.measure_sheet import measure_sheet
    from hushwright.verdicts.judge import judge

    evaluation, _ = read_evaluation(file)
    say(measure_sheet(evaluation.build, judge(evaluation), units.system))
