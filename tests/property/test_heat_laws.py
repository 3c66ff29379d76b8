"""Laws of heat and moisture that hold for any van."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hushwright.physics.thermal.condensation import interstitial_condensation, yearly_condensation
from hushwright.physics.thermal.conduction import BuildUpSection, mixed_thermal_resistance, surface_resistances
from hushwright.physics.thermal.exposure import face_orientation, surface_irradiance
from hushwright.physics.thermal.layers import AirLayer, SolidLayer
from hushwright.physics.thermal.moisture import (
    VAPOUR_PERMEABILITY_OF_AIR,
    Climate,
    Season,
    VapourLayer,
    dew_point_temperature,
    saturation_pressure,
)
from hushwright.physics.thermal.network import (
    design_day_temperature,
    minutes_until_too_warm,
    run_network,
    settled_day,
)
from hushwright.physics.thermal.occupants import ACTIVITIES, metabolic_heat, occupant_heat
from hushwright.physics.thermal.rooms import Cooler, Drive, Envelope, Heater, HeatNetwork, RoomNode, two_node_capacities
from hushwright.physics.thermal.sun import SkyIrradiance, SunPosition

floats = st.floats
resistances = floats(0.02, 3.0)


def van(coolers=(), heaters=(), core=1.5):
    walls = [
        Envelope(f"{room} {face}", room, face, area, 0.04, 4e3, core, 15e3, 0.13)
        for room in ("quiet", "control")
        for face, area in (("left", 4.0), ("roof", 3.0), ("outside", 7.0))
    ]
    walls.append(Envelope("dividing", "quiet", "control", 3.0, 0.13, 15e3, 1.0, 15e3, 0.13))
    rooms = (RoomNode("quiet", 6.5, 3e4), RoomNode("control", 8.0, 5e4))
    return HeatNetwork(rooms, tuple(walls), tuple(heaters), tuple(coolers))


def day(step=300.0, people=300.0, flow=0.033, highest=32.0, count=None):
    count = count or round(86_400.0 / step)
    turn = (np.arange(count) + 0.5) * step / 86_400.0
    air = design_day_temperature(highest, 12.0, step)[:count]
    sun = np.maximum(-np.cos(2.0 * np.pi * turn), 0.0)
    busy = ((turn > 0.375) & (turn < 0.75)).astype(float)
    return Drive(
        step,
        {"outside": air, "left": air + 10.0 * sun, "roof": air + 25.0 * sun},
        np.full(count, 0.5),
        flows={
            ("outside", "control"): 2.0 * flow * busy + 0.002,
            ("control", "quiet"): flow * busy,
            ("quiet", "outside"): flow * busy,
        },
        gains={
            ("quiet", "people"): people * busy,
            ("control", "equipment"): 400.0 * busy,
            ("quiet", "sun"): 50.0 * sun,
        },
        vapour={"quiet": 7e-5 * busy},
        cooler_allowed={"quiet": busy, "control": busy},
    )


COOLERS = (Cooler("quiet", 1600.0, 3.0, 24.0), Cooler("control", 1600.0, 3.0, 25.0))
HEATERS = (Heater("quiet", 1500.0, 20.0), Heater("control", 1500.0, 20.0))


@settings(max_examples=25)
@given(people=floats(0.0, 800.0), flow=floats(0.0, 0.1), highest=floats(-10.0, 45.0), core=resistances)
def test_heat_and_water_balance_from_their_own_terms(people, flow, highest, core):
    run = run_network(van(COOLERS, HEATERS, core), day(900.0 / 3.0, people, flow, highest), 15.0, 0.5)
    assert run.heat_imbalance < 1e-9
    assert run.water_imbalance < 1e-9


@pytest.mark.parametrize("network", [van(), van(COOLERS), van((replace(COOLERS[0], capacity=700.0),))])
def test_halving_the_step_changes_a_day_by_less_than_half_a_per_cent(network):
    coarse, fine = (run_network(network, day(step), 24.0, 0.5) for step in (300.0, 150.0))
    for name in coarse.heat_flows:
        rough, exact = (float(run.heat_flows[name].sum()) * run.step for run in (coarse, fine))
        scale = max(abs(float(fine.heat_flows[each].sum()) * fine.step) for each in fine.heat_flows)
        assert abs(rough - exact) < 0.005 * scale, name
    rough, exact = (float(run.electrical_power.sum()) * run.step for run in (coarse, fine))
    assert rough == pytest.approx(exact, rel=0.005)
    assert coarse.room("quiet")[::12] == pytest.approx(fine.room("quiet")[::24], abs=0.15)


@given(outside=floats(-20.0, 45.0))
@settings(max_examples=10)
def test_without_sources_everything_comes_to_the_outside_temperature(outside):
    still = Drive(300.0, {key: np.full(4000, outside) for key in ("outside", "left", "roof")}, np.full(4000, 0.5))
    assert run_network(van(), still, 20.0).temperature[:, -1] == pytest.approx(outside, abs=0.1)


def test_more_people_make_it_warmer_and_sooner_too_warm():
    warm, warmer = (run_network(van(), day(people=people), 22.0).room("quiet") for people in (200.0, 600.0))
    assert np.all(warmer >= warm - 1e-9)
    take = {people: day(60.0, people, count=1440) for people in (200.0, 600.0)}
    minutes = [minutes_until_too_warm(van(COOLERS), take[people], "quiet", 28.0, 22.0) for people in (200.0, 600.0)]
    assert minutes[1] <= minutes[0]


def test_a_held_room_ends_each_step_at_its_setpoint():
    run = run_network(van(COOLERS), day(), 24.0, 0.5)
    running = (run.cooling[0] > 0.0) & (run.cooling[0] + run.latent_cooling[0] < 1500.0)
    assert running.any()
    assert run.room("quiet")[1:][running] == pytest.approx(24.0, abs=0.02)


def test_a_forbidden_cooler_stays_silent_and_hysteresis_delays_it():
    silent = replace(day(), cooler_allowed={"quiet": np.zeros(288), "control": np.zeros(288)})
    assert float(run_network(van(COOLERS), silent, 24.0).cooling.max()) == 0.0
    late = tuple(replace(unit, hysteresis=3.0) for unit in COOLERS)
    early = run_network(van(COOLERS), day(), 24.0, 0.5)
    assert np.argmax(run_network(van(late), day(), 24.0, 0.5).cooling[0] > 0) >= np.argmax(early.cooling[0] > 0)


def test_a_cooler_never_gives_more_than_it_has_and_dries_the_air():
    small = tuple(replace(unit, capacity=700.0) for unit in COOLERS)
    run = run_network(van(small), day(), 28.0, 0.7)
    assert float((run.cooling + run.latent_cooling).max()) < 700.0 * 1.05
    assert float(run.condensate.sum()) > 0.0
    dry = run_network(van(), day(), 28.0, 0.7)
    assert float(run.humidity_ratio[0].max()) <= float(dry.humidity_ratio[0].max())


def test_a_cooler_weakens_as_it_gets_hot_outside():
    weak = tuple(replace(unit, capacity=700.0, capacity_slope=0.02) for unit in COOLERS)
    firm = tuple(replace(unit, capacity_slope=0.0) for unit in weak)
    hot = day(highest=45.0)
    assert run_network(van(weak), hot, 24.0).room("quiet").max() > run_network(van(firm), hot, 24.0).room("quiet").max()


def test_a_settled_day_ends_as_it_began():
    run = settled_day(van(COOLERS), day())
    assert run.temperature[:, -1] == pytest.approx(run.temperature[:, 0], abs=0.01)


@given(layers=st.lists(st.tuples(floats(0.01, 2.0), floats(100.0, 3e4)), min_size=1, max_size=6))
def test_reduced_nodes_keep_heat_capacity_and_resistance(layers):
    skin, core, leaf = two_node_capacities(layers)
    assert skin + leaf == pytest.approx(sum(capacity for _, capacity in layers))
    assert core == pytest.approx(sum(resistance for resistance, _ in layers))
    turned = two_node_capacities(layers[::-1])
    assert turned == pytest.approx((leaf, core, skin))


@given(portion=floats(0.0, 1.0), wool=floats(0.02, 0.06), rib=floats(0.05, 0.5), thickness=floats(0.01, 0.15))
def test_the_value_lies_between_its_limits_and_a_bridge_never_helps(portion, wool, rib, thickness):
    bay, crossed = SolidLayer(thickness, wool), SolidLayer(thickness, max(rib, wool))
    board = SolidLayer(0.012, 0.13)
    found = mixed_thermal_resistance(
        [BuildUpSection(1.0 - portion, (board, bay)), BuildUpSection(portion, (board, crossed))]
    )
    plain = mixed_thermal_resistance([BuildUpSection(1.0, (board, bay))])
    assert found.lower <= found.value + 1e-12 <= found.upper + 2e-12
    assert found.value <= plain.value + 1e-12


@given(thickness=floats(0.001, 0.3), wind=floats(0.0, 30.0))
def test_air_holds_least_heat_back_upward(thickness, wind):
    air = AirLayer(thickness)
    assert air.resistance("up") <= air.resistance("horizontal") + 1e-12
    assert surface_resistances("up", wind).inside < surface_resistances("down", wind).inside
    assert surface_resistances("up", wind + 1.0).outside < surface_resistances("up", wind).outside


@given(temperature=floats(-40.0, 60.0))
def test_the_dew_point_undoes_saturation(temperature):
    assert dew_point_temperature(saturation_pressure(temperature)) == pytest.approx(temperature, abs=1e-6)


layers = st.lists(
    st.builds(VapourLayer, floats(0.001, 2.0), st.one_of(floats(0.01, 20.0), st.just(math.inf))), min_size=1, max_size=6
)
climates = st.builds(Climate, floats(-20.0, 30.0), floats(0.05, 0.95))


@given(build_up=layers, warm=floats(0.2, 0.95), cold=floats(0.2, 0.95), outside=floats(-20.0, 19.0))
def test_vapour_never_exceeds_saturation_and_water_is_what_comes_less_what_goes(build_up, warm, cold, outside):
    month = Season(Climate(20.0, warm), Climate(outside, cold), 1.0)
    found = interstitial_condensation(build_up, [month])[0]
    assert all(p <= s * (1.0 + 1e-9) for p, s in zip(found.vapour_pressure, found.saturation_pressure, strict=True))
    assert min(found.accumulated) >= 0.0
    depth = [min(max(layer.vapour_diffusion_thickness, 1e-3), 1e5) for layer in build_up]
    into = (found.vapour_pressure[-1] - found.vapour_pressure[-2]) / depth[-1]
    out = (found.vapour_pressure[1] - found.vapour_pressure[0]) / depth[0]
    gained = VAPOUR_PERMEABILITY_OF_AIR * (into - out)
    assert sum(found.condensed) == pytest.approx(gained, rel=1e-6, abs=1e-15)


@given(build_up=layers, seasons=st.lists(st.tuples(climates, climates, floats(1e5, 1e7)), min_size=1, max_size=8))
def test_a_build_up_never_dries_below_nothing(build_up, seasons):
    run = interstitial_condensation(build_up, [Season(*each) for each in seasons])
    assert all(min(season.accumulated) >= 0.0 for season in run)
    gained = sum(sum(season.condensed) for season in run)
    assert sum(run[-1].accumulated) == pytest.approx(gained, abs=1e-9)


def test_splitting_a_month_changes_nothing():
    wall = [VapourLayer(0.0, math.inf), VapourLayer(1.5, 0.05), VapourLayer(0.1, 1.0)]
    whole = [Season(Climate(20.0, 0.5), Climate(t, 0.8), 30 * 86_400.0) for t in (-2.0, 8.0, 18.0)]
    halves = [replace(season, duration=season.duration / 2.0) for season in whole for _ in range(2)]
    one, two = interstitial_condensation(wall, whole), interstitial_condensation(wall, halves)
    assert one[-1].accumulated == pytest.approx(two[-1].accumulated, abs=1e-12)


def test_a_year_starts_where_it_first_condenses_wherever_the_list_starts():
    wall = [VapourLayer(0.0, math.inf), VapourLayer(1.5, 0.05), VapourLayer(0.1, 1.0)]
    months = [Season(Climate(20.0, 0.5), Climate(t, 0.8), 30 * 86_400.0) for t in (-2, 2, 8, 14, 20, 22, 20, 14, 8, 3)]
    peaks = {round(yearly_condensation(wall, months[turn:] + months[:turn]).peak_water, 12) for turn in range(10)}
    assert len(peaks) == 1


@given(zenith=floats(0.0, 1.5), azimuth=floats(0.0, 6.28), heading=floats(-7.0, 7.0))
def test_turning_van_and_sun_together_changes_nothing(zenith, azimuth, heading):
    sky = SkyIrradiance(np.array([600.0]), np.array([700.0]), np.array([90.0]))
    for face in ("roof", "front", "left", "right", "rear"):
        here = SunPosition(np.array([zenith]), np.array([azimuth]))
        turned = SunPosition(np.array([zenith]), np.array([azimuth + heading]))
        still = surface_irradiance(here, sky, *face_orientation(face, 0.0))
        assert surface_irradiance(turned, sky, *face_orientation(face, heading)) == pytest.approx(still, abs=1e-6)


@given(activity=st.sampled_from(ACTIVITIES), temperature=floats(0.0, 45.0))
def test_a_warmer_room_turns_sensible_heat_into_vapour(activity, temperature):
    cool, warm = occupant_heat(activity, temperature), occupant_heat(activity, min(temperature + 1.0, 45.0))
    assert warm.sensible_heat <= cool.sensible_heat + 1e-9
    assert warm.total_heat == pytest.approx(cool.total_heat)
    assert min(cool.sensible_heat, cool.latent_heat) >= 0.0


@given(rate=floats(0.8, 7.0), temperature=floats(15.0, 35.0))
def test_harder_work_gives_more_heat(rate, temperature):
    assert metabolic_heat(rate + 0.5, temperature).total_heat > metabolic_heat(rate, temperature).total_heat
