"""Walls: the layers of a face edited on the van's own section, held against what the brief needs, and compared."""

from __future__ import annotations

import asyncio
import contextlib
from typing import TYPE_CHECKING, Any

from nicegui import ui

from hushwright.app.elements import Choice, Drawing, Layers, Table
from hushwright.app.frame import button, say
from hushwright.app.handles import dragged
from hushwright.app.roles import View
from hushwright.app.taking import NotTaken, take_value
from hushwright.app.wall_rows import (
    ADDED,
    COMPARED_HEAD,
    FACES_HEAD,
    compared_row,
    face_row,
    item_text,
    layer_rows,
    said_of,
    said_of_shares,
    spoken,
)
from hushwright.document.edits import bare_unit, edited
from hushwright.document.nodes import Path, parse_path
from hushwright.errors import InvalidInput, UnreadableDocument
from hushwright.evaluation.sound.needs import needs_of, share_of, sounds_of
from hushwright.evaluation.sound.seals import slit_share_of
from hushwright.report.units_out import restated
from hushwright.search.build_ups import layered_named, layered_names
from hushwright.verdicts.seals import said_of_slit

if TYPE_CHECKING:
    from hushwright.evaluation.results import Evaluation
    from hushwright.evaluation.sound.needs import FaceNeed, Sound
    from hushwright.model.build import Build
    from hushwright.search.comparing import Compared

OLD = "▲ Old: of the file before it was changed. Compare again before one is used."


