"""Library values stand in the published tables that they cite, to the printed digit.

Tables: tests/reference/tables; each row there names its work and whether it was found or is from memory.
"""

import csv
import math
import re
import tomllib
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest

from hushwright.library.read import read_library
from hushwright.library.records import KINDS, Spread, kind_of

TABLES = Path(__file__).parent / "tables"
LIBRARY = read_library()

# Prefix of a row → its table, and the column in which a field of ours stands with the factor to SI.
SOLIDS = {
    "density": ("density_kg_m3", 1),
    "youngs_modulus": ("E_gpa", 1e9),
    "poisson": ("poisson", 1),
    "loss_factor": ("loss_factor", 1),
}
SOFT = {
    "density": ("density_kg_m3", 1),
    "dynamic_modulus": ("dynamic_modulus_mpa", 1e6),
    "frame_modulus": ("dynamic_modulus_mpa", 1e6),
}
DAMPING = {"loss_factor": ("eta_max", 1), "modulus": ("E_transition_mpa", 1e6)}
POROUS = {
    "porosity": ("porosity", 1),
    "tortuosity": ("tortuosity", 1),
    "viscous_length": ("viscous_length_um", 1e-6),
    "thermal_length": ("thermal_length_um", 1e-6),
    "density": ("density_kg_m3", 1),
}
SIMPLE = {
    "SOL": ("materials_solids.csv", SOLIDS),
    "RES": ("resilient_layers.csv", SOFT),
    "DMP": ("damping_layers.csv", DAMPING),
    "POR": ("porous.csv", POROUS),
}
CITED = [
    pytest.param(record, field, row, id=f"{record.name}-{field}-{row}")
    for kind in KINDS
    for record in LIBRARY.rows(kind)
    for field, row in record.cited
]


@cache
def table(name, key="id"):
    with (TABLES / name).open(encoding="utf-8") as lines:
        return {row[key]: row for row in csv.DictReader(lines)}


@cache
def toml(name):
    return tomllib.loads((TABLES / name).read_text(encoding="utf-8"))


def chosen(prefix):
    return [each for each in CITED if each.values[2].split("-")[0] == prefix]


def half_digit(printed):
    return float(Decimal(5).scaleb(Decimal(printed).as_tuple().exponent - 1))


def agrees(spread, printed, factor, field):
    """A single printed value is ours to the digit; of a printed range ours is the middle, and covers it."""
    ends = [end for end in re.split(r"(?<![eE])-", printed.removeprefix("<=")) if end]
    tolerance = half_digit(ends[-1]) * factor
    if len(ends) == 1:
        return abs(spread.value - float(ends[0]) * factor) <= tolerance * (1 + 1e-9)
    low, high = (float(end) * factor for end in ends)
    decade = field == "loss_factor" or high >= 10 * low
    middle = math.sqrt(low * high) if decade else (low + high) / 2
    covers = spread.low <= low * (1 + 1e-9) and spread.high >= high * (1 - 1e-9)
    return covers and abs(spread.value / middle - 1) < 0.005


@pytest.mark.parametrize(("record", "field", "row"), [each for prefix in SIMPLE for each in chosen(prefix)])
def test_a_material_value_is_the_printed_one(record, field, row):
    name, columns = SIMPLE[row.split("-")[0]]
    printed = table(name)[row]
    if field == "peak_temperature":
        wanted = tuple((f, float(printed[f"t_peak_{f}hz_c"])) for f in (10, 100, 1000))
        assert record.peak_temperature == wanted
    elif field == "flow_resistivity":
        low, high = float(printed["sigma_min_Pa_s_m2"]), float(printed["sigma_max_Pa_s_m2"])
        middles = (math.sqrt(low * high), (low + high) / 2)
        assert any(record.flow_resistivity.value == pytest.approx(middle, rel=0.003) for middle in middles)
        assert record.flow_resistivity.low <= low
        assert record.flow_resistivity.high >= high
    elif row.startswith("POR") and field == "frame_modulus":
        printed_modulus = re.match(r"E ([\d.]+) MPa", printed["frame"])[1]
        assert agrees(record.frame_modulus, printed_modulus, 1e6, field)
    else:
        column, factor = columns[field]
        assert agrees(record.spread(field), printed[column], factor, field)


