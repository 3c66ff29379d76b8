"""Air under a floating floor against closed forms and published series."""

import math

import numpy as np
import pytest

from hushwright.physics.air import AIR_20C
from hushwright.physics.mechanics.air_limits import open_edge_air_mass, trapped_air_stiffness
from hushwright.physics.mechanics.air_spring import (
    UnderFloorAir,
    air_stiffness,
    floor_resonances,
    flow_path_of_rectangle,
)


def test_trapped_air_by_hand():
    # ρc²A/d in plain arithmetic: 1.4 · 101325 Pa · 3.4 m² / 30 mm
    assert trapped_air_stiffness(3.4, 0.030) == pytest.approx(1.4 * 101_325.0 * 3.4 / 0.030, rel=1e-9)


def test_trapped_air_turns_a_ten_hertz_floor_into_a_thirty_hertz_one():
    # methods.md, section 2 (worked by hand): 30 mm under 3.4 m², floors of 444 to 600 kg
    closed = UnderFloorAir(3.4, 0.030, 0.79, open_share=0.0)
    for mass in (444.0, 500.0, 600.0):
        assert floor_resonances(mass, mass * (20.0 * math.pi) ** 2, closed)[0].frequency == pytest.approx(30.0, abs=2.5)


def test_open_edges_leave_the_ten_hertz_floor_nearly_alone():
    # by hand: ρL²/(3d) = 8.35 kg/m² on 3.4 m² adds 28.4 kg to 500 kg
    free = UnderFloorAir(3.4, 0.030, 0.79)
    by_hand = 10.0 * math.sqrt(500.0 / (500.0 + 3.4 * 1.2043 * 0.79**2 / 0.090))
    assert floor_resonances(500.0, 500.0 * (20.0 * math.pi) ** 2, free)[0].frequency == pytest.approx(by_hand, abs=0.1)


@pytest.mark.parametrize("frequency", [2.0, 5.0, 10.0])
def test_open_edges_act_as_a_mass_low_down(frequency):
    space = UnderFloorAir(3.4, 0.030, 0.79)
    mass = 3.4 * open_edge_air_mass(0.79, 0.030)
    # viscosity adds up to a tenth at 2 Hz, where the viscous layer is a tenth of the half gap
    expected = -((2 * math.pi * frequency) ** 2) * mass
    assert air_stiffness(space, frequency).real == pytest.approx(expected, rel=0.15)
    assert air_stiffness(space, frequency).real < 0.98 * expected


def test_gap_resonates_where_it_is_a_quarter_of_a_wavelength():
    # textbook: a channel open at one end; real part changes sign there
    quarter = AIR_20C.speed_of_sound / (4.0 * 0.79)
    below, above = air_stiffness(UnderFloorAir(3.4, 0.030, 0.79), [0.93 * quarter, 1.07 * quarter]).real
    assert below < 0.0 < above


def test_flow_under_a_square_follows_the_torsion_constant():
    # Timoshenko & Goodier (memory): torsion constant of a square bar 0.1406 a⁴; mean of the stress function is J/(4 A)
    path = flow_path_of_rectangle(1.0, 1.0, all_edges_open=True)
    assert path**2 / 3.0 == pytest.approx(0.1406 / 4.0, rel=5e-4)


def test_flow_under_a_rectangle_two_to_one():
    # Timoshenko & Goodier (memory): 0.229 · 2a · a³ for sides two to one
    path = flow_path_of_rectangle(2.0, 1.0, all_edges_open=True)
    assert path**2 / 3.0 == pytest.approx(0.229 / 4.0, rel=2e-3)


def test_viscous_slit_at_low_frequency_is_poiseuille_flow():
    # textbook: pressure gradient 12 μ/h² times velocity, checked through a narrow slit that dominates the edge
    slit, through, frequency = 0.0005, 0.05, 1.0
    space = UnderFloorAir(3.4, 0.030, 0.79, edge_slit=slit, edge_path=through)
    stiffness = complex(air_stiffness(space, frequency))
    edge_length = 3.4 / 0.79
    resistance = 12.0 * AIR_20C.viscosity / slit**2 * through / (slit * edge_length)  # Pa s/m³
    spring = trapped_air_stiffness(3.4, 0.030)
    dashpot = 2j * math.pi * frequency * resistance * 3.4**2
    assert stiffness == pytest.approx(spring * dashpot / (spring + dashpot), rel=0.02)


def test_fill_of_ordinary_density_locks_the_air_in():
    # slow flow through wool of 10 kPa·s/m²: diffusion length √(K/(σ ω)) is short against the way out at 100 Hz
    space = UnderFloorAir(3.4, 0.030, 0.79, flow_resistivity=10_000.0)
    assert air_stiffness(space, 100.0).real / trapped_air_stiffness(3.4, 0.030) > 0.7


def test_volume_beyond_the_edge_is_a_spring_in_series():
    # by hand: below all resonances the air under the floor and the volume beyond share the compression
    space = UnderFloorAir(3.4, 0.030, 0.79, volume_beyond=0.5)
    modulus = 1.4 * 101_325.0
    expected = modulus * 3.4**2 / (0.5 + 3.4 * 0.030)
    assert air_stiffness(space, 0.5).real == pytest.approx(expected, rel=0.01)
    assert np.isfinite(air_stiffness(space, np.geomspace(1.0, 10_000.0, 200))).all()


def test_air_under_a_floor_with_a_narrow_edge_is_a_resonator_with_a_neck():
    # Helmholtz: c/(2π) √(S/(V l)) by hand, neck length with the narrowing of the flow and a third of the way under
    # the floor; the stiffness changes from mass to spring there
    depth, slit, through, path, area = 0.10, 0.010, 0.50, 0.30, 3.4
    edge_length = area / path
    narrowing = 2.0 * depth / math.pi * math.log(1.0 / math.sin(math.pi * slit / (2.0 * depth)))
    neck = through + (narrowing + path / 3.0) * slit / depth
    by_hand = 343.2 / (2.0 * math.pi) * math.sqrt(slit * edge_length / (area * depth * neck))
    space = UnderFloorAir(area, depth, path, edge_slit=slit, edge_path=through)
    below, above = air_stiffness(space, [0.95 * by_hand, 1.05 * by_hand]).real
    assert below < 0.0 < above
