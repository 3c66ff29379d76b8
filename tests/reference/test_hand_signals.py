"""Signals by hand: expected numbers are plain arithmetic from Ohm's law, the law of induction and the decibel."""

import math

import pytest
from tests.coupled import core_of, edited, value_of
from tests.unit.signal_cases import WIRED

RESISTIVITY = 17.241e-9  # Ω·m, IEC 60028 (memory)
CABLE = 2.0 * RESISTIVITY * 5.0 / 0.5e-6  # 5 m of two conductors of 0.5 mm²: 0.345 Ω


def test_six_headphones_load_their_amplifier() -> None:
    """Four of 250 Ω behind a cable, two of 80 Ω at the amplifier."""
    singers, desk = 250.0 / 4.0 + CABLE, 80.0 / 2.0
    assert value_of(WIRED, "headphone-load/desk") == pytest.approx(singers * desk / (singers + desk), rel=1e-6)


def test_a_singers_headphone_is_as_loud_as_the_divider_leaves_it() -> None:
    singers, desk = 250.0 / 4.0 + CABLE, 80.0 / 2.0
    load = singers * desk / (singers + desk)
    voltage = 2.0 * load / (10.0 + load) * (250.0 / 4.0) / singers
    level = 96.0 + 10.0 * math.log10(voltage**2 / 250.0 / 0.001)
    assert value_of(WIRED, "headphone-loud/singers") == pytest.approx(level, abs=1e-6)


def test_one_headphone_alone_is_louder_and_a_limiter_holds_it() -> None:
    alone = 2.0 * 250.0 / (10.0 + CABLE + 250.0)
    level = 96.0 + 10.0 * math.log10(alone**2 / 250.0 / 0.001)
    free = edited(WIRED, ("sensitivity: 96 dB, limiter: 95 dB(A)", "sensitivity: 96 dB"))
    assert value_of(free, "headphone-most/singers") == pytest.approx(level, abs=1e-6)
    assert value_of(WIRED, "headphone-most/singers") == 95.0


def test_a_microphone_line_rolls_off_by_its_own_capacitance() -> None:
    resistance = 150.0 + 2.0 * RESISTIVITY * 6.0 / 0.22e-6
    assert value_of(WIRED, "line-treble/tie_lines") == pytest.approx(
        1.0 / (2.0 * math.pi * resistance * 6.0 * 100e-12), rel=1e-6
    )


def test_a_converter_hums_in_a_line_beside_it() -> None:
    """30 A at 100 Hz through two wires 8 mm apart, 1 m beside two wires 2 mm apart, 0.3 m away; 40 dB of rejection."""
    linked = 2e-7 * math.log((0.3**2 - 0.003**2) / (0.3**2 - 0.005**2)) * 1.0
    voltage = 2.0 * math.pi * 100.0 * linked * 30.0 * 10.0 ** (-40.0 / 20.0)
    under = 20.0 * math.log10(0.002 / voltage)
    assert value_of(WIRED, "line-hum/tie_lines") == pytest.approx(under, abs=1e-6)


def test_two_earths_hum_by_the_voltage_between_them() -> None:
    """1 V between the earths, 40 dB of rejection, a line of 1.228 V: 42 dB; behind a transformer 102 dB."""
    joined = edited(WIRED, ("talkback,", "talkback, earths: [star, venue],"))
    parted = edited(WIRED, ("talkback,", "talkback, earths: [star, venue], isolated: yes,"))
    assert value_of(joined, "line-hum/talk") == pytest.approx(20.0 * math.log10(1.228) + 40.0, abs=1e-6)
    assert value_of(parted, "line-hum/talk") == pytest.approx(20.0 * math.log10(1.228) + 100.0, abs=1e-6)


def test_cables_fill_two_glands() -> None:
    """Six cables of 6 mm in two holes of 30 mm fill 12 %; three in a hole may fill 40 %: 30 % of what they may."""
    filled = 6.0 * 6.0**2 / (2.0 * 30.0**2)
    assert value_of(WIRED, "gland/glands") == pytest.approx(filled / 0.40)


def test_gear_is_as_much_louder_in_the_room_as_its_power() -> None:
    """20 dB more sound power is 20 dB more level, whatever the room does."""
    levels = [
        next(each.level for each in core_of(text).signals.gear[0].sources if each.name == "lamps")
        for power in (20, 40)
        for text in [edited(WIRED, ("frequency: 25 kHz", f"frequency: 1 kHz, sound_power: {power} dB(A)"))]
    ]
    assert levels[1] == pytest.approx((levels[0] or 0.0) + 20.0, abs=1e-6)
