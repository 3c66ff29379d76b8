"""What a face or opening has to keep out so that a limit of the brief is just met, all other ways as they stand."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from hushwright.evaluation.results import SILENCE, Bands, Evaluation, PathLevel
from hushwright.evaluation.sound.background import limits_of
from hushwright.evaluation.sound.between import required_margin
from hushwright.evaluation.sound.uncertainty import OUT_OF_THE_SUM, combined_uncertainty
from hushwright.model.build import Build, Target
from hushwright.physics.acoustics.bands import (
    OCTAVE_BANDS,
    THIRD_OCTAVE_BANDS,
    FloatArray,
    energy_sum_level,
    third_to_octave_levels,
)
from hushwright.physics.acoustics.weighting import A_WEIGHTING, a_weighted_level

_PART = 0.01
"""Share [-] of the energy that counts from which on a face has a part in a sound; common practice, no source."""

_MOST = 60.0
"""dB, most by which a sound reduction is taken to be raised or lowered; common practice, no source."""

_NO_LIMIT = float("inf")


@dataclass(frozen=True, slots=True)
class Allowance:
    """Highest levels of one criterion: octaves (9), thirds (27), or one A-weighted level (1), +inf without a limit."""

    limits: Bands

    def over(self, levels: Bands | FloatArray) -> float:
        """By how much all bands together lie over the limit [dB]; lowered by that, they would just meet it."""
        return float(np.max(self._apart(np.asarray(levels))))

    def of(self, levels: Bands) -> FloatArray:
        """Level [dB] of each third octave that would just be allowed, in the proportions that the sound has.

        An octave's limit is divided among its thirds, and an A-weighted limit among all bands, as the sound is divided.
        """
        array = np.asarray(levels)
        apart = self._apart(array)
        return array - (np.repeat(apart, len(array) // len(apart)))

    def weights(self, levels: Bands) -> FloatArray:
        """Weights of the third octaves [dB] in what decides: A-weighted all, else the octave or third most over."""
        array = np.asarray(levels)
        apart = self._apart(array)
        if len(apart) == 1:
            return np.asarray(A_WEIGHTING)
        each = len(array) // len(apart)
        decides = np.arange(len(array)) // each == int(np.argmax(apart))
        return np.where(decides, 0.0, OUT_OF_THE_SUM)

    def _apart(self, levels: FloatArray) -> FloatArray:
        if len(self.limits) == 1:
            return np.array([a_weighted_level(levels)]) - self.limits[0]
        if len(self.limits) == len(OCTAVE_BANDS):
            levels = third_to_octave_levels(levels)
        return np.asarray(levels - np.asarray(self.limits))


@dataclass(frozen=True, slots=True)
class Sound:
    """A sound that the brief limits, by the ways on which it comes."""

    key: str  # "background/fair/record", "rooms/record", "neighbours/record"
    name: str
    state: str
    room: str  # where it is heard; empty for the neighbours
    asks: str
    drawn: str  # how limits of bands are drawn from the criterion
    allowance: Allowance
    levels: Bands
    uncertainty: Bands
    paths: tuple[PathLevel, ...]
    place: str

    @property
    def slack(self) -> float:
        """By how much the whole sound stays under its limit [dB]; negative over it."""
        return -self.allowance.over(self.levels)


@dataclass(frozen=True, slots=True)
class FaceNeed:
    """One face or opening against one sound; ``together`` are all that have its build-up and change with it.

    ``own`` and ``others`` are levels by this build-up's ways and by all other ways; ``allowed`` is the level that its
    own ways may make, `SILENCE` where the others alone use it up and +inf without a limit.
    """

    name: str
    together: tuple[str, ...]
    sound: Sound
    own: Bands
    others: Bands
    allowed: Bands
    margin_uncertainty: Bands
    reduction: Bands
    reduction_uncertainty: Bands
    deciding: int
    share: float  # of the energy that counts
    spare: float | None  # dB that its reduction may fall, alike in all bands; negative: has to rise; `None`: no use
    without: float  # dB under the limit (negative: over) with nothing through this build-up

    @property
    def margin(self) -> tuple[float | None, ...]:
        """Allowed less own level [dB]; `None` where nothing is asked, or where no wall here would be enough."""
        return tuple(
            None if limit in (SILENCE, _NO_LIMIT) else limit - own
            for limit, own in zip(self.allowed, self.own, strict=True)
        )

    @property
    def needed(self) -> tuple[float | None, ...]:
        """Sound reduction that would be just enough [dB]; `None` as in `margin`, or for what has no layers."""
        if not self.reduction:
            return (None,) * len(self.own)
        return tuple(
            None if margin is None else there - margin
            for there, margin in zip(self.reduction, self.margin, strict=True)
        )

    @property
    def shared_margin(self) -> tuple[float | None, ...]:
        """Margin [dB]; where the other ways alone are over, by how much all ways alike lie under the limit, negative.

        Every way that is lowered by it meets the limit together with the others that are lowered as much.
        """
        under = self.sound.allowance.of(self.sound.levels) - np.asarray(self.sound.levels)
        alone = self.beyond_it
        return tuple(float(under[index]) if index in alone else margin for index, margin in enumerate(self.margin))

    @property
    def shared_need(self) -> tuple[float | None, ...]:
        """Sound reduction [dB] as `needed`, and its even share where the other ways alone are over."""
        if not self.reduction:
            return (None,) * len(self.own)
        return tuple(
            None if margin is None else there - margin
            for there, margin in zip(self.reduction, self.shared_margin, strict=True)
        )

    @property
    def beyond_it(self) -> tuple[int, ...]:
        """Positions of the bands in which the other ways alone are over."""
        return tuple(index for index, limit in enumerate(self.allowed) if limit == SILENCE)

    @property
    def loudest_others(self) -> tuple[str, ...]:
        """Loudest other ways where they alone are over, largest share first; none that lets in hardly anything."""
        own = set(ways_through(self.sound.paths, self.together))
        rest = [path for path in self.sound.paths if path not in own]
        weights = self.sound.allowance.weights(self.sound.levels)
        whole = energy_sum_level(np.asarray(self.sound.levels) + weights)
        over = {path.name: float(energy_sum_level(np.asarray(path.levels) + weights)) - whole for path in rest}
        found = {max(rest, key=lambda path: path.levels[band]).name for band in self.beyond_it if rest}
        counting = {name for name in found if over[name] >= 10.0 * np.log10(_PART)} or found
        return tuple(sorted(counting, key=lambda name: (-over[name], name)))

    @property
    def band(self) -> float:
        """Band that decides [Hz]."""
        return THIRD_OCTAVE_BANDS[self.deciding]


def face_need(
    sound: Sound, name: str, together: tuple[str, ...], reduction: Bands = (), uncertainty: Bands = ()
) -> FaceNeed | None:
    r"""Level and sound reduction that are just enough in one sound; `None` where it has no way through the face.

    Parameters
    ----------
    sound : Sound
        What is heard, and its limit.
    name : str
        Face or opening.
    together : tuple of str
        All faces that have its build-up, itself among them.
    reduction, uncertainty : tuple of float, shape (27,)
        Its sound reduction as it is, with its standard uncertainty [dB]; empty for a hole or a duct.

    Returns
    -------
    FaceNeed or None
        With the uncertainty of the margin.

    Notes
    -----
    With energies :math:`E = 10^{L/10}` of a band, its own ways may make :math:`E_{allowed} - E_{others}`; where that is
    not positive, no wall here would be enough. The level goes with the sound reduction decibel for decibel, so
    :math:`R_{needed} = R + L_{own} - L_{own, allowed}`. The limit is taken as exact. Errors common to all ways
    (vehicle, places, the sound outside) move both sums: :math:`u^2 = (u_c E_a/(E_a - E_o))^2 + u_{own}^2 +
    (u_o E_o/(E_a - E_o))^2`. Our own reasoning, no source.
    """
    own = ways_through(sound.paths, together)
    if not own:
        return None
    levels = np.asarray(sound.levels)
    mine = np.asarray(energy_sum_level([path.levels for path in own], axis=0))
    rest = np.maximum(10.0 ** (levels / 10.0) - 10.0 ** (mine / 10.0), 10.0 ** (SILENCE / 10.0))
    allowed = sound.allowance.of(sound.levels)
    left = 10.0 ** (allowed / 10.0) - rest
    enough = np.where(np.isposinf(left), _NO_LIMIT, 10.0 * np.log10(np.maximum(left, 10.0 ** (SILENCE / 10.0))))
    weights = sound.allowance.weights(sound.levels)
    others = 10.0 * np.log10(rest)
    whole = energy_sum_level(levels + weights)
    return FaceNeed(
        name, together, sound, _bands(mine), _bands(others), _bands(enough), _unsure(sound, own, rest, left),
        _with_slits(reduction, own, mine), uncertainty, int(np.argmax(mine + weights)),
        float(10.0 ** ((energy_sum_level(mine + weights) - whole) / 10.0)), _spare(sound, mine, others),
        -sound.allowance.over(others),
    )  # fmt: skip


def share_of(sound: Sound, name: str) -> float | None:
    """Share [-] of the energy that counts in a sound by the ways through one face or opening; `None` without a way.

    Parameters
    ----------
    sound : Sound
        What is heard, and its limit.
    name : str
        Face or opening; others with the same build-up are not counted.

    Returns
    -------
    float or None
        Over all bands as the ear weighs them for a limit in dB(A), else in the octave or third that decides.
    """
    own = ways_through(sound.paths, (name,))
    if not own:
        return None
    weights = sound.allowance.weights(sound.levels)
    mine = np.asarray(energy_sum_level([path.levels for path in own], axis=0))
    whole = energy_sum_level(np.asarray(sound.levels) + weights)
    return float(10.0 ** ((energy_sum_level(mine + weights) - whole) / 10.0))


def ways_through(paths: Iterable[PathLevel], together: tuple[str, ...]) -> tuple[PathLevel, ...]:
    """Ways through some faces or openings: straight, by their battens and fixings, by their slits."""
    names = tuple(name.replace(".", " ").replace("_", " ") for name in together)
    kinds = ("through", "bridges", "opening", "slit", "hole", "duct")
    return tuple(
        path for path in paths
        if path.kind in kinds and any(path.name == name or path.name.startswith(f"{name}, ") for name in names)
    )  # fmt: skip


def _with_slits(reduction: Bands, own: tuple[PathLevel, ...], mine: FloatArray) -> Bands:
    """Sound reduction of an opening with the slits at its seals, referred to its leaf."""
    leaf = [path.levels for path in own if path.kind != "slit"]
    if not reduction or len(leaf) == len(own) or not leaf:
        return reduction
    return _bands(np.asarray(reduction) - (mine - np.asarray(energy_sum_level(leaf, axis=0))))


def _unsure(sound: Sound, own: tuple[PathLevel, ...], rest: FloatArray, left: FloatArray) -> Bands:
    zero = (0.0,) * len(sound.levels)
    others = tuple(path for path in sound.paths if path not in own)
    of_own = np.asarray(combined_uncertainty(own, zero, 0.0))
    of_rest = np.asarray(combined_uncertainty(others, zero, 0.0)) if others else np.zeros(len(zero))
    ways = np.asarray(combined_uncertainty(sound.paths, zero, 0.0))
    common = np.sqrt(np.maximum(np.asarray(sound.uncertainty) ** 2 - ways**2, 0.0))
    usable = np.isfinite(left) & (left > 0.0)
    ratio = np.where(usable, rest / np.where(usable, left, 1.0), 0.0)
    return _bands(np.sqrt((common * (1.0 + ratio)) ** 2 + of_own**2 + (ratio * of_rest) ** 2))


def _spare(sound: Sound, mine: FloatArray, others: FloatArray) -> float | None:
    """By how much the face's own ways may rise, all bands alike, until the limit is just met [dB]."""
    if sound.allowance.over(others) > 0.0:
        return None

    def over(by: float) -> float:
        return sound.allowance.over(np.logaddexp(others * _NEPER, (mine + by) * _NEPER) / _NEPER)

    low, high = -_MOST, _MOST
    if over(high) <= 0.0:
        return high
    if over(low) > 0.0:
        return low
    while high - low > 0.01:
        middle = (low + high) / 2.0
        low, high = (middle, high) if over(middle) <= 0.0 else (low, middle)
    return low


