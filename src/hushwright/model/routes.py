"""Routes of the file as ways in metres: how long, what they pass, where they enter the floating room."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

from hushwright.document.schema import BuildFile
from hushwright.document.schema.routes import Route
from hushwright.model.air_in_place import AirInPlace, BendInPlace, Piece
from hushwright.model.build import BridgeInPlace, OpeningInPlace, Room
from hushwright.model.routes_in_place import Crossing, Point, RouteInPlace
from hushwright.model.section import Section
from hushwright.model.taking import Path, Taker, dotted

_STEP = 0.05  # m, how finely a way is followed to find where it enters a room
_NEAR = 0.3  # m, from which a gland is told to be elsewhere than the cable
_DUCT_SHORTER = 0.3  # m by which the pieces of a run may be shorter than its way
_FOR_CABLES = ("gland", "hole", "duct")
_Crossed = tuple[str, Point]


def resolve_routes(
    taker: Taker, root: BuildFile, rooms: tuple[Room, ...], openings: tuple[OpeningInPlace, ...], air: AirInPlace
) -> tuple[RouteInPlace, ...]:
    """All routes in place."""
    quiet = tuple(room for room in rooms if room.purpose == "quiet")
    bundles = _bundles(taker, root)
    return tuple(
        _route(taker, root, name, route, quiet, openings, air, bundles[name]) for name, route in root.routes.items()
    )


def _route(
    taker: Taker,
    root: BuildFile,
    name: str,
    typed: Route,
    quiet: tuple[Room, ...],
    openings: tuple[OpeningInPlace, ...],
    air: AirInPlace,
    bundle: tuple[str, ...],
) -> RouteInPlace:
    at: Path = ("routes", name)
    points = tuple(_points(taker, typed, at))
    way = sum(math.dist(one, other) for one, other in zip(points, points[1:], strict=False))
    if way <= 0.0:
        taker.say("no-way", (*at, "points"), name, "its points are one and the same place", "give two places")
    slack = taker.quantity((*at, "slack"), typed.slack, "share", label=f"slack of {name}")
    named = [
        each for index, each in enumerate(typed.passes)
        if taker.name_of(each, (*root.openings, *root.cuts), (*at, "passes", index), "opening or cut")
    ]  # fmt: skip
    passed = [each for each in openings if each.name in named]
    _check_fixed(taker, root, typed, at)
    _check_passed(taker, passed, at)
    crossings = tuple(_crossings(taker, points, quiet, passed, at))
    _check_run(taker, typed, air, way, at)
    return RouteInPlace(
        name, points, way, way * (1.0 + slack), _middle(points, way), typed.fixed_to or ("body",), bundle,
        tuple(named), crossings, typed.loop == "yes", typed.run, dotted(at),
    )  # fmt: skip


def _points(taker: Taker, typed: Route, at: Path) -> Iterator[Point]:
    for index, point in enumerate(typed.points):
        on: Path = (*at, "points", index)
        label = f"{at[-1]}, point {index + 1}"
        yield (
            taker.quantity((*on, "station"), point.station, "length", label=f"{label}, station"),
            taker.quantity((*on, "offset"), point.offset, "length", label=f"{label}, offset"),
            taker.quantity((*on, "height"), point.height, "length", label=f"{label}, height"),
        )


def _middle(points: tuple[Point, ...], way: float) -> Point:
    """Centre of mass of an even cable along the points."""
    if way <= 0.0:
        return points[0]
    sums = [0.0, 0.0, 0.0]
    for one, other in zip(points, points[1:], strict=False):
        part = math.dist(one, other) / way
        for axis in range(3):
            sums[axis] += part * 0.5 * (one[axis] + other[axis])
    return sums[0], sums[1], sums[2]


def _bundles(taker: Taker, root: BuildFile) -> dict[str, tuple[str, ...]]:
    """Routes that lie in one bundle: who names whom does not matter, and bundles join."""
    names = tuple(root.routes)
    found: dict[str, set[str]] = {name: {name} for name in names}
    for name, route in root.routes.items():
        for index, other in enumerate(route.bundled_with):
            if taker.name_of(other, names, ("routes", name, "bundled_with", index), "route"):
                joined = found[name] | found[other]
                for each in joined:
                    found[each] = joined
    return {name: tuple(each for each in names if each in found[name]) for name in names}


def _check_fixed(taker: Taker, root: BuildFile, typed: Route, at: Path) -> None:
    purposes = {room.purpose for room in root.rooms.values()}
    for index, body in enumerate(typed.fixed_to):
        if body not in (*purposes, "body", "loose"):
            taker.say("unknown-name", (*at, "fixed_to", index), body, f"the build has no {body} room to fix it to",
                      "fix it to the body, or add the room")  # fmt: skip


def _check_passed(taker: Taker, passed: list[OpeningInPlace], at: Path) -> None:
    for each in passed:
        if each.kind not in _FOR_CABLES and not each.in_vehicle:
            taker.say("cable-in-a-door", (*at, "passes"), each.name, f"is a {each.kind}; a cable in its seal leaks",
                      "lead it through a gland", severity="warning")  # fmt: skip


def _crossings(
    taker: Taker, points: tuple[Point, ...], quiet: tuple[Room, ...], passed: list[OpeningInPlace], at: Path
) -> Iterator[Crossing]:
    for room in quiet:
        crossed = crossings_of(points, room.front, room.rear, room.section)
        own = [each for each in passed if each.room == room.name and not each.in_vehicle]
        for face, point in crossed:
            ways = [each for each in own if each.face == face]
            nearest = min(ways, key=lambda each: math.dist(each.centre[1:], point[1:]), default=None)
            if nearest is not None and _apart(nearest, point) > _NEAR:
                apart = f"lies {1000 * _apart(nearest, point):.0f} mm from where the route meets {room.name}.{face}"
                taker.say_fit("gland-elsewhere", (*at, "passes"), nearest.name, apart, "lead the route to it",
                              severity="warning")  # fmt: skip
            yield Crossing(room.name, face, point, nearest.name if nearest is not None else "")
        for each in own:
            if each.face not in [face for face, _ in crossed]:
                taker.say_fit("gland-not-met", (*at, "passes"), each.name,
                              f"is in {room.name}.{each.face}, which the route does not meet",
                              "lead the route through it, or take it out of `passes`", severity="warning")  # fmt: skip


def _apart(opening: OpeningInPlace, point: Point) -> float:
    """How far a route meets a face beside an opening [m], measured in the plane of the face."""
    station, y, z = (abs(a - b) for a, b in zip(opening.centre, point, strict=True))
    if opening.face in ("front", "rear"):
        return math.hypot(y, z)
    return math.hypot(station, y) if opening.face in ("ceiling", "floor") else math.hypot(station, z)


@lru_cache(maxsize=1024)
def crossings_of(points: tuple[Point, ...], front: float, rear: float, section: Section) -> tuple[_Crossed, ...]:
    """Faces at which a way enters or leaves a room, with the place."""
    found: list[_Crossed] = []
    before = points[0]
    beyond = _face_beyond(before, front, rear, section)
    for one, other in zip(points, points[1:], strict=False):
        steps = max(1, math.ceil(math.dist(one, other) / _STEP))
        for step in range(1, steps + 1):
            here = _between(one, other, step / steps)
            now = _face_beyond(here, front, rear, section)
            if bool(now) != bool(beyond):
                found.append((now or beyond, _between(before, here, 0.5)))
            before, beyond = here, now
    return tuple(found)


def _between(one: Point, other: Point, share: float) -> Point:
    station, y, z = (a + share * (b - a) for a, b in zip(one, other, strict=True))
    return station, y, z


def _face_beyond(point: Point, front: float, rear: float, section: Section) -> str:
    """Face beyond which a point lies, the one it is farthest beyond; empty inside the room."""
    station, y, z = point
    beyond = {
        "front": front - station, "rear": station - rear, "floor": section.floor_height - z,
        "ceiling": z - section.ceiling_height, "left": y - section.half_width_at("left", z),
        "right": -y - section.half_width_at("right", z),
    }  # fmt: skip
    face = max(beyond, key=lambda each: beyond[each])
    return face if beyond[face] > 0.0 else ""


def _check_run(taker: Taker, typed: Route, air: AirInPlace, way: float, at: Path) -> None:
    """The pieces of a run reach from one end of its way to the other."""
    if not typed.run:
        return
    runs = {run.name: run for run in air.runs}
    if not taker.name_of(typed.run, tuple(runs), (*at, "run"), "run"):
        return
    pieces = sum(_length(piece) for piece in runs[typed.run].pieces)
    if pieces < way - _DUCT_SHORTER:
        taker.say_fit("duct-shorter-than-way", (*at, "run"), typed.run,
                      f"its pieces are {pieces:.2f} m long together, the way is {way:.2f} m",
                      "lengthen its pieces, or correct the points", severity="warning")  # fmt: skip


def _length(piece: Piece) -> float:
    """Length along a piece [m]; a bend's is that of its centre line."""
    if isinstance(piece.what, BendInPlace):
        return piece.what.angle * (piece.what.radius or 0.0)
    length: float = getattr(piece.what, "length", 0.0)
    return length


