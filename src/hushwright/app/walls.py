"""Walls: how each build-up keeps sound out, with its spread, and what it costs in mass and depth."""

from __future__ import annotations

from typing import TYPE_CHECKING

from nicegui import ui

from hushwright.app import charts
from hushwright.app.frame import Button
from hushwright.app.roles import View
from hushwright.report.units_out import restated, shown

if TYPE_CHECKING:
    from hushwright.evaluation.results import FacePrediction


def draw_walls(views: View) -> None:
    """Draw the curve of the chosen face before the others, and the table of all."""
    computed = views.page.open.computed
    if computed is None or computed.evaluation is None:
        ui.label("Not computed yet.")
        return
    faces = computed.evaluation.faces
    chosen = next((one for one in faces if one.name == views.face), None) or _weakest(faces)
    if chosen is None:
        ui.label("The build has no face with a build-up.")
        return
    others = [one for one in faces if one.name != chosen.name]
    near = sorted(others, key=lambda one: abs(one.surface_density - chosen.surface_density))[:3]
    ui.label(f"Sound reduction of {_spoken(chosen.name)} with its spread, beside the build-ups nearest to it in mass")
    ui.echart(charts.reduction_chart([chosen, *near]), renderer="svg").classes("hw-chart")
    with ui.element("div").classes("hw-tables"), ui.element("table").classes("hw-table"):
        _row(("face", "towards", "Rw", "C", "Ctr", "mass", "depth", "build-up"), "th")
        for one in sorted(faces, key=lambda one: one.rw):
            _face(views, one, chosen=one.name == chosen.name)


def _weakest(faces: tuple[FacePrediction, ...]) -> FacePrediction | None:
    """The face that a quiet room would be judged by first: the one of least Rw towards the open."""
    outside = [one for one in faces if one.beyond == "outdoors" and "quiet" in one.name] or list(faces)
    return min(outside, key=lambda one: one.rw) if outside else None


def _face(views: View, one: FacePrediction, *, chosen: bool) -> None:
    system = views.page.system

    def choose() -> None:
        views.face = one.name
        views.refresh()
        if one.place:
            views.page.reach(one.place)

    with ui.element("tr"):
        with ui.element("td"):
            link = Button(f"{'▸ ' if chosen else ''}{_spoken(one.name)}", choose)
            link.classes(add="hw-link", remove="hw-plain")
        cells = (_spoken(one.beyond), f"{one.rw} dB", f"{one.c}", f"{one.ctr}",
                 shown(one.surface_density, "surface_density", system), shown(one.thickness, "length", system),
                 restated(one.construction, system))  # fmt: skip
        for cell in cells:
            _cell(cell, "td")


def _row(cells: tuple[str, ...], tag: str) -> None:
    with ui.element("tr"):
        for cell in cells:
            _cell(cell, tag)


def _cell(text: str, tag: str) -> None:
    with ui.element(tag):
        ui.label(text)


def _spoken(name: str) -> str:
    return name.replace("_", " ").replace(".", ", ")
