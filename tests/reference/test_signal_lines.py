"""Laws of signal lines against published figures; each names where it was read."""

import pytest

from hushwright.physics.electrical.headphones import (
    HeadphoneBranch,
    amplifier_load,
    headphone_level,
    sensitivity_per_volt,
)
from hushwright.physics.electrical.signal_lines import (
    mutual_inductance,
    permitted_fill,
    rejected_voltage,
    roll_off_frequency,
    voltage_ratio_level,
)


def test_a_pickup_of_8_kilohms_on_1600_picofarads_rolls_off_at_12_4_kilohertz() -> None:
    """Found: a public page of electronic formulas, worked example of the roll-off of a cable of 20 ft at 80 pF/ft."""
    assert roll_off_frequency(8000.0, 20 * 80e-12) == pytest.approx(12_400.0, abs=50.0)


def test_90_decibels_at_37_millivolts_on_32_ohms_are_103_69_decibels_at_a_milliwatt() -> None:
    """Found: a public converter of headphone sensitivities, its first sample."""
    per_volt = sensitivity_per_volt(103.69, 32.0)
    assert headphone_level(per_volt, 0.037) == pytest.approx(90.0, abs=0.005)


@pytest.mark.parametrize(("impedance", "softer"), [(10.0, 6.0), (32.0, 2.4)])
def test_ten_ohms_in_the_source_make_a_headphone_softer(impedance: float, softer: float) -> None:
    """Found: a public discussion of voltage division, 6 dB at 10 Ω and 2.4 dB at 32 Ω."""
    load = amplifier_load(1.0, [HeadphoneBranch(impedance)], output_impedance=10.0)
    assert -voltage_ratio_level(load.headphone_voltages[0], 1.0) == pytest.approx(softer, abs=0.05)


def test_a_headphone_of_75_millivolts_makes_100_decibels_on_a_player_of_150() -> None:
    """EN 50332-2: 75 mV and 150 mV found; that 75 mV is the voltage of 94 dB is from memory."""
    per_volt = 94.0 - voltage_ratio_level(0.075, 1.0)
    assert headphone_level(per_volt, 0.150) == pytest.approx(100.0, abs=0.05)


@pytest.mark.parametrize(("number", "percent"), [(1, 53), (2, 31), (3, 40), (9, 40)])
def test_cables_fill_as_much_of_a_tube_as_the_code_lets_them(number: int, percent: int) -> None:
    """NEC, chapter 9, table 1: found on two public pages."""
    assert permitted_fill(number) == pytest.approx(percent / 100.0)


def test_a_wide_loop_beside_a_far_return_sees_the_field_of_one_wire() -> None:
    """Textbook (memory): 2 µT at 0.1 m from 1 A; a narrow loop of 1 m by 1 mm there links 2 nWb."""
    return_far_away = mutual_inductance(1.0, 1000.1, 2000.0, 0.001)
    assert return_far_away == pytest.approx(2e-6 * 0.001 * 1.0, rel=0.01)


def test_sixty_decibels_of_rejection_leave_a_thousandth() -> None:
    """Definition of the ratio, IEC 60268-3 (memory)."""
    assert rejected_voltage(2.0, 60.0) == pytest.approx(0.002)
