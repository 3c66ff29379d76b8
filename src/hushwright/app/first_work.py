"""The first look computed in a process of its own, so that the screen never waits."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from hushwright.units import System

if TYPE_CHECKING:
    from hushwright.errors import Diagnostic
    from hushwright.library.library import Library


@dataclass(frozen=True, slots=True)
class Looked:
    """What a page shows of a first look; ``plain`` answers and ``problems`` by the key of their question."""

    word: str = ""
    topics: tuple[tuple[str, ...], ...] = ()
    begin: tuple[tuple[str, str], ...] = ()
    trials: tuple[tuple[str, ...], ...] = ()
    measure: tuple[str, ...] = ()
    caution: str = ""
    text: str = ""
    doubt: str = ""
    beside: tuple[str, ...] = ()
    plain: tuple[tuple[str, str], ...] = ()
    problems: tuple[tuple[str, str], ...] = ()
    no_quieter: tuple[str, ...] = ()


def looked(typed: dict[str, str], system: System) -> Looked:
    """Take a first look at typed answers."""
    from hushwright.library.read import read_library
    from hushwright.report import first_look as told
    from hushwright.report.doubt_told import doubt_told
    from hushwright.report.units_out import restated
    from hushwright.search.first_look import CannotLook, first_look
    from hushwright.search.mending import with_mends
    from hushwright.search.questions import read_answers

    library = read_library()
    answers, problems = read_answers(typed, library)
    if answers is None:
        return Looked(problems=tuple((str(one.place.path[0]), _said(one, system)) for one in problems))
    try:
        look = with_mends(first_look(answers, library))
    except CannotLook as problem:
        return Looked(problems=tuple(("", _said(one, system)) for one in problem.diagnostics))
    trials = told.trial_rows(look, system) if len(look.trials) > 1 else []
    return Looked(
        look.chosen.word, tuple(map(tuple, told.topic_rows(look, system))), tuple(told.begin_with(look, system)),
        tuple(map(tuple, trials)), tuple(told.measured_first(look, system)), restated(told.CAUTION, system), look.text,
        doubt_told(look, system), tuple(told.told_beside(look, system)), tuple(_plain(typed, library)),
        no_quieter=tuple(told.told_no_quieter(look)),
    )  # fmt: skip


def _said(one: Diagnostic, system: System) -> str:
    from hushwright.report.units_out import restated

    return restated("; ".join(each for each in (one.note, one.hint) if each), system)


def _plain(typed: dict[str, str], library: Library) -> Iterator[tuple[str, str]]:
    """Answers that were typed otherwise than they were taken."""
    from hushwright.search.questions import plain_answer, questions

    for question in questions(library):
        text = typed.get(question.key, "").strip()
        if text and plain_answer(question, text) != text:
            yield question.key, plain_answer(question, text)
