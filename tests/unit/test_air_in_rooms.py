"""Air that absorbs in rooms, and air that stiffens a floor; found in a review."""

import math
import re

import numpy as np
import pytest
from tests.coupled import DEMO, core_of, edited, evaluation_of, verdicts_of
from tests.plain_builds import plain_build
from tests.unit.air_cases import AIRED, SEALED

from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS
from hushwright.report.air_steps import balance


def test_the_air_of_a_hard_room_absorbs_what_its_volume_does() -> None:
    """ISO 9613-1:1993 table 1 has 9.86 dB/km at 2 kHz, 20 °C, 50 %; EN 12354-6:2003 has A = 4 m V."""
    room = evaluation_of(plain_build()).rooms[0]
    added = room.absorption_area[THIRD_OCTAVE_BANDS.index(2000)] - room.absorption_area[0]
    volume = 2.400 * 1.740 * 1.940
    assert added == pytest.approx(4.0 * 9.86e-3 / (10.0 * math.log10(math.e)) * volume, rel=0.02)
    assert np.all(np.diff(room.absorption_area) > 0.0)


def test_where_a_floor_helps_follows_its_resonance_with_the_air_beneath() -> None:
    """One mass on one spring: it helps above root two times its resonance, whatever the spring is made of."""
    closed = core_of(edited(DEMO, ("edges: open", "edges: closed"))).mounts[0]
    assert closed.with_air > 1.5 * closed.vertical_frequency
    assert closed.helps_above == pytest.approx(math.sqrt(2.0) * closed.with_air)


@pytest.mark.parametrize("text", [AIRED, SEALED])
def test_an_explanation_has_the_numbers_from_which_carbon_dioxide_is_worked_out(text: str) -> None:
    evaluation, verdicts = evaluation_of(text), verdicts_of(text)
    told = "\n".join(balance(verdicts["co2-steady-quiet-room-record"], evaluation, "metric"))
    assert "breath of 2 people" in told
    assert "of air, without its people" in told
    if text is AIRED:
        flow, outdoors = (float(each) for each in re.findall(r"from outdoors +([\d.]+) l/s +([\d.]+) ppm", told)[0])
        breath = 2.0 * float(re.findall(r"([\d.]+) l/h each", told)[0])
        air = evaluation.air.state("record")
        assert air is not None
        assert outdoors + 1e6 * breath / (3600.0 * flow) == pytest.approx(1e6 * air.rooms[0].carbon_dioxide, rel=0.01)
    assert not balance(next(one for one in verdicts.values() if one.group == "Mass"), evaluation, "metric")


def test_a_fan_that_is_asked_for_differs_from_the_one_that_is_there() -> None:
    """What is wanted lies just inside the doubt of the flow: 25 l/s in place of 25 l/s would say nothing."""
    flow = 1000.0 * evaluation_of(AIRED).quantities["run-flow/supply/record"].value
    text = edited(AIRED, ("wanted: 20 l/s", f"wanted: {0.8 * flow + 0.1:.2f} l/s"))
    hint = verdicts_of(text)["run-flow-supply-record"].hint
    asked, there = re.findall(r"([\d.]+ l/s) at", hint)
    assert asked != there, hint
