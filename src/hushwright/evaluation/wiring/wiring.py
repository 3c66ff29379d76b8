"""Wiring coupled: circuits, fuses in series, earths, isolators, and routes as bridges."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from hushwright.evaluation.results import Quantity
from hushwright.evaluation.results.wiring import CircuitResult, FusePair, Tie, WiringResults
from hushwright.evaluation.wiring.parts import DROP_SPREAD, circuit_result, fed_by_bank, wires_of
from hushwright.model.build import Build
from hushwright.model.routes_in_place import RouteInPlace
from hushwright.model.wiring_in_place import CircuitInPlace, WiringInPlace
from hushwright.physics.electrical.conductors import conductor_of_gauge
from hushwright.physics.electrical.fuses import first_fuse_distance

FAULT_SPREAD = 0.2
"""Relative: links, switch and joints of a bank; common practice, no source."""
_OTHER_TYPE = 0.2
"""Relative spread of the ratio of fuses of two types, whose curves differ; common practice, no source."""
_REACH_SPREAD = 0.05
"""m: where a shoulder is."""
_MAINS_SOURCES = ("converter", "shore", "generator")


def wiring_of(build: Build, quantities: dict[str, Quantity]) -> WiringResults:
    """Every circuit, and what routes do to the floating room."""
    ties, without = _ties(build.routes)
    if build.routes and build.room_for("quiet") is not None:
        quantities["wiring-bridges"] = Quantity(float(len(ties)), "count")
        quantities["wiring-glands"] = Quantity(float(len(without)), "count")
    if build.wiring is None:
        return WiringResults(ties=ties, without_gland=without)
    found = replace(_results(build.wiring), ties=ties, without_gland=without)
    quantities.update(_quantities(build.wiring))
    for each, _ in at_sockets(build, found):
        quantities[f"wiring-socket/{each.name}"] = Quantity(each.fuse or 0.0, "current")
    return found


def at_sockets(build: Build, found: WiringResults) -> list[tuple[CircuitResult, float]]:
    """Circuits with a fuse that begin at a socket or a generator, each with the current that it gives [A]."""
    supplies = {each.name: each.supply for each in build.power.feeders} if build.power is not None else {}
    return [(each, supplies[each.takes_from] / each.voltage) for each in found.circuits
            if each.alternating and each.fuse is not None and each.takes_from in supplies]  # fmt: skip


@lru_cache(maxsize=256)
def _results(wiring: WiringInPlace) -> WiringResults:
    circuits = tuple(circuit_result(wiring, each) for each in wiring.circuits)
    bare = [each.name for each in wiring.circuits if each.alternating and _residual(wiring, each) is None]
    bank = [each for each in circuits if each.takes_from == "bank"]
    resistance, voltage = wiring.bank_resistance, wiring.bank_voltage
    return WiringResults(
        wiring.rules, circuits, _pairs(wiring),
        no_table=tuple(each.name for each in circuits if each.ampacity is None),
        unfused=tuple(each.name for each in circuits if each.guard is None),
        unprotected=tuple(bare),
        blind=tuple(each.name for each in wiring.circuits if each.residual is not None and each.residual[1] == "AC"),
        no_isolator=tuple(each.name for each in wiring.circuits if each.takes_from == "bank" and each.isolator is None),
        unwired=wiring.unwired,
        bank_fault=next((each.fault for each in bank), None) if resistance and voltage else None,
        bond=_bond(wiring), main_lead=max((each.area for each in bank), default=None),
    )  # fmt: skip


def _bond(wiring: WiringInPlace) -> float | None:
    area, gauge = wiring.bond
    return conductor_of_gauge(gauge).conductor_area if gauge else area


def _residual(wiring: WiringInPlace, circuit: CircuitInPlace, after: tuple[str, ...] = ()) -> tuple[float, str] | None:
    """Slackest residual-current device before the end of a circuit, over every way in; `None` where one has none."""
    if circuit.residual is not None or not circuit.upstream:
        return circuit.residual
    seen = (*after, circuit.name)
    parents = [each for each in wiring.circuits
               if circuit.takes_from in each.gives_to and each.alternating and each.name not in seen]  # fmt: skip
    found = [_residual(wiring, each, seen) for each in parents]
    known = [each for each in found if each is not None]
    return max(known, default=None) if len(known) == len(found) else None


def _pairs(wiring: WiringInPlace) -> tuple[FusePair, ...]:
    """Each fuse with the next one towards the source; breakers are told by their makers' tables alone."""
    wires = wires_of(wiring)
    by_name = {each.name: each for each in wiring.circuits}
    found = []
    for circuit in wiring.circuits:
        if circuit.fuse is None or wires[circuit.name].fuse is None or circuit.alternating:
            continue
        for name in circuit.upstream:
            before = by_name.get(name)
            if before is None or before.alternating:
                break
            fuse, mine = wires[name].fuse, wires[circuit.name].fuse
            if before.fuse is not None and fuse is not None and mine is not None:
                found.append(FusePair(circuit.name, name, fuse / mine, before.fuse.type == circuit.fuse.type,
                                      circuit.fuse.place))  # fmt: skip
                break
    return tuple(found)


def _ties(routes: tuple[RouteInPlace, ...]) -> tuple[tuple[Tie, ...], tuple[Tie, ...]]:
    ties = [
        Tie(route.name, ", ".join(dict.fromkeys(each.face for each in route.crossings)) or "floor",
            "without a loop" if route.crossings else "fixed to both", route.place)
        for route in routes if route.is_bridge
    ]  # fmt: skip
    without = [Tie(route.name, each.face, "without a gland", route.place)
               for route in routes for each in route.without_gland]  # fmt: skip
    return tuple(ties), tuple(without)


