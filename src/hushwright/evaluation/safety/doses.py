"""Noise of a day at people's ears: typed levels, headphones, monitors and players, over eight hours."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from hushwright.evaluation.guard import at
from hushwright.evaluation.results import BetweenRooms, Quantity
from hushwright.evaluation.results.safety import Dose, DosePart
from hushwright.evaluation.results.signals import SignalResults
from hushwright.evaluation.sound.played import PlayedInRoom
from hushwright.library.records import Limit
from hushwright.model.build import Build
from hushwright.model.safety_in_place import ExposureInPlace, NoisePartInPlace
from hushwright.physics.acoustics.noise_dose import EQUAL_ENERGY, WORKING_DAY, exposure_level
from hushwright.physics.acoustics.weighting import a_weighted_level

_EAR = 1.0
"""dB, standard uncertainty of where a level is taken at the ear; ISO 9612 (memory)."""

_PEAK = 1.5
"""dB, standard uncertainty of a peak level; common practice, no source."""

_TURNED = 2.0
"""dB, how far the level moves that people set on headphones or monitors, and how headphones fit; common practice,
no source."""

_EXCHANGE = {"OSHA": 5.0}
"""dB, exchange rates other than that of equal energy; 29 CFR 1910.95."""

NOTHING_PLAYED = "no takes are recorded in a quiet room, so nothing is played there"


@dataclass(frozen=True, slots=True)
class Sounding:
    """What sounds in the van, from other parts of the evaluation."""

    signals: SignalResults
    between_rooms: Sequence[BetweenRooms]
    played: Sequence[PlayedInRoom]


def doses_of(build: Build, sounding: Sounding, quantities: dict[str, Quantity]) -> tuple[Dose, ...]:
    """Add noise of a day of each kind of person, and peaks, to the quantities.

    Parameters
    ----------
    build : Build
        With safety.
    sounding : Sounding
        Headphones, monitors, players.
    quantities : dict
        Takes up what verdicts judge.

    Returns
    -------
    tuple of Dose
        One for each exposure of the file.
    """
    safety = build.safety
    assert safety is not None
    exchange = _EXCHANGE.get(safety.noise_rule, float(EQUAL_ENERGY))
    doses = tuple(_dose(build, sounding, each, exchange) for each in safety.exposures)
    for dose, each in zip(doses, safety.exposures, strict=True):
        quantities[f"dose/{dose.who}"] = _quantity(dose)
        if each.peak is not None:
            quantities[f"peak/{each.who}"] = Quantity(each.peak, "level", _PEAK)
    return doses


def _quantity(dose: Dose) -> Quantity:
    """Exposure with its spread: each part counts by its share (ISO 9612, annex C, memory)."""
    if not math.isfinite(dose.exposure):
        return Quantity(0.0, "level_a", validity=(NOTHING_PLAYED,), known=False)
    parts = math.sqrt(sum((part.share * part.uncertainty) ** 2 for part in dose.parts))
    return Quantity(dose.exposure, "level_a", math.hypot(_EAR, parts))


def _dose(build: Build, sounding: Sounding, exposure: ExposureInPlace, exchange: float) -> Dose:
    heard = [(*_level(build, sounding, part), _time(build, part)) for part in exposure.parts]
    if any(level is None for level, _, _ in heard):
        return Dose(exposure.who, -math.inf, exchange, (), exposure.place)
    weights = [time * 2.0 ** ((level or 0.0) / exchange) for level, _, time in heard]
    whole = sum(weights) or 1.0
    parts = tuple(
        DosePart(part.of, part.point, level or 0.0, u, time, weight / whole)
        for part, (level, u, time), weight in zip(exposure.parts, heard, weights, strict=True)
    )
    with at(exposure.place):
        total = exposure_level([part.level for part in parts], [part.duration for part in parts], exchange)
    return Dose(exposure.who, total, exchange, parts, exposure.place)


def _time(build: Build, part: NoisePartInPlace) -> float:
    """Time as typed, else that of all takes of the session."""
    if part.duration is not None:
        return part.duration
    takes = {state.name for state in build.states if state.takes}
    return sum(phase.duration for phase in build.air.session if phase.state in takes)


def _level(build: Build, sounding: Sounding, part: NoisePartInPlace) -> tuple[float | None, float]:
    """Level of a part and what the way of finding it adds to its uncertainty; none where nothing is played."""
    if part.of == "monitors":
        return _at_the_desk(build, sounding), _TURNED
    if part.of == "players":
        loudest = max(sounding.played, key=lambda each: each.level, default=None)
        return (None, 0.0) if loudest is None else (loudest.level, loudest.uncertainty)
    if part.point:
        return _on_headphones(build, sounding, part), _TURNED
    return part.level, 0.0


def _at_the_desk(build: Build, sounding: Sounding) -> float:
    """Monitors at the engineer's ears, with what comes through the wall in the loudest state."""
    assert build.brief.monitor is not None
    level = build.brief.monitor[0]
    through = max((a_weighted_level(each.received) for each in sounding.between_rooms), default=-math.inf)
    return float(10.0 * math.log10(10.0 ** (level / 10.0) + 10.0 ** (through / 10.0)))


def _on_headphones(build: Build, sounding: Sounding, part: NoisePartInPlace) -> float:
    """As people listen, never more than amplifier and limiter give; or as much as they give.

    At full voltage the peaks of music are what the amplifier can just do, so its mean lies a crest lower.
    """
    assert build.signals is not None
    point = next(each for each in sounding.signals.points if each.name == part.point)
    limiter = next(each.limiter for each in build.signals.points if each.name == part.point)
    crest = build.library.find(Limit, "crest of music").value.value
    most = min(point.alone - crest, math.inf if limiter is None else limiter)
    if part.of == "headphones turned up":
        return most
    return min(part.level if part.level is not None else build.signals.limits.listening, most)


def what_would_do(dose: Dose, enough: float) -> tuple[DosePart, float, float] | None:
    """Part that weighs most, by how much to turn it down alone, and how long it may last, for an exposure.

    Parameters
    ----------
    dose : Dose
        Noise of a day.
    enough : float
        Exposure that is to be reached [dB(A)].

    Returns
    -------
    tuple of DosePart and two floats, or None
        Part, decibels, seconds; `None` where the other parts alone are too much.
    """
    largest = max(dose.parts, key=lambda part: part.share)
    others = sum(_weight(part, dose.exchange) for part in dose.parts if part is not largest)
    left = WORKING_DAY * 2.0 ** (enough / dose.exchange) - others
    if left <= 0.0:
        return None
    down = dose.exchange * math.log2(_weight(largest, dose.exchange) / left)
    return largest, down, left / 2.0 ** (largest.level / dose.exchange)


def _weight(part: DosePart, exchange: float) -> float:
    return float(part.duration * 2.0 ** (part.level / exchange))
