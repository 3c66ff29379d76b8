"""What moves, and the place at which someone works, in SI."""

from __future__ import annotations

from dataclasses import dataclass

Spot = tuple[float, float, float]  # station, y, z


@dataclass(frozen=True, slots=True)
class EnvelopeInPlace:
    """A fitting with its outer size at rest and at its second place [m]."""

    name: str
    centre: Spot
    size: Spot  # along, across, up
    out: Spot | None
    out_size: Spot
    turning_radius: float | None
    place: str


@dataclass(frozen=True, slots=True)
class SwingInPlace:
    """A door leaf in plan: its hinge, unit vectors of the closed leaf and of the way it opens, how far [rad]."""

    name: str
    hinge: tuple[float, float]
    closed: tuple[float, float]
    towards: tuple[float, float]
    angle: float
    width: float
    low: float
    high: float
    place: str


@dataclass(frozen=True, slots=True)
class WindowInPlace:
    """The clear opening between two stations [m]: a rectangle about (y, z)."""

    name: str
    stations: tuple[float, float]
    y: float
    z: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class WorkplaceInPlace:
    """The seat at the desk and what belongs to it [m, rad]."""

    eye: Spot
    seat_height: float | None
    desk_underside: float | None
    thighs: float
    reach: float
    shoulder_below_eye: float
    controls: tuple[tuple[str, Spot], ...]
    speakers: tuple[Spot, ...]
    base_angle: float
    base_tolerance: float
    singers: tuple[Spot, ...]
    window: WindowInPlace | None
    camera: tuple[Spot, float] | None  # where, how wide it sees


@dataclass(frozen=True, slots=True)
class UseInPlace:
    """Everything that takes room when it moves, and the workplace."""

    envelopes: tuple[EnvelopeInPlace, ...] = ()
    swings: tuple[SwingInPlace, ...] = ()
    workplace: WorkplaceInPlace | None = None


NO_USE = UseInPlace()
