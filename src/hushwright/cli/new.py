"""``hushwright new``: a commented build file from an example."""

from __future__ import annotations

from typing import Annotated

import typer

from hushwright.cli.options import refuse
from hushwright.cli.output import say


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
    written = write_new(path or f"{chosen}.yaml", begun)
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


def write_new(path: str, content: bytes) -> str:
    """Write a file that is not there yet; a file, a link or a folder of that name stays as it is."""
    try:
        with open(path, "xb") as file:  # noqa: PTH123  an empty or odd name is the system's to judge
            file.write(content)
    except FileExistsError:
        refuse(f"{path} is there already and stays as it is; choose another name.")
    except IsADirectoryError:
        refuse(f"{path} is a folder; give the name of the file to write.")
    except FileNotFoundError:
        refuse(f"{path} cannot be written: there is no such folder.")
    except (OSError, ValueError) as problem:
        refuse(f"{path} cannot be written: {getattr(problem, 'strerror', None) or problem}.")
    return path
