"""How much of what gets in by a door or window takes the slit at its seals."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from hushwright.evaluation.results import SILENCE, Evaluation
from hushwright.evaluation.sound.faces import inner_partition, predict
from hushwright.evaluation.sound.heard import setting_of
from hushwright.evaluation.sound.links import leaf_depth, slit_through
from hushwright.evaluation.sound.needs import Sound, sounds_of, ways_through
from hushwright.evaluation.sound.passages import passed, stands_in_inner_leaf
from hushwright.model.build import OpeningInPlace
from hushwright.physics.acoustics.bands import FloatArray, energy_sum_level
from hushwright.physics.air import Air

HARDLY = 0.01
"""Share [-] under which nobody hears a way go: 0.04 dB; common practice, no source."""


@dataclass(frozen=True, slots=True)
class SlitShare:
    """The slit of one door or window, in the limited sound where it counts most."""

    opening: OpeningInPlace
    sound: Sound
    of_opening: float  # largest share [-] of what gets in by this door or window, over all limited sounds
    of_all: float  # largest share [-] of all that gets in

    @property
    def is_heard(self) -> bool:
        """Whether less of a slit could change anything one can hear."""
        return self.of_opening >= HARDLY and self.of_all >= HARDLY

    @property
    def gain(self) -> float:
        """What no slit at all would gain at most [dB]."""
        return -10.0 * math.log10(max(1.0 - self.of_all, 1e-6))


def slit_shares(evaluation: Evaluation) -> tuple[SlitShare, ...]:
    """Shares of the slits of all doors and windows with seals that are a way of a limited sound.

    Parameters
    ----------
    evaluation : Evaluation
        As computed.

    Returns
    -------
    tuple of SlitShare
        In the order of the file. One that is no way of its own in any limited sound is left out: what its slit lets in
        goes round the gap or through another room, and is not told apart there.
    """
    sounds = sounds_of(evaluation)
    found = (_share(opening, sounds, evaluation) for opening in evaluation.build.openings if opening.seals is not None)
    return tuple(each for each in found if each is not None)


def _share(opening: OpeningInPlace, sounds: tuple[Sound, ...], evaluation: Evaluation) -> SlitShare | None:
    by_gap = _of_the_gap(opening, evaluation)
    shares = [(sound, *pair) for sound in sounds if (pair := _in_sound(opening, sound, by_gap)) is not None]
    if not shares:
        return None
    worst = max(shares, key=lambda each: each[2])[0]
    return SlitShare(opening, worst, max(each[1] for each in shares), max(each[2] for each in shares))


def _in_sound(opening: OpeningInPlace, sound: Sound, by_gap: FloatArray | None) -> tuple[float, float] | None:
    """Share of the slit in what gets in by its door, and in all, as the ear weighs the bands that decide."""
    own = ways_through(sound.paths, (opening.name,))
    if not own or any(path.name.endswith(", open") for path in own):
        return None
    slits = [np.asarray(path.levels) for path in own if path.kind == "slit"]
    if by_gap is not None:
        slits += [np.asarray(path.levels) + by_gap for path in sound.paths if path.kind == "gap"]
    leaf = [np.asarray(path.levels) for path in own if path.kind != "slit"]
    weights = np.asarray(sound.allowance.weights(sound.levels))

    def energy(levels: list[FloatArray]) -> float:
        return float(sum(10.0 ** (float(energy_sum_level(each + weights)) / 10.0) for each in levels))

    slit, whole = energy(slits), energy([np.asarray(sound.levels)])
    return slit / max(slit + energy(leaf), 10.0 ** (SILENCE / 10.0)), min(slit / whole, 1.0)


def _of_the_gap(opening: OpeningInPlace, evaluation: Evaluation) -> FloatArray | None:
    """Part of what leaves the gap at this face by the slit [dB], as if all that goes round the gap left here.

    ``None`` for a door that stands through its whole face: its slit is a way of its own.
    """
    build = evaluation.build
    surface = next((each for room in build.rooms for each in room.surfaces
                    if (each.room, each.face) == (opening.room, opening.face)), None)  # fmt: skip
    if surface is None or not surface.inner_leaf or not stands_in_inner_leaf(passed(build, opening), surface):
        return None
    setting = setting_of(build, Air(build.brief.air_temperature))
    result = predict(inner_partition(surface, setting), setting)
    through = surface.area * np.sum([result.direct, result.resonant, result.bridged], axis=0)
    slit = slit_through(opening, leaf_depth(opening), setting)
    return np.asarray(10.0 * np.log10(slit / (slit + through)))


def slit_share_of(evaluation: Evaluation, name: str) -> SlitShare | None:
    """Share of the slit of one opening, as in `slit_shares`; ``None`` without seals or without a way of its own."""
    opening = next((each for each in evaluation.build.openings if each.name == name), None)
    if opening is None or opening.seals is None:
        return None
    return _share(opening, sounds_of(evaluation), evaluation)
