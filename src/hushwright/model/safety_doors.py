"""Ways out of the build file in place: which openings one passes, how they open, and what stands in their way."""

from __future__ import annotations

from dataclasses import dataclass, replace

from hushwright.document.schema import BuildFile
from hushwright.document.schema.safety import Safety, WayDoor, WayOut
from hushwright.document.values import Value
from hushwright.errors import Mend
from hushwright.model.faces import Room
from hushwright.model.mending import down
from hushwright.model.parts import OpeningInPlace
from hushwright.model.safety_in_place import WayDoorInPlace, WayOutInPlace
from hushwright.model.taking import Path, Taker, dotted

OUTDOORS, CAB = "outdoors", "cab"
_PASSED = ("door", "window", "vehicle door", "vehicle window", "hole")
_AT: Path = ("safety",)


@dataclass(frozen=True, slots=True)
class Plan:
    """Rooms and openings by name, for walking through them."""

    rooms: dict[str, Room]
    openings: dict[str, OpeningInPlace]

    def beyond(self, opening: OpeningInPlace, here: str) -> str | None:
        """Room one stands in after an opening, `None` where it is not in a face of the room one comes from."""
        if opening.in_vehicle:
            return OUTDOORS if opening.room in (here, "") else None
        surface = self.rooms[opening.room].surface(opening.face) if opening.room in self.rooms else None
        other = surface.beyond if surface is not None else OUTDOORS
        if here == opening.room:
            return other
        return opening.room if here == other else None


def resolve_ways(
    taker: Taker, root: BuildFile, typed: Safety, rooms: tuple[Room, ...], openings: tuple[OpeningInPlace, ...]
) -> tuple[tuple[WayDoorInPlace, ...], tuple[WayOutInPlace, ...]]:
    """Openings on ways out, and the ways.

    Parameters
    ----------
    taker : Taker
        Takes values, notes what is wrong.
    root : BuildFile
        The build file.
    typed : Safety
        Its safety.
    rooms : tuple of Room
        Rooms in place.
    openings : tuple of OpeningInPlace
        Openings in place.

    Returns
    -------
    tuple of doors and ways
        Ways that cannot be walked are noted and left out.
    """
    plan = Plan({room.name: room for room in rooms}, {each.name: each for each in openings})
    ways = tuple(way for index, each in enumerate(typed.ways_out) if (way := _way(taker, root, plan, index, each)))
    known = tuple(name for name, each in root.openings.items() if each.kind in _PASSED)
    for name in typed.doors:
        taker.name_of(name, known, (*_AT, "doors", name), "door, window or hole")
    used = dict.fromkeys([*typed.doors, *(name for way in ways for name in way.through)])
    doors = tuple(
        replace(
            _door(taker, plan, plan.openings[name], typed.doors.get(name)),
            fixed=_fixed(plan.openings[name], root, typed.doors.get(name)),
        )
        for name in used
        if name in plan.openings
    )
    return doors, ways


def _fixed(opening: OpeningInPlace, root: BuildFile, typed: WayDoor | None) -> bool:
    """Whether it is a window of a room on no hinges, which nobody can open."""
    hung = root.openings[opening.name].hardware is not None or (typed is not None and typed.swing == "slides")
    return opening.kind == "window" and not opening.in_vehicle and not hung


def _way(taker: Taker, root: BuildFile, plan: Plan, index: int, typed: WayOut) -> WayOutInPlace | None:
    at: Path = (*_AT, "ways_out", index)
    if not taker.name_of(typed.room, tuple(root.rooms), (*at, "room"), "room"):
        return None
    names = tuple(root.openings)
    known = [taker.name_of(name, names, (*at, "through", i), "opening") for i, name in enumerate(typed.through)]
    if not all(known):
        return None
    if typed.room not in plan.rooms or any(name not in plan.openings for name in typed.through):
        return None  # told already
    problem = _broken(plan, typed)
    if problem:
        taker.say("way-out-broken", (*at, "through"), ", ".join(typed.through) or "nothing", problem,
                  "name every opening that one passes, in order, until one stands outdoors")  # fmt: skip
        return None
    return WayOutInPlace(typed.room, typed.through, dotted(at))


def _broken(plan: Plan, typed: WayOut) -> str:
    """Why a way cannot be walked; empty where it can."""
    here, behind = typed.room, ""
    for name in typed.through:
        opening = plan.openings[name]
        if behind and name != behind:
            return f"after the opening before it one meets {behind}, not {name}"
        if here == OUTDOORS and not behind:
            return f"one is outdoors before {name}"
        after = OUTDOORS if behind else plan.beyond(opening, here)
        if after is None:
            return f"{name} is in no face of {here}"
        if opening.behind and opening.behind not in plan.openings:
            return ""  # told under that opening
        here, behind = after, "" if opening.in_vehicle else opening.behind
    if behind:
        return f"it ends before {behind}"
    return "" if here in (OUTDOORS, CAB) else f"it ends in {here}"


