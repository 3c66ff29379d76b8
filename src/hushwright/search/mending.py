"""What a first look can try on the ways by which most sound comes in: changes of its own build, by what each gains."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

import numpy as np

from hushwright.document.edits import edited
from hushwright.errors import InvalidInput, UnreadableDocument
from hushwright.evaluation.couple import Core, couple_sound
from hushwright.evaluation.evaluate import evaluate_nominal
from hushwright.evaluation.guard import CannotEvaluate
from hushwright.evaluation.mass.space import first_take
from hushwright.evaluation.results import Bands
from hushwright.evaluation.sound.faces import Setting
from hushwright.evaluation.sound.floor import floating_room, settled
from hushwright.evaluation.sound.heard import setting_of
from hushwright.evaluation.sound.needs import ways_through
from hushwright.model.build import Build
from hushwright.physics.acoustics.bands import energy_sum_level
from hushwright.physics.air import Air
from hushwright.search.build_ups import OTHER_FACE
from hushwright.search.changes import Change, Place, places_of
from hushwright.search.changes_of_floor import changes_of_floor
from hushwright.search.chased import Chased, chased_as
from hushwright.search.comparing import build_from, predicted
from hushwright.search.first_look import MENDED, FirstLook, Mend
from hushwright.search.writing import Writing

_PARTS = 4  # parts of the build that are looked at
_NAMED = 2  # changes of each that are told
_HEARD = 3  # changes of a face that are worked out in the room: those by which the face itself keeps out most more
_LEAST = 1.0  # dB off one way that is worth telling; common practice, no source


def with_mends(look: FirstLook) -> FirstLook:
    """Add to a look what can be tried where most sound comes in; the same where it is quiet or there is nothing.

    Parameters
    ----------
    look : FirstLook
        As computed.

    Returns
    -------
    FirstLook
        With up to four parts of the build, the largest share first, those without a change that helps among them.
    """
    worst = next((each.worst for each in look.chosen.topics if each.name == MENDED), None)
    if worst is None or worst.verdict not in ("fails", "unproven"):
        return look
    chased = chased_as(look.evaluation, worst.id)
    if chased is None:
        return look
    trying = _Trying(look.text, look.evaluation.build, chased)
    places = [each for each in places_of(trying.build, chased) if each.changes][:_PARTS]
    return replace(look, mends=tuple(trying.mend(each) for each in places))


class _Trying:
    """The look's build, and the sound that is tried to be mended."""

    def __init__(self, text: str, build: Build, chased: Chased) -> None:
        self.text, self.build, self.chased = text, build, chased
        self._core: Core | None = None
        self._value = 0.0

    def mend(self, place: Place) -> Mend:
        """Best changes of one part."""
        faces = [each for room in self.build.rooms for each in room.surfaces if each.place == place.name]
        names = tuple(each.name for each in faces)
        changes = [each for each in (*place.changes, *self._mounts(place)) if not each.what.startswith(OTHER_FACE)]
        if names:
            changes = sorted(changes, key=lambda each: -self._tried(each, lambda build: self._of_face(build, names)))
        found = [
            (each.what, self._tried(each, lambda build: self._in_the_room(build, place.share)))
            for each in (changes[:_HEARD] if names else changes)
        ]
        best: dict[str, tuple[str, float]] = {}  # of one kind, as a space deeper by more or less, the best
        for each in sorted((one for one in found if one[1] >= _LEAST), key=lambda one: -one[1]):
            best.setdefault(each[0].partition(" by ")[0], each)
        part = _together(names) if names else changes[0].where
        return Mend(part, place.share, tuple(best.values())[:_NAMED])

    def _mounts(self, place: Place) -> Iterator[Change]:
        """Softer mounts under a floor, which the sound through it feels too."""
        for room in self.build.rooms:
            for surface in room.surfaces:
                if surface.place == place.name and surface.face == "floor":
                    for what, where, edits in changes_of_floor(
                        self.build, surface, Writing(self.build), of_mounts=True
                    ):
                        yield Change(what, where, tuple(edits), place.name)

    def _tried(self, change: Change, gain_of: Callable[[Build], float]) -> float:
        """Gain of a change [dB]; nothing where the build cannot have it."""
        try:
            build, _ = build_from(edited(self.text, change.edits), "first look")
            return 0.0 if build is None else gain_of(build)
        except (InvalidInput, UnreadableDocument, CannotEvaluate, KeyError):
            return 0.0

    def _of_face(self, build: Build, names: Sequence[str]) -> float:
        """What a face by itself keeps out more, as its ways weigh the bands that decide."""
        before, after = _reduction(self.build, names[0]), _reduction(build, names[0])
        own = ways_through(self.chased.sound.paths, tuple(names))
        if not before or not after or not own:
            return 0.0
        sound = self.chased.sound
        levels = np.asarray(energy_sum_level([path.levels for path in own], axis=0))
        levels = levels + np.asarray(sound.allowance.weights(sound.levels))
        gains = np.asarray(after) - np.asarray(before)
        return float(energy_sum_level(levels) - energy_sum_level(levels - gains))

    def _in_the_room(self, build: Build, share: float) -> float:
        """From what all of the sound falls by, what its own share of it does."""
        if self._core is None:
            nominal, self._core = evaluate_nominal(self.build)
            self._value = nominal.quantities[self.chased.key].value
        heard = couple_sound(build, build, self._core, values_alone=True)
        left = 1.0 - (1.0 - 10.0 ** ((heard[self.chased.key].value - self._value) / 10.0)) / share
        return -10.0 * math.log10(max(left, 0.01))


def _together(names: Sequence[str]) -> str:
    """Faces of one build-up, what they have in common said once.

    Examples
    --------
    >>> _together(["quiet_room.wheel_box_left", "quiet_room.wheel_box_right"])
    'quiet room wheel box left and right'
    """
    told = [name.replace("_", " ").replace(".", " ").split() for name in names]
    common = 0
    while all(common < len(words) - 1 and words[common] == told[0][common] for words in told):
        common += 1
    return " ".join((*told[0][:common], " and ".join(" ".join(words[common:]) for words in told)))


def _reduction(build: Build, name: str) -> Bands:
    """Sound reduction of a face on its mounts as loaded."""
    air = Air(build.brief.air_temperature)
    setting: Setting = setting_of(build, air)
    found = predicted(settled(build, floating_room(build, first_take(build), air)), name, setting)
    return () if found is None else found[0].reduction
