"""One view at a time: drawings, verdicts, problems, the text itself."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from nicegui import ui

from hushwright.app import glance
from hushwright.app.elements import Verdicts

if TYPE_CHECKING:
    from hushwright.app.build_page import BuildPage


class Views:
    """The tabs of a build and what they show."""

    def __init__(self, page: BuildPage) -> None:
        self.page = page
        self.name = "Verdicts"
        self.group = ""
        self.verdict = ""
        self.tabs: dict[str, Any] = {}
        with ui.element("div").classes("hw-tabs").props('role="tablist" aria-label="Views"'):
            for name in ("Verdicts", "Problems"):
                self.tabs[name] = _tab(name, lambda name=name: self.choose(name))
        self.panel = ui.element("div").classes("hw-panel").props('role="tabpanel"')
        self._draw()

    def choose(self, name: str) -> None:
        """Show another view."""
        self.name = name
        self._draw()
        self.refresh()

    def choose_group(self, group: str) -> None:
        """Show the verdicts of a group."""
        self.group = group
        self.verdict = ""
        self.choose("Verdicts")

    def _draw(self) -> None:
        for name, tab in self.tabs.items():
            tab.props(f'aria-selected="{"true" if name == self.name else "false"}"')
        self.panel.clear()
        with self.panel:
            if self.name == "Verdicts":
                self.verdicts = Verdicts()
                self.verdicts.on("choose", self._choose_verdict)
                self.verdicts.on("reach", lambda event: self.page.reach(str(event.args["place"])))

    def _choose_verdict(self, event: Any) -> None:
        self.verdict = str(event.args["id"])
        self.refresh()

    def refresh(self) -> None:
        """Show what now holds."""
        opened = self.page.open
        if self.name == "Verdicts" and opened.computed is not None:
            now = opened.computed.verdicts
            before = opened.before.verdicts if opened.before is not None else ()
            groups = glance.groups_of(now)
            group = self.group if self.group in groups else groups[0]
            rows = glance.rows(now, before, group, self.page.system)
            self.verdicts.show(group=group, rows=rows, chosen=self.verdict)


def _tab(name: str, act: Any) -> Any:
    from hushwright.app.frame import Button

    return Button(name, act).props('role="tab"').classes(add="hw-tab", remove="hw-plain")
