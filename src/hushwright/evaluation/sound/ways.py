"""All ways into one room as arrays: what a level on their far side makes inside."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from hushwright.evaluation.results import SILENCE, Bands
from hushwright.evaluation.sound.absorption import face_on_room
from hushwright.evaluation.sound.links import NEVER, Link, bands
from hushwright.model.build import Room
from hushwright.physics.acoustics.bands import N_BANDS, energy_sum_level
from hushwright.physics.acoustics.room_field import path_gain, source_gain
from hushwright.physics.acoustics.rooms import FaceOnRoom, Gain, RoomField

FloatArray = NDArray[np.float64]
Side = tuple[str, str]
"""A space and the face of it that a level belongs to."""

_DIFFUSE_TO_INCIDENT = 6.0
"""dB between the level that goes with R and 10 lg of the incident power per area: L − 6 + 10 lg S − R (ISO 12354-3)."""

_LEAST_FACE = 0.01
"""m², least area that radiates; smaller pieces of a face are all points to the room. Common practice, no source."""

gain_of = lru_cache(maxsize=4096)(path_gain)
source_of = lru_cache(maxsize=1024)(source_gain)


@dataclass(frozen=True, slots=True, eq=False)
class Bundle:
    """Links as one object: what hangs on them is found again without looking at each."""

    links: tuple[Link, ...]

    def __iter__(self) -> Iterator[Link]:
        return iter(self.links)


bundled = lru_cache(maxsize=1024)(Bundle)
"""The same object for equal links."""


@dataclass(frozen=True, slots=True, eq=False)
class Ways:
    """Links into one room, walked inward: ``gain`` is room level over level on the far side [dB], a row each."""

    links: tuple[Link, ...]
    sides: Mapping[Side, tuple[int, ...]]  # rows of the ways that begin at each
    gain: FloatArray
    uncertainty: FloatArray
    spread: FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class Arrivals:
    """Level that each way makes in a room, a row each [dB], with its uncertainty and its spread over places."""

    links: tuple[Link, ...]
    levels: FloatArray
    uncertainty: FloatArray
    spread: FloatArray

    def only(self, kept: list[int]) -> Arrivals:
        """Some of the ways."""
        return Arrivals(tuple(self.links[index] for index in kept), self.levels[kept], self.uncertainty[kept],
                        self.spread[kept])  # fmt: skip


def ways_into(straight: Bundle, shared: Bundle, room: Room, field: RoomField) -> Ways:
    """Ways from everywhere into a room; links that do not touch it are left out.

    Parameters
    ----------
    straight : Bundle
        Ways through faces and openings, for the angles of one situation.
    shared : Bundle
        Roundabout ways, the same in every situation.
    room : Room
        Receiving room.
    field : RoomField
        Its field.

    Returns
    -------
    Ways
        Walked inward.
    """
    return _ways(_powers(straight, room.name), _powers(shared, room.name), room, field)


@dataclass(frozen=True, slots=True, eq=False)
class _Powers:
    """Links into a room, walked inward, and the power level that 0 dB on their far side sends in, a row each."""

    links: tuple[Link, ...]
    power: FloatArray
    uncertainty: FloatArray


@lru_cache(maxsize=512)
def _powers(links: Bundle, room: str) -> _Powers:
    walked = tuple(
        link if link.second == room else link.reversed() for link in links if room in (link.first, link.second)
    )
    through = _rows([link.through for link in walked])
    power = 10.0 * np.log10(np.maximum(through, NEVER)) - _DIFFUSE_TO_INCIDENT
    return _Powers(walked, power, _rows([link.uncertainty for link in walked]))


@lru_cache(maxsize=512)
def _ways(straight: _Powers, shared: _Powers, room: Room, field: RoomField) -> Ways:
    links = (*straight.links, *shared.links)
    plain = {link.second_face: link for link in reversed(links) if link.kind == "through"}
    # Doors, slits and roundabout ways take the gain of the whole face.
    kept: list[Link] = []
    place: dict[str | int, int] = {}
    rows: list[int] = []
    sides: dict[Side, list[int]] = {}
    for index, link in enumerate(links):
        sides.setdefault((link.first, link.first_face), []).append(index)
        ruling = link.second_face if link.second_face in plain else index
        if ruling not in place:
            place[ruling] = len(kept)
            kept.append(plain.get(link.second_face, link))
        rows.append(place[ruling])
    gains = [_gain_at(field, face_on_room(room, each.second_face, max(each.area, _LEAST_FACE)), each) for each in kept]
    power = np.concatenate([straight.power, shared.power])
    return Ways(
        links,
        {side: tuple(found) for side, found in sides.items()},
        power + _rows([each.gain for each in gains])[rows],
        np.concatenate([straight.uncertainty, shared.uncertainty]),
        _rows([each.spread for each in gains])[rows],
    )


def _rows(values: list[Bands]) -> FloatArray:
    return np.array(values, dtype=np.float64).reshape(len(values), N_BANDS)


@lru_cache(maxsize=2048)
def _gain_at(field: RoomField, face: FaceOnRoom, plain: Link) -> Gain:
    # To 1 dB: the room's push on a wall hardly depends on its reduction, and equal walls share one computation.
    return gain_of(field, face, bands(np.round(np.maximum(np.asarray(plain.reduction), 0.0))))


def arrivals_over(ways: Ways, levels: Mapping[Side, Bands]) -> Arrivals:
    """Level that each way makes, for given levels (those that go with R) on the far sides; other ways are silent."""
    return _arrivals(ways, tuple((side, level) for side, level in levels.items()))


@lru_cache(maxsize=1024)
def _arrivals(ways: Ways, levels: tuple[tuple[Side, Bands], ...]) -> Arrivals:
    met = [(index, row) for row, (side, _) in enumerate(levels) for index in ways.sides.get(side, ())]
    met.sort()
    kept, row_of = [index for index, _ in met], [row for _, row in met]
    outside = _rows([level for _, level in levels])
    return Arrivals(tuple(ways.links[index] for index in kept), outside[row_of] + ways.gain[kept],
                    ways.uncertainty[kept], ways.spread[kept])  # fmt: skip


@lru_cache(maxsize=1024)
def doubted(found: Arrivals, room: str, doubts: tuple[tuple[str, Bands], ...]) -> Arrivals:
    """Arrivals in a room with the uncertainty of the levels in the other rooms that some of them come from."""
    extra = dict(doubts)
    far = [link.first if link.second == room else link.second for link in found.links]
    added = _rows([extra.get(name, bands(0.0)) for name in far])
    if not found.links:
        return found
    return Arrivals(found.links, found.levels, np.hypot(found.uncertainty, added), found.spread)


@lru_cache(maxsize=2048)
def sum_levels(found: Arrivals) -> Bands:
    """Energy sum over ways."""
    return bands(energy_sum_level(found.levels, axis=0)) if found.links else bands(SILENCE)


@lru_cache(maxsize=1024)
def spread_of(found: Arrivals) -> Bands:
    """Spread over places of the sum of all ways: that of the ways, weighted by energy."""
    if not found.links:
        return bands(0.0)
    weights = 10.0 ** ((found.levels - np.max(found.levels, axis=0)) / 10.0)
    return bands(np.sum(weights * found.spread, axis=0) / np.sum(weights, axis=0))


def whole_face(room: Room, face: str) -> FaceOnRoom:
    """All of one face of a room."""
    surface = room.surface(face)
    return face_on_room(room, face, surface.area if surface is not None else room.section.area)


def faces_of(room: Room) -> tuple[str, ...]:
    """Faces of a room, both ends always among them."""
    return tuple(dict.fromkeys([*(surface.face for surface in room.surfaces), "front", "rear"]))


@lru_cache(maxsize=1024)
def at_faces(room: Room, field: RoomField, level: Bands) -> tuple[tuple[Side, Bands], ...]:
    """Level that goes with R at each face of a room in which the space-mean level is given.

    The walls of a tiny room see more than the mean at low frequencies; the difference is that of a source anywhere
    in it.
    """
    found = []
    for face in faces_of(room):
        gain = source_of(field, None, whole_face(room, face))
        found.append(
            ((room.name, face), bands(np.asarray(level) + np.asarray(gain.at_face) - np.asarray(gain.space_mean)))
        )
    return tuple(found)


@lru_cache(maxsize=256)
def source_levels(room: Room, field: RoomField, power: Bands) -> tuple[Bands, tuple[tuple[Side, Bands], ...]]:
    """Space-mean level, and level at each face, for a source anywhere in a room."""
    level = bands(np.asarray(power) + np.asarray(source_of(field, None, None).space_mean))
    at_face = tuple(
        (
            (room.name, face),
            bands(np.asarray(power) + np.asarray(source_of(field, None, whole_face(room, face)).at_face)),
        )
        for face in faces_of(room)
    )
    return level, at_face


def source_spread(field: RoomField) -> Bands:
    """Spread over places in a room of the level that a source in it makes: as much for where the source stands."""
    return source_of(field, None, None).spread


def across(source: RoomField, target: RoomField, first: Room, second: Room, wall: Link) -> Bands:
    """Level in a room over the power level of a source anywhere in another, by the wall between them alone [dB]."""
    leaving = source_of(source, None, face_on_room(first, wall.first_face, wall.area)).at_face
    arriving = _gain_at(target, face_on_room(second, wall.second_face, max(wall.area, _LEAST_FACE)), wall).gain
    return bands(np.asarray(leaving) + np.asarray(arriving) - wall.reduction)
