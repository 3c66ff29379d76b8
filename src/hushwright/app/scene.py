"""The van in three dimensions, from the same solids that leave the program as a file."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Any

from nicegui import ui

from hushwright.model.build import Build

_GROUPS = ("body", "leaves", "mounts", "fittings")


@lru_cache(maxsize=2)
def _model(build: Build) -> bytes:
    from hushwright.drawings.scene import gltf

    return gltf(build)


class Scene3d:
    """The scene of one page; it is made anew when the build changes."""

    def __init__(self, build: Build, address: str) -> None:
        with ui.element("div").classes("hw-scene"):
            self.scene = ui.scene(
                width=860,
                height=520,
                grid=False,
                background_color="#f4f1ea",
                camera=ui.scene.perspective_camera(fov=40),
            )
        length = build.vehicle.load_length
        with self.scene:
            model: Any = self.scene.gltf(address)
            # The file has y up and z rearward; the scene has z up.
            model.rotate(math.pi / 2.0, 0.0, 0.0)
        self.scene.move_camera(x=3.6, y=-length - 1.2, z=3.6, look_at_x=0.0, look_at_y=-length / 2.0, look_at_z=0.8,
                               duration=0.0)  # fmt: skip


def model_of(build: Build) -> bytes:
    """The scene as one file for the browser."""
    return _model(build)
