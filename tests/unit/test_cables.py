"""Signal cables weigh by their length and diameter, once."""

import pytest
from tests.coupled import DEMO, build_of, edited

from hushwright.evaluation.wiring.cables import CABLES, with_cables

TALKBACK = "talkback: {kind: talkback, comes_from: control_room, goes_to: quiet_room, length: 6 m,"


def cables(text: str) -> dict[str, float]:
    return {each.name: each.mass for each in with_cables(build_of(text)).masses if each.group == CABLES}


def test_a_signal_cable_weighs_by_its_length_and_the_square_of_its_diameter() -> None:
    assert cables(DEMO)["signal cable, talkback"] == pytest.approx(6.0 * 0.05)
    thicker = edited(DEMO, (TALKBACK, f"{TALKBACK} diameter: 12, number: 2,"))
    assert cables(thicker)["signal cable, talkback"] == pytest.approx(2 * 6.0 * 0.05 * 4.0)


def test_cables_are_not_counted_twice() -> None:
    once = with_cables(build_of(DEMO))
    assert with_cables(once) is once
    names = [each.name for each in once.masses if each.group == CABLES]
    assert len(set(names)) == len(names)


def test_a_line_inside_the_floating_room_is_carried_by_it_and_one_on_a_route_lies_on_it() -> None:
    build = with_cables(build_of(DEMO))
    found = {each.name: each for each in build.masses if each.group == CABLES}
    assert found["signal cable, pickup"].fixed_to == ("quiet",)
    route = next(each for each in build.routes if each.name == "tie_lines")
    tie = found["signal cable, tie lines"]
    assert (tie.station, tie.y, tie.z) == route.centre
