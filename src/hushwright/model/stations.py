"""Where rooms lie along the vehicle, and what lies before and behind each."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.document.schema.rooms import Room as TypedRoom
from hushwright.errors import Mend
from hushwright.model.mending import down, up
from hushwright.model.parts import VehicleInPlace
from hushwright.model.taking import Taker

SPACE_TOLERANCE = 0.003  # m, how far a build-up may overlap a space before it is called too thick
_JUDGED = ("quiet", "control")


@dataclass(frozen=True, slots=True)
class Extent:
    """A room's name and stations, and what lies before and behind it."""

    name: str
    purpose: str
    front: float
    rear: float
    ahead: str
    behind: str
    space_ahead: float
    space_behind: float


@dataclass(frozen=True, slots=True)
class _Stations:
    name: str
    purpose: str
    front: float
    rear: float


def extents_of(taker: Taker, rooms: dict[str, TypedRoom], vehicle: VehicleInPlace) -> tuple[Extent, ...]:
    """Rooms from the front rearward; one whose stations are impossible is left out after a diagnostic."""
    _check_purposes(taker, rooms)
    found = [each for name, room in rooms.items() if (each := _stations(taker, name, room, vehicle)) is not None]
    found.sort(key=lambda each: each.front)
    for before, after in zip(found, found[1:], strict=False):
        if after.front < before.rear - SPACE_TOLERANCE:
            taker.say_fit("rooms-overlap", ("rooms", after.name, "front"), f"{after.front:.3f} m",
                          f"{before.name} ends only at {before.rear:.3f} m",
                          "stations run rearward; leave room for the wall between",
                          mends=_front_moved(after, before.rear))  # fmt: skip
    return tuple(_extent(found, index, vehicle) for index in range(len(found)))


def _stations(taker: Taker, name: str, room: TypedRoom, vehicle: VehicleInPlace) -> _Stations | None:
    front = taker.quantity(("rooms", name, "front"), room.front, "length", label=f"{name} front station")
    rear = taker.quantity(("rooms", name, "rear"), room.rear, "length", label=f"{name} rear station")
    if room.front.unknown or room.rear.unknown:
        return None
    if rear <= front:
        taker.say("stations-reversed", ("rooms", name, "rear"), f"{rear:.3f} m",
                  f"lies before the room's front at {front:.3f} m",
                  "stations run rearward from the B-pillar line")  # fmt: skip
        return None
    if front < -SPACE_TOLERANCE or rear > vehicle.load_length + SPACE_TOLERANCE:
        taker.say_fit("room-outside-vehicle", ("rooms", name), f"{front:.3f} to {rear:.3f} m",
                      f"the load space runs from 0 to {vehicle.load_length:.3f} m", "leave room for the wall",
                      mends=_brought_in(name, front, rear, vehicle.load_length))  # fmt: skip
    if rear - front < SHORTEST - _GRAIN:
        taker.say_fit("room-too-short", ("rooms", name), f"{rear - front:.3f} m long",
                      f"a room is at least {SHORTEST:.1f} m long", "or move its front",
                      mends=(_moved(name, "rear", up(front + SHORTEST)),))  # fmt: skip
    return _Stations(name, room.purpose, front, rear)


_GRAIN = 1e-9  # m, of typed stations
SHORTEST = 0.2  # m; shorter, its sound field is no room's; common practice, no source


def _moved(name: str, end: str, station: float) -> Mend:
    return Mend(f"move the {end} of {name.replace('_', ' ')} to", ("rooms", name, end), station)


def _front_moved(after: _Stations, station: float) -> tuple[Mend, ...]:
    return (_moved(after.name, "front", up(station)),) if after.rear - up(station) >= SHORTEST else ()


def _brought_in(name: str, front: float, rear: float, length: float) -> tuple[Mend, ...]:
    """The end that lies outside brought to the end of the load space, where a room remains and the other is inside."""
    if front < -SPACE_TOLERANCE:
        return (_moved(name, "front", 0.0),) if SHORTEST <= rear <= length + SPACE_TOLERANCE else ()
    return (_moved(name, "rear", down(length)),) if length - front >= SHORTEST else ()


def _extent(found: list[_Stations], index: int, vehicle: VehicleInPlace) -> Extent:
    here = found[index]
    ahead = found[index - 1] if index else None
    behind = found[index + 1] if index + 1 < len(found) else None
    return Extent(
        here.name, here.purpose, here.front, here.rear,
        ahead.name if ahead else "cab", behind.name if behind else "outdoors",
        here.front - (ahead.rear if ahead else 0.0), (behind.front if behind else vehicle.load_length) - here.rear,
    )  # fmt: skip


def _check_purposes(taker: Taker, rooms: dict[str, TypedRoom]) -> None:
    if not rooms:
        taker.say("no-room", ("rooms",), "", "the build has no room: only masses and the vehicle are judged",
                  "add `rooms:` with the stations of each", severity="warning")  # fmt: skip
    for purpose in _JUDGED:
        named = [name for name, room in rooms.items() if room.purpose == purpose]
        if len(named) > 1:
            taker.say("several-rooms", ("rooms", named[1], "purpose"), purpose,
                      f"{' and '.join(named)} are all {purpose} rooms; sound and mounts are judged for the foremost",
                      "give the others the purpose `other`", severity="warning")  # fmt: skip