_NEPER = float(np.log(10.0) / 10.0)


def _bands(values: FloatArray) -> Bands:
    return tuple(float(each) for each in values)


def sounds_of(evaluation: Evaluation) -> tuple[Sound, ...]:
    """Every sound that the brief limits: outside and rain in each state, between the rooms, at the neighbours."""
    return (*_backgrounds(evaluation), *_between(evaluation), *_neighbours(evaluation))


def _backgrounds(evaluation: Evaluation) -> Iterable[Sound]:
    brief = evaluation.build.brief
    targets = {situation.name: situation.target for situation in brief.situations}
    for found in evaluation.backgrounds:
        rain = found.key.startswith("rain/")
        target = (brief.rain[1] if brief.rain is not None else None) if rain else targets.get(found.situation)
        allowance = None if target is None else allowance_of(target)
        if target is not None and allowance is not None:
            name = "rain" if rain else found.situation.replace("_", " ")
            yield Sound(
                f"background/{found.key}", name, found.state, found.room, f"at most {target.text}", _drawn(allowance),
                allowance, found.levels, found.uncertainty, found.paths, target.place,
            )  # fmt: skip


def allowance_of(target: Target) -> Allowance | None:
    """Highest levels that a target allows; `None` where its kind has no bands."""
    if target.kind == "dB(A)":
        return Allowance((target.value,))
    limits = limits_of(target)
    return None if limits is None else Allowance(limits.limits)


