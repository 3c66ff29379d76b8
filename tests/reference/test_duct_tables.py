"""Parts of ducts against the printed tables of handbooks and standards."""

import csv
import math
import tomllib
from pathlib import Path

import numpy as np
import pytest

from hushwright.physics.acoustics.bands import FREQUENCIES, THIRD_OCTAVE_BANDS
from hushwright.physics.acoustics.duct_bands import DUCT_OCTAVES, power_from_octaves
from hushwright.physics.acoustics.duct_breakout import (
    OvalDuctWall,
    RectangularDuctWall,
    RoundDuctWall,
    wall_transmission_loss,
)
from hushwright.physics.acoustics.duct_fan import (
    FanDuty,
    blade_passing_frequency,
    casing_attenuation,
    efficiency_correction,
    estimated_fan_power,
    fan_law_level,
    fan_law_power,
)
from hushwright.physics.acoustics.duct_fittings import bend, elbow, end_reflection, plenum, split
from hushwright.physics.acoustics.duct_flow_noise import (
    bend_noise,
    blockage_factor,
    damper_noise,
    silencer_noise,
    straight_duct_noise,
    straight_duct_total,
    vane_spectrum,
)
from hushwright.physics.acoustics.duct_lined import bare_duct, flexible_duct, lined_duct, lining_insertion_loss
from hushwright.physics.acoustics.duct_passage import decibel_per_metre, passage_loss
from hushwright.physics.acoustics.duct_sections import RectangularSection, RoundSection
from hushwright.physics.acoustics.duct_terminals import terminal_noise, terminal_speed_limit, throttling_increment
from hushwright.physics.acoustics.layers import Porous
from hushwright.physics.acoustics.weighting import a_weighted_level
from hushwright.physics.air import AIR_20C

TABLES = Path(__file__).parent / "tables"
RULES = tomllib.loads((TABLES / "duct_rules.toml").read_text(encoding="utf-8"))
FOOT, INCH = 0.3048, 0.0254
CUBIC_FOOT_PER_MINUTE, INCH_OF_WATER = FOOT**3 / 60.0, 249.0889
# Sheets of the gauges in the breakout tables, black steel of 1.0 to 2.5 lb/ft² (memory).
SHEET = {"24": 4.88, "22": 6.10, "20": 7.32, "18": 9.76}


def rows(name, **key):
    with (TABLES / name).open(encoding="utf-8", newline="") as file:
        found = [row for row in csv.DictReader(file) if all(row[column] == value for column, value in key.items())]
    return [pytest.param(row, id=row.get("id", row.get("band_hz", ""))) for row in found]


def printed(row):
    """Octaves 63 Hz to 8 kHz as printed; an empty cell is nan."""
    return np.array([float(row[f"b_{band:g}"].strip(">()") or "nan") for band in DUCT_OCTAVES])


def agrees(found, row, tolerance):
    expected = printed(row)
    given = np.isfinite(expected)
    assert np.array(found)[given] == pytest.approx(expected[given], abs=tolerance)


# straight ducts


@pytest.mark.parametrize("row", rows("duct_elements.csv", table="flexible_duct"))
def test_flexible_duct_is_that_of_the_table(row):
    """Long 2014, table 14.4."""
    diameter = float(row["size"].split()[1]) / 1000.0
    feet = int(row["id"].split("-")[2].removesuffix("ft"))
    agrees(flexible_duct(diameter, feet * FOOT).octaves, row, 1e-6)


@pytest.mark.parametrize("row", rows("duct_elements.csv", table="vdi_straight"))
def test_bare_sheet_duct_is_that_of_vdi_2081(row):
    """VDI 2081-1, table 5."""
    shape, size = row["size"].split()[0], float(row["size"].split("-")[-1].split("=")[-1].split()[0])
    section = RectangularSection(size, size / 2.0) if shape == "rect" else RoundSection(size)
    agrees(bare_duct(section, 1.0, "sheet table").octaves, row, 1e-6)


