"""How full glands, holes and cuts are: signal cables and the conductors of power that take the same way."""

from __future__ import annotations

import math

from hushwright.evaluation.results.signals import GlandResult
from hushwright.evaluation.wiring.parts import cores_of, wires_of
from hushwright.model.build import Build
from hushwright.model.signals_in_place import GlandInPlace, LineInPlace
from hushwright.physics.electrical.conductors import insulated_diameter
from hushwright.physics.electrical.signal_lines import permitted_fill

Cables = list[tuple[str, int, float]]  # name, number, diameter [m]


def glands_of(build: Build) -> tuple[GlandResult, ...]:
    """Every gland of the signals that any cable passes."""
    signals = build.signals
    if signals is None:
        return ()
    found = (_gland(each, [*_of_signals(each, signals.lines), *_of_power(each, build)]) for each in signals.glands)
    return tuple(each for each in found if each is not None)


def _of_signals(gland: GlandInPlace, lines: tuple[LineInPlace, ...]) -> Cables:
    return [(each.name, each.number, each.diameter) for each in lines if gland.name in each.passes]


def _of_power(gland: GlandInPlace, build: Build) -> Cables:
    """Conductors of the circuits whose route passes the gland: they lie in it one by one."""
    if build.wiring is None:
        return []
    ways = {each.name for each in build.routes if gland.name in each.passes}
    wires = wires_of(build.wiring)
    return [(each.name, cores_of(each), insulated_diameter(wires[each.name].conductor))
            for each in build.wiring.circuits if each.route in ways]  # fmt: skip


def _gland(gland: GlandInPlace, cables: Cables) -> GlandResult | None:
    number = sum(each for _, each, _ in cables)
    if not number:
        return None
    area = sum(each * math.pi / 4.0 * diameter**2 for _, each, diameter in cables)
    a_hole = math.ceil(number / gland.number)
    return GlandResult(gland.name, number, area / (gland.area * gland.number), permitted_fill(a_hole),
                       max(diameter for _, _, diameter in cables), gland.width, tuple(name for name, _, _ in cables),
                       gland.place)  # fmt: skip
