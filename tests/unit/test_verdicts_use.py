"""Moving and working: each check of use trips and clears, and hand calculations agree."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.coupled import core_of, edited, verdicts_of
from tests.plain_builds import two_rooms

from hushwright.evaluation.mass.envelopes import angle_between, apart, circle, hull, rectangle, sector, through
from hushwright.evaluation.results.use import Swept
from hushwright.model.use_in_place import SwingInPlace, WindowInPlace

PLACE = """\
workplace:
  eye: {station: 600, height: 1200}
  seat_height: 450
  desk_underside: 680
  controls: [{name: recorder, station: 900, offset: 300, height: 800}]
  speakers: [{station: 1100, offset: 289, height: 1200}, {station: 1100, offset: -289, height: 1200}]
  singers: [{station: 3600, height: 1400}, {station: 3600, offset: 300, height: 1400}]
  camera: {station: 2600, height: 1700, field: 60°}
"""
BUILD = two_rooms(
    rest="openings:\n  window: {kind: window, face: quiet_room.front, width: 700, height: 500, sill: 1000,"
    " layers: [{glass: laminated glass, thickness: 10.8}]}\n"
    "  door: {kind: door, face: quiet_room.rear, width: 600, height: 1600, sill: 50,"
    " layers: [{limp: heavy sheet, thickness: 2}], swing: {hinge: left, opens: in}}\n"
    "fittings:\n"
    "  - {name: desk, mass: 40 kg, station: 1000, height: 900, envelope: {length: 500, width: 1200, height: 400}}\n"
    "  - {name: drawer, mass: 5 kg, station: 1000, height: 500, envelope: {length: 400, width: 400, height: 200},"
    " out: {station: 600, height: 500}}\n"
    "  - {name: shelf, mass: 9 kg, station: 3500, height: 800, envelope: {length: 400, width: 600, height: 500}}\n"
    + PLACE
).replace("    takes: yes\n", "    takes: yes\n    open: [door]\n    out: [drawer]\n")


def outcome(text: str, name: str) -> str:
    return verdicts_of(text)[name].verdict


def test_the_build_clears_everything() -> None:
    names = ("clearance-record", "knee-room-seat", "reach-seat", "sight-line-seat", "speaker-angle-seat",
             "camera-field-seat")  # fmt: skip
    assert {outcome(BUILD, name) for name in names} == {"meets"}


@pytest.mark.parametrize(
    ("name", "old", "new"),
    [
        ("clearance-record", "station: 3500, height: 800", "station: 4300, height: 800"),  # in the way of the door
        ("clearance-record", "out: {station: 600,", "out: {station: 100,"),  # through the front wall
        ("clearance-record", "envelope: {length: 400, width: 600,",
         "envelope: {turning_radius: 1100, length: 400, width: 600,"),
        ("clearance-record", "envelope: {length: 400, width: 400, height: 200}",
         "envelope: {length: 400, width: 400, height: 500}"),  # into the desk
        ("knee-room-seat", "desk_underside: 680", "desk_underside: 560"),
        ("knee-room-seat", "seat_height: 450", "seat_height: 450\n  thighs: 300"),
        ("reach-seat", "station: 900, offset: 300, height: 800", "station: 1500, offset: 300, height: 800"),
        ("reach-seat", "seat_height: 450", "seat_height: 450\n  reach: 400"),
        ("reach-seat", "seat_height: 450", "seat_height: 450\n  shoulder_below_eye: 50\n  reach: 450"),
        ("sight-line-seat", "offset: 300, height: 1400}]", "offset: 900, height: 1400}]"),
        ("speaker-angle-seat", "offset: 289", "offset: 800"),
        ("speaker-angle-seat", "seat_height: 450", "seat_height: 450\n  base_angle: 90°"),
        ("camera-field-seat", "field: 60°", "field: 20°"),
    ],
)  # fmt: skip
def test_a_fault_is_found(name: str, old: str, new: str) -> None:
    assert outcome(edited(BUILD, (old, new)), name) == "fails"


def test_a_tolerance_decides_how_far_loudspeakers_may_be_off() -> None:
    wide = edited(BUILD, ("offset: 289", "offset: 500"))
    assert outcome(wide, "speaker-angle-seat") == "unproven" or outcome(wide, "speaker-angle-seat") == "fails"
    assert (
        outcome(edited(wide, ("seat_height: 450", "seat_height: 450\n  base_tolerance: 30°")), "speaker-angle-seat")
        == "meets"
    )


def test_a_state_in_which_nothing_is_out_or_open_has_its_own_clearance() -> None:
    found = core_of(BUILD).quantities
    # At rest the drawer (400..600 mm high) stays 100 mm under the desk (700..1100 mm); the shelf is 0.74 m from it all.
    assert found["clearance/record"].value == pytest.approx(0.1)


def test_what_is_carried_out_of_doors_does_not_strike_the_wall() -> None:
    out = edited(BUILD, ("out: {station: 600, height: 500}", "out: {station: 600, offset: -1500, height: 500}"))
    assert outcome(out, "clearance-record") == "meets"


def test_sizes_of_the_out_place_count() -> None:
    # The drawer's out place, 600 mm behind the front finished face at 30: half of a length of 1.2 m reaches it.
    longer = edited(BUILD, ("height: 200},", "height: 200, out_length: 1200},"))
    assert outcome(longer, "clearance-record") == "fails"
    wider = edited(BUILD, ("height: 200},", "height: 200, out_width: 1900},"))
    assert outcome(wider, "clearance-record") == "fails"


def test_knee_room_reach_and_sight_line_by_hand() -> None:
    found = core_of(BUILD).quantities
    assert found["knee-room"].value == pytest.approx(0.680 - 0.450 - 0.180)
    assert found["reach"].value == pytest.approx(math.sqrt(0.3**2 + 0.3**2 + 0.2**2))
    # From the eye (0.6, 0, 1.2) to the singer (3.6, 0.3, 1.4): at the far end of the wall, station 2.46, 0.62 of the
    # way, the line is 0.186 to the left and 1.324 high; the window reaches to 0.35 and from 1.0 to 1.5.
    assert found["sight-line"].value == pytest.approx(min(0.35 - 0.186, 0.25 - abs(1.324 - 1.25)))
    assert found["speaker-angle"].value == pytest.approx(abs(2 * math.atan(0.289 / 0.5) - math.pi / 3))
    assert found["camera-field"].value == pytest.approx(math.radians(30) - math.atan(0.3 / math.hypot(1.0, 0.3)))


def test_a_door_sweeps_the_quarter_circle_at_its_hinge() -> None:
    door = SwingInPlace("door", (4.0, 0.3), (0.0, -1.0), (-1.0, 0.0), math.pi / 2, 0.6, 0.0, 2.0, "")
    corners = sector(door)
    assert min(x for x, _ in corners) == pytest.approx(3.4)
    assert min(y for _, y in corners) == pytest.approx(-0.3)
    assert all(math.dist(corner, door.hinge) <= 0.6 + 1e-9 for corner in corners)


def test_a_face_behind_the_window_pane_or_before_it_is_not_seen_through_it() -> None:
    pane = WindowInPlace("window", (2.0, 2.2), 0.0, 1.3, 0.8, 0.6)
    assert through((1.0, 0.0, 1.2), (1.5, 0.0, 1.4), pane) < 0.0
    assert through((1.0, 0.0, 1.2), (1.0, 0.5, 1.4), pane) < 0.0


sizes, places = st.floats(0.05, 1.0), st.floats(-2.0, 2.0)


@given(places, places, places, places, sizes, sizes, sizes, sizes)
@settings(max_examples=60, deadline=None)
def test_distance_of_two_boxes_is_what_their_sides_say_and_never_too_large(
    x: float, y: float, u: float, v: float, a: float, b: float, c: float, d: float
) -> None:
    one = Swept("one", rectangle((x, y, 0.0), (a, b, 1.0)), 0.0, 1.0, "", True)
    other = Swept("other", rectangle((u, v, 0.0), (c, d, 1.0)), 0.0, 1.0, "", False)
    along, across = abs(x - u) - (a + c) / 2, abs(y - v) - (b + d) / 2
    assert apart(one, other) == pytest.approx(max(along, across, -1.0), abs=1e-9)
    assert apart(one, other) == pytest.approx(apart(other, one), abs=1e-9)
    if along > 0 and across > 0:
        assert apart(one, other) <= math.hypot(along, across)


@given(places, places, sizes)
@settings(max_examples=40, deadline=None)
def test_a_circle_is_drawn_round_and_its_hull_is_itself(x: float, y: float, radius: float) -> None:
    corners = circle((x, y, 0.0), radius)
    assert len(hull(corners)) == len(corners)
    assert all(math.dist((x, y), corner) >= radius for corner in corners)


@given(st.floats(-3.0, 3.0), st.floats(0.0, 3.0))
@settings(max_examples=40, deadline=None)
def test_an_angle_is_the_same_whichever_way_round_it_is_seen(first: float, between: float) -> None:
    one = (math.cos(first), math.sin(first), 0.0)
    other = (math.cos(first + between), math.sin(first + between), 0.0)
    assert angle_between((0.0, 0.0, 0.0), one, other) == pytest.approx(between, abs=1e-9)
    assert angle_between((0.0, 0.0, 0.0), other, one) == pytest.approx(between, abs=1e-9)
