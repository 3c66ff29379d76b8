"""Doors as they swing, and where people sit, stand and listen, seen from above."""

from __future__ import annotations

import math
from string import ascii_lowercase

from hushwright.drawings.primitives import Arc, Balloon, Circle, Element, Line
from hushwright.model.build import Build
from hushwright.model.use_in_place import SwingInPlace

_HEAD = 0.11  # m, radius of a head in plan; common practice, no source
_BOX = 0.06  # m, radius of the mark of a loudspeaker or camera
PLACES = ("at the desk", "in the take", "loudspeaker", "camera")
"""What a plan calls the places of a workplace."""


def swings_in_plan(build: Build) -> list[Element]:
    """Every swing of the file: the leaf wide open, dashed, and the arc of its edge."""
    return [each for swing in build.use.swings for each in _swing(swing)]


def places_in_plan(build: Build) -> tuple[list[Element], tuple[tuple[str, str], ...]]:
    """Places of the workplace and of who is recorded, each with a small letter, and what the letters mean."""
    place = build.use.workplace
    if place is None:
        return [], ()
    spots = [(place.eye, _HEAD, "at the desk"), *((each, _HEAD, "in the take") for each in place.singers)]
    spots += [(each, _BOX, "loudspeaker") for each in place.speakers]
    spots += [(place.camera[0], _BOX, "camera")] if place.camera is not None else []
    found: list[Element] = []
    key = []
    for letter, (spot, radius, name) in zip(ascii_lowercase, spots, strict=False):
        at = (spot[0], -spot[1])
        found += [Circle(at, radius, "fittings", name, dashed=True), Balloon(at, letter, part=name)]
        key.append((letter, name))
    return found, tuple(key)


def _swing(swing: SwingInPlace) -> list[Element]:
    """The leaf wide open and the arc of its edge; y runs to the right of the van in a plan."""
    hinge = (swing.hinge[0], -swing.hinge[1])
    closed = math.atan2(-swing.closed[1], swing.closed[0])
    towards = math.atan2(-swing.towards[1], swing.towards[0])
    anticlockwise = math.sin(towards - closed) > 0.0
    opened = closed + (swing.angle if anticlockwise else -swing.angle)
    edge = (hinge[0] + swing.width * math.cos(opened), hinge[1] + swing.width * math.sin(opened))
    first, last = (closed, opened) if anticlockwise else (opened, closed)
    return [
        Line(hinge, edge, "openings", swing.name, dashed=True),
        Arc(hinge, swing.width, first, last, "openings", swing.name, dashed=True),
    ]
