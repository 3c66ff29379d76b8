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
    "if (closed) closed.open = true; found.scrollIntoView({{block: '{at}'}}); }}"
)
OLD = "This is what came out of the answers before; those that stand above now are not computed."
OLD_WHILE = "This is what came out of the answers before; those that stand above now are being computed."
FIRST = "/first"
"""Address of the page."""


class FirstPage:
    """One window with the questions."""

    def __init__(self, desk: Desk, frame: Frame) -> None:
        self.desk, self.frame = desk, frame
        self._fields: dict[str, Any] = {}
        self._notes: dict[str, Any] = {}
        self._found = Looked()
        self._old: Any = None  # line over the result, for when the answers have changed since
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
        self._mark_old(OLD_WHILE)
        try:
            found = await _away(typed, self.frame.system)
        except Exception:
            self._state.set_text("This could not be computed; the reason stands where the program was started.")
            self._mark_old(OLD)
            raise
        finally:
            self._look.props(remove="disabled")
        self._state.set_text("")
        if found.problems:
            self._mark_old(OLD)
            self._refuse(found.problems)
        else:
            self._found = found
            for key, plain in found.plain:
                self._fields[key].set_value(plain)
            self._show(found, _proposed(typed))
            ui.run_javascript(_SHOWN.format(where='section[aria-label="What comes out"]', at="start"))

    def _refuse(self, problems: Sequence[tuple[str, str]]) -> None:
        """Say at each answer what is wrong with it, and beside the button what is wrong with all together."""
        for key, told in problems:
            if key in self._notes:
                self._notes[key].set_text(_plainly(told))
                self._notes[key].classes("hw-problem error")
            else:
                self._state.set_text(_plainly(told))
        self._tell_where(problems)

    def _mark_old(self, words: str) -> None:
        """Say over a result that stands already that it is not of the answers that stand above it."""
        if self._old is not None:
            self._old.set_text(words)
            self._result.classes("hw-old")

    def _tell_where(self, problems: Sequence[tuple[str, str]]) -> None:
        """Say beside the button how many answers are wrong, and bring the first of them into sight."""
        wrong = [key for key, _ in problems if key in self._notes]
        if not wrong:
            return
        many = f"{len(wrong)} answers need" if len(wrong) > 1 else "1 answer needs"
        self._state.set_text(f"{many} mending; the first is in sight, what is wrong stands below it.")
        ui.run_javascript(_SHOWN.format(where=f'[data-question="{wrong[0]}"]', at="center"))

    def _show(self, found: Looked, name: str) -> None:
        from hushwright.report.first_look import BESIDE, WORDS  # late: the first page waits for no law

        self._result.clear()
        self._result.classes(remove="hw-old")
        with self._result:
            self._old = ui.label("").classes("hw-problem error").props("role=status")
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
                    self._name = ui.input(value=name).props('dense outlined aria-label="Name of the build"')
                button("Keep and open", self._keep)

    def _keep(self) -> None:
        called = str(self._name.value or "")
        if not called.strip():
            say("Give the build a name: its file and its papers are called by it.")
            return
        # The name given is the build's title too: two first looks are told apart on every paper.
        try:
            text = set_deep(self._found.text, ("title",), called)
            name = self.desk.workspace.create(called, text)
        except UnreadableDocument as problem:
            say(problem.diagnostics[0].note)
            return
        except InvalidInput as problem:
            say(str(problem))
            return
        ui.navigate.to(f"/build/{quote(name)}")


def _proposed(typed: dict[str, str]) -> str:
    """Name for a build that tells it from other first looks: what it is for, and in which body."""
    return f"{typed['use']} {typed['body']}".replace(",", "")


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
