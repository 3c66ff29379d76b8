"""Each circuit on its own: the conductor that serves, its fuse, what a short draws."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from hushwright.evaluation.guard import at
from hushwright.evaluation.results.wiring import CircuitResult
from hushwright.model.wiring_in_place import CircuitInPlace, WiringInPlace
from hushwright.physics.electrical.conductors import (
    Ampacity,
    Conductor,
    Gauge,
    RuleSet,
    ampacity,
    cable_mass_per_length,
    conductor_of_area,
    conductor_of_gauge,
    conductors,
    resistance_at,
)
from hushwright.physics.electrical.fault import short_circuit_current
from hushwright.physics.electrical.fuses import InterruptRating, fuse_limit, interrupt_rating, smallest_fuse
from hushwright.physics.electrical.voltage_drop import voltage_drop

FUSE_USE = 0.8
"""Lasting current over the rating of a fuse that is left out: common practice, no source; NEC 210.20 asks the same."""
DROP_SPREAD = 0.06
"""Standard uncertainty of a drop, relative: conductors between 20 and 60 °C; common practice, no source."""
_THINNEST = {"ABYC E-11": 1.31e-6}
"""m²: 33 CFR 183.425 (e), a conductor that runs alone is at least 16 AWG."""
_FULL = 1.0625
"""Voltage of a full bank at rest over its nominal one: 3.4 V for 3.2 V a cell; common practice, no source."""
_WARM = 70.0
"""°C of a conductor that has carried what it may."""


@dataclass(frozen=True, slots=True)
class Wire:
    """Conductor of a circuit with what it carries, and its fuse."""

    conductor: Conductor
    chosen: bool
    ampacity: Ampacity
    fuse: float | None
    fuse_chosen: bool
    guarded_by: str  # circuit whose fuse protects it, itself or one before; empty where none does
    guard: float | None  # rating of that fuse [A]
    drop: float  # share of the voltage


def rules_of(wiring: WiringInPlace) -> RuleSet:
    """Rules of a build as the laws name them."""
    rules: RuleSet = wiring.rules  # type: ignore[assignment]  # the schema offers these alone
    return rules


@lru_cache(maxsize=256)
def wires_of(wiring: WiringInPlace) -> Mapping[str, Wire]:
    """Conductor and fuse of every circuit; those before come first, for the drop adds up."""
    by_name = {each.name: each for each in wiring.circuits}
    found: dict[str, Wire] = {}
    for circuit in sorted(wiring.circuits, key=lambda each: len(each.upstream)):
        with at(circuit.place):
            before = tuple(found[name] for name in same_side(circuit, by_name) if name in found)
            found[circuit.name] = _wire(circuit, wiring, before)
    return found


def same_side(circuit: CircuitInPlace, by_name: Mapping[str, CircuitInPlace]) -> tuple[str, ...]:
    """Circuits before one at the same voltage, up to the first of another."""
    found = []
    for name in circuit.upstream:
        other = by_name.get(name)
        if other is None or other.alternating != circuit.alternating or other.voltage != circuit.voltage:
            break
        found.append(name)
    return tuple(found)


def _wire(circuit: CircuitInPlace, wiring: WiringInPlace, before: tuple[Wire, ...]) -> Wire:
    rules = rules_of(wiring)
    rating = None if circuit.fuse is None else circuit.fuse.rating
    fuse_chosen = circuit.fuse is not None and rating is None
    if fuse_chosen:
        rating = smallest_fuse(circuit.current / FUSE_USE)
    guarded_by, guard = (circuit.name, rating) if rating is not None else ("", None)
    if guard is None and before:
        guarded_by, guard = before[0].guarded_by, before[0].guard
    if circuit.area is not None:
        conductor = conductor_of_area(circuit.area)
    elif circuit.awg:
        conductor = conductor_of_gauge(circuit.awg)
    else:
        conductor = _thinnest(circuit, wiring, guard, sum(each.drop for each in before))
    return Wire(conductor, circuit.area is None and not circuit.awg, _carried(circuit, conductor, rules), rating,
                fuse_chosen, guarded_by, guard, _drop(circuit, conductor, rules))  # fmt: skip


def _thinnest(circuit: CircuitInPlace, wiring: WiringInPlace, fuse: float | None, before: float) -> Conductor:
    """Thinnest conductor that carries the current, is protected by the fuse and keeps the drop; else the thickest."""
    rules = rules_of(wiring)
    sizes: Gauge = "AWG" if wiring.sizes == "AWG" else "mm2"
    offered = conductors(sizes)
    for each in offered:
        if each.conductor_area < _THINNEST.get(rules, 0.0):
            continue
        carried = _carried(circuit, each, rules)
        limit = fuse_limit(each, carried.current, rules, alternating=circuit.alternating)
        if carried.current is None:
            enough = rules == "NEC 551" and not circuit.alternating  # no table at all, so that none rules a size out
        else:
            enough = carried.current >= circuit.current
        protected = fuse is None or limit is None or fuse <= limit
        lost = (1.0 + 2.0 * DROP_SPREAD) * (before + _drop(circuit, each, rules))
        if enough and protected and lost <= circuit.allowed_drop:
            return each
    return offered[-1]


def _carried(circuit: CircuitInPlace, conductor: Conductor, rules: RuleSet) -> Ampacity:
    return ampacity(conductor, circuit.insulation, rules, bundled=circuit.bundled, engine_space=circuit.engine_space,
                    alternating=circuit.alternating)  # fmt: skip


def _drop(circuit: CircuitInPlace, conductor: Conductor, rules: RuleSet) -> float:
    return voltage_drop(circuit.current, conductor, circuit.length, rules) / circuit.voltage


def cores_of(circuit: CircuitInPlace) -> int:
    """Conductors of a circuit: two, and an earth on mains voltage."""
    return 3 if circuit.alternating else 2


def cable_mass(circuit: CircuitInPlace, wire: Wire) -> float:
    """Mass of the whole cable of a circuit [kg]."""
    return cores_of(circuit) * circuit.length * cable_mass_per_length(wire.conductor)


def circuit_result(wiring: WiringInPlace, circuit: CircuitInPlace) -> CircuitResult:
    """Everything about one circuit."""
    wires = wires_of(wiring)
    by_name = {each.name: each for each in wiring.circuits}
    wire = wires[circuit.name]
    rules = rules_of(wiring)
    fault, least = faults(wiring, circuit)
    breaks = _interrupts(circuit)
    total = wire.drop + sum(wires[name].drop for name in same_side(circuit, by_name))
    switch = circuit.isolator
    return CircuitResult(
        circuit.name, circuit.takes_from, circuit.gives_to, circuit.route, circuit.alternating, circuit.voltage,
        circuit.current, circuit.length, cores_of(circuit), wire.conductor.name, wire.conductor.conductor_area,
        _gauge(wire.conductor),
        wire.chosen, wire.ampacity.current, wire.ampacity.basis, wire.ampacity.notes, wire.drop, total,
        circuit.allowed_drop, wire.fuse, "" if circuit.fuse is None else circuit.fuse.type, wire.fuse_chosen,
        wire.guarded_by, wire.guard,
        fuse_limit(wire.conductor, wire.ampacity.current, rules, alternating=circuit.alternating), fault, least,
        breaks.current, breaks.notes, circuit.residual, "" if switch is None else switch.reached_from,
        None if switch is None else switch.distance, cable_mass(circuit, wire), circuit.fixed_to, circuit.place,
    )  # fmt: skip


def _gauge(conductor: Conductor) -> str:
    """Thinnest wire gauge that is not thinner than a conductor; empty above the thickest."""
    serves = (each.name for each in conductors("AWG") if each.conductor_area >= conductor.conductor_area * 0.999999)
    return next(serves, "")


def _interrupts(circuit: CircuitInPlace) -> InterruptRating:
    if circuit.fuse is None or circuit.alternating:
        return InterruptRating(None, ())
    if circuit.fuse.interrupt_rating is not None:
        return InterruptRating(circuit.fuse.interrupt_rating, ())
    return interrupt_rating(circuit.fuse.type, circuit.voltage)


def faults(wiring: WiringInPlace, circuit: CircuitInPlace) -> tuple[float | None, float | None]:
    """Short at the circuit's fuse with a full bank and cold cable, and one at its far end with warm cable [A].

    `None` where the bank does not feed the short: on mains voltage what limits it is not in the file.
    """
    if circuit.alternating or wiring.bank_resistance is None or wiring.bank_voltage is None:
        return None, None
    if not fed_by_bank(wiring, circuit):
        return None, None
    by_name = {each.name: each for each in wiring.circuits}
    before = circuit.upstream if circuit.kind == "bank" else ()
    cold = sum(_loop(wiring, by_name[name], 20.0) for name in before if name in by_name)
    warm = sum(_loop(wiring, by_name[name], _WARM) for name in (*before, circuit.name) if name in by_name)
    return (
        short_circuit_current(_FULL * wiring.bank_voltage, wiring.bank_resistance, cold),
        short_circuit_current(wiring.bank_voltage, wiring.bank_resistance, warm),
    )


def fed_by_bank(wiring: WiringInPlace, circuit: CircuitInPlace) -> bool:
    """Whether a short in a circuit draws on the bank: it begins there, charges it, or gives to a board of its."""
    if circuit.kind == "bank" or "bank" in circuit.gives_to:
        return True
    boards = {end for each in wiring.circuits if each.kind == "bank" for end in each.gives_to}
    return bool(boards & set(circuit.gives_to))


def _loop(wiring: WiringInPlace, circuit: CircuitInPlace, temperature: float) -> float:
    conductor = wires_of(wiring)[circuit.name].conductor
    return 2.0 * circuit.length * resistance_at(conductor.resistance_per_length, temperature)