@pytest.mark.parametrize("row", rows("duct_elements.csv", table="unlined_circular"))
def test_bare_round_duct_is_that_of_the_handbook(row):
    """ASHRAE table of round ducts, dB per foot."""
    agrees(bare_duct(RoundSection(0.3), FOOT).octaves, row, 1e-6)


@pytest.mark.parametrize(
    ("side", "octave", "expected"),
    [(6, 63, 0.30), (6, 125, 0.20), (6, 250, 0.10), (12, 63, 0.35), (12, 125, 0.20), (24, 63, 0.25), (48, 63, 0.15)],
)
def test_bare_rectangular_duct_is_near_the_handbook_table(side, octave, expected):
    """ASHRAE Handbook, table of unlined rectangular ducts, dB per foot (memory): it settles the sign of an exponent."""
    found = bare_duct(RectangularSection(side * INCH, side * INCH), FOOT).octaves[DUCT_OCTAVES.index(octave)]
    assert found == pytest.approx(expected, abs=0.07)


def test_lined_rectangular_duct_is_that_of_the_sheet():
    """Long 2014, table 14.9: all eight octaves within the rounding of the printed values.

    The rules file computes up to 2 dB more in the bass: its transcription of the bare duct has (P/S)^0.25 where the
    handbook table and this sheet need (P/S)^−0.25.
    """
    check = RULES["lined_rectangular_check"]
    width, height = (side * INCH for side in check["inside_in"])
    duct = RectangularSection(width, height)
    found = lined_duct(duct, check["length_ft"] * FOOT, check["lining_in"] * INCH).octaves
    assert found[3:] == pytest.approx(check["regression_gives_db"], abs=0.06)
    assert found[3:] == pytest.approx(check["total_att_db"], abs=0.51)
    assert found[:3] == pytest.approx(check["printed_low_db"], abs=0.51)


def test_lined_duct_of_the_other_size_is_that_of_the_sheet():
    """Long 2014, table 14.9: 36 × 24 in, 5 ft, 1 in lining: 2 2 3 7 15 12 11 9 dB, its clear size not stated."""
    found = lined_duct(RectangularSection(36 * INCH, 24 * INCH), 5 * FOOT, INCH).octaves
    assert found == pytest.approx([2, 2, 3, 7, 15, 12, 11, 9], abs=2.5)


@pytest.mark.parametrize("row", rows("duct_lined_regression.csv", table="lined_rectangular"))
def test_lining_of_a_rectangular_duct_is_the_regression(row):
    """Reynolds, as Long 2014 and the ASHRAE algorithms: coefficients read from the table, law written out here."""
    b, c, d = (float(row[key]) for key in "BCD")
    found = lining_insertion_loss(RectangularSection(0.3, 0.2), 1.5, 0.05).octaves
    expected = b * (1.0 / 0.06 * FOOT) ** c * (0.05 / INCH) ** d * 1.5 / FOOT
    assert found[DUCT_OCTAVES.index(float(row["band_hz"]))] == pytest.approx(min(40.0, expected), rel=1e-9)


@pytest.mark.parametrize("row", rows("duct_lined_regression.csv", table="lined_round"))
def test_lining_of_a_round_duct_is_the_regression(row):
    """Reynolds, as Long 2014 and the ASHRAE algorithms."""
    t, d = 0.05 / INCH, 0.25 / INCH
    a, b, c, e, f, g = (float(row[key]) for key in "ABCDEF")
    expected = (a + b * t + c * t**2 + e * d + f * d**2 + g * d**3) * 1.5 / FOOT
    found = lining_insertion_loss(RoundSection(0.25), 1.5, 0.05).octaves[DUCT_OCTAVES.index(float(row["band_hz"]))]
    assert found == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize(("width", "height", "lining"), [(12, 12, 1), (18, 12, 1), (12, 12, 2), (24, 24, 2), (6, 6, 1)])
