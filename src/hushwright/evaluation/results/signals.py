"""Results of signals: lines, headphones, glands, and what gear sounds in the quiet room."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class LineResult:
    """Alike cables: lengths [m], resistance of both conductors of one [Ω], roll-off [Hz], hum under the signal [dB]."""

    name: str
    kind: str
    comes_from: str
    goes_to: str
    number: int
    connectors: tuple[str, ...]
    length: float
    passes: tuple[str, ...]
    fixed_to: tuple[str, ...]
    resistance: float
    roll_off: float | None
    hum: float | None
    hum_from: tuple[tuple[str, float], ...]  # what it comes from, how far under the signal
    joins_earths: bool
    bridges: bool
    unpassed: tuple[str, ...]
    place: str

    @property
    def total_length(self) -> float:
        """Length of all of them [m]."""
        return self.number * self.length


@dataclass(frozen=True, slots=True)
class AmplifierResult:
    """An amplifier with everything plugged in: load [Ω], power [W]."""

    name: str
    number: int
    load: float
    power: float
    place: str


@dataclass(frozen=True, slots=True)
class PointResult:
    """Headphones of one point: level with all plugged in, and of one that is alone, at full voltage [dB(A)]."""

    name: str
    room: str
    number: int
    in_use: float
    alone: float
    most: float  # what a limiter leaves of it
    place: str


@dataclass(frozen=True, slots=True)
class GlandResult:
    """A gland with its cables: share of its cross-section that they fill, and may fill."""

    name: str
    cables: int
    fill: float
    permitted: float
    thickest: float
    width: float
    lines: tuple[str, ...]
    place: str


@dataclass(frozen=True, slots=True)
class GearLevel:
    """What one piece of gear makes in the quiet room [dB(A)]; `None` where its sound power is not known."""

    name: str
    what: str
    room: str
    level: float | None
    steady: bool
    place: str


@dataclass(frozen=True, slots=True)
class GearInState:
    """Gear in one state: everything steady together, and the loudest click [dB(A)]."""

    state: str
    steady: float
    click: float
    sources: tuple[GearLevel, ...]


@dataclass(frozen=True, slots=True)
class SignalResults:
    """All of signals."""

    lines: tuple[LineResult, ...] = ()
    amplifiers: tuple[AmplifierResult, ...] = ()
    points: tuple[PointResult, ...] = ()
    glands: tuple[GlandResult, ...] = ()
    gear: tuple[GearInState, ...] = ()


NO_SIGNALS = SignalResults()
"""Signals of a build that names none."""
