"""Air in place: who breathes, the runs and their pieces, what is asked of the air."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from hushwright.library.records import Blanket
from hushwright.model.faces import hash_once
from hushwright.model.wishes import Target

OUTDOORS = "outdoors"


@dataclass(frozen=True, slots=True)
class DuctShape:
    """Clear section of a duct [m]."""

    width: float
    height: float
    round: bool

    @property
    def area(self) -> float:
        """Clear area [m²]."""
        return math.pi / 4.0 * self.width**2 if self.round else self.width * self.height


@dataclass(frozen=True, slots=True)
class GrilleInPlace:
    """Grille at an end; an open pipe where all of it is free."""

    end: str  # "intake" | "outlet"
    shape: DuctShape
    free_share: float
    from_people: float
    spread: bool  # gives its air over the whole face, not in a jet
    bare: bool  # an open pipe, no grille


@dataclass(frozen=True, slots=True)
class StraightInPlace:
    """Straight duct."""

    shape: DuctShape
    length: float
    lining: float
    wall: str


@dataclass(frozen=True, slots=True)
class BendInPlace:
    """Bend with a radius, or a sharp corner without."""

    shape: DuctShape
    angle: float
    radius: float | None


@dataclass(frozen=True, slots=True)
class FlexibleInPlace:
    """Flexible duct."""

    diameter: float
    length: float
    compression: float
    free_share: float
    lined: bool


@dataclass(frozen=True, slots=True)
class ReducerInPlace:
    """Change of section."""

    before: DuctShape
    after: DuctShape
    length: float


@dataclass(frozen=True, slots=True)
class FilterInPlace:
    """Anything whose loss is known at one flow."""

    rated_flow: float
    rated_loss: float
    soiling: float


@dataclass(frozen=True, slots=True)
class BaffleBoxInPlace:
    """Lined box with staggered baffles."""

    length: float
    width: float
    height: float
    wall: float
    lining: float
    absorber: Blanket
    baffles: int
    passage: float
    duct: DuctShape


@dataclass(frozen=True, slots=True)
class FanInPlace:
    """A fan by its curve; two points where only shut-off pressure and free flow are known."""

    kind: str
    flows: tuple[float, ...]
    pressures: tuple[float, ...]
    speed: float
    power: float | None
    sound_power: float | None
    octaves: tuple[tuple[float, float], ...]


PieceInPlace = (
    GrilleInPlace
    | StraightInPlace
    | BendInPlace
    | FlexibleInPlace
    | ReducerInPlace
    | FilterInPlace
    | BaffleBoxInPlace
    | FanInPlace
)


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of a run with its name and place in the file."""

    name: str
    what: PieceInPlace
    place: str


@dataclass(frozen=True, slots=True)
class RunInPlace:
    """One way of the air, in the order of the flow; both ends are grilles or open pipes."""

    name: str
    takes_from: str
    gives_to: str
    runs_in: tuple[str, ...]
    wanted: float | None
    outdoor_end: str
    pieces: tuple[Piece, ...]
    place: str
    kept_hash: int = field(default=0, init=False, repr=False, compare=False)

    def __hash__(self) -> int:
        return hash_once(self)

    @property
    def fans(self) -> tuple[Piece, ...]:
        """Its fans, in the order of the flow."""
        return tuple(piece for piece in self.pieces if isinstance(piece.what, FanInPlace))

    @property
    def ends(self) -> tuple[GrilleInPlace, GrilleInPlace]:
        """Intake and outlet."""
        first, last = self.pieces[0].what, self.pieces[-1].what
        assert isinstance(first, GrilleInPlace)
        assert isinstance(last, GrilleInPlace)
        return first, last

    def open_in(self, state: str) -> bool:
        """Whether air can pass in a state: always without a fan, else where the fans run."""
        return not self.fans or state in self.runs_in


@dataclass(frozen=True, slots=True)
class PhaseInPlace:
    """A part of the session."""

    state: str
    duration: float


@dataclass(frozen=True, slots=True)
class AirInPlace:
    """Ventilation, the air outside, and what is asked of the air."""

    runs: tuple[RunInPlace, ...]
    leaks: tuple[tuple[str, float], ...]  # room, area [m²]
    outdoor_carbon_dioxide: float
    outdoor_temperature: float
    outdoor_humidity: float
    carbon_dioxide: float
    fresh_air: float
    humidity: float
    draught: float
    terminal_speed: float
    without_fan: float
    door_difference: float  # K between two rooms beside an open door
    fans_alone: Target | None
    session: tuple[PhaseInPlace, ...]
    kept_hash: int = field(default=0, init=False, repr=False, compare=False)

    def __hash__(self) -> int:
        return hash_once(self)

    def run(self, name: str) -> RunInPlace | None:
        """Run by name."""
        return next((run for run in self.runs if run.name == name), None)
