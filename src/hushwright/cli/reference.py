"""The reference page of the command line, from the help texts themselves.

``python -m hushwright.cli.reference --write`` writes ``docs/reference/cli.md``.
"""

from __future__ import annotations

import contextlib
import io
import sys
from pathlib import Path

from hushwright.cli.main import app
from hushwright.library.pages import renew

PAGE = Path("docs/reference/cli.md")
COMMANDS = (
    "first", "open", "new", "check", "quieten", "partition", "materials", "law", "measure", "baffle-box",
    "timeline", "wiring", "signals", "cost", "report", "change", "draw", "set",
)  # fmt: skip
_WIDTH = 88
_HEAD = """# The command line

This page is generated from the help texts (`python -m hushwright.cli.reference --write`).

`hushwright` is on the path of the environment that `start.py` makes; `python3 start.py COMMAND …` calls the same.
Text goes to the output stream, problems of a file and remarks on it to the error stream, so that `--json` stays clean.

| exit code | meaning |
| --- | --- |
| 0 | done; for `check`: every verdict meets its limit or does not apply |
| 1 | `check`: a verdict fails or is unproven |
| 2 | the file cannot be read as a build, the call is wrong, or something unexpected happened |
| 130, 141 | stopped from the keyboard; whoever read the output closed it |

A terminal whose encoding lacks a character gets a plain one in its place. Nothing is said by colour alone.
Every number comes in metric units or, with `--units us`, in US customary ones, never both; decibels, hertz and
a name of a library record that holds metric units gives way to its other name.
"""


def help_of(*command: str) -> str:
    """Help text of a command as a terminal of fixed width shows it."""
    caught = io.StringIO()
    with contextlib.redirect_stdout(caught):
        app(args=[*command, "--help"], prog_name="hushwright", standalone_mode=False, terminal_width=_WIDTH)
    return caught.getvalue().strip()


def reference_page() -> str:
    """Markdown of the whole page."""
    parts = [_HEAD, "```text\n" + help_of() + "\n```\n"]
    for command in COMMANDS:
        parts.append(f"## `hushwright {command}`\n\n```text\n{help_of(command)}\n```\n")
    return "\n".join(parts)


if __name__ == "__main__":
    sys.exit(renew({PAGE: reference_page()}, write="--write" in sys.argv))
