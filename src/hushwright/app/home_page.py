"""The page of the workspace: builds with their verdict at a glance; new, open, duplicate, upload, download."""

from __future__ import annotations

import asyncio
from typing import Any
from urllib.parse import quote

from nicegui import ui
from nicegui.events import GenericEventArguments, UploadEventArguments

from hushwright.app import glance
from hushwright.app.desk import Desk
from hushwright.app.elements import Listing
from hushwright.app.first_page import FIRST
from hushwright.app.frame import Frame, button, say
from hushwright.document.files import LARGEST_FILE, read_text
from hushwright.errors import UnreadableDocument


class HomePage:
    """One window on the workspace."""

    def __init__(self, desk: Desk, frame: Frame, examples: dict[str, str]) -> None:
        self.desk = desk
        self.frame = frame
        self.examples = examples
        self._alive = True
        ui.context.client.on_delete(self._end)
        with frame.body, ui.element("main").classes("hw-home-main"):
            with ui.element("h1"):
                ui.label("Builds in this folder")
            self._draw_new()
            self.listing = Listing()
        self.listing.on("duplicate", self._duplicate)
        self.listing.on("download", self._download)
        ui.page_title("Hushwright")
        self.refresh()
        self._task = asyncio.get_running_loop().create_task(self._compute())

    def _end(self) -> None:
        self._alive = False

    def _draw_new(self) -> None:
        with ui.element("div").classes("hw-row"):
            button("First look: a dozen questions", lambda: ui.navigate.to(FIRST))
        with ui.element("div").classes("hw-row"):
            with ui.element("label").classes("hw-newname"):
                ui.label("Name of a new build")
                self.typed = ui.input().props('dense outlined aria-label="Name of a new build"')
            with ui.element("label").classes("hw-newname"):
                ui.label("begins as")
                self.example = ui.select(list(self.examples), value=next(iter(self.examples), None))
                self.example.props('dense outlined options-dense aria-label="Example it begins as"')
            button("Begin", self._new)
            ui.upload(
                label="or drop a build file here", auto_upload=True, max_file_size=LARGEST_FILE, max_files=8,
                on_upload=self._upload, on_rejected=lambda: say("That is no build file: a build file is a short text."),
            ).props("accept=.yaml,.yml flat bordered").classes("hw-upload")  # fmt: skip

    def refresh(self) -> None:
        """Show what is in the folder."""
        builds = []
        for one in self.desk.workspace.listed():
            known = self.desk.known(one.name)
            builds.append({"name": one.name, "title": one.title, "link": f"/build/{quote(one.name)}", **_glance(known)})
        self.listing.show(builds=builds)

    async def _compute(self) -> None:
        for one in self.desk.workspace.listed():
            if not self._alive:
                return
            await self.desk.glance(one.name)
            if self._alive:
                self.refresh()

    def _again(self) -> None:
        self.refresh()
        self._task = asyncio.get_running_loop().create_task(self._compute())

    def _new(self) -> None:
        try:
            name = self.desk.workspace.create(str(self.typed.value or ""), self.examples[str(self.example.value)])
        except UnreadableDocument as problem:
            say(_why(problem))
            return
        ui.navigate.to(f"/build/{quote(name)}")

    async def _upload(self, event: UploadEventArguments) -> None:
        try:
            if event.file.size() > LARGEST_FILE:
                raise self.desk.workspace.too_large(event.file.name)
            name = self.desk.workspace.upload(event.file.name, await event.file.read())
        except UnreadableDocument as problem:
            say(_why(problem))
            return
        say(f"{name} is in the folder.")
        self._again()

    def _duplicate(self, event: GenericEventArguments) -> None:
        try:
            name = self.desk.workspace.duplicate(str(event.args["name"]))
        except UnreadableDocument as problem:
            say(_why(problem))
            return
        say(f"{name} is a copy.")
        self._again()

    def _download(self, event: GenericEventArguments) -> None:
        try:
            path = self.desk.workspace.path_of(str(event.args["name"]))
            ui.download.content(read_text(path).encode(), path.name)
        except UnreadableDocument as problem:
            say(_why(problem))


def _glance(known: Any) -> dict[str, Any]:
    if known is None:
        return {"outcome": "", "sign": "…", "glance": "computing", "groups": []}
    if known.evaluation is None:
        number = sum(one.severity == "error" for one in known.problems)
        return {"outcome": "fails", "sign": "▲", "glance": f"{number} problems in the file", "groups": []}
    return glance.glance_of(known.verdicts)


def _why(problem: UnreadableDocument) -> str:
    one = problem.diagnostics[0]
    return f"{one.note}{f'; {one.hint}' if one.hint else ''}"
