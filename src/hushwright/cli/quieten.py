"""``hushwright quieten``: steps that make a sound quieter, the ones that gain most for what they take first."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from hushwright.cli.options import FileArgument, JsonOption, Units, UnitsOption, refuse, refuse_file
from hushwright.cli.output import complain, say
from hushwright.cli.writing import check_new, write_new

if TYPE_CHECKING:
    from hushwright.search.quiet_steps import Looking, Quietened
    from hushwright.search.quietening import Quietening
    from hushwright.units import System

NOT_MET = 1


def quieten(
    file: FileArgument,
    verdict: Annotated[
        str,
        typer.Option("--verdict", metavar="ID", help="Verdict on a sound, as `check` names it; else the worst."),
    ] = "",
    nominal: Annotated[
        bool, typer.Option("--nominal", help="Stop as soon as the number itself meets, sure or not.")
    ] = False,
    write: Annotated[
        str, typer.Option("--write", metavar="PATH", help="Write the build file with all steps to this new file.")
    ] = "",
    as_json: JsonOption = False,
    units: UnitsOption = Units.METRIC,
) -> None:  # fmt: skip
    """Find steps that make a room quiet: what, where, decibels gained, mass, room, price.

    Each round looks at the ways that decide, tries what can be changed there, and takes what gains most for what it
    takes. A step that breaks a verdict that is met is told and not taken. FILE itself is never changed.

    Exit code 0 when the verdict meets with the steps, 1 when it does not, 2 when the file cannot be read or every
    sound meets its limit already.
    """
    from hushwright.cli.reading import read_evaluation
    from hushwright.search.quietening import Quietening

    if write:
        check_new(Path(write))
    evaluation, _ = read_evaluation(file, as_json=as_json)
    text = evaluation.build.document.text
    found = _searched(Quietening(text, file, verdict, evaluation, until_sure=not nominal))
    writes = bool(write and found.steps)
    try:
        if writes:
            write_new(Path(write), found.text.encode("utf-8"))
    finally:  # what a long search has found is shown even where no file takes it
        say(_told(found, units.system, as_json=as_json))
    if writes and not as_json:
        say(f"\n{write} is written with all steps.\nNext: hushwright check {write}")
    if found.ending != "meets":
        raise typer.Exit(NOT_MET)


def _searched(search: Quietening) -> Quietened:
    """Go through the search, telling on a terminal how far it is."""
    from hushwright.errors import InvalidInput
    from hushwright.evaluation.guard import CannotEvaluate
    from hushwright.search.quiet_steps import Quietened

    tells = sys.stderr.isatty()
    try:
        for each in search:
            if isinstance(each, Quietened):
                return each
            if tells:
                _tell(each)
    except InvalidInput as problem:
        refuse(f"{search.file}: {problem}")
    except CannotEvaluate as problem:
        if problem.diagnostic is None:
            raise
        refuse_file((problem.diagnostic,))
    raise AssertionError("a search ends with its answer")


def _tell(looking: Looking) -> None:
    if looking.step is not None:
        complain(f"taken: {looking.step.name}")
    elif looking.done == 1:
        complain(f"round {looking.round}: {looking.number} changes to look at")


def _told(found: Quietened, system: System, *, as_json: bool) -> str:
    from hushwright.report.quieten import quietened_nodes, quietened_text

    if as_json:
        from hushwright.report.as_json import SCHEMA, written

        return written({"schema": SCHEMA, **quietened_nodes(found, system)})
    return quietened_text(found, system)
