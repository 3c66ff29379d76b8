"""The Build by hand: rooms, wheel boxes, layers with mass and centre, doors, mounts, states."""

import math

import pytest
from tests.coupled import DEMO, build_of, edited, value_of
from tests.plain_builds import plain_build, two_rooms

from hushwright.model.battens import batten_mass
from hushwright.model.build import Build, MassItem, Room, Surface


def room(build: Build, name: str = "quiet_room") -> Room:
    return next(each for each in build.rooms if each.name == name)


def face(build: Build, name: str) -> Surface:
    owner, _, which = name.partition(".")
    surface = room(build, owner).surface(which)
    assert surface is not None
    return surface


def item(build: Build, name: str) -> MassItem:
    return next(each for each in build.masses if each.name == name)


def test_the_demo_room_is_as_wide_and_high_as_worked_out_by_hand() -> None:
    quiet = room(build_of(DEMO))
    # Upright up to 1.2 m: 1800 less twice 93 + 9 + 1 + 6 mm; floor 30 + 25 + 12 + 3 + 9 + 2 mm, ceiling 40 + 16 mm.
    assert quiet.section.width_at(0.8) == pytest.approx(1.800 - 2 * 0.109)
    assert quiet.section.height == pytest.approx(2.030 - 0.081 - 0.056)
    assert quiet.length == pytest.approx(2.250)
    # The loaded mounts give back about 5 mm (demo scenario: 1898 mm when loaded).
    assert value_of(DEMO, "headroom/quiet_room") == pytest.approx(1.898, abs=0.002)


def test_the_demo_room_holds_about_six_and_a_half_cubic_metres() -> None:
    assert room(build_of(DEMO)).volume == pytest.approx(6.5, abs=0.2)


def test_wheel_boxes_stand_into_the_demo_room_by_their_lining() -> None:
    build = build_of(DEMO)
    box = face(build, "quiet_room.wheel_box_left")
    # Lining 60 + 16 mm: from 675 mm off the middle to 599; the finished wall is at 791; the floor is 81 mm high.
    intrusion, rise = 0.791 - 0.599, 0.300 + 0.076 - 0.081
    length = (3.370 - 2.330) + 2 * 0.076
    assert box.area == pytest.approx((intrusion + rise) * length + 2 * intrusion * rise, rel=1e-3)
    floor = face(build, "quiet_room.floor")
    assert floor.area == pytest.approx(2.250 * 1.582 - 2 * intrusion * length, rel=1e-3)
    assert room(build).wheel_box_volume == pytest.approx(2 * intrusion * rise * length, rel=1e-3)


def test_a_van_without_wheel_boxes_has_none() -> None:
    build = build_of(DEMO.replace("  seats: 3\n", "  seats: 3\n  wheel_boxes_present: no\n"))
    assert room(build).surface("wheel_box_left") is None
    assert room(build).wheel_box_volume == 0.0


def test_a_layer_weighs_density_times_thickness() -> None:
    floor = face(build_of(DEMO), "quiet_room.floor")
    barrier = next(layer for layer in floor.layers if layer.kind == "limp")
    assert barrier.surface_density == pytest.approx(1667 * 0.003)
    skin = next(layer for layer in floor.layers if layer.kind == "skin")
    assert skin.surface_density == pytest.approx(0.0009 * 7850, rel=0.01)  # steel of 7850 kg/m³, textbook value


def test_a_damping_pad_weighs_by_its_coverage() -> None:
    left = face(build_of(DEMO), "quiet_room.left")
    pad = next(layer for layer in left.layers if layer.kind == "damping")
    full = pad.record.spread("density").value * 0.002
    assert pad.surface_density == pytest.approx(0.55 * full)


def test_battens_weigh_by_the_piece() -> None:
    build = build_of(DEMO)
    left = face(build, "quiet_room.left")
    frame = left.layers[2].cavity.frame
    length = math.fsum(piece.length for piece in left.battens)
    assert batten_mass(left, left.layers[2]) == pytest.approx(frame.sheet.density.value * 0.028 * 0.045 * length)
    inner = item(build, "quiet_room left, inner leaf").mass
    holes = sum(each.area for each in build.openings if (each.room, each.face) == ("quiet_room", "left"))
    sheets = left.inner_surface_density * (left.area - holes)
    assert inner - sheets == pytest.approx(batten_mass(left, left.layers[2]))


