"""Noise criteria and hearing-test limits against printed examples and tables."""

import csv
import math
import tomllib
from pathlib import Path

import numpy as np
import pytest

from hushwright.physics.acoustics.bands import OCTAVE_BANDS, THIRD_OCTAVE_BANDS
from hushwright.physics.acoustics.criteria import (
    earphone_attenuation,
    hearing_test_limits,
    noise_criterion,
    noise_criterion_limits,
    noise_rating,
    noise_rating_limits,
)

TABLES = Path(__file__).parent / "tables"
EXAMPLES = tomllib.loads((TABLES / "ratings_examples.toml").read_text(encoding="utf-8"))["nc"]


def rows(name):
    with (TABLES / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def octaves(values):
    """Levels 63 Hz to 8 kHz with silence at 31.5 Hz."""
    return [-math.inf, *values]


def test_textbook_example_of_the_tangent_method():
    # textbook example 8.3 (source in the table): interpolated NC 27, NC 30 in steps of five
    item = EXAMPLES[0]
    rating = noise_criterion(octaves(item["octaves_63_8k"]))
    assert rating.whole == item["nc_interpolated"]
    assert rating.curve_of_five == item["nc_by_5_step_tangency"]


@pytest.mark.parametrize("curve_set", ["classic", "2019"])
def test_nc_40_row_rates_nc_40(curve_set):
    # ANSI/ASA S12.2-2019, NC-40 row
    item = EXAMPLES[1]
    assert noise_criterion(octaves(item["octaves_63_8k"]), curve_set=curve_set).value == item["nc_by_5_step_tangency"]


def test_duct_example_meets_nc_30():
    # Long 2e table 14.9: NC 30 met
    levels = octaves(EXAMPLES[2]["octaves_63_8k"])
    assert noise_criterion(levels).value <= EXAMPLES[2]["meets_nc"]
    assert np.min(noise_criterion_limits(30).margins(levels)) >= 0


@pytest.mark.parametrize("row", [row for row in rows("noise_criteria.csv") if row["family"].startswith("NC-")], ids=str)
def test_each_printed_nc_curve_rates_itself(row):
    # ANSI/ASA S12.2-2019 table 1; classic curves as in the table
    curve_set = row["family"].removeprefix("NC-")
    levels = [float(row[f"l_{band:g}"] or "-inf") for band in OCTAVE_BANDS]
    number = float(row["curve"])
    assert noise_criterion(levels, curve_set=curve_set).value == pytest.approx(number)
    limits = noise_criterion_limits(number, curve_set=curve_set).limits
    assert [limit for limit in limits if math.isfinite(limit)] == [level for level in levels if math.isfinite(level)]


@pytest.mark.parametrize("row", [row for row in rows("noise_criteria.csv") if row["family"] == "NR"], ids=str)
def test_nr_curves_are_those_of_the_coefficients(row):
    # curves worked out beside the table from ISO/R 1996 coefficients, one decimal
    levels = np.array([float(row[f"l_{band:g}"]) for band in OCTAVE_BANDS])
    limits = np.array(noise_rating_limits(float(row["curve"])).limits)
    assert np.max(np.abs(limits - levels)) <= 0.05 + 1e-9
    assert noise_rating(levels).value == pytest.approx(float(row["curve"]), abs=0.1)


LIMIT_ROWS = [row for row in rows("hearing_test_limits.csv") if row["quantity"] == "Lmax third-octave"]
TRANSDUCERS = {"air": "supra_aural", "bone": "bone", "field": "sound_field"}


@pytest.mark.parametrize("row", LIMIT_ROWS, ids=lambda row: row["id"])
def test_hearing_test_limits_are_the_printed_ones(row):
    # ISO 8253-1:2010 tables 2 and 4, ISO 8253-2 table 2
    _, kind, tone = row["id"].split("_")
    printed = {band: float(row[f"b_{band:g}"]) for band in THIRD_OCTAVE_BANDS if row.get(f"b_{band:g}")}
    limits = hearing_test_limits(TRANSDUCERS[kind], lowest_tone=int(tone)).limits
    got = {band: limit for band, limit in zip(THIRD_OCTAVE_BANDS, limits, strict=True) if math.isfinite(limit)}
    assert got == printed


def test_accepting_five_decibels_of_error_allows_eight_decibels_more():
    # ISO 8253-1:2010 table 2, note
    strict, lenient = (np.array(hearing_test_limits(uncertainty=u).limits) for u in (2, 5))
    finite = np.isfinite(strict)
    assert np.all(lenient[finite] - strict[finite] == 8.0)


def test_insert_earphones_move_the_limit_by_the_difference_of_attenuations():
    # ISO 8253-1:2010 tables 2 and 3 by hand, 1 kHz: 23 + 37 − 15 = 45 dB
    limits = dict(zip(THIRD_OCTAVE_BANDS, hearing_test_limits("insert").limits, strict=True))
    assert limits[1000] == 23 + 37 - 15
    assert earphone_attenuation("supra_aural")[THIRD_OCTAVE_BANDS.index(1000)] == 15
