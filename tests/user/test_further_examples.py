"""The hearing-screening van is judged by ISO 8253-1; the repair workshop without a quiet room by all the rest."""

import csv
from functools import lru_cache
from pathlib import Path

import pytest
from tests.coupled import build_of, edited, evaluation_of

from hushwright.document.read import read_document_text
from hushwright.library.read import read_library
from hushwright.model.resolve import resolve
from hushwright.verdicts.judge import judge
from hushwright.verdicts.verdict import Verdict

EXAMPLES = Path(__file__).parents[2] / "examples"
LIMITS = Path(__file__).parents[1] / "reference" / "tables" / "hearing_test_limits.csv"
HEARING, WORKSHOP = "hearing-screening-van", "repair-workshop-van"
NEW = (HEARING, WORKSHOP)
LIGHT = "{room: sleeping_room, intensity: 30 cd, rate: 1.5 Hz}"


def text_of(name: str) -> str:
    return (EXAMPLES / f"{name}.yaml").read_text(encoding="utf-8")


@lru_cache(maxsize=4)
def verdicts_of(text: str) -> dict[str, Verdict]:
    return {each.id: each for each in judge(evaluation_of(text))}


@pytest.mark.parametrize("name", NEW)
def test_the_reader_has_nothing_to_say_about_them(name: str) -> None:
    document, problems = read_document_text(text_of(name), f"{name}.yaml")
    assert document is not None
    _, more = resolve(document, read_library())
    assert [each.message for each in (*problems, *more) if each.severity != "note"] == []


@pytest.mark.parametrize("name", NEW)
def test_nothing_fails_in_them(name: str) -> None:
    assert [each.id for each in verdicts_of(text_of(name)).values() if each.verdict == "fails"] == []


def test_school_lessons_are_held_against_the_table_of_the_standard() -> None:
    # ISO 8253-1:2010, table 2 (tables/hearing_test_limits.csv), lowest test tone 250 Hz, third octaves.
    found = verdicts_of(text_of(HEARING))["background-school-yard-during-lessons-test"]
    with LIMITS.open(encoding="utf-8") as file:
        row = next(each for each in csv.DictReader(file) if each["id"] == "8253-1_air_250")
    heard = next(each for each in evaluation_of(text_of(HEARING)).backgrounds
                 if each.key == "school yard during lessons/test")  # fmt: skip
    printed = [value for key, value in row.items() if key.startswith("b_")]  # 31.5 Hz and up, third by third
    over = [level - float(value) for level, value in zip(heard.levels[1:], printed, strict=False) if value]
    assert len(over) == 25  # up to 8 kHz
    assert found.value == pytest.approx(max(over), abs=1e-9)
    assert found.limit == 0.0
    assert "ISO 8253-1" in found.basis


def test_a_kind_of_earphone_and_a_larger_error_let_more_noise_pass() -> None:
    found = verdicts_of(text_of(HEARING))
    strict = found["background-school-yard-during-lessons-test"]
    mild = found["background-school-yard-during-lessons-tones-from-500-hz-test"]
    assert strict.value is not None
    assert mild.value is not None
    assert mild.value < strict.value - 8.0  # ISO 8253-1:2010, table 2: 8 dB more where 5 dB of error is accepted


def test_a_van_without_a_quiet_room_says_why_quiet_is_not_judged() -> None:
    quiet = [each for each in verdicts_of(text_of(WORKSHOP)).values() if each.group in ("Quiet", "Mounts")]
    assert len(quiet) > 10
    for each in quiet:
        assert each.verdict == "not_applicable", each.id
        assert each.reason, each.id


def test_every_other_group_of_that_van_is_judged() -> None:
    found = verdicts_of(text_of(WORKSHOP)).values()
    groups = {each.group for each in verdicts_of(text_of(HEARING)).values()}
    judged = {each.group for each in found if each.verdict != "not_applicable"}
    assert judged == groups - {"Quiet", "Mounts"}


def test_two_sleepers_are_asked_for_air_and_an_alarm_that_wakes() -> None:
    found = verdicts_of(text_of(WORKSHOP))
    assert found["co2-steady-sleeping-room-night"].verdict == "meets"
    assert found["alarm-wakes-sleeping-room-night"].limit == 75.0  # NFPA 72, public copy: al06 of 08_life_safety_facts
    stopped = found["without-fan-sleeping-room-night"]
    assert stopped.limit == 3600.0
    assert "sleep" in stopped.hint


def test_nobody_is_woken_without_a_sounder() -> None:
    text = edited(text_of(WORKSHOP), ("    - {room: sleeping_room, level: 88 dB(A), tone: 970 Hz}\n", ""),
                  ("    - {room: workshop, level: 95 dB(A), tone: 970 Hz}\n", ""),
                  ("  sounders:\n", f"  visual_signals: [{LIGHT}]\n"))  # fmt: skip
    assert verdicts_of(text)["alarm-wakes-sleeping-room-night"].verdict == "fails"


def test_people_who_only_stand_there_are_no_sleepers() -> None:
    text = edited(text_of(WORKSHOP), ("number: 2, activity: resting", "number: 2, activity: seated"))
    assert not any(state.rest_in("sleeping_room") for state in build_of(text).states)
    found = verdicts_of(text)
    assert found["without-fan"].verdict == found["alarm-wakes"].verdict == "not_applicable"
