"""Numbers that several rooms need have one home each, so that they cannot part."""

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import hushwright
from hushwright.physics.air import STANDARD_GRAVITY
from hushwright.physics.airflow import psychrometrics
from hushwright.physics.thermal import moisture
from hushwright.physics.thermal.moisture import saturation_pressure
from hushwright.units import STANDARD_GRAVITY as GRAVITY_OF_UNITS

SOURCES = {path: path.read_text(encoding="utf-8") for path in Path(hushwright.__file__).parent.rglob("*.py")}


def homes(pattern: str) -> set[str]:
    return {path.stem for path, text in SOURCES.items() if re.search(pattern, text, re.MULTILINE)}


def test_free_fall_stands_with_the_laws_and_with_the_units_and_is_one_number() -> None:
    assert homes(r"\b9\.8[01]\d*\b(?! kPa)") == {"air", "kinds"}
    assert STANDARD_GRAVITY == GRAVITY_OF_UNITS


def test_months_are_named_once() -> None:
    assert homes('"February"') == {"climate"}


def test_a_working_day_of_counted_air_is_stated_once() -> None:
    assert homes(r"8\.0 \* 3600") - {"noise_dose"} == {"air"}  # those of a noise dose are the law's own


@given(temperature=st.floats(-20.0, 40.0))
def test_the_dew_points_of_air_flow_and_of_walls_agree(temperature: float) -> None:
    """Two published saturation formulas, ASHRAE's and ISO 13788's; siblings of physics do not import each other."""
    pressure = saturation_pressure(temperature)
    assert psychrometrics.dew_point_temperature(pressure) == pytest.approx(temperature, abs=0.06)
    assert moisture.dew_point_temperature(pressure) == pytest.approx(temperature, abs=1e-6)
