"""Faces whose lining runs over a door of the vehicle: told, since it is counted whole there."""

from __future__ import annotations

from collections.abc import Iterable

from hushwright.model.build import OpeningInPlace, Room
from hushwright.model.taking import Taker

_LEAST_AREA = 0.05
"""m², below which nobody would speak of a door before a face; common practice, no source."""


def tell_linings_over_doors(taker: Taker, openings: Iterable[OpeningInPlace], rooms: Iterable[Room]) -> None:
    """Note faces whose lining is counted whole though a door of the vehicle opens in them.

    A floating room stands behind the vehicle's doors with a wall of its own: its faces run on there.
    """
    doors = [each for each in openings if each.in_vehicle and each.kind == "vehicle door"]
    for room in rooms:
        for surface in room.surfaces if room.purpose != "quiet" else ():
            if surface.beyond != "outdoors" or surface.added_surface_density <= 0.0:
                continue
            areas = {each.name: _before(each, room) for each in doors if each.face == surface.face}
            names = [name.replace("_", " ") for name, area in areas.items() if area > _LEAST_AREA]
            if names:
                taker.assume(("surfaces", room.name, surface.face), f"the lining of {room.name.replace('_', ' ')}"
                             f" {surface.face} runs over {' and '.join(names)}:"
                             f" {min(sum(areas.values()), surface.area):.1f} m² of it are in cost, mass, plates and"
                             " heat; the sound counts the door as it is",
                             "linings are counted to the edges of their faces")  # fmt: skip


def _before(door: OpeningInPlace, room: Room) -> float:
    """Area of a door of the vehicle before a face of a room [m²]; those in an end belong to the room next to it."""
    station, _, z = door.centre
    section = room.section
    if door.face in ("front", "rear"):
        width = door.width if door.room == room.name else 0.0
    else:
        width = _shared(station - door.width / 2.0, station + door.width / 2.0, room.front, room.rear)
    half = door.height / 2.0
    return width * _shared(z - half, z + half, section.floor_height, section.ceiling_height) * door.number


def _shared(low: float, high: float, least: float, most: float) -> float:
    return max(min(high, most) - max(low, least), 0.0)
