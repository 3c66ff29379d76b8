"""Impossible input of power is refused with the value shown."""

import math

import numpy as np
import pytest

from hushwright.errors import InvalidInput
from hushwright.physics.electrical.bank import bank_current, open_circuit_voltage, sagged_voltage, stored_energy
from hushwright.physics.electrical.bank_run import BankLaw, run_bank
from hushwright.physics.electrical.converter import loss_by_efficiencies, loss_by_points
from hushwright.physics.electrical.panels import cell_temperature, panel_power
from hushwright.physics.thermal.mean_day import (
    daily_extraterrestrial,
    mean_day_irradiance,
    monthly_diffuse_share,
    solar_declination,
    sun_of_mean_day,
    sunset_angle,
)

BANK = BankLaw(8, 200.0, 0.008, 0.995, 0.1, 1.0, 200.0, 100.0)
ONE = np.ones((2, 1))
TIMES = (np.arange(24) + 0.5) * 3600.0


def law(**changes: float) -> BankLaw:
    values = {name: getattr(BANK, name) for name in BANK.__dataclass_fields__}
    return BankLaw(**{**values, **changes})


REFUSED = [
    (lambda: open_circuit_voltage(1.2), "1.2"),
    (lambda: open_circuit_voltage([0.5, -0.1]), "-0.1"),
    (lambda: open_circuit_voltage(math.nan), "nan"),
    (lambda: stored_energy(0.5, 0, 100.0), "0"),
    (lambda: stored_energy(0.5, 8, -100.0), "-100"),
    (lambda: bank_current(-1e6, 26.0, 0.01), "1000000"),
    (lambda: bank_current(-1.0, 26.0, 0.0), "0.0"),
    (lambda: sagged_voltage(1e6, 26.0, 0.01), "1000000"),
    (lambda: run_bank(law(lowest_charge=0.9, highest_charge=0.2), np.ones(1), ONE, ONE, 300.0), "0.9 to 0.2"),
    (lambda: run_bank(law(charge_returned=1.5), np.ones(1), ONE, ONE, 300.0), "1.5"),
    (lambda: run_bank(law(resistance=-0.1), np.ones(1), ONE, ONE, 300.0), "-0.1"),
    (lambda: run_bank(BANK, np.array([1.5]), ONE, ONE, 300.0), "1.5"),
    (lambda: run_bank(BANK, np.ones(2), ONE, ONE, 300.0), "(2,)"),
    (lambda: run_bank(BANK, np.ones(1), ONE, ONE, 0.0), "0.0"),
    (lambda: loss_by_efficiencies(0.01, 0.8, 0.9), "0.8"),
    (lambda: loss_by_efficiencies(0.01, 1.0, 0.9), "1.0"),
    (lambda: loss_by_efficiencies(0.2, 0.97, 0.9), "0.2"),
    (lambda: loss_by_points(0.01, []), "[]"),
    (lambda: loss_by_points(0.01, [(0.5, 0.9), (0.5, 0.8)]), "0.5"),
    (lambda: loss_by_points(0.01, [(0.0, 0.9)]), "0.0"),
    (lambda: loss_by_points(0.01, [(0.5, 1.1)]), "1.1"),
    (lambda: cell_temperature(800.0, 20.0, -1.0), "-1.0"),
    (lambda: cell_temperature(800.0, 20.0, 1.0, "afloat"), "afloat"),  # type: ignore[arg-type]
    (lambda: panel_power(800.0, 20.0, 0.0, -0.003), "0.0"),
    (lambda: solar_declination(0.0), "0.0"),
    (lambda: sunset_angle(2.0, 0.1), "2.0"),
    (lambda: daily_extraterrestrial(0.9, 400.0), "400"),
    (lambda: sun_of_mean_day(0.9, 100.0, [math.inf]), "inf"),
    (lambda: monthly_diffuse_share(1.2, 1.5), "1.2"),
    (lambda: mean_day_irradiance(0.9, 344.0, 9e7, TIMES), "90000000"),
    (lambda: mean_day_irradiance(0.9, 344.0, -1.0, TIMES), "-1.0"),
]


@pytest.mark.parametrize(("call", "shown"), REFUSED, ids=[str(number) for number in range(len(REFUSED))])
def test_impossible_input_is_refused_with_its_value(call, shown):
    with pytest.raises(InvalidInput) as caught:
        call()
    assert shown in str(caught.value)


def test_a_day_without_sun_is_dark():
    sky = mean_day_irradiance(0.9, 344.0, 0.0, TIMES)
    assert not sky.global_horizontal.any()
    assert sunset_angle(math.radians(80.0), solar_declination(355.0)) == 0.0
    assert daily_extraterrestrial(math.radians(80.0), 355.0) == 0.0
    assert sunset_angle(math.radians(80.0), solar_declination(172.0)) == pytest.approx(math.pi)


def test_a_curve_goes_on_beyond_its_last_point():
    loss = loss_by_points(0.01, [(0.5, 0.92), (1.0, 0.88)])
    steepest = (float(loss.at(1.0)) - float(loss.at(0.5))) / 0.5
    assert float(loss.at(1.5)) == pytest.approx(float(loss.at(1.0)) + 0.5 * steepest)


def test_a_bank_below_its_window_gives_nothing_and_takes():
    run = run_bank(BANK, np.array([0.05]), np.array([[-100.0], [100.0]]), ONE, 300.0)
    assert run.current[0, 0] == 0.0
    assert run.current[1, 0] > 0.0
