"""The van in three dimensions, part by part, from the same solids that leave the program as a file."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Any
from urllib.parse import quote

from nicegui import ui

from hushwright.model.build import Build

_AT_FIRST_HIDDEN = ("ceiling",)
_BACKGROUND = """(() => {
  const shade = () => { const found = getElement(%d); if (!found || !found.renderer) return;
    const colour = getComputedStyle(document.documentElement).getPropertyValue("--behind").trim();
    if (colour) found.renderer.setClearColor(colour); };
  [0, 300, 1500].forEach((later) => setTimeout(shade, later));
  new MutationObserver(shade).observe(document.documentElement, { attributes: true, attributeFilter: ["data-look"] });
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", shade);
})()"""

TAP = "Click or tap a part to read its name; drag turns the van."


def parts_in(build: Build) -> tuple[str, ...]:
    """Parts that can be shown or hidden, in the order in which they are met."""
    from hushwright.drawings.scene import solids_of

    return tuple(dict.fromkeys(solid.part for solid in solids_of(build)))


@lru_cache(maxsize=96)
def model_of(build: Build, part: str) -> bytes:
    """One part as a file for the browser."""
    from hushwright.drawings.scene import gltf

    return gltf(build, part=part, with_edges=True)


def _said(part: str) -> str:
    return part.replace("_", " ").replace(".", ", ")


class Scene3d:
    """The scene of one page; it is made anew when the build changes."""

    def __init__(self, build: Build, address: str, revision: int, hidden: set[str] | None) -> None:
        parts = parts_in(build)
        if hidden is None:
            hidden = {part for part in parts if part == "vehicle" or part.endswith(_AT_FIRST_HIDDEN)}
        self.hidden = hidden
        with ui.element("div").classes("hw-scene"):
            self.scene = ui.scene(
                width=820, height=500, grid=False, background_color="#d3dde1", on_click=self._tapped,
                camera=ui.scene.perspective_camera(fov=40),
            )  # fmt: skip
        self.named = ui.label(TAP).classes("hw-note").props("role=status")
        ui.run_javascript(_BACKGROUND % self.scene.id)
        length = build.vehicle.load_length
        self.models: dict[str, Any] = {}
        with self.scene:
            for part in parts:
                # The file has y up and z rearward; the scene has z up.
                model = self.scene.gltf(f"{address}?part={quote(part)}&revision={revision}")
                self.models[part] = model.rotate(math.pi / 2.0, 0.0, 0.0).visible(part not in hidden).with_name(part)
        self.scene.move_camera(x=4.2, y=-length - 2.2, z=3.4, look_at_x=0.0, look_at_y=-0.5 * length, look_at_z=0.7,
                               duration=0.0)  # fmt: skip
        with ui.element("fieldset").classes("hw-legend"):
            with ui.element("legend"):
                ui.label("Shown")
            for part in parts:
                box = ui.checkbox(_said(part), value=part not in hidden)
                box.on_value_change(lambda event, part=part: self._show(part, bool(event.value)))

    def _tapped(self, event: Any) -> None:
        """Name the nearest part in sight under the pointer."""
        hit = next((one.object_name for one in event.hits if one.object_name in self.models
                    and one.object_name not in self.hidden), "")  # fmt: skip
        self.named.set_text(_said(hit) if hit else TAP)

    def _show(self, part: str, shown: bool) -> None:
        self.hidden.discard(part) if shown else self.hidden.add(part)
        self.models[part].visible(shown)
