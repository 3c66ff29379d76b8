"""Background in the quiet room: from outdoors and from rain, its three lines and its criterion."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from hushwright.evaluation.faces import Setting, outer_partition, predict, surface_layers
from hushwright.evaluation.links import OUTDOORS, bands
from hushwright.evaluation.outside import outside_of
from hushwright.evaluation.results import Background, Bands, Line, PathLevel, Quantity
from hushwright.evaluation.sound import (
    Arrival,
    Network,
    Standing,
    arrivals,
    at_faces,
    combined_uncertainty,
    network_of,
    outside_levels,
    path_levels,
    received,
    spread_of,
    sum_levels,
    weighted_uncertainty,
)
from hushwright.library.records import Limit
from hushwright.model.build import Build, Room, Situation, StateOfUse, Surface, Target
from hushwright.physics.acoustics.bands import FREQUENCIES, THIRD_OCTAVE_BANDS, third_to_octave_levels
from hushwright.physics.acoustics.criteria import hearing_test_limits, noise_criterion, noise_rating
from hushwright.physics.acoustics.hearing import audibility, threshold_of_hearing
from hushwright.physics.acoustics.layers import DampedPlate, Plate
from hushwright.physics.acoustics.plates import free_wave
from hushwright.physics.acoustics.rain import RAINS, rain_sound_power
from hushwright.physics.acoustics.weighting import A_WEIGHTING, a_weighted_level

_VOICE = (FREQUENCIES > 190.0) & (FREQUENCIES < 5100.0)
_BASS = (FREQUENCIES > 24.0) & (FREQUENCIES < 165.0)
_TONES = (125, 250, 500)
FAN_NOTE = "a fan runs in this state and duct noise is not computed yet"


def vehicle_allowance(build: Build) -> float:
    """Standard uncertainty for a vehicle in place of a laboratory [dB], less once three vans are measured."""
    needed = build.library.find(Limit, "vans to measure").value.value
    name = "vehicle allowance" + (", three vans measured" if build.tolerances.measured_vans >= needed else "")
    return build.library.find(Limit, name).value.value


def background(standing: Standing, situation: Situation, room: Room) -> tuple[Background, Quantity]:
    """Level in a room in one outdoor situation and one state, and the quantity its target is about."""
    build, state = standing.build, standing.state
    outside = outside_of(build, situation)
    network = network_of(standing, outside)
    found = received(network, build, room, outside_levels(build, outside, standing.setting))
    validity = _fan_notes(state)
    key = f"{situation.name}/{state.name}"
    return _judged(build, key, situation.name, state, room, outside.free, outside.assumed, found, situation.target,
                   validity, situation.level_uncertainty)  # fmt: skip


def _judged(
    build: Build,
    key: str,
    name: str,
    state: StateOfUse,
    room: Room,
    outside: Bands,
    assumed: tuple[float, ...],
    found: Sequence[Arrival],
    target: Target | None,
    validity: tuple[str, ...],
    condition_uncertainty: float,
) -> tuple[Background, Quantity]:
    levels, spread, paths = sum_levels(found), spread_of(found), path_levels(found)
    allowance = float(np.hypot(vehicle_allowance(build), condition_uncertainty))
    uncertainty = combined_uncertainty(paths, spread, allowance)
    heard = audibility(levels, uncertainty)
    lines = _lines(levels, heard)
    quantity = criterion_quantity(levels, uncertainty, paths, spread, allowance, target, validity)
    return Background(key, name, state.name, room.name, outside, assumed, levels, uncertainty, spread, paths, lines,
                      tuple(heard), validity), quantity  # fmt: skip


def _lines(levels: Bands, heard: Sequence[str]) -> tuple[Line, ...]:
    array = np.asarray(levels)
    weighted = array + A_WEIGHTING
    over = array - threshold_of_hearing(field="diffuse")
    voice = 10.0 * float(np.log10(np.sum(10.0 ** (weighted[_VOICE] / 10.0))))
    loudest = int(np.argmax(np.where(_VOICE, over, -np.inf)))
    return (
        Line("dB(A)", a_weighted_level(levels), "dB(A)", "whole range, A-weighted"),
        Line("voice bands", voice, "dB(A)", f"200 Hz to 5 kHz; most over the threshold of hearing at "
             f"{THIRD_OCTAVE_BANDS[loudest]:g} Hz, by {over[loudest]:.0f} dB"),
        Line("bass", float(np.max(over[_BASS])), "dB", _bass_text(over, heard)),
    )  # fmt: skip


def _bass_text(over: np.ndarray, heard: Sequence[str]) -> str:
    words = []
    for state in ("heard", "just heard"):
        at = [f"{THIRD_OCTAVE_BANDS[index]:g}" for index in np.flatnonzero(_BASS) if heard[index] == state]
        if at:
            words.append(f"{state} at {', '.join(at)} Hz")
    return "25 to 160 Hz against the threshold of hearing: " + ("; ".join(words) or "not heard")


def criterion_quantity(
    levels: Bands,
    uncertainty: Bands,
    paths: Sequence[PathLevel],
    spread: Bands,
    allowance: float,
    target: Target | None,
    validity: tuple[str, ...],
) -> Quantity:
    """Value that the target is about: dB(A), an NC or NR number, or decibels over the limits of a hearing test."""
    kind = target.kind if target is not None else "dB(A)"
    if kind == "dB(A)":
        u = weighted_uncertainty(paths, spread, allowance, A_WEIGHTING)
        return Quantity(a_weighted_level(levels), "level_a", u, validity=validity)
    if kind == "hearing test":
        assert target is not None
        return _hearing_test(levels, uncertainty, target, validity)
    assert target is not None
    rating = (noise_criterion if kind == "NC" else noise_rating)(
        third_to_octave_levels(levels), lowest_band=_lowest_octave(target.lowest_band, kind)
    )
    u = _octave_uncertainty(paths, spread, allowance, rating.governing_band)
    return Quantity(rating.value, kind, u, validity=(*validity, *rating.validity))


def _lowest_octave(asked: float, kind: str) -> float:
    octaves = (63.0, 125.0, 250.0, 500.0, 1000.0, 2000.0, 4000.0, 8000.0)
    lowest = octaves[0] if kind == "NC" else 31.5
    return min((octave for octave in octaves if octave >= asked * 0.99), default=8000.0) if asked > 0.0 else lowest


def _octave_uncertainty(paths: Sequence[PathLevel], spread: Bands, allowance: float, octave: float) -> float:
    """Uncertainty of one octave: its three thirds, errors of one way shared."""
    inside = np.abs(np.log2(FREQUENCIES / octave)) < 0.5
    return weighted_uncertainty(paths, spread, allowance, np.where(inside, 0.0, -300.0))


def _hearing_test(levels: Bands, uncertainty: Bands, target: Target, validity: tuple[str, ...]) -> Quantity:
    tone = min(_TONES, key=lambda each: abs(each - target.value))
    limits = hearing_test_limits("supra_aural", lowest_tone=tone)  # type: ignore[arg-type]
    at = [THIRD_OCTAVE_BANDS.index(band) for band in limits.bands if band in THIRD_OCTAVE_BANDS]
    allowed = [limit for band, limit in zip(limits.bands, limits.limits, strict=True) if band in THIRD_OCTAVE_BANDS]
    over = np.asarray(levels)[at] - np.asarray(allowed)
    worst = int(np.argmax(over))
    return Quantity(float(over[worst]), "margin", float(np.asarray(uncertainty)[at][worst]),
                    validity=(*validity, *limits.validity))  # fmt: skip


def rain_background(standing: Standing, network: Network, room: Room) -> tuple[Background, Quantity] | None:
    """Level in a room while it rains: power from the roof's skin, through the ceilings."""
    build, state, setting = standing.build, standing.state, standing.setting
    if build.brief.rain is None:
        return None
    rate, target, _ = build.brief.rain
    levels: dict[tuple[str, str], Bands] = {}
    notes: list[str] = []
    assumed: tuple[float, ...] = ()
    for each in build.rooms:
        surface = each.surface("ceiling")
        if surface is not None and surface.layers and surface.layers[0].kind == "skin":
            level, assumed, validity = _rain_level(build, surface, rate, setting)
            levels[(OUTDOORS, f"{each.name} roof")] = level
            notes += validity
    found = _rain_arrivals(network, build, room, levels)
    if not found:
        return None
    validity_all = tuple(dict.fromkeys((*_fan_notes(state), *notes)))
    return _judged(build, f"rain/{state.name}", "rain", state, room, next(iter(levels.values())), assumed, found, target,
                   validity_all, _RAIN_UNCERTAINTY)  # fmt: skip


