"""Coupled rooms against closed forms, published examples and the table of sealed rooms."""

import csv
import math
import tomllib
from pathlib import Path

import pytest

from hushwright.physics.airflow.air_course import Stage, air_course, times_to_reach
from hushwright.physics.airflow.breathing import Person, breath
from hushwright.physics.airflow.door_flow import crack_flow, door_exchange, duct_leakage
from hushwright.physics.airflow.outdoor_air import breathing_zone_flow, category_flow
from hushwright.physics.airflow.psychrometrics import humidity_ratio_at, relative_humidity
from hushwright.physics.airflow.room_air import (
    AirFlow,
    AirNetwork,
    Room,
    exchange,
    moisture_source,
    steady_fractions,
    with_leakage,
)

TABLES = Path(__file__).parent / "tables"
EXAMPLES = {
    each["id"]: each for each in tomllib.loads((TABLES / "worked_examples.toml").read_text(encoding="utf-8"))["example"]
}
with (TABLES / "09_sealed_room_time_to_limits.csv").open(encoding="utf-8", newline="") as file:
    SEALED = list(csv.DictReader(file))


def ventilated(volume: float, flow: float) -> AirNetwork:
    return AirNetwork((Room("quiet", volume),), exchange("quiet", "outdoors", flow))


@pytest.mark.parametrize(
    "row", SEALED, ids=lambda row: f"{row['net_volume_m3']} m³, {row['persons']} x {row['G_Ls_person']}"
)
def test_sealed_room_reaches_its_limits(row):
    # derived table, V (C − C0)/(N G), printed to 0.1 min
    source = float(row["persons"]) * float(row["G_Ls_person"]) / 1000.0
    limits = (1500, 5000, 30_000, 40_000)
    network = AirNetwork((Room("quiet", float(row["net_volume_m3"])),))
    outdoor = float(row["C0_ppm"]) * 1e-6
    times = times_to_reach(network, [source], [each * 1e-6 for each in limits], outdoor=outdoor)[0]
    printed = [float(row[f"t_{each}ppm_min"]) for each in limits]
    assert [time / 60.0 for time in times] == pytest.approx(printed, abs=0.051)


@pytest.mark.parametrize(
    "row", SEALED, ids=lambda row: f"{row['net_volume_m3']} m³, {row['persons']} x {row['G_Ls_person']}"
)
def test_sealed_room_uses_up_its_oxygen(row):
    # same table, last column: oxygen when carbon dioxide is at 3 %, respiratory quotient 0.85, from 20.9 %
    made = 0.03 - float(row["C0_ppm"]) * 1e-6
    assert 100.0 * (0.209 - made / 0.85) == pytest.approx(float(row["O2_pct_at_3pct_CO2"]), abs=0.006)
    source = float(row["persons"]) * float(row["G_Ls_person"]) / 1000.0
    network = AirNetwork((Room("quiet", float(row["net_volume_m3"])),))
    duration = times_to_reach(network, [source], [0.03], outdoor=420e-6)[0][0]
    left = air_course([Stage(duration, network, (-source / 0.85,))], outdoor=0.209).of("quiet")[-1]
    assert 100.0 * left == pytest.approx(float(row["O2_pct_at_3pct_CO2"]), abs=0.006)


def test_cinema_after_an_hour():
    # worked example co04: 5 m³/h in 500 m³ at one air change, inlet and start at zero; printed rounded to 0.006
    inputs, outputs = EXAMPLES["co04"]["inputs"], EXAMPLES["co04"]["outputs"]
    network = ventilated(inputs["V"], inputs["n"] * inputs["V"] / 3600.0)
    stage = Stage(3600.0 * inputs["t"], network, (inputs["q_m3h"] / 3600.0,))
    assert air_course([stage], outdoor=0.0).of("quiet")[-1] == pytest.approx(outputs["c_exact"], abs=1e-6)


def test_one_person_in_a_large_sealed_room():
    # worked example co06: 12 ft³ a day in 4800 ft³ to 3 %, 12 days (any unit of volume)
    inputs = EXAMPLES["co06"]["inputs"]
    network = AirNetwork((Room("quiet", inputs["V_ft3"]),))
    time = times_to_reach(network, [inputs["G_ft3_day"] / 86_400.0], [inputs["limit"]], outdoor=0.0)[0][0]
    assert time / 86_400.0 == pytest.approx(EXAMPLES["co06"]["outputs"]["days"], rel=1e-9)


