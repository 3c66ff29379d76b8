"""Power by hand: every expected number stands here as plain arithmetic and imports nothing of ours.

The voltage of the cells is that of tests/reference/tables/02_lfp_ocv_pseudo_C32.csv (found), typed again.
"""

import math

import pytest
from tests.coupled import edited
from tests.plain_builds import plain_build
from tests.powered import judged, power_of

ONE_LOAD = plain_build(
    "  power: {off_grid: 10 h}\n",
    "power:\n"
    "  bank: {voltage: 25.6 V, capacity: 100 Ah, lowest: 50 %, resistance: 8 mΩ, charge_returned: 99 %, own_draw: 0 W,"
    " temperature: 20 °C, discharge: 100 A, charge: 50 A}\n"
    "  converter: {rating: 1 kVA, idle: 10 W, best: 93 %, full: 88 %, on: with loads}\n"
    "  sources: {shore: {shore: 20 A, efficiency: 90 %, supply: 3 kVA, in_states: [standing]}}\n"
    "  loads: {lamps: {power: 100 W, states: [always]}}\n"
    "  day: [{state: record, begins: 8 h, duration: 15 h}]\n"
    "  days: 1\n",
)

# From the full cell to half: 1 → 0.995 → 0.9833 → 0.5 over the straight pieces of the table.
HALF_VOLTAGE = 3.2772 + (0.5 - 0.2972) / (0.9833 - 0.2972) * (3.3511 - 3.2772)
VOLT_SHARE = (
    0.005 * (3.5981 + 3.418) / 2 + 0.0117 * (3.418 + 3.3511) / 2 + 0.4833 * (3.3511 + HALF_VOLTAGE) / 2
)  # V of a cell times share of the capacity


def test_hours_off_grid_are_energy_over_power():
    watt_hours = 8 * 100.0 * VOLT_SHARE  # 1331 Wh
    current = 100.0 / (8 * VOLT_SHARE / 0.5)  # 3.76 A on the way
    lost = 0.008 * current**2  # 0.11 W
    expected = watt_hours / (100.0 + lost)
    found = judged(ONE_LOAD)["off-grid-bank"]
    assert found.value is not None
    assert found.value / 3600.0 == pytest.approx(expected, rel=5e-4)
    assert expected == pytest.approx(13.3, abs=0.05)


def test_a_bank_called_24_volts_under_a_converter_of_8_kilovoltamperes_is_asked_for_more_than_its_capacity_an_hour():
    """A 24 V bank of 230 Ah: 8 kW over 88 % at 26.4 V are 344 A, 1.5 times 230 A, and more as it sags."""
    text = edited(
        ONE_LOAD,
        ("voltage: 25.6 V, capacity: 100 Ah, lowest: 50 %, resistance: 8 mΩ", "voltage: 24 V, capacity: 230 Ah,"
         " lowest: 50 %, resistance: 4 mΩ"),
        ("discharge: 100 A", "discharge: 230 A"),
        ("rating: 1 kVA, idle: 10 W", "rating: 8 kVA, idle: 80 W"),
    )  # fmt: skip
    power, rest = 8000.0 / 0.88, 8 * HALF_VOLTAGE
    expected = (rest - math.sqrt(rest**2 - 4 * 0.004 * power)) / (2 * 0.004)
    found = judged(text)["bank-at-rating-converter"]
    assert found.value == pytest.approx(expected, rel=1e-4)
    assert found.value is not None
    assert found.value > 230.0
    assert found.verdict == "fails"
    assert f"{expected / 230.0:.2f} C" in found.hint


def test_voltage_under_a_start_is_what_the_resistance_leaves():
    text = edited(ONE_LOAD, ("lamps: {power: 100 W, states: [always]}", "pump: {power: 100 W, surge: 900 W}"))
    rest = 8 * HALF_VOLTAGE
    current = (rest - math.sqrt(rest**2 - 4 * 0.008 * 900.0)) / (2 * 0.008)
    found = judged(text)
    assert found["bank-start-loads"].value == pytest.approx(current, rel=1e-4)
    assert found["bank-voltage-loads"].value == pytest.approx(rest - 0.008 * current, rel=1e-4)


def test_shore_feeds_what_stands_still_and_fills_the_bank():
    """15 h of 100 W leave the bank; in the 9 h that stand, shore gives lamps and bank, 9 h · 512 W at most."""
    balance = power_of(ONE_LOAD).power.balance
    assert balance is not None
    lamps = next(each.energy for each in balance.loads if each.name == "lamps") / 3600.0
    # The bank is at half after 13.3 h; then the lamps go without until shore comes at 15 h.
    assert lamps == pytest.approx(2400.0 - (15.0 - 13.3) * 100.0, abs=10.0)
    shore = next(each.energy for each in balance.sources if each.name == "shore") / 3600.0
    lost = next(each.energy for each in balance.losses if each.name == "charger of shore") / 3600.0
    assert lost == pytest.approx(0.1 * shore, rel=1e-9)
    # Half of 100 Ah comes back at 99 %: 50.5 Ah at the mean voltage, and 9 h of lamps, less what 20 A can give.
    into_bank = min(50.0 / 0.99 * 8 * VOLT_SHARE / 0.5, 9.0 * (20.0 * 25.6 - 100.0))
    resistance = 0.008 * 15.6**2 * into_bank / 412.0  # about 15.6 A for 3.3 h
    assert 0.9 * shore == pytest.approx(900.0 + into_bank + resistance, rel=3e-3)
