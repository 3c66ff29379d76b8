"""Where a background comes from: octaves worked out by hand, and the words of one plain van."""

import re
from dataclasses import replace

import numpy as np
import pytest
from tests.coupled import DEMO, evaluation_of
from tests.plain_builds import plain_build

from hushwright.evaluation.results import Line
from hushwright.evaluation.sound.octaves import where_told, where_told_between
from hushwright.physics.acoustics.bands import OCTAVE_BANDS
from hushwright.physics.acoustics.criteria import noise_criterion_limits
from hushwright.report.quiet_where import octave_table, octave_table_between

LIMIT = "35 dB(A)"
PLAIN = plain_build(
    brief="  outdoors:\n    - {situation: quay, octaves: {hz_31: 60 dB, hz_63: 80 dB, hz_125: 60 dB, hz_500: 40 dB}, "
    f"comes_from: all round, limit: {LIMIT}}}\n",
    left="        - {sheet: birch plywood, thickness: 9}\n"
    "        - {cavity: 60}\n        - {sheet: birch plywood, thickness: 12}\n",
)


def test_the_sentence_names_the_bands_the_way_and_the_resonance_of_its_face() -> None:
    evaluation = evaluation_of(PLAIN)
    found = evaluation.backgrounds[0]
    told = where_told(found, evaluation)
    assert told.startswith("Most of it is bass, 63 Hz")
    assert "through quiet room left" in told

    own = next(one for one in evaluation.resonances if one.kind == "mass-air-mass")
    assert f"resonate with the air between them at {own.frequency:.0f}" in told


def test_octaves_of_a_sound_of_one_level_lie_over_the_threshold_by_what_its_thirds_do() -> None:
    evaluation = evaluation_of(PLAIN)
    found = replace(evaluation.backgrounds[0], levels=(30.0,) * 27)
    rows = {row[0]: row[1:] for row in octave_table(found, evaluation).rows}
    # Three thirds of 30 dB sum to 34.8 dB; ISO 389-7:2005, diffuse field, has 0.8 dB at 1 kHz, 1.5 dB at 1250 Hz
    # and 1 dB or more at 800 Hz, so the octave lies over it by 30 dB less the lowest of them, 29 to 30 dB.
    assert rows["in the room"][5] == "35"
    assert rows["over it"][5] in ("+29", "+30")
    assert sum(int(each) for each in rows["of what counts, %"] if "<" not in each) == pytest.approx(100, abs=2)


def test_a_curve_stands_in_the_table_as_it_is_printed_and_its_octave_decides() -> None:
    evaluation = evaluation_of(PLAIN.replace(LIMIT, "NC 25"))
    found = evaluation.backgrounds[0]
    rows = {row[0]: row[1:] for row in octave_table(found, evaluation).rows}
    limits = noise_criterion_limits(25.0).limits
    assert rows["at most, NC 25"] == tuple(f"{each:.0f}" if np.isfinite(each) else "·" for each in limits)
    assert rows["of what counts, %"].count("100") == 1
    assert re.match(r"The octave at [\d.]+ Hz decides, through quiet room left", where_told(found, evaluation))


def test_bass_is_said_to_lie_over_or_under_the_threshold_of_hearing() -> None:
    assert Line("bass", 35.6, "dB", "").told == "35.6 dB over the threshold of hearing"
    assert Line("bass", -3.2, "dB", "").told == "3.2 dB under the threshold of hearing"
    assert Line("voice bands", 20.0, "dB(A)", "").told == "20.0 dB(A)"


def test_direct_sound_beside_the_monitors_names_its_octave_and_the_margin_of_each() -> None:
    evaluation = evaluation_of(DEMO)
    found = evaluation.between_rooms[0]
    octave, margin = min(found.octave_margins, key=lambda pair: pair[1])
    rows = {row[0]: row[1:] for row in octave_table_between(found).rows}
    assert rows["under the monitors"][OCTAVE_BANDS.index(octave)] == f"{round(margin):+d}".replace("-", "−")
    assert where_told_between(found, evaluation).startswith(f"The octave at {octave:g} Hz decides, through ")
