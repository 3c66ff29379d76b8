"""Sheets to fill in when what is promised is measured: method, states, bands, and what happens where one is missed."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from hushwright.report.papers.blocks import (
    Blanks,
    Block,
    Caution,
    Checks,
    Heading,
    PageBreak,
    Printed,
    Say,
    Signatures,
    Table,
    Together,
)
from hushwright.report.papers.common import Case
from hushwright.report.round_distances import in_units

BETWEEN: Final = "between rooms"
METHOD: Final = (
    (
        "outside level",
        "That of the place without the van, as in the brief. It is taken first: marks for the van's corners on "
        "level ground without walls near, the loudspeaker at least 7 m from the nearest face, broadband noise, "
        "the mean of five places within the marks, 1.5 m over ground. Then the van is set on its marks and the "
        "noise stays as it is; a second microphone 1 m before the loudspeaker shows it within 0.5 dB. After the "
        "loudspeaker method of ISO 16283-3 as far as a van allows; there the microphone stands 2 m before the "
        "face, whose reflection adds about 3 dB (ISO 1996-2).",
    ),
    (
        BETWEEN,
        "The loudspeaker in a corner of the quiet room, mean levels of both rooms, in the manner of ISO 16283-1.",
    ),
    (
        "in a room",
        "Five places, 0.7 m from one another, 0.5 m from faces and things, 1 m from a loudspeaker, as far as the "
        "room has the space; where it has not, the sheet says how it was done. Fifteen seconds at least at each; "
        "nobody in the room but who measures. The mean is that of the energies.",
    ),
    (
        "instruments",
        "Sound level meter of class 1 after IEC 61672-1 with third-octave filters of class 1 after IEC 61260-1, "
        "calibrator of class 1 after IEC 60942 before and after, not more than 0.5 dB apart. A meter of class 2 "
        "serves only where both agree before. Its own noise counts as background.",
    ),
    (
        "background",
        "In each band the level inside is taken again without the loudspeaker. Where it lies 10 dB or more lower,"
        " nothing is corrected; from 6 to 10 dB the level is corrected as the sheet says; under 6 dB by 1.3 dB, "
        "and the difference is then a least: it may keep a promise, it cannot break one (ISO 16283-1). So the "
        "loudspeaker gives in every band the promised difference plus the background plus 10 dB. Fans and devices"
        " are no way from outside: a band that they cover is taken again with them off, the ducts as they are.",
    ),
    (
        "what counts",
        "The measured level difference of each band; it keeps the promise when it is not less than the promised one.",
    ),
)
"""How it is measured. Distances and corrections are those of the standards named, from memory."""

_MISSED: Final = (
    "Bands and amounts that are missing are written down, both sign them, and nothing is signed off.",
    "Once more with the fans off, doors and window pressed, paper held by every seal: a seal, a gland or a fan "
    "shows here.",
    "The sheets of the hold points shell leak, floor push and before lining are gone through again: card under "
    "the floor, light and hiss at the joints, cables and ducts across the gap.",
    "What is found is mended by the workshop and measured again in every band. What cannot be mended is agreed as"
    " a change order; what was measured goes into the build file for the next van.",
)
_SIDES: Final = {
    "all round": "in turn on the left, on the right, before the front and behind the rear; outside and inside the "
    "energies of the four are averaged",
    "above": "above the van",
    "left": "on the left", "right": "on the right", "front": "before the front", "rear": "behind the rear",
}  # fmt: skip
_LEAST_APART, _FAR_APART = 6, 10  # dB, ISO 16283-1: between these the level is corrected


@dataclass(frozen=True, slots=True)
class Measured:
    """One table of the promise to be measured: where, how the van stands, from which side, what is promised [dB]."""

    heading: str
    state: str
    comes_from: str  # empty between rooms
    bands: tuple[tuple[float, int], ...]


def acceptance_sheets(case: Case, tables: list[Measured]) -> list[Block]:
    """A sheet for each table that promises anything, and what happens where a promise is missed."""
    blocks: list[Block] = []
    for one in tables:
        if one.bands:
            blocks += [PageBreak(), *_sheet(case, one)]
    if blocks:
        blocks.append(Together((Heading("Where a promise is not kept", 2), Checks(_MISSED))))
        blocks.append(Caution("What is read before linings and gear go in can still be mended."))
    return blocks


def _sheet(case: Case, one: Measured) -> list[Printed]:
    asked = (
        "date, from and to", "measured by", "place, ground, walls near", "weather: dry, wind under 5 m/s",
        "temperature outside and inside", "background, what is heard",
        "sound level meter: class, number, last calibration", "calibrator: before and after", "loudspeaker and noise",
        "where the microphones stood",
    )  # fmt: skip
    ways = [f"State: {one.state}", "Everything aboard as in use; nobody in the room but who measures."]
    if one.comes_from:
        ways.append(f"The loudspeaker stands {_SIDES.get(one.comes_from, one.comes_from)}.")
        columns = ("Hz", "outside", "inside", "without loudspeaker", "corrected", "difference", "promised", "kept")
    else:
        ways.append("The loudspeaker stands in a corner of the quiet room.")
        columns = (
            "Hz",
            "source room",
            "other room",
            "without loudspeaker",
            "corrected",
            "difference",
            "promised",
            "kept",
        )
    rows = tuple((f"{band:g}", "", "", "", "", "", f"{kept} dB", "") for band, kept in one.bands)
    blanks = tuple((in_units(name, case.system), "") for name in asked)
    return [
        Heading(f"To be measured: {one.heading[:1].lower()}{one.heading[1:]}"),
        Checks(tuple(ways)),
        Blanks(blanks, 2),
        Table(columns, rows, (0.6, 1, 1, 1.2, 1, 1, 0.9, 0.6), right=(0, 6), to_write=True),
        Say(_corrections(), "small"),
        Signatures(("workshop", "client")),
    ]


def _corrections() -> str:
    """Correction for the background at each whole difference, as ISO 16283-1 has it."""
    told = ", ".join(
        f"{apart} dB: {-10.0 * math.log10(1.0 - 10.0 ** (-apart / 10.0)):.1f} dB"
        for apart in range(_LEAST_APART, _FAR_APART)
    )
    return f"To take off where the level without the loudspeaker lies lower by {told}."
