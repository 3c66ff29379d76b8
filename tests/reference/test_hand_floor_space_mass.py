"""Mounts, headroom, clear width and axle loads by hand, on tiny builds; the expected numbers import nothing of ours."""

import math

import pytest
from tests.coupled import value_of, verdicts_of
from tests.plain_builds import FACES, ONE_LEAF, plain_build

GRAVITY = 9.80665  # m/s², CGPM 1901
COUNT, STIFFNESS, RATIO = 4, 300e3, 1.5  # mounts, N/m each, dynamic over static
FREE = 0.040  # m
LENGTH, WIDTH = 2.400, 1.740  # m, finished floor
LEAF = 20.0 * LENGTH * WIDTH  # kg: 4 mm of 5000 kg/m³, its centre at station 1.230 on the centre line
LOAD, STATION, OFFSET = 300.0, 1.530, 0.200  # kg, m, m
MASS = LEAF + LOAD
MEAN_DEFLECTION = MASS * GRAVITY / (COUNT * STIFFNESS)

FLOOR = (
    "        - {limp: heavy sheet, thickness: 30}\n        - {floor_mounts: under, bearer_depth: 0}\n"
    "        - {limp: light sheet, thickness: 4}\n"
)
MOUNTS = (
    "mounts:\n  under: {along: 2, across: 2, inset: 80, static_stiffness: 300 N/mm, lateral_stiffness: 150 N/mm, "
    "dynamic_ratio: 1.5, lowest_load: 20 kg, highest_load: 250 kg, free_height: 40, edges: closed, "
    "snubber_gap: 8, load_years: 0 h}\n"
    "fittings:\n  - {name: load, mass: 300 kg, station: 1530, offset: 200, height: 600, fixed_to: [quiet]}\n"
)
FLOATING = plain_build("", MOUNTS, floor=FLOOR)


def loads() -> list[float]:
    """Four equal springs under a rigid body: each gets its share and what the moments add (statics of rigid bodies)."""
    stations, sides = (0.110, 2.350), (-0.820, 0.820)
    along = (LEAF * 1.230 + LOAD * STATION) / MASS - 1.230
    across = LOAD * OFFSET / MASS
    along_squares, across_squares = COUNT * 1.120**2, COUNT * 0.820**2
    return [
        MASS * (1.0 / COUNT + along * (station - 1.230) / along_squares + across * side / across_squares)
        for station in stations
        for side in sides
    ]


def test_the_least_and_the_most_loaded_mount_are_those_of_a_rigid_table_on_four_springs() -> None:
    assert value_of(FLOATING, "mount-least/record") == pytest.approx(min(loads()), rel=1e-3)
    assert value_of(FLOATING, "mount-most/record") == pytest.approx(max(loads()), rel=1e-3)


def test_the_spread_is_the_most_over_the_mean() -> None:
    assert value_of(FLOATING, "mount-spread/record") == pytest.approx(max(loads()) / (MASS / COUNT), rel=1e-3)


def test_air_that_cannot_leave_stiffens_the_floor() -> None:
    # f = (1/2π) sqrt((N k + ρc²S/d)/M), ρc² = 1.4 · 101 325 Pa: Vigran, Building Acoustics, section 8.4.
    air = 1.4 * 101_325.0 * LENGTH * WIDTH / (FREE - MEAN_DEFLECTION)
    expected = math.sqrt((COUNT * RATIO * STIFFNESS + air) / MASS) / (2.0 * math.pi)
    # 2 %: ρc² after ISO 9613-1 or from ρ and c, and k follows the small load.
    assert value_of(FLOATING, "floor-frequency/record") == pytest.approx(expected, rel=0.02)


def test_air_that_leaves_freely_only_adds_its_mass() -> None:
    # f = (1/2π) sqrt(N k/M); the air driven to the edges weighs ρ L²/(3d) per m², 10 kg/m² here, up to 42 kg in all.
    text = FLOATING.replace("edges: closed", "edges: open")
    plain = math.sqrt(COUNT * RATIO * STIFFNESS / MASS) / (2.0 * math.pi)
    with_air = plain * math.sqrt(MASS / (MASS + 42.0))
    assert with_air * 0.99 <= value_of(text, "floor-frequency/record") <= plain * 1.01


