"""How the uncertainties of ways, vehicle and places make that of a level."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from hushwright.evaluation.results import Bands, PathLevel
from hushwright.evaluation.sound.links import bands
from hushwright.evaluation.sound.ways import Arrivals
from hushwright.physics.acoustics.bands import energy_sum_level
from hushwright.physics.acoustics.spread import SHARED_BETWEEN_BUILD_UPS
from hushwright.physics.acoustics.weighting import A_WEIGHTING

FloatArray = NDArray[np.float64]

SHOWN = 60.0
"""dB under the loudest way, below which a way is left out of lists: a millionth of the energy; common practice,
no source."""

OUT_OF_THE_SUM = -300.0
"""dB, weight of bands that a quantity does not count."""


@lru_cache(maxsize=512)
def path_levels(found: Arrivals) -> tuple[PathLevel, ...]:
    """Ways by name with their A-weighted share, loudest first; several ways of one name are one."""
    by_name: dict[str, list[int]] = {}
    for index, link in enumerate(found.links):
        by_name.setdefault("round the gap" if link.kind == "gap" else link.name, []).append(index)
    if not by_name:
        return ()
    energy = 10.0 ** (found.levels / 10.0)
    sums = np.array([energy[rows].sum(axis=0) for rows in by_name.values()])
    # Pieces of one way are predicted by one law, so their errors go together.
    errors = energy * found.uncertainty
    uncertainty = np.array([errors[rows].sum(axis=0) for rows in by_name.values()]) / sums
    levels = 10.0 * np.log10(sums)
    level_a = np.asarray(energy_sum_level(levels + A_WEIGHTING, axis=1))
    return _shown(tuple(by_name), [found.links[rows[0]] for rows in by_name.values()], levels, uncertainty, level_a)


def _shown(
    names: tuple[str, ...], links: Sequence[object], levels: FloatArray, uncertainty: FloatArray, level_a: FloatArray
) -> tuple[PathLevel, ...]:
    share = 10.0 ** ((level_a - level_a.max()) / 10.0)
    share = share / share.sum()
    found = [
        PathLevel(name, bands(levels[row]), bands(uncertainty[row]), float(level_a[row]), float(share[row]),
                  getattr(links[row], "place", ""), getattr(links[row], "note", ""), getattr(links[row], "kind", ""),
                  getattr(links[row], "family", ""), getattr(links[row], "build_up", ""))
        for row, name in enumerate(names)
        if level_a[row] > level_a.max() - SHOWN
    ]  # fmt: skip
    # Equal ways, such as both sides, come in one order whatever the last bits of their levels are.
    return tuple(sorted(found, key=lambda each: (-round(each.level_a, 6), each.name)))


@lru_cache(maxsize=512)
def combined_uncertainty(paths: tuple[PathLevel, ...], spread: Bands, allowance: float) -> Bands:
    """Standard uncertainty of the level per band: build-ups in part apart, vehicle and places on top."""
    energy = 10.0 ** (np.array([each.levels for each in paths]) / 10.0)
    share = energy / energy.sum(axis=0)
    squared = _squared_error(paths, share * np.array([each.uncertainty for each in paths]))
    return bands(np.sqrt(squared + np.square(spread) + allowance**2))


def _squared_error(paths: tuple[PathLevel, ...], errors: FloatArray) -> FloatArray:
    """Square of the error of all ways: a part goes together in a family, the rest in a build-up of it."""
    families: dict[str, list[int]] = {}
    build_ups: dict[tuple[str, str], list[int]] = {}
    for index, each in enumerate(paths):
        family = each.family or f"way {each.name}"
        families.setdefault(family, []).append(index)
        build_ups.setdefault((family, each.build_up), []).append(index)

    def squared(rows: Iterable[list[int]]) -> FloatArray:
        return np.asarray(np.sum([np.square(errors[row].sum(axis=0)) for row in rows], axis=0))

    shared = SHARED_BETWEEN_BUILD_UPS
    return shared * squared(families.values()) + (1.0 - shared) * squared(build_ups.values())


def weighted_uncertainty(
    paths: tuple[PathLevel, ...], spread: Bands, allowance: float, weighting: NDArray[np.float64]
) -> float:
    """Standard uncertainty of a weighted sum of bands: errors of one way go together over all its bands."""
    if not paths:
        return allowance
    energy = 10.0 ** ((np.array([each.levels for each in paths]) + weighting) / 10.0)
    total = float(energy.sum())
    if total <= 0.0:
        return allowance
    squared = _squared_error(paths, np.sum(energy * np.array([each.uncertainty for each in paths]), axis=1) / total)
    places = np.sum(np.square(energy.sum(axis=0) / total * np.asarray(spread)))
    return float(np.sqrt(squared + places + allowance**2))


def octave_weighting(octave: float, frequencies: NDArray[np.float64]) -> NDArray[np.float64]:
    """Weights that count the three thirds of one octave and nothing else [dB]."""
    return np.where(np.abs(np.log2(frequencies / octave)) < 0.5, 0.0, OUT_OF_THE_SUM)
