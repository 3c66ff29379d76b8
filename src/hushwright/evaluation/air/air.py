"""The air of a Build: flows, breath and draught, state by state, and the quantities that are judged."""

from __future__ import annotations

import math

from hushwright.evaluation.air.draught import terminals_of
from hushwright.evaluation.air.flow import Flows, flows_in
from hushwright.evaluation.air.people import air_of_rooms, rooms_with_people, session_of
from hushwright.evaluation.results import REPORTED, Quantity
from hushwright.evaluation.results.air import AirResults, AirState, RoomAir, SessionAir
from hushwright.library.records import Limit
from hushwright.model.build import Build, StateOfUse

_PERSON = 0.2
"""Share [-] by which one person's breath differs from the table's; Persily and de Jonge 2017 (memory)."""

_FLOW = 0.1
"""Share [-], standard uncertainty of a flow from fan curve and duct laws; common practice, no source."""

_ROOM_MOISTURE = 0.03
"""Standard uncertainty [-] of a relative humidity: moisture of people and walls that take it up; common practice,
no source."""

_DRAUGHT = 0.06
"""Standard uncertainty [-] of the share who feel a draught: jet and turbulence; common practice, no source."""

_VELOCITY = 0.1
"""Share [-], standard uncertainty of a speed in a grille; common practice, no source."""

COUNTED_TIME = 8.0 * 3600.0
"""s, where counting ends for air that gets bad later or never: a working day; common practice, no source."""


def air_states(build: Build, quantities: dict[str, Quantity]) -> AirResults:
    """Air of every state and of the session, without sound.

    Parameters
    ----------
    build : Build
        What is there.
    quantities : dict
        Takes up what verdicts judge.

    Returns
    -------
    AirResults
        Its sounds are still empty.
    """
    states = []
    for state in build.states:
        flows = flows_in(build, state)
        found = AirState(
            state.name, flows.runs, terminals_of(build, flows), air_of_rooms(build, state, flows),
            sum(each.power for each in flows.runs), flows.notes,
        )  # fmt: skip
        states.append(found)
        _flow_quantities(build, state, flows, quantities)
        _room_quantities(build, state, found, quantities)
        _terminal_quantities(found, quantities)
    session = session_of(build)
    if session is not None:
        _session_quantities(build, session, quantities)
    return AirResults(tuple(states), session)


def _flow_quantities(build: Build, state: StateOfUse, flows: Flows, quantities: dict[str, Quantity]) -> None:
    """Flow of each run that promises one, where it can flow and something drives it."""
    if not state.fans:
        return
    for each in flows.runs:
        run = build.air.run(each.run)
        if each.wanted is not None and run is not None and run.open_in(state.name):
            quantities[f"run-flow/{each.run}/{state.name}"] = Quantity(
                each.flow, "volume_flow", _FLOW * abs(each.flow), validity=flows.notes
            )


def _room_quantities(build: Build, state: StateOfUse, found: AirState, quantities: dict[str, Quantity]) -> None:
    sources = rooms_with_people(build, state)
    for room, source in zip(found.rooms, sources.carbon_dioxide, strict=True):
        if not room.people:
            continue
        key = f"{room.room}/{state.name}"
        share = _share(room.people)
        excess = room.carbon_dioxide - build.air.outdoor_carbon_dioxide
        quantities[f"co2-steady/{key}"] = Quantity(room.carbon_dioxide, "concentration", share * abs(excess),
                                                   validity=_told(room))  # fmt: skip
        quantities[f"fresh-air/{key}"] = Quantity(room.supplied / room.people, "volume_flow",
                                                  _FLOW * room.supplied / room.people)  # fmt: skip
        quantities[f"humidity/{key}"] = Quantity(room.humidity, "share", _ROOM_MOISTURE, validity=_told(room))
        if source > 0.0:
            quantities[f"without-fan/{key}"] = _without_fan(build, room, share)


def _told(room: RoomAir) -> tuple[str, ...]:
    return tuple(REPORTED + note for note in room.notes)


def _share(people: int) -> float:
    """Standard uncertainty of what people add to the air, as a share: their breath, and the flow."""
    return math.hypot(_PERSON / math.sqrt(max(people, 1)), _FLOW)


def _without_fan(build: Build, room: RoomAir, share: float) -> Quantity:
    warning = warning_limit(build)
    time = dict(room.without_fan)[warning]
    if math.isfinite(time):
        return Quantity(time, "time", share * time)
    note = f"at least: the air stays better, within {COUNTED_TIME / 3600.0:.0f} h, where counting ends, and after"
    return Quantity(COUNTED_TIME, "time", validity=(f"{REPORTED}{note}",))


def warning_limit(build: Build) -> float:
    """Carbon dioxide at which the time without fans ends, as a fraction."""
    return build.library.find(Limit, "carbon dioxide that warns").value.value


def _terminal_quantities(found: AirState, quantities: dict[str, Quantity]) -> None:
    for each in found.terminals:
        key = f"{each.run}/{found.state}"
        quantities[f"terminal/{key}"] = Quantity(each.velocity, "speed", _VELOCITY * each.velocity)
        quantities[f"draught/{key}"] = Quantity(each.draught, "share", _DRAUGHT, validity=each.notes)


def _session_quantities(build: Build, session: SessionAir, quantities: dict[str, Quantity]) -> None:
    states = {state.name: state for state in build.states}
    for index, room in enumerate(session.rooms):
        counts = [rooms_with_people(build, states[name]).people[index] for name, _, _ in session.phases]
        if not any(counts):
            continue
        most = max(session.of(room))
        share = _share(max(counts))
        quantities[f"co2-session/{room}"] = Quantity(
            most, "concentration", share * abs(most - build.air.outdoor_carbon_dioxide)
        )
