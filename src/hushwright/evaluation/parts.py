"""All of a Build that needs no sound, domain by domain; a moved Build takes over what reads nothing that has moved."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any, TypeVar, cast

from hushwright.evaluation.air.air import air_states
from hushwright.evaluation.heat.heat import heat_of_build
from hushwright.evaluation.mass.envelopes import use_of
from hushwright.evaluation.mass.mass import mass_quantities, masses_in
from hushwright.evaluation.mass.space import first_take, space_of
from hushwright.evaluation.mass.structure import structure_of
from hushwright.evaluation.power.power import power_of_build
from hushwright.evaluation.results import MountsResult, Quantity, SpaceResult
from hushwright.evaluation.results.air import AirResults
from hushwright.evaluation.results.mass import MassResult, StructureResults
from hushwright.evaluation.sound.floor import floating_room
from hushwright.evaluation.sound.heard import Floats
from hushwright.evaluation.wiring.signals import signals_of
from hushwright.evaluation.wiring.wiring import wiring_of
from hushwright.model.build import Build
from hushwright.physics.air import Air

T = TypeVar("T")
Quantities = dict[str, Quantity]

_SPREAD_OF_LOADS = 0.05
"""Share [-] of the ratio of largest to mean load: seats of the mounts differ in height by about a millimetre; common
practice, no source."""

_FREQUENCY_BY_MASS = 0.5
"""Relative change [-] of a natural frequency over that of the mass: f goes with 1/√m."""

_SNUBBER_SPREAD = 0.0005
"""m, how closely a snubber is set; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Reads:
    """What a part reads of a Build and of its brief; a test holds the code to it."""

    build: tuple[str, ...]
    brief: tuple[str, ...] = ()


READS = {
    "floats": Reads(("rooms", "mounts", "masses", "states", "vehicle"), ("person_mass", "air_temperature")),
    "air": Reads(("air", "states", "rooms", "openings", "library"), ("air_temperature", "person_mass")),
    "mounts": Reads(("tolerances",)),
    "space": Reads(("rooms", "tolerances", "vehicle", "mounts", "library", "states"),
                   ("shoulder_width", "stature", "shoes")),
    "masses": Reads(("masses", "states", "mass_basis", "vehicle", "tolerances", "rooms"), ("person_mass",)),
    "signals": Reads(("signals", "wiring", "routes", "rooms", "library")),
    "structure": Reads(("masses", "states", "mass_basis", "vehicle", "tolerances", "anchoring", "doors", "cuts",
                        "mounts", "library"), ("person_mass",)),
    "safety": Reads(("safety", "venues", "rooms", "states", "tolerances", "library", "signals", "air", "anchoring",
                     "doors", "use", "vehicle"), ("monitor",)),
    "wiring": Reads(("routes", "rooms", "wiring", "power")),
    "use": Reads(("use", "states", "rooms", "vehicle", "tolerances")),
}  # fmt: skip


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """Result and quantities of one domain; it holds for whatever agrees in what was read. Neither is to be changed."""

    result: Any
    quantities: Quantities
    read: tuple[object, ...] = field(default=(), repr=False)


@dataclass(slots=True)
class Parts:
    """Parts of one Build by their names, as they are worked out."""

    known: Mapping[str, Part] = field(default_factory=dict)
    """Those of the nominal Build, where this one is it with an input moved."""
    found: dict[str, Part] = field(default_factory=dict)

    def take(self, name: str, build: Build, law: Callable[[Quantities], T], *others: object) -> T:
        """Result of a domain: the nominal one where all that it reads, and the other results, are the same."""
        reads = READS[name]
        read = (*(getattr(build, one) for one in reads.build), *(getattr(build.brief, one) for one in reads.brief),
                *others)  # fmt: skip
        part = self.known.get(name)
        if part is None or part.read != read:
            quantities: Quantities = {}
            part = Part(law(quantities), quantities, read)
        self.found[name] = part
        return cast(T, part.result)

    def add(self, name: str, law: Callable[[Quantities], T]) -> T:
        """Result of a domain that remembers by itself what it reads."""
        quantities: Quantities = {}
        found = law(quantities)
        self.found[name] = Part(found, quantities)
        return found

    def light(self) -> dict[str, Part]:
        """The parts without what was read: to be sent, and joined in another process."""
        return {name: replace(part, read=()) for name, part in self.found.items()}


