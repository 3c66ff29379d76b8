"""Build-up details: every different build-up cut square to its face, outside to the left, each layer named."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hushwright.drawings.geometry import labelled, spoken
from hushwright.drawings.layers import tone_of
from hushwright.drawings.numbers import length_text
from hushwright.drawings.primitives import (
    FIRST_ROW,
    NORMAL,
    SMALL,
    Circle,
    Dimension,
    Drawing,
    Element,
    Hatch,
    Line,
    Polyline,
    Text,
    box,
)
from hushwright.library.us_names import sized_name
from hushwright.model.build import Build, LayerInPlace, Surface
from hushwright.units import System

_HEIGHT = 0.27  # m of each build-up that is shown
CELL = (0.124, 0.108)  # m on paper for one detail, across and down
DETAIL_SCALE = 5.0
_LONGEST = 100  # characters of a line
_LINE = 0.0042  # m on paper from one name to the next
_APART = 0.017  # m in a detail between two numbers of layers: 3.4 mm on paper
_BELOW = (0.008, 0.026)  # m in a detail under its edge: where leaders bend, and where their numbers stand


@dataclass(frozen=True, slots=True)
class Detail:
    """One build-up and all the faces that have it."""

    layers: tuple[LayerInPlace, ...]
    faces: tuple[Surface, ...]

    @property
    def name(self) -> str:
        """Faces by name."""
        rooms: dict[str, list[str]] = {}
        for face in self.faces:
            rooms.setdefault(face.room, []).append(spoken(face.face))
        return "; ".join(f"{spoken(room)} {', '.join(faces)}" for room, faces in rooms.items())


def details_of(build: Build) -> tuple[Detail, ...]:
    """Different build-ups of all rooms; faces with the same layers share one."""
    found: dict[tuple[object, ...], list[Surface]] = {}
    for room in build.rooms:
        for surface in room.surfaces:
            if not surface.layers:
                continue
            kept = tuple((layer.kind, layer.name, layer.thickness, layer.cavity) for layer in surface.layers)
            found.setdefault(kept, []).append(surface)
    return tuple(Detail(faces[0].layers, tuple(faces)) for faces in found.values())


def build_ups(
    build: Build, details: tuple[Detail, ...], number: int, system: System = "metric", columns: int = 3
) -> Drawing:
    """Details beside each other in rows, to be printed at :data:`DETAIL_SCALE`.

    Parameters
    ----------
    build : Build
        The build.
    details : tuple of Detail
        What to draw.
    number : int
        Number of the sheet.
    system : {"metric", "us"}
        Units of the thicknesses beside the names.
    columns : int
        How many stand in a row.

    Returns
    -------
    Drawing
        Every detail true to size, outside to the left.
    """
    found: list[Element] = []
    for index, detail in enumerate(details):
        row, column = divmod(index, columns)
        found += _detail(detail, column * CELL[0] * DETAIL_SCALE, -row * CELL[1] * DETAIL_SCALE, system)
    return Drawing(f"build-ups-{number}", f"Build-ups {number}", "each cut square to its face, outside to the left",
                   tuple(found))  # fmt: skip


def _detail(detail: Detail, x: float, y: float, system: System) -> list[Element]:
    first = detail.faces[0]
    top = y + _HEIGHT
    found: list[Element] = [Text((x, top), labelled(detail.name, 52), part=first.name, across="left", upward="bottom",
                                 size=NORMAL, bold=True, shift=(0.0, 0.011))]  # fmt: skip
    at, names = x, []
    for layer in detail.layers:
        end = at + layer.thickness
        found += layer_shapes(layer, at, end, y, top, first.name)
        names.append(((at + end) / 2.0, layer))
        at = end
    found.append(Line((x, y), (at, y), "hidden"))
    found.append(Line((x, top), (at, top), "hidden"))
    found.append(Dimension((x, top), (at, top), "x", top, FIRST_ROW * 0.55))
    numbers = spread_out([place for place, _ in names], _APART)
    for index, ((place, layer), beside) in enumerate(zip(names, numbers, strict=True)):
        line = -0.0115 - _LINE * index
        leader = ((place, y + 0.012), (place, y - _BELOW[0]), (beside, y - _BELOW[1]))
        found.append(Polyline(leader, "dimensions"))
        found.append(Circle(leader[0], 0.0015, "dimensions"))
        found.append(Text(leader[-1], str(index + 1), size=SMALL, upward="top", shift=(0.0, -0.0006), bold=True))
        said = f"{index + 1}  {_short(_said(layer, system))}"
        found.append(Text((x, y), said, part=first.name, across="left", upward="top", size=SMALL, shift=(0.0, line)))
    return found


def spread_out(places: Sequence[float], least: float) -> list[float]:
    """Places in rising order moved as little as it takes to stand a least distance apart.

    Examples
    --------
    >>> spread_out([0.0, 1.0, 1.25, 9.0], 2.0)
    [-1.25, 0.75, 2.75, 9.0]
    """
    groups: list[list[float]] = []
    for place in places:
        groups.append([place])
        while len(groups) > 1 and _first(groups[-1], least) < _first(groups[-2], least) + least * len(groups[-2]):
            last = groups.pop()
            groups[-1] += last
    return [_first(group, least) + least * index for group in groups for index in range(len(group))]


def _first(group: list[float], least: float) -> float:
    """Where a group of touching places begins so that its middle stays."""
    return sum(group) / len(group) - least * (len(group) - 1) / 2.0


def layer_shapes(layer: LayerInPlace, at: float, end: float, low: float, high: float, part: str) -> list[Element]:
    """One layer cut square to its face, from one depth to another, between two heights [m]."""
    corners = box((at, low), (end, high))
    space = layer.cavity
    if space is None:
        return [Hatch(corners, "linings", part, tone_of(layer.kind) or "sheet"),
                Polyline(corners, "linings", part, closed=True)]  # fmt: skip
    found: list[Element] = [Hatch(corners, "linings", part, "room")]
    if space.fill is not None:
        reach = at + min(space.fill_thickness, layer.thickness)
        found.append(Hatch(box((at, low), (reach, high)), "linings", part, "wool", lines=True))
    if space.ribs is not None and space.ribs.depth > 0.0 and space.extra_depth == 0.0:
        low_rib, deep = high - 0.09, min(space.ribs.depth, layer.thickness)
        rib = box((at, low_rib), (at + deep, low_rib + min(space.ribs.width, 0.08)))
        found += [Hatch(rib, "body", "vehicle", "metal"), Polyline(rib, "body", "vehicle", closed=True)]
    if space.frame is not None:
        batten = box((end - space.frame.depth, low + 0.09), (end, low + 0.09 + space.frame.width))
        found += [Hatch(batten, "linings", part, "sheet"), Polyline(batten, "linings", part, closed=True)]
    found.append(Polyline(corners, "structure", part, closed=True))
    return found


def _short(text: str) -> str:
    return text if len(text) <= _LONGEST else text[: _LONGEST - 1] + "…"


def _said(layer: LayerInPlace, system: System) -> str:
    """Name, thickness and what stands in a space."""
    thickness = length_text(layer.thickness, system)
    space = layer.cavity
    if space is None:
        part = f", {100 * layer.coverage:.0f} % covered" if layer.coverage < 1.0 else ""
        joint = ", laid loose" if layer.joint == "loose" else ""
        return f"{sized_name(layer.name, system)}, {thickness}{part}{joint}"
    parts = [f"space {thickness}" if layer.kind == "cavity" else f"mounts and bearers {thickness}"]
    if space.fill is not None:
        parts.append(f"{sized_name(space.fill.name, system)}, {length_text(space.fill_thickness, system)} thick")
    if space.frame is not None:
        frame = space.frame
        parts.append(f"battens {length_text(frame.depth, system)} × {length_text(frame.width, system)}"
                     f" every {length_text(frame.spacing, system)}")  # fmt: skip
    if space.ribs is not None and space.ribs.depth > 0.0:
        word = "between bows" if space.extra_depth > 0.0 else "over ribs"
        parts.append(f"{word} {length_text(space.ribs.depth, system)} deep")
    return "; ".join(parts)
