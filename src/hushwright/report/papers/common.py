"""Parts that several papers share: title, verdict cards, cautions."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from hushwright.evaluation.cost.options import OptionResult
from hushwright.evaluation.results import REPORTED, Evaluation
from hushwright.model.wishes import Target
from hushwright.report.labels import OUTCOMES, label
from hushwright.report.papers.blocks import Block, Caution, Judged, Say
from hushwright.report.units_out import restated, shown
from hushwright.report.verdict_text import count_of_outcomes, numbers_of, placed
from hushwright.units import System
from hushwright.verdicts.verdict import Verdict

_MARKED = re.compile(r"`([^`]+)`")
_PATH = re.compile(r"\w+(?:\.\w+)*")
_EVERY_OCTAVE = 63.0  # Hz, from which the classic curves begin


IN_THE_FILE = "in the file"
"""Label of the one line of a card that holds a place in the build file as it is typed."""


@dataclass(frozen=True, slots=True)
class Case:
    """Everything that a paper is made of."""

    evaluation: Evaluation
    verdicts: tuple[Verdict, ...]
    options: tuple[OptionResult, ...]
    system: System

    def told(self, text: str) -> str:
        """Prose in the wanted units, without marks of code."""
        return without_code_marks(restated(text, self.system))


def without_code_marks(text: str) -> str:
    """Prose for people: what stands as typed in a file stands in quotation marks, names in words.

    Examples
    --------
    >>> without_code_marks("named under `safety.ways_out`, or `of: headphones`")
    'named under “safety, ways out”, or “of: headphones”'
    """
    told = _MARKED.sub(lambda found: f"“{spoken(found[1]) if _PATH.fullmatch(found[1]) else found[1]}”", text)
    return told.replace("`", "")


def spoken(name: str) -> str:
    """Name of a room, state or opening as it is printed."""
    return name.replace("_", " ").replace(".", ", ")


def title_of(case: Case, kind: str) -> list[Block]:
    """Head of a paper: build, what it is, of which revision."""
    build = case.evaluation.build
    root = build.document.root
    drawn = build.drawn
    named = [f"revision {drawn.revision}" if drawn.revision else "", f"job {drawn.number}" if drawn.number else ""]
    line = " · ".join(text for text in (kind, root.date, *named) if text)
    blocks: list[Block] = [Say(build.title or "Untitled build", "title"), Say(line, "lead")]
    return blocks + ([Say(case.told(root.note))] if root.note else [])


def summary(verdicts: Sequence[Verdict]) -> str:
    """How everything came out, in one line."""
    return count_of_outcomes(verdicts)


def octaves_told(case: Case, verdicts: Sequence[Verdict]) -> list[Block]:
    """Which octaves a limit on a curve counts, and what dB(A) beside it means."""
    texts = []
    for one, target, heard in without_low_octaves(case, verdicts):
        lowest = shown(target.lowest_band, "frequency", case.system)
        beside = (
            f" Beside it {heard:.0f} dB(A) are expected, which count every band from 25 Hz to 10 kHz."
            if heard is not None
            else ""
        )
        texts.append(
            f"{case.told(one.question)} The limit {target.text} counts octaves from {lowest} up; what lies "
            f"lower is not judged by it and may be heard.{beside}"
        )
    return [Say(text, "small") for text in dict.fromkeys(texts)]


def without_low_octaves(case: Case, verdicts: Sequence[Verdict]) -> list[tuple[Verdict, Target, float | None]]:
    """Verdicts on a curve that leaves out the lowest octaves, with the target and the expected level in dB(A)."""
    found = []
    for one in verdicts:
        target = _target_at(case, one.place)
        if target is not None and target.kind in ("NC", "NR") and target.lowest_band > _EVERY_OCTAVE:
            found.append((one, target, next((line.value for line in one.lines if line.name == "dB(A)"), None)))
    return found


def _target_at(case: Case, place: str) -> Target | None:
    """Target of the brief that a verdict is held against."""
    brief = case.evaluation.build.brief
    targets = [each.target for each in brief.situations] + ([brief.rain[1]] if brief.rain else [])
    return next((each for each in targets if each is not None and each.place == place), None)


def card(case: Case, one: Verdict) -> Judged:
    """A verdict with everything that is said about it."""
    lines = [(line.name, f"{line.told}; {case.told(line.text)}") for line in one.lines]
    lines += [(label("basis"), case.told(one.basis))]
    lines += [(label("reason"), case.told(one.reason)), (label("hint"), case.told(one.hint))]
    lines += [(label("validity"), case.told(note.removeprefix(REPORTED))) for note in one.validity]
    lines += [(label("caution"), case.told(one.caution))]
    lines += [(IN_THE_FILE, placed(one.place, case.evaluation.build.document) if one.place else "")]
    name = f"{one.id}, state {spoken(one.state)}" if one.state else one.id
    return Judged(OUTCOMES[one.verdict], name, case.told(one.question), "   ".join(numbers_of(one, case.system)),
                  tuple((name, told) for name, told in lines if told))  # fmt: skip


def cautions(case: Case, verdicts: Iterable[Verdict] | None = None) -> list[Block]:
    """Every caution once, in frames."""
    chosen = case.verdicts if verdicts is None else verdicts
    texts = dict.fromkeys(case.told(one.caution) for one in chosen if one.caution)
    return [Caution(text) for text in texts]
