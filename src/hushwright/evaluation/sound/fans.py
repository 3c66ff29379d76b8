"""Fans and moving air as sound: what leaves the ends of runs, what it makes in rooms, what passes runs."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from hushwright.evaluation.air.flow import Flows, flows_in
from hushwright.evaluation.air.pieces import fan_sound, sound_parts
from hushwright.evaluation.guard import at
from hushwright.evaluation.results import REPORTED, SILENCE, Bands
from hushwright.evaluation.results.air import TerminalSound
from hushwright.evaluation.sound.links import Link, bands
from hushwright.evaluation.sound.sound import Network, Standing
from hushwright.evaluation.sound.ways import Arrivals, source_levels, sum_levels
from hushwright.model.air_in_place import FanInPlace, RunInPlace
from hushwright.model.build import Room
from hushwright.physics.acoustics.bands import N_BANDS
from hushwright.physics.acoustics.duct_bands import DuctPower, summed_power
from hushwright.physics.acoustics.duct_flow_noise import silence
from hushwright.physics.acoustics.duct_path import arrival
from hushwright.physics.acoustics.rooms import RoomField
from hushwright.physics.acoustics.weighting import a_weighted_level
from hushwright.physics.air import Air

_ROOM = 2.0
"""dB, standard uncertainty of the level over the power of a terminal at any place; common practice, no source."""

_LEAST_FLOW = 1e-6
"""m³/s, flow that makes no sound."""

FAN, FLOW = "fan", "flow"
"""Kinds of links that stand for sound made in runs."""


@lru_cache(maxsize=256)
def end_sound(run: RunInPlace, flow: float, pressure: float, air: Air, *, intake: bool) -> tuple[DuctPower, DuctPower]:
    """Sound power that leaves one end of a run: that of its fans, and that of the air.

    Parameters
    ----------
    run : RunInPlace
        The run.
    flow : float
        Air in it [m³/s].
    pressure : float
        What its fans add together [Pa].
    air : Air
        Air in it.
    intake : bool
        The end at which air goes in, against the flow; else the outlet.

    Returns
    -------
    tuple of DuctPower
        Fans, moving air.
    """
    with at(run.place):
        moving = arrival(sound_parts(run, air, against=intake), silence(), abs(flow)).flow_part
        found = []
        for index, piece in enumerate(run.pieces):
            if isinstance(piece.what, FanInPlace):
                source = fan_sound(piece, abs(flow), pressure / len(run.fans))
                parts = sound_parts(run, air, against=intake, from_piece=index)
                found.append(arrival(parts, source, 0.0).source_part)
        return (summed_power(found) if found else silence("no fan"), moving)


def _finite(power: DuctPower) -> Bands:
    return bands(np.maximum(power.array(), SILENCE))


def terminals_in(runs: tuple[RunInPlace, ...], flows: Flows, state: str, room: str) -> list[tuple[RunInPlace, bool]]:
    """Ends of runs in a room from which sound comes in a state, each with whether it is the intake."""
    found = []
    for run in runs:
        sounding = abs(flows.flow_of(run.name)) > _LEAST_FLOW or (run.fans and run.open_in(state))
        if sounding and run.gives_to == room:
            found.append((run, False))
        if sounding and run.takes_from == room:
            found.append((run, True))
    return found


def _pressure(flows: Flows, run: RunInPlace) -> float:
    return max(next((each.fan_pressure for each in flows.runs if each.run == run.name), 0.0), 0.0)


@lru_cache(maxsize=256)
def _own(
    runs: tuple[RunInPlace, ...], flows: Flows, state: str, room: Room, field: RoomField, air: Air
) -> tuple[Arrivals, tuple[TerminalSound, ...]]:
    """Levels that the ends of runs in a room make in it."""
    links: list[Link] = []
    levels, ends = [], []
    for run, intake in terminals_in(runs, flows, state, room.name):
        fan, moving = end_sound(run, flows.flow_of(run.name), _pressure(flows, run), air, intake=intake)
        ends.append(_told(run, room, fan, moving, intake=intake))
        spoken = run.name.replace("_", " ")
        for kind, name, power in ((FAN, f"fan of {spoken}", fan), (FLOW, f"air in {spoken}", moving)):
            if np.any(np.isfinite(power.array())):
                mean, _ = source_levels(room, field, _finite(power))
                unsure = bands(np.hypot(power.standard_uncertainty, _ROOM))
                area = run.ends[0 if intake else 1].shape.area
                links.append(Link(name, spoken, "", room.name, "", area, bands(1.0), unsure, run.place, kind))
                levels.append(mean)
    rows = np.array(levels, dtype=np.float64).reshape(len(links), N_BANDS)
    uncertainty = np.array([link.uncertainty for link in links], dtype=np.float64).reshape(len(links), N_BANDS)
    return Arrivals(tuple(links), rows, uncertainty, np.zeros_like(rows)), tuple(ends)


def _told(run: RunInPlace, room: Room, fan: DuctPower, moving: DuctPower, *, intake: bool) -> TerminalSound:
    notes = tuple(REPORTED + note for note in dict.fromkeys((*fan.notes, *moving.notes)))
    return TerminalSound(run.name, room.name, "intake" if intake else "outlet", _finite(fan), _finite(moving),
                         a_weighted_level(_sum(fan, moving)), notes)  # fmt: skip


def _sum(*powers: DuctPower) -> Bands:
    return bands(np.maximum(summed_power(list(powers)).array(), SILENCE))


@lru_cache(maxsize=128)
def fan_arrivals(standing: Standing, network: Network, target: Room) -> tuple[Arrivals, tuple[TerminalSound, ...]]:
    """Sound of fans and moving air in a room: from its own terminals, and from the other rooms through the walls.

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
    tuple of Arrivals and TerminalSound
        A row for each end and origin, and one for each other room; the ends of all rooms.
    """
    flows = flows_in(standing.build, standing.state)
    runs, state, air = standing.build.air.runs, standing.state.name, standing.setting.air
    found, ends = _own(runs, flows, state, target, standing.fields[target.name], air)
    for other in standing.build.rooms:
        if other.name == target.name:
            continue
        there, more = _own(runs, flows, state, other, standing.fields[other.name], air)
        ends += more
        if there.links:
            passed = network.arrivals(target, network.levels_at_faces(other, sum_levels(there)))
            found = joined(found, _from_room(other, target, there, passed))
    return found, ends


@lru_cache(maxsize=256)
def _from_room(other: Room, target: Room, there: Arrivals, passed: Arrivals) -> Arrivals:
    """All that fans make in another room, as one way."""
    made = sum_levels(passed)
    energy = 10.0 ** (passed.levels / 10.0)
    own = np.sqrt(np.sum(np.square(energy * passed.uncertainty), axis=0)) / np.maximum(energy.sum(axis=0), 1e-30)
    inside = 10.0 ** (there.levels / 10.0)
    source = np.sqrt(np.sum(np.square(inside * there.uncertainty), axis=0)) / inside.sum(axis=0)
    spoken = other.name.replace("_", " ")
    link = Link(f"fans in {spoken}", other.name, "", target.name, "", 1.0, bands(1.0), bands(0.0), other.place, FAN)
    return Arrivals((link,), np.array([made]), np.array([np.hypot(own, source)]), np.zeros((1, N_BANDS)))


@lru_cache(maxsize=512)
def joined(first: Arrivals, second: Arrivals) -> Arrivals:
    """Ways of both."""
    return Arrivals(
        (*first.links, *second.links),
        np.concatenate([first.levels, second.levels]),
        np.concatenate([first.uncertainty, second.uncertainty]),
        np.concatenate([first.spread, second.spread]),
    )
