"""The promise sheet: what both agree to measure, band by band, and what nobody promises."""

from __future__ import annotations

import math

from hushwright.evaluation.results import Background, Bands, BetweenRooms
from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS
from hushwright.physics.acoustics.weighting import a_weighted_level
from hushwright.report.papers.acceptance import BETWEEN, METHOD, Measured, acceptance_sheets
from hushwright.report.papers.blocks import Block, Caution, Heading, Paper, Printed, Say, Signatures, Table, Together
from hushwright.report.papers.common import Case, spoken, title_of
from hushwright.report.round_distances import in_units

PROMISED = (100.0, 3150.0)
"""Hz, bands in which level differences of buildings are measured and rated: ISO 16283-1 and ISO 717-1."""

_NOT = (
    "Bands under 100 Hz and over 3150 Hz are not promised: rooms this small have too few modes below, and above the "
    "levels inside are too low to be measured. What is predicted there stands in the dossier.",
    "Nobody promises silence: a loud and low sound close to the van is heard inside.",
)


def promise(case: Case) -> Paper:
    """Level differences with their states, method, what is not promised, lines to sign."""
    evaluation = case.evaluation
    lead = (
        "Promised is the predicted level difference less twice its uncertainty, in whole decibels: what is surely "
        "kept. It holds for the state of doors and fans and for the situation outside that its table names and no "
        "other; both sign for these. From outside counts what comes in through faces, openings, ducts and mounts; "
        "fans, moving air and devices aboard are judged on their own."
    )
    blocks: list[Block] = [*title_of(case, "Promise sheet"), Say(lead)]
    quiet = [one for one in evaluation.backgrounds if not one.key.startswith("rain/") and one.from_outside]
    chosen = _one_a_state(quiet)
    tables: list[Measured] = []
    for one in chosen:
        most = _least([each for each in chosen if _opened(case, each) < _opened(case, one)])
        tables.append(_to_measure_outside(case, one, most))
        blocks.append(Together(_from_outside(case, one, [each for each in quiet if each.state == one.state], most)))
    for room in evaluation.between_rooms:
        tables.append(_to_measure_between(case, room))
        blocks.append(Together(_between(case, room)))
    if not quiet and not evaluation.between_rooms:
        blocks.append(Say("This build has no quiet room, so no level difference is promised."))
        return Paper("promise", "Promise sheet", tuple(blocks))
    blocks += [
        Heading("How it is measured", 2), _method(case),
        Heading("What is not promised", 2), *(Say(text) for text in _NOT),
        Caution("A promise of both, not a certificate; the finished van is measured before it is signed off."),
        Signatures(("workshop", "client")), *acceptance_sheets(case, tables),
    ]  # fmt: skip
    return Paper("promise", "Promise sheet", tuple(blocks))


def _method(case: Case) -> Table:
    rows = tuple((name, in_units(text, case.system)) for name, text in METHOD
                 if name != BETWEEN or case.evaluation.between_rooms)  # fmt: skip
    return Table(("", ""), rows, (0.16, 0.84), small=True)


def _one_a_state(backgrounds: list[Background]) -> list[Background]:
    """The same situation in every state that knows it, so that tables can be compared: the one that leaves least."""
    states = {one.state for one in backgrounds}
    kept: dict[str, float] = {}
    for situation in dict.fromkeys(one.situation for one in backgrounds):
        ours = [one for one in backgrounds if one.situation == situation]
        if {one.state for one in ours} == states:
            kept[situation] = sum(sum(_kept_of(one)) for one in ours)
    common = min(kept, key=kept.__getitem__, default="")
    chosen: dict[str, Background] = {}
    for one in backgrounds:
        if one.situation == common or one.state not in chosen:
            chosen[one.state] = one
    return list(chosen.values())


def _kept_of(one: Background) -> list[float]:
    return [each - 2.0 * u for each, u in zip(_differences(one), one.from_outside_uncertainty, strict=True)]


def _differences(one: Background) -> Bands:
    """Between the level outside and what comes in from there alone."""
    return tuple(outside - inside for outside, inside in zip(one.outside, one.from_outside, strict=True))


def _opened(case: Case, one: Background) -> frozenset[str]:
    return frozenset(next(each.open for each in case.evaluation.build.states if each.name == one.state))


def _least(backgrounds: list[Background]) -> Bands:
    """What is kept at least, band by band: more open doors never promise more than fewer."""
    kept = [_kept_of(one) for one in backgrounds]
    return tuple(map(min, zip(*kept, strict=True))) if kept else (math.inf,) * len(THIRD_OCTAVE_BANDS)