def test_theory_of_the_lined_passage_is_near_the_regression_of_lined_ducts(width, height, lining):
    """Reynolds' regression of measured glass-fibre lined ducts; resistivity 8000 to 20 000 Pa·s/m² (Bies 2017).

    500 Hz within 35 %: there both are about one wave across a lining that neither is thin nor thick. At 63 and 125 Hz
    measured ducts also lose through their sheet, at 4 kHz waves beside the slowest one arrive: theory must be lower.
    """
    measured = lining_insertion_loss(RectangularSection(width * INCH, height * INCH), 1.0, lining * INCH).octaves
    for resistivity in (8_000.0, 20_000.0):
        along = passage_loss(
            width * INCH, height * INCH, Porous(resistivity, 0.98, 1.0, 24.0), lining_on_width=lining * INCH,
            lining_on_height=lining * INCH, frequency=np.array(DUCT_OCTAVES),
        )  # fmt: skip
        theory = decibel_per_metre(along)
        assert theory[2] < 1.1 * measured[2]
        if lining == 1:
            assert theory[3] == pytest.approx(measured[3], rel=0.35)
        assert np.all(theory[[0, 1]] < np.array(measured)[[0, 1]])


# fittings


@pytest.mark.parametrize("row", rows("duct_elbows.csv"))
def test_elbow_is_that_of_the_table(row):
    """Bies 2017, table 8.11; Long 2014, tables 14.5 to 14.7."""
    name, kind = row["elbow"].split(", ", 1)
    kind = {"no vanes, unlined": "square", "no vanes, lined": "square lined", "vanes, unlined": "square vanes",
            "vanes, lined": "square vanes lined", "unlined": "radiused"}[kind]  # fmt: skip
    assert name.startswith("round") == (kind == "radiused")
    ratios = {"lt_0.14": 0.1, "0.14_0.28": 0.2, "0.28_0.55": 0.4, "0.55_1.11": 0.8, "1.11_2.22": 1.6, "ge_2.22": 3.0}
    for column, ratio in ratios.items():
        found = elbow(ratio * AIR_20C.speed_of_sound / 1000.0, kind).octaves[4]
        assert found == pytest.approx(float(row[column]))


@pytest.mark.parametrize("row", rows("duct_elements.csv", table="vdi_bend"))
def test_bend_is_that_of_vdi_2081(row):
    """VDI 2081-1, table 7, side 1250 mm; half the side moves the pattern up by an octave."""
    kind = {"sharp bend": "sharp", "sharp bend, vanes": "sharp vanes", "lined both sides": "lined",
            "lined both sides, vanes": "lined vanes", "lined one side": "lined one side",
            "radiused or round": "radiused"}[row["element"]]  # fmt: skip
    found = bend(1.25, kind)
    agrees(found.octaves, row, 1e-9)
    assert bend(0.625, kind).octaves[1:] == found.octaves[:-1]


@pytest.mark.parametrize("row", rows("duct_elements.csv", table="end_reflection"))
def test_end_reflection_is_near_the_table(row):
    """Bies 2017, table 8.14; the closed form of Long 2014 is within 1.1 dB of it, as the rules file states."""
    _, kind, size = row["id"].split("-")
    area = math.pi / 4.0 * (float(size) / 1000.0) ** 2
    found = end_reflection(area, kind, limit=None).attenuation
    at_octaves = [found[THIRD_OCTAVE_BANDS.index(band)] for band in DUCT_OCTAVES]
    agrees(at_octaves, row, RULES["end_reflection_closed_form"]["worst_deviation_from_table_db"] + 0.05)


def test_end_reflection_is_trusted_up_to_the_limit_of_vdi_2081():
    limit = RULES["vdi_2081_fan"]["limit_end_reflection_db"]
    assert max(end_reflection(0.01, "free").attenuation) == limit
    assert end_reflection(0.01, "free").notes


@pytest.mark.parametrize(
    ("share", "expected"), list(zip(RULES["split"]["share"], RULES["split"]["att_db"], strict=True))
)
def test_split_is_that_of_the_worked_examples(share, expected):
    """VDI 2081-2 and Long 2014."""
    assert split(share).attenuation[0] == pytest.approx(expected, abs=0.051)


