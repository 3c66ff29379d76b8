"""A-weighting and threshold of hearing against printed tables."""

import tomllib
from pathlib import Path

import numpy as np
import pytest

from hushwright.physics.acoustics.bands import FREQUENCIES, THIRD_OCTAVE_BANDS
from hushwright.physics.acoustics.hearing import threshold_of_hearing
from hushwright.physics.acoustics.weighting import a_weighting

TABLES = Path(__file__).parent / "tables"
MORE = tomllib.loads((TABLES / "ratings_more.toml").read_text(encoding="utf-8"))


def test_a_weighting_rounds_to_the_printed_table():
    # IEC 61672-1:2013 table 3, tenths of a decibel; half of the last digit
    item = MORE["iec_61672_1_a_weighting"]
    assert tuple(item["bands"]) == THIRD_OCTAVE_BANDS
    assert np.max(np.abs(a_weighting(FREQUENCIES) - item["a_weighting"])) <= 0.05


def test_threshold_at_1_khz_is_the_printed_one():
    # ISO 389-7 table 1, free field: 2.4 dB (found in a transcription other than the one of the whole row)
    assert threshold_of_hearing([1000.0])[0] == 2.4


@pytest.mark.parametrize(
    ("band", "free", "diffuse"),
    # ISO 389-7:2005 as listed by an auditory toolbox, a reading independent of the row in the package
    [(125, 22.1, 22.1), (250, 11.4, 11.4), (315, 8.6, 8.4), (500, 4.4, 3.8), (800, 2.2, 1.0), (1250, 3.5, 1.9)],
)
def test_threshold_in_both_fields_is_that_of_a_second_transcription(band, free, diffuse):
    assert threshold_of_hearing([band], field="free")[0] == free
    assert threshold_of_hearing([band], field="diffuse")[0] == diffuse
