"""Ways out: what keeps doors from opening, what locks and keeps carry, which ways serve in which state."""

from __future__ import annotations

from functools import lru_cache

from hushwright.evaluation.mass.envelopes import in_the_swing
from hushwright.evaluation.results.mass import DoorResult
from hushwright.evaluation.results.safety import DoorOnWay, WayWalked
from hushwright.library.library import Library
from hushwright.library.safety import SafetyLimit
from hushwright.model.build import Build, StateOfUse
from hushwright.model.cuts_in_place import DoorInPlace
from hushwright.model.safety_in_place import SafetyInPlace, WayDoorInPlace, WayOutInPlace
from hushwright.physics.air import STANDARD_GRAVITY

_BY_HAND = ("lever", "push bar", "pull handle")
_ELECTRIC = ("fail-safe", "fail-secure")


def doors_on_ways(build: Build, structure: tuple[DoorResult, ...]) -> tuple[DoorOnWay, ...]:
    """Every opening on a way out, with what keeps it shut.

    Parameters
    ----------
    build : Build
        What is there.
    structure : tuple of DoorResult
        Doors closed against their seals.

    Returns
    -------
    tuple of DoorOnWay
        Nothing where the file has no safety.
    """
    if build.safety is None:
        return ()
    results = {each.name: each for each in structure}
    hung = {each.name: each for each in build.doors}
    level = build.anchoring.design_level if any(state.road for state in build.states) else 0.0
    return tuple(
        _door(each, hung.get(each.name), results.get(each.name), build.safety.push.value, level, build.library)
        for each in build.safety.doors
    )


@lru_cache(maxsize=8)
def _rules(library: Library) -> tuple[float, float, float]:
    """Sides of the body that has to pass [m], and moves that may open a door."""
    names = ("passing width of a way out", "passing height of a way out", "moves that open a door")
    width, height, moves = (library.find(SafetyLimit, name).value.value for name in names)
    return width, height, moves


def _door(
    door: WayDoorInPlace, hung: DoorInPlace | None, closed: DoorResult | None, push: float, level: float,
    library: Library,
) -> DoorOnWay:  # fmt: skip
    width, height, moves = _rules(library)
    sides = sorted((door.clear_width, door.clear_height))
    passes = min(sides[1] / width, sides[0] / height)
    load = road = None
    if hung is not None and closed is not None:
        seals = closed.latch * hung.latches
        load = seals + push * hung.handle_distance / hung.width
        # Inertia acts at the middle of the leaf, the keep at its edge: half of it is the keep's.
        road = seals + level * STANDARD_GRAVITY * hung.mass / 2.0 if level > 0.0 else None
    return DoorOnWay(
        door.name, door.said, door.lock == "fail-secure", obstacles_of(door, moves),
        load if door.lock in (*_ELECTRIC, "mechanical") else None, road, passes, door.place,
    )  # fmt: skip


def obstacles_of(door: WayDoorInPlace, most: float) -> tuple[str, ...]:
    """What keeps a person inside from opening a door by one plain move."""
    if not door.said:
        return ()
    found = ["it is fixed: the file gives it no hinges (hardware)"] if door.fixed else []
    if door.inside not in _BY_HAND:
        found.append("nothing opens it from inside" if door.inside == "none" else f"it takes a {door.inside}")
    if door.operations > most:
        found.append(f"it takes {door.operations} moves")
    if door.keep == "opens from outside only":
        found.append("its keep for the road opens from outside only")
    return tuple(found)


def ways_walked(build: Build, doors: tuple[DoorOnWay, ...]) -> tuple[WayWalked, ...]:
    """Every way out of every room with people, state by state.

    Parameters
    ----------
    build : Build
        What is there.
    doors : tuple of DoorOnWay
        Openings on ways out.

    Returns
    -------
    tuple of WayWalked
        One for each way and state.
    """
    if build.safety is None:
        return ()
    return tuple(
        _walked(build, build.safety, way, state, doors)
        for state in build.states
        for way in build.safety.ways_out
        if state.people_in(way.room) > 0
    )


def _walked(
    build: Build, safety: SafetyInPlace, way: WayOutInPlace, state: StateOfUse, doors: tuple[DoorOnWay, ...]
) -> WayWalked:
    known = {each.name: each for each in doors}
    hindrances: list[str] = []
    not_said: list[str] = []
    swings: list[tuple[str, float, float]] = []
    for name in way.through:
        door, found = safety.door(name), known.get(name)
        if door is None or found is None:
            continue
        if name in state.open:
            continue
        if not door.said:
            not_said.append(name)
        if found.locked_without_power:
            hindrances.append(f"{name} stays locked without power")
        hindrances += [f"{name}: {each}" for each in found.obstacles]
        hindrances += [f"{what} stands {1000 * deep:.0f} mm into the swing of {name}"
                       for what, deep in in_the_swing(build, state, name)]  # fmt: skip
        depth = None if door.freed_by in state.open and door.freed_by else door.free_depth
        if depth is not None and door.said:
            swings.append((name, depth, door.leaf_width))
            if depth < door.leaf_width:
                hindrances.append(f"{name} swings {door.swing} into {1000 * depth:.0f} mm of free depth and is"
                                  f" {1000 * door.leaf_width:.0f} mm wide")  # fmt: skip
    hindrances += [f"{name} is too small to pass" for name in way.through if name in known and known[name].passes < 1.0]
    return WayWalked(way.room, state.name, way.through, not hindrances and not not_said, tuple(hindrances),
                     tuple(not_said), tuple(swings), way.place)  # fmt: skip


def independent(ways: list[WayWalked]) -> int:
    """How many ways serve without leading through the same opening, at most two; more help no further."""
    if any(not set(one.through) & set(other.through) for one in ways for other in ways if one is not other):
        return 2
    return 1 if ways else 0