def test_lined_chamber_is_that_of_wells():
    """Wells 1958 by hand: S = 0.05 m², r = 1 m, S_w = 6 m², α = 0.5: direct 0.00796, room 0.00833, sum 17.9 dB."""
    assert plenum(0.05, 6.0, 0.5, 1.0).attenuation[0] == pytest.approx(17.9, abs=0.05)
    nearer = plenum(0.05, 6.0, 0.5, 1.0, spread="quarter space").attenuation[0]
    assert 0.0 < plenum(0.05, 6.0, 0.5, 1.0).attenuation[0] - nearer < 3.0


# duct walls


@pytest.mark.parametrize("row", rows("duct_breakout.csv", shape="rectangular"))
def test_rectangular_duct_wall_is_that_of_the_handbook(row):
    """ASHRAE Handbook, HVAC Applications 2019, ch. 49; whole decibels, 1.3 dB off where its lines meet."""
    height, width = (INCH * round(float(side) / 25.4) for side in row["size_mm"].split("x"))
    wall = RectangularDuctWall(width, height, SHEET[row["gauge"]], 20 * FOOT)
    agrees(wall_transmission_loss(wall, row["direction"]).octaves, row, 1.3)


@pytest.mark.parametrize("row", rows("duct_breakout.csv", shape="flat oval"))
def test_oval_duct_wall_is_that_of_the_handbook(row):
    """ASHRAE Handbook, HVAC Applications 2019, ch. 49; break-in with the constant of rectangular ducts, 1 dB off."""
    width, height = (INCH * round(float(side) / 25.4) for side in row["size_mm"].split("x"))
    wall = OvalDuctWall(width, height, SHEET[row["gauge"]], 20 * FOOT)
    tolerance = 1.05 if row["direction"] == "breakout" else 1.6
    agrees(wall_transmission_loss(wall, row["direction"]).octaves, row, tolerance)


@pytest.mark.parametrize("row", rows("duct_breakout.csv", shape="circular"))
def test_round_duct_wall_is_the_measured_one(row):
    """ASHRAE Handbook, HVAC Applications 2019, ch. 49; where two ducts of one size were measured, never better."""
    size, seam = row["size_mm"].split(" ", 1)
    found = np.array(wall_transmission_loss(RoundDuctWall(float(size) / 1000.0, 5.0, seam), row["direction"]).octaves)
    expected = printed(row)
    assert np.all(found[:7] <= expected[:7] + 1e-9)
    if size not in ("610", "660"):
        agrees(found, row, 1e-9)


# fans


@pytest.mark.parametrize("row", rows("duct_elements.csv", table="fan_KF"))
def test_specific_sound_power_is_that_of_the_table(row):
    """Long 2014, table 13.5: levels at 1 ft³/min and 1 in of water, with the increment of the blades in its octave."""
    unit = FanDuty(CUBIC_FOOT_PER_MINUTE, INCH_OF_WATER)
    expected = printed(row)
    words = row["note"].replace("the 500 Hz octave", "500").split()
    expected[DUCT_OCTAVES.index(float(words[-1]))] += float(words[3])
    assert estimated_fan_power(unit, row["element"].replace("_", " ")).octaves == pytest.approx(expected)


def test_worked_fan_is_that_of_the_book():
    """Long 2014, eq. 13.1 as printed: forward curved, 5000 ft³/min, 2 in of water, 80 % of its best efficiency."""
    (row,) = (param.values[0] for param in rows("duct_elements.csv", table="fan_example"))
    duty = FanDuty(5000 * CUBIC_FOOT_PER_MINUTE, 2 * INCH_OF_WATER, relative_efficiency=0.8)
    agrees(estimated_fan_power(duty).octaves, row, 0.51)


def test_estimate_and_sheet_of_the_same_fan_differ_within_the_uncertainty_that_is_stated():
    """Long 2014, table 14.9 starts from these levels for the same duty: within twice the standard uncertainty."""
    duty = FanDuty(5000 * CUBIC_FOOT_PER_MINUTE, 2 * INCH_OF_WATER, relative_efficiency=0.8)
    power = estimated_fan_power(duty)
    difference = np.abs(np.array(power.octaves) - [90, 86, 82, 79, 77, 75, 71, 61])
    assert np.all(difference < 2.0 * power.standard_uncertainty[4])


