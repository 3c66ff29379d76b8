"""What the masses stand on: wheels, the bare van's centre, and what the scales said."""

from __future__ import annotations

from dataclasses import dataclass

Wheels = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Weighing:
    """One weighing: wheels front left, front right, rear left, rear right [kg]."""

    stage: str
    wheels: Wheels
    uncertainty: float  # standard uncertainty of one reading, 0 where the file says nothing
    people: int
    names: tuple[str, ...]  # fittings aboard, or at the finish those that are missing
    date: str
    place: str

    @property
    def total(self) -> float:
        """Sum of the four readings [kg]."""
        return sum(self.wheels)

    def covers(self, group: str, fitting: str) -> bool:
        """Whether an item was on the scales: by its group, and the name of its fitting."""
        if fitting:
            return (fitting in self.names) != (self.stage == "finish")
        if group == "cables":
            return self.stage == "finish"
        return self.stage != "arrival" and group != "fittings"


@dataclass(frozen=True, slots=True)
class MassBasis:
    """Where the wheels are, where the bare van's mass is, and every weighing in order of the stages."""

    track_width: float
    kerb_height: float  # over the ground
    driver_side: float  # 1 left, -1 right
    not_yet_listed: float  # share of what was not weighed
    scale_uncertainty: float  # share of one reading, where the file says nothing
    weighings: tuple[Weighing, ...]

    @property
    def latest(self) -> Weighing | None:
        """Weighing of the latest stage; of equal stages the one listed last."""
        return self.weighings[-1] if self.weighings else None
