"""Why a heavier quiet room comes out no quieter: what its walls do not keep out, and what is left inside by them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hushwright.evaluation.results import Background, Evaluation, PathLevel
from hushwright.evaluation.sound.background import deciding_band
from hushwright.evaluation.sound.deciding import deciding_of, target_of
from hushwright.physics.acoustics.bands import FREQUENCIES
from hushwright.physics.acoustics.weighting import a_weighting
from hushwright.verdicts.check import slug
from hushwright.verdicts.verdict import Verdict

_FALLS = 1.0
"""dB, from which a way is told as quieter."""
_RISES = 0.5
_WORTH = 0.05
"""Share of the deciding band from which a way is named."""


@dataclass(frozen=True, slots=True)
class WayIn:
    """One way into the heavier room: its share of what decides there, and its change [dB] against the lighter room."""

    name: str
    share: float
    change: float


@dataclass(frozen=True, slots=True)
class NoQuieter:
    """A heavier room that is no quieter: ways that do not fall, and the share of those that do, before and after."""

    lighter: str
    heavier: str
    band: str
    ways: tuple[WayIn, ...]
    share_before: float
    share_after: float
    swallows_less: bool  # a fan, which weight does not touch, is louder in the heavier room


def sound_of(verdict: Verdict | None, evaluation: Evaluation) -> Background | None:
    """Background that a verdict is about."""
    if verdict is None:
        return None
    return next((one for one in evaluation.backgrounds if verdict.id == f"background-{slug(one.key)}"), None)


def no_quieter(
    names: tuple[str, str], verdicts: tuple[Verdict, Verdict], evaluations: tuple[Evaluation, Evaluation]
) -> NoQuieter | None:
    """What keeps a heavier quiet room from being quieter than a lighter one.

    Parameters
    ----------
    names : tuple of str
        Weights, the lighter first.
    verdicts : tuple of Verdict
        On the background in each.
    evaluations : tuple of Evaluation
        Of each.

    Returns
    -------
    NoQuieter or None
        `None` where the heavier one is quieter by 1 dB or more, or nothing can be told.
    """
    values = [one.value for one in verdicts]
    sounds = [sound_of(one, evaluation) for one, evaluation in zip(verdicts, evaluations, strict=True)]
    if None in values or values[1] <= values[0] - _FALLS:  # type: ignore[operator]
        return None
    light, heavy = sounds
    if light is None or heavy is None:
        return None
    build = evaluations[1].build
    band, ways = deciding_of(heavy, build)
    decides = deciding_band(heavy.levels, target_of(heavy, build))
    weights = 10.0 ** (a_weighting(FREQUENCIES) / 10.0) if decides is None else decides[1].astype(float)
    before = {one.name: _energy(one, weights) for one in light.paths}
    after = {one.name: _energy(one, weights) for one in heavy.paths}
    found = [
        WayIn(one.name, one.share, _decibels(after[one.name], before[one.name])) for one in ways if one.name in before
    ]
    falling = {each.name for each in found if each.change <= -_FALLS}
    stay = tuple(each for each in found if each.name not in falling and each.share >= _WORTH)
    kinds = {one.name: one.kind for one in ways}
    fans = [each.change for each in stay if kinds[each.name] == "fan"]
    return NoQuieter(
        *names, band, stay, _share(before, falling), _share(after, falling), bool(fans) and min(fans) >= _RISES
    )


def _energy(one: PathLevel, weights: NDArray[np.float64]) -> float:
    return float(np.sum(weights * 10.0 ** (np.asarray(one.levels) / 10.0)))


def _decibels(after: float, before: float) -> float:
    return 10.0 * float(np.log10(max(after, 1e-30) / max(before, 1e-30)))


def _share(energies: dict[str, float], names: set[str]) -> float:
    return sum(energy for name, energy in energies.items() if name in names) / max(sum(energies.values()), 1e-30)
