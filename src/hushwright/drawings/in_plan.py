"""Walls, openings and things as the plan shows them, cut at a height."""

from __future__ import annotations

from typing import Literal

from hushwright.drawings.geometry import (
    Band,
    bands,
    centres,
    half_width,
    leaf_depth,
    leaf_thickness,
    openings_in,
    vehicle_openings,
)
from hushwright.drawings.layers import tone_of
from hushwright.drawings.primitives import Element, Hatch, Line, Point, Polyline, box
from hushwright.model.build import Build, OpeningInPlace, Room, Surface

_ENDS = ("front", "rear")


Side = Literal["low x", "high x", "low y", "high y"]


def filled(low: Point, high: Point, band: Band, part: str, layer: str, outer: Side) -> list[Element]:
    """A layer as a filled strip with its outline; wool is slanted lines, drawn against the outer face."""
    cavity = band.layer.cavity
    corners = box(low, high)
    if cavity is None:
        return [Hatch(corners, layer, part, tone_of(band.layer.kind) or "sheet"),
                Polyline(corners, layer, part, closed=True)]  # fmt: skip
    found: list[Element] = [Hatch(corners, layer, part, "room")]
    if cavity.fill is not None and cavity.fill_thickness > 0.0:
        depth = min(cavity.fill_thickness, band.inner - band.outer)
        if outer == "low x":
            high = (low[0] + depth, high[1])
        elif outer == "high x":
            low = (high[0] - depth, low[1])
        elif outer == "low y":
            high = (high[0], low[1] + depth)
        else:
            low = (low[0], high[1] - depth)
        found.append(Hatch(box(low, high), layer, part, "wool", lines=True))
    return found


def body_in_plan(build: Build, height: float) -> list[Element]:
    """The load space at a height."""
    return [Hatch(outline_in_plan(build, height).points, "body", "vehicle", "room")]


def outline_in_plan(build: Build, height: float) -> Polyline:
    """Skin of both sides and the two ends of the load space."""
    half, length = half_width(build.vehicle, 0.0, height), build.vehicle.load_length
    return Polyline(box((0.0, -half), (length, half)), "body", "vehicle", closed=True)


def sides_in_plan(build: Build, room: Room, height: float) -> list[Element]:
    """Layers along both sides; what is outside the inner leaf runs on behind the leaves of the ends."""
    found: list[Element] = []
    ahead, behind = (leaf_thickness(room.surface(end)) for end in _ENDS)
    for face, sign in (("left", -1.0), ("right", 1.0)):
        surface = room.surface(face)
        if surface is None:
            continue
        for band in bands(surface):
            front = room.front - (0.0 if band.in_inner_leaf else ahead)
            rear = room.rear + (0.0 if band.in_inner_leaf else behind)
            ys = sorted(sign * half_width(build.vehicle, depth, height) for depth in (band.outer, band.inner))
            side: Side = "low y" if sign < 0.0 else "high y"
            found += filled((front, ys[0]), (rear, ys[1]), band, surface.name, "linings", side)
    return found


def ends_in_plan(build: Build, room: Room, height: float) -> list[Element]:
    """Layers of both ends; the inner leaf stands between the leaves of the sides, the rest reaches to the skin."""
    found: list[Element] = []
    for face in _ENDS:
        surface = room.surface(face)
        if surface is None:
            continue
        within = {side: half_width(build.vehicle, leaf_depth(room.surface(side)), height) for side in ("left", "right")}
        full = half_width(build.vehicle, 0.0, height)
        for band in bands(surface):
            left, right = (within["left"], within["right"]) if band.in_inner_leaf else (full, full)
            xs = sorted(end_stations(room, surface, band))
            side: Side = "low x" if face == "front" else "high x"
            found += filled((xs[0], -left), (xs[1], right), band, surface.name, "linings", side)
    return found


def end_stations(room: Room, surface: Surface, band: Band) -> tuple[float, float]:
    """Stations of the outer and inner face of a layer of an end."""
    if surface.face == "front":
        outer = room.front - surface.thickness
        return outer + band.outer, outer + band.inner
    outer = room.rear + surface.thickness
    return outer - band.outer, outer - band.inner


def wall_of(room: Room, face: str) -> tuple[float, float]:
    """Stations between which the build-up of an end lies."""
    surface = room.surface(face)
    depth = surface.thickness if surface is not None else 0.0
    return (room.front - depth, room.front) if face == "front" else (room.rear, room.rear + depth)


