"""Sheet parts: the outline of every sheet, mat and covering of the build-ups, with its holes and where it goes.

How the leaves meet in the corners (common practice, no source): sides stand between floor and ceiling and between the
ends; ends stand between floor and ceiling and cover the edges of the sides; floor and ceiling cover all of them. A face
that bends has one part for each of its planes, edges to be bevelled. Wheel boxes cut their place out of side and floor.
What is larger than a sheet is divided, the joints of every other layer half a width on.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from hushwright.drawings.dividing import divided
from hushwright.drawings.geometry import bands, developed, holes_of, leaf_thickness, spoken
from hushwright.drawings.primitives import Point, area_of, box
from hushwright.model.build import Build, LayerInPlace, Room, Surface

Vector = tuple[float, float, float]
_CUT_KINDS = ("sheet", "facing", "limp", "foam", "covering")
_SLIVER = 1e-6  # m²


@dataclass(frozen=True, slots=True)
class Frame:
    """Where the plane of a part lies: its corner, the way of x and of y, and the way out of the room."""

    corner: Vector
    along: Vector
    up: Vector
    outward: Vector


@dataclass(frozen=True, slots=True)
class Part:
    """A piece to be cut: outline and holes seen from inside the room [m]."""

    number: int
    room: str
    face: str
    layer: int  # counted from the outside, 1 first
    plane: str  # word for the plane of a face that has several; "" for one
    piece: str  # "1 of 2" where the part is divided; ""
    material: str
    kind: str
    thickness: float
    outline: tuple[Point, ...]
    holes: tuple[tuple[Point, ...], ...]
    frame: Frame
    place: str

    @property
    def code(self) -> str:
        """Short name on the piece itself, ``P07``."""
        return f"P{self.number:02d}"

    @property
    def label(self) -> str:
        """What it is, in words."""
        parts = (f"{spoken(self.room)} {spoken(self.face)}", self.plane, f"layer {self.layer}", self.piece)
        return ", ".join(each for each in parts if each)

    @property
    def area(self) -> float:
        """Area without its holes [m²]."""
        return area_of(self.outline) - sum(area_of(hole) for hole in self.holes)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the outline [m]."""
        xs, ys = zip(*self.outline, strict=True)
        return max(xs) - min(xs), max(ys) - min(ys)


@dataclass(frozen=True, slots=True)
class _Plane:
    """One plane of a face: its word, frame on the finished face, outline, holes in the same coordinates."""

    word: str
    frame: Frame
    outline: tuple[Point, ...]
    holes: tuple[tuple[Point, ...], ...]


def parts_of(build: Build) -> tuple[Part, ...]:
    """Every part of every room, front room first, numbered through.

    Parameters
    ----------
    build : Build
        The build.

    Returns
    -------
    tuple of Part
        Outlines in metres, corner at the origin, the finished face up.
    """
    found: list[Part] = []
    for room in build.rooms:
        for surface in room.surfaces:
            for part in _of_face(build, room, surface):
                found.append(replace(part, number=len(found) + 1))
    return tuple(found)


def _of_face(build: Build, room: Room, surface: Surface) -> Iterator[Part]:
    index_of = {id(layer): index for index, layer in enumerate(surface.layers, 1)}
    for count, band in enumerate(each for each in bands(surface) if each.layer.kind in _CUT_KINDS):
        planes = _inner_planes(build, room, surface) if band.in_inner_leaf else _outer_planes(build, room, surface)
        for plane in planes:
            depth = surface.thickness - band.inner
            frame = replace(plane.frame, corner=_moved(plane.frame.corner, plane.frame.outward, depth))
            index = index_of[id(band.layer)]
            yield from _pieces(replace(plane, frame=frame), room, surface, band.layer, index, staggered=count % 2 == 1)


def _moved(point: Vector, way: Vector, distance: float) -> Vector:
    return (point[0] + way[0] * distance, point[1] + way[1] * distance, point[2] + way[2] * distance)


def _inner_planes(build: Build, room: Room, surface: Surface) -> tuple[_Plane, ...]:
    if surface.face in ("left", "right"):
        return tuple(_side_planes(build, room, surface.face))
    if surface.face in ("floor", "ceiling"):
        return (_level_plane(build, room, surface.face),)
    if surface.face in ("front", "rear"):
        return (_end_plane(build, room, surface.face),)
    return tuple(_box_planes(build, room, surface))


def _outer_planes(build: Build, room: Room, surface: Surface) -> tuple[_Plane, ...]:
    """Leaves outside the innermost space: of ends they fill the section of the body, others are as the inner one."""
    if surface.face not in ("front", "rear"):
        return _inner_planes(build, room, surface)
    section = build.vehicle.section
    return (_across(build, room, surface.face, tuple(section.polygon)),)