@pytest.mark.parametrize(("record", "field", "row"), chosen("ABS"))
def test_absorption_is_the_printed_one(record, field, row):
    printed = table("absorption.csv")[row]
    assert record.absorption == tuple(float(printed[f"a_{band}"]) for band in (125, 250, 500, 1000, 2000, 4000))
    assert (record.per == "person") == ("per person" in printed["note"])
    assert record.thickness * 1000 == pytest.approx(float(printed["thickness_mm"] or 0))


@pytest.mark.parametrize(
    ("record", "field", "row"), [each for each in chosen("SPEECH") if "voice" in each.values[0].name]
)
def test_speech_is_ansi_s3_5_and_sums_to_the_printed_level(record, field, row):
    printed = table("source_spectra.csv")[row]
    assert record.level == tuple(float(printed[f"f_{int(band)}"]) for band in record.frequency)
    total = 10 * math.log10(sum(10 ** (level / 10) for level in record.level))
    assert total == pytest.approx(float(printed["overall_db"]), abs=0.06)


@pytest.mark.parametrize(
    ("name", "row", "total"), [("roadside", "iso717_spec2_50_5000", 65), ("motorway services", "en1793_3", 70)]
)
def test_traffic_has_the_shape_of_its_standard(name, row, total):
    # ISO 717-1 spectrum No 2 (100-3150 Hz found, the rest memory) and EN 1793-3 (memory), A-weighted, sum about 0 dB.
    record = LIBRARY.find("outdoors", name)
    printed = table("rating_spectra.csv")[row]
    weighted = [level + a_weighting(band) for band, level in zip(record.frequency, record.level, strict=True)]
    shape = [float(printed[f"f_{int(band)}"]) for band in record.frequency]
    assert [level - total for level in weighted] == pytest.approx(shape, abs=0.15)
    assert 10 * math.log10(sum(10 ** (level / 10) for level in weighted)) == pytest.approx(total, abs=0.5)


def test_a_crowd_has_the_shape_of_raised_voices_at_its_total():
    crowd, voice = LIBRARY.find("outdoors", "crowd talking"), LIBRARY.find("room_source", "raised voice")
    assert crowd.frequency == voice.frequency
    steps = [a - b for a, b in zip(crowd.level, voice.level, strict=True)]
    assert max(steps) - min(steps) <= 0.15
    weighted = [level + a_weighting(band) for band, level in zip(crowd.frequency, crowd.level, strict=True)]
    assert 10 * math.log10(sum(10 ** (level / 10) for level in weighted)) == pytest.approx(65, abs=0.05)


def test_the_soft_interlayer_covers_the_range_of_the_patent():
    # US 9733173 B2 (found): modulus over thickness 5.58e8 to 2.37e9 Pa/m at 20 degC, 100 to 240 Hz.
    core = LIBRARY.find("core", "acoustic PVB")
    low, high = 5.58e8 * 0.76e-3, 2.37e9 * 0.76e-3
    assert (core.shear_modulus.low, core.shear_modulus.high) == pytest.approx((low, high), rel=0.02)
    assert core.shear_modulus.value == pytest.approx(math.sqrt(low * high), rel=0.02)
    # Claim 1 of the same: stiff outer layers of at least 30 MPa.
    assert LIBRARY.find("core", "PVB").shear_modulus.low >= 30e6


def a_weighting(band):
    """IEC 61672-1, formula E.6 with its four pole frequencies; memory."""
    exact = 1000 * 10 ** (round(10 * math.log10(band / 1000)) / 10)
    f2 = exact**2
    poles = (f2 + 20.598997**2) * math.sqrt((f2 + 107.65265**2) * (f2 + 737.86223**2)) * (f2 + 12194.217**2)
    return 20 * math.log10(12194.217**2 * f2**2 / poles) + 2.0


