"""Single panels and double leaves against printed results (prediction_examples.toml, materials_solids.csv)."""

import csv
import math
import tomllib
from pathlib import Path

import numpy as np
import pytest

from hushwright.physics.acoustics.bands import FREQUENCIES, THIRD_OCTAVE_BANDS, third_to_octave_reduction
from hushwright.physics.acoustics.bridges import LineBridge, PointBridge
from hushwright.physics.acoustics.constants import IN_SITU_LOSS
from hushwright.physics.acoustics.layers import (
    BondedPlates,
    DampedPlate,
    Gap,
    GluedFoam,
    LimpMass,
    LooseBoards,
    Plate,
    Porous,
)
from hushwright.physics.acoustics.matrices import transmission_coefficient
from hushwright.physics.acoustics.partition import Partition, sound_reduction
from hushwright.physics.acoustics.plates import coincidence_frequency, free_layer_damping, free_wave, pad_loss_factor
from hushwright.physics.acoustics.radiation import radiation_efficiency
from hushwright.physics.acoustics.ratings import weighted_sound_reduction_index
from hushwright.physics.acoustics.resonances import mass_air_mass_resonance, ring_frequency
from hushwright.physics.acoustics.resonant import resonant_transmission
from hushwright.physics.air import AIR_20C

TABLES = Path(__file__).parent / "tables"
EXAMPLES = tomllib.loads((TABLES / "prediction_examples.toml").read_text(encoding="utf-8"))
with (TABLES / "materials_solids.csv").open(encoding="utf-8", newline="") as file:
    SOLIDS = list(csv.DictReader(file))
with (TABLES / "damping_layers.csv").open(encoding="utf-8", newline="") as file:
    PADS = [row for row in csv.DictReader(file) if row["t_peak_100hz_c"]]

GYPSUM = Plate(0.0125, 680.0, 2.03e9, 0.3, 0.03)
WOOL = Porous(8_000.0, 0.98, 1.0, 30.0)


@pytest.mark.parametrize("case", EXAMPLES["mass_law"], ids=lambda case: f"{case['f_hz']}Hz")
def test_limp_mass_at_an_angle_agrees_with_the_mass_law_vectors(case):
    # mass-law vectors of prediction_examples.toml; their air differs from ours, so the mass is scaled by ρc
    impedance = case["rho0"] * case["c_m_s"]
    mass = case["density_kg_m3"] * case["thickness_m"] * AIR_20C.characteristic_impedance / impedance
    tau = transmission_coefficient([LimpMass(mass)], [case["f_hz"]], math.radians(case["theta_deg"]))
    assert -10 * math.log10(float(tau[0])) == pytest.approx(case["tl_db"], abs=1e-6)


def test_six_millimetre_glass_agrees_with_the_printed_curve():
    # Hopkins, Sound Insulation, fig. 4.8, read off a graph (±1 dB); the pane of 1.25 m × 1.5 m is ours
    case = EXAMPLES["glass_6mm"]
    pane = Plate(0.006, 2500.0, 63.71e9, 0.24, IN_SITU_LOSS["glass"])
    result = sound_reduction(Partition((pane,), 1.25, 1.5))
    got = [result.reduction[THIRD_OCTAVE_BANDS.index(band)] for band in case["bands_hz"]]
    assert got == pytest.approx(case["r_db"], abs=2.0)
    low, high = case["rw_catalogue"]
    assert low - 1 <= weighted_sound_reduction_index(result.reduction) <= high + 1


def test_brick_lies_near_the_plateau_method():
    # Norton & Karczub, worked problem 3.11: another method, so a plausibility of 8 dB between 125 Hz and 1 kHz
    case = EXAMPLES["plateau_brick"]
    brick = Plate(0.11, case["mass_kg_m2"] / 0.11, 14.7e9, 0.2, 0.03)
    octaves = third_to_octave_reduction(sound_reduction(Partition((brick,), 3.6, 2.78)).reduction)
    assert octaves[2:6] == pytest.approx(case["tl_db"][1:5], abs=8.0)


def test_mass_air_mass_of_two_gypsum_boards():
    # Long, Architectural Acoustics 2e ch. 9 prints 66 Hz with the stiffness raised by 1.8 for a diffuse field
    case = EXAMPLES["mass_air_mass_gypsum"]
    leaf = 0.016 * 800.0  # kg/m², mass from memory
    plain = mass_air_mass_resonance(leaf, leaf, 0.09)
    assert plain * math.sqrt(1.8) == pytest.approx(case["f0_hz"], rel=0.68)
    # textbook factor 60 (Long, Bies, Crocker), printed as a round number
    assert plain == pytest.approx(60.0 * math.sqrt(2.0 / (leaf * 0.09)), rel=0.01)


