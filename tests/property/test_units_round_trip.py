"""Laws of reading and writing quantities that hold for every number."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hushwright.errors import InvalidInput
from hushwright.units import KINDS, format_quantity, parse_quantity

NUMBERS = st.floats(min_value=1e-3, max_value=1e6, allow_nan=False)


@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind not in ("share", "latitude")])
@given(number=NUMBERS)
def test_what_is_shown_reads_back_as_itself(kind, system, number):
    text = format_quantity(number, kind, system, digits=9)
    # Nine digits of °F count from another zero, so near 0 °C they leave a fixed error, not a relative one.
    zero_point = 1e-6 if kind == "temperature" else 0.0
    assert parse_quantity(text, kind).value == pytest.approx(number, rel=2e-8, abs=zero_point)


@given(share=st.floats(0, 1), latitude=st.floats(-math.pi / 2, math.pi / 2))
def test_shares_and_latitudes_read_back_as_themselves(share, latitude):
    assert parse_quantity(format_quantity(share, "share", digits=9), "share").value == pytest.approx(share, rel=1e-7)
    text = format_quantity(latitude, "latitude", digits=9)
    assert parse_quantity(text, "latitude").value == pytest.approx(latitude, rel=1e-7)


@given(sixteenths=st.integers(8, 16 * 400))
def test_workshop_inches_read_back_to_the_sixteenth(sixteenths):
    length = sixteenths / 16 * 0.0254
    assert parse_quantity(format_quantity(length, "length", "us"), "length").value == pytest.approx(length, rel=1e-12)


@given(length=st.floats(0.02, 20))
def test_both_systems_show_the_same_length(length):
    metric = parse_quantity(format_quantity(length, "length", "metric"), "length").value
    us = parse_quantity(format_quantity(length, "length", "us"), "length").value
    coarse = 0.0254 / 32 + (0.005 if length >= 10 else 0.0001)
    assert abs(metric - us) <= coarse


@given(feet=st.integers(0, 40), inches=st.integers(0, 11))
def test_feet_and_inches_add_up(feet, inches):
    assert parse_quantity(f"{feet} ft {inches} in", "length").value == pytest.approx(
        parse_quantity(f"{12 * feet + inches} in", "length").value, rel=1e-12
    )


@given(low=st.integers(0, 1000), width=st.integers(1, 1000))
def test_an_interval_lies_about_its_middle(low, width):
    got = parse_quantity(f"{low}..{low + width} mm", "length")
    assert got.low < got.value < got.high
    assert got.value - got.low == pytest.approx(got.high - got.value)


@given(text=st.text(max_size=30), kind=st.sampled_from(list(KINDS)))
def test_any_text_is_read_as_a_finite_quantity_or_refused(text, kind):
    try:
        got = parse_quantity(text, kind)
    except InvalidInput:
        return
    assert math.isfinite(got.value)
    assert got.low <= got.value <= got.high


TYPED = st.text(alphabet="0123456789.,/ -'\"½°mftinhcdbkg%²", min_size=1, max_size=16)


@given(text=TYPED, kind=st.sampled_from(list(KINDS)))
def test_near_quantities_are_read_or_refused_too(text, kind):
    try:
        got = parse_quantity(text, kind)
    except InvalidInput:
        return
    assert math.isfinite(got.value)
