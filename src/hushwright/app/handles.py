"""What can be dragged in a drawing, and which values of the file a drag changes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from hushwright.document.document import Document
from hushwright.document.edits import written_length
from hushwright.document.nodes import Path
from hushwright.document.outline import Entry
from hushwright.document.values import Value
from hushwright.errors import InvalidInput
from hushwright.model.build import Build

STEP = 0.005  # m, a drag goes by these
_BESIDE = 0.16  # m, from the body to what takes hold of a wall across it
_LEAST = 2e-4  # m; less is no move


@dataclass(frozen=True, slots=True)
class Move:
    """One value that follows a drag: its path, and what a metre along x and along y of the view adds to it."""

    path: Path
    by_x: float = 0.0
    by_y: float = 0.0


@dataclass(frozen=True, slots=True)
class Handle:
    """Something to take hold of in a view, at a place in metres of that view."""

    id: str
    label: str
    kind: str  # "wall" | "boundary" | "fitting" | "opening" | "cut" | "route"
    x: float
    y: float
    moves: tuple[Move, ...]

    @property
    def axes(self) -> str:
        """Along which axes of the view it can be moved."""
        return ("x" if any(one.by_x for one in self.moves) else "") + (
            "y" if any(one.by_y for one in self.moves) else ""
        )


def handles_of(build: Build, view: str, station: float = 0.0) -> tuple[Handle, ...]:
    """Handles of one view: ``plan``, ``left``, ``right`` or ``section`` (then at a station)."""
    if view == "plan":
        found = [*_walls(build), *_points(build, _Plan())]
    elif view in ("left", "right"):
        found = [*_boundaries(build, view), *_points(build, _Side(1.0 if view == "left" else -1.0, view))]
    else:
        found = list(_points(build, _Section(station, _face_behind(build, station))))
    return tuple(found)


def _face_behind(build: Build, station: float) -> str:
    return next((room.name for room in build.rooms if room.front <= station <= room.rear), "")


def _walls(build: Build) -> Iterator[Handle]:
    """The dividing walls as wholes, then every room's ends."""
    rooms = sorted(build.rooms, key=lambda each: each.front)
    half = build.vehicle.section.half_width_at("right", 0.5 * build.vehicle.floor_to_bow) + _BESIDE
    for ahead, behind in zip(rooms, rooms[1:], strict=False):
        moves = (Move(("rooms", ahead.name, "rear"), 1.0), Move(("rooms", behind.name, "front"), 1.0))
        middle = (ahead.rear + behind.front) / 2.0
        yield Handle(f"wall {ahead.name} {behind.name}", "dividing wall", "wall", middle, half, moves)
    for room in rooms:
        for end, place in (("front", room.front), ("rear", room.rear)):
            yield Handle(f"end {room.name} {end}", f"{_spoken(room.name)}, {end} face", "boundary", place, -half,
                         (Move(("rooms", room.name, end), 1.0),))  # fmt: skip


def _boundaries(build: Build, view: str) -> Iterator[Handle]:
    way = 1.0 if view == "left" else -1.0
    for room in build.rooms:
        for end, place in (("front", room.front), ("rear", room.rear)):
            height = 0.5 * (room.section.floor_height + room.section.ceiling_height)
            yield Handle(f"end {room.name} {end}", f"{_spoken(room.name)}, {end} face", "boundary", way * place, height,
                         (Move(("rooms", room.name, end), way),))  # fmt: skip


class _Plan:
    """x is the station, y runs to the right of the van."""

    def free(
        self, at: Path, station: float, y: float, z: float, kind: str
    ) -> tuple[float, float, tuple[Move, ...]] | None:
        del z, kind
        return station, -y, (Move((*at, "station"), 1.0), Move((*at, "offset"), 0.0, -1.0))

    def in_face(
        self, at: Path, face: str, room: str, centre: tuple[float, float, float]
    ) -> tuple[float, float, tuple[Move, ...]] | None:
        del room
        if face in ("front", "rear"):
            return centre[0], -centre[1], (Move((*at, "offset"), 0.0, -1.0),)
        if face in ("left", "right"):
            return centre[0], -centre[1], (Move((*at, "offset"), 1.0),)
        return None

    def cut(
        self, at: Path, face: str, along: float, up: float, half: float
    ) -> tuple[float, float, tuple[Move, ...]] | None:
        if face in ("left", "right"):
            return along, -half if face == "left" else half, (Move((*at, "station"), 1.0),)
        if face in ("roof", "floor"):
            return along, -up, (Move((*at, "station"), 1.0), Move((*at, "at"), 0.0, -1.0))
        return None


