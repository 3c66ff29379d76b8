"""The Build: what is there, in SI metres, and how it lies. It says nothing about how it behaves.

Axes after ISO 8855: x forward from the B-pillar line, y left, z up from the steel floor; stations run rearward, x = −station.
"""

from __future__ import annotations

from dataclasses import dataclass, field, fields
from typing import Any, Literal

from hushwright.document.document import Document
from hushwright.library.library import Library
from hushwright.library.records import Blanket, MountRecord, OutdoorSituation, RoomSource, Seal, Sheet, VanBody
from hushwright.model.section import Section

LayerRecord = object


def hash_once(value: Any) -> int:
    """Hash of a frozen value, kept in its field ``kept_hash``: the memoised laws ask for it again and again."""
    kept: int = value.kept_hash
    if kept == 0:
        kept = hash(tuple(getattr(value, each.name) for each in fields(value) if each.compare)) or 1
        object.__setattr__(value, "kept_hash", kept)
    return kept


Origin = Literal["measured", "supplier", "typical", "assumed", "stated"]
FACES = ("left", "right", "ceiling", "floor", "front", "rear", "wheel_box_left", "wheel_box_right")
BODIES = ("body", "quiet", "control", "loose")


@dataclass(frozen=True, slots=True)
class Input:
    """A value that is not exactly known: where it stands, its standard uncertainty and where that comes from."""

    path: str
    value: float
    standard_uncertainty: float
    origin: str
    kind: str
    label: str


@dataclass(frozen=True, slots=True)
class Assumption:
    """Something the file leaves out and the library fills in."""

    path: str
    text: str
    source: str


@dataclass(frozen=True, slots=True)
class FrameInPlace:
    """Battens of the inner leaf standing into a cavity."""

    depth: float
    width: float
    spacing: float
    sheet: Sheet

    @property
    def surface_density(self) -> float:
        """Mass per area of the face [kg/m²]."""
        return self.sheet.density.value * self.depth * self.width / self.spacing


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
        """Mass per area [kg/m²], the vehicle's own skin included."""
        return sum(layer.surface_density for layer in self.layers)

    @property
    def added_surface_density(self) -> float:
        """Mass per area without the vehicle's own skin [kg/m²]."""
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
        """Mass per area of the inner leaf with the battens it carries [kg/m²]."""
        cut = self.last_cavity
        if cut is None:
            return 0.0
        cavity = self.layers[cut].cavity
        frame = cavity.frame.surface_density if cavity is not None and cavity.frame is not None else 0.0
        return frame + sum(layer.surface_density for layer in self.inner_leaf)


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


@dataclass(frozen=True, slots=True)
class SealInPlace:
    """Seals round the edge of an opening."""

    seal: Seal
    rows: int
    residual_gap: float
    length: float


@dataclass(frozen=True, slots=True)
class OpeningInPlace:
    """A door, window, gland, duct or hole."""

    name: str
    kind: str
    room: str  # room whose face it is in; "" for an opening of the vehicle into the gap
    face: str
    in_vehicle: bool
    width: float
    height: float
    area: float
    number: int
    round: bool
    layers: tuple[LayerInPlace, ...]
    frames: str
    reveal: float
    seals: SealInPlace | None
    behind: str
    filled: str
    depth: float
    insertion_loss: tuple[tuple[float, float], ...]
    centre: tuple[float, float, float]
    mass: float
    place: str
    kept_hash: int = field(default=0, init=False, repr=False, compare=False)

    def __hash__(self) -> int:
        return hash_once(self)


@dataclass(frozen=True, slots=True)
class MountSet:
    """Mounts of one kind under the floor."""

    name: str
    record: MountRecord | None
    places: tuple[tuple[float, float], ...]  # station, y
    static_stiffness: float
    lateral_stiffness: float
    dynamic_ratio: float
    loss_factor: float
    lowest_load: float  # kg
    highest_load: float  # kg
    free_height: float
    creep_per_decade: float
    cold_factor: float
    edges: str
    snubber_gap: float | None
    load_time: float
    place: str