def test_the_snubbers_stay_as_clear_as_they_were_set_while_nobody_comes_in() -> None:
    assert value_of(FLOATING, "snubber/record") == pytest.approx(0.008, abs=2e-5)


def test_the_snubbers_lose_what_people_press_the_mounts_since_they_were_set_in_the_empty_room() -> None:
    # Two people of 75 kg in the middle of the room: each of four equal springs takes a quarter more (Hooke).
    text = FLOATING.replace("people: {quiet_room: 0}", "people: {quiet_room: 2}")
    sunk = 2 * 75.0 * GRAVITY / (COUNT * STIFFNESS)
    assert value_of(text, "snubber/record") == pytest.approx(0.008 - sunk, abs=5e-5)


def test_the_snubbers_lose_what_the_fullest_mount_creeps_over_the_years() -> None:
    # δ(t) = δ(1 min) (1 + c lg(t/1 min)), Lindley, Engineering Design with Natural Rubber; c = 0.05 is the library's.
    text = FLOATING.replace("load_years: 0 h", "load_years: 60 day")
    decades = math.log10(60.0 * 24.0 * 60.0)
    sunk = max(loads()) * GRAVITY / STIFFNESS * 0.05 * decades
    assert value_of(text, "snubber/record") == pytest.approx(0.008 - sunk, abs=5e-5)


def test_headroom_is_what_the_build_ups_leave_and_the_loaded_mounts_give_back() -> None:
    expected = 2.000 - 0.030 - (0.030 + FREE + 0.004) + MEAN_DEFLECTION
    assert value_of(FLOATING, "headroom/quiet_room") == pytest.approx(expected, abs=2e-4)


def test_clear_width_is_taken_at_the_shoulders_between_leaning_walls() -> None:
    text = plain_build().replace("{height: 2000, width: 1800}", "{height: 2000, width: 1600}")
    # Shoulders at 0.82 of the stature (library; common practice, no source), in shoes of 20 mm, on a floor of 30 mm.
    shoulder = 0.030 + 0.82 * 1.700 + 0.020
    skin = 1.800 - 0.200 * (shoulder - 1.000)
    assert value_of(text, "width/quiet_room") == pytest.approx(skin - 2.0 * 0.030 * math.hypot(1.0, 0.1), abs=5e-4)


def test_masses_go_to_the_axles_by_their_moments() -> None:
    text = plain_build(
        "",
        "fittings:\n  - {name: load, mass: 400 kg, station: 1000, fixed_to: [body]}\n",
        **dict.fromkeys(FACES, ONE_LEAF),
    )
    width, height = 1.798, 1.998
    layers = 5.0 * 2.0 * (LENGTH * width + LENGTH * height + width * height)  # centre at station 1.230
    crew = 2 * 75.0  # seated 0.95 m behind the front axle: common practice, no source
    more = 1.07  # nothing is weighed: 7 % for what is not yet listed, where the rest has its centre (common practice)
    rear = 800.0 + (more * (layers * (1.230 + 1.0) + 400.0 * (1.000 + 1.0)) + crew * 0.95) / 3.000
    total = 2000.0 + more * (layers + 400.0) + crew
    assert value_of(text, "payload/drive") == pytest.approx(total, rel=1e-3)
    assert value_of(text, "rear-axle/drive") == pytest.approx(rear, rel=1e-3)
    assert value_of(text, "front-axle/drive") == pytest.approx(total - rear, rel=1e-3)


def test_every_verdict_on_the_floor_holds_the_value_by_hand_against_its_limit() -> None:
    found = verdicts_of(FLOATING)
    least, most = found["mount-least-load-record"], found["mount-most-load-record"]
    assert (least.limit, most.limit) == (pytest.approx(20.0), pytest.approx(250.0))
    assert least.margin == pytest.approx(min(loads()) - 20.0, rel=1e-3)
    assert most.margin == pytest.approx(250.0 - max(loads()), rel=1e-3)
    headroom = found["headroom-quiet-room"]
    assert headroom.limit == pytest.approx(1.700 + 0.020 + 0.010)
