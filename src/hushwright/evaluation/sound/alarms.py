"""Alarms where people are: how loud through the build's own walls, over the noise there, and whether light helps."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np

from hushwright.evaluation.results import SILENCE, Background, Bands, BetweenRooms
from hushwright.evaluation.results.safety import AlarmInRoom
from hushwright.evaluation.sound.background import vehicle_allowance
from hushwright.evaluation.sound.outside import thirds_of
from hushwright.evaluation.sound.sound import Network, Standing, received
from hushwright.evaluation.sound.uncertainty import path_levels, weighted_uncertainty
from hushwright.evaluation.sound.ways import Arrivals, source_levels, source_spread, spread_of, sum_levels
from hushwright.library.records import RoomSource
from hushwright.library.safety import SafetyLimit
from hushwright.model.build import Build, Room, StateOfUse
from hushwright.model.safety_in_place import SounderInPlace, VisualSignalInPlace
from hushwright.physics.acoustics.bands import FREQUENCIES, N_BANDS, energy_sum_level
from hushwright.physics.acoustics.danger_signals import SignalOverNoise, signal_over_noise
from hushwright.physics.acoustics.spectra import spectrum_with_level
from hushwright.physics.acoustics.weighting import A_WEIGHTING, a_weighted_level

_SOUNDER = 3.0
"""dB, standard uncertainty of a sounder's level: its place on the wall, its battery; common practice, no source."""

_PROGRAMME = "pink noise"
"""What is heard on headphones where the brief names no monitors; common practice, no source."""

level_a = lru_cache(maxsize=1024)(a_weighted_level)

_SPHERE = 10.0 * math.log10(4.0 * math.pi)


def alarms_in(
    standing: Standing, network: Network, backgrounds: list[Background], between: BetweenRooms | None
) -> list[AlarmInRoom]:
    """The loudest alarm in each room with people.

    Parameters
    ----------
    standing : Standing
        Build in one state.
    network : Network
        Its ways for diffuse sound.
    backgrounds : list of Background
        Noise in the quiet room in this state, rain included; where no takes are recorded, only rooms in which
        people rest are looked at.
    between : BetweenRooms or None
        What is played in the quiet room and on the monitors.

    Returns
    -------
    list of AlarmInRoom
        Nothing where the file has no safety.
    """
    build = standing.build
    if build.safety is None or not (build.safety.sounders or build.safety.visual_signals):
        return []
    state = standing.state
    peopled = [room for room in build.rooms
               if (state.people_in(room.name) > 0 if takes_in(build, state) else state.rest_in(room.name))]  # fmt: skip
    return [_alarm(standing, network, room, backgrounds, between) for room in peopled]


def _alarm(
    standing: Standing, network: Network, room: Room, backgrounds: list[Background], between: BetweenRooms | None
) -> AlarmInRoom:
    build = standing.build
    assert build.safety is not None
    noise = _noise(room, backgrounds)
    played = _played(room, between)
    heard = [(each, *_heard(network, build, each, room)) for each in build.safety.sounders]
    best = max(heard, key=lambda each: level_a(each[1]), default=None)
    lights = [each for each in build.safety.visual_signals if each.room == room.name]
    seen = sum(flashes(build, each) for each in lights)
    state = standing.state.name
    worn = _worn(build, room) if takes_in(build, standing.state) else None
    if best is None:
        return AlarmInRoom(room.name, state, "", SILENCE, level_a(noise), SILENCE, 0.0, None, None,
                           None if worn is None else worn[0], None, seen, len(lights), "safety.sounders")  # fmt: skip
    sounder, levels, u = best
    quiet = _over(levels, noise)
    under = None if worn is None else _under_headphones(levels, noise, played, worn, build)
    loud = None if played is None else _over(levels, tuple(energy_sum_level([noise, played], axis=0).tolist()))
    return AlarmInRoom(
        room.name, state, sounder.room, quiet.level, level_a(noise), quiet.margin, u,
        None if played is None else level_a(played), None if loud is None else loud.margin,
        None if worn is None else worn[0], None if under is None else under.margin, seen, len(lights), sounder.place,
    )  # fmt: skip


def takes_in(build: Build, state: StateOfUse) -> bool:
    """Whether takes are recorded in a quiet room in a state."""
    return state.takes and build.room_for("quiet") is not None


