"""How finely transmission is averaged, and over which directions."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hushwright.errors import InvalidInput


@dataclass(frozen=True, slots=True)
class Quadrature:
    """Number of directions and of frequencies per third octave over which is averaged [-]."""

    angles: int = 16
    per_band: int = 8

    def __post_init__(self) -> None:
        if self.angles < 4 or self.per_band < 1:
            raise InvalidInput(f"{self.angles} angles × {self.per_band} frequencies; at least 4 × 1 are needed")


DEFAULT = Quadrature()
FINE = Quadrature(96, 10)


@dataclass(frozen=True, slots=True)
class Incidence:
    """Polar angles [rad] from which sound arrives with equal strength per solid angle; all is a diffuse field."""

    lowest: float = 0.0
    highest: float = math.pi / 2.0

    def __post_init__(self) -> None:
        if not 0.0 <= self.lowest < self.highest <= math.pi / 2.0 + 1e-12:
            raise InvalidInput(f"angles {self.lowest} to {self.highest} rad; they must rise within 0 to π/2")


DIFFUSE = Incidence()
