"""Wiring in place: circuits with what they carry, how long they are and where they run, in SI."""

from __future__ import annotations

from dataclasses import dataclass

Point = tuple[float, float, float]  # station, y, z


@dataclass(frozen=True, slots=True)
class FuseInPlace:
    """Fuse at the begin of a circuit: ratings [A], distance from the source [m]."""

    rating: float | None
    type: str
    interrupt_rating: float | None
    distance: float | None
    sheathed: bool
    place: str


@dataclass(frozen=True, slots=True)
class IsolatorInPlace:
    """A switch, and how far it is from the hand that reaches for it [m]."""

    point: Point
    reached_from: str
    distance: float
    place: str


@dataclass(frozen=True, slots=True)
class CircuitInPlace:
    """A circuit: current [A], voltage [V], length one way [m], conductor [m²], insulation [°C].

    ``kind`` says what is at the head of its chain: ``bank``, ``converter``, ``shore``, ``generator``, ``alternator``,
    ``solar`` or ``other``. ``upstream`` names the circuits before it, the nearest first.
    """

    name: str
    takes_from: str
    gives_to: tuple[str, ...]
    kind: str
    upstream: tuple[str, ...]
    alternating: bool
    voltage: float
    current: float
    length: float
    route: str
    fixed_to: tuple[str, ...]
    centre: Point
    area: float | None
    awg: str
    insulation: float
    engine_space: bool
    bundled: int
    allowed_drop: float
    fuse: FuseInPlace | None
    isolator: IsolatorInPlace | None
    residual: tuple[float, str] | None  # trip [A], type
    place: str


@dataclass(frozen=True, slots=True)
class Links:
    """Whether neutral and earth are joined aboard on each source; ``None`` is not known."""

    at_shore: bool | None
    at_converter: bool | None
    at_generator: bool | None
    change_over: str
    monitored: bool


@dataclass(frozen=True, slots=True)
class WiringInPlace:
    """All circuits and what holds for them."""

    rules: str
    sizes: str
    mains: float
    reach: float
    circuits: tuple[CircuitInPlace, ...]
    links: Links
    bond: tuple[float | None, str]  # area [m²] or gauge of the bond to the chassis
    bank_voltage: float | None
    bank_resistance: float | None
    feeds: tuple[str, ...]  # shore, converter, generator, as far as they are there
    unwired: tuple[str, ...]  # loads that no circuit reaches
    place: str
