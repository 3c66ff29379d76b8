"""Answers to the text of a complete build file; every figure in it is typical or a range, and says so."""

from __future__ import annotations

import math

from hushwright.library.library import Library
from hushwright.model.parts import MOUNT_PAD
from hushwright.search.questions import Answers
from hushwright.search.starting_money import money
from hushwright.search.starting_mounts import MOUNTS, MountRows
from hushwright.search.starting_plan import LOBBY, PASSAGE, Plan, in_mm, plan_of
from hushwright.search.starting_safety import safety
from hushwright.search.starting_services import air, bank_capacity, climate, fittings, power

# Typical figures of a first look; common practice, no source. The file repeats them as ranges where they matter.
_ON_A_MOUNT = 48.0  # kg with people in, under which a mount of 130 N/mm stays straight
_ACROSS = 3
_LEAVES = {
    "light": ["{sheet: birch plywood, thickness: 9}"],
    "usual": [
        "{sheet: birch plywood, thickness: 9}", "{core: viscoelastic glue, thickness: 1}",
        "{sheet: birch plywood, thickness: 6.5}",
    ],
    "heavy": [
        "{sheet: birch plywood, thickness: 12}", "{limp: loaded vinyl, thickness: 2.5}",
        "{sheet: birch plywood, thickness: 9}",
    ],
}  # fmt: skip
_LEAF = {"light": 9.0, "usual": 16.5, "heavy": 23.5}  # mm, thickness of those leaves
_SPACE = {"light": 86, "usual": 93, "heavy": 110}  # mm beside the ribs
_CONTROL_LEAF = 14.5  # mm
_BOX_SPACE = 50  # mm over the wheel boxes
_TALLEST_DOOR = 1.80  # m
_SKIN = ("skin: body", "{damping: butyl pad with aluminium foil, thickness: 2, coverage: 60 %}")
_FRAME = "frame: {depth: 28, width: 45, spacing: 600}"
_WOOL = "fill: rock wool 40 kg/m3"
_THIN = "{sheet: birch plywood, thickness: 6.5}"
_VINYL = "{covering: vinyl flooring, thickness: 2}"
_DIVIDING = ("{sheet: birch plywood, thickness: 12}", "{limp: loaded vinyl, thickness: 2.5}")
_FLOOR = (
    "skin: body", f"{{floor_mounts: under_floor, bearer_depth: 25, {_WOOL}, fill_thickness: 25}}",
    "{sheet: birch plywood, thickness: 12}", "{limp: loaded vinyl, thickness: 2.5}",
    "{sheet: birch plywood, thickness: 9}", _VINYL,
)  # fmt: skip


def starting_build(answers: Answers, weight: str, library: Library, rows: MountRows | None = None) -> str:
    """Text of a build file for some answers.

    Parameters
    ----------
    answers : Answers
        Of the first look.
    weight : str
        ``light``, ``usual`` or ``heavy``: how the quiet room's leaves are built.
    library : Library
        For the body's typical size.
    rows : MountRows, optional
        Mounts under the floor; left out, a number by the floor's size.

    Returns
    -------
    str
        YAML of a complete build, metric, bare lengths in millimetres.
    """
    plan = plan_of(answers, weight, library)
    parts = [_head(plan), _brief(plan), _vehicle(plan), _rooms(plan)]
    if plan.has_quiet:
        parts += [_surfaces(plan), _openings(plan), _mounts(plan, rows), _treatments()]
    else:
        parts.append(f"openings:\n{_vehicle_doors(plan)}")
    parts += [air(plan), climate(plan), power(plan), fittings(plan), _restraint(plan), _states(plan), _tolerances()]
    parts.append(safety(plan))
    parts.append(money(plan, bank_capacity(answers)))
    return "\n".join(parts)


def _head(plan: Plan) -> str:
    return f"""\
# First look: {plan.answers.body}; {plan.answers.use}. Everything here is typical or a range, common practice,
# no source. Replace it line by line with what you measure, choose and weigh; the verdicts follow.
hushwright: 1
lengths: mm                       # bare lengths; stations run rearward from the B-pillar line
title: First look, {plan.answers.use}
note: Made from the answers of a first look. No figure of it is measured.
"""


