"""Laws of the air that hold for all inputs: balances, symmetry, monotony, independence of the step."""

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.linalg import expm

from hushwright.physics.air import Air
from hushwright.physics.airflow._exponential import matrix_exponential
from hushwright.physics.airflow.air_course import Stage, air_course, gas_balance, times_to_reach
from hushwright.physics.airflow.breathing import Person, breath, carbon_dioxide_generation, moisture_generation
from hushwright.physics.airflow.door_flow import Crack, crack_flow, door_exchange
from hushwright.physics.airflow.draught import draught_rating
from hushwright.physics.airflow.ducts import BaffleBox, FlexibleDuct, StraightDuct
from hushwright.physics.airflow.element import RatedElement, system_pressure_loss
from hushwright.physics.airflow.fans import Fan, fan_from_two_numbers, operating_point
from hushwright.physics.airflow.fittings import AreaChange, Bend, Grille, Inlet, MitredBend, Outlet
from hushwright.physics.airflow.flow_network import Branch, solve_flows
from hushwright.physics.airflow.friction import rectangular_section, round_section
from hushwright.physics.airflow.psychrometrics import (
    dew_point_temperature,
    humidity_ratio_at,
    relative_humidity,
    saturation_vapour_pressure,
    vapour_pressure_of,
)
from hushwright.physics.airflow.room_air import AirFlow, AirNetwork, Room, exchange, steady_fractions, with_leakage

FEW = settings(max_examples=40, deadline=None)
flows = st.floats(0.0, 0.1)
open_flows = st.floats(0.001, 0.1)
volumes = st.floats(1.0, 20.0)
sources = st.floats(0.0, 1e-4)
fractions = st.floats(0.0, 0.05)


@st.composite
def networks(draw):
    """Three rooms, air brought into some, led on and let out, doors ajar."""
    rooms = tuple(Room(name, draw(volumes)) for name in ("control", "quiet", "lobby"))
    led = (
        AirFlow("outdoors", "control", draw(flows)),
        AirFlow("control", "quiet", draw(flows)),
        AirFlow("quiet", "lobby", draw(flows)),
    )
    doors = (*exchange("control", "quiet", draw(flows)), *exchange("quiet", "lobby", draw(flows)))
    return with_leakage(rooms, (*led, *doors))


three = st.tuples(sources, sources, sources)


@FEW
@given(networks(), networks(), three, three, st.tuples(fractions, fractions, fractions), st.floats(60.0, 20_000.0))
def test_gas_is_neither_made_nor_lost(first, second, early, late, start, duration):
    second = AirNetwork(first.rooms, second.flows)
    balance = gas_balance([Stage(duration, first, early), Stage(2.0 * duration, second, late)], start)
    size = balance.produced + balance.brought_in + balance.carried_away + abs(balance.stored) + 1e-9
    assert abs(balance.produced + balance.brought_in - balance.carried_away - balance.stored) < 1e-8 * size


@FEW
@given(networks(), three, st.tuples(fractions, fractions, fractions), st.floats(60.0, 20_000.0))
def test_halving_the_step_changes_nothing(network, gains, start, duration):
    stages = [Stage(duration, network, gains)]
    whole = air_course(stages, start, step=duration)
    halves = air_course(stages, start, step=duration / 2.0)
    many = air_course(stages, start, step=duration / 64.0)
    assert halves.fractions[-1] == pytest.approx(whole.fractions[-1], rel=1e-9, abs=1e-12)
    assert many.fractions[-1] == pytest.approx(whole.fractions[-1], rel=1e-9, abs=1e-12)


@FEW
@given(networks(), three)
def test_the_course_ends_where_the_steady_state_is(network, gains):
    settled = steady_fractions(network, gains)
    assume(all(math.isfinite(each) for each in settled))
    assume(all(flow.volume_flow_rate == 0.0 or flow.volume_flow_rate > 1e-3 for flow in network.flows))
    assume(max(settled) < 1.0)
    ended = air_course([Stage(1e7, network, gains)], settled, step=1e7).fractions[-1]
    assert ended == pytest.approx(settled, rel=1e-6)


@FEW
@given(volumes, volumes, st.floats(0.001, 0.1), st.floats(0.001, 0.1), sources)
def test_coupling_is_symmetric(first, second, door, fresh, gain):
    def rises(where: int) -> tuple[float, ...]:
        rooms = (Room("a", first), Room("b", second))
        network = AirNetwork(
            rooms,
            (*exchange("a", "b", door), *exchange("a", "outdoors", fresh), *exchange("b", "outdoors", fresh)),
        )
        return steady_fractions(network, [gain, 0.0] if where == 0 else [0.0, gain], 0.0)

    assert rises(0)[1] == pytest.approx(rises(1)[0], rel=1e-9)


