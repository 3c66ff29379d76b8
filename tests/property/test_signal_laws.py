"""Laws of lines and headphones that hold for every number."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hushwright.errors import InvalidInput
from hushwright.physics.electrical.headphones import HeadphoneBranch, amplifier_load
from hushwright.physics.electrical.signal_lines import (
    coupled_voltage,
    mutual_inductance,
    permitted_fill,
    rejected_voltage,
    roll_off_frequency,
)

OHMS = st.floats(1.0, 600.0)
BRANCHES = st.lists(st.builds(HeadphoneBranch, OHMS, st.integers(1, 6), st.floats(0.0, 5.0)), min_size=1, max_size=5)
LENGTHS = st.floats(0.1, 50.0)


@given(branches=BRANCHES, output=st.floats(0.0, 120.0))
def test_power_out_of_the_source_is_power_in_the_source_cables_and_headphones(branches, output) -> None:
    load = amplifier_load(2.0, branches, output_impedance=output)
    spent = load.current**2 * output
    for branch, voltage in zip(branches, load.headphone_voltages, strict=True):
        current = voltage / (branch.impedance / branch.number)
        spent += voltage * current + current**2 * branch.cable_resistance
    assert spent == pytest.approx(2.0 * load.current, rel=1e-9)


@given(branches=BRANCHES, output=st.floats(0.0, 120.0), more=OHMS)
def test_another_headphone_never_makes_the_others_louder(branches, output, more) -> None:
    before = amplifier_load(2.0, branches, output_impedance=output)
    after = amplifier_load(2.0, [*branches, HeadphoneBranch(more)], output_impedance=output)
    assert after.impedance < before.impedance
    assert all(
        now <= then * (1.0 + 1e-12)
        for now, then in zip(after.headphone_voltages, before.headphone_voltages, strict=False)
    )


@given(resistance=st.floats(1.0, 1e6), length=LENGTHS, longer=st.floats(1.0, 10.0))
def test_a_longer_cable_never_carries_more_treble(resistance, length, longer) -> None:
    near, far = (roll_off_frequency(resistance, 1e-10 * each) for each in (length, length * longer))
    assert far <= near
    assert far == pytest.approx(near / longer)


@given(length=LENGTHS, distance=st.floats(0.02, 2.0), farther=st.floats(1.01, 10.0), spacing=st.floats(0.001, 0.015))
def test_going_farther_from_power_always_helps(length, distance, farther, spacing) -> None:
    near, far = (mutual_inductance(length, each, spacing, 0.002) for each in (distance, distance * farther))
    assert 0.0 < far < near


@given(distance=st.floats(0.02, 2.0), one=st.floats(0.001, 0.015), other=st.floats(0.001, 0.015))
def test_two_pairs_see_each_other_alike(distance, one, other) -> None:
    first, second = mutual_inductance(1.0, distance, one, other), mutual_inductance(1.0, distance, other, one)
    assert first == pytest.approx(second, rel=1e-9)


@given(current=st.floats(0.0, 100.0), frequency=st.floats(0.0, 1e5), rejection=st.floats(0.0, 140.0))
def test_rejection_never_adds_hum(current, frequency, rejection) -> None:
    voltage = coupled_voltage(current, frequency, 1e-9)
    assert rejected_voltage(voltage, rejection) <= voltage


IMPOSSIBLE = {
    "no headphone": (lambda: amplifier_load(1.0, []), "no headphone"),
    "no voltage": (lambda: amplifier_load(0.0, [HeadphoneBranch(32.0)]), "0.0 V"),
    "a negative source": (lambda: amplifier_load(1.0, [HeadphoneBranch(32.0)], output_impedance=-1.0), "-1.0"),
    "a headphone of nothing": (lambda: HeadphoneBranch(0.0), "0.0"),
    "half a headphone": (lambda: HeadphoneBranch(32.0, 0), "number of headphones is 0"),
    "a source of nothing": (lambda: roll_off_frequency(0.0, 1e-9), "0.0"),
    "a negative cable": (lambda: roll_off_frequency(10.0, -1e-9), "-1e-09"),
    "cables on each other": (lambda: mutual_inductance(1.0, 0.005, 0.008, 0.002), "0.005"),
    "no cable": (lambda: permitted_fill(0), "number of cables is 0"),
    "a negative rejection": (lambda: rejected_voltage(1.0, -3.0), "-3.0"),
}


@pytest.mark.parametrize("case", IMPOSSIBLE)
def test_what_cannot_be_is_refused_with_its_value(case: str) -> None:
    call, shown = IMPOSSIBLE[case]
    with pytest.raises(InvalidInput, match=shown):
        call()


def test_a_cable_without_capacitance_carries_everything() -> None:
    assert roll_off_frequency(150.0, 0.0) == math.inf
