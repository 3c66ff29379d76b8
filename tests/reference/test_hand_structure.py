"""Wheels, scales, anchors, doors and cuts by hand, on tiny builds; the expected numbers import nothing of ours."""

import math

import pytest
from tests.coupled import core_of, edited, evaluation_of, value_of, verdicts_of
from tests.plain_builds import FACES, ONE_LEAF, plain_build
from tests.unit.structure_cases import CUT, FLOOR, HUNG, LOAD, MOUNTS, SCALES

G = 9.80665  # m/s², CGPM 1901
WHEELBASE, TRACK, FLOOR_OVER_GROUND, KERB_HEIGHT = 3.0, 1.740, 0.670, 0.790  # m; the last three of the library's body
LAYERS = 5.0 * 2.0 * (2.400 * 1.798 + 2.400 * 1.998 + 1.798 * 1.998)  # kg: 5 kg/m² on six faces
CREW = 2 * 75.0  # kg, 0.95 m behind the front axle, 0.65 m over the floor: common practice, no source
TANKS = (
    "fittings:\n  - {name: bank, mass: {is: 120 kg, from: measured}, station: 400, offset: 500, height: 200}\n"
    "  - {name: tank, mass: {is: 0 kg, from: measured}, litres: 60 l, station: 1900, offset: -600, height: 100}\n"
    "tolerances: {not_yet_listed: 0 %}\n"
)
LOADED = plain_build("", TANKS, **dict.fromkeys(FACES, ONE_LEAF))
PARTS = (  # mass, behind the front axle, left, over the ground
    (2000.0, 800.0 / 2000.0 * WHEELBASE, 0.0, KERB_HEIGHT),
    (120.0, 1.0 + 0.4, 0.5, FLOOR_OVER_GROUND + 0.2),
    (60.0, 1.0 + 1.9, -0.6, FLOOR_OVER_GROUND + 0.1),  # 60 l of water
    (CREW, 0.95, 0.0, FLOOR_OVER_GROUND + 0.65),
    (LAYERS, 1.0 + 1.23, 0.0, FLOOR_OVER_GROUND + 0.999),
)


def wheels_by_hand() -> list[float]:
    """Each mass on the four wheels by its two levers."""
    loads = [0.0] * 4
    for mass, behind, left, _ in PARTS:
        rear = behind / WHEELBASE
        for index, (axle, side) in enumerate(((1 - rear, 1), (1 - rear, -1), (rear, 1), (rear, -1))):
            loads[index] += mass * axle * (0.5 + side * left / TRACK)
    return loads


def test_wheels_carry_each_mass_by_its_levers() -> None:
    result = core_of(LOADED).masses[1]
    assert result.wheels == pytest.approx(wheels_by_hand(), rel=1e-3)
    assert value_of(LOADED, "payload/drive") == pytest.approx(sum(wheels_by_hand()), rel=1e-3)


def test_centre_of_gravity_and_stability_by_moments() -> None:
    total = sum(part[0] for part in PARTS)
    height = sum(mass * high for mass, _, _, high in PARTS) / total
    result = core_of(LOADED).masses[1]
    assert result.centre[0] == pytest.approx(sum(part[0] * part[1] for part in PARTS) / total - 1.0, abs=2e-3)
    assert result.centre[2] == pytest.approx(height, abs=3e-3)
    # SSF = t/2h: NHTSA, Consumer Information Regulations.
    assert value_of(LOADED, "stability/drive") == pytest.approx(TRACK / (2.0 * height), rel=3e-3)


def test_side_steering_and_wheel_shares() -> None:
    front_left, front_right, rear_left, rear_right = wheels_by_hand()
    total = front_left + front_right + rear_left + rear_right
    side = abs(front_left + rear_left - front_right - rear_right) / total
    assert value_of(LOADED, "side-balance/drive") == pytest.approx(side, abs=1e-4)
    assert value_of(LOADED, "steering-axle/drive") == pytest.approx((front_left + front_right) / total, rel=1e-3)
    heaviest = max(max(front_left, front_right) / 900.0, max(rear_left, rear_right) / 1100.0)
    assert value_of(LOADED, "wheel/drive") == pytest.approx(heaviest, rel=1e-3)


def test_scales_say_how_much_nobody_listed_and_where() -> None:
    # 60 kg more than the kerb mass, 45 of it at the rear, 40 of it on the left.
    text = plain_build("", SCALES.replace("front_left: 600", "front_left: 610").replace(
        "front_right: 600", "front_right: 605").replace("rear_left: 400", "rear_left: 430").replace(
        "rear_right: 400", "rear_right: 415"))  # fmt: skip
    (found,) = core_of(text).structure.scales
    assert found.unaccounted == pytest.approx(60.0)
    assert found.at is not None
    assert found.at[0] == pytest.approx(45.0 / 60.0 * WHEELBASE - 1.0)
    assert found.at[1] == pytest.approx((40.0 - 20.0) / 60.0 * TRACK / 2.0)
    assert found.uncertainty == pytest.approx(2.0 * 0.005 * 515.0)  # four readings at half a percent of their mean
    assert verdicts_of(text)["scales-arrival-1"].limit == pytest.approx(30.0)


