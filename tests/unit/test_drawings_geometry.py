"""DXF, sheet parts and the scene, measured against the Build."""

import io
import math
from dataclasses import replace
from functools import lru_cache
from typing import Any

import ezdxf
import numpy as np
import pytest
import trimesh
from tests.coupled import DEMO, build_of
from tests.plain_builds import plain_build

from hushwright.drawings.cut_sheets import cuts_on_face
from hushwright.drawings.dividing import SHEET_LENGTH, SHEET_WIDTH, divided
from hushwright.drawings.dxf import dxf
from hushwright.drawings.elevations import side
from hushwright.drawings.levels import ceiling, floor
from hushwright.drawings.part_sheets import part_alone
from hushwright.drawings.parts import Part, parts_of
from hushwright.drawings.plan import plan
from hushwright.drawings.primitives import Arc, Dimension, Line, area_of
from hushwright.drawings.scene import air_of, edges_of, gltf, mesh_of, solids_of
from hushwright.drawings.sections import section
from hushwright.drawings.things import things_of
from hushwright.drawings.use_in_plan import places_in_plan, swings_in_plan
from hushwright.model.build import Build
from hushwright.units import System


def demo() -> Build:
    return build_of(DEMO)


@lru_cache(maxsize=1)
def demo_parts() -> tuple[Part, ...]:
    return parts_of(demo())


def read_back(file: bytes) -> Any:
    document = ezdxf.read(io.StringIO(file.decode("utf-8")))
    audit = document.audit()
    assert not audit.errors
    assert not audit.fixes
    return document


def extents(document: Any, layer: str) -> tuple[float, float]:
    """Width and height of all polylines of a layer."""
    points = [
        point for line in document.modelspace().query(f"LWPOLYLINE[layer=='{layer}']") for point in line.get_points()
    ]
    xs, ys = [point[0] for point in points], [point[1] for point in points]
    return max(xs) - min(xs), max(ys) - min(ys)


@pytest.mark.parametrize(("system", "unit", "code"), [("metric", 1.0, 4), ("us", 25.4, 1)])
def test_dxf_is_true_to_size_in_millimetres_or_inches(system: System, unit: float, code: int) -> None:
    document = read_back(dxf(plan(demo()), 20.0, system))
    assert document.units == code  # AutoCAD DXF reference, $INSUNITS: 1 inches, 4 millimetres
    vehicle = demo().vehicle
    wide = 2000.0 * vehicle.section.half_width_at("left", 1.2)
    assert extents(document, "body") == pytest.approx((1000.0 * vehicle.load_length / unit, wide / unit))


def test_dxf_dimensions_measure_the_build() -> None:
    document = read_back(dxf(plan(demo()), 20.0))
    measured = {round(float(each.get_measurement()), 2) for each in document.modelspace().query("DIMENSION")}
    room = next(room for room in demo().rooms if room.purpose == "quiet")
    assert {4350.0, round(1000.0 * room.length, 2)} <= measured
    assert round(2000.0 * room.section.half_width_at("left", 1.2), 2) in measured


def test_every_view_can_be_read_back_without_a_fault() -> None:
    build = demo()
    for drawing in (side(build, "left"), section(build, *build.drawn.sections[0]), floor(build), ceiling(build)):
        document = read_back(dxf(drawing, 20.0))
        assert {entity.dxf.layer for entity in document.modelspace()} <= {layer.dxf.name for layer in document.layers}


def test_dxf_text_has_no_control_codes() -> None:
    build = replace(demo(), rooms=tuple(replace(room, name="%%c^J\n<b>") for room in demo().rooms))
    texts = [each.dxf.text for each in read_back(dxf(plan(build))).modelspace().query("TEXT")]
    assert any("<b>" in text for text in texts)
    assert not any("%%" in text or "\n" in text for text in texts)


def test_dxf_and_gltf_are_the_same_bytes_each_time() -> None:
    assert dxf(floor(demo()), 20.0) == dxf(floor(demo()), 20.0)
    assert gltf(demo()) == gltf(demo())


def test_a_part_for_the_cutter_has_the_outline_holes_and_label_of_the_part() -> None:
    part = next(part for part in demo_parts() if part.holes and part.face == "left")
    space = read_back(dxf(part_alone(part), 10.0)).modelspace()
    outline = next(iter(space.query("LWPOLYLINE[layer=='outlines']")))
    corners = tuple((point[0] / 1000.0, point[1] / 1000.0) for point in outline.get_points())
    circles = list(space.query("CIRCLE[layer=='cuts']"))
    assert [each.dxf.radius for each in circles] == pytest.approx([62.5], abs=1e-6)  # the extract duct, diameter 125 mm
    assert area_of(corners) - math.pi * 0.0625**2 == pytest.approx(part.area, abs=1e-9)
    assert any(part.code in each.dxf.text for each in space.query("TEXT"))


def openings_area(build: Build, room: str, face: str) -> float:
    return sum(
        each.area * each.number
        for each in build.openings
        if not each.in_vehicle and (each.room, each.face) == (room, face)
    )