class Walls:
    """The view of one page; it is made once and shows what now holds."""

    def __init__(self, view: View) -> None:
        self.view = view
        self.page = view.page
        self.sound = ""
        self.refused: dict[str, Any] | None = None
        self.compared: list[Compared] = []
        self.compared_text = ""
        self.comparing = False
        self.names: list[str] = []
        self._charted: Any = None
        self._last: Build | None = None
        with ui.element("div").classes("hw-row"):
            self.which = Choice()
            self.which.on("choose", lambda event: self._choose_face(str(event.args["key"])))
            button("Compare build-ups", self._compare)
            self.cancel = button("Cancel", self._cancel)
            self.progress = ui.label("").classes("hw-note").props('role="status"')
        self.cancel.set_visibility(False)
        self.table = Table()
        self.table.on("choose", self._use)
        self.layers = Layers()
        for name, act in (("set", self._set), ("lift", self._lift), ("remove", self._remove), ("add", self._add)):
            self.layers.on(name, act)
        self.layers.on("reach", lambda event: self.page.reach(str(event.args["place"])))
        self.drawing = Drawing()
        self.drawing.on("move", self._move)
        self.charts = ui.element("div")
        self.faces = Table()
        self.faces.on("choose", lambda event: self._choose_face(str(event.args["id"])))

    def refresh(self) -> None:
        """Show what now holds."""
        build = self.page.open.reading.build
        if build is None:
            self._show_what_is_typed()
            self._show_compared()
            return
        self._last = build
        names = self.names = layered_names(build)
        if self.view.face not in names:
            quiet = [name for name in names if name.startswith("quiet")] or names
            self.view.face = quiet[0] if quiet else ""
        self._show_layers(names, build)
        from hushwright.app.wall_pictures import wall_picture

        shown = wall_picture(build, self.view.face, self.page.system)
        self.drawing.set_visibility(shown is not None)
        if shown is not None:
            self.drawing.show(**shown)
        self._show_numbers()
        self._show_compared()

    def _show_what_is_typed(self) -> None:
        """While the van cannot be built, the layers as the file has them, on the faces of the version before."""
        if self._last is not None:
            with contextlib.suppress(UnreadableDocument):  # no YAML: they stay as they were
                self._show_layers(self.names, self._last)

    def _show_layers(self, names: list[str], build: Build) -> None:
        shown = self.page.open.shown
        unpriced = shown.evaluation.cost.unpriced if shown is not None and shown.evaluation is not None else ()
        rows, lists, note = layer_rows(build, self.view.face, self.page.session.outline(), self.page.system, unpriced)
        self.which.show(label="Face, door or window", options=[[name, spoken(name)] for name in names],
                        chosen=self.view.face)  # fmt: skip
        self.layers.show(note=note, layers=rows, lists=lists, kinds=list(ADDED), refused=self.refused)

    def _show_numbers(self) -> None:
        computed = self.page.open.shown
        evaluation = computed.evaluation if computed is not None else None
        wanted = (id(computed), self.view.face, self.sound)
        if evaluation is None or wanted == self._charted:
            return
        self._charted = wanted
        faces = sorted(evaluation.faces, key=lambda one: one.rw)
        sound = self._sound_of(evaluation)
        self.faces.show(head=FACES_HEAD, caption=said_of_shares(sound), rows=[
            face_row(one, self.view.face, self.page.system, can=one.name in self.names,
                     share=None if sound is None else share_of(sound, one.name)) for one in faces
        ])  # fmt: skip
        self.charts.clear()
        with self.charts:
            self._draw_charts(evaluation)
        self._show_compared()

    def _draw_charts(self, evaluation: Evaluation) -> None:
        from hushwright.app.wall_charts import margin_chart, need_chart

        needs = needs_of(evaluation, self.view.face)
        need = next((each for each in needs if each.sound.key == self.sound), next(iter(needs), None))
        if needs:
            chosen = {each.sound.key: f"{each.sound.name}, {each.sound.state.replace('_', ' ')}: {each.sound.asks}"
                      for each in needs}  # fmt: skip
            box = Choice()
            box.on("choose", self._choose_sound)
            box.show(label="Against", options=list(chosen.items()), chosen=need.sound.key if need else "")
        slit = slit_share_of(evaluation, self.view.face)
        for text in (*said_of(need, self.view.face), "" if slit is None else said_of_slit(slit)):
            ui.label(restated(text, self.page.system)).set_visibility(bool(text))
        face = next((one for one in evaluation.faces if one.name == self.view.face), None)
        ui.label(f"Sound reduction of {spoken(self.view.face)}: as it is, and needed").classes("hw-note")
        ui.echart(need_chart(face, need), renderer="svg").classes("hw-chart")
        if need is not None:
            ui.label("Margin of its own ways in each third octave").classes("hw-note")
            ui.echart(margin_chart(need), renderer="svg").classes("hw-small")

    def _choose_sound(self, event: Any) -> None:
        self.sound = str(event.args["key"])
        self.refresh()

    def _choose_face(self, name: str) -> None:
        self.view.face, self.sound, self.compared = name, "", []
        self.refresh()
        self._show_compared()

    def _move(self, event: Any) -> None:
        reading, session = self.page.open.reading, self.page.session
        build, document = reading.build, reading.document
        if build is None or document is None:
            return
        from hushwright.app.wall_pictures import layer_handles

        def move() -> None:
            handle = next((one for one in layer_handles(build, self.view.face) if one.id == event.args.get("id")), None)
            if handle is None:
                raise InvalidInput("what was dragged is not there any more")
            dx, dy = float(event.args.get("dx", 0.0)), float(event.args.get("dy", 0.0))
            wanted = dragged(handle, dx, dy, document, session.outline(), bare_unit(session.text))
            for path, new in wanted.items():  # one: a layer that is no layer any more is not taken
                entry = session.outline().find(path)
                take_value(session, path, new, entry.text if entry is not None else "")

        self.page.change(move)

    def _set(self, event: Any) -> None:
        path, typed, seen = _path(event), str(event.args["typed"]), str(event.args.get("seen", ""))
        self.refused = None

        def take() -> None:
            try:
                take_value(self.page.session, path, typed, seen)
            except NotTaken as problem:
                place = ".".join(map(str, path[:-1]))
                self.refused = {"id": place, "key": path[-1], "typed": typed, "note": problem.note,
                                "offers": list(problem.offers)}  # fmt: skip
                self.refresh()

        self.page.change(take)

    def _lift(self, event: Any) -> None:
        self.page.change(lambda: self.page.session.lift(_path(event)))

    def _remove(self, event: Any) -> None:
        self.page.change(lambda: self.page.session.remove(_path(event)))

    def _add(self, event: Any) -> None:
        build = self.page.open.reading.build
        if build is None:
            return
        layered = layered_named(build, self.view.face)
        if layered is not None:
            at = (*parse_path(layered.place), "layers")
            item = item_text(str(event.args["kind"]), bare_unit(self.page.session.text))
            self.page.change(lambda: self.page.session.add(at, item))

    async def _compare(self) -> None:
        from hushwright.app.comparing import comparer

        if self.comparing:
            return
        self.comparing = True
        text, self.compared = self.page.session.text, []
        self.compared_text = text
        self.cancel.set_visibility(True)
        self.progress.set_text("Computing …")
        face = self.view.face
        async for number, each in comparer().run(text, self.page.session.name, face):
            if face != self.view.face or text != self.page.session.text:
                continue  # nobody asks for it any more
            self.compared.append(each)
            self.progress.set_text(f"{len(self.compared)} of {number}")
            self._show_compared()
            await asyncio.sleep(0)
        self.comparing = False
        self.cancel.set_visibility(False)
        self.progress.set_text("")

    def _cancel(self) -> None:
        from hushwright.app.comparing import comparer

        comparer().stop()

    def _show_compared(self) -> None:
        need = self._need()
        key, deciding = ("", None) if need is None else (need.sound.key, need.deciding)
        rows = [compared_row(at, each, self.compared[0], key, self.page.system, deciding)
                for at, each in enumerate(self.compared)]  # fmt: skip
        is_old = bool(rows) and self.page.session.text != self.compared_text
        if is_old:
            rows = [{**each, "can": False} for each in rows]
        caption = OLD if is_old else ("Nominal numbers, without their spread; materials of this face by the amount"
                                      " used, not in whole packs, without tax.")  # fmt: skip
        self.table.show(head=COMPARED_HEAD, rows=rows, act="Use this", caption=caption)

    def _need(self) -> FaceNeed | None:
        """What the face is asked in the chosen sound, else in the one that decides."""
        computed = self.page.open.shown
        if computed is None or computed.evaluation is None:
            return None
        needs = needs_of(computed.evaluation, self.view.face)
        return next((each for each in needs if each.sound.key == self.sound), next(iter(needs), None))

    def _sound_of(self, evaluation: Evaluation) -> Sound | None:
        """The sound against which the face is held, else the first that the brief limits."""
        need = self._need()
        return need.sound if need is not None else next(iter(sounds_of(evaluation)), None)

    def _use(self, event: Any) -> None:
        at = int(event.args["id"])
        if at >= len(self.compared):
            return
        chosen, session = self.compared[at], self.page.session
        if session.text != self.compared_text:
            say("The file has changed since; compare again.")
            return
        if self.page.change(lambda: session.change(edited(session.text, chosen.edits), f"use {chosen.name}")):
            self.compared = []
            self._show_compared()


def _path(event: Any) -> Path:
    return tuple(key if isinstance(key, int) else str(key) for key in event.args.get("path", []))
