"""Changes to the power of the demo that make it impossible: what changes, how it is called, and where it is told."""

IMPOSSIBLE_POWER = [
    ("power: a bank of no whole cells", ("bank: {voltage: 25.6 V", "bank: {voltage: 10.9 V"), "voltage-of-no-cells",
     "power.bank.voltage"),
    ("power: a window upside down", ("lowest: 20 %, highest: 100 %", "lowest: 60 %, highest: 55 %"), "window-reversed",
     "power.bank.lowest"),
    ("power: best below full", ("best: 93 %, full: 88 %", "best: 86 %, full: 88 %"), "efficiency-reversed",
     "power.converter.full"),
    ("power: an efficiency that its own draw forbids", ("idle: 16 W, best: 93 %", "idle: 90 W, best: 97 %"),
     "efficiency-out-of-reach", "power.converter.best"),
    ("power: a load twice in the curve",
     ("best: 93 %, full: 88 %,", "curve: [{load: 50 %, efficiency: 90 %}, {load: 50 %, efficiency: 92 %}],"),
     "load-given-twice", "power.converter.curve.1.load"),
    ("power: a load of nothing", ("    fans: {of: fans}", "    fans: {of: fons}"), "unknown-name",
     "power.loads.fans.of"),
    ("power: a load without power", ("recorder: {side: ac, power: 92 W, of: equipment control_room}",
                                     "recorder: {side: ac}"), "value-needed", "power.loads.recorder.power"),
    ("power: a cooler with power of its own", ("cooler: {side: ac, of:", "cooler: {side: ac, power: 500 W, of:"),
     "power-given-twice", "power.loads.cooler.power"),
    ("power: a load in no state", ("power: 12 W, states: [always]", "power: 12 W, states: [allways]"), "unknown-name",
     "power.loads.lock_and_detectors.states.0"),
    ("power: two loads of one thing", ("    fans: {of: fans}", "    fans: {of: fans}\n    blowers: {of: fans}"),
     "load-given-twice", "power.loads"),
    ("power: a name with a dot", ("    charging: {side: ac, power: 38 W}", "    char.ging: {side: ac, power: 38 W}"),
     "name-unusable", "power.loads.char.ging"),
    ("power: a plan in no state", ("{state: drive, begins: 17 h", "{state: driving, begins: 17 h"), "unknown-name",
     "power.day.9.state"),
    ("power: phases over each other",
     ("begins: 11 h 20 min, duration: 50 min", "begins: 11 h 10 min, duration: 60 min"), "phases-overlap",
     "power.day.2.begins"),
    ("power: a plan past midnight", ("begins: 17 h, duration: 1 h", "begins: 23 h 30 min, duration: 1 h"),
     "past-midnight", "power.day.9.duration"),
    ("power: shore in no state", ("in_states: [standing]", "in_states: [sleeping]"), "unknown-name",
     "power.sources.shore.in_states.0"),
    ("power: a year of eleven months", ("0.7 kWh/m2, 0.4 kWh/m2]", "0.7 kWh/m2]"), "months-missing",
     "power.sources.panels.sun"),
]  # fmt: skip

ODD_POWER = [
    ("power: more parts than the heat has", ("power: 118 W, of: equipment", "power: 218 W, of: equipment"),
     "parts-exceed-whole", "power.loads.recorder"),
]
"""What is odd in power and still built."""
