"""Entry point of the command line."""

from __future__ import annotations

import gc
import os
import re
import sys
from typing import Annotated

import typer

from hushwright.cli.baffle_box import baffle_box
from hushwright.cli.check import check
from hushwright.cli.cost import cost
from hushwright.cli.draw import draw
from hushwright.cli.first import first
from hushwright.cli.law import law
from hushwright.cli.materials import materials
from hushwright.cli.measure import measure
from hushwright.cli.new import new
from hushwright.cli.open_app import open_app
from hushwright.cli.output import ReaderLeft, complain, say
from hushwright.cli.partition import partition
from hushwright.cli.quieten import quieten
from hushwright.cli.report import change, report
from hushwright.cli.set_value import set_command
from hushwright.cli.signals import signals
from hushwright.cli.timeline import timeline
from hushwright.cli.wiring import wiring

# Matrices here are small: threads of the linear algebra only wait for each other, which doubles the time of a check.
# A setting of the person's own counts; it has to stand before numpy is imported.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

# A call makes many values and few rings of them: looking for rings less often saves a tenth of its time.
_RARELY = 50_000

# Soft hyphen, zero-width space, word joiner, byte order mark: pages and mails put them into what is copied.
_UNSEEN = re.compile("[\u00ad\u200b\u2060\ufeff]")

CALL_IS_WRONG = 2
READER_LEFT = 141  # what a shell shows for a program that wrote into a closed pipe
STOPPED = 130  # what a shell shows for a program stopped from the keyboard

app = typer.Typer(
    name="hushwright",
    help="From one build file to verdicts: will the quiet room in the van be quiet, and what does it cost in"
    " headroom and mass?",
    epilog="Exit code: 0 when all is well, 1 when a verdict fails or is unproven, 2 when the file cannot be read"
    " as a build or the call is wrong.",
    add_completion=False,
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)


def _print_version(wanted: bool) -> None:
    if wanted:
        from importlib.metadata import version

        say(f"hushwright {version('hushwright')}")
        raise typer.Exit


@app.callback()
def options(
    _version: Annotated[
        bool, typer.Option("--version", callback=_print_version, is_eager=True, help="Print the version and stop.")
    ] = False,
    _debug: Annotated[
        bool, typer.Option("--debug", help="Show where in the program an unexpected error arose.")
    ] = False,
) -> None:
    """Options that stand before the command."""


app.command()(first)
app.command()(new)
app.command("open")(open_app)
app.command()(check)
app.command()(quieten)
app.command()(partition)
app.command()(materials)
app.command()(law)
app.command()(measure)
app.command()(baffle_box)
app.command()(timeline)
app.command()(wiring)
app.command()(signals)
app.command()(cost)
app.command()(report)
app.command()(change)
app.command()(draw)
# A value may begin with a minus sign, which is no option.
app.command("set", context_settings={"ignore_unknown_options": True})(set_command)


def run(arguments: list[str] | None = None) -> int:
    """Run the command line and return its exit code; no traceback reaches a person unless ``--debug`` asks for it."""
    gc.set_threshold(_RARELY, 20, 50)
    typed = sys.argv[1:] if arguments is None else arguments
    given = [_pasted(each) for each in typed if each != "--debug"]  # it may stand before or after the command
    try:
        code = _run(given, debug=len(given) < len(typed))
        sys.stdout.flush()
    except (ReaderLeft, BrokenPipeError):
        _let_go_of_the_pipe()
        return READER_LEFT
    except KeyboardInterrupt:
        complain("Stopped.")
        return STOPPED
    return code


def _pasted(text: str) -> str:
    """What was typed or pasted, without the characters that no eye sees; a file that is called so keeps its name."""
    return text if not _UNSEEN.search(text) or os.path.lexists(text) else _UNSEEN.sub("", text)


def _run(given: list[str], *, debug: bool) -> int:
    try:
        app(args=given, prog_name="hushwright")
    except SystemExit as ended:
        if _was_stopped(ended):
            raise KeyboardInterrupt from None
        return ended.code if isinstance(ended.code, int) else 0 if ended.code is None else CALL_IS_WRONG
    except (ReaderLeft, BrokenPipeError, KeyboardInterrupt):
        raise
    except Exception as problem:
        if debug:
            raise
        complain(_unexpected(problem))
        return CALL_IS_WRONG
    return 0


def _was_stopped(ended: BaseException | None) -> bool:
    """Whether a break from the keyboard is behind an end that has been made into something else."""
    while ended is not None and not isinstance(ended, KeyboardInterrupt):
        ended = ended.__cause__ or ended.__context__
    return ended is not None


def _unexpected(problem: Exception) -> str:
    """Sentence for an error that should not have happened, with a mark by which it can be found again."""
    origin = problem.__traceback__
    while origin is not None and origin.tb_next is not None:
        origin = origin.tb_next
    where = ""
    if origin is not None:
        module = origin.tb_frame.f_globals.get("__name__", "?")
        where = f"{module}:{origin.tb_lineno}"
    said = " ".join(str(problem).split())[:300]
    return (
        f"Something went wrong inside hushwright: {said or 'no further word'}\n"
        f"  reference {type(problem).__name__} at {where}\n"
        "  `hushwright --debug …` shows the details for a report."
    )


def _let_go_of_the_pipe() -> None:
    """Point the output at nothing, so that closing it at exit does not complain again."""
    nothing = os.open(os.devnull, os.O_WRONLY)
    for stream in (sys.stdout, sys.stderr):
        try:
            os.dup2(nothing, stream.fileno())
        except (OSError, ValueError):
            continue
