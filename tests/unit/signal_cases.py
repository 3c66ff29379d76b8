"""Small builds that trip, and that clear, each check on signals."""

from tests.coupled import edited
from tests.plain_builds import two_rooms

Pair = tuple[str, str]

GLANDS = (
    "openings:\n"
    "  glands: {kind: gland, face: quiet_room.front, diameter: 30, number: 2, sill: 900, filled: packed with putty}\n"
)
SIGNALS = (
    "signals:\n"
    "  lines:\n"
    "    tie_lines: {kind: microphone, comes_from: quiet_room, goes_to: control_room, number: 4, length: 6 m,"
    " passes: [glands], loop: yes, connectors: [socket, plug], near: [{what: converter, distance: 300, along: 1 m}]}\n"
    "    phones: {kind: headphone, comes_from: control_room, goes_to: quiet_room, length: 5 m, passes: [glands],"
    " loop: yes, conductor: 0.5 mm2}\n"
    "    talk: {kind: talkback, comes_from: control_room, goes_to: quiet_room, length: 4 m, passes: [glands],"
    " loop: yes}\n"
    "  amplifiers: {desk: {voltage: 2 V, output_impedance: 10 Ω, lowest_load: 16 Ω}}\n"
    "  headphones:\n"
    "    singers: {room: quiet_room, number: 4, amplifier: desk, line: phones, impedance: 250 Ω, sensitivity: 96 dB,"
    " limiter: 95 dB(A)}\n"
    "    at_desk: {room: control_room, number: 2, amplifier: desk, impedance: 80 Ω, sensitivity: 98 dB,"
    " limiter: 95 dB(A)}\n"
    "  earths: {venue: 1 V}\n"
    "  gear:\n"
    "    lamps: {what: dimmer, room: quiet_room, frequency: 25 kHz}\n"
    "    charger: {what: charger, room: control_room, sound_power: 40 dB(A)}\n"
)
PEOPLE = ("people: {quiet_room: 0, control_room: 0}", "people: {quiet_room: 4, control_room: 2}")
WIRED = edited(two_rooms("", GLANDS + SIGNALS), PEOPLE)
"""Two rooms whose signals are well."""

NO_LOOP = ("passes: [glands], loop: yes, conductor", "passes: [glands], conductor")

CASES: dict[str, Pair] = {
    "line-treble": (
        edited(WIRED, ("    tie_lines: {kind: microphone,", "    tie_lines: {kind: instrument, balanced: no,"
                       " capacitance: 400 pF/m, source_impedance: 20 kΩ,")), WIRED),
    "line-hum": (edited(WIRED, ("distance: 300, along: 1 m}", "distance: 12, along: 5 m, spacing: 12}"),
                        ("kind: microphone,", "kind: microphone, balanced: no, level: 2 mV,")), WIRED),
    "star-earth": (edited(WIRED, ("talkback,", "talkback, earths: [star, venue],")),
                   edited(WIRED, ("talkback,", "talkback, earths: [star, venue], isolated: yes,"))),
    "through-glands": (edited(WIRED, ("length: 4 m, passes: [glands],", "length: 4 m,")), WIRED),
    "cable-bridges": (edited(WIRED, NO_LOOP), WIRED),
    "gland-fill": (edited(WIRED, ("number: 4, length: 6 m", "number: 40, length: 6 m")), WIRED),
    "headphone-points": (edited(WIRED, ("quiet_room, number: 4, amplifier", "quiet_room, number: 3, amplifier")),
                         WIRED),
    "headphone-loud": (edited(WIRED, ("voltage: 2 V", "voltage: 0.1 V")), WIRED),
    "headphone-ceiling": (edited(WIRED, ("sensitivity: 96 dB, limiter: 95 dB(A)", "sensitivity: 96 dB")), WIRED),
    "headphone-listening": (edited(WIRED, ("brief:\n", "brief:\n  signals: {listening: 90 dB(A)}\n")), WIRED),
    "headphone-load": (edited(WIRED, ("lowest_load: 16 Ω", "lowest_load: 32 Ω")), WIRED),
    "talkback": (edited(WIRED, ("kind: talkback,", "kind: line,")), WIRED),
    "gear-sound": (edited(WIRED, ("frequency: 25 kHz", "frequency: 1 kHz, sound_power: 30 dB(A)")), WIRED),
    "dimmer-frequency": (edited(WIRED, ("frequency: 25 kHz", "frequency: 1 kHz")), WIRED),
}  # fmt: skip
"""Check → (trips, clears)."""
