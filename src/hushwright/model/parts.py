"""Parts in place: openings, mounts, masses, the vehicle as it comes."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from hushwright.library.records import MountRecord, Seal, Sheet, VanBody
from hushwright.model.faces import LayerInPlace, Ribs, hash_once
from hushwright.model.section import Section


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
    run: str  # run of `air` that passes a duct; "" where its own insertion loss holds
    centre: tuple[float, float, float]
    mass: float
    place: str
    overlap: float = 0.0  # how far leaf or pane lies over its frame beyond the clear size [m]
    kept_hash: int = field(default=0, init=False, repr=False, compare=False)

    def __hash__(self) -> int:
        return hash_once(self)

    @property
    def overlap_below(self) -> float:
        """How far it lies over its frame at its foot [m]: a door has the floor there."""
        return 0.0 if self.kind == "door" else self.overlap

    @property
    def leaf_size(self) -> tuple[float, float]:
        """Width and height of leaf or pane with what lies over its frame [m]."""
        return self.width + 2.0 * self.overlap, self.height + self.overlap + self.overlap_below

    @property
    def leaf_area(self) -> float:
        """Area of one leaf or pane with what lies over its frame [m²]."""
        width, height = self.leaf_size
        return math.pi / 4.0 * width * height if self.round else width * height


MOUNT_PAD = 0.05
"""m across the pad of a mount, of which the file says nothing; common practice, no source."""


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
    stands_on: str  # "cross-member" | "rib" | "sheet"
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
    fitting: str = ""  # name of the fitting it belongs to
    weighed: bool = False
    out: tuple[float, float, float] | None = None  # station, y, z in states that have it out
    liquid: bool = False
    y_taken: bool = False  # nobody says how far left or right it stands: the middle is taken


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
class GapEdge:
    """Where the gap behind one face meets the gap behind the next: length of the edge and depth there."""

    first: str
    second: str
    length: float
    depth: float
