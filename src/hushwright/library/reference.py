"""The reference page of the library: every record with its values, ranges and sources.

``python -m hushwright.library.reference --write`` writes ``docs/reference/library.md``.
"""

from __future__ import annotations

import sys
from pathlib import Path

from hushwright.library.catalogue import cells, columns
from hushwright.library.pages import renew
from hushwright.library.read import read_library
from hushwright.library.records import KINDS, Kind, Record

PAGE = Path("docs/reference/library.md")
_WIDE = 12  # beyond so many columns a kind is shown record beside record

_HEAD = """# The library

This page is generated from the tables of the library (`python -m hushwright.library.reference --write`).

Every record has a source. *found*: read in a public copy of the named work. *memory*: known from the named work,
no copy opened. *computed*: worked out from a named formula. *typical*: common practice, no source.
A value stands before its plausible range, 710 (640–760): a build file that says `unknown` takes the range, and
its standard uncertainty is width/√12. Where a record is partly from a source, `cited` names the fields that are;
the others are common practice. Loss factors are the material's own, from internal to in situ; what mounting adds
is set in the prediction. Spectra without a published source carry at least 5 dB standard uncertainty.

A build file's own records come before these and may be stated in the likeness of one of them.
"""


def reference_page() -> str:
    """Markdown of the whole page."""
    return "\n".join([_HEAD, *(_section(kind) for kind in KINDS.values())])


def _section(kind: Kind) -> str:
    records = read_library().rows(kind.word)
    lines = [f"## {kind.plural} (`{kind.word}`)", "", (kind.record.__doc__ or "").strip().split("\n")[0], ""]
    lines += [f"- {column.title}: {column.sentence}" for column in columns(kind.word)] + [""]
    lines += _beside(kind, records) if len(columns(kind.word)) > _WIDE else _below(kind, records)
    return "\n".join([*lines, ""])


def _below(kind: Kind, records: tuple[Record, ...]) -> list[str]:
    titles = ["name", *(column.title for column in columns(kind.word)), "source"]
    table = [titles, ["---"] * len(titles)]
    table += [[_named(record), *cells(kind.word, record), _origin(record)] for record in records]
    return [_row(row) for row in table]


def _beside(kind: Kind, records: tuple[Record, ...]) -> list[str]:
    titles = ["", *(record.name for record in records)]
    turned = zip(*(cells(kind.word, record) for record in records), strict=True)
    table = [titles, ["---"] * len(titles)]
    table += [[column.title, *row] for column, row in zip(columns(kind.word), turned, strict=True)]
    return [_row(row) for row in table] + ["", f"Source: {_origin(records[0])}"]


def _named(record: Record) -> str:
    return f"**{record.name}**" + (f" ({', '.join(record.aliases)})" if record.aliases else "")


def _origin(record: Record) -> str:
    fields = ", ".join(f"{field} {place}" for field, place in record.cited)
    return ". ".join(part for part in (str(record.source), f"cited: {fields}" if fields else "", record.note) if part)


def _row(row: list[str]) -> str:
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in row) + " |"


if __name__ == "__main__":
    sys.exit(renew({PAGE: reference_page()}, write="--write" in sys.argv))
