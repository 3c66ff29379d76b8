"""Small builds that trip, and that clear, each check on safety, venues and papers."""

from tests.coupled import edited
from tests.plain_builds import plain_build, two_rooms

Pair = tuple[str, str]

DOORS = (
    "openings:\n"
    "  room_door: {kind: door, face: quiet_room.rear, width: 620, height: 1620, sill: 10, layers:"
    " [{limp: light sheet, thickness: 4}], seals: {seal: compression bulb, rows: 2, residual_gap: 0.1 mm, force: 80"
    " N/m}}\n"
    "  hatch: {kind: window, face: quiet_room.left, width: 700, height: 500, sill: 900, offset: 1200, layers:"
    " [{limp: light sheet, thickness: 4}], hardware: {hinges: 2}}\n"
)
BANK = "fittings:\n  - {name: bank, mass: 40 kg, station: 1230, offset: 0, height: -300}\n"
SAFETY = """\
safety:
  doors:
    room_door: {lock: fail-safe, inside: lever, holding: 2 kN, travel_keep: opens from inside, keep_strength: 5 kN, \
occupied_alarm: yes, swing: in}
    hatch: {lock: none, travel_keep: opens from inside, keep_strength: 5 kN, inside: lever, swing: out}
  ways_out:
    - {room: quiet_room, through: [room_door]}
    - {room: quiet_room, through: [hatch]}
  detectors:
    - {kind: smoke, room: quiet_room, fixed_on: ceiling, from_edge: 400}
    - {kind: carbon monoxide, room: quiet_room, fixed_on: wall, from_edge: 200, from_appliance: 2 m}
    - {kind: carbon dioxide, room: quiet_room, fixed_on: wall, from_edge: 600}
  sounders: [{room: quiet_room, level: 90 dB(A), distance: 1 m, tone: 1 kHz}]
  exposures:
    singer: {parts: [{level: 84 dB(A), duration: 3 h}], peak: 120 dB}
  linings:
    heavy sheet: {burning_rate: 0 mm/min, by: invented}
    light sheet: {burning_rate: 40 mm/min, by: invented}
  bank: {fitting: bank, from_skin: 300, warmest: 35 °C, coldest: 8 °C, ventilation: yes, removal: yes, label: yes}
  exhausts: {heater: {kind: heater, station: 0, offset: -900, height: -300, maker_distance: 500}}
  intakes: {fresh: {station: 2000, offset: 900, height: 300}}
  found_within: 30 min
  push: 400 N
  bank_to_skin: 100
"""
VENUES = """\
venue:
  quay: {supply: generator, cable: 20 m, longest_cable: 25 m, residual_current: 30 mA, generator_distance: 10 m, \
slope: 1°, steepest: 2°, wind: 5 m/s, awning: out, awning_limit: 8 m/s, cable_way: covered, light: lit}
"""
PAPERS = """\
papers:
  EU:
    items:
      category: {status: granted, owner: workshop, date: 2026-03-01, says_who: approval authority}
      seats and belts: {status: not needed, date: 2026-03-01, says_who: approval authority}
      glazing: {status: not needed, date: 2026-03-01, says_who: approval authority}
      mass certificate: {status: granted, owner: workshop, date: 2026-03-01, says_who: weighbridge}
      electrical certificate: {status: granted, owner: electrician, date: 2026-03-01, says_who: inspector}
      height: {status: granted, date: 2026-03-01, says_who: approval authority}
      insurance: {status: granted, owner: owner, date: 2026-03-01, says_who: insurer}
"""
ONE_INSIDE = ("people: {quiet_room: 0}", "people: {quiet_room: 1}")
RESTING = ("people: {quiet_room: 1}", "people: {quiet_room: 1}\n    who: [{room: quiet_room, activity: resting}]")
SAFE = edited(plain_build("", f"{DOORS}{BANK}{SAFETY}{VENUES}{PAPERS}"), ONE_INSIDE)
"""One person in one sealed room with a door and a hatch, everything as it should be."""

PLAYED = edited(
    two_rooms(
        "  monitor: {level: 78 dB(A)}\n  sources: {quiet_room: singing voice, quiet_room_level: 95 dB(A)}\n",
        "safety:\n  sounders: [{room: quiet_room, level: 90 dB(A), tone: 1 kHz}]\n",
    ),
    ("people: {quiet_room: 0, control_room: 0}", "people: {quiet_room: 1}"),
)
SEEN = edited(
    PLAYED, ("safety:\n", "safety:\n  visual_signals: [{room: quiet_room, intensity: 75 cd, rate: 1.5 Hz}]\n")
)


