"""Faces of rooms in place: layers, bridges, absorbers, and the rooms they enclose."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, fields
from functools import cache
from operator import attrgetter
from typing import Any, Literal

from hushwright.library.records import Blanket, Sheet
from hushwright.model.section import Section

LayerRecord = object
FACES = ("left", "right", "ceiling", "floor", "front", "rear", "wheel_box_left", "wheel_box_right")
BODIES = ("body", "quiet", "control", "loose")


def hash_once(value: Any) -> int:
    """Hash of a frozen value, kept in its field ``kept_hash``: the memoised laws ask for it again and again."""
    kept: int = value.kept_hash
    if kept == 0:
        kind: Any = type(value)
        kept = hash(_compared(kind)(value)) or 1
        object.__setattr__(value, "kept_hash", kept)
    return kept


@cache
def _compared(kind: Any) -> Callable[[Any], Any]:
    """What takes the fields by which values of a kind are compared."""
    return attrgetter(*(each.name for each in fields(kind) if each.compare))


@dataclass(frozen=True, slots=True)
class FrameInPlace:
    """Battens of the inner leaf standing into a cavity, or bearers under a floor."""

    depth: float
    width: float
    spacing: float  # as they stand on their face, from middle to middle; what the file asks for is rounded to it
    sheet: Sheet

    @property
    def mass_per_length(self) -> float:
        """Mass of a metre [kg/m]."""
        return self.sheet.density.value * self.depth * self.width


@dataclass(frozen=True, slots=True)
class BattenInPlace:
    """One batten or bearer on the developed face [m]: its middle along the width, its ends over the height."""

    layer: int  # index of the layer it stands in
    along: float
    low: float
    high: float

    @property
    def length(self) -> float:
        """Length of the piece [m]."""
        return self.high - self.low


@dataclass(frozen=True, slots=True)
class Ribs:
    """Ribs or bows of the body where a cavity touches the skin."""

    depth: float
    spacing: float
    width: float


@dataclass(frozen=True, slots=True)
class CavityInPlace:
    """The air space of a cavity layer."""

    fill: Blanket | None
    fill_thickness: float
    frame: FrameInPlace | None = None
    ribs: Ribs | None = None
    mount_group: str = ""
    extra_depth: float = 0.0  # bows: the space between them belongs to the air but not to the build-up


@dataclass(frozen=True, slots=True)
class LayerInPlace:
    """One layer of a build-up: what, how thick, how heavy per area."""

    kind: str
    name: str
    thickness: float
    surface_density: float
    record: LayerRecord | None
    place: str
    coverage: float = 1.0
    joint: str = "glued"
    cavity: CavityInPlace | None = None
    kept_hash: int = field(default=0, init=False, repr=False, compare=False)

    def __hash__(self) -> int:
        return hash_once(self)

    @property
    def is_cavity(self) -> bool:
        """Whether this layer parts two leaves."""
        return self.kind in ("cavity", "floor_mounts")


@dataclass(frozen=True, slots=True)
class BridgeInPlace:
    """Something rigid or springy across a cavity: lines or points, and what it is."""

    kind: Literal["line", "point"]
    density: float  # lines: m per m²; points: number per m²
    stiffness: float | None  # lines: N/m², points: N/m; None is rigid
    cause: str
    place: str


@dataclass(frozen=True, slots=True)
class Surface:
    """One face of a room with its build-up, outside first."""

    room: str
    face: str
    beyond: str
    layers: tuple[LayerInPlace, ...]
    bridges: tuple[BridgeInPlace, ...]
    area: float
    width: float
    height: float
    centre: tuple[float, float, float]
    edge_gap: float
    place: str
    battens: tuple[BattenInPlace, ...] = ()
    kept_hash: int = field(default=0, init=False, repr=False, compare=False)

    def __hash__(self) -> int:
        return hash_once(self)

    @property
    def name(self) -> str:
        """``quiet_room.left``."""
        return f"{self.room}.{self.face}"

    @property
    def thickness(self) -> float:
        """Depth that the build-up takes from the room [m]; the vehicle's own skin takes none."""
        return sum(layer.thickness for layer in self.layers if layer.kind not in ("skin", "damping"))

    @property
    def surface_density(self) -> float:
        """Mass per area [kg/m²] without battens, the vehicle's own skin included."""
        return sum(layer.surface_density for layer in self.layers)

    @property
    def added_surface_density(self) -> float:
        """Mass per area without battens and the vehicle's own skin [kg/m²]."""
        return sum(layer.surface_density for layer in self.layers if layer.kind != "skin")

    @property
    def last_cavity(self) -> int | None:
        """Index of the innermost cavity, `None` for a single leaf."""
        found = [index for index, layer in enumerate(self.layers) if layer.is_cavity]
        return found[-1] if found else None

    @property
    def inner_leaf(self) -> tuple[LayerInPlace, ...]:
        """Layers inside the innermost cavity; all layers for a single leaf."""
        cut = self.last_cavity
        return self.layers if cut is None else self.layers[cut + 1 :]

    @property
    def outer_leaf(self) -> tuple[LayerInPlace, ...]:
        """Layers outside the outermost cavity; all layers for a single leaf."""
        for index, layer in enumerate(self.layers):
            if layer.is_cavity:
                return self.layers[:index]
        return self.layers

    @property
    def inner_surface_density(self) -> float:
        """Mass per area of the inner leaf without the battens it carries [kg/m²]; nothing for a single leaf."""
        return 0.0 if self.last_cavity is None else sum(layer.surface_density for layer in self.inner_leaf)


@dataclass(frozen=True, slots=True)
class TreatmentInPlace:
    """An absorber on a finished face."""

    room: str
    face: str
    blanket: Blanket
    thickness: float
    coverage: float
    air_behind: float
    place: str


@dataclass(frozen=True, slots=True)
class Room:
    """A room: what remains of the vehicle's section after the build-ups, between two stations."""

    name: str
    purpose: str
    front: float
    rear: float
    section: Section
    surfaces: tuple[Surface, ...]
    treatments: tuple[TreatmentInPlace, ...]
    wheel_box_volume: float
    place: str
    kept_hash: int = field(default=0, init=False, repr=False, compare=False)

    def __hash__(self) -> int:
        return hash_once(self)

    @property
    def length(self) -> float:
        """Between the finished end faces [m]."""
        return self.rear - self.front

    @property
    def volume(self) -> float:
        """Air volume without fittings [m³]."""
        return self.section.area * self.length - self.wheel_box_volume

    def surface(self, face: str) -> Surface | None:
        """Find the surface of a face, `None` when the room has none there."""
        return next((surface for surface in self.surfaces if surface.face == face), None)
