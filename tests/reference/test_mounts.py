"""Mounts against published values; the source stands beside each check."""

import csv
import math
import tomllib
from pathlib import Path

import numpy as np
import pytest

from hushwright.physics.mechanics.insertion_loss import MountPath, insertion_loss, mount_impedances
from hushwright.physics.mechanics.mobility import (
    bay_mobility,
    beam_mobility,
    mass_mobility,
    mount_cell_compliance,
    plate_mobility,
)
from hushwright.physics.mechanics.resilient_layer import (
    enclosed_gas_stiffness,
    layer_dynamic_stiffness,
    layer_resonance,
)
from hushwright.physics.mechanics.rigid_body import RigidBody, box_body, combined_body, inertia_matrix
from hushwright.physics.mechanics.rubber import (
    block_shape_factor,
    compression_modulus,
    pad_stiffness,
    ring_stiffness,
    rubber_moduli,
)
from hushwright.physics.mechanics.suspension import Support, rest_on, swing_modes
from hushwright.physics.mechanics.transmissibility import natural_frequency, viscous_transmissibility

TABLES = Path(__file__).parent / "tables"
MOUNTS = tomllib.loads((TABLES / "mounts.toml").read_text(encoding="utf-8"))
RUBBER = MOUNTS["rubber_gent_lindley"]
with (TABLES / "resilient_layers.csv").open(encoding="utf-8", newline="") as handle:
    LAYERS = [row for row in csv.DictReader(handle) if row["dynamic_stiffness_mn_m3"]]


@pytest.mark.parametrize(
    ("deflection", "frequency"),
    list(zip(MOUNTS["static_deflection"]["delta_mm"], MOUNTS["static_deflection"]["fn_hz"], strict=True)),
)
def test_natural_frequency_follows_static_deflection(deflection, frequency):
    # fn = 15.76/sqrt(delta in mm): table of mounts.toml (computed); half a last digit
    assert natural_frequency(deflection / 1e3) == pytest.approx(frequency, abs=0.006)


def test_transmissibility_of_a_steel_spring_under_a_machine():
    # mounts.toml, computed row: 25 mm deflection, 1500 rpm, 5 % of critical damping
    row = MOUNTS["transmissibility"]
    ratio = row["speed_rpm"] / 60.0 / natural_frequency(row["delta_mm"] / 1e3)
    assert ratio == pytest.approx(row["r"], abs=0.005)
    assert float(viscous_transmissibility(ratio, row["damping_ratio"])) == pytest.approx(row["T"], abs=5e-5)


@pytest.mark.parametrize("damping", [0.0, 0.02, 0.1, 0.5, 1.0])
def test_transmissibility_is_one_at_the_root_of_two(damping):
    # textbook: the curves of all dampings cross there
    assert float(viscous_transmissibility(math.sqrt(2.0), damping)) == pytest.approx(1.0, rel=1e-12)


@pytest.mark.parametrize("row", range(len(RUBBER["irhd"])), ids=lambda row: f"{RUBBER['irhd'][row]} IRHD")
def test_rubber_moduli_are_those_of_the_table(row):
    # Lindley, Engineering Design with Natural Rubber (memory)
    moduli = rubber_moduli(RUBBER["irhd"][row])
    assert moduli.youngs_modulus / 1e6 == pytest.approx(RUBBER["E0_mpa"][row])
    assert moduli.shear_modulus / 1e6 == pytest.approx(RUBBER["G_mpa"][row])
    assert moduli.shape_coefficient == pytest.approx(RUBBER["k"][row])


