"""Mounts in the cases a workshop meets."""

import math

import numpy as np
import pytest

from hushwright.errors import InvalidInput
from hushwright.physics.mechanics import air_spring, mobility, rubber
from hushwright.physics.mechanics.air_limits import piston_limit
from hushwright.physics.mechanics.air_spring import UnderFloorAir, floor_resonances, piston_air_stiffness
from hushwright.physics.mechanics.elastic_mount import ElasticMount, pad_mount
from hushwright.physics.mechanics.insertion_loss import (
    MountPath,
    bridge_mobility,
    floor_reduction_improvement,
    insertion_loss,
    mount_impedances,
)
from hushwright.physics.mechanics.mobility import (
    floating_floor_mobility,
    joined_mobility,
    mass_mobility,
    plate_mobility,
)
from hushwright.physics.mechanics.mounted_floor import PlacedMount, settle
from hushwright.physics.mechanics.rigid_body import box_body, combined_body
from hushwright.physics.mechanics.snubber import Snubber
from hushwright.physics.mechanics.suspension import Support, point_mobility, rest_on, swing_modes
from hushwright.physics.mechanics.transmissibility import rubber_transmissibility

MOUNT = ElasticMount(130e3, 65e3, 196.0, 1030.0, free_height=0.030, free_travel=0.012, rubber_mass=0.04)
ROOM = box_body(444.0, (0.0, 0.0, 0.9), (2.2, 1.6, 1.9))
PLACES = [(x, y, 0.0) for x in (-1.0, -0.33, 0.33, 1.0) for y in (-0.65, 0.0, 0.65)]
TWELVE = [PlacedMount(place, MOUNT) for place in PLACES]
YEAR = 365.25 * 86400.0


def test_a_floor_on_rubber_helps_above_its_resonance_and_harms_at_it():
    # common practice, no source
    frequency = np.array([11.0, 63.0, 125.0, 500.0])
    floor = floating_floor_mobility(444.0, 12, 3.4, 3000.0, 22.0, frequency)
    # heavy, stiff place: a mount over a sill
    gain = floor_reduction_improvement(MountPath(182e3, 0.1), 12, 2e-5, floor, frequency)
    assert gain[0] < -5.0
    assert np.all(gain[1:] > 5.0)


def test_a_mount_on_thin_sheet_gains_less_than_on_a_rib():
    # common practice, no source: mount over ribs, not over the open sheet
    frequency = np.array([125.0, 250.0])
    floor = floating_floor_mobility(444.0, 12, 3.4, 3000.0, 22.0, frequency)
    sheet = plate_mobility(14.0, 7.02)
    rib = joined_mobility(sheet, mobility.beam_mobility(20_000.0, 2.0, frequency))
    on_sheet, on_rib = (insertion_loss(MountPath(182e3), base, floor, frequency) for base in (sheet, rib))
    assert np.all(on_rib > on_sheet)


def test_waves_in_the_mount_cap_its_gain():
    frequency = np.array([3000.0, 6000.0])
    with_waves = insertion_loss(MountPath(182e3, 0.1, 0.05), 1e-5, 5e-4, frequency)
    without = insertion_loss(MountPath(182e3, 0.1), 1e-5, 5e-4, frequency)
    assert np.all(with_waves < without)
    assert MountPath(182e3, 0.1, 0.05).first_wave_frequency == pytest.approx(954.0, abs=1.0)


def test_the_demo_mounts_stay_in_their_range_with_four_people():
    people = [box_body(75.0, (x, y, 0.9), (0.3, 0.5, 1.8)) for x in (-0.4, 0.4) for y in (-0.3, 0.3)]
    for body in (ROOM, combined_body([ROOM, *people])):
        room = settle(body, TWELVE)
        assert {state.status for state in room.states} == {"in range"}
        assert sum(state.load for state in room.states) == pytest.approx(body.mass * 9.80665)


def test_people_on_one_side_tilt_the_floor_towards_them():
    crowd = combined_body([ROOM, box_body(300.0, (0.0, 0.5, 0.9), (0.3, 0.5, 1.8))])
    room = settle(crowd, TWELVE)
    assert room.states[2].load > room.states[0].load
    assert room.states[2].height < room.states[0].height
    assert room.rest.tilt > settle(ROOM, TWELVE).rest.tilt


def test_too_much_load_makes_a_mount_rigid():
    state = MOUNT.under(1100.0)
    assert state.status == "overloaded"
    assert state.is_rigid
    assert "1100 N" in state.notes[0]


def test_a_mount_pressed_through_its_travel_is_bottomed():
    soft = ElasticMount(50e3, 25e3, 100.0, 1030.0, 0.030, 0.012)
    state = soft.under(700.0)
    assert state.status == "bottomed"
    assert math.isinf(state.spring_stiffness)
    assert state.height == pytest.approx(0.018)


def test_a_mount_may_bottom_after_a_year_by_creep_alone():
    soft = ElasticMount(60e3, 30e3, 100.0, 1030.0, 0.030, 0.012, creep_per_decade=0.06)
    assert soft.under(600.0).status == "in range"
    assert soft.under(600.0, duration=YEAR).status == "bottomed"


