"""Options that several commands share, and what they do when a file cannot be read."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING, Annotated, NoReturn

import typer

from hushwright.cli.output import complain

if TYPE_CHECKING:
    from collections.abc import Sequence

    from hushwright.errors import Diagnostic
    from hushwright.units import System

UNREADABLE = 2


class Units(Enum):
    """System of units of the output."""

    METRIC = "metric"
    US = "us"

    @property
    def system(self) -> System:
        """The word that the rest of the program uses."""
        return "us" if self is Units.US else "metric"


FileArgument = Annotated[str, typer.Argument(metavar="FILE", help="Build file.", show_default=False)]
UnitsOption = Annotated[Units, typer.Option("--units", help="Units of every number in the output.")]
JsonOption = Annotated[bool, typer.Option("--json", help="Print JSON instead of text.")]


def refuse(text: str) -> NoReturn:
    """Say why the call cannot be done, and end it."""
    complain(text)
    raise typer.Exit(UNREADABLE)


def refuse_file(diagnostics: Sequence[Diagnostic], *, as_json: bool = False) -> NoReturn:
    """Print every problem of a file, and end the call."""
    from hushwright.document.explain import format_diagnostics

    if as_json:
        from hushwright.cli.output import say
        from hushwright.report.as_json import problems_json

        say(problems_json(diagnostics))
    complain(format_diagnostics(diagnostics))
    raise typer.Exit(UNREADABLE)


def tell_remarks(diagnostics: Sequence[Diagnostic]) -> None:
    """Print what is odd in a file that can be read all the same."""
    from hushwright.document.explain import format_diagnostics

    if diagnostics:
        complain(format_diagnostics(diagnostics))
