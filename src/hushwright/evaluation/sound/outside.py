"""Outdoor sound at the vehicle: spectra of the brief, level and angles at each face."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from hushwright.evaluation.results import Bands
from hushwright.library.records import RoomSource
from hushwright.library.records import Spectrum as SpectrumRecord
from hushwright.model.build import Build, Situation
from hushwright.physics.acoustics.incidence import FaceIncidence, OutdoorSource, face_incidence
from hushwright.physics.acoustics.quadrature import Incidence
from hushwright.physics.acoustics.spectra import Spectrum, complete_thirds, octaves_to_thirds, spectrum_with_level

_FACINGS = {
    "left": "left", "right": "right", "front": "front", "rear": "rear", "ceiling": "roof", "floor": "floor",
    "wheel_box_left": "floor", "wheel_box_right": "floor",
}  # fmt: skip
_BEARINGS = {"front": 0.0, "left": math.pi / 2.0, "rear": math.pi, "right": -math.pi / 2.0}
_OPPOSITE = {"front": "rear", "rear": "front", "left": "right", "right": "left"}
_ONE_SIDE = math.radians(30.0)  # half the range of bearings of a source on one side; common practice, no source
_ABOVE = (math.radians(60.0), math.radians(90.0))


@dataclass(frozen=True, slots=True, eq=False)
class Outside:
    """Sound outside in one situation: level that goes with R at each face, and the angles it comes from."""

    free: Bands
    assumed: tuple[float, ...]
    basis: str
    level: dict[str, Bands]
    incidence: dict[str, Incidence]


def thirds_of(record: SpectrumRecord) -> Spectrum:
    """Third-octave levels of a library spectrum."""
    if record.width == "third":
        return complete_thirds(record.level, record.frequency, basis=str(record.source))
    return octaves_to_thirds(record.level, record.frequency, basis=str(record.source))


def sound_power_of(source: RoomSource, level: float | None) -> Bands:
    """Sound power level per third octave, brought to an A-weighted total when one is given."""
    spectrum = thirds_of(source)
    if level is not None:
        return spectrum_with_level(spectrum, level).levels
    shift = source.sound_power_level[0] - source.level[0]
    return tuple(value + shift for value in spectrum.levels)


def free_field(situation: Situation) -> Spectrum:
    """Third-octave levels where the van stands, without it."""
    record = situation.record
    if record is not None:
        spectrum = thirds_of(record)
    else:
        frequencies = [pair[0] for pair in situation.octaves]
        spectrum = octaves_to_thirds([pair[1] for pair in situation.octaves], frequencies, basis=situation.source)
    return spectrum if situation.level is None else spectrum_with_level(spectrum, situation.level)


def outside_of(build: Build, situation: Situation) -> Outside:
    """Level and angles at every face of the vehicle in one situation."""
    sizes = tuple((facing, _size(build, facing)) for facing in dict.fromkeys(_FACINGS.values()))
    return _outside(situation, build.brief.shadow, sizes)


@lru_cache(maxsize=256)
def _outside(
    situation: Situation,
    shadow_by_name: tuple[tuple[str, float], ...],
    sizes: tuple[tuple[str, tuple[float, float]], ...],
) -> Outside:
    spectrum = free_field(situation)
    source = _source(situation.comes_from)
    shadows, size_of = dict(shadow_by_name), dict(sizes)
    level, incidence = {}, {}
    for face, facing in _FACINGS.items():
        width, height = size_of[facing]
        shadow = _shadow(facing, situation.comes_from, shadows)
        seen = _incidence(facing, source, shadow, width, height)
        level[face] = tuple(float(value) for value in np.asarray(spectrum.levels) + np.asarray(seen.incident))
        incidence[face] = Incidence(seen.lowest, seen.highest)
    return Outside(spectrum.levels, spectrum.assumed, spectrum.basis, level, incidence)


@lru_cache(maxsize=1024)
def _incidence(facing: str, source: OutdoorSource, shadow: float, width: float, height: float) -> FaceIncidence:
    return face_incidence(facing, source, (max(shadow, 0.0),), width, height)  # type: ignore[arg-type]


def _source(comes_from: str) -> OutdoorSource:
    if comes_from == "all round":
        return OutdoorSource(0.0, math.pi)
    if comes_from == "above":
        return OutdoorSource(0.0, math.pi, _ABOVE[0], _ABOVE[1])
    return OutdoorSource(_BEARINGS[comes_from], _ONE_SIDE)


def _shadow(facing: str, comes_from: str, shadows: dict[str, float]) -> float:
    if facing == "roof":
        return shadows["roof reduction"]
    if facing == "floor":
        return shadows["underfloor reduction"]
    beside = comes_from in _OPPOSITE and facing not in (comes_from, _OPPOSITE[comes_from])
    return shadows["ends reduction"] if beside else shadows["lee side reduction"]


def _size(build: Build, facing: str) -> tuple[float, float]:
    vehicle = build.vehicle
    width, height = vehicle.section.floor_width, vehicle.floor_to_bow + vehicle.bows.depth
    if facing in ("left", "right"):
        return vehicle.load_length, height
    return (width, height) if facing in ("front", "rear") else (vehicle.load_length, width)
