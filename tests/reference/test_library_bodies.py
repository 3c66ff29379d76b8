"""Generic bodies lie within the plausible ranges of their class; the long high one is that of the demonstration.

Ranges: tests/reference/tables/07_generic_panel_van_ranges.csv, memory, for the long high-roof class. The bodies
themselves are common practice, no source.
"""

import csv
import math
from pathlib import Path

import pytest

from hushwright.library.read import read_library
from hushwright.library.records import VanBody

BODIES = read_library().rows("body")
with (Path(__file__).parent / "tables" / "07_generic_panel_van_ranges.csv").open(encoding="utf-8") as lines:
    RANGES = {row["quantity"]: (float(row["low"]), float(row["high"])) for row in csv.DictReader(lines)}

ALWAYS = {
    "gross vehicle mass": ("permissible_mass", 1),
    "wheelbase": ("wheelbase", 1),
    "overall length": ("overall_length", 1),
    "overall width, body": ("overall_width", 1),
    "load length": ("load_length", 1),
    "width between wheel arches": ("wheel_box_between", 1),
    "track width": ("track_width", 1),
    "front axle rating": ("permissible_front", 1),
    "rear axle rating": ("permissible_rear", 1),
    "kerb mass, empty panel van": ("kerb_mass", 1),
    "CG height, empty": ("kerb_height", 1),
    "body sheet steel": ("skin_thickness", 1000),
    "load floor height": ("floor_over_ground", 1),
}
HIGH = {"overall height": ("overall_height", 1), "load height": ("steel_floor_to_bow", 1)}
LONG = [body for body in BODIES if body.length_class == "long"]


@pytest.mark.parametrize("body", LONG, ids=lambda body: body.name)
def test_a_long_body_is_plausible(body):
    wanted = ALWAYS | (HIGH if body.roof_class == "high" else {})
    for quantity, (field, factor) in wanted.items():
        low, high = RANGES[quantity]
        assert low <= body.spread(field).value * factor <= high, quantity


@pytest.mark.parametrize("body", LONG, ids=lambda body: body.name)
def test_shares_and_sums_of_a_long_body_are_plausible(body):
    low, high = RANGES["front axle share when empty"]
    assert low <= 100 * body.kerb_mass_front.value / body.kerb_mass.value <= high
    low, high = RANGES["payload of empty van"]
    assert low <= body.permissible_mass.value - body.kerb_mass.value <= high
    low, high = RANGES["load width, maximum"]
    assert low <= 2 * max(half for _, half in body.section) <= high
    low, high = RANGES["rear overhang"]
    rear_end = body.overall_length.value - 1.0 + body.front_axle.value  # front overhang about 1 m
    assert low <= rear_end - body.rear_axle.value <= high


@pytest.mark.parametrize("body", BODIES, ids=lambda body: body.name)
def test_a_body_fits_together(body):
    assert body.kerb_mass_front.value + body.kerb_mass_rear.value == pytest.approx(body.kerb_mass.value)
    assert body.rear_axle.value - body.front_axle.value == pytest.approx(body.wheelbase.value)
    assert body.wheel_box_front.value < body.rear_axle.value < body.wheel_box_rear.value < body.load_length.value
    heights = [height for height, _ in body.section]
    assert heights == sorted(set(heights))
    assert heights[-1] <= body.steel_floor_to_bow.value
    assert body.wheel_box_between.value < 2 * body.section[0][1]
    assert body.overall_width.value > 2 * body.section[0][1]
    total = body.floor_over_ground.value + body.steel_floor_to_bow.value + body.bow_depth.value
    assert body.overall_height.value == pytest.approx(total, abs=0.03)


def test_every_length_roof_and_drive_is_there():
    classes = {(body.length_class, body.roof_class, body.drive) for body in BODIES}
    assert classes == {(a, b, c) for a in ("short", "long") for b in ("medium", "high") for c in ("front", "rear")}


def test_front_drive_puts_a_larger_share_on_the_front_axle():
    # Common practice, no source.
    def share(drive):
        body = read_library().find(VanBody, f"long high roof, {drive} drive")
        return body.kerb_mass_front.value / body.kerb_mass.value

    assert share("front") > share("rear")


def test_the_long_high_rear_drive_body_is_the_van_of_the_demonstration():
    # Typical figures, common practice, no source.
    body = read_library().find(VanBody, "long high-roof, rear drive")
    lengths = (
        body.wheelbase, body.front_axle, body.rear_axle, body.load_length, body.steel_floor_to_bow, body.rib_depth,
        body.wheel_box_between, body.wheel_box_height, body.wheel_box_front, body.wheel_box_rear,
    )  # fmt: skip
    millimetres = [4300, -1450, 2850, 4350, 2030, 55, 1350, 300, 2330, 3370]
    assert [1000 * each.value for each in lengths] == pytest.approx(millimetres)
    assert [1000 * height for height, _ in body.section] == pytest.approx([0, 1200, 1600, 2000])
    assert [2000 * half for _, half in body.section] == pytest.approx([1800, 1800, 1720, 1450])
    masses = (body.kerb_mass, body.kerb_mass_front, body.kerb_mass_rear)
    assert [each.value for each in masses] == [2080, 1240, 840]
    plated = (body.permissible_mass, body.permissible_front, body.permissible_rear)
    assert [each.value for each in plated] == [3500, 1850, 2250]


def test_curved_roof_rings_near_the_printed_frequency():
    # About 210 Hz at 4 m radius, common practice; ring frequency = longitudinal wave speed / (2 pi radius).
    steel = read_library().find("sheet", "steel")
    radius = BODIES[0].roof_radius.value
    speed = math.sqrt(steel.spread("youngs_modulus").value / steel.spread("density").value / (1 - 0.3**2))
    assert speed / (2 * math.pi * radius) == pytest.approx(210, rel=0.05)
