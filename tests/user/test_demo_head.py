"""What the head of the demo says in prose comes out of the demo."""

import re

import pytest
from tests.coupled import DEMO, evaluation_of, verdicts_of

HEAD = " ".join(line.lstrip("# ") for line in DEMO.split("hushwright: 1")[0].splitlines())


@pytest.mark.parametrize(
    ("told", "verdict", "in_units_of", "places"),
    [
        (r"on the road (\d+) kg of 3500", "road-mass-drive", 1.0, 0),
        (r"at the quay (\d+) dB\(A\) of 35", "background-quay-record", 1.0, 0),
        (r"With the side door open the fair is NC (\d+)", "background-fair-record-side-door-open", 1.0, 0),
        (r"neighbours get (\d+) dB\(A\) of 45", "neighbours-record", 1.0, 0),
        (r"Headroom is (\d+) of 1850", "headroom-quiet-room", 1e-3, 0),
        (r"what comes out of money, and why: (\d+ \d+) EUR", "budget-total", 1.0, -2),
        (r"the quiet room gets (\d+) °C", "warmest-quiet-room-record", 1.0, 0),
        (r"in the evening (\d+) % are left", "charge-left-bank", 1e-2, 0),
    ],
)
def test_a_number_in_the_head_of_the_demo_is_that_of_its_verdict(
    told: str, verdict: str, in_units_of: float, places: int
) -> None:
    found = re.search(told, HEAD, re.IGNORECASE)
    value = verdicts_of(DEMO)[verdict].value
    assert found is not None
    assert value is not None
    assert float(found[1].replace(" ", "")) == round(value / in_units_of, places)


def test_the_height_of_its_centre_of_gravity_is_the_one_computed() -> None:
    found = re.search(r"centre of gravity ([\d.]+) m high", HEAD)
    drive = next(each for each in evaluation_of(DEMO).masses if each.state == "drive")
    assert found is not None
    assert float(found[1]) == round(drive.centre[2], 2)
