"""What stands in the title block of the drawings, and where sections are cut."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class RevisionInPlace:
    """One revision of the papers."""

    revision: str
    date: str
    change: str


@dataclass(frozen=True, slots=True)
class DrawnInPlace:
    """What stands in the title block; sections by name and station [m]."""

    number: str
    date: str
    revisions: tuple[RevisionInPlace, ...]
    drawn_by: str
    checked_by: str
    sections: tuple[tuple[str, float], ...]

    @property
    def revision(self) -> str:
        """Revision of the sheets."""
        return self.revisions[-1].revision if self.revisions else ""

    @property
    def revision_date(self) -> str:
        """Date of the revision, else of the file."""
        return (self.revisions[-1].date if self.revisions else "") or self.date


NOTHING_DRAWN = DrawnInPlace("", "", (), "", "", ())
