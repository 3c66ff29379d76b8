"""Where layers lie: bands of a build-up by depth, nested sections, plans of faces with their holes."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from hushwright.drawings.primitives import Point, box
from hushwright.model.build import Build, LayerInPlace, OpeningInPlace, Room, Surface, VehicleInPlace
from hushwright.model.section import Section, shrunk

_NO_DEPTH = ("skin", "damping")


@dataclass(frozen=True, slots=True)
class Band:
    """A layer between two depths, from the skin inwards [m]; ``inner`` for the leaf inside the innermost space."""

    layer: LayerInPlace
    outer: float
    inner: float
    in_inner_leaf: bool

    @property
    def mid(self) -> float:
        """Depth of its middle [m]."""
        return (self.outer + self.inner) / 2.0


def bands(surface: Surface | None) -> tuple[Band, ...]:
    """Layers of a face that take depth, outside first."""
    if surface is None:
        return ()
    found, depth, cut = [], 0.0, surface.last_cavity
    for index, layer in enumerate(surface.layers):
        if layer.kind in _NO_DEPTH:
            continue
        found.append(Band(layer, depth, depth + layer.thickness, cut is None or index > cut))
        depth += layer.thickness
    return tuple(found)


def leaf_thickness(surface: Surface | None) -> float:
    """Thickness of the innermost leaf [m]."""
    return sum(band.inner - band.outer for band in bands(surface) if band.in_inner_leaf)


def leaf_depth(surface: Surface | None) -> float:
    """Depth from the skin at which the innermost leaf begins [m]."""
    return next((band.outer for band in bands(surface) if band.in_inner_leaf), 0.0)


def inside(vehicle: VehicleInPlace, depth: float, low: float, high: float) -> Section:
    """Section of the body moved inwards by a depth, between two heights."""
    return shrunk(vehicle.section, depth, depth, low, high)


def side_line(vehicle: VehicleInPlace, depth: float, low: float, high: float) -> tuple[Point, ...]:
    """Left side of the body moved inwards, from one height to another."""
    return inside(vehicle, depth, low, high).left


def half_width(vehicle: VehicleInPlace, depth: float, height: float) -> float:
    """Distance from the centre line to a depth behind the skin, at a height [m]."""
    top = vehicle.floor_to_bow
    within = min(max(height, 0.0), top)
    return inside(vehicle, depth, 0.0, top).half_width_at("left", within)


def room_holding(build: Build, station: float) -> Room | None:
    """Room in which a station lies."""
    return next((room for room in build.rooms if room.front <= station <= room.rear), None)


def openings_in(build: Build, room: str, face: str) -> tuple[OpeningInPlace, ...]:
    """Openings of one face of a room."""
    return tuple(each for each in build.openings if not each.in_vehicle and (each.room, each.face) == (room, face))


def vehicle_openings(build: Build, face: str) -> tuple[OpeningInPlace, ...]:
    """Openings of one face of the vehicle."""
    return tuple(each for each in build.openings if each.in_vehicle and each.face == face)


def centres(opening: OpeningInPlace) -> Iterator[tuple[float, float, float]]:
    """Centre of each of several alike, in a row beside each other: along the van, or across in an end."""
    station, y, z = opening.centre
    pitch = 2.0 * opening.width
    for index in range(opening.number):
        shift = (index - (opening.number - 1) / 2.0) * pitch
        yield (station, y + shift, z) if opening.face in ("front", "rear") else (station + shift, y, z)


def developed(section: Section, side: str, height: float) -> float:
    """Way along a side from the floor up to a height [m]."""
    line = section.left if side == "left" else section.right
    way = 0.0
    for a, b in zip(line, line[1:], strict=False):
        if height <= b[1]:
            share = (height - a[1]) / (b[1] - a[1]) if b[1] > a[1] else 0.0
            return way + max(share, 0.0) * math.dist(a, b)
        way += math.dist(a, b)
    return way


@dataclass(frozen=True, slots=True)
class Hole:
    """An opening on the plane of its face: centre, size, whether round."""

    name: str
    centre: Point
    width: float
    height: float
    round: bool

    @property
    def outline(self) -> tuple[Point, ...]:
        """Corners; of a round one a polygon of 48 sides of its exact area."""
        x, y = self.centre
        if not self.round:
            return box((x - self.width / 2.0, y - self.height / 2.0), (x + self.width / 2.0, y + self.height / 2.0))
        count = 48
        radius = self.width / 2.0 * math.sqrt(2.0 * math.pi / (count * math.sin(2.0 * math.pi / count)))
        return tuple(
            (x + radius * math.cos(2.0 * math.pi * i / count), y + radius * math.sin(2.0 * math.pi * i / count))
            for i in range(count)
        )


def battens_over(surface: Surface) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    """Stations and offsets between which every batten of a ceiling, or bearer of a floor, lies [m]."""
    front, right = surface.centre[0] - surface.width / 2.0, -surface.height / 2.0
    for piece in surface.battens:
        cavity = surface.layers[piece.layer].cavity
        half = cavity.frame.width / 2.0 if cavity is not None and cavity.frame is not None else 0.0
        yield (front + piece.along - half, front + piece.along + half), (right + piece.low, right + piece.high)


def holes_of(build: Build, room: Room, face: str) -> tuple[Hole, ...]:
    """Holes of one face on its own plane, seen from inside the room.

    Sides: station, and way up the side; floor and ceiling: station and y; ends: y and height over the steel floor.
    """
    found = []
    for opening in openings_in(build, room.name, face):
        for station, y, z in centres(opening):
            if face in ("left", "right"):
                place = (station, developed(room.section, face, z))
            elif face in ("front", "rear"):
                place = (y, z)
            else:
                place = (station, y)
            found.append(Hole(opening.name, place, opening.width, opening.height, opening.round))
    return tuple(found)


def spoken(name: str) -> str:
    """Name of the file as a person reads it.

    Examples
    --------
    >>> spoken("quiet_room")
    'quiet room'
    """
    return name.replace("_", " ")


def labelled(name: str, most: int = 28) -> str:
    """Name as it stands inside a drawing: cut where it is too long; the key has all of it.

    Examples
    --------
    >>> labelled("quiet_room"), labelled("a_very_long_name", 8)
    ('quiet room', 'a very …')
    """
    words = spoken(name)
    return words if len(words) <= most else words[: most - 1] + "…"