def test_one_leaf_lies_where_its_face_lies() -> None:
    build = build_of(plain_build(floor="        - {limp: light sheet, thickness: 4}\n"))
    leaf = next(each for each in build.masses if each.name.startswith("quiet_room floor"))
    # 4 mm of 5000 kg/m³ on 2.4 m by 1.8 m less twice 30 mm, its centre half-way along on the centre line.
    assert leaf.mass == pytest.approx(20.0 * 2.4 * 1.74)
    assert (leaf.station, leaf.y, leaf.z) == pytest.approx((1.23, 0.0, 0.004))


def test_the_inner_leaf_belongs_to_the_quiet_room_and_the_rest_to_the_body() -> None:
    build = build_of(DEMO)
    inner, outer = item(build, "quiet_room left, inner leaf"), item(build, "quiet_room left, outer layers")
    assert (inner.fixed_to, outer.fixed_to) == (("quiet",), ("body",))
    dividing = item(build, "quiet_room front, outer layers")
    assert dividing.fixed_to == ("control",)


def test_openings_are_cut_out_of_their_face() -> None:
    build, without = (
        build_of(text)
        for text in (
            DEMO,
            edited(
                DEMO,
                ("width: 740\n    height: 560", "width: 370\n    height: 560"),
                ("clear_width: 700", "clear_width: 350"),
            ),
        )
    )
    name = "quiet_room front, inner leaf"
    density = face(build, "quiet_room.front").inner_surface_density
    assert item(without, name).mass - item(build, name).mass == pytest.approx(density * 0.37 * 0.56, rel=1e-6)


def test_each_pane_of_a_window_hangs_on_its_own_leaf() -> None:
    panes = [each for each in build_of(DEMO).masses if each.name == "window"]
    lap = 2 * 0.030  # two rows of seals, 15 mm of frame for each, on either side
    area = (0.740 + lap) * (0.560 + lap)
    # Soda-lime glass of 2500 kg/m³; the interlayer of laminated glass makes it a little lighter.
    by_body = {each.fixed_to[0]: each.mass for each in panes}
    assert by_body["control"] == pytest.approx(2500 * 0.0108 * area, rel=0.03)
    assert by_body["quiet"] == pytest.approx(2500 * 0.0088 * area, rel=0.03)


def test_a_common_frame_hangs_on_the_quiet_room_alone() -> None:
    panes = [
        each for each in build_of(edited(DEMO, ("frames: separate", "frames: common"))).masses if each.name == "window"
    ]
    assert [each.fixed_to for each in panes] == [("quiet",)]


def test_the_vehicles_own_door_adds_no_mass() -> None:
    assert not [each for each in build_of(DEMO).masses if each.name in ("rear doors", "side door")]


def test_a_fitting_that_names_no_body_is_fixed_to_the_body() -> None:
    build = build_of(plain_build(rest="fittings:\n  - {name: crate, mass: 10 kg, station: 1000}\n"))
    assert item(build, "crate").fixed_to == ("body",)
    assert item(build, "crate").z == pytest.approx(0.6)


def test_the_centre_of_all_masses_is_their_mean() -> None:
    rest = (
        "fittings:\n  - {name: a, mass: 30 kg, station: 0, height: 0}\n"
        "  - {name: b, mass: 10 kg, station: 2000, height: 1000, offset: -400}\n"
    )
    build = build_of(two_rooms(rest=rest))
    moments = sum(each.mass * each.station for each in build.masses)
    assert build.centre_of_masses[0] == pytest.approx(moments / sum(each.mass for each in build.masses))


def test_mounts_in_rows_stand_between_the_wheel_boxes() -> None:
    mounts = build_of(DEMO).mounts[0]
    assert len(mounts.places) == 12
    stations = sorted({place[0] for place in mounts.places})
    offsets = sorted({place[1] for place in mounts.places})
    assert stations == pytest.approx([1.905, 1.905 + 2.04 / 3, 1.905 + 2 * 2.04 / 3, 3.945])
    assert offsets == pytest.approx([-0.57, 0.0, 0.57])


def test_a_side_opening_of_the_vehicle_belongs_to_the_room_at_its_station() -> None:
    openings = {each.name: each for each in build_of(DEMO).openings}
    assert openings["side_door"].room == "control_room"
    assert openings["rear_doors"].room == "quiet_room"


def test_the_gap_goes_round_every_edge_between_faces_with_a_space() -> None:
    edges = {frozenset((each.first, each.second)) for each in build_of(DEMO).gap_edges}
    for pair in (
        ("left", "ceiling"),
        ("left", "floor"),
        ("ceiling", "front"),
        ("right", "rear"),
        ("left", "wheel_box_left"),
    ):
        assert frozenset(pair) in edges


