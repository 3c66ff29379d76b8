"""Laws of the air of a whole build: more air is never worse, doors help, crushed ducts and people do not."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.coupled import DEMO, STILL, core_of, edited, value_of

from hushwright.document.schema.air_wishes import ACTIVITIES as SPOKEN
from hushwright.document.schema.duct_elements import FAN_KINDS, WALLS
from hushwright.physics.acoustics.duct_fan import specific_sound_power
from hushwright.physics.airflow.activities import ACTIVITIES
from hushwright.physics.airflow.ducts import ROUGHNESS

FEW = settings(max_examples=6, deadline=None)
STEADY = "co2-steady/quiet_room/record"
WITHOUT = "without-fan/quiet_room/record"
SHUT_OFF = "          shut_off: 160 Pa\n"
BOX = "{baffle_box: 900, width: 350, height: 300, lining: 40,"
PACKED = "people: {quiet_room: 4, control_room: 2}"


def test_words_of_the_file_are_those_of_the_laws() -> None:
    assert tuple(SPOKEN) == tuple(each.name for each in ACTIVITIES)
    assert set(WALLS) <= set(ROUGHNESS)
    assert all(len(specific_sound_power(kind)) == 8 for kind in FAN_KINDS)  # type: ignore[arg-type]


@FEW
@given(st.floats(80.0, 400.0), st.floats(1.05, 2.0))
def test_a_stronger_fan_never_makes_the_air_worse(pressure: float, stronger: float) -> None:
    weak, strong = (edited(DEMO, (SHUT_OFF, f"          shut_off: {each:.3f} Pa\n"))
                    for each in (pressure, pressure * stronger))  # fmt: skip
    assert value_of(strong, STEADY) <= value_of(weak, STEADY) * (1.0 + 1e-9)


@FEW
@given(st.integers(60, 100), st.integers(1, 20))
def test_pushing_a_flexible_duct_together_takes_air(stretched: int, more: int) -> None:
    pulled = edited(DEMO, ("{flexible: 400, diameter: 125, stretched: 90 %}",
                           f"{{flexible: 4000, diameter: 125, stretched: {stretched} %}}"))  # fmt: skip
    pushed = pulled.replace(f"stretched: {stretched} %}}", f"stretched: {stretched - more} %}}")
    assert value_of(pushed, STEADY) >= value_of(pulled, STEADY) * (1.0 - 1e-9)


def test_more_people_fill_a_room_sooner() -> None:
    fuller = DEMO.replace("{room: quiet_room, number: 3, activity: singing}",
                          "{room: quiet_room, number: 5, activity: singing}")  # fmt: skip
    assert value_of(fuller, STEADY) > value_of(DEMO, STEADY)
    assert value_of(fuller, WITHOUT) < value_of(DEMO, WITHOUT)


def test_thicker_walls_fill_a_smaller_room_sooner_and_settle_alike() -> None:
    thicker = edited(DEMO, ("{cavity: 93,", "{cavity: 143,"))
    assert value_of(thicker, WITHOUT) < value_of(DEMO, WITHOUT)
    assert value_of(thicker, STEADY) == pytest.approx(value_of(DEMO, STEADY), rel=1e-6)


def test_an_open_door_airs_the_room() -> None:
    aired = core_of(DEMO).quantities
    assert aired["co2-steady/quiet_room/pause"].value < aired[STEADY].value


def test_singing_takes_more_air_than_sitting() -> None:
    still = DEMO.replace("number: 3, activity: singing", "number: 3, activity: seated")
    assert value_of(still, STEADY) < value_of(DEMO, STEADY)


def fan_of_extract(text: str) -> tuple[float, ...]:
    ends = core_of(text).air.sounds[0].terminals
    return next(end.fan for end in ends if (end.run, end.end) == ("extract", "intake"))


def test_a_choked_box_is_quiet_but_stale() -> None:
    box = "{baffle_box: 900, width: 350, height: 250, lining: 40, absorber: melamine foam, baffles: 3, passage: 70}"
    choked = edited(DEMO, (box, box.replace("baffles: 3, passage: 70", "baffles: 5, passage: 20")))
    assert value_of(choked, STEADY) > value_of(DEMO, STEADY) + 200e-6
    before, after = (fan_of_extract(text) for text in (DEMO, choked))
    assert sum(after[5:]) < sum(before[5:]) - 20.0


def test_fans_at_rest_make_no_sound_and_leave_the_ducts_as_ways() -> None:
    running, resting = core_of(DEMO), core_of(STILL)
    assert resting.air.sounds == ()
    for one, other in zip(running.backgrounds, resting.backgrounds, strict=True):
        assert all(high >= low - 1e-9 for high, low in zip(one.levels, other.levels, strict=True))
        outdoors = other.situation != "rain"  # rain falls on the roof alone
        assert any(path.name == "extract duct" for path in other.paths) == outdoors


def test_an_empty_box_lets_the_control_room_through() -> None:
    open_way = edited(DEMO, ("        - " + BOX + " absorber: melamine foam, baffles: 3, passage: 70}\n", ""))
    levels = [next(path for path in core_of(text).between_rooms[0].paths if path.name == "supply duct").level_a
              for text in (DEMO, open_way)]  # fmt: skip
    assert levels[1] > levels[0] + 10.0


@pytest.mark.parametrize("room", ["quiet_room", "control_room"])
def test_shares_and_session_agree_with_the_states(room: str) -> None:
    core = core_of(DEMO)
    session = core.air.session
    assert session is not None
    steady = max(one.carbon_dioxide for state in core.air.states for one in state.rooms if one.room == room)
    assert max(session.of(room)) <= steady * (1.0 + 1e-6)
    for sound in core.air.sounds:
        assert all(sum(shares[1:]) == pytest.approx(1.0, abs=1e-6) for shares in sound.shares)
