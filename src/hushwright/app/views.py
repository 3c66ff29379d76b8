"""One view at a time: drawings, walls, verdicts, problems, the text itself."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from nicegui import ui

from hushwright.app import glance, pictures
from hushwright.app.elements import Drawing, Table, Verdicts
from hushwright.app.frame import Button, button
from hushwright.app.group_pictures import GroupPicture
from hushwright.app.handles import dragged, handles_of
from hushwright.app.named import marks_of, parts_to_change, parts_with_ways, said_path
from hushwright.app.octaves import draw_octaves
from hushwright.app.quietening import FIND, STEPS, to_be_quietened
from hushwright.app.roles import Page
from hushwright.app.text_view import TextView, draw_problems
from hushwright.app.where import Where
from hushwright.document.edits import bare_unit
from hushwright.errors import InvalidInput

if TYPE_CHECKING:
    from collections.abc import Sequence

    from hushwright.errors import Diagnostic
    from hushwright.evaluation.results import Evaluation
    from hushwright.model.build import Build
    from hushwright.verdicts.verdict import Verdict

NAMES = ("Plan", "Left side", "Right side", "Section", "3-D", "Walls", "Verdicts", STEPS, "Papers", "Problems", "Text")
_DRAWN = {"Plan": "plan", "Left side": "left", "Right side": "right", "Section": "section"}


class Views:
    """The tabs of a build and what they show."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.name = "Plan"
        self.group = ""
        self.verdict = ""
        self.station: float | None = None
        self.face = ""
        self.state = ""
        self.paper = ""
        self.hidden: set[str] | None = None
        self.last: Build | None = None  # the newest that could be drawn
        self.tabs: dict[str, Any] = {}
        self._shown: Any = None
        with ui.element("div").classes("hw-tabs").props('role="tablist" aria-label="Views"'):
            for name in NAMES:
                self.tabs[name] = _tab(name, partial(self.choose, name))
        self.panel = ui.element("div").classes("hw-panel").props('role="tabpanel" tabindex="0"')
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
        self._shown = None
        self.panel.clear()
        with self.panel:
            if self.name in _DRAWN:
                self._draw_picture()
            elif self.name == "Verdicts":
                self.to_quiet = button(FIND, self._find_steps)
                self.picture = GroupPicture()
                self.verdicts = Verdicts()
                with self.verdicts:
                    self.where = Where()
                    self.octaves = ui.element("div")
                    self.chart_title = ui.label("").classes("hw-note")
                    self.chart = ui.element("div")
                self.verdicts.on("choose", self._choose_verdict)
                self.verdicts.on("reach", self._reach_part)
                self.verdicts.on("walls", self._edit_face)
            elif self.name == "Walls":
                from hushwright.app.walls import Walls

                self.walls = Walls(self)
            elif self.name == STEPS:
                from hushwright.app.quiet_view import QuietSteps

                self.steps = QuietSteps(self)
            elif self.name == "Text":
                self.text = TextView(self.page)

    def _draw_picture(self) -> None:
        if self.name == "Section":
            with ui.element("div").classes("hw-row"):
                build = self.page.open.reading.build
                for room, station in pictures.stations_of(build) if build is not None else ():
                    button(room.replace("_", " "), partial(self._cut, station))
        self.kept = ui.label("").classes("hw-problem error").props("role=status")
        self.drawing = Drawing()
        self.drawing.on("move", self._move)
        self.drawing.on("pick", self._pick)
        self.drawing.on("state", self._choose_state)

    def _cut(self, station: float) -> None:
        self.station = station
        self.refresh()

    def refresh(self) -> None:
        """Show what now holds."""
        if self.name in _DRAWN:
            self._show_picture()
        elif self.name == "Verdicts":
            self._show_verdicts()
        elif self.name == "Walls":
            self.walls.refresh()
        elif self.name == STEPS:
            self.steps.refresh()
        elif self.name in ("Papers", "Problems", "3-D"):
            self._show_again()
        elif self.name == "Text":
            self.text.refresh()

    def _show_picture(self) -> None:
        build = self.page.open.reading.build
        self.last = build or self.last
        self.kept.set_text("" if build is not None else kept_back(self.page.problems(), self.last is not None))
        self.drawing.classes(**({"remove": "hw-faded"} if build is not None else {"add": "hw-faded"}))
        self.drawing.set_visibility(self.last is not None)
        if self.last is None:
            return
        shown = pictures.picture(self.last, _DRAWN[self.name], self._station(), self.page.system)
        if build is None:
            shown = {**shown, "handles": []}
        self.drawing.show(**shown, shapes=self._shapes(), states=self._states(), state=self.state)

    def _states(self) -> list[str]:
        computed = self.page.open.shown
        if self.name != "Plan" or computed is None or computed.evaluation is None:
            return []
        return [one.state for one in computed.evaluation.use.clearances]

    def _shapes(self) -> list[dict[str, Any]]:
        computed, states = self.page.open.shown, self._states()
        if computed is None or computed.evaluation is None or self.state not in states:
            return []
        return pictures.swept_shapes(computed.evaluation, self.state)

    def _choose_state(self, event: Any) -> None:
        self.state = str(event.args["state"])
        self.refresh()

    def _station(self) -> float:
        build = self.page.open.reading.build or self.last
        assert build is not None
        if self.name != "Section":
            return 0.0
        if self.station is None:
            quiet = build.room_for("quiet") or next(iter(build.rooms), None)
            self.station = (quiet.front + quiet.rear) / 2.0 if quiet is not None else build.vehicle.load_length / 2.0
        return self.station

    def _move(self, event: Any) -> None:
        reading, session = self.page.open.reading, self.page.session
        build, document = reading.build, reading.document
        if build is None or document is None:
            return
        dx, dy = float(event.args.get("dx", 0.0)), float(event.args.get("dy", 0.0))

        def move() -> None:
            handles = handles_of(build, _DRAWN[self.name], self._station())
            handle = next((one for one in handles if one.id == event.args.get("id")), None)
            if handle is None:
                raise InvalidInput("what was dragged is not there any more")
            wanted = dragged(handle, dx, dy, document, session.outline(), bare_unit(session.text))
            session.set_values(wanted, f"move {handle.label}")

        self.page.change(move)

    def _pick(self, event: Any) -> None:
        build = self.page.open.reading.build
        if build is None:
            return
        place = ""
        if "id" in event.args:
            handles = handles_of(build, _DRAWN[self.name], self._station())
            handle = next((one for one in handles if one.id == event.args["id"]), None)
            place = ".".join(map(str, handle.moves[0].path)) if handle is not None else ""
        else:
            place = pictures.place_of_part(build, str(event.args.get("part", "")))
        if place:
            self.page.reach(place)

    def _choose_verdict(self, event: Any) -> None:
        self.verdict = str(event.args["id"])
        self.refresh()

    def _reach_part(self, event: Any) -> None:
        """Bring the values of a part into sight, and mark it in the drawing."""
        self.where.point_at(str(event.args.get("drawn", "")))
        self.page.reach(str(event.args["place"]))

    def _edit_face(self, event: Any) -> None:
        self.face = str(event.args["face"])
        self.choose("Walls")

    def _find_steps(self) -> None:
        chosen = self.verdict
        self.choose(STEPS)
        self.steps.begin(chosen)

    def _show_verdicts(self) -> None:
        opened = self.page.open
        if opened.shown is None:
            return
        now = opened.shown.verdicts
        before = self.page.compared()
        groups = glance.groups_of(now)
        group = self.group if self.group in groups else groups[0]
        build, evaluation = opened.reading.build, opened.shown.evaluation
        parts = parts_with_ways(build, evaluation) if build is not None and evaluation is not None else {}
        rows = glance.rows(now, before, group, self.page.system, provisional=opened.is_provisional, parts=parts)
        self.verdicts.show(group=group, rows=rows, chosen=self.verdict)
        self.picture.show(group, evaluation, self.page.system)
        self.to_quiet.set_visibility(any(one.group == group for one in to_be_quietened(now)))
        one = next((each for each in now if each.id == self.verdict and each.group == group), None)
        marked = marks_of(parts_to_change(one, parts)) if one is not None else []
        self.where.show(build, marked, self.page.system)
        self._show_chart()

    def _show_chart(self) -> None:
        computed = self.page.open.shown
        wanted = (id(computed), self.verdict)
        if wanted == self._shown:
            return
        self._shown = wanted
        self.chart.clear()
        self.octaves.clear()
        self.chart_title.set_text("")
        one = next((each for each in computed.verdicts if each.id == self.verdict), None) if computed else None
        if one is None or computed is None or computed.evaluation is None:
            return
        from hushwright.app import charts

        with self.octaves:
            draw_octaves(one, computed.evaluation)
        found = charts.chart_of(one, computed.evaluation, self.page.system)
        if found is not None:
            self.chart_title.set_text(found[0])
            with self.chart:
                ui.echart(found[1], renderer="svg").classes("hw-chart")
        elif one.group in ("Wiring", "Signals"):
            self._show_course(one, computed.evaluation)

    def _show_course(self, one: Verdict, evaluation: Evaluation) -> None:
        """The way of the circuit or line that a verdict is about."""
        from hushwright.app.courses import COURSE_HEAD, course_of, course_picture

        course = course_of(one, evaluation)
        if course is None:
            return
        shown, rows = course_picture(evaluation, course, self.page.system)
        self.chart_title.set_text(f"Way of {course.name.replace('_', ' ')} through the van: from above, from the left")
        with self.chart:
            Drawing().show(**shown)
            Table().show(head=COURSE_HEAD, rows=rows)

    def _show_again(self) -> None:
        """Views that are made anew, and only when what they show has changed."""
        opened = self.page.open
        what = self.page.session.revision if self.name == "3-D" else (self.page.session.revision, id(opened.shown))
        wanted = (self.name, what, self.face, self.paper)
        if wanted == self._shown:
            return
        self._shown = wanted
        self.panel.clear()
        with self.panel:
            if self.name == "3-D":
                from hushwright.app.scene import Scene3d

                if opened.reading.build is None:
                    ui.label(kept_back(self.page.problems(), False)).classes("hw-problem error")
                else:
                    scene = Scene3d(opened.reading.build, self.page.model_address(), self.page.session.revision,
                                    self.hidden)  # fmt: skip
                    self.hidden = scene.hidden
            elif self.name == "Papers":
                from hushwright.app.papers import draw_papers

                draw_papers(self)
            else:
                draw_problems(self.page)


def kept_back(problems: Sequence[Diagnostic], has_last: bool) -> str:
    """What keeps a picture from being drawn, and that the one below is older where one is shown.

    Parameters
    ----------
    problems : sequence of Diagnostic
        Everything that is wrong or odd.
    has_last : bool
        Whether an older picture is shown.
    """
    first = next((one for one in problems if one.severity == "error"), None)
    told = "the file cannot be read" if first is None else f"{said_path(first.place.path)}: {first.note}".lstrip(": ")
    below = " The picture below is the last one that could be drawn." if has_last else ""
    return f"▲ This cannot be drawn. {told[:1].upper()}{told[1:]}.{below}"


def _tab(name: str, act: Any) -> Any:
    return Button(name, act).props('role="tab"').classes(add="hw-tab", remove="hw-plain")