@pytest.mark.parametrize("row", range(len(RUBBER["check_irhd"])))
def test_rubber_moduli_agree_with_a_second_source(row):
    # public note quoting a rubber design booklet (found): k exact, Young's modulus within 2.5 %
    moduli = rubber_moduli(RUBBER["check_irhd"][row])
    assert moduli.shape_coefficient == pytest.approx(RUBBER["check_k"][row])
    assert moduli.youngs_modulus / 1e6 == pytest.approx(RUBBER["check_E0_mpa"][row], rel=0.025)
    # 1 lbf/in² is 6894.757 Pa
    assert RUBBER["check_E0_lbf_in2"][row] * 6894.757e-6 == pytest.approx(RUBBER["check_E0_mpa"][row], abs=0.006)


def test_rubber_pad_example():
    # mounts.toml, computed from the memory table by hand: 60 IRHD pad 50 x 50 x 10 mm without the bulk term
    row = MOUNTS["rubber_pad_example"]
    moduli = rubber_moduli(60.0)
    assert block_shape_factor(0.050, 0.050, 0.010) == pytest.approx(row["S"])
    modulus = compression_modulus(moduli.youngs_modulus, moduli.shape_coefficient, row["S"], math.inf)
    assert modulus / 1e6 == pytest.approx(row["Ec_mpa"], abs=0.005)
    stiffness, shear = pad_stiffness(60.0, 0.050, 0.050, 0.010, math.inf)
    assert stiffness / 1e6 == pytest.approx(row["stiffness_kn_mm"], abs=0.006)
    assert shear == pytest.approx(1.06e6 * 0.0025 / 0.010)


def test_bulk_compression_softens_a_flat_pad():
    # Gent & Lindley 1959, the form read in SV-JME 60 (2014) 506: 1/Ea = 1/(E(1 + 2S²)) + 1/B
    young, shape, bulk = 1.0e6, 10.0, 1.0e9
    by_hand = 1.0 / (1.0 / (young * (1.0 + 2.0 * shape**2)) + 1.0 / bulk)
    assert compression_modulus(young, 1.0, shape, bulk) == pytest.approx(by_hand)
    assert by_hand == pytest.approx(0.8327 * young * 201.0, rel=1e-3)


def test_ring_is_a_strip_bent_round():
    # public note quoting a rubber design booklet (found): K = (4/3) E0 π Dm (b/t)(1 + k((D − d)/(4t))²)
    by_hand = 4 / 3 * 1.8e6 * math.pi * 0.040 * (0.020 / 0.020) * (1 + 0.80 * (0.040 / 0.080) ** 2)
    assert ring_stiffness(45.0, 0.060, 0.020, 0.020) == pytest.approx(by_hand)


@pytest.mark.parametrize("row", LAYERS, ids=lambda row: row["id"])
def test_layer_stiffness_is_modulus_over_thickness(row):
    # Hopkins, Sound Insulation (2007), table A3: both columns printed, the stiffness rounded to whole MN/m³
    got = layer_dynamic_stiffness(float(row["dynamic_modulus_mpa"]) * 1e6, float(row["thickness_mm"]) / 1e3) / 1e6
    assert got == pytest.approx(float(row["dynamic_stiffness_mn_m3"]), abs=0.51)


def test_gas_in_a_layer_of_ordinary_fill():
    # ISO 9052-1 (memory): 0.1 MPa and porosity 0.9 give 111/d MN/m³ with d in mm
    assert enclosed_gas_stiffness(0.001) / 1e6 == pytest.approx(111.0, abs=0.5)


def test_floating_layer_resonance():
    # EN ISO 12354 and ISO 9052-1 (memory): f0 = 160 √(s'/m') with MN/m³
    assert layer_resonance(9e6, 100.0) == pytest.approx(160.0 * math.sqrt(9.0 / 100.0), rel=0.006)


def test_plate_mobility_is_the_average_over_the_modes_of_a_finite_plate():
    # Cremer, Heckl & Petersson: the mean of the real part over frequency and places is that of the endless plate
    frequency = np.linspace(400.0, 2000.0, 600)
    rng = np.random.default_rng(3)
    places = [(float(x), float(y)) for x, y in zip(rng.uniform(0.1, 0.9, 30), rng.uniform(0.1, 0.6, 30), strict=True)]
    mean = np.mean([bay_mobility(14.0, 7.02, (1.0, 0.7), one, 0.05, frequency).real for one in places])
    assert mean == pytest.approx(plate_mobility(14.0, 7.02), rel=0.06)


