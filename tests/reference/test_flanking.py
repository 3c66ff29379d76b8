"""Flanking against EN 12354-1 annex H.3 and Cremer's limits."""

import math
import tomllib
from pathlib import Path

import numpy as np
import pytest

from hushwright.physics.acoustics.bands import FREQUENCIES
from hushwright.physics.acoustics.flanking import (
    equivalent_absorption_length,
    flanking_rating,
    flanking_reduction,
    structural_reverberation_time,
    velocity_level_difference_from_index,
)
from hushwright.physics.acoustics.ribs import (
    Rib,
    Sheet,
    rib_transmission,
    rib_transmission_at,
    skin_velocity_difference,
)

TABLE = tomllib.loads((Path(__file__).parent / "tables" / "leaks_composite.toml").read_text(encoding="utf-8"))
H3 = TABLE["flanking_en12354_1_annex_H3"]
STEEL = Sheet(7.07, 2.1e11 * 0.9e-3**3 / 12.0 / (1.0 - 0.3**2), (0.02,) * 27)


@pytest.mark.parametrize("name", ["floor", "ceiling", "facade", "internal_wall"])
def test_flanking_ratings_of_en_12354_1_annex_h3(name):
    """EN 12354-1 annex H.3, simplified model, R_Ff,w and R_Fd,w as printed."""
    part = H3[name]
    area, length = H3["separating_area_m2"], part["lf_m"]
    straight = flanking_rating(part["rw"], part["rw"], part["kff"], area, length)
    mixed = flanking_rating(part["rw"], H3["rd_w"], part["kfd"], area, length)
    assert straight == pytest.approx(part["rff_w"], abs=0.1)
    assert mixed == pytest.approx(part["rfd_w"], abs=0.1)


def test_all_paths_together_give_the_apparent_rating_of_annex_h3():
    """EN 12354-1 annex H.3: R'_w = 52.2 dB from Rd and twelve flanking paths (Ff, Fd and Df per edge)."""
    total = 10.0 ** (-H3["rd_w"] / 10.0)
    for name in ("floor", "ceiling", "facade", "internal_wall"):
        part = H3[name]
        area, length = H3["separating_area_m2"], part["lf_m"]
        straight = flanking_rating(part["rw"], part["rw"], part["kff"], area, length)
        mixed = flanking_rating(part["rw"], H3["rd_w"], part["kfd"], area, length)
        total += 10.0 ** (-straight / 10.0) + 2.0 * 10.0 ** (-mixed / 10.0)
    assert -10.0 * math.log10(total) == pytest.approx(H3["r_prime_w"], abs=0.15)


def test_index_and_velocity_difference_lead_to_the_same_flanking():
    """EN ISO 12354-1: R_ij with K_ij equals R_ij with D_v,ij and a = S/(1 m): K + 10 lg(S_s/(l_0 l))."""
    difference = velocity_level_difference_from_index([7.0], 2.5, [4.0], [9.0])
    found = flanking_reduction([40.0], [44.0], difference, 10.0, 4.0, 9.0)[0]
    assert found == pytest.approx(42.0 + 7.0 + 10.0 * math.log10(10.0 / 2.5))


def test_equivalent_absorption_length_is_that_of_the_standard():
    """EN ISO 12354-1: a = 2.2 π² S/(c T_s)·sqrt(f_ref/f), by hand: S = 10 m², T = 0.5 s, 250 Hz, c = 343.2 m/s."""
    found = equivalent_absorption_length(10.0, [0.5], [250.0])[0]
    assert found == pytest.approx(2.2 * 9.8696 * 10.0 / (343.2 * 0.5) * 2.0, rel=1e-3)
    assert structural_reverberation_time([0.01], [220.0])[0] == pytest.approx(1.0)


def test_pinned_line_halves_the_power_at_normal_incidence():
    """Cremer, Heckl & Petersson, Structure-Borne Sound, ch. 6: a heavy line that may turn freely takes 3 dB."""
    assert rib_transmission_at(STEEL, Rib(1e9), [125.0, 4000.0], [0.0]) == pytest.approx(np.full((2, 1), 0.5), abs=1e-3)


def test_line_held_against_moving_and_turning_passes_nothing():
    """Cremer, Heckl & Petersson, ch. 6: mass and rotary inertia together block all."""
    assert float(rib_transmission(STEEL, Rib(1e9, rotary_inertia=1e9), [500.0])[0]) < 1e-6


def test_blocking_mass_agrees_with_the_line_force_on_an_infinite_plate():
    """Mass only, head on: force m'ω²w, plate answers −j(e^{−jkr} − j e^{−kr})/(4Bk³) (Cremer et al., ch. 3)."""
    k = float(STEEL.wavenumber[16])
    mass = 0.4
    mu = mass * k / (4.0 * STEEL.surface_density)
    # Far field −j e^{−jkr}/(4Bk³), at the line (−j − 1)/(4Bk³).
    under = mu * (-1j - 1.0)
    amplitude = 1.0 + mu * (-1j) / (1.0 - under)
    found = rib_transmission_at(STEEL, Rib(mass), [FREQUENCIES[16]], [0.0])[0, 0]
    assert found == pytest.approx(abs(amplitude) ** 2, rel=1e-9)


def test_two_bays_follow_the_balance_worked_by_hand():
    """Two equal bays: E2/E1 = η12/(η + η12), η12 = c_g τ/(π ω b) (Hopkins, Sound Insulation, ch. 2)."""
    rib = Rib(0.8)
    found = skin_velocity_difference(STEEL, (0.5, 0.5), (rib,), 1)
    omega = 2.0 * math.pi * FREQUENCIES
    coupling = 2.0 * omega / STEEL.wavenumber * rib_transmission(STEEL, rib) / (math.pi * omega * 0.5)
    assert found == pytest.approx(10.0 * np.log10((0.02 + coupling) / coupling))
