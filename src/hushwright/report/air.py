"""Air in the check report: what flows, what people breathe, what fans and air sound like."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Any

from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.results.air import AirState, FanSound, RoomAir, RunFlow
from hushwright.report.bands import octave_cells, octave_names
from hushwright.report.labels import heading as words
from hushwright.report.labels import label
from hushwright.report.layout import Row, heading, row_of, shortened, table, wrapped
from hushwright.report.units_out import bare_number, restated, shown, unit_of
from hushwright.report.verdict_text import percent
from hushwright.units import System

_NAME_WIDTH = 24
_LOSSES_SHOWN = 2
_ENDS_SHOWN = 4
_MINUTE = 60.0


def air(evaluation: Evaluation, system: System) -> list[str]:
    """Runs and rooms of every state in which air flows or people are in a room."""
    lines: list[str] = []
    for one in evaluation.air.states:
        if any(run.flow for run in one.runs) or any(room.people for room in one.rooms):
            lines += ["", *_state(one, system)]
    return [*heading(words("air")), *lines, *_session(evaluation, system)] if lines else []


def _state(one: AirState, system: System) -> list[str]:
    power = f", {label('power')} {shown(one.power, 'power', system)}" if one.power > 0.0 else ""
    lines = [f"  {label('state')} {one.state}{power}"]
    moving = [run for run in one.runs if run.flow]
    if moving:
        rows = [(label("run"), label("flow"), label("wanted"), label("fan_pressure"), label("loss"))]
        lines += table([*rows, *(_run(run, system) for run in moving)], indent=4, right=(1, 2, 3))
    rooms = [room for room in one.rooms if room.people]
    if rooms:
        names = ("room", "people", "each", "carbon_dioxide", "humidity")
        rows_of_rooms = [tuple(label(name) for name in names)]
        rows_of_rooms += [_room(room, system) for room in rooms]
        lines += table(rows_of_rooms, indent=4, right=range(1, 5))
    for room in rooms:
        lines += _without_fans(room, system)
    for note in dict.fromkeys(note for room in rooms for note in room.notes):
        lines += wrapped(restated(note, system), indent=4, hanging=6)
    return lines


def _run(run: RunFlow, system: System) -> tuple[str, ...]:
    """Flow, what is wanted, what the fans add, and where it goes."""
    ranked = sorted(run.losses, key=lambda pair: -pair[1])[:_LOSSES_SHOWN]
    told = ", ".join(f"{shortened(name, 14)} {shown(round(loss), 'pressure', system)}" for name, loss in ranked)
    return (
        shortened(run.run, _NAME_WIDTH),
        shown(run.flow, "volume_flow", system),
        "" if run.wanted is None else shown(run.wanted, "volume_flow", system),
        shown(round(run.fan_pressure), "pressure", system) if run.fan_pressure else "",
        told,
    )


def _room(room: RoomAir, system: System) -> tuple[str, ...]:
    return (
        shortened(room.room, _NAME_WIDTH),
        str(room.people),
        shown(room.supplied / room.people, "volume_flow", system),
        shown(room.carbon_dioxide, "concentration", system),
        percent(room.humidity),
    )


def _without_fans(room: RoomAir, system: System) -> list[str]:
    """How long until each limit with stopped fans; nothing where the air stays well."""
    times = [
        f"{shown(limit, 'concentration', system)} {'at once' if time <= 0.0 else f'after {time / _MINUTE:.0f} min'}"
        for limit, time in room.without_fan
        if math.isfinite(time)
    ]
    return wrapped(f"{room.room} {label('without_fans')}: {', '.join(times)}", indent=4, hanging=6) if times else []


def _session(evaluation: Evaluation, system: System) -> list[str]:
    session = evaluation.air.session
    if session is None:
        return []
    length = session.times[-1] / _MINUTE
    told = [f"{room} {shown(max(session.of(room)), 'concentration', system)}" for room in session.rooms]
    return ["", *wrapped(f"highest over the session of {length:.0f} min: {', '.join(told)}", indent=2, hanging=4)]


def fans(evaluation: Evaluation, system: System) -> list[str]:
    """Fans and moving air alone in the quiet room, from which ends, and their share of each background."""
    lines: list[str] = []
    for one in evaluation.air.sounds:
        lines += ["", *_fans(one)]
    return [*heading(words("fans")), *lines] if lines else []


def _fans(one: FanSound) -> list[str]:
    lines = [f"  {label('state')} {one.state}: {one.level_a:.1f} dB(A) in {one.room}"]
    lines += [_octaves(label("band"), octave_names()), _octaves(label("inside"), octave_cells(one.levels))]
    ends = sorted(one.terminals, key=lambda end: -end.level_a)[:_ENDS_SHOWN]
    lines += table([(f"{end.end} of {end.run}", f"in {end.room}", f"{end.level_a:.1f} dB(A)") for end in ends],
                   indent=4, right=(2,))  # fmt: skip
    for situation, fan, flow, rest in one.shares:
        lines.append(
            f"    {situation}: fans {percent(fan)}, moving air {percent(flow)}, everything else {percent(rest)}"
        )
    return lines


def _octaves(name: str, cells: Iterable[str]) -> Row:
    listed = list(cells)
    line = f"    {name:<18}" + "".join(cell.rjust(6) for cell in listed)
    return row_of(line, (name, *listed), range(1, 1 + len(listed)), begins=name == label("band"))


def air_nodes(evaluation: Evaluation, system: System) -> dict[str, Any]:
    """Air for JSON, under its own name."""
    return {
        "air": {
            "unit_of_flow": unit_of("volume_flow", system),
            "states": [
                {
                    "state": one.state,
                    "power_w": round(one.power, 1),
                    "runs": [{"run": run.run, "flow": bare_number(run.flow, "volume_flow", system),
                              "fan_pressure": bare_number(run.fan_pressure, "pressure", system)} for run in one.runs],
                    "rooms": [_room_node(room) for room in one.rooms],
                }
                for one in evaluation.air.states
            ],
            "session": _session_node(evaluation),
            "fans": [
                {"state": one.state, "levels_db": [round(level, 2) for level in one.levels],
                 "shares": [{"situation": name, "fans": round(fan, 4), "moving_air": round(flow, 4)}
                            for name, fan, flow, _ in one.shares]}
                for one in evaluation.air.sounds
            ],
        }
    }  # fmt: skip


def _room_node(room: RoomAir) -> dict[str, Any]:
    return {
        "room": room.room,
        "people": room.people,
        "carbon_dioxide_ppm": round(1e6 * room.carbon_dioxide),
        "humidity_percent": round(100.0 * room.humidity, 1),
        "minutes_without_fans": {
            f"{1e6 * limit:.0f}": round(time / _MINUTE, 1) if math.isfinite(time) else None
            for limit, time in room.without_fan
        },
    }


def _session_node(evaluation: Evaluation) -> dict[str, Any] | None:
    session = evaluation.air.session
    if session is None:
        return None
    return {
        "rooms": list(session.rooms),
        "phases": [{"state": name, "begin_s": begin, "end_s": end} for name, begin, end in session.phases],
        "times_s": list(session.times),
        "carbon_dioxide_ppm": [[round(1e6 * value) for value in row] for row in session.carbon_dioxide],
        "humidity_percent": [[round(100.0 * value, 1) for value in row] for row in session.humidity],
    }
