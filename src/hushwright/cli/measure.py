"""``hushwright measure``: a sheet to take to the donor van."""

from __future__ import annotations

from hushwright.cli.options import FileArgument, Units, UnitsOption
from hushwright.cli.output import say


def measure(file: FileArgument, units: UnitsOption = Units.METRIC) -> None:
    """Print a sheet of what to measure on the donor van.

    Values with the largest effect on the verdicts come first; sketches show where each is taken.
    """
    from hushwright.cli.reading import judged, read_evaluation

    evaluation, _ = read_evaluation(file)
    from hushwright.report.measure_sheet import measure_sheet
    from hushwright.verdicts.measure_next import measure_next

    ranked = measure_next(evaluation, judged(evaluation), all_verdicts=True)
    say(measure_sheet(evaluation.build, ranked, units.system))
