"""Moisture in build-ups against published values; the source stands beside each check."""

import csv
import math
import tomllib
from pathlib import Path

import pytest

from hushwright.physics.thermal.condensation import interstitial_condensation, yearly_condensation
from hushwright.physics.thermal.humidity import saturation_pressures
from hushwright.physics.thermal.moisture import (
    MOULD_LIMIT,
    VAPOUR_PERMEABILITY_OF_AIR,
    Climate,
    Season,
    VapourLayer,
    dew_point_temperature,
    plane_temperatures,
    required_surface_factor,
    saturation_pressure,
    surface_factor,
    surface_relative_humidity,
    vapour_diffusion_thickness,
)

TABLES = Path(__file__).parent / "tables"
EXAMPLES = {
    each["id"]: each for each in tomllib.loads((TABLES / "worked_examples.toml").read_text(encoding="utf-8"))["example"]
}
with (TABLES / "06_thermal_facts.csv").open(encoding="utf-8", newline="") as handle:
    FACTS = {row["id"]: row for row in csv.DictReader(handle)}

# Published test values of a wall of brick, mortar, foam, brick and plaster, outside first: public repository
# pachi/condensaciones, condensaciones/test/test_cerramiento.py, commit dc780f87 (values only, found).
RESISTANCES = (0.16491754, 0.02439024, 0.80, 0.06741573, 0.01754386)
DIFFUSION = (1.10, 0.10, 0.6, 0.3, 0.06)
WALL = [VapourLayer(*pair) for pair in zip(RESISTANCES, DIFFUSION, strict=True)]
PLANES = (5.48221147, 7.47033972, 7.76437110, 17.40860050, 18.22131646, 18.43281272)
SATURATION = (901.6494125680565, 1034.1390998, 1055.12211007, 1987.36474526, 2091.70930457, 2119.63722782)
STRAIGHT = (836.98994423, 1065.30776985, 1086.06393582, 1210.60093161, 1272.86942951, 1285.32312909)
CONDENSED_GRAMS = 31.397530032177634  # in 30 days
MONTH = 30 * 86_400.0
WINTER = Season(Climate(20.0, 0.55), Climate(5.0, 0.96), MONTH)


def test_temperatures_of_the_planes():
    assert plane_temperatures(WALL, 20.0, 5.0) == pytest.approx(PLANES, abs=1e-6)


def test_saturation_pressures_of_the_planes():
    # that source has 610.5 Pa and the exponents of the standard; it agrees to all printed digits of the pressure
    assert [saturation_pressure(value) for value in PLANES] == pytest.approx(SATURATION, rel=1e-6)


def test_pressures_without_condensation_run_straight():
    # string not yet held by saturation: depths of the published wall between the published air pressures
    depths = [sum(DIFFUSION[:index]) for index in range(6)]
    inside, outside = Climate(20.0, 0.55).vapour_pressure, Climate(5.0, 0.96).vapour_pressure
    line = [outside + (inside - outside) * depth / depths[-1] for depth in depths]
    assert line == pytest.approx(STRAIGHT, rel=1e-6)


def test_condensed_water_of_the_published_wall():
    found = interstitial_condensation(WALL, [WINTER])[0]
    assert sum(found.accumulated) * 1e3 == pytest.approx(CONDENSED_GRAMS, rel=1e-6)


def test_the_vapour_permeability_is_that_of_the_standard():
    assert pytest.approx(float(FACTS["th09"]["value"])) == VAPOUR_PERMEABILITY_OF_AIR


def test_surface_factor_and_its_least_value():
    # gl02 (found): 0.79907855; least factors from 80 % at the surface
    given, out = EXAMPLES["gl02"]["inputs"], EXAMPLES["gl02"]["outputs"]
    assert surface_factor(given["U"]) == pytest.approx(out["fRsi"], abs=1e-8)
    least = required_surface_factor(Climate(given["t_i"], given["rh_i"]), given["t_e"])
    assert least == pytest.approx(out["fRsi_min"], abs=1e-4)
    damp = required_surface_factor(Climate(given["t_i"], 0.75), given["t_e"])
    assert damp == pytest.approx(out["fRsi_min_at_75pct"], abs=1e-4)


