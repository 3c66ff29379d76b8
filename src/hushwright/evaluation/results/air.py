"""Results of the air: what flows, what people breathe, what fans and air sound like."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.evaluation.results.path import Bands, PathLevel


@dataclass(frozen=True, slots=True)
class RunFlow:
    """One run in one state: its flow [m³/s], below zero against its direction, and what its fans do."""

    run: str
    flow: float
    wanted: float | None
    fan_pressure: float
    power: float
    losses: tuple[tuple[str, float], ...]  # piece, pressure loss [Pa]


@dataclass(frozen=True, slots=True)
class TerminalAir:
    """Air at an outlet in a room: speed in the grille and at the nearest neck [m/s], share who feel a draught."""

    run: str
    room: str
    velocity: float
    at_neck: float
    draught: float
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RoomAir:
    """Air of one room in one state, once nothing changes any more; fractions by volume, times [s]."""

    room: str
    people: int
    supplied: float  # through runs [m³/s]
    outdoor_air: float  # outdoor air that would give the same carbon dioxide [m³/s]
    carbon_dioxide: float
    humidity: float
    without_fan: tuple[tuple[float, float], ...]  # limit, time until it is met
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class AirState:
    """The air in one state."""

    state: str
    runs: tuple[RunFlow, ...]
    terminals: tuple[TerminalAir, ...]
    rooms: tuple[RoomAir, ...]
    power: float
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SessionAir:
    """The air over the session: a value per room at each time [s]."""

    phases: tuple[tuple[str, float, float], ...]  # state, begin, end
    rooms: tuple[str, ...]
    times: tuple[float, ...]
    carbon_dioxide: tuple[tuple[float, ...], ...]  # a row per time
    humidity: tuple[tuple[float, ...], ...]

    def of(self, room: str) -> tuple[float, ...]:
        """Carbon dioxide of a room over time."""
        index = self.rooms.index(room)
        return tuple(row[index] for row in self.carbon_dioxide)


@dataclass(frozen=True, slots=True)
class TerminalSound:
    """Sound power [dB re 1 pW] that leaves one end of a run into a room, by origin."""

    run: str
    room: str
    end: str  # "intake" | "outlet"
    fan: Bands
    flow: Bands
    level_a: float
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FanSound:
    """What fans and air alone make in the quiet room in one state."""

    state: str
    room: str
    levels: Bands
    uncertainty: Bands
    level_a: float
    terminals: tuple[TerminalSound, ...]
    shares: tuple[tuple[str, float, float, float], ...]  # situation, fans, moving air, everything else
    notes: tuple[str, ...]
    paths: tuple[PathLevel, ...] = ()  # fans and moving air, each by the way it takes into the room


@dataclass(frozen=True, slots=True)
class AirResults:
    """Everything about the air of a Build."""

    states: tuple[AirState, ...] = ()
    session: SessionAir | None = None
    sounds: tuple[FanSound, ...] = ()

    def state(self, name: str) -> AirState | None:
        """The air in a state by its name."""
        return next((each for each in self.states if each.state == name), None)


NO_AIR = AirResults()
