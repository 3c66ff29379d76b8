"""Circuits of the file: chains from source to load, with length, voltage and current."""

from __future__ import annotations

from hushwright.document.schema import BuildFile
from hushwright.document.schema.power import Power
from hushwright.document.schema.wiring import ChassisBond, Circuit, NeutralEarth
from hushwright.document.values import Value
from hushwright.library.records import Limit, Spread
from hushwright.model.air_in_place import AirInPlace
from hushwright.model.build import OpeningInPlace, VehicleInPlace
from hushwright.model.climate_in_place import ClimateInPlace
from hushwright.model.names import NAME
from hushwright.model.power_in_place import PowerInPlace
from hushwright.model.reach import resolve_isolator
from hushwright.model.routes_in_place import RouteInPlace
from hushwright.model.taking import Path, Taker, dotted
from hushwright.model.wiring_currents import current_of
from hushwright.model.wiring_in_place import CircuitInPlace, FuseInPlace, Links, WiringInPlace
from hushwright.model.wiring_net import Net
from hushwright.units import Kind

_ALIKE = 0.5  # A, fuses that differ by less are one
_LINKED = {"linked": True, "open": False}


def resolve_wiring(
    taker: Taker,
    root: BuildFile,
    vehicle: VehicleInPlace,
    openings: tuple[OpeningInPlace, ...],
    routes: tuple[RouteInPlace, ...],
    air: AirInPlace,
    climate: ClimateInPlace | None,
    placed: PowerInPlace | None,
) -> WiringInPlace | None:
    """All circuits in place; `None` where the file has none."""
    power = root.power
    if power is None or placed is None or not power.circuits:
        if power is not None and power.wiring is not None:
            taker.say("key-without-effect", ("power", "wiring"), "wiring", "holds for circuits, and there are none",
                      "add `circuits:` under power", severity="warning")  # fmt: skip
        return None
    at: Path = ("power", "wiring")
    if power.wiring is None:
        taker.say("value-needed", ("power", "circuits"), "circuits", "follow no rules",
                  "add `wiring: {rules: ...}` under power: ABYC E-11, ISO 13297 or NEC 551")  # fmt: skip
        return None
    mains = taker.quantity((*at, "mains"), power.wiring.mains, "voltage", label="mains voltage")
    net = Net(taker, root, power, placed, {each.name: each for each in routes}, air, climate, mains)
    bank = placed.bank
    _check_main_fuse(net)
    circuits = tuple(_circuit(net, name, vehicle, openings) for name in power.circuits if _sound(net, name))
    reach = taker.convention((*at, "reach"), power.wiring.reach, "length", "reach of an arm", "reach to an isolator")
    return WiringInPlace(
        power.wiring.rules, power.wiring.sizes, mains, reach, circuits, _links(power.wiring.neutral_earth),
        _bond(taker, power.wiring.chassis_bond, at), None if bank is None else bank.voltage,
        None if bank is None else bank.resistance,
        _feeds(power), _unwired(power, placed), dotted(("power", "circuits")),
    )  # fmt: skip


def _check_main_fuse(net: Net) -> None:
    """The main fuse of the bank is that of a circuit which begins there."""
    main = net.placed.bank.fuse if net.placed.bank is not None else None
    typed = [each.fuse.rating for each in net.circuits.values() if each.takes_from == "bank" and each.fuse is not None]
    known = [each.value for each in typed if each is not None]
    if main is not None and known and min(abs(main - each) for each in known) > _ALIKE:
        net.taker.say_fit("fuses-disagree", ("power", "bank", "fuse"), f"{main:g} A",
                          f"the circuits of the bank have {', '.join(f'{each:g} A' for each in known)}",
                          "say the same in both places", severity="warning")  # fmt: skip


def _sound(net: Net, name: str) -> bool:
    """Whether a circuit begins and ends somewhere."""
    typed, at = net.circuits[name], ("power", "circuits", name)
    if not NAME.fullmatch(name):
        net.taker.say("name-unusable", at, name, "a name is made of letters, digits, _ and -",
                      "begin with a letter, without blanks or dots")  # fmt: skip
    if net.in_a_ring(name):
        net.taker.say("circuits-in-a-ring", (*at, "takes_from"), typed.takes_from, "the chain of circuits comes back",
                      "let it begin at the bank, the converter or a source")  # fmt: skip
        return False
    known = typed.takes_from in ("bank", "converter") or typed.takes_from in net.power.sources
    absent = (typed.takes_from == "bank" and net.power.bank is None) or (
        typed.takes_from == "converter" and net.power.converter is None
    )
    if absent:
        net.taker.say("unknown-name", (*at, "takes_from"), typed.takes_from, f"the build has no {typed.takes_from}",
                      f"add `{typed.takes_from}:` under power")  # fmt: skip
        return False
    if not known and not net.before(name) and (typed.side is None or typed.voltage is None):
        ends = ("bank", "converter", *net.power.sources, *(end for each in net.circuits.values()
                                                             for end in each.gives_to))  # fmt: skip
        net.taker.name_of(typed.takes_from, ends, (*at, "takes_from"), "source, nor what another circuit gives to,")
        return False
    return True


