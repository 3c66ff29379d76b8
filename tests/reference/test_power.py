"""Bank, converter, panels and the sun of a mean day against published values and a second program."""

import csv
import math
from pathlib import Path

import numpy as np
import pytest
from pvlib import inverter, irradiance, pvsystem, solarposition, temperature

from hushwright.physics.electrical.bank import open_circuit_voltage, stored_energy
from hushwright.physics.electrical.converter import loss_by_efficiencies, loss_by_points
from hushwright.physics.electrical.panels import cell_temperature, panel_power
from hushwright.physics.thermal.exposure import surface_irradiance
from hushwright.physics.thermal.mean_day import (
    MEAN_DAYS,
    daily_extraterrestrial,
    mean_day_irradiance,
    monthly_diffuse_share,
    solar_declination,
    sun_of_mean_day,
    sunset_angle,
)
from hushwright.physics.thermal.sun import SkyIrradiance, SunPosition

TABLES = Path(__file__).parent / "tables"
TIMES = (np.arange(288) + 0.5) * 300.0
KILOWATT_HOUR = 3.6e6


def rows(name):
    with (TABLES / name).open(encoding="utf-8", newline="") as handle:
        return list(csv.DictReader(handle))


# Sunil, Pattipati and Balasingam, IEEE TIM 2025: break points of a pseudo open-circuit voltage at C/32 (found).
@pytest.mark.parametrize("row", rows("02_lfp_ocv_pseudo_C32.csv"), ids=lambda row: row["soc"])
def test_voltage_of_a_cell_at_rest_is_the_published_one(row):
    found = float(open_circuit_voltage(float(row["soc"])))
    assert found == pytest.approx(float(row["ocv_cell_V"]), abs=5e-5)
    # The table's banks of four cells are four times the cell, to its printed digit.
    assert 4.0 * found == pytest.approx(float(row["ocv_4s_V"]), abs=6e-4)


def test_energy_of_a_bank_is_the_area_under_the_published_voltage():
    """Trapezoids over the rows of the same table, in plain arithmetic."""
    table = [(float(row["soc"]), float(row["ocv_cell_V"])) for row in rows("02_lfp_ocv_pseudo_C32.csv")]
    area = sum((b[0] - a[0]) * (a[1] + b[1]) / 2.0 for a, b in zip(table, table[1:], strict=False))
    assert float(stored_energy(1.0, 8, 200.0)) == pytest.approx(8 * 200.0 * 3600.0 * area, rel=1e-9)


SOLAR = {row["id"]: row for row in rows("03_solar_facts.csv")}


def test_cells_in_the_open_are_as_warm_as_the_published_model_says():
    # King et al. 2004 as in row so04 (found): 900 W/m², 20 °C, 5 m/s.
    found = float(cell_temperature(900.0, 20.0, 5.0, "in the open"))
    assert found == pytest.approx(float(SOLAR["so04"]["value"]), abs=5e-4)


@pytest.mark.parametrize("wind", [0.0, 2.0, 8.0])
def test_cells_close_to_a_roof_are_as_warm_as_another_program_says(wind):
    model = temperature.TEMPERATURE_MODEL_PARAMETERS["sapm"]["close_mount_glass_glass"]
    expected = temperature.sapm_cell(np.array([100.0, 700.0, 1000.0]), 25.0, wind, **model)
    assert cell_temperature([100.0, 700.0, 1000.0], 25.0, wind) == pytest.approx(expected, rel=1e-12)


def test_power_of_panels_is_the_published_one():
    # Dobos 2014, row so10 (memory, high; a test value of the program used below).
    assert float(panel_power(900.0, 30.0, 100.0, -0.003)) == pytest.approx(float(SOLAR["so10"]["value"]), abs=5e-3)
    light, cells = np.array([50.0, 400.0, 1100.0]), np.array([5.0, 40.0, 75.0])
    assert panel_power(light, cells, 430.0, -0.0038) == pytest.approx(
        pvsystem.pvwatts_dc(light, cells, 430.0, -0.0038), rel=1e-12
    )


def test_a_typed_curve_follows_the_published_converter_between_its_points():
    """Dobos 2014 as the other program has it; row so13 (found): 85.5856 W of 90, 47.6084 of 50, 95 of 100."""
    into = np.array([6.0, 12.0, 25.0, 50.0, 75.0, 100.0])
    out = inverter.pvwatts(into, 100.0, 0.95)
    assert inverter.pvwatts(90.0, 100.0, 0.95) == pytest.approx(float(SOLAR["so13"]["value"]), abs=1e-9)
    loss = loss_by_points(0.006, [(float(b) / 95.0, float(b / a)) for a, b in zip(into, out, strict=True)])
    for given in (9.0, 18.0, 40.0, 90.0):
        wanted = float(inverter.pvwatts(given, 100.0, 0.95))
        needed = wanted + 95.0 * float(loss.at(wanted / 95.0))
        assert needed == pytest.approx(given, rel=3e-3)


