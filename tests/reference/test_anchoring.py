"""Axles, restraint and doors against published values; the source stands beside each check."""

import csv
import math
import tomllib
from pathlib import Path

import pytest

from hushwright.physics.mechanics.axles import (
    Axles,
    PlacedMass,
    axle_loads,
    height_from_raised_axle,
    static_stability_factor,
    vehicle_on_axles,
)
from hushwright.physics.mechanics.doors import DoorLeaf, door_forces, hinge_loads, operating_force_class
from hushwright.physics.mechanics.fixings import fixing_count, spreader_side, stop_contact, tie_down_count
from hushwright.physics.mechanics.restraint import OCCUPIED_LEVEL, anchor_loads, cargo_rule, design_level

TABLES = Path(__file__).parent / "tables"
EXAMPLES = {
    each["id"]: each for each in tomllib.loads((TABLES / "worked_examples.toml").read_text(encoding="utf-8"))["example"]
}


def rows(name):
    with (TABLES / name).open(encoding="utf-8", newline="") as handle:
        return list(csv.DictReader(handle))


FACTS = {row["id"]: row for row in rows("07_weight_axle_restraint_facts.csv")}
RANGES = {row["quantity"]: (float(row["low"]), float(row["high"])) for row in rows("07_generic_panel_van_ranges.csv")}


def test_axle_loads_of_the_moment_example():
    # we01 (found): five masses, moments about the rear, wheelbase 2.70 m
    given, out = EXAMPLES["we01"]["inputs"], EXAMPLES["we01"]["outputs"]
    axles = Axles(given["wheelbase_cm"] / 100.0, 0.0, 1.5, 1.5)
    masses = [
        PlacedMass(f"mass {index}", mass, (arm / 100.0, 0.0, 0.6))
        for index, (mass, arm) in enumerate(zip(given["masses"], given["x_from_rear_cm"], strict=True))
    ]
    found = axle_loads(masses, axles)
    assert found.total == pytest.approx(out["total"])
    assert found.front == pytest.approx(out["front"], abs=0.05)
    assert found.rear == pytest.approx(out["rear"], abs=0.05)
    moment = sum(each.mass * each.position[0] for each in masses)
    assert moment * 100.0 == pytest.approx(out["sum_moment"])


def test_static_stability_factor_of_the_example():
    # we03: NHTSA, half the track over the height
    given, out = EXAMPLES["we03"]["inputs"], EXAMPLES["we03"]["outputs"]
    assert static_stability_factor(given["track"], given["h"]) == pytest.approx(out["ssf"], abs=5e-5)


def test_a_bare_van_lies_in_the_plausible_range():
    # common knowledge of the class (memory): 55 to 65 % on the front axle when empty, wheelbase 3.6 to 4.35 m
    axles = Axles(1.45, -2.85, 1.75, 1.75)
    van = axle_loads([vehicle_on_axles(1240.0, 840.0, axles, 0.8)], axles)
    low, high = RANGES["front axle share when empty"]
    assert low <= 100.0 * van.front / van.total <= high
    assert RANGES["wheelbase"][0] <= axles.wheelbase <= RANGES["wheelbase"][1]
    assert van.front == pytest.approx(1240.0)


def test_height_from_a_raised_axle_by_statics():
    # by hand: turn the wheelbase by the lift about the front wheel and take moments
    axles, height, radius, mass, station = Axles(2.0, -2.0, 1.7, 1.7), 0.95, 0.34, 3000.0, -0.2
    angle = math.asin(0.5 / axles.wheelbase)
    level = mass * (station - axles.rear) / axles.wheelbase
    # the rear stands higher: the centre moves forward by (height - radius) sin, the wheelbase shortens by cos
    arm = (station - axles.rear) * math.cos(angle) + (height - radius) * math.sin(angle)
    raised = mass * arm / (axles.wheelbase * math.cos(angle))
    assert height_from_raised_axle(mass, raised - level, 0.5, axles, radius) == pytest.approx(height, rel=1e-9)


@pytest.mark.parametrize(("fact", "mass"), [("lr01", 2000.0), ("lr03", 5000.0)])
def test_cargo_rule_for_delivery_vans(fact, mass):
    # Berg, Sicks and Cheynet, ESV 2009, paper 09-0008 on ISO 27956, figure 1 (found)
    forward, rearward, sideways = (float(value) for value in FACTS[fact]["value"].split("/"))
    rule = cargo_rule(mass)
    assert (rule.forward, rule.rearward, rule.sideways) == (forward, rearward, sideways)


def test_between_two_and_three_and_a_half_tonnes_the_cautious_text_counts():
    # the same paper: figure 0.8 / 0.5 / 0.6, text 0.9 and 0.7
    figure = [float(value) for value in FACTS["lr02"]["value"].split("/")]
    rule = cargo_rule(3500.0)
    assert (rule.forward, rule.rearward, rule.sideways) == (0.9, 0.5, 0.7)
    assert all(
        ours >= theirs for ours, theirs in zip((rule.forward, rule.rearward, rule.sideways), figure, strict=True)
    )


