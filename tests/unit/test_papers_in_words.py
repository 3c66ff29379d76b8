"""Papers speak to people: what a table is for is said, yes and no in words, no code marks, no invisible characters."""

import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from tests.coupled import DEMO, verdicts_of
from tests.unit.test_papers import case_of

from hushwright.report.papers.blocks import (
    Blanks,
    Block,
    Caution,
    Checks,
    Drawn,
    Heading,
    Judged,
    Say,
    Table,
    one_by_one,
)
from hushwright.report.papers.client import by_ear
from hushwright.report.papers.common import IN_THE_FILE
from hushwright.report.papers.every_paper import PAPERS
from hushwright.report.verdict_text import yes_or_no

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"

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
    texts = [text for block in one_by_one(PAPERS[name](case_of(DEMO)).blocks) for text in texts_of(block)]
    assert len(texts) > 5
    assert [text for text in texts if "`" in text] == []
    found = [text for text in texts if PATH.search(re.sub(r"docs/[\w/-]+\.md", "", text))]
    assert found == []


def test_the_promise_names_its_situation_and_takes_the_same_one_for_every_state() -> None:
    blocks = list(one_by_one(PAPERS["promise"](case_of(DEMO)).blocks))
    heads = [each.text for each in blocks if isinstance(each, Heading) and each.text.startswith("From outside")]
    named = {head.split(", situation ")[1] for head in heads}
    assert len(heads) == 2
    assert len(named) == 1
    assert named <= {one.situation for one in case_of(DEMO).evaluation.backgrounds}
    told = [each.text for each in blocks if isinstance(each, Say) and each.text.startswith("Levels of this table")]
    assert len(told) == len(heads)
    assert all(f"situation {next(iter(named))}," in text for text in told)


def test_what_is_asked_with_yes_or_no_is_answered_so() -> None:
    tables = [block for block in PAPERS["venue"](case_of(DEMO)).blocks if isinstance(block, Table)]
    rows = {row[0]: row for table in tables for row in table.rows}
    assert rows["Can people walk to the van at quay without falling?"][1:3] == ("yes", "yes")
    one = next(each for each in case_of(DEMO).verdicts if each.id == "venue-walk-quay")
    assert yes_or_no(replace(one, value=2.0)) == f"no, {one.counts}: 2"
    assert yes_or_no(replace(one, limit=2.0)) == ""


def test_the_client_reads_why_a_number_that_would_do_is_not_proven() -> None:
    case = case_of(DEMO)
    bond = next(each for each in case.verdicts if each.id == "chassis-bond-all")
    assert bond.verdict == "unproven"
    rows = [row for block in PAPERS["client"](case).blocks if isinstance(block, Table) for row in block.rows]
    row = next(row for row in rows if row[1] == bond.question)
    assert bond.reason in row[2]


def test_the_client_reads_what_is_expected_and_what_is_wanted() -> None:
    case = case_of(DEMO)
    rows = {row[1]: row for block in PAPERS["client"](case).blocks if isinstance(block, Table) for row in block.rows}
    expected, wanted = rows["Does the quiet room stay cool enough on the hottest day?"][2:]
    assert expected == "26 °C, give or take 3 °C; likely to be kept"
    assert wanted == "at most 27 °C"
    one = next(each for each in case.verdicts if each.id.startswith("alarm-heard-quiet-room"))
    for sense, value, told in (
        ("at_least", 12.0, ("over what is needed by 12 dB", "not under it")),
        ("at_most", -4.0, ("under what is allowed by 4 dB", "not over it")),
    ):
        moved = replace(one, value=value, sense=sense, uncertainty=0.0, verdict="fails", group="Quiet")  # type: ignore[arg-type]
        tables = [
            block for block in PAPERS["client"](replace(case, verdicts=(moved,))).blocks if isinstance(block, Table)
        ]
        assert [row[2:] for block in tables for row in block.rows if row[1] == one.question] == [told]


def test_the_client_reads_what_is_heard_and_no_bands() -> None:
    tables = [block for block in PAPERS["client"](case_of(DEMO)).blocks if isinstance(block, Table)]
    heard = [row[3] for row in tables[0].rows]
    assert all("heard" in text and not re.search(r"\d", text) for text in heard)
    assert by_ear(["not heard"] * 27) == "nothing is heard"


def test_every_verdict_that_counts_says_what_it_counts() -> None:
    for one in verdicts_of(DEMO).values():
        if one.kind == "count" and one.limit in (0.0, 1.0) and float(one.value or 0.0).is_integer():
            assert one.counts, one.id


def test_the_client_is_told_what_nobody_knows_yet_and_how_likely_the_rest_is_kept() -> None:
    text = (EXAMPLES / "repair-workshop-van.yaml").read_text(encoding="utf-8")
    case = case_of(text)
    rows = [row for block in PAPERS["client"](case).blocks if isinstance(block, Table) for row in block.rows]
    told = {row[1]: row for row in rows}
    for one in case.verdicts:
        if one.verdict == "unproven":
            assert case.told(one.question) in told, one.id
    assert "likely to be kept" in told["Is charge left when it is lowest?"][2]
    assert told["EU: is the paper on glazing there?"][2] == "not yet"
