"""Voltage lost up to the end of a circuit, leg by leg from its source on."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.evaluation.wiring.parts import cores_of, rules_of, same_side, wires_of
from hushwright.model.wiring_in_place import CircuitInPlace, WiringInPlace
from hushwright.physics.electrical.voltage_drop import counted_resistance


@dataclass(frozen=True, slots=True)
class DropLeg:
    """One circuit on the way: length one way [m], area [m²], temperature [°C], current [A], lost [V].

    ``resistance`` is that of one conductor [Ω/m], ``basis`` says where it is from; ``share`` is what is lost, of the
    voltage.
    """

    circuit: str
    begins_at: str
    length: float
    cores: int
    conductor: str
    area: float
    temperature: float
    resistance: float
    basis: str
    current: float
    lost: float
    share: float


def drop_legs(wiring: WiringInPlace, name: str) -> tuple[DropLeg, ...]:
    """Legs of the way to the end of a circuit, at its voltage.

    Parameters
    ----------
    wiring : WiringInPlace
        All circuits.
    name : str
        Circuit at the end.

    Returns
    -------
    tuple of DropLeg
        The one at the bank or source first; their shares add up to the drop in all.
    """
    by_name = {each.name: each for each in wiring.circuits}
    last = by_name[name]
    way = [*(by_name[each] for each in reversed(same_side(last, by_name))), last]
    return tuple(_leg(wiring, circuit) for circuit in way)


def _leg(wiring: WiringInPlace, circuit: CircuitInPlace) -> DropLeg:
    wire = wires_of(wiring)[circuit.name]
    size, counted = wire.conductor, counted_resistance(wire.conductor, rules_of(wiring))
    return DropLeg(circuit.name, circuit.takes_from, circuit.length, cores_of(circuit), size.name, size.conductor_area,
                   counted.temperature, counted.per_length, counted.basis, circuit.current, wire.drop * circuit.voltage,
                   wire.drop)  # fmt: skip
