"""The way in: the library as it comes with Hushwright."""

from __future__ import annotations

from hushwright.library.library import Library, UnknownRecord

__all__ = ["Library", "UnknownRecord", "read_library"]

_LIBRARY = Library()


def read_library() -> Library:
    """Library of Hushwright itself; each of its tables is read when first asked for.

    Examples
    --------
    >>> read_library().find("sheet", "ply").name
    'birch plywood'
    """
    return _LIBRARY
