"""Cross-sections by hand: leaning walls, build-ups square to them, what remains."""

import math

import pytest

from hushwright.errors import InvalidInput
from hushwright.model.section import body_section, shrunk

STRAIGHT = ((0.0, 1.8), (1.0, 1.8), (2.0, 1.8))
LEANING = ((0.0, 1.8), (2.0, 1.4))  # each side leans in 200 mm over 2 m


def test_a_straight_body_is_a_rectangle() -> None:
    section = body_section(STRAIGHT, 2.0)
    assert section.area == pytest.approx(1.8 * 2.0)
    assert section.width_at(1.3) == pytest.approx(1.8)
    assert section.side_length("left") == pytest.approx(2.0)


def test_the_width_of_a_leaning_wall_goes_down_on_a_line() -> None:
    section = body_section(LEANING, 2.0)
    assert section.width_at(1.5) == pytest.approx(1.8 - 2 * 0.2 * 1.5 / 2.0)
    assert section.area == pytest.approx((1.8 + 1.4) / 2.0 * 2.0)
    assert section.side_length("right") == pytest.approx(math.hypot(0.2, 2.0))


def test_the_last_slope_goes_on_above_the_last_width() -> None:
    assert body_section(LEANING, 2.2).ceiling_width == pytest.approx(1.4 - 2 * 0.02)


def test_below_the_first_width_the_wall_is_upright() -> None:
    section = body_section(((0.5, 1.8), (2.0, 1.6)), 2.0)
    assert section.width_at(0.25) == pytest.approx(1.8)


def test_a_top_below_all_widths_is_upright_too() -> None:
    assert body_section(((0.5, 1.8), (2.0, 1.6)), 0.4).ceiling_width == pytest.approx(1.8)


def test_a_build_up_stands_square_to_a_leaning_wall() -> None:
    inside = shrunk(body_section(LEANING, 2.0), 0.1, 0.1, 0.0, 2.0)
    # Measured level, 100 mm square to a wall leaning by 0.1 rad take 100 mm over the cosine of its lean.
    level = 0.1 * math.hypot(0.2, 2.0) / 2.0
    assert inside.half_width_at("left", 1.0) == pytest.approx(0.8 - level)
    assert inside.width_at(1.0) == pytest.approx(2 * (0.8 - level))


def test_floor_and_ceiling_cut_the_section() -> None:
    inside = shrunk(body_section(STRAIGHT, 2.0), 0.1, 0.2, 0.08, 1.95)
    assert inside.height == pytest.approx(1.87)
    assert inside.floor_width == pytest.approx(1.5)
    assert inside.area == pytest.approx(1.5 * 1.87)


def test_a_corner_is_mitred() -> None:
    bent = body_section(((0.0, 1.8), (1.0, 1.8), (2.0, 1.0)), 2.0)
    inside = shrunk(bent, 0.1, 0.1, 0.0, 2.0)
    # Both edges of the corner move 100 mm; they meet below the old corner by tan(half the bend) of 100 mm.
    bend = math.atan2(0.4, 1.0)
    corner = next(point for point in inside.left if 0.5 < point[1] < 1.0)
    assert corner[0] == pytest.approx(0.8)
    assert corner[1] == pytest.approx(1.0 - 0.1 * math.tan(bend / 2.0))


def test_headroom_at_the_shoulders_is_lost_where_the_walls_lean() -> None:
    section = body_section(((0.0, 1.8), (1.5, 1.8), (2.0, 0.8)), 2.0)
    assert section.height_within(0.3) == pytest.approx(2.0)
    # The wall goes from 900 mm at 1.5 m to 400 mm at 2.0 m: 600 mm are reached at 1.8 m.
    assert section.height_within(0.6) == pytest.approx(1.8)


@pytest.mark.parametrize(
    ("widths", "top", "part"),
    [
        (((0.0, 1.8),), 2.0, "at least two heights"),
        (((0.0, 1.8), (1.0, 1.8)), 0.0, "at least two heights"),
        (((1.0, 1.8), (0.5, 1.7)), 2.0, "do not rise"),
        (((0.0, 1.8), (1.0, 0.9)), 2.0, "m wide"),
    ],
)
def test_an_impossible_body_is_refused_with_its_numbers(widths: tuple, top: float, part: str) -> None:
    with pytest.raises(InvalidInput, match=part):
        body_section(widths, top)


@pytest.mark.parametrize(("side", "floor", "ceiling"), [(0.85, 0.0, 2.0), (0.1, 1.9, 2.0), (0.1, 1.0, 0.5)])
def test_build_ups_that_leave_nothing_are_refused(side: float, floor: float, ceiling: float) -> None:
    with pytest.raises(InvalidInput, match="remain"):
        shrunk(body_section(STRAIGHT, 2.0), side, side, floor, ceiling)