def test_two_people_with_the_fan_stopped():
    # worked example co07
    inputs, outputs = EXAMPLES["co07"]["inputs"], EXAMPLES["co07"]["outputs"]
    network = AirNetwork((Room("quiet", inputs["V"]),))
    source = inputs["persons"] * inputs["G_Ls"] / 1000.0
    times = times_to_reach(network, [source], [1500e-6, 5000e-6, 30_000e-6], outdoor=inputs["C0"] * 1e-6)[0]
    assert [time / 60.0 for time in times] == pytest.approx(list(outputs.values()), abs=0.1)


def test_air_clears_after_people_leave():
    # worked example co09: 2000 to 800 ppm at 3 air changes an hour
    inputs = EXAMPLES["co09"]["inputs"]
    network = ventilated(6.0, inputs["ach"] * 6.0 / 3600.0)
    limit, start, outdoor = (inputs[name] * 1e-6 for name in ("C2", "C1", "Co"))
    time = times_to_reach(network, [0.0], [limit], [start], outdoor)[0][0]
    assert time / 60.0 == pytest.approx(EXAMPLES["co09"]["outputs"]["minutes"], abs=0.05)
    assert time == pytest.approx(math.log((start - outdoor) / (limit - outdoor)) * 3600.0 / 3.0, rel=1e-9)


def test_steady_rise_over_outdoors_of_the_european_standard():
    # EN 16798-1, category I and III (memory): 10 and 4 l/s a person with 20 l/h are 550 and 1350 ppm over outdoors
    for flow, printed in ((0.010, 550.0), (0.004, 1350.0)):
        over = steady_fractions(ventilated(6.0, flow), [20e-3 / 3600.0], 0.0)[0] * 1e6
        assert over == pytest.approx(printed, rel=0.03)
    # prEN 13779 (ve14): 22 m³/h → about 1000, 54 m³/h → about 400 ppm over outdoors
    for flow, printed in ((22.0, 1000.0), (54.0, 400.0)):
        over = steady_fractions(ventilated(6.0, flow / 3600.0), [20e-3 / 3600.0], 0.0)[0] * 1e6
        assert over == pytest.approx(printed, rel=0.10)


def test_two_rooms_in_series_by_hand():
    # by hand: 60 l/s through the control room, 33 of it on through the quiet room
    rooms = (Room("control", 4.5), Room("quiet", 6.0))
    flows = (AirFlow("outdoors", "control", 0.060), AirFlow("control", "quiet", 0.033))
    control, quiet = steady_fractions(with_leakage(rooms, flows), [1.0e-5, 3.0e-5], 420e-6)
    assert control * 1e6 == pytest.approx(420.0 + 10.0 / 0.060, abs=0.01)
    assert quiet * 1e6 == pytest.approx(control * 1e6 + 30.0 / 0.033, abs=0.01)


def test_a_general_solver_agrees():
    # second opinion: the same equations stepped by an adaptive Runge-Kutta method
    from scipy.integrate import solve_ivp

    rooms = (Room("control", 4.5), Room("quiet", 6.0))
    flows = (
        AirFlow("outdoors", "control", 0.020),
        AirFlow("control", "quiet", 0.012),
        *exchange("control", "quiet", 0.03),
    )
    network, gains = with_leakage(rooms, flows), (1.0e-5, 3.0e-5)

    def rate(_time, state):
        change = [gains[0], gains[1]]
        for flow in network.flows:
            upstream = 420e-6 if flow.source == "outdoors" else state[network.names.index(flow.source)]
            carried = flow.volume_flow_rate * upstream
            for name, sign in ((flow.source, -1.0), (flow.target, 1.0)):
                if name != "outdoors":
                    change[network.names.index(name)] += sign * carried
        return [change[0] / 4.5, change[1] / 6.0]

    other = solve_ivp(rate, (0.0, 1800.0), [420e-6, 900e-6], rtol=1e-9, atol=1e-13).y[:, -1]
    ours = air_course([Stage(1800.0, network, gains)], (420e-6, 900e-6)).fractions[-1]
    assert ours == pytest.approx(other, rel=1e-6)