def test_fan_law_is_that_of_the_worked_example():
    """VDI 2081-2:2005: 16 000 m³/h, 600 Pa, 1250 rpm: 96 dB, Strouhal numbers 0.963 to 122.2."""
    rule = RULES["vdi_2081_fan"]
    speed = rule["speed_rpm"] / 60.0
    duty = FanDuty(rule["volume_flow_m3_h"] / 3600.0, rule["total_pressure_pa"], speed)
    assert fan_law_level(duty) == pytest.approx(rule["LW_db"], abs=0.06)
    assert [63.0 / (math.pi * speed), 8000.0 / (math.pi * speed)] == pytest.approx(rule["strouhal_63_to_8k"], rel=2e-3)
    strouhal = 63.0 / (math.pi * speed)
    by_hand = rule["LW_db"] - 5.0 - 5.0 * (math.log10(strouhal) + 0.4) ** 2
    assert fan_law_power(duty).octaves[0] == pytest.approx(by_hand, abs=0.06)


def test_blade_tone_is_that_of_the_book():
    """Long 2014, eq. 13.4."""
    rule = RULES["blade_passing"]
    found = [blade_passing_frequency(rule["rpm"] / 60.0, blades) for blades in rule["blades"]]
    assert found == pytest.approx(rule["frequency_hz"])


def test_loss_of_efficiency_is_that_of_the_table():
    """Long 2014, table 13.6: each class from its lower edge."""
    rule = RULES["fan_efficiency_correction"]
    found = [efficiency_correction(percent / 100.0) for percent in rule["relative_static_efficiency_pct"]]
    assert found == rule["c_eff_db"]


def test_casing_is_that_of_the_table():
    """Long 2014, table 13.8."""
    (row,) = (param.values[0] for param in rows("duct_elements.csv", table="fan_casing"))
    agrees(casing_attenuation(), row, 1e-9)


# flow noise


def test_flow_noise_of_a_straight_duct_is_that_of_the_worked_example():
    """VDI 2081-2:2005: 5.83 m/s in 0.2 m²: 38 dB, 22 dB(A); the octave rule has up to 4 dB(A) more, the safe side."""
    rule = RULES["vdi_2081_straight_duct_noise"]
    assert straight_duct_total(rule["speed_m_s"], rule["area_m2"]) == pytest.approx(rule["LW_db"], abs=0.5)
    power = straight_duct_noise(rule["speed_m_s"], rule["area_m2"])
    assert rule["LW_dba"] - 0.5 <= a_weighted_level(power.sound_power_level) <= rule["LW_dba"] + 4.0


def test_octave_of_the_flow_noise_is_that_of_the_formula():
    """VDI 2081-1 form."""
    rule = RULES["straight_duct_flow_noise_formula"]
    found = straight_duct_noise(rule["U_m_s"], rule["S_m2"]).octaves[DUCT_OCTAVES.index(rule["f_hz"])]
    assert found == pytest.approx(rule["LW_db"], abs=1e-3)


def test_own_noise_of_a_silencer_has_the_octaves_of_the_book():
    """Long 2014 and Bies 2017; the total by hand: 55 lg 12 + 10 lg 2 + 10 lg 400 − 45 = 43.4 dB (Fry 1988, memory)."""
    octaves = np.array(silencer_noise(12.0, 2, 0.4).octaves)
    assert 43.4 - octaves == pytest.approx(RULES["silencer_self_noise"]["octave_correction_63_8k_db"], abs=0.06)


@pytest.mark.parametrize("side", ["supply", "return"])
def test_speed_limits_are_those_of_the_handbook(side):
    """ASHRAE Handbook, HVAC Applications, ch. 49."""
    rule = RULES["terminal_speed_limits"]
    found = [terminal_speed_limit(criterion, side) for criterion in rule["rc_n"]]
    assert found == pytest.approx(rule[f"{side}_neck_m_s"])


