"""The file's circuits as a net: what lies before each, and what it brings."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.document.schema import BuildFile
from hushwright.document.schema.power import Power
from hushwright.document.schema.wiring import Circuit
from hushwright.model.air_in_place import AirInPlace
from hushwright.model.climate_in_place import ClimateInPlace
from hushwright.model.power_in_place import PowerInPlace, SourceInPlace
from hushwright.model.routes_in_place import RouteInPlace
from hushwright.model.taking import Taker


@dataclass(frozen=True, slots=True)
class Net:
    """The file's circuits as a net, and what the ends of each may be."""

    taker: Taker
    root: BuildFile
    power: Power
    placed: PowerInPlace
    routes: dict[str, RouteInPlace]
    air: AirInPlace
    climate: ClimateInPlace | None
    mains: float

    @property
    def circuits(self) -> dict[str, Circuit]:
        """Circuits of the file."""
        return self.power.circuits

    @property
    def dc_voltage(self) -> float:
        """Voltage of the bank; any where there is none, which is told elsewhere [V]."""
        return self.placed.bank.voltage if self.placed.bank is not None else _NO_BANK

    def source(self, name: str) -> SourceInPlace | None:
        """Source by name."""
        return next((each for each in self.placed.sources if each.name == name), None)

    def before(self, name: str) -> str:
        """Circuit that gives to what a circuit takes from; empty at a source."""
        begin = self.circuits[name].takes_from
        if begin in ("bank", "converter") or begin in self.power.sources:
            return ""
        return next((other for other, each in self.circuits.items() if begin in each.gives_to), "")

    def chain(self, name: str) -> tuple[str, ...]:
        """Circuits before one, the nearest first; a ring is cut where it closes."""
        found: list[str] = []
        each = self.before(name)
        while each and each not in found and each != name:
            found.append(each)
            each = self.before(each)
        return tuple(found)

    def in_a_ring(self, name: str) -> bool:
        """Whether the way back to the source comes round to the circuit itself."""
        first = (name, *self.chain(name))[-1]
        return bool(self.before(first))

    def kind(self, name: str) -> str:
        """What is at the head of a circuit's chain."""
        head = self.circuits[(name, *self.chain(name))[-1]].takes_from
        if head in ("bank", "converter"):
            return head
        source = self.power.sources.get(head)
        return source.key if source is not None else "other"

    def alternating(self, name: str) -> bool:
        """Whether a circuit carries mains voltage: as it says, else as the nearest before it says, else its source."""
        for each in (name, *self.chain(name)):
            side = self.circuits[each].side
            if side is not None:
                return side == "ac"
        return self.kind(name) in ("converter", "shore", "generator")

    def voltage(self, name: str) -> float:
        """Voltage as it says, else as the nearest before it says, else the mains or the bank's."""
        for each in (name, *self.chain(name)):
            given = self.circuits[each].voltage
            if given is not None and self.alternating(each) == self.alternating(name):
                at = ("power", "circuits", each, "voltage")
                return self.taker.quantity(at, given, "voltage", label=f"{each} voltage")
        return self.mains if self.alternating(name) else self.dc_voltage


_NO_BANK = 12.0  # V, of a circuit that has been told to name its voltage
