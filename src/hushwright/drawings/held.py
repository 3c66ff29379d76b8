"""How things are held in a crash: anchors of the floating room and of the fitting loaded most, with their loads."""

from __future__ import annotations

import math

from hushwright.drawings.courses import van_in_plan
from hushwright.drawings.primitives import Balloon, Circle, Drawing, Element, Line, Text
from hushwright.evaluation.mass.anchoring import loads_at_worst
from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.results.mass import AnchorResult
from hushwright.units import System, format_quantity

_LONGEST = 0.45  # m of the van, arrow of the load that takes the largest share of its anchor
_RING = 0.025  # m
_HEAD = 0.05  # m, of an arrow
_LEAST = 0.02  # m; a shorter arrow is no arrow


def held(evaluation: Evaluation, system: System = "metric") -> Drawing | None:
    """Plan of what holds the floating room and the fitting whose anchors are loaded most for their strength.

    Parameters
    ----------
    evaluation : Evaluation
        What was computed.
    system : {"metric", "us"}
        Units of the words.

    Returns
    -------
    Drawing or None
        x is the station, y runs to the right of the van; nothing where no body has an anchor.
    """
    build = evaluation.build
    state = next(iter(evaluation.structure.anchoring), None)
    bodies = [each for each in (state.room, *state.fittings[:1]) if each is not None] if state is not None else []
    if not bodies:
        return None
    found = van_in_plan(build)
    for fitting in build.anchoring.fittings:
        found += [Circle((at.at[0], -at.at[1]), 0.6 * _RING, "hidden", fitting.name) for at in fitting.anchors]
    key = []
    longest = max(each.used for each in bodies)
    for number, body in enumerate(bodies, start=1):
        found += _loads(evaluation, body, _LONGEST / (longest * body.strength), system)
        found.append(Balloon((body.centre[0], -body.centre[1]), str(number), part=body.name))
        key.append((str(number), _told(body, system)))
    seen = "seen from above, front of the van to the left; arrows are loads along the floor, "
    seen += "as long as their share of what the anchor carries"
    return Drawing("held", "Anchors and their loads", seen, tuple(found), tuple(key))


def _loads(evaluation: Evaluation, body: AnchorResult, scale: float, system: System) -> list[Element]:
    """Anchors of a body with arrows, ``scale`` metres for a newton."""
    loads = loads_at_worst(evaluation.build, body)
    found: list[Element] = []
    is_told = False
    for at, force in loads:
        begin = (at[0], -at[1])
        along, across = (scale * part for part in (force[0], -force[1]))
        found.append(Circle(begin, _RING, "mounts", body.name))
        size = math.hypot(along, across)
        if size < _LEAST:
            continue
        end = (begin[0] + along, begin[1] + across)
        angle = math.atan2(across, along)
        found.append(Line(begin, end, "course", body.name))
        for turn in (2.7, -2.7):  # rad, both sides of the head
            tip = (end[0] + _HEAD * math.cos(angle + turn), end[1] + _HEAD * math.sin(angle + turn))
            found.append(Line(end, tip, "course", body.name))
        size = math.hypot(force[0], force[1], max(force[2], 0.0))  # anchors are not asked to bear pressure
        if not is_told and math.isclose(size, body.load, rel_tol=1e-6):
            is_told, below = True, across < 0.0
            text = format_quantity(size, "force", system, digits=3)
            found.append(Text(end, text, part=body.name, bold=True, shift=(0.0, -0.003 if below else 0.003)))
    return found


def _told(body: AnchorResult, system: System) -> str:
    mass = format_quantity(body.mass, "mass", system, digits=3)
    load, strength = (format_quantity(each, "force", system, digits=3) for each in (body.load, body.strength))
    return (
        f"{body.name}, {mass}, pushed {body.direction}: at most {load} on one of {body.anchors} anchors for {strength}"
    )
