"""Porous materials: limits of the limp Johnson–Champoux–Allard fluid and printed empirical values."""

import csv
import tomllib
from pathlib import Path

import numpy as np
import pytest

from hushwright.physics.acoustics.layers import Porous, PorousLayer
from hushwright.physics.acoustics.matrices import surface_absorption
from hushwright.physics.acoustics.porous import characteristic_lengths, effective_bulk_modulus, effective_density
from hushwright.physics.air import AIR_20C

TABLES = Path(__file__).parent / "tables"
MODELS = tomllib.loads((TABLES / "porous_models.toml").read_text(encoding="utf-8"))
with (TABLES / "porous.csv").open(encoding="utf-8", newline="") as file:
    FULL = [row for row in csv.DictReader(file) if row["viscous_length_um"]]


def _porous(row):
    return Porous(
        float(row["sigma_min_Pa_s_m2"]),
        float(row["porosity"]),
        float(row["tortuosity"]),
        float(row["density_kg_m3"] or 40.0),
        float(row["viscous_length_um"]) * 1e-6,
        float(row["thermal_length_um"]) * 1e-6,
    )


@pytest.mark.parametrize("row", FULL, ids=lambda row: row["id"])
def test_published_layer_goes_from_isothermal_to_adiabatic(row):
    # Allard & Atalla 2e, ch. 5: K goes from P0/φ to γP0/φ; parameters from the tables named in porous.csv
    porous = _porous(row)
    low, high = (effective_bulk_modulus(porous, f).real * porous.porosity for f in (0.01, 1e8))
    assert float(low) == pytest.approx(AIR_20C.pressure, rel=0.01)
    assert float(high) == pytest.approx(1.4 * AIR_20C.pressure, rel=0.01)


@pytest.mark.parametrize("row", FULL, ids=lambda row: row["id"])
def test_rigid_frame_density_has_its_published_limits(row):
    # Allard & Atalla 2e, ch. 5: −ω·Im ρ_eq → σ at low, Re ρ_eq → α∞ρ0/φ at high frequency
    porous = _porous(row)
    low = effective_density(porous, 0.01, limp=False)
    assert float(-low.imag * 2 * np.pi * 0.01) == pytest.approx(porous.flow_resistivity, rel=0.01)
    high = float(effective_density(porous, 1e9, limp=False).real)
    assert high == pytest.approx(porous.tortuosity * AIR_20C.density / porous.porosity, rel=0.02)


def test_limp_frame_moves_as_one_mass_at_low_frequency():
    # Panneton 2007: ρ_limp → ρ1 + φρ0
    wool = Porous(10_000.0, 0.98, 1.0, 40.0)
    assert float(effective_density(wool, 0.1).real) == pytest.approx(40.0 + 0.98 * AIR_20C.density, rel=0.001)


def test_real_part_of_the_density_is_never_negative():
    # the fault of the one-parameter regression of Miki below f/σ = 0.01
    wool = Porous(20_000.0, 0.98, 1.0, 40.0)
    assert np.all(effective_density(wool, np.geomspace(10.0, 1e4, 50)).real > 0.0)


def test_wavenumber_is_near_the_empirical_law_where_that_holds():
    # Delany & Bazley 1970 at X = ρ0f/σ = 0.1 (porous_models.toml): another model, so 15 %
    law = MODELS["delany_bazley"]
    wool = Porous(10_000.0, 0.99, 1.0, 1000.0)
    frequency = law["X"] * wool.flow_resistivity / AIR_20C.density
    density = effective_density(wool, frequency, limp=False)
    modulus = effective_bulk_modulus(wool, frequency)
    ratio = complex(np.sqrt(density / modulus)) * AIR_20C.speed_of_sound
    assert ratio.real == pytest.approx(law["k_over_k0"][0], rel=0.15)
    assert ratio.imag == pytest.approx(law["k_over_k0"][1], rel=0.15)


def test_locally_reacting_bound_is_passed_only_by_bulk_reaction():
    # porous_models.toml: 0.951 is the most a locally reacting surface absorbs in a diffuse field; ours is bulk reacting
    alpha = surface_absorption([PorousLayer(Porous(10_000.0, 0.98, 1.0, 40.0), 0.2)])
    assert max(alpha) <= 1.0
    assert alpha[16] > 0.9


def test_lengths_follow_the_flow_resistivity():
    # Allard & Atalla 2e: Λ = sqrt(8 α∞ μ/(φσ)), in plain arithmetic
    viscous, thermal = characteristic_lengths(Porous(10_000.0, 1.0, 1.0, 40.0))
    assert viscous == pytest.approx((8 * AIR_20C.viscosity / 10_000.0) ** 0.5)
    assert thermal == pytest.approx(2 * viscous)
