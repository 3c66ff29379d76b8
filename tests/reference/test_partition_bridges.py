"""Bridges against Sharp's near-field formulas in plain arithmetic."""

import math

import numpy as np
import pytest

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bridges import BridgeEnd, HeldPlate, LineBridge, PointBridge, bridge_transmission
from hushwright.physics.acoustics.plates import Leaf
from hushwright.physics.air import AIR_20C

MASS, STIFFNESS, FREQUENCY = 8.5, 380.0, 1000.0
OMEGA = 2 * math.pi * FREQUENCY


def _mass_controlled_end():
    forced = np.array([2.0 / (OMEGA * MASS) ** 2])
    leaf = Leaf(MASS, np.array([STIFFNESS]), np.array([0.03]))
    return BridgeEnd(leaf, forced, np.array([0.0]), np.array([0.03]), np.array([1.0]))


def _passed(bridge):
    end = _mass_controlled_end()
    return float(bridge_transmission(bridge, end, end, np.array([FREQUENCY]), AIR_20C)[0])


def test_point_bridge_agrees_with_the_near_field_of_a_point():
    # Sharp 1978: W = (8/π³)ρc λc² v²; both leaves are equal, so the point moves at half the free velocity of leaf 1
    rho, c = AIR_20C.density, AIR_20C.speed_of_sound
    coincidence = c**2 / (2 * math.pi) * math.sqrt(MASS / STIFFNESS)
    free = 2.0 / (OMEGA * MASS) ** 2  # mean-square velocity per mean-square pressure of the diffuse field
    radiated = 8 / math.pi**3 * rho * c * (c / coincidence) ** 2 * free / 4
    incident = 1 / (4 * rho * c)
    assert _passed(PointBridge(4.0)) == pytest.approx(4.0 * radiated / incident, rel=0.001)


def test_line_bridge_agrees_with_the_near_field_of_a_line():
    # Sharp 1978: W' = (2/π)ρc λc v²
    rho, c = AIR_20C.density, AIR_20C.speed_of_sound
    coincidence = c**2 / (2 * math.pi) * math.sqrt(MASS / STIFFNESS)
    free = 2.0 / (OMEGA * MASS) ** 2
    radiated = 2 / math.pi * rho * c * (c / coincidence) * free / 4
    assert _passed(LineBridge(1 / 0.6)) == pytest.approx(radiated / 0.6 * 4 * rho * c, rel=0.001)


def test_screws_pass_less_than_the_line_they_stand_on_when_far_apart():
    # common practice, no source
    line, wide = LineBridge(1 / 0.6), LineBridge(1 / 0.6, fastener_spacing=1.0)
    assert _passed(wide) < _passed(line)


def test_stiffness_that_grows_passes_more_above_500_hertz():
    # Poblet-Puig et al. 2009: studs stiffen with frequency
    even, growing = LineBridge(1 / 0.6, 1e6), LineBridge(1 / 0.6, 1e6, stiffness_growth=1.0)
    assert _passed(growing) > _passed(even)


def test_held_plate_passes_what_the_circuit_of_two_leaves_and_its_impedance_gives():
    # Force on leaf 2 over that of a rigid line: (Y1 + Y2)/(Y1 + Y2 + Y1·Y2·Z), plain circuit of mobilities
    speed = (OMEGA**2 * STIFFNESS / MASS) ** 0.25
    mobility = (1 - 1j) / (4 * MASS * speed)  # Cremer, Heckl and Petersson, ch. 5: line force on a plate
    impedance = 1j * (OMEGA * 2.3 - 4.4e6 / OMEGA)
    share = abs(2 * mobility / (2 * mobility + mobility**2 * impedance)) ** 2
    held = LineBridge(0.7, held=HeldPlate(2.3, 4.4e6))
    assert _passed(held) == pytest.approx(share * _passed(LineBridge(0.7)), rel=1e-6)


def test_a_plate_held_fast_passes_nothing():
    assert _passed(LineBridge(0.7, held=HeldPlate(2.3, 1e12))) < 1e-6 * _passed(LineBridge(0.7))


def test_a_held_line_has_no_stiffness_of_its_own():
    with pytest.raises(InvalidInput, match="1000000"):
        LineBridge(0.7, 1e6, held=HeldPlate(2.3, 4.4e6))
