"""Changes to the demo that make it impossible or odd: what changes, how it is called, and where it is told."""

from tests.unit.impossible_air import IMPOSSIBLE_AIR
from tests.unit.impossible_heat import IMPOSSIBLE_HEAT
from tests.unit.impossible_power import IMPOSSIBLE_POWER, ODD_POWER
from tests.unit.impossible_signals import IMPOSSIBLE_SIGNALS

WINDOW = "    width: 740\n    height: 560\n    sill: 1020\n    offset: -250\n"
LEFT_LEAF = "        - {sheet: birch plywood, thickness: 9}\n        - {core: viscoelastic glue, thickness: 1}\n"
FITTING = "  - {name: heater, mass: 8 kg, station: 100, height: 200, fixed_to: [body]}"
ROWS = "    along: 4\n    across: 3\n    inset: 105\n"
QUAY_OCTAVES = (
    "      octaves: {hz_63: 60 dB, hz_125: 56 dB, hz_250: 53 dB, hz_500: 51 dB, hz_1000: 49 dB, hz_2000: 45 dB, "
    "hz_4000: 40 dB}\n"
)

IMPOSSIBLE = [
    *IMPOSSIBLE_AIR,
    *IMPOSSIBLE_HEAT,
    *IMPOSSIBLE_POWER,
    *IMPOSSIBLE_SIGNALS,
    (
        "safety: headphones that are nowhere",
        ("of: headphones, point: desk, level: 82 dB(A)", "of: headphones, level: 82 dB(A)"),
        "value-needed",
        "safety.exposures.engineer.parts.1.point",
    ),
    (
        "brief: a limit that is none",
        ("limit: 35 dB(A)", "limit: 35 phon"),
        "limit-unreadable",
        "brief.outdoors.0.limit",
    ),
    (
        "brief: a tone no hearing test begins at",
        ("limit: 35 dB(A)", "limit: hearing test 300 Hz"),
        "limit-unreadable",
        "brief.outdoors.0.limit",
    ),
    (
        "brief: an unknown source",
        ("quiet_room: singing voice", "quiet_room: sinking voice"),
        "unknown-record",
        "brief.sources.quiet_room",
    ),
    (
        "brief: an unknown spectrum",
        ("spectrum: pink noise", "spectrum: purple noise"),
        "unknown-record",
        "brief.monitor.spectrum",
    ),
    (
        "brief: one name for two places",
        ("situation: fair", "situation: quay"),
        "name-given-twice",
        "brief.outdoors.1.situation",
    ),
    ("brief: no levels", (QUAY_OCTAVES, "      octaves: {}\n"), "value-needed", "brief.outdoors.0.octaves"),
    (
        "vehicle: an unknown body",
        ("body: long high roof, rear drive", "body: very long"),
        "unknown-record",
        "vehicle.body",
    ),
    (
        "vehicle: heights that fall",
        ("{height: 1600, width: 1720}", "{height: 1000, width: 1720}"),
        "section-impossible",
        "vehicle.widths",
    ),
    ("vehicle: axles in one place", ("rear_axle: 2850", "rear_axle: 600"), "", ""),
    (
        "vehicle: axles too close",
        ("front_axle: -1450\n  rear_axle: 2850", "front_axle: 500\n  rear_axle: 600"),
        "axles-too-close",
        "vehicle.rear_axle",
    ),
    (
        "vehicle: wheel boxes that end before they begin",
        ("front: 2330, rear: 3370", "front: 3370, rear: 2330"),
        "stations-reversed",
        "vehicle.wheel_boxes.rear",
    ),
    (
        "rooms: outside the vehicle",
        ("front: 1800, rear: 4050", "front: 1800, rear: 4500"),
        "room-outside-vehicle",
        "rooms.quiet_room",
    ),
    (
        "rooms: reversed",
        ("front: 1800, rear: 4050", "front: 4050, rear: 1800"),
        "stations-reversed",
        "rooms.quiet_room.rear",
    ),
    (
        "rooms: overlapping",
        ("front: 1800, rear: 4050", "front: 1500, rear: 4050"),
        "rooms-overlap",
        "rooms.quiet_room.front",
    ),
    (
        "rooms: a hand's breadth",
        ("front: 1800, rear: 4050", "front: 1800, rear: 1900"),
        "room-too-short",
        "rooms.quiet_room",
    ),
    (
        "rooms: unknown station",
        ("front: 1800, rear: 4050", "front: unknown, rear: 4050"),
        "value-needed",
        "rooms.quiet_room.front",
    ),
    (
        "rooms: a name that is a path",
        ("  quiet_room: {purpose: quiet", "  quiet.room: {purpose: quiet"),
        "name-unusable",
        "rooms.quiet.room",
    ),
    (
        "rooms: a name of the van",
        ("  quiet_room: {purpose: quiet", "  vehicle: {purpose: quiet"),
        "name-unusable",
        "rooms.vehicle",
    ),
    (
        "surfaces: an unknown room",
        ("  control_room:\n    left:", "  controll_room:\n    left:"),
        "unknown-name",
        "surfaces.controll_room",
    ),
    (
        "surfaces: an unknown sheet",
        (
            "{sheet: birch plywood, thickness: 12}\n        - {covering",
            "{sheet: birch plywod, thickness: 12}\n        - {covering",
        ),
        "unknown-record",
        "surfaces.control_room.floor.layers.2.sheet",
    ),
    ("surfaces: no height left", ("{cavity: 40, fill", "{cavity: 990, fill"), "", ""),
    ("surfaces: an end too deep", ("{cavity: 119,", "{cavity: 180,"), "layers-too-thick", "surfaces.quiet_room.front"),
    ("surfaces: sides that meet", ("{cavity: 93,", "{cavity: 800,"), "layers-too-thick", "surfaces.quiet_room"),
    (
        "surfaces: a space within the ribs",
        ("{cavity: 93,", "{cavity: 45,"),
        "space-shallower-than-ribs",
        "surfaces.quiet_room.left.layers.2.cavity",
    ),
    (
        "surfaces: more wool than space",
        ("fill_thickness: 80,", "fill_thickness: 200,"),
        "fill-too-thick",
        "surfaces.quiet_room.front.layers.2.fill_thickness",
    ),
    (
        "surfaces: battens deeper than the space",
        ("{depth: 28, width: 45, spacing: 600}}   # 12 clear", "{depth: 48, width: 45, spacing: 600}}   # 12 clear"),
        "layers-too-thick",
        "surfaces.quiet_room.ceiling.layers.2.frame.depth",
    ),
    (
        "surfaces: battens wider than apart",
        ("{depth: 28, width: 45, spacing: 600}}   # 12 clear", "{depth: 28, width: 145, spacing: 100}}   # 12 clear"),
        "battens-overlap",
        "surfaces.quiet_room.ceiling.layers.2.frame.spacing",
    ),
    (
        "surfaces: a core without a second sheet",
        (LEFT_LEAF + "        - {sheet: birch plywood, thickness: 6}\n    right", LEFT_LEAF + "    right"),
        "core-on-nothing",
        "surfaces.quiet_room.left.layers.4",
    ),
    (
        "surfaces: two pads on one leaf",
        (
            "        - {damping: butyl pad with aluminium foil, thickness: 2, coverage: 55 %}\n        - {cavity: 93,",
            2 * "        - {damping: butyl pad with aluminium foil, "
            "thickness: 2, coverage: 55 %}\n" + "        - {cavity: 93,",
        ),
        "damping-twice",
        "surfaces.quiet_room.left.layers.2",
    ),
    (
        "surfaces: a pad on air",
        (
            "        - {damping: butyl pad with aluminium foil, thickness: 2, coverage: 55 %}\n        - {cavity: 93,",
            "        - {limp: barrier mat 5, thickness: 2}\n"
            "        - {damping: butyl pad with aluminium foil, thickness: 2}\n"
            "        - {cavity: 93,",
        ),
        "damping-on-nothing",
        "surfaces.quiet_room.left.layers.2",
    ),
    (
        "surfaces: a pad beside a core",
        (
            LEFT_LEAF,
            "        - {sheet: birch plywood, thickness: 9}\n        - {damping: butyl pad with "
            "aluminium foil, thickness: 2}\n        - {sheet: birch plywood, thickness: 3}\n"
            "        - {core: viscoelastic glue, "
            "thickness: 1}\n",
        ),
        "damping-beside-core",
        "surfaces.quiet_room.left.layers.6",
    ),
    (
        "surfaces: a space with nothing inside",
        (
            "        - {covering: vinyl flooring, thickness: 2}\n    front:\n      layers:\n        - {sheet",
            "        - {cavity: 20}\n    front:\n      layers:\n        - {sheet",
        ),
        "space-without-leaf",
        "surfaces.control_room.floor.layers.3",
    ),
    (
        "surfaces: skin inside",
        ("        - {foam: cross-linked polyethylene foam, thickness: 10}\n", "        - skin: body\n"),
        "skin-inside",
        "surfaces.control_room.floor.layers.1",
    ),
    (
        "surfaces: mounts in a wall",
        (
            "        - {cavity: 119, fill: rock wool 40 kg/m3, fill_thickness: 80,",
            "        - {floor_mounts: under_floor}\n"
            "        - {sheet: birch plywood, thickness: 9}\n        - {cavity: 60, fill: rock wool 40 kg/m3,",
        ),
        "mounts-not-under-floor",
        "surfaces.quiet_room.front.layers.2.floor_mounts",
    ),
    (
        "surfaces: unknown mounts",
        ("{floor_mounts: under_floor,", "{floor_mounts: under_flor,"),
        "unknown-name",
        "surfaces.quiet_room.floor.layers.1.floor_mounts",
    ),
    (
        "surfaces: the same as nothing",
        ("    right: {same_as: left}\n    ceiling", "    right: {same_as: lefft}\n    ceiling"),
        "unknown-name",
        "surfaces.quiet_room.right.same_as",
    ),
    (
        "surfaces: a line bridge without spacing",
        ("      edge_gap: 0..0.3 mm\n", "      bridges: [{kind: line}]\n"),
        "value-needed",
        "surfaces.quiet_room.front.bridges.0",
    ),
    (
        "surfaces: point bridges without number",
        ("      edge_gap: 0..0.3 mm\n", "      bridges: [{kind: point}]\n"),
        "value-needed",
        "surfaces.quiet_room.front.bridges.0",
    ),
    (
        "surfaces: one wall twice",
        (
            "    front:\n      layers:\n        - {sheet: birch plywood, thickness: 12}\n\nopenings",
            "    rear:\n      layers:\n        - {sheet: birch plywood, thickness: 12}\n\nopenings",
        ),
        "wall-given-twice",
        "surfaces.quiet_room.front",
    ),
    ("surfaces: wheel boxes to the roof", ("between: 1350, height: 300", "between: 1350, height: 600"), "", ""),
    ("surfaces: wheel boxes that meet", ("between: 1350, height: 300", "between: 700, height: 300"), "", ""),
    (
        "openings: an unknown face",
        ("    face: quiet_room.rear\n", "    face: quiet_room.reer\n"),
        "unknown-name",
        "openings.quiet_door.face",
    ),
    (
        "openings: an unknown room",
        ("    face: quiet_room.rear\n", "    face: quit_room.rear\n"),
        "unknown-name",
        "openings.quiet_door.face",
    ),
    (
        "openings: larger than the face",
        (WINDOW, "    width: 1700\n    height: 560\n    sill: 1020\n"),
        "opening-outside-face",
        "openings.window",
    ),
    (
        "openings: beside the face",
        (WINDOW, "    width: 740\n    height: 560\n    sill: 1020\n    offset: 500\n"),
        "opening-outside-face",
        "openings.window",
    ),
    (
        "openings: through the roof",
        (WINDOW, "    width: 740\n    height: 560\n    sill: 1600\n    offset: -250\n"),
        "opening-outside-face",
        "openings.window",
    ),
    (
        "openings: in each other",
        ("    sill: 1500\n    offset: 500\n", "    sill: 1200\n    offset: -250\n"),
        "openings-overlap",
        "openings.tie_lines",
    ),
    ("openings: no size", ("    width: 620\n    height: 1620\n", ""), "value-needed", "openings.quiet_door"),
    (
        "openings: no leaf",
        (
            "    layers:\n      - {sheet: birch plywood, thickness: 18}\n      - {limp: barrier mat 5, thickness: 6}\n"
            "      - {sheet: birch plywood, thickness: 18}\n",
            "",
        ),
        "value-needed",
        "openings.quiet_door",
    ),
    (
        "openings: behind nothing",
        ("    behind: rear_doors\n", "    behind: rear_door\n"),
        "unknown-name",
        "openings.quiet_door.behind",
    ),
    (
        "openings: behind itself",
        ("    behind: rear_doors\n", "    behind: quiet_door\n"),
        "behind-in-a-circle",
        "openings.quiet_door.behind",
    ),
    (
        "openings: behind each other",
        ("    width: 1500\n    height: 1850\n", "    width: 1500\n    height: 1850\n    behind: quiet_door\n"),
        "behind-in-a-circle",
        "openings.quiet_door.behind",
    ),
    (
        "openings: an unknown seal",
        ("seal: compression bulb, rows: 2, residual_gap: 0..0.15 mm", "seal: chewing gum"),
        "unknown-record",
        "openings.quiet_door.seals.seal",
    ),
    ("mounts: rows past the middle", (ROWS, "    along: 4\n    across: 3\n    inset: 600\n"), "", ""),
    (
        "mounts: one outside the floor",
        (ROWS, "    places: [{station: 1000, offset: 0 mm}]\n"),
        "mount-outside-floor",
        "mounts.under_floor.places.0",
    ),
    (
        "mounts: in one line",
        (ROWS, "    along: 4\n    across: 1\n    inset: 105\n"),
        "mounts-in-a-line",
        "mounts.under_floor",
    ),
    (
        "mounts: loads reversed",
        ("    highest_load: 105 kg", "    highest_load: 10 kg"),
        "loads-reversed",
        "mounts.under_floor.highest_load",
    ),
    (
        "mounts: snubbers beyond the mount",
        ("    snubber_gap: 6", "    snubber_gap: 40"),
        "snubber-beyond-mount",
        "mounts.under_floor.snubber_gap",
    ),
    (
        "mounts: nothing known",
        (
            "    mount: rubber floor mount 130 N/mm\n    along: 4\n    across: 3\n    inset: 105\n"
            "    static_stiffness: {is: 130 N/mm, from: supplier, plus_minus: 15 %}\n",
            "",
        ),
        "value-needed",
        "mounts.under_floor.static_stiffness",
    ),
    (
        "treatments: an unknown room",
        ("{room: quiet_room, on: ceiling", "{room: quit_room, on: ceiling"),
        "unknown-name",
        "treatments.2.room",
    ),
    (
        "treatments: an unknown face",
        ("{room: quiet_room, on: ceiling", "{room: quiet_room, on: cieling"),
        "unknown-name",
        "treatments.2.on",
    ),
    (
        "treatments: an unknown absorber",
        ("absorber: rock wool 60 kg/m3", "absorber: egg boxes"),
        "unknown-record",
        "treatments.2.absorber",
    ),
    (
        "fittings: loose and fixed",
        (FITTING, FITTING.replace("[body]", "[body, loose]")),
        "loose-and-fixed",
        "fittings.12.fixed_to",
    ),
    (
        "states: an unknown door",
        ("open: [side_door]", "open: [slide_door]"),
        "unknown-name",
        "states.record_side_door_open.open",
    ),
    (
        "states: people in no room",
        ("  record:\n    people: {quiet_room: 4,", "  record:\n    people: {quit_room: 4,"),
        "unknown-name",
        "states.record.people.quit_room",
    ),
    (
        "library: a sheet that cannot be",
        (
            "library:\n",
            "library:\n  sheets:\n    - {name: x, source: y, density: 600 kg/m3, youngs_modulus: 5 GPa, poisson: 0}\n",
        ),
        "record-impossible",
        "library.sheets.0",
    ),
    (
        "library: an unknown value",
        ("density: 1667 kg/m3", "density: unknown"),
        "value-needed",
        "library.limp_barriers.0.density",
    ),
    (
        "library: a place without levels",
        ("library:\n", "library:\n  situations:\n    - {name: x, source: y, octaves: {}}\n"),
        "record-impossible",
        "library.situations.0",
    ),
]

