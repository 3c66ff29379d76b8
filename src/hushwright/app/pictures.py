"""Drawings of the open build as the screen shows them: the same views that go on paper, with handles."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from hushwright.app.handles import STEP, handles_of
from hushwright.model.build import Build
from hushwright.units import System, format_quantity

if TYPE_CHECKING:
    from hushwright.evaluation.results import Evaluation

_SCALE = {"plan": 42.0, "left": 42.0, "right": 42.0, "section": 24.0}
_ROOT = re.compile(r'width="([\d.]+)mm" height="([\d.]+)mm".*?data-left="(-?[\d.]+)" data-top="(-?[\d.]+)"', re.DOTALL)


@lru_cache(maxsize=12)
def picture(build: Build, view: str, station: float, system: System) -> dict[str, Any]:
    """One view with its place on the screen and its handles."""
    handles = [
        {"id": one.id, "label": one.label, "kind": one.kind, "x": one.x, "y": one.y, "axes": one.axes}
        for one in handles_of(build, view, station)
    ]
    drawing = _drawn(build, view, station, system)
    shown = placed(drawing, _SCALE[view], system)
    listed = _listed(build, drawing, system)
    return {**shown, "handles": handles, "step": STEP, "names": _names(build), "listed": listed}


def _listed(build: Build, drawing: Any, system: System) -> list[dict[str, Any]]:
    """What the numbers of a drawing stand for, with the mass of openings, and whether each has values to change."""
    from hushwright.drawings.primitives import Balloon

    parts = {one.text: one.part for one in drawing.elements if isinstance(one, Balloon)}
    found = []
    for number, text in drawing.key:
        part = parts.get(number, "")
        weighs = sum(item.mass for item in build.masses if item.place == f"openings.{part}")
        told = f"{text}, {format_quantity(weighs, 'mass', system)}" if weighs > 0.0 else text
        found.append({"number": number, "text": told, "part": part, "opens": bool(place_of_part(build, part))})
    return found


def placed(drawing: Any, scale: float, system: System) -> dict[str, Any]:
    """A drawing with its place on the screen, without handles."""
    from hushwright.drawings.svg import svg

    text = svg(drawing, scale, system)
    found = _ROOT.search(text)
    assert found is not None
    width, height, left, top = map(float, found.groups())
    return {"svg": text, "scale": scale, "left": left, "top": top, "width": width, "height": height,
            "handles": [], "us": system == "us"}  # fmt: skip


def _drawn(build: Build, view: str, station: float, system: System) -> Any:
    if view == "plan":
        from hushwright.drawings.plan import plan

        return plan(build, system=system, scale=_SCALE["plan"])
    if view == "section":
        from hushwright.drawings.sections import section

        return section(build, "A", station, system)
    from hushwright.drawings.elevations import side

    return side(build, view)


def _names(build: Build) -> dict[str, str]:
    """What the parts of a drawing are called, where their name alone does not say it: leaf by leaf."""
    return {
        layer.place: f"{surface.name.replace('_', ' ').replace('.', ', ')}: {layer.name}"
        for room in build.rooms
        for surface in room.surfaces
        for layer in surface.layers
    }


def swept_shapes(evaluation: Evaluation, state: str) -> list[dict[str, Any]]:
    """Room that things take in a state, as outlines of the plan; what strikes is marked."""
    found = next((one for one in evaluation.use.clearances if one.state == state), None)
    if found is None:
        return []
    striking = {name for one in found.strikes for name in one[:2]}
    return [
        {"name": one.name.replace("_", " "), "points": [[x, -y] for x, y in one.outline], "moves": one.moves,
         "strikes": one.name in striking}
        for one in found.swept
    ]  # fmt: skip


def stations_of(build: Build) -> tuple[tuple[str, float], ...]:
    """Where sections can be looked at: the middle of each room."""
    return tuple((room.name, (room.front + room.rear) / 2.0) for room in build.rooms)


def place_of_part(build: Build, part: str) -> str:
    """Path in the file of what a drawing shows under a name; empty where it has none of its own."""
    for index, fitting in enumerate(build.document.root.fittings):
        if fitting.name == part:
            return f"fittings.{index}"
    for section in ("openings", "cuts", "rooms", "mounts", "routes"):
        if part in getattr(build.document.root, section, {}):
            return f"{section}.{part}"
    for room in build.rooms:
        for surface in room.surfaces:
            if part == surface.name:
                return surface.place
    from hushwright.drawings.use_in_plan import PLACES  # late: the first page waits for no law

    if part in PLACES and build.use.workplace is not None:
        return "workplace"
    return "vehicle" if part == "vehicle" else ""
