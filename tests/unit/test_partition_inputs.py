"""What a partition refuses, what it notes, and how it classifies."""

import math

import pytest

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bridges import LineBridge, PointBridge
from hushwright.physics.acoustics.constants import IN_SITU_LOSS
from hushwright.physics.acoustics.layers import BondedPlates, DampedPlate, Gap, LimpMass, LooseBoards, Plate, Porous
from hushwright.physics.acoustics.matrices import transmission_coefficient
from hushwright.physics.acoustics.partition import Incidence, Partition, Quadrature, sound_reduction
from hushwright.physics.acoustics.plates import mounted_loss_factor
from hushwright.physics.acoustics.spread import CONSTRUCTIONS, standard_uncertainty

GLASS = Plate(0.006, 2500.0, 63.71e9, 0.24, 0.03)
BOARD = Plate(0.0125, 680.0, 2.03e9, 0.3, 0.03)
STEEL = Plate(0.0008, 7800.0, 199.64e9, 0.28, 0.01)
WOOL = Porous(8e3, 0.98, 1.0, 30.0)


@pytest.mark.parametrize(
    ("make", "shown"),
    [
        (lambda: Plate(-0.001, 700.0, 2e9, 0.3, 0.01), "-0.001 m"),
        (lambda: Plate(0.01, 0.0, 2e9, 0.3, 0.01), "0.0 kg/m³"),
        (lambda: Plate(0.01, 700.0, 2e9, 0.7, 0.01), "0.7"),
        (lambda: LimpMass(math.nan), "nan"),
        (lambda: Gap(0.05, WOOL, 0.06), "0.06 m"),
        (lambda: Gap(0.05, None, 0.02), "no fill material"),
        (lambda: Gap(0.05, bay_perimeter=2.0), "together"),
        (lambda: BondedPlates((BOARD,), 0.001, 1000.0, 1e6, 0.5), "1 plate"),
        (lambda: LooseBoards(()), "0 boards"),
        (lambda: DampedPlate(STEEL, 0.002, 1600.0, 1e8, (0.1, 0.2), 0.5), "2 pad loss factors"),
        (lambda: LineBridge(0.0), "0.0 1/m"),
        (lambda: PointBridge(4.0, -1.0), "-1.0 N/m"),
        (lambda: Partition((), 1.0, 1.0), "0 layers"),
        (lambda: Partition((BOARD,), 0.0, 1.0), "0.0 m"),
        (lambda: Quadrature(2, 1), "2 angles"),
        (lambda: Incidence(1.0, 0.5), "1.0 to 0.5"),
        (lambda: transmission_coefficient([BOARD], [0.0]), "0.0 Hz"),
        (lambda: transmission_coefficient([BOARD], [100.0], 1.6), "1.6 rad"),
    ],
)
def test_impossible_input_is_refused_with_its_value(make, shown):
    with pytest.raises(InvalidInput, match=shown.replace(".", r"\.")):
        make()


@pytest.mark.parametrize(
    ("layers", "bridges", "expected"),
    [
        ((BOARD,), (), "single leaf"),
        ((GLASS,), (), "single glazing"),
        ((GLASS, Gap(0.012), GLASS), (), "double glazing"),
        ((STEEL, Gap(0.05), BOARD), (), "uncoupled double leaf"),
        ((STEEL, Gap(0.05), BOARD), (LineBridge(2.0, 1e6),), "double leaf on compliant bridges"),
        ((STEEL, Gap(0.05), BOARD), (PointBridge(5.0),), "double leaf on stiff bridges"),
        ((Plate(0.11, 1750.0, 12e9, 0.2, 0.03),), (), "masonry"),
    ],
)
def test_class_of_construction_follows_the_build_up(layers, bridges, expected):
    result = sound_reduction(Partition(layers, 2.0, 2.0, bridges))
    assert result.construction == expected
    assert result.standard_uncertainty == standard_uncertainty(expected)[0]


