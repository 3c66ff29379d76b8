"""Laws that mounts obey whatever the numbers."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hushwright.physics.mechanics.air_limits import trapped_air_stiffness
from hushwright.physics.mechanics.air_spring import (
    UnderFloorAir,
    air_stiffness,
    floor_resonances,
)
from hushwright.physics.mechanics.elastic_mount import ElasticMount
from hushwright.physics.mechanics.insertion_loss import (
    MountPath,
    floor_reduction_improvement,
    insertion_loss,
    mount_impedances,
)
from hushwright.physics.mechanics.mobility import bay_mobility
from hushwright.physics.mechanics.rigid_body import RigidBody, box_body, combined_body
from hushwright.physics.mechanics.rubber import compression_modulus, creep_deflection, temperature_factor
from hushwright.physics.mechanics.suspension import Support, point_mobility, rest_on, swing_modes

FREQUENCY = np.geomspace(5.0, 5000.0, 40)
number = st.floats(-1.0, 1.0)
stiffness = st.floats(2e4, 5e5)
masses = st.floats(100.0, 1500.0)
springs = st.lists(st.tuples(number, number, stiffness), min_size=0, max_size=8)
mobilities = st.builds(complex, st.floats(1e-6, 1e-2), st.floats(-1e-2, 1e-2))


def supports_from(rows):
    """Three corners that always hold the body, and whatever else was drawn."""
    corners = [(-1.0, -0.7, 1e5), (1.0, -0.7, 1e5), (0.0, 0.7, 1e5)]
    return [Support((x, y, 0.0), (0.5 * k, 0.5 * k, k)) for x, y, k in (*corners, *rows)]


def body_at(mass, x, y):
    return box_body(mass, (0.3 * x, 0.3 * y, 0.8), (2.2, 1.6, 1.9))


@given(masses, number, number, springs)
def test_loads_add_up_to_the_weight_and_balance_its_moment(mass, x, y, rows):
    body, supports = body_at(mass, x, y), supports_from(rows)
    rest = rest_on(body, supports)
    weight = mass * 9.80665
    assert sum(rest.loads) == pytest.approx(weight, rel=1e-9)
    # side forces of the tilted body times the height of its centre close the balance
    for axis in (0, 1):
        moment = sum(load * one.place[axis] for load, one in zip(rest.loads, supports, strict=True))
        side = sum(
            -one.stiffness[axis] * shift * (one.place[2] - body.centre[2])
            for one, shift in ((one, side_shift(body, rest, one, axis)) for one in supports)
        )
        assert moment - side == pytest.approx(weight * body.centre[axis], abs=1e-6 * weight)


def side_shift(body, rest, support, axis):
    """Sideways movement at a support by plain vector algebra."""
    arm = np.asarray(support.place) - np.asarray(body.centre)
    return (np.asarray(rest.displacement) + np.cross(np.asarray(rest.rotation), arm))[axis]


@given(masses, number, number, springs, st.randoms())
def test_the_order_of_the_mounts_does_not_matter(mass, x, y, rows, shuffle):
    body, supports = body_at(mass, x, y), supports_from(rows)
    mixed = list(range(len(supports)))
    shuffle.shuffle(mixed)
    loads = rest_on(body, supports).loads
    again = rest_on(body, [supports[number] for number in mixed]).loads
    assert again == pytest.approx([loads[number] for number in mixed], rel=1e-6, abs=1e-6)


@given(masses, number, number, springs, st.tuples(number, number, stiffness))
def test_one_more_mount_never_lowers_a_frequency(mass, x, y, rows, extra):
    body = body_at(mass, x, y)
    fewer = [mode.frequency for mode in swing_modes(body, supports_from(rows))]
    more = [mode.frequency for mode in swing_modes(body, supports_from([*rows, extra]))]
    assert all(after >= before * (1.0 - 1e-9) for before, after in zip(fewer, more, strict=True))


@given(masses, number, number, springs)
@settings(max_examples=40)
def test_force_here_and_motion_there_is_the_same_both_ways(mass, x, y, rows):
    body, supports = body_at(mass, x, y), supports_from(rows)
    here, there = ((0.4, x, 0.0), (0.0, 0.2, 1.0)), ((y, -0.3, 1.5), (1.0, 0.0, 0.5))
    forth = point_mobility(body, supports, here, there, FREQUENCY)
    back = point_mobility(body, supports, there, here, FREQUENCY)
    assert np.allclose(forth, back, rtol=1e-9, atol=1e-15)


@given(masses, number, number, springs)
@settings(max_examples=40)
def test_a_body_on_lossy_mounts_only_takes_power(mass, x, y, rows):
    body, point = body_at(mass, x, y), ((0.5, y, 0.0), (0.0, x, 1.0))
    assert np.all(point_mobility(body, supports_from(rows), point, point, FREQUENCY).real > 0.0)


@given(st.lists(st.tuples(masses, number, number), min_size=2, max_size=5))
def test_joining_bodies_in_any_grouping_gives_the_same_body(rows):
    bodies = [body_at(*row) for row in rows]
    at_once = combined_body(bodies)
    by_steps = bodies[0]
    for body in bodies[1:]:
        by_steps = combined_body([by_steps, body])
    assert at_once.mass == pytest.approx(by_steps.mass)
    assert at_once.inertia == pytest.approx(by_steps.inertia)
    assert at_once.centre == pytest.approx(by_steps.centre, abs=1e-12)


@given(stiffness, st.floats(0.01, 0.3), st.floats(0.0, 0.2), mobilities, mobilities)
def test_swapping_base_and_room_leaves_the_insertion_loss(spring, losses, rubber, base, room):
    path = MountPath(spring, losses, rubber)
    assert np.allclose(
        insertion_loss(path, base, room, FREQUENCY), insertion_loss(path, room, base, FREQUENCY), atol=1e-9
    )


@given(stiffness, st.floats(0.01, 0.3), mobilities, mobilities)
def test_light_rubber_is_a_spring(spring, losses, base, room):
    with_waves = insertion_loss(MountPath(spring, losses, 1e-9), base, room, FREQUENCY)
    assert np.allclose(with_waves, insertion_loss(MountPath(spring, losses), base, room, FREQUENCY), atol=1e-3)


@given(stiffness, st.integers(1, 20), st.integers(0, 20))
def test_more_rigid_ways_never_help(spring, count, rigid):
    rigid = min(rigid, count)
    path, above = MountPath(spring), np.array([2000.0, 4000.0])
    some = floor_reduction_improvement(path, count, 1e-3, 1e-3, above, rigid_count=rigid)
    none = floor_reduction_improvement(path, count, 1e-3, 1e-3, above)
    assert np.all(some <= none + 1e-9)
    if rigid:
        assert np.all(some <= 10.0 * math.log10(count / rigid) + 1e-9)


@given(st.floats(0.005, 0.1), st.floats(0.2, 1.2), st.floats(0.05, 1.0), st.floats(0.0, 3e4))
def test_air_beneath_never_gives_energy(depth, path, open_share, resistivity):
    space = UnderFloorAir(3.4, depth, path, open_share, flow_resistivity=resistivity)
    stiff = air_stiffness(space, FREQUENCY)
    assert np.all(np.isfinite(stiff))
    assert np.all(stiff.imag >= -1e-6 * np.abs(stiff))


@given(st.floats(0.01, 0.1), st.floats(0.3, 1.2))
def test_closing_the_edge_ends_at_the_closed_air_spring(depth, path):
    nearly = UnderFloorAir(3.4, depth, path, edge_slit=1e-5, edge_path=0.05)
    assert complex(air_stiffness(nearly, 20.0)).real == pytest.approx(trapped_air_stiffness(3.4, depth), rel=1e-3)


@given(masses, st.floats(6.0, 15.0), st.floats(0.01, 0.06))
def test_closed_air_always_stiffens_the_floor_and_less_when_deeper(mass, alone, depth):
    spring = mass * (2.0 * math.pi * alone) ** 2
    shallow, deep = (
        floor_resonances(mass, spring, UnderFloorAir(3.4, one, 0.8, open_share=0.0))[0].frequency
        for one in (depth, 2.0 * depth)
    )
    assert alone < deep < shallow


@given(st.floats(0.5e6, 1e7), st.floats(0.5, 1.0), st.floats(0.0, 30.0))
def test_a_bonded_pad_lies_between_plain_rubber_and_bulk(young, coefficient, shape):
    modulus = compression_modulus(young, coefficient, shape, 1.15e9)
    assert 0.98 * young <= modulus < 1.15e9


@given(st.floats(-30.0, 39.0), st.floats(0.1, 1.0))
def test_colder_is_stiffer(temperature, step):
    assert temperature_factor(temperature)[0] > temperature_factor(temperature + step)[0]


@given(st.floats(60.0, 1e8), st.floats(0.0, 0.01), st.floats(0.0, 0.2))
def test_each_tenfold_time_creeps_the_same(duration, deflection, rate):
    once, later = (creep_deflection(deflection, rate, time) for time in (duration, 10.0 * duration))
    assert later - once == pytest.approx(deflection * rate, abs=1e-12)


@given(st.floats(1.0, 1000.0), st.floats(0.0, 0.5))
def test_more_load_never_raises_the_floor(load, more):
    mount = ElasticMount(130e3, 65e3, 196.0, 1030.0, 0.030, 0.012)
    assert mount.under(load * (1.0 + more)).height <= mount.under(load).height


@given(st.floats(0.05, 0.45), st.floats(0.05, 0.35))
@settings(max_examples=30)
def test_a_bay_is_a_spring_below_its_first_mode_and_only_takes_power(x, y):
    values = bay_mobility(14.0, 7.02, (0.5, 0.4), (x, y), 0.02, FREQUENCY)
    assert np.all(values.real > 0.0)
    assert values[0].imag > 0.0


def test_a_flat_plate_has_a_body_but_a_negative_moment_has_none():
    with pytest.raises(ValueError, match="belongs to no body"):
        RigidBody(10.0, (0.0, 0.0, 0.0), (1.0, 1.0, -1.0))


@given(stiffness, st.floats(0.01, 0.3), st.floats(0.001, 0.2))
def test_two_rubbers_on_top_of_each_other_are_one_of_twice_the_height(spring, losses, rubber):
    drive, transfer = mount_impedances(MountPath(2.0 * spring, losses, rubber / 2.0), FREQUENCY)
    whole_drive, whole_transfer = mount_impedances(MountPath(spring, losses, rubber), FREQUENCY)
    assert np.allclose(transfer**2 / (2.0 * drive), whole_transfer, rtol=1e-6)
    assert np.allclose(drive - transfer**2 / (2.0 * drive), whole_drive, rtol=1e-6)


def turned(values):
    """Axes renamed x → y → z → x: a turn about the space diagonal."""
    return values[2], values[0], values[1]


@given(masses, number, number, springs, st.tuples(number, number, number))
@settings(max_examples=40)
def test_turning_and_moving_everything_leaves_the_frequencies(mass, x, y, rows, shift):
    box = box_body(mass, (0.3 * x, 0.3 * y, 0.8), (2.2, 1.6, 1.9))
    body = combined_body([box, box_body(0.2 * mass, (0.7, 0.5, 0.3), (0.3, 0.4, 0.5))])
    supports = [Support(one.place, (0.4e5, 0.7e5, one.stiffness[2])) for one in supports_from(rows)]
    plain = [mode.frequency for mode in swing_modes(body, supports)]

    def moved(place):
        return tuple(float(value + step) for value, step in zip(turned(place), shift, strict=True))

    xy, xz, yz = body.products
    other = RigidBody(body.mass, moved(body.centre), turned(body.inertia), (xz, yz, xy))
    others = [Support(moved(one.place), turned(one.stiffness)) for one in supports]
    assert [mode.frequency for mode in swing_modes(other, others)] == pytest.approx(plain, rel=1e-7)
