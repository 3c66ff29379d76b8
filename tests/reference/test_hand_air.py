"""Air by hand: a fan and a run of ducts, breath of two people, a room filling up, fan sound at an open end.

The expected numbers are arithmetic written here; nothing of ours goes into them but the flow, which is checked first.
"""

import math

import pytest
from tests.coupled import core_of, edited, value_of
from tests.plain_builds import plain_build

DENSITY = 1.2041  # kg/m³, dry air at 20 °C and 101 325 Pa; ideal gas, 287.05 J/(kg·K)
VISCOSITY = 1.51e-5  # m²/s, kinematic, air at 20 °C; common tables (memory)
OUTDOORS = 420e-6
DIAMETER = 0.125
SHUT_OFF, FREE_FLOW = 120.0, 0.040
RUNS = (
    "air:\n  runs:\n    supply:\n      takes_from: outdoors\n      gives_to: quiet_room\n      runs_in: [record]\n"
    "      elements:\n        - {straight: 3000, diameter: 125}\n"
    "        - {fan: supply, shut_off: 120 Pa, free_flow: 40 l/s, octaves: {hz_63: 60 dB, hz_125: 60 dB, "
    "hz_250: 60 dB, hz_500: 60 dB, hz_1000: 60 dB, hz_2000: 60 dB, hz_4000: 60 dB, hz_8000: 60 dB}}\n"
    "    extract:\n      takes_from: quiet_room\n      gives_to: outdoors\n"
    "      elements:\n        - {straight: 3000, diameter: 125}\n"
)
TWO = edited(plain_build("", RUNS), ("people: {quiet_room: 0}", "people: {quiet_room: 2}\n    who: [{room: quiet_room, "
             "number: 2, activity: singing, sex: male, age: 35}]"))  # fmt: skip
SEALED = edited(TWO, ("      runs_in: [record]\n", ""))
# 2.0 met, male, 30 to 40 years: 7.83 MJ/day at rest; Persily and de Jonge 2017, table 4 and equation.
BREATH = 0.000211 * 0.85 * 7.83 * 2.0 * 293.15 / 101.325 / 1000.0  # m³/s each


def pressure_of_ducts(flow: float) -> float:
    """Friction by Swamee and Jain, half a velocity pressure in, a whole one out, twice."""
    area = math.pi / 4.0 * DIAMETER**2
    velocity = flow / area
    reynolds = velocity * DIAMETER / VISCOSITY
    friction = 0.25 / math.log10(0.00009 / DIAMETER / 3.7 + 5.74 / reynolds**0.9) ** 2
    each = (0.5 + 1.0 + friction * 3.0 / DIAMETER) * DENSITY / 2.0 * velocity**2
    return 2.0 * each


def flow_of(text: str) -> float:
    state = core_of(text).air.state("record")
    assert state is not None
    return next(run.flow for run in state.runs if run.run == "supply")


def test_the_fan_gives_what_both_ducts_take() -> None:
    flow = flow_of(TWO)
    assert flow < FREE_FLOW
    assert pressure_of_ducts(flow) == pytest.approx(SHUT_OFF * (1.0 - flow / FREE_FLOW), rel=0.05)


def test_two_singers_settle_where_the_flow_carries_off_what_they_breathe() -> None:
    expected = OUTDOORS + 2.0 * BREATH / flow_of(TWO)
    assert value_of(TWO, "co2-steady/quiet_room/record") == pytest.approx(expected, rel=0.02)


def test_without_fans_the_room_fills_up_in_volume_over_breath() -> None:
    """From the settled value to 5000 ppm: V·Δc/G, two people of 75 kg taking 75 l each off the room."""
    width, height, length = 1.800 - 2.0 * 0.030, 2.000 - 2.0 * 0.030, 2.400
    volume = width * height * length - 2.0 * 0.075
    settled = OUTDOORS + 2.0 * BREATH / flow_of(TWO)
    expected = volume * (0.005 - settled) / (2.0 * BREATH)
    assert value_of(TWO, "without-fan/quiet_room/record") == pytest.approx(expected, rel=0.03)


def test_a_sealed_room_is_told_after_an_hour() -> None:
    width, height, length = 1.800 - 2.0 * 0.030, 2.000 - 2.0 * 0.030, 2.400
    volume = width * height * length - 2.0 * 0.075
    expected = OUTDOORS + 2.0 * BREATH * 3600.0 / volume
    quantity = core_of(SEALED).quantities["co2-steady/quiet_room/record"]
    assert quantity.value == pytest.approx(expected, rel=0.03)
    assert "hardly any outdoor air" in quantity.validity[0]


def test_fan_sound_at_the_open_end_fills_the_room() -> None:
    """At 4 kHz the open end of a 125 mm duct throws nothing back: 60 dB in the octave, and 10 lg 4/A in the room."""
    sound = next(each for each in core_of(TWO).air.sounds if each.state == "record")
    width, height, length = 1.800 - 2.0 * 0.030, 2.000 - 2.0 * 0.030, 2.400
    hard = 2.0 * (width * height + width * length + height * length)
    person = 0.43  # m² at 4 kHz, standing; Bies, Hansen and Howard, Engineering Noise Control, 2017
    absorption = 0.03 * hard + 2.0 * person
    octave = 10.0 * math.log10(sum(10.0 ** (sound.levels[index] / 10.0) for index in (21, 22, 23)))
    assert octave == pytest.approx(60.0 + 10.0 * math.log10(4.0 / absorption), abs=1.0)
