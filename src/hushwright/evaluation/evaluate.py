"""Build → Evaluation: the third of the four verbs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import cast

from hushwright.evaluation.cost.cost import cost_of, cost_quantities
from hushwright.evaluation.couple import Core, couple, with_sound
from hushwright.evaluation.guard import at, located
from hushwright.evaluation.mass.space import first_take
from hushwright.evaluation.parts import Parts, floats_of, parts_of
from hushwright.evaluation.results import Evaluation, FacePrediction, Quantity, Resonance, RoomSound
from hushwright.evaluation.results.cost import CostResult
from hushwright.evaluation.sensitivity import InputChanges, changes_by, joined
from hushwright.evaluation.sound.absorption import room_field, room_sound
from hushwright.evaluation.sound.floor import settled
from hushwright.evaluation.sound.heard import Heard, Sounds, heard_of, is_remembered, setting_of
from hushwright.evaluation.sound.predictions import face_predictions
from hushwright.evaluation.wiring.cables import with_cables
from hushwright.model.build import Build, Input
from hushwright.physics.air import Air

__all__ = [
    "Core",
    "changes_of",
    "completed",
    "couple",
    "evaluate",
    "evaluate_nominal",
    "with_build",
    "with_earlier_shares",
]


def evaluate(build: Build) -> Evaluation:
    """Compute every quantity with its uncertainty.

    Parameters
    ----------
    build : Build
        What is there.

    Returns
    -------
    Evaluation
        Quantities, ways of the sound, space, mounts, masses.

    Raises
    ------
    CannotEvaluate
        If a part lies outside what its law takes; says which, with file and line.
    """
    nominal, core = evaluate_nominal(build)
    return completed(nominal, changes_of(nominal, core, nominal.build.inputs))


def evaluate_nominal(build: Build) -> tuple[Evaluation, Core]:
    """Compute every quantity, but not yet what the inputs add to its uncertainty.

    Parameters
    ----------
    build : Build
        What is there.

    Returns
    -------
    tuple of Evaluation and Core
        The Evaluation says that it is not complete; the Core is what the inputs are moved from.

    Raises
    ------
    CannotEvaluate
        If a part lies outside what its law takes; says which, with file and line.
    """
    return joined_nominal(build, silent_parts(build), sound_alone(build))


@dataclass(frozen=True, slots=True)
class SoundAlone:
    """All of a nominal Evaluation that is about sound, so that one process can send it to another."""

    sounds: Sounds
    quantities: dict[str, Quantity]
    faces: tuple[FacePrediction, ...]
    resonances: tuple[Resonance, ...]
    rooms: tuple[RoomSound, ...]
    heard: Heard | None = None  # with the build; stays at home

    def light(self) -> SoundAlone:
        """The same without the build: to be sent, and joined in another process."""
        return replace(self, heard=None)


def silent_parts(build: Build) -> Parts:
    """Everything of a nominal Evaluation that needs no sound, its cost included.

    Raises
    ------
    CannotEvaluate
        If a part lies outside what its law takes; says which, with file and line.
    """
    with located(build.document):
        build = with_cables(build)
        parts = parts_of(build, build)
        parts.add("cost", lambda found: _cost(build, found))
    return parts


def sound_alone(build: Build) -> SoundAlone:
    """All of a nominal Evaluation that is about sound.

    Raises
    ------
    CannotEvaluate
        If a part lies outside what its law takes; says which, with file and line.
    """
    with located(build.document):
        build = with_cables(build)
        air, floats, state = Air(build.brief.air_temperature), floats_of(build), first_take(build)
        heard, setting = heard_of(build, air, floats), setting_of(build, air)
        faces, resonances = face_predictions(settled(build, floats[state.name]), setting)
        rooms = []
        for room in build.rooms:
            with at(room.place):
                rooms.append(room_sound(room, room_field(room, state.people_in(room.name), setting)))
    return SoundAlone(heard.sounds, heard.quantities, faces, resonances, tuple(rooms), heard)


def sounds_as_before(build: Build) -> bool:
    """Whether the sound of a build was worked out in this process not long ago."""
    with located(build.document):
        build = with_cables(build)
        return is_remembered(build, floats_of(build))


def joined_nominal(build: Build, parts: Parts, sound: SoundAlone) -> tuple[Evaluation, Core]:
    """Join what needs no sound with the sound, whoever worked them out.

    Parameters
    ----------
    build : Build
        What is there.
    parts : Parts
        As `silent_parts` gives them.
    sound : SoundAlone
        As `sound_alone` gives it.

    Returns
    -------
    tuple of Evaluation and Core
        As `evaluate_nominal` gives them.

    Raises
    ------
    CannotEvaluate
        If a part lies outside what its law takes; says which, with file and line.
    """
    with located(build.document):
        build = with_cables(build)
        core = replace(with_sound(build, parts, sound.sounds, sound.quantities), heard=sound.heard)
    cost = parts.found["cost"]
    nominal = Evaluation(
        build, core.quantities | cost.quantities, core.backgrounds, core.between_rooms, core.neighbours, sound.faces,
        sound.resonances, sound.rooms, core.space, core.mounts, core.masses, (), core.structure, core.air, core.heat,
        cost=cost.result, signals=core.signals, safety=core.safety, wiring=core.wiring, power=core.power,
        use=core.use, complete=False,
    )  # fmt: skip
    return nominal, core


def core_alone(build: Build) -> tuple[Build, Core]:
    """What the inputs are moved from, where nobody asks for the nominal Evaluation; the build with its cables.

    Raises
    ------
    CannotEvaluate
        If a part lies outside what its law takes; says which, with file and line.
    """
    with located(build.document):
        return with_cables(build), couple(build)


def _cost(build: Build, quantities: dict[str, Quantity]) -> CostResult:
    cost = cost_of(build)
    cost_quantities(build, cost, quantities)
    return cost


def changes_of(nominal: Evaluation | Build, core: Core, inputs: Sequence[Input]) -> tuple[InputChanges, ...]:
    """Work out what some of the inputs change, as one of several processes may do.

    Parameters
    ----------
    nominal : Evaluation or Build
        As `evaluate_nominal` gives it, or its build alone.
    core : Core
        As `evaluate_nominal` gives it.
    inputs : sequence of Input
        Which of the build's inputs to move.

    Returns
    -------
    tuple of InputChanges
        One for each of them.

    Raises
    ------
    CannotEvaluate
        If the build itself lies outside what a law takes.
    """
    build = nominal if isinstance(nominal, Build) else nominal.build
    with located(build.document):
        return changes_by(build, core, inputs)


def completed(nominal: Evaluation, parts: Iterable[InputChanges]) -> Evaluation:
    """Join a nominal Evaluation with what each input changes, worked out here or by several processes.

    Parameters
    ----------
    nominal : Evaluation
        As `evaluate_nominal` gives it.
    parts : iterable of InputChanges
        One for each input, in any order.

    Returns
    -------
    Evaluation
        The complete one.

    Raises
    ------
    InvalidInput
        If an input is missing among the parts.
    """
    quantities, notes = joined(nominal.build, nominal.quantities, parts)
    return replace(nominal, quantities=quantities, notes=notes, complete=True)


def with_earlier_shares(nominal: Evaluation, earlier: Evaluation) -> Evaluation:
    """Lend a nominal Evaluation the shares of the inputs of an earlier one, until its own are worked out.

    Parameters
    ----------
    nominal : Evaluation
        As `evaluate_nominal` gives it.
    earlier : Evaluation
        Complete one of much the same build, as before an edit.

    Returns
    -------
    Evaluation
        Not complete: what is judged from it is provisional.
    """
    known = earlier.quantities
    lent = {
        key: replace(each, contributions=known[key].contributions) if key in known and not each.contributions else each
        for key, each in nominal.quantities.items()
    }
    return replace(nominal, quantities=lent)


def with_build(nominal: Evaluation, build: Build | None) -> Evaluation:
    """Take the build out of an Evaluation before it is sent to another process, and put it in there.

    Parameters
    ----------
    nominal : Evaluation
        As `evaluate_nominal` gives it, or without its build.
    build : Build or None
        The same one, resolved in that process; `None` takes it out.

    Returns
    -------
    Evaluation
        The same but for its build.
    """
    return replace(nominal, build=cast(Build, None) if build is None else with_cables(build))
