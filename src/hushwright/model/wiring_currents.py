"""What a circuit carries: all that it feeds at once."""

from __future__ import annotations

from hushwright.model.air_in_place import FanInPlace
from hushwright.model.power_in_place import LoadOnBank, SolarInPlace, SourceInPlace
from hushwright.model.power_loads import FANS, LoadsOf
from hushwright.model.taking import Path
from hushwright.model.wiring_net import Net


def current_of(net: Net, name: str) -> float:
    """Most that a circuit carries lastingly [A]: as typed, else what it feeds at its voltage."""
    typed = net.circuits[name]
    at: Path = ("power", "circuits", name)
    if typed.current is not None and not typed.current.unknown:
        return net.taker.quantity((*at, "current"), typed.current, "current", label=f"{name} current")
    voltage = net.voltage(name)
    if voltage <= 0.0:  # an unknown voltage, told where it stands
        return 0.0
    return sum(_fed(net, name, end, voltage) for end in typed.gives_to) / voltage


def _fed(net: Net, name: str, end: str, voltage: float) -> float:
    """Apparent power that goes to one end of a circuit [VA]."""
    if end == "converter" and net.placed.converter is not None:
        return _into_converter(net) * voltage
    if end == "bank":
        return _into_bank(net, name) * voltage
    load = net.placed.load(end)
    if load is not None:
        return _load(net, load)
    source = net.source(end)
    if source is not None:
        return _charging(net, source) * net.dc_voltage / source.efficiency
    onward = [other for other, each in net.circuits.items() if each.takes_from == end and other != name
              and other not in net.chain(name)]  # fmt: skip
    if onward:
        return sum(current_of(net, other) * net.voltage(other) for other in onward)
    net.taker.say("value-needed", ("power", "circuits", name), end, "takes a current that is not known",
                  "give `current`, or name a load of `power`")  # fmt: skip
    return 0.0


def _into_converter(net: Net) -> float:
    """Current into the converter at its rating, with the bank at its lowest [A]."""
    converter = net.placed.converter
    assert converter is not None
    return converter.rating / converter.full / converter.lowest_voltage


def _into_bank(net: Net, name: str) -> float:
    """Charging current of the source at the head of a circuit [A]."""
    source = net.source(net.circuits[(name, *net.chain(name))[-1]].takes_from)
    if source is not None:
        return _charging(net, source)
    net.taker.say("value-needed", ("power", "circuits", name), "bank", "is charged with a current that is not known",
                  "give `current`, or let it begin at a source of `power`")  # fmt: skip
    return 0.0


def _charging(net: Net, source: SourceInPlace) -> float:
    if isinstance(source, SolarInPlace):
        return source.power / net.dc_voltage
    return source.current


def _load(net: Net, load: LoadOnBank) -> float:
    """Apparent power of a load while it runs [VA]."""
    power = load.power or _whole(net, load)
    return power / (load.power_factor if load.side == "ac" else 1.0)


def _whole(net: Net, load: LoadOnBank) -> float:
    """Power that air and heat give, less what other loads take as a part of it [W]."""
    if load.of == (FANS, ""):
        return sum(piece.what.power or 0.0 for run in net.air.runs for piece in run.pieces
                   if isinstance(piece.what, FanInPlace))  # fmt: skip
    whole = LoadsOf((), (), net.air, net.climate).wholes().get(load.of, 0.0)
    # A part counts by its mean, as in power: what it leaves runs beside it.
    parts = sum(each.power * each.duty for each in net.placed.loads if each.of == load.of and each.name != load.name)
    return max(whole - parts, 0.0)
