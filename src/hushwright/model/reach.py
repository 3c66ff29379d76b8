"""How far an isolator is from the hand that reaches for it."""

from __future__ import annotations

import math

from hushwright.document.schema import BuildFile
from hushwright.document.schema.wiring import Isolator
from hushwright.model.build import OpeningInPlace, VehicleInPlace
from hushwright.model.taking import Path, Taker, dotted
from hushwright.model.wiring_in_place import IsolatorInPlace, Point

_SHOULDER_BEHIND_AXLE, _SHOULDER_SIDE, _SHOULDER_HEIGHT = 0.95, 0.42, 0.95
"""m: shoulder of the driver behind the front axle, beside the centre line, over the load floor; common practice, no
source."""
_DOORS = ("door", "vehicle door")


def resolve_isolator(
    taker: Taker,
    root: BuildFile,
    typed: Isolator | None,
    vehicle: VehicleInPlace,
    openings: tuple[OpeningInPlace, ...],
    at: Path,
) -> IsolatorInPlace | None:
    """An isolator with its distance from the driver's shoulder, or from the clear opening of a door."""
    if typed is None:
        return None
    point = (
        taker.quantity((*at, "station"), typed.station, "length", label="isolator, station"),
        taker.quantity((*at, "offset"), typed.offset, "length", label="isolator, offset"),
        taker.quantity((*at, "height"), typed.height, "length", label="isolator, height"),
    )
    if typed.reached_from == "driver":
        side = 1.0 if root.vehicle.driver_side == "left" else -1.0
        shoulder = (vehicle.front_axle + _SHOULDER_BEHIND_AXLE, side * _SHOULDER_SIDE, _SHOULDER_HEIGHT)
        return IsolatorInPlace(point, "the driver's seat", math.dist(point, shoulder), dotted(at))
    doors = tuple(name for name, each in root.openings.items() if each.kind in _DOORS)
    if not taker.name_of(typed.reached_from, ("driver", *doors), (*at, "reached_from"), "door"):
        return None
    door = next((each for each in openings if each.name == typed.reached_from), None)
    if door is None:
        return None
    return IsolatorInPlace(point, door.name.replace("_", " "), _from_door(door, point), dotted(at))


def _from_door(door: OpeningInPlace, point: Point) -> float:
    """Distance of a point from the nearest point of a door's clear opening [m]."""
    across = [abs(a - b) for a, b in zip(point, door.centre, strict=True)]
    along = 1 if door.face in ("front", "rear") else 0
    across[along] = max(across[along] - door.width / 2.0, 0.0)
    across[2] = max(across[2] - door.height / 2.0, 0.0)
    return math.hypot(*across)