@pytest.mark.parametrize(
    "row", [row for row in SOLIDS if row["h_fc_m_hz"] and row["cL_m_s"]], ids=lambda row: row["material"]
)
def test_coincidence_agrees_with_the_printed_product_of_thickness_and_frequency(row):
    # Hopkins 2007 table A2; h·fc is printed for c = 343 m/s
    density, poisson, thickness = 1000.0, float(row["poisson"]), 0.01
    modulus = density * float(row["cL_m_s"]) ** 2 * (1 - poisson**2)
    plate = Plate(thickness, density, modulus, poisson, 0.01)
    got = thickness * coincidence_frequency(plate.surface_density, plate.bending_stiffness)
    assert got == pytest.approx(float(row["h_fc_m_hz"]), rel=0.015)


def test_curved_steel_rings_near_210_hertz_at_four_metres():
    # methods: about 210 Hz at 4 m radius, from c_L = 5270 m/s (Hopkins table A2)
    assert ring_frequency(Plate(0.0008, 7800.0, 199.64e9, 0.28, 0.01), 4.0) == pytest.approx(210.0, abs=2.0)


@pytest.mark.parametrize("row", PADS, ids=lambda row: row["id"])
def test_pad_peaks_where_the_table_says(row):
    # Vér & Beranek 2e table 14.1
    peaks = tuple(float(row[f"t_peak_{f}hz_c"]) for f in (10, 100, 1000))
    best = float(row["eta_max"])
    for frequency, temperature in zip((10.0, 100.0, 1000.0), peaks, strict=True):
        assert pad_loss_factor(best, peaks, temperature, frequency) == pytest.approx(best)
        assert pad_loss_factor(best, peaks, temperature - 30.0, frequency) < 0.5 * best


def test_thick_stiff_pad_follows_the_square_law_of_oberst():
    # Oberst 1952: for a thin soft pad the loss grows with E2·h2 (first power), for a thicker one with the square
    steel = Plate(0.001, 7800.0, 200e9, 0.0, 0.0)
    thin = [free_layer_damping(steel, h, 0.2e9, 0.5)[1] for h in (1e-5, 2e-5)]
    assert thin[1] / thin[0] == pytest.approx(2.0, rel=0.05)
    # plain arithmetic: η = β·(e h (3 + 6h + 4h²))/(1 + e h (5 + 6h + 4h²)), e = E2/E1, h = h2/h1, Ungar's form
    e, h, beta = 0.001, 2.0, 0.5
    expected = beta * e * h * (3 + 6 * h + 4 * h**2) / (1 + e * h * (5 + 6 * h + 4 * h**2))
    assert free_layer_damping(steel, 0.002, 0.2e9, beta)[1] == pytest.approx(expected, rel=0.02)


def test_stiff_bond_is_one_plate_and_soft_bond_is_two():
    # Ross, Kerwin & Ungar 1959: limits of the shear parameter
    half = Plate(0.004, 2500.0, 63.7e9, 0.24, 0.0)
    f = np.array([1000.0])
    stiff = free_wave(BondedPlates((half, half), 1e-6, 1000.0, 1e11, 0.0), f).bending_stiffness[0]
    soft = free_wave(BondedPlates((half, half), 1e-4, 1000.0, 1.0, 0.0), f).bending_stiffness[0]
    assert stiff == pytest.approx(Plate(0.008, 2500.0, 63.7e9, 0.24, 0.0).bending_stiffness, rel=0.02)
    assert soft == pytest.approx(2 * half.bending_stiffness, rel=0.02)


def test_bond_damps_most_between_soft_and_stiff():
    # Ross, Kerwin & Ungar 1959: the loss has a peak over the shear parameter
    half = Plate(0.0125, 680.0, 2.03e9, 0.3, 0.01)
    loss = [
        free_wave(BondedPlates((half, half), 5e-4, 1200.0, shear, 0.8), np.array([500.0])).loss_factor[0]
        for shear in (1e3, 1e6, 1e10)
    ]
    assert loss[1] > 5 * loss[0]
    assert loss[1] > 5 * loss[2]


# --- facts of the trade: common practice, no source ---


def _wall(bridges=(), gap=0.1):
    return sound_reduction(Partition((GYPSUM, Gap(gap, WOOL, 0.8 * gap), GYPSUM), 3.6, 2.75, bridges))


def test_rigid_fixing_costs_isolation_above_twice_the_resonance():
    # common practice, no source
    free, fixed = _wall(), _wall((LineBridge(1 / 0.4),))
    resonance = next(r.frequency for r in free.resonances if r.kind == "mass-air-mass")
    above = [i for i, f in enumerate(FREQUENCIES) if 2 * resonance < f < 2000]
    loss = [free.reduction[i] - fixed.reduction[i] for i in above]
    assert min(loss) > 0.0
    assert max(loss) > 10.0