def _brief(plan: Plan) -> str:
    answers = plan.answers
    lines = [
        "brief:", f"  use: {answers.use}", f"  tallest: {in_mm(answers.tallest)}",
        f"  crew_on_the_road: {answers.crew}",
    ]  # fmt: skip
    if plan.has_quiet:
        level = "" if answers.outdoor_level is None else f", level: {_level(answers)}"
        limit = f", limit: {answers.quiet}" if answers.quiet else ""
        lines += ["  outdoors:", f'    - {{situation: "{answers.place}"{level}{limit}}}']
        lines += ["  air: {}", "  session: [{state: record, duration: 50 min}]"]
    lines += ["  heat: {}", f"  power: {{off_grid: {answers.hours / 3600.0:g} h}}"]
    if answers.budget:
        lines.append(f"  budget: {{total: {answers.budget[0]:g}}}")
    return "\n".join(lines) + "\n"


def _level(answers: Answers) -> str:
    level = f"{answers.outdoor_level:g} dB(A)"
    if answers.level_within is None:
        return level
    return f"{{is: {level}, from: measured, plus_minus: {answers.level_within:g} dB(A)}}"


def _vehicle(plan: Plan) -> str:
    return f"""\
vehicle:                          # measure the donor van: until then the library's ranges count
  body: "{plan.answers.body}"
"""


def _rooms(plan: Plan) -> str:
    if not plan.has_quiet:
        return f"rooms:\n  workshop: {{purpose: other, front: 10, rear: {in_mm(plan.length - 0.06)}}}\n"
    return (
        f"rooms:\n  control_room: {{purpose: control, front: 10, rear: {in_mm(plan.control_rear)}}}\n"
        f"  quiet_room: {{purpose: quiet, front: {in_mm(plan.quiet_front)}, rear: {in_mm(plan.quiet_rear)}}}\n"
    )


def _layers(*layers: str) -> str:
    return "      layers:\n" + "".join(f"        - {each}\n" for each in layers)


def _surfaces(plan: Plan) -> str:
    leaf, space, thick = _LEAVES[plan.weight], _SPACE[plan.weight], _LEAF[plan.weight]
    dividing, lobby = 1000.0 * PASSAGE - _CONTROL_LEAF - thick, 1000.0 * LOBBY - thick
    faces = {
        "left": _layers(*_SKIN, f"{{cavity: {space}, {_WOOL}, {_FRAME}}}", *leaf),
        "ceiling": _layers(*_SKIN, f"{{cavity: 40, {_WOOL}, {_FRAME}}}", *leaf),
        "floor": _layers(*_FLOOR),
        "front": _layers(*_DIVIDING, f"{{cavity: {dividing:g}, {_WOOL}, fill_thickness: 80, {_FRAME}}}", *leaf),
        "rear": _layers(*_SKIN, f"{{cavity: {lobby:g}, {_WOOL}, fill_thickness: 50, {_FRAME}}}", *leaf),
        "wheel_boxes": _layers(*_SKIN, f"{{cavity: {_BOX_SPACE}, {_WOOL}}}", *leaf),
    }
    control = {
        "left": _layers(*_SKIN, f"{{cavity: 60, {_WOOL}, fill_thickness: 50}}", _THIN),
        "ceiling": _layers(*_SKIN, f"{{cavity: 20, {_WOOL}}}", _THIN),
        "floor": _layers("skin: body", "{sheet: birch plywood, thickness: 12}", _VINYL),
    }
    text = "surfaces:\n"
    for room, each in (("quiet_room", faces), ("control_room", control)):
        text += f"  {room}:\n" + "".join(f"    {name}:\n{layers}" for name, layers in each.items())
        text += "    right: {same_as: left}\n"
    return text


