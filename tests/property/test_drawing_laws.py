"""Laws of drawings that hold for any build and any text."""

import math
import xml.etree.ElementTree as ET

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.coupled import build_of
from tests.plain_builds import plain_build

from hushwright.cli.draw import file_name
from hushwright.drawings.clip import clipped
from hushwright.drawings.dxf import plain
from hushwright.drawings.on_paper import on_paper, slanted
from hushwright.drawings.parts import parts_of
from hushwright.drawings.primitives import Circle, Drawing, Line, Text, area_of, box
from hushwright.drawings.scene import mesh_of, solids_of
from hushwright.drawings.svg import svg
from hushwright.drawings.typeset import literal, preamble, typeset


@given(st.text(max_size=40))
@settings(max_examples=40, deadline=None)
def test_any_text_can_be_set_and_drawn(text: str) -> None:
    assert typeset(preamble("x") + f"#{literal(text, breakable=True)}").startswith(b"%PDF")
    root = ET.fromstring(svg(Drawing("x", text, text, (Text((0.0, 0.0), text, part=text),)), 1.0))
    assert len(list(root)) == 3  # title, description, the text: nothing that the text brought along
    assert "%%" not in plain(text)


@given(st.text(max_size=60), st.lists(st.text(max_size=8), max_size=3))
@settings(max_examples=60, deadline=None)
def test_a_file_name_is_plain_and_no_others(name: str, taken: list[str]) -> None:
    before = [file_name(f"{each}.svg") for each in taken]
    found = file_name(f"{name}.svg", before)
    assert found not in before
    assert not set(found) & set("/\\:\0 \n")
    assert not found.startswith(".")


@given(st.integers(300, 2200), st.integers(900, 2400), st.integers(1, 60), st.sampled_from(["left", "rear", "ceiling"]))
@settings(max_examples=20, deadline=None)
def test_parts_keep_area_and_volume_whatever_the_size(front: int, length: int, thick: int, face: str) -> None:
    rear = min(front + length, 2430)
    if rear - front < 250:
        rear = front + 230
        front = rear - 250
    text = plain_build().replace("front: 30, rear: 2430", f"front: {front}, rear: {rear}")
    text = text.replace("thickness: 30", f"thickness: {min(thick, 30)}")
    build = build_of(text)
    surface = build.rooms[0].surface("left")
    assert surface is not None
    sides = [part for part in parts_of(build) if part.face == "left"]
    assert math.isclose(sum(part.area for part in sides), surface.area, rel_tol=1e-9)
    for solid in solids_of(build):
        if face in solid.part:
            mesh = mesh_of(solid)
            assert mesh.is_watertight
            assert math.isclose(mesh.volume, solid.volume, rel_tol=1e-7)


@given(st.floats(-3, 3), st.floats(-3, 3), st.floats(0.01, 2.0))
@settings(max_examples=40, deadline=None)
def test_four_windows_side_by_side_show_all_of_a_circle_once(x: float, y: float, radius: float) -> None:
    circle = Circle((x, y), radius, "cuts")
    shown = 0.0
    for low in ((-9.0, -9.0), (0.0, -9.0), (-9.0, 0.0), (0.0, 0.0)):
        for piece in clipped([circle], low, (low[0] + 9.0, low[1] + 9.0)):
            if isinstance(piece, Circle):
                shown += 2.0 * math.pi * radius
            else:
                points = piece.points  # type: ignore[union-attr]
                shown += sum(math.dist(a, b) for a, b in zip(points, points[1:], strict=False))
    assert math.isclose(shown, 2.0 * math.pi * radius, rel_tol=2e-3)


@given(st.floats(1.0, 80.0), st.floats(1.0, 80.0), st.floats(0.5, 5.0))
@settings(max_examples=40, deadline=None)
def test_slanted_lines_cover_a_shape_evenly(width: float, height: float, spacing: float) -> None:
    outline = box((0.0, 0.0), (width, height))
    lines = slanted(outline, spacing)
    length = sum(math.dist(a, b) for a, b in lines)
    edge = 2.0 * (width + height)
    assert abs(length * spacing - area_of(outline)) <= 0.75 * edge * spacing


@given(st.floats(0.1, 5.0), st.sampled_from([1.0, 5.0, 20.0, 100.0]))
@settings(max_examples=20, deadline=None)
def test_a_line_shrinks_by_the_scale(length: float, scale: float) -> None:
    (mark,) = on_paper(Drawing("x", "", "", (Line((0.0, 0.0), (length, 0.0), "body"),)), scale)
    assert math.isclose(mark.points[1][0], 1000.0 * length / scale)  # type: ignore[union-attr]