def test_mobility_of_endless_beam_and_plate_by_hand():
    # Cremer, Heckl & Petersson: Z = 8 √(B m) of a plate, |Z| = 2√2 m' c_B of a beam, a quarter of it at a free end
    assert 1.0 / plate_mobility(100.0, 25.0) == pytest.approx(400.0)
    speed = (16.0 * (2 * math.pi * 100.0) ** 2) ** 0.25
    middle = beam_mobility(16.0, 1.0, 100.0)
    assert abs(1.0 / complex(middle)) == pytest.approx(2.0 * math.sqrt(2.0) * speed)
    assert complex(beam_mobility(16.0, 1.0, 100.0, at_end=True)) == pytest.approx(4.0 * complex(middle))


def test_insertion_loss_of_a_spring_by_hand():
    # Vér & Beranek ch. 13, Vigran eq. (2.43): |1 + Y_mount/(Y_base + Y_room)|, plain arithmetic
    omega = 2.0 * math.pi * 200.0
    mount = 1j * omega / 182e3
    by_hand = 20.0 * math.log10(abs(1.0 + mount / (1e-3 + 1.0 / (1j * omega * 37.0))))
    got = insertion_loss(MountPath(182e3, 0.0), 1e-3, mass_mobility(37.0, 200.0), 200.0)
    assert float(got) == pytest.approx(by_hand, abs=1e-9)


def test_insertion_loss_over_a_heavy_base_is_the_transmissibility():
    # textbook: with a base that does not move the room is one mass on one spring
    frequency = np.array([5.0, 11.0, 20.0, 60.0, 200.0])
    loss = insertion_loss(MountPath(182e3, 0.0), 1e-15, mass_mobility(37.0, frequency), frequency)
    resonance = math.sqrt(182e3 / 37.0) / (2.0 * math.pi)
    assert loss == pytest.approx(-20.0 * np.log10(viscous_transmissibility(frequency / resonance, 0.0)), abs=1e-6)


def test_high_above_resonance_a_heavy_floor_gains_twelve_decibels_an_octave():
    # Cremer's floating floor: 40 lg(f/f0)
    frequency = np.array([200.0, 400.0])
    loss = insertion_loss(MountPath(182e3, 0.0), 1e-15, mass_mobility(37.0, frequency), frequency)
    assert loss[1] - loss[0] == pytest.approx(40.0 * math.log10(2.0), abs=0.05)
    resonance = math.sqrt(182e3 / 37.0) / (2.0 * math.pi)
    assert loss[1] == pytest.approx(40.0 * math.log10(400.0 / resonance), abs=0.05)


def test_six_frequencies_of_a_box_on_springs_in_its_centre_plane():
    # textbook closed form: springs in the plane of the centre uncouple all six motions
    body = box_body(400.0, (0.0, 0.0, 0.0), (2.2, 1.6, 1.9))
    soft, stiff, x, y = 65e3, 130e3, 1.0, 0.7
    corners = [Support((a * x, b * y, 0.0), (soft, soft, stiff)) for a in (-1, 1) for b in (-1, 1)]
    roll, pitch, yaw = body.inertia
    squares = [4 * soft / 400.0] * 2 + [4 * stiff / 400.0]
    squares += [4 * stiff * y**2 / roll, 4 * stiff * x**2 / pitch, 4 * soft * (x**2 + y**2) / yaw]
    expected = sorted(math.sqrt(value) / (2 * math.pi) for value in squares)
    assert [mode.frequency for mode in swing_modes(body, corners)] == pytest.approx(expected)


