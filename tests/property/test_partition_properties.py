"""Laws that hold for every partition."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hushwright.physics.acoustics.bridges import LineBridge, PointBridge
from hushwright.physics.acoustics.layers import (
    BondedPlates,
    DampedPlate,
    Gap,
    GluedFoam,
    LimpMass,
    LooseBoards,
    PerforatedFacing,
    Plate,
    Porous,
    PorousLayer,
)
from hushwright.physics.acoustics.matrices import power_shares, surface_absorption, transmission_coefficient
from hushwright.physics.acoustics.partition import FINE, Partition, sound_reduction

BANDS = np.geomspace(50.0, 5000.0, 12)
FEW = settings(max_examples=25)

porous = st.builds(
    Porous,
    flow_resistivity=st.floats(1e3, 1e5),
    porosity=st.floats(0.8, 0.99),
    tortuosity=st.floats(1.0, 2.5),
    density=st.floats(8.0, 200.0),
)
plates = st.builds(
    Plate,
    thickness=st.floats(0.0005, 0.03),
    density=st.floats(400.0, 8000.0),
    youngs_modulus=st.floats(1e9, 2e11),
    poisson=st.floats(0.1, 0.4),
    loss_factor=st.floats(0.005, 0.2),
)
limps = st.builds(LimpMass, surface_density=st.floats(1.0, 30.0), thickness=st.just(0.003))
gaps = st.builds(Gap, thickness=st.floats(0.005, 0.3))
filled = st.builds(
    lambda depth, material, share: Gap(depth, material, share * depth),
    st.floats(0.02, 0.2),
    porous,
    st.floats(0.1, 1.0),
)
blankets = st.builds(PorousLayer, porous=porous, thickness=st.floats(0.005, 0.1))
foams = st.builds(
    GluedFoam,
    dynamic_stiffness=st.floats(1e6, 1e8),
    thickness=st.floats(0.003, 0.05),
    density=st.floats(10.0, 100.0),
    loss_factor=st.floats(0.02, 0.4),
)
facings = st.builds(
    PerforatedFacing,
    thickness=st.floats(0.0005, 0.004),
    density=st.just(7800.0),
    open_area_ratio=st.floats(0.05, 0.5),
    hole_radius=st.floats(0.0005, 0.005),
)
damped = st.builds(
    DampedPlate,
    plate=plates,
    pad_thickness=st.floats(0.001, 0.005),
    pad_density=st.just(1600.0),
    pad_modulus=st.floats(1e7, 1e9),
    pad_loss_factor=st.floats(0.05, 0.5),
    coverage=st.floats(0.0, 1.0),
)
bonded = st.builds(
    lambda a, b, shear, loss: BondedPlates((a, b), 0.0007, 1070.0, shear, loss),
    plates,
    plates,
    st.floats(1e5, 1e9),
    st.floats(0.05, 1.0),
)
boards = st.builds(lambda a, b: LooseBoards((a, b)), plates, plates)
leaves = st.one_of(plates, limps, damped, bonded, boards)
between = st.one_of(gaps, filled, blankets, foams)
walls = st.builds(lambda a, g, b: (a, g, b), leaves, between, leaves)
stacks = st.lists(st.one_of(leaves, between, facings), min_size=1, max_size=6).map(tuple)


def _reduction(layers, bridges=()):
    return np.array(sound_reduction(Partition(layers, 1.8, 1.4, bridges)).reduction)


@FEW
@given(stacks, st.floats(0.0, 1.4))
def test_reflected_absorbed_and_transmitted_make_one(layers, angle):
    reflected, absorbed, transmitted = power_shares(layers, BANDS, angle, perimeter_per_area=2.0)
    assert reflected + absorbed.sum(axis=0) + transmitted == pytest.approx(1.0, abs=1e-9)
    assert np.all(absorbed > -1e-9)
    assert np.all(transmitted >= 0.0)


@FEW
@given(stacks, st.floats(0.0, 1.4))
def test_infinite_panel_is_reciprocal(layers, angle):
    there = transmission_coefficient(layers, BANDS, angle, perimeter_per_area=2.0)
    back = transmission_coefficient(layers[::-1], BANDS, angle, perimeter_per_area=2.0)
    assert there == pytest.approx(back, rel=1e-6)


@FEW
@given(walls, st.sampled_from([(), (LineBridge(2.0),), (LineBridge(2.0, 1e6),), (PointBridge(5.0, 1e6),)]))
def test_partition_is_reciprocal_with_its_bridges(layers, bridges):
    assert _reduction(layers, bridges) == pytest.approx(_reduction(layers[::-1], bridges), abs=1e-6)


@FEW
@given(walls)
def test_zero_thickness_changes_nothing(layers):
    nothing = (
        Gap(0.0),
        PorousLayer(Porous(1e4, 0.98, 1.0, 40.0), 0.0),
        Plate(0.0, 1000.0, 1e9, 0.3, 0.01),
        LimpMass(0.0),
        GluedFoam(1e7, 0.0, 40.0, 0.1),
    )
    for layer in nothing:
        extended = (layers[0], layer, *layers[1:], layer)
        assert _reduction(extended) == pytest.approx(_reduction(layers), abs=1e-9)


@FEW
@given(leaves, leaves, st.floats(0.02, 0.3), st.floats(0.1, 0.9))
def test_splitting_a_gap_changes_nothing(outer, inner, depth, share):
    whole = _reduction((outer, Gap(depth), inner))
    parts = _reduction((outer, Gap(share * depth), Gap((1.0 - share) * depth), inner))
    assert parts == pytest.approx(whole, abs=1e-6)


@FEW
@given(leaves, leaves, blankets, st.floats(0.1, 0.9))
def test_splitting_a_blanket_changes_nothing(outer, inner, blanket, share):
    whole = _reduction((outer, blanket, inner))
    pieces = [PorousLayer(blanket.porous, part * blanket.thickness) for part in (share, 1.0 - share)]
    assert _reduction((outer, *pieces, inner)) == pytest.approx(whole, abs=1e-6)


@FEW
@given(st.floats(1.0, 40.0), st.floats(0.1, 0.9))
def test_splitting_a_limp_sheet_changes_nothing(mass, share):
    parts = (LimpMass(share * mass, 0.001), LimpMass((1.0 - share) * mass, 0.001))
    assert _reduction(parts) == pytest.approx(_reduction((LimpMass(mass, 0.002),)), abs=1e-9)


@FEW
@given(st.floats(0.5, 40.0), st.floats(1.01, 3.0))
def test_heavier_limp_leaf_is_quieter_in_every_band(mass, factor):
    light, heavy = (_reduction((LimpMass(m, 0.003),)) for m in (mass, factor * mass))
    assert np.all(heavy > light)


@FEW
@given(plates, st.floats(0.3, 3.0))
def test_closing_the_gap_leaves_one_leaf(plate, factor):
    other = Plate(plate.thickness, plate.density * factor, plate.youngs_modulus, plate.poisson, plate.loss_factor)
    closed = sound_reduction(Partition((plate, Gap(0.0), other), 1.8, 1.4))
    assert not [r for r in closed.resonances if r.kind == "mass-air-mass"]
    assert closed.reduction == pytest.approx(_reduction((LooseBoards((plate, other)),)), abs=1e-6)


@FEW
@given(stacks)
def test_absorption_lies_between_none_and_all(layers):
    alpha = surface_absorption(layers, perimeter_per_area=2.0)
    assert all(-1e-9 <= value <= 1.0 for value in alpha)


@FEW
@given(walls)
def test_ways_add_up_to_the_whole(layers):
    result = sound_reduction(Partition(layers, 1.8, 1.4, (LineBridge(1.5),)))
    total = np.array(result.direct) + np.array(result.resonant) + np.array(result.bridged)
    assert -10 * np.log10(total) == pytest.approx(np.array(result.reduction))
    assert min(result.resonant) >= 0.0
    assert min(result.bridged) >= 0.0


@settings(max_examples=10)
@given(st.floats(0.004, 0.02), st.floats(0.02, 0.1), st.floats(0.02, 0.15))
def test_default_quadrature_agrees_with_the_fine_one(thickness, loss, depth):
    board = Plate(thickness, 700.0, 2.5e9, 0.3, loss)
    wool = Porous(8e3, 0.98, 1.0, 30.0)
    for layers in ((board,), (board, Gap(depth, wool, 0.8 * depth), board)):
        partition = Partition(layers, 3.0, 2.5)
        rough, fine = (
            sound_reduction(partition, quadrature=q).reduction
            for q in (sound_reduction.__kwdefaults__["quadrature"], FINE)
        )
        assert np.max(np.abs(np.array(rough) - np.array(fine))[:24]) < 0.5


def test_results_are_plain_numbers():
    result = sound_reduction(Partition((LimpMass(5.0),), 1.0, 1.0))
    assert all(isinstance(value, float) and math.isfinite(value) for value in result.reduction)
