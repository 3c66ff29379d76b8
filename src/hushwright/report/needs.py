"""What each build-up has to keep out: in words for an explanation, as nodes for other programs."""

from __future__ import annotations

import re
from typing import Any

from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.sound.needs import FaceNeed, asked_faces, needs_of, sounds_of
from hushwright.evaluation.sound.seals import slit_share_of
from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS
from hushwright.report.labels import heading as words
from hushwright.report.layout import heading, table, wrapped
from hushwright.report.units_out import restated
from hushwright.report.verdict_text import percent_cell
from hushwright.units import System
from hushwright.verdicts.seals import said_of_slit
from hushwright.verdicts.verdict import Verdict

_COUNTS = 0.01
"""Share [-] below which a build-up is not listed; common practice, no source."""


def needs_behind(verdict: Verdict, evaluation: Evaluation) -> tuple[FaceNeed, ...]:
    """Needs of every build-up in the sound that a verdict judges, largest share first."""
    keys = {each.key for each in sounds_of(evaluation) if re.sub("[/_ ]", "-", each.key) == verdict.id}
    if not keys:
        return ()
    names = asked_faces(evaluation)
    found = [need for name in names for need in needs_of(evaluation, name) if need.sound.key in keys]
    return tuple(sorted(found, key=lambda each: -each.share))


def need_rows(verdict: Verdict, evaluation: Evaluation, system: System) -> list[str]:
    """The needs as a table, with how bands are judged."""
    found = [each for each in needs_behind(verdict, evaluation) if each.share >= _COUNTS]
    if not found:
        return []
    rows = [("build-up", "share", "its sound reduction", "with nothing through it", "most at")]
    rows += [
        (_named(each.together), percent_cell(each.share),
         _may(each), _left(each.without), f"{each.band:g} Hz")
        for each in found
    ]  # fmt: skip
    told = f"Against {found[0].sound.asks}; {found[0].sound.drawn}. Nominal, all other ways as they stand."
    lines = [*heading(words("needed")), *wrapped(told, indent=2), *table(rows, right=(1, 4))]
    return lines + _slit_lines(found, evaluation, system)


def _slit_lines(needs: list[FaceNeed], evaluation: Evaluation, system: System) -> list[str]:
    """What the slits of the listed doors and windows count."""
    lines = []
    for need in needs:
        slit = slit_share_of(evaluation, need.name)
        if slit is not None:
            told = restated(said_of_slit(slit), system)
            lines += wrapped(f"{_named(need.together)}: {told[0].lower()}{told[1:]}", indent=4, hanging=6)
    return lines


def _named(together: tuple[str, ...]) -> str:
    """First face of a build-up, with how many more have it."""
    first = together[0].replace("_", " ").replace(".", " ")
    return f"{first} and {len(together) - 1} alike" if len(together) > 1 else first


def _may(need: FaceNeed) -> str:
    if need.spare is None:
        return "no rise is enough alone"
    return f"may fall by {need.spare:.1f} dB" if need.spare >= 0.0 else f"has to rise by {-need.spare:.1f} dB"


def _left(without: float) -> str:
    return f"{without:.1f} dB to spare" if without >= 0.0 else f"still {-without:.1f} dB over"


def need_nodes(evaluation: Evaluation) -> list[dict[str, Any]]:
    """Needs of every build-up in every sound that the brief limits, by third octaves; null where nothing is asked.

    A band in which the other ways alone are over is null too, and listed.
    """
    found = []
    for name in asked_faces(evaluation):
        for each in needs_of(evaluation, name):
            found.append({
                "build_up": list(each.together), "sound": each.sound.key, "share": round(each.share, 4),
                "spare_db": None if each.spare is None else round(each.spare, 2),
                "without_it_db": round(each.without, 2),
                "margin_db": [None if one is None else round(one, 2) for one in each.margin],
                "margin_uncertainty_db": [round(one, 2) for one in each.margin_uncertainty],
                "needed_db": [None if one is None else round(one, 2) for one in each.needed],
                "needed_if_all_fall_alike_db": [None if one is None else round(one, 2) for one in each.shared_need],
                "others_alone_over_hz": [THIRD_OCTAVE_BANDS[index] for index in each.beyond_it],
            })  # fmt: skip
    return found
