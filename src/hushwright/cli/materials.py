"""``hushwright materials``: what the library holds, and where it is from."""

from __future__ import annotations

from typing import Annotated

import typer

from hushwright.cli.options import Units, UnitsOption, refuse
from hushwright.cli.output import say


def materials(
    kind: Annotated[str, typer.Argument(metavar="KIND", help="Kind of record: sheet, blanket, mount, outdoors …")] = "",
    name: Annotated[list[str] | None, typer.Argument(metavar="NAME", help="Record to show in full.")] = None,
    units: UnitsOption = Units.METRIC,
) -> None:
    """List what the library holds, with sources.

    Without KIND the kinds; with KIND its records; with KIND and NAME one record in full, with range and source.
    """
    from hushwright.library.read import UnknownRecord, read_library
    from hushwright.library.records import KINDS
    from hushwright.report.library_text import kind_text, kinds_text, record_text

    library = read_library()
    if not kind:
        say(kinds_text(library))
        return
    if kind not in KINDS:
        kind = _kind_meant(kind)
    if not name:
        say(kind_text(library, kind, units.system))
        return
    wanted = " ".join(name)
    try:
        record = library.find(kind, wanted)
    except UnknownRecord as problem:
        others = [word for word in library.kind_holding(wanted) if word != kind]
        elsewhere = f"\nThere is one among: {', '.join(others)}." if others else ""
        refuse(f"{str(problem)[:1].upper()}{str(problem)[1:]}{elsewhere}\n`hushwright materials {kind}` lists them.")
    say(record_text(record, kind, units.system))


def _kind_meant(typed: str) -> str:
    """Kind by its plural or in another spelling; refused with a near word when there is none."""
    from difflib import get_close_matches

    from hushwright.library.records import KINDS

    tidy = typed.strip().lower().replace(" ", "_").replace("-", "_")
    spellings = {word: word for word in KINDS} | {f"{word}s": word for word in KINDS}
    spellings |= {kind.plural.lower().replace(" ", "_"): word for word, kind in KINDS.items()}
    if tidy not in spellings:
        near = get_close_matches(tidy, spellings, n=1)
        hint = f"Perhaps {spellings[near[0]]}?" if near else f"There are {', '.join(KINDS)}."
        refuse(f"The library has no kind {typed!r}. {hint}")
    return spellings[tidy]