def test_dew_point():
    # gl03 (derived): 20 °C and 50 %
    given, out = EXAMPLES["gl03"]["inputs"], EXAMPLES["gl03"]["outputs"]
    air = Climate(given["t"], given["rh"])
    assert air.vapour_pressure == pytest.approx(out["p_v"], abs=0.01)
    assert dew_point_temperature(air.vapour_pressure) == pytest.approx(out["t_dew"], abs=0.005)


def test_bare_steel_sweats_at_freezing():
    # gl03's note: bare steel at 0 °C outside comes to about 4.7 °C, the air's dew point is 9.3 °C
    air = Climate(20.0, 0.5)
    steel = plane_temperatures([VapourLayer(0.0009 / 50.0, math.inf)], 20.0, 0.0)[-1]
    assert steel == pytest.approx(4.7, abs=0.05)
    assert steel < dew_point_temperature(air.vapour_pressure)


def test_pressures_of_the_condensing_period():
    # th12: 20 °C 50 % is 1168 Pa, -5 °C 80 % is 321 Pa (found in a public table after DIN 4108-3)
    assert Climate(20.0, 0.5).vapour_pressure == pytest.approx(1168.0, abs=0.6)
    assert Climate(-5.0, 0.8).vapour_pressure == pytest.approx(321.0, abs=0.6)


def test_the_mould_limit_is_that_of_the_standard():
    assert FACTS["th11"]["value"] == f"surface RH <= {MOULD_LIMIT}"


def test_surface_humidity_by_hand():
    # by hand: surface at -5 + 0.85 * 25 = 16.25 °C, saturation 1847 Pa, 1168.5 Pa in the air
    assert surface_relative_humidity(Climate(20.0, 0.5), -5.0, 0.85) == pytest.approx(1168.5 / 1847.1, abs=1e-3)


def test_both_forms_of_the_saturation_pressure_agree():
    temperatures = [-40.0, -5.0, -0.001, 0.0, 20.0, 60.0]
    assert saturation_pressures(temperatures) == pytest.approx(
        [saturation_pressure(t) for t in temperatures], rel=1e-12
    )


def test_psychrometric_saturation_agrees_with_the_table():
    # ASHRAE table through public tests: 30 °C is 4246 Pa over water; the standard's formula is within 0.15 %
    assert saturation_pressure(30.0) == pytest.approx(4246.0, rel=1.5e-3)


def test_a_wool_wall_behind_a_steel_skin_by_hand():
    # by hand: all resistance before the skin; water = delta (p_i - p_sat(skin)) t / s_d
    wall = [VapourLayer(0.0, math.inf), VapourLayer(1.5, 1.0)]
    cold = Season(Climate(20.0, 0.5), Climate(0.0, 0.8), MONTH)
    skin = 20.0 * 0.04 / 1.67
    expected = 2e-10 * (0.5 * saturation_pressure(20.0) - saturation_pressure(skin)) * MONTH / 1.0
    found = interstitial_condensation(wall, [cold])[0]
    assert found.accumulated[1] == pytest.approx(expected, rel=2e-4)


def test_a_leaf_that_holds_vapour_back_saves_the_skin():
    # 16 mm plywood, mu 200 dry (ISO 10456, memory) against nothing before the wool
    year = [Season(Climate(20.0, 0.5), Climate(t, 0.8), MONTH) for t in (0, 2, 6, 10, 14, 17, 19, 19, 15, 10, 5, 1)]
    wool = VapourLayer(1.5, vapour_diffusion_thickness(0.06, 1.0))
    skin = VapourLayer(0.0, math.inf)
    bare = yearly_condensation([skin, wool], year)
    held = yearly_condensation([skin, wool, VapourLayer(0.1, vapour_diffusion_thickness(0.016, 200.0))], year)
    assert held.peak_water < 0.05 * bare.peak_water
    assert held.dries