@dataclass(frozen=True, slots=True)
class _Box:
    """What a finished wheel box takes of the room it stands in."""

    start: float
    end: float
    half: float
    rise: float

    @classmethod
    def of(cls, build: Build, room: Room, face: str) -> _Box | None:
        surface = room.surface(f"wheel_box_{face}")
        if surface is None or build.vehicle.wheel_boxes is None:
            return None
        between, height, front, rear = build.vehicle.wheel_boxes
        lining = surface.thickness
        return cls(max(room.front, front - lining), min(room.rear, rear + lining), between / 2.0 - lining,
                   height + lining - room.section.floor_height)  # fmt: skip


def _side_planes(build: Build, room: Room, face: str) -> Iterator[_Plane]:
    """One plane for each straight piece of the side; x runs so that one looks from inside."""
    line = _bends_only(room.section.left if face == "left" else room.section.right)
    taken = _Box.of(build, room, face)
    holes = holes_of(build, room, face)
    way, foot = 0.0, room.section.floor_height
    for index, (low, high) in enumerate(zip(line, line[1:], strict=False)):
        run = math.dist(low, high)
        up = (0.0, (high[0] - low[0]) / run, (high[1] - low[1]) / run)
        sign = 1.0 if face == "left" else -1.0
        outward = (0.0, sign * up[2], -sign * up[1])
        start, along = (room.rear, -1.0) if face == "left" else (room.front, 1.0)
        frame = Frame((start, low[0], low[1]), (along, 0.0, 0.0), up, outward)
        outline: tuple[Point, ...] = box((0.0, 0.0), (room.length, run))
        cuts = [tuple(((station - start) * along, height - way) for station, height in hole.outline) for hole in holes]
        if taken is not None:
            top = developed(room.section, face, foot + taken.rise)
            xs = sorted(((taken.start - start) * along, (taken.end - start) * along))
            cuts.append(box((xs[0], -way - 1.0), (xs[1], top - way)))
        word = "" if len(line) == 2 else f"plane {index + 1} from below"
        yield _Plane(word, frame, outline, tuple(cuts))
        way += run


def _bends_only(line: tuple[Point, ...]) -> tuple[Point, ...]:
    """A line without corners at which it goes straight on."""
    kept = [line[0]]
    for before, here, after in zip(line, line[1:], line[2:], strict=False):
        one, two = (here[0] - before[0], here[1] - before[1]), (after[0] - here[0], after[1] - here[1])
        if abs(one[0] * two[1] - one[1] * two[0]) > 1e-3 * math.hypot(*one) * math.hypot(*two):
            kept.append(here)
    return (*kept, line[-1])


def _level_plane(build: Build, room: Room, face: str) -> _Plane:
    """Floor seen from above, ceiling from below; it covers the leaves of sides and ends."""
    section = room.section
    z = section.floor_height if face == "floor" else section.ceiling_height
    left, right = (section.half_width_at(side, z) + leaf_thickness(room.surface(side)) for side in ("left", "right"))
    front = room.front - leaf_thickness(room.surface("front"))
    rear = room.rear + leaf_thickness(room.surface("rear"))
    sign = -1.0 if face == "floor" else 1.0  # the way of y in the view
    corner_y = left if face == "floor" else -right
    frame = Frame((front, corner_y, z), (1.0, 0.0, 0.0), (0.0, sign, 0.0), (0.0, 0.0, -1.0 if face == "floor" else 1.0))
    cuts = [
        tuple((station - front, (y - corner_y) * sign) for station, y in hole.outline)
        for hole in holes_of(build, room, face)
    ]
    if face == "floor":
        cuts += [_box_in_floor(each, side, front, corner_y) for side in ("left", "right")
                 if (each := _Box.of(build, room, side)) is not None]  # fmt: skip
    return _Plane("", frame, box((0.0, 0.0), (rear - front, left + right)), tuple(cuts))


def _box_in_floor(taken: _Box, side: str, front: float, corner: float) -> tuple[Point, ...]:
    xs = (taken.start - front, taken.end - front)
    ys = sorted(((taken.half if side == "left" else -taken.half) - corner, (9.0 if side == "left" else -9.0) - corner))
    return box((xs[0], -ys[1]), (xs[1], -ys[0]))


def _end_plane(build: Build, room: Room, face: str) -> _Plane:
    """The finished section, widened by the leaves of the sides, whose edges it covers."""
    lines = _bends_only(room.section.left), _bends_only(room.section.right)
    left, right = (leaf_thickness(room.surface(side)) for side in ("left", "right"))
    corners = (
        *((y - right * _slant(lines[1], index), z) for index, (y, z) in enumerate(lines[1])),
        *reversed([(y + left * _slant(lines[0], index), z) for index, (y, z) in enumerate(lines[0])]),
    )
    return _across(build, room, face, tuple(corners))