def _to_measure_outside(case: Case, one: Background, most: Bands) -> Measured:
    brief = case.evaluation.build.brief
    side = next((each.comes_from for each in brief.situations if each.name == one.situation), "all round")
    kept = promised(_differences(one), one.from_outside_uncertainty, most)
    return Measured(_outside_heading(one), state_told(case, one.state), side, kept)


def _to_measure_between(case: Case, one: BetweenRooms) -> Measured:
    kept = promised(one.level_difference, one.uncertainty, _least([]))
    return Measured(f"Between the rooms, state {spoken(one.state)}", state_told(case, one.state), "", kept)


def promised(differences: Bands, uncertainty: Bands, most: Bands) -> tuple[tuple[float, int], ...]:
    """Bands for which something is promised, each with its level difference in whole decibels [Hz, dB]."""
    found = []
    for band, difference, u, highest in zip(THIRD_OCTAVE_BANDS, differences, uncertainty, most, strict=True):
        kept = math.floor(min(difference - 2.0 * u, highest))
        if PROMISED[0] <= band <= PROMISED[1] and kept > 0:
            found.append((band, kept))
    return tuple(found)


def _outside_heading(one: Background) -> str:
    where = f"From outside into the {spoken(one.room)}"
    return f"{where}, state {spoken(one.state)}, situation {spoken(one.situation)}"


def _from_outside(case: Case, one: Background, situations: list[Background], most: Bands) -> tuple[Printed, ...]:
    """One state: its doors and fans, the bands, and every situation in words."""
    blocks: list[Printed] = [Heading(_outside_heading(one), 2), Say(state_told(case, one.state), "strong")]
    for each in situations:
        outside, alone = a_weighted_level(each.outside), a_weighted_level(each.from_outside)
        told = f"of {outside:.0f} dB(A) in front of the van about {alone:.0f} dB(A) come in"
        told += f"; with fans and devices {a_weighted_level(each.levels):.0f} dB(A) are expected inside."
        blocks.append(Say(f"{spoken(each.situation)}: {told}"))
    names = ("outside", "comes in")
    level = f"{a_weighted_level(one.outside):.0f} dB(A)"
    return (
        *blocks,
        Say(f"Levels of this table: situation {spoken(one.situation)}, {level} in front of the van."),
        _bands(one.outside, one.from_outside, _differences(one), one.from_outside_uncertainty, names, most),
    )


def _between(case: Case, one: BetweenRooms) -> tuple[Printed, ...]:
    lead = f"{state_told(case, one.state)} Predicted DnT,w {one.standardized_rating} dB."
    return (
        Heading(f"Between the rooms, state {spoken(one.state)}", 2), Say(lead, "strong"),
        _bands(one.source_levels, one.received, one.level_difference, one.uncertainty, ("source room", "other room"),
               _least([])),
    )  # fmt: skip


def _bands(
    loud: Bands, quiet: Bands, differences: Bands, uncertainty: Bands, names: tuple[str, str], most: Bands
) -> Table:
    """Bands side by side in two halves, so that a sheet holds them; ``most`` is what may be promised at all."""
    rows = []
    kept = dict(promised(differences, uncertainty, most))
    for band, outside, inside, difference, u in zip(
        THIRD_OCTAVE_BANDS, loud, quiet, differences, uncertainty, strict=True
    ):
        if PROMISED[0] <= band <= PROMISED[1]:
            told = f"{kept[band]} dB" if band in kept else "not promised"
            rows.append((f"{band:g}", f"{outside:.0f}", f"{inside:.0f}", f"{difference:.0f}", f"±{2.0 * u:.0f}", told))
    half = -(-len(rows) // 2)
    empty = ("",) * 6
    paired = tuple(
        (*left, *(rows[half + at] if half + at < len(rows) else empty)) for at, left in enumerate(rows[:half])
    )
    columns = ("Hz", *names, "difference", "2u", "promised") * 2
    return Table(columns, paired, (0.7, 0.9, 0.9, 1, 0.7, 1.3) * 2, right=tuple(range(12)), small=True)


def state_told(case: Case, name: str) -> str:
    """Doors and fans of a state in words."""
    state = next(each for each in case.evaluation.build.states if each.name == name)
    doors = f"open: {', '.join(map(spoken, state.open))}" if state.open else "every door and window shut"
    fans = f"fans of {', '.join(map(spoken, state.fans))} run" if state.fans else "no fan runs"
    return f"{doors[0].upper()}{doors[1:]}; {fans}."
