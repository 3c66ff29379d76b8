"""Venue sheet, and the handover book that stays with the van."""

from __future__ import annotations

import math

from hushwright.document.schema.handing_over import Handover
from hushwright.report.labels import OUTCOMES
from hushwright.report.papers.blocks import (
    Blanks,
    Block,
    Checks,
    Contents,
    Heading,
    PageBreak,
    Paper,
    Say,
    Signatures,
    Table,
)
from hushwright.report.papers.common import Case, cautions, spoken, title_of
from hushwright.report.papers.hold_points import limits
from hushwright.report.papers.hold_tables import creep_told, fuse_chart
from hushwright.report.papers.promise import state_told
from hushwright.report.safety import equipment_told
from hushwright.report.units_out import shown

_PLATED = ("road-mass", "front-axle", "rear-axle", "side-balance")
_HARM = 0.005  # share of carbon dioxide, from which a card has to tell it: limit of working days
_ON_THE_SPOT = (
    "Way in: height, width, slope and ground carry the van; a way out stays free.",
    "Level ground; wheels chocked; nothing blocks the doors of the ways out, which open fully.",
    "Exhausts of heater, generator and neighbours are down wind of every intake of air.",
    "Supply: socket, protection and residual-current device tested; cable unrolled; connection dry.",
    "Cables where people walk are covered; steps and edges are lit.",
    "Awning only in wind below its maker's limit, guyed, and taken in when nobody is there.",
    "Outside noise listened to for five minutes; its level is written down.",
    "Somebody outside knows that people are in the {room}, and how to open it.",
)


def venue(case: Case) -> Paper:
    """One sheet for each venue of the file, or one to fill in."""
    root = case.evaluation.build.document.root
    blocks: list[Block] = title_of(case, "Venue sheet")
    names = tuple(root.venue) or ("",)
    for number, name in enumerate(names):
        if number:
            blocks.append(PageBreak())
        blocks += _venue(case, name)
    return Paper("venue", "Venue sheet", tuple(blocks))


def _venue(case: Case, name: str) -> list[Block]:
    ours = [one for one in case.verdicts if name and one.place.startswith(f"venue.{name}") and one.value is not None]
    head = f"Venue: {spoken(name)}" if name else "Venue"
    fields = (("place", spoken(name)), ("date", ""), ("contact on the spot, as a role", ""), ("weather, gusts", ""),
              ("noise outside", ""), ("rescue: number and nearest way", ""))  # fmt: skip
    blocks: list[Block] = [Heading(head), Blanks(fields, 2), Heading("On arrival", 2), Checks(_on_arrival(case))]
    limited = [one for one in ours if one.limit is not None]
    if limited:
        blocks += [Heading("Limits of this venue", 2), limits(case, limited)]
    states = [state for state in case.evaluation.build.states if state.takes]
    blocks += [
        Heading("To record", 2),
        *(Say(f"{spoken(state.name)}: {state_told(case, state.name)}") for state in states),
    ]
    blocks += [*cautions(case, ours), Signatures(("responsible on the spot",))]
    return blocks


def _on_arrival(case: Case) -> tuple[str, ...]:
    """What is looked at on the spot; people stay shut in the quiet room, or in the van where there is none."""
    quiet = case.evaluation.build.room_for("quiet")
    room = "van" if quiet is None else spoken(quiet.name)
    return tuple(each.format(room=room) for each in _ON_THE_SPOT)


