"""Outdoor incidence against the book-keeping of the façade standards."""

import math

import pytest

from hushwright.physics.acoustics.incidence import OutdoorSource, face_incidence


@pytest.mark.parametrize(
    ("source", "term"),
    [
        # ISO 16283-3: R'45° takes 1.5 dB off the level on the surface, for a loudspeaker at 45°.
        (OutdoorSource(0.5 * math.pi + 0.25 * math.pi, 0.0, 0.0, 0.0), 1.5),
        # ISO 16283-3: R'tr,s takes 3 dB off it, for sound from all directions of the half space in front.
        (OutdoorSource(0.5 * math.pi, 0.5 * math.pi, -0.5 * math.pi, 0.5 * math.pi), 3.0),
    ],
)
def test_surface_level_exceeds_the_level_with_r_by_the_term_of_the_standard(source, term):
    seen = face_incidence("left", source, (60.0,), 20.0, 20.0)
    assert seen.at_face[26] - seen.incident[26] == pytest.approx(term, abs=0.2)


def test_surface_of_a_large_facade_is_six_decibels_above_the_free_field():
    """ISO 16283-3: doubled pressure on a large, hard façade."""
    seen = face_incidence("front", OutdoorSource(0.0, 0.0, 0.0, 0.0), (20.0,), 20.0, 20.0)
    assert seen.at_face[26] == pytest.approx(6.02, abs=0.01)
