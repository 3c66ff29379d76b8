"""``hushwright first``: some answers to a page and a build file."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from hushwright.cli.options import Units, UnitsOption, refuse, refuse_file
from hushwright.cli.output import complain, say

if TYPE_CHECKING:
    from collections.abc import Sequence

    from hushwright.library.library import Library
    from hushwright.search.first_look import FirstLook
    from hushwright.search.questions import Question


def first(
    path: Annotated[
        str, typer.Argument(metavar="[PATH]", help="Build file to write; nothing is written when left out.")
    ] = "",
    answer: Annotated[
        list[str] | None,
        typer.Option("--answer", metavar="QUESTION=ANSWER", help="Answer one question, again for more."),
    ] = None,
    show_questions: Annotated[bool, typer.Option("--questions", help="List the questions and stop.")] = False,
    usual: Annotated[bool, typer.Option("--usual", help="Ask nothing; the rest takes its usual answer.")] = False,
    pdf: Annotated[str, typer.Option("--pdf", metavar="FILE", help="Write the page as PDF, A4 or Letter.")] = "",
    units: UnitsOption = Units.METRIC,
) -> None:
    """Take a first look: fifteen questions, a page on what is feasible, and a build file to go on with.

    The page says of each topic whether it is feasible, tight, hard to reach or not feasible.
    Asks at the keyboard unless --usual is given or answers come by --answer.
    """
    from hushwright.library.read import read_library
    from hushwright.search.questions import questions, read_answers

    library = read_library()
    asked = questions(library)
    if not show_questions:
        _check_places(path, pdf)
    if show_questions:
        say(_listed(asked))
        return
    typed = _typed(answer or ())
    if not usual and not answer:
        typed = _ask(asked, library)
    answers, problems = read_answers(typed, library)
    if answers is None:
        refuse_file(problems)
    from hushwright.report.first_look import first_look_page
    from hushwright.search.first_look import CannotLook, first_look
    from hushwright.search.mending import with_mends

    try:
        look = with_mends(first_look(answers, library))
    except CannotLook as problem:
        refuse_file(problem.diagnostics)
    try:
        _write(look, path, pdf, units)
    finally:  # what fifteen answers have brought is shown even where no file takes it
        say(first_look_page(look, units.system))
    if pdf:
        say(f"\nWritten: {Path(pdf)}")
    if path:
        say(f"\n{path} is written.\nNext: hushwright check {path}")


def _write(look: FirstLook, path: str, pdf: str, units: Units) -> None:
    """Write the build file and the page as PDF, as far as they are asked for."""
    if path:
        from hushwright.cli.writing import write_new

        write_new(Path(path), look.text.encode("utf-8"))
    if pdf:
        from hushwright.cli.writing import save_paper
        from hushwright.report.papers.first_look import first_look_paper
        from hushwright.report.papers.setting import paper_pdf

        save_paper(Path(pdf), paper_pdf(first_look_paper(look, units.system), look.evaluation.build, units.system))


def _check_places(path: str, pdf: str) -> None:
    """Refuse before anybody has answered fifteen questions what could not be written after them."""
    from hushwright.cli.writing import PDF, check_file, check_new

    if path:
        check_new(Path(path))
    if pdf:
        check_file(Path(pdf), PDF)


def _typed(answers: Sequence[str]) -> dict[str, str]:
    """Answers by their question; every one without its sign, and every question answered twice, is told at once."""
    typed: dict[str, str] = {}
    wrong = [each for each in answers if "=" not in each]
    if wrong:
        named = ", ".join(repr(each) for each in wrong)
        refuse(f"An answer is written QUESTION=ANSWER, not {named}; --questions lists them.")
    for each in answers:
        key, _, value = each.partition("=")
        if typed.setdefault(key.strip(), value.strip()) != value.strip():
            refuse(f"{key.strip()} is answered twice: {typed[key.strip()]} and {value.strip()}; leave one of them out.")
    return typed


def _listed(asked: Sequence[Question]) -> str:
    lines = []
    for each in asked:
        lines.append(f"{each.key:<16}{each.asks}  [{each.default}]")
        lines.append(f"{'':<16}{each.why}")
        if each.choices:
            lines.append(f"{'':<16}one of: {'; '.join(each.choices)}")
    return "\n".join(lines)


def _ask(asked: Sequence[Question], library: Library) -> dict[str, str]:
    """Ask at the keyboard; an answer that cannot be read is asked for again."""
    from hushwright.search.questions import read_answers

    complain("Enter takes the answer in brackets.")
    typed: dict[str, str] = {}
    for question in asked:
        if question.choices:
            complain(f"  one of: {'; '.join(question.choices)}")
        while True:
            complain(f"{question.asks} [{question.default}] ")
            line = sys.stdin.readline()
            if not line:
                refuse("The answers ended before the questions did; --usual asks nothing.")
            text = line.strip() or question.default
            _, problems = read_answers({question.key: text}, library)
            if not problems:
                break
            complain(f"  {'; '.join(each for each in (problems[0].note, problems[0].hint) if each)}")
        typed[question.key] = text
    return typed
