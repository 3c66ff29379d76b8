"""The first look: answers, the build they become, and the word for each topic."""

import itertools
import math
from dataclasses import replace
from functools import cache

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from hushwright.document.edits import edited
from hushwright.document.read import read_document_text
from hushwright.evaluation.couple import couple_sound
from hushwright.evaluation.evaluate import evaluate_nominal
from hushwright.evaluation.sound.doubt import doubt_of
from hushwright.evaluation.sound.floor import floating_room
from hushwright.library.read import read_library
from hushwright.model.resolve import resolve
from hushwright.physics.air import Air
from hushwright.report.doubt_told import doubt_told
from hushwright.report.first_look import CAUTION, TRY, begin_with, first_look_page, topic_rows
from hushwright.search import mending
from hushwright.search.changes import places_of
from hushwright.search.chased import chased_as
from hushwright.search.comparing import build_from
from hushwright.search.first_look import HARD, TOPICS, FirstLook, Mend, first_look, resolved_start, topics_of
from hushwright.search.questions import WEIGHTS, Answers, questions, read_answers
from hushwright.search.starting_build import starting_build
from hushwright.search.starting_services import bank_energy
from hushwright.verdicts.check import slug

LIBRARY = read_library()


def answered(**typed: str) -> Answers:
    answers, problems = read_answers(typed, LIBRARY)
    assert answers is not None, problems
    return answers


@cache
def usual_look() -> FirstLook:
    """Look at the usual weight alone; it is the one that the whole look takes, and is not computed again."""
    look = whole_look()
    assert look.chosen.weight == "usual"
    return replace(look, answers=answered(weight="usual"), trials=(look.chosen,), no_quieter=())


@cache
def whole_look() -> FirstLook:
    return first_look(answered(), LIBRARY)


def errors_of(text: str) -> list[str]:
    document, problems = read_document_text(text, "first look")
    assert document is not None, problems
    _, further = resolve(document, LIBRARY)
    return [f"{each.place}: {each.note}" for each in (*problems, *further) if each.severity == "error"]


def test_every_question_can_be_left_to_its_usual_answer() -> None:
    answers = answered()
    assert (answers.use, answers.quiet_people, answers.outdoor_level, answers.quiet) == ("recording", 2, None, "")


def test_all_problems_of_the_answers_are_told_at_once() -> None:
    answers, problems = read_answers({"tallest": "9", "place": "kay", "crew": "many", "tallets": "1 m"}, LIBRARY)
    assert answers is None
    assert {each.place.path[0] for each in problems} == {"tallest", "place", "crew", "tallets"}
    assert any("tallest" in each.hint for each in problems if each.place.path == ("tallets",))


def test_answers_take_the_quantities_of_the_build_file() -> None:
    assert answered(tallest="6 ft 1 in").tallest == pytest.approx(1.8542)
    assert answered(hours="4 h 30 min").hours == pytest.approx(16200.0)
    assert answered(place="quay").place == "harbour quay"


@settings(max_examples=20, deadline=None, phases=[Phase.generate])  # shrinking a whole build takes minutes
@given(
    body=st.sampled_from(tuple(LIBRARY.records("body"))),
    use=st.sampled_from(questions(LIBRARY)[1].choices),
    weight=st.sampled_from(WEIGHTS),
    quiet=st.integers(0, 5),
    control=st.integers(0, 3),
    hottest=st.integers(15, 45),
    hours=st.integers(1, 20),
    latitude=st.integers(-60, 60),
)
def test_every_combination_of_answers_becomes_a_build_without_an_error(
    body: str, use: str, weight: str, quiet: int, control: int, hottest: int, hours: int, latitude: int
) -> None:
    answers = answered(
        body=body, use=use, quiet_people=str(quiet), control_people=str(control), hottest=f"{hottest} °C",
        hours=f"{hours} h", latitude=f"{latitude}°",
    )  # fmt: skip
    assert errors_of(starting_build(answers, weight, LIBRARY)) == []


@pytest.mark.parametrize("weight", WEIGHTS)
def test_pads_of_the_mounts_of_a_first_build_end_with_their_bearers(weight: str) -> None:
    for body in LIBRARY.records("body"):
        document, _ = read_document_text(starting_build(answered(body=body), weight, LIBRARY), "first.yaml")
        assert document is not None
        told = [each.reference for each in resolve(document, LIBRARY)[1]]
        assert "mount-beyond-bearer" not in told, body


