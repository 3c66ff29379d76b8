"""What must hold of power whatever the numbers: energy is kept, more helps, finer steps change little."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.powered import case_of, followed
from tests.unit.power_cases import FED, but

from hushwright.evaluation.power.case import Powered
from hushwright.model.power_in_place import SolarInPlace
from hushwright.physics.electrical.bank import bank_current, sagged_voltage
from hushwright.physics.electrical.bank_run import BankLaw, run_bank

FEW = settings(max_examples=12, deadline=None)
MANY = settings(max_examples=40, deadline=None)
BANK = BankLaw(8, 100.0, 0.01, 0.99, 0.1, 1.0, 80.0, 40.0)
WANTING = but(("power: 300 W, surge: 600 W", "power: 700 W, surge: 700 W"))
LONGEST = 1e9


def loads_scaled(case: Powered, by: float) -> Powered:
    loads = tuple(replace(each, power=each.power * by) for each in case.power.loads)
    return replace(case, power=replace(case.power, loads=loads))


def sun_scaled(case: Powered, by: float) -> Powered:
    sources = tuple(replace(each, power=each.power * by) if isinstance(each, SolarInPlace) else each
                    for each in case.power.sources)  # fmt: skip
    return replace(case, power=replace(case.power, sources=sources))


def bank_with(case: Powered, **changes: float) -> Powered:
    assert case.power.bank is not None
    return replace(case, power=replace(case.power, bank=replace(case.power.bank, **changes)))


def hours(case: Powered) -> list[float]:
    return [LONGEST if each.off_grid is None else each.off_grid for each in followed(case).cases]


@MANY
@given(
    st.lists(st.floats(-3000.0, 3000.0), min_size=2, max_size=40),
    st.floats(0.1, 1.0),
    st.floats(0.9, 1.0),
    st.floats(0.001, 0.05),
)
def test_what_goes_into_a_bank_comes_out_is_lost_or_stays(wanted, start, returned, resistance):
    bank = replace(BANK, charge_returned=returned, resistance=resistance)
    power = np.array(wanted)[:, np.newaxis]
    run = run_bank(bank, np.array([start]), power, np.ones_like(power), 300.0)
    lost = run.resistance_loss + run.charge_loss
    change = run.stored[-1, 0] - run.stored[0, 0]
    moved = float(np.abs(run.power).sum()) * 300.0
    assert float((run.power - lost).sum()) * 300.0 == pytest.approx(change, abs=max(5e-3 * moved, 1.0))
    assert np.all(run.state_of_charge >= bank.lowest_charge - 1e-12)
    assert np.all(run.state_of_charge <= bank.highest_charge + 1e-12)
    assert np.all(run.current <= bank.charge_current + 1e-9)
    assert np.all(run.current >= -bank.discharge_current - 1e-9)
    # It never does more than is wanted of it, nor the other way round.
    assert np.all(run.power * power >= -1e-6)
    assert np.all(np.abs(run.power) <= np.abs(power) + 1e-6)


@MANY
@given(st.floats(1.0, 4000.0), st.floats(20.0, 60.0), st.floats(0.001, 0.02))
def test_current_and_sag_give_the_power_that_was_asked(power, rest, resistance):
    current = float(bank_current(-power, rest, resistance))
    voltage = sagged_voltage(power, rest, resistance)
    assert voltage < rest
    assert -current * voltage == pytest.approx(power, rel=1e-9)


@FEW
@given(st.floats(0.2, 3.0), st.floats(0.02, 4.0))
def test_energy_of_a_day_comes_in_goes_out_is_lost_or_stays(more_load, more_sun):
    found = followed(sun_scaled(loads_scaled(case_of(FED), more_load), more_sun)).balance
    came = sum(each.energy for each in found.sources)
    gone = sum(each.energy for each in (*found.loads, *found.losses))
    assert abs(found.difference) < 2e-3 * max(came, gone)
    assert all(each.energy >= -1e-6 for each in (*found.sources, *found.loads, *found.losses))
    # Every loss stands for itself: chargers by their efficiency.
    by_name = {each.name: each.energy for each in found.sources}
    lost = {each.name: each.energy for each in found.losses}
    assert lost["charger of panels"] == pytest.approx((1.0 - 0.96) * by_name["panels"], rel=1e-9, abs=1e-6)


@FEW
@given(st.floats(0.02, 3.0), st.floats(1.0, 3.0))
def test_more_sun_never_gives_fewer_hours(sun, more):
    case = case_of(WANTING)
    less, longer = hours(sun_scaled(case, sun)), hours(sun_scaled(case, sun * more))
    assert all(b >= a - 1e-6 for a, b in zip(less, longer, strict=True))


@FEW
@given(st.floats(0.5, 2.0), st.floats(1.0, 2.0))
def test_more_load_never_gives_more_hours_and_a_larger_bank_never_fewer(load, more):
    case = loads_scaled(case_of(WANTING), load)
    here = hours(case)
    assert case.power.bank is not None
    capacity = case.power.bank.capacity
    assert all(b <= a + 1e-6 for a, b in zip(here, hours(loads_scaled(case, more)), strict=True))
    assert all(b >= a - 1e-6 for a, b in zip(here, hours(bank_with(case, capacity=capacity * more)), strict=True))


@FEW
@given(st.floats(0.004, 0.02), st.floats(1.0, 3.0))
def test_more_resistance_never_gives_more_hours(resistance, more):
    case = case_of(WANTING)
    better, worse = (hours(bank_with(case, resistance=each)) for each in (resistance, resistance * more))
    assert all(b <= a + 1e-6 for a, b in zip(better, worse, strict=True))


# It runs empty in use; at rest, with 5 W, a thousandth of the bank would be a quarter of an hour.
EMPTIED = but(("power: 300 W, surge: 600 W", "power: 950 W, surge: 950 W"))


@pytest.mark.parametrize("text", [FED, EMPTIED], ids=["fed", "emptied"])
def test_halving_the_step_changes_a_day_by_less_than_half_a_percent(text):
    case = case_of(text)
    coarse, fine = followed(case), followed(replace(case, step=case.step / 2.0))
    came = [sum(each.energy for each in found.balance.sources) for found in (coarse, fine)]
    assert came[1] == pytest.approx(came[0], rel=5e-3)
    for one, other in zip(coarse.cases, fine.cases, strict=True):
        assert other.lowest_charge == pytest.approx(one.lowest_charge, rel=5e-3)
        if one.off_grid is not None:
            assert other.off_grid == pytest.approx(one.off_grid, rel=5e-3)


def test_any_number_of_days_repeats_once_the_bank_has_settled():
    """Three days and thirty differ in nothing but their number once mornings begin alike."""
    case = case_of(FED)
    few, many = (followed(replace(case, power=replace(case.power, days=days))) for days in (3, 30))
    for one, other in zip(few.cases, many.cases, strict=True):
        assert other.lowest_charge == pytest.approx(one.lowest_charge, abs=2e-3)