def openings_in_plan(build: Build, height: float) -> list[Element]:
    """Openings of rooms and of the vehicle; those above or below the cut are dashed."""
    found: list[Element] = []
    for room in build.rooms:
        for face in _ENDS:
            for opening in openings_in(build, room.name, face):
                found += _in_an_end(opening, wall_of(room, face), height)
        for face in ("left", "right"):
            for opening in openings_in(build, room.name, face):
                found += _in_a_side(build, room, opening, height)
    for face in ("left", "right", "front", "rear"):
        for opening in vehicle_openings(build, face):
            found += _of_the_vehicle(build, opening, height)
    return found


def _is_cut(opening: OpeningInPlace, height: float) -> bool:
    return abs(opening.centre[2] - height) <= opening.height / 2.0


def _in_an_end(opening: OpeningInPlace, wall: tuple[float, float], height: float) -> list[Element]:
    found: list[Element] = []
    for _, y, _ in centres(opening):
        low, high = (wall[0], -y - opening.width / 2.0), (wall[1], -y + opening.width / 2.0)
        if not _is_cut(opening, height):
            found.append(Polyline(box(low, high), "hidden", opening.name, closed=True))
            continue
        found.append(Hatch(box(low, high), "openings", opening.name, "paper"))
        found += _leaf(opening, low, high)
        found += [Line((low[0], at), (high[0], at), "openings", opening.name) for at in (low[1], high[1])]
    return found


def _leaf(opening: OpeningInPlace, low: tuple[float, float], high: tuple[float, float]) -> list[Element]:
    """Panes or leaf, from the outer face of the wall on; their spaces give way to the depth of the wall."""
    solid = sum(layer.thickness for layer in opening.layers if not layer.is_cavity)
    spaces = sum(1 for layer in opening.layers if layer.is_cavity)
    step = max(high[0] - low[0] - solid, 0.0) / spaces if spaces else 0.0
    found: list[Element] = []
    outer_first = opening.face == "front"
    at = low[0] if outer_first else high[0]
    if not spaces:
        at = high[0] - solid if outer_first else low[0] + solid
    for layer in opening.layers:
        depth = step if layer.is_cavity else layer.thickness
        there = at + depth if outer_first else at - depth
        if not layer.is_cavity:
            corners = box((min(at, there), low[1]), (max(at, there), high[1]))
            found += [Hatch(corners, "openings", opening.name, tone_of(layer.kind) or "sheet"),
                      Polyline(corners, "openings", opening.name, closed=True)]  # fmt: skip
        at = there
    return found


def _in_a_side(build: Build, room: Room, opening: OpeningInPlace, height: float) -> list[Element]:
    sign = -1.0 if opening.face == "left" else 1.0
    inner = sign * room.section.half_width_at(opening.face, height)
    outer = sign * half_width(build.vehicle, 0.0, height)
    found: list[Element] = []
    for station, _, _ in centres(opening):
        low = (station - opening.width / 2.0, min(inner, outer))
        high = (station + opening.width / 2.0, max(inner, outer))
        if _is_cut(opening, height):
            found += [Hatch(box(low, high), "openings", opening.name, "paper"),
                      Polyline(box(low, high), "openings", opening.name, closed=True)]  # fmt: skip
        else:
            found.append(Polyline(box(low, high), "hidden", opening.name, closed=True))
    return found


def _of_the_vehicle(build: Build, opening: OpeningInPlace, height: float) -> list[Element]:
    """A door or window of the vehicle: a bar across the skin at each end of it, and its line."""
    station, y, _ = opening.centre
    bar = 0.03
    if opening.face in _ENDS:
        at = 0.0 if opening.face == "front" else build.vehicle.load_length
        ends = [(at, -y - opening.width / 2.0), (at, -y + opening.width / 2.0)]
        bars = [((at - bar, each[1]), (at + bar, each[1])) for each in ends]
    else:
        at = half_width(build.vehicle, 0.0, height) * (-1.0 if opening.face == "left" else 1.0)
        ends = [(station - opening.width / 2.0, at), (station + opening.width / 2.0, at)]
        bars = [((each[0], at - bar), (each[0], at + bar)) for each in ends]
    return [Line(a, b, "openings", opening.name) for a, b in [*bars, (ends[0], ends[1])]]
