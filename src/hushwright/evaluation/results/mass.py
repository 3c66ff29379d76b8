"""Results of mass, anchoring, doors and cuts."""

from __future__ import annotations

from dataclasses import dataclass

Wheels = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class MassResult:
    """Masses on the wheels in one state [kg], and where they are [m]."""

    state: str
    added: float  # all that is listed of the conversion and aboard
    people: float
    total: float
    front: float
    rear: float
    groups: tuple[tuple[str, float], ...]
    wheels: Wheels = (0.0, 0.0, 0.0, 0.0)  # front left, front right, rear left, rear right
    centre: tuple[float, float, float] = (0.0, 0.0, 0.0)  # station, y, height over the ground
    stability: float = 0.0  # half the track over the height of the centre
    not_yet_listed: float = 0.0
    unaccounted: float = 0.0  # what the latest weighing shows beyond the list


@dataclass(frozen=True, slots=True)
class ScaleResult:
    """One weighing held against the list [kg]; the place is a station and an offset [m]."""

    stage: str
    date: str
    read: float
    listed: float
    unaccounted: float
    uncertainty: float
    wheel_differences: Wheels
    at: tuple[float, float] | None
    at_uncertainty: tuple[float, float] | None
    agrees: bool
    misplaced: bool
    place: str


@dataclass(frozen=True, slots=True)
class MassChange:
    """One change that helps: a fitting taken out, or moved along the van."""

    state: str
    fitting: str
    mass: float
    station: float
    moved_to: float | None  # station; none is taken out


@dataclass(frozen=True, slots=True)
class AnchorResult:
    """What holds one body: loads over strength at the design level and under the cargo rule."""

    name: str
    mass: float
    centre: tuple[float, float, float]
    anchors: int
    strength: float  # of the anchor that is loaded most for its strength [N]
    load: float  # on that anchor at the design level, the blow of snubbers included [N]
    direction: str
    used: float  # load over strength at the design level
    cargo_load: float
    cargo_used: float
    bolts: int  # at that anchor, at the design level
    spreader: float  # side of the plate on bare sheet [m]
    in_skin: bool
    strength_assumed: bool
    place: str
    blow: float = 1.0  # how many times the even push the anchors see where snubbers close a gap first


@dataclass(frozen=True, slots=True)
class SnubberResult:
    """What the snubbers do at the design level, forward: travel [m] and force on them [N]."""

    gap: float
    travel: float
    mount_travel: float
    peak_force: float
    blow: float  # peak force over the even push
    bottoms: bool


@dataclass(frozen=True, slots=True)
class AnchoringResult:
    """How the floating room and heavy fittings are held in one state."""

    state: str
    design_level: float
    design_basis: str
    cargo_shares: tuple[float, float, float]  # forward, rearward, sideways
    cargo_basis: str
    room_mass: float | None  # on the mounts, people aside; none where nothing floats
    room: AnchorResult | None
    fittings: tuple[AnchorResult, ...]
    not_said: tuple[tuple[str, float, str], ...]  # heavy fittings without a restraint: name, mass, place
    snubbers: SnubberResult | None
    bridges: tuple[tuple[str, str], ...]  # fittings fixed to two bodies: name, place


@dataclass(frozen=True, slots=True)
class DoorResult:
    """Forces [N] at one door closed against its seals, and its sag [m]."""

    name: str
    mass: float
    seal_force: float
    hand: float
    hand_alone: float
    latch: float
    hinge: float
    hinge_weight: float
    sag: float
    force_class: int
    place: str


@dataclass(frozen=True, slots=True)
class CutResult:
    """One cut: where it is, sheet left to the nearest member and to the nearest other cut [m]."""

    name: str
    face: str
    at: tuple[float, float]  # along and across the face
    reinforcement: str
    to_member: float | None
    member: str
    member_known: bool
    to_cut: float | None
    nearest_cut: str
    size: float
    place: str


@dataclass(frozen=True, slots=True)
class StructureResults:
    """What the scales say, what must go or move, how things are held, doors and cuts."""

    scales: tuple[ScaleResult, ...] = ()
    changes: tuple[MassChange, ...] = ()
    anchoring: tuple[AnchoringResult, ...] = ()
    doors: tuple[DoorResult, ...] = ()
    cuts: tuple[CutResult, ...] = ()


NO_STRUCTURE = StructureResults()