REMARKS = [
    *ODD_POWER,
    ("kerb masses that do not add up", ("total: 2080 kg", "total: 2280 kg"), "axles-do-not-add-up", "vehicle.kerb"),
    (
        "a plate below the empty van",
        ("plated: {total: 3500 kg", "plated: {total: 1990 kg"),
        "plated-below-kerb",
        "vehicle.plated.total",
    ),
    ("space left at an end", ("{cavity: 284,", "{cavity: 200,"), "space-left-over", "surfaces.quiet_room.rear"),
    (
        "battens on the ribs",
        ("{cavity: 93,", "{cavity: 83,"),
        "battens-touch-ribs",
        "surfaces.quiet_room.left.layers.2",
    ),
    (
        "mounts under nothing",
        (
            "        - {floor_mounts: under_floor, bearer_depth: 25, bearer_width: 45, bearer_spacing: 500, "
            "fill: rock wool 40 kg/m3, "
            "fill_thickness: 25}\n",
            "        - {cavity: 50}\n",
        ),
        "mounts-unused",
        "mounts.under_floor",
    ),
    (
        "a key for another kind",
        ("    filled: packed with putty", "    filled: packed with putty\n    frames: common"),
        "key-without-effect",
        "openings.tie_lines.frames",
    ),
    (
        "an octave limit for dB(A)",
        ("      limit: 35 dB(A)\n", "      limit: 35 dB(A)\n      limit_from: 250 Hz\n"),
        "key-without-effect",
        "brief.outdoors.0.limit_from",
    ),
    (
        "a gland shorter than its wall",
        ("    depth: 150\n", "    depth: 50\n"),
        "shorter-than-wall",
        "openings.tie_lines.depth",
    ),
    ("two crews", ("crew_on_the_road: 2", "crew_on_the_road: 3"), "crew-differs", "states.drive.people.cab"),
    ("more people than seats", ("  seats: 3\n", "  seats: 1\n"), "more-people-than-seats", "states.drive.people.cab"),
    (
        "two control rooms",
        ("{purpose: control, front: 12, rear: 1650}", "{purpose: quiet, front: 12, rear: 1650}"),
        "several-rooms",
        "rooms.quiet_room.purpose",
    ),
]
