"""Level difference, plain and standardized, and single numbers of faces; asked for in a review."""

import numpy as np
import pytest
from tests.coupled import DEMO, build_of, core_of, evaluation_of

from hushwright.evaluation.sound.heard import setting_of
from hushwright.evaluation.sound.sound import standing_in
from hushwright.physics.air import Air


def test_the_standardized_difference_is_that_of_a_room_that_rings_half_a_second() -> None:
    """DnT = D + 10 lg(T/0.5 s): ISO 16283-1:2014, clause 3, with T = 0.16 V/A (Sabine) as in Kuttruff, section 5.1."""
    found = core_of(DEMO).between_rooms[0]
    build = build_of(DEMO)
    field = standing_in(build, build.states[0], setting_of(build, Air(20.0)), None).fields["control_room"]
    decay = 0.161 * field.volume / np.asarray(field.absorption_area)
    expected = np.asarray(found.level_difference) + 10.0 * np.log10(decay / 0.5)
    assert found.standardized_difference == pytest.approx(expected.tolist(), abs=0.03)


def test_the_difference_is_what_is_left_of_the_source() -> None:
    found = core_of(DEMO).between_rooms[0]
    assert found.level_difference == pytest.approx(
        [loud - quiet for loud, quiet in zip(found.source_levels, found.received, strict=True)]
    )


def test_the_outdoor_indoor_class_of_a_face_is_under_its_rating_for_voices() -> None:
    """ASTM E1332 weighs traffic from 80 Hz, E413 nothing under 125 Hz: a light double wall is poorer by OITC."""
    sides = [each for each in evaluation_of(DEMO).faces if each.name == "quiet_room.left"]
    assert sides[0].oitc < sides[0].stc