def test_three_losses_go_through_the_efficiencies_that_made_them():
    loss = loss_by_efficiencies(0.008, 0.93, 0.88)
    at_best = math.sqrt(loss.own / loss.square)
    assert loss.efficiency(at_best) == pytest.approx(0.93, abs=1e-12)
    assert loss.efficiency(1.0) == pytest.approx(0.88, abs=1e-12)
    assert max(loss.efficiency(share / 100.0) for share in range(1, 101)) <= 0.93 + 1e-12


def test_sum_above_the_air_on_the_example_of_the_book():
    # Duffie and Beckman, example 1.10.1: 43° N, 15 April, 33.8 MJ/m² (memory).
    assert daily_extraterrestrial(math.radians(43.0), 105.0) / 1e6 == pytest.approx(33.8, abs=0.05)


@pytest.mark.parametrize("latitude", [-35.0, 0.0, 48.0, 54.0])
@pytest.mark.parametrize("day", [17, 105, 198, 344])
def test_sum_above_the_air_is_that_of_another_program(latitude, day):
    hours = (np.arange(1440) + 0.5) / 60.0
    turn = solarposition.declination_spencer71(day)
    angle = np.radians(15.0 * (hours - 12.0))
    height = np.cos(solarposition.solar_zenith_analytical(np.radians(latitude), angle, turn))
    expected = float(irradiance.get_extra_radiation(day, method="spencer")) * np.maximum(height, 0.0).sum() * 60.0
    # The other program takes 1366.1 W/m², this one its own constant.
    scale = daily_extraterrestrial(math.radians(latitude), day) / expected
    assert scale == pytest.approx(1.0, abs=5e-3)


def test_the_sun_of_a_mean_day_stands_where_another_program_has_it():
    latitude, day = math.radians(54.0), 198.0
    turn = float(solarposition.declination_spencer71(day))
    assert solar_declination(day) == pytest.approx(turn, abs=1e-9)
    angle = 2.0 * np.pi * (TIMES / 86_400.0 - 0.5)
    sun = sun_of_mean_day(latitude, day, TIMES)
    expected = solarposition.solar_zenith_analytical(latitude, angle, turn)
    assert sun.zenith_angle == pytest.approx(expected, abs=1e-9)
    up = expected < 1.5
    azimuth = solarposition.solar_azimuth_analytical(latitude, angle[up], turn, expected[up])
    assert np.cos(sun.azimuth[up] - azimuth) == pytest.approx(np.ones(int(up.sum())), abs=1e-6)


# NASA POWER climatology, 48.066° N (found): global and diffuse sum of each month.
@pytest.mark.parametrize(
    ("month", "row"), list(enumerate(rows("03_monthly_ghi_nasa_power.csv")[:12])), ids=lambda each: str(each)[:5]
)
def test_a_measured_month_is_met_and_its_sky_share_is_near(month, row):
    latitude, day = math.radians(48.066), float(MEAN_DAYS[month])
    total, diffuse = (float(row[key]) for key in ("ghi_kWh_m2_day", "diffuse_kWh_m2_day"))
    sky = mean_day_irradiance(latitude, day, total * KILOWATT_HOUR, TIMES)
    assert sky.global_horizontal.sum() * 300.0 / KILOWATT_HOUR == pytest.approx(total, rel=1e-9)
    clearness = total * KILOWATT_HOUR / daily_extraterrestrial(latitude, day)
    assert 0.3 < clearness < 0.55
    # The correlation of Erbs, Klein and Duffie scatters by about 0.06 from month to month and place to place.
    share = monthly_diffuse_share(clearness, sunset_angle(latitude, solar_declination(day)))
    assert share == pytest.approx(diffuse / total, abs=0.1)


@pytest.mark.parametrize("row", rows("03_plane_of_array_reference.csv"), ids=lambda row: row["apparent_zenith"])
def test_a_leaning_panel_gets_what_another_program_says(row):
    sun = SunPosition(np.radians([float(row["apparent_zenith"])]), np.radians([float(row["solar_azimuth"])]))
    level, beam, sky = (np.array([float(row[key])]) for key in ("ghi", "dni", "dhi"))
    expected = irradiance.get_total_irradiance(40.0, 180.0, float(row["apparent_zenith"]), float(row["solar_azimuth"]),
                                               beam[0], level[0], sky[0], albedo=0.25)["poa_global"]  # fmt: skip
    found = surface_irradiance(sun, SkyIrradiance(level, beam, sky), math.radians(40.0), math.pi, 0.25)
    assert float(found[0]) == pytest.approx(float(expected), rel=1e-6)
    assert float(found[0]) == pytest.approx(float(row["poa_total_isotropic_derived"]), abs=6e-3)
