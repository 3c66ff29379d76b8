"""From the quiet room to the control room, and to the neighbours."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from hushwright.evaluation.results import AtNeighbours, Bands, BetweenRooms, Quantity
from hushwright.evaluation.sound.background import vehicle_allowance
from hushwright.evaluation.sound.links import NEVER, Link, bands
from hushwright.evaluation.sound.outside import sound_power_of, thirds_of
from hushwright.evaluation.sound.passages import OUTDOORS
from hushwright.evaluation.sound.sound import Network, Standing, received
from hushwright.evaluation.sound.uncertainty import (
    combined_uncertainty,
    octave_weighting,
    path_levels,
    weighted_uncertainty,
)
from hushwright.evaluation.sound.ways import (
    Arrivals,
    Side,
    across,
    doubted,
    source_levels,
    source_spread,
    spread_of,
    sum_levels,
)
from hushwright.library.records import Limit
from hushwright.model.build import Build, Room
from hushwright.physics.acoustics.bands import FREQUENCIES, N_BANDS, OCTAVE_BANDS, third_to_octave_levels
from hushwright.physics.acoustics.level_differences import standardized_level_difference
from hushwright.physics.acoustics.outdoors import level_at_distance
from hushwright.physics.acoustics.ratings import weighted_sound_reduction_index
from hushwright.physics.acoustics.rooms import reverberation_times
from hushwright.physics.acoustics.spectra import spectrum_with_level
from hushwright.physics.acoustics.weighting import A_WEIGHTING, a_weighted_level

_JUDGED = (63.0, 125.0, 250.0, 500.0, 1000.0, 2000.0, 4000.0)
"""Hz, octaves in which direct sound is held against the monitor level; common practice, no source."""

_OPPOSITE = {"front": "rear", "rear": "front", "left": "right", "right": "left"}
_UNDERSIDE = ("floor", "wheel_box_left", "wheel_box_right")

_OUTDOOR_UNCERTAINTY = 3.0
"""dB, ground, weather and reflections on the way; common practice, no source."""

_DIFFUSE_TO_INCIDENT = 6.0
"""dB between level and 10 lg of the incident power per area, as in `ways`."""

_NEIGHBOUR_NOTES = ("hard level ground, no screens, no other façades",)


def source_uncertainty(build: Build) -> float:
    """Standard uncertainty of the source in the quiet room [dB]; a level in the brief is a condition."""
    return 0.0 if build.brief.source_level is not None else build.brief.source.standard_uncertainty


def between_rooms(standing: Standing, network: Network) -> tuple[BetweenRooms, Quantity] | None:
    """Direct sound of the quiet room in the control room against the monitor level, octave by octave.

    Parameters
    ----------
    standing : Standing
        Build in one state.
    network : Network
        Its ways for diffuse sound.

    Returns
    -------
    tuple of BetweenRooms and Quantity, or None
        `None` without both rooms or a monitor level.
    """
    build, state = standing.build, standing.state
    quiet, control = build.room_for("quiet"), build.room_for("control")
    if quiet is None or control is None or build.brief.monitor is None:
        return None
    power = sound_power_of(build.brief.source, build.brief.source_level)
    source, at_face = source_levels(quiet, network.fields[quiet.name], power)
    found = received(network, build, control, dict(at_face), closed=(quiet.name,))
    if not found.links:
        return None
    level, spectrum, _, _ = build.brief.monitor
    monitor = spectrum_with_level(thirds_of(spectrum), level).levels
    if standing.values_alone:
        return _margin_alone(state.name, source, monitor, sum_levels(found))
    allowance = float(np.hypot(vehicle_allowance(build), source_uncertainty(build)))
    places = np.hypot(source_spread(network.fields[quiet.name]), _one_way_only(network, quiet, control))
    return _against_monitor(state.name, source, monitor, found, bands(places), allowance,
                            bands(reverberation_times(network.fields[control.name])))  # fmt: skip


def _one_way_only(network: Network, quiet: Room, control: Room) -> NDArray[np.float64]:
    """Standard uncertainty for what the wall between passes one way and not the other [dB].

    Sources and ears of two rooms may change places in nature. The modal sums of the room of the source and of that of
    the ear are set up apart, so the computed levels differ in the bass; the truth is taken half a difference from each.
    """
    wall = next((link for link in network.straight if link.kind == "through" and
                 {link.first, link.second} == {quiet.name, control.name}), None)  # fmt: skip
    if wall is None:
        return np.zeros(N_BANDS)
    inward = wall if wall.second == quiet.name else wall.reversed()
    there = across(network.fields[control.name], network.fields[quiet.name], control, quiet, inward)
    back = across(network.fields[quiet.name], network.fields[control.name], quiet, control, inward.reversed())
    return np.asarray(np.abs(np.asarray(there) - np.asarray(back)) / 2.0)


@lru_cache(maxsize=256)
def _against_monitor(
    state: str, source: Bands, monitor: Bands, found: Arrivals, places: Bands, allowance: float, decay: Bands
) -> tuple[BetweenRooms, Quantity]:
    direct, paths = sum_levels(found), path_levels(found)
    spread = bands(np.hypot(spread_of(found), places))  # where the singer stands, where the engineer sits
    margins = _octave_margins(monitor, direct)
    worst = min(margins, key=lambda pair: pair[1])
    u = weighted_uncertainty(paths, spread, allowance, octave_weighting(worst[0], FREQUENCIES))
    difference = bands(np.asarray(source) - np.asarray(direct))
    standardized = bands(standardized_level_difference(difference, decay))
    result = BetweenRooms(state, source, direct, difference, standardized,
                          int(weighted_sound_reduction_index(standardized)), monitor, margins,
                          combined_uncertainty(paths, spread, allowance), paths)  # fmt: skip
    return result, Quantity(worst[1], "level", u)


def _margin_alone(state: str, source: Bands, monitor: Bands, direct: Bands) -> tuple[BetweenRooms, Quantity]:
    """What `_against_monitor` tells, without how sure it is and what it is made of."""
    margins = _octave_margins(monitor, direct)
    worst = min(value for _, value in margins)
    return BetweenRooms(state, source, direct, (), (), 0, monitor, margins, (), ()), Quantity(worst, "level")


def _octave_margins(monitor: Bands, direct: Bands) -> tuple[tuple[float, float], ...]:
    above = third_to_octave_levels(monitor) - third_to_octave_levels(direct)
    return tuple((octave, float(value)) for octave, value in zip(OCTAVE_BANDS, above, strict=True) if octave in _JUDGED)


def at_neighbours(standing: Standing, network: Network) -> tuple[AtNeighbours, Quantity] | None:
    """Level that the source in the quiet room gives at the neighbours' distance.

    Parameters
    ----------
    standing : Standing
        Build in one state.
    network : Network
        Its ways for diffuse sound.

    Returns
    -------
    tuple of AtNeighbours and Quantity, or None
        `None` without a quiet room, neighbours, or a way outdoors.
    """
    build, state = standing.build, standing.state
    quiet = build.room_for("quiet")
    if quiet is None or build.brief.neighbours is None:
        return None
    distance, side, _, _ = build.brief.neighbours
    power = sound_power_of(build.brief.source, build.brief.source_level)
    _, at_face = source_levels(quiet, network.fields[quiet.name], power)
    ways_out = [_outward(_links_outdoors(network, quiet.name), quiet, at_face, build.brief.shadow, side, distance)]
    for room in build.rooms:
        inside = None if room is quiet else received(network, build, room, dict(at_face), closed=(quiet.name,))
        if inside is not None and inside.links:
            ways_out.append(_from_room(network, room, inside, build.brief.shadow, side, distance))
    ways_out = [each for each in ways_out if each.links]
    if not ways_out:
        return None
    found = _together(tuple(ways_out))
    if standing.values_alone:
        levels = sum_levels(found)
        alone = AtNeighbours(state.name, distance, levels, (), (), _NEIGHBOUR_NOTES)
        return alone, Quantity(a_weighted_level(levels), "level_a")
    allowance = float(np.sqrt(vehicle_allowance(build) ** 2 + source_uncertainty(build) ** 2 + _OUTDOOR_UNCERTAINTY**2))
    return _at_distance(state.name, distance, found, source_spread(network.fields[quiet.name]), allowance)


def _from_room(
    network: Network, room: Room, inside: Arrivals, shadow: tuple[tuple[str, float], ...], side: str, distance: float
) -> Arrivals:
    """Ways out of another room that the sound has got into, with the uncertainty of the level there."""
    at_face = tuple(network.levels_at_faces(room, sum_levels(inside)).items())
    ways_out = _outward(_links_outdoors(network, room.name), room, at_face, shadow, side, distance)
    if network.values_alone:
        return ways_out
    doubt = combined_uncertainty(path_levels(inside), spread_of(inside), 0.0)
    return doubted(ways_out, OUTDOORS, ((room.name, doubt),))


def _links_outdoors(network: Network, room: str) -> tuple[Link, ...]:
    return tuple(link for link in network.links if {link.first, link.second} == {OUTDOORS, room})


@lru_cache(maxsize=256)
def _together(found: tuple[Arrivals, ...]) -> Arrivals:
    """Ways out of all rooms, one after the other."""
    return Arrivals(
        tuple(link for each in found for link in each.links),
        np.concatenate([each.levels for each in found]),
        np.concatenate([each.uncertainty for each in found]),
        np.concatenate([each.spread for each in found]),
    )


@lru_cache(maxsize=256)
def _at_distance(
    state: str, distance: float, found: Arrivals, spread: Bands, allowance: float
) -> tuple[AtNeighbours, Quantity]:
    levels, paths = sum_levels(found), path_levels(found)
    u = weighted_uncertainty(paths, spread, allowance, A_WEIGHTING)
    result = AtNeighbours(state, distance, levels, combined_uncertainty(paths, spread, allowance), paths,
                          _NEIGHBOUR_NOTES)  # fmt: skip
    return result, Quantity(a_weighted_level(levels), "level_a", u)


@lru_cache(maxsize=256)
def _outward(
    links: tuple[Link, ...],
    quiet: Room,
    at_face: tuple[tuple[Side, Bands], ...],
    shadow: tuple[tuple[str, float], ...],
    side: str,
    distance: float,
) -> Arrivals:
    """What each way out of the quiet room makes at a distance from one side."""
    if not links:
        return Arrivals((), *(np.zeros((0, N_BANDS)),) * 3)
    levels = dict(at_face)
    outward = [link if link.first == quiet.name else link.reversed() for link in links]
    through = np.array([link.through for link in outward])
    inside = np.array([levels[(quiet.name, link.first_face)] for link in outward])
    faces = dict.fromkeys(link.second_face for link in outward)
    towards = {face: _towards(quiet, face, dict(shadow), side, distance) for face in faces}
    ahead = np.array([towards[link.second_face] for link in outward])
    made = inside - _DIFFUSE_TO_INCIDENT + 10.0 * np.log10(np.maximum(through, NEVER)) + ahead[:, None]
    uncertainty = np.array([link.uncertainty for link in outward])
    return Arrivals(tuple(outward), made, uncertainty, np.zeros((len(outward), N_BANDS)))


def _towards(quiet: Room, face: str, shadows: dict[str, float], side: str, distance: float) -> float:
    """Level at the neighbours over the power level that a face sends out [dB]."""
    surface = quiet.surface(face)
    width, height = (surface.width, surface.height) if surface is not None else (quiet.length, quiet.section.height)
    return float(level_at_distance(0.0, width, height, distance, directivity_index=_directivity(shadows, face, side)))


def _directivity(shadows: dict[str, float], face: str, side: str) -> float:
    """How much less a face that looks elsewhere sends that way [dB]: the shadows of the way in, reversed."""
    if face == side:
        return 0.0
    if face in _UNDERSIDE:
        return -shadows["underfloor reduction"]
    if face == "ceiling":
        return -shadows["roof reduction"]
    return -shadows["lee side reduction" if face == _OPPOSITE.get(side) else "ends reduction"]


def required_margin(build: Build) -> tuple[float, str]:
    """How far the direct sound is to stay under the monitor level, and why."""
    limit = build.library.find(Limit, "direct sound below monitor level")
    below = build.brief.monitor[2] if build.brief.monitor is not None else limit.value.value
    return below, f"brief: monitor below; default {limit.value.value:g} dB, {limit.source}"