def test_sway_and_roll_couple_when_the_centre_is_high():
    # textbook two-degree-of-freedom form: k_y and roll stiffness coupled by the height of the centre over the springs
    body = RigidBody(400.0, (0.0, 0.0, 0.9), (180.0, 250.0, 260.0))
    soft, stiff, x, y, height = 65e3, 130e3, 1.0, 0.7, 0.9
    corners = [Support((a * x, b * y, 0.0), (soft, soft, stiff)) for a in (-1, 1) for b in (-1, 1)]
    sway, roll = 4 * soft / 400.0, (4 * stiff * y**2 + 4 * soft * height**2) / 180.0
    coupling = (4 * soft * height) ** 2 / (400.0 * 180.0)
    spread = math.sqrt((sway - roll) ** 2 / 4 + coupling)
    pair = [math.sqrt((sway + roll) / 2 + sign * spread) / (2 * math.pi) for sign in (-1, 1)]
    got = [mode.frequency for mode in swing_modes(body, corners)]
    for frequency in pair:
        assert min(abs(value - frequency) for value in got) < 1e-9


def test_load_moves_to_the_mounts_below_the_heavy_end():
    # lever rule by hand: centre 0.2 m forward between mounts at ±1 m puts 60 % on the front pair
    body = RigidBody(500.0, (0.2, 0.0, 0.5), (100.0, 100.0, 100.0))
    corners = [Support((x, y, 0.0), (1e9, 1e9, 130e3)) for x in (-1.0, 1.0) for y in (-0.7, 0.7)]
    loads = rest_on(body, corners).loads
    assert loads[2] + loads[3] == pytest.approx(0.6 * 500.0 * 9.80665, rel=1e-6)


def test_a_floor_on_a_grid_of_points_sags_like_a_flat_slab():
    # Timoshenko & Woinowsky-Krieger (memory): middle of an interior panel under even load sags 0.00581 q a⁴/D below
    # the columns. The same series at the middle is minus half of that over the column, so the sag is 1.5 times C q a².
    side, rigidity = 0.6, 3000.0
    sag_over_load = 1.5 * mount_cell_compliance(side**2, rigidity) * side**2
    assert sag_over_load == pytest.approx(0.00581 * side**4 / rigidity, rel=3e-3)


def test_eight_bricks_make_one_block():
    # textbook: parallel-axis theorem against the solid box
    bricks = [box_body(10.0, (x, y, z), (1.0, 0.8, 0.6)) for x in (-0.5, 0.5) for y in (-0.4, 0.4) for z in (-0.3, 0.3)]
    block, whole = combined_body(bricks), box_body(80.0, (0.0, 0.0, 0.0), (2.0, 1.6, 1.2))
    assert block.inertia == pytest.approx(whole.inertia)
    assert block.products == pytest.approx((0.0, 0.0, 0.0), abs=1e-12)


def test_two_weights_on_a_diagonal_have_a_product_of_inertia():
    # by hand: ∫xy dm = 2 · 5 kg · 1 m · 1 m
    pair = combined_body([box_body(5.0, (x, x, 0.0), (0.1, 0.1, 0.1)) for x in (-1.0, 1.0)])
    assert pair.products == pytest.approx((10.0, 0.0, 0.0), abs=1e-9)
    # the slanted dumb-bell turns most lightly about its own line: both weights are on it
    assert np.linalg.eigvalsh(inertia_matrix(pair))[0] == pytest.approx(2 * 5.0 * 0.02 / 12.0)


def test_a_third_of_a_heavy_spring_moves_with_its_end():
    # textbook (Rayleigh): low down the driving impedance is k/(jω) + jω m/3
    omega = 2.0 * math.pi * 50.0
    drive, _ = mount_impedances(MountPath(182e3, 0.0, 0.06), 50.0)
    assert complex(drive) == pytest.approx(182e3 / (1j * omega) + 1j * omega * 0.02, rel=1e-4)
