"""Where in the van the parts are that a verdict names: the plan, and a section for what no plan shows."""

from __future__ import annotations

from typing import Any

from nicegui import ui

from hushwright.app import pictures
from hushwright.app.elements import Drawing
from hushwright.model.build import Build
from hushwright.units import System


class Where:
    """Drawings with parts marked; it is made once and shows what now holds."""

    def __init__(self) -> None:
        with ui.element("div").classes("hw-where"):
            self.plan = Drawing()
            self.section = Drawing()
        self.marked: list[dict[str, Any]] = []
        self.at = ""
        for each in (self.plan, self.section):
            each.set_visibility(False)

    def point_at(self, drawn: str) -> None:
        """Bring one of the marked parts out."""
        self.at = drawn
        self._mark()

    def show(self, build: Build | None, marked: list[dict[str, Any]], system: System) -> None:
        """Show the drawings on which something is marked."""
        self.marked = marked
        if build is None or not marked:
            self.plan.set_visibility(False)
            self.section.set_visibility(False)
            return
        plan = pictures.picture(build, "plan", 0.0, system)
        lacking = [each for each in marked if not _shows(plan, each)]
        section = pictures.picture(build, "section", _station(build), system) if lacking else None
        for drawing, shown in ((self.plan, plan), (self.section, section)):
            is_there = shown is not None and any(_shows(shown, each) for each in marked)
            drawing.set_visibility(is_there)
            if shown is not None and is_there:
                drawing.show(**{**shown, "handles": [], "listed": []})
        self._mark()

    def _mark(self) -> None:
        marked = [{**each, "on": each["part"] == self.at} for each in self.marked]
        for each in (self.plan, self.section):
            each.show(marked=marked)


def _shows(shown: dict[str, Any], mark: dict[str, Any]) -> bool:
    from xml.sax.saxutils import quoteattr

    return f"data-part={quoteattr(str(mark['part']))}" in shown["svg"]


def _station(build: Build) -> float:
    quiet = build.room_for("quiet") or build.rooms[0]
    return (quiet.front + quiet.rear) / 2.0
