"""Impossible input of heat, moisture, axles, restraint and doors is refused with the value shown."""

import math

import numpy as np
import pytest

from hushwright.errors import InvalidInput
from hushwright.physics.mechanics.axles import Axles, PlacedMass, axle_loads, height_from_raised_axle
from hushwright.physics.mechanics.doors import DoorLeaf, door_forces, hinge_loads
from hushwright.physics.mechanics.fixings import fixing_count, tie_down_count
from hushwright.physics.mechanics.restraint import anchor_loads, cargo_rule, design_level
from hushwright.physics.mechanics.weighbridge import reconcile
from hushwright.physics.thermal.condensation import interstitial_condensation
from hushwright.physics.thermal.conduction import (
    BuildUpSection,
    bridged_transmittance,
    mixed_thermal_resistance,
    surface_resistances,
    thermal_resistance,
)
from hushwright.physics.thermal.exposure import face_orientation, sol_air_temperature
from hushwright.physics.thermal.layers import AirLayer, KnownLayer, SolidLayer
from hushwright.physics.thermal.moisture import (
    Climate,
    Season,
    VapourLayer,
    required_surface_factor,
    surface_factor,
    vapour_diffusion_thickness,
)
from hushwright.physics.thermal.network import design_day_temperature, minutes_until_too_warm, run_network
from hushwright.physics.thermal.occupants import metabolic_heat, occupant_heat
from hushwright.physics.thermal.rooms import Cooler, Drive, Envelope, Heater, HeatNetwork, RoomNode
from hushwright.physics.thermal.sun import SitePosition, SunPosition, clear_sky, split_global

