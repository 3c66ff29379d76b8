"""Detectors and equipment of the build file in place."""

from __future__ import annotations

import math
from collections.abc import Iterator

from hushwright.document.schema import BuildFile
from hushwright.document.schema.safety import Detector, Safety
from hushwright.model.faces import Room
from hushwright.model.parts import MassItem
from hushwright.model.safety_in_place import DetectorInPlace, EquipmentInPlace
from hushwright.model.taking import Path, Taker, dotted

_AT: Path = ("safety",)
USUAL = ("fire extinguisher", "first aid kit")
"""Equipment where the file does not say what is asked for; common practice, no source."""
_OUTSIDE = 0.001  # m, beyond which a place is outside


def detectors(taker: Taker, typed: Safety, rooms: dict[str, Room], names: tuple[str, ...]) -> Iterator[DetectorInPlace]:
    """Detectors with their place, where the file gives one.

    Parameters
    ----------
    taker : Taker
        Takes values, notes what is wrong.
    typed : Safety
        What the file says.
    rooms : dict
        Rooms in place by name.
    names : tuple of str
        Names of all rooms of the file.

    Yields
    ------
    DetectorInPlace
        Distance from an edge as typed, else from the place on the ceiling.
    """
    for index, each in enumerate(typed.detectors):
        at: Path = (*_AT, "detectors", index)
        if not taker.name_of(each.room, names, (*at, "room"), "room") or each.room not in rooms:
            continue
        where = _seen_from_above(taker, each, at)
        edge = _from_edge(taker, each, at, where, rooms[each.room])
        away = (
            None
            if each.from_appliance is None or each.from_appliance.unknown
            else taker.quantity((*at, "from_appliance"), each.from_appliance, "length")
        )
        yield DetectorInPlace(each.kind, each.room, each.fixed_on == "ceiling", edge, away, dotted(at), where)


def _seen_from_above(taker: Taker, each: Detector, at: Path) -> tuple[float, float] | None:
    """Station and offset of a detector, where the file gives both."""
    if each.station is None and each.offset is None:
        return None
    if each.station is None or each.offset is None:
        taker.say("value-needed", at, each.kind, "has half a place", "give `station` and `offset`, or neither")
        return None
    label = f"of the {each.kind} detector"
    station = taker.quantity((*at, "station"), each.station, "length", label=f"station {label}")
    return station, taker.quantity((*at, "offset"), each.offset, "length", label=f"offset {label}")


def _from_edge(taker: Taker, each: Detector, at: Path, where: tuple[float, float] | None, room: Room) -> float:
    """Distance from the nearest wall of a detector on the ceiling, below the ceiling of one on a wall."""
    apart = math.inf
    if where is not None:
        top = room.section.ceiling_height
        left, right = (room.section.half_width_at(side, top) for side in ("left", "right"))
        ends = (where[0] - room.front, room.rear - where[0])
        apart = min(ends) if each.fixed_on == "wall" else min(*ends, left - where[1], right + where[1])
        if apart < -_OUTSIDE:
            taker.say_fit("outside-room", (*at, "station"), each.station.text if each.station else "",
                          f"lies outside of {each.room}, which reaches from {1000.0 * room.front:.0f} mm to"
                          f" {1000.0 * room.rear:.0f} mm", "move it, or name another room")  # fmt: skip
    if each.from_edge is None and each.fixed_on == "ceiling" and where is not None:
        return apart
    return taker.quantity((*at, "from_edge"), each.from_edge, "length", label=f"{each.kind} detector from edge")


def equipment(taker: Taker, root: BuildFile, typed: Safety, masses: tuple[MassItem, ...]) -> Iterator[EquipmentInPlace]:
    """Equipment where its fittings are.

    Parameters
    ----------
    taker : Taker
        Notes what is wrong.
    root : BuildFile
        The build file, for the names of fittings.
    typed : Safety
        What the file says.
    masses : tuple of MassItem
        Where fittings are.

    Yields
    ------
    EquipmentInPlace
        Each piece.
    """
    names = tuple(each.name for each in root.fittings)
    for index, each in enumerate(typed.equipment):
        at: Path = (*_AT, "equipment", index)
        item = next((one for one in masses if one.fitting == each.fitting), None)
        if taker.name_of(each.fitting, names, (*at, "fitting"), "fitting") and item is not None:
            yield EquipmentInPlace(each.kind, each.fitting, each.size, (item.station, item.y, item.z), dotted(at))
