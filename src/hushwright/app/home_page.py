"""The page of the workspace: builds with their verdict at a glance; new, open, duplicate, upload, download."""

from __future__ import annotations

import asyncio
from pathlib import Path
from typing import Any
from urllib.parse import quote

from nicegui import ui
from nicegui.element import Element
from nicegui.events import GenericEventArguments, UploadEventArguments

from hushwright.app import glance
from hushwright.app.desk import Desk
from hushwright.app.elements import Listing
from hushwright.app.first_page import FIRST
from hushwright.app.frame import Frame, button, say
from hushwright.document.files import LARGEST_FILE, read_text
from hushwright.errors import UnreadableDocument
from hushwright.library.read import read_library
from hushwright.search.questions import questions

_DEMO = "archive-van"
_PICTURE = (Path(__file__).parent / "screen" / "van.svg").read_text(encoding="utf-8")
"""A van from above with its floating room; our own drawing, in the colours of the page."""


class HomePage:
    """One window on the workspace."""

    def __init__(self, desk: Desk, frame: Frame, examples: dict[str, str]) -> None:
        self.desk = desk
        self.frame = frame
        self.examples = examples
        self._alive = True
        ui.context.client.on_delete(self._end)
        with frame.body, ui.element("main").classes("hw-home-main"):
            is_new = not desk.workspace.listed()
            if is_new:
                self._draw_beginnings(is_new)
            with ui.element("h2"):
                ui.label("Builds in this folder")
            self.listing = Listing()
            if not is_new:  # who has builds comes for them
                self._draw_beginnings(is_new)
        self.listing.on("duplicate", self._duplicate)
        self.listing.on("download", self._download)
        ui.page_title("Hushwright")
        self.refresh()
        self._task = asyncio.get_running_loop().create_task(self._compute())

    def _end(self) -> None:
        self._alive = False

    def _draw_beginnings(self, is_new: bool) -> None:
        """What can be done here; with a picture for one who has never been here."""
        if is_new:
            with ui.element("div").classes("hw-welcome"):
                ui.html(_PICTURE, sanitize=False).classes("hw-picture")
                with ui.element("div"):
                    with ui.element("h1"):
                        ui.label("A quiet room in a van: will it be quiet enough, light enough, within budget?")
                    ui.label("Describe the van; every answer tells how sure it is and what would make it better.")
        else:
            with ui.element("h2"):
                ui.label("Begin another")
        with ui.element("div").classes("hw-ways"):
            asked = sum(not each.is_more for each in questions(read_library()))
            with _way("From a first talk", f"Answer {asked} questions; you see what is feasible, and get a build."):
                button(f"First look: {asked} questions", lambda: ui.navigate.to(FIRST))
            with _way("From an example", "A whole van with every drawing and paper. Invented; the copy is yours."):
                if _DEMO in self.examples:
                    button("Open a copy of the demo van", self._open_demo)
                self._draw_new()
            with _way("From a file of yours", f"Build files end in .yaml; those in {self._folder()} are listed here."):
                ui.upload(
                    label="drop a build file here", auto_upload=True, max_file_size=LARGEST_FILE, max_files=8,
                    on_upload=self._upload,
                    on_rejected=lambda: say("That is no build file: a build file is a short text."),
                ).props("accept=.yaml,.yml flat bordered").classes("hw-upload")  # fmt: skip

    def _folder(self) -> str:
        return f'the folder "{self.desk.workspace.folder.name}"' if self.desk.workspace.folder.name else "this folder"

    def _open_demo(self) -> None:
        workspace = self.desk.workspace
        try:
            name = workspace.create(workspace.free_name("demo van.yaml"), self.examples[_DEMO])
        except UnreadableDocument as problem:
            say(_why(problem))
            return
        ui.navigate.to(f"/build/{quote(name)}")

    def _draw_new(self) -> None:
        with ui.element("div").classes("hw-row"):
            with ui.element("label").classes("hw-newname"):
                ui.label("or a build named")
                self.typed = ui.input().props('dense outlined aria-label="Name of a new build"')
            with ui.element("label").classes("hw-newname"):
                ui.label("that begins as")
                self.example = ui.select(list(self.examples), value=next(iter(self.examples), None))
                self.example.props('dense outlined options-dense aria-label="Example it begins as"')
            button("Begin", self._new)

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


def _way(title: str, text: str) -> Element:
    """One way to begin: what it is, and below it what does it."""
    card = ui.element("section").classes("hw-way")
    with card:
        with ui.element("h2"):
            ui.label(title)
        ui.label(text).classes("hw-note")
    return card


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
