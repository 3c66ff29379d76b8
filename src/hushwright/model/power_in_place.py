"""Power in place: bank, converter, sources, loads, the plan of a day, and what is asked of them."""

from __future__ import annotations

from dataclasses import dataclass, field

from hushwright.model.faces import hash_once

STANDING, ALWAYS = "standing", "always"
"""The part of a day without a state, and all of it."""


@dataclass(frozen=True, slots=True)
class BankInPlace:
    """The bank: voltage [V], capacity [Ah], currents [A], resistance [Ω], own draw [W], temperatures [°C]."""

    voltage: float
    cells: int
    capacity: float
    lowest: float
    highest: float
    begins: float
    discharge: float
    surge: float
    charge: float
    resistance: float
    charge_returned: float
    own_draw: float
    coldest_charge: float
    temperature: float | None  # that of the air outdoors where not given
    fuse: float | None


@dataclass(frozen=True, slots=True)
class ConverterInPlace:
    """The converter: rating and surge [VA], own draw [W], lowest voltage [V]."""

    rating: float
    surge: float
    idle: float
    best: float
    full: float
    curve: tuple[tuple[float, float], ...]  # load share, efficiency
    lowest_voltage: float
    on: str


@dataclass(frozen=True, slots=True)
class ShoreInPlace:
    """Shore power or a generator: what its charger gives into the bank [A], what it gives to mains loads [VA]."""

    name: str
    kind: str  # "shore" | "generator"
    current: float
    efficiency: float
    supply: float
    in_states: tuple[str, ...]
    place: str


@dataclass(frozen=True, slots=True)
class AlternatorInPlace:
    """The engine's alternator through a charger [A]."""

    name: str
    current: float
    efficiency: float
    in_states: tuple[str, ...]
    place: str


@dataclass(frozen=True, slots=True)
class SolarInPlace:
    """Panels: power [W], angles [rad], area [m²], sun on level ground on a mean day of each month [J/m²]."""

    name: str
    power: float
    efficiency: float
    losses: float
    shading: float
    tilt: float
    towards: float
    coefficient: float
    mounted: str
    area: float
    roof_taken: float
    sun: tuple[float, ...]  # 12, or none: then a share of what is above the air
    clearness: float
    in_states: tuple[str, ...]
    place: str


SourceInPlace = ShoreInPlace | AlternatorInPlace | SolarInPlace


@dataclass(frozen=True, slots=True)
class LoadOnBank:
    """Something that takes power [W]; ``of`` says where the rest of the file gives it."""

    name: str
    side: str  # "dc" | "ac"
    power: float  # while it runs; of `of` loads what is taken of it, or nothing for the rest
    of: tuple[str, str]  # ("cooler", room), ("fans", ""), or two empty texts
    duty: float
    states: tuple[str, ...]
    surge: float
    power_factor: float
    place: str


@dataclass(frozen=True, slots=True)
class PlannedPhase:
    """A part of the day: begin after midnight and length [s]."""

    state: str
    begins: float
    duration: float


@dataclass(frozen=True, slots=True)
class PowerLimits:
    """What is asked: time off grid [s], energy not met [J], charge left over the lowest, months of use (0 to 11)."""

    off_grid: float
    unmet: float
    reserve: float
    months: tuple[int, ...]
    fuse_use: float


@dataclass(frozen=True, slots=True)
class PowerInPlace:
    """Everything about power that the build file says."""

    bank: BankInPlace | None
    converter: ConverterInPlace | None
    sources: tuple[SourceInPlace, ...]
    loads: tuple[LoadOnBank, ...]
    day: tuple[PlannedPhase, ...]
    days: int
    limits: PowerLimits
    roof: float  # m², level roof over the load space less its cuts
    kept_hash: int = field(default=0, init=False, repr=False, compare=False)

    def __hash__(self) -> int:
        return hash_once(self)

    def load(self, name: str) -> LoadOnBank | None:
        """Load by name."""
        return next((each for each in self.loads if each.name == name), None)

    @property
    def solar(self) -> tuple[SolarInPlace, ...]:
        """Panels."""
        return tuple(each for each in self.sources if isinstance(each, SolarInPlace))

    @property
    def feeders(self) -> tuple[ShoreInPlace, ...]:
        """Shore and generators."""
        return tuple(each for each in self.sources if isinstance(each, ShoreInPlace))

    @property
    def alternators(self) -> tuple[AlternatorInPlace, ...]:
        """Chargers on the engine."""
        return tuple(each for each in self.sources if isinstance(each, AlternatorInPlace))
