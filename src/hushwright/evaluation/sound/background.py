"""Background in a room: its three lines, what is heard, and the number that its target is about."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

import numpy as np

from hushwright.errors import InvalidInput
from hushwright.evaluation.results import REPORTED, Background, Bands, Line, PathLevel, Quantity
from hushwright.evaluation.sound.uncertainty import (
    combined_uncertainty,
    octave_weighting,
    path_levels,
    weighted_uncertainty,
)
from hushwright.evaluation.sound.ways import Arrivals, spread_of, sum_levels
from hushwright.library.records import Limit
from hushwright.model.build import Build, Room, StateOfUse, Target
from hushwright.physics.acoustics.bands import FREQUENCIES, THIRD_OCTAVE_BANDS, FloatArray, third_to_octave_levels
from hushwright.physics.acoustics.criteria import (
    BandLimits,
    CriterionRating,
    CurveSet,
    hearing_test_limits,
    noise_criterion,
    noise_criterion_limits,
    noise_rating,
    noise_rating_limits,
)
from hushwright.physics.acoustics.hearing import audibility, threshold_of_hearing
from hushwright.physics.acoustics.weighting import A_WEIGHTING, a_weighted_level

_VOICE = (FREQUENCIES > 190.0) & (FREQUENCIES < 5100.0)
"""Bands of the line on voices: 200 Hz to 5 kHz."""

_BASS = (FREQUENCIES > 24.0) & (FREQUENCIES < 165.0)
"""Bands of the line on bass: 25 to 160 Hz."""

_TONES = (125, 250, 500)
"""Hz, lowest test tones for which ISO 8253-1 has limits."""

_OCTAVES = (63.0, 125.0, 250.0, 500.0, 1000.0, 2000.0, 4000.0, 8000.0)
"""Hz, octaves of the classic NC curves."""

_OF_THE_VAN = ("fan", "flow", "gear")
"""Kinds of ways that begin in the van: fans, moving air, devices."""

_LOWEST_OCTAVE = 31.5
"""Hz, lowest octave of the NR curves (ISO/R 1996:1971), and of the NC curves of 2019 in our bands."""

_LOWEST_CURVE = 15.0
"""NC, the lowest printed curve of ANSI/ASA S12.2-2019."""


def vehicle_allowance(build: Build) -> float:
    """Standard uncertainty for a vehicle in place of a laboratory [dB], less once three vans are measured."""
    needed = build.library.find(Limit, "vans to measure").value.value
    name = "vehicle allowance" + (", three vans measured" if build.tolerances.measured_vans >= needed else "")
    return build.library.find(Limit, name).value.value


def background_from(
    build: Build,
    key: str,
    name: str,
    state: StateOfUse,
    room: Room,
    outside: Bands,
    assumed: tuple[float, ...],
    found: Arrivals,
    target: Target | None,
    validity: tuple[str, ...],
    condition_uncertainty: float,
    *,
    values_alone: bool = False,
) -> tuple[Background, Quantity]:
    """Background and its quantity from the ways that arrive, with the uncertainty of the sound outside [dB].

    ``values_alone`` gives levels and value, and nothing of how sure they are or what they are made of.
    """
    if values_alone:
        levels = sum_levels(found)
        bare = Background(key, name, state.name, room.name, outside, assumed, levels, (), (), (), (), (), validity)
        return bare, value_alone(levels, target)
    allowance = float(np.hypot(vehicle_allowance(build), condition_uncertainty))
    found_background, quantity = _background(
        (key, name, state.name, room.name), outside, assumed, found, target, validity, allowance
    )
    alone, unsure = _from_outside(found, vehicle_allowance(build))
    return replace(found_background, from_outside=alone, from_outside_uncertainty=unsure), quantity


@lru_cache(maxsize=512)
def _from_outside(found: Arrivals, allowance: float) -> tuple[Bands, Bands]:
    """Level by the ways from outside alone, and its uncertainty where the sound outside is measured as well."""
    kept = [row for row, link in enumerate(found.links) if link.kind not in _OF_THE_VAN]
    if not kept:
        return (), ()
    outer = found.only(kept)
    return sum_levels(outer), combined_uncertainty(path_levels(outer), spread_of(outer), allowance)


@lru_cache(maxsize=512)
def _background(
    names: tuple[str, str, str, str],
    outside: Bands,
    assumed: tuple[float, ...],
    found: Arrivals,
    target: Target | None,
    validity: tuple[str, ...],
    allowance: float,
) -> tuple[Background, Quantity]:
    levels, spread, paths = sum_levels(found), spread_of(found), path_levels(found)
    uncertainty = combined_uncertainty(paths, spread, allowance)
    heard = tuple(audibility(levels, uncertainty))
    quantity = criterion_quantity(levels, uncertainty, paths, spread, allowance, target, validity)
    return Background(*names, outside, assumed, levels, uncertainty, spread, paths, _lines(levels, heard), heard,
                      validity), quantity  # fmt: skip


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
        Line("bass", float(np.max(over[_BASS])), "dB", _bass_text(heard)),
    )  # fmt: skip


def _bass_text(heard: Sequence[str]) -> str:
    words = []
    for state in ("heard", "just heard"):
        at = [f"{THIRD_OCTAVE_BANDS[index]:g}" for index in np.flatnonzero(_BASS).tolist() if heard[index] == state]
        if at:
            words.append(f"{state} at {', '.join(at)} Hz")
    return "25 to 160 Hz: " + ("; ".join(words) or "not heard")


def criterion_quantity(
    levels: Bands,
    uncertainty: Bands,
    paths: tuple[PathLevel, ...],
    spread: Bands,
    allowance: float,
    target: Target | None,
    validity: tuple[str, ...],
) -> Quantity:
    """Value that the target is about: dB(A), an NC or NR number, or decibels over the limits of a hearing test.

    Parameters
    ----------
    levels, uncertainty, spread : tuple of float, shape (27,)
        Level, its standard uncertainty and its spread over places [dB].
    paths : tuple of PathLevel
        Ways that make the level.
    allowance : float
        Standard uncertainty that all bands share [dB].
    target : Target or None
        What the brief asks for; dB(A) without one.
    validity : tuple of str
        Limits of the method that are left.

    Returns
    -------
    Quantity
        With the uncertainty of the method.
    """
    if target is None or target.kind == "dB(A)":
        u = weighted_uncertainty(paths, spread, allowance, A_WEIGHTING)
        return Quantity(a_weighted_level(levels), "level_a", u, validity=validity)
    if target.kind == "hearing test":
        return _hearing_test(levels, uncertainty, target, validity)
    octaves = third_to_octave_levels(levels)
    rating = _rated(octaves, target)
    u = weighted_uncertainty(paths, spread, allowance, octave_weighting(rating.governing_band, FREQUENCIES))
    # Curves lie closer or wider than decibels: the spread is carried over to numbers of the curve.
    steps = 0.5 * (_rated(octaves + 1.0, target).value - _rated(octaves - 1.0, target).value)
    notes = tuple(_informing(note, rating.value, target) for note in rating.validity)
    return Quantity(rating.value, target.kind, u * steps, validity=(*validity, *notes))


def criterion_value(levels: Bands, target: Target | None) -> float:
    """Value of `criterion_quantity` alone: dB(A), an NC or NR number, or decibels over the limits of a hearing test."""
    if target is None or target.kind == "dB(A)":
        return a_weighted_level(levels)
    if target.kind == "hearing test":
        return float(np.max(_over_limits(levels, target)[0]))
    return _rated(third_to_octave_levels(levels), target).value


def value_alone(levels: Bands, target: Target | None) -> Quantity:
    """Quantity of `criterion_quantity` without its uncertainty."""
    plain = "level_a" if target is None or target.kind == "dB(A)" else target.kind
    return Quantity(criterion_value(levels, target), "margin" if plain == "hearing test" else plain)


def deciding_band(levels: Bands, target: Target | None) -> tuple[str, FloatArray] | None:
    """Band that alone decides a limit on curves or of a hearing test, and the thirds in it; `None` where all count."""
    if target is None or target.kind == "dB(A)":
        return None
    if target.kind == "hearing test":
        worst = int(np.argmax(_over_limits(levels, target)[0]))
        return f"the third octave at {THIRD_OCTAVE_BANDS[worst]:g} Hz", np.arange(len(levels)) == worst
    octave = _rated(third_to_octave_levels(levels), target).governing_band
    return f"the octave at {octave:g} Hz", octave_weighting(octave, FREQUENCIES) == 0.0


def _informing(note: str, value: float, target: Target) -> str:
    """A note about curves below the lowest printed one only informs where the target lies above them."""
    return REPORTED + note if "outside the printed curves" in note and value < _LOWEST_CURVE <= target.value else note


def _rated(octaves: FloatArray, target: Target) -> CriterionRating:
    """NC or NR of octave levels, from the lowest octave that counts."""
    curve_set, lowest = _counted(target)
    if target.kind == "NC":
        return noise_criterion(octaves, curve_set=curve_set, lowest_band=lowest)
    return noise_rating(octaves, lowest_band=lowest)


def _counted(target: Target) -> tuple[CurveSet, float]:
    """Set of curves, and the lowest octave that counts on them."""
    curve_set: CurveSet = "2019" if target.curve_set == "2019" else "classic"
    listed = _OCTAVES if target.kind == "NC" and curve_set == "classic" else (_LOWEST_OCTAVE, *_OCTAVES)
    return curve_set, min((octave for octave in listed if octave >= target.lowest_band * 0.99), default=listed[-1])


def limits_of(target: Target) -> BandLimits | None:
    """Highest level of each band for a target on curves or of a hearing test; `None` for dB(A), or off the curves."""
    if target.kind == "dB(A)":
        return None
    if target.kind == "hearing test":
        return _hearing_limits(target)
    curve_set, lowest = _counted(target)
    try:
        if target.kind == "NC":
            return noise_criterion_limits(target.value, curve_set=curve_set, lowest_band=lowest)
        return noise_rating_limits(target.value, lowest_band=lowest)
    except InvalidInput:
        return None


def _hearing_test(levels: Bands, uncertainty: Bands, target: Target, validity: tuple[str, ...]) -> Quantity:
    over, notes = _over_limits(levels, target)
    worst = int(np.argmax(over))
    return Quantity(float(over[worst]), "margin", float(uncertainty[worst]), validity=(*validity, *notes))


def _over_limits(levels: Bands, target: Target) -> tuple[FloatArray, tuple[str, ...]]:
    """Decibels over the limits of a hearing test by band, −inf where there is none, and notes."""
    limits = _hearing_limits(target)
    # A gain that is not counted errs on the quiet side: it informs.
    notes = tuple(REPORTED + note if note.startswith("no attenuation printed") else note for note in limits.validity)
    return -limits.margins(levels), notes


def _hearing_limits(target: Target) -> BandLimits:
    tone = min(_TONES, key=lambda each: abs(each - target.value))
    return hearing_test_limits(target.heard_by, lowest_tone=tone, uncertainty=target.error)  # type: ignore[arg-type]