def test_an_underloaded_mount_is_flagged_but_still_a_spring():
    state = MOUNT.under(100.0)
    assert state.status == "underloaded"
    assert not state.is_rigid
    assert state.notes


def test_a_pulled_mount_is_flagged():
    state = MOUNT.under(-20.0)
    assert state.status == "lifted"
    assert state.height > MOUNT.free_height


def test_frost_raises_the_resonance():
    warm, cold = (settle(ROOM, TWELVE, temperature=one) for one in (20.0, -20.0))
    assert cold.vertical_stiffness == pytest.approx(1.5 * warm.vertical_stiffness)
    assert cold.rest.deflections[0] == pytest.approx(warm.rest.deflections[0] / 1.5)
    assert cold.rest.loads == pytest.approx(warm.rest.loads)


def test_rubber_moves_more_stiffly_than_it_sags():
    state = MOUNT.under(500.0)
    assert state.deflection == pytest.approx(500.0 / 130e3)
    assert state.spring_stiffness == pytest.approx(1.4 * 130e3)
    assert state.shear_spring_stiffness == pytest.approx(1.4 * 65e3)


def test_beyond_the_temperature_table_the_value_comes_with_a_note():
    assert "continued beyond the table" in MOUNT.under(500.0, temperature=-40.0).notes[0]
    assert rubber.temperature_factor(50.0)[1]


def test_strong_compression_is_noted():
    assert any("15 %" in note for note in MOUNT.under(700.0).notes)


def test_bottomed_mounts_become_bridges():
    heavy = box_body(1500.0, (0.0, 0.0, 0.9), (2.2, 1.6, 1.9))
    room = settle(heavy, TWELVE)
    assert room.rigid_count == 12
    assert all(path.is_rigid for path in room.paths)
    assert insertion_loss(room.paths[0], 1e-3, 1e-3, [100.0, 1000.0]).tolist() == [0.0, 0.0]


def test_a_snubber_is_silent_until_its_gap_closes():
    stop = Snubber(gap=0.006)
    assert stop.stiffness(0.0019) == 0.0
    assert math.isinf(stop.stiffness(-0.006))
    path = MountPath(182e3 + stop.stiffness(0.007))
    assert path.is_rigid


def test_one_touching_stop_caps_the_whole_floor():
    frequency = np.array([2000.0])
    free, touching = (
        floor_reduction_improvement(MountPath(50e3), 12, 1e-4, 1e-4, frequency, rigid_count=one) for one in (0, 1)
    )
    assert float(free[0]) > 25.0
    assert float(touching[0]) < 10.8


def test_partly_open_edges_split_the_resonance():
    spring = 12 * 182e3
    open_, part, closed = (
        floor_resonances(444.0, spring, UnderFloorAir(3.4, 0.025, 0.79, open_share=one)) for one in (1.0, 0.2, 0.0)
    )
    assert open_[0].frequency < 11.2 < closed[0].frequency
    assert len(part) == 2
    assert sum(one.mass_share for one in part) == pytest.approx(1.0, abs=0.02)
    assert min(one.frequency for one in part) < open_[0].frequency


def test_many_small_openings_vent_better_than_one():
    spring = 12 * 182e3
    one, many = (
        floor_resonances(444.0, spring, UnderFloorAir(3.4, 0.025, 0.79, open_share=0.2, opening_spacing=spacing))[0]
        for spacing in (0.0, 0.3)
    )
    assert many.frequency < one.frequency
    assert many.mass_share > 0.8


def test_all_four_edges_vent_better_than_two():
    two, four = (air_spring.flow_path_of_rectangle(2.25, 1.58, all_edges_open=one) for one in (False, True))
    assert four < two


def test_air_counts_beside_the_mounts_only_while_it_moves_as_one_piece():
    space = UnderFloorAir(3.4, 0.025, 0.79)
    limit = piston_limit(space.flow_path)
    low, high = piston_air_stiffness(space, [0.9 * limit, 1.1 * limit])
    assert low.real < 0.0
    assert high == 0.0


def test_closed_air_takes_the_gain_of_the_mounts():
    frequency = np.array([31.5, 40.0])
    floor = mass_mobility(444.0 / 12, frequency)
    closed = air_spring.air_stiffness(UnderFloorAir(3.4, 0.025, 0.79, open_share=0.0), frequency)
    alone = floor_reduction_improvement(MountPath(182e3), 12, 1e-6, floor, frequency)
    with_air = floor_reduction_improvement(MountPath(182e3), 12, 1e-6, floor, frequency, air_stiffness=closed)
    assert np.all(alone > 10.0)
    assert np.all(with_air < 0.0)


def test_a_pad_mount_takes_its_range_from_fifteen_per_cent():
    mount = pad_mount(45.0, 0.050, 0.050, 0.025)
    assert mount.under(mount.highest_load).deflection == pytest.approx(0.15 * 0.025)
    assert mount.rubber_mass == pytest.approx(1100.0 * 0.05 * 0.05 * 0.025)


