"""What people breathe: carbon dioxide and humidity of coupled rooms, settled, over the session, with fans stopped."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from hushwright.evaluation.air.flow import Flows, flows_in
from hushwright.evaluation.results.air import RoomAir, SessionAir
from hushwright.library.records import Limit
from hushwright.model.air_in_place import AirInPlace, PhaseInPlace
from hushwright.model.build import Build, StateOfUse
from hushwright.model.wishes import PeopleInPlace
from hushwright.physics.air import Air
from hushwright.physics.airflow.activities import activity
from hushwright.physics.airflow.air_course import CARBON_DIOXIDE_LIMITS, Stage, air_course, times_to_reach
from hushwright.physics.airflow.breathing import Breath, Person, breath
from hushwright.physics.airflow.psychrometrics import humidity_ratio_at, relative_humidity
from hushwright.physics.airflow.room_air import AirFlow, Room, moisture_source, steady_fractions, with_leakage

_BODY_DENSITY = 1000.0
"""kg/m³, of people, who take room from the air; common practice, no source."""

_LEAST_VOLUME = 0.5
"""m³, air that is left in a room however many people stand in it; common practice, no source."""

_SEALED_TIME = 3600.0
"""s, after which a room that never settles is looked at; common practice, no source."""

_STEP = 60.0
"""s between two points of the session."""

SEALED = "hardly any outdoor air reaches this room: the value is that after an hour"
"""Note on a room that is sealed."""

DRIPPING = "the air cannot hold all that people give off: the surplus condenses on the coldest face"
"""Note on a room whose air is saturated."""

_BEYOND = 0.1
"""Fraction [-] that no air with people in it comes to; a room that would settle there is as good as sealed."""

_NEVER = 1e-9
"""m³/s, outdoor air that is none."""


@dataclass(frozen=True, slots=True)
class RoomsWithPeople:
    """Rooms of one state and what their people give off."""

    rooms: tuple[Room, ...]
    people: tuple[int, ...]
    carbon_dioxide: tuple[float, ...]  # m³/s
    water: tuple[float, ...]  # kg of water per kg of air and m³/s of it, as a source of humidity ratio


def rooms_with_people(build: Build, state: StateOfUse) -> RoomsWithPeople:
    """Air volumes and sources of one state."""
    volumes = tuple((room.name, room.volume) for room in build.rooms)
    air = Air(build.brief.air_temperature)
    return _rooms_with_people(volumes, state.who, build.brief.person_mass, air)


@lru_cache(maxsize=512)
def _rooms_with_people(
    volumes: tuple[tuple[str, float], ...], who: tuple[PeopleInPlace, ...], person_mass: float, air: Air
) -> RoomsWithPeople:
    rooms, people, gases, waters = [], [], [], []
    for name, volume in volumes:
        here = tuple(group for group in who if group.room == name)
        count = sum(group.number for group in here)
        left = max(volume - count * person_mass / _BODY_DENSITY, min(volume, _LEAST_VOLUME))
        given = _breath(here, air)
        rooms.append(Room(name, left))
        people.append(count)
        gases.append(given.carbon_dioxide)
        waters.append(moisture_source(given.water_vapour, air.density))
    return RoomsWithPeople(tuple(rooms), tuple(people), tuple(gases), tuple(waters))


@lru_cache(maxsize=256)
def _breath(groups: tuple[PeopleInPlace, ...], air: Air) -> Breath:
    people = tuple(
        Person(activity(group.activity).met, group.sex, float(group.age))  # type: ignore[arg-type]
        for group in groups
        for _ in range(group.number)
    )
    return breath(people, air)


def air_of_rooms(build: Build, state: StateOfUse, flows: Flows) -> tuple[RoomAir, ...]:
    """Settled air of each room in one state, and how long it lasts with stopped fans.

    Parameters
    ----------
    build : Build
        What is there.
    state : StateOfUse
        Who is where.
    flows : Flows
        Flows of that state.

    Returns
    -------
    tuple of RoomAir
        One per room.
    """
    warning = build.library.find(Limit, "carbon dioxide that warns").value.value
    limits = tuple(sorted({*CARBON_DIOXIDE_LIMITS, warning}))
    return _air_of_rooms(build.air, rooms_with_people(build, state), flows, build.brief.air_temperature, limits)


@lru_cache(maxsize=512)
def _air_of_rooms(
    air: AirInPlace, rooms: RoomsWithPeople, flows: Flows, temperature: float, limits: tuple[float, ...]
) -> tuple[RoomAir, ...]:
    if not rooms.rooms:
        return ()
    outdoor = air.outdoor_carbon_dioxide
    settled = _settled(rooms, flows.with_fans, rooms.carbon_dioxide, outdoor)
    moist = _settled(rooms, flows.with_fans, rooms.water, humidity_ratio_at(air.outdoor_temperature,
                                                                             air.outdoor_humidity))  # fmt: skip
    wet = [relative_humidity(value, temperature) for value in moist.values]
    stopped = with_leakage(rooms.rooms, flows.without)
    times = times_to_reach(stopped, rooms.carbon_dioxide, limits, settled.values, outdoor)
    return tuple(
        RoomAir(
            room.name,
            rooms.people[index],
            _through_runs(air, flows, room.name),
            _equivalent(rooms.carbon_dioxide[index], settled.values[index] - outdoor),
            settled.values[index],
            min(wet[index], 1.0),
            tuple(
                (limit, 0.0 if settled.values[index] >= limit else time)
                for limit, time in zip(limits, times[index], strict=True)
            ),
            (*((SEALED,) if index in settled.sealed else ()), *((DRIPPING,) if wet[index] > 1.0 else ())),
        )
        for index, room in enumerate(rooms.rooms)
    )


def _through_runs(air: AirInPlace, flows: Flows, room: str) -> float:
    """Air that runs bring into a room, whichever way they flow [m³/s]."""
    into = 0.0
    for run in air.runs:
        flow = flows.flow_of(run.name)
        into += max(flow, 0.0) if run.gives_to == room else max(-flow, 0.0) if run.takes_from == room else 0.0
    return into


def _equivalent(source: float, excess: float) -> float:
    """Outdoor air that would hold the same carbon dioxide; what comes from another room has been breathed already."""
    return source / excess if excess > _NEVER and source > 0.0 else 0.0


@dataclass(frozen=True, slots=True)
class _Settled:
    values: tuple[float, ...]
    sealed: frozenset[int]


@lru_cache(maxsize=1024)
def _settled(
    rooms: RoomsWithPeople, flows: tuple[AirFlow, ...], sources: tuple[float, ...], outdoor: float
) -> _Settled:
    """Values once nothing changes, or after an hour in rooms that never settle."""
    network = with_leakage(rooms.rooms, flows)
    found = steady_fractions(network, sources, outdoor)
    sealed = frozenset(index for index, value in enumerate(found) if not value < _BEYOND)
    if not sealed:
        return _Settled(found, sealed)
    course = air_course([Stage(_SEALED_TIME, network, sources)], None, outdoor, _SEALED_TIME)
    end = course.fractions[-1]
    return _Settled(tuple(end[i] if i in sealed else value for i, value in enumerate(found)), sealed)


def session_of(build: Build) -> SessionAir | None:
    """Carbon dioxide and humidity over the session, from aired rooms on; `None` where nothing is in it."""
    states = {state.name: state for state in build.states}
    phases = tuple(phase for phase in build.air.session if phase.state in states)
    if not phases or not build.rooms:
        return None
    parts = tuple((rooms_with_people(build, states[each.state]), flows_in(build, states[each.state]).with_fans)
                  for each in phases)  # fmt: skip
    return _session(build.air, phases, parts, build.brief.air_temperature)


Part = tuple[RoomsWithPeople, tuple[AirFlow, ...]]


@lru_cache(maxsize=256)
def _session(
    air: AirInPlace, phases: tuple[PhaseInPlace, ...], parts: tuple[Part, ...], temperature: float
) -> SessionAir:
    names = tuple(room.name for room in parts[0][0].rooms)
    gas = _stages(phases, parts, [rooms.carbon_dioxide for rooms, _ in parts])
    course = air_course(gas, None, air.outdoor_carbon_dioxide, _STEP)
    outside = humidity_ratio_at(air.outdoor_temperature, air.outdoor_humidity)
    moist = air_course(_stages(phases, parts, [rooms.water for rooms, _ in parts]), None, outside, _STEP)
    ends = [sum(phase.duration for phase in phases[: index + 1]) for index in range(len(phases))]
    spans = tuple((phase.state, end - phase.duration, end) for phase, end in zip(phases, ends, strict=True))
    humidity = tuple(tuple(min(relative_humidity(value, temperature), 1.0) for value in row) for row in moist.fractions)
    return SessionAir(spans, names, course.times, course.fractions, humidity)


def _stages(phases: Sequence[PhaseInPlace], parts: Sequence[Part], sources: Sequence[tuple[float, ...]]) -> list[Stage]:
    """Stages of the session on the volumes of the first phase, which people change by a few percent."""
    volumes = parts[0][0].rooms
    return [
        Stage(phase.duration, with_leakage(volumes, flows), source)
        for phase, (_, flows), source in zip(phases, parts, sources, strict=True)
    ]
