"""A value carries its spread and origin."""

import dataclasses
import math

import pytest

from hushwright.document.quantities import value_from_plain, value_from_text, value_with_origin
from hushwright.document.values import Value, from_half_width, from_interval, unknown_value
from hushwright.errors import InvalidInput


def test_a_plus_minus_is_two_standard_uncertainties():
    assert from_half_width(1.0, 0.02).standard_uncertainty == 0.01


def test_an_interval_is_a_rectangle_about_its_middle():
    # u = width/√12 for a rectangle: JCGM 100:2008 (GUM), 4.3.7
    value = from_interval(0.085, 0.1)
    assert value.value == pytest.approx(0.0925)
    assert value.standard_uncertainty == pytest.approx(0.015 / math.sqrt(12))
    assert value.distribution == "rectangular"


def test_an_unknown_value_is_no_number_until_it_is_filled():
    value = unknown_value(by="nobody")
    assert value.unknown
    assert math.isnan(value.value)
    assert value == unknown_value(by="nobody")


def test_a_shifted_value_keeps_everything_else():
    value = Value(1.0, 0.1, "measured", by="tape", text="1 m")
    assert value.shifted(0.5) == dataclasses.replace(value, value=1.5)


def test_a_value_cannot_be_changed_in_place():
    with pytest.raises(dataclasses.FrozenInstanceError):
        Value(1.0).value = 2.0


def test_a_plain_number_is_only_stated():
    assert value_from_text("93 mm", "length").origin == "stated"


def test_origin_and_person_are_kept():
    value = value_with_origin({"is": "93 mm", "from": "measured", "plus_minus": "2 mm", "by": "tape"}, "length")
    assert (value.value, value.standard_uncertainty, value.origin, value.by) == (0.093, 0.001, "measured", "tape")


def test_a_spread_of_a_temperature_is_a_difference():
    value = value_with_origin({"is": "68 °F", "plus_minus": "9 °F"}, "temperature")
    assert value.value == pytest.approx(20.0)
    assert value.standard_uncertainty == pytest.approx(2.5)


@pytest.mark.parametrize(
    "parts",
    [
        {"from": "measured"},
        {"is": "93 mm", "from": "stated"},
        {"is": "93 mm", "sure": "yes"},
        {"is": "93 mm", "plus_minus": "-1 mm"},
        {"is": "90..95 mm", "plus_minus": "1 mm"},
        {"is": "unknown", "plus_minus": "1 mm"},
    ],
)
def test_what_contradicts_itself_is_refused(parts):
    with pytest.raises(InvalidInput):
        value_with_origin(parts, "length")


def test_numbers_written_in_python_are_si():
    assert value_from_plain(0.093, "length").value == 0.093
    with pytest.raises(InvalidInput):
        value_from_plain(math.inf, "length")
    with pytest.raises(InvalidInput):
        value_from_plain(True, "length")