def test_moisture_that_outdoor_air_removes():
    # IEA handbook (mo02): 30 m³/h takes 110 to 210 g/h from a room of 20 °C and 60 %, outdoors 0 to 10 °C and 70 %
    for outside, printed in ((0.0, 210.0), (10.0, 110.0)):
        outdoor = humidity_ratio_at(outside, 0.7)
        source = moisture_source(printed / 3.6e6, 1.2)
        settled = steady_fractions(ventilated(6.0, 30.0 / 3600.0), [source], outdoor)[0]
        assert relative_humidity(settled, 20.0) == pytest.approx(0.60, abs=0.05)


def test_the_demo_by_hand():
    # demo scenario by hand ("rough"): three singers at 2.0 met and a collector at 1.3; 5000 ppm after about 14 min
    people = (Person(2.0), Person(2.0), Person(2.0), Person(1.3))
    source = breath(people).carbon_dioxide
    time = times_to_reach(AirNetwork((Room("quiet", 6.2),)), [source], [5000e-6])[0][0]
    assert time / 60.0 == pytest.approx(14.0, rel=0.30)


def test_door_exchange_by_hand():
    # Kiel and Wilson 1989 (memory), by hand: (0.409/3) · 0.62 · 1.62 · sqrt(9.80665 · 1.62 · 2/293.15)
    by_hand = 0.409 / 3.0 * 0.62 * 1.62 * math.sqrt(9.80665 * 1.62 * 2.0 / 293.15)
    assert door_exchange(0.62, 1.62, 2.0).volume_flow_rate == pytest.approx(by_hand, rel=1e-12)
    assert door_exchange(0.62, 1.62, 0.2).validity


def test_leaks_by_hand():
    # an orifice of 10 cm² at 4 Pa: 0.6 · 0.001 · sqrt(8/1.204); EN 12237 class A at 100 Pa: 0.54 l/(s m²) (memory)
    assert crack_flow(0.001, 4.0) == pytest.approx(0.6e-3 * math.sqrt(8.0 / 1.2041), rel=1e-3)
    assert duct_leakage(1.0, 100.0, "A") * 1000.0 == pytest.approx(0.54, abs=0.005)


with (TABLES / "04_ventilation_rates_co2_limits_moisture.csv").open(encoding="utf-8", newline="") as file:
    RATES = {row["id"]: row for row in csv.DictReader(file)}


def test_outdoor_air_of_the_american_standard():
    # ASHRAE 62.1, table 6-1 (ve01, ve04 to ve07) and worked example co10
    inputs, outputs = EXAMPLES["co10"]["inputs"], EXAMPLES["co10"]["outputs"]
    flow = breathing_zone_flow(inputs["persons"], inputs["area_m2"])
    assert flow * 1000.0 == pytest.approx(outputs["Vbz_Ls"], abs=0.05)
    assert flow * 3600.0 == pytest.approx(outputs["m3h"], abs=0.05)
    for row, use in (
        ("ve01", "music"),
        ("ve04", "lecture"),
        ("ve05", "office"),
        ("ve06", "meeting"),
        ("ve07", "studio"),
    ):
        assert breathing_zone_flow(1, 0.0, use) * 1000.0 == pytest.approx(float(RATES[row]["value"]))
    # combined rates printed there, at the printed density of people
    for use, density, combined in (("music", 35, 5.9), ("office", 5, 8.5), ("meeting", 50, 3.1), ("studio", 70, 5.4)):
        assert breathing_zone_flow(density, 100.0, use) * 1000.0 / density == pytest.approx(combined, abs=0.06)


def test_outdoor_air_of_the_european_standard():
    # EN 16798-1, annex B (memory; ve10 and ve11)
    for column, people, area in (("ve10", 1, 0.0), ("ve11", 0, 1.0)):
        printed = [float(each) for each in RATES[column]["value"].split(" / ")]
        least = 4.0 if people else 0.0
        got = [category_flow(people, area, category) * 1000.0 for category in ("I", "II", "III", "IV")]
        assert got == pytest.approx([max(each, least) for each in printed])