def handover(case: Case) -> Paper:
    """Operating card, fuse chart, keys, spares, inspections, as built, photographs, warranty, defects."""
    book = case.evaluation.build.document.root.handover or Handover()
    dated = case.evaluation.build.document.root.date
    told = f"Prepared from the file of {dated}" if dated else "Prepared from the build file"
    lead = f"{told}; what is as built, measured and found is filled in at handover."
    blocks: list[Block] = [*title_of(case, "Handover book"), Say(lead), Contents(), *_operating(case, book)]
    blocks += [
        Heading("Fuse chart", fresh=True),
        fuse_chart(case),
        *_ways_out(case),
        *_lists(case, book),
        *_inspections(case, book),
    ]
    blocks += [*_as_built(case, book), *_warranty(case, book), *_defects(case, book)]
    blocks += [Heading("Cautions", fresh=True), *cautions(case), Signatures(("handed over by", "taken over by"))]
    return Paper("handover", "Handover book", tuple(blocks))


def _operating(case: Case, book: Handover) -> list[Block]:
    """Steps of the file, then what each state of use needs."""
    blocks: list[Block] = [Heading("Operating card", fresh=True)]
    blocks += [Say(f"{number}. {case.told(step)}") for number, step in enumerate(book.operating, start=1)]
    aboard, missing = equipment_told(case.evaluation)
    if aboard or missing:
        lacks = f"{'. ' if aboard else ''}Missing of what is asked for: {missing}" if missing else ""
        blocks.append(Say(f"For a fire, the way out and first aid: {case.told(aboard)}{lacks}."))
    rows = tuple(
        (spoken(state.name), state_told(case, state.name),
         ", ".join(map(spoken, state.unloaded)) or "–", ", ".join(map(spoken, state.out)) or "–")
        for state in case.evaluation.build.states
    )  # fmt: skip
    blocks.append(Table(("state", "doors and fans", "not aboard", "out"), rows, (1.2, 3, 1.3, 1.3)))
    blocks += _on_the_road(case)
    told = []
    for air in case.evaluation.air.states:
        for room in air.rooms:
            reached = [(limit, time) for limit, time in room.without_fan if math.isfinite(time) and limit >= _HARM]
            if reached:
                limit, time = reached[0]
                reach = shown(limit, "concentration", case.system)
                after = shown(time, "time", case.system)
                told.append(f"{spoken(air.state)}, {spoken(room.room)}: when the fans stop, {reach} carbon dioxide are"
                            f" reached after {after}.")  # fmt: skip
    if not told:
        return blocks
    lead = "So much is the limit for a working day; everybody is out before, alarm or not."
    return [*blocks, Heading("When the fans stop", 2), *(Say(text) for text in dict.fromkeys(told)), Say(lead, "small")]


def _on_the_road(case: Case) -> list[Block]:
    """Masses on the road against the plate, to be filled in from the ticket of the finished van."""
    ours = [one for one in case.verdicts if one.id.startswith(_PLATED) and one.value is not None]
    return [Heading("On the road", 2), limits(case, ours)] if ours else []


def _ways_out(case: Case) -> list[Block]:
    rows = tuple(
        (
            spoken(way.room),
            " then ".join(map(spoken, way.through)),
            "serves" if way.serves else "; ".join(way.hindrances),
        )
        for way in case.evaluation.safety.ways
    )
    unique = tuple(dict.fromkeys(rows))
    if not unique:
        return []
    lacking = [one for one in case.verdicts if one.id.startswith("ways-out-") and one.verdict in ("fails", "unproven")]
    told = [Say(f"{OUTCOMES[one.verdict]}: {case.told(one.question)} {case.told(one.hint)}") for one in lacking]
    return [Heading("Ways out", 2), Table(("from", "through", ""), unique, (1, 2.4, 2)), *told]


def _lists(case: Case, book: Handover) -> list[Block]:
    blocks: list[Block] = []
    for name, texts in (("Keys", book.keys), ("Spares", book.spares), ("Torques", book.torques)):
        blocks.append(Heading(name, 2))
        blocks += [Say(f"– {case.told(text)}") for text in texts] or [Blanks((("", ""), ("", "")))]
    return blocks