@lru_cache(maxsize=256)
def _quantities(wiring: WiringInPlace) -> dict[str, Quantity]:
    results = _results(wiring)
    found: dict[str, Quantity] = {}
    for each in results.circuits:
        found.update(_of_circuit(each))
    for pair in results.pairs:
        spread = 0.0 if pair.alike else _OTHER_TYPE * pair.ratio
        found[f"wiring-selective/{pair.nearer}"] = Quantity(pair.ratio, "count", spread)
    for circuit in wiring.circuits:
        found.update(_of_source(wiring, circuit))
    for key, names in (
        ("no-table", results.no_table), ("unfused", results.unfused),
        ("rcd-absent", results.unprotected), ("rcd-blind", results.blind),
        ("isolator-absent", results.no_isolator), ("unwired", results.unwired),
    ):  # fmt: skip
        found[f"wiring-{key}"] = Quantity(float(len(names)), "count", validity=_why(results, key))
    found.update(_earths(wiring, results))
    return found


def _why(results: WiringResults, key: str) -> tuple[str, ...]:
    if key == "rcd-blind" and results.blind:
        return ("that type AC does not see the pulsating currents of converters and chargers is from memory",)
    if key != "no-table" or not results.no_table:
        return ()
    return tuple(dict.fromkeys(note for each in results.circuits if each.ampacity is None for note in each.notes))


def _of_circuit(each: CircuitResult) -> dict[str, Quantity]:
    name = each.name
    found = {f"wiring-drop/{name}": Quantity(each.drop_from_source, "share", DROP_SPREAD * each.drop_from_source)}
    if each.ampacity is not None:
        found[f"wiring-current/{name}"] = Quantity(each.current, "current", validity=each.notes)
    if each.guard is not None and each.fuse_limit is not None:
        found[f"wiring-fuse/{name}"] = Quantity(each.guard, "current", validity=each.notes if each.ampacity else ())
    if each.fuse is not None:
        found[f"wiring-load/{name}"] = Quantity(each.current / each.fuse, "share")
        if each.fault is not None:
            found[f"wiring-fault/{name}"] = Quantity(each.fault, "current", FAULT_SPREAD * each.fault,
                                                     validity=each.interrupt_notes)  # fmt: skip
    if each.guard is not None and each.least_fault is not None:
        ratio = each.least_fault / each.guard
        found[f"wiring-opens/{name}"] = Quantity(ratio, "count", FAULT_SPREAD * ratio)
    if each.isolator_distance is not None:
        found[f"wiring-isolator/{name}"] = Quantity(each.isolator_distance, "length", _REACH_SPREAD)
    return found


def _of_source(wiring: WiringInPlace, circuit: CircuitInPlace) -> dict[str, Quantity]:
    """Where the first fuse is, and what trips on mains voltage."""
    found = {}
    if circuit.fuse is not None and not circuit.alternating and _first(wiring, circuit):
        unsaid = () if circuit.fuse.distance is not None else ("nobody says how far from its source the fuse is",)
        found[f"wiring-distance/{circuit.name}"] = Quantity(circuit.fuse.distance or 0.0, "length", validity=unsaid)
    residual = _residual(wiring, circuit) if circuit.alternating else None
    if residual is not None:
        found[f"wiring-rcd/{circuit.name}"] = Quantity(residual[0], "current")
    return found


def _first(wiring: WiringInPlace, circuit: CircuitInPlace) -> bool:
    """Whether the fuse is the first one on the way out of the bank."""
    return circuit.takes_from == "bank" or (circuit.kind != "bank" and fed_by_bank(wiring, circuit))


def distance_limit(wiring: WiringInPlace, circuit: CircuitInPlace) -> float:
    """How far from its source the first fuse of a circuit may be [m]."""
    from_bank = circuit.takes_from == "bank" or "bank" in circuit.gives_to
    sheathed = circuit.fuse is not None and circuit.fuse.sheathed
    rules = wiring.rules
    return first_fuse_distance(rules, sheathed=sheathed, from_bank=from_bank)  # type: ignore[arg-type]


def _earths(wiring: WiringInPlace, results: WiringResults) -> dict[str, Quantity]:
    """Links of neutral and earth on each source, and the bond to the chassis."""
    links, found = wiring.links, {}
    unknown = ("nobody says whether neutral and earth are joined aboard",)
    if any(each.alternating for each in wiring.circuits):
        if "shore" in wiring.feeds:
            found["wiring-neutral/shore"] = _count(links.at_shore, unknown)
        for source, linked in (("converter", links.at_converter), ("generator", links.at_generator)):
            if source in wiring.feeds:
                watched = True if linked is False and links.monitored else linked
                found[f"wiring-neutral/{source}"] = _count(watched, unknown)
        if "shore" in wiring.feeds and len(wiring.feeds) > 1:
            told = {"relay": True, "plug": True, "by hand": False, "nothing": False}.get(links.change_over)
            found["wiring-change-over"] = _count(told, ("nobody says what joins and parts neutral and earth",))
    unsaid = ("nobody says how the earth is bonded to the chassis",) if results.bond is None else ()
    note = (
        () if wiring.rules == "NEC 551" else (f"no figure of {wiring.rules} is at hand; that of NFPA 70 stands beside",)
    )
    found["wiring-bond"] = Quantity(results.bond or 0.0, "cross_section", validity=(*unsaid, *note))
    return found


def _count(known: bool | None, unknown: tuple[str, ...]) -> Quantity:
    return Quantity(float(known or 0), "count", validity=() if known is not None else unknown)
