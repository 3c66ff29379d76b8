"""Power of a build: what is joined is counted once, shore and cold and converter do what they are there for."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from tests.coupled import DEMO, build_of, edited, library
from tests.plain_builds import plain_build
from tests.powered import case_of, followed, judged, power_of
from tests.unit.power_cases import FED, POWER, but

from hushwright.document.read import read_document_text
from hushwright.evaluation.power.case import Weathered
from hushwright.evaluation.power.weather import seasons_of
from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.results.power import EnergyShare, PowerBalance
from hushwright.model.climate_in_place import PlaceOnEarth, YearInPlace
from hushwright.model.resolve import resolve
from hushwright.report.as_json import check_json
from hushwright.report.power import power as power_lines
from hushwright.report.timeline import timeline_csv, timeline_text

DEMO_FOLDER = Path(__file__).parents[2] / "examples"


def balance_of(text: str) -> PowerBalance:
    found = power_of(text).power.balance
    assert found is not None
    return found


def energy(shares: tuple[EnergyShare, ...], name: str) -> float:
    return next(each.energy for each in shares if each.name == name)


def test_gear_of_the_heat_is_counted_once_whatever_loads_are_parts_of_it() -> None:
    """240 W of gear in the control room, split among three loads in the demo, among none or with a rest."""
    named = {name: energy(balance_of(DEMO).loads, name) for name in ("recorder", "computer", "monitors")}
    by_states = sum(phase.duration for phase in case_of(DEMO).power.day if phase.state != "drive")
    assert sum(named.values()) == pytest.approx(240.0 * by_states, rel=1e-9)
    left = edited(DEMO, ("    computer: {side: ac, power: 118 W, of: equipment control_room}\n", ""),
                  ("recorder, computer, monitors", "recorder, monitors"))  # fmt: skip
    rest = energy(balance_of(left).loads, "equipment control_room")
    assert rest == pytest.approx(118.0 * by_states, rel=1e-9)
    assert any("equipment control room" in each.text for each in build_of(left).assumptions)


def test_the_cooler_takes_what_the_heat_says_where_plan_and_session_are_one() -> None:
    """On the hottest day, before the session and in it, to what the five-minute steps round."""
    text = DEMO[: DEMO.index("  day:    ")] + DEMO[DEMO.index("  days: 2") :]
    heat = power_of(text).heat.day("hottest")
    assert heat is not None
    found = followed(replace(case_of(text)))
    assert found.tightest == "hottest day"
    unit = next(each for each in heat.units if each.kind == "cooler")
    assert energy(found.balance.loads, "cooler") == pytest.approx(unit.energy, rel=0.02)


def test_fans_take_what_the_air_says_in_each_state() -> None:
    known = {state.state: state.power for state in power_of(DEMO).air.states}
    expected = sum(known[phase.state] * phase.duration for phase in case_of(DEMO).power.day)
    assert energy(balance_of(DEMO).loads, "fans") == pytest.approx(expected, rel=1e-9)


def test_shore_carries_mains_loads_past_the_converter() -> None:
    plugged = but(("in_states: [standing]", "in_states: [always]"))
    assert energy(balance_of(plugged).losses, "converter") == 0.0
    assert energy(balance_of(FED).losses, "converter") > 0.0
    assert energy(balance_of(plugged).loads, "desk") == pytest.approx(300.0 * 6 * 3600.0, rel=1e-9)


def test_a_socket_too_weak_for_the_loads_leaves_them_on_the_converter() -> None:
    weak = but(("in_states: [standing]", "in_states: [always]"), ("supply: 3.6 kVA", "supply: 300 VA"))
    assert energy(balance_of(weak).losses, "converter") > 0.0


def test_a_generator_is_no_part_of_the_time_off_grid() -> None:
    set_beside = but(("  loads:\n", "    set: {generator: 2 kVA, charger: 30 A, in_states: [record]}\n  loads:\n"),
                     ("power: 300 W, surge: 600 W", "power: 950 W, surge: 950 W"))  # fmt: skip
    without = but(("power: 300 W, surge: 600 W", "power: 950 W, surge: 950 W"))
    assert judged(set_beside)["off-grid-bank"].value == judged(without)["off-grid-bank"].value
    assert judged(set_beside)["unmet-loads"].value == 0.0
    assert "supply-set" in judged(set_beside)


def test_idle_nights_are_no_hours_of_use() -> None:
    """Twice the day's use lies about a night: use counts seven hours a day, the clock counts all."""
    found = power_of(but(("power: 300 W, surge: 600 W", "power: 600 W, surge: 600 W"), ("days: 2", "days: 1"))).power
    ending = [each for each in found.cases if each.off_grid is not None and each.clock is not None]
    assert ending
    for each in ending:
        assert each.off_grid is not None
        assert each.clock is not None
        whole, rest = divmod(each.clock, 86_400.0)
        assert each.off_grid <= each.clock
        assert 7.0 * 3600.0 * whole <= each.off_grid <= 7.0 * 3600.0 * whole + min(rest, 7.0 * 3600.0) + 1e-6


def test_cells_too_cold_are_not_charged() -> None:
    cold = but(("temperature: 15 °C", "temperature: -5 °C"))
    found = power_of(cold).power
    assert all(each.locked == 1.0 for each in found.cases)
    assert energy(balance_of(cold).losses, "charge that does not return") == 0.0
    assert balance_of(cold).change < 0.0