@FEW
@given(volumes, open_flows, open_flows, sources, st.floats(60.0, 10_000.0))
def test_more_air_never_means_more_carbon_dioxide(volume, less, extra, gain, duration):
    def ended(flow: float) -> float:
        network = AirNetwork((Room("quiet", volume),), exchange("quiet", "outdoors", flow))
        return air_course([Stage(duration, network, (gain,))]).of("quiet")[-1]

    assert ended(less + extra) <= ended(less) * (1.0 + 1e-12)


@FEW
@given(networks(), three)
def test_a_limit_is_met_when_the_course_says_so(network, gains):
    times = times_to_reach(network, gains, [800e-6, 2000e-6])
    for room, row in zip(network.names, times, strict=True):
        for limit, time in zip((800e-6, 2000e-6), row, strict=True):
            if 0.0 < time < 1e8:
                reached = air_course([Stage(time, network, gains)], step=time).of(room)[-1]
                assert reached == pytest.approx(limit, rel=1e-6)


@FEW
@given(volumes, open_flows, st.floats(1e-6, 1e-4))
def test_a_room_without_air_is_stale_first(volume, flow, gain):
    sealed = times_to_reach(AirNetwork((Room("quiet", volume),)), [gain])[0]
    aired = times_to_reach(AirNetwork((Room("quiet", volume),), exchange("quiet", "outdoors", flow)), [gain])[0]
    assert all(first <= later * (1.0 + 1e-9) for first, later in zip(sealed, aired, strict=True))


@given(st.floats(0.8, 8.0), st.floats(0.0, 100.0), st.sampled_from(["male", "female", "unspecified"]))
def test_who_works_harder_gives_off_more(met, age, sex):
    rest, work = Person(met, sex, age), Person(1.1 * met, sex, age)
    assert carbon_dioxide_generation(work) > carbon_dioxide_generation(rest)
    assert moisture_generation(work) > moisture_generation(rest)
    assert breath((rest, work)).oxygen > breath((work,)).oxygen


@given(st.floats(-40.0, 60.0), st.floats(0.01, 1.0))
def test_moist_air_round_trips(temperature, humidity):
    ratio = humidity_ratio_at(temperature, humidity)
    assert relative_humidity(ratio, temperature) == pytest.approx(humidity, rel=1e-9)
    dew = dew_point_temperature(vapour_pressure_of(ratio))
    # water and ice meet at 0.01 °C with a step of 0.01 % in the published polynomials
    assert dew <= temperature + 0.01
    assert saturation_vapour_pressure(dew) == pytest.approx(
        humidity * saturation_vapour_pressure(temperature), rel=2e-4
    )


ROUND, FLAT = round_section(0.125), rectangular_section(0.3, 0.08)
ELEMENTS = (
    StraightDuct(ROUND, 2.0),
    FlexibleDuct(0.125, 1.0),
    FlexibleDuct(0.125, 1.0, 0.3, 0.6),
    BaffleBox(ROUND, FLAT, ROUND, 6, 2.0),
    Bend(ROUND, 0.15),
    MitredBend(ROUND, math.radians(60.0)),
    AreaChange(ROUND, round_section(0.16)),
    AreaChange(round_section(0.16), ROUND, 0.1),
    Inlet(ROUND),
    Outlet(ROUND),
    Grille(FLAT),
    RatedElement(0.05, 30.0, 1.3),
    Crack(0.002),
)


@pytest.mark.parametrize("element", ELEMENTS, ids=lambda element: type(element).__name__)
@given(flow=st.floats(1e-5, 0.15), more=st.floats(1.01, 2.0))
@settings(max_examples=25, deadline=None)
def test_more_flow_always_costs_more(element, flow, more):
    assert 0.0 < element.pressure_loss(flow) < element.pressure_loss(more * flow)
    assert element.pressure_loss(0.0) == 0.0


@given(st.floats(1e-4, 0.01), st.floats(0.1, 200.0), st.floats(0.5, 1.0))
def test_a_crack_is_the_same_both_ways_round(area, pressure, exponent):
    flow = crack_flow(area, pressure, exponent=exponent)
    assert Crack(area, exponent).pressure_loss(flow) == pytest.approx(pressure, rel=1e-9)


