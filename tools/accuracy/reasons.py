"""Why a measured row is not modelled: a closed list."""

from __future__ import annotations

from enum import Enum


class Reason(Enum):
    """Why a measured row is not modelled; a closed list."""

    NO_CONSTRUCTION = "the construction is not printed"
    NO_GEOMETRY = "a thickness or mass that decides is not printed"
    MATERIAL = "no published stiffness of the material"
    LEAKS = "porous or leaky: what passes is not the wall alone"
    DOOR = "a door of unknown build"
    PROFILED = "a profiled sheet whose profile is not printed"
    SANDWICH = "a bonded sandwich whose core is not printed"
    MASONRY_DOUBLE = "a masonry or slab double wall on ties, strips or isolators that are not printed"
    FLOOR = "a floor or roof on joists or underlays that are not printed"
    NOT_MEASURED = "an example or calculated curve, not a measurement"
    LOW_TRUST = "the table itself marks the value as doubtful"
    COMPOSITE = "two elements side by side"


class CannotModel(Exception):
    """Carries the reason of an exclusion."""

    def __init__(self, reason: Reason) -> None:
        super().__init__(reason.value)
        self.reason = reason
