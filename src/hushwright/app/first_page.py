"""The page of the first look: questions, what comes out, and a build to go on with."""

from __future__ import annotations

import asyncio
import multiprocessing
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from html import escape
from typing import Any
from urllib.parse import quote

from nicegui import ui

from hushwright.app.desk import Desk
from hushwright.app.first_work import Looked, looked
from hushwright.app.frame import Frame, button, say
from hushwright.document.parts import set_deep
from hushwright.errors import InvalidInput, UnreadableDocument
from hushwright.library.read import read_library
from hushwright.search.questions import Question, questions

_SHOWN = (
    "{{ const found = document.querySelector('{where}'), closed = found.closest('details'); "
    "if (closed) closed.open = true; found.scrollIntoView({{block: 'center'}}); }}"
)
FIRST = "/first"
"""Address of the page."""


class FirstPage:
    """One window with the questions."""

    def __init__(self, desk: Desk, frame: Frame) -> None:
        self.desk, self.frame = desk, frame
        self._fields: dict[str, Any] = {}
        self._notes: dict[str, Any] = {}
        self._found = Looked()
        with frame.body, ui.element("main").classes("hw-home-main"):
            ui.label("Leave what you do not know as it stands: it comes from the library, as a range.")
            asked = questions(read_library())
            for each in asked:
                if not each.is_more:
                    self._draw(each)
            more = [each for each in asked if each.is_more]
            with ui.element("details").classes("hw-details"):
                with ui.element("summary"):
                    ui.label(f"{len(more)} more, for who knows better than the usual answer")
                for each in more:
                    self._draw(each)
            with ui.element("div").classes("hw-row"):
                self._look = button("Look", self._take)
                self._state = ui.label("").props("role=status aria-live=polite")
            self._result = ui.element("section").props('aria-label="What comes out"')
        ui.page_title("First look · Hushwright")

    def _draw(self, question: Question) -> None:
        with ui.element("label").classes("hw-newname").props(f'data-question="{question.key}"'):
            ui.label(question.asks)
            named = f'dense outlined aria-label="{escape(question.asks)}"'
            if question.choices:
                field: Any = ui.select(list(question.choices), value=question.default).props(f"{named} options-dense")
            else:
                field = ui.input(value=question.default).props(named).on("keydown.enter", self._take)
            self._fields[question.key] = field
            self._notes[question.key] = ui.label(_plainly(question.why)).classes("hw-why")

    async def _take(self) -> None:
        asked = {each.key: each for each in questions(read_library())}
        for key, note in self._notes.items():
            note.set_text(_plainly(asked[key].why))
            note.classes(remove="hw-problem error")
        self._state.set_text("Computing, some seconds …")
        self._look.props("disabled")
        typed = {key: str(field.value or "") for key, field in self._fields.items()}
        try:
            self._found = await _away(typed, self.frame.system)
        finally:
            self._look.props(remove="disabled")
        self._state.set_text("")
        for key, plain in self._found.plain:
            self._fields[key].set_value(plain)
        for key, told in self._found.problems:
            if key in self._notes:
                self._notes[key].set_text(told)
                self._notes[key].classes("hw-problem error")
            else:
                self._state.set_text(told)
        if self._found.problems:
            self._tell_where(self._found.problems)
        else:
            self._show(self._found)
            ui.run_javascript(_SHOWN.format(where='section[aria-label="What comes out"]'))

    def _tell_where(self, problems: Sequence[tuple[str, str]]) -> None:
        """Say beside the button how many answers are wrong, and bring the first of them into sight."""
        wrong = [key for key, _ in problems if key in self._notes]
        if not wrong:
            return
        many = f"{len(wrong)} answers need" if len(wrong) > 1 else "1 answer needs"
        self._state.set_text(f"{many} mending; the first is in sight, what is wrong stands below it.")
        ui.run_javascript(_SHOWN.format(where=f'[data-question="{wrong[0]}"]'))

    def _show(self, found: Looked) -> None:
        from hushwright.report.first_look import BESIDE, WORDS  # late: the first page waits for no law

        self._result.clear()
        with self._result:
            with ui.element("h2"):
                ui.label(f"First look: {found.word}")
            _table(("", "", "range", "wanted", ""), found.topics)
            ui.label(WORDS).classes("hw-note")
            if found.doubt:
                _heading("How quiet, and how sure")
                ui.label(found.doubt)
            if found.begin:
                _heading("Where to begin")
                _table((), found.begin)
            if found.beside:
                _heading(BESIDE)
                _table((), [(line,) for line in found.beside])
            if found.trials:
                _heading("How heavy to build")
                _table(("leaves", "quiet inside", "mass on the road", ""), found.trials)
                for told in found.no_quieter:
                    ui.label(told)
            _heading("What to measure first")
            _table((), [(line,) for line in found.measure])
            ui.label(found.caution).classes("hw-problem")
            with ui.element("div").classes("hw-row"):
                with ui.element("label").classes("hw-newname"):
                    ui.label("Name of the build")
                    self._name = ui.input(value="first look").props('dense outlined aria-label="Name of the build"')
                button("Keep and open", self._keep)

    def _keep(self) -> None:
        called = str(self._name.value or "")
        # The name given is the build's title too: two first looks are told apart on every paper.
        try:
            text = set_deep(self._found.text, ("title",), called) if called.strip() else self._found.text
            name = self.desk.workspace.create(called, text)
        except UnreadableDocument as problem:
            say(problem.diagnostics[0].note)
            return
        except InvalidInput as problem:
            say(str(problem))
            return
        ui.navigate.to(f"/build/{quote(name)}")


async def _away(typed: dict[str, str], system: Any) -> Looked:
    """Compute in a process that begins fresh and ends with the answer."""
    with ProcessPoolExecutor(1, mp_context=multiprocessing.get_context("spawn")) as pool:
        return await asyncio.get_running_loop().run_in_executor(pool, looked, typed, system)


def _plainly(text: str) -> str:
    """Sentence without the marks that the command line puts round what is typed."""
    return text.replace("`", "")


def _heading(text: str) -> None:
    with ui.element("h3"):
        ui.label(text)


def _table(columns: Sequence[str], rows: Sequence[Sequence[str]]) -> None:
    """Table as one element; every text of it as text."""
    head = "".join(f"<th scope='col'>{escape(each)}</th>" for each in columns)
    body = "".join("<tr>" + "".join(f"<td>{escape(cell)}</td>" for cell in row) + "</tr>" for row in rows)
    ui.html(f"<table class='hw-table'>{f'<tr>{head}</tr>' if head else ''}{body}</table>", sanitize=False)