fans = st.builds(fan_from_two_numbers, st.floats(0.02, 0.2), st.floats(30.0, 500.0), st.floats(1.0, 2.5))


@FEW
@given(fans, fans, st.floats(10.0, 500.0))
def test_fans_and_run_agree_at_the_operating_point(first, second, loss):
    run = [RatedElement(0.05, loss), StraightDuct(ROUND, 1.0)]
    point = operating_point([first, second], run)
    assert sum(point.fan_pressures) == pytest.approx(point.pressure_loss, rel=1e-6)
    assert point.pressure_loss == system_pressure_loss(run, point.volume_flow_rate)
    assert 0.0 < point.volume_flow_rate < max(first.free_flow, second.free_flow)
    choked = operating_point([first, second], [*run, RatedElement(0.05, 20.0)])
    assert choked.volume_flow_rate < point.volume_flow_rate


@FEW
@given(fans, fans, st.lists(st.floats(5.0, 200.0), min_size=4, max_size=4))
def test_rooms_give_as_much_air_as_they_get(supply, extract, losses):
    into, through, out, own = (RatedElement(0.05, loss) for loss in losses)
    branches = [
        Branch("in", "outdoors", "control", (into,), (supply,)),
        Branch("through", "control", "quiet", (through,)),
        Branch("out", "quiet", "outdoors", (out,), (extract,)),
        Branch("own", "control", "outdoors", (own,)),
    ]
    solution = solve_flows(branches)
    assert solution.flow_of("in") == pytest.approx(solution.flow_of("through") + solution.flow_of("own"), abs=1e-8)
    assert solution.flow_of("through") == pytest.approx(solution.flow_of("out"), abs=1e-8)
    AirNetwork((Room("control", 4.0), Room("quiet", 6.0)), solution.air_flows)
    shuffled = solve_flows(branches[::-1])
    assert shuffled.flow_of("out") == pytest.approx(solution.flow_of("out"), abs=1e-7)


@given(st.floats(0.5, 40.0), st.floats(1.0, 2.0))
def test_a_warmer_room_and_a_taller_door_exchange_more(difference, taller):
    base = door_exchange(0.6, 1.0, difference / 2.0).volume_flow_rate
    assert door_exchange(0.6, 1.0, difference).volume_flow_rate > base
    assert door_exchange(0.6, taller, difference / 2.0).volume_flow_rate >= base
    assert door_exchange(0.6, 1.0, -difference / 2.0).volume_flow_rate == base


@given(st.floats(18.0, 30.0), st.floats(0.06, 0.5), st.floats(0.1, 0.6))
def test_faster_colder_and_gustier_air_draws_more(temperature, velocity, turbulence):
    base = draught_rating(temperature, velocity, turbulence).draught_rating
    assert base <= draught_rating(temperature, 1.2 * velocity, turbulence).draught_rating
    assert base <= draught_rating(temperature - 1.0, velocity, turbulence).draught_rating
    assert base <= draught_rating(temperature, velocity, turbulence + 0.1).draught_rating


@given(st.floats(-20.0, 40.0))
def test_thin_air_weakens_fan_and_run_alike(temperature):
    # all of the run turbulent: pressure follows the density on both sides, so the flow stays
    fan, run = fan_from_two_numbers(0.07, 160.0), [Outlet(ROUND), Inlet(ROUND)]
    assert operating_point([fan], run, Air(temperature=temperature)).volume_flow_rate == pytest.approx(
        operating_point([fan], run).volume_flow_rate, rel=1e-9
    )


def test_a_curve_through_points_does_not_overshoot():
    fan = Fan((0.0, 0.02, 0.04, 0.05, 0.07), (160.0, 120.0, 118.0, 60.0, 0.0), (20.0,))
    levels = [fan.pressure(0.0007 * number) for number in range(101)]
    assert all(before >= after - 1e-9 for before, after in zip(levels, levels[1:], strict=False))


@given(st.lists(st.floats(-3.0, 3.0), min_size=9, max_size=9), st.floats(0.0, 300.0))
def test_the_exponential_of_a_matrix_is_that_of_another_library(values, scale):
    """Rates of an air network: nothing grows, so the exact answer stays below the norm of the start."""
    matrix = np.asarray(values).reshape(3, 3)
    matrix -= np.diag(np.sum(np.abs(matrix), axis=1) + 0.1)
    matrix *= scale / 100.0
    assert matrix_exponential(matrix) == pytest.approx(expm(matrix), abs=1e-10)
