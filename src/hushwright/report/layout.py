"""Lines of text that fit a terminal: wrapping, columns, headings."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Sequence
from typing import Final

WIDTH: Final = 100
"""Columns of the widest line."""


class Prose(str):
    """Line of a paragraph that remembers the whole of it, and its label where it has one, for papers."""

    text: str
    label: str
    number: int


class Row(str):
    """Line of a table that remembers its cells, for papers."""

    cells: tuple[str, ...]
    right: tuple[int, ...]
    begins: bool


def prose(lines: Sequence[str], text: str, label: str = "") -> list[str]:
    """Lines of a paragraph with what they were made of."""
    found: list[str] = []
    for number, line in enumerate(lines):
        one = Prose(line)
        one.text, one.label, one.number = text, label, number
        found.append(one)
    return found


def row_of(line: str, cells: Sequence[str], right: Iterable[int], *, begins: bool) -> Row:
    """Line of a table with its cells; ``begins`` where a table begins with it."""
    found = Row(line)
    found.cells, found.right, found.begins = tuple(cells), tuple(right), begins
    return found


def wrapped(text: str, *, indent: int = 0, hanging: int | None = None, width: int = WIDTH) -> list[str]:
    """Lines of a paragraph, its first indented and those after it hanging."""
    after = indent if hanging is None else hanging
    whole = " ".join(text.split())
    lines = textwrap.wrap(
        whole,
        width,
        initial_indent=" " * indent,
        subsequent_indent=" " * after,
        break_long_words=True,
        break_on_hyphens=False,
    )
    return prose(lines, whole)


def labelled(label: str, text: str, *, indent: int = 2, column: int = 12, width: int = WIDTH) -> list[str]:
    """Return a label and its text beside it, wrapped under itself; nothing when there is no text.

    Examples
    --------
    >>> labelled("basis", "target in the build file")
    ['  basis     target in the build file']
    """
    if not text.strip():
        return []
    lead = f"{' ' * indent}{label} ".ljust(column)
    lines = wrapped(text, indent=len(lead), width=width)
    return prose([lead + lines[0][len(lead) :], *lines[1:]], " ".join(text.split()), label)


def side_by_side(parts: Sequence[str], *, indent: int = 0, gap: int = 3, width: int = WIDTH) -> list[str]:
    """Parts beside each other, none broken; those that do not fit go on the next line.

    Examples
    --------
    >>> side_by_side(["value 12 mm", "limit 10 mm", "margin -2 mm"], width=30)
    ['value 12 mm   limit 10 mm', 'margin -2 mm']
    """
    lines: list[str] = []
    for part in parts:
        longer = f"{lines[-1]}{' ' * gap}{part}" if lines else ""
        if lines and len(longer) <= width:
            lines[-1] = longer
        else:
            lines.append(" " * indent + part)
    return lines


def heading(text: str) -> list[str]:
    """Section heading: a blank line, the words, a rule as long as they are."""
    return ["", text, "─" * len(text)]


def table(rows: Sequence[Sequence[str]], *, indent: int = 2, right: Iterable[int] = (), gap: int = 2) -> list[str]:
    """Columns as wide as their widest cell, closer together where they are many; those in ``right`` end alike.

    Examples
    --------
    >>> table([["mass", "12"], ["total mass", "3"]], right=[1])
    ['  mass        12', '  total mass   3']
    """
    if not rows:
        return []
    against_right = set(right)
    lines = _set(rows, indent, against_right, gap)
    return lines if gap == 1 or max(map(len, lines)) <= WIDTH else _set(rows, indent, against_right, 1)


def _set(rows: Sequence[Sequence[str]], indent: int, against_right: set[int], gap: int) -> list[str]:
    """Lines of a table, each with its cells."""
    widths = [max(len(row[at]) for row in rows) for at in range(len(rows[0]))]
    lines: list[str] = []
    for row in rows:
        cells = [
            cell.rjust(widths[at]) if at in against_right else cell.ljust(widths[at]) for at, cell in enumerate(row)
        ]
        line = (" " * indent + (" " * gap).join(cells)).rstrip()
        lines.append(row_of(line, row, sorted(against_right), begins=not lines))
    return lines


def shortened(text: str, width: int) -> str:
    """Text cut to a width, with an ellipsis where something is left out."""
    return text if len(text) <= width else text[: width - 1].rstrip() + "…"


def counted(number: int, noun: str) -> str:
    """Number with its noun, ``1 verdict`` or ``3 verdicts``."""
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
