"""Where a background comes from: its octaves against what is allowed or heard, the bands that count, resonances."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hushwright.evaluation.results import Background, BetweenRooms, Evaluation, PathLevel
from hushwright.evaluation.sound.background import deciding_band, limits_of
from hushwright.evaluation.sound.deciding import deciding_between, target_of
from hushwright.evaluation.sound.needs import allowance_of
from hushwright.model.build import Build, Target
from hushwright.physics.acoustics.bands import (
    OCTAVE_BANDS,
    FloatArray,
    third_to_octave_levels,
)
from hushwright.physics.acoustics.hearing import threshold_of_hearing
from hushwright.physics.acoustics.weighting import A_WEIGHTING

MOST_OF_IT = 0.8
"""Share [-] of the energy that counts from which on octaves are told as most of it; common practice, no source."""

_COUNTS = 0.05  # share of a way from which on it is named
_NAMED = 3
_BASS, _VOICE = 180.0, 5600.0  # Hz, upper edges: bass ends with the third at 160 Hz, voices with that at 5 kHz
_HIGHEST = 1000.0  # Hz, above it a resonance of a face has nothing to do with its mass and air


@dataclass(frozen=True, slots=True)
class OctavesHeld:
    """Octaves of a background [dB] held against what is allowed, else against what is just heard."""

    name: str
    bound: tuple[float, ...]
    over: tuple[float, ...]
    shares: tuple[float, ...]  # [-] of what counts


def octaves_held(found: Background, build: Build) -> OctavesHeld:
    """Octaves of a background against its limit by bands, or the threshold of hearing, with their shares."""
    target = target_of(found, build)
    name, bound = _bound(found, target)
    over = third_to_octave_levels(np.asarray(found.levels)) - bound
    shares = _shares_of_octaves(_energy(found, target))
    return OctavesHeld(name, *(tuple(float(each) for each in row) for row in (bound, over, shares)))


def where_told(found: Background, evaluation: Evaluation) -> str:
    """One sentence: the octaves that make most of it, the ways on which they come, and what resonates there."""
    target = target_of(found, evaluation.build)
    energy = _energy(found, target)
    octaves = _most(_shares_of_octaves(energy))
    if not octaves:
        return ""
    low, high = OCTAVE_BANDS[octaves[0]], OCTAVE_BANDS[octaves[-1]]
    at = f"{low:g} Hz" if low == high else f"{low:g} to {high:g} Hz"
    counts = np.isin(np.arange(len(energy)) // 3, range(octaves[0], octaves[-1] + 1))
    ways = _ways_in(found, energy, counts)
    through = f", through {' and '.join(each.name for each in ways)}" if ways else ""
    resonances = _resonances(found, evaluation, ways, (low / np.sqrt(2.0), high * np.sqrt(2.0)))
    band = deciding_band(found.levels, target)
    begin = f"Most of it is {_word(low, high)}, {at}" if band is None else f"{band[0][:1].upper()}{band[0][1:]} decides"
    return f"{begin}{through}{f'; {resonances}' if resonances else ''}."


def where_told_between(found: BetweenRooms, evaluation: Evaluation) -> str:
    """One sentence for direct sound beside the monitors: the octave that decides, its ways, and what resonates."""
    band, paths = deciding_between(found)
    ways = tuple(path for path in paths[:_NAMED] if path.share >= _COUNTS)
    if not band or not ways:
        return ""
    told = _of_face(evaluation, ways)
    named = " and ".join(each.name for each in ways)
    return f"{band[:1].upper()}{band[1:]} decides, through {named}{f'; {told[0]}' if told else ''}."


def _bound(found: Background, target: Target | None) -> tuple[str, FloatArray]:
    """Octave levels at which the limit of a curve is met, else at which a sound of this shape is just heard."""
    limits = None if target is None else limits_of(target)
    if limits is not None and target is not None and len(limits.limits) == len(OCTAVE_BANDS):
        return f"at most, {target.kind} {target.value:g}", np.asarray(limits.limits, dtype=float)
    levels = np.asarray(found.levels)
    if limits is None:
        name, thirds = "threshold of hearing", threshold_of_hearing(field="diffuse")
    else:
        name, thirds = "at most, hearing test", np.asarray(limits.limits, dtype=float)
    over = np.max((levels - thirds).reshape(-1, 3), axis=1)
    return name, np.asarray(third_to_octave_levels(levels) - over)


def _energy(found: Background, target: Target | None) -> FloatArray:
    """Weights of the thirds in what counts, as energy that each has: of all A-weighted, or of the band that decides."""
    allowance = None if target is None else allowance_of(target)
    levels = np.asarray(found.levels)
    weights = A_WEIGHTING if allowance is None else allowance.weights(found.levels)
    return np.asarray(10.0 ** ((levels + weights) / 10.0))


def _shares_of_octaves(energy: FloatArray) -> FloatArray:
    octaves = energy.reshape(-1, 3).sum(axis=1)
    return np.asarray(octaves / max(float(octaves.sum()), 1e-30))


def _most(shares: FloatArray) -> tuple[int, ...]:
    """Shortest run of octaves that has most of it."""
    for number in range(1, len(shares) + 1):
        sums = [float(shares[at : at + number].sum()) for at in range(len(shares) - number + 1)]
        best = int(np.argmax(sums))
        if sums[best] >= MOST_OF_IT:
            return tuple(range(best, best + number))
    return ()


def _word(low: float, high: float) -> str:
    if high < _BASS:
        return "bass"
    if low > _BASS:
        return (
            "at the pitch of voices" if high < _VOICE else "hiss, above voices" if low > _VOICE else "voices and hiss"
        )
    return "bass and voices" if high < _VOICE else "spread over bass, voices and hiss"


def _ways_in(found: Background, energy: FloatArray, counts: NDArray[np.bool_]) -> tuple[PathLevel, ...]:
    """Ways that make most of some bands, as these count, largest first."""
    weights = energy / np.maximum(10.0 ** (np.asarray(found.levels) / 10.0), 1e-30) * counts
    parts = [(float(np.sum(weights * 10.0 ** (np.asarray(path.levels) / 10.0))), path) for path in found.paths]
    whole = sum(part for part, _ in parts) or 1.0
    ranked = sorted(parts, key=lambda pair: (-pair[0], pair[1].name))
    return tuple(path for part, path in ranked[:_NAMED] if part / whole >= _COUNTS)


def _resonances(
    found: Background, evaluation: Evaluation, ways: tuple[PathLevel, ...], within: tuple[float, float]
) -> str:
    """Mass and air of the face that lets most through, the floor on its mounts, modes of the room in these bands."""
    told = _of_face(evaluation, ways)
    floats = next((one.vertical_frequency for one in evaluation.mounts if one.state == found.state), None)
    if floats is not None and any("floor" in way.name for way in ways):
        told.append(f"the floor on its mounts at {_listed([floats])}")
    room = next((one for one in evaluation.rooms if one.room == found.room), None)
    modes = [] if room is None else [each for each in room.lowest_modes if within[0] <= each <= within[1]]
    if modes:
        told.append(f"the room itself at {_listed(modes[:_NAMED])}")
    return ", ".join(told)


def _of_face(evaluation: Evaluation, ways: tuple[PathLevel, ...]) -> list[str]:
    """Mass and air of the first of some ways that has both."""
    for way in ways:
        own = sorted(one.frequency for one in evaluation.resonances if one.kind == "mass-air-mass"
                     and one.frequency < _HIGHEST and _is_of(way.name, one.surface))  # fmt: skip
        if own:
            return [f"the layers of {way.name} resonate with the air between them at {_listed(own)}"]
    return []


def _is_of(way: str, surface: str) -> bool:
    name = surface.replace(".", " ").replace("_", " ")
    return way == name or way.startswith(f"{name}, ")


def _listed(frequencies: list[float]) -> str:
    told = list(dict.fromkeys(f"{each:.0f}" for each in frequencies))[:_NAMED]
    return f"{' and '.join(told)} Hz" if len(told) < 3 else f"{', '.join(told[:-1])} and {told[-1]} Hz"
