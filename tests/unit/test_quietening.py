"""A search for quiet: what it changes first, what it never breaks, and that its end is the file's own."""

from functools import lru_cache

import pytest
from tests.coupled import edited, evaluation_of, value_of, verdicts_of
from tests.plain_builds import plain_build

from hushwright.document.edits import edited as with_edits
from hushwright.errors import InvalidInput
from hushwright.search.quiet_steps import Looking, Price, Quietened
from hushwright.search.quietening import LEAST_GAIN, Quietening
from hushwright.search.reckoning import score_of

THIN = (
    "        - {sheet: birch plywood, thickness: 9}   # of the yard\n"
    "        - {cavity: 60}\n        - {sheet: birch plywood, thickness: 12}\n"
)
QUAY = (
    "  outdoors:\n    - {situation: quay, octaves: {hz_125: 60 dB, hz_500: 55 dB, hz_2000: 45 dB}, "
    "comes_from: all round, limit: 36 dB(A)}\n"
)
BUILD = plain_build(brief=QUAY, left=THIN)
VERDICT = "background-quay-record"


@lru_cache(maxsize=8)
def found(text: str, rounds: int = 2, *, until_sure: bool = False) -> Quietened:
    search = Quietening(text, "build.yaml", start=evaluation_of(text), until_sure=until_sure, rounds=rounds)
    last = list(search)[-1]
    assert isinstance(last, Quietened)
    return last


def test_the_thin_wall_that_decides_is_changed_first_and_until_the_number_meets() -> None:
    answer = found(BUILD)
    assert answer.verdict == VERDICT
    assert answer.steps
    assert all(each.where == "quiet room left" for each in answer.steps)
    assert answer.steps[0].gain >= LEAST_GAIN
    assert answer.end <= answer.limit < answer.start
    assert answer.ending in ("number", "meets")
    assert answer.met_after == len(answer.steps)


def test_the_predicted_end_is_that_of_the_written_file_and_its_remarks_stay() -> None:
    answer = found(BUILD)
    assert value_of(answer.text, "background/quay/record") == pytest.approx(answer.end, abs=1e-9)
    assert "# of the yard" in answer.text
    text = BUILD
    for step in answer.steps:
        text = with_edits(text, step.edits)
        assert text == step.text
    assert text == answer.text


def test_no_verdict_that_was_met_is_broken_on_the_way() -> None:
    answer = found(BUILD)
    before, after = verdicts_of(BUILD), verdicts_of(answer.text)
    broken = [name for name, one in before.items() if one.verdict == "meets" and after[name].verdict != "meets"]
    assert broken == []


def test_a_step_that_takes_away_what_is_met_is_told_and_not_taken() -> None:
    width = verdicts_of(BUILD)["clear-width-quiet-room"]
    assert width.margin is not None
    narrow = edited(BUILD, ("shoulder_width: 600", f"shoulder_width: {600 + 1000 * width.margin - 20:.0f}"))
    assert verdicts_of(narrow)["clear-width-quiet-room"].verdict == "meets"
    answer = found(narrow)
    board = next(each for each in answer.refused if each.what == "one more board inside")
    assert [one.verdict for one in board.breaks] == ["clear-width-quiet-room"]
    assert verdicts_of(answer.text)["clear-width-quiet-room"].verdict == "meets"


def test_an_impossible_target_ends_short_of_it_with_the_ways_out() -> None:
    hopeless = edited(BUILD, ("limit: 36 dB(A)", "limit: 1 dB(A)"))
    answer = found(hopeless, rounds=1)
    assert answer.ending == "short"
    assert answer.end < answer.start
    assert answer.left[0].name.startswith("quiet room left")
    assert answer.is_cut_short  # after one round there is more to gain
    told = " ".join(answer.ways_out)
    assert f"a target of {int(answer.end) + 1} dB(A) or more" in told
    assert "quieter outside" in told


def test_what_is_met_is_not_searched() -> None:
    quiet = edited(BUILD, ("limit: 36 dB(A)", "limit: 90 dB(A)"))
    with pytest.raises(InvalidInput, match="met already"):
        found(quiet)
    with pytest.raises(InvalidInput, match="no verdict on a sound"):
        list(Quietening(BUILD, "build.yaml", "headroom-quiet-room", evaluation_of(BUILD)))


def test_progress_is_told_before_each_change_that_is_looked_at() -> None:
    told = next(iter(Quietening(BUILD, "build.yaml", start=evaluation_of(BUILD))))
    assert isinstance(told, Looking)
    assert (told.round, told.done) == (1, 1)
    assert told.number > 3


def test_the_score_counts_work_mass_room_and_money_alike() -> None:
    alone = score_of(4.0, Price(), 10_000.0)
    assert alone == 4.0
    each = (Price(mass=10.0), Price(headroom=0.02), Price(width=0.01, length=0.01), Price(money=50.0))
    assert [score_of(4.0, one, 10_000.0) for one in each] == pytest.approx([2.0] * 4)
    assert score_of(4.0, Price(mass=-30.0), 0.0) == 4.0
