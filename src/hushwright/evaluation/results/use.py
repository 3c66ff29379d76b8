"""Results of use: what clears what when things move, and what is seen, heard and reached from the seat."""

from __future__ import annotations

from dataclasses import dataclass

Corners = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Swept:
    """Room that one thing takes in one state, in plan (station, y) between two heights [m]."""

    name: str
    outline: Corners
    low: float
    high: float
    place: str
    moves: bool


@dataclass(frozen=True, slots=True)
class Clearance:
    """The nearest two things of one state: how far apart [m], below zero where they strike."""

    state: str
    nearest: tuple[str, str]
    distance: float
    place: str
    strikes: tuple[tuple[str, str, float], ...]
    swept: tuple[Swept, ...]


@dataclass(frozen=True, slots=True)
class UseResults:
    """Everything about moving and working in a Build."""

    clearances: tuple[Clearance, ...] = ()
    controls: tuple[tuple[str, float], ...] = ()  # each with its distance from the shoulder [m]
    hidden_singer: int = 0
    outside_picture: int = 0

    @property
    def far_control(self) -> str:
        """The control that is farthest from the shoulder."""
        return max(self.controls, key=lambda each: each[1], default=("", 0.0))[0]


NO_USE_RESULTS = UseResults()
