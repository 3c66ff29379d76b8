"""A search for quiet: what it changes first, what it never breaks, and that its end is the file's own."""

import re
from dataclasses import replace
from functools import lru_cache

import pytest
from tests.coupled import build_of, edited, evaluation_of, value_of, verdicts_of
from tests.plain_builds import plain_build
from tests.unit.air_cases import AIRED

from hushwright.app.wall_rows import compared_row
from hushwright.document.edits import Edit
from hushwright.document.edits import edited as with_edits
from hushwright.document.nodes import parse_path
from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS
from hushwright.report.quieten import end_lines, price_text
from hushwright.search.comparing import Comparison
from hushwright.search.quiet_steps import Looking, Price, Quietened, QuietStep, named, needs_of
from hushwright.search.quietening import LEAST_GAIN, Quietening
from hushwright.search.reckoning import broken_by, price_between, score_of, to_recount, touched_by
from hushwright.search.worse import why_no_better
from hushwright.verdicts.verdict import Verdict

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
    short = answer.end - answer.limit
    assert answer.would_take[0].startswith("quiet room left")
    by = int(re.search(r": (\d+) dB less", answer.would_take[0])[1])  # one way alone has to lose what is missing
    assert short <= by <= short + 4.0
    assert f"{short:.1f} dB are still missing" in " ".join(end_lines(answer, "metric"))
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
    search = iter(Quietening(BUILD, "build.yaml", start=evaluation_of(BUILD)))
    begin, told = next(search), next(search)
    assert isinstance(begin, Looking)
    assert begin.trying == "the build as it is"
    assert isinstance(told, Looking)
    assert (told.round, told.done) == (1, 1)
    assert told.trying.startswith("quiet room left: ")
    assert told.number > 3


def test_the_score_counts_work_mass_room_and_money_alike() -> None:
    alone = score_of(4.0, Price(), 10_000.0)
    assert alone == 4.0
    each = (Price(mass=10.0), Price(headroom=0.02), Price(width=0.01, length=0.01), Price(money=50.0))
    assert [score_of(4.0, one, 10_000.0) for one in each] == pytest.approx([2.0] * 4)
    assert score_of(4.0, Price(mass=-30.0), 0.0) == 4.0


SHEETS = (
    "prices:\n  currency: EUR\n  items:\n"
    "    - {of: birch plywood, size: 9, price: 10, per: m2, pack: 3}\n"
    "    - {of: birch plywood, size: 12, price: 20, per: m2, pack: 30}\n"
    "    - {of: birch plywood, size: 18, price: 30, per: m2, pack: 3}\n"
)


def test_a_thicker_board_costs_more_whatever_is_left_in_a_pack() -> None:
    text = plain_build(brief=QUAY, left=THIN, rest=SHEETS)
    thick = edited(text, ("{sheet: birch plywood, thickness: 12}", "{sheet: birch plywood, thickness: 18}"))
    area = next(each.area for each in build_of(text).rooms[0].surfaces if each.name == "quiet_room.left")
    rows = {each.name: each.money for each in Comparison(text, "build.yaml", "quiet_room.left")}
    assert rows["as it is"] is not None
    assert rows["inner board 18 mm"] is not None
    assert float(rows["inner board 18 mm"] - rows["as it is"]) == pytest.approx(10.0 * area, abs=0.02)
    spent = price_between(build_of(text), build_of(thick)).money
    assert spent == pytest.approx(10.0 * area, abs=0.02)


def test_a_typed_number_of_plates_is_told_once_a_step_takes_other_boards() -> None:
    prices = ", ".join(
        f"{{of: birch plywood, size: {size}, price: 20, per: m2, pack: 3, plates: 4}}" for size in (12, 18)
    )
    text = plain_build(
        left="        - {sheet: birch plywood, thickness: 12}\n", rest=f"prices: {{currency: EUR, items: [{prices}]}}\n"
    )
    for thickness, told in ((12, ()), (18, ("birch plywood 12 mm", "birch plywood 18 mm"))):
        assert to_recount(build_of(text), build_of(text.replace("thickness: 12", f"thickness: {thickness}"))) == told


def test_a_comparison_says_where_one_price_stands_for_every_thickness() -> None:
    priced = "prices:\n  currency: EUR\n  items:\n    - {of: sheet, price: 18..38, per: m2}\n"
    rows = {each.name: each for each in Comparison(plain_build(brief=QUAY, left=THIN, rest=priced), "build.yaml",
                                                   "quiet_room.left")}  # fmt: skip
    first, thick = rows["as it is"], rows["inner board 18 mm"]
    assert set(thick.one_price) - set(first.one_price) == {("birch plywood", 0.018)}
    told = compared_row(1, thick, first, "background/quay/record", "metric")["cells"]
    assert any("one price for every thickness: birch plywood" in cell for cell in told)