def _drawn(allowance: Allowance) -> str:
    if len(allowance.limits) == 1:
        return "the limit counts all bands together; each band is allowed its own level moved by what the sum has left"
    if len(allowance.limits) == len(OCTAVE_BANDS):
        return "the limit of each octave is shared among its thirds as the sound is"
    return "each third octave has its own limit"


def _between(evaluation: Evaluation) -> Iterable[Sound]:
    build = evaluation.build
    control = build.room_for("control")
    if build.brief.monitor is None or control is None:
        return
    below, _ = required_margin(build)
    for found in evaluation.between_rooms:
        octaves = third_to_octave_levels(np.asarray(found.received))
        margins = dict(found.octave_margins)
        limits = tuple(
            float(level) + margins[octave] - below if octave in margins else _NO_LIMIT
            for octave, level in zip(OCTAVE_BANDS, octaves, strict=True)
        )
        allowance = Allowance(limits)
        yield Sound(f"rooms/{found.state}", "direct sound in the control room", found.state, control.name,
                    f"at least {below:g} dB under the monitors in each octave", _drawn(allowance), allowance,
                    found.received, found.uncertainty, found.paths, f"{build.brief.monitor[3]}.below")  # fmt: skip


def _neighbours(evaluation: Evaluation) -> Iterable[Sound]:
    asked = evaluation.build.brief.neighbours
    if asked is None:
        return
    distance, side, limit, place = asked
    for found in evaluation.neighbours:
        allowance = Allowance((limit,))
        yield Sound(f"neighbours/{found.state}", f"at the neighbours, {distance:g} m to the {side}", found.state, "",
                    f"at most {limit:g} dB(A)", _drawn(allowance), allowance, found.levels, found.uncertainty,
                    found.paths, f"{place}.limit")  # fmt: skip


