"""First look: some answers to a build, tried in three weights through the four verbs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import prod
from typing import Literal

from hushwright.errors import Diagnostic
from hushwright.evaluation.evaluate import evaluate
from hushwright.evaluation.results import Evaluation
from hushwright.library.library import Library
from hushwright.model.build import Build
from hushwright.search.heavier import NoQuieter, no_quieter
from hushwright.search.questions import CHOOSE, WEIGHTS, Answers
from hushwright.search.starting_build import starting_build
from hushwright.search.starting_mounts import mount_rows
from hushwright.verdicts.judge import judge
from hushwright.verdicts.measure_next import MeasureNext, measure_next
from hushwright.verdicts.verdict import Verdict

Word = Literal["feasible", "tight", "hard to reach", "not feasible", "not asked"]
HARD = 1.0 / 3.0
"""Chance below which a topic is hard to reach: what the verdicts call unlikely."""

TOPICS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("height to stand in", ("headroom",)),
    ("mass on the road", ("road-mass",)),
    ("axles", ("front-axle", "rear-axle")),
    ("quiet inside", ("background",)),
    ("air to breathe", ("co2-steady", "co2-session")),
    ("heat", ("warmest", "coldest")),
    ("hours without a plug", ("off-grid",)),
    ("ways out", ("ways-out", "way-clear", "opens-from-inside", "lock-without-power")),
    ("price without tax", ("budget",)),
)
"""What a first talk with a client is about, with the checks that answer it."""

MENDED = "quiet inside"
"""Topic of which single changes can be tried, `mending.with_mends`."""

_WORDS: dict[str, Word] = {"meets": "feasible", "unproven": "tight", "fails": "not feasible"}
_ORDER: tuple[Word, ...] = ("not feasible", "hard to reach", "tight", "feasible", "not asked")


class CannotLook(Exception):
    """The build made from the answers cannot be resolved; carries what stands in the way."""

    def __init__(self, diagnostics: tuple[Diagnostic, ...]) -> None:
        super().__init__("; ".join(each.note for each in diagnostics))
        self.diagnostics = diagnostics


@dataclass(frozen=True, slots=True)
class Topic:
    """One line of the look: its verdicts' worst, told as feasible, tight, hard to reach or not."""

    name: str
    word: Word
    worst: Verdict | None


@dataclass(frozen=True, slots=True)
class Trial:
    """One weight of the quiet room, tried; ``beside`` are verdicts that fail and that no topic tells."""

    weight: str
    topics: tuple[Topic, ...]
    chance: float
    beside: tuple[Verdict, ...] = ()

    @property
    def word(self) -> Word:
        """Worst of the topics."""
        return min((each.word for each in self.topics), key=_ORDER.index)


@dataclass(frozen=True, slots=True)
class Mend:
    """A part of the build, its share [-] of what decides, and what each of some changes takes off it alone [dB]."""

    part: str
    share: float
    changes: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True)
class FirstLook:
    """Answers, the build they became, and how it stands."""

    answers: Answers
    text: str
    chosen: Trial
    trials: tuple[Trial, ...]
    evaluation: Evaluation
    verdicts: tuple[Verdict, ...]
    measure: tuple[MeasureNext, ...]
    no_quieter: tuple[NoQuieter, ...] = ()
    mends: tuple[Mend, ...] = ()


def first_look(answers: Answers, library: Library) -> FirstLook:
    """Make a build of some answers and judge it.

    Parameters
    ----------
    answers : Answers
        Of the questions.
    library : Library
        Records.

    Returns
    -------
    FirstLook
        The weight with the best chance that all topics hold together; of equal ones the lightest.

    Raises
    ------
    CannotLook
        If no build can be made of the answers.
    """
    open_choice = answers.weight == CHOOSE
    has_quiet = answers.quiet_people > 0 and answers.use != "other"
    weights = WEIGHTS if open_choice and has_quiet else ("usual" if open_choice else answers.weight,)
    tried = [_try(answers, weight, library) for weight in weights]
    trial, text, evaluation, verdicts = max(tried, key=lambda each: each[0].chance)
    return FirstLook(answers, text, trial, tuple(each[0] for each in tried), evaluation, verdicts,
                     measure_next(evaluation, verdicts), _no_quieter(tried))  # fmt: skip


