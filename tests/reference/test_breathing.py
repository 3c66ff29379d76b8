"""What people give off, against Persily and de Jonge 2017 and the tables of moisture and heat."""

import csv
import tomllib
from pathlib import Path

import pytest

from hushwright.physics.air import Air
from hushwright.physics.airflow.activities import ACTIVITIES, activity
from hushwright.physics.airflow.breathing import (
    Person,
    basal_metabolic_rate,
    carbon_dioxide_generation,
    metabolic_heat,
    moisture_generation,
    water_vapour_of_latent_heat,
)

TABLES = Path(__file__).parent / "tables"
EXAMPLES = {
    each["id"]: each for each in tomllib.loads((TABLES / "worked_examples.toml").read_text(encoding="utf-8"))["example"]
}
PRINTED_AT = Air(temperature=0.0, pressure=101_325.0)  # the table holds for 273 K and 101 kPa


def rows(name: str) -> list[dict[str, str]]:
    with (TABLES / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


PERSILY = rows("04_co2_generation_persily_dejonge_2017.csv")


def age_in(group: str) -> float:
    """An age within a printed group: its lower end."""
    return 0.5 if group == "<1" else float(group.replace(">=", "").partition("-")[0])


@pytest.mark.parametrize("row", PERSILY, ids=lambda row: f"{row['sex']} {row['age_years']}")
def test_basal_metabolic_rate_is_that_of_the_age_group(row):
    # Persily and de Jonge 2017, table 4, printed to 0.01 MJ/day, mean body mass to 0.1 kg: with children's steep line
    # up to 0.0125 MJ/day more
    age, mass = age_in(row["age_years"]), float(row["mean_mass_kg"])
    tolerance = 0.0051 + (0.0125 if age < 3.0 else 0.0)
    for person in (Person(1.0, row["sex"], age), Person(1.0, row["sex"], age, mass)):
        assert basal_metabolic_rate(person) * 0.0864 == pytest.approx(float(row["BMR_MJ_day"]), abs=tolerance)


@pytest.mark.parametrize("row", PERSILY, ids=lambda row: f"{row['sex']} {row['age_years']}")
@pytest.mark.parametrize("met", ["1.0", "1.2", "1.4", "1.6", "2.0", "3.0", "4.0"])
def test_carbon_dioxide_is_that_of_the_published_table(row, met):
    # Persily and de Jonge 2017, table 4, printed to 0.0001 l/s; the table's own rounding goes up to 0.9 of that
    got = carbon_dioxide_generation(Person(float(met), row["sex"], age_in(row["age_years"])), PRINTED_AT) * 1000.0
    assert got == pytest.approx(float(row[f"Ls_{met}met"]), abs=1e-4)


def test_carbon_dioxide_of_the_worked_example():
    # worked example co01: equation of Persily and de Jonge 2017
    inputs, outputs = EXAMPLES["co01"]["inputs"], EXAMPLES["co01"]["outputs"]
    person = Person(inputs["met"], "male", 35.0)
    assert carbon_dioxide_generation(person, PRINTED_AT) * 1000.0 == pytest.approx(outputs["V_Ls"], abs=1e-6)


def test_the_older_form_agrees_for_a_seated_adult():
    # ASTM D6245 by another transcription (worked example co02): 0.0051 l/s for 1.8 m² at 1.2 met
    newer = carbon_dioxide_generation(Person(1.2, "male", 25.0), PRINTED_AT) * 1000.0
    assert newer == pytest.approx(EXAMPLES["co02"]["outputs"]["V_Ls"], rel=0.10)


def test_warm_air_gives_the_same_gas_more_room():
    person = Person(1.3)
    warm = carbon_dioxide_generation(person, Air(temperature=20.0))
    assert warm / carbon_dioxide_generation(person, PRINTED_AT) == pytest.approx(293.15 / 273.15, rel=1e-12)


@pytest.mark.parametrize(
    ("name", "printed"),
    [
        ("seated", "sitting reading, writing, typing"),
        ("at the desk", "sitting tasks, light effort (office)"),
        ("standing", "standing quietly"),
        ("resting", "lying or sitting quietly"),
        ("light cleaning", "light cleaning / custodial"),
        ("dancing", "dancing, general"),
    ],
)
def test_activities_have_the_published_rate(name, printed):
    # Persily and de Jonge 2017, table 3
    published = {row["activity"]: float(row["met"]) for row in rows("04_met_levels.csv")}
    assert activity(name).met == published[printed]


def test_singing_and_playing_take_more_than_sitting():
    resting, seated, singing = (activity(name).met for name in ("resting", "seated", "singing"))
    assert resting < seated < singing < activity("drumming").met
    assert all(each.source for each in ACTIVITIES)


@pytest.mark.parametrize(
    ("met", "low", "high"), [(1.0, 35.0, 60.0), (1.3, 40.0, 60.0), (2.0, 60.0, 120.0), (2.5, 120.0, 200.0)]
)
def test_moisture_lies_in_the_published_bands(met, low, high):
    # IEA handbook, table 10.1.1 (mo01): sedentary 40-60, average 60-120, heavy 120-200 g/h; resting is ours.
    # At 3 met the table of people's heat that we follow gives 227 g/h, above the band.
    assert low <= moisture_generation(Person(met)) * 3.6e6 <= high


def test_a_watt_of_latent_heat_is_one_and_a_half_grams_an_hour():
    # mo03, derived: 2450 kJ/kg
    assert water_vapour_of_latent_heat(1.0, 21.0) * 3.6e6 == pytest.approx(1.47, abs=0.005)
    assert water_vapour_of_latent_heat(55.0, 21.0) * 3.6e6 == pytest.approx(81.0, abs=0.5)


HEAT = [row for row in rows("04_metabolic_heat_per_person.csv") if "ASHRAE" in row["source"]]


@pytest.mark.parametrize("row", HEAT, ids=lambda row: row["activity"])
def test_latent_heat_is_that_of_the_published_table(row):
    # ASHRAE Fundamentals 2009 (SI), ch. 18, table 1; rows of the same total differ by 20 W at most
    person = Person(1.0)
    person = Person(float(row["total_adjusted_W"]) / metabolic_heat(person))
    latent = moisture_generation(person) / water_vapour_of_latent_heat(1.0)
    assert latent == pytest.approx(float(row["latent_W"]), abs=0.5)