def names_with(build: Build, name: str) -> tuple[str, ...]:
    """All faces whose layers are those of a face or opening, itself among them."""
    surfaces = [surface for room in build.rooms for surface in room.surfaces]
    place = next((each.place for each in surfaces if each.name == name), "")
    return tuple(each.name for each in surfaces if each.place == place) if place else (name,)


def needs_of(evaluation: Evaluation, name: str) -> tuple[FaceNeed, ...]:
    """What a face or opening is asked in each sound in which it has a way, the sound that decides first.

    Parameters
    ----------
    evaluation : Evaluation
        As computed.
    name : str
        Face such as ``quiet_room.left``, or opening.

    Returns
    -------
    tuple of FaceNeed
        Those in which it has a part by the least slack of the sound, then those in which it hardly counts.
    """
    together = names_with(evaluation.build, name)
    face = next((each for each in evaluation.faces if each.name == name), None)
    reduction, uncertainty = ((), ()) if face is None else (face.reduction, face.uncertainty)
    found = (face_need(sound, name, together, reduction, uncertainty) for sound in sounds_of(evaluation))
    return tuple(sorted((each for each in found if each is not None),
                        key=lambda each: (each.share < _PART, each.sound.slack)))  # fmt: skip


def asked_faces(evaluation: Evaluation) -> tuple[str, ...]:
    """Faces and openings that any limited sound passes, in the order of the rooms; one of each shared build-up."""
    build = evaluation.build
    paths = [path for sound in sounds_of(evaluation) for path in sound.paths]
    names = [surface.name for room in build.rooms for surface in room.surfaces]
    names += [opening.name for opening in build.openings]
    found: dict[tuple[str, ...], str] = {}
    for name in names:
        if ways_through(paths, (name,)):
            found.setdefault(names_with(build, name), name)
    return tuple(found.values())
