"""Carbon dioxide of a room step by step: who breathes, which air comes in, and what that makes."""

from __future__ import annotations

from hushwright.evaluation.air.flow import flows_in
from hushwright.evaluation.air.people import rooms_with_people
from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.results.air import AirState, RoomAir
from hushwright.model.build import StateOfUse
from hushwright.physics.airflow.room_air import OUTDOORS, with_leakage
from hushwright.report.layout import table, wrapped
from hushwright.report.units_out import shown
from hushwright.units import System
from hushwright.verdicts.verdict import Verdict

_LEAST_FLOW = 5e-5  # m³/s, that is still told; common practice, no source


def balance(verdict: Verdict, evaluation: Evaluation, system: System) -> list[str]:
    """Lines from which the settled carbon dioxide of a verdict's room can be worked out; none for other verdicts."""
    if not verdict.id.startswith(("co2-", "fresh-air-")):
        return []
    state = next((each for each in evaluation.build.states if each.name == verdict.state), None)
    air = evaluation.air.state(verdict.state)
    if state is None or air is None:
        return []
    asked = f"-{verdict.id}-".replace("_", "-")
    room = next((each for each in air.rooms if f"-{each.room}-".replace("_", "-") in asked), None)
    return [] if room is None or not room.people else _balance(evaluation, state, air, room, system)


def _balance(evaluation: Evaluation, state: StateOfUse, air: AirState, room: RoomAir, system: System) -> list[str]:
    build = evaluation.build
    sources = rooms_with_people(build, state)
    index = [each.name for each in sources.rooms].index(room.room)
    breath = sources.carbon_dioxide[index]
    known = {each.room: each.carbon_dioxide for each in air.rooms} | {OUTDOORS: build.air.outdoor_carbon_dioxide}
    flows: dict[str, float] = {}
    for each in with_leakage(sources.rooms, flows_in(build, state).with_fans).flows:
        if each.target == room.room and each.volume_flow_rate > 0.0:
            flows[each.source] = flows.get(each.source, 0.0) + each.volume_flow_rate
    rows = [("air that comes in", "flow", "carbon dioxide", "brings")]
    for name, flow in sorted(flows.items(), key=lambda pair: -pair[1]):
        if flow >= _LEAST_FLOW and name in known:
            rows.append((f"from {name.replace('_', ' ')}", shown(flow, "volume_flow", system),
                         shown(known[name], "concentration", system), _per_hour(flow * known[name])))  # fmt: skip
    people = "1 person" if room.people == 1 else f"{room.people} people"
    rows.append((f"breath of {people}, {_per_hour(breath / room.people)} each", "", "", _per_hour(breath)))
    whole = sum(flows.values())
    brought = sum(flow * known[name] for name, flow in flows.items() if name in known) + breath
    rows.append(("together", shown(whole, "volume_flow", system), "", _per_hour(brought)))
    lines = ["", f"  Carbon dioxide of {room.room.replace('_', ' ')} in {state.name}, once nothing changes any more"]
    lines += table(rows, indent=4, right=(1, 2, 3))
    if whole:
        told = f"{_per_hour(brought)} in {shown(whole, 'volume_flow', system)} are"
        lines += wrapped(f"{told} {shown(brought / whole, 'concentration', system)}", indent=4, hanging=6)
    lines += wrapped(f"room of {shown(sources.rooms[index].volume, 'volume', system)} of air, without its people",
                     indent=4, hanging=6)  # fmt: skip
    return lines


def _per_hour(volume_flow: float) -> str:
    """Carbon dioxide as litres of the pure gas in an hour, in either system: as breathing tables have it."""
    return f"{3.6e6 * volume_flow:.3g} l/h"
