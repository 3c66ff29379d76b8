"""Papers speak to people: what a table is for is said, yes and no in words, no code marks, no invisible characters."""

import re
from collections.abc import Iterator

import pytest
from tests.coupled import DEMO
from tests.unit.test_papers import case_of

from hushwright.report.papers.blocks import Blanks, Block, Caution, Checks, Drawn, Heading, Judged, Say, Table
from hushwright.report.papers.common import IN_THE_FILE
from hushwright.report.papers.every_paper import PAPERS

TYPED = ("place in the file", "picture")
PATH = re.compile(r"\b[a-z][a-z0-9_]*(?:\.[a-z][a-z0-9_]*)+\b")


def texts_of(block: Block) -> Iterator[str]:
    """Everything that a block prints, but what stands in a column for what is typed in a file."""
    if isinstance(block, (Say, Heading, Caution)):
        yield block.text
    elif isinstance(block, Judged):
        yield from (block.question, block.numbers, *(text for name, text in block.lines if name != IN_THE_FILE))
    elif isinstance(block, Table):
        typed = {at for at, name in enumerate(block.columns) if name in TYPED}
        yield from block.columns
        yield from (cell for row in block.rows for at, cell in enumerate(row) if at not in typed)
    elif isinstance(block, Checks):
        yield from block.texts
    elif isinstance(block, Blanks):
        yield from (text for field in block.fields for text in field)
    elif isinstance(block, Drawn):
        yield block.sheet.title


@pytest.mark.parametrize("name", PAPERS)
def test_no_paper_prints_code_marks_or_places_of_the_file_as_prose(name: str) -> None:
    texts = [text for block in PAPERS[name](case_of(DEMO)).blocks for text in texts_of(block)]
    assert len(texts) > 5
    assert [text for text in texts if "`" in text] == []
    found = [text for text in texts if PATH.search(re.sub(r"docs/[\w/-]+\.md", "", text))]
    assert found == []


def test_the_promise_names_its_situation_and_takes_the_same_one_for_every_state() -> None:
    blocks = PAPERS["promise"](case_of(DEMO)).blocks
    heads = [each.text for each in blocks if isinstance(each, Heading) and each.text.startswith("From outside")]
    named = {head.split(", situation ")[1] for head in heads}
    assert len(heads) == 2
    assert len(named) == 1
    assert named <= {one.situation for one in case_of(DEMO).evaluation.backgrounds}
    told = [each.text for each in blocks if isinstance(each, Say) and each.text.startswith("Levels of this table")]
    assert len(told) == len(heads)
    assert all(f"situation {next(iter(named))}," in text for text in told)