def _no_quieter(tried: Sequence[tuple[Trial, str, Evaluation, tuple[Verdict, ...]]]) -> tuple[NoQuieter, ...]:
    """For each weight that comes out no quieter than the lighter one before it, why."""
    found = []
    for (light, _, before, _), (heavy, _, after, _) in pairwise(tried):
        quiet = [next((each.worst for each in one.topics if each.name == MENDED), None) for one in (light, heavy)]
        if quiet[0] is not None and quiet[1] is not None:
            found.append(no_quieter((light.weight, heavy.weight), (quiet[0], quiet[1]), (before, after)))
    return tuple(each for each in found if each is not None)


def _try(answers: Answers, weight: str, library: Library) -> tuple[Trial, str, Evaluation, tuple[Verdict, ...]]:
    text, build = resolved_start(answers, weight, library)
    evaluation = evaluate(build)
    verdicts = judge(evaluation)
    topics = topics_of(verdicts)
    return Trial(weight, topics, _together(topics), _beside(topics, verdicts)), text, evaluation, verdicts


def resolved_start(answers: Answers, weight: str, library: Library) -> tuple[str, Build]:
    """First build of some answers as text and resolved, on mounts chosen by what they carry.

    Raises
    ------
    CannotLook
        If no build can be made of the answers.
    """
    text = starting_build(answers, weight, library)
    build = _resolved(text, library)
    rows = mount_rows(build, library)
    if rows is None:
        return text, build
    text = starting_build(answers, weight, library, rows)
    return text, _resolved(text, library)


def _resolved(text: str, library: Library) -> Build:
    from hushwright.document.read import read_document_text
    from hushwright.model.resolve import resolve

    document, problems = read_document_text(text, "first look")
    if document is None:
        raise CannotLook(problems)
    build, further = resolve(document, library)
    errors = tuple(each for each in (*problems, *further) if each.severity == "error")
    if build is None or errors:
        raise CannotLook(errors or further)
    return build


def _beside(topics: tuple[Topic, ...], verdicts: tuple[Verdict, ...]) -> tuple[Verdict, ...]:
    """Verdicts that fail and that no topic tells."""
    told = {each.worst.id for each in topics if each.worst is not None}
    return tuple(each for each in verdicts if each.verdict == "fails" and each.id not in told)


def topics_of(verdicts: tuple[Verdict, ...]) -> tuple[Topic, ...]:
    """Each topic with the worst of its verdicts: the least chance."""
    found = []
    for name, checks in TOPICS:
        asked = [each for each in verdicts if each.value is not None and _belongs(each.id, checks)]
        worst = min(asked, key=lambda each: 1.0 if each.chance is None else each.chance, default=None)
        found.append(Topic(name, "not asked" if worst is None else _word(worst), worst))
    return tuple(found)


def _word(verdict: Verdict) -> Word:
    """What is open with less than a chance in three is no mere tightness."""
    if verdict.verdict == "unproven" and verdict.chance is not None and verdict.chance < HARD:
        return "hard to reach"
    return _WORDS.get(verdict.verdict, "not asked")


def _belongs(reference: str, checks: tuple[str, ...]) -> bool:
    return any(reference == check or reference.startswith(f"{check}-") for check in checks)


def _together(topics: tuple[Topic, ...]) -> float:
    """Chance that every topic holds, as if they did not hang together."""
    chances = [each.worst.chance for each in topics if each.worst is not None and each.worst.chance is not None]
    return prod(max(chance, 1e-6) for chance in chances)
