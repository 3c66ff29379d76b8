"""Gear as sound: what dimmers, drivers, chargers, relays and locks make in a room, from their sound power."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from hushwright.evaluation.links import Link, bands
from hushwright.evaluation.results import SILENCE, Bands, Quantity
from hushwright.evaluation.results_signals import GearInState, GearLevel
from hushwright.evaluation.sound import Network, Standing
from hushwright.evaluation.ways import Arrivals, source_levels, sum_levels
from hushwright.model.build import Room
from hushwright.model.signals_in_place import GearInPlace
from hushwright.physics.acoustics.bands import FREQUENCIES, N_BANDS
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


def _on(standing: Standing, room: str, *, steady: bool | None = None) -> tuple[GearInPlace, ...]:
    signals = standing.build.signals
    if signals is None:
        return ()
    return tuple(
        each
        for each in signals.gear
        if each.room == room and each.on_in(standing.state.name) and steady in (None, each.steady)
    )


def gear_arrivals(standing: Standing, network: Network, target: Room) -> Arrivals | None:
    """Steady sound of gear in a room: each piece of its own, and one way for each other room.

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
    links, levels = [], []
    for room in standing.build.rooms:
        for each in _on(standing, room.name, steady=True):
            level = _level(standing, network, each, room, target)
            if level is not None:
                links.append(_link(each, target))
                levels.append(level)
    if not links:
        return None
    rows = np.array(levels, dtype=np.float64).reshape(len(links), N_BANDS)
    return Arrivals(tuple(links), rows, np.full_like(rows, _POWER), np.zeros_like(rows))


def _link(gear: GearInPlace, target: Room) -> Link:
    name = gear.name.replace("_", " ")
    return Link(name, name, "", target.name, "", 1.0, bands(1.0), bands(_POWER), gear.place, GEAR)


def _level(standing: Standing, network: Network, gear: GearInPlace, room: Room, target: Room) -> Bands | None:
    """Level of one piece of gear in a room, through the walls where it stands in another."""
    power = power_bands(gear)
    if power is None:
        return None
    there, _ = source_levels(room, standing.fields[room.name], power)
    if room.name == target.name:
        return there
    return sum_levels(network.arrivals(target, network.levels_at_faces(room, there)))


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
    for room in standing.build.rooms:
        for each in _on(standing, room.name):
            level = _level(standing, network, each, room, target)
            heard = SILENCE if inaudible(each) and level is None else None if level is None else a_weighted_level(level)
            sources.append(GearLevel(each.name, each.what, room.name, heard, each.steady, each.place))
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
