"""Sound of a Build in all states in which takes are recorded, remembered by what it reads of the Build."""

from __future__ import annotations

from collections import deque
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache

from hushwright.evaluation.results import AtNeighbours, Background, BetweenRooms, Quantity
from hushwright.evaluation.results.air import FanSound
from hushwright.evaluation.results.safety import AlarmInRoom
from hushwright.evaluation.results.signals import GearInState
from hushwright.evaluation.sound.alarms import alarms_in, takes_in
from hushwright.evaluation.sound.between import at_neighbours, between_rooms
from hushwright.evaluation.sound.faces import Setting
from hushwright.evaluation.sound.fans_alone import fan_sound_in
from hushwright.evaluation.sound.floor import Floating
from hushwright.evaluation.sound.gear import gear_sound_in
from hushwright.evaluation.sound.played import PlayedInRoom, played_in
from hushwright.evaluation.sound.quiet import background
from hushwright.evaluation.sound.rain import rain_background
from hushwright.evaluation.sound.sound import Standing, network_of, standing_in
from hushwright.model.build import Build, hash_once
from hushwright.physics.air import Air

Floats = Mapping[str, Floating | None]
"""Floating room of each state, by its name."""


def setting_of(build: Build, air: Air) -> Setting:
    """What all faces of a Build share."""
    return _setting(air, build.brief.air_temperature, build.vehicle, build.library)


_setting = lru_cache(maxsize=64)(Setting)


@dataclass(frozen=True, slots=True, eq=False)
class Sounds:
    """Sound of all states in which takes are recorded; alarms also where people rest."""

    backgrounds: list[Background] = field(default_factory=list)
    between_rooms: list[BetweenRooms] = field(default_factory=list)
    neighbours: list[AtNeighbours] = field(default_factory=list)
    fans: list[FanSound] = field(default_factory=list)
    gear: list[GearInState] = field(default_factory=list)
    alarms: list[AlarmInRoom] = field(default_factory=list)
    played: list[PlayedInRoom] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class _Sounding:
    """All that sound reads of a Build and its floats: two that agree in it sound alike, whatever else differs."""

    build: Build = field(compare=False)
    floats: tuple[tuple[str, Floating | None], ...]
    read: tuple[object, ...]
    kept_hash: int = field(default=0, init=False, repr=False, compare=False)

    def __hash__(self) -> int:
        return hash_once(self)


HEARD_OF_BUILD = ("air", "gap_edges", "mounts", "openings", "rooms", "safety", "signals", "states", "tolerances",
                  "vehicle", "library")  # fmt: skip
HEARD_OF_BRIEF = ("air_temperature", "monitor", "neighbours", "rain", "shadow", "situations", "source", "source_level")
"""What sound reads of a Build and its brief; a test holds the code to it."""


@dataclass(frozen=True, slots=True, eq=False)
class Heard:
    """Sound of all states, with its quantities; neither is changed by who gets them."""

    sounding: _Sounding
    sounds: Sounds
    quantities: dict[str, Quantity]


def heard_of(build: Build, air: Air, floats: Floats, beside: Heard | None = None) -> Heard:
    """Sound of a build; of one with an input moved the values alone, and what is known where it sounds alike.

    Parameters
    ----------
    build : Build
        What is there, with shapes held where it is a moved one.
    air : Air
        In which it sounds.
    floats : dict
        Floating room of each state.
    beside : Heard, optional
        That of the nominal Build, where this one is it with an input moved.

    Returns
    -------
    Heard
        Not to be changed: others may have it as well.
    """
    sounding = _sounding(build, floats)
    if beside is not None:
        return beside if _alike(sounding, beside.sounding) else _heard(sounding, air, values_alone=True)
    found = _heard(sounding, air)
    if found not in _lately:
        _lately.append(found)
    return found


def is_remembered(build: Build, floats: Floats) -> bool:
    """Whether the sound of a build was worked out here not long ago, so that it costs nothing."""
    sounding = _sounding(build, floats)
    return any(_alike(sounding, each.sounding) for each in _lately)


_lately: deque[Heard] = deque(maxlen=16)


def _sounding(build: Build, floats: Floats) -> _Sounding:
    read = [getattr(build, name) for name in HEARD_OF_BUILD] + [getattr(build.brief, name) for name in HEARD_OF_BRIEF]
    return _Sounding(build, tuple(floats.items()), tuple(read))


def _alike(one: _Sounding, other: _Sounding) -> bool:
    return hash(one) == hash(other) and one == other


def forget() -> None:
    """Forget every sound: the next one is worked out anew."""
    _heard.cache_clear()


@lru_cache(maxsize=128)
def _heard(sounding: _Sounding, air: Air, *, values_alone: bool = False) -> Heard:
    quantities: dict[str, Quantity] = {}
    build, floats = sounding.build, dict(sounding.floats)
    return Heard(sounding, _sounds_of(build, air, floats, quantities, values_alone=values_alone), quantities)


def _sounds_of(
    build: Build, air: Air, floats: dict[str, Floating | None], quantities: dict[str, Quantity], *, values_alone: bool
) -> Sounds:
    found = Sounds()
    setting = setting_of(build, air)
    for state in build.states:
        if not takes_in(build, state):
            if any(state.rest_in(room.name) for room in build.rooms):  # alarms have to wake them
                standing = standing_in(build, state, setting, floats[state.name], values_alone=values_alone)
                found.alarms.extend(alarms_in(standing, network_of(standing, None), [], None))
            continue
        standing = standing_in(build, state, setting, floats[state.name], values_alone=values_alone)
        backgrounds = _backgrounds(standing, quantities)
        found.backgrounds.extend(backgrounds)
        diffuse = network_of(standing, None)
        fans = fan_sound_in(standing, diffuse, backgrounds, quantities)
        if fans is not None:
            found.fans.append(fans)
        gear = gear_sound_in(standing, diffuse, quantities)
        if gear is not None:
            found.gear.append(gear)
        played = played_in(standing, diffuse)
        found.played.extend([played] if played is not None else [])
        rooms = between_rooms(standing, diffuse)
        if rooms is not None:
            found.between_rooms.append(rooms[0])
            quantities[f"rooms/{state.name}"] = rooms[1]
        found.alarms.extend(alarms_in(standing, diffuse, backgrounds, None if rooms is None else rooms[0]))
        outward = at_neighbours(standing, diffuse)
        if outward is not None:
            found.neighbours.append(outward[0])
            quantities[f"neighbours/{state.name}"] = outward[1]
    return found


def _backgrounds(standing: Standing, quantities: dict[str, Quantity]) -> list[Background]:
    """Every situation outside, and rain."""
    quiet = standing.build.room_for("quiet")
    assert quiet is not None
    found = [background(standing, situation, quiet) for situation in standing.build.brief.situations]
    rain = rain_background(standing, network_of(standing, None), quiet)
    if rain is not None:
        found.append(rain)
    for result, quantity in found:
        quantities[f"background/{result.key}"] = quantity
    return [result for result, _ in found]
