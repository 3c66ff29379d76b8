"""Small builds that trip, and that clear, each check on heat and moisture."""

from tests.coupled import edited
from tests.plain_builds import plain_build
from tests.unit.air_cases import PEOPLE, QUAY, RUNS

Pair = tuple[str, str]

SIDES = ("left", "right", "ceiling", "floor")
WOOL = (
    "        - skin: body\n        - {cavity: 60, fill: rock wool 40 kg/m3}\n"
    "        - {sheet: birch plywood, thickness: 9}\n"
)
COOLER = "  coolers: [{room: quiet_room, capacity: 3 kW, power_draw: 1 kW, setpoint: 22 °C, silent_in_takes: no}]\n"
HEATER = "  heaters: [{room: quiet_room, power: 5 kW, setpoint: 24 °C}]\n"
CLIMATE = (
    "climate:\n  latitude: 54°\n  longitude: 10°\n  colour: 30 %\n"
    "  hottest: {date: 21 July, highest: 26 °C, lowest: 15 °C}\n"
    "  coldest: {date: 15 January, highest: 6 °C, lowest: 4 °C, humidity: 60 %, sky: no sun}\n"
    "  year: {coldest: 6 °C, warmest: 18 °C, humidity_in_cold: 60 %, humidity_in_warmth: 50 %, in_use: 20 %}\n"
    f"  warm_up: 3 h\n{COOLER}{HEATER}"
)


def van(climate: str = CLIMATE, layers: str = WOOL) -> str:
    """One room of 60 mm of wool with two people and plenty of air, in a climate."""
    return edited(plain_build(QUAY, f"{RUNS}{climate}", **dict.fromkeys(SIDES, layers)), PEOPLE)


MILD = van()
SULTRY = van(CLIMATE.replace(COOLER, "").replace("highest: 26 °C", "highest: 38 °C"))
UNHEATED = van(CLIMATE.replace(HEATER, ""))
SILENT = van(
    CLIMATE.replace("silent_in_takes: no", "silent_in_takes: yes").replace("highest: 26 °C", "highest: 36 °C")
    + "  loads: [{room: quiet_room, equipment: 2 kW}]\n"
)
LASTING = van(
    CLIMATE.replace("silent_in_takes: no", "silent_in_takes: yes").replace("highest: 26 °C", "highest: 17 °C")
)
BITTER = CLIMATE.replace("highest: 6 °C, lowest: 4 °C", "highest: -10 °C, lowest: -20 °C")
STALE = ("      runs_in: [record]\n", "")
DRIPPING = edited(van(BITTER), STALE)
LIVED_IN = edited(
    van(BITTER.replace("coldest: 6 °C, warmest: 18 °C", "coldest: -12 °C, warmest: 5 °C").replace("in_use: 20 %",
                                                                                                    "in_use: 90 %")),
    STALE,
)  # fmt: skip

CASES: dict[str, Pair] = {
    "warmest": (SULTRY, MILD),
    "coldest": (UNHEATED, MILD),
    "without-cooler": (SILENT, LASTING),
    "dew": (DRIPPING, MILD),
    "mould": (DRIPPING, MILD),
    "wall-water": (LIVED_IN, MILD),
    "wall-drying": (LIVED_IN, MILD),
}
"""Check → (trips, clears)."""
