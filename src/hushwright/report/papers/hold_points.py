"""Hold-point sheets: what is checked while it is still open, with the limits of this build."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

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
    Together,
)
from hushwright.report.papers.common import Case, cautions, octaves_told, spoken, title_of
from hushwright.report.papers.hold_tables import anchors, circuits, damping, flows, gaps, mounts, wheels
from hushwright.report.units_out import shown, shown_spread
from hushwright.report.verdict_text import SENSES, largest_of, worst_first, yes_or_no
from hushwright.verdicts.verdict import Verdict

_MOST_ROWS = 30
_MISSED = (
    "A limit that is not kept: nobody signs. What is found goes into the build file, which then says what hangs on it; "
    "it is mended and checked again, or agreed as a change order."
)


@dataclass(frozen=True, slots=True)
class HoldPoint:
    """One hold point: when, what is ticked, which verdicts give limits to measure against, further tables."""

    name: str
    when: str
    checks: tuple[str, ...]
    verdicts: tuple[str, ...]  # beginnings of their ids
    tables: Callable[[Case], Sequence[Block]] = lambda _: []


HOLD_POINTS = (
    HoldPoint("arrival scale", "before anything is taken out", (
        "Tank, spare wheel, driver and tools as the file says; level ground; each wheel read twice.",
        "Plate and papers photographed: plated masses agree with the file.",
        "Sheet, ribs and floor measured and written down on the measuring sheet.",
    ), ("scales",), wheels),
    HoldPoint("skin damping", "before wool hides the skin", (
        "Skin clean, dry and free of grease; no bubble under a pad; foil rolled flat.",
        "Drain holes and rust-proofing ways stay open.",
        "A tap with a knuckle sounds dull on every bay.",
    ), (), damping),
    HoldPoint("floor push and bridge test", "before the walls stand on the floor", (
        "A strip of card goes all round under and beside the floor: nothing touches but mounts.",
        "Pushed down at each corner it comes back without a click; the snubbers stay clear.",
        "A tap on the body is not felt as a knock on the floor.",
    ), ("mount-least-load", "mount-most-load", "mount-spread", "floor-frequency", "snubber-clear", "bridges"), mounts),
    HoldPoint("wiring", "before any lining covers a cable", (
        "Every cable has its label at both ends, its fuse, and a loop where it crosses the gap.",
        "No cable lies on an edge or near a hot pipe; glands are packed.",
        # Test voltage, resistance and time of the two standards: memory.
        "Mains tested by a licensed person, with electronics off or unplugged, as the local rules ask: protective "
        "conductor through, insulation (IEC 60364-6: at 500 V, at least 1 MΩ), polarity, residual-current device trips "
        "at its current within 0.3 s (IEC 61008-1).",
        "Bank side: polarity, torque of every terminal marked, drop taken at each load while it runs.",
    ), ("conductors", "voltage-drop", "first-fuse", "fused", "fuses-hold", "fuses-interrupt", "fuses-open",
        "fuses-socket", "fuses-protect", "residual-current", "residual-trip", "neutral-aboard", "neutral-on-shore",
        "chassis-bond", "isolator-reach", "isolators"), circuits),
    HoldPoint("shell leak", "when shell, door and window are shut, before absorbers", (
        "Light inside, dark outside: no light is seen round door, window, glands and edges.",
        "A strip of paper is held by every seal all round.",
        "Smoke or a hissing source finds no leak at corners and joints.",
    ), ("door-hand-force", "door-latch", "door-hinges", "door-sag", "gland-fill"), gaps),
    HoldPoint("airflow", "when ducts and boxes hang, before lining", (
        "No flexible duct is crushed or bent sharper than drawn; joints are taped.",
        "Nothing of the ducts touches both floating room and body.",
        "Fans run without rattle; condensate finds its way out.",
    ), ("run-flow", "terminal", "draught", "fresh-air", "fans-alone", "without-fan"), flows),
    HoldPoint("before lining", "before the last board", (
        "Photographs of every wall with a scale in the picture, named after their face.",
        "Wool touches but is not squeezed; no screw, cable, duct or drop of glue bridges the gap.",
        "Glands are packed, routes lie as drawn, vapour checks are whole.",
        "Every anchor sits where the list says and has its bolt torque marked.",
    ), ("bridges", "cable-bridges", "routes-bridge", "routes-glands", "cut-clear-of-ribs", "cuts-apart",
        "cuts-reinforced", "cuts-sealed", "heavy-fittings", "room-anchors", "structure-not-skin"), anchors),
    HoldPoint("finished", "before the van is handed over", (
        "Weighed wheel by wheel, tank and load as the file says.",
        "Mounts read again with the room empty, against that row of the sheet of the floor push.",
        "Level differences measured on the sheets of the promise, state by state.",
        "Background of each state below: engine off, doors as the state says, fans at rest and running, a minute at "
        "each of five places; class 1 meter whose own noise lies 10 dB lower, or the reading is a most; outside level, "
        "wind and temperature written down.",
        "Every door opens from inside without power and in the dark; alarms are heard in every room.",
        "Handover book complete; defects listed.",
    ), ("background", "fans-alone", "rooms", "road-mass", "front-axle", "rear-axle", "side-balance",
        "headroom", "clear-width", "co2-steady", "ways-out", "way-clear", "opens-from-inside", "detectors")),
)  # fmt: skip


def hold_points(case: Case) -> Paper:
    """A sheet for each hold point, with the limits of this build."""
    lead = "Nobody goes on before the sheet is filled in and signed. What is found goes back into the build file."
    blocks: list[Block] = [*title_of(case, "Hold-point sheets"), Say(f"{lead} {_MISSED}")]
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
    found = Blanks((("what was found otherwise", ""),))
    taken = Blanks((("date, temperature, weather", ""), ("instruments: kind, number, class, last calibration", "")), 2)
    blocks.append(Together((found, taken, Signatures(("checked by", "released by")))))
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
    return Table(("question", "expected (2u)", "limit", "measured"), rows, (3.5, 1.2, 1.9, 0.8), small=True)


def _expected(case: Case, one: Verdict) -> tuple[str, str]:
    """Value and limit in one unit; yes or no where that is what is asked."""
    if answer := yes_or_no(one):
        return answer, "yes"
    like = largest_of(one)
    spread = f" {shown_spread(2.0 * one.uncertainty, one.kind, case.system, like=like)}" if one.uncertainty else ""
    value = shown(one.value or 0.0, one.kind, case.system, like=like)
    limit = f"{SENSES[one.sense]} {shown(one.limit or 0.0, one.kind, case.system, like=like)}"
    if one.kind == "margin":  # of a limit that has a number in every band
        limit += " over what is allowed" if one.sense == "at_most" else " over what is needed"
    return value + spread, limit
