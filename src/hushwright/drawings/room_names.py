"""Where the name of a room stands in the plan: where it covers least of what is drawn there."""

from __future__ import annotations

import math
from collections.abc import Sequence

from hushwright.drawings.clip import cut_in_window
from hushwright.drawings.geometry import labelled
from hushwright.drawings.marks import text_width
from hushwright.drawings.primitives import (
    NORMAL,
    SMALL,
    Arc,
    Balloon,
    Circle,
    Element,
    Line,
    Point,
    Polyline,
    Text,
    box,
)
from hushwright.model.build import Room
from hushwright.units import System, format_quantity

_DEEP = 0.0125  # m on paper, both lines with what keeps them from the wall
_LOW = 0.0075  # m on paper, one line
_CLEAR = 0.002  # m on paper from the upper edge to the letters
_AROUND = 0.0028  # m on paper, so that a number in its ring stands beside the name
_ALONG = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
_ACROSS = (0.0, 0.1, 0.2, 0.3, 0.4, 0.6, 0.7, 0.8, 0.9, 1.0)
_FINE = tuple(each / 40.0 for each in range(41))


def room_name(room: Room, height: float, system: System, scale: float, drawn: Sequence[Element]) -> list[Element]:
    """Name of a room with what it holds, at the freest place between its sides.

    Parameters
    ----------
    room : Room
        The room.
    height : float
        Height of the cut over the steel floor [m].
    system : {"metric", "us"}
        Units of the volume.
    scale : float
        At which the plan will be shown [-].
    drawn : sequence of Element
        What else stands in the room.

    Returns
    -------
    list of Element
        Two lines of text.
    """
    name, volume = labelled(room.name), format_quantity(room.volume, "volume", system)
    reach = scale * max(1.06 * text_width(name, 1.4 * NORMAL), text_width(volume, SMALL)) / 2.0
    place = _freest(room, height, scale, (reach, _DEEP), _ACROSS, drawn)
    return [Text(place, name, part=room.name, size=1.4 * NORMAL, bold=True, shift=(0.0, -0.006)),
            Text(place, volume, part=room.name, shift=(0.0, -0.0105), clear=True)]  # fmt: skip


def name_alone(room: Room, height: float, scale: float, drawn: Sequence[Element]) -> Text:
    """Name of a room without what it holds, in one line, as in `room_name`."""
    name = labelled(room.name)
    reach = scale * 1.06 * text_width(name, NORMAL) / 2.0
    place = _freest(room, height, scale, (reach, _LOW), _FINE, drawn)
    return Text(place, name, part=room.name, size=NORMAL, bold=True, shift=(0.0, -_LOW / 2.0))


def _freest(
    room: Room, height: float, scale: float, size: Point, across: Sequence[float], drawn: Sequence[Element]
) -> Point:
    """Place that covers least; half the width in the drawing, and the height on paper, of what stands there."""
    reach, deep = size
    pieces = [pair for pair in _pieces(drawn) if max(pair[0][0], pair[1][0]) > room.front
              and min(pair[0][0], pair[1][0]) < room.rear]  # fmt: skip
    places = _places(room, height, reach, scale * deep, across)
    return min(places, key=lambda at: _covered(at, reach, scale, deep, pieces))


def _places(room: Room, height: float, reach: float, deep: float, across: Sequence[float]) -> list[Point]:
    """Upper middle of a name: first at the right side of the van, which lies above in a plan."""
    right, left = (room.section.half_width_at(side, height) for side in ("right", "left"))
    way = right + left - deep
    aside = min(reach, room.length / 2.0)  # names stay between the ends of their room
    stations = [min(max(room.front + along * room.length, room.front + aside), room.rear - aside) for along in _ALONG]
    return [(station, right - part * way) for part in across for station in stations]


def _covered(place: Point, reach: float, scale: float, deep: float, pieces: Sequence[tuple[Point, Point]]) -> int:
    """How many straight pieces and numbers a name at a place would touch."""
    around = scale * _AROUND
    left, right = place[0] - reach - around, place[0] + reach + around
    low, high = place[1] - scale * deep - around, place[1] - scale * _CLEAR
    met = 0
    for a, b in pieces:
        if max(a[0], b[0]) < left or min(a[0], b[0]) > right or max(a[1], b[1]) < low or min(a[1], b[1]) > high:
            continue
        met += a[0] == b[0] or a[1] == b[1] or cut_in_window(a, b, (left, low), (right, high)) is not None
    return met


def _pieces(drawn: Sequence[Element]) -> list[tuple[Point, Point]]:
    """Everything drawn as straight pieces; a ring as the square round it, a number as its place."""
    found: list[tuple[Point, Point]] = []
    for each in drawn:
        if isinstance(each, Line):
            found.append((each.start, each.end))
        elif isinstance(each, Polyline):
            points = (*each.points, each.points[0]) if each.closed else each.points
            found += zip(points, points[1:], strict=False)
        elif isinstance(each, Circle):
            (x, y), r = each.centre, each.radius
            corners = box((x - r, y - r), (x + r, y + r))
            found += zip(corners, (*corners[1:], corners[0]), strict=True)
        elif isinstance(each, Arc):
            turn = (each.end - each.start) % (2.0 * math.pi)
            points = tuple(_on(each, each.start + turn * index / 8.0) for index in range(9))
            found += zip(points, points[1:], strict=False)
        elif isinstance(each, Balloon):
            found.append((each.at, each.at))
    return found


def _on(arc: Arc, angle: float) -> Point:
    return arc.centre[0] + arc.radius * math.cos(angle), arc.centre[1] + arc.radius * math.sin(angle)
