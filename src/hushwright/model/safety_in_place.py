"""Safety, venues and papers in place."""

from __future__ import annotations

from dataclasses import dataclass

Point = tuple[float, float, float]
"""Station, left of the centre line, over the steel floor [m]."""


@dataclass(frozen=True, slots=True)
class LimitInPlace:
    """A limit of safety: its value in SI, where it comes from, and why it may not be relied on."""

    value: float
    basis: str
    doubt: str
    place: str


@dataclass(frozen=True, slots=True)
class WayDoorInPlace:
    """An opening on a way out; ``said`` is whether the file tells how it opens."""

    name: str
    said: bool
    lock: str
    inside: str
    operations: int
    holding: float | None
    keep: str
    keep_strength: float | None
    occupied_alarm: bool
    swing: str
    leaf_width: float
    free_depth: float | None  # none: nothing stands in its way
    freed_by: str  # opening that gives the depth free when it stands open
    clear_width: float
    clear_height: float
    in_vehicle: bool
    place: str
    fixed: bool = False  # a window of a room on no hinges


@dataclass(frozen=True, slots=True)
class WayOutInPlace:
    """A way out of a room."""

    room: str
    through: tuple[str, ...]
    place: str


@dataclass(frozen=True, slots=True)
class DetectorInPlace:
    """A detector."""

    kind: str
    room: str
    on_ceiling: bool
    from_edge: float
    from_appliance: float | None
    place: str
    at: tuple[float, float] | None = None  # station, left of the centre line


@dataclass(frozen=True, slots=True)
class EquipmentInPlace:
    """Something to fight a fire, get out or give first aid with, and where its fitting is."""

    kind: str
    fitting: str
    size: str
    at: Point
    place: str


@dataclass(frozen=True, slots=True)
class SounderInPlace:
    """An alarm that is heard: level [dB(A)] at a distance [m], tone [Hz]."""

    room: str
    level: float
    distance: float
    tone: float
    place: str


@dataclass(frozen=True, slots=True)
class VisualSignalInPlace:
    """A flashing light: intensity [cd] and flashes a second [Hz]."""

    room: str
    intensity: float
    rate: float
    place: str


@dataclass(frozen=True, slots=True)
class NoisePartInPlace:
    """Part of a day: what is heard, level [dB(A)] where one is typed, time [s] where it is not that of the takes."""

    of: str
    level: float | None
    point: str
    duration: float | None
    place: str


@dataclass(frozen=True, slots=True)
class ExposureInPlace:
    """Noise of a day: its parts, highest peak [dB(C)]."""

    who: str
    parts: tuple[NoisePartInPlace, ...]
    peak: float | None
    place: str


@dataclass(frozen=True, slots=True)
class LiningInPlace:
    """A material within reach of the air of a room; no rate where the file tells none [m/s]."""

    material: str
    where: str
    burning_rate: float | None
    by: str
    place: str


@dataclass(frozen=True, slots=True)
class BankInPlace:
    """Where the bank stands; temperatures [°C]."""

    name: str
    room: str  # room at whose station it stands, "" for none
    in_quiet: bool
    from_skin: float | None
    warmest: float | None
    coldest: float | None
    missing: tuple[str, ...]  # of ventilation, removal, label: those that are not there
    not_said: tuple[str, ...]
    place: str


@dataclass(frozen=True, slots=True)
class ExhaustInPlace:
    """The end of an exhaust, and how far its maker wants it from intakes."""

    name: str
    kind: str
    at: Point
    apart: LimitInPlace
    place: str


@dataclass(frozen=True, slots=True)
class SafetyInPlace:
    """What the file says of safety."""

    doors: tuple[WayDoorInPlace, ...]
    ways_out: tuple[WayOutInPlace, ...]
    detectors: tuple[DetectorInPlace, ...]
    sounders: tuple[SounderInPlace, ...]
    visual_signals: tuple[VisualSignalInPlace, ...]
    noise_rule: str
    exposures: tuple[ExposureInPlace, ...]
    burning_rule: str
    linings: tuple[LiningInPlace, ...]
    bank: BankInPlace | None
    exhausts: tuple[ExhaustInPlace, ...]
    intakes: tuple[tuple[str, Point], ...]
    unknown_intakes: tuple[str, ...]  # runs from outdoors of which nobody says where they begin
    found_within: LimitInPlace
    push: LimitInPlace
    bank_to_skin: LimitInPlace
    equipment: tuple[EquipmentInPlace, ...] = ()
    asked: tuple[str, ...] = ()  # equipment that somebody asks for
    asked_said: bool = False  # whether the file tells it

    def door(self, name: str) -> WayDoorInPlace | None:
        """An opening on a way out by its name."""
        return next((each for each in self.doors if each.name == name), None)


@dataclass(frozen=True, slots=True)
class VenueInPlace:
    """One venue, in SI; what is not said is none."""

    name: str
    supply: str
    cable: float | None
    longest_cable: LimitInPlace
    residual_current: float | None
    generator_distance: float | None
    slope: float | None
    steepest: LimitInPlace
    wind: float | None
    awning_out: bool
    awning_limit: float | None
    cable_way: str
    light: str
    place: str


@dataclass(frozen=True, slots=True)
class PaperInPlace:
    """One paper: what it is, how far it is, what the library knows of it."""

    jurisdiction: str
    item: str
    listed: bool
    status: str
    owner: str
    date: str
    says_who: str
    known: str  # sentence and source of the library, "" where it knows nothing
    place: str
