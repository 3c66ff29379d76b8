"""Results in full of the dossier: set as headings, paragraphs and tables, with every word of the check report.

And one unit for what stands beside each other: value, limit and margin of a verdict, the cells of a column.
"""

import re
from collections import Counter

import pytest
from tests.coupled import DEMO, evaluation_of

from hushwright.report.layout import heading, labelled, table, wrapped
from hushwright.report.papers.blocks import Block, Heading, Say, Table
from hushwright.report.papers.from_lines import as_blocks
from hushwright.report.text import SECTIONS, Section
from hushwright.report.units_out import shown
from hushwright.report.verdict_text import numbers_of
from hushwright.units import System
from hushwright.verdicts.judge import judge

_LIKE = {"mm": "length", "m": "length", "km/h": "speed", "m/s": "speed", "mph": "speed", "ft/min": "speed",
         "N": "force", "kN": "force", "A": "current", "mA": "current", "s": "time", "min": "time", "Wh": "energy",
         "kWh": "energy", "W": "power", "kW": "power", "Pa": "pressure", "kPa": "pressure"}  # fmt: skip
_UNIT = re.compile(rf"\d ({'|'.join(sorted(_LIKE, key=len, reverse=True))})(?![\w/²³])")


def texts(block: Block) -> list[str]:
    if isinstance(block, Heading | Say):
        return [block.text]
    assert isinstance(block, Table)
    return [*block.columns, *(cell for row in block.rows for cell in row)]


@pytest.mark.parametrize(("group", "section"), SECTIONS, ids=lambda each: getattr(each, "__name__", each))
def test_a_part_of_the_report_loses_no_word_on_paper(group: str, section: Section) -> None:
    lines = section(evaluation_of(DEMO), "metric")
    blocks = as_blocks(lines, 3)
    spoken = [re.sub(r"(?<=[a-z])\.(?=[a-z])", " ", line.replace("_", " ")) for line in lines]
    wanted = Counter(word for line in spoken if set(line) != {"─"} for word in line.split())
    assert Counter(word for block in blocks for text in texts(block) for word in text.split()) == wanted, group


def test_tables_paragraphs_and_labels_become_what_they_were() -> None:
    lines = [
        *heading("Fans"),
        "  state record",
        *table([("run", "flow", "pressure"), ("fresh air", "60 l/s", "79 Pa")], indent=4, right=(1, 2)),
        *wrapped("a long paragraph " * 12, indent=2),
        *labelled("basis", "a limit of the file", indent=4),
        *table([("total", "12 kg")]),
    ]
    blocks = as_blocks(lines, 3)
    assert blocks[0] == Heading("Fans", 3)
    assert blocks[1] == Say("state record", "strong")
    first, paragraph, label, last = blocks[2:]
    assert isinstance(first, Table)
    assert first.columns == ("run", "flow", "pressure")
    assert first.rows == (("fresh air", "60 l/s", "79 Pa"),)
    assert first.right == (1, 2)
    assert paragraph == Say(("a long paragraph " * 12).strip())
    assert isinstance(label, Table)
    assert label.rows == (("basis", "a limit of the file"),)
    assert isinstance(last, Table)
    assert (last.columns, last.rows) == (("", ""), (("total", "12 kg"),))


def kinds_in_two_units(texts_beside: list[str]) -> set[str]:
    units = {unit for text in texts_beside for unit in _UNIT.findall(text)}
    kinds = Counter(_LIKE[unit] for unit in units)
    return {kind for kind, number in kinds.items() if number > 1}


@pytest.mark.parametrize("system", ["metric", "us"])
def test_value_limit_and_margin_of_a_verdict_stand_in_one_unit(system: System) -> None:
    for one in judge(evaluation_of(DEMO)):
        assert not kinds_in_two_units(numbers_of(one, system)[:3]), one.id


@pytest.mark.parametrize("system", ["metric", "us"])
def test_a_column_of_the_results_has_one_unit(system: System) -> None:
    for _, section in SECTIONS:
        for block in as_blocks(section(evaluation_of(DEMO), system), 3):
            if isinstance(block, Table) and any(block.columns):
                for at, name in enumerate(block.columns):
                    short = [row[at] for row in block.rows if len(row[at]) < 24]
                    assert not kinds_in_two_units(short), (section.__name__, name)


def test_values_beside_each_other_take_the_unit_of_the_largest() -> None:
    assert [shown(each, "speed", "metric", like=10.0) for each in (9.0, 10.0)] == ["32.4 km/h", "36 km/h"]
    assert shown(6.096, "length", "metric", like=12.0) == "6.1 m"
    assert shown(2.0, "length", "us", like=12.0) == "6.6 ft"  # 2 / 0.3048