@dataclass(frozen=True, slots=True)
class MassItem:
    """A mass at a place."""

    name: str
    group: str
    mass: float
    station: float
    y: float
    z: float
    fixed_to: tuple[str, ...]
    place: str
    size: tuple[float, float, float] = (0.0, 0.0, 0.0)  # along, across, up


@dataclass(frozen=True, slots=True)
class AxleMasses:
    """A mass and the axles' share [kg]."""

    total: float
    front: float
    rear: float


@dataclass(frozen=True, slots=True)
class VehicleInPlace:
    """The van before the conversion."""

    body: VanBody
    load_length: float
    floor_to_bow: float
    floor_over_ground: float
    section: Section
    skin: Sheet
    skin_thickness: float
    beading: float
    roof_radius: float
    ribs: Ribs
    bows: Ribs
    wheel_boxes: tuple[float, float, float, float] | None  # between, height, front station, rear station
    front_axle: float
    rear_axle: float
    kerb: AxleMasses
    plated: AxleMasses
    seats: int
    kept_hash: int = field(default=0, init=False, repr=False, compare=False)

    def __hash__(self) -> int:
        return hash_once(self)


@dataclass(frozen=True, slots=True)
class StateOfUse:
    """Who is where and what stands open."""

    name: str
    people: tuple[tuple[str, int], ...]
    open: tuple[str, ...]
    road: bool
    takes: bool
    fans: tuple[str, ...]

    def people_in(self, room: str) -> int:
        """Number of people in a room."""
        return dict(self.people).get(room, 0)


@dataclass(frozen=True, slots=True)
class Target:
    """A limit from the brief, read."""

    text: str
    kind: str  # "dB(A)" | "NC" | "NR" | "hearing test"
    value: float
    lowest_band: float
    place: str
    basis: str


@dataclass(frozen=True, slots=True)
class Situation:
    """Sound outside: levels in front of the van per octave, and from where."""

    name: str
    octaves: tuple[tuple[float, float], ...]
    record: OutdoorSituation | None
    level: float | None
    level_uncertainty: float
    comes_from: str
    target: Target | None
    source: str
    place: str


@dataclass(frozen=True, slots=True)
class BriefInPlace:
    """What the client asks for, in SI."""

    use: str
    stature: float
    shoes: float
    clearance: float
    shoulder_width: float
    person_mass: float
    crew_on_the_road: int
    air_temperature: float
    situations: tuple[Situation, ...]
    source: RoomSource
    source_level: float | None
    monitor: tuple[float, RoomSource, float, str] | None  # level, spectrum, below, place
    neighbours: tuple[float, str, float, str] | None  # distance, side, limit, place
    rain: tuple[float, Target | None, str] | None  # rate, target, place
    shadow: tuple[tuple[str, float], ...]  # how much less [dB] reaches faces that sound has to bend round to


@dataclass(frozen=True, slots=True)
class ToleranceSet:
    """How closely the workshop builds."""

    headroom: float
    width: float
    mass: float
    measured_vans: int


@dataclass(frozen=True, slots=True)
class GapEdge:
    """Where the gap behind one face meets the gap behind the next: length of the edge and depth there."""

    first: str
    second: str
    length: float
    depth: float


@dataclass(frozen=True, slots=True, eq=False)
class Build:
    """A document joined with the library, resolved to surfaces, openings, masses."""

    title: str
    file: str
    brief: BriefInPlace
    vehicle: VehicleInPlace
    rooms: tuple[Room, ...]
    openings: tuple[OpeningInPlace, ...]
    mounts: tuple[MountSet, ...]
    gap_edges: tuple[GapEdge, ...]
    masses: tuple[MassItem, ...]
    fans: tuple[tuple[str, tuple[str, ...]], ...]
    states: tuple[StateOfUse, ...]
    tolerances: ToleranceSet
    inputs: tuple[Input, ...]
    assumptions: tuple[Assumption, ...]
    document: Document = field(repr=False)
    library: Library = field(repr=False)

    def room_for(self, purpose: str) -> Room | None:
        """First room with a purpose."""
        return next((room for room in self.rooms if room.purpose == purpose), None)
