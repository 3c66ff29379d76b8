"""The Evaluation: every computed quantity with its uncertainty, the share of each path, and where a method ends.

Levels per band stand for the 27 third octaves 25 Hz to 10 kHz of `hushwright.physics.acoustics.bands`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from hushwright.evaluation.results.air import NO_AIR, AirResults
from hushwright.evaluation.results.cost import NO_COST, CostResult
from hushwright.evaluation.results.heat import NO_HEAT, HeatResults
from hushwright.evaluation.results.mass import NO_STRUCTURE, MassResult, StructureResults
from hushwright.evaluation.results.path import Bands as Bands
from hushwright.evaluation.results.path import PathLevel as PathLevel
from hushwright.evaluation.results.power import NO_POWER, PowerResults
from hushwright.evaluation.results.safety import NO_SAFETY, SafetyResults
from hushwright.evaluation.results.signals import NO_SIGNALS, SignalResults
from hushwright.evaluation.results.use import NO_USE_RESULTS, UseResults
from hushwright.evaluation.results.wiring import NO_WIRING, WiringResults
from hushwright.model.build import Assumption, Build

REPORTED = "reported: "
"""Notes that begin so inform; they do not make a verdict unproven."""
SILENCE = -200.0
"""Level [dB] that stands for nothing at all in sums of energies."""


@dataclass(frozen=True, slots=True)
class Contribution:
    """What one input does to one quantity: the change that its standard uncertainty makes."""

    path: str
    label: str
    change: float


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number with its standard uncertainty, and what that is made of."""

    value: float
    kind: str  # kind of quantity in `hushwright.units`, "NC", "NR" or "margin"
    method_uncertainty: float = 0.0
    contributions: tuple[Contribution, ...] = ()
    validity: tuple[str, ...] = ()
    known: bool = True  # no where the file does not say it: then the value stands for nothing

    @property
    def standard_uncertainty(self) -> float:
        """Root of the sum of squares of the method's and of the inputs' shares, in the unit of the value."""
        return math.sqrt(self.method_uncertainty**2 + sum(each.change**2 for each in self.contributions))


@dataclass(frozen=True, slots=True)
class Line:
    """One of the three lines of a verdict on quiet."""

    name: str  # "dB(A)" | "voice bands" | "bass"
    value: float
    unit: str
    text: str

    @property
    def told(self) -> str:
        """Value as it is said; bass is no level but lies over or under the threshold of hearing."""
        if self.name != "bass":
            return f"{self.value:.1f} {self.unit}"
        return f"{abs(self.value):.1f} {self.unit} {'over' if self.value >= 0.0 else 'under'} the threshold of hearing"


@dataclass(frozen=True, slots=True)
class Background:
    """Sound from outside (or rain) in a room, by path."""

    key: str  # "quay/record", "rain/record"
    situation: str
    state: str
    room: str
    outside: Bands
    outside_assumed: tuple[float, ...]
    levels: Bands
    uncertainty: Bands
    spread_over_places: Bands
    paths: tuple[PathLevel, ...]
    lines: tuple[Line, ...]
    audibility: tuple[str, ...]
    validity: tuple[str, ...]
    from_outside: Bands = ()  # by the ways from outside alone: no fan, no moving air, no device
    from_outside_uncertainty: Bands = ()  # of the difference between outside and that level


@dataclass(frozen=True, slots=True)
class BetweenRooms:
    """Sound from the source in the quiet room, heard in the control room."""

    state: str
    source_levels: Bands
    received: Bands
    level_difference: Bands
    standardized_difference: Bands  # DnT, for a reverberation time of 0.5 s
    standardized_rating: int  # DnT,w
    monitor: Bands
    octave_margins: tuple[tuple[float, float], ...]  # nominal octave, monitor minus direct sound
    uncertainty: Bands
    paths: tuple[PathLevel, ...]


@dataclass(frozen=True, slots=True)
class AtNeighbours:
    """Sound from the source in the quiet room, at the neighbours."""

    state: str
    distance: float
    levels: Bands
    uncertainty: Bands
    paths: tuple[PathLevel, ...]
    validity: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Resonance:
    """A frequency at which a build-up lets sound through, and what sounds there."""

    surface: str
    kind: str
    frequency: float
    text: str
    lets_through: str


@dataclass(frozen=True, slots=True)
class FacePrediction:
    """Sound reduction of one face or opening as built."""

    name: str
    beyond: str
    reduction: Bands
    uncertainty: Bands
    rw: int
    c: int
    ctr: int
    stc: int
    oitc: int
    surface_density: float
    thickness: float
    area: float
    construction: str
    validity: tuple[str, ...]
    place: str


@dataclass(frozen=True, slots=True)
class StackItem:
    """One item of the headroom from the steel floor to the bow [m]."""

    name: str
    thickness: float


@dataclass(frozen=True, slots=True)
class SpaceResult:
    """Headroom and clear width of a room."""

    room: str
    headroom_centre: float
    headroom_shoulder: float
    clear_width_shoulder: float
    floor_area: float
    volume: float
    stack: tuple[StackItem, ...]
    mount_deflection: float


@dataclass(frozen=True, slots=True)
class MountLoad:
    """One mount in one state: where, its load [kg], how far it gives [m]."""

    place: tuple[float, float]
    load: float
    deflection: float
    status: str


@dataclass(frozen=True, slots=True)
class MountsResult:
    """A floor on its mounts in one state."""

    group: str
    state: str
    mass: float
    loads: tuple[MountLoad, ...]
    natural_frequencies: tuple[tuple[str, float], ...]
    vertical_frequency: float
    with_air: float
    helps_above: float
    improvement: Bands
    snubber_clear: float | None
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RoomSound:
    """Sound of a room itself: absorption, reverberation, lowest modes."""

    room: str
    absorption_area: Bands
    reverberation_time: Bands
    crossover: float
    lowest_modes: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Evaluation:
    """Everything that was computed for one Build."""

    build: Build = field(repr=False)
    quantities: dict[str, Quantity] = field(repr=False)
    backgrounds: tuple[Background, ...]
    between_rooms: tuple[BetweenRooms, ...]
    neighbours: tuple[AtNeighbours, ...]
    faces: tuple[FacePrediction, ...]
    resonances: tuple[Resonance, ...]
    rooms: tuple[RoomSound, ...]
    space: tuple[SpaceResult, ...]
    mounts: tuple[MountsResult, ...]
    masses: tuple[MassResult, ...]
    notes: tuple[str, ...] = ()
    structure: StructureResults = NO_STRUCTURE
    air: AirResults = NO_AIR
    heat: HeatResults = NO_HEAT
    use: UseResults = NO_USE_RESULTS
    signals: SignalResults = NO_SIGNALS
    cost: CostResult = NO_COST
    safety: SafetyResults = NO_SAFETY
    wiring: WiringResults = NO_WIRING
    power: PowerResults = NO_POWER
    complete: bool = True  # no while the shares of the inputs are missing: no verdict is final then

    @property
    def assumptions(self) -> tuple[Assumption, ...]:
        """What the file leaves out and the library fills in."""
        return self.build.assumptions