def _door(taker: Taker, plan: Plan, opening: OpeningInPlace, typed: WayDoor | None) -> WayDoorInPlace:
    at: Path = (*_AT, "doors", opening.name)
    if typed is None:
        return WayDoorInPlace(
            opening.name, False, "", "", 1, None, "", None, False, "", opening.width, None, "", opening.width,
            opening.height, opening.in_vehicle, "safety.doors",
        )  # fmt: skip
    _check_door(taker, typed, at)
    width = _size(taker, (*at, "clear_width"), typed.clear_width, opening.width, f"clear width of {opening.name}")
    height = _size(taker, (*at, "clear_height"), typed.clear_height, opening.height, f"clear height of {opening.name}")
    depth, freed_by = _free_depth(taker, plan, opening, typed, at)
    return WayDoorInPlace(
        opening.name, True, typed.lock, typed.inside, typed.operations,
        _force(taker, (*at, "holding"), typed.holding, f"holding force of {opening.name}"),
        typed.travel_keep, _force(taker, (*at, "keep_strength"), typed.keep_strength, f"keep of {opening.name}"),
        typed.occupied_alarm == "yes", typed.swing, opening.width / typed.leaves, depth, freed_by, width, height,
        opening.in_vehicle, dotted(at),
    )  # fmt: skip


def _check_door(taker: Taker, typed: WayDoor, at: Path) -> None:
    if typed.lock == "none" and typed.holding is not None:
        taker.say("key-without-effect", (*at, "holding"), typed.holding.text, "nothing locks this opening",
                  "name its `lock`, or take the force out", severity="warning")  # fmt: skip
    if typed.travel_keep == "none" and typed.keep_strength is not None:
        taker.say("key-without-effect", (*at, "keep_strength"), typed.keep_strength.text, "it has no keep for the road",
                  "name its `travel_keep`, or take the strength out", severity="warning")  # fmt: skip


def _size(taker: Taker, path: Path, given: Value | None, whole: float, label: str) -> float:
    if given is None or given.unknown:
        taker.assume(path, f"{label} is all of it, {1000 * whole:.0f} mm", "size of the opening")
        return whole
    value = taker.quantity(path, given, "length", label=label)
    if value > whole + 1e-6:
        taker.say_fit("larger-than-opening", path, f"{1000 * value:.0f} mm",
                      f"the opening itself has {1000 * whole:.0f} mm", "measure between stops and leaf",
                      mends=(Mend(f"set the {label} to", path, down(whole)),))  # fmt: skip
    return value


def _force(taker: Taker, path: Path, given: Value | None, label: str) -> float | None:
    return None if given is None or given.unknown else taker.quantity(path, given, "force", label=label)


def _free_depth(
    taker: Taker, plan: Plan, opening: OpeningInPlace, typed: WayDoor, at: Path
) -> tuple[float | None, str]:
    """Depth on the side to which an opening swings, and the opening that frees it by standing open."""
    before = plan.openings.get(opening.behind)
    freed_by = opening.behind if before is not None and typed.swing == "out" else ""
    if typed.swing == "slides":
        return None, ""
    if typed.free_depth is not None and not typed.free_depth.unknown:
        label = f"free depth at {opening.name}"
        return taker.quantity((*at, "free_depth"), typed.free_depth, "length", label=label), freed_by
    if opening.in_vehicle:
        return (None, "") if typed.swing == "out" else (_depth_of(plan.rooms.get(opening.room), opening.face), "")
    room = plan.rooms.get(opening.room)
    if typed.swing == "in":
        return _depth_of(room, opening.face), ""
    if before is not None:
        return _lobby(room, opening.face), freed_by
    surface = room.surface(opening.face) if room is not None else None
    return _depth_of(plan.rooms.get(surface.beyond if surface is not None else ""), opening.face), ""


def _depth_of(room: Room | None, face: str) -> float | None:
    if room is None:
        return None
    return room.length if face in ("front", "rear") else room.section.floor_width


def _lobby(room: Room | None, face: str) -> float | None:
    """Space between the leaf in the inner wall and what stands before it."""
    surface = room.surface(face) if room is not None else None
    if surface is None or surface.last_cavity is None:
        return None
    return surface.layers[surface.last_cavity].thickness
