"""Small builds that trip, and that clear, each check on air and on the sound of fans."""

from tests.coupled import edited
from tests.plain_builds import plain_build

Pair = tuple[str, str]

PEOPLE = ("people: {quiet_room: 0}", "people: {quiet_room: 2}")
FAN = (
    "        - {fan: supply, shut_off: 300 Pa, free_flow: 80 l/s, octaves: {hz_63: 30 dB, hz_125: 30 dB, "
    "hz_250: 30 dB, hz_500: 30 dB, hz_1000: 30 dB, hz_2000: 30 dB, hz_4000: 30 dB, hz_8000: 30 dB}}\n"
)
OUTLET = "        - {grille: outlet, width: 1400, height: 1000, free_share: 50 %, throws: spread}\n"
RUNS = (
    "air:\n  runs:\n    supply:\n      takes_from: outdoors\n      gives_to: quiet_room\n      runs_in: [record]\n"
    f"      wanted: 20 l/s\n      elements:\n        - {{straight: 1000, diameter: 125}}\n{FAN}{OUTLET}"
    "    extract:\n      takes_from: quiet_room\n      gives_to: outdoors\n      elements:\n"
    "        - {straight: 1000, diameter: 125}\n"
)
QUAY = "  outdoors:\n    - {situation: quay, octaves: {hz_500: 40 dB}, limit: 50 dB(A)}\n"
AIRED = edited(plain_build(QUAY + "  air: {fans_alone: 50 dB(A)}\n", RUNS), PEOPLE)
CRUSHED = edited(
    AIRED,
    (
        "        - {straight: 1000, diameter: 125}\n        - {fan",
        "        - {flexible: 9000, diameter: 60, stretched: 60 %, free_share: 50 %}\n        - {fan",
    ),
)
LOUD = edited(AIRED, ("30 dB", "90 dB"))
JET = edited(
    AIRED,
    (
        "width: 1400, height: 1000, free_share: 50 %, throws: spread",
        "width: 100, height: 100, free_share: 50 %, from_people: 500",
    ),
)
SEALED = edited(plain_build(), PEOPLE)

CASES: dict[str, Pair] = {
    "fans-alone": (LOUD, AIRED),
    "fans-in-takes": (LOUD, AIRED),
    "co2-steady": (CRUSHED, AIRED),
    "co2-session": (CRUSHED, AIRED),
    "without-fan": (edited(plain_build(), ("quiet_room: 0", "quiet_room: 12")), AIRED),
    "fresh-air": (CRUSHED, AIRED),
    "run-flow": (CRUSHED, AIRED),
    "humidity": (SEALED, AIRED),
    "terminal": (JET, AIRED),
    "draught": (JET, AIRED),
}
"""Check → (trips, clears)."""
