"""Which openings lie in a face, which of them stand one before the other, and what stands open."""

from __future__ import annotations

from functools import lru_cache

from hushwright.model.build import Build, OpeningInPlace, Room, Surface

OUTDOORS = "outdoors"
ByFace = dict[tuple[str, str], tuple[OpeningInPlace, ...]]


def openings_in(build: Build, room: Room, face: str) -> tuple[OpeningInPlace, ...]:
    """Openings in one face of a room, those of the vehicle's own skin left out."""
    return _by_face(build.openings)[0].get((room.name, face), ())


def openings_of_skin(build: Build, room: Room, face: str) -> tuple[OpeningInPlace, ...]:
    """Openings of the vehicle's skin in front of one face of a room."""
    return _by_face(build.openings)[1].get((room.name, face), ())


def passed(build: Build, opening: OpeningInPlace) -> tuple[OpeningInPlace, ...]:
    """An opening and those that stand before it in the same face, inside first.

    An opening elsewhere that one passes on the way is no leaf of this face.
    """
    found = [opening]
    while (before := _before(build, found[-1])) is not None and before not in found:
        found.append(before)
    return tuple(found)


def _before(build: Build, opening: OpeningInPlace) -> OpeningInPlace | None:
    found = next((each for each in build.openings if each.name == opening.behind), None)
    same = found is not None and (found.room, found.face) == (opening.room, opening.face)
    return found if same else None


def leading_in(build: Build, room: Room, surface: Surface) -> tuple[OpeningInPlace, ...]:
    """Openings of a face that lead straight into a room: none that only lead to another one.

    Openings of the vehicle before the quiet room are left to the gap round it.
    """
    found = openings_in(build, room, surface.face)
    if room.purpose != "quiet" and surface.beyond == OUTDOORS:
        found += openings_of_skin(build, room, surface.face)
    outer = outer_ones(build, room, surface.face) if found else ()
    return tuple(each for each in found if each not in outer)


def outer_ones(build: Build, room: Room, face: str) -> tuple[OpeningInPlace, ...]:
    """Openings that only lead to another one in the same face of a room."""
    inside = openings_in(build, room, face)
    return tuple(dict.fromkeys(each for opening in inside for each in passed(build, opening)[1:]))


def open_area(build: Build, room: Room, open_: tuple[str, ...]) -> float:
    """Area of all openings of a room that stand open to the space beyond [m²]."""
    found = [each for surface in room.surfaces for each in leading_in(build, room, surface)]
    return sum(each.area * each.number for each in found if all(one.name in open_ for one in passed(build, each)))


@lru_cache(maxsize=64)
def _by_face(openings: tuple[OpeningInPlace, ...]) -> tuple[ByFace, ByFace]:
    own: ByFace = {}
    skin: ByFace = {}
    for each in openings:
        found, at_face = (skin if each.in_vehicle else own), (each.room, each.face)
        found[at_face] = (*found.get(at_face, ()), each)
    return own, skin


def stands_in_inner_leaf(passed_: tuple[OpeningInPlace, ...], surface: Surface) -> bool:
    """Whether an opening lies only in the inner leaf, behind another one, and not through the whole face."""
    own_cavity = any(layer.is_cavity for layer in passed_[0].layers)
    return len(passed_) > 1 and surface.last_cavity is not None and not own_cavity
