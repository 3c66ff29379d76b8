"""Both sides, the roof and the ends of the vehicle from outside, with cuts, doors, members and rooms."""

from __future__ import annotations

import math

from hushwright.drawings.geometry import labelled, vehicle_openings
from hushwright.drawings.primitives import (
    FIRST_ROW,
    NEXT_ROW,
    Circle,
    Dimension,
    Drawing,
    Element,
    Hatch,
    Line,
    Point,
    Polyline,
    Text,
    box,
    chain,
)
from hushwright.model.build import Build
from hushwright.model.cuts_in_place import CutInPlace

_OVER = 0.01  # m by which the cross of a cut reaches beyond it, at the most


def side(build: Build, face: str) -> Drawing:
    """One side of the van from outside.

    Parameters
    ----------
    build : Build
        The build.
    face : {"left", "right"}
        Which side.

    Returns
    -------
    Drawing
        Left side: x is the station. Right side: x is minus the station, so that the front lies to the right.
    """
    way = 1.0 if face == "left" else -1.0
    found = _body(build, way)
    found += _inside(build, face, way)
    found += _members(build, way)
    found += _doors(build, face, way)
    found += cuts_seen(build, face, way)
    found += _dimensions(build, face, way)
    where = "left" if way > 0.0 else "right"
    return Drawing(f"{face}-side", f"{face.capitalize()} side", f"seen from outside, front of the van to the {where}",
                   tuple(found), remarks=("The cab is not drawn.",))  # fmt: skip


def _body(build: Build, way: float) -> list[Element]:
    vehicle = build.vehicle
    length, top, low = vehicle.load_length, vehicle.floor_to_bow + vehicle.bows.depth, -vehicle.floor_over_ground
    corners = _box(way, (0.0, 0.0), (length, top))
    ends = sorted((way * min(vehicle.front_axle, 0.0), way * length))
    found: list[Element] = [
        Hatch(corners, "body", "vehicle", "room"),
        Polyline(corners, "body", "vehicle", closed=True),
        Line((ends[0] - 0.3, low), (ends[1] + 0.3, low), "structure"),
    ]
    for name, axle in (("front axle", vehicle.front_axle), ("rear axle", vehicle.rear_axle)):
        found.append(Line((way * axle, low), (way * axle, 0.15), "hidden", "vehicle"))
        found.append(Text((way * axle, low), name, across="left", upward="top", shift=(0.001, -0.001)))
    across = "right" if way > 0.0 else "left"
    found.append(Text((0.0, top), "B-pillar line", across="right" if across == "right" else "left", upward="bottom",
                      shift=(-0.001 * way, 0.001)))  # fmt: skip
    return found


def _box(way: float, low: Point, high: Point) -> tuple[Point, Point, Point, Point]:
    xs = sorted((way * low[0], way * high[0]))
    return box((xs[0], low[1]), (xs[1], high[1]))


def _inside(build: Build, face: str, way: float) -> list[Element]:
    """Finished rooms and wheel boxes behind the sheet, dashed."""
    found: list[Element] = []
    for room in build.rooms:
        low, high = (room.front, room.section.floor_height), (room.rear, room.section.ceiling_height)
        found.append(Polyline(_box(way, low, high), "hidden", room.name, closed=True))
        middle = (way * (room.front + room.rear) / 2.0, room.section.ceiling_height)
        found.append(Text(middle, labelled(room.name), part=room.name, upward="top", shift=(0.0, -0.0015),
                          clear=True))  # fmt: skip
    if build.vehicle.wheel_boxes is not None:
        _, height, front, rear = build.vehicle.wheel_boxes
        found.append(Polyline(_box(way, (front, 0.0), (rear, height)), "hidden", f"wheel_box_{face}", closed=True))
    return found


