"""The van in three dimensions, part by part, from the same solids that leave the program as a file."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Any
from urllib.parse import quote

from nicegui import ui

from hushwright.model.build import Build

_AT_FIRST_HIDDEN = ("ceiling",)


def parts_in(build: Build) -> tuple[str, ...]:
    """Parts that can be shown or hidden, in the order in which they are met."""
    from hushwright.drawings.scene import solids_of

    return tuple(dict.fromkeys(solid.part for solid in solids_of(build)))


@lru_cache(maxsize=96)
def model_of(build: Build, part: str) -> bytes:
    """One part as a file for the browser."""
    from hushwright.drawings.scene import gltf

    return gltf(build, part=part)


class Scene3d:
    """The scene of one page; it is made anew when the build changes."""

    def __init__(self, build: Build, address: str, revision: int, hidden: set[str] | None) -> None:
        parts = parts_in(build)
        if hidden is None:
            hidden = {part for part in parts if part == "vehicle" or part.endswith(_AT_FIRST_HIDDEN)}
        self.hidden = hidden
        with ui.element("div").classes("hw-scene"):
            self.scene = ui.scene(
                width=820, height=500, grid=False, background_color="#f4f1ea",
                camera=ui.scene.perspective_camera(fov=40),
            )  # fmt: skip
        length = build.vehicle.load_length
        self.models: dict[str, Any] = {}
        with self.scene:
            for part in parts:
                # The file has y up and z rearward; the scene has z up.
                model = self.scene.gltf(f"{address}?part={quote(part)}&revision={revision}")
                self.models[part] = model.rotate(math.pi / 2.0, 0.0, 0.0).visible(part not in hidden)
        self.scene.move_camera(x=4.2, y=-length - 2.2, z=3.4, look_at_x=0.0, look_at_y=-0.5 * length, look_at_z=0.7,
                               duration=0.0)  # fmt: skip
        with ui.element("fieldset").classes("hw-legend"):
            with ui.element("legend"):
                ui.label("Shown")
            for part in parts:
                box = ui.checkbox(part.replace("_", " ").replace(".", ", "), value=part not in hidden)
                box.on_value_change(lambda event, part=part: self._show(part, bool(event.value)))

    def _show(self, part: str, shown: bool) -> None:
        self.hidden.discard(part) if shown else self.hidden.add(part)
        self.models[part].visible(shown)