def test_cells_follow_the_air_outdoors_where_no_temperature_is_given() -> None:
    text = edited(FED, ("temperature: 15 °C, ", ""), ("longitude: 8°}", "longitude: 8°, year: {coldest: -3 °C,"
                                                      " warmest: 18 °C}}"))  # fmt: skip
    locked = {each.name: each.locked for each in power_of(text).power.cases}
    assert locked["January"] > 0.5
    assert locked["July"] == 0.0


def test_a_converter_without_loads_takes_its_own_draw_only_when_it_is_on() -> None:
    idle = "power: 300 W, surge: 600 W", "power: 0.1 W, surge: 600 W"
    lost = {
        on: energy(balance_of(but(idle, ("lowest_voltage: 21 V", f"lowest_voltage: 21 V, on: {on}"),
                                  ("in_states: [standing]", "in_states: [drive]"))).losses, "converter")
        for on in ("in use", "always", "with loads")
    }  # fmt: skip
    # 10 W over 24 h less the hour on shore; over the six of record, the only other state of the plan.
    assert lost["always"] / 3600.0 == pytest.approx(230.0, rel=1e-3)
    assert lost["in use"] / 3600.0 == pytest.approx(60.0, rel=1e-2)
    assert lost["with loads"] / 3600.0 == pytest.approx(60.0, rel=1e-2)


def test_mains_loads_without_a_converter_go_without() -> None:
    text = FED[: FED.index("  converter: {")] + FED[FED.index("  sources:\n") :]
    _, problems = resolve(_read(text), library())
    assert [each.reference for each in problems] == ["converter-needed"]
    document = power_of(text)
    assert document.power.rating_current is None
    assert judged(text)["unmet-loads"].verdict == "fails"
    assert judged(text)["converter-load"].verdict == "not_applicable"


def _read(text: str):  # type: ignore[no-untyped-def]
    document, problems = read_document_text(text, "build.yaml")
    assert not problems, problems
    return document


def test_power_without_a_bank_is_not_judged() -> None:
    text = plain_build("", "power:\n  loads: {lamps: {power: 40 W}}\n")
    assert {each.verdict for each in judged(text).values()} == {"not_applicable"}
    assert power_lines(power_of(text), "metric") == []


def test_a_day_without_plan_and_session_is_assumed() -> None:
    text = plain_build("", POWER[: POWER.index("  day:")].replace("panels: {", "panels: {in_states: [drive], ")
                       + "climate: {latitude: 48°, longitude: 8°}\n")  # fmt: skip
    assert [each.state for each in case_of(text).power.day] == ["record"]
    assert any(each.path == "power.day" and "eight hours" in each.text for each in build_of(text).assumptions)


def test_months_lie_the_other_way_round_in_the_south() -> None:
    year = YearInPlace(5.0, 20.0, 0.8, 0.7, 0.2)
    north, south = (seasons_of(Weathered(PlaceOnEarth(side * 0.8, 0.0, 0.0, 0.0, 0.2), 2.0, (), year), 15.0)
                    for side in (1.0, -1.0))  # fmt: skip
    assert north[0].mean == pytest.approx(south[6].mean) == pytest.approx(5.0)


def test_panels_leaning_to_noon_bring_more_in_winter() -> None:
    flat, leaning = (power_of(text).power.case("December") for text in
                     (FED, but(("area: 2 m2", "area: 2 m2, tilt: 60°, towards: 180°"))))  # fmt: skip
    assert flat is not None
    assert leaning is not None
    assert leaning.solar > 1.3 * flat.solar


def test_months_in_which_the_van_is_not_used_decide_nothing() -> None:
    wanting = ("power: 300 W, surge: 600 W", "power: 700 W, surge: 700 W")
    all_year = judged(but(wanting))["off-grid-bank"]
    summer = judged(but(wanting, ("reserve: 10 %}", "reserve: 10 %, months: [June, July]}")))["off-grid-bank"]
    assert summer.value is not None
    assert all_year.value is not None
    assert summer.value > all_year.value


def test_the_first_draft_asks_three_kilovoltamperes_of_a_small_bank() -> None:
    text = (DEMO_FOLDER / "archive-van-first-draft.yaml").read_text(encoding="utf-8")
    found = judged(text)["bank-at-rating-converter"]
    assert found.verdict == "fails"
    assert found.value is not None
    assert found.value > 250.0


@pytest.mark.parametrize("key", ["off-grid-bank", "unmet-loads", "bank-at-rating-converter", "charging-bank"])
def test_every_verdict_names_place_basis_hint_and_caution(key: str) -> None:
    found = judged(FED)[key]
    assert found.place.startswith("power.")
    assert found.basis
    assert found.caution
    assert found.hint


def test_timeline_shows_charge_and_every_source() -> None:
    text = timeline_text(_timed(DEMO), "metric")
    assert "charge, hottest day" in text
    head = timeline_csv(_timed(DEMO), "metric").splitlines()[0]
    for name in ("shore", "engine", "panels", "taken"):
        assert f"the van {name} [W]" in head
    assert "`power`" in timeline_text(_timed(plain_build()), "metric")


def _timed(text: str) -> Evaluation:
    return power_of(text)


def test_json_and_text_carry_power_under_its_own_name() -> None:
    node = json.loads(check_json(power_of(FED), [], [], [], "us"))["power"]
    assert {each["case"] for each in node["cases"]} >= {"January", "December"}
    assert len(node["day"]["times_s"]) == len(node["day"]["charge_percent"]) == 96
    lines = "\n".join(power_lines(power_of(FED), "metric"))
    assert "converter" in lines
    assert "July" in lines


def test_the_rest_of_a_file_without_power_stays_as_it_was() -> None:
    assert power_of(plain_build()).power.cases == ()