_RAIN_UNCERTAINTY = 5.0  # dB, power injection scaled from a pane to beaded, curved sheet; common practice, no source


def _fan_notes(state: StateOfUse) -> tuple[str, ...]:
    return (f"{', '.join(state.fans)}: {FAN_NOTE}",) if state.fans else ()


def _rain_level(
    build: Build, surface: Surface, rate: float, setting: Setting
) -> tuple[Bands, tuple[float, ...], tuple[str, ...]]:
    """Outdoor level that would drive the roof's skin to radiate what rain makes it radiate."""
    panel = surface_layers(surface, setting)[0]
    assert isinstance(panel, Plate | DampedPlate)
    wave = free_wave(panel, FREQUENCIES)
    rain, scale = _class_of(rate)
    bows = surface.width / max(build.vehicle.bows.spacing, 0.1)
    perimeter = 2.0 * (surface.width + surface.height) + 2.0 * bows * surface.height
    sound = rain_sound_power(
        wave.surface_density, float(np.mean(wave.bending_stiffness)), np.maximum(wave.loss_factor, 0.002), surface.area,
        perimeter=perimeter, rain=rain, air=setting.air,
    )  # fmt: skip
    skin = predict(outer_partition(surface, setting), setting)
    level = np.asarray(sound.levels) + scale + 6.0 - 10.0 * np.log10(surface.area) + np.asarray(skin.reduction)
    return bands(level), sound.assumed, sound.validity


def _class_of(rate: float) -> tuple[str, float]:
    """Class of rain, and by how much its power differs at the rate asked for [dB]."""
    in_hour = rate * 3.6e6
    names = ("moderate", "intense", "heavy", "cloudburst")
    name = next((each for each in names if RAINS[each].rate_millimetre_per_hour >= in_hour - 1e-9), names[-1])
    return name, 10.0 * float(np.log10(max(in_hour, 0.01) / RAINS[name].rate_millimetre_per_hour))


def _rain_arrivals(
    network: Network, build: Build, room: Room, roofs: dict[tuple[str, str], Bands]
) -> list[Arrival]:
    """Only the ceilings sound; the room ahead passes on what falls on its own roof."""
    known: dict[tuple[str, str], Bands] = {}
    for other in build.rooms:
        level = roofs.get((OUTDOORS, f"{other.name} roof"))
        if other is room or level is None:
            continue
        inside = sum_levels(
            [each for each in arrivals(network, other, {(OUTDOORS, "ceiling"): level}) if each.link.second == other.name]
        )
        known |= at_faces(network, other, inside)
    own = roofs.get((OUTDOORS, f"{room.name} roof"))
    if own is not None:
        known[(OUTDOORS, "ceiling")] = own
    return arrivals(network, room, known)