def test_every_answer_changes_the_build() -> None:
    plain = answered(outdoor_level="60 dB(A)", quiet="30 dB(A)", weight="usual")
    others = {
        "body": "short medium roof, front drive", "use": "voice", "quiet_people": 3, "control_people": 2, "crew": 3,
        "tallest": 1.7, "place": "harbour quay", "outdoor_level": 55.0, "quiet": "NC 20", "latitude": 0.5,
        "hottest": 20.0, "hours": 3600.0, "gear": 500.0, "budget": (40000.0, "EUR"),
    }  # fmt: skip
    text = starting_build(plain, "usual", LIBRARY)
    for name, value in others.items():
        assert starting_build(replace(plain, **{name: value}), "usual", LIBRARY) != text, name
    assert starting_build(plain, "heavy", LIBRARY) != text


def test_the_bank_holds_what_is_asked_for_with_a_fifth_left() -> None:
    # 250 W of gear, 60 W of lamps and fans, half of a cooler's 520 W, for 4 h: 2280 Wh, over 0.8 (arithmetic).
    assert bank_energy(answered(gear="250 W", hours="4 h", hottest="30 °C")) == pytest.approx(2280.0 / 0.8 * 3600.0)


def test_each_topic_tells_its_worst_verdict() -> None:
    look = usual_look()
    assert [each.name for each in look.chosen.topics] == [name for name, _ in TOPICS]
    for each in look.chosen.topics:
        if each.worst is not None:
            word = {"meets": "feasible", "unproven": "tight", "fails": "not feasible", "not_applicable": "not asked"}[
                each.worst.verdict
            ]
            unlikely = word == "tight" and each.worst.chance is not None and each.worst.chance < HARD
            assert each.word == ("hard to reach" if unlikely else word)


def test_the_whole_is_as_good_as_its_worst_topic() -> None:
    words = [each.word for each in usual_look().chosen.topics]
    order = ("not feasible", "hard to reach", "tight", "feasible")
    assert usual_look().chosen.word == next(word for word in order if word in words)


def test_nothing_is_asked_of_topics_without_a_verdict() -> None:
    assert {each.word for each in topics_of(())} == {"not asked"}


def test_the_page_fits_a_sheet_and_names_every_topic_and_the_caution() -> None:
    page = first_look_page(usual_look(), "metric")
    lines = page.splitlines()
    assert len(lines) <= 62
    assert all(name in page for name, _ in TOPICS)
    assert " ".join(CAUTION.split()) in " ".join(page.split())


def test_the_page_in_us_units_has_no_metric_ones() -> None:
    page = first_look_page(usual_look(), "us")
    assert " kg" not in page
    assert " mm" not in page
    assert "°C" not in page


def test_the_range_of_the_quiet_says_its_best_guess_and_what_makes_it_wide() -> None:
    look = usual_look()
    told = doubt_told(look, "metric")
    worst = next(each.worst for each in look.chosen.topics if each.name == "quiet inside")
    assert worst is not None
    assert told.startswith(f"Best guess NC {worst.value:.0f} ±{2.0 * worst.uncertainty:.0f}.")
    (found,) = (each for each in look.evaluation.backgrounds if worst.id == f"background-{slug(each.key)}")
    doubt = doubt_of(found, look.evaluation.quantities[f"background/{found.key}"], look.evaluation.build)
    parts = (doubt.ways, doubt.places, doubt.vehicle, doubt.outdoors, doubt.inputs)
    assert math.hypot(*parts) == pytest.approx(worst.uncertainty, rel=1e-6)
    assert doubt.left_with_both < min(doubt.left_with_level, doubt.left_with_vans) < worst.uncertainty


@pytest.mark.parametrize(
    ("key", "typed", "taken"),
    [("tallest", "1,88", 1.88), ("budget", "60 000 EUR", (60000.0, "EUR")), ("budget", "€ 60 000,50", (60000.5, "EUR")),
     ("outdoor_level", "65", 65.0), ("gear", "1 200", 1200.0), ("hours", "4,5", 16200.0)],
)  # fmt: skip
def test_answers_are_taken_as_people_type_them(key: str, typed: str, taken: object) -> None:
    assert getattr(answered(**{key: typed}), key) == taken


@pytest.mark.parametrize(
    ("key", "typed", "told"),
    [("budget", "60.000 EUR", "60.000 can mean 60 or 60000: write 60 EUR or 60000 EUR"),
     ("budget", "60 000", "60 000 of which currency"), ("tallest", "9", "1200 mm to 2300 mm")],
)  # fmt: skip
def test_answers_that_can_mean_two_things_are_asked(key: str, typed: str, told: str) -> None:
    answers, (problem,) = read_answers({key: typed}, LIBRARY)
    assert answers is None
    assert told in problem.note


