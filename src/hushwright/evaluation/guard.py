"""What a legal file can still ask that a law cannot compute: said with its place, never as a bare error."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from hushwright.document.document import Document
from hushwright.errors import Diagnostic, InvalidInput


class CannotEvaluate(Exception):
    """A part of a build lies outside what its law takes.

    ``place`` is the dotted path in the build file, ``note`` the reason with the value in it. ``diagnostic`` carries
    file and line once the whole evaluation has seen it; ``str`` shows them.
    """

    def __init__(self, place: str, note: str, diagnostic: Diagnostic | None = None) -> None:
        super().__init__(f"{diagnostic.place if diagnostic is not None else place}: {note}")
        self.place = place
        self.note = note
        self.diagnostic = diagnostic


@contextmanager
def at(place: str) -> Iterator[None]:
    """Name the place for whatever law refuses inside; the innermost place counts."""
    try:
        yield
    except InvalidInput as problem:
        raise CannotEvaluate(place, str(problem)) from problem


@contextmanager
def located(document: Document) -> Iterator[None]:
    """Add file and line to what could not be evaluated."""
    try:
        with at(""):
            yield
    except CannotEvaluate as problem:
        found = Diagnostic("cannot-evaluate", document.place(problem.place), "", problem.note,
                           "the laws used here end before this value; change it or leave the part out")  # fmt: skip
        raise CannotEvaluate(problem.place, problem.note, found) from problem
