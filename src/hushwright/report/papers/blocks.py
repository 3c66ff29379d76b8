"""What a paper is made of: headings, text, tables, charts, blanks. Texts are plain, whatever stands in them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from hushwright.drawings.sheets import Sheet


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading; level 1 stands in the contents and begins a page where ``fresh``."""

    text: str
    level: int = 1
    fresh: bool = False


@dataclass(frozen=True, slots=True)
class Say:
    """A paragraph: ``body``, ``small``, ``strong`` or ``lead`` (large)."""

    text: str
    style: str = "body"


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under named columns; ``widths`` are shares, columns in ``right`` end alike, ``mark`` holds outcomes."""

    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    widths: tuple[float, ...] = ()
    right: tuple[int, ...] = ()
    small: bool = False
    mark: int | None = None
    total: bool = False  # the last row is a sum
    to_write: bool = False  # cells are high enough for a pen


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution in a frame."""

    text: str


@dataclass(frozen=True, slots=True)
class Judged:
    """One verdict as a card that stays together: outcome, title, numbers, labelled lines."""

    outcome: str
    name: str
    question: str
    numbers: str
    lines: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Blanks:
    """Labels with what is known, or a line to write on."""

    fields: tuple[tuple[str, str], ...]
    columns: int = 1


@dataclass(frozen=True, slots=True)
class Checks:
    """Things to tick off."""

    texts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Curve:
    """A line in a chart: values over the bands, `None` where there is none; ``spread`` is a band round it."""

    name: str
    values: tuple[float | None, ...]
    spread: tuple[float, ...] = ()
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Chart:
    """Curves over named places of the axis."""

    axis: tuple[str, ...]
    unit: str
    curves: tuple[Curve, ...]
    heading: str = ""
    along: str = "Hz"


@dataclass(frozen=True, slots=True)
class Drawn:
    """A sheet of the drawings on a page of its own, lying; which one of how many."""

    sheet: Sheet
    number: tuple[int, int] = (1, 1)


@dataclass(frozen=True, slots=True)
class Signatures:
    """Lines to sign on."""

    roles: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Contents:
    """Table of contents with links."""


@dataclass(frozen=True, slots=True)
class PageBreak:
    """What follows begins a page."""


@dataclass(frozen=True, slots=True)
class Together:
    """Blocks that stay on one page where they fit on one, such as a job card."""

    blocks: tuple[Printed, ...]


Printed = Heading | Say | Table | Caution | Judged | Blanks | Checks | Signatures
Block = Printed | Chart | Drawn | Contents | PageBreak | Together


def one_by_one(blocks: Iterable[Block]) -> Iterator[Block]:
    """Blocks of a paper with those that stay together one after the other."""
    for block in blocks:
        if isinstance(block, Together):
            yield from block.blocks
        else:
            yield block


@dataclass(frozen=True, slots=True)
class Paper:
    """One document: its file name, title and blocks."""

    name: str
    title: str
    blocks: tuple[Block, ...]