def _inspections(case: Case, book: Handover) -> list[Block]:
    """Usual inspections, those of the mounts with their own numbers, and those of the file."""
    rows = [(one.what, one.every, case.told(one.how)) for one in book.inspections]
    named = " ".join(one.what.lower() for one in book.inspections)
    rows += [row for row in _usual(case) if row[0].split()[0].lower() not in named]
    lead = "Intervals are common practice, no source, unless the build file gives its own."
    table = Table(("what", "every", "how, and what is still good"), tuple(rows), (1.4, 1, 3))
    return [Heading("Inspections", 2), Say(lead, "small"), table]


def _usual(case: Case) -> list[tuple[str, str, str]]:
    """Seals, mounts, lock, detectors, torque, residual-current device."""
    mounts = case.evaluation.mounts
    pressed = ""
    if mounts:
        worst = max((load.deflection, one.state) for one in mounts for load in one.loads)
        pressed = f" Computed is at most {shown(worst[0], 'length', case.system)} under"
        pressed += f" load in state {spoken(worst[1])} after {creep_told(case)} of creep; less on the first day."
    return [
        (
            "Seals of doors and windows",
            "3 months",
            "A strip of paper is held all round; torn or flat ones are replaced.",
        ),
        ("Mounts, creep", "12 months", f"Height at every mount against the day of handover; nothing touches.{pressed}"),
        (
            "Lock and inside lever",
            "before every use",
            "Opens from inside without power, in the dark, by the smallest person.",
        ),
        (
            "Detectors and alarms",
            "before every use",
            "Test button; heard in every room with its door shut; date of the cell.",
        ),
        *_of_equipment(case),
        ("Torque of anchors and seats", "12 months", "Marks in line; retightened to the list above."),
        ("Residual-current device", "3 months", "Test button trips it; a licensed person tests it yearly."),
        ("Filters and condensate", "3 months", "Filter clean; water finds its way out."),
        ("Bank", "6 months", "Terminals tight, no swelling, charge as its maker says."),
    ]


def _of_equipment(case: Case) -> list[tuple[str, str, str]]:
    """Extinguishers and the like, where the file names any."""
    aboard, _missing = equipment_told(case.evaluation)
    how = "In place and free to take; pressure, seal and dates; served as its maker and local rules ask"
    return [("Equipment for fire and first aid", "12 months", f"{how}: {case.told(aboard)}.")] if aboard else []


def _as_built(case: Case, book: Handover) -> list[Block]:
    swapped = tuple((case.told(one.planned), case.told(one.built), one.place, one.date) for one in book.substitutions)
    shots = tuple((one.place, case.told(one.shows), one.file) for one in book.photographs)
    return [
        Heading("As built", fresh=True), Heading("Built otherwise than planned", 2),
        Table(("planned", "built", "where", "when"), swapped or (("", "", "", ""),) * 4, (2, 2, 1.4, 1)),
        Heading("Behind the linings", 2),
        Table(("place", "shows", "picture"), shots or (("", "", ""),) * 4, (1.5, 3, 1.3)),
    ]  # fmt: skip


def _warranty(case: Case, book: Handover) -> list[Block]:
    texts = book.warranty or ("Nothing is agreed in the build file; the law of the place holds.",)
    open_ones = [one for one in case.verdicts if one.verdict in ("fails", "unproven")]
    blocks: list[Block] = [Heading("Warranty and its limits", 2), *(Say(f"– {case.told(text)}") for text in texts)]
    if open_ones:
        names = dict.fromkeys(one.group for one in open_ones)
        blocks.append(
            Say(
                f"Open in the file that this book was prepared from: {len(open_ones)} verdicts in "
                f"{', '.join(names)}; see the dossier."
            )
        )
    return blocks


def _defects(case: Case, book: Handover) -> list[Block]:
    rows = tuple((case.told(one.what), one.found, case.told(one.mended)) for one in book.defects) + (("", "", ""),) * 6
    return [Heading("Defect log", 2), Table(("defect", "found", "mended"), rows, (3, 1, 2))]