def test_a_bridge_of_lines_has_its_length_per_area() -> None:
    text = edited(
        DEMO,
        (
            "      edge_gap: 0..0.3 mm\n",
            "      edge_gap: 0..0.3 mm\n      bridges:\n"
            "        - {kind: line, spacing: 400}\n        - {kind: point, number: 12, stiffness: 50 N/mm}\n",
        ),
    )
    front = face(build_of(text), "quiet_room.front")
    line, point = front.bridges
    assert line.density == pytest.approx(1 / 0.4)
    assert line.stiffness is None
    assert point.density == pytest.approx(12 / front.area)
    assert point.stiffness == pytest.approx(50e3)


def test_battens_on_the_ribs_tie_the_leaves_at_every_crossing() -> None:
    left = face(build_of(edited(DEMO, ("{cavity: 93,", "{cavity: 83,"))), "quiet_room.left")
    assert [bridge.density for bridge in left.bridges] == pytest.approx([1 / (0.700 * 0.600)])


def test_a_fitting_fixed_to_body_and_quiet_room_is_a_bridge_whatever_the_room_is_called() -> None:
    text = edited(
        DEMO,
        ("quiet_room", "singing_room"),
        ("height: 1000, fixed_to: [body]", "height: 1000, fixed_to: [body, quiet]"),
    )
    text = text.replace("    singing_room: singing voice", "    quiet_room: singing voice")
    text = text.replace("    singing_room_level: 99", "    quiet_room_level: 99")
    left = face(build_of(text), "singing_room.left")
    assert [bridge.cause for bridge in left.bridges] == ["cable, fixed to both"]
    assert build_of(text).states[0].people_in("singing_room") == 4


def test_people_on_the_road_are_those_of_the_state_else_the_crew() -> None:
    with_cab = build_of(DEMO)
    without = build_of(edited(DEMO, ("    people: {cab: 2}\n", ""), ("crew_on_the_road: 2", "crew_on_the_road: 3")))
    assert with_cab.states[2].people_in("cab") == 2
    assert without.states[2].people_in("cab") == 3


def test_an_edge_gap_of_its_own_stays_with_same_as() -> None:
    text = edited(
        DEMO,
        (
            "    right: {same_as: left}\n    ceiling:\n      layers:\n        - skin: body\n"
            "        - {damping: butyl pad with aluminium foil, "
            "thickness: 2, coverage: 55 %}\n        - {cavity: 40",
            "    right: {same_as: left, edge_gap: 2}\n    ceiling:\n      layers:\n"
            "        - skin: body\n        - {damping: butyl pad with aluminium foil, thickness: 2, "
            "coverage: 55 %}\n        - {cavity: 40",
        ),
    )
    build = build_of(text)
    assert face(build, "quiet_room.right").layers == face(build, "quiet_room.left").layers
    assert face(build, "quiet_room.right").edge_gap == pytest.approx(0.002)
    assert face(build, "quiet_room.left").edge_gap == 0.0


def test_a_round_opening_has_the_area_of_a_circle() -> None:
    supply = next(each for each in build_of(DEMO).openings if each.name == "supply")
    assert supply.area == pytest.approx(math.pi / 4 * 0.125**2)


def test_a_gland_is_as_long_as_its_wall_where_the_file_does_not_say() -> None:
    build = build_of(edited(DEMO, ("    depth: 150\n", "")))
    gland = next(each for each in build.openings if each.name == "tie_lines")
    assert gland.depth == pytest.approx(0.012 + 0.003 + 0.119 + 0.016)
    assert any(each.path == "openings.tie_lines.depth" for each in build.assumptions)


def test_a_lining_that_runs_over_a_door_of_the_vehicle_is_told_but_not_where_a_floating_wall_stands_behind_it() -> None:
    door = "openings:\n  side_door: {kind: vehicle door, face: vehicle.right, width: 1000, height: 1600, offset: %s}\n"

    def told(offset: str) -> list[tuple[str, str]]:
        found = build_of(two_rooms("", door % offset)).assumptions
        return [(each.path, each.text) for each in found if "runs over" in each.text]

    [(path, text)] = told("1200")
    assert path == "surfaces.control_room.right"
    assert text.startswith("the lining of control room right runs over side door: 1.6 m² of it are in cost")
    assert told("3600") == []  # before the floating room
