"""Build → Evaluation: the third of the four verbs."""

from __future__ import annotations

from hushwright.evaluation.absorption import room_field, room_sound
from hushwright.evaluation.core import Core, couple, first_take, setting_of
from hushwright.evaluation.cost import cost_of, cost_quantities
from hushwright.evaluation.floor import floating_room, settled
from hushwright.evaluation.guard import at, located
from hushwright.evaluation.predictions import face_predictions
from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.sensitivity import with_contributions
from hushwright.evaluation.wiring import with_cables
from hushwright.model.build import Build
from hushwright.physics.air import Air

__all__ = ["Core", "couple", "evaluate"]


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
    with located(build.document):
        build = with_cables(build)
        core = couple(build)
        quantities, notes = with_contributions(build, core)
        air = Air(build.brief.air_temperature)
        setting = setting_of(build, air)
        state = first_take(build)
        loaded = settled(build, floating_room(build, state, air))
        faces, resonances = face_predictions(loaded, setting)
        rooms = []
        for room in build.rooms:
            with at(room.place):
                rooms.append(room_sound(room, room_field(room, state.people_in(room.name), setting)))
    cost = cost_of(build)
    cost_quantities(build, cost, quantities)
    return Evaluation(
        build, quantities, core.backgrounds, core.between_rooms, core.neighbours, faces, resonances, tuple(rooms),
        core.space, core.mounts, core.masses, notes, core.structure, core.air, core.heat,
        cost=cost, signals=core.signals, safety=core.safety, wiring=core.wiring, power=core.power,
        use=core.use,
    )  # fmt: skip
