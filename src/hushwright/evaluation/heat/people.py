"""What acts on the rooms in each state: people, lamps, gear, fans, and the air that flows."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.evaluation.air.flow import Flows
from hushwright.evaluation.heat.case import Heated
from hushwright.model.air_in_place import OUTDOORS
from hushwright.model.wishes import PeopleInPlace, StateOfUse
from hushwright.physics.airflow.activities import activity
from hushwright.physics.thermal.occupants import OccupantHeat, metabolic_heat
from hushwright.physics.thermal.rooms import OUTSIDE

_BODY = 1.8
"""m², surface of a man's body; ISO 8996."""

_FEMALE, _CHILD, _GROWN = 0.85, 0.75, 15
"""Shares [-] of a man's heat, and the age from which one is grown; ASHRAE Handbook, Fundamentals, ch. 18 (memory)."""

_TABLE = (20.0, 26.0)
"""°C, rooms for which the heat of people is tabulated."""


@dataclass(frozen=True, slots=True)
class Acting:
    """What acts on the rooms in one state: heat [W] by room and kind, water [kg/s], air [m³/s] from space to space."""

    state: str
    takes: bool
    people: tuple[tuple[str, int], ...]
    gains: tuple[tuple[str, str, float], ...]
    vapour: tuple[tuple[str, float], ...]
    flows: tuple[tuple[str, str, float], ...]
    aired: tuple[str, ...]  # rooms with a door open to outdoors: nobody asks for a temperature there
    notes: tuple[str, ...]


def acting_in(
    case: Heated, state: StateOfUse, flows: Flows, temperature: float
) -> Acting:  # fmt: skip
    """What acts on the rooms in a state, people by a room of a temperature [°C]."""
    gains: dict[tuple[str, str], float] = {}
    vapour: dict[str, float] = {}
    notes: list[str] = []

    def add(room: str, kind: str, heat: float) -> None:
        if heat > 0.0:
            gains[room, kind] = gains.get((room, kind), 0.0) + heat

    for group in state.who:
        each = heat_of(group, temperature)
        add(group.room, "people", group.number * each.sensible_heat)
        vapour[group.room] = vapour.get(group.room, 0.0) + group.number * each.vapour
        notes += each.validity
    for load in case.climate.loads:
        if not load.states or state.name in load.states:
            add(load.room, "lights", load.lights)
            add(load.room, "equipment", load.equipment)
    rooms = {room.name for room in case.rooms}
    for run in flows.runs:
        placed = case.air.run(run.run)
        if placed is not None and placed.gives_to in rooms:
            add(placed.gives_to, "equipment", run.power)  # a fan's motor stands in the air that it moves
    people = tuple((room.name, sum(each.number for each in state.who if each.room == room.name))
                   for room in case.rooms)  # fmt: skip
    return Acting(
        state.name, state.takes, people,
        tuple((room, kind, heat) for (room, kind), heat in gains.items()), tuple(vapour.items()),
        _air_of(flows), tuple(each.source for each in flows.without if each.target == OUTDOORS),
        tuple(dict.fromkeys(notes)),
    )  # fmt: skip


def heat_of(group: PeopleInPlace, temperature: float) -> OccupantHeat:
    """Heat of one person of a group."""
    share = _CHILD if group.age < _GROWN else _FEMALE if group.sex == "female" else 1.0
    air = min(max(temperature, _TABLE[0]), _TABLE[1])
    return metabolic_heat(activity(group.activity).met, air, _BODY * share)


def _air_of(flows: Flows) -> tuple[tuple[str, str, float], ...]:
    """Air from space to space, each pair once."""
    found: dict[tuple[str, str], float] = {}
    for each in flows.with_fans:
        pair = tuple(OUTSIDE if end == OUTDOORS else end for end in (each.source, each.target))
        found[pair[0], pair[1]] = found.get((pair[0], pair[1]), 0.0) + each.volume_flow_rate
    return tuple((source, target, flow) for (source, target), flow in found.items())
