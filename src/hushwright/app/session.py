"""One editing session per file: steps forward and back, saved whole at once, never over what someone else wrote."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path as FilePath
from typing import Literal

from hushwright.app.changes import Difference, called, differences
from hushwright.app.history import History
from hushwright.app.listeners import Listeners
from hushwright.app.workspace import Workspace
from hushwright.document.files import read_text
from hushwright.document.nodes import Path
from hushwright.document.outline import Entry, outline
from hushwright.document.parts import add_item, lift_item, remove_part, set_deep
from hushwright.document.save import digest, save_atomically, typed_text
from hushwright.errors import UnreadableDocument

_laid_out = lru_cache(maxsize=4)(outline)
written = lru_cache(maxsize=8)(set_deep)
"""`set_deep`, which is asked twice for what is typed: whether it can be taken, and to take it."""

Choice = Literal["mine", "theirs", "both"]
VALUE_PARTS = ("is", "from", "plus_minus", "by")


@dataclass(frozen=True, slots=True)
class Question:
    """The file on the disk is not the one that was read here: which shall count?

    ``theirs`` is its text now, ``None`` where the file is gone or no text any more.
    """

    theirs: str | None
    differing: tuple[Difference, ...]
    note: str = ""


class Overtaken(Exception):
    """Another window has changed the value meanwhile."""

    def __init__(self, path: Path, here: str, wanted: str) -> None:
        super().__init__(f"{'.'.join(map(str, path))} is {here!r} by now, in another window")
        self.path = path
        self.here = here
        self.wanted = wanted


class Session:
    """A build file being edited. Every change is saved at once; listeners hear of it."""

    def __init__(self, workspace: Workspace, name: str) -> None:
        self.workspace = workspace
        self.path: FilePath = workspace.path_of(name)
        self.name = self.path.name
        self.history = History(read_text(self.path))
        self.on_disk = digest(self.history.text)
        self.question: Question | None = None
        self.revision = 0
        self.last = ""
        self._listeners = Listeners()

    @property
    def text(self) -> str:
        """The text as it stands here."""
        return self.history.text

    @property
    def is_saved(self) -> bool:
        """Whether the disk holds what stands here, as far as known."""
        return digest(self.text) == self.on_disk

    def listen(self, listener: Callable[[], None]) -> Callable[[], None]:
        """Call the listener after every change; what is returned ends that."""
        return self._listeners.add(listener)

    def outline(self) -> Entry:
        """The file as its fields."""
        return _laid_out(self.text)

    def called(self, path: Path) -> str:
        """What a person calls a place of the file as it stands."""
        return called(path, self.outline())

    def set_values(self, wanted: Mapping[Path, str], name: str = "", seen: Mapping[Path, str] | None = None) -> bool:
        """Set several values in one step; ``seen`` is what a window showed before.

        Raises
        ------
        Overtaken
            If a value is not what the window showed.
        InvalidInput
            If a value cannot stand there.
        """
        if seen:
            here = self.outline()
            for path, before in seen.items():
                entry = here.find(path)
                now = entry.text if entry is not None else ""
                if now != before and now != wanted.get(path):
                    raise Overtaken(path, now, wanted.get(path, ""))
        text = self.text
        for path, new in wanted.items():
            text = written(text, path, new)
        return self.change(text, name or ", ".join(self.called(path) for path in wanted))

    def set_parts(self, path: Path, parts: Mapping[str, str]) -> bool:
        """Set a value with its origin, spread and who says so; empty parts are left out."""
        entry = self.outline().find(path)
        given = {key: parts.get(key, "").strip() for key in VALUE_PARTS}
        text = self.text
        if any(given[key] for key in VALUE_PARTS[1:]):
            inside = ", ".join(
                f"{key}: {typed_text(part, in_flow=True, quote='', whole=False)}" for key, part in given.items() if part
            )
            text = set_deep(text, path, f"{{{inside}}}")
        elif entry is not None:
            text = set_deep(text, path, given["is"])
            for key, stands in (("from", entry.origin), ("plus_minus", entry.plus_minus), ("by", entry.by)):
                if stands:
                    text = remove_part(text, (*path, key))
        return self.change(text, self.called(path))

    def add(self, path: Path, new: str, before: int | None = None) -> bool:
        """Add an item to a list, at its end or before another one."""
        return self.change(add_item(self.text, path, new, before), f"add to {self.called(path)}")

    def lift(self, path: Path) -> bool:
        """Move a list item one place up."""
        return self.change(lift_item(self.text, path), f"move {self.called(path)} up")

    def remove(self, path: Path) -> bool:
        """Take a value, section or item out; the last item takes along a list that could not stand empty."""
        parent = self.outline().find(path[:-1]) if path and isinstance(path[-1], int) else None
        spec = parent.spec if parent is not None else None
        if parent is not None and spec is not None and spec.left_out_means and len(parent.children) == 1:
            path = parent.path
        return self.change(remove_part(self.text, path), f"take out {self.called(path)}")

    def change(self, text: str, name: str) -> bool:
        """Take a new text as one step and save it."""
        changed = self.history.change(text, name)
        if changed:
            self._moved(name)
        return changed

    def undo(self) -> str:
        """Go one step back, save, and return the step's name."""
        name = self.history.undo()
        if name:
            self._moved(f"undo {name}")
        return name

    def redo(self) -> str:
        """Go one step forward again, save, and return the step's name."""
        name = self.history.redo()
        if name:
            self._moved(f"redo {name}")
        return name

    def look_at_disk(self) -> Question | None:
        """See whether someone else has changed the file; what nobody here has touched is simply taken over."""
        theirs, note = self._read_disk()
        if theirs is not None and digest(theirs) == self.on_disk:
            return self.question
        if theirs is not None and self.is_saved and self.question is None:
            self.on_disk = digest(theirs)
            self.history.change(theirs, "changed outside")
            self._told("changed outside")
            return None
        self._ask(theirs, note)
        return self.question

    def answer(self, choice: Choice) -> str:
        """Answer the question; returns the name of the copy where both are kept."""
        question, copy = self.question, ""
        if question is None:
            return ""
        theirs = question.theirs
        if choice == "both":
            copy = self.workspace.create(self.workspace.free_name(self.name), self.text)
        self.question = None
        if choice == "mine" or theirs is None:
            if theirs is not None and digest(self._read_disk()[0] or "") != digest(theirs):
                self.on_disk = digest(theirs)
                self._ask(*self._read_disk())  # changed once more while the question stood
                return copy
            save_atomically(self.path, self.text)
            self.on_disk = digest(self.text)
            self._told("kept mine")
        else:
            self.on_disk = digest(theirs)
            self.history.change(theirs, "taken from the disk")
            self._told("taken from the disk")
        return copy

    def save(self) -> None:
        """Write the text, unless someone else has written meanwhile: then the question stands."""
        if self.question is not None:
            return
        try:
            save_atomically(self.path, self.text, self.on_disk)
        except UnreadableDocument as problem:
            if problem.diagnostics[0].reference != "file-changed":
                raise
            self._ask(*self._read_disk())
            return
        self.on_disk = digest(self.text)

    def _read_disk(self) -> tuple[str | None, str]:
        try:
            return read_text(self.path), ""
        except UnreadableDocument as problem:
            return None, problem.diagnostics[0].note

    def _ask(self, theirs: str | None, note: str) -> None:
        differing = differences(self.text, theirs) if theirs is not None else ()
        question = Question(theirs, differing, note)
        if theirs is not None and theirs == self.text:
            self.question, self.on_disk = None, digest(theirs)
        elif question != self.question:
            self.question = question
            self._told(self.last)

    def _moved(self, name: str) -> None:
        self.save()
        self._told(name)

    def _told(self, name: str) -> None:
        self.revision += 1
        self.last = name
        for listener in self._listeners:
            listener()


class Sessions:
    """Sessions by file: every window of this program that opens a file shares the one."""

    def __init__(self, workspace: Workspace) -> None:
        self.workspace = workspace
        self._open: dict[str, Session] = {}

    def of(self, name: str) -> Session:
        """The session of a file, begun where there is none.

        Raises
        ------
        UnreadableDocument
            If there is no such file or it is no text.
        """
        known = self.workspace.path_of(name).name
        if known not in self._open:
            self._open[known] = Session(self.workspace, known)
        return self._open[known]