AXLES = Axles(1.45, -2.85, 1.75, 1.75)
LEAF = DoorLeaf(0.62, 1.62, 43.0, 80.0)
WALL = Envelope("all", "quiet", "outside", 20.0, 0.04, 4e3, 1.5, 15e3, 0.13)
BOX = HeatNetwork((RoomNode("quiet", 6.5),), (WALL,))
AIR = np.full(4, 20.0)
DAMP = np.full(4, 0.5)
SUN = SunPosition(np.array([0.5]), np.array([3.0]))
FEET = [(0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (2.0, 0.0, 0.0)]

CASES = {
    "layer": (lambda: SolidLayer(-0.01, 0.04), "-0.01"),
    "air layer": (lambda: AirLayer(0.5), "0.5"),
    "no layer": (lambda: thermal_resistance([]), "0 layers"),
    "shares": (lambda: mixed_thermal_resistance([BuildUpSection(0.5, (KnownLayer(1.0),))]), "0.5"),
    "wind": (lambda: surface_resistances("up", -1.0), "-1.0"),
    "bridge": (lambda: bridged_transmittance(0.5, 4.0, [(-0.1, 2.0)]), "-0.1"),
    "humidity": (lambda: Climate(20.0, 1.4), "1.4"),
    "season": (lambda: Season(Climate(20.0, 0.5), Climate(0.0, 0.5), 0.0), "0.0"),
    "diffusion": (lambda: vapour_diffusion_thickness(0.01, 0.5), "0.5"),
    "steep": (lambda: surface_factor(6.0), "6.0"),
    "warm outside": (lambda: required_surface_factor(Climate(20.0, 0.5), 25.0), "25.0"),
    "no season": (lambda: interstitial_condensation([VapourLayer(1.0, 1.0)], []), "0 seasons"),
    "start water": (
        lambda: interstitial_condensation(
            [VapourLayer(1.0, 1.0)], [Season(Climate(20.0, 0.5), Climate(0.0, 0.5), 1.0)], start_water=[1.0]
        ),
        "1.0",
    ),
    "activity": (lambda: occupant_heat("juggling"), "juggling"),
    "metabolic rate": (lambda: metabolic_heat(0.1), "0.1"),
    "latitude": (lambda: SitePosition(54.0, 0.0), "54.0"),
    "haze": (lambda: clear_sky(SUN, 0.5), "0.5"),
    "negative sun": (lambda: split_global([-5.0], SUN, 10), "-5.0"),
    "face": (lambda: face_orientation("underside", 0.0), "underside"),
    "colour": (lambda: sol_air_temperature(20.0, 500.0, 1.2), "1.2"),
    "long step": (lambda: Drive(600.0, {"outside": AIR}, DAMP), "600.0"),
    "no outside": (lambda: Drive(300.0, {"roof": AIR}, DAMP), "roof"),
    "lengths": (lambda: Drive(300.0, {"outside": AIR, "roof": AIR[:2]}, DAMP), "(2,)"),
    "backward air": (lambda: Drive(300.0, {"outside": AIR}, DAMP, flows={("outside", "quiet"): -AIR}), "-20.0"),
    "unknown room": (lambda: HeatNetwork((RoomNode("other", 6.5),), (WALL,)), "quiet"),
    "two coolers": (
        lambda: HeatNetwork(BOX.rooms, BOX.envelopes, (), (Cooler("quiet", 900.0, 3.0, 24.0),) * 2),
        "quiet",
    ),
    "cold coil": (lambda: Cooler("quiet", 900.0, 3.0, 24.0, coil_temperature=30.0), "30.0"),
    "heater": (lambda: Heater("quiet", -1.0, 20.0), "-1.0"),
    "gain kind": (
        lambda: run_network(BOX, Drive(300.0, {"outside": AIR}, DAMP, gains={("quiet", "magic"): AIR})),
        "magic",
    ),
    "gain room": (
        lambda: run_network(BOX, Drive(300.0, {"outside": AIR}, DAMP, gains={("attic", "people"): AIR})),
        "attic",
    ),
    "start": (lambda: run_network(BOX, Drive(300.0, {"outside": AIR}, DAMP), [20.0]), "(1,)"),
    "minute steps": (
        lambda: minutes_until_too_warm(BOX, Drive(300.0, {"outside": AIR}, DAMP), "quiet", 28.0, 20.0),
        "300.0",
    ),
    "odd step": (lambda: design_day_temperature(30.0, 10.0, 7.0), "7.0"),
    "axles": (lambda: Axles(-2.0, 1.0, 1.7, 1.7), "-3.0"),
    "mass": (lambda: PlacedMass("box", math.nan, (0.0, 0.0, 0.0)), "nan"),
    "no mass": (lambda: axle_loads([], AXLES), "0"),
    "lift": (lambda: height_from_raised_axle(3000.0, 60.0, 9.0, AXLES, 0.34), "9.0"),
    "readings": (lambda: reconcile([], (1.0, 2.0, 3.0), AXLES, 1.0), "1.0, 2.0, 3.0"),
    "heavy van": (lambda: cargo_rule(12_000.0), "12000.0"),
    "one line": (lambda: anchor_loads(10.0, (0.0, 0.0, 1.0), FEET, design_level(1.0), "left"), "one line"),
    "two anchors": (lambda: anchor_loads(10.0, (0.0, 0.0, 1.0), FEET[:1], design_level(1.0), "left"), "1 anchors"),
    "factor": (lambda: fixing_count(100.0, 50.0, 0.5), "0.5"),
    "strap": (lambda: tie_down_count(100.0, 0.8, 0.3, 3000.0, 0.0), "0.0"),
    "handle": (lambda: door_forces(LEAF, 0.9), "0.9"),
    "hinges": (lambda: hinge_loads(LEAF, 2.5), "2.5"),
}


@pytest.mark.parametrize("name", CASES)
def test_impossible_input_is_refused_with_its_value(name):
    ask, shown = CASES[name]
    with pytest.raises(InvalidInput) as caught:
        ask()
    assert shown in str(caught.value)


def test_people_outside_the_table_say_so():
    assert not occupant_heat("standing", 24.0).validity
    assert occupant_heat("standing", 31.0).validity
    assert metabolic_heat(5.0).validity
