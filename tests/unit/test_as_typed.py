"""What people type into a field: taken where it can mean one thing only, asked where it can mean two."""

from functools import partial

import pytest

from hushwright.units.as_typed import Unclear, plainly

tallest = partial(plainly, kind="length", low=1.2, high=2.3, standing="1.80 m")


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("1,88", "1.88 m"), ("1,880", "1.88 m"), ("1 880 mm", "1880 mm"), ("1\u202f880 mm", "1880 mm"),
     ("6 ft 2 in", "6 ft 2 in"), ("1,7..1,9", "1.7..1.9 m"), ("6 1/8 ft", "6 1/8 ft"), ("unknown", "unknown")],
)  # fmt: skip
def test_a_height_is_taken_as_people_write_it(typed: str, meant: str) -> None:
    assert tallest(typed) == meant


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("60 000", "60000"), ("60\u2009000,50", "60000.50"), ("1'250", "1250"), ("1.234.567", "1234567"),
     ("1.234,5", "1234.5"), ("1,234.5", "1234.5"), ("12,5", "12.5"), ("0,125", "0.125")],
)  # fmt: skip
def test_money_is_taken_in_any_grouping_that_means_one_sum(typed: str, meant: str) -> None:
    assert plainly(typed, "money") == meant


@pytest.mark.parametrize(
    ("typed", "kind", "note", "offers"),
    [
        ("60.000", "money", "60.000 can mean 60 or 60000: write 60 or 60000", ("60", "60000")),
        ("1,880 kg", "mass", "1,880 kg can mean 1.88 or 1880: write 1.88 kg or 1880 kg", ("1.88 kg", "1880 kg")),
    ],
)
def test_what_can_mean_two_things_is_asked_with_both(typed: str, kind: str, note: str, offers: tuple[str, ...]) -> None:
    with pytest.raises(Unclear) as told:
        plainly(typed, kind)  # type: ignore[arg-type]
    assert told.value.note == note
    assert told.value.offers == offers


def test_a_number_whose_unit_cannot_be_the_one_that_stands_there_is_asked_with_those_that_fit() -> None:
    with pytest.raises(Unclear) as told:
        tallest("188")
    assert told.value.offers == ("188 cm",)
    assert plainly("95", "length", standing="93 mm") == "95 mm"
    assert plainly("75", "share", standing="80 %") == "75 %"


def test_a_refusal_speaks_of_the_field_and_not_of_the_file() -> None:
    for typed in ("two ells", "5", "5 lb", "1,880 mm", "5 furlongs"):
        with pytest.raises(Unclear) as told:
            plainly(typed, "length")
        assert "file" not in told.value.note
