"""Small builds that trip, and that clear, each check on mass, anchoring, doors and cuts."""

from tests.coupled import edited
from tests.plain_builds import FACES, ONE_LEAF, plain_build

Pair = tuple[str, str]

LIGHT = plain_build(**dict.fromkeys(FACES, ONE_LEAF))
FLOOR = (
    "        - {limp: heavy sheet, thickness: 30}\n        - {floor_mounts: under, bearer_depth: 0}\n"
    "        - {limp: light sheet, thickness: 4}\n"
)
MOUNTS = (
    "mounts:\n  under: {along: 2, across: 2, static_stiffness: 300 N/mm, lateral_stiffness: 150 N/mm, "
    "dynamic_ratio: 1.5, lowest_load: 20 kg, highest_load: 250 kg, free_height: 40, edges: open, snubber_gap: 8, "
    "load_years: 0 h}\n"
)
LOAD = "fittings:\n  - {name: load, mass: 300 kg, station: 1230, fixed_to: [quiet]}\n"
ANCHORS = ", ".join(
    f"{{station: {station}, offset: {offset}, height: 300, strength: 120 kN}}"
    for station in (100, 2360)
    for offset in (-700, 700)
)
HELD_ROOM = plain_build(
    "", f"{MOUNTS}{LOAD}restraint: {{anchors: [{ANCHORS}], snubber_stiffness: 20000 N/mm}}\n", floor=FLOOR
)
CABINET = plain_build(
    "",
    "fittings:\n  - {name: cabinet, mass: 40 kg, station: 600, height: 800, restraint: {anchors: 4, strength: 8 kN, "
    "seat: structure, base_length: 600, base_width: 500, base_height: 0}}\n",
)
SCALES = (
    "measured:\n  scales:\n    - {stage: arrival, front_left: 600 kg, front_right: 600 kg, rear_left: 400 kg, "
    "rear_right: 400 kg}\n"
)
WEIGHED = plain_build("", SCALES)
DOOR = (
    "openings:\n  way_in:\n    kind: door\n    face: quiet_room.rear\n    width: 620\n    height: 1620\n    sill: 60\n"
    "    layers:\n      - {limp: light sheet, thickness: 8}\n"
    "    seals: {seal: compression bulb, rows: 2, residual_gap: 0 mm, force: 80 N/m}\n"
    "    hardware: {handle_distance: 560, hand_force: 150 N, latch_ratio: 6, latches: 2, latch_strength: 1500 N, "
    "hinges: 3, hinge_spacing: 1300, hinge_strength: 1500 N, hinge_stiffness: 400 N/mm, threshold: 15}\n"
)
HUNG = plain_build("", DOOR)
CUTS = (
    "cuts:\n"
    "  outlet: {face: right, station: 1000, at: 1400, diameter: 130, reinforcement: ring, seal: gasket, "
    "looked_for: [harness, airbag, fuel line, belt anchor, guidance]}\n"
    "  inlet: {face: right, station: 1300, at: 1400, diameter: 80, seal: sealant, "
    "looked_for: [harness, airbag, fuel line, belt anchor, guidance]}\n"
)
CUT = edited(plain_build("", CUTS), ("ribs: {depth: 0, spacing: 2000, width: 60}",
                                     "ribs: {depth: 0, spacing: 700, width: 60, first: 100}"))  # fmt: skip


def _one(text: str, old: str, new: str) -> Pair:
    """A build that is right, and the same with one part wrong; the wrong one first."""
    return edited(text, (old, new)), text


def _with_load(place: str) -> Pair:
    load = f"fittings:\n  - {{name: load, mass: 1000 kg, {place}}}\n"
    return plain_build("", load, **dict.fromkeys(FACES, ONE_LEAF)), LIGHT


CASES: dict[str, Pair] = {
    "wheel-load": _one(LIGHT, "rear: 2200", "rear: 830"),
    "side-balance": _with_load("station: 1000, offset: 700"),
    "steering-share": _with_load("station: 4500"),
    "stability": _with_load("station: 1000, height: 3200"),
    "scales": _one(WEIGHED, "rear_left: 400 kg", "rear_left: 560 kg"),
    "room-anchors": (plain_build("", f"{MOUNTS}{LOAD}restraint: {{anchors: []}}\n", floor=FLOOR), HELD_ROOM),
    "room-holds": _one(HELD_ROOM, "120 kN", "6 kN"),
    "room-holds-cargo": _one(HELD_ROOM, "120 kN", "500 N"),
    "snubber-crash": _one(HELD_ROOM, "20000 N/mm", "100 N/mm"),
    "bridges": _one(HELD_ROOM, "fixed_to: [quiet]", "fixed_to: [quiet, body]"),
    "fittings-hold": _one(CABINET, "strength: 8 kN", "strength: 800 N"),
    "fittings-hold-cargo": _one(CABINET, "strength: 8 kN", "strength: 80 N"),
    "structure-not-skin": _one(CABINET, "seat: structure", "seat: skin"),
    "heavy-fittings": _one(CABINET, ", restraint: {anchors: 4, strength: 8 kN, seat: structure, base_length: 600, "
"base_width: 500, base_height: 0}", ""),
    "door-hand-force": _one(HUNG, "latch_ratio: 6", "latch_ratio: 1"),
    "door-latch": _one(HUNG, "latch_strength: 1500 N", "latch_strength: 100 N"),
    "door-hinges": _one(HUNG, "hinge_strength: 1500 N", "hinge_strength: 100 N"),
    "door-sag": _one(HUNG, "hinge_stiffness: 400 N/mm", "hinge_stiffness: 40 N/mm"),
    "door-threshold": _one(HUNG, "threshold: 15", "threshold: 60"),
    "cut-clear-of-ribs": _one(CUT, "first: 100", "first: 230"),
    "cuts-apart": _one(CUT, "station: 1300", "station: 1120"),
    "cuts-behind": _one(CUT, "diameter: 80,", "diameter: 80, behind: [fuel line],"),
    "cuts-reinforced": _one(CUT, "reinforcement: ring, ", ""),
    "cuts-sealed": _one(CUT, "seal: gasket, ", ""),
}  # fmt: skip
"""What trips a check and what clears it; one change apart wherever that can be."""
