"""Levels in the rooms: every way's power, what the room makes of it, share of each."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from hushwright.evaluation.absorption import face_on_room, room_field
from hushwright.evaluation.cab import cab_level
from hushwright.evaluation.faces import Setting
from hushwright.evaluation.flank import flanking_links, mount_link
from hushwright.evaluation.floor import Floating, settled
from hushwright.evaluation.gap import gap_links
from hushwright.evaluation.links import CAB, OUTDOORS, Link, bands, links_of
from hushwright.evaluation.outside import Outside
from hushwright.evaluation.results import Bands, PathLevel
from hushwright.model.build import Build, Room, StateOfUse
from hushwright.physics.acoustics.bands import energy_sum_level
from hushwright.physics.acoustics.room_field import path_gain, source_gain
from hushwright.physics.acoustics.rooms import FaceOnRoom, Gain, RoomField, SourceGain
from hushwright.physics.acoustics.weighting import A_WEIGHTING

_SHOWN = 60.0  # dB below the loudest way, ways are left out of lists
_LOWEST_GAIN_REDUCTION = 0.0

gain_of = lru_cache(maxsize=4096)(path_gain)
source_of = lru_cache(maxsize=1024)(source_gain)


@dataclass(frozen=True, slots=True)
class Standing:
    """A Build as it stands in one state, mounts loaded, with what all its sounds share: fields and roundabout ways."""

    build: Build
    state: StateOfUse
    setting: Setting
    fields: Mapping[str, RoomField]
    shared: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class Network:
    """The ways between all spaces, for the angles of one outdoor situation or for diffuse sound."""

    fields: Mapping[str, RoomField]
    links: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class Arrival:
    """Power that one way brings into a room, and the level it makes there."""

    link: Link
    levels: Bands
    uncertainty: Bands
    spread: Bands


def standing_in(build: Build, state: StateOfUse, setting: Setting, floating: Floating | None) -> Standing:
    """Fields and roundabout ways of a Build in one state."""
    loaded = settled(build, floating)
    shared = [*gap_links(loaded, state, setting), *flanking_links(loaded, setting)]
    mounts = mount_link(loaded, setting, floating)
    if mounts is not None:
        shared.append(mounts)
    fields = {room.name: room_field(room, state, setting) for room in loaded.rooms}
    return Standing(loaded, state, setting, fields, tuple(shared))


def network_of(standing: Standing, outside: Outside | None) -> Network:
    """All ways, with the angles of one outdoor situation or for diffuse sound."""
    incidence = outside.incidence if outside is not None else None
    straight = [
        link
        for room in standing.build.rooms
        for link in links_of(standing.build, room, standing.state, standing.setting, incidence)
    ]
    return Network(standing.fields, (*straight, *standing.shared))


def arrivals(network: Network, room: Room, level_outside: Mapping[tuple[str, str], Bands]) -> list[Arrival]:
    """Level that each way makes in a room, for given levels (those that go with R) on the far sides.

    ``level_outside`` has a key (space, face) for every side that sounds; other ways are silent.
    """
    found = []
    for link in network.links:
        walked = link if link.second == room.name else link.reversed() if link.first == room.name else None
        if walked is None:
            continue
        level = level_outside.get((walked.first, walked.first_face))
        if level is None:
            continue
        found.append(_arrival(network, room, walked, level))
    return found


def _arrival(network: Network, room: Room, link: Link, level: Bands) -> Arrival:
    power = np.asarray(level) - 6.0 + 10.0 * np.log10(np.maximum(np.asarray(link.through), 1e-14))
    gain = _gain(network, room, link)
    return Arrival(link, bands(power + np.asarray(gain.gain)), link.uncertainty, gain.spread)


def _gain(network: Network, room: Room, link: Link) -> Gain:
    """Room gain at the link's face; doors, slits and roundabout ways take that of the whole face."""
    plain = next(
        (each for each in network.links
         if each.kind == "through" and room.name in (each.first, each.second)
         and link.second_face == (each.second_face if each.second == room.name else each.first_face)),
        link,
    )  # fmt: skip
    face = face_on_room(room, link.second_face, max(plain.area, 0.01))
    return gain_of(network.fields[room.name], face, _rounded(plain.reduction))


def _rounded(reduction: Bands) -> Bands:
    """Reduction to 1 dB: the room's push on a wall hardly depends on it, and equal walls share one computation."""
    return bands(np.round(np.maximum(np.asarray(reduction), _LOWEST_GAIN_REDUCTION)))


def sum_levels(found: Sequence[Arrival]) -> Bands:
    """Energy sum over ways."""
    if not found:
        return bands(-200.0)
    return bands(energy_sum_level(np.array([each.levels for each in found]), axis=0))


def at_faces(network: Network, room: Room, level: Bands) -> dict[tuple[str, str], Bands]:
    """Level that goes with R at each face of a room in which the space-mean level is given.

    The walls of a tiny room see more than the mean at low frequencies; the difference is that of a source anywhere in it.
    """
    found = {}
    for face in {surface.face for surface in room.surfaces} | {"front", "rear"}:
        rise = _rise(network.fields[room.name], _whole_face(room, face))
        found[(room.name, face)] = bands(np.asarray(level) + np.asarray(rise))
    return found


