"""What all windows share: the workspace, the builds that are open, and the process that computes."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Callable
from typing import Protocol

from hushwright.app.computing import Computed, Reading, read
from hushwright.app.listeners import Listeners
from hushwright.app.session import Session, Sessions
from hushwright.app.workspace import Workspace
from hushwright.document.files import read_text
from hushwright.document.save import digest
from hushwright.errors import UnreadableDocument

_MOST_KEPT = 64
_STEPS_KEPT = 16
"""Texts whose numbers are kept, so that steps back and forward show everything at once; about 3 MB each."""


class Computer(Protocol):
    """Whatever computes a text for the screen."""

    async def compute(
        self, text: str, name: str, already: Reading | None = None, early: Callable[[Computed], None] | None = None,
        earlier: Computed | None = None,
    ) -> Computed | None:  # fmt: skip
        """Compute a text, or what was read of it already; `None` where it was cancelled or overtaken.

        ``early`` hears the nominal numbers as soon as they are there, with the spreads that ``earlier`` lends.
        """

    def begin(self) -> None:
        """Make ready before the first text comes."""

    def overtake(self, name: str, text: str = "") -> None:
        """Drop what is being computed of a file, and begin with its new text, where there is one."""

    def cancel(self) -> None:
        """Give up what is being computed."""

    def stop(self) -> None:
        """End."""


class OpenBuild:
    """One open build: its session, what was read of it at once, and what was computed last and before."""

    def __init__(self, session: Session, computer: Computer) -> None:
        self.session = session
        self.computer = computer
        self.reading: Reading = read(session.text, session.name)
        self.computed: Computed | None = None
        self.before: Computed | None = None
        self.first: Computed | None = None
        self.early: Computed | None = None
        self.failed: Computed | None = None
        self.busy = False
        self.cancelled = False
        self._kept: dict[str, Computed] = {}
        self._listeners = Listeners()
        self._task: asyncio.Task[None] | None = None
        session.listen(self._changed)

    @property
    def shown(self) -> Computed | None:
        """What the screen shows: the provisional numbers of the present text where the whole is not there yet."""
        early = self.early
        return early if early is not None and early.text == self.session.text and self.is_stale else self.computed

    @property
    def is_provisional(self) -> bool:
        """Whether what is shown still lacks what the inputs add to its spread."""
        shown = self.shown
        return shown is not None and shown is self.early

    @property
    def compared(self) -> Computed | None:
        """What the last edit is compared with: the whole one before what is shown."""
        return self.computed if self.is_provisional else self.before

    @property
    def is_stale(self) -> bool:
        """Whether the verdicts belong to a text before the present one."""
        return self.computed is None or self.computed.text != self.session.text

    def was_computed(self, text: str) -> bool:
        """Whether a text is one of those whose numbers are kept, or can be read without a problem."""
        return text in self._kept or not read(text, self.session.name).errors

    def listen(self, listener: Callable[[], None]) -> Callable[[], None]:
        """Call the listener after every change; what is returned ends that."""
        return self._listeners.add(listener)

    def begin(self) -> None:
        """Compute what is not computed yet, off the event loop; the newest text wins."""
        if self._task is None or self._task.done():
            self._task = asyncio.get_running_loop().create_task(self._compute())

    def cancel(self) -> None:
        """Give up what is being computed."""
        self.cancelled = True
        self.computer.cancel()

    def _changed(self) -> None:
        text, name = self.session.text, self.session.name
        known = self._kept.get(text)
        self.computer.overtake(name, text if known is None else "")  # it is read there while it is read here
        self.reading = read(text, name)
        self.cancelled = False
        if known is not None:
            self._take(known)
        self.busy = self._has_to_compute()
        self._tell()
        self.begin()

    def _has_to_compute(self) -> bool:
        return self.is_stale and not self.cancelled and not self._is_hopeless()

    async def _compute(self) -> None:
        while self._has_to_compute():
            if not self.busy:
                self.busy = True
                self._tell()
            text = self.session.text
            found = await self.computer.compute(text, self.session.name, self.reading, self._hear, self.computed)
            if text != self.session.text:
                continue  # overtaken: what was found, if anything, is no longer asked for
            if found is None:
                self.cancelled = True
            elif found.evaluation is None:
                self.failed = found
            else:
                self._take(found)
        self.busy = False
        self._tell()

    def _hear(self, early: Computed) -> None:
        """Show the nominal numbers of the present text until the whole is there."""
        if early.text == self.session.text and early.verdicts:
            self.early = early
            self._tell()

    def _take(self, found: Computed) -> None:
        """Take what was computed as what holds, and keep it for steps back."""
        self.failed = self.early = None
        self.before, self.computed = self.computed, found
        self.first = self.first or found
        self._kept.pop(found.text, None)
        self._kept[found.text] = found
        while len(self._kept) > _STEPS_KEPT:
            self._kept.pop(next(iter(self._kept)))

    def _is_hopeless(self) -> bool:
        if self.reading.build is None or self.reading.errors:
            return True
        return self.failed is not None and self.failed.text == self.session.text

    def _tell(self) -> None:
        for listener in self._listeners:
            try:
                listener()
            except Exception:  # one window that cannot show something must not keep the others from it
                logging.getLogger("hushwright").exception("a window could not be brought up to date")


class Desk:
    """The workspace with everything that is open on it."""

    def __init__(self, workspace: Workspace, computer: Computer) -> None:
        self.workspace = workspace
        self.computer = computer
        self.sessions = Sessions(workspace)
        self._open: dict[str, OpenBuild] = {}
        self._glances: dict[str, Computed] = {}

    @property
    def is_busy(self) -> bool:
        """Whether anything is being computed."""
        return any(each.busy for each in self._open.values())

    def open(self, name: str) -> OpenBuild:
        """Open a build, or share it where it is open already.

        Raises
        ------
        UnreadableDocument
            If there is no such file or it is no text.
        """
        session = self.sessions.of(name)
        if session.name not in self._open:
            self._open[session.name] = OpenBuild(session, self.computer)
        return self._open[session.name]

    def known(self, name: str) -> Computed | None:
        """What was computed of a file as it now stands on the disk, if anything."""
        try:
            text = read_text(self.workspace.path_of(name))
        except UnreadableDocument:
            return None
        found = self._open.get(name)
        if found is not None and found.computed is not None and found.computed.text == text:
            return found.computed
        return self._glances.get(digest(text))

    async def glance(self, name: str) -> Computed | None:
        """Compute a file of the workspace for its line in the list."""
        found = self.known(name)
        if found is not None:
            return found
        try:
            text = read_text(self.workspace.path_of(name))
        except UnreadableDocument as problem:
            return Computed("", None, (), (), problem.diagnostics, 0.0)
        computed = await self.computer.compute(text, name)
        if computed is not None:
            while len(self._glances) >= _MOST_KEPT:
                self._glances.pop(next(iter(self._glances)))
            self._glances[digest(text)] = computed
        return computed