def tied_by_routes(rooms: tuple[Room, ...], routes: tuple[RouteInPlace, ...]) -> tuple[Room, ...]:
    """Rooms with the bridges that routes make between the leaves of the floating room.

    A cable that is clipped on both sides pulls as hard as its copper: each crossing is one rigid point, which is on the
    safe side.
    """
    tied = [route for route in routes if route.is_bridge]
    if not tied:
        return rooms
    return tuple(_tied(room, tied) if room.purpose == "quiet" else room for room in rooms)


def _tied(room: Room, routes: list[RouteInPlace]) -> Room:
    surfaces = []
    for surface in room.surfaces:
        added = tuple(
            BridgeInPlace("point", 1.0 / surface.area, None, f"route {route.name}, without a loop", route.place)
            for route in routes
            for face in _faces_tied(route)
            if face == surface.face and any(layer.is_cavity for layer in surface.layers)
        )
        surfaces.append(replace(surface, bridges=(*surface.bridges, *added)) if added else surface)
    return replace(room, surfaces=tuple(surfaces))


def _faces_tied(route: RouteInPlace) -> tuple[str, ...]:
    """Faces whose leaves a route ties; one that is only said to be fixed to both ties the floor."""
    return tuple(each.face for each in route.crossings) or ("floor",)