@pytest.mark.parametrize(
    "record", [each for each in LIBRARY.rows("blanket") if "rock wool" in each.name and "set" not in each.name]
)
def test_rock_wool_follows_the_fibre_law(record):
    # Hopkins 2007: sigma = k1 rho^(1 + k2)/d^2; the longitudinal row is through the thickness.
    law = toml("porous_models.toml")["flow_resistivity_rock_wool"]
    density, diameter = record.density.value, law["fibre_diameter_um"]
    for field, way in (("flow_resistivity", "longitudinal"), ("flow_resistivity_along", "lateral")):
        constants = law[way]
        assert constants["range_kg_m3"][0] <= density <= constants["range_kg_m3"][1]
        wanted = constants["k1"] * density ** (1 + constants["k2"]) / diameter**2
        assert record.spread(field).value == pytest.approx(wanted, rel=0.005)
    assert record.porosity.value == pytest.approx(1 - density / law["fibre_density_kg_m3"], abs=6e-4)


@pytest.mark.parametrize(
    "record", [each for each in LIBRARY.rows("mount") if "IRHD" in each.name], ids=lambda each: each.name
)
def test_rubber_follows_gent_and_lindley(record):
    # Table of moduli by hardness from memory, two rows of it found; S = loaded area over force-free area.
    rubber = toml("mounts.toml")["rubber_gent_lindley"]
    sizes = [float(size) for size in re.findall(r"\d+", record.name.split(",")[0])]
    hardness = int(re.findall(r"(\d+) IRHD", record.name)[0])
    modulus, shear, k = (rubber[key][rubber["irhd"].index(hardness)] for key in ("E0_mpa", "G_mpa", "k"))
    height = sizes[-1]
    area = sizes[0] * sizes[1] if len(sizes) == 3 else math.pi * sizes[0] ** 2 / 4
    free = 2 * (sizes[0] + sizes[1]) * height if len(sizes) == 3 else math.pi * sizes[0] * height
    stiffness = modulus * (1 + 2 * k * (area / free) ** 2) * area / height  # N/mm
    assert record.static_stiffness.value == pytest.approx(stiffness * 1e3, rel=0.005)
    assert record.shear_stiffness.value == pytest.approx(shear * area / height * 1e3, rel=0.005)
    assert record.highest_load.value == pytest.approx(0.15 * height * stiffness, rel=0.005)


def test_the_pad_of_the_reference_is_in_the_library():
    printed = toml("mounts.toml")["rubber_pad_example"]
    pad = LIBRARY.find("mount", "rubber pad 50 x 50 x 10 mm, 60 IRHD")
    assert pad.spread("static_stiffness").value == pytest.approx(printed["stiffness_kn_mm"] * 1e6, rel=0.002)


@pytest.mark.parametrize(("record", "field", "row"), [each for each in CITED if re.fullmatch(r"T\d\d", each.values[2])])
def test_targets_are_the_printed_ones(record, field, row):
    printed = table("noise_targets.csv")[row]
    assert record.metric == printed["metric"].lower()
    assert getattr(record, field) == float(printed["low" if field == "low" else "high"])


@pytest.mark.parametrize(("record", "field", "row"), chosen("LVL"))
def test_rain_classes_are_the_printed_ones(record, field, row):
    printed = table("source_levels.csv")[row]
    millimetres_an_hour = 1e-3 / 3600
    assert record.rate.low == pytest.approx(float(printed["low"]) * millimetres_an_hour)
    if printed["high"]:
        assert record.rate.high == pytest.approx(float(printed["high"]) * millimetres_an_hour)


