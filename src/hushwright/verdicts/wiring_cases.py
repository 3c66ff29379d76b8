"""What the checks of the wiring find in an Evaluation."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.results.wiring import CircuitResult, Tie
from hushwright.evaluation.wiring.parts import DROP_SPREAD
from hushwright.evaluation.wiring.wiring import FAULT_SPREAD, at_sockets, distance_limit
from hushwright.physics.electrical.conductors import conductors
from hushwright.verdicts.check import Case, of_library
from hushwright.verdicts.hints import ENOUGH, SHORT

FIRE = (
    "Wrong conductors and fuses set vehicles on fire. Rules change with place and use; a licensed electrician decides,"
    " and tests before the bank is joined."
)
MAINS = (
    "Mains voltage kills. Work on it, and every joint of neutral and earth, is for a licensed electrician after the"
    " rules of the place where the van stands."
)
_TOLD = 5
_SAME = 1e-6
_NOMINAL = 1.05
"""3.6 kVA and 16 A at 230 V are the same socket; common practice, no source."""


def _spoken(name: str) -> str:
    return name.replace("_", " ")


def _names(names: tuple[str, ...]) -> str:
    told = ", ".join(_spoken(each) for each in names[:_TOLD])
    return f"{told} and {len(names) - _TOLD} more" if len(names) > _TOLD else told


_Asked = Callable[[Evaluation, CircuitResult], tuple[float, str, str, str] | None]
"""Limit, basis, end of the place, hint of one circuit; `None` where it is not asked."""


Cases = Callable[[Evaluation], tuple[Case, ...]]


def each_circuit(key: str, asked: _Asked, caution: str, *, least: bool = False) -> Cases:
    """The circuit nearest to its limit, and every other beyond its own."""

    def cases(evaluation: Evaluation) -> tuple[Case, ...]:
        found: list[tuple[float, Case]] = []
        for circuit in evaluation.wiring.circuits:
            quantity = evaluation.quantities.get(f"wiring-{key}/{circuit.name}")
            given = asked(evaluation, circuit) if quantity is not None else None
            if quantity is None or given is None:
                continue
            limit, basis, field, hint = given
            used = limit / max(quantity.value, 1e-12) if least else quantity.value / max(limit, 1e-12)
            place = f"{circuit.place}{field}"
            found.append((used, Case(circuit.name, "", quantity, limit, basis, place, hint=hint, caution=caution)))
        found.sort(key=lambda pair: -pair[0])
        return tuple(case for index, (used, case) in enumerate(found) if index == 0 or used > 1.0)

    return cases


def carries(_evaluation: Evaluation, one: CircuitResult) -> tuple[float, str, str, str] | None:
    """What a conductor carries, against its current."""
    if one.ampacity is None:
        return None
    size = f"{one.conductor}, the thinnest that serves" if one.chosen else one.conductor
    return (
        one.ampacity,
        one.ampacity_basis,
        "",
        (f"take one that carries {ENOUGH}, or lay it alone; {_spoken(one.name)} is {size}"),
    )


def drop(evaluation: Evaluation, one: CircuitResult) -> tuple[float, str, str, str]:
    """What may be lost up to the end of a circuit."""
    rules = evaluation.wiring.rules
    own = f"own drop {100.0 * one.drop:.1f} %, {one.drop * one.voltage:.2f} V of {one.voltage:g} V"
    told = f"{_spoken(one.name)}: {own} over {one.length:.1f} m one way; in all {100.0 * one.drop_from_source:.1f} %"
    asked = "3 % where it matters and 10 % elsewhere are ABYC E-11's; NEC advises 3 % and 5 % in all"
    return (one.allowed_drop, f"allowed drop in the build file, counted after {rules}; {asked}", ".allowed_drop",
            f"{_thicker(one)}; {told}")  # fmt: skip


def _thicker(one: CircuitResult) -> str:
    """Copper by which the drop of a circuit is surely small enough, what is lost before it staying as it is."""
    before = one.drop_from_source - one.drop
    left = one.allowed_drop / (1.0 + 2.0 * DROP_SPREAD) - before
    if left <= 0.0:
        return f"take a thicker conductor before {_spoken(one.name)}: more than allowed is lost there"
    least = one.area * max(one.drop / left, 1.0)
    sizes = sorted(each.conductor_area for each in conductors("mm2"))
    listed = next((size for size in sizes if size >= least * (1.0 - _SAME)), least)
    return f"take a conductor of {1e6 * listed:g} mm² or more, or a shorter way"


def protects(_evaluation: Evaluation, one: CircuitResult) -> tuple[float, str, str, str] | None:
    """The largest fuse that protects a conductor."""
    if one.fuse_limit is None:
        return None
    whose = "its fuse" if one.guarded_by == one.name else f"the fuse of {_spoken(one.guarded_by)}"
    basis = f"no fuse above what its conductor may carry: {one.ampacity_basis}"
    hint = (
        f"take a fuse of {one.fuse_limit:.0f} A at most, or a conductor that carries {ENOUGH};"
        f" {_spoken(one.name)}, {one.conductor}, is protected by {whose}"
    )
    return one.fuse_limit, basis, ".fuse" if one.fuse is not None else "", hint


def holds(evaluation: Evaluation, one: CircuitResult) -> tuple[float, str, str, str]:
    """How far a fuse may be used lastingly."""
    limit, basis = of_library(evaluation, "lasting use of a fuse")
    hint = (
        f"take a fuse of {one.current / limit:.0f} A or more, and a conductor that it protects;"
        f" {_spoken(one.name)} draws {one.current:.1f} A through {one.fuse:g} A"
    )
    return limit, basis, ".fuse.rating", hint


def interrupts(evaluation: Evaluation, one: CircuitResult) -> tuple[float, str, str, str]:
    """What the fuse of a circuit interrupts."""
    typed = not one.interrupt_notes
    basis = "interrupt rating in the build file" if typed else f"usual interrupt rating of a {one.fuse_type}"
    bank = evaluation.wiring.bank_fault
    told = "" if bank is None else f"; a dead short at the bank draws {bank:.0f} A"
    return (one.interrupt or 0.0, basis, ".fuse.interrupt_rating",
            f"put a fuse that interrupts {ENOUGH} before {_spoken(one.name)}, such as class T{told}")  # fmt: skip


def opens(evaluation: Evaluation, one: CircuitResult) -> tuple[float, str, str, str]:
    """How far a short is to exceed the fuse."""
    limit, basis = of_library(evaluation, "short over a fuse")
    sure = (one.least_fault or 0.0) * (1.0 - 2.0 * FAULT_SPREAD) / limit
    hint = (
        f"take a fuse of {sure:.0f} A at most, or a thicker conductor; a short at the far end of"
        f" {_spoken(one.name)} draws {one.least_fault or 0.0:.0f} A"
    )
    return limit, basis, "", hint


def distance(evaluation: Evaluation, one: CircuitResult) -> tuple[float, str, str, str] | None:
    """How far the first fuse may be from its source."""
    wiring = evaluation.build.wiring
    circuit = next((each for each in wiring.circuits if each.name == one.name), None) if wiring is not None else None
    if wiring is None or circuit is None:
        return None
    limit = distance_limit(wiring, circuit)
    return (limit, f"first fuse near its source: {wiring.rules}, memory, high confidence", ".fuse.distance",
            f"move the fuse of {_spoken(one.name)} {SHORT} nearer to its source; what lies before it nothing"
            f" protects")  # fmt: skip


def trips(evaluation: Evaluation, one: CircuitResult) -> tuple[float, str, str, str]:
    """At what residual current a device is to trip."""
    name = "residual current of class A" if evaluation.wiring.rules == "NEC 551" else "residual current"
    limit, basis = of_library(evaluation, name)
    return (
        limit,
        basis,
        "",
        f"take a device that trips at {1000 * limit:.0f} mA, of type A or B, for {_spoken(one.name)}",
    )


def at_socket(evaluation: Evaluation) -> tuple[Case, ...]:
    """The first fuse aboard against what socket or generator gives."""
    return tuple(
        Case(each.name, "", evaluation.quantities[f"wiring-socket/{each.name}"], _NOMINAL * gives,
             f"{_spoken(each.takes_from)} gives {gives:.1f} A; what is nominal differs by {100 * (_NOMINAL - 1):.0f} %;"
             " a larger fuse aboard leaves the one outdoors to open, or none: common practice, no source",
             f"{each.place}.fuse.rating",
             hint=f"take a fuse of {gives:.0f} A at most for {_spoken(each.name)}, or a socket that gives {ENOUGH}",
             caution=MAINS)
        for each, gives in at_sockets(evaluation.build, evaluation.wiring)
    )  # fmt: skip


def reach(evaluation: Evaluation, one: CircuitResult) -> tuple[float, str, str, str] | None:
    """How far a hand reaches."""
    wiring = evaluation.build.wiring
    if wiring is None:
        return None
    assumed = any(each.path == "power.wiring.reach" for each in evaluation.assumptions)
    basis = of_library(evaluation, "reach of an arm")[1] if assumed else "reach of an arm in the build file"
    return (
        wiring.reach,
        basis,
        ".isolator",
        f"bring the isolator of {_spoken(one.name)} {SHORT} nearer to {one.isolator}",
    )


def selective(evaluation: Evaluation) -> tuple[Case, ...]:
    """Fuses in series that are too alike; the closest pair in any case."""
    limit, basis = of_library(evaluation, "selective ratio of fuses")
    pairs = sorted(evaluation.wiring.pairs, key=lambda each: each.ratio)
    return tuple(
        Case(each.nearer, "", evaluation.quantities[f"wiring-selective/{each.nearer}"], limit, basis, each.place,
             hint=f"take a smaller fuse here, or a larger one there; a short in {_spoken(each.nearer)} may open the"
                  f" fuse of {_spoken(each.farther)} as well", caution=FIRE)
        for index, each in enumerate(pairs)
        if index == 0 or each.ratio < limit
    )  # fmt: skip


def lacking(
    key: str, names: Callable[[Evaluation], tuple[str, ...]], basis: str, field: str, hint: str, caution: str
) -> Cases:
    """How many circuits or loads lack something; none may."""

    def cases(evaluation: Evaluation) -> tuple[Case, ...]:
        quantity = evaluation.quantities.get(f"wiring-{key}")
        if quantity is None:
            return ()
        missing = names(evaluation)
        told = hint.format(_names(missing)) if missing else ""
        return (Case("all", "", quantity, 0.0, basis, field, hint=told, caution=caution),)

    return cases


def besides(cases: Cases, more: Cases, question: str) -> Cases:
    """Cases of a check, and where something is lacking, one that asks for it."""

    def asked(evaluation: Evaluation) -> tuple[Case, ...]:
        lacks = [replace(each, question=question) for each in more(evaluation) if each.quantity.value > 0.0]
        return (*cases(evaluation), *lacks)

    return asked


def on_a_bank(cases: Cases) -> Cases:
    """The cases, where a circuit begins at the bank."""

    def asked(evaluation: Evaluation) -> tuple[Case, ...]:
        return cases(evaluation) if any(each.takes_from == "bank" for each in evaluation.wiring.circuits) else ()

    return asked


def on_mains(cases: Cases) -> Cases:
    """The cases, where a circuit carries mains voltage."""

    def asked(evaluation: Evaluation) -> tuple[Case, ...]:
        return cases(evaluation) if any(each.alternating for each in evaluation.wiring.circuits) else ()

    return asked


_ONE_LINK = "one joint of neutral and earth at a time: IEC 60364-7-717, 7-721; NEC 551.30, 250.34"


def neutral(source: str, limit: float, hint: str) -> Cases:
    """Joints of neutral and earth aboard on one source."""

    def cases(evaluation: Evaluation) -> tuple[Case, ...]:
        quantity = evaluation.quantities.get(f"wiring-neutral/{source}")
        if quantity is None:
            return ()
        return (Case(source, "", quantity, limit, _ONE_LINK, f"power.wiring.neutral_earth.at_{source}", hint=hint,
                     caution=MAINS),)  # fmt: skip

    return cases


def joined_aboard(evaluation: Evaluation) -> tuple[Case, ...]:
    """A joint, or a monitor, on each source aboard."""
    hint = "join it, or watch it: on a side that floats a residual-current device does not trip at the first fault"
    return tuple(case for source in ("converter", "generator") for case in neutral(source, 1.0, hint)(evaluation))


def change_over(evaluation: Evaluation) -> tuple[Case, ...]:
    """What joins and parts neutral and earth."""
    quantity = evaluation.quantities.get("wiring-change-over")
    if quantity is None:
        return ()
    return (Case("all", "", quantity, 1.0, _ONE_LINK, "power.wiring.neutral_earth.change_over",
                 hint="put in a relay, or let the plug of the source itself part the joint; a hand forgets",
                 caution=MAINS),)  # fmt: skip


def bond(evaluation: Evaluation) -> tuple[Case, ...]:
    """Copper to the chassis."""
    quantity = evaluation.quantities.get("wiring-bond")
    if quantity is None:
        return ()
    limit, basis = of_library(evaluation, "bond to the chassis")
    lead = evaluation.wiring.main_lead or 0.0
    least = max(limit, lead)
    thin = quantity.value < least
    return (Case("all", "", quantity, least, f"{basis}; and not thinner than the lead of the bank",
                 "power.wiring.chassis_bond", hint=f"lay {1e6 * least:g} mm² of copper to the chassis" if thin else "",
                 caution=MAINS),)  # fmt: skip


def ties(key: str, which: Callable[[Evaluation], tuple[Tie, ...]], basis: str, hint: str) -> Cases:
    """Routes that do what none may."""

    def cases(evaluation: Evaluation) -> tuple[Case, ...]:
        quantity = evaluation.quantities.get(f"wiring-{key}")
        if quantity is None:
            return ()
        ties = which(evaluation)
        told = ", ".join(f"{_spoken(each.route)} at the {each.face}" for each in ties[:_TOLD])
        place = ties[0].place if ties else "routes"
        return (Case("all", "", quantity, 0.0, basis, place, hint=f"{hint}: {told}" if ties else ""),)

    return cases
