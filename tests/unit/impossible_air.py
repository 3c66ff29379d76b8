"""Changes to the air of the demo that make it impossible: what changes, how it is called, and where it is told."""

IMPOSSIBLE_AIR = [
    (
        "air: a fan in no state",
        ("runs_in: [record, record_side_door_open, pause]\n      wanted", "runs_in: [recording]\n      wanted"),
        "unknown-name",
        "air.runs.fresh_air.runs_in.0",
    ),
    (
        "air: a run to no room",
        ("      gives_to: quiet_room\n", "      gives_to: quit_room\n"),
        "unknown-name",
        "air.runs.supply.gives_to",
    ),
    (
        "air: a run in a circle",
        ("      gives_to: quiet_room\n", "      gives_to: control_room\n"),
        "run-in-a-circle",
        "air.runs.supply.gives_to",
    ),
    (
        "air: a fan without a curve",
        ("          shut_off: 160 Pa\n", ""),
        "value-needed",
        "air.runs.extract.elements.5",
    ),
    (
        "air: a curve that rises again",
        ("{flow: 70 l/s, pressure: 0 Pa}", "{flow: 70 l/s, pressure: 120 Pa}"),
        "curve-unusable",
        "air.runs.fresh_air.elements.3.curve",
    ),
    (
        "air: a box full of lining",
        (
            "{baffle_box: 500, width: 250, height: 200, lining: 40,",
            "{baffle_box: 500, width: 250, height: 200, lining: 90,",
        ),
        "no-room-in-box",
        "air.runs.outlet.elements.2",
    ),
    (
        "air: baffles without a width",
        ("baffles: 1, passage: 60", "baffles: 1, passage: 160"),
        "no-room-in-box",
        "air.runs.outlet.elements.2.passage",
    ),
    (
        "air: a passage left out",
        ("baffles: 1, passage: 60", "baffles: 1"),
        "value-needed",
        "air.runs.outlet.elements.2.passage",
    ),
    (
        "air: a box of nothing in the library",
        (
            "{baffle_box: 500, width: 250, height: 200, lining: 40, absorber: melamine foam",
            "{baffle_box: 500, width: 250, height: 200, lining: 40, absorber: egg boxes",
        ),
        "unknown-record",
        "air.runs.outlet.elements.2.absorber",
    ),
    (
        "air: an intake at the end",
        ("{grille: outlet, width: 900, height: 300,", "{grille: intake, width: 900, height: 300,"),
        "piece-out-of-place",
        "air.runs.supply.elements.5.grille",
    ),
    (
        "air: a bend tighter than its duct",
        ("{bend: 90°, radius: 225}", "{bend: 90°, radius: 60}"),
        "bend-too-tight",
        "air.runs.fresh_air.elements.6.radius",
    ),
    (
        "air: a reducer to nothing",
        ("{reducer: 150, diameter: 150}", "{reducer: 150}"),
        "value-needed",
        "air.runs.fresh_air.elements.1",
    ),
    (
        "air: a leak of no room",
        ("leaks: {control_room: 10 cm2}", "leaks: {controll_room: 10 cm2}"),
        "unknown-name",
        "air.leaks.controll_room",
    ),
    (
        "brief: a session in no state",
        (
            "    - {state: record, duration: 50 min}\n    - {state: pause, duration: 15 min}",
            "    - {state: encore, duration: 50 min}",
        ),
        "unknown-name",
        "brief.session.1.state",
    ),
    (
        "brief: a noise curve that is none",
        ("fans_alone: NC 20", "fans_alone: 20 phon"),
        "limit-unreadable",
        "brief.air.fans_alone",
    ),
    (
        "openings: a duct of another room's run",
        ("    run: extract\n", "    run: outlet\n"),
        "run-elsewhere",
        "openings.extract.run",
    ),
    (
        "openings: a duct of no run",
        ("    run: extract\n", "    run: exhaust\n"),
        "unknown-name",
        "openings.extract.run",
    ),
    (
        "states: somebody in no room",
        ("who: [{room: quiet_room, activity: standing}]", "who: [{room: quit_room, activity: standing}]"),
        "unknown-name",
        "states.pause.who.0.room",
    ),
]
