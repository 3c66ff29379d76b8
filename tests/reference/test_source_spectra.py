"""Voice, rain and sound radiated outdoors against printed values."""

import csv
import math
import tomllib
from pathlib import Path

import numpy as np
import pytest

from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS, energy_sum_level
from hushwright.physics.acoustics.outdoors import (
    diffuse_equivalent_level,
    level_at_distance,
    segment_sound_power,
    spreading_in_front,
)
from hushwright.physics.acoustics.rain import RAINS, drop_force, radiated_per_force, rain_sound_power
from hushwright.physics.acoustics.spectra import rating_spectrum, speech_levels
from hushwright.physics.acoustics.weighting import a_weighted_level

TABLES = Path(__file__).parent / "tables"
ANNEX_G = tomllib.loads((TABLES / "ratings_more.toml").read_text(encoding="utf-8"))["en12354_4_annex_g"]
BANDS = [band for band in THIRD_OCTAVE_BANDS if 100 <= band <= 8000]


def row(identifier):
    with (TABLES / "source_spectra.csv").open(encoding="utf-8", newline="") as file:
        found = next(row for row in csv.DictReader(file) if row["id"] == identifier)
    return found, {band: float(found[f"f_{band:g}"]) for band in BANDS if found[f"f_{band:g}"]}


@pytest.mark.parametrize(
    ("effort", "overall"),
    # overall levels ANSI S3.5-1997 table 3 prints under its spectra
    [("normal", 62.35), ("raised", 68.3), ("loud", 74.86), ("shout", 82.36)],
)
def test_voice_has_the_printed_overall_level(effort, overall):
    bands = row(f"SPEECH-{effort}-band")[1]
    got = dict(zip(THIRD_OCTAVE_BANDS, speech_levels(effort).levels, strict=True))
    assert float(energy_sum_level([got[band] for band in bands])) == pytest.approx(overall, abs=0.05)
    # band levels worked out beside the table from nominal bandwidths, one decimal
    assert max(abs(got[band] - level) for band, level in bands.items()) <= 0.1


@pytest.mark.parametrize("kind", ["pink", "traffic"])
def test_rating_spectra_are_those_of_iso_717_1_once_weighted(kind):
    # ISO 717-1 annex B: differences between bands as printed in whole decibels, 0 dB(A) in total
    spectrum = rating_spectrum(kind)
    assert a_weighted_level(spectrum.levels) == pytest.approx(0.0, abs=1e-9)
    assert spectrum.assumed == (25, 31.5, 40, 6300, 8000, 10000)


def test_the_reference_pane_sounds_as_printed_under_heavy_rain():
    # ISO 10140-5:2021 table I.1; around its coincidence (2 kHz) the force is pooled over three bands
    intensity, loss = row("RAIN-glass")[1], row("RAIN-glass-eta")[1]
    losses = np.array([10 ** (loss.get(band, -15.0) / 10) for band in THIRD_OCTAVE_BANDS])
    stiffness = 63.71e9 * 0.006**3 / 12 / (1 - 0.24**2)
    got = rain_sound_power(15.0, stiffness, losses, 1.25 * 1.5, perimeter=5.5).array() - 10 * math.log10(1.25 * 1.5)
    differences = {
        band: level - intensity[band] for band, level in zip(THIRD_OCTAVE_BANDS, got, strict=True) if band in intensity
    }
    assert max(abs(value) for band, value in differences.items() if not 2000 <= band <= 3150) <= 0.2
    assert max(abs(value) for value in differences.values()) <= 3.5


def test_the_force_read_back_from_the_pane_is_that_of_the_momentum_of_its_drops():
    # plain arithmetic: N drops a second and square metre of momentum p have the one-sided force density 2 N p²,
    # flat below about a quarter of velocity over diameter (350 Hz); rain after ISO 10140-5 table H.1
    volume = math.pi / 6 * 0.005**3
    drops, momentum = 0.040 / 3600 / volume, 1000 * volume * 7.0
    expected = 10 * math.log10(2 * drops * momentum**2)
    force, _ = drop_force("heavy")
    bands = [THIRD_OCTAVE_BANDS.index(band) for band in (100, 125, 160, 200, 250, 315)]
    width = 10**0.05 - 10**-0.05
    got = [10 * math.log10(force[i] / (1000 * 10 ** ((i - 16) / 10) * width)) for i in bands]
    assert np.mean(got) == pytest.approx(expected, abs=3.0)


def test_rain_classes_are_the_printed_ones():
    # ISO 10140-5:2021 table H.1: 15 mm/h, 2 mm, 4 m/s and 40 mm/h, 5 mm, 7 m/s
    assert [
        (RAINS[k].rate_millimetre_per_hour, RAINS[k].drop_diameter, RAINS[k].fall_velocity)
        for k in ("intense", "heavy")
    ] == [
        (15.0, 0.002, 4.0),
        (40.0, 0.005, 7.0),
    ]


def test_near_field_is_what_full_damping_leaves():
    # Cremer, Heckl & Petersson: rho/(2 pi c m²) per mean square force; by hand for 10 kg/m² at 20 °C
    left = radiated_per_force([250.0], 10.0, 20.0, [1e6], 4.0, 1.0)
    assert float(left[0]) == pytest.approx(1.2041 / (2 * math.pi * 343.2 * 100.0), rel=2e-3)


def test_en_12354_4_segment_power():
    # EN 12354-4:2000 annex G, side 1, 63 and 125 Hz
    got = segment_sound_power(
        ANNEX_G["inside_level_63_125"],
        ANNEX_G["reduction_63_125"],
        ANNEX_G["segment_area_m2"],
        diffusivity_term=ANNEX_G["diffusivity_term"],
    )
    assert np.max(np.abs(got - ANNEX_G["sound_power_63_125"])) <= 0.05


@pytest.mark.parametrize(("width", "height", "distance", "printed"), ANNEX_G["faces_width_height_distance_attenuation"])
def test_en_12354_4_attenuation_in_front_of_a_face(width, height, distance, printed):
    # EN 12354-4:2000 annex G, table G.9
    assert spreading_in_front(width, height, distance) == pytest.approx(printed, abs=0.05)


def test_en_12354_4_levels_outside():
    # EN 12354-4:2000 annex G, table G.9
    near = level_at_distance(ANNEX_G["sound_power_a_60_m_face"], 60, 10, 5)
    far = level_at_distance(ANNEX_G["sound_power_a_100_m_face"], 100, 10, 25)
    assert float(near) == pytest.approx(ANNEX_G["level_a_60_m_face_at_5_m"], abs=0.05)
    assert float(far) == pytest.approx(ANNEX_G["level_a_100_m_face_at_25_m"], abs=0.05)


def test_iso_16283_3_angle_terms():
    # ISO 16283-3:2016 clauses 3.12 and 3.13: −1.5 dB for a loudspeaker at 45°, −3 dB for traffic. With 60 dB at the
    # surface, 20 dB inside and S = A the loudspeaker gives R' = 38.5 dB.
    at_45, all_round = diffuse_equivalent_level(60.0, math.pi / 4), diffuse_equivalent_level(60.0)
    assert float(at_45) - 20.0 == pytest.approx(38.5, abs=0.05)
    assert float(all_round) == pytest.approx(57.0, abs=0.05)
