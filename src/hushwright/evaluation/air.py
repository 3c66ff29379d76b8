"""The air of a Build: flows, breath, draught and fan sound, state by state, and the quantities that are judged."""

from __future__ import annotations

import math
from dataclasses import replace

from hushwright.evaluation.air_draught import terminals_of
from hushwright.evaluation.air_flow import Flows, flows_in
from hushwright.evaluation.air_people import air_of_rooms, rooms_with_people, session_of
from hushwright.evaluation.air_sound import FAN, FLOW, fan_arrivals
from hushwright.evaluation.background import criterion_quantity, value_alone
from hushwright.evaluation.results import REPORTED, Background, Bands, PathLevel, Quantity
from hushwright.evaluation.results_air import AirResults, AirState, FanSound, RoomAir, SessionAir
from hushwright.evaluation.sound import Network, Standing
from hushwright.evaluation.uncertainty import combined_uncertainty, path_levels
from hushwright.evaluation.ways import spread_of, sum_levels
from hushwright.library.records import Limit
from hushwright.model.build import Build, Situation, StateOfUse, Target
from hushwright.physics.acoustics.weighting import a_weighted_level

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

_LONGEST = 8.0 * 3600.0
"""s, time without fans that is told for a room whose air never gets bad: a working day; common practice, no source."""


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
    note = f"at least: the air stays better, within {_LONGEST / 3600.0:.0f} h, where counting ends, and after"
    return Quantity(_LONGEST, "time", validity=(f"{REPORTED}{note}",))


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


def fan_sound_in(
    standing: Standing, network: Network, backgrounds: list[Background], quantities: dict[str, Quantity]
) -> FanSound | None:
    """What fans and moving air alone make in the quiet room in one state; `None` where nothing moves.

    Where values alone are asked for, they are taken up in the quantities and nothing else is told.

    Parameters
    ----------
    standing : Standing
        Build in one state.
    network : Network
        Its ways for diffuse sound.
    backgrounds : list of Background
        Those of this state, for the shares.
    quantities : dict
        Takes up what verdicts judge.

    Returns
    -------
    FanSound or None
        Levels, ends, shares.
    """
    room = standing.build.room_for("quiet")
    if room is None:
        return None
    found, ends = fan_arrivals(standing, network, room)
    if not found.links:
        return None
    build, state = standing.build, standing.state.name
    own, strictest = build.air.fans_alone, strictest_situation(build)
    if standing.values_alone:
        quantities[f"fans-alone/{state}"] = value_alone(sum_levels(found), own)
        if strictest is not None:
            quantities[f"fans-in-takes/{state}"] = value_alone(sum_levels(found), strictest.target)
        return None
    levels, spread, paths = sum_levels(found), spread_of(found), path_levels(found)
    # Each way has its own error; the vehicle's allowance is about walls and does not touch a duct's end.
    uncertainty = combined_uncertainty(paths, spread, 0.0)
    quantities[f"fans-alone/{state}"] = _judged(levels, uncertainty, paths, spread, own)
    if strictest is not None:
        quantities[f"fans-in-takes/{state}"] = _judged(levels, uncertainty, paths, spread, strictest.target)
    shares = tuple(_shares(each) for each in backgrounds)
    notes = tuple(dict.fromkeys(note for end in ends for note in end.notes))
    return FanSound(state, room.name, levels, uncertainty, a_weighted_level(levels), ends, shares, notes, paths)


def _judged(
    levels: Bands, uncertainty: Bands, paths: tuple[PathLevel, ...], spread: Bands, target: Target | None
) -> Quantity:
    """Number that the target is about; below the lowest printed curve it is told, not doubted."""
    found = criterion_quantity(levels, uncertainty, paths, spread, 0.0, target, ())
    if target is None or found.value > target.value:
        return found
    return replace(found, validity=tuple(REPORTED + note.removeprefix(REPORTED) for note in found.validity))


def strictest_situation(build: Build) -> Situation | None:
    """Situation whose limit is lowest."""
    asked = [each for each in build.brief.situations if each.target is not None]
    return min(asked, key=_rough, default=None)


def _rough(situation: Situation) -> float:
    """Limit as roughly an A-weighted level: a noise curve lies about 7 dB under it (common practice, no source)."""
    target = situation.target
    assert target is not None
    if target.kind == "dB(A)":
        return target.value
    return target.value + 7.0 if target.kind in ("NC", "NR") else 20.0


def _shares(found: Background) -> tuple[str, float, float, float]:
    """Shares of fans, moving air and everything else in the A-weighted energy of a background."""
    fan = sum(path.share for path in found.paths if path.kind == FAN)
    flow = sum(path.share for path in found.paths if path.kind == FLOW)
    return found.situation, fan, flow, max(1.0 - fan - flow, 0.0)