def _openings(plan: Plan) -> str:
    door = min(_TALLEST_DOOR, plan.height - 0.38)
    limp = 5 if plan.weight == "heavy" else 2.5
    duct = 125 if plan.answers.quiet_people > 1 else 100
    return f"""openings:
  quiet_door:
    kind: door
    face: quiet_room.rear
    width: 620
    height: {in_mm(door)}
    sill: 90
    layers:
      - {{sheet: birch plywood, thickness: 18}}
      - {{limp: loaded vinyl, thickness: {limp}}}
      - {{sheet: birch plywood, thickness: 18}}
    seals: {{seal: compression bulb, rows: 2, residual_gap: 0..0.3 mm, force: 60..100 N/m}}
    hardware: {{latch_ratio: 8, latches: 3, hinges: 3, hinge_spacing: {in_mm(door - 0.3)}}}
    behind: rear_doors
  window:
    kind: window
    face: quiet_room.front
    width: 700
    height: 540
    sill: 1000
    layers: [{{glass: laminated glass, thickness: 10.8}}, {{cavity: 100}}, {{glass: laminated glass, thickness: 8.8}}]
    frames: separate
    seals: {{seal: compression bulb, rows: 2, residual_gap: 0..0.1 mm, force: 60..100 N/m}}
    hardware: {{latch_ratio: 6, latches: 2, hinge_spacing: 440, hinge_stiffness: 400 N/mm}}   # of each frame
{_vehicle_doors(plan)}  tie_lines:
    kind: gland
    face: quiet_room.front
    diameter: 30
    number: 2
    sill: 1500
    offset: 500
    depth: 150
    filled: packed with putty
  supply: {{kind: duct, face: quiet_room.front, diameter: {duct}, sill: 1500, offset: -500, run: supply}}
  extract: {{kind: duct, face: quiet_room.rear, diameter: {duct}, sill: 1500, offset: 500, run: extract}}
"""


def _vehicle_doors(plan: Plan) -> str:
    return f"""\
  rear_doors:
    kind: vehicle door
    face: vehicle.rear
    width: 1450
    height: {in_mm(plan.height - 0.25)}
    seals: {{seal: vehicle door seal}}
  side_door:
    kind: vehicle door
    face: vehicle.right
    width: 1000
    height: {in_mm(plan.height - 0.25)}
    offset: {in_mm(min(plan.control_rear / 2.0 + 0.1, 0.7))}
    seals: {{seal: vehicle door seal}}
"""


def _mounts(plan: Plan, rows: MountRows | None) -> str:
    if rows is None:
        along = min(max(math.ceil(plan.floating / _ON_A_MOUNT / _ACROSS), 2), 10)
        rows = MountRows(MOUNTS[0], along, _ACROSS)
    return (
        f"mounts:\n  under_floor: {{mount: {rows.mount}, along: {rows.along}, across: {rows.across}, "
        f"inset: {_inset(plan)}, edges: open, snubber_gap: 8}}\n"
    )


def _inset(plan: Plan) -> int:
    """How far the outer rows stand in, so that their pads end with the bearers, which end at lined wheel boxes."""
    return in_mm(math.ceil((_BOX_SPACE + _LEAF[plan.weight] + 1000.0 * MOUNT_PAD / 2.0) / 5.0) * 0.005)


def _treatments() -> str:
    return (
        "treatments:\n  - {room: quiet_room, on: left, absorber: melamine foam, thickness: 50, coverage: 35 %}\n"
        "  - {room: quiet_room, on: right, absorber: melamine foam, thickness: 50, coverage: 35 %}\n"
        "  - {room: control_room, on: left, absorber: melamine foam, thickness: 50, coverage: 25 %}\n"
    )


def _restraint(plan: Plan) -> str:
    if not plan.has_quiet:
        return "restraint: {rule: van, design_level: 10}\n"
    stations = (plan.quiet_front + 0.17, plan.middle, plan.quiet_rear - 0.17)
    places = [(station, side * 620, 60) for station in stations for side in (1, -1)]
    places += [(station, side * 780, 1300) for station in (plan.middle - 0.4, plan.middle + 0.4) for side in (1, -1)]
    anchors = "".join(
        f"    - {{station: {in_mm(station)}, offset: {offset}, height: {height}, strength: 20..30 kN}}\n"
        for station, offset, height in places
    )
    return f"restraint:\n  rule: van\n  design_level: 10\n  anchors:\n{anchors}"


def _states(plan: Plan) -> str:
    answers = plan.answers
    inside = {"quiet_room": answers.quiet_people, "control_room": answers.control_people}
    if not plan.has_quiet:
        inside = {"workshop": max(answers.control_people, 1)}
    people = ", ".join(f"{room}: {count}" for room, count in inside.items() if count)
    work = f"record: {{people: {{{people}}}, takes: yes}}" if plan.has_quiet else f"work: {{people: {{{people}}}}}"
    return f"states:\n  {work}\n  drive: {{people: {{cab: {answers.crew}}}, road: yes}}\n"


def _tolerances() -> str:
    return "tolerances: {mass: 10 %, not_yet_listed: 5..12 %}\n"