def floats_of(build: Build, parts: Parts | None = None) -> Floats:
    """Floating room of each state, `None` where nothing floats; taken over where nothing has moved that it reads."""
    air = Air(build.brief.air_temperature)
    floats: Floats = (Parts() if parts is None else parts).take(
        "floats", build, lambda _: {state.name: floating_room(build, state, air) for state in build.states}
    )
    return floats


def parts_of(build: Build, sounding: Build, known: Mapping[str, Part] | None = None) -> Parts:
    """Everything of a Build that needs no sound.

    Parameters
    ----------
    build : Build
        What is there, with its cables.
    sounding : Build
        The same with shapes held, for heat; the build itself where none are.
    known : mapping of name to Part, optional
        Parts of the nominal Build, where this one is it with an input moved.

    Returns
    -------
    Parts
        What floats, air, heat, mounts, space, masses, signals, structure, wiring, power, use.

    Raises
    ------
    CannotEvaluate
        If a part lies outside what its law takes.
    """
    parts = Parts(known or {})
    floats = floats_of(build, parts)
    floating = tuple(floats.values())
    air: AirResults = parts.take("air", build, lambda found: air_states(build, found))
    heat = parts.add("heat", lambda found: heat_of_build(sounding, air, found))
    mounts = tuple(each.result for each in floating if each is not None)
    parts.take("mounts", build, lambda found: _mounts(build, mounts, found), mounts)
    parts.take("space", build, lambda found: _space(build, floats, found), floating)
    masses: tuple[MassResult, ...] = parts.take("masses", build, lambda found: _masses(build, found))
    parts.take("signals", build, lambda found: signals_of(build, found))
    weighed = parts.found["masses"].quantities
    parts.take("structure", build, lambda found: _structure(build, floats, masses, weighed, found), floating)
    parts.take("wiring", build, lambda found: wiring_of(build, found))
    parts.add("power", lambda found: power_of_build(build, air, heat, found))
    parts.take("use", build, lambda found: use_of(build, found))
    return parts


def _masses(build: Build, found: Quantities) -> tuple[MassResult, ...]:
    masses = tuple(masses_in(build, state) for state in build.states)
    mass_quantities(build, masses, found)
    return masses


def _structure(
    build: Build, floats: Floats, masses: tuple[MassResult, ...], weighed: Quantities, found: Quantities
) -> StructureResults:
    """Structure, which reads loads of axles; only what it adds is its own."""
    whole = dict(weighed)
    result = structure_of(build, floats, masses, whole)
    found.update({key: each for key, each in whole.items() if key not in weighed})
    return result


def _mounts(build: Build, mounts: tuple[MountsResult, ...], found: Quantities) -> tuple[MountsResult, ...]:
    mass_share = build.tolerances.mass
    for result in mounts:
        loads = [each.load for each in result.loads]
        found[f"mount-least/{result.state}"] = Quantity(min(loads), "mass", mass_share * abs(min(loads)))
        found[f"mount-most/{result.state}"] = Quantity(max(loads), "mass", mass_share * abs(max(loads)))
        spread = max(loads) / (sum(loads) / len(loads))
        found[f"mount-spread/{result.state}"] = Quantity(spread, "count", _SPREAD_OF_LOADS * spread)
        found[f"floor-frequency/{result.state}"] = Quantity(
            result.with_air, "frequency", _FREQUENCY_BY_MASS * mass_share * result.with_air, validity=result.notes
        )
        if result.snubber_clear is not None:
            found[f"snubber/{result.state}"] = Quantity(result.snubber_clear, "length", _SNUBBER_SPREAD)
    return mounts


def _space(build: Build, floats: Floats, quantities: Quantities) -> tuple[SpaceResult, ...]:
    state = first_take(build)
    found = tuple(space_of(build, room, floats[state.name]) for room in build.rooms)
    for result in found:
        tolerance = build.tolerances
        low = min(result.headroom_centre, result.headroom_shoulder)
        quantities[f"headroom/{result.room}"] = Quantity(low, "length", tolerance.headroom)
        quantities[f"width/{result.room}"] = Quantity(result.clear_width_shoulder, "length", tolerance.width)
    return found
