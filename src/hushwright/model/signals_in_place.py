"""Signals in place: lines, headphone points, earths and gear, in SI."""

from __future__ import annotations

from dataclasses import dataclass

STAR = "star"
"""Name of the one earth point."""

SOUNDING = ("microphone", "line", "instrument", "headphone", "talkback")
"""Kinds of lines that carry sound as a voltage."""

PARTED = ("network",)
"""Kinds of lines whose ends a transformer parts by their standard."""


@dataclass(frozen=True, slots=True)
class NearInPlace:
    """Power beside a line: lengths [m], alternating current [A], frequency [Hz]."""

    what: str
    distance: float
    along: float
    current: float
    frequency: float
    spacing: float


@dataclass(frozen=True, slots=True)
class LineInPlace:
    """Alike cables; length of one [m], level [V], impedance [Ω], capacitance [F/m], conductor [m²], rejection [dB]."""

    name: str
    kind: str
    comes_from: str
    goes_to: str
    number: int
    connectors: tuple[str, ...]
    route: str
    length: float
    passes: tuple[str, ...]
    fixed_to: tuple[str, ...]
    loop: bool
    diameter: float
    balanced: bool
    isolated: bool
    level: float
    source_impedance: float
    capacitance: float
    conductor: float
    rejection: float
    earths: tuple[str, str]
    near: tuple[NearInPlace, ...]
    bridges: bool  # whether it ties the floating room to what does not float
    unpassed: tuple[str, ...]  # walls that it passes without an opening
    place: str

    @property
    def carries_sound(self) -> bool:
        """Whether it carries sound as a voltage."""
        return self.kind in SOUNDING

    @property
    def joins_earths(self) -> bool:
        """Whether it joins two earths by its conductors."""
        return self.earths[0] != self.earths[1] and not self.isolated and self.kind not in PARTED


@dataclass(frozen=True, slots=True)
class AmplifierInPlace:
    """An amplifier for headphones: voltage [V], impedances [Ω]."""

    name: str
    voltage: float
    output_impedance: float
    lowest_load: float
    place: str


@dataclass(frozen=True, slots=True)
class PointInPlace:
    """Alike sockets: impedance [Ω], level at 1 mW [dB], limiter [dB(A)], what is taken off sound from outside [dB]."""

    name: str
    room: str
    number: int
    amplifier: str
    line: str
    impedance: float
    sensitivity: float
    limiter: float | None
    attenuation: float
    place: str


@dataclass(frozen=True, slots=True)
class GearInPlace:
    """Gear near microphones: frequency [Hz], A-weighted sound power level [dB(A)]."""

    name: str
    what: str
    room: str
    frequency: float | None
    sound_power: float | None
    steady: bool
    runs_in: tuple[str, ...]
    place: str

    def on_in(self, state: str) -> bool:
        """Whether it is on in a state."""
        return not self.runs_in or state in self.runs_in


@dataclass(frozen=True, slots=True)
class GlandInPlace:
    """A gland, hole or cut with the lines that pass it: cross-section and number of its holes."""

    name: str
    area: float
    number: int
    width: float
    place: str


@dataclass(frozen=True, slots=True)
class SignalLimits:
    """What is asked: levels [dB(A)], hum [dB], treble and dimmers [Hz]."""

    listening: float
    ceiling: float
    hum: float
    treble: float
    gear: float


@dataclass(frozen=True, slots=True)
class SignalsInPlace:
    """All signals of a Build."""

    lines: tuple[LineInPlace, ...]
    amplifiers: tuple[AmplifierInPlace, ...]
    points: tuple[PointInPlace, ...]
    earths: tuple[tuple[str, float], ...]  # name, voltage against the star
    gear: tuple[GearInPlace, ...]
    glands: tuple[GlandInPlace, ...]
    wanted: tuple[tuple[str, int, str], ...]  # place, headphone points, where it is asked
    limits: SignalLimits
