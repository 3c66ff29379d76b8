"""Papers speak to people: what a table is for is said, yes and no in words, no code marks, no invisible characters."""

from tests.coupled import DEMO
from tests.unit.test_papers import case_of

from hushwright.report.papers.blocks import Heading, Say
from hushwright.report.papers.every_paper import PAPERS


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