class _Side:
    """x is the station, on the right side against it; y is the height."""

    def __init__(self, way: float, face: str) -> None:
        self.way = way
        self.face = face

    def free(
        self, at: Path, station: float, y: float, z: float, kind: str
    ) -> tuple[float, float, tuple[Move, ...]] | None:
        del y, kind
        return self.way * station, z, (Move((*at, "station"), self.way), Move((*at, "height"), 0.0, 1.0))

    def in_face(
        self, at: Path, face: str, room: str, centre: tuple[float, float, float]
    ) -> tuple[float, float, tuple[Move, ...]] | None:
        del room
        if face != self.face:
            return None
        return self.way * centre[0], centre[2], (Move((*at, "offset"), self.way), Move((*at, "sill"), 0.0, 1.0))

    def cut(
        self, at: Path, face: str, along: float, up: float, half: float
    ) -> tuple[float, float, tuple[Move, ...]] | None:
        del half
        if face != self.face:
            return None
        return self.way * along, up, (Move((*at, "station"), self.way), Move((*at, "at"), 0.0, 1.0))


class _Section:
    """x runs to the right of the van, y is the height; only what lies in the room that is cut."""

    def __init__(self, station: float, room: str) -> None:
        self.station = station
        self.room = room

    def free(
        self, at: Path, station: float, y: float, z: float, kind: str
    ) -> tuple[float, float, tuple[Move, ...]] | None:
        if kind == "fitting" and abs(station - self.station) > 1.0:
            return None
        return -y, z, (Move((*at, "offset"), -1.0), Move((*at, "height"), 0.0, 1.0))

    def in_face(
        self, at: Path, face: str, room: str, centre: tuple[float, float, float]
    ) -> tuple[float, float, tuple[Move, ...]] | None:
        if room != self.room or face not in ("front", "rear"):
            return None
        return -centre[1], centre[2], (Move((*at, "offset"), -1.0), Move((*at, "sill"), 0.0, 1.0))

    def cut(
        self, at: Path, face: str, along: float, up: float, half: float
    ) -> tuple[float, float, tuple[Move, ...]] | None:
        del at, face, along, up, half
        return None


def _points(build: Build, view: Any) -> Iterator[Handle]:
    root = build.document.root
    stands = {item.fitting: item for item in build.masses if item.fitting}
    for index, fitting in enumerate(root.fittings):
        item = stands.get(fitting.name)
        if item is not None:
            at: Path = ("fittings", index)
            yield from _handle(f"fitting {index}", fitting.name, "fitting",
                               view.free(at, item.station, item.y, item.z, "fitting"))  # fmt: skip
    for one in build.openings:
        at = ("openings", one.name)
        kind = "duct" if one.kind == "duct" else "opening"
        place = view.in_face(at, one.face, one.room if not one.in_vehicle else "", one.centre)
        yield from _handle(f"opening {one.name}", f"{_spoken(one.name)}, {one.kind}", kind, place)
    for cut in build.cuts:
        half = build.vehicle.section.half_width_at("left", min(max(cut.up, 0.0), build.vehicle.floor_to_bow))
        place = view.cut(("cuts", cut.name), cut.face, cut.along, cut.up, half)
        yield from _handle(f"cut {cut.name}", f"{_spoken(cut.name)}, cut", "cut", place)
    for name, route in getattr(root, "routes", {}).items():
        for index, point in enumerate(route.points):
            at = ("routes", name, "points", index)
            place = view.free(at, point.station.value, point.offset.value, point.height.value, "route")
            yield from _handle(f"route {name} {index}", f"{_spoken(name)}, point {index + 1}", "route", place)


def _handle(id: str, label: str, kind: str, place: tuple[float, float, tuple[Move, ...]] | None) -> Iterator[Handle]:
    if place is not None:
        yield Handle(id, label, kind, place[0], place[1], place[2])


def dragged(
    handle: Handle, dx: float, dy: float, document: Document, root: Entry, bare_unit: str
) -> Mapping[Path, str]:
    """New texts of the values that follow a drag, each in the unit in which the file has it.

    Raises
    ------
    InvalidInput
        If a value is unknown and so cannot be moved.
    """
    found: dict[Path, str] = {}
    for move in handle.moves:
        by = move.by_x * dx + move.by_y * dy
        if abs(by) < _LEAST:
            continue
        value = document.value_at(move.path)
        if not isinstance(value, Value) or value.unknown:
            raise InvalidInput(f"{'.'.join(map(str, move.path))} is not known, so it cannot be moved; type it first")
        entry = root.find(move.path)
        found[move.path] = written_length(value.value + by, entry.text if entry is not None else "", bare_unit)
    return found


def _spoken(name: str) -> str:
    return name.replace("_", " ")
