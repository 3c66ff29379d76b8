"""Build → Evaluation: the third of the four verbs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import cast

from hushwright.evaluation.absorption import room_field, room_sound
from hushwright.evaluation.cables import with_cables
from hushwright.evaluation.core import Core, couple, setting_of
from hushwright.evaluation.cost import cost_of, cost_quantities
from hushwright.evaluation.floor import floating_room, settled
from hushwright.evaluation.guard import at, located
from hushwright.evaluation.predictions import face_predictions
from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.sensitivity import InputChanges, changes_by, joined
from hushwright.evaluation.space import first_take
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
    with located(build.document):
        build = with_cables(build)
        core = couple(build)
        air = Air(build.brief.air_temperature)
        setting = setting_of(build, air)
        state = first_take(build)
        loaded = settled(build, floating_room(build, state, air))
        faces, resonances = face_predictions(loaded, setting)
        rooms = []
        for room in build.rooms:
            with at(room.place):
                rooms.append(room_sound(room, room_field(room, state.people_in(room.name), setting)))
    quantities = dict(core.quantities)
    cost = cost_of(build)
    cost_quantities(build, cost, quantities)
    nominal = Evaluation(
        build, quantities, core.backgrounds, core.between_rooms, core.neighbours, faces, resonances, tuple(rooms),
        core.space, core.mounts, core.masses, (), core.structure, core.air, core.heat,
        cost=cost, signals=core.signals, safety=core.safety, wiring=core.wiring, power=core.power,
        use=core.use, complete=False,
    )  # fmt: skip
    return nominal, core


def changes_of(nominal: Evaluation, core: Core, inputs: Sequence[Input]) -> tuple[InputChanges, ...]:
    """Work out what some of the inputs change, as one of several processes may do.

    Parameters
    ----------
    nominal : Evaluation
        As `evaluate_nominal` gives it.
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
    with located(nominal.build.document):
        return changes_by(nominal.build, core, inputs)


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
