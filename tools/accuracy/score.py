"""Predictions beside measurements, in two halves that the digest of the row's name decides."""

from __future__ import annotations

import hashlib
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hushwright.physics.acoustics.bands import OCTAVE_BANDS, third_to_octave_reduction
from hushwright.physics.acoustics.partition import FINE, PartitionResult, Quadrature, sound_reduction
from hushwright.physics.acoustics.ratings import sound_transmission_class, weighted_sound_reduction_index
from tools.accuracy.reasons import Reason
from tools.accuracy.rows import Modelled, Row, Settings, read_rows, translate


@dataclass(frozen=True, slots=True)
class Compared:
    """A modelled row with its errors (predicted minus printed) [dB]."""

    row: Row
    group: str
    half: str
    result: PartitionResult
    predicted: dict[int, float]
    errors: dict[int, float]
    rating_errors: dict[str, float]


@dataclass(frozen=True, slots=True)
class Score:
    """Mean absolute error, bias and spread of one class in one half [dB]."""

    rows: int
    bands: int
    error: float
    bias: float
    ratings: int
    rating_error: float
    rating_bias: float


def halves(rows: Sequence[tuple[str, str]]) -> dict[str, str]:
    """Fit or score half of every row: by digest within its class, even places fit, odd places score."""
    groups: dict[str, list[str]] = defaultdict(list)
    for identity, group in rows:
        groups[group].append(identity)
    found = {}
    for members in groups.values():
        members.sort(key=lambda identity: hashlib.sha256(identity.encode()).hexdigest())
        for place, identity in enumerate(members):
            found[identity] = "fit" if place % 2 == 0 else "score"
    return found


def predicted_rating(kind: str, result: PartitionResult) -> float | None:
    """Single number of a prediction."""
    if kind == "Rw":
        return float(weighted_sound_reduction_index(result.reduction))
    if kind == "STC":
        return float(sound_transmission_class(result.reduction))
    if kind == "SRI average":
        return float(np.mean(result.reduction[6:22]))
    return None


def compare(
    settings: Settings | None = None, quadrature: Quadrature = FINE, half: str | None = None
) -> tuple[list[Compared], list[tuple[Row, Reason]]]:
    """All rows: compared ones and excluded ones."""
    rows = read_rows()
    translated = [(row, translate(row, settings)) for row in rows]
    placed = halves([(row.identity, found.group) for row, found in translated if isinstance(found, Modelled)])
    compared, excluded = [], []
    for row, found in translated:
        if isinstance(found, Reason):
            excluded.append((row, found))
        elif half is None or placed[row.identity] == half:
            compared.append(_compare(row, found, placed[row.identity], quadrature))
    return compared, excluded


def _compare(row: Row, found: Modelled, half: str, quadrature: Quadrature) -> Compared:
    result = sound_reduction(found.partition, quadrature=quadrature)
    octaves = third_to_octave_reduction(result.reduction)
    predicted = {round(band): float(octaves[i]) for i, band in enumerate(OCTAVE_BANDS)}
    errors = {band: predicted[band] - value for band, value in row.octaves.items()}
    ratings = {}
    for kind, value in row.ratings.items():
        number = predicted_rating(kind, result)
        if number is not None:
            ratings[kind] = number - value
    return Compared(row, found.group, half, result, predicted, errors, ratings)


def score(compared: Sequence[Compared]) -> Score:
    """Score of some rows; the band error is the mean over all bands."""
    errors = np.array([e for item in compared for e in item.errors.values()])
    # One row with two ratings counts once, by its mean.
    ratings = np.array([np.mean(list(item.rating_errors.values())) for item in compared if item.rating_errors])

    def mean(values: np.ndarray) -> float:
        return float(np.mean(values)) if values.size else float("nan")

    return Score(
        len(compared),
        errors.size,
        mean(np.abs(errors)),
        mean(errors),
        ratings.size,
        mean(np.abs(ratings)),
        mean(ratings),
    )
