"""Lines of the text report as blocks of a paper: tables from what their cells were, paragraphs whole, headings."""

from __future__ import annotations

import re
from collections.abc import Sequence

from hushwright.report.layout import Prose, Row
from hushwright.report.papers.blocks import Block, Heading, Say, Table
from hushwright.report.papers.common import without_code_marks

_DIGIT = re.compile(r"\d")
_NAME = re.compile(r"\b[a-z0-9]+(?:_[a-z0-9]+)+\b")
_FACE = re.compile(r"\b[a-z][a-z0-9_]*(?:\.[a-z][a-z0-9_]*)+\b(?!/)")
_BLOCKS = re.compile("[▁-█░]")


def as_blocks(lines: Sequence[str], level: int = 2) -> list[Block]:
    """Blocks of a part of the text report.

    Parameters
    ----------
    lines : sequence of str
        Lines as :mod:`hushwright.report.layout` makes them: they remember cells and paragraphs.
    level : int
        Level of their headings [-].

    Returns
    -------
    list of Block
        A line that stands over deeper ones is set as a heading within.
    """
    blocks: list[Block] = []
    rows: list[Row] = []
    labels: list[tuple[str, str]] = []

    def put() -> None:
        if rows:
            blocks.append(_table(rows))
            rows.clear()
        if labels:
            blocks.append(Table(("", ""), tuple(labels), (0.16, 0.84), small=True))
            labels.clear()

    for at, line in enumerate(lines):
        if isinstance(line, Row):
            if labels or (line.begins and rows):
                put()
            rows.append(line)
        elif isinstance(line, Prose) and line.label:
            if rows:
                put()
            if line.number == 0:
                labels.append((line.label, in_words(line.text)))
        elif isinstance(line, Prose):
            put()
            if line.number == 0:
                blocks.append(Say(in_words(line.text)))
        elif line.strip() and set(line) != {"─"}:
            put()
            blocks.append(_said(lines, at, level))
    put()
    return blocks


def _said(lines: Sequence[str], at: int, level: int) -> Block:
    """A plain line: heading over its rule, heading within over deeper lines, else a paragraph."""
    line, after = lines[at], lines[at + 1] if at + 1 < len(lines) else ""
    if after and set(after) == {"─"} and len(after) == len(line):
        return Heading(line, level)
    deeper = len(after) - len(after.lstrip()) > len(line) - len(line.lstrip())
    return Say(in_words(line.strip()), "strong" if deeper and after.strip() else "body")


def _table(rows: Sequence[Row]) -> Table:
    """Rows with the first as their head, where it names columns: no figure beyond its first cell, but in others."""
    most = max(len(row.cells) for row in rows)
    cells = [(*map(in_words, row.cells), *("",) * (most - len(row.cells))) for row in rows]
    right = tuple(sorted({at for row in rows for at in row.right}))
    bands = rows[0].begins and len(rows[0].cells) > 6 and rows[0].cells[0].endswith("[Hz]")
    heads = len(rows) > 1 and any(cells[0][1:]) and (bands or not any(map(_DIGIT.search, cells[0][1:])))
    names = cells[0] if heads else ("",) * most
    return Table(names, tuple(cells[1:] if heads else cells), (0.0,) * most, right=right, small=True)


def in_words(text: str) -> str:
    """Names of rooms, faces and states as a paper has them, without underscores, dots and marks of code."""
    faces = _FACE.sub(lambda found: found[0].replace(".", " "), without_code_marks(text))
    return _NAME.sub(lambda found: found[0].replace("_", " "), faces)


def holds_blocks(text: str) -> bool:
    """Whether a text holds bars made of block characters, which want a typewriter face."""
    return bool(_BLOCKS.search(text))
