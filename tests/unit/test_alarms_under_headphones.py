"""An alarm has to reach people who listen on headphones: over what they hear there, or as a light."""

import math

import pytest
from tests.coupled import core_of, edited, verdicts_of
from tests.unit.signal_cases import WIRED

from hushwright.evaluation.results.safety import AlarmInRoom

SOUNDER = "  sounders: [{{room: quiet_room, level: {level} dB(A), tone: 1 kHz}}]\n"
LIGHT = "  visual_signals: [{room: quiet_room, intensity: 75 cd, rate: 1.5 Hz}]\n"
TAKEN_OFF = ("sensitivity: 96 dB, limiter: 95 dB(A)", "sensitivity: 96 dB, limiter: 95 dB(A), attenuation: 20 dB")


def warned(level: float = 90.0, light: str = "", *changes: tuple[str, str]) -> str:
    safety = f"safety:\n{SOUNDER.format(level=level)}{light}states:\n"
    return edited(WIRED, ("states:\n", safety), *changes)


def alarm(text: str) -> AlarmInRoom:
    return next(each for each in core_of(text).safety.alarms if each.room == "quiet_room")


def test_headphones_mask_an_alarm_that_fills_a_silent_room() -> None:
    found = alarm(warned(80.0))
    assert found.worn == 85.0  # library: level at the ear while listening
    assert found.margin > 0.0
    assert found.margin_worn is not None
    assert found.margin_worn < 0.0 < found.margin - found.margin_worn


def test_softer_listening_leaves_as_much_more_of_the_alarm() -> None:
    loud = alarm(warned())
    soft = alarm(warned(90.0, "", ("brief:\n", "brief:\n  signals: {listening: 75 dB(A)}\n")))
    assert soft.worn == 75.0
    # Nothing but the programme masks in this silent room: 10 dB less of it are 10 dB more of margin.
    assert loud.margin_worn is not None
    assert soft.margin_worn is not None
    assert soft.margin_worn - loud.margin_worn == pytest.approx(10.0, abs=0.1)


def test_what_headphones_take_off_is_taken_off_the_alarm() -> None:
    usual, closed = alarm(warned()), alarm(warned(90.0, "", TAKEN_OFF))
    assert usual.margin_worn is not None
    assert closed.margin_worn is not None
    assert usual.margin_worn - closed.margin_worn == pytest.approx(20.0 - 10.0, abs=0.1)
    assert usual.margin == closed.margin


def test_the_rule_by_hand() -> None:
    """ISO 7731 (memory): a third of the tone 13 dB over the masked threshold of pink noise, equal in every band."""
    found = alarm(warned())
    low = (-44.7, -39.4, -34.6, -30.2, -26.2, -22.5, -19.1, -16.1, -13.4, -10.9, -8.6, -6.6, -4.8, -3.2, -1.9, -0.8)
    high = (0.0, 0.6, 1.0, 1.2, 1.3, 1.2, 1.0, 0.5, -0.1, -1.1, -2.5)  # IEC 61672-1, A, 25 Hz to 10 kHz
    weights = (*low, *high)
    third = 85.0 - 10.0 * math.log10(sum(10.0 ** (each / 10.0) for each in weights))
    assert found.margin_worn == pytest.approx(found.level - 10.0 - third - 13.0, abs=0.5)


def test_a_room_with_headphones_needs_a_light_and_one_without_does_not() -> None:
    key = "alarm-noticed-quiet-room-record"
    dark = verdicts_of(warned())[key]
    assert dark.verdict == "fails"
    assert dark.hint.startswith("put a light")
    assert "with headphones on" in dark.hint
    assert verdicts_of(warned(90.0, LIGHT))[key].verdict == "meets"
    elsewhere = warned(90.0, "", ("singers: {room: quiet_room,", "singers: {room: outdoors,"),
                       ("phones: {kind: headphone, comes_from: control_room, goes_to: quiet_room,",
                        "phones: {kind: headphone, comes_from: control_room, goes_to: outdoors,"))  # fmt: skip
    assert alarm(elsewhere).worn is None
    assert key not in verdicts_of(elsewhere)


def test_a_sounder_loud_enough_is_heard_under_headphones() -> None:
    found = verdicts_of(warned(125.0))["alarm-noticed-quiet-room-record"]
    assert found.verdict == "meets"
    assert found.kind == "margin"