@pytest.mark.parametrize(
    ("place", "key"),
    [
        ("neck", "add_db_at_neck"),
        ("plenum inlet", "add_db_at_plenum_inlet"),
        ("supply duct", "add_db_in_supply_duct"),
    ],
)
def test_throttling_is_that_of_the_handbook(place, key):
    """ASHRAE Handbook, HVAC Applications, ch. 49."""
    rule = RULES["damper_throttling"]
    assert [throttling_increment(ratio, place) for ratio in rule["pressure_ratio"]] == pytest.approx(rule[key])


@pytest.mark.parametrize(
    ("strouhal", "expected"),
    [(2.4, -48), (4.8, -50), (9.6, -55), (19.2, -62), (38.4, -72), (76.8, -85), (153.6, -102), (307.2, -123)],
)
def test_spectrum_of_a_bend_with_vanes_is_that_of_a_worked_example(strouhal, expected):
    """Worked system of an application guide on ventilation noise, 2009 (public copy), after Reynolds and Bledsoe."""
    assert vane_spectrum(strouhal) == pytest.approx(expected, abs=1.05)


def in_feet(spectrum, octave, speed, area, size):
    """Level after the form printed for feet and feet per minute: K + 10 lg F + 50 lg U + 10 lg S + 10 lg D − 107."""
    return spectrum + 10.0 * math.log10(octave * area * size) + 50.0 * math.log10(speed) - 107.0


def test_damper_is_that_of_a_worked_example():
    """The same guide: 48 × 24 in, 20 000 ft³/min, 0.3 in of water: 4650 ft/min between the blades (from its chart)."""
    speed = 20_000.0 / 8.0
    velocity, area = speed * FOOT / 60.0, 8.0 * FOOT**2
    coefficient = 0.3 * INCH_OF_WATER / (0.5 * AIR_20C.density * velocity**2)
    constricted = speed / blockage_factor(coefficient)
    assert constricted == pytest.approx(4650.0, rel=0.015)
    found = damper_noise(velocity, area, 2.0 * FOOT, coefficient).octaves
    for octave, level in zip(DUCT_OCTAVES, found, strict=True):
        strouhal = 60.0 * octave * 2.0 / constricted
        low = strouhal <= 25.0
        spectrum = -36.3 - 10.7 * math.log10(strouhal) if low else -1.1 - 35.9 * math.log10(strouhal)
        assert level == pytest.approx(in_feet(spectrum, octave, constricted, 8.0, 2.0), abs=0.15)


def test_bend_is_that_of_the_formula_in_its_own_units():
    """The same guide: round duct of 12 in, 1528 ft/min; its formula with −9.22, the original −9.21 (memory)."""
    area = math.pi / 4.0
    found = bend_noise(1528.0 * FOOT / 60.0, area * FOOT**2, rounding=0.2).octaves
    for octave, level in zip(DUCT_OCTAVES, found, strict=True):
        strouhal = math.log10(60.0 * octave / 1528.0)
        spectrum = -9.22 - 16.48 * strouhal - 5.05 * strouhal**2
        assert level == pytest.approx(in_feet(spectrum, octave, 1528.0, area, 1.0), abs=0.15)


@pytest.mark.parametrize("octaves", [(33, 32, 29, 23, 15, 4), (30, 29, 26, 20, 12, 1)])
def test_terminals_of_the_sheet_have_the_shape_of_the_rule(octaves):
    """Long 2014, table 14.9, diffuser and grille: peak in the 63 Hz octave, level free."""
    found = np.array(terminal_noise(63.0 / 160.0, 0.1, 3.0).octaves[:6])
    assert found - found[0] == pytest.approx(np.array(octaves) - octaves[0], abs=2.1)


def test_levels_of_octaves_are_kept_by_their_thirds():
    """IEC 61260-1: an octave is three adjacent thirds; the split is equal."""
    power = power_from_octaves([60, 58, 57, 55, 50, 44, 40, 30])
    assert power.octaves == pytest.approx((60, 58, 57, 55, 50, 44, 40, 30))
    assert power.assumed == (25, 31.5, 40)
    assert FREQUENCIES.size == 27
