"""Finite size of a limp panel against ISO 15186-3:2002 table A.1 (row ISO15186-3-A1 of tl_thirdoctave.csv)."""

import csv
from pathlib import Path

import numpy as np
import pytest

from hushwright.physics.acoustics.bands import FREQUENCIES
from hushwright.physics.acoustics.layers import LimpMass
from hushwright.physics.acoustics.partition import Partition, sound_reduction
from hushwright.physics.acoustics.radiation import radiation_factor
from hushwright.physics.air import Air

TABLE = Path(__file__).parent / "tables" / "tl_thirdoctave.csv"
with TABLE.open(encoding="utf-8", newline="") as file:
    ROW = next(row for row in csv.DictReader(file) if row["id"] == "ISO15186-3-A1")
BANDS = (50, 63, 80, 100, 125, 160)
PRINTED = np.array([float(ROW[f"r_{band}"]) for band in BANDS])
AIR = Air(temperature=23.0, pressure=101_300.0)
# 10 m² opening; the standard does not print its sides, 3.6 m × 2.78 m are those of the usual wall opening.
WIDTH, HEIGHT = 3.6, 2.78
MASS = 10.0


def test_mass_controlled_limit_agrees_with_table_a1():
    # ISO 15186-3:2002 table A.1; (2ρc/ωm)²·∫2σ sinθ dθ
    theta = (np.arange(200) + 0.5) / 200 * np.pi / 2
    frequency = FREQUENCIES[3:9]
    wave = 2 * np.pi * frequency / AIR.speed_of_sound
    factor = radiation_factor(wave[:, None], np.cos(theta)[None, :], WIDTH, HEIGHT, exact=True)
    integral = np.sum(2 * factor * np.sin(theta), axis=1) * np.pi / 2 / theta.size
    passed = (2 * AIR.characteristic_impedance / (2 * np.pi * frequency * MASS)) ** 2 * integral
    assert -10 * np.log10(passed) == pytest.approx(PRINTED, abs=0.15)


def test_full_form_agrees_with_table_a1():
    # ISO 15186-3:2002 table A.1; the whole method, air load included
    result = sound_reduction(Partition((LimpMass(MASS, 0.0125),), WIDTH, HEIGHT), air=AIR)
    assert np.array(result.reduction[3:9]) == pytest.approx(PRINTED, abs=0.25)


def test_closed_form_is_near_the_integral():
    # Davy 2009 states agreement within about half a decibel
    wave = np.array([1.0, 2.0, 5.0, 10.0, 20.0])[:, None]
    cosine = np.cos(np.radians([5.0, 30.0, 60.0, 80.0]))[None, :]
    exact = radiation_factor(wave, cosine, WIDTH, HEIGHT, exact=True)
    closed = radiation_factor(wave, cosine, WIDTH, HEIGHT)
    assert np.max(np.abs(10 * np.log10(closed / exact))) < 0.7