PLACES = tuple(LIBRARY.records("outdoors"))
BODIES = tuple(LIBRARY.records("body"))
SETS = tuple((body, people, PLACES[(at + people) % len(PLACES)])
             for at, body in enumerate(BODIES) for people in (1, 4))  # fmt: skip


@pytest.mark.parametrize(("body", "people", "place"), SETS)
@pytest.mark.parametrize("weight", ["light", "heavy"])
def test_every_mount_of_the_build_carries_enough_and_none_too_much(
    body: str, people: int, place: str, weight: str
) -> None:
    answers = answered(body=body, quiet_people=str(people), place=place)
    build = resolved_start(answers, weight, LIBRARY)[1]
    air = Air(build.brief.air_temperature)
    for state in build.states:
        found = floating_room(build, state, air)
        assert found is not None
        (group,) = build.mounts
        loads = [each.load for each in found.result.loads]
        fits = all(1.1 * group.lowest_load < load < 0.95 * group.highest_load for load in loads)
        assert fits or len(group.places) == 4, loads  # as few as a floor stands on: no number of them fits


@pytest.mark.parametrize(
    "typed", [{"use": "other"}, {"body": BODIES[0], "quiet_people": "6", "hottest": "38 °C", "weight": "light"}]
)
def test_no_verdict_fails_that_the_page_does_not_name(typed: dict[str, str]) -> None:
    look = first_look(answered(**typed), LIBRARY)
    told = {each.worst.id for each in look.chosen.topics if each.worst is not None}
    page = " ".join(first_look_page(look, "metric").split())
    failing = [each for each in look.verdicts if each.verdict == "fails" and each.id not in told]
    assert failing == list(look.chosen.beside)
    assert all(each.question in page for each in failing)


def test_the_usual_build_fails_in_nothing_that_its_topics_do_not_tell() -> None:
    assert usual_look().chosen.beside == ()


def test_the_usual_build_carries_an_extinguisher_and_a_kit_and_asks_what_rules_want() -> None:
    look = usual_look()
    one = next(each for each in look.verdicts if each.id == "equipment-aboard")
    assert (one.value, one.verdict) == (0.0, "unproven")
    assert "`safety.equipment_asked`" in one.hint
    assert {"fire extinguisher", "first aid kit"} <= {each.fitting for each in look.evaluation.build.masses}
    assert not {each.name for each in look.evaluation.cost.unpriced} & {"fire extinguisher", "first aid kit"}


def test_a_change_of_the_floor_takes_off_its_way_what_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    look = usual_look()
    worst = next(each.worst for each in look.chosen.topics if each.name == "quiet inside")
    assert worst is not None
    build = look.evaluation.build
    chased = chased_as(look.evaluation, worst.id)
    assert chased is not None
    floor = next(each for each in places_of(build, chased) if each.name == "surfaces.quiet_room.floor")
    pad = next(each for each in floor.changes if each.what.startswith("damping pad"))
    monkeypatch.setattr(mending, "places_of", lambda *_: (replace(floor, changes=(pad,)),))
    (found,) = mending.with_mends(look).mends
    assert found.part == "quiet room floor"
    assert found.share == floor.share
    assert found.changes[0][0] == "damping pad on all of the sheet"
    padded, _ = build_from(edited(look.text, pad.edits), "first look")
    assert padded is not None
    core = evaluate_nominal(build)[1]
    fall = look.evaluation.quantities[chased.key].value - couple_sound(padded, padded, core)[chased.key].value
    assert fall > 0.2  # of the octave that decides
    way = 1.0 - (1.0 - 10.0 ** (-fall / 10.0)) / floor.share
    assert 10.0 ** (-found.changes[0][1] / 10.0) == pytest.approx(way, abs=0.01)


def test_the_page_says_what_to_try_below_what_is_to_be_quieter() -> None:
    mends = (Mend("quiet room floor", 0.16, (("damping pad on all of the sheet", 3.4),)), Mend("run extract", 0.3, ()))
    look = replace(usual_look(), mends=mends)
    names = [name for name, _ in begin_with(look, "metric")]
    assert names[names.index("quiet inside") + 1] == TRY
    page = " ".join(first_look_page(look, "metric").split())
    assert "quiet room floor (16 %): damping pad on all of the sheet 3 dB" in page
    assert "run extract (30 %): none takes off 1 dB" in page


def test_what_is_unlikely_is_hard_to_reach_and_not_merely_tight() -> None:
    worst = next(each.worst for each in usual_look().chosen.topics if each.worst is not None)
    words = [topics_of((replace(worst, verdict="unproven", chance=chance),))[0].word for chance in (0.16, 0.34)]
    assert words == ["hard to reach", "tight"]


