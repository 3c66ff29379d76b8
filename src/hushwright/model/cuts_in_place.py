"""Holes in the vehicle, and doors with what hangs on them."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Members:
    """Ribs or bows of one face: station of the first, spacing and width of the flange [m]."""

    first: float | None
    spacing: float
    width: float
    word: str


@dataclass(frozen=True, slots=True)
class CutInPlace:
    """A hole in the sheet; ``along`` runs with the stations (across on an end), ``up`` across it [m]."""

    name: str
    face: str
    along: float
    up: float
    width: float
    height: float
    round: bool
    members: Members | None
    behind: tuple[str, ...]
    not_looked_for: tuple[str, ...]
    reinforcement: str
    sealed: bool
    place: str


@dataclass(frozen=True, slots=True)
class DoorInPlace:
    """A hinged door with seals; lengths [m], forces [N]."""

    name: str
    width: float
    height: float
    mass: float
    seal_force: float  # of one row, N/m
    seal_rows: int
    handle_distance: float
    hand_force: float
    latch_ratio: float
    latches: int
    latch_strength: float
    hinges: int
    hinge_spacing: float
    hinge_strength: float
    hinge_stiffness: float
    threshold: float
    place: str
    frames: int = 1  # frames with hinges and latches of their own, one behind the other; mass and rows are of one
    kind: str = "door"