def test_parts_of_sides_and_wheel_boxes_have_the_area_of_their_face_less_its_openings() -> None:
    build = demo()
    for room in build.rooms:
        for surface in room.surfaces:
            if surface.face in ("floor", "ceiling", "front", "rear"):
                continue
            layers = {part.layer for part in demo_parts() if (part.room, part.face) == (room.name, surface.face)}
            for layer in layers:
                ours = [p for p in demo_parts() if (p.room, p.face, p.layer) == (room.name, surface.face, layer)]
                wanted = surface.area - openings_area(build, room.name, surface.face)
                assert sum(part.area for part in ours) == pytest.approx(wanted, abs=1e-9)


def test_floor_and_ceiling_cover_the_edges_of_the_leaves_that_stand_on_them() -> None:
    """Ceiling of the quiet room: 2250 + 2 × 16 mm long, as wide as its finished face and twice the leaf beside it."""
    ours = [part for part in demo_parts() if (part.room, part.face) == ("quiet_room", "ceiling")]
    for layer in {part.layer for part in ours}:
        pieces = [part for part in ours if part.layer == layer]
        assert {round(1000.0 * part.size[0], 6) for part in pieces} == {2282.0}


def test_parts_of_a_plain_box_fill_the_shell_between_two_boxes() -> None:
    """By hand: outside 2.46 × 1.80 × 2.00 m, inside 2.40 × 1.74 × 1.94 m, so 8.856 − 8.10144 = 0.75456 m³ of sheet."""
    parts = parts_of(build_of(plain_build()))
    assert sum(part.area * part.thickness for part in parts) == pytest.approx(0.75456, abs=1e-9)
    numbers = {face: sum(part.face == face for part in parts) for face in ("left", "front", "floor")}
    assert numbers == {"left": 2, "front": 2, "floor": 3}  # 2.40 × 1.94, 1.80 × 1.94, 2.46 × 1.80 m of 2.44 × 1.22 m


def test_a_hole_in_a_plain_wall_is_where_the_file_says() -> None:
    """A duct of 200 mm, centre 1400 mm over the steel floor, 300 mm left of the middle of a wall 1800 mm wide."""
    opening = "openings:\n  port: {kind: duct, face: quiet_room.front, diameter: 200, sill: 1300, offset: 300}\n"
    parts = [part for part in parts_of(build_of(plain_build(rest=opening))) if part.face == "front"]
    assert sum(part.area for part in parts) == pytest.approx(1.8 * 1.94 - math.pi * 0.1**2, abs=1e-9)
    hole = next(ring for part in parts for ring in part.holes)
    part = next(part for part in parts if part.holes)
    middle = [sum(point[axis] for point in hole) / len(hole) for axis in (0, 1)]
    corner, along = part.frame.corner, part.frame.along
    assert corner[1] + middle[0] * along[1] == pytest.approx(0.3)
    assert corner[2] + middle[1] == pytest.approx(1.4)


def test_every_piece_fits_on_a_sheet() -> None:
    for part in demo_parts():
        low, high = sorted(part.size)
        assert low <= SHEET_WIDTH + 1e-9, part.label
        assert high <= SHEET_LENGTH + 1e-9, part.label


def test_joints_of_neighbouring_layers_do_not_lie_over_each_other() -> None:
    ours = [p for p in demo_parts() if (p.room, p.face) == ("quiet_room", "floor")]
    joints = {
        layer: {round(p.frame.corner[1], 4) for p in ours if p.layer == layer and not p.piece.startswith("1 ")}
        for layer in {p.layer for p in ours}
    }
    layers = sorted(joints)
    for one, other in zip(layers, layers[1:], strict=False):
        assert not joints[one] & joints[other]


def test_the_scene_is_watertight_and_of_the_volumes_of_the_build() -> None:
    build = demo()
    scene = trimesh.load(io.BytesIO(gltf(build, with_air=True)), file_type="glb")
    solids = {solid.name: solid for solid in solids_of(build, with_air=True)}
    assert set(scene.geometry) == set(solids)
    for name, mesh in scene.geometry.items():
        assert mesh.is_watertight, name
        assert mesh.volume == pytest.approx(solids[name].volume, rel=1e-4), name  # glTF keeps single precision
    for room in build.rooms:
        air = sum(scene.geometry[solid.name].volume for solid in air_of(build, room))
        assert air == pytest.approx(room.volume, rel=1e-5)


def test_the_bearers_of_the_scene_lie_over_the_mounts_and_under_the_floor() -> None:
    build = demo()
    solids = solids_of(build)
    floor = build.room_for("quiet").surface("floor")
    bearers = [each for each in solids if each.name.startswith("bearer ")]
    lengths = [max(y for _, y in each.outline) for each in bearers]
    assert lengths == pytest.approx([piece.length for piece in floor.battens])
    plates = [each for each in solids if each.part == floor.name and each not in bearers]
    plate = min(each.corner[2] + min(each.outward[2], 0.0) * each.thickness for each in plates)
    assert [each.corner[2] + each.thickness for each in bearers] == pytest.approx([plate] * len(bearers))
    for mount in (each for each in solids if each.name.startswith("mount ")):
        middle = mount.corner[0] + max(x for x, _ in mount.outline) / 2.0
        over = min(bearers, key=lambda each: abs(each.corner[0] + max(x for x, _ in each.outline) / 2.0 - middle))
        low, high = mount.corner[1], mount.corner[1] + max(y for _, y in mount.outline)
        assert over.corner[1] - 1e-9 <= low < high <= over.corner[1] + max(y for _, y in over.outline) + 1e-9


