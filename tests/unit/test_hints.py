"""Every verdict that does not meet says what to do or to measure; an amount that is told is enough."""

import re
from functools import lru_cache
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.coupled import DEMO, build_of, edited

from hushwright.evaluation.evaluate import evaluate_nominal
from hushwright.evaluation.results import Contribution, Evaluation, PathLevel, Quantity
from hushwright.report.units_out import restated
from hushwright.verdicts.hints import CLEAR_UP, Judged, difference, hint_of, measured
from hushwright.verdicts.judge import judge
from hushwright.verdicts.quiet import what_to_quieten
from hushwright.verdicts.verdict import Verdict

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.yaml"))
VERBS = re.compile(
    r"(add|anchor|ask|begin|bring|carry|clear|cool|cover|draw|find|fix|give|hang|have|heat|hold|join|keep|lay|lead|let"
    r"|list|look|lower|measure|move|name|open|part|point|put|quieten|raise|save|seal|set|shorten|space|start|stop|take"
    r"|turn|type|use|widen) "
)
"""What a hint may begin with."""


@lru_cache(maxsize=4)
def judged_in_part(text: str) -> dict[str, Verdict]:
    """Verdicts without the shares of the inputs, which add a hint and take none."""
    evaluation: Evaluation = evaluate_nominal(build_of(text))[0]
    return {each.id: each for each in judge(evaluation, provisional=True)}


def begins_with_a_verb(each: Verdict) -> bool:
    return VERBS.match(each.hint) is not None


def unmet(verdicts: tuple[Verdict, ...]) -> list[Verdict]:
    return [each for each in verdicts if each.verdict in ("fails", "unproven")]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_what_does_not_meet_in_an_example_says_what_to_do(path: Path) -> None:
    found = unmet(tuple(judged_in_part(path.read_text(encoding="utf-8")).values()))
    assert found
    assert {each.id: each.hint for each in found if not begins_with_a_verb(each)} == {}
    assert not [each.id for each in found if "{" in each.hint]


SPOILT: dict[str, tuple[tuple[str, str], ...]] = {
    "targets": (
        ("tallest: 1800", "tallest: 2000"),
        ("carbon_dioxide: 1400 ppm, fresh_air: 7 l/s, humidity: 70 %, draught: 20 %, terminal_speed: 1.8 m/s,"
         " without_fan: 10 min, fans_alone: NC 20",
         "carbon_dioxide: 700 ppm, fresh_air: 20 l/s, humidity: 40 %, draught: 3 %, terminal_speed: 0.2 m/s,"
         " without_fan: 90 min, fans_alone: NC 5"),
        ("warmest: 27 °C, coldest: 18 °C, without_cooler: 4 min, surface_humidity: 80 %, water_in_walls: 0.5 kg/m2",
         "warmest: 24 °C, coldest: 24 °C, without_cooler: 60 min, surface_humidity: 40 %, water_in_walls: 0.01 kg/m2"),
        ("total: 58000", "total: 20000"),
        ("listening: 85 dB(A), ceiling: 100 dB(A), hum: 60 dB, treble: 20 kHz, gear: 20 dB(A)",
         "listening: 95 dB(A), ceiling: 70 dB(A), hum: 135 dB, treble: 90 kHz, gear: 2 dB(A)"),
        ("off_grid: 7 h, unmet: 0 Wh, reserve: 10 %", "off_grid: 70 h, unmet: 0 Wh, reserve: 75 %"),
    ),
    "parts": (
        ("capacity: 200 Ah", "capacity: 40 Ah"),
        ("discharge: 200 A, surge: 400 A, charge: 100 A", "discharge: 30 A, surge: 40 A, charge: 30 A"),
        ("fuse: 250 A}", "fuse: 20 A}"),
        ("rating: 2 kVA, surge: 4 kVA, idle: 16 W", "rating: 0.4 kVA, surge: 0.5 kVA, idle: 3 W"),
        ("supply: 3.6 kVA", "supply: 0.5 kVA"),
        ("wanted: 48 l/s", "wanted: 150 l/s"),
        ("front: 1850 kg, rear: 2250 kg", "front: 1250 kg, rear: 1250 kg"),
        ("total: 3500 kg", "total: 2500 kg"),
        ("desk_underside: 690", "desk_underside: 560"),
        ("from_skin: 150, warmest: 35 °C, coldest: 4 °C", "from_skin: 20, warmest: 55 °C, coldest: -14 °C"),
        ("found_within: 15 min", "found_within: 8 h"),
        ("cable: 20 m, longest_cable", "cable: 70 m, longest_cable"),
        ("slope: 1.5°", "slope: 6°"),
        ("generator_distance: 12 m", "generator_distance: 2 m"),
        ("area: 2.5 mm2, fuse: {rating: 10 A", "area: 0.5 mm2, fuse: {rating: 40 A"),
    ),
}  # fmt: skip


@pytest.mark.parametrize(("which", "least"), [("targets", 20), ("parts", 20)])
def test_a_spoilt_build_says_what_to_do_everywhere(which: str, least: int) -> None:
    found = unmet(tuple(judged_in_part(edited(DEMO, *SPOILT[which])).values()))
    assert len(found) >= least
    assert {each.id: each.hint for each in found if not begins_with_a_verb(each)} == {}
    assert not [each.id for each in found if "{" in each.hint]


