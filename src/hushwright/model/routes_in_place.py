"""Ways of cables and ducts, in SI metres."""

from __future__ import annotations

from dataclasses import dataclass

Point = tuple[float, float, float]  # station, y, z


@dataclass(frozen=True, slots=True)
class Crossing:
    """Where a route passes a wall of the floating room; ``opening`` is empty where it passes none."""

    room: str
    face: str
    point: Point
    opening: str


@dataclass(frozen=True, slots=True)
class RouteInPlace:
    """A way through the vehicle.

    ``length`` is with slack, ``way`` without. ``bundle`` names the routes of one bundle, itself among them.
    """

    name: str
    points: tuple[Point, ...]
    way: float
    length: float
    centre: Point
    fixed_to: tuple[str, ...]
    bundle: tuple[str, ...]
    passes: tuple[str, ...]
    crossings: tuple[Crossing, ...]
    loop: bool
    run: str
    place: str

    @property
    def is_bridge(self) -> bool:
        """Whether it ties the floating room to what does not float."""
        tied = "quiet" in self.fixed_to and bool({"body", "control"} & set(self.fixed_to))
        return not self.loop and (tied or bool(self.crossings))

    @property
    def without_gland(self) -> tuple[Crossing, ...]:
        """Crossings that pass no opening."""
        return tuple(each for each in self.crossings if not each.opening)
