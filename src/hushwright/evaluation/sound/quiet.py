"""Background in the quiet room from outdoors."""

from __future__ import annotations

from hushwright.evaluation.results import Background, Quantity
from hushwright.evaluation.sound.background import background_from
from hushwright.evaluation.sound.fans import fan_arrivals, joined
from hushwright.evaluation.sound.gear import gear_arrivals
from hushwright.evaluation.sound.outside import outside_of
from hushwright.evaluation.sound.sound import Standing, network_of, outside_levels, received
from hushwright.model.build import Room, Situation


def background(standing: Standing, situation: Situation, room: Room) -> tuple[Background, Quantity]:
    """Level in a room in one outdoor situation and one state, and the quantity its target is about.

    Parameters
    ----------
    standing : Standing
        Build in one state.
    situation : Situation
        Sound outside.
    room : Room
        Where it is heard.

    Returns
    -------
    tuple of Background and Quantity
        Levels by way, and what the target judges.
    """
    build, state = standing.build, standing.state
    outside = outside_of(build, situation)
    network = network_of(standing, outside)
    diffuse = network_of(standing, None)
    fans, _ = fan_arrivals(standing, diffuse, room)
    found = joined(received(network, build, room, outside_levels(build, outside, standing.setting)), fans)
    gear = gear_arrivals(standing, diffuse, room)
    found = joined(found, gear) if gear is not None else found
    return background_from(build, f"{situation.name}/{state.name}", situation.name, state, room, outside.free,
                           outside.assumed, found, situation.target, (), situation.level_uncertainty,
                           values_alone=standing.values_alone)  # fmt: skip
