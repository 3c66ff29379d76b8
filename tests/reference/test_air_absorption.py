"""Absorption of the air against ISO 9613-1 and ISO 9613-2 as printed, at half of the last digit."""

import csv
import math
from pathlib import Path

import numpy as np
import pytest

from hushwright.physics.acoustics.absorption_air import air_attenuation
from hushwright.physics.acoustics.bands import exact_midband

with (Path(__file__).parent / "tables" / "atmosphere.csv").open(encoding="utf-8", newline="") as file:
    ROWS = list(csv.DictReader(file))


def half_last_digit(row):
    """Three significant digits in ISO 9613-1; tenths in ISO 9613-2, rounded a second time from those three digits."""
    value = float(row["alpha_db_km"])
    digit = 10.0 ** (math.floor(math.log10(value)) - 2)
    return 0.5 * (max(digit, 0.1) + digit if row["id"].startswith("ISO9613-2") else digit)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_attenuation_agrees_with_the_printed_table(row):
    # ISO 9613-1:1993 table 1, ISO 9613-2:1996 table 2
    got = 1000.0 * air_attenuation(
        exact_midband(float(row["frequency_hz"])),
        temperature=float(row["temperature_c"]),
        relative_humidity=float(row["humidity_pct"]) / 100.0,
    )
    assert float(got) == pytest.approx(float(row["alpha_db_km"]), abs=half_last_digit(row) * (1 + 1e-9), rel=0)


def test_table_has_rows_of_both_parts():
    assert len(ROWS) > 140
    assert np.unique([row["id"][:9] for row in ROWS]).tolist() == ["ISO9613-1", "ISO9613-2"]