DRAFT = next(path for path in EXAMPLES if "draft" in path.name).read_text(encoding="utf-8")


def told(verdict: Verdict, pattern: str) -> float:
    """The amount in a hint of a verdict that fails."""
    assert verdict.verdict == "fails"
    match = re.search(pattern, verdict.hint)
    assert match is not None, verdict.hint
    return float(match.group(1))


def test_what_hints_ask_for_is_enough() -> None:
    before = judged_in_part(DRAFT)
    copper = told(before["voltage-drop-quiet-feed"], r"take a conductor of ([\d.]+) mm² or more")
    moved = told(before["detector-place-smoke-control-room"], r"move it (\d+) mm away")
    raised = told(before["knee-room-seat"], r"raise the underside of the desk by (\d+) mm")
    after = judged_in_part(edited(
        DRAFT,
        ("route: quiet_lead, area: 1 mm2", f"route: quiet_lead, area: {copper:g} mm2"),
        ("from_edge: 100", f"from_edge: {100 + moved:g}"), ("desk_underside: 600", f"desk_underside: {600 + raised:g}"),
    ))  # fmt: skip
    for name in ("voltage-drop-quiet-feed", "detector-place-smoke-control-room", "knee-room-seat"):
        assert after.get(name) is None or after[name].verdict == "meets", name


def test_the_bank_that_a_hint_asks_for_lasts() -> None:
    small = edited(DEMO, ("capacity: 200 Ah", "capacity: 70 Ah"))
    wanted = told(judged_in_part(small)["off-grid-bank"], r"take a bank of (\d+) Ah instead of 70 Ah")
    larger = edited(DEMO, ("capacity: 200 Ah", f"capacity: {wanted:g} Ah"))
    assert judged_in_part(larger)["off-grid-bank"].verdict == "meets"


QUANTITY = Quantity(10.0, "length", 0.0, (Contribution("rooms.quiet.front", "front of the room", 1.0),))


def test_a_margin_on_the_good_side_is_measured_first_and_one_on_the_bad_side_after() -> None:
    good = hint_of(Judged("take {short} off", QUANTITY, 11.0, "at_most", "rooms"), "unproven", 1.0)
    bad = hint_of(Judged("take {short} off", QUANTITY, 9.0, "at_most", "rooms"), "unproven", -1.0)
    assert good == f"{measured(QUANTITY)}; take 1000 mm off"
    assert bad == f"take 3000 mm off; {measured(QUANTITY)}"


def test_what_nobody_says_is_asked_for_and_amounts_are_left_out() -> None:
    unknown = Quantity(0.0, "length", known=False)
    assert hint_of(Judged("take {short} off", unknown, 1.0, "at_most", "rooms.a"), "unproven", None) == (
        "find out and type `rooms.a`"
    )
    doubtful = hint_of(Judged("take {short} off", QUANTITY, 13.0, "at_most", "rooms"), "unproven", 3.0)
    assert doubtful == CLEAR_UP


@given(st.floats(0.0, 1e4), st.sampled_from(["level", "temperature", "length", "mass"]))
def test_an_amount_that_is_told_is_never_too_small(value: float, kind: str) -> None:
    number, unit = difference(value, kind).split()
    assert float(number) * {"mm": 1e-3}.get(unit, 1.0) >= value * 0.9995 - 1e-3


def test_doubt_is_told_in_units_that_every_system_can_say() -> None:
    warm = Quantity(300.0, "temperature", 1.4, (Contribution("climate.hottest", "hottest day", 0.6),))
    told = measured(warm)
    assert "takes 2.8 K of the 3.1 K of doubt" in told
    assert "takes 5.04 °F of the 5.58 °F of doubt" in restated(told, "us")
    assert restated(difference(2.0, "temperature"), "us") == "3.6 °F"


def test_ways_are_quietened_by_what_would_do_and_by_what_is_sure() -> None:
    silence = (0.0,) * 27
    duct, wall = (PathLevel(name, silence, silence, 0.0, share, "") for name, share in (("duct", 0.8), ("wall", 0.2)))
    level = Quantity(33.0, "level_a", 1.0)
    told = what_to_quieten((duct, wall), 3.0, level)
    assert told.startswith("quieten by 5 dB, by 9 dB to be sure of it (its doubt is ±2.0 dB): duct; begin")
    for by, over in ((5.0, 3.0), (9.0, 5.0)):  # the sum falls far enough, and would not with a decibel less
        assert 0.8 * 10.0 ** (-by / 10.0) + 0.2 <= 10.0 ** (-over / 10.0) < 0.8 * 10.0 ** (-(by - 1.0) / 10.0) + 0.2
    assert what_to_quieten((duct, wall), 5.0, level).startswith(
        "quieten by 9 dB: duct; to be sure of it (its doubt is ±2.0 dB) by 7 dB each: duct, wall; begin with"
    )
    told = what_to_quieten((duct, wall), -1.0, level)
    assert told.startswith("quieten by 2 dB to be sure of it (its doubt is ±2.0 dB): duct; begin with")
    assert what_to_quieten((duct, wall), -3.0, level).startswith("begin with")


def test_fans_alone_name_the_ways_into_the_quiet_room_not_the_ends_in_other_rooms() -> None:
    hint = judged_in_part(DEMO)["fans-alone-record"].hint
    assert "fan of extract" in hint
    assert "outlet of fresh air" not in hint  # it blows into the control room