def _circuit(net: Net, name: str, vehicle: VehicleInPlace, openings: tuple[OpeningInPlace, ...]) -> CircuitInPlace:
    typed, taker = net.circuits[name], net.taker
    at: Path = ("power", "circuits", name)
    alternating = net.alternating(name)
    voltage = net.voltage(name)
    if (
        not alternating
        and net.placed.bank is None
        and all(net.circuits[each].voltage is None for each in (name, *net.chain(name)))
    ):
        taker.say("value-needed", at, name, "has no voltage, and there is no bank", "give its `voltage`")
    route = _route(net, typed, at)
    length = _length(net, typed, route, at)
    fixed_to = route.fixed_to if route is not None else ("body",)
    centre = route.centre if route is not None else _nowhere(taker, vehicle, at, name)
    if typed.area is not None and typed.awg:
        taker.say("key-without-effect", (*at, "awg"), typed.awg, "stands beside an area, which counts",
                  "take one of them out", severity="warning")  # fmt: skip
    insulated = taker.library.find(Limit, f"insulation, {'mains' if alternating else 'low'} voltage")
    insulation = taker.quantity((*at, "insulation"), typed.insulation, "temperature",
                                fallback=Spread.point(insulated.value.value), source=str(insulated.source),
                                label="insulation stands")  # fmt: skip
    residual = typed.residual_current_device
    return CircuitInPlace(
        name=name, takes_from=typed.takes_from, gives_to=typed.gives_to, kind=net.kind(name),
        upstream=net.chain(name), alternating=alternating, voltage=voltage, current=current_of(net, name),
        length=length, route=typed.route if route is not None else "", fixed_to=fixed_to, centre=centre,
        area=None if typed.area is None else (
            taker.quantity((*at, "area"), typed.area, "cross_section", label=f"{name} conductor")
        ),
        awg="" if typed.area is not None else _gauge(taker, typed.awg, (*at, "awg")), insulation=insulation,
        engine_space=typed.runs_through == "engine space", bundled=_bundled(net, typed, route),
        allowed_drop=taker.quantity((*at, "allowed_drop"), typed.allowed_drop, "share"),
        fuse=_fuse(taker, typed, at),
        isolator=resolve_isolator(taker, net.root, typed.isolator, vehicle, openings, (*at, "isolator")),
        residual=None if residual is None else (
            taker.quantity((*at, "residual_current_device", "trip"), residual.trip, "current"), residual.type
        ),
        place=dotted(at),
    )  # fmt: skip


def _route(net: Net, typed: Circuit, at: Path) -> RouteInPlace | None:
    if not typed.route:
        return None
    if not net.taker.name_of(typed.route, tuple(net.root.routes), (*at, "route"), "route"):
        return None
    return net.routes.get(typed.route)


def _length(net: Net, typed: Circuit, route: RouteInPlace | None, at: Path) -> float:
    if typed.length is not None:
        return net.taker.quantity((*at, "length"), typed.length, "length", label=f"{at[-1]} length")
    if route is not None:
        return route.length
    if not typed.route:
        net.taker.say("value-needed", at, str(at[-1]), "has neither a route nor a length",
                      "give `route`, or `length`")  # fmt: skip
    return 1.0


def _nowhere(taker: Taker, vehicle: VehicleInPlace, at: Path, name: str) -> tuple[float, float, float]:
    taker.assume((*at, "route"), f"cable of {name} lies in the middle of the load space", "nothing is given")
    return vehicle.load_length / 2.0, 0.0, 0.5


def _gauge(taker: Taker, size: str, at: Path) -> str:
    gauges = ("18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0")
    return size if size and taker.name_of(size, gauges, at, "gauge") else ""


def _bundled(net: Net, typed: Circuit, route: RouteInPlace | None) -> int:
    """Conductors in the bundle; two for each circuit where nothing is said."""
    if typed.bundled is not None:
        return typed.bundled
    if route is None:
        return 2
    return 2 * sum(1 for each in net.circuits.values() if each.route in route.bundle)


def _fuse(taker: Taker, typed: Circuit, at: Path) -> FuseInPlace | None:
    fuse = typed.fuse
    if fuse is None:
        return None
    on: Path = (*at, "fuse")

    def maybe(key: str, given: Value | None, kind: Kind) -> float | None:
        if given is None or given.unknown:
            return None
        return taker.quantity((*on, key), given, kind, label=f"{at[-1]} {key.replace('_', ' ')}")

    return FuseInPlace(
        maybe("rating", fuse.rating, "current"), fuse.type,
        maybe("interrupt_rating", fuse.interrupt_rating, "current"), maybe("distance", fuse.distance, "length"),
        fuse.sheathed == "yes", dotted(on),
    )  # fmt: skip


def _links(typed: NeutralEarth | None) -> Links:
    if typed is None:
        return Links(None, None, None, "not known", False)
    return Links(_LINKED.get(typed.at_shore), _LINKED.get(typed.at_converter), _LINKED.get(typed.at_generator),
                 typed.change_over, typed.insulation_monitor == "yes")  # fmt: skip


def _bond(taker: Taker, typed: ChassisBond | None, at: Path) -> tuple[float | None, str]:
    if typed is None:
        return None, ""
    on: Path = (*at, "chassis_bond")
    if typed.area is not None:
        return taker.quantity((*on, "area"), typed.area, "cross_section", label="bond to the chassis"), ""
    return None, _gauge(taker, typed.awg, (*on, "awg"))


def _feeds(power: Power) -> tuple[str, ...]:
    """Mains sources that are there."""
    kinds = [source.key for source in power.sources.values()]
    return tuple(each for each in ("shore", "generator") if each in kinds) + (
        ("converter",) if power.converter is not None else ()
    )


def _unwired(power: Power, placed: PowerInPlace) -> tuple[str, ...]:
    """Loads that no circuit gives to: those of the file, and what of air and heat none of them takes."""
    ends = {end for each in power.circuits.values() for end in each.gives_to}
    return tuple(name for name in dict.fromkeys((*power.loads, *(each.name for each in placed.loads)))
                 if name not in ends)  # fmt: skip
