"""Laws of heat in a whole build: the sun, colour, wool, people, heater and cooler act the way they must."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.coupled import DEMO, core_of, edited, value_of

from hushwright.evaluation.results.heat import HeatDay

FEW = settings(max_examples=5, deadline=None)
WARMEST = "warmest/quiet_room/record"
COLDEST = "coldest/quiet_room/record"
NO_COOLER = edited(DEMO, ("silent_in_takes: no", "silent_in_takes: yes"))


def day_of(text: str, name: str = "hottest") -> HeatDay:
    found = core_of(text).heat.day(name)
    assert found is not None
    return found


@FEW
@given(st.integers(10, 60), st.integers(5, 35))
def test_a_darker_van_is_never_cooler(colour: int, more: int) -> None:
    light, dark = (edited(NO_COOLER, ("colour: 30 %", f"colour: {each} %")) for each in (colour, colour + more))
    assert value_of(dark, WARMEST) >= value_of(light, WARMEST) - 1e-6


def test_the_sun_warms_and_clouds_keep_it_off() -> None:
    clear, overcast, none = (
        value_of(edited(NO_COOLER, ("sky: clear", f"sky: {sky}")), WARMEST) for sky in ("clear", "overcast", "no sun")
    )
    assert clear > overcast > none


def test_a_whole_turn_of_the_van_changes_nothing() -> None:
    turned = edited(DEMO, ("heading: 315°", "heading: -45°"))
    assert value_of(turned, WARMEST) == pytest.approx(value_of(DEMO, WARMEST), abs=1e-6)


@FEW
@given(st.integers(400, 1500), st.integers(100, 2000))
def test_a_stronger_cooler_never_leaves_a_room_warmer(capacity: int, more: int) -> None:
    weak, strong = (
        edited(DEMO, ("capacity: 1.6 kW, power_draw: 520 W", f"capacity: {each} W, power_draw: {each / 3.0:.3f} W"))
        for each in (capacity, capacity + more)
    )
    room = "warmest/control_room/record"
    assert value_of(strong, room) <= value_of(weak, room) + 0.05


@FEW
@given(st.integers(100, 800), st.integers(50, 800))
def test_a_stronger_heater_never_leaves_a_room_colder(power: int, more: int) -> None:
    weak, strong = (edited(DEMO, ("power: 0.8 kW", f"power: {each} W")) for each in (power, power + more))
    assert value_of(strong, COLDEST) >= value_of(weak, COLDEST) - 0.05


def test_thicker_wool_lets_less_heat_through() -> None:
    thin = {each.name: each.transmittance for each in core_of(DEMO).heat.faces}
    thick = {each.name: each.transmittance
             for each in core_of(edited(DEMO, ("{cavity: 93,", "{cavity: 113,"))).heat.faces}  # fmt: skip
    assert thick["quiet_room.left"] < thin["quiet_room.left"]


def test_ribs_lie_between_the_limits_and_count_as_bridges() -> None:
    for face in core_of(DEMO).heat.faces:
        assert face.least <= face.transmittance <= face.most
    ribless = {each.name: each.transmittance
               for each in core_of(edited(DEMO, ("ribs: {depth: 55,", "ribs: {depth: 0,"))).heat.faces}  # fmt: skip
    ribbed = {each.name: each.transmittance for each in core_of(DEMO).heat.faces}
    assert ribbed["quiet_room.left"] > ribless["quiet_room.left"]


def test_a_cooler_that_stands_still_takes_nothing() -> None:
    silent = edited(
        NO_COOLER, ("runs_in: [record, pause]}]", "runs_in: [drive]}]"), ("warm_up: 60 min", "warm_up: 0 min")
    )
    duty = next(each for each in day_of(silent).units if each.kind == "cooler")
    assert (duty.heat, duty.energy, duty.condensate) == (0.0, 0.0, 0.0)


def test_energy_taken_is_that_of_the_units() -> None:
    for name in ("hottest", "coldest"):
        day = day_of(DEMO, name)
        assert day.energy == pytest.approx(sum(each.energy for each in day.units), rel=1e-9)


def test_a_parked_day_repeats() -> None:
    day = day_of(DEMO)
    assert day.temperature[0] == pytest.approx(day.temperature[-1], abs=0.06)


def test_people_behind_a_silent_cooler_have_less_time_the_more_they_are() -> None:
    fuller = edited(
        DEMO, ("{room: quiet_room, number: 3, activity: singing}", "{room: quiet_room, number: 6, activity: singing}")
    )
    key = "without-cooler/quiet_room/record"
    assert value_of(fuller, key) < value_of(DEMO, key)


def test_a_shorter_use_of_a_damp_room_gathers_no_more_water() -> None:
    cold = (("coldest: 1 °C, warmest: 17.5 °C", "coldest: -15 °C, warmest: 0 °C"),
            ("highest: 8 °C, lowest: 4 °C", "highest: -15 °C, lowest: -20 °C"))  # fmt: skip
    often, seldom = (edited(DEMO, *cold, ("in_use: 15 %", f"in_use: {share} %")) for share in (100, 30))
    key = "wall-water/quiet_room"
    assert value_of(often, key) > 0.0
    assert value_of(seldom, key) <= value_of(often, key)