def test_a_heavier_room_that_is_no_quieter_is_explained_and_no_other() -> None:
    look = whole_look()
    quiet = {
        each.weight: next(
            one.worst.value for one in each.topics if one.name == "quiet inside" and one.worst is not None
        )
        for each in look.trials
    }
    expected = {
        (light, heavy)
        for light, heavy in itertools.pairwise(WEIGHTS)
        if float(quiet[heavy] or 0.0) > float(quiet[light] or 0.0) - 1.0
    }
    assert {(each.lighter, each.heavier) for each in look.no_quieter} == expected
    assert expected  # with the usual answers a fan and the floor decide
    page = " ".join(first_look_page(look, "metric").split())
    for one in look.no_quieter:
        assert f"The {one.heavier} room is no quieter than the {one.lighter} one" in page
        assert one.share_after < one.share_before
        assert one.ways
        assert all(each.change > -1.0 and each.name in page for each in one.ways)


def test_a_first_look_is_never_certain() -> None:
    worst = next(each.worst for each in usual_look().chosen.topics if each.name == "mass on the road")
    assert worst is not None
    for chance, told in ((1.0, "over 99 %"), (0.0, "under 1 %")):
        chosen = replace(usual_look().chosen, topics=topics_of((replace(worst, chance=chance),)))
        rows = topic_rows(replace(usual_look(), chosen=chosen), "metric")
        assert told in next(row[4] for row in rows if row[0] == "mass on the road")


def test_ways_out_that_do_not_serve_are_told_with_question_reason_and_hint() -> None:
    one = next(each for each in usual_look().verdicts if each.id == "ways-out-quiet-room")
    failing = replace(one, verdict="fails", value=1.0, chance=0.0, reason="the window is too small", hint="widen it")
    look = replace(usual_look(), chosen=replace(usual_look().chosen, topics=topics_of((failing,))))
    assert dict(begin_with(look, "metric"))["ways out"] == f"{one.question} the window is too small; widen it"
    row = next(row for row in topic_rows(look, "metric") if row[0] == "ways out")
    assert row[1:4] == ["not feasible", f"{one.counts}: 1", "at least 2"]


def test_a_van_without_a_quiet_room_has_its_ways_out() -> None:
    look = first_look(answered(use="other"), LIBRARY)
    assert next(each.word for each in look.chosen.topics if each.name == "ways out") == "feasible"


def test_a_level_from_a_meter_may_say_how_sure_it_is() -> None:
    for typed in ("70 ±1 dB(A)", "70 dB(A) ±1 dB", "70 +/- 1,0 dBA", "70 ±1"):
        answers = answered(outdoor_level=typed)
        assert (answers.outdoor_level, answers.level_within) == (70.0, 1.0), typed
    assert answered(outdoor_level="70 dB(A)").level_within is None
    answers, problems = read_answers({"outdoor_level": "170 ±1 dB(A)"}, LIBRARY)
    assert answers is None
    assert "20 dB(A) to 110 dB(A)" in problems[0].note


def test_a_typed_level_is_as_sure_as_a_meter_and_no_wider() -> None:
    spreads = []
    for typed in ("unknown", "70 dB(A)", "70 ±1 dB(A)"):
        _, build = resolved_start(answered(outdoor_level=typed, weight="usual"), "usual", LIBRARY)
        level = [each for each in build.inputs if each.path == "brief.outdoors.0.level"]
        spreads.append((build.brief.situations[0].level_uncertainty, *(each.standard_uncertainty for each in level)))
    assert spreads == [(5.0,), (1.0,), (0.0, 0.5)]  # 5 dB: the library's for a village square


def test_a_refused_answer_is_told_in_one_plain_sentence() -> None:
    _, problems = read_answers({"crew": "three", "budget": "much"}, LIBRARY)
    told = {each.place.path[0]: each for each in problems}
    assert told["crew"].note == "three is no whole number, like 2"
    assert not any(each.hint for each in problems)


def test_boards_of_a_first_build_are_usually_in_stock() -> None:
    for weight in WEIGHTS:
        _, build = resolved_start(answered(), weight, LIBRARY)
        for surface in (each for room in build.rooms for each in room.surfaces):
            for layer in surface.layers:
                stock = getattr(layer.record, "stock_thickness", ()) if layer.kind == "sheet" else ()
                assert not stock or any(abs(layer.thickness - each) < 1e-6 for each in stock), (surface, layer)
