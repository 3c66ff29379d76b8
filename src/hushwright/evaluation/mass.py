"""Masses on the axles, by moments."""

from __future__ import annotations

from hushwright.evaluation.results import MassResult
from hushwright.model.build import Build, StateOfUse

_CAB_STATION_BEHIND_AXLE = 0.95  # m, seats of a cab over or just behind the front axle; common practice, no source


def masses_in(build: Build, state: StateOfUse) -> MassResult:
    """Added mass, people, and what each axle carries in one state.

    The conversion's moments go to the axles over the wheelbase; see docs/methods/mass.md.
    """
    vehicle = build.vehicle
    wheelbase = vehicle.rear_axle - vehicle.front_axle
    groups: dict[str, float] = {}
    moment = 0.0
    for item in build.masses:
        groups[item.group] = groups.get(item.group, 0.0) + item.mass
        moment += item.mass * (item.station - vehicle.front_axle)
    added = sum(groups.values())
    people = 0.0
    for where, count in _seated(build, state):
        mass = count * build.brief.person_mass
        people += mass
        moment += mass * (_station_of(build, where) - vehicle.front_axle)
    rear = vehicle.kerb.rear + moment / wheelbase
    total = vehicle.kerb.total + added + people
    return MassResult(state.name, added, people, total, total - rear, rear, tuple(sorted(groups.items())))


def _seated(build: Build, state: StateOfUse) -> tuple[tuple[str, int], ...]:
    """People in the van, where they are; only states that drive are held against plated masses."""
    return tuple((where, count) for where, count in state.people if count)


def _station_of(build: Build, where: str) -> float:
    room = next((room for room in build.rooms if room.name == where), None)
    if room is not None:
        return (room.front + room.rear) / 2.0
    return build.vehicle.front_axle + _CAB_STATION_BEHIND_AXLE
