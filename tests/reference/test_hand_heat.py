"""Heat by hand: a wall of wool, a room warmed by gear, air that carries heat off, water in a wall, a damp surface.

The expected numbers are arithmetic written here from ISO 6946 surfaces (0.13, 0.10, 0.17 inside, 0.04 outside), the
conductivities printed in the library's table and the saturation pressures of ISO 13788; nothing of ours goes into them
but the flow of air, which is checked by hand elsewhere.
"""

import math

import pytest
from tests.coupled import core_of, edited
from tests.plain_builds import plain_build
from tests.unit.air_cases import RUNS
from tests.unit.heat_cases import SIDES, WOOL

STEADY = (
    "climate:\n  latitude: 54°\n  longitude: 10°\n  session_begins: 0 h\n"
    "  coldest: {date: 15 January, highest: 0 °C, lowest: 0 °C, humidity: 80 %, sky: no sun}\n"
    "  loads: [{room: quiet_room, equipment: 500 W}]\n"
)
ALL_DAY = "  session: [{state: record, duration: 24 h}]\n"
FROST = (
    "climate:\n  latitude: 54°\n  longitude: 10°\n  year: {coldest: -10 °C, warmest: -10 °C, humidity_in_cold: 80 %, "
)
FROST += "humidity_in_warmth: 80 %, in_use: 100 %}\n"
WOOL_RESISTANCE = 0.0009 / 50.0 + 0.060 / 0.04 + 0.009 / 0.17  # m²·K/W: sheet, wool, plywood
BOARD = 0.030 / 0.2  # m²·K/W: 30 mm of a limp barrier
DENSITY, HEAT_CAPACITY = 1.2041, 1006.0  # air at 20 °C


def saturation(temperature: float) -> float:
    """ISO 13788, annex E."""
    if temperature >= 0.0:
        return 610.5 * math.exp(17.269 * temperature / (237.3 + temperature))
    return 610.5 * math.exp(21.875 * temperature / (265.5 + temperature))


def faces_of_the_room() -> list[tuple[float, float, float]]:
    """Area, resistance inside and outside of each face; the front stands towards the cab, still air on both sides."""
    width, height, length = 1.800 - 2.0 * 0.030, 2.000 - 2.0 * 0.030, 2.400
    return [
        (height * length, 0.13, 0.04),
        (height * length, 0.13, 0.04),
        (width * length, 0.10, 0.04),
        (width * length, 0.17, 0.04),
        (width * height, 0.13, 0.13),
        (width * height, 0.13, 0.04),
    ]


def loss_of_the_room() -> float:
    """W/K of a room of 30 mm of barrier on all faces."""
    return sum(area / (inside + BOARD + outside) for area, inside, outside in faces_of_the_room())


def heat_to_the_air(gear: float) -> float:
    """W that warm the air: a fifth of gear's heat strikes the faces, and part of that leaves at once."""
    faces = faces_of_the_room()
    whole = sum(area for area, _, _ in faces)
    back = sum(area / whole * (BOARD + outside) / (inside + BOARD + outside) for area, inside, outside in faces)
    return 0.8 * gear + 0.2 * gear * back


def last_temperature(text: str) -> float:
    day = core_of(text).heat.day("coldest")
    assert day is not None
    return day.temperature[-1][0]


def test_a_wall_of_wool_lets_through_what_its_layers_do() -> None:
    text = plain_build("", STEADY, **dict.fromkeys(SIDES, WOOL))
    face = next(each for each in core_of(text).heat.faces if each.name == "quiet_room.left")
    assert face.transmittance == pytest.approx(1.0 / (0.13 + WOOL_RESISTANCE + 0.04), rel=0.01)
    assert face.surface_factor == pytest.approx(1.0 - 0.25 / (0.04 + WOOL_RESISTANCE + 0.25), rel=0.01)


def test_gear_warms_a_closed_room_by_its_power_over_the_losses() -> None:
    expected = heat_to_the_air(500.0) / loss_of_the_room()
    assert last_temperature(plain_build(ALL_DAY, STEADY)) == pytest.approx(expected, rel=0.01)


def test_air_carries_heat_off_with_what_flows() -> None:
    text = plain_build(ALL_DAY, RUNS + STEADY)
    state = core_of(text).air.state("record")
    assert state is not None
    flow = next(run.flow for run in state.runs if run.run == "supply")
    carried = DENSITY * HEAT_CAPACITY * flow
    gained = heat_to_the_air(500.0 + state.power)  # the fan's motor stands in the air that it moves
    assert last_temperature(text) == pytest.approx(gained / (loss_of_the_room() + carried), rel=0.02)


def damp_face() -> tuple[float, float, float]:
    """Water over a year, surface humidity, and vapour pressure inside: two people in a sealed room at 20 °C."""
    text = edited(plain_build("", FROST, **dict.fromkeys(SIDES, WOOL)), ("quiet_room: 0", "quiet_room: 2"))
    face = next(each for each in core_of(text).heat.water if each.name == "quiet_room.left")
    # The sealed room is saturated at 20 °C; outdoors the file leaves 15 °C and 75 %.
    added = saturation(20.0) - 0.75 * saturation(15.0)
    return face.peak, face.surface_humidity, 0.8 * saturation(-10.0) + added


def test_vapour_gathers_behind_the_skin_as_wool_and_plywood_let_it_through() -> None:
    peak, _, inside = damp_face()
    behind = saturation(-10.0 + 30.0 * 0.04 / (0.04 + WOOL_RESISTANCE + 0.13))
    rate = 2e-10 * (inside - behind) / (0.060 * 1.0 + 0.009 * 150.0)
    assert peak == pytest.approx(rate * 365.0 * 86_400.0, rel=0.03)


def test_a_surface_is_as_damp_as_its_temperature_makes_it() -> None:
    _, humidity, inside = damp_face()
    factor = 1.0 - 0.25 / (0.04 + WOOL_RESISTANCE + 0.25)
    assert humidity == pytest.approx(inside / saturation(-10.0 + 30.0 * factor), rel=0.02)
