"""What flows in a state: fans, runs, leaks and open doors together."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from hushwright.evaluation.air.pieces import fans_of, flow_parts
from hushwright.evaluation.guard import at
from hushwright.evaluation.results import REPORTED
from hushwright.evaluation.results.air import RunFlow
from hushwright.model.air_in_place import OUTDOORS, AirInPlace, RunInPlace
from hushwright.model.build import Build, OpeningInPlace, StateOfUse
from hushwright.physics.air import Air
from hushwright.physics.airflow.door_flow import Crack, door_exchange
from hushwright.physics.airflow.flow_network import Branch, solve_flows
from hushwright.physics.airflow.room_air import AirFlow

_LEAVES = ("door", "window")
_VEHICLE_LEAVES = ("vehicle door", "vehicle window")
_STILL = 5e-5
"""m³/s, flow that is nothing: a twentieth of a litre a second; common practice, no source."""


@dataclass(frozen=True, slots=True)
class OpenDoor:
    """A door or window that stands open between two spaces."""

    name: str
    first: str
    second: str
    width: float
    height: float
    place: str


@dataclass(frozen=True, slots=True)
class Flows:
    """Flows of one state, with and without its fans."""

    runs: tuple[RunFlow, ...]
    with_fans: tuple[AirFlow, ...]
    without: tuple[AirFlow, ...]
    notes: tuple[str, ...]

    def flow_of(self, run: str) -> float:
        """Flow of a run [m³/s], below zero against its direction."""
        return next((each.flow for each in self.runs if each.run == run), 0.0)


def flows_in(build: Build, state: StateOfUse) -> Flows:
    """Flows in one state.

    Parameters
    ----------
    build : Build
        What is there.
    state : StateOfUse
        Which doors stand open, which fans run.

    Returns
    -------
    Flows
        Of runs, and between rooms.
    """
    air = Air(build.brief.air_temperature)
    rooms = tuple(room.name for room in build.rooms)
    return _flows(build.air, state.name, open_doors(build, state), rooms, air)


def open_doors(build: Build, state: StateOfUse) -> tuple[OpenDoor, ...]:
    """Doors and windows through which air passes in a state, but those that lead into the gap round a room."""
    found = []
    for opening in build.openings:
        if not _is_way(build, opening) or not _stands_open(build, opening, state):
            continue
        found.append(OpenDoor(opening.name, opening.room, _beyond(build, opening), opening.width, opening.height,
                              opening.place))  # fmt: skip
    return tuple(found)


def _is_way(build: Build, opening: OpeningInPlace) -> bool:
    room = next((room for room in build.rooms if room.name == opening.room), None)
    if room is None:
        return False
    return opening.kind in _LEAVES or (opening.kind in _VEHICLE_LEAVES and room.purpose != "quiet")


def _stands_open(build: Build, opening: OpeningInPlace, state: StateOfUse) -> bool:
    """Whether it and all that one has to pass before it stand open."""
    seen: list[str] = []
    at_: OpeningInPlace | None = opening
    while at_ is not None and at_.name not in seen:
        if at_.name not in state.open:
            return False
        seen.append(at_.name)
        behind = at_.behind
        at_ = next((each for each in build.openings if each.name == behind), None)
    return True


def _beyond(build: Build, opening: OpeningInPlace) -> str:
    """Space on the other side; the cab is as good as outdoors."""
    room = next(room for room in build.rooms if room.name == opening.room)
    surface = room.surface(opening.face)
    beyond = OUTDOORS if opening.in_vehicle or surface is None else surface.beyond
    return beyond if any(each.name == beyond for each in build.rooms) else OUTDOORS


@lru_cache(maxsize=256)
def _flows(air: AirInPlace, state: str, doors: tuple[OpenDoor, ...], rooms: tuple[str, ...], outside: Air) -> Flows:
    standing = [_door(door) for door in doors]
    standing += [Branch(f"leak of {room}", room, OUTDOORS, (Crack(area),)) for room, area in air.leaks if area > 0.0]
    open_ = [run for run in air.runs if run.open_in(state)]
    branches = _joined([*(_branch(run) for run in open_), *standing])
    if not branches:
        return Flows(tuple(_still(run) for run in air.runs), (), (), ())
    with at("air.runs"):
        solution = solve_flows(branches, outside)
    known = dict(zip((each.name for each in branches), solution.volume_flow_rates, strict=True))
    power = dict(zip((each.name for each in branches), solution.powers, strict=True))
    moved = tuple(_run_flow(run, known.get(run.name), power.get(run.name, 0.0), outside) for run in air.runs)
    exchanged = tuple(flow for door in doors for flow in _exchange(door, air.door_difference, outside))
    flows = tuple(flow for flow in solution.air_flows if flow.volume_flow_rate > _STILL)
    # Runs and leaks move nothing when no fan pushes; doors still exchange air.
    return Flows(moved, (*flows, *exchanged), exchanged, tuple(REPORTED + note for note in solution.validity))


def _branch(run: RunInPlace) -> Branch:
    return Branch(run.name, run.takes_from, run.gives_to, tuple(part for _, part in flow_parts(run)), fans_of(run))


def _door(door: OpenDoor) -> Branch:
    return Branch(f"door {door.name}", door.first, door.second, (Crack(door.width * door.height, 0.5),))


def _joined(branches: list[Branch]) -> list[Branch]:
    """Branches that hang together with outdoors; air cannot move in the others."""
    reached, grown = {OUTDOORS}, True
    while grown:
        more = {end for each in branches if {each.source, each.target} & reached for end in (each.source, each.target)}
        grown = not more <= reached
        reached |= more
    return [each for each in branches if each.source in reached]


def _exchange(door: OpenDoor, difference: float, air: Air) -> tuple[AirFlow, ...]:
    with at(door.place):
        flow = door_exchange(door.width, door.height, difference, air).volume_flow_rate
    return AirFlow(door.first, door.second, flow), AirFlow(door.second, door.first, flow)


def _still(run: RunInPlace) -> RunFlow:
    return RunFlow(run.name, 0.0, run.wanted, 0.0, 0.0, ())


def _run_flow(run: RunInPlace, flow: float | None, power: float, air: Air) -> RunFlow:
    if flow is None:
        return _still(run)
    flow = 0.0 if abs(flow) < _STILL else flow
    losses: dict[str, float] = {}
    for name, part in flow_parts(run):
        losses[name] = losses.get(name, 0.0) + part.pressure_loss(abs(flow), air)
    pressure = sum(fan.pressure(flow, air) for fan in fans_of(run))
    return RunFlow(run.name, flow, run.wanted, pressure, power, tuple(losses.items()))
