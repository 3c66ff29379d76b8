"""Moist air against the ASHRAE tables and examples."""

import csv
import re
from pathlib import Path

import pytest

from hushwright.physics.airflow import psychrometrics as moist

TABLE = Path(__file__).parent / "tables" / "04_psychrometrics_reference.csv"


def rows(quantity: str) -> list[dict[str, str]]:
    with TABLE.open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["quantity"] == quantity]


def temperature(row: dict[str, str]) -> float:
    return float(re.search(r"t=(-?\d+) C", row["condition"]).group(1))


@pytest.mark.parametrize("row", rows("saturation vapour pressure"), ids=lambda row: row["condition"])
def test_saturation_vapour_pressure(row):
    # ASHRAE Fundamentals 2017, ch. 1, table 3; at -60 °C the table itself has two digits
    tolerance = max(0.0003 * float(row["value"]), 0.005)
    assert moist.saturation_vapour_pressure(temperature(row)) == pytest.approx(float(row["value"]), abs=tolerance)


@pytest.mark.parametrize("row", rows("saturation humidity ratio"), ids=lambda row: row["condition"])
def test_saturation_humidity_ratio(row):
    # ASHRAE Fundamentals 2017, ch. 1, table 2: real gas, up to 1 % above the ideal one
    got = moist.humidity_ratio_at(temperature(row), 1.0)
    assert got == pytest.approx(float(row["value"]), rel=0.01)


@pytest.mark.parametrize("row", rows("saturated air enthalpy"), ids=lambda row: row["condition"])
def test_enthalpy_of_saturated_air(row):
    # ASHRAE Fundamentals 2017, ch. 1, table 2
    got = moist.moist_air_enthalpy(temperature(row), moist.humidity_ratio_at(temperature(row), 1.0))
    assert got == pytest.approx(float(row["value"]), rel=0.03)


def test_humidity_ratio_and_state_of_moist_air():
    # worked values after ASHRAE Fundamentals 2017, ch. 1
    ratio, wet, ice = (float(row["value"]) for row in rows("humidity ratio")[:3])
    assert moist.humidity_ratio(3169.7, 95461.0) == pytest.approx(ratio, rel=1e-6)
    assert moist.humidity_ratio_from_wet_bulb(30.0, 25.0, 95461.0) == pytest.approx(wet, rel=0.0003)
    assert moist.humidity_ratio_from_wet_bulb(-1.0, -5.0, 95461.0) == pytest.approx(ice, rel=0.0003)
    (enthalpy,), (volume,), (density,) = rows("moist air enthalpy"), rows("moist air volume"), rows("moist air density")
    assert moist.moist_air_enthalpy(30.0, 0.02) == pytest.approx(float(enthalpy["value"]), rel=0.0003)
    assert moist.moist_air_volume(30.0, 0.02, 95461.0) == pytest.approx(float(volume["value"]), rel=0.0003)
    assert moist.moist_air_density(30.0, 0.02, 95461.0) == pytest.approx(float(density["value"]), rel=0.0003)


@pytest.mark.parametrize("row", rows("standard pressure"), ids=lambda row: row["condition"])
def test_pressure_at_altitude(row):
    # ASHRAE Fundamentals 2017, ch. 1, table 1
    altitude = float(row["condition"].removesuffix(" m"))
    assert moist.pressure_at_altitude(altitude) == pytest.approx(float(row["value"]), abs=1.0)


def test_example_of_the_handbook():
    # ASHRAE Fundamentals 2017, ch. 1, example 1: 40 °C dry bulb, 20 °C wet bulb
    ratio = moist.humidity_ratio_from_wet_bulb(40.0, 20.0)
    vapour = moist.vapour_pressure_of(ratio)
    assert ratio == pytest.approx(0.0065, abs=0.0001)
    assert moist.dew_point_temperature(vapour) == pytest.approx(7.0, abs=0.5)
    assert moist.relative_humidity(ratio, 40.0) == pytest.approx(0.14, abs=0.01)
    assert moist.moist_air_enthalpy(40.0, ratio) == pytest.approx(56_700.0, abs=100.0)
    assert moist.moist_air_volume(40.0, ratio) == pytest.approx(0.896, rel=0.01)


def test_room_example():
    # room of 25 °C and 75 % at 100 kPa, class example (table rows "same room")
    vapour = 0.75 * moist.saturation_vapour_pressure(25.0)
    assert vapour / 1000.0 == pytest.approx(2.38, abs=0.01)
    assert 100.0 - vapour / 1000.0 == pytest.approx(97.62, abs=0.01)
    assert moist.humidity_ratio(vapour, 1e5) == pytest.approx(0.0152, abs=0.0001)


def test_sensible_heating_example():
    # 0.5 m³/s from 10 °C and 80 % to 30 °C (v = 0.81 m³/kg, h from 25.4 kJ/kg), which is air at 101 325 Pa
    ratio = moist.humidity_ratio_at(10.0, 0.8)
    cold, volume = moist.moist_air_enthalpy(10.0, ratio), moist.moist_air_volume(10.0, ratio)
    assert cold / 1000.0 == pytest.approx(25.4, abs=0.05)
    assert volume == pytest.approx(0.81, abs=0.005)
    load = 0.5 / volume * (moist.moist_air_enthalpy(30.0, ratio) - cold)
    assert load / 1000.0 == pytest.approx(12.53, abs=0.05)


def test_dew_point_of_half_saturated_air():
    # worked example gl03 after ISO 13788's own vapour curve: 9.27 °C
    assert moist.dew_point_temperature(0.5 * moist.saturation_vapour_pressure(20.0)) == pytest.approx(9.27, abs=0.02)
