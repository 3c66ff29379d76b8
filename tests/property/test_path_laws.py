"""Laws of leaks, flanking, mounts, incidence and the tiny room."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hushwright.physics.acoustics.bands import FREQUENCIES
from hushwright.physics.acoustics.flanking import skin_flanking
from hushwright.physics.acoustics.incidence import OutdoorSource, face_incidence
from hushwright.physics.acoustics.leaks import Element, composite_reduction
from hushwright.physics.acoustics.mounts_path import MountedFloor, airborne_velocity_squared, mount_borne_power
from hushwright.physics.acoustics.ribs import Rib, Sheet, rib_transmission_at, skin_velocity_difference
from hushwright.physics.acoustics.room_field import joined_gain, path_gain, source_gain
from hushwright.physics.acoustics.rooms import FaceOnRoom, PointSource, RoomField
from hushwright.physics.acoustics.slits import Slit, joint_reduction, slit_transmission

SKIN = Sheet(7.07, 14.0, (0.02,) * 27)
SECTION = ((-0.79, 0.0), (0.79, 0.0), (0.79, 1.1), (0.6, 1.9), (-0.6, 1.9), (-0.79, 1.1))


def room(absorption_area=5.0, length=2.25):
    return RoomField(SECTION, length, (absorption_area,) * 27)


# leaks


@given(width=st.floats(0.05e-3, 5e-3), share=st.floats(1.05, 1.5))
@settings(max_examples=30, deadline=None)
def test_wider_joint_passes_more_below_its_resonance(width, share):
    low = FREQUENCIES[:17]
    wide = joint_reduction(Slit(width * share, 0.04, "edge"), low)
    assert np.all(wide < joint_reduction(Slit(width, 0.04, "edge"), low))


@given(depth=st.floats(0.02, 0.1))
@settings(max_examples=20, deadline=None)
def test_nothing_jumps_where_friction_takes_over(depth):
    for edge in (0.5e-3, 1.0e-3):
        below = slit_transmission(Slit(edge * (1 - 1e-6), depth))
        above = slit_transmission(Slit(edge * (1 + 1e-6), depth))
        assert below == pytest.approx(above, rel=1e-3)


def test_friction_only_takes():
    for width in (0.1e-3, 0.3e-3, 0.5e-3):
        with_friction = -10 * np.log10(slit_transmission(Slit(width, 0.04)))[:17]
        ten_times = -10 * np.log10(slit_transmission(Slit(10 * width, 0.4)))[:1]
        assert np.all(with_friction > ten_times - 3.0)


@given(
    areas=st.lists(st.floats(0.01, 10.0), min_size=2, max_size=5),
    values=st.lists(st.floats(0.0, 70.0), min_size=5, max_size=5),
)
@settings(max_examples=40, deadline=None)
def test_composite_lies_between_its_parts(areas, values):
    parts = tuple(Element(area, (value,)) for area, value in zip(areas, values, strict=False))
    used = values[: len(areas)]
    assert min(used) - 1e-9 <= composite_reduction(parts)[0] <= max(used) + 1e-9


# flanking


@given(
    mass=st.floats(0.0, 20.0),
    stiffness=st.floats(0.0, 1e5),
    inertia=st.floats(0.0, 0.1),
    torsion=st.floats(0.0, 1e4),
    angle=st.floats(0.0, 1.5),
)
@settings(max_examples=60, deadline=None)
def test_rib_passes_between_nothing_and_all(mass, stiffness, inertia, torsion, angle):
    passed = rib_transmission_at(SKIN, Rib(mass, stiffness, inertia, torsion), FREQUENCIES, [angle])
    assert np.all((passed >= -1e-12) & (passed <= 1.0 + 1e-9))


def test_no_rib_passes_all():
    angles = np.linspace(0.0, 1.5, 7)
    assert rib_transmission_at(SKIN, Rib(0.0), [100.0, 1000.0], angles) == pytest.approx(np.ones((2, 7)))


@given(loss=st.floats(0.003, 0.1), factor=st.floats(1.2, 5.0), ribs=st.integers(1, 5))
@settings(max_examples=20, deadline=None)
def test_damping_and_ribs_quieten_the_skin(loss, factor, ribs):
    rib = Rib(1.0, 8000.0, 8e-4, 4000.0)
    dull = Sheet(7.07, 14.0, (loss,) * 27)
    damped = Sheet(7.07, 14.0, (loss * factor,) * 27)
    few = np.asarray(skin_velocity_difference(dull, (0.5,) * (ribs + 1), (rib,) * ribs, 1))
    assert np.all(np.asarray(skin_velocity_difference(damped, (0.5,) * (ribs + 1), (rib,) * ribs, 1)) > few)
    more = np.asarray(skin_velocity_difference(dull, (0.5,) * (ribs + 2), (rib,) * (ribs + 1), 1))
    assert np.all(more > few)


def test_flanking_uncertainty_grows_with_what_the_ribs_are_credited_for():
    bays = (0.5,) * 4
    bare = skin_flanking((30.0,) * 27, (60.0,) * 27, SKIN, bays, (Rib(0.0),) * 3, 2, 1.8, 3.0)
    ribbed = skin_flanking((30.0,) * 27, (60.0,) * 27, SKIN, bays, (Rib(2.0, 1e4, 1e-3, 5e3),) * 3, 2, 1.8, 3.0)
    assert min(ribbed.standard_uncertainty) > max(bare.standard_uncertainty)
    assert np.all(np.asarray(ribbed.reduction) > np.asarray(bare.reduction))


# mounts


def test_softer_mounts_and_calmer_base_pass_less():
    floor = MountedFloor(1.58, 2.25, 25.0, 4000.0, (0.05,) * 27, 744.0)
    base = tuple(airborne_velocity_squared((70.0,) * 27, (20.0,) * 27, 0.6, 1.6).tolist())
    calm = tuple(airborne_velocity_squared((60.0,) * 27, (20.0,) * 27, 0.6, 1.6).tolist())
    mobility = (2e-4 + 0j,) * 27
    hard = mount_borne_power(base, mobility, (0.0,) * 27, 12, floor)
    soft = mount_borne_power(base, mobility, (15.0,) * 27, 12, floor)
    quiet = mount_borne_power(calm, mobility, (0.0,) * 27, 12, floor)
    few = mount_borne_power(base, mobility, (0.0,) * 27, 6, floor)
    assert np.asarray(soft.power) == pytest.approx(np.asarray(hard.power) * 10.0**-1.5)
    assert np.asarray(quiet.power) == pytest.approx(0.1 * np.asarray(hard.power))
    assert few.power[16] < hard.power[16]


def test_heavier_floor_radiates_less_from_its_mounts():
    light = MountedFloor(1.58, 2.25, 12.0, 4000.0, (0.05,) * 27, 500.0)
    heavy = MountedFloor(1.58, 2.25, 30.0, 4000.0, (0.05,) * 27, 900.0)
    given_base = ((1e-10,) * 27, (2e-4 + 0j,) * 27, (0.0,) * 27, 12)
    assert np.all(
        np.asarray(mount_borne_power(*given_base, heavy).power)
        < np.asarray(mount_borne_power(*given_base, light).power)
    )


# incidence


@given(bearing=st.floats(-math.pi, math.pi), width=st.floats(0.0, math.pi))
@settings(max_examples=40, deadline=None)
def test_incident_level_stays_between_shadow_and_doubling(bearing, width):
    source = OutdoorSource(bearing, width)
    for face in ("front", "rear", "left", "right", "roof", "floor"):
        seen = face_incidence(face, source, (8.0,), 4.3, 1.9)
        assert min(seen.incident) >= -8.0 - 1e-9
        assert max(seen.incident) <= 6.03
        assert max(seen.at_face) <= 6.03
        assert 0.0 <= seen.lowest < seen.highest <= 0.5 * math.pi + 1e-12


def test_mirrored_source_mirrors_the_faces():
    left = face_incidence("left", OutdoorSource(1.0, 0.4), (8.0,), 4.3, 1.9)
    right = face_incidence("right", OutdoorSource(-1.0, 0.4), (8.0,), 4.3, 1.9)
    assert left.incident == pytest.approx(right.incident)


def test_sound_from_everywhere_adds_nothing():
    """The mean of cosθ over all directions is ¼ (Kuttruff, Room Acoustics): level with R = free-field level."""
    everywhere = OutdoorSource(0.0, math.pi, -0.5 * math.pi, 0.5 * math.pi)
    seen = face_incidence("left", everywhere, (60.0,), 4.3, 1.9)
    assert seen.incident[26] == pytest.approx(0.0, abs=0.1)


def test_lee_side_takes_the_diffuse_reduction_and_the_shadow():
    seen = face_incidence("right", OutdoorSource(0.5 * math.pi, 0.2), (8.0,), 4.3, 1.9)
    assert (seen.lowest, seen.highest) == (0.0, 0.5 * math.pi)
    assert seen.incident == pytest.approx((-8.0,) * 27)


# room


@given(factor=st.floats(1.2, 4.0))
@settings(max_examples=10, deadline=None)
def test_more_absorption_quietens_the_room_on_average(factor):
    face = FaceOnRoom("edge", 1, 2.0)
    live = np.asarray(path_gain(room(2.0), face, (35.0,) * 27).gain)
    dead = np.asarray(path_gain(room(2.0 * factor), face, (35.0,) * 27).gain)
    assert dead.mean() < live.mean()
    assert np.all(dead[15:] < live[15:])


def test_gain_does_not_depend_on_a_well_isolated_wall():
    face = FaceOnRoom("end_rear", None, 2.0)
    assert path_gain(room(), face, (35.0,) * 27).gain == pytest.approx(
        path_gain(room(), face, (60.0,) * 27).gain, abs=0.5
    )


def test_room_pushes_back_on_a_thin_wall():
    face = FaceOnRoom("end_rear", None, 2.0)
    thin = path_gain(RoomField(SECTION, 0.5, (0.5,) * 27), face, (1.0,) * 27).gain
    thick = path_gain(RoomField(SECTION, 0.5, (0.5,) * 27), face, (40.0,) * 27).gain
    assert thin[0] < thick[0] - 6.0


def test_mirrored_room_has_mirrored_faces():
    right = path_gain(room(), FaceOnRoom("edge", 1, 1.5), (35.0,) * 27).gain
    left = path_gain(room(), FaceOnRoom("edge", 5, 1.5), (35.0,) * 27).gain
    assert right == pytest.approx(left, abs=0.3)


def test_source_in_a_corner_is_louder_than_in_the_middle_at_the_first_modes():
    corner = source_gain(room(), PointSource((0.05, -0.75, 0.05)), None)
    middle = source_gain(room(), PointSource((1.1, 0.0, 0.9)), None)
    assert np.mean(corner.space_mean[3:9]) > np.mean(middle.space_mean[3:9]) + 3.0


def test_uniform_pressure_does_not_vary_over_places():
    small = RoomField(((0.0, 0.0), (0.5, 0.0), (0.5, 0.5), (0.0, 0.5)), 0.5, (0.2,) * 27)
    spread = path_gain(small, FaceOnRoom("edge", 0, 0.25), (35.0,) * 27).spread
    assert spread[0] < 0.1
    assert max(path_gain(room(), FaceOnRoom("edge", 1, 2.0), (35.0,) * 27).spread) > 2.0


@pytest.mark.parametrize("share", [1.0, 0.4])
def test_box_turned_on_its_side_keeps_its_levels(share):
    """The same wall once as an end (finite elements) and once over an edge (cosines): 1.6 m × 1.9 m × 2.25 m."""
    wide, high, long = 1.6, 1.9, 2.25
    standing = RoomField(((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)), long, (4.0,) * 27)
    turned = RoomField(((0.0, 0.0), (long, 0.0), (long, high), (0.0, high)), wide, (4.0,) * 27)
    area = share * wide * high
    as_end = path_gain(standing, FaceOnRoom("end_rear", None, area), (35.0,) * 27)
    over_edge = path_gain(turned, FaceOnRoom("edge", 1, area), (35.0,) * 27)
    limit = 0.3 if share == 1.0 else 1.0  # parts of an end are cut to the sample points
    assert as_end.gain == pytest.approx(over_edge.gain, abs=limit)
    assert as_end.spread == pytest.approx(over_edge.spread, abs=0.8)


def test_wall_split_into_two_edges_keeps_its_gain():
    box = ((0.0, 0.0), (1.6, 0.0), (1.6, 1.9), (0.0, 1.9))
    split = ((0.0, 0.0), (1.6, 0.0), (1.6, 0.9), (1.6, 1.9), (0.0, 1.9))
    whole = path_gain(RoomField(box, 2.25, (4.0,) * 27), FaceOnRoom("edge", 1, 1.9 * 2.25), (35.0,) * 27)
    pieces = (FaceOnRoom("edge", 1, 0.9 * 2.25), FaceOnRoom("edge", 2, 1.0 * 2.25))
    joined = joined_gain(RoomField(split, 2.25, (4.0,) * 27), pieces, (35.0,) * 27)
    difference = np.abs(np.asarray(whole.gain) - np.asarray(joined.gain))
    assert difference.max() < 1.5  # at the first mode across the split the whole cancels what its halves do not
    assert difference[:3].max() < 0.5
    assert difference[12:].max() < 0.5
