"""Octaves of a background as a table: outside, in the room, what is allowed or just heard, what counts."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hushwright.evaluation.results import Background, BetweenRooms, Evaluation
from hushwright.evaluation.sound.octaves import octaves_held
from hushwright.physics.acoustics.bands import OCTAVE_BANDS
from hushwright.report.bands import octave_cells, octave_names


@dataclass(frozen=True, slots=True)
class OctaveTable:
    """Heading, and rows with their names first."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def octave_table(found: Background, evaluation: Evaluation) -> OctaveTable:
    """Outside, in the room, what is allowed or just heard, and the share of each octave in what counts."""
    held = octaves_held(found, evaluation.build)
    rows = (
        ("outside", *octave_cells(found.outside)),
        ("in the room", *octave_cells(found.levels)),
        (held.name, *(f"{each:.0f}" if math.isfinite(each) else "·" for each in held.bound)),
        ("over it", *(_signed(each) for each in held.over)),
        ("of what counts, %", *("<1" if each < 0.01 else f"{100.0 * each:.0f}" for each in held.shares)),
    )
    return OctaveTable(("octave, Hz", *octave_names()), rows)


def octave_table_between(found: BetweenRooms) -> OctaveTable:
    """What the monitors play, what comes directly, and by how much each octave that counts lies under the monitors."""
    margins = dict(found.octave_margins)
    rows = (
        ("monitors", *octave_cells(found.monitor)),
        ("received", *octave_cells(found.received)),
        ("under the monitors", *(_signed(margins.get(octave, math.inf)) for octave in OCTAVE_BANDS)),
    )
    return OctaveTable(("octave, Hz", *octave_names()), rows)


def _signed(over: float) -> str:
    """Whole decibels with their sign; nothing is said where there is no limit.

    Examples
    --------
    >>> _signed(3.4), _signed(-3.4), _signed(-0.2), _signed(-math.inf)
    ('+3', '−3', '0', '·')
    """
    whole = round(over) if math.isfinite(over) else None
    return "·" if whole is None else "0" if not whole else f"{whole:+d}".replace("-", "−")
