"""Cables as masses: every circuit of power and every signal line, at the middle of its way."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from hushwright.evaluation.wiring.parts import cable_mass, wires_of
from hushwright.library.records import Limit
from hushwright.model.build import Build, MassItem
from hushwright.model.signals_in_place import LineInPlace

CABLES = "cables"
"""Group of the masses."""
_DIAMETER = 0.006
"""m, outer diameter of the signal cable whose mass the library has."""
_HEIGHT = 1.0
"""m over the floor, where a signal line without a route lies; common practice, no source."""


@lru_cache(maxsize=64)
def with_cables(build: Build) -> Build:
    """The build with the mass of every cable; of one that has them already, nothing is counted twice."""
    if any(item.group == CABLES for item in build.masses):
        return build
    items = (*_circuits(build), *_lines(build))
    return replace(build, masses=(*build.masses, *items)) if items else build


def _circuits(build: Build) -> tuple[MassItem, ...]:
    if build.wiring is None:
        return ()
    wires = wires_of(build.wiring)
    return tuple(
        MassItem(f"cable, {circuit.name.replace('_', ' ')}", CABLES, cable_mass(circuit, wires[circuit.name]),
                 *circuit.centre, circuit.fixed_to, circuit.place)
        for circuit in build.wiring.circuits
    )  # fmt: skip


def _lines(build: Build) -> tuple[MassItem, ...]:
    """Signal lines; one that leads outdoors rides along where it begins."""
    if build.signals is None:
        return ()
    per_metre = build.library.find(Limit, "mass of a signal cable").value.value
    found = []
    for line in build.signals.lines:
        mass = line.number * line.length * per_metre * (line.diameter / _DIAMETER) ** 2
        name = f"signal cable, {line.name.replace('_', ' ')}"
        found.append(MassItem(name, CABLES, mass, *_centre(build, line), _bodies(build, line), line.place))
    return tuple(found)


def _centre(build: Build, line: LineInPlace) -> tuple[float, float, float]:
    """Middle of the route; without one, midway between the middles of the rooms at its ends."""
    for route in build.routes:
        if route.name == line.route:
            return route.centre
    ends = [(room.front + room.rear) / 2.0 for name in (line.comes_from, line.goes_to) for room in build.rooms
            if room.name == name]  # fmt: skip
    return (sum(ends) / len(ends) if ends else 0.0), 0.0, _HEIGHT


def _bodies(build: Build, line: LineInPlace) -> tuple[str, ...]:
    """What carries it: as the file says; else the floating room where both ends are in it, or the body."""
    fixed = tuple(body for body in line.fixed_to if body != "loose")
    if fixed:
        return fixed
    quiet = {room.name for room in build.rooms if room.purpose == "quiet"}
    return ("quiet",) if {line.comes_from, line.goes_to} <= quiet else ("body",)
