"""The sound that a search makes quieter: one verdict of the group that asks for quiet, with the ways that decide it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from hushwright.errors import InvalidInput
from hushwright.evaluation.results import Evaluation, PathLevel, Quantity
from hushwright.evaluation.sound.background import deciding_band, value_alone
from hushwright.evaluation.sound.fans_alone import strictest_situation
from hushwright.evaluation.sound.needs import Sound, allowance_of, sounds_of
from hushwright.model.build import Target
from hushwright.verdicts.check import slug
from hushwright.verdicts.verdict import Verdict

_FANS = ("fan", "flow")


@dataclass(frozen=True, slots=True)
class Chased:
    """A sound with the quantity of its verdict, and its ways with their shares of what decides, largest first."""

    verdict: str
    key: str
    sound: Sound
    ways: tuple[PathLevel, ...]
    shares: tuple[float, ...]
    target: Target | None

    @property
    def band(self) -> str:
        """Band that decides, in words; empty where all count."""
        found = deciding_band(self.sound.levels, self.target)
        return "" if found is None else found[0]

    def without(self, kinds: Sequence[str]) -> Quantity | None:
        """Value without ways of some kinds; `None` where there are none, or nothing else."""
        kept = [way.levels for way in self.ways if way.kind not in kinds]
        if not kept or len(kept) == len(self.ways) or self.target is None:
            return None
        levels = 10.0 * np.log10(np.sum(10.0 ** (np.asarray(kept) / 10.0), axis=0))
        return value_alone(tuple(float(each) for each in levels), self.target)


def chased_sounds(evaluation: Evaluation) -> tuple[Chased, ...]:
    """Every sound of a build that a search can make quieter."""
    return (*(_chased(each, each.key, _target(evaluation, each)) for each in sounds_of(evaluation)),
            *_fans(evaluation))  # fmt: skip


def chased_as(evaluation: Evaluation, verdict: str) -> Chased | None:
    """Sound of one verdict by its identifier; `None` where the build has no such sound."""
    return next((each for each in chased_sounds(evaluation) if each.verdict == verdict), None)


def open_verdict(evaluation: Evaluation, verdicts: Sequence[Verdict], wanted: str = "") -> Verdict:
    """Verdict that is to be met: the wanted one, else the worst of the group that asks for quiet.

    Parameters
    ----------
    evaluation : Evaluation
        Of the build.
    verdicts : sequence of Verdict
        Of the same.
    wanted : str, optional
        Identifier of a verdict.

    Returns
    -------
    Verdict
        One on a sound, not met.

    Raises
    ------
    InvalidInput
        If there is none, or the wanted one is met or about no sound.
    """
    known = {each.verdict for each in chased_sounds(evaluation)}
    found = {each.id: each for each in verdicts if each.id in known and each.margin is not None}
    if wanted and wanted not in found:
        told = ", ".join(found) or "none"
        raise InvalidInput(f"{wanted} is no verdict on a sound with a limit; there are: {told}")
    if wanted and found[wanted].verdict == "meets":
        raise InvalidInput(f"{wanted} is met already, with its margin")
    left = [each for each in found.values() if each.verdict in ("fails", "unproven")]
    if not left:
        raise InvalidInput("every sound with a limit is met already, with its margin")
    return found[wanted] if wanted else min(left, key=lambda each: each.margin or 0.0)


def _target(evaluation: Evaluation, sound: Sound) -> Target | None:
    brief = evaluation.build.brief
    if sound.key.startswith("background/rain/"):
        return brief.rain[1] if brief.rain is not None else None
    situation = sound.key.removeprefix("background/").rpartition("/")[0]
    return next((each.target for each in brief.situations if sound.key.startswith("background/")
                 and each.name == situation), None)  # fmt: skip


def _chased(sound: Sound, key: str, target: Target | None) -> Chased:
    name = sound.key.removeprefix("background/") if sound.key.startswith("background/rain/") else sound.key
    weights = sound.allowance.weights(sound.levels)
    energies = [float(np.sum(10.0 ** ((np.asarray(way.levels) + weights) / 10.0))) for way in sound.paths]
    whole = sum(energies) or 1.0
    ranked = sorted(zip(sound.paths, energies, strict=True), key=lambda pair: (-pair[1], pair[0].name))
    before = "rain-" if name != sound.key else ""
    return Chased(before + slug(name), key, sound, tuple(way for way, _ in ranked),
                  tuple(energy / whole for _, energy in ranked), target)  # fmt: skip


def _fans(evaluation: Evaluation) -> Iterator[Chased]:
    """Fans and moving air on their own, by the ways that they have in any background of their state."""
    strictest = strictest_situation(evaluation.build)
    limits = {"fans-alone": evaluation.build.air.fans_alone,
              "fans-in-takes": strictest.target if strictest is not None else None}  # fmt: skip
    for found in evaluation.air.sounds:
        heard = next((each for each in evaluation.backgrounds if each.state == found.state), None)
        if heard is None:
            continue
        paths = tuple(path for path in heard.paths if path.kind in _FANS)
        for name, target in limits.items():
            allowance = None if target is None else allowance_of(target)
            if target is not None and allowance is not None and paths:
                key = f"{name}/{found.state}"
                sound = Sound(key, "fans and moving air", found.state, found.room, f"at most {target.text}", "",
                              allowance, found.levels, found.uncertainty, paths, target.place)  # fmt: skip
                yield _chased(sound, key, target)
