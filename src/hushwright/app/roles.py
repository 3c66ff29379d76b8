"""What parts of a page expect of the page, so that no part needs to know the whole."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Protocol

from hushwright.app.desk import OpenBuild
from hushwright.app.session import Session
from hushwright.units import System
from hushwright.verdicts.verdict import Verdict


class Page(Protocol):
    """A window on an open build."""

    open: OpenBuild
    session: Session

    @property
    def system(self) -> System:
        """Units of everything on this page."""

    def change(self, act: Callable[[], object]) -> bool:
        """Do something to the text; what cannot be done is told."""

    def reach(self, place: str) -> None:
        """Bring the field at a place into sight."""

    def problems(self) -> tuple[Any, ...]:
        """Everything wrong or odd in the present text."""

    def compared(self) -> tuple[Verdict, ...]:
        """Verdicts that the present ones are compared with."""

    def model_address(self) -> str:
        """Where the browser gets the three-dimensional model of this build."""


class View(Protocol):
    """The view area of a page."""

    page: Page
    face: str

    def refresh(self) -> None:
        """Show what now holds."""
