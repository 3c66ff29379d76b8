"""Hold-point sheets: what is checked while it is still open, with the limits of this build."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from hushwright.evaluation.chargers import with_chargers
from hushwright.evaluation.floor import on_the_first_day
from hushwright.evaluation.results import MountLoad
from hushwright.evaluation.results_wiring import CircuitResult
from hushwright.evaluation.take_off import net_area
from hushwright.physics.air import Air
from hushwright.report.papers.blocks import (
    Blanks,
    Block,
    Caution,
    Checks,
    Heading,
    PageBreak,
    Paper,
    Say,
    Signatures,
    Table,
)
from hushwright.report.papers.common import Case, cautions, octaves_told, spoken, title_of, yes_or_no
from hushwright.report.units_out import shown, shown_spread
from hushwright.report.verdict_text import SENSES, largest_of, worst_first
from hushwright.verdicts.verdict import Verdict

_MOST_ROWS = 30
_YEAR, _ABOUT_A_YEAR = 365.25 * 86_400.0, 0.95  # s; share of a year from which years are told
_STILL = 1e-4  # m³/s, under which the air of a run stands still and nothing is to be measured


@dataclass(frozen=True, slots=True)
class HoldPoint:
    """One hold point: when, what is ticked, which verdicts give limits to measure against, further tables."""

    name: str
    when: str
    checks: tuple[str, ...]
    verdicts: tuple[str, ...]  # beginnings of their ids
    tables: Callable[[Case], list[Block]] = lambda _: []


def _wheels(case: Case) -> list[Block]:
    kerb = case.evaluation.build.vehicle.kerb
    rows = tuple(
        (name, shown(value, "mass", case.system), "", "")
        for name, value in (("total", kerb.total), ("front axle", kerb.front), ("rear axle", kerb.rear))
    )
    wheels = tuple((f"{name} wheel", "", "", "") for name in ("front left", "front right", "rear left", "rear right"))
    return [Table(("bare van", "in the file", "scales", "difference"), rows + wheels, (2, 1, 1, 1))]


def _damping(case: Case) -> list[Block]:
    """Pads face by face without the openings, as they are bought and laid."""
    build = case.evaluation.build
    laid = [
        (spoken(surface.name), layer, net_area(room, surface, build.openings))
        for room in build.rooms for surface in room.surfaces for layer in surface.layers
    ]  # fmt: skip
    laid += [(spoken(each.name), layer, each.area * each.number) for each in build.openings for layer in each.layers]
    pads = [(where, layer, layer.coverage * area, layer.surface_density * area)
            for where, layer, area in laid if layer.kind == "damping"]  # fmt: skip
    if not pads:
        return []
    rows = [(where, layer.name, f"{layer.coverage:.0%}", *_pads(case, area, mass), "", "")
            for where, layer, area, mass in pads]  # fmt: skip
    together = _pads(case, math.fsum(each[2] for each in pads), math.fsum(each[3] for each in pads))
    rows.append(("together", "", "", *together, "", ""))
    columns = ("face", "pad", "coverage, at least", "pads", "mass", "coverage found", "tap: dull")
    return [Table(columns, tuple(rows), (2, 2.1, 0.9, 0.8, 0.8, 1, 0.7), small=True)]


def _pads(case: Case, area: float, mass: float) -> tuple[str, str]:
    return shown(area, "area", case.system), shown(mass, "mass", case.system)


def _mounts(case: Case) -> list[Block]:
    """What is found on the day, and for later the finished room in use."""
    build = case.evaluation.build
    days = [
        (f"{each.stage}, a minute after it is set down", each.mass, each.loads, (each.without_air, each.with_air))
        for each in on_the_first_day(build, Air(build.brief.air_temperature))
    ]
    crept = creep_told(case)
    used = [
        (f"{spoken(one.state)}, finished, with its people, after {crept}", one.mass, one.loads,
         (one.vertical_frequency, one.with_air)) for one in case.evaluation.mounts
    ]  # fmt: skip
    if not used:
        return []
    told = (
        "On the day of the floor push the row of the floor alone holds: no walls, nobody on it, no creep. "
        f"The other rows, and the limits below, hold for the finished room; creep is counted over {crept}. "
        "Swings: on the mounts alone, and with the air under the floor, a spring where its edges are shut and a mass "
        "where it can flow out."
    )
    columns = ("stage", "on the mounts", "each mount", "pressed by", "swings: mounts", "with air", "pressed, found",
               "swings, found")  # fmt: skip
    rows = tuple(_stage(case, *each) for each in (*days, *used))
    return [Say(told, "small"), Table(columns, rows, (2, 1, 1.4, 1.4, 0.9, 0.9, 0.9, 0.9), small=True)]


def _stage(
    case: Case, stage: str, mass: float, loads: tuple[MountLoad, ...], swings: tuple[float, float]
) -> tuple[str, ...]:
    def between(values: list[float], kind: str) -> str:
        ends = dict.fromkeys(shown(each, kind, case.system) for each in (min(values), max(values)))
        return " to ".join(ends)

    return (stage, shown(mass, "mass", case.system), between([each.load for each in loads], "mass"),
            between([each.deflection for each in loads], "length"),
            *(shown(each, "frequency", case.system) for each in swings), "", "")  # fmt: skip


def creep_told(case: Case) -> str:
    """How long the file loads the mounts, ``1 year``."""
    longest = max((each.load_time for each in case.evaluation.build.mounts), default=0.0)
    years = longest / _YEAR
    if years < _ABOUT_A_YEAR:
        return shown(longest, "time", case.system)
    return f"{years:.2g} year" + ("" if f"{years:.2g}" == "1" else "s")


def _flows(case: Case) -> list[Block]:
    rows = []
    for state in case.evaluation.air.states:
        for run in state.runs:
            if run.flow < _STILL:
                continue
            wanted = "" if run.wanted is None else shown(run.wanted, "volume_flow", case.system)
            rows.append((spoken(state.state), spoken(run.run), wanted, shown(run.flow, "volume_flow", case.system),
                         shown(run.fan_pressure, "pressure", case.system), ""))  # fmt: skip
    columns = ("state", "run", "at least", "expected", "fan pressure", "flow found")
    return [Table(columns, tuple(rows), (1.6, 1.4, 1, 1, 1, 1), small=True)] if rows else []


def _circuits(case: Case) -> list[Block]:
    return [fuse_chart(case, ("insulation", "polarity"))]


def _conductor(case: Case, one: CircuitResult) -> str:
    """Cores and size; a gauge keeps its name where gauges are bought."""
    gauge = case.system == "us" and one.conductor.endswith("AWG")
    return f"{one.cores} × {one.conductor if gauge else shown(one.area, 'cross_section', case.system)}"


def fuse_chart(case: Case, blanks: tuple[str, ...] = ()) -> Block:
    """Every circuit with its fuse and conductor."""
    rows = []
    for one in with_chargers(case.evaluation.wiring, case.evaluation.build).circuits:
        fuse = "none" if one.fuse is None else f"{one.fuse:g} A {one.fuse_type}".strip()
        kind = "AC" if one.alternating else "DC"
        rows.append((spoken(one.name), fuse, _conductor(case, one), f"{one.voltage:g} V {kind}",
                     spoken(one.takes_from), ", ".join(map(spoken, one.gives_to)), *("",) * len(blanks)))  # fmt: skip
    columns = ("circuit", "fuse", "conductor", "voltage", "from", "to", *blanks)
    if not rows:
        return Say("The build file names no circuits, so there is no chart of fuses.")
    return Table(columns, tuple(rows), (1.4, 2, 1.1, 0.9, 1.1, 1.9, *(0.8,) * len(blanks)), small=True)


HOLD_POINTS = (
    HoldPoint("arrival scale", "before anything is taken out", (
        "Tank, spare wheel, driver and tools as the file says; level ground; each wheel read twice.",
        "Plate and papers photographed: plated masses agree with the file.",
        "Sheet, ribs and floor measured and written down on the measuring sheet.",
    ), ("scales",), _wheels),
    HoldPoint("skin damping", "before wool hides the skin", (
        "Skin clean, dry and free of grease; no bubble under a pad; foil rolled flat.",
        "Drain holes and rust-proofing ways stay open.",
        "A tap with a knuckle sounds dull on every bay.",
    ), (), _damping),
    HoldPoint("floor push and bridge test", "before the walls stand on the floor", (
        "A strip of card goes all round under and beside the floor: nothing touches but mounts.",
        "Pushed down at each corner it comes back without a click; the snubbers stay clear.",
        "A tap on the body is not felt as a knock on the floor.",
    ), ("mount-least-load", "mount-most-load", "mount-spread", "floor-frequency", "snubber-clear", "bridges"), _mounts),
    HoldPoint("wiring", "before any lining covers a cable", (
        "Every cable has its label at both ends, its fuse, and a loop where it crosses the gap.",
        "No cable lies on an edge or near a hot pipe; glands are packed.",
        "Mains tested by a licensed person; residual-current device trips.",
    ), ("conductors", "voltage-drop", "first-fuse", "fused", "fuses-hold", "fuses-interrupt", "fuses-open",
        "fuses-socket", "fuses-protect", "residual-current", "residual-trip", "neutral-aboard", "neutral-on-shore",
        "chassis-bond", "isolator-reach", "isolators"), _circuits),
    HoldPoint("shell leak", "when shell, door and window are shut, before absorbers", (
        "Light inside, dark outside: no light is seen round door, window, glands and edges.",
        "A strip of paper is held by every seal all round.",
        "Smoke or a hissing source finds no leak at corners and joints.",
    ), ("door-hand-force", "door-latch", "door-hinges", "door-sag", "gland-fill"), lambda case: _gaps(case)),
    HoldPoint("airflow", "when ducts and boxes hang, before lining", (
        "No flexible duct is crushed or bent sharper than drawn; joints are taped.",
        "Nothing of the ducts touches both floating room and body.",
        "Fans run without rattle; condensate finds its way out.",
    ), ("run-flow", "terminal", "draught", "fresh-air", "fans-alone", "without-fan"), _flows),
    HoldPoint("before lining", "before the last board", (
        "Photographs of every wall with a scale in the picture, named after their face.",
        "Wool touches but is not squeezed; no screw, cable, duct or drop of glue bridges the gap.",
        "Glands are packed, routes lie as drawn, vapour checks are whole.",
        "Every anchor has its bolt torque marked.",
    ), ("bridges", "cable-bridges", "routes-bridge", "routes-glands", "cut-clear-of-ribs", "cuts-apart",
        "cuts-reinforced", "cuts-sealed", "heavy-fittings", "room-anchors", "structure-not-skin")),
    HoldPoint("finished", "before the van is handed over", (
        "Weighed wheel by wheel, tank and load as the file says.",
        "Mounts read again with the room empty, against that row of the sheet of the floor push.",
        "Levels measured as the promise sheet says, at rest and with fans.",
        "Every door opens from inside without power and in the dark; alarms are heard in every room.",
        "Handover book complete; defects listed.",
    ), ("background", "fans-alone", "rooms", "road-mass", "front-axle", "rear-axle", "side-balance",
        "headroom", "clear-width", "co2-steady", "ways-out", "way-clear", "opens-from-inside", "detectors")),
)  # fmt: skip


def _gaps(case: Case) -> list[Block]:
    rows = [
        (spoken(opening.name), opening.seals.seal.name, str(opening.seals.rows),
         shown(opening.seals.residual_gap, "length", case.system), "")
        for opening in case.evaluation.build.openings if opening.seals is not None and not opening.in_vehicle
    ]  # fmt: skip
    rows += [
        (f"edge of {spoken(surface.name)}", "joint", "", shown(surface.edge_gap, "length", case.system), "")
        for room in case.evaluation.build.rooms for surface in room.surfaces if surface.edge_gap > 0.0
    ]  # fmt: skip
    columns = ("place", "seal", "rows", "slit, at most", "slit found")
    return [Table(columns, tuple(rows), (2, 2, 0.6, 1.1, 1), small=True)] if rows else []


def hold_points(case: Case) -> Paper:
    """A sheet for each hold point, with the limits of this build."""
    lead = "Nobody goes on before the sheet is filled in and signed. What is found goes back into the build file."
    blocks: list[Block] = [*title_of(case, "Hold-point sheets"), Say(lead)]
    rows = tuple((each.name, each.when) for each in HOLD_POINTS)
    blocks.append(Table(("hold point", "when"), rows, (1, 2)))
    for each in HOLD_POINTS:
        blocks += [PageBreak(), *_sheet(case, each)]
    return Paper("hold-points", "Hold-point sheets", tuple(blocks))


def _sheet(case: Case, point: HoldPoint) -> list[Block]:
    ours = [
        one for one in case.verdicts if one.value is not None and one.limit is not None and _begins(one, point.verdicts)
    ]
    ours = _worst_each(ours)
    extra = point.tables(case)
    blocks: list[Block] = [
        Heading(f"Hold point: {point.name}"),
        Say(f"When: {point.when}.", "strong"),
        Checks(point.checks),
        *extra,
    ]
    if ours:
        blocks += [Heading("Limits", 3), limits(case, ours[:_MOST_ROWS]), *octaves_told(case, ours[:_MOST_ROWS])]
    if len(ours) > _MOST_ROWS:
        blocks.append(Say(f"{len(ours) - _MOST_ROWS} more limits stand in the dossier.", "small"))
    blocks += [Caution(each.text) for each in cautions(case, ours) if isinstance(each, Caution)]
    blocks += [
        Blanks((("what was found otherwise", ""), ("instruments", "")), 1),
        Signatures(("checked by", "released by")),
    ]
    return blocks


def _worst_each(verdicts: list[Verdict]) -> list[Verdict]:
    """Of one question with one limit the case that comes out worst: what holds there holds everywhere."""
    chosen: dict[tuple[str, float | None], Verdict] = {}
    for one in worst_first(verdicts):
        chosen.setdefault((one.question, one.limit), one)
    return list(chosen.values())


def _begins(one: Verdict, beginnings: tuple[str, ...]) -> bool:
    return any(one.id == each or one.id.startswith(f"{each}-") for each in beginnings)


def limits(case: Case, verdicts: list[Verdict]) -> Table:
    """What is expected and allowed, with a column to write in."""
    rows = tuple(
        (case.told(one.question) + (f" ({spoken(one.state)})" if one.state else ""), *_expected(case, one), "")
        for one in verdicts
    )
    return Table(("question", "expected (2u)", "limit", "measured"), rows, (3, 1.4, 1.3, 1), small=True)


def _expected(case: Case, one: Verdict) -> tuple[str, str]:
    """Value and limit in one unit; yes or no where that is what is asked."""
    if answer := yes_or_no(one):
        return answer, "yes"
    like = largest_of(one)
    spread = f" {shown_spread(2.0 * one.uncertainty, one.kind, case.system, like=like)}" if one.uncertainty else ""
    value = shown(one.value or 0.0, one.kind, case.system, like=like)
    return value + spread, f"{SENSES[one.sense]} {shown(one.limit or 0.0, one.kind, case.system, like=like)}"