def but(*changes: Pair) -> str:
    """The safe build with changes."""
    return edited(SAFE, *changes)


ASKED = ("  exposures:\n    singer", "  equipment_asked: [fire extinguisher]\n  exposures:\n    singer")
EXTINGUISHER = (
    ("  exhausts: {", "  equipment: [{kind: fire extinguisher, fitting: red bottle, size: 2 kg}]\n  exhausts: {"),
    ("fittings:\n", "fittings:\n  - {name: red bottle, mass: 4 kg, station: 2000, offset: 400, height: 500}\n"),
)
SAID_NOTHING = edited(plain_build(), ONE_INSIDE)

NO_WAY = but(("    - {room: quiet_room, through: [room_door]}\n", ""),
             ("  ways_out:\n    - {room: quiet_room, through: [hatch]}\n", ""))  # fmt: skip

CASES: dict[str, Pair] = {
    "safety-said": (NO_WAY, SAFE),
    "lock-without-power": (but(("lock: fail-safe", "lock: fail-secure")), SAFE),
    "opens-from-inside": (but(("fail-safe, inside: lever", "fail-safe, inside: key")), SAFE),
    "lock-holds": (but(("holding: 2 kN", "holding: 300 N")), SAFE),
    "keep-holds": (but(("keep_strength: 5 kN", "keep_strength: 500 N")), SAFE),
    "occupied-alarm": (but(("occupied_alarm: yes", "occupied_alarm: no")), SAFE),
    "ways-out": (but(("    - {room: quiet_room, through: [hatch]}\n", "")), SAFE),
    "way-swing": (but(("swing: in}", "swing: in, free_depth: 300}")), SAFE),
    "way-clear": (but(("inside: lever, swing: out}", "inside: lever, swing: out, clear_height: 300}")), SAFE),
    "time-until-found": (but(("people: {quiet_room: 1}", "people: {quiet_room: 10}"),
                             ("found_within: 30 min", "found_within: 7 h")), SAFE),
    "detectors": (but(("    - {kind: smoke, room: quiet_room, fixed_on: ceiling, from_edge: 400}\n", "")), SAFE),
    "detector-place": (but(("fixed_on: ceiling, from_edge: 400", "fixed_on: ceiling, from_edge: 100")), SAFE),
    "equipment": (but(ASKED), but(ASKED, *EXTINGUISHER)),
    "alarm-heard": (but(("level: 90 dB(A), distance: 1 m", "level: 41 dB(A), distance: 1 m")), SAFE),
    "alarm-noticed": (PLAYED, SEEN),
    "alarm-wakes": (but(RESTING, ("level: 90 dB(A), distance: 1 m", "level: 41 dB(A), distance: 1 m")), but(RESTING)),
    "alarm-tone": (but(("tone: 1 kHz", "tone: 3.2 kHz")), SAFE),
    "noise-exposure": (but(("level: 84 dB(A), duration: 3 h", "level: 99 dB(A), duration: 3 h")), SAFE),
    "noise-peak": (but(("peak: 120 dB", "peak: 150 dB")), SAFE),
    "burning-rate": (but(("burning_rate: 40 mm/min", "burning_rate: 200 mm/min")), SAFE),
    "bank-place": (but(("offset: 0, height: -300}", "offset: 0, height: 400}")), SAFE),
    "bank-edge": (but(("from_skin: 300", "from_skin: 20")), SAFE),
    "bank-warm": (but(("warmest: 35 °C", "warmest: 60 °C")), SAFE),
    "bank-cold": (but(("coldest: 8 °C", "coldest: -10 °C")), SAFE),
    "bank-ready": (but(("label: yes", "label: no")), SAFE),
    "exhaust-apart": (but(("station: 2000, offset: 900, height: 300", "station: 100, offset: -900, height: -200")),
                      SAFE),
    "venue-supply": (but(("residual_current: 30 mA", "residual_current: 300 mA")), SAFE),
    "venue-cable": (but(("cable: 20 m,", "cable: 60 m,")), SAFE),
    "venue-generator": (but(("generator_distance: 10 m", "generator_distance: 2 m")), SAFE),
    "venue-level": (but(("slope: 1°", "slope: 6°")), SAFE),
    "venue-wind": (but(("wind: 5 m/s", "wind: 15 m/s")), SAFE),
    "venue-walk": (but(("cable_way: covered", "cable_way: open")), SAFE),
    "paper": (but(("category: {status: granted", "category: {status: refused")), SAFE),
}  # fmt: skip
"""Check → (trips, clears)."""
