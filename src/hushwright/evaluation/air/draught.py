"""Air at the outlets of rooms: how fast in the grille, how fast at the neck, who feels it."""

from __future__ import annotations

from hushwright.evaluation.air.flow import Flows
from hushwright.evaluation.guard import at
from hushwright.evaluation.results import REPORTED
from hushwright.evaluation.results.air import TerminalAir
from hushwright.model.air_in_place import OUTDOORS, RunInPlace
from hushwright.model.build import Build
from hushwright.physics.airflow.draught import Jet, draught_rating, jet_velocity, terminal_velocity

_STILL = 1e-6
"""m³/s, flow at which nobody feels anything."""


def terminals_of(build: Build, flows: Flows) -> tuple[TerminalAir, ...]:
    """Every end at which air comes into a room, with speed and draught."""
    found = []
    for run in build.air.runs:
        flow = flows.flow_of(run.name)
        room = run.gives_to if flow >= 0.0 else run.takes_from
        if room != OUTDOORS and abs(flow) > _STILL:
            with at(run.place):
                found.append(_terminal(run, room, flow, build.brief.air_temperature))
    return tuple(found)


def _terminal(run: RunInPlace, room: str, flow: float, temperature: float) -> TerminalAir:
    intake, outlet = run.ends
    end = outlet if flow >= 0.0 else intake
    area = end.shape.area * end.free_share
    velocity = terminal_velocity(abs(flow), end.shape.area, end.free_share)
    notes: tuple[str, ...]
    if end.spread:
        at_neck, notes = abs(flow) / end.shape.area, ("air spread over a whole face is as fast at the neck as there",)
    else:
        kind: Jet = "round" if end.bare and end.shape.round else "grille"
        jet = jet_velocity(velocity, area, end.from_people, jet=kind)
        at_neck, notes = jet.velocity, jet.validity
    rating = draught_rating(temperature, at_neck)
    told = tuple(REPORTED + note for note in (*notes, *rating.validity))
    return TerminalAir(run.name, room, velocity, at_neck, rating.draught_rating, told)
