"""Results of safety: how doors let people out, ways out, alarms where people are, noise of a day, exhausts."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class DoorOnWay:
    """An opening on a way out: what keeps it from opening, and forces [N] on its lock and its keep."""

    name: str
    said: bool
    locked_without_power: bool
    obstacles: tuple[str, ...]
    load: float | None  # seals and push on the lock; none where no lock or no strength is named
    road_load: float | None  # seals and inertia on the keep; none where it does not count
    passes: float  # opening over the body that must pass, the smaller of both sides
    place: str


@dataclass(frozen=True, slots=True)
class WayWalked:
    """A way out in one state: whether it serves, what is in the way, what nobody says."""

    room: str
    state: str
    through: tuple[str, ...]
    serves: bool
    hindrances: tuple[str, ...]
    not_said: tuple[str, ...]
    swings: tuple[tuple[str, float, float], ...]  # opening, free depth, width of the leaf [m]
    place: str


@dataclass(frozen=True, slots=True)
class AlarmInRoom:
    """The loudest alarm in one room in one state [dB]: over noise from outside and fans, over what is played, and at
    the ear under headphones.
    """

    room: str
    state: str
    sounder: str
    level: float
    noise: float
    margin: float
    uncertainty: float
    played: float | None
    margin_played: float | None
    worn: float | None  # what people listen to on headphones; none where there are none
    margin_worn: float | None
    seen: int  # visual signals in the room that are bright and of the right rate
    signals: int
    place: str


@dataclass(frozen=True, slots=True)
class DosePart:
    """Part of a day: level with its standard uncertainty [dB(A)], time [s], share of the dose."""

    of: str
    point: str
    level: float
    uncertainty: float
    duration: float
    share: float


@dataclass(frozen=True, slots=True)
class Dose:
    """Noise of a day: exposure over eight hours [dB(A)] at an exchange rate [dB]; no parts where one is not known."""

    who: str
    exposure: float
    exchange: float
    parts: tuple[DosePart, ...]
    place: str


@dataclass(frozen=True, slots=True)
class ExhaustNear:
    """An exhaust and the intake that is nearest to it [m]."""

    name: str
    intake: str
    distance: float
    place: str


@dataclass(frozen=True, slots=True)
class SafetyResults:
    """Everything about the safety of a Build."""

    doors: tuple[DoorOnWay, ...] = ()
    ways: tuple[WayWalked, ...] = ()
    alarms: tuple[AlarmInRoom, ...] = ()
    doses: tuple[Dose, ...] = ()
    exhausts: tuple[ExhaustNear, ...] = ()


NO_SAFETY = SafetyResults()
