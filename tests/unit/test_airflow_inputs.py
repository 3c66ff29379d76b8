"""Impossible input of the air's laws is refused with the value shown, and doubtful results say why."""

import math

import pytest

from hushwright.errors import InvalidInput
from hushwright.physics.airflow.activities import activity
from hushwright.physics.airflow.air_course import AirCourse, Stage, air_course, times_to_reach
from hushwright.physics.airflow.breathing import Person, basal_metabolic_rate, breath, latent_heat_of_vaporization
from hushwright.physics.airflow.door_flow import Crack, crack_flow, door_exchange, duct_leakage
from hushwright.physics.airflow.draught import draught_rating, jet_velocity, throw
from hushwright.physics.airflow.ducts import FlexibleDuct, StraightDuct
from hushwright.physics.airflow.element import RatedElement, filter_element, system_validity
from hushwright.physics.airflow.fans import Fan, fan_from_two_numbers, operating_point
from hushwright.physics.airflow.fittings import Bend, Fitting, Inlet, MitredBend, Outlet
from hushwright.physics.airflow.flow_network import Branch, solve_flows
from hushwright.physics.airflow.friction import DuctSection, darcy_friction_factor, rectangular_section, round_section
from hushwright.physics.airflow.outdoor_air import breathing_zone_flow, category_flow
from hushwright.physics.airflow.psychrometrics import (
    dew_point_temperature,
    humidity_ratio,
    humidity_ratio_at,
    humidity_ratio_from_wet_bulb,
    pressure_at_altitude,
    saturation_vapour_pressure,
)
from hushwright.physics.airflow.room_air import AirFlow, AirNetwork, Room, exchange, steady_fractions

DUCT = round_section(0.125)
QUIET = AirNetwork((Room("quiet", 6.0),))
FAN = fan_from_two_numbers(0.07, 160.0)
RUN = (Fitting(DUCT, 3.0),)

