"""The page of one build: verdicts in sight, one view at a time, and the form."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any
from urllib.parse import quote

from nicegui import ui
from nicegui.events import GenericEventArguments

from hushwright.app import glance
from hushwright.app.blanks import blank_of, item_of
from hushwright.app.desk import Desk, OpenBuild
from hushwright.app.elements import Form, Question, Strip
from hushwright.app.form import GENERAL, form_of, parts_of
from hushwright.app.frame import Frame, button, say
from hushwright.app.session import Overtaken
from hushwright.app.since import Since
from hushwright.app.stuck import WaysOn
from hushwright.app.taking import NotTaken, take_parts, take_value
from hushwright.app.views import Views
from hushwright.document.nodes import Path, parse_path
from hushwright.document.outline import Entry
from hushwright.document.parts import set_deep
from hushwright.errors import InvalidInput, UnreadableDocument
from hushwright.library.read import read_library
from hushwright.units import System
from hushwright.verdicts.verdict import Verdict

_LOOK_AT_DISK = 1.5  # s


class BuildPage:
    """One window on an open build."""

    def __init__(self, desk: Desk, name: str, frame: Frame) -> None:
        self.desk = desk
        self.frame = frame
        self.open: OpenBuild = desk.open(name)
        self.session = self.open.session
        self.since = Since(desk, self.open, self.refresh)
        self.part = "brief"
        self.views: Views
        self.refused: dict[str, Any] | None = None
        self.own: dict[Path, str] = {}  # what this window set last, by place
        self.asking = False
        self.placed: dict[str, int] = {}  # where each group stands in sight, as when this window opened
        self._draw()
        end = self.open.listen(self.refresh)
        ui.context.client.on_delete(end)
        ui.timer(_LOOK_AT_DISK, self._look_at_disk)
        self.refresh()
        self.open.begin()

    @property
    def system(self) -> System:
        """Units of everything on this page."""
        return self.frame.system

    def _draw(self) -> None:
        with self.frame.actions:
            self.undo = button("Undo", lambda: self._step(self.session.undo, "Undone"), key="Ctrl+Z")
            self.redo = button("Redo", lambda: self._step(self.session.redo, "Done again"), key="Ctrl+Y")
            button("Download", lambda: ui.download.content(self.session.text.encode(), self.session.name))
            self.saved = ui.element("span").classes("hw-saved").props('role="status"')
            with self.saved:
                self.saved_text = ui.label("")
        with self.frame.body:
            self.strip = Strip()
            self.strip.on("choose", self._choose_group)
            self.strip.on("cancel", lambda: self.open.cancel())
            self.strip.on("problems", lambda: self.views.choose("Problems"))
            self.strip.on("since", lambda event: self.since.choose(str(event.args["since"])))
            self.strip.on("sort", lambda: self._sort())
            self.ways_on = WaysOn(self, lambda: self.views.choose("Problems"))
            with ui.element("main").classes("hw-main"):
                with ui.element("section").classes("hw-view").props('aria-label="View"'):
                    self.views = Views(self)
                with ui.element("section").classes("hw-side").props('aria-label="Form"'):
                    self.form = Form()
            self._listen_to_form()
            self.question = Question()
            self.question.set_visibility(False)
            self.question.on("answer", lambda event: self._answer(event.args["choice"]))
        ui.keyboard(on_key=self._key, ignore=["input", "select", "textarea"])

    def _listen_to_form(self) -> None:
        self.form.on("choose", lambda event: self.choose_part(str(event.args["part"])))
        self.form.on("set", self._set)
        self.form.on("parts", self._parts)
        self.form.on("add", self._add)
        self.form.on("lift", lambda event: self.change(lambda: self.session.lift(_path(event))))
        self.form.on("remove", lambda event: self.change(lambda: self.session.remove(_path(event))))

    def refresh(self) -> None:
        """Show what now holds, whoever has changed it."""
        with self.frame.body:
            self._refresh()

    def _refresh(self) -> None:
        opened, session = self.open, self.session
        now = opened.shown.verdicts if opened.shown is not None else ()
        before = self.since.verdicts()
        self.placed = self.placed or glance.groups_worst_first(now)
        problems = self.problems()
        errors = [one for one in problems if one.severity == "error"]
        message = ""
        if errors:
            message = f"{len(errors)} problem{'s' if len(errors) > 1 else ''}; the verdicts are those from before"
        elif opened.cancelled:
            message = "cancelled; the verdicts are those from before"
        self.strip.show(
            groups=glance.tiles(now, before, self.system, provisional=opened.is_provisional, placed=self.placed),
            busy=opened.busy, sortable=self.placed != glance.groups_worst_first(now),
            stale=opened.is_stale and not opened.is_provisional, provisional=opened.is_provisional, message=message,
            since=self.since.chosen, choices=self.since.choices(),
        )  # fmt: skip
        self.frame.title(self.title_of_build())
        self.undo.set_enabled(bool(session.history.done))
        self.redo.set_enabled(bool(session.history.undone))
        self.undo.tell(f"Undo: {session.history.next_undo or 'nothing to undo'} (Ctrl+Z)")
        self.redo.tell(f"Redo: {session.history.next_redo or 'nothing to redo'} (Ctrl+Y)")
        self.saved_text.set_text("saved" if session.is_saved else "not saved yet")
        self.ways_on.refresh(problems)
        self._show_form(problems)
        self._show_question()
        self.views.refresh()

    def _sort(self) -> None:
        """Put the tiles in the order of what is worst now."""
        self.placed = {}
        self.refresh()

    def problems(self) -> tuple[Any, ...]:
        """Everything wrong or odd in the present text."""
        failed = self.open.failed
        if failed is not None and failed.text == self.session.text:
            return failed.problems
        return self.open.reading.problems

    def compared(self) -> tuple[Verdict, ...]:
        """Verdicts that the present ones are compared with."""
        return self.since.verdicts()

    def model_address(self) -> str:
        """Where the browser gets the three-dimensional model of this build."""
        return f"/model/{quote(self.session.name)}"

    def title_of_build(self) -> str:
        """Title of the build, or the name of its file."""
        document = self.open.reading.document
        return (document.root.title if document is not None else "") or self.session.name

    def _show_form(self, problems: tuple[Any, ...]) -> None:
        try:
            root = self.session.outline()
        except UnreadableDocument:
            self.form.show(parts=[], entries=[], part=self.part)
            return
        build = self.open.reading.build
        assumed = {one.path: f"{one.text} ({one.source})" for one in build.assumptions} if build is not None else {}
        entries, lists = form_of(root, self.part, read_library(), problems, assumed, self.system)
        self.form.show(
            parts=parts_of(root, problems), part=self.part, entries=entries, lists=lists, refused=self.refused
        )

    def _show_question(self) -> None:
        asked = self.session.question
        self.question.set_visibility(asked is not None)
        if asked is not None:
            differing = [{"path": one.path, "before": one.before, "after": one.after} for one in asked.differing[:60]]
            self.question.show(note=asked.note, gone=asked.theirs is None, differing=differing)

    def choose_part(self, part: str) -> None:
        """Show another part of the form."""
        self.part = part
        self.refused = None
        self._show_form(self.problems())

    def reach(self, place: str) -> None:
        """Bring the field at a place into sight."""
        path = parse_path(place)
        if not path:
            return
        root = self.session.outline()
        top = root.find(path[:1])
        self.choose_part(GENERAL if top is None or top.form == "value" else str(path[0]))
        self.form.run_method("reach", place)

    def change(self, act: Callable[[], object]) -> bool:
        """Do something to the text; what cannot be done is told, and the text stays."""
        try:
            act()
        except Overtaken as problem:
            say(f"Another window has set this to {problem.here or 'nothing'} meanwhile. Look, and set it again.")
            self.refresh()
            return False
        except (InvalidInput, UnreadableDocument) as problem:
            say(f"Not done: {_said(problem)}")
            self.refresh()
            return False
        return True

    def _set(self, event: GenericEventArguments) -> None:
        path, typed = _path(event), str(event.args.get("typed", ""))
        seen = str(event.args.get("seen", ""))
        self.refused = None
        try:
            self._take(path, typed, seen)
        except NotTaken as problem:
            self.refused = {"id": ".".join(map(str, path)), "typed": typed, "note": problem.note,
                            "offers": list(problem.offers)}  # fmt: skip
            self._show_form(self.problems())
        except Overtaken as problem:
            note = f"another window has set it to {problem.here or 'nothing'} meanwhile; press Enter to set yours"
            self.refused = {"id": ".".join(map(str, path)), "typed": typed, "note": note}
            self._show_form(self.problems())

    def _take(self, path: Path, typed: str, seen: str) -> None:
        """Set a value; who types on before the answer has come has seen an older text than the own last one."""
        try:
            take_value(self.session, path, typed, seen)
        except Overtaken as problem:
            if problem.here != self.own.get(path):
                raise
            take_value(self.session, path, typed, problem.here)
        entry = self.session.outline().find(path)
        self.own[path] = "" if entry is None else entry.text

    def _parts(self, event: GenericEventArguments) -> None:
        parts = {str(key): str(part) for key, part in dict(event.args.get("parts", {})).items()}
        self.change(lambda: take_parts(self.session, _path(event), parts))

    def _add(self, event: GenericEventArguments) -> None:
        path = _path(event)
        kind, called = str(event.args.get("kind", "")), str(event.args.get("called", ""))
        before = event.args.get("before")

        def add() -> None:
            root = self.session.outline()
            entry = root.find(path)
            if entry is None or entry.spec is None:
                raise InvalidInput(f"there is no {'.'.join(map(str, path))}")
            if isinstance(before, int):
                self.session.add(path, item_of(entry, root, read_library(), kind), before)
            else:
                self._begin(entry, root, kind, called)

        self.change(add)

    def _begin(self, entry: Entry, root: Entry, kind: str, called: str) -> None:
        library = read_library()
        if entry.form == "map":
            if not called or "." in called:
                raise InvalidInput("the new part needs a name without a full stop")
            text = set_deep(self.session.text, (*entry.path, called), item_of(entry, root, library, kind))
            self.session.change(text, f"add {called}")
        elif entry.form == "list" and entry.given and not entry.fixed:
            self.session.add(entry.path, item_of(entry, root, library, kind))
        else:
            blank = blank_of(entry, root, library, kind)
            self.session.set_values({entry.path: blank}, f"begin {self.session.called(entry.path)}")

    def _step(self, act: Callable[[], str], word: str) -> None:
        self.refused = None
        done = ""

        def step() -> None:
            nonlocal done
            done = act()

        if self.change(step) and done:
            say(f"{word}: {done}")

    def _key(self, event: Any) -> None:
        if event.action.keydown and (event.modifiers.ctrl or event.modifiers.meta):
            if event.key == "z" and not event.modifiers.shift:
                self._step(self.session.undo, "Undone")
            elif event.key == "y" or (event.key in ("z", "Z") and event.modifiers.shift):
                self._step(self.session.redo, "Done again")

    def _choose_group(self, event: GenericEventArguments) -> None:
        self.views.choose_group(str(event.args["group"]))

    def _look_at_disk(self) -> None:
        self.session.look_at_disk()

    def _answer(self, choice: str) -> None:
        if choice not in ("mine", "theirs", "both"):
            return
        copy = ""

        def answer() -> None:
            nonlocal copy
            copy = self.session.answer(choice)  # type: ignore[arg-type]

        if self.change(answer) and copy:
            say(f"Yours is kept as {copy}.")
        self.refresh()


def _path(event: GenericEventArguments) -> Path:
    given = event.args.get("path", [])
    return tuple(key if isinstance(key, int) else str(key) for key in given)


def _said(problem: Exception) -> str:
    if isinstance(problem, UnreadableDocument):
        one = problem.diagnostics[0]
        return f"{one.note}{f'; {one.hint}' if one.hint else ''}"
    return str(problem)