@lru_cache(maxsize=512)
def _over(signal: Bands, noise: Bands) -> SignalOverNoise:
    return signal_over_noise(signal, noise)


def flashes(build: Build, light: VisualSignalInPlace) -> bool:
    """Whether a light is bright enough and flashes at the right rate."""

    def limit(name: str) -> float:
        return build.library.find(SafetyLimit, name).value.value

    bright = light.intensity >= limit("intensity of a visual signal")
    return bright and limit("flash rate at least") <= light.rate <= limit("flash rate at most")


def _noise(room: Room, backgrounds: list[Background]) -> Bands:
    """Loudest noise of all situations in a room, band by band; silence where none is computed."""
    here = [each.levels for each in backgrounds if each.room == room.name]
    return tuple(np.max(np.array(here), axis=0).tolist()) if here else (SILENCE,) * N_BANDS


def _played(room: Room, between: BetweenRooms | None) -> Bands | None:
    """What is played: the source itself in the quiet room, the monitors in the control room."""
    if between is None:
        return None
    return between.source_levels if room.purpose == "quiet" else between.monitor if room.purpose == "control" else None


def _worn(build: Build, room: Room) -> tuple[float, float] | None:
    """What people listen to on the headphones of a room [dB(A)], and what those take off sound from outside [dB].

    Of several points the one on which an alarm is heard least: the loudest, and among alike ones the most closed.
    """
    if build.signals is None:
        return None
    listening = build.signals.limits.listening
    return max(((min(listening, listening if each.limiter is None else each.limiter), each.attenuation)
                for each in build.signals.points if each.room == room.name), default=None)  # fmt: skip


def _under_headphones(
    alarm: Bands, noise: Bands, played: Bands | None, worn: tuple[float, float], build: Build
) -> SignalOverNoise:
    """Alarm at the ear under headphones: it and all around it are softer, what they play is not."""
    level, attenuation = worn
    programme = build.library.find(RoomSource, _PROGRAMME) if build.brief.monitor is None else build.brief.monitor[1]
    around = energy_sum_level([noise, (SILENCE,) * N_BANDS if played is None else played], axis=0) - attenuation
    heard = energy_sum_level([np.asarray(around), np.asarray(_listened_to(programme, level))], axis=0)
    return _over(tuple((np.asarray(alarm) - attenuation).tolist()), tuple(heard.tolist()))


@lru_cache(maxsize=64)
def _listened_to(programme: RoomSource, level: float) -> Bands:
    return spectrum_with_level(thirds_of(programme), level).levels


def _heard(network: Network, build: Build, sounder: SounderInPlace, room: Room) -> tuple[Bands, float]:
    """Levels of a sounder in a room, its own or another, and their standard uncertainty."""
    source = next(each for each in build.rooms if each.name == sounder.room)
    field = network.fields[source.name]
    level, at_face = source_levels(source, field, power_of(sounder))
    if source.name == room.name:
        spread = np.asarray(source_spread(field))[_band_of(sounder)]
        return level, float(np.hypot(_SOUNDER, spread))
    found = received(network, build, room, dict(at_face), closed=(source.name,))
    if not found.links:
        return (SILENCE,) * N_BANDS, _SOUNDER
    if network.values_alone:
        return sum_levels(found), 0.0
    return _arrived(found, vehicle_allowance(build))


@lru_cache(maxsize=512)
def _arrived(found: Arrivals, allowance: float) -> tuple[Bands, float]:
    u = weighted_uncertainty(path_levels(found), spread_of(found), allowance, A_WEIGHTING)
    return sum_levels(found), float(np.hypot(_SOUNDER, u))


def _band_of(sounder: SounderInPlace) -> int:
    return int(np.argmin(np.abs(np.log2(FREQUENCIES / sounder.tone))))


@lru_cache(maxsize=128)
def power_of(sounder: SounderInPlace) -> Bands:
    """Sound power of a sounder: all of it in the third octave of its tone, alike in all directions [dB re 1 pW]."""
    band = _band_of(sounder)
    power = sounder.level - float(A_WEIGHTING[band]) + _SPHERE + 20.0 * math.log10(sounder.distance)
    return tuple(power if index == band else SILENCE for index in range(N_BANDS))
