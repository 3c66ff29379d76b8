"""Gear as sound: what dimmers, drivers, chargers, relays and locks make in a room, from their sound power."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from hushwright.evaluation.results import SILENCE, Bands, Quantity
from hushwright.evaluation.results.signals import GearInState, GearLevel
from hushwright.evaluation.sound.links import Link, bands
from hushwright.evaluation.sound.sound import Network, Standing
from hushwright.evaluation.sound.ways import Arrivals, Ways, arrivals_over, at_faces, source_levels, sum_levels
from hushwright.model.build import Room
from hushwright.model.signals_in_place import GearInPlace
from hushwright.physics.acoustics.bands import FREQUENCIES, N_BANDS
from hushwright.physics.acoustics.rooms import RoomField
from hushwright.physics.acoustics.weighting import A_WEIGHTING, a_weighted_level

GEAR = "gear"
"""Kind of links that stand for gear."""

_POWER = 3.0
"""dB, standard uncertainty of the sound power of gear and of the level over it at any place; common practice, no
source."""

_HEARD = (20.0, 20_000.0)
"""Hz, ends of hearing."""

_BROAD = (FREQUENCIES > 490.0) & (FREQUENCIES < 4100.0)
"""Bands over which the sound of gear without a known tone is spread, A-weighted alike: 500 Hz to 4 kHz."""


@lru_cache(maxsize=256)
def power_bands(gear: GearInPlace) -> Bands | None:
    """Sound power level by band [dB]: in the band of its tone, else spread; `None` where nothing is heard or known."""
    if gear.sound_power is None or inaudible(gear):
        return None
    levels = np.full(N_BANDS, SILENCE)
    if gear.frequency is None:
        levels[_BROAD] = gear.sound_power - 10.0 * np.log10(float(_BROAD.sum()))
    else:
        # Tones beyond the bands in which everything is computed count in the last one.
        levels[int(np.argmin(np.abs(np.log(FREQUENCIES / gear.frequency))))] = gear.sound_power
    return bands(np.maximum(levels - A_WEIGHTING, SILENCE))


def inaudible(gear: GearInPlace) -> bool:
    """Whether its tone lies outside hearing, or it is a dimmer that does not pulse."""
    if gear.frequency is None:
        return False
    return gear.frequency > _HEARD[1] or gear.frequency < _HEARD[0]


_Heard = tuple[tuple[GearInPlace, Bands | None], ...]
"""Gear that is on, each with its level in a room; none where it makes none that is known."""


def _heard(standing: Standing, network: Network, target: Room) -> _Heard:
    """All gear that is on in a state, with what it makes in a room."""
    signals = standing.build.signals
    if signals is None:
        return ()
    on = tuple(each for each in signals.gear if each.on_in(standing.state.name))
    if not on:
        return ()
    ends = tuple((room, standing.fields[room.name]) for room in standing.build.rooms)
    return _levels(on, ends, network.into(target), target.name)


@lru_cache(maxsize=256)
def _levels(gear: tuple[GearInPlace, ...], ends: tuple[tuple[Room, RoomField], ...], ways: Ways, target: str) -> _Heard:
    rooms = {room.name: (room, field) for room, field in ends}
    return tuple((each, _level(each, *rooms[each.room], ways, target)) for each in gear)


def _level(gear: GearInPlace, room: Room, field: RoomField, ways: Ways, target: str) -> Bands | None:
    """Level of one piece of gear in a room, through the walls where it stands in another."""
    power = power_bands(gear)
    if power is None:
        return None
    there, _ = source_levels(room, field, power)
    if room.name == target:
        return there
    return sum_levels(arrivals_over(ways, dict(at_faces(room, field, there))))


def gear_arrivals(standing: Standing, network: Network, target: Room) -> Arrivals | None:
    """Steady sound of gear in a room, a way for each piece.

    Parameters
    ----------
    standing : Standing
        Build in one state.
    network : Network
        Its ways for diffuse sound.
    target : Room
        Where it is heard.

    Returns
    -------
    Arrivals or None
        `None` where nothing sounds.
    """
    return _joining(_heard(standing, network, target), target.name)


@lru_cache(maxsize=256)
def _joining(heard: _Heard, target: str) -> Arrivals | None:
    """The same object for the same gear, so that the background it joins is found again."""
    sounding = [(each, level) for each, level in heard if each.steady and level is not None]
    if not sounding:
        return None
    rows = np.array([level for _, level in sounding], dtype=np.float64).reshape(len(sounding), N_BANDS)
    links = tuple(_link(each, target) for each, _ in sounding)
    return Arrivals(links, rows, np.full_like(rows, _POWER), np.zeros_like(rows))


def _link(gear: GearInPlace, target: str) -> Link:
    name = gear.name.replace("_", " ")
    return Link(name, name, "", target, "", 1.0, bands(1.0), bands(_POWER), gear.place, GEAR)


def gear_sound_in(standing: Standing, network: Network, quantities: dict[str, Quantity]) -> GearInState | None:
    """What all gear makes in the quiet room in one state; `None` where none is named.

    Parameters
    ----------
    standing : Standing
        Build in one state.
    network : Network
        Its ways for diffuse sound.
    quantities : dict
        Takes up what the verdict judges.

    Returns
    -------
    GearInState or None
        Levels by piece.
    """
    target = standing.build.room_for("quiet")
    if target is None:
        return None
    sources = []
    for each, level in _heard(standing, network, target):
        heard = SILENCE if inaudible(each) and level is None else None if level is None else a_weighted_level(level)
        sources.append(GearLevel(each.name, each.what, each.room, heard, each.steady, each.place))
    if not sources:
        return None
    known = [(each.level, each.steady) for each in sources if each.level is not None]
    steady = 10.0 * float(np.log10(sum((10.0 ** (level / 10.0) for level, on in known if on), 1e-20)))
    click = max((level for level, on in known if not on), default=SILENCE)
    unknown = tuple(
        f"the sound power of {each.name.replace('_', ' ')} is not known" for each in sources if each.level is None
    )
    quantities[f"gear/{standing.state.name}"] = Quantity(max(steady, click, 0.0), "level_a", _POWER, validity=unknown)
    return GearInState(standing.state.name, steady, click, tuple(sources))