def test_a_solid_box_far_above_its_modes_is_its_mass():
    supports = settle(ROOM, TWELVE).supports
    up = (ROOM.centre, (0.0, 0.0, 1.0))
    assert abs(complex(point_mobility(ROOM, supports, up, up, 2000.0))) == pytest.approx(
        abs(complex(mass_mobility(444.0, 2000.0))), rel=0.01
    )


def test_modes_are_named_and_share_their_energy():
    modes = swing_modes(ROOM, settle(ROOM, TWELVE).supports)
    assert {mode.motion for mode in modes} >= {"up and down", "yaw"}
    for mode in modes:
        assert sum(mode.energy_shares) == pytest.approx(1.0)
        assert mode.loss_factor == pytest.approx(0.1)


def test_values_can_be_kept_in_sets():
    assert len({MOUNT, MOUNT, ROOM, TWELVE[0], MountPath(1e5), UnderFloorAir(3.4, 0.03, 0.8), Snubber(0.006)}) == 6


def test_rubber_under_a_mass_without_losses_has_no_finite_peak():
    with pytest.raises(InvalidInput, match="no finite transmissibility"):
        rubber_transmissibility([0.5, 1.0], 0.0)


WRONG = {
    "hardness": lambda: rubber.rubber_moduli(90.0),
    "ratio hardness": lambda: rubber.dynamic_ratio_estimate(30.0),
    "glass": lambda: rubber.temperature_factor(-80.0),
    "short table": lambda: rubber.temperature_factor(0.0, ((0.0, 1.0),)),
    "soft factor": lambda: rubber.temperature_factor(0.0, ((0.0, 0.0), (20.0, 1.0))),
    "short time": lambda: rubber.creep_deflection(0.001, 0.05, 1.0),
    "ring": lambda: rubber.ring_stiffness(50.0, 0.02, 0.03, 0.01),
    "bulk": lambda: rubber.compression_modulus(1e6, 0.8, 1.0, 0.0),
    "range": lambda: ElasticMount(1e5, 5e4, 500.0, 400.0, 0.03, 0.01),
    "travel": lambda: ElasticMount(1e5, 5e4, 100.0, 400.0, 0.03, 0.04),
    "ratio": lambda: ElasticMount(1e5, 5e4, 100.0, 400.0, 0.03, 0.01, dynamic_ratio=0.8),
    "load": lambda: MOUNT.under(math.nan),
    "slit": lambda: UnderFloorAir(3.4, 0.03, 0.8, edge_slit=0.05),
    "volume": lambda: UnderFloorAir(3.4, 0.03, 0.8, volume_beyond=0.0),
    "share": lambda: UnderFloorAir(3.4, 0.03, 0.8, open_share=1.5),
    "sides": lambda: air_spring.flow_path_of_rectangle(1.0, 2.0, all_edges_open=True),
    "resonance": lambda: floor_resonances(1e6, 1.0),
    "frequency": lambda: mass_mobility(1.0, [0.0, 10.0]),
    "place": lambda: mobility.bay_mobility(14.0, 7.0, (0.5, 0.4), (0.6, 0.1), 0.02, 100.0),
    "count": lambda: floating_floor_mobility(444.0, 0, 3.4, 3000.0, 22.0, 100.0),
    "no joint": lambda: joined_mobility(0.0),
    "stiffness": lambda: MountPath(0.0),
    "rigid": lambda: mount_impedances(MountPath(math.inf), 100.0),
    "nothing moves": lambda: insertion_loss(MountPath(1e5), 0.0, 0.0, 100.0),
    "rigid count": lambda: floor_reduction_improvement(MountPath(1e5), 4, 1e-3, 1e-3, 100.0, rigid_count=5),
    "no ways": lambda: floor_reduction_improvement(MountPath(1e5), 0, 1e-3, 1e-3, 100.0),
    "contact": lambda: Snubber(0.006, 0.0),
    "no bodies": lambda: combined_body([]),
    "in a line": lambda: rest_on(ROOM, [Support((x, 0.0, 0.9), (1e5, 1e5, 1e5)) for x in (-1.0, 0.0, 1.0)]),
    "place of support": lambda: Support((math.nan, 0.0, 0.0), (1e5, 1e5, 1e5)),
    "no direction": lambda: point_mobility(
        ROOM, [], ((0.0, 0.0, 0.0), (0.0, 0.0, 0.0)), ((0.0, 0.0, 0.0), (0.0, 0.0, 1.0)), 10.0
    ),
}


@pytest.mark.parametrize("call", WRONG.values(), ids=WRONG.keys())
def test_impossible_input_is_refused_with_its_value(call):
    with pytest.raises(InvalidInput, match=r"\d|nan|inf"):
        call()


def test_a_rigid_bridge_has_no_mobility_and_a_soft_one_that_of_its_spring():
    assert bridge_mobility(MountPath(math.inf), [100.0]).tolist() == [0.0]
    expected = 2j * math.pi * 100.0 / (182e3 * (1 + 0.1j))
    assert complex(bridge_mobility(MountPath(182e3, 0.1), 100.0)) == pytest.approx(expected)
