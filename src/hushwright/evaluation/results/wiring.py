"""What was computed of the wiring: every circuit with conductor, fuse, drop and fault current."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class CircuitResult:
    """One circuit: currents [A], drop as a share of the voltage, length one way [m], mass [kg], area [m²].

    ``gauge`` is the thinnest wire gauge that is not thinner. ``chosen`` says that the file leaves the conductor out;
    ``fuse_chosen`` likewise of the fuse. ``guarded_by`` is the circuit whose fuse protects this one, ``guard`` its
    rating.
    """

    name: str
    takes_from: str
    gives_to: tuple[str, ...]
    route: str
    alternating: bool
    voltage: float
    current: float
    length: float
    cores: int
    conductor: str
    area: float
    gauge: str
    chosen: bool
    ampacity: float | None
    ampacity_basis: str
    notes: tuple[str, ...]
    drop: float
    drop_from_source: float
    allowed_drop: float
    fuse: float | None
    fuse_type: str
    fuse_chosen: bool
    guarded_by: str
    guard: float | None
    fuse_limit: float | None
    fault: float | None
    least_fault: float | None
    interrupt: float | None
    interrupt_notes: tuple[str, ...]
    residual: tuple[float, str] | None
    isolator: str
    isolator_distance: float | None
    mass: float
    fixed_to: tuple[str, ...]
    place: str


@dataclass(frozen=True, slots=True)
class FusePair:
    """Two fuses in series."""

    nearer: str
    farther: str
    ratio: float
    alike: bool
    place: str


@dataclass(frozen=True, slots=True)
class Tie:
    """A route that ties the floating room to the rest, or passes its wall without an opening."""

    route: str
    face: str
    why: str
    place: str


@dataclass(frozen=True, slots=True)
class WiringResults:
    """All circuits, fuses in series, and what routes do to the floating room."""

    rules: str = ""
    circuits: tuple[CircuitResult, ...] = ()
    pairs: tuple[FusePair, ...] = ()
    ties: tuple[Tie, ...] = ()
    without_gland: tuple[Tie, ...] = ()
    no_table: tuple[str, ...] = ()
    unfused: tuple[str, ...] = ()
    unprotected: tuple[str, ...] = ()
    blind: tuple[str, ...] = ()
    no_isolator: tuple[str, ...] = ()
    unwired: tuple[str, ...] = ()
    bank_fault: float | None = None
    bond: float | None = None
    main_lead: float | None = None


NO_WIRING = WiringResults()
