"""Sheet parts: what would break is told, and sizes that lie over each other are not printed."""

from __future__ import annotations

from hushwright.drawings.numbers import length_text
from hushwright.drawings.part_sheets import part_with_sizes, weak_places
from hushwright.drawings.parts import Frame, Part
from hushwright.drawings.primitives import Dimension, Point, Text, box

_FRAME = Frame((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 1.0, 0.0))


def part(outline: tuple[Point, ...], *holes: tuple[Point, ...]) -> Part:
    return Part(53, "quiet_room", "rear", 3, "", "", "birch plywood", "sheet", 0.012, outline, holes, _FRAME, "x")


def test_a_strip_under_a_door_that_breaks_is_told() -> None:
    cut = part(box((0.0, 0.0), (1.6, 1.9)), box((0.5, 0.0095), (1.125, 1.63)))
    assert weak_places(cut, "metric") == (
        "strip of 9.5 by 625 will break: leave it off, or set the opening lower by as much",
    )
    assert any("will break" in each.text for each in part_with_sizes(cut, (0.0, 0.0), "metric")
               if isinstance(each, Text))  # fmt: skip


def test_a_small_hole_near_an_edge_breaks_nothing() -> None:
    assert weak_places(part(box((0.0, 0.0), (1.6, 1.9)), box((0.02, 0.5), (0.05, 0.53))), "metric") == ()


def test_a_notch_of_half_a_millimetre_gets_no_size_of_its_own() -> None:
    notched = part(((0.0, 0.0), (1.0, 0.0), (1.0, 0.5), (0.4, 0.5), (0.4, 0.4995), (0.0, 0.4995)))
    lengths = [each.length for each in part_with_sizes(notched, (0.0, 0.0), "metric") if isinstance(each, Dimension)]
    assert min(lengths) > 0.002


def test_a_half_is_rounded_alike_on_the_sheet_and_in_the_list() -> None:
    assert length_text(0.1765) == length_text(1.2765 - 1.1) == length_text(0.3765 - 0.2)
