"""``hushwright partition``: one build-up on its own."""

from __future__ import annotations

from hushwright.cli.options import FileArgument, JsonOption, Units, UnitsOption
from hushwright.cli.output import say


def partition(file: FileArgument, as_json: JsonOption = False, units: UnitsOption = Units.METRIC) -> None:
    """Predict the sound reduction of one build-up.

    FILE holds `layers`, `area` or `width` and `height`, `bridges` and `seal`, in the words of the build file.
    """
    from hushwright.cli.reading import read_partition

    single = read_partition(file, as_json=as_json)
    from hushwright.report.partition_out import partition_json, partition_text

    if as_json:
        say(partition_json(single, units.system))
    else:
        say(partition_text(single.face.name, single, units.system))
