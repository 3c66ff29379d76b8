"""The first look computed in a process of its own, so that the screen never waits."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.units import System


@dataclass(frozen=True, slots=True)
class Looked:
    """What a page shows of a first look; ``problems`` by the key of their question where answers cannot be read."""

    word: str = ""
    topics: tuple[tuple[str, ...], ...] = ()
    begin: tuple[tuple[str, str], ...] = ()
    trials: tuple[tuple[str, ...], ...] = ()
    measure: tuple[str, ...] = ()
    caution: str = ""
    text: str = ""
    problems: tuple[tuple[str, str], ...] = ()


def looked(typed: dict[str, str], system: System) -> Looked:
    """Take a first look at typed answers."""
    from hushwright.library.read import read_library
    from hushwright.report import first_look as told
    from hushwright.report.units_out import restated
    from hushwright.search.first_look import CannotLook, first_look
    from hushwright.search.questions import read_answers

    library = read_library()
    answers, problems = read_answers(typed, library)
    if answers is None:
        return Looked(problems=tuple((str(one.place.path[0]), f"{one.note}; {one.hint}") for one in problems))
    try:
        look = first_look(answers, library)
    except CannotLook as problem:
        return Looked(problems=tuple(("", f"{one.note}; {one.hint}") for one in problem.diagnostics))
    trials = told.trial_rows(look, system) if len(look.trials) > 1 else []
    return Looked(
        look.chosen.word, tuple(map(tuple, told.topic_rows(look, system))), tuple(told.begin_with(look, system)),
        tuple(map(tuple, trials)), tuple(told.measured_first(look, system)), restated(told.CAUTION, system), look.text,
    )  # fmt: skip