REFUSED = {
    "met -1": lambda: Person(-1.0),
    "25": lambda: Person(25.0),
    "'other'": lambda: Person(1.0, "other"),
    "130": lambda: Person(1.0, "male", 130.0),
    "0.01 kg": lambda: basal_metabolic_rate(Person(1.0, "female", 1.0, 0.01)),
    "'snoring'": lambda: activity("snoring"),
    "120.0 °C": lambda: latent_heat_of_vaporization(120.0),
    "300": lambda: saturation_vapour_pressure(300.0),
    "-1.0 Pa": lambda: dew_point_temperature(-1.0),
    "1e-09": lambda: dew_point_temperature(1e-9),
    "200000": lambda: humidity_ratio(200_000.0),
    "1.2": lambda: humidity_ratio_at(20.0, 1.2),
    "wet bulb is 25": lambda: humidity_ratio_from_wet_bulb(20.0, 25.0),
    "wet bulb is 5": lambda: humidity_ratio_from_wet_bulb(60.0, 5.0),
    "20000": lambda: pressure_at_altitude(20_000.0),
    "-6.0 m³": lambda: Room("quiet", -6.0),
    "'outdoors'": lambda: Room("outdoors", 6.0),
    "leaves 'quiet' and enters": lambda: AirFlow("quiet", "quiet", 0.1),
    "'attic'": lambda: AirNetwork((Room("quiet", 6.0),), (AirFlow("attic", "quiet", 0.1),)),
    "'quiet', 'quiet'": lambda: AirNetwork((Room("quiet", 6.0), Room("quiet", 6.0))),
    "0.1 m³/s more": lambda: AirNetwork((Room("quiet", 6.0),), (AirFlow("outdoors", "quiet", 0.1),)),
    "[0.1, 0.2]": lambda: steady_fractions(QUIET, [0.1, 0.2]),
    "nan": lambda: steady_fractions(QUIET, [math.nan]),
    "duration of a stage is 0": lambda: Stage(0.0, QUIET, (0.0,)),
    "stages are []": lambda: air_course([]),
    "step is -1": lambda: air_course([Stage(1.0, QUIET, (0.0,))], step=-1.0),
    "'booth'": lambda: air_course([Stage(1.0, QUIET, (0.0,)), Stage(1.0, AirNetwork((Room("booth", 6.0),)), (0.0,))]),
    "'attic'; the course": lambda: AirCourse(("quiet",), (0.0,), ((0.0,),)).of("attic"),
    "limits are [0.0]": lambda: times_to_reach(QUIET, [1e-5], [0.0]),
    "width of the door is 0": lambda: door_exchange(0.0, 2.0, 3.0),
    "opening of the door is 1.5": lambda: door_exchange(0.6, 2.0, 3.0, opening=1.5),
    "60.0 K": lambda: door_exchange(0.6, 2.0, 60.0),
    "exponent of the leak is 2": lambda: crack_flow(0.001, 4.0, exponent=2.0),
    "'E'": lambda: duct_leakage(1.0, 100.0, "E"),
    "hydraulic diameter is 1.0": lambda: DuctSection(0.01, 1.0),
    "height of the duct is -0.1": lambda: rectangular_section(0.2, -0.1),
    "Reynolds number is 0": lambda: darcy_friction_factor(0.0),
    "relative roughness is 0.2": lambda: darcy_friction_factor(1e5, 0.2),
    "length of the duct is -1": lambda: StraightDuct(DUCT, -1.0),
    "compression of the flexible duct is 1.0": lambda: FlexibleDuct(0.125, 1.0, 1.0),
    "free share of the flexible duct is 0": lambda: FlexibleDuct(0.125, 1.0, 0.1, 0.0),
    "bend radius is 0.01": lambda: Bend(DUCT, 0.01),
    "angle of the bend is 4": lambda: Bend(DUCT, 0.2, 4.0),
    "angle of the mitred bend is 3": lambda: MitredBend(DUCT, 3.0),
    "'square'": lambda: Inlet(DUCT, "square"),
    "volume flow rate is -0.1": lambda: Outlet(DUCT).pressure_loss(-0.1),
    "exponent of the flow is 3": lambda: RatedElement(0.05, 20.0, 3.0),
    "soiling is 0.5": lambda: filter_element(0.05, 20.0, 0.5),
    "1 flows and 1": lambda: Fan((0.0,), (100.0,)),
    "[0.0, 0.0]": lambda: Fan((0.0, 0.0), (100.0, 0.0)),
    "must fall": lambda: Fan((0.0, 0.1), (100.0, 120.0)),
    "3 powers": lambda: Fan((0.0, 0.1), (100.0, 0.0), (1.0, 2.0, 3.0)),
    "efficiency of the fan is 1.5": lambda: Fan((0.0, 0.1), (100.0, 0.0), efficiency=1.5),
    "speed of the fan is 0": lambda: FAN.at_speed(0.0),
    "shape exponent of the fan curve is 9": lambda: fan_from_two_numbers(0.07, 160.0, 9.0),
    "fans are []": lambda: operating_point([], RUN),
    "0 elements": lambda: operating_point([FAN], []),
    "in leaves": lambda: Branch("in", "quiet", "quiet", RUN),
    "in has no elements": lambda: Branch("in", "outdoors", "quiet", ()),
    "branches are []": lambda: solve_flows([]),
    "['a', 'a']": lambda: solve_flows([Branch("a", "outdoors", "quiet", RUN)] * 2),
    "no way joins quiet, booth": lambda: solve_flows([Branch("a", "quiet", "booth", RUN)]),
    "branch is 'b'": lambda: solve_flows([Branch("a", "outdoors", "quiet", RUN)]).flow_of("b"),
    "use of the room is 'gym'": lambda: breathing_zone_flow(2, 4.0, "gym"),
    "category is 'V'": lambda: category_flow(2, 4.0, "V"),
    "velocity at the neck is -1": lambda: draught_rating(22.0, -1.0),
    "'swirl'": lambda: jet_velocity(1.0, 0.01, 1.0, jet="swirl"),
    "kind of jet is 'swirl'": lambda: throw(1.0, 0.01, jet="swirl"),
}


@pytest.mark.parametrize("shown", REFUSED)
def test_impossible_input_is_refused_with_its_value(shown):
    with pytest.raises(InvalidInput) as refused:
        REFUSED[shown]()
    assert shown.removeprefix("met ") in str(refused.value)


def test_doubtful_results_say_why():
    assert "pushed together" in FlexibleDuct(0.125, 1.0, 0.4).validity(0.03)[1]
    assert "pinched" in FlexibleDuct(0.2, 1.0, 0.1, 0.5).validity(0.03)[0]
    assert "between laminar and turbulent" in StraightDuct(DUCT, 1.0).validity(0.0045)[0]
    assert StraightDuct(DUCT, 1.0).validity(0.05) == ()
    assert "power law" in filter_element(0.06, 30.0).validity(0.01)[0]
    assert "30 %" in " ".join(system_validity([FlexibleDuct(0.2, 1.0, 0.5)], 0.05))
    assert "studied from 20" in draught_rating(15.0, 0.2).validity[0]
    assert draught_rating(22.0, 0.2).validity == ()
    assert "sinks" in jet_velocity(2.0, 0.01, 1.0, -8.0).validity[0]


