"""Edits as the file would have them: its own way of writing lengths, its own paths."""

from __future__ import annotations

from hushwright.document.edits import Edit, bare_unit, written_length
from hushwright.document.nodes import Path, parse_path
from hushwright.document.save import typed_text
from hushwright.model.build import Build


class Writing:
    """How one file writes what is changed in it."""

    def __init__(self, build: Build) -> None:
        self.build = build
        self.bare = bare_unit(build.document.text)

    def length(self, value: float) -> str:
        """Length as the file would have it."""
        return written_length(value, "" if self.bare else "1 mm", self.bare)

    def path(self, place: str, *more: str | int) -> Path:
        """Path of a place, and further in."""
        return (*parse_path(place), *more)

    def set_length(self, value: float, place: str, *more: str | int) -> Edit:
        """Set a length at a place."""
        return Edit("set", self.path(place, *more), self.length(value))

    def word(self, name: str) -> str:
        """Name of a record inside brackets."""
        return typed_text(name, in_flow=True, quote="", whole=False)

    def is_given(self, place: str, *more: str | int) -> bool:
        """Whether the file itself says what stands at a place."""
        value: object = self.build.document.value_at(self.path(place, *more[:-1]))
        return getattr(value, str(more[-1]), None) not in (None, "", ()) if more else value is not None