def test_anchors_share_push_and_moment() -> None:
    # 300 kg and its floor on four anchors at the height of their common centre: forward the push is shared evenly.
    leaf = 20.0 * 2.400 * 1.740  # kg: 4 mm of 5000 kg/m³ on the floor
    height = (300.0 * 0.6 + leaf * 0.072) / (300.0 + leaf)
    places = ", ".join(
        f"{{station: {station}, offset: {offset}, height: {1000 * height:.3f} mm, strength: 60 kN}}"
        for station in (230, 2230) for offset in (-700, 700)
    )  # fmt: skip
    text = plain_build(
        "", MOUNTS.replace(", snubber_gap: 8", "") + LOAD + f"restraint: {{design_level: 10, anchors: [{places}]}}\n",
        floor=FLOOR,
    )  # fmt: skip
    (found,) = core_of(text).structure.anchoring
    assert found.room is not None
    assert found.room.mass == pytest.approx(300.0 + leaf, rel=1e-6)
    push = 10.0 * found.room.mass * G / 4.0  # shear alone: the weight presses, and pressing is left out
    assert found.room.load == pytest.approx(push, rel=1e-3)
    assert found.room.bolts == math.ceil(found.room.load / 8000.0)  # library: 8 kN a bolt, common practice, no source


def test_a_sudden_push_over_a_gap_by_its_work() -> None:
    # F x = k_m x²/2 + k_s (x - g)²/2: Timoshenko, Strength of Materials, suddenly applied loads.
    mount, stop, gap = 4 * 150e3, 20e6, 0.008
    held = "restraint: {design_level: 10, snubber_stiffness: 20000 N/mm}\n"
    text = plain_build("", MOUNTS + LOAD + held, floor=FLOOR)
    (found,) = core_of(text).structure.anchoring
    assert found.snubbers is not None
    force, x = 10.0 * (300.0 + 20.0 * 2.400 * 1.740) * G, found.snubbers.travel
    assert force * x == pytest.approx(0.5 * mount * x**2 + 0.5 * stop * (x - gap) ** 2, rel=1e-6)
    assert found.snubbers.peak_force == pytest.approx(stop * (x - gap), rel=1e-6)


def test_a_door_by_moments_about_its_hinges() -> None:
    width, height = 0.620, 1.620
    mass = 40.0 * 0.680 * 1.650  # 8 mm of 5000 kg/m³; two rows of seals take 30 mm of the frame
    line = 2 * 80.0  # N/m, two rows
    moment = line * (height * width + 2.0 * width * width / 2.0)  # latch side, top and bottom; hinge side has no arm
    latch = moment / width
    assert value_of(HUNG, "door-hand/way_in") == pytest.approx(latch / 6.0, rel=1e-6)
    assert value_of(HUNG, "door-latch/way_in") == pytest.approx(latch / 2.0, rel=1e-6)
    pull = mass * G * width / 2.0 / 1.300
    seals = line * 2.0 * (width + height) - latch
    hinge = math.sqrt(pull**2 + (mass * G / 3.0) ** 2 + (seals / 3.0) ** 2)
    assert value_of(HUNG, "door-hinge/way_in") == pytest.approx(hinge, rel=1e-6)
    assert value_of(HUNG, "door-sag/way_in") == pytest.approx(2.0 * pull / 400e3 / 1.300 * width, rel=1e-6)
    plain = edited(HUNG, ("latch_ratio: 6", "latch_ratio: 1"))
    assert value_of(plain, "door-hand/way_in") == pytest.approx(moment / 0.560, rel=1e-6)


def test_cuts_leave_sheet_by_plain_geometry() -> None:
    # Ribs at 100, 800, 1500 with flanges of 60 mm; cuts of 130 at 1000 and of 80 at 1300, at one height.
    assert value_of(CUT, "cut-rib") == pytest.approx(min(200.0 - 65.0 - 30.0, 200.0 - 40.0 - 30.0) / 1000.0)
    assert value_of(CUT, "cut-apart") == pytest.approx((300.0 - 65.0 - 40.0) / 1000.0)
    assert verdicts_of(CUT)["cuts-reinforced-vehicle"].value == pytest.approx(0.080)  # the one without a ring


def test_what_must_go_is_the_least_that_is_enough() -> None:
    heavy = "fittings:\n" + "".join(
        f"  - {{name: part {mass}, mass: {{is: {mass} kg, from: measured}}, station: 1000}}\n" for mass in (20, 60, 200)
    )
    text = plain_build("", heavy + "tolerances: {mass: 0 %, not_yet_listed: 0 %}\n", **dict.fromkeys(FACES, ONE_LEAF))
    total = 2000.0 + LAYERS + 280.0 + CREW
    over = edited(text, ("total: 3500 kg", f"total: {total - 40.0:.0f} kg"))
    changes = [each.fitting for each in evaluation_of(over).structure.changes if each.moved_to is None]
    assert changes == ["part 60"]