def test_y_is_up_and_the_front_lies_at_the_origin() -> None:
    # glTF 2.0, section 3.4: right-handed, y up
    build = demo()
    scene = trimesh.load(io.BytesIO(gltf(build)), file_type="glb")
    floor_mesh = scene.geometry["steel floor"]
    low, high = floor_mesh.bounds
    assert high[1] == pytest.approx(0.0, abs=1e-6)
    assert (low[2], high[2]) == pytest.approx((0.0, build.vehicle.load_length))
    bank = next(mesh for name, mesh in scene.geometry.items() if name.endswith(" bank"))
    assert bank.bounds.mean(axis=0)[0] == pytest.approx(-0.6, abs=1e-6)  # 600 mm left; x runs to the right


def test_parts_touch_the_faces_of_their_room_and_no_air() -> None:
    """The inner face of the innermost layer lies on the finished section, the part itself outside of it."""
    build = demo()
    room = next(room for room in build.rooms if room.purpose == "quiet")
    innermost = max(part.layer for part in demo_parts() if (part.room, part.face) == (room.name, "left"))
    for part in demo_parts():
        if (part.room, part.face, part.layer) == (room.name, "left", innermost) and part.plane.startswith("plane 1"):
            assert part.frame.corner[1] == pytest.approx(room.section.half_width_at("left", room.section.floor_height))
            assert part.frame.outward[1] > 0.0


def test_joints_keep_clear_of_holes() -> None:
    hole = ((0.4, 0.97), (0.5, 0.97), (0.5, 1.1), (0.4, 1.1))
    assert divided((0.0, 0.0), (2.0, 2.0), [hole])[1] == pytest.approx([0.0, 0.94, 2.0])  # 30 mm below, not through it
    tall = ((0.4, 0.3), (0.5, 0.3), (0.5, 1.7), (0.4, 1.7))
    assert divided((0.0, 0.0), (2.0, 2.0), [tall])[1] == pytest.approx([0.0, 1.0, 2.0])  # nowhere to go


def test_cuts_are_measured_from_both_datums() -> None:
    """Left side of the demo: centres 700, 1400 and 3500 mm behind the B-pillar line, 300, 700 and 1500 mm up."""
    lengths = {
        axis: sorted(round(1000.0 * each.length) for each in cuts_on_face(demo(), "left").elements
                     if isinstance(each, Dimension) and each.axis == axis)
        for axis in ("x", "y")
    }  # fmt: skip
    assert lengths == {"x": [700, 700, 2100], "y": [300, 400, 800]}


def test_a_door_is_drawn_open_by_the_angle_of_its_swing_from_its_hinge() -> None:
    build = build_of(DEMO)
    swing = build.use.swings[0]
    drawn = swings_in_plan(build)
    leaf = next(each for each in drawn if isinstance(each, Line))
    arc = next(each for each in drawn if isinstance(each, Arc))
    assert leaf.start == arc.centre == (swing.hinge[0], -swing.hinge[1])
    assert arc.end - arc.start == pytest.approx(swing.angle)
    assert math.dist(leaf.start, leaf.end) == pytest.approx(swing.width) == pytest.approx(arc.radius)
    inward = (swing.towards[0], -swing.towards[1])
    assert sum((end - start) * way for start, end, way in zip(leaf.start, leaf.end, inward, strict=True)) > 0.0


def test_people_microphones_and_loudspeakers_stand_in_the_plan_with_letters() -> None:
    build = build_of(DEMO)
    place = build.use.workplace
    assert place is not None
    drawn, key = places_in_plan(build)
    assert [text for _, text in key].count("in the take") == len(place.singers)
    assert ("a", "at the desk") in key
    assert len(drawn) == 2 * len(key)
    assert places_in_plan(build_of(plain_build())) == ([], ())


def test_names_of_openings_do_not_say_their_kind_twice() -> None:
    texts = [thing.text for thing in things_of(build_of(DEMO))]
    assert {"window", "quiet door", "rear doors", "side door", "supply, duct"} <= set(texts)


def test_edges_of_a_solid_lie_on_it_and_are_drawn_for_the_screen_alone() -> None:
    build = demo()
    solid = next(each for each in solids_of(build) if each.part == "quiet_room.left" and not each.holes)
    edges = np.array(edges_of(solid))
    assert len(edges) == 3 * len(solid.outline)
    assert np.allclose(edges.min(axis=(0, 1)), mesh_of(solid).bounds[0])
    assert np.allclose(edges.max(axis=(0, 1)), mesh_of(solid).bounds[1])
    bare, drawn = (gltf(build, part="quiet_room.left", with_edges=edged) for edged in (False, True))
    assert b"edges" not in bare
    assert b"edges" in drawn
