"""What can be changed about one way of the sound: a build-up, a door, a window, a duct, a fan, mounts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from hushwright.document.edits import Edit
from hushwright.model.build import Build, Surface
from hushwright.search.build_ups import OTHER_FACE, alternatives_of
from hushwright.search.changes_of_air import changes_of_run
from hushwright.search.changes_of_floor import changes_of_floor
from hushwright.search.changes_of_openings import changes_of_opening
from hushwright.search.chased import Chased
from hushwright.search.writing import Writing

_LEAST_SHARE = 0.02
"""Share [-] of what decides from which on a way is looked at; common practice, no source."""
_OF_ONE_FACE = 10  # build-ups of a face that are looked at in a round
_BEYOND = 0.1  # share from which on a way through another room asks for that room's own faces


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that may be changed: what and where, in words, and how the file gets there."""

    what: str
    where: str
    edits: tuple[Edit, ...]
    group: str  # place of what is changed: of one group only one change is taken at a time


@dataclass(frozen=True, slots=True)
class Place:
    """A part of the build by which sound comes: its share of what decides, and what can be changed there."""

    name: str
    share: float
    changes: tuple[Change, ...]


def places_of(build: Build, chased: Chased) -> tuple[Place, ...]:
    """Parts of the build that decide, the one with the largest share first, with what can be changed there.

    Parameters
    ----------
    build : Build
        As the file has it.
    chased : Chased
        The sound that is to become quieter.

    Returns
    -------
    tuple of Place
        Ways of one build-up are one place; what nobody can change has no changes.
    """
    shares: dict[str, float] = {}
    for way, share in zip(chased.ways, chased.shares, strict=True):
        for place, part in _parts_of(build, way.place, way.kind, share):
            shares[place] = shares.get(place, 0.0) + part
    ranked = sorted(((place, share) for place, share in shares.items() if share >= _LEAST_SHARE),
                    key=lambda pair: (-pair[1], pair[0]))  # fmt: skip
    return tuple(Place(place, share, tuple(_changes(build, place))) for place, share in ranked)


def _parts_of(build: Build, place: str, kind: str, share: float) -> Iterator[tuple[str, float]]:
    """Parts of the build in question for a way: its own, and the faces of the room that it comes from."""
    opening = next((each for each in build.openings if each.place == place), None)
    if opening is not None and opening.run:
        yield f"air.runs.{opening.run}", share
    elif kind == "fan" and place.startswith("rooms."):
        name = place.removeprefix("rooms.")
        yield from ((run.place, share) for run in build.air.runs if name in (run.takes_from, run.gives_to))
    else:
        yield (f"mounts of {place}" if kind == "mounts" else place), share
    if share < _BEYOND:
        return
    surface = _surface_at(build, place)
    beyond = surface.beyond if surface is not None else _beyond_opening(build, place)
    room = next((each for each in build.rooms if each.name == beyond), None)
    for each in {one.place for one in room.surfaces if one.layers} if room is not None else ():
        yield each, 0.25 * share  # one of several ways into that room


def _beyond_opening(build: Build, place: str) -> str:
    opening = next((each for each in build.openings if each.place == place), None)
    if opening is None:
        return ""
    room = next((each for each in build.rooms if each.name == opening.room), None)
    surface = room.surface(opening.face) if room is not None else None
    return surface.beyond if surface is not None else ""


def _surface_at(build: Build, place: str) -> Surface | None:
    return next((each for room in build.rooms for each in room.surfaces if each.place == place and each.layers), None)


def _changes(build: Build, place: str) -> Iterator[Change]:
    writing = Writing(build)
    for what, where, edits in _told(build, place, writing):
        yield Change(what, where, tuple(edits), place)


def _told(build: Build, place: str, writing: Writing) -> Iterator[tuple[str, str, Sequence[Edit]]]:
    surface = _surface_at(build, place.removeprefix("mounts of "))
    if place.startswith("mounts of "):
        if surface is not None:
            yield from changes_of_floor(build, surface, writing, of_mounts=True)
    elif surface is not None:
        yield from _of_face(build, surface, writing)
    elif place.startswith("openings."):
        opening = next((each for each in build.openings if each.place == place), None)
        if opening is not None:
            yield from changes_of_opening(build, opening, writing)
    elif place.startswith("air.runs."):
        run = next((each for each in build.air.runs if each.place == place), None)
        if run is not None:
            yield from changes_of_run(build, run, writing)


def _of_face(build: Build, surface: Surface, writing: Writing) -> Iterator[tuple[str, str, Sequence[Edit]]]:
    spoken = " and ".join(dict.fromkeys(_spoken(each) for room in build.rooms for each in room.surfaces
                                        if each.place == surface.place))  # fmt: skip
    if surface.edge_gap > 0.0:
        yield "close the slit at its edge", spoken, (Edit("set", writing.path(surface.place, "edge_gap"), "0 mm"),)
    if surface.face == "floor":
        yield from changes_of_floor(build, surface, writing, of_mounts=False)
    found = alternatives_of(build, surface.name, bolder=True)
    if surface.face.startswith("wheel_box"):  # what another face has would stand far into the room
        found = tuple(each for each in found if not each.name.startswith(OTHER_FACE))
    for each in found[:_OF_ONE_FACE]:
        yield each.name, spoken, each.edits


def _spoken(surface: Surface) -> str:
    return surface.name.replace("_", " ").replace(".", " ")
