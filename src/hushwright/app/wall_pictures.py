"""The van's own section, or its plan at an end, close up at a wall or leaf: layers numbered, to be dragged thicker."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import lru_cache
from typing import Any

from hushwright.app.handles import Handle, Move
from hushwright.app.leaf_pictures import leaf_elements, leaf_handles
from hushwright.document.nodes import parse_path
from hushwright.drawings.geometry import bands, half_width
from hushwright.drawings.primitives import Dimension, Drawing, Element, Hatch, Line, Point, Polyline, Text
from hushwright.model.build import Build, OpeningInPlace, Room, Surface
from hushwright.search.build_ups import layered_named
from hushwright.units import System

LAYER_STEP = 0.0005  # m, a layer is dragged by these
_SCALE = 2.0
_ROOT = re.compile(r'width="([\d.]+)mm" height="([\d.]+)mm" viewBox="[^"]*"')
_CORNER = re.compile(r'data-left="(-?[\d.]+)" data-top="(-?[\d.]+)"')
_AROUND, _HALF = 0.03, 0.035  # m shown beside the wall, and half of what is shown along it


def _depth_axis(build: Build, room: Room, surface: Surface) -> tuple[str, float, float, float] | None:
    """Axis of depth, its sign towards the room, where the outermost layer begins on it, and the middle across it."""
    z = room.section.floor_height + 0.5 * room.section.height
    if surface.face in ("left", "right"):
        sign = 1.0 if surface.face == "left" else -1.0
        return "x", sign, -sign * half_width(build.vehicle, 0.0, z), z
    if surface.face == "floor":
        return "y", 1.0, 0.0, 0.15
    if surface.face == "ceiling":
        return "y", -1.0, build.vehicle.floor_to_bow, 0.15
    if surface.face == "front":
        return "x", 1.0, room.front - surface.thickness, 0.3
    return ("x", -1.0, room.rear + surface.thickness, 0.3) if surface.face == "rear" else None


def layer_handles(build: Build, name: str) -> tuple[Handle, ...]:
    """One handle at the inner side of each layer; dragged towards the room the layer gets thicker."""
    leaf = _square_to_it(build, name)
    if leaf is not None:
        return leaf_handles(leaf)
    room, surface = _found(build, name)
    axis = None if surface is None or room is None else _depth_axis(build, room, surface)
    if axis is None or surface is None:
        return ()
    along, sign, begin, across = axis
    found = []
    for index, band in enumerate(bands(surface)):
        layer = band.layer
        if layer.kind == "floor_mounts" or ".layers." not in layer.place:
            continue
        path = (*parse_path(layer.place), "cavity" if layer.kind == "cavity" else "thickness")
        at = begin + sign * band.inner
        step = -0.6 * _HALF if index % 2 else 0.2 * _HALF
        move = Move(path, by_x=sign) if along == "x" else Move(path, by_y=sign)
        x, y = (at, across + step) if along == "x" else (across + step, at)
        found.append(Handle(f"layer {layer.place}", f"{layer.name}, thickness", "layer", x, y, (move,)))
    return tuple(found)


def _square_to_it(build: Build, name: str) -> OpeningInPlace | Surface | None:
    """What no section or plan of the van cuts square: a door or window, a wheel box."""
    found = layered_named(build, name)
    return found if isinstance(found, OpeningInPlace) or (found and found.face.startswith("wheel_box")) else None


def _found(build: Build, name: str) -> tuple[Room | None, Surface | None]:
    for room in build.rooms:
        for surface in room.surfaces:
            if surface.name == name:
                return room, surface
    return None, None


@lru_cache(maxsize=12)
def wall_picture(build: Build, name: str, system: System) -> dict[str, Any] | None:
    """Close-up of a wall, door or window with a handle on each layer; `None` where there is none to draw."""
    leaf = _square_to_it(build, name)
    if leaf is not None:
        thick = sum(layer.thickness for layer in leaf.layers)
        drawn = Drawing(leaf.name, leaf.name, "cut square to its leaf, outside to the left", leaf_elements(leaf))
        return _shown(drawn, (-_AROUND, -_HALF, thick + _AROUND, _HALF), leaf_handles(leaf), system)
    room, surface = _found(build, name)
    axis = None if surface is None or room is None else _depth_axis(build, room, surface)
    if axis is None or room is None or surface is None:
        return None
    from hushwright.drawings.plan import plan
    from hushwright.drawings.sections import section

    along, sign, begin, across = axis
    in_plan = surface.face in ("front", "rear")
    amid = (room.front + room.rear) / 2.0
    drawn = plan(build, system=system) if in_plan else section(build, "A", amid, system, with_things=False)
    words: list[Any] = []
    for index, band in enumerate(bands(surface)):
        middle = begin + sign * band.mid
        row = across + _HALF * (0.8 - 0.2 * (index % 3))
        at = (middle, row) if along == "x" else (row, middle)
        number = surface.layers.index(band.layer) + 1
        words += [Text(at, str(number), part=surface.name, size=0.0034, bold=True)]
        edge = begin + sign * band.inner
        ends = ((edge, across - _HALF), (edge, across + _HALF)) if along == "x" else (
            (across - _HALF, edge), (across + _HALF, edge))  # fmt: skip
        words.append(Line(*ends, "dimensions", surface.name))
    end = begin + sign * surface.thickness
    low, high = min(begin, end) - _AROUND, max(begin, end) + _AROUND
    box = (low, across - _HALF, high, across + _HALF) if along == "x" else (across - 2.0 * _HALF, low,
                                                                          across + 2.0 * _HALF, high)  # fmt: skip
    kept = tuple(each for each in drawn.elements if not isinstance(each, Text | Dimension) and _reaches(each, box))
    return _shown(replace(drawn, elements=(*kept, *words)), box, layer_handles(build, name), system)


def _shown(drawn: Drawing, box: tuple[float, float, float, float], handles: tuple[Handle, ...],
           system: System) -> dict[str, Any]:  # fmt: skip
    """A drawing within a window as the screen takes it."""
    from hushwright.drawings.svg import svg

    return _cropped(svg(drawn, _SCALE, system), box) | {
        "handles": [
            {"id": one.id, "label": one.label, "kind": one.kind, "x": one.x, "y": one.y, "axes": one.axes}
            for one in handles
        ],
        "step": LAYER_STEP, "us": system == "us", "names": {}, "shapes": [], "states": [], "state": "",
    }  # fmt: skip


def _reaches(element: Element, box: tuple[float, float, float, float]) -> bool:
    """Whether anything of an element may lie in a window."""
    if isinstance(element, Line):
        points: tuple[Point, ...] = (element.start, element.end)
    elif isinstance(element, Polyline):
        points = element.points
    elif isinstance(element, Hatch):
        points = element.outline
    else:
        return False
    xs, ys = [point[0] for point in points], [point[1] for point in points]
    return min(xs) <= box[2] and max(xs) >= box[0] and min(ys) <= box[3] and max(ys) >= box[1]


def _cropped(text: str, box: tuple[float, float, float, float]) -> dict[str, Any]:
    """The part of a drawing within a window, in its own place."""
    corner = _CORNER.search(text)
    assert corner is not None
    left, top = float(corner[1]), float(corner[2])
    x, y = 1000.0 * box[0] / _SCALE, 1000.0 * box[3] / _SCALE
    width, height = 1000.0 * (box[2] - box[0]) / _SCALE, 1000.0 * (box[3] - box[1]) / _SCALE
    shown = f"{x - left:.3f} {top - y:.3f} {width:.3f} {height:.3f}"
    view = f'width="{width:.2f}mm" height="{height:.2f}mm" viewBox="{shown}"'
    return {"svg": _ROOT.sub(view, text, count=1), "scale": _SCALE, "left": x, "top": y, "width": width,
            "height": height}  # fmt: skip
