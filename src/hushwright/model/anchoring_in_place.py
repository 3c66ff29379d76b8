"""How the floating room and heavy fittings are held."""

from __future__ import annotations

from dataclasses import dataclass

Place = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class AnchorInPlace:
    """One anchor: station, y and height over the steel floor [m], and what it may carry [N]."""

    at: Place
    strength: float
    strength_assumed: bool
    seat: str
    place: str


@dataclass(frozen=True, slots=True)
class HeldFitting:
    """A heavy fitting: its mass and centre, its anchors; none where the file does not say."""

    name: str
    mass: float
    centre: Place
    anchors: tuple[AnchorInPlace, ...]
    place: str


@dataclass(frozen=True, slots=True)
class Anchoring:
    """What everything is held against, and what holds it."""

    given: bool  # whether the file has a `restraint`
    rule: str
    design_level: float
    design_basis: str
    bolt_strength: float
    sheet_shear: float
    snubber_stiffness: float
    snubbers_given: bool  # whether the file says how stiff they are
    room: tuple[AnchorInPlace, ...]
    fittings: tuple[HeldFitting, ...]