@pytest.mark.parametrize(("record", "field", "row"), [each for each in CITED if each.values[2].startswith("06_")])
def test_values_of_building_products_are_the_printed_ones(record, field, row):
    table_name, _, product = row.partition(":")
    if table_name == "06_thermal_facts":
        printed = table("06_thermal_facts.csv")[product]["value"]
        assert record.value.value == float(printed.removeprefix("surface RH <= "))
        return
    printed = table("06_thermal_materials.csv", "material")[product.replace("_", " ")]
    column = {"density": "density_kg_m3", "conductivity": "lambda_W_mK", "vapour_resistance_factor": "mu"}[field]
    assert record.spread(field).value == float(printed[column])


def test_lead_loaded_vinyl_weighs_what_the_handbook_prints():
    printed = table("tl_handbook.csv")["BIES-23"]
    vinyl = LIBRARY.find("limp", "lead vinyl")
    assert vinyl.surface_density(0.003).value == pytest.approx(float(printed["mass_kg_m2"]), abs=0.05)


def test_rubber_limits_are_those_of_the_design_booklet():
    shares = [
        int(share) for share in re.findall(r"(\d+) %", toml("mounts.toml")["rubber_gent_lindley"]["design_limits"])
    ]
    limits = [LIBRARY.find("limit", name).value.value for name in ("mount compression", "mount shear")]
    assert [100 * limit for limit in limits] == pytest.approx(shares)


def test_driver_mass_is_that_of_the_regulation():
    printed = table("07_weight_axle_restraint_facts.csv")["ma02"]
    assert LIBRARY.find("limit", "driver mass").value == Spread.point(float(printed["value"]))


def test_design_level_is_that_of_equipment_beside_people():
    printed = table("07_weight_axle_restraint_facts.csv")["an01"]  # EN 1789
    assert LIBRARY.find("limit", "design level of restraint").value == Spread.point(float(printed["value"]))


def test_the_bond_to_the_chassis_is_the_gauge_that_is_printed():
    printed = table("01_mobile_ac_safety_and_vehicle_codes.csv")["ac11"]  # NFPA 70, 551.56(C): 8 AWG
    gauge = table("01_awg_geometry_resistance.csv", "awg")[printed["value"]]
    assert LIBRARY.find("limit", "bond to the chassis").value == Spread.point(1e-6 * float(gauge["area_mm2"]))


def test_limits_of_the_air_are_those_printed():
    printed = table("04_ventilation_rates_co2_limits_moisture.csv")
    fresh = LIBRARY.find("limit", "fresh air per person").value.value
    assert 1000.0 * fresh == pytest.approx(float(printed["ve01"]["value"]))  # ASHRAE 62.1, l/s a person
    warning = LIBRARY.find("limit", "carbon dioxide that warns").value.value
    assert 1e6 * warning == pytest.approx(float(printed["cl01"]["value"]))  # OSHA, ppm
    assert "22 m3/h -> about 1000 ppm above outdoor" in printed["ve14"]["value"]  # prEN 13779
    assert LIBRARY.find("limit", "carbon dioxide in rooms").value.value == pytest.approx(420e-6 + 1000e-6, rel=0.02)


@pytest.mark.parametrize("row", [each.values[2] for each in CITED if each.values[2].startswith("8253")])
def test_hearing_test_rows_exist(row):
    assert row in table("hearing_test_limits.csv")


def test_every_citation_is_checked_by_a_test_above():
    checked = re.compile(
        r"US-9733173|SOL-|RES-|DMP-|POR-|ABS-|SPEECH-|LVL-|T\d\d$|06_|8253|BIES-23|iso717_spec2|en1793_3|porous_models:"
        r"|mounts:|07_weight_axle_restraint_facts:(ma02|an01)"
        r"|04_ventilation_rates_co2_limits_moisture:(ve01|ve14|cl01)|01_mobile_ac_safety_and_vehicle_codes:ac11"
    )
    elsewhere = ("safety_limit", "paper")  # test_library_safety.py
    assert [row for record, _, row in (each.values for each in CITED)
            if not checked.match(row) and kind_of(type(record)).word not in elsewhere] == []  # fmt: skip