def _whole_face(room: Room, face: str) -> FaceOnRoom:
    surface = room.surface(face)
    return face_on_room(room, face, surface.area if surface is not None else room.section.area)


@lru_cache(maxsize=1024)
def _rise(field: RoomField, face: FaceOnRoom) -> Bands:
    gain = source_of(field, None, face)
    return bands(np.asarray(gain.at_face) - np.asarray(gain.space_mean))


def source_levels(network: Network, room: Room, power: Bands) -> tuple[Bands, dict[tuple[str, str], Bands], Bands]:
    """Space-mean level, level at each face and spread over places, for a source anywhere in a room."""
    field = network.fields[room.name]
    mean = source_of(field, None, None)
    level = bands(np.asarray(power) + np.asarray(mean.space_mean))
    at_face = {}
    for face in {surface.face for surface in room.surfaces} | {"front", "rear"}:
        gain: SourceGain = source_of(field, None, _whole_face(room, face))
        at_face[(room.name, face)] = bands(np.asarray(power) + np.asarray(gain.at_face))
    return level, at_face, mean.spread


def outside_levels(build: Build, outside: Outside, setting: Setting) -> dict[tuple[str, str], Bands]:
    """Levels on the outer sides: each face of the vehicle, and the cab as a room of glass."""
    levels: dict[tuple[str, str], Bands] = {(OUTDOORS, face): level for face, level in outside.level.items()}
    cab = cab_level(build, outside, setting)
    for face in ("front", "left", "right", "ceiling", "floor"):
        levels[(CAB, face)] = cab
    return levels


def received(network: Network, build: Build, target: Room, levels: dict[tuple[str, str], Bands]) -> list[Arrival]:
    """Level of each way in a room, sound from outside passing the other rooms first."""
    known = dict(levels)
    for room in build.rooms:
        if room is target:
            continue
        inside = sum_levels(arrivals(network, room, levels))
        known |= at_faces(network, room, inside)
    return arrivals(network, target, known)


def path_levels(found: Sequence[Arrival]) -> tuple[PathLevel, ...]:
    """Ways by name with their A-weighted share, loudest first; several ways of one name are one."""
    by_name: dict[str, list[Arrival]] = {}
    for each in found:
        by_name.setdefault(_shown_name(each.link), []).append(each)
    merged = [_merged(name, group) for name, group in by_name.items()]
    total = sum(10.0 ** (each.level_a / 10.0) for each in merged)
    shown = [
        PathLevel(each.name, each.levels, each.uncertainty, each.level_a, 10.0 ** (each.level_a / 10.0) / total,
                  each.place, each.note)
        for each in merged
    ]  # fmt: skip
    shown.sort(key=lambda each: -each.level_a)
    return tuple(each for each in shown if each.level_a > shown[0].level_a - _SHOWN)


def _shown_name(link: Link) -> str:
    return "round the gap" if link.kind == "gap" else link.name


def _merged(name: str, group: list[Arrival]) -> PathLevel:
    levels = sum_levels(group)
    weights = 10.0 ** ((np.array([each.levels for each in group]) - np.asarray(levels)) / 10.0)
    squared = sum((weights[index] * np.asarray(each.uncertainty)) ** 2 for index, each in enumerate(group))
    level_a = float(energy_sum_level(np.asarray(levels) + A_WEIGHTING))
    first = group[0].link
    return PathLevel(name, levels, bands(np.sqrt(squared)), level_a, 0.0, first.place, first.note)


def combined_uncertainty(paths: Sequence[PathLevel], spread: Bands, allowance: float) -> Bands:
    """Standard uncertainty of the level per band: ways apart, vehicle and places on top."""
    total = np.sum(10.0 ** (np.array([each.levels for each in paths]) / 10.0), axis=0)
    squared = np.zeros(27)
    for each in paths:
        share = 10.0 ** (np.asarray(each.levels) / 10.0) / total
        squared += (share * np.asarray(each.uncertainty)) ** 2
    return bands(np.sqrt(squared + np.asarray(spread) ** 2 + allowance**2))


def weighted_uncertainty(
    paths: Sequence[PathLevel], spread: Bands, allowance: float, weighting: np.ndarray
) -> float:
    """Standard uncertainty of a weighted sum of bands: errors of one way go together over its bands."""
    energies = [10.0 ** ((np.asarray(each.levels) + weighting) / 10.0) for each in paths]
    total = float(np.sum(energies))
    if total <= 0.0:
        return allowance
    shared = [float(np.sum(energy * np.asarray(each.uncertainty))) / total
              for energy, each in zip(energies, paths, strict=True)]  # fmt: skip
    weights = np.sum(energies, axis=0) / total
    places = float(np.sqrt(np.sum((weights * np.asarray(spread)) ** 2)))
    return float(np.sqrt(sum(value**2 for value in shared) + places**2 + allowance**2))


def spread_of(found: Sequence[Arrival]) -> Bands:
    """Spread over places of the sum of all ways: that of the ways, weighted by energy."""
    if not found:
        return bands(0.0)
    levels = np.array([each.levels for each in found])
    weights = 10.0 ** ((levels - np.max(levels, axis=0)) / 10.0)
    weights /= np.sum(weights, axis=0)
    return bands(np.sum(weights * np.array([each.spread for each in found]), axis=0))
