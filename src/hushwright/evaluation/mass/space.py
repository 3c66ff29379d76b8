"""Headroom and clear width on loaded mounts."""

from __future__ import annotations

from hushwright.evaluation.results import SpaceResult, StackItem
from hushwright.evaluation.sound.floor import Floating, floating_room
from hushwright.evaluation.wiring.cables import with_cables
from hushwright.library.records import Limit
from hushwright.model.build import Build, Room, StateOfUse, Surface
from hushwright.physics.air import Air


def first_take(build: Build) -> StateOfUse:
    """State in which sound is judged first; any other where nothing is recorded."""
    return next((state for state in build.states if state.takes), build.states[0])


def space_in_take(build: Build, room: Room) -> SpaceResult:
    """Headroom and clear width of a room in the first take: what `space_of` says where only drawings are wanted."""
    air = Air(build.brief.air_temperature)
    return space_of(build, room, floating_room(with_cables(build), first_take(build), air))


def space_of(build: Build, room: Room, floating: Floating | None) -> SpaceResult:
    """Headroom at the centre and at the shoulders, clear width, and what the height is used up by."""
    given = _given_back(build, room, floating)
    lining = _ceiling_lining(room)
    centre = room.section.height + given - lining
    shoulder = room.section.height_within(build.brief.shoulder_width / 2.0) + given - lining
    share = build.library.find(Limit, "shoulder height share").value.value
    shoulder_height = room.section.floor_height + share * build.brief.stature + build.brief.shoes
    width = room.section.width_at(min(shoulder_height, room.section.ceiling_height))
    width -= _side_lining(room, "left") + _side_lining(room, "right")
    return SpaceResult(
        room.name, centre, shoulder, width, _clear_floor(room), room.volume,
        _stack(build, room, given, lining), given,
    )  # fmt: skip


def _clear_floor(room: Room) -> float:
    """Floor to stand on [m²]: without what wheel boxes take of it."""
    floor = room.surface("floor")
    return room.section.floor_width * room.length if floor is None else floor.area


def _given_back(build: Build, room: Room, floating: Floating | None) -> float:
    """Height that the loaded mounts give back against their free height [m]."""
    if floating is None or room.purpose != "quiet":
        return 0.0
    group = next(each for each in build.mounts if each.name == floating.result.group)
    return group.free_height - floating.mean_height


def _ceiling_lining(room: Room) -> float:
    """Depth of absorbers that cover the middle of the ceiling: half of it or more [m]."""
    return sum(
        each.thickness + each.air_behind for each in room.treatments if each.face == "ceiling" and each.coverage >= 0.5
    )


def _side_lining(room: Room, face: str) -> float:
    return sum(
        each.thickness + each.air_behind for each in room.treatments if each.face == face and each.coverage >= 0.5
    )


def _stack(build: Build, room: Room, given: float, lining: float) -> tuple[StackItem, ...]:
    items = [StackItem("steel floor to the underside of the bows", build.vehicle.floor_to_bow)]
    items += [StackItem(f"floor: {name}", -depth) for name, depth in _depths(room.surface("floor"))]
    if given > 0.0:
        items.append(StackItem("mounts give under load", given))
    items += [StackItem(f"ceiling: {name}", -depth) for name, depth in _depths(room.surface("ceiling"))]
    if lining > 0.0:
        items.append(StackItem("ceiling: absorber", -lining))
    return tuple(items)


def _depths(surface: Surface | None) -> list[tuple[str, float]]:
    if surface is None:
        return []
    return [(layer.name, layer.thickness) for layer in surface.layers if layer.kind not in ("skin", "damping")]
