"""Levels in the rooms: every way's power, and what the rooms on its way make of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from hushwright.evaluation.results import Bands
from hushwright.evaluation.sound.absorption import room_field
from hushwright.evaluation.sound.cab import cab_level
from hushwright.evaluation.sound.faces import Setting
from hushwright.evaluation.sound.flank import flanking_links, mount_link
from hushwright.evaluation.sound.floor import Floating, settled
from hushwright.evaluation.sound.gap import gap_links
from hushwright.evaluation.sound.links import CAB, Link, links_of
from hushwright.evaluation.sound.outside import Outside
from hushwright.evaluation.sound.passages import OUTDOORS, open_area
from hushwright.evaluation.sound.runs import run_links
from hushwright.evaluation.sound.uncertainty import combined_uncertainty, path_levels
from hushwright.evaluation.sound.ways import (
    Arrivals,
    Bundle,
    Side,
    Ways,
    arrivals_over,
    at_faces,
    bundled,
    doubted,
    spread_of,
    sum_levels,
    ways_into,
)
from hushwright.model.build import Build, Room, StateOfUse
from hushwright.physics.acoustics.rooms import RoomField

_FACES_OF_CAB = ("front", "left", "right", "ceiling", "floor")


@dataclass(frozen=True, slots=True, eq=False)
class Standing:
    """A Build as it stands in one state, mounts loaded, with what all its sounds share: fields and roundabout ways."""

    build: Build
    state: StateOfUse
    setting: Setting
    fields: Mapping[str, RoomField]
    shared: Bundle
    values_alone: bool = False  # a moved build is asked for values; how sure they are is that of the nominal one


@dataclass(frozen=True, slots=True, eq=False)
class Network:
    """The ways between all spaces, for the angles of one outdoor situation or for diffuse sound."""

    fields: Mapping[str, RoomField]
    straight: Bundle
    shared: Bundle
    values_alone: bool = False

    @property
    def links(self) -> tuple[Link, ...]:
        """All ways."""
        return (*self.straight, *self.shared)

    def into(self, room: Room) -> Ways:
        """Ways into a room."""
        return _into(self, room)

    def arrivals(self, room: Room, levels: Mapping[Side, Bands]) -> Arrivals:
        """Level that each way makes in a room, for given levels (those that go with R) on the far sides."""
        return arrivals_over(self.into(room), levels)

    def levels_at_faces(self, room: Room, level: Bands) -> dict[Side, Bands]:
        """Level that goes with R at each face of a room whose space-mean level is known."""
        return dict(at_faces(room, self.fields[room.name], level))


@lru_cache(maxsize=256)
def _into(network: Network, room: Room) -> Ways:
    return ways_into(network.straight, network.shared, room, network.fields[room.name])


def standing_in(
    build: Build, state: StateOfUse, setting: Setting, floating: Floating | None, *, values_alone: bool = False
) -> Standing:
    """Fields and roundabout ways of a Build in one state; ``values_alone`` leaves out how sure its levels are."""
    loaded = settled(build, floating)
    shared = [*gap_links(loaded, state, setting), *flanking_links(loaded, setting), *run_links(loaded, setting.air)]
    mounts = mount_link(loaded, setting, floating)
    if mounts is not None:
        shared.append(mounts)
    fields = {
        room.name: room_field(room, state.people_in(room.name), setting, open_area(loaded, room, state.open))
        for room in loaded.rooms
    }
    return Standing(loaded, state, setting, fields, bundled(tuple(shared)), values_alone)


@lru_cache(maxsize=64)
def network_of(standing: Standing, outside: Outside | None) -> Network:
    """All ways, with the angles of one outdoor situation or for diffuse sound."""
    incidence = outside.incidence if outside is not None else None
    straight = tuple(
        link
        for room in standing.build.rooms
        for link in links_of(standing.build, room, standing.state, standing.setting, incidence)
    )
    return Network(standing.fields, bundled(straight), standing.shared, standing.values_alone)


def outside_levels(build: Build, outside: Outside, setting: Setting) -> dict[Side, Bands]:
    """Levels on the outer sides: each face of the vehicle, and the cab as a room of glass."""
    levels: dict[Side, Bands] = {(OUTDOORS, face): level for face, level in outside.level.items()}
    cab = cab_level(build, outside, setting)
    for face in _FACES_OF_CAB:
        levels[(CAB, face)] = cab
    return levels


def received(
    network: Network,
    build: Build,
    target: Room,
    levels: Mapping[Side, Bands],
    *,
    own: Mapping[str, Mapping[Side, Bands]] | None = None,
    closed: tuple[str, ...] = (),
) -> Arrivals:
    """Level of each way in a room, sound from afar passing the other rooms first.

    Parameters
    ----------
    network : Network
        Ways between all spaces.
    build : Build
        Its rooms.
    target : Room
        Where it is heard.
    levels : mapping
        Levels that go with R on the far sides, the same for all rooms.
    own : mapping, optional
        Further levels that only the room of that name meets, such as rain on its roof.
    closed : tuple of str, optional
        Rooms that sound does not pass any more: the one it comes from, those it has passed.

    Returns
    -------
    Arrivals
        Ways of the sound, with the uncertainty of the levels in the rooms before.
    """
    known = {**levels, **(own or {}).get(target.name, {})}
    doubts = []
    passed = (*closed, target.name)
    for room in build.rooms:
        if room.name in passed:
            continue
        found = received(network, build, room, levels, own=own, closed=passed)
        if not found.links:
            continue
        known |= network.levels_at_faces(room, sum_levels(found))
        if not network.values_alone:
            doubts.append((room.name, combined_uncertainty(path_levels(found), spread_of(found), 0.0)))
    arrived = network.arrivals(target, known)
    return doubted(arrived, target.name, tuple(doubts)) if doubts else arrived
