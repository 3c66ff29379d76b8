"""Laws of axles, restraint and doors that hold for any van."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from hushwright.physics.air import STANDARD_GRAVITY
from hushwright.physics.mechanics.axles import Axles, PlacedMass, axle_loads, not_listed_allowance
from hushwright.physics.mechanics.doors import DoorLeaf, door_forces, hinge_loads, wind_on_door
from hushwright.physics.mechanics.fixings import stop_contact
from hushwright.physics.mechanics.restraint import DIRECTIONS, anchor_loads, design_level
from hushwright.physics.mechanics.weighbridge import reconcile

AXLES = Axles(1.45, -2.85, 1.75, 1.65)
VAN = PlacedMass("van", 2080.0, (-0.3, 0.0, 0.8))
floats = st.floats
places = st.tuples(floats(-4.0, 2.0), floats(-0.9, 0.9), floats(0.3, 2.2))
masses = st.lists(st.builds(PlacedMass, st.just("item"), floats(0.1, 200.0), places), max_size=8)


@given(items=masses)
def test_axle_loads_balance_mass_and_moments(items):
    listed = [VAN, *items]
    loads = axle_loads(listed, AXLES)
    assert loads.front + loads.rear == pytest.approx(sum(each.mass for each in listed))
    forward = loads.front * AXLES.front + loads.rear * AXLES.rear
    assert forward == pytest.approx(sum(each.mass * each.position[0] for each in listed), abs=1e-6)
    wheels = loads.wheels
    lean = 0.5 * ((wheels[0] - wheels[1]) * AXLES.front_track + (wheels[2] - wheels[3]) * AXLES.rear_track)
    assert lean == pytest.approx(sum(each.mass * each.position[1] for each in listed), abs=1e-6)


@given(mass=floats(1.0, 500.0), behind=floats(0.01, 1.5))
def test_mass_behind_the_rear_axle_lightens_the_front(mass, behind):
    before = axle_loads([VAN], AXLES)
    after = axle_loads([VAN, PlacedMass("box", mass, (AXLES.rear - behind, 0.0, 1.0))], AXLES)
    assert after.front < before.front
    assert after.rear > before.rear + mass


@given(items=masses)
def test_a_mirrored_van_has_mirrored_wheels(items):
    mirrored = [PlacedMass(e.name, e.mass, (e.position[0], -e.position[1], e.position[2])) for e in items]
    one, two = axle_loads([VAN, *items], AXLES), axle_loads([VAN, *mirrored], AXLES)
    assert one.wheels == pytest.approx((two.wheels[1], two.wheels[0], two.wheels[3], two.wheels[2]))
    assert one.left_share == pytest.approx(1.0 - two.left_share)


@given(height=floats(1.0, 2.5), mass=floats(1.0, 300.0))
def test_mass_up_high_lowers_the_stability_factor(height, mass):
    after = axle_loads([VAN, PlacedMass("roof", mass, (0.0, 0.0, height))], AXLES)
    assert after.static_stability_factor < axle_loads([VAN], AXLES).static_stability_factor


@given(mass=floats(30.0, 300.0), place=places, items=masses)
def test_the_weighbridge_finds_what_was_left_off_the_list(mass, place, items):
    truth = axle_loads([VAN, *items, PlacedMass("forgotten", mass, place)], AXLES)
    assume(min(truth.wheels) > 0.0)
    found = reconcile([VAN, *items], truth.wheels, AXLES, reading_uncertainty=1.0)
    assert found.unaccounted_mass == pytest.approx(mass, abs=1e-6)
    assert found.place == pytest.approx(place[:2], abs=1e-6)
    assert not found.agrees
    assert sum(found.wheel_differences) == pytest.approx(mass, abs=1e-6)


def test_the_place_spreads_as_chance_says():
    # Monte Carlo against first-order propagation
    chance = np.random.default_rng(7)
    truth = np.array(axle_loads([VAN, PlacedMass("box", 150.0, (-2.0, 0.4, 1.0))], AXLES).wheels)
    drawn = [reconcile([VAN], truth + chance.normal(0.0, 3.0, 4), AXLES, 3.0) for _ in range(2000)]
    stations = np.array([each.place[0] for each in drawn if each.place])
    expected = reconcile([VAN], truth, AXLES, 3.0)
    assert float(stations.std()) == pytest.approx(expected.place_uncertainty[0], rel=0.1)
    total = np.array([each.unaccounted_mass for each in drawn])
    assert float(total.std()) == pytest.approx(expected.mass_uncertainty, rel=0.1)


def test_a_moved_item_is_misplaced_not_missing():
    listed = [VAN, PlacedMass("bank", 80.0, (0.5, 0.0, 0.6))]
    truth = axle_loads([VAN, PlacedMass("bank", 80.0, (-3.0, 0.0, 0.6))], AXLES)
    found = reconcile(listed, truth.wheels, AXLES, 1.0)
    assert found.misplaced
    assert found.place is None
    assert found.forward_moment == pytest.approx(-280.0)
    assert reconcile(listed, axle_loads(listed, AXLES).wheels, AXLES, 1.0).agrees


def test_the_allowance_shrinks_as_items_are_weighed():
    items = [PlacedMass("item", 50.0, (0.0, 0.0, 1.0)) for _ in range(4)]
    left = [not_listed_allowance(items, [index < done for index in range(4)]) for done in range(5)]
    assert left == sorted(left, reverse=True)
    assert left[-1] == 0.0


anchor_sets = st.lists(st.tuples(floats(-1.2, 1.2), floats(-0.8, 0.8), floats(0.0, 1.5)), min_size=3, max_size=10)


@given(anchors=anchor_sets, centre=places, level=floats(0.1, 20.0), direction=st.sampled_from(sorted(DIRECTIONS)))
def test_anchor_forces_balance_force_and_moments(anchors, centre, level, direction):
    spread = np.linalg.svd(np.array(anchors) - np.mean(anchors, axis=0), compute_uv=False)
    assume(spread[1] > 0.05)
    loads = anchor_loads(300.0, centre, anchors, design_level(level), direction)
    total = 300.0 * STANDARD_GRAVITY * level * np.array(DIRECTIONS[direction])
    if direction != "up":  # an upward share is what is left beyond the weight
        total = total - np.array([0.0, 0.0, 300.0 * STANDARD_GRAVITY])
    forces = np.array([load.force for load in loads])
    assert forces.sum(axis=0) == pytest.approx(total, abs=1e-6 * 300.0 * level + 1e-6)
    moments = np.cross(np.array(anchors), forces).sum(axis=0)
    assert moments == pytest.approx(np.cross(np.array(centre), total), rel=1e-6, abs=1e-3)


@given(
    gap=floats(0.0, 0.02),
    stop=floats(1e5, 1e8),
    mount=floats(0.0, 5e6),
    force=floats(1e3, 1e5),
)
def test_work_of_the_crash_is_in_mounts_and_stops(gap, stop, mount, force):
    found = stop_contact(force, gap, stop, mount, 0.0, 0.05)
    stored = 0.5 * mount * found.travel**2 + 0.5 * found.peak_force**2 / stop
    assert stored == pytest.approx(force * found.travel, rel=1e-6)
    wider = stop_contact(force, gap + 0.001, stop, mount, 0.0, 0.05)
    assert wider.travel >= found.travel - 1e-12


@given(width=floats(0.4, 1.2), height=floats(1.0, 2.1), seal=floats(0.0, 400.0), rows=st.integers(0, 3))
def test_forces_of_seals_grow_with_rows_and_balance(width, height, seal, rows):
    leaf = DoorLeaf(width, height, 40.0, seal, rows)
    forces = door_forces(leaf, 0.9 * width)
    assert forces.hinge_separation + forces.latch_preload == pytest.approx(leaf.total_seal_force)
    more = door_forces(DoorLeaf(width, height, 40.0, seal, rows + 1), 0.9 * width)
    assert more.hand_force >= forces.hand_force
    helped = door_forces(leaf, 0.9 * width, lever_advantage=8.0)
    assert helped.lever_force == pytest.approx(forces.latch_preload / 8.0)


@given(mass=floats(5.0, 120.0), spacing=floats(0.4, 1.5))
def test_wider_hinges_carry_less_and_sag_less(mass, spacing):
    leaf = DoorLeaf(0.7, 1.8, mass, 80.0)
    near, wide = (hinge_loads(leaf, s, hinge_stiffness=2e5) for s in (spacing, spacing * 1.2))
    assert wide.horizontal < near.horizontal
    assert wide.sag < near.sag
    assert near.horizontal * spacing == pytest.approx(mass * STANDARD_GRAVITY * 0.35)


def test_wind_grows_with_its_square():
    leaf = DoorLeaf(0.7, 1.8, 40.0, 80.0)
    assert wind_on_door(leaf, 20.0, 0.6) == pytest.approx(4.0 * wind_on_door(leaf, 10.0, 0.6))
    assert math.isclose(wind_on_door(leaf, 0.0, 0.6), 0.0)
