"""From the quiet room to the control room, and to the neighbours."""

from __future__ import annotations

import numpy as np

from hushwright.evaluation.links import OUTDOORS, bands
from hushwright.evaluation.outside import sound_power_of, thirds_of
from hushwright.evaluation.quiet import vehicle_allowance
from hushwright.evaluation.results import AtNeighbours, Bands, BetweenRooms, PathLevel, Quantity
from hushwright.evaluation.sound import (
    Network,
    Standing,
    arrivals,
    combined_uncertainty,
    path_levels,
    source_levels,
    spread_of,
    sum_levels,
    weighted_uncertainty,
)
from hushwright.library.records import Limit
from hushwright.model.build import Build, Room
from hushwright.physics.acoustics.bands import (
    FREQUENCIES,
    OCTAVE_BANDS,
    energy_sum_level,
    third_to_octave_levels,
)
from hushwright.physics.acoustics.outdoors import level_at_distance
from hushwright.physics.acoustics.spectra import spectrum_with_level
from hushwright.physics.acoustics.weighting import A_WEIGHTING, a_weighted_level

_JUDGED = (63.0, 125.0, 250.0, 500.0, 1000.0, 2000.0, 4000.0)
_OPPOSITE = {"front": "rear", "rear": "front", "left": "right", "right": "left"}
_OUTDOOR_UNCERTAINTY = 3.0  # dB, ground, weather and reflections on the way; common practice, no source


def source_uncertainty(build: Build) -> float:
    """Standard uncertainty of the source in the quiet room [dB]; a level in the brief is a condition."""
    return 0.0 if build.brief.source_level is not None else build.brief.source.standard_uncertainty


def between_rooms(standing: Standing, network: Network) -> tuple[BetweenRooms, Quantity] | None:
    """Direct sound of the quiet room in the control room against the monitor level, octave by octave."""
    build, state = standing.build, standing.state
    quiet, control = build.room_for("quiet"), build.room_for("control")
    if quiet is None or control is None or build.brief.monitor is None:
        return None
    power = sound_power_of(build.brief.source, build.brief.source_level)
    source, at_face, _ = source_levels(network, quiet, power)
    found = arrivals(network, control, at_face)
    if not found:
        return None
    level, spectrum, _, _ = build.brief.monitor
    monitor = spectrum_with_level(thirds_of(spectrum), level).levels
    direct, paths = sum_levels(found), path_levels(found)
    allowance = float(np.hypot(vehicle_allowance(build), source_uncertainty(build)))
    spread = spread_of(found)
    margins = _octave_margins(monitor, direct)
    worst = min(margins, key=lambda pair: pair[1])
    inside = np.abs(np.log2(FREQUENCIES / worst[0])) < 0.5
    u = weighted_uncertainty(paths, spread, allowance, np.where(inside, 0.0, -300.0))
    difference = bands(np.asarray(source) - np.asarray(direct))
    result = BetweenRooms(state.name, source, direct, difference, monitor, margins,
                          combined_uncertainty(paths, spread, allowance), paths)  # fmt: skip
    return result, Quantity(worst[1], "level", u)


def _octave_margins(monitor: Bands, direct: Bands) -> tuple[tuple[float, float], ...]:
    above = third_to_octave_levels(monitor) - third_to_octave_levels(direct)
    return tuple(
        (octave, float(value)) for octave, value in zip(OCTAVE_BANDS, above, strict=True) if octave in _JUDGED
    )


def at_neighbours(standing: Standing, network: Network) -> tuple[AtNeighbours, Quantity] | None:
    """Level that the source in the quiet room gives at the neighbours' distance."""
    build, state = standing.build, standing.state
    quiet = build.room_for("quiet")
    if quiet is None or build.brief.neighbours is None:
        return None
    distance, side, _, _ = build.brief.neighbours
    power = sound_power_of(build.brief.source, build.brief.source_level)
    _, at_face, _ = source_levels(network, quiet, power)
    paths = _outward(build, network, quiet, at_face, side, distance)
    if not paths:
        return None
    levels = bands(energy_sum_level(np.array([each.levels for each in paths]), axis=0))
    allowance = float(np.sqrt(vehicle_allowance(build) ** 2 + source_uncertainty(build) ** 2 + _OUTDOOR_UNCERTAINTY**2))
    u = weighted_uncertainty(paths, bands(0.0), allowance, A_WEIGHTING)
    notes = ("hard level ground, no screens, no other façades; ways through the other rooms are left out",)
    result = AtNeighbours(state.name, distance, levels, combined_uncertainty(paths, bands(0.0), allowance), paths, notes)
    return result, Quantity(a_weighted_level(levels), "level_a", u)


def _outward(
    build: Build, network: Network, quiet: Room, at_face: dict[tuple[str, str], Bands], side: str, distance: float
) -> tuple[PathLevel, ...]:
    grouped: dict[str, list[tuple[Bands, Bands, str]]] = {}
    for link in network.links:
        if OUTDOORS not in (link.first, link.second) or quiet.name not in (link.first, link.second):
            continue
        inside_face = link.second_face if link.second == quiet.name else link.first_face
        outside_face = link.first_face if link.second == quiet.name else link.second_face
        level = np.asarray(at_face[(quiet.name, inside_face)])
        power = level - 6.0 + 10.0 * np.log10(np.maximum(np.asarray(link.through), 1e-14))
        width, height = _extent(quiet, outside_face)
        shadow = _directivity(build, outside_face, side)
        heard = level_at_distance(power, width, height, distance, directivity_index=shadow)
        name = "round the gap" if link.kind == "gap" else link.name
        grouped.setdefault(name, []).append((bands(heard), link.uncertainty, link.place))
    return _summed(grouped)


def _summed(grouped: dict[str, list[tuple[Bands, Bands, str]]]) -> tuple[PathLevel, ...]:
    found = []
    for name, group in grouped.items():
        levels = bands(energy_sum_level(np.array([each[0] for each in group]), axis=0))
        uncertainty = bands(np.max(np.array([each[1] for each in group]), axis=0))
        level_a = float(energy_sum_level(np.asarray(levels) + A_WEIGHTING))
        found.append(PathLevel(name, levels, uncertainty, level_a, 0.0, group[0][2]))
    total = sum(10.0 ** (each.level_a / 10.0) for each in found)
    shown = [
        PathLevel(each.name, each.levels, each.uncertainty, each.level_a, 10.0 ** (each.level_a / 10.0) / total, each.place)
        for each in found
    ]
    return tuple(sorted(shown, key=lambda each: -each.level_a))


def _extent(quiet: Room, face: str) -> tuple[float, float]:
    surface = quiet.surface(face)
    return (surface.width, surface.height) if surface is not None else (quiet.length, quiet.section.height)


def _directivity(build: Build, face: str, side: str) -> float:
    """How much less a face that looks elsewhere sends that way [dB]: the shadows of the way in, reversed."""
    shadows = dict(build.brief.shadow)
    if face == side:
        return 0.0
    if face in ("floor", "wheel_box_left", "wheel_box_right"):
        return -shadows["underfloor reduction"]
    if face == "ceiling":
        return -shadows["roof reduction"]
    return -shadows["lee side reduction" if face == _OPPOSITE.get(side) else "ends reduction"]


def required_margin(build: Build) -> tuple[float, str]:
    """How far the direct sound is to stay under the monitor level, and why."""
    limit = build.library.find(Limit, "direct sound below monitor level")
    below = build.brief.monitor[2] if build.brief.monitor is not None else limit.value.value
    return below, f"brief: monitor below; default {limit.value.value:g} dB, {limit.source}"
