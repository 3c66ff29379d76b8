"""Small builds that trip, and that clear, each check on wiring."""

from tests.coupled import edited
from tests.plain_builds import two_rooms

Pair = tuple[str, str]

GLAND = (
    "openings:\n  glands: {kind: gland, face: quiet_room.front, diameter: 30, sill: 985, filled: packed with putty}\n"
)
ROUTES = (
    "routes:\n"
    "  lead:\n"
    "    points: [{station: 100, offset: 500, height: 300}, {station: 1100, offset: 500, height: 300}]\n"
    "    slack: 0 %\n"
    "  feed:\n"
    "    points: [{station: 1100, offset: 500, height: 300}, {station: 1100, offset: 0, height: 1000}, "
    "{station: 3100, offset: 0, height: 1000}]\n"
    "    passes: [glands]\n    fixed_to: [quiet, control]\n    loop: yes\n"
)
POWER = (
    "power:\n"
    "  bank: {voltage: 25.6 V, capacity: 200 Ah, resistance: 8 mΩ}\n"
    "  converter: {rating: 1 kVA, lowest_voltage: 20 V, full: 80 %, best: 85 %}\n"
    "  sources: {shore: {shore: 20 A}}\n"
    "  loads: {lamps: {power: 25.6 W}, desk: {side: ac, power: 230 W}}\n"
    "  wiring:\n"
    "    rules: ABYC E-11\n"
    "    neutral_earth: {at_shore: open, at_converter: linked, change_over: relay}\n"
    "    chassis_bond: {area: 50 mm2}\n"
    "  circuits:\n"
    "    main: {takes_from: bank, gives_to: [board], route: lead, area: 35 mm2, fuse: {rating: 150 A, type: class T,"
    " interrupt_rating: 20 kA, distance: 150}, isolator: {station: -50, offset: 420, height: 950}}\n"
    "    converter_lead: {takes_from: board, gives_to: [converter], length: 500, area: 25 mm2, fuse: {rating: 80 A,"
    " type: class T, interrupt_rating: 20 kA}}\n"
    "    lamp_feed: {takes_from: board, gives_to: [lamps], route: feed, area: 1.5 mm2, fuse: {rating: 5 A,"
    " type: blade, interrupt_rating: 6 kA}}\n"
    "    mains: {takes_from: converter, gives_to: [desk], length: 2 m, area: 2.5 mm2, fuse: {rating: 10 A,"
    " type: miniature breaker}, residual_current_device: {trip: 30 mA}}\n"
    "    inlet: {takes_from: shore, gives_to: [shore], length: 1 m, area: 2.5 mm2, fuse: {rating: 10 A, type: miniature"
    " breaker}, residual_current_device: {trip: 30 mA}}\n"
)
WIRED = two_rooms("", GLAND + ROUTES + POWER)
"""Two rooms whose wiring is well; the bond to the chassis has a figure under NEC alone."""

BY_NEC = edited(WIRED, ("rules: ABYC E-11", "rules: NEC 551"))

CASES: dict[str, Pair] = {
    "conductors": (edited(WIRED, ("area: 25 mm2", "area: 4 mm2")), WIRED),
    "voltage-drop": (edited(WIRED, ("length: 500,", "length: 30 m,")), WIRED),
    "fused": (edited(WIRED, (" fuse: {rating: 10 A, type: miniature breaker}, residual_current_device: {trip: 30 mA}}\n"
                             "    inlet", " residual_current_device: {trip: 30 mA}}\n    inlet")), WIRED),
    "fuses-protect": (edited(WIRED, ("rating: 5 A", "rating: 30 A")), WIRED),
    "fuses-hold": (edited(WIRED, ("rating: 80 A", "rating: 70 A")), WIRED),
    "fuses-interrupt": (edited(WIRED, ("interrupt_rating: 6 kA", "interrupt_rating: 1 kA")), WIRED),
    "fuses-open": (edited(WIRED, ("height: 1000}, {station: 3100, offset: 0, height: 1000}]\n",
                                  "height: 1000}, {station: 3100, offset: 0, height: 1000}]\n    slack: 100 %\n"),
                          ("area: 1.5 mm2", "area: 0.5 mm2"), ("rating: 5 A", "rating: 40 A")), WIRED),
    "fuses-selective": (edited(WIRED, ("rating: 80 A", "rating: 125 A")), WIRED),
    "fuses-socket": (edited(WIRED, ("length: 1 m, area: 2.5 mm2, fuse: {rating: 10 A",
                                    "length: 1 m, area: 2.5 mm2, fuse: {rating: 40 A")), WIRED),
    "first-fuse": (edited(WIRED, ("distance: 150", "distance: 300")), WIRED),
    "residual-current": (
        edited(WIRED, ("type: miniature breaker}, residual_current_device: {trip: 30 mA}}\n    inlet",
                       "type: miniature breaker}}\n    inlet")), WIRED,
    ),
    "residual-trip": (edited(WIRED, ("residual_current_device: {trip: 30 mA}}\n    inlet",
                                     "residual_current_device: {trip: 300 mA}}\n    inlet")), WIRED),
    "neutral-on-shore": (edited(WIRED, ("at_shore: open", "at_shore: linked")), WIRED),
    "neutral-aboard": (edited(WIRED, ("at_converter: linked", "at_converter: open")), WIRED),
    "change-over": (edited(WIRED, ("change_over: relay", "change_over: by hand")), WIRED),
    "isolators": (edited(WIRED, (", isolator: {station: -50, offset: 420, height: 950}", "")), WIRED),
    "isolator-reach": (edited(WIRED, ("isolator: {station: -50,", "isolator: {station: 900,")), WIRED),
    "chassis-bond": (edited(BY_NEC, ("chassis_bond: {area: 50 mm2}", "chassis_bond: {awg: 8}")), BY_NEC),
    "loads-wired": (edited(WIRED, ("gives_to: [desk]", "gives_to: [kettle], current: 8 A")), WIRED),
    "routes-bridge": (edited(WIRED, ("    loop: yes\n", "")), WIRED),
    "routes-glands": (edited(WIRED, ("    passes: [glands]\n", "")), WIRED),
}  # fmt: skip