def _slant(line: tuple[Point, ...], index: int) -> float:
    """Level way through a leaf that leans, over its thickness, at a corner of its line."""
    pairs = [(line[at], line[at + 1]) for at in (index - 1, index) if 0 <= at < len(line) - 1]
    return max(math.dist(a, b) / max(abs(b[1] - a[1]), 1e-9) for a, b in pairs)


def _across(build: Build, room: Room, face: str, corners: tuple[Point, ...]) -> _Plane:
    """Plane of an end from corners of (y, z), seen from inside the room."""
    sign = -1.0 if face == "front" else 1.0
    left_edge = min(sign * y for y, _ in corners)
    low = min(z for _, z in corners)
    station = room.front if face == "front" else room.rear
    frame = Frame((station, sign * left_edge, low), (0.0, sign, 0.0), (0.0, 0.0, 1.0),
                  (-1.0 if face == "front" else 1.0, 0.0, 0.0))  # fmt: skip
    outline = tuple((sign * y - left_edge, z - low) for y, z in corners)
    cuts = [tuple((sign * y - left_edge, z - low) for y, z in hole.outline) for hole in holes_of(build, room, face)]
    return _Plane("", frame, outline, tuple(cuts))


def _box_planes(build: Build, room: Room, surface: Surface) -> Iterator[_Plane]:
    """Top, side and ends of a lined wheel box; all their sizes are those of the finished faces."""
    side = "left" if surface.face.endswith("left") else "right"
    taken = _Box.of(build, room, side)
    if taken is None or build.vehicle.wheel_boxes is None:
        return
    section, lining = room.section, surface.thickness
    foot = section.floor_height
    wide, long = section.half_width_at(side, foot) - taken.half, taken.end - taken.start
    sign = 1.0 if side == "left" else -1.0
    start, along = (taken.end, -1.0) if side == "left" else (taken.start, 1.0)
    y, top = sign * taken.half, foot + taken.rise
    yield _Plane("top", Frame((start, y, top), (along, 0.0, 0.0), (0.0, sign, 0.0), (0.0, 0.0, -1.0)),
                 box((0.0, 0.0), (long, wide)), ())  # fmt: skip
    yield _Plane("side", Frame((start, y, foot), (along, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, sign, 0.0)),
                 box((0.0, 0.0), (long, taken.rise)), ())  # fmt: skip
    _, _, front, rear = build.vehicle.wheel_boxes
    for word, stands, station, out in (("front end", front - lining > room.front, taken.start, 1.0),
                                       ("rear end", rear + lining < room.rear, taken.end, -1.0)):  # fmt: skip
        if stands:
            yield _Plane(word, Frame((station, y, foot), (0.0, sign, 0.0), (0.0, 0.0, 1.0), (out, 0.0, 0.0)),
                         box((0.0, 0.0), (wide, taken.rise)), ())  # fmt: skip


def _pieces(
    plane: _Plane, room: Room, surface: Surface, layer: LayerInPlace, index: int, *, staggered: bool
) -> Iterator[Part]:
    """A plane with its holes cut, divided where no sheet is large enough."""
    from shapely import Polygon
    from shapely import box as rectangle
    from shapely.ops import unary_union

    whole = Polygon(plane.outline)
    if plane.holes:
        whole = whole.difference(unary_union([Polygon(hole) for hole in plane.holes]))
    x0, y0, x1, y1 = Polygon(plane.outline).bounds
    xs, ys = divided((x0, y0), (x1, y1), plane.holes, staggered=staggered)
    strips = [rectangle(a, b, c, d) for a, c in zip(xs, xs[1:], strict=False) for b, d in zip(ys, ys[1:], strict=False)]
    shapes = [shape for strip in strips for shape in _polygons(whole.intersection(strip))]
    for count, shape in enumerate(shapes, 1):
        left, low, _, _ = shape.bounds
        corner = _moved(_moved(plane.frame.corner, plane.frame.along, left), plane.frame.up, low)
        rings = [tuple((x - left, y - low) for x, y in ring.coords[:-1]) for ring in (shape.exterior, *shape.interiors)]
        yield Part(
            0, room.name, surface.face, index, plane.word, f"{count} of {len(shapes)}" if len(shapes) > 1 else "",
            layer.name, layer.kind, layer.thickness, rings[0], tuple(rings[1:]), replace(plane.frame, corner=corner),
            layer.place,
        )  # fmt: skip


def _polygons(shape: Any) -> list[Any]:
    """Polygons of whatever an intersection gave, slivers left out, corners anticlockwise."""
    from shapely import MultiPolygon, Polygon
    from shapely.geometry import GeometryCollection
    from shapely.geometry.polygon import orient

    if isinstance(shape, Polygon):
        return [orient(shape)] if shape.area > _SLIVER else []
    if isinstance(shape, MultiPolygon | GeometryCollection):
        return [one for each in shape.geoms for one in _polygons(each)]
    return []