def test_a_comparison_says_what_moved_where_a_heavier_board_makes_the_room_louder() -> None:
    octaves = "hz_63: 40 dB, hz_125: 40 dB, hz_1000: 75 dB, hz_2000: 50 dB"
    text = edited(BUILD, ("hz_125: 60 dB, hz_500: 55 dB, hz_2000: 45 dB", octaves))
    rows = {each.name: each for each in Comparison(text, "build.yaml", "quiet_room.left")}
    key, deciding = "background/quay/record", THIRD_OCTAVE_BANDS.index(1000.0)
    first, thicker = rows["as it is"], rows["inner board 18 mm"]
    assert (thicker.level(key) or 0.0) > (first.level(key) or 0.0)
    told = why_no_better(thicker, first, key, deciding)
    assert "dB less at 1000 Hz, where most comes in" in told
    assert "coincidence (leaf 2) moves from 1419 Hz to 951 Hz" in told
    assert why_no_better(rows["cavity filled with wool"], first, key, deciding) == ""
    assert why_no_better(first, first, key, deciding) == ""


def test_room_that_the_bare_number_keeps_is_never_lost_however_unsure_it_is() -> None:
    met = verdicts_of(BUILD)["clear-width-quiet-room"]
    kept = replace(met, verdict="unproven", margin=0.001, uncertainty=0.1)
    lost = replace(kept, margin=-0.001)
    assert [each.verdict for each in broken_by({kept.id: kept}, {lost.id: lost}, "")] == [met.id]
    assert [each.verdict for each in touched_by({kept.id: kept}, {lost.id: lost}, "")] == [met.id]
    sound = replace(kept, kind="NC", margin=0.01, uncertainty=6.0)
    assert broken_by({sound.id: sound}, {sound.id: replace(sound, margin=-0.01)}, "") == ()


def test_room_that_is_short_already_is_never_made_shorter() -> None:
    width = verdicts_of(BUILD)["clear-width-quiet-room"]
    assert width.margin is not None
    short = edited(BUILD, ("shoulder_width: 600", f"shoulder_width: {600 + 1000 * width.margin + 33:.0f}"))
    before = verdicts_of(short)["clear-width-quiet-room"]
    assert before.verdict != "meets"
    answer = found(short)
    assert all(each.price.width < 0.001 for each in answer.steps)
    board = next(each for each in answer.refused if each.what == "one more board inside")
    assert [one.verdict for one in board.breaks] == ["clear-width-quiet-room"]
    assert verdicts_of(answer.text)["clear-width-quiet-room"].margin == pytest.approx(before.margin, abs=0.001)


def test_a_trifle_is_a_twentieth_of_the_doubt_or_half_a_percent_of_the_limit() -> None:
    known = verdicts_of(BUILD)["clear-width-quiet-room"]
    unsure = replace(known, verdict="unproven", margin=-0.03, uncertainty=0.02)
    assert known.limit is not None

    def breaks(first: Verdict, **changes: object) -> bool:
        return bool(broken_by({first.id: first}, {first.id: replace(first, **changes)}, ""))  # type: ignore[arg-type]

    assert not breaks(unsure, margin=-0.0309)
    assert breaks(unsure, margin=-0.0311)
    assert breaks(unsure, verdict="fails")
    sure = replace(unsure, verdict="fails", uncertainty=0.0)
    assert not breaks(sure, margin=-0.03 - 0.0049 * known.limit)
    assert breaks(sure, margin=-0.03 - 0.0051 * known.limit)
    assert not breaks(sure, margin=-0.01)


def test_a_longer_duct_without_price_and_mass_is_told_so_and_one_with_a_price_is_counted() -> None:
    prices = "prices:\n  currency: EUR\n  items:\n    - {of: fan, price: 90, per: piece}\n"
    duct = "    - {of: duct, size: 125, price: 30, per: m}\n"
    for text, told in ((AIRED, "no price in the file"), (AIRED + prices, "no price in the file: duct"),
                       (AIRED + prices + duct, "+15 EUR")):  # fmt: skip
        longer = text.replace("straight: 1000", "straight: 1500", 1)
        price = price_between(build_of(text), build_of(longer))
        assert price.unweighed
        assert price_text(price, build_of(text).costs.currency, "metric") == f"mass not known, {told}"
    slower = edited(AIRED, ("free_flow: 80 l/s", "free_flow: 70 l/s"))
    assert not price_between(build_of(AIRED), build_of(slower)).unweighed


def test_a_step_needs_the_earlier_ones_that_change_the_same_list_or_place() -> None:
    def step(*paths: str) -> QuietStep:
        edits = tuple(Edit("set", parse_path(each), "1") for each in paths)
        return QuietStep("", "", (), edits, "", 0.0, 0.0, 0.0, Price(), ())

    found = needs_of((
        step("surfaces.quiet_room.left.layers.2.cavity"),
        step("surfaces.quiet_room.right.layers.2.cavity"),
        step("surfaces.quiet_room.left.layers.0.thickness", "rooms.quiet_room.front"),
        step("rooms.quiet_room.rear"),
        step("openings.door.seals.rows"),
        step("surfaces.quiet_room.left.edge_gap"),
        step("rooms.quiet_room.front"),
        step("openings.door.seals"),
    ))  # fmt: skip
    assert [sorted(each) for each in found] == [[], [], [0], [], [], [], [0, 2], [4]]


def test_a_change_of_several_parts_is_named_part_by_part() -> None:
    assert named("MDF 12 mm; slower", "left; run supply") == "left: MDF 12 mm; run supply: slower"


def test_no_step_of_a_search_gains_less_than_half_a_decibel() -> None:
    loud = edited(BUILD, ("limit: 36 dB(A)", "limit: 1 dB(A)"))
    assert all(each.gain >= LEAST_GAIN for each in found(loud, rounds=1).steps)
