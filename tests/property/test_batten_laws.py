"""Laws of battens and bearers that hold for any room, spacing and rows of mounts."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.coupled import build_of
from tests.plain_builds import plain_build

from hushwright.costing.bars import SAW_CUT, cut_from_bars
from hushwright.evaluation.cost.take_off import things_of
from hushwright.library.read import read_library
from hushwright.library.records import Sheet
from hushwright.model.battens import batten_mass, batten_places, bearer_places
from hushwright.model.build import Build
from hushwright.model.faces import FrameInPlace

_WALL = "        - {{sheet: birch plywood, thickness: 3}}\n        - {{cavity: 60, frame: {{depth: 28, width: {}, spacing: {}}}}}\n        - {{sheet: birch plywood, thickness: 9}}\n"  # noqa: E501  one build-up
_FLOOR = "        - skin: body\n        - {{floor_mounts: under, bearer_depth: {}, bearer_width: {}, bearer_spacing: {}}}\n        - {{sheet: birch plywood, thickness: 12}}\n"  # noqa: E501  one build-up
_MOUNTS = "mounts:\n  under: {{along: {}, across: 2, inset: {}, static_stiffness: 100 N/mm, dynamic_ratio: 1.3, lowest_load: 1 kg, highest_load: 900 kg, free_height: 30}}\n"  # noqa: E501
_BOXES = "wheel_boxes: {between: 1300, height: 300, front: 800, rear: 1600}"
_WIDE, _APART = st.integers(20, 95), st.integers(100, 1500)


def _built(wide: int, apart: int, along: int, inset: int, deep: int = 25) -> Build:
    text = plain_build(rest=_MOUNTS.format(along, inset), left=_WALL.format(wide, apart),
                       ceiling=_WALL.format(wide, apart), floor=_FLOOR.format(deep, wide, apart))  # fmt: skip
    return build_of(text.replace("wheel_boxes_present: no", _BOXES))


@given(_WIDE, _APART, st.integers(2, 6), st.integers(0, 300))
@settings(max_examples=12, deadline=None)
def test_every_piece_lies_inside_its_face_and_weighs_what_is_bought(
    wide: int, apart: int, along: int, inset: int
) -> None:
    build = _built(wide, apart, along, inset)
    room = build.rooms[0]
    weighed = 0.0
    for surface in room.surfaces:
        for piece in surface.battens:
            assert wide / 2000.0 - 1e-9 <= piece.along <= surface.width - wide / 2000.0 + 1e-9
            assert -1e-9 <= piece.low < piece.high <= surface.height + 1e-9
        weighed += math.fsum(batten_mass(surface, layer) for layer in surface.layers)
    timber = [thing for thing in things_of(build) if thing.kind in ("batten", "bearer")]
    assert math.fsum(thing.amount("kg") or 0.0 for thing in timber) == pytest.approx(weighed)
    sheets = math.fsum(surface.added_surface_density * surface.area for surface in room.surfaces)
    assert math.fsum(item.mass for item in build.masses) == pytest.approx(sheets + weighed)
    pieces = [piece for thing in timber for piece in thing.pieces]
    bars = cut_from_bars(pieces, 3.0)
    assert len(bars) * 3.0 >= math.fsum(pieces)
    for bar in bars:
        assert math.fsum(bar.pieces) + (len(bar.pieces) - 1) * SAW_CUT + bar.left <= 3.0 + 1e-9


def _frame(width: float, spacing: float) -> FrameInPlace:
    return FrameInPlace(0.025, width, spacing, read_library().find(Sheet, "spruce"))


@given(st.lists(st.floats(0.0, 3.0), min_size=1, max_size=9), st.floats(0.02, 0.1), st.floats(0.1, 1.5))
@settings(max_examples=60, deadline=None)
def test_every_row_of_mounts_has_a_bearer_over_it_and_none_lies_on_another(
    rows: list[float], width: float, spacing: float
) -> None:
    places = bearer_places(3.0, rows, _frame(width, spacing))
    for row in rows:
        assert (
            min(abs(row - place) for place in places) <= width / 2.0 + 1e-9 or not 3.0 * width < row < 3.0 - 3.0 * width
        )
    gaps = [after - before for before, after in zip(places, places[1:], strict=False)]
    assert all(width - 1e-9 <= gap <= 2.0 * max(spacing, width) + 1e-9 for gap in gaps)
    assert width / 2.0 - 1e-9 <= places[0]
    assert places[-1] <= 3.0 - width / 2.0 + 1e-9


@given(st.floats(0.05, 5.0), st.floats(0.02, 0.1), st.floats(0.1, 1.5))
@settings(max_examples=60, deadline=None)
def test_battens_stand_inside_their_face_at_both_of_its_ends(length: float, width: float, spacing: float) -> None:
    places = batten_places(0.0, length, _frame(width, spacing))
    if length >= 2.0 * width:
        assert (places[0], places[-1]) == pytest.approx((width / 2.0, length - width / 2.0))
    else:
        assert places == pytest.approx((length / 2.0,))


def test_without_a_depth_there_are_no_bearers() -> None:
    floor = _built(45, 500, 4, 80, deep=0).rooms[0].surface("floor")
    assert floor is not None
    assert floor.battens == ()
