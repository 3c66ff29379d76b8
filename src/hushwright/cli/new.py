"""``hushwright new``: a commented build file from an example."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from hushwright.cli.options import refuse
from hushwright.cli.output import say
from hushwright.cli.writing import write_new


def new(
    path: Annotated[
        str, typer.Argument(metavar="PATH", help="File to write; the example's own name when left out.")
    ] = "",
    example: Annotated[
        str, typer.Option("--from", metavar="EXAMPLE", help="Example to begin with; --list shows them.")
    ] = "",
    show_list: Annotated[bool, typer.Option("--list", help="List the examples and stop.")] = False,
) -> None:
    """Write a commented build file from an example.

    An existing file is never overwritten.
    """
    from hushwright.cli.examples import USUAL, example_files, title_of

    examples = example_files()
    if not examples:
        refuse("The example files are missing; this copy of hushwright is not complete.")
    if show_list:
        say("\n".join(f"{name:<28}{title_of(file)}".rstrip() for name, file in examples.items()))
        return
    chosen = (example or USUAL).removesuffix(".yaml")
    if chosen not in examples:
        refuse(f"No example is called {chosen!r}; there are {', '.join(examples)}.")
    begun = with_own_head(examples[chosen].read_bytes(), chosen)
    written = path or f"{chosen}.yaml"
    write_new(Path(written), begun)
    say(f"{written} is written, from the example {chosen}.\nNext: hushwright check {written}")


def with_own_head(content: bytes, name: str) -> bytes:
    """An example for somebody's own van: its head of comments, which tells its results, gives way to what to do."""
    lines = content.splitlines(keepends=True)
    first = next(index for index, line in enumerate(lines) if not line.startswith(b"#"))
    head = (
        f"# Begun with the example {name}, an invented scenario: put in your own van, part by part.\n"
        "# `hushwright check` judges it, `hushwright measure` says what to measure on the van first.\n"
    )
    return head.encode() + b"".join(lines[first:])
