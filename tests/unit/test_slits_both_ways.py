"""What a slit lets through rises steeply with its width, so its spread is tried both ways; found in a review."""

import pytest
from tests.coupled import build_of, core_of, edited, evaluation_of
from tests.plain_builds import plain_build

DOOR = (
    "openings:\n  d: {kind: door, face: quiet_room.left, width: 900, height: 1700, offset: 1200, sill: 60, "
    "layers: [{limp: heavy sheet, thickness: 30}], "
    "seals: {seal: compression bulb, residual_gap: {is: 0.3 mm, from: measured, plus_minus: 0.2 mm}}}\n"
)
LEE = (
    "  outdoors:\n    - {situation: lee, octaves: {hz_500: 80 dB, hz_1000: 80 dB}, comes_from: left, limit: 30 dB(A)}\n"
)
KEY = "background/lee/record"
GAP = "openings.d.seals.residual_gap"


def test_the_spread_of_a_slit_is_the_mean_of_both_directions() -> None:
    text = plain_build(LEE, DOOR)
    gap = next(each for each in build_of(text).inputs if each.path == GAP)
    assert gap.value == pytest.approx(0.0003)
    step = 1000.0 * gap.standard_uncertainty
    nominal, up, down = (
        core_of(edited(text, ("is: 0.3 mm", f"is: {0.3 + move:.9f} mm"))).quantities[KEY].value
        for move in (0.0, step, -step)
    )
    shares = evaluation_of(text).quantities[KEY].contributions
    told = next(each.change for each in shares if each.path == GAP)
    assert abs(nominal - down) > 1.2 * abs(up - nominal)  # steep: downward matters more
    assert told == pytest.approx((up - down) / 2.0, rel=1e-3)


def test_a_slit_that_may_be_closed_is_only_tried_wider() -> None:
    """One standard uncertainty under 0.05 mm with a half-width of 0.2 mm would be less than nothing."""
    text = plain_build(LEE, DOOR.replace("is: 0.3 mm", "is: 0.05 mm"))
    gap = next(each for each in build_of(text).inputs if each.path == GAP)
    assert gap.standard_uncertainty > gap.value
    shares = {each.path: each.change for each in evaluation_of(text).quantities[KEY].contributions}
    assert shares[GAP] > 0.0
