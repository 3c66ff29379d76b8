"""What went wrong, where, and what to do about it. Imports nothing of ours."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Severity = Literal["error", "warning"]


@dataclass(frozen=True, slots=True)
class Place:
    """Where a value stands: file, line (1-based, 0 when the value is not in a file) and path of keys."""

    file: str = ""
    line: int = 0
    path: tuple[str | int, ...] = ()

    @property
    def dotted(self) -> str:
        """Path as a person types it, ``surfaces.quiet_room.left.layers.2``."""
        return ".".join(str(key) for key in self.path)

    def __str__(self) -> str:
        head = f"{self.file}:{self.line}" if self.line else self.file
        return f"{head}: {self.dotted}" if self.path else head


@dataclass(frozen=True, slots=True)
class Mend:
    """One length that would settle a problem: what to do in words, where it stands, and how long [m]."""

    says: str
    path: tuple[str | int, ...]
    length: float


@dataclass(frozen=True, slots=True)
class Diagnostic:
    """One problem in a person's input: place, value, reason, hint.

    ``reference`` is a stable kebab-case name that documentation and tests use; each of ``mends`` would settle it alone.
    """

    reference: str
    place: Place
    value: str
    note: str
    hint: str = ""
    severity: Severity = "error"
    mends: tuple[Mend, ...] = ()


class InvalidInput(ValueError):
    """A law was asked for something impossible; the message shows the value."""


class UnreadableDocument(Exception):
    """A file that cannot be read as a build; carries every problem found so far."""

    def __init__(self, diagnostics: tuple[Diagnostic, ...]) -> None:
        super().__init__("; ".join(f"{d.place}: {d.note}" for d in diagnostics))
        self.diagnostics = diagnostics
