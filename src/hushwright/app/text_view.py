"""The text of a build file itself, and what stands in its way."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from nicegui import ui

from hushwright.app.frame import Button, button
from hushwright.app.roles import Page

if TYPE_CHECKING:
    from hushwright.app.computing import Computed


class TextView:
    """The whole text; it follows the file until somebody types in it."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.is_touched = False
        with ui.element("div").classes("hw-text"):
            self.editor = ui.codemirror(page.session.text, line_wrapping=False, language="YAML", theme="basicLight")
            self.editor.on_value_change(self._touched)
            button("Take this text", self._take)

    def refresh(self) -> None:
        """Show what now holds, unless something else is typed."""
        if not self.is_touched:
            self.editor.set_value(self.page.session.text)

    def _touched(self) -> None:
        self.is_touched = self.editor.value != self.page.session.text

    def _take(self) -> None:
        from hushwright.app.taking import take_text

        wanted = str(self.editor.value)
        if self.page.change(lambda: take_text(self.page.session, wanted)):
            self.is_touched = False


def nothing_said(shown: Computed | None) -> str:
    """What a file without problems and remarks has to be told of: that it is computed, and what is open all the same.

    Parameters
    ----------
    shown : Computed or None
        What was last computed.
    """
    if shown is None:
        return "The file can be read; nothing is computed yet."
    number = sum(one.verdict in ("fails", "unproven") for one in shown.verdicts)
    if not number:
        return "The file can be read and computed; every verdict meets or does not apply."
    questions = "question is" if number == 1 else "questions are"
    return f"The file can be read and computed; {number} {questions} open: see Verdicts."


def draw_problems(page: Page) -> None:
    """Every problem and remark of the file, each with a link to its place."""
    problems = page.problems()
    if not any(one.severity == "error" for one in problems):
        ui.label(nothing_said(page.open.shown))
    if not problems:
        return
    with ui.element("ul").classes("hw-problems"):
        for one in problems:
            with ui.element("li"):
                sign = "▲ Problem" if one.severity == "error" else "◆ Remark"
                value = f"{one.value}: " if one.value else ""
                ui.label(f"{sign}: {value}{one.note}{f'; {one.hint}' if one.hint else ''}")
                if one.place.path:
                    link = Button(f"{one.place.dotted}, line {one.place.line}", partial(page.reach, one.place.dotted))
                    link.classes(add="hw-link", remove="hw-plain")
