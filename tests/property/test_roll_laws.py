"""Strips off rolls: every bay is filled once, and nothing leaves the roll."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.coupled import DEMO, build_of, edited

from hushwright.costing.rolls import cut_from_rolls
from hushwright.drawings.rolls import roll_sheets
from hushwright.errors import InvalidInput
from hushwright.evaluation.cost.cost import cost_of
from hushwright.model.strips import bays_of

SIZES = st.floats(0.05, 4.0)
BAYS = st.lists(st.tuples(SIZES, SIZES), min_size=1, max_size=12)


@given(bays=BAYS, width=st.floats(0.2, 2.0), length=st.floats(1.0, 12.0))
def test_strips_fill_their_bays_and_stay_on_the_roll(
    bays: list[tuple[float, float]], width: float, length: float
) -> None:
    rolls = cut_from_rolls(bays, width, length)
    strips = [strip for roll in rolls for one in roll.slices for strip in one.strips]
    assert math.fsum(a * b for a, b in strips) == pytest.approx(math.fsum(a * b for a, b in bays), rel=1e-4)
    for roll in rolls:
        assert roll.used <= length + 1e-4
        assert roll.left == pytest.approx(max(length - roll.used, 0.0), abs=1e-4)
        for one in roll.slices:
            assert math.fsum(wide for wide, _ in one.strips) <= width + 1e-4
            assert all(long <= one.length + 1e-9 for _, long in one.strips)


@given(bays=BAYS, width=st.floats(0.2, 2.0))
def test_a_roll_without_end_is_one_and_joins_nothing(bays: list[tuple[float, float]], width: float) -> None:
    (roll,) = cut_from_rolls(bays, width)
    longest = max(long for _, long in bays)
    assert max(one.length for one in roll.slices) == longest


def test_a_roll_of_no_width_is_refused() -> None:
    with pytest.raises(InvalidInput, match=r"0\.0 m"):
        cut_from_rolls([(1.0, 1.0)], 0.0)
    with pytest.raises(InvalidInput, match="no strip"):
        cut_from_rolls([(1.0, 0.0)], 1.0)


def test_as_many_packs_are_bought_as_the_strips_take() -> None:
    lines = [line for line in cost_of(build_of(DEMO)).purchase if line.rolls]
    assert {"rock wool 40 kg/m3", "barrier mat 5", "vinyl flooring"} <= {line.name for line in lines}
    for line in lines:
        if line.pack > 0:
            assert line.packs == len(line.rolls)
        else:  # by the length that is cut, the whole width of it
            cut = sum(roll.used * roll.width for roll in line.rolls)
            assert float(line.amount) == pytest.approx(cut, rel=1e-6)
        assert line.amount >= line.need


def test_wool_lies_between_the_battens_of_its_face() -> None:
    room = next(room for room in build_of(DEMO).rooms if room.purpose == "quiet")
    surface = room.surface("left")
    assert surface is not None
    layer = next(each for each in surface.layers if each.cavity is not None)
    assert layer.cavity is not None
    assert layer.cavity.frame is not None
    bays = bays_of(surface, layer)
    battens = len(bays) + 1  # one at each end
    assert sum(wide for wide, _ in bays) + battens * layer.cavity.frame.width == pytest.approx(surface.width)
    assert {long for _, long in bays} == {surface.height}


def test_without_a_width_of_the_roll_area_and_waste_say_what_is_bought() -> None:
    plain = edited(DEMO, ("per: m3, pack: 0.3, width: 600,", "per: m3, pack: 0.3, waste: 8 %,"))
    lines = [line for line in cost_of(build_of(plain)).purchase if line.name == "rock wool 40 kg/m3"]
    assert all(not line.rolls and line.with_waste > line.need for line in lines)
    assert not [row for row in roll_sheets(build_of(plain))[0].tables[1].rows if row[0].startswith("rock wool 40")]
