"""Safety worked by hand: plain arithmetic, nothing of ours in the expected numbers."""

import math

import pytest
from tests.coupled import core_of, edited, value_of
from tests.plain_builds import ONE_LEAF, two_rooms
from tests.unit.safety_cases import SAFE

PRELOAD = 160.0 * (1.62 + 0.62)  # N: two rows of 80 N/m, moments of four sides over the width of the leaf


def test_a_lock_carries_the_seals_and_a_push_by_hand() -> None:
    assert value_of(SAFE, "lock-holds/room_door") == pytest.approx(PRELOAD + 400.0 * 0.9, rel=1e-3)


def test_a_keep_carries_the_seals_and_half_the_inertia_by_hand() -> None:
    mass = 20.0 * 0.68 * 1.65  # 4 mm of 5000 kg/m3; two rows of seals take 30 mm of the frame
    assert value_of(SAFE, "keep-holds/room_door") == pytest.approx(PRELOAD + 10.0 * 9.80665 * mass / 2.0, rel=1e-3)


def test_three_hours_of_84_are_79_7_over_a_day() -> None:
    assert value_of(SAFE, "dose/singer") == pytest.approx(84.0 + 10.0 * math.log10(3.0 / 8.0), abs=0.01)


def test_the_trade_of_osha_is_five_decibels() -> None:
    text = edited(SAFE, ("  exposures:\n", "  noise_rule: OSHA\n  exposures:\n"))
    # Dose of 84 dB(A) for 3 h: 3 h over 8·2^(6/5) h; TWA = 16.61 lg D + 90 (29 CFR 1910.95, appendix A, found).
    dose = 3.0 / (8.0 * 2.0 ** (6.0 / 5.0))
    assert value_of(text, "dose/singer") == pytest.approx(16.61 * math.log10(dose) + 90.0, abs=0.01)


def test_an_exhaust_is_as_far_as_a_tape_says() -> None:
    assert value_of(SAFE, "exhaust/heater") == pytest.approx(math.sqrt(2.0**2 + 1.8**2 + 0.6**2), abs=1e-6)


def test_the_hatch_passes_a_body_of_24_by_17_inches() -> None:
    assert value_of(SAFE, "way-clear/hatch") == pytest.approx(min(0.7 / 0.610, 0.5 / 0.432))


def test_the_time_to_be_found_is_that_of_the_air() -> None:
    crowded = edited(SAFE, ("people: {quiet_room: 1}", "people: {quiet_room: 10}"))
    state = core_of(crowded).air.state("record")
    assert state is not None
    assert value_of(crowded, "found/quiet_room/record") == dict(state.rooms[0].without_fan)[30_000e-6]


def through(leaf: str, sounder: str = "level: 90 dB(A), tone: 1 kHz") -> float:
    """Level of the control room's sounder in the quiet room."""
    text = edited(
        two_rooms(rest=f"safety:\n  sounders: [{{room: control_room, {sounder}}}]\n", front=leaf),
        ("people: {quiet_room: 0, control_room: 0}", "people: {quiet_room: 1}"),
    )
    return next(each.level for each in core_of(text).safety.alarms if each.room == "quiet_room")


def test_twice_the_mass_between_takes_six_decibels_off_the_alarm() -> None:
    # Mass law: 20 lg 2. The absorption of both rooms hardly changes with the leaf.
    heavier = ONE_LEAF.replace("thickness: 1}", "thickness: 2}")
    assert through(ONE_LEAF) - through(heavier) == pytest.approx(20.0 * math.log10(2.0), abs=1.0)


def test_the_same_level_twice_as_far_is_six_decibels_more() -> None:
    near, far = (through(ONE_LEAF, f"level: 90 dB(A), distance: {at} m, tone: 1 kHz") for at in (1, 2))
    assert far - near == pytest.approx(20.0 * math.log10(2.0), abs=0.01)
