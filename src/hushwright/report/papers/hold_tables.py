"""Tables of the hold-point sheets: what is found is written beside what was computed."""

from __future__ import annotations

import math

from hushwright.evaluation.cost.take_off import net_area
from hushwright.evaluation.power.chargers import with_chargers
from hushwright.evaluation.results import MountLoad
from hushwright.evaluation.results.wiring import CircuitResult
from hushwright.evaluation.sound.floor import on_the_first_day
from hushwright.model.anchoring_in_place import AnchorInPlace
from hushwright.physics.air import Air
from hushwright.report.papers.blocks import Block, Printed, Say, Table
from hushwright.report.papers.common import Case, spoken
from hushwright.report.units_out import shown

_YEAR, _ABOUT_A_YEAR = 365.25 * 86_400.0, 0.95  # s; share of a year from which years are told
_STILL = 1e-4  # m³/s, under which the air of a run stands still and nothing is to be measured


def wheels(case: Case) -> list[Block]:
    """Bare van by axle as the file has it, and blanks for the scales, wheel by wheel."""
    kerb = case.evaluation.build.vehicle.kerb
    rows = tuple(
        (name, shown(value, "mass", case.system), "", "")
        for name, value in (("total", kerb.total), ("front axle", kerb.front), ("rear axle", kerb.rear))
    )
    wheels = tuple((f"{name} wheel", "", "", "") for name in ("front left", "front right", "rear left", "rear right"))
    return [Table(("bare van", "in the file", "scales", "difference"), rows + wheels, (2, 1, 1, 1))]


def damping(case: Case) -> list[Block]:
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


def mounts(case: Case) -> list[Block]:
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


def flows(case: Case) -> list[Block]:
    """Every run that moves air, state by state: flow wanted and expected, pressure of its fan."""
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


def circuits(case: Case) -> list[Block]:
    """Fuse chart with blanks for the tests of each circuit."""
    return [fuse_chart(case, ("insulation", "polarity", "drop"))]


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
    return Table(columns, tuple(rows), (0, 0, 0, 0, 0, 2.2, *(0.95,) * len(blanks)), small=True)


def gaps(case: Case) -> list[Block]:
    """Seals and joints with the widest slit that the prediction stands on."""
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


def anchors(case: Case, blank: str = "torque marked") -> list[Printed]:
    """Where each anchor of the floating room sits, and what it has to carry; no sheet draws them."""
    held = case.evaluation.build.anchoring.room
    if not held:
        return []
    rows = tuple(_anchor(case, f"{number}", each) for number, each in enumerate(held, start=1))
    columns = ("anchor of the floating room", "station", "from the middle", "over the floor", "into", "made for",
               blank)  # fmt: skip
    return [Table(columns, rows, (2, 0.9, 1.2, 1.1, 1, 0.9, 0.6), right=(1, 2, 3, 5), small=True)]


def _anchor(case: Case, name: str, one: AnchorInPlace) -> tuple[str, ...]:
    station, across, height = (shown(abs(each), "length", case.system) for each in one.at)
    side = "left" if one.at[1] > 0.0 else "right" if one.at[1] < 0.0 else ""
    made_for = shown(one.strength, "force", case.system) + (", assumed" if one.strength_assumed else "")
    return name, station, f"{across} {side}".strip(), height, one.seat or "not said", made_for, ""