def test_uncertainty_is_wider_below_100_hertz():
    for name in CONSTRUCTIONS:
        bands, rating = standard_uncertainty(name)
        assert bands[0] > bands[3] > bands[6] == bands[20] > 0.0
        assert bands[21] == bands[26] > 0.0
        assert rating > 0.0


def test_curved_skin_and_small_pane_are_noted():
    curved = sound_reduction(Partition((STEEL,), 1.0, 1.0, radius=4.0))
    assert any("ring frequency of 21" in note for note in curved.validity)
    small = sound_reduction(Partition((GLASS,), 0.3, 0.4))
    assert any("first mode" in note for note in small.validity)
    assert sound_reduction(Partition((STEEL,), 1.0, 1.0)).validity == ()


def test_narrow_van_cavity_names_its_resonance():
    result = sound_reduction(Partition((STEEL, Gap(0.05, WOOL, 0.05), BOARD), 1.8, 1.4))
    resonance = next(r for r in result.resonances if r.kind == "mass-air-mass")
    assert 70.0 < resonance.frequency < 160.0
    assert resonance.text == "leaves 1 and 2"


def test_three_leaves_have_two_resonances():
    result = sound_reduction(Partition((STEEL, Gap(0.05), BOARD, Gap(0.05), BOARD), 1.8, 1.4))
    assert len([r for r in result.resonances if r.kind == "mass-air-mass"]) == 2


def test_bridge_counts_leaves_from_outside():
    layers = (STEEL, Gap(0.05, WOOL, 0.05), BOARD, Gap(0.05, WOOL, 0.05), BOARD)
    first = sound_reduction(Partition(layers, 1.8, 1.4, (LineBridge(2.0, leaves=(0, 1)),)))
    whole = sound_reduction(Partition(layers, 1.8, 1.4, (LineBridge(2.0),)))
    assert first.reduction[14] > whole.reduction[14]


def test_slanting_sound_passes_more_than_sound_straight_on():
    straight = sound_reduction(Partition((BOARD,), 3.0, 3.0), incidence=Incidence(0.0, 0.3))
    slanting = sound_reduction(Partition((BOARD,), 3.0, 3.0), incidence=Incidence(1.0, 1.4))
    assert straight.reduction[12] > slanting.reduction[12] + 2


def test_surface_density_and_thickness_add_up():
    result = sound_reduction(Partition((STEEL, Gap(0.05, WOOL, 0.04), BOARD), 1.8, 1.4))
    assert result.surface_density == pytest.approx(6.24 + 1.2 + 8.5)
    assert result.thickness == pytest.approx(0.0633)


def test_cold_pad_damps_by_its_27_values():
    warm = DampedPlate(Plate(0.003, 7800.0, 199.64e9, 0.28, 0.01), 0.003, 1600.0, 5e8, 0.4, 1.0)
    bands = DampedPlate(warm.plate, 0.003, 1600.0, 5e8, (0.4,) * 27, 1.0)
    one, many = (sound_reduction(Partition((layer,), 1.0, 1.0)).reduction for layer in (warm, bands))
    assert one == pytest.approx(many, abs=1e-6)


@pytest.mark.parametrize(
    ("density", "modulus", "family"),
    [
        (7800.0, 200e9, "metal"),
        (2700.0, 70e9, "metal"),
        (2500.0, 64e9, "glass"),
        (11340.0, 13.8e9, "lead"),
        (2200.0, 30e9, "masonry"),
        (760.0, 2.1e9, "gypsum"),
        (600.0, 8.3e9, "wood"),
        (440.0, 10e9, "wood"),
    ],
)
def test_mounted_panel_loses_what_its_family_loses(density, modulus, family):
    assert mounted_loss_factor(0.0, density, modulus) == IN_SITU_LOSS[family]
    assert mounted_loss_factor(0.5, density, modulus) == 0.5
