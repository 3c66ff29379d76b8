"""Ways out, detectors and alarms of a first build, as text of a build file; nothing here certifies anything."""

from __future__ import annotations

from hushwright.search.starting_plan import Plan

_DETECTORS = (("smoke", "ceiling", 400), ("carbon monoxide", "wall", 300))
_WITH_QUIET_ROOM = """\
safety:                           # a plan, not a proof: nothing here certifies anything
  doors:
    quiet_door: {lock: fail-safe, inside: lever, holding: 2 kN, travel_keep: opens from inside, keep_strength: 4 kN,
                 occupied_alarm: yes, swing: in}
    rear_doors: {lock: mechanical, inside: lever, swing: out}
    window: {lock: none, inside: pull handle, swing: out, travel_keep: opens from inside, keep_strength: 2 kN,
             clear_width: 650, clear_height: 500}                   # both frames hinged
    side_door: {lock: mechanical, inside: lever, swing: slides}
  ways_out:
    - {room: quiet_room, through: [quiet_door, rear_doors]}
    - {room: quiet_room, through: [window, side_door]}
    - {room: control_room, through: [side_door]}
    - {room: control_room, through: [window, quiet_door, rear_doors]}
"""
_WITHOUT_QUIET_ROOM = """\
safety:                           # a plan, not a proof: nothing here certifies anything
  doors:
    rear_doors: {lock: mechanical, inside: lever, swing: out}
    side_door: {lock: mechanical, inside: lever, swing: slides}
  ways_out:
    - {room: workshop, through: [side_door]}
    - {room: workshop, through: [rear_doors]}
"""


def safety(plan: Plan) -> str:
    """Locks, ways out, detectors and alarms."""
    rooms = ("quiet_room", "control_room") if plan.has_quiet else (plan.room,)
    lines = ["  detectors:"]
    for room in rooms:
        kinds = (*_DETECTORS, ("carbon dioxide", "wall", 500)) if room == "quiet_room" else _DETECTORS
        for kind, fixed_on, edge in kinds:
            lines.append(f"    - {{kind: {kind}, room: {room}, fixed_on: {fixed_on}, from_edge: {edge}}}")
    lines.append("  sounders:")
    lines += [f"    - {{room: {room}, level: 88 dB(A), tone: 970 Hz}}" for room in rooms]
    lines.append("  visual_signals:")
    lines += [f"    - {{room: {room}, intensity: 20 cd, rate: 1.5 Hz}}" for room in rooms]
    lines += ["  equipment:                      # typical; ask what client, venue and local rules want",
              "    - {kind: fire extinguisher, fitting: fire extinguisher, size: 2 kg}",
              "    - {kind: first aid kit, fitting: first aid kit}"]  # fmt: skip
    lines.append("  bank: {fitting: bank, from_skin: 250, ventilation: yes, removal: yes, label: yes}")
    return (_WITH_QUIET_ROOM if plan.has_quiet else _WITHOUT_QUIET_ROOM) + "\n".join(lines) + "\n"