def members(build: Build, face: str) -> tuple[float, ...]:
    """Stations of the ribs or bows of a face, where the file says where the first one is."""
    typed = build.document.root.vehicle.bows if face == "roof" else build.document.root.vehicle.ribs
    spacing = build.vehicle.bows.spacing if face == "roof" else build.vehicle.ribs.spacing
    if typed is None or typed.first is None or typed.first.unknown or spacing <= 0.0:
        return ()
    first = typed.first.value
    return tuple(first + spacing * index for index in range(_count(build.vehicle.load_length - first, spacing)))


def _count(length: float, spacing: float) -> int:
    return max(math.floor(length / spacing + 1e-9) + 1, 0)


def _members(build: Build, way: float) -> list[Element]:
    half, top = build.vehicle.ribs.width / 2.0, build.vehicle.floor_to_bow
    found: list[Element] = []
    for station in members(build, "left"):
        for edge in (-half, half):
            x = way * (station + edge)
            found.append(Line((x, 0.0), (x, top), "hidden", "vehicle"))
    return found


def _doors(build: Build, face: str, way: float) -> list[Element]:
    found: list[Element] = []
    for opening in vehicle_openings(build, face):
        station, _, z = opening.centre
        low = (station - opening.width / 2.0, z - opening.height / 2.0)
        high = (station + opening.width / 2.0, z + opening.height / 2.0)
        found.append(Polyline(_box(way, low, high), "openings", opening.name, closed=True))
        found.append(Text((way * station, z), labelled(opening.name), "openings", opening.name, clear=True))
    return found


def cuts_of(build: Build, face: str) -> tuple[CutInPlace, ...]:
    """Cuts in one face of the vehicle."""
    return tuple(cut for cut in build.cuts if cut.face == face)


def cuts_seen(build: Build, face: str, way: float) -> list[Element]:
    """Cuts of a face with a cross in their middle; x is the way along times ``way``."""
    found: list[Element] = []
    for cut in cuts_of(build, face):
        found += cut_outline(cut, (way * cut.along, cut.up))
        found.append(Text((way * cut.along, cut.up + cut.height / 2.0), labelled(cut.name), "cuts", cut.name,
                          upward="bottom", shift=(0.0, 0.0015), clear=True))  # fmt: skip
    return found


def cut_outline(cut: CutInPlace, centre: Point) -> list[Element]:
    """A cut with the lines through its middle."""
    x, y = centre
    reach_x, reach_y = (size / 2.0 + min(0.15 * size, _OVER) for size in (cut.width, cut.height))
    shape: Element = (
        Circle(centre, cut.width / 2.0, "cuts", cut.name)
        if cut.round
        else Polyline(box((x - cut.width / 2.0, y - cut.height / 2.0), (x + cut.width / 2.0, y + cut.height / 2.0)),
                      "cuts", cut.name, closed=True)
    )  # fmt: skip
    return [
        shape,
        Line((x - reach_x, y), (x + reach_x, y), "datums", cut.name),
        Line((x, y - reach_y), (x, y + reach_y), "datums", cut.name),
    ]


def _dimensions(build: Build, face: str, way: float) -> list[Element]:
    vehicle = build.vehicle
    length, top, low = vehicle.load_length, vehicle.floor_to_bow + vehicle.bows.depth, -vehicle.floor_over_ground
    rooms = [place for room in build.rooms for place in (room.front, room.rear)]
    found: list[Element] = list(chain(tuple(way * each for each in (0.0, *rooms, length)), "x", top, FIRST_ROW))
    found.append(Dimension((0.0, top), (way * length, top), "x", top, FIRST_ROW + NEXT_ROW))
    found += chain((way * vehicle.front_axle, 0.0, way * vehicle.rear_axle, way * length), "x", low,
                   -FIRST_ROW - 0.003)  # fmt: skip
    found.append(Dimension((way * vehicle.front_axle, low), (way * vehicle.rear_axle, low), "x", low,
                           -FIRST_ROW - NEXT_ROW - 0.003))  # fmt: skip
    end = way * length
    found += chain((low, 0.0, vehicle.floor_to_bow, top), "y", end, FIRST_ROW * way)
    found.append(Dimension((end, low), (end, top), "y", end, (FIRST_ROW + NEXT_ROW) * way))
    return found
