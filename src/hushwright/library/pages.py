"""Generated pages of the reference: written, or compared with what is there."""

from __future__ import annotations

import sys
from collections.abc import Mapping
from pathlib import Path


def renew(pages: Mapping[Path, str], *, write: bool) -> int:
    """Write pages, or say which are stale.

    Parameters
    ----------
    pages : mapping
        Text of each page by its place.
    write : bool
        Whether to write them, or only to compare.

    Returns
    -------
    int
        Exit code [-]: 0 when all are written or up to date, else 1.
    """
    stale = []
    for path, text in pages.items():
        if write:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8", newline="\n")
        elif not path.is_file() or path.read_text(encoding="utf-8") != text:
            stale.append(str(path))
    if stale:
        sys.stdout.write(f"out of date: {', '.join(stale)}; renew with --write\n")
    return 1 if stale else 0
