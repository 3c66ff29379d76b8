"""Title block and sections of the drawings, from the file or, for sections, from the rooms."""

from __future__ import annotations

from hushwright.document.schema import BuildFile
from hushwright.model.drawn_in_place import DrawnInPlace, RevisionInPlace
from hushwright.model.faces import Room
from hushwright.model.parts import VehicleInPlace
from hushwright.model.taking import Path, Taker

_APART = 0.2  # m, closer to each other two sections show the same


def resolve_drawn(taker: Taker, root: BuildFile, rooms: tuple[Room, ...], vehicle: VehicleInPlace) -> DrawnInPlace:
    """Title block and sections; a section outside the load space is told."""
    typed = root.drawings
    if typed is None:
        return DrawnInPlace("", root.date, (), "", "", _usual(rooms, vehicle))
    revisions = tuple(RevisionInPlace(each.revision, each.date, each.change) for each in typed.revisions)
    return DrawnInPlace(typed.number, root.date, revisions, typed.drawn_by, typed.checked_by,
                        _given(taker, root, vehicle) or _usual(rooms, vehicle))  # fmt: skip


def _given(taker: Taker, root: BuildFile, vehicle: VehicleInPlace) -> tuple[tuple[str, float], ...]:
    found: list[tuple[str, float]] = []
    assert root.drawings is not None
    for index, typed in enumerate(root.drawings.sections):
        at: Path = ("drawings", "sections", index, "station")
        station = taker.quantity(at, typed.station, "length", label=f"section {typed.name}")
        if not 0.0 <= station <= vehicle.load_length:
            taker.say_fit("section-outside", at, f"{station:.3f} m",
                          f"the load space runs from 0 to {vehicle.load_length:.3f} m",
                          "stations run rearward from the B-pillar line", severity="warning")  # fmt: skip
            continue
        if typed.name in (name for name, _ in found):
            taker.say("name-twice", at, typed.name, "two sections have this name", "give each its own letter",
                      severity="warning")  # fmt: skip
            continue
        found.append((typed.name, station))
    return tuple(found)


def _usual(rooms: tuple[Room, ...], vehicle: VehicleInPlace) -> tuple[tuple[str, float], ...]:
    """Middle of each room, and middle of the wheel boxes where that is somewhere else."""
    stations = [(room.front + room.rear) / 2.0 for room in rooms]
    if vehicle.wheel_boxes is not None:
        middle = (vehicle.wheel_boxes[2] + vehicle.wheel_boxes[3]) / 2.0
        if all(abs(middle - each) > _APART for each in stations):
            stations.append(middle)
    letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
    return tuple((letters[index], station) for index, station in enumerate(sorted(stations)[: len(letters)]))
