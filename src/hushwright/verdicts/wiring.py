"""Does the wiring hold: conductors, fuses, what trips on mains voltage, earths, isolators, glands."""

from __future__ import annotations

from hushwright.verdicts.check import Check
from hushwright.verdicts.wiring_cases import (
    FIRE,
    MAINS,
    Cases,
    at_socket,
    besides,
    bond,
    carries,
    change_over,
    distance,
    drop,
    each_circuit,
    holds,
    interrupts,
    joined_aboard,
    lacking,
    neutral,
    on_a_bank,
    on_mains,
    opens,
    protects,
    reach,
    selective,
    ties,
    trips,
)

_NO_CIRCUITS, _NO_MAINS, _NO_BANK = "no circuits in the file", "no mains voltage aboard", "no circuit on a bank"


def _check(
    reference: str, question: str, cases: Cases, nothing: str, *, least: bool = False, counts: str = ""
) -> Check:
    return Check(reference, "Wiring", question, "at_least" if least else "at_most", cases, nothing, counts)


CHECKS = (
    _check("conductors", "Does every conductor carry its current?",
           besides(each_circuit("current", carries, FIRE),
                   lacking("no-table", lambda e: e.wiring.no_table,
                           "a figure of one set of rules is not borrowed for another", "power.wiring.rules",
                           "take other rules, or a size and insulation that they list: no figure for {}", FIRE),
                   "Have the rules a figure for every conductor?"),
           _NO_CIRCUITS),
    _check("voltage-drop", "Is little enough voltage lost on the way?", each_circuit("drop", drop, ""), _NO_CIRCUITS),
    _check("fused", "Has every circuit a fuse before it?",
           lacking("unfused", lambda e: e.wiring.unfused, "every conductor is protected where it begins: ABYC E-11"
                   " 11.10, ISO 10133 clause 8, memory", "power.circuits", "put a fuse at the source: nothing"
                                                                           " protects {}",
                   FIRE),
           _NO_CIRCUITS, counts="circuits without a fuse"),
    _check("fuses-protect", "Does every fuse protect its conductor?", each_circuit("fuse", protects, FIRE),
           "no fuses on conductors with a figure"),
    _check("fuses-hold", "Does every fuse carry its circuit lastingly?", each_circuit("load", holds, ""), "no fuses"),
    _check("fuses-interrupt", "Can every fuse interrupt what the bank drives into a short?",
           each_circuit("fault", interrupts, FIRE), "no fuses on a bank"),
    _check("fuses-open", "Does a short at the far end open the fuse at once?",
           each_circuit("opens", opens, FIRE, least=True), "no fuses on a bank", least=True),
    _check("fuses-selective", "Does the nearer of two fuses open alone?", selective, "no two fuses in series",
           least=True),
    _check("first-fuse", "Is the first fuse near its source?", each_circuit("distance", distance, FIRE),
           "no fuses on a bank"),
    _check("fuses-socket", "Is the first fuse no larger than what its socket gives?", at_socket,
           "no circuit with a fuse begins at a socket or a generator"),
    _check("residual-current", "Is every mains circuit behind a residual-current device?",
           on_mains(lacking("rcd-absent", lambda e: e.wiring.unprotected,
                               "IEC 60364-7-717 and 7-721, ABYC E-11, NEC 551.40", "power.circuits",
                               "put in a residual-current device of 30 mA: nothing trips for {}", MAINS)), _NO_MAINS,
           counts="circuits that nothing trips for"),
    _check("residual-trip", "Does it trip before it harms?",
           besides(each_circuit("rcd", trips, MAINS),
                   lacking("rcd-blind", lambda e: e.wiring.blind,
                           "IEC 60755: type A, F or B beside converters and chargers", "power.circuits",
                           "take type A, or B where its maker asks for it: {}", MAINS),
                   "Does it see the currents of converters and chargers?"),
           "no residual-current device"),
    _check("neutral-on-shore", "Are neutral and earth apart aboard on shore power?",
           neutral("shore", 0.0, "part them aboard: shore joins them already, a second joint carries current on the"
                                 " chassis"),
           "no shore power, or no mains circuits", counts="joints aboard"),
    _check("neutral-aboard", "Are neutral and earth joined once on each source aboard?", joined_aboard,
           "no converter or generator, or no mains circuits", least=True, counts="joints or monitors"),
    _check("change-over", "Does the joint of neutral and earth follow the source by itself?", change_over,
           "no second source beside shore power", least=True, counts="joints that follow by themselves"),
    _check("isolators", "Can every circuit of the bank be switched off?",
           on_a_bank(lacking("isolator-absent", lambda e: e.wiring.no_isolator, "common practice, no source",
                              "power.circuits", "put in a switch: none takes {} off the bank", FIRE)), _NO_BANK,
           counts="circuits without a switch"),
    _check("isolator-reach", "Is every isolator within reach?", each_circuit("isolator", reach, FIRE), "no isolator"),
    _check("chassis-bond", "Is the chassis bonded to the earth of the conversion?", bond, _NO_CIRCUITS, least=True),
    _check("loads-wired", "Does every load hang on a circuit?",
           lacking("unwired", lambda e: e.wiring.unwired, "what takes power has a circuit", "power.circuits",
                  "add a circuit: none gives to {}", ""), _NO_CIRCUITS, counts="loads without a circuit"),
    _check("routes-bridge", "Does no cable tie the floating room to the rest?",
           ties("bridges", lambda e: e.wiring.ties, "a cable without a loop is a rigid point: common practice, no"
                 " source",
                 "hang a loose loop in the gap and say `loop: yes`"), "no routes, or no quiet room",
           counts="cables that tie"),
    _check("routes-glands", "Does every cable enter the floating room through a gland?",
           ties("glands", lambda e: e.wiring.without_gland, "a hole of its own is a leak: common practice, no source",
                 "lead it through a gland and name it under `passes`"), "no routes, or no quiet room",
           counts="cables beside the glands"),
)  # fmt: skip