def test_a_fan_beyond_its_curve_is_named():
    weak, strong = Fan((0.0, 0.03), (100.0, 0.0), (10.0,)), Fan((0.0, 0.1), (400.0, 0.0), (60.0,))
    point = operating_point([weak, strong], RUN)
    assert point.fan_pressures[0] < 0.0 < point.fan_pressures[1]
    assert any("beyond its curve" in note for note in point.validity)
    assert point.specific_fan_power == pytest.approx(70.0 * 1.0035 / point.volume_flow_rate, rel=1e-3)


def test_a_curve_with_a_dip_takes_the_lowest_flow():
    # the run's straight line of 1300 Pa per m³/s meets the curve on its fall, on its way up again, where nothing is
    # steady, and behind its hump
    dip = Fan((0.0, 0.02, 0.03, 0.045, 0.06), (100.0, 50.0, 30.0, 70.0, 0.0), (10.0,))
    point = operating_point([dip], [RatedElement(0.03, 39.0, 1.0)])
    assert 0.02 < point.volume_flow_rate < 0.03
    assert any("2 steady operating points" in note for note in point.validity)


def test_a_static_curve_gains_the_velocity_pressure_of_its_outlet():
    total, static = Fan((0.0, 0.05), (80.0, 0.0), (10.0,)), Fan((0.0, 0.05), (80.0, 0.0), (10.0,), outlet=DUCT)
    gained = static.pressure(0.04) - total.pressure(0.04)
    assert gained == pytest.approx(DUCT.velocity_pressure(0.04), rel=1e-9)
    assert operating_point([static], RUN).volume_flow_rate > operating_point([total], RUN).volume_flow_rate


def test_rooms_without_outdoor_air_fill_for_ever_or_keep_what_they_have():
    rooms = (Room("control", 4.0), Room("quiet", 6.0))
    joined = AirNetwork(rooms, exchange("control", "quiet", 0.01))
    assert steady_fractions(joined, [1e-5, 0.0]) == (math.inf, math.inf)
    assert steady_fractions(joined, [0.0, 0.0], start=[0.001, 0.002]) == pytest.approx([0.0016, 0.0016])
    aired = AirNetwork(rooms, exchange("control", "outdoors", 0.01))
    assert steady_fractions(aired, [1e-5, 1e-5])[1] == math.inf
    assert times_to_reach(QUIET, [0.0]) == ((math.inf,) * 4,)
    assert times_to_reach(QUIET, [1e-5], [420e-6])[0][0] == 0.0


def test_nobody_gives_off_nothing():
    nothing = breath(())
    assert (nothing.carbon_dioxide, nothing.oxygen, nothing.water_vapour) == (0.0, 0.0, 0.0)


def test_air_stands_still_where_no_fan_moves_it():
    run = (Inlet(DUCT), Outlet(DUCT))
    passive = [Branch("in", "outdoors", "control", run), Branch("out", "control", "outdoors", run)]
    still = solve_flows(passive)
    assert still.volume_flow_rates == (0.0, 0.0)
    assert still.room_pressures == (0.0,)
    beside = solve_flows(
        [
            *passive,
            Branch("supply", "outdoors", "quiet", run, (FAN,)),
            Branch("crack", "quiet", "outdoors", (Crack(0.002),)),
        ]
    )
    assert beside.volume_flow_rates[:2] == (0.0, 0.0)
    assert beside.flow_of("supply") > 0.005
    assert (
        steady_fractions(AirNetwork((Room("control", 4.0), Room("quiet", 6.0)), beside.air_flows), [1e-5, 0.0])[0]
        == math.inf
    )


def test_a_fan_into_a_closed_room_only_raises_its_pressure():
    shut = solve_flows([Branch("supply", "outdoors", "quiet", (Inlet(DUCT),), (FAN,))])
    assert shut.volume_flow_rates[0] == pytest.approx(0.0, abs=1e-12)
    assert shut.room_pressures[0] == pytest.approx(160.0 * 1.0035, rel=1e-3)


def test_two_fans_against_each_other_push_the_weaker_back():
    run = (Inlet(DUCT), Outlet(DUCT))
    strong = fan_from_two_numbers(0.1, 400.0)
    solution = solve_flows(
        [Branch("weak", "outdoors", "quiet", run, (FAN,)), Branch("strong", "outdoors", "quiet", run, (strong,))]
    )
    assert solution.flow_of("weak") < 0.0 < solution.flow_of("strong")
    assert any("backwards" in note for note in solution.validity)
    assert solution.air_flows[0].source == "quiet"