def test_cargo_rules_of_other_countries():
    # 49 CFR 393.102 with its hold-down of 20 %, Australian standard, EN 12195-1 (memory)
    american, australian, european = (cargo_rule(3500.0, rule) for rule in ("united states", "australia", "road"))
    assert [american.forward, american.rearward, american.sideways] == [
        float(value) for value in FACTS["lr05"]["value"].split("/")
    ]
    assert american.upward == float(FACTS["lr07"]["value"]) / 100.0
    wanted = [float(value) for value in FACTS["lr08"]["value"].split("/")]
    assert [australian.forward, australian.rearward, australian.sideways, australian.upward] == wanted
    assert FACTS["lr09"]["value"].startswith(f"{european.forward} / {european.rearward} / 0.5 ({european.sideways}")


def test_the_level_for_occupied_compartments():
    # EN 1789 for ambulances, public copy (an01): 10 g in every direction
    assert float(FACTS["an01"]["value"]) == OCCUPIED_LEVEL


def test_tie_down_count_of_the_example():
    # we05 (derived after EN 12195-1)
    given, out = EXAMPLES["we05"]["inputs"], EXAMPLES["we05"]["outputs"]
    count = tie_down_count(
        given["mass"], given["cx"], given["mu"], given["STF_N"], math.radians(given["alpha_deg"]), given["fs"]
    )
    assert count == pytest.approx(out["n_exact"], abs=1e-3)


def test_anchor_loads_of_a_cabinet_by_hand():
    # by hand: 120 kg, 0.8 m high centre, 10 g forward, feet 0.5 m apart along and 0.6 m across;
    # shear 120·98.07/4 = 2942 N each; moment 120·98.07·0.8 = 9414 N·m over 2 pairs 0.5 m apart: 9414/0.5/2 = 9414 N
    feet = [(x, y, 0.0) for x in (-0.25, 0.25) for y in (-0.3, 0.3)]
    loads = anchor_loads(120.0, (0.0, 0.0, 0.8), feet, design_level(10.0), "forward")
    assert [load.shear for load in loads] == pytest.approx([2942.0] * 4, abs=0.5)
    rear = [load.pull for load in loads if load.position[0] < 0.0]
    assert rear == pytest.approx([9414.4 - 294.2] * 2, abs=0.5)


def test_fixings_and_spreader_by_hand():
    # by hand: 9.1 kN over 4 kN with factor 1.25 is 2.8, so three; 9.1 kN on 1.5 mm at 60 MPa needs a rim of 101 mm
    assert fixing_count(9100.0, 4000.0, 1.25) == 3
    assert spreader_side(9100.0, 0.0015, 60e6) == pytest.approx(0.1011 / 4.0, abs=1e-4)


def test_a_stop_with_a_gap_takes_more_than_twice_the_load():
    # Timoshenko, Strength of Materials: F (1 + sqrt(1 + 2 k h / F)) for a load that falls through h
    force, stiffness, gap = 40_000.0, 8e6, 0.006
    expected = force * (1.0 + math.sqrt(1.0 + 2.0 * stiffness * gap / force))
    assert stop_contact(force, gap, stiffness, 0.0, 0.002, 0.012).peak_force == pytest.approx(expected, rel=1e-9)


def test_door_against_its_seals_by_integration():
    # independent: the seal summed piece by piece about the hinge line
    leaf = DoorLeaf(0.62, 1.62, 43.0, 80.0, seal_rows=2)
    pieces = 20_000
    edge = sum((k + 0.5) / pieces * leaf.width * leaf.width / pieces for k in range(pieces))
    moment = 2 * 80.0 * (leaf.height * leaf.width + 2.0 * edge)
    assert door_forces(leaf, 0.55).hand_force == pytest.approx(moment / 0.55, rel=1e-6)


def test_hinges_of_a_gate_by_hand():
    # by hand: 43 kg, 0.62 m wide, hinges 1.2 m apart: 421.7 N down, 421.7·0.31/1.2 = 108.9 N across
    loads = hinge_loads(DoorLeaf(0.62, 1.62, 43.0, 80.0), 1.2)
    assert loads.vertical == pytest.approx(421.7, abs=0.05)
    assert loads.horizontal == pytest.approx(108.9, abs=0.05)
    assert loads.sag == 0.0


@pytest.mark.parametrize(("force", "expected"), [(75.0, 1), (50.0, 2), (25.0, 3), (10.0, 4), (75.1, 0)])
def test_classes_of_operating_force(force, expected):
    # EN 12217 (memory): 75, 50, 25 and 10 N
    assert operating_force_class(force) == expected