def test_below_the_resonance_a_bridge_hardly_matters():
    # common practice, no source
    free, fixed = _wall(gap=0.02), _wall((PointBridge(4.0),), gap=0.02)
    assert free.reduction[2] - fixed.reduction[2] < 1.0


def test_soft_bridge_costs_less_than_a_rigid_one():
    # common practice, no source
    rigid, soft = _wall((LineBridge(1 / 0.6),)), _wall((LineBridge(1 / 0.6, 3e5),))
    assert soft.reduction[15] > rigid.reduction[15] + 3


def test_loose_boards_keep_the_coincidence_and_gain_mass():
    # common practice, no source: two boards screwed on each other dip where one does
    one, two = (sound_reduction(Partition((layer,), 3.6, 2.75)) for layer in (GYPSUM, LooseBoards((GYPSUM, GYPSUM))))
    dip = [next(r.frequency for r in result.resonances if r.kind == "coincidence") for result in (one, two)]
    assert dip[1] == pytest.approx(dip[0], rel=0.01)
    assert two.reduction[13] - one.reduction[13] == pytest.approx(6.0, abs=0.7)


def test_damping_pad_lifts_the_dip_of_a_thick_sheet():
    # common practice, no source
    steel = Plate(0.003, 7800.0, 199.64e9, 0.28, 0.01)
    padded = DampedPlate(steel, 0.004, 1600.0, 1e9, 0.4, 0.8)
    bare, damped = (sound_reduction(Partition((layer,), 1.0, 1.2)) for layer in (steel, padded))
    assert damped.reduction[22] - bare.reduction[22] > 5


def test_glued_foam_is_a_spring_and_not_a_fluid():
    # common practice, no source: a lining on stiff foam resonates at sqrt(s'/m)/(2π) and is worse there than the wall
    wall = Plate(0.006, 7800.0, 199.64e9, 0.28, 0.01)
    lined = sound_reduction(Partition((wall, GluedFoam(20e6, 0.03, 40.0, 0.1), GYPSUM), 2.0, 2.0))
    bare = sound_reduction(Partition((wall,), 2.0, 2.0))
    resonance = next(r.frequency for r in lined.resonances if r.kind == "mass-air-mass")
    index = int(np.argmin(np.abs(FREQUENCIES - resonance)))
    assert lined.reduction[index] < bare.reduction[index]
    assert lined.reduction[index + 6] > bare.reduction[index + 6]


def test_orthotropic_sheet_has_two_coincidences_and_passes_more_between_them():
    # common practice, no source: a beaded sheet is stiff along the beads
    flat = Plate(0.001, 7800.0, 200e9, 0.28, 0.01)
    beaded = Plate(0.001, 7800.0, 200e9 * 100, 0.28, 0.01, youngs_modulus_across=200e9)
    results = [sound_reduction(Partition((sheet,), 1.5, 1.0)) for sheet in (flat, beaded)]
    assert len([r for r in results[1].resonances if r.kind == "coincidence"]) == 2
    assert results[1].reduction[18] < results[0].reduction[18] - 3


def test_resonant_part_agrees_with_its_formula_in_plain_arithmetic():
    # Cremer, Heckl & Petersson ch. 6: τ = (2ρc/ωm)²·(π/2)(f_c/f)σ²/η, losses with radiation to both sides
    pane, frequency, perimeter, area = Plate(0.006, 2500.0, 63.71e9, 0.24, 0.03), 500.0, 5.5, 1.875
    mass, rho_c, omega = 15.0, AIR_20C.characteristic_impedance, 2 * math.pi * 500.0
    coincidence = coincidence_frequency(mass, pane.bending_stiffness)
    sigma = float(radiation_efficiency(frequency, coincidence, perimeter, area))
    loss = 0.03 + 2 * rho_c * sigma / (omega * mass)
    expected = (2 * rho_c / (omega * mass)) ** 2 * math.pi / 2 * coincidence / frequency * sigma**2 / loss
    leaf = free_wave(pane, np.array([frequency]))
    assert float(resonant_transmission(leaf, np.array([frequency]), perimeter, area)[0]) == pytest.approx(
        expected, rel=0.02
    )


def test_ribs_raise_the_resonant_part():
    # common practice, no source: more edges radiate more
    leaf = free_wave(Plate(0.0008, 7800.0, 199.64e9, 0.28, 0.016), np.array([1000.0]))
    few, many = (float(resonant_transmission(leaf, np.array([1000.0]), p, 1.0)[0]) for p in (4.0, 8.0))
    assert many > 2 * few
