"""Results in full of the dossier: set as headings, paragraphs and tables, with every word of the check report."""

from collections import Counter

import pytest
from tests.coupled import DEMO, evaluation_of

from hushwright.report.layout import heading, labelled, table, wrapped
from hushwright.report.papers.blocks import Block, Heading, Say, Table
from hushwright.report.papers.from_lines import as_blocks
from hushwright.report.text import SECTIONS, Section


def texts(block: Block) -> list[str]:
    if isinstance(block, Heading | Say):
        return [block.text]
    assert isinstance(block, Table)
    return [*block.columns, *(cell for row in block.rows for cell in row)]


@pytest.mark.parametrize(("group", "section"), SECTIONS, ids=lambda each: getattr(each, "__name__", each))
def test_a_part_of_the_report_loses_no_word_on_paper(group: str, section: Section) -> None:
    lines = section(evaluation_of(DEMO), "metric")
    blocks = as_blocks(lines, 3)
    wanted = Counter(word for line in lines if set(line) != {"─"} for word in line.replace("_", " ").split())
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
