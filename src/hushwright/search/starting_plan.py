"""What the sections of a first build share: stations, counts and typical figures."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.library.library import Library
from hushwright.library.vehicles import VanBody
from hushwright.search.questions import Answers

# Typical figures of a first look; common practice, no source.
PASSAGE = 0.150  # m from finished face to finished face through the dividing wall
LOBBY = 0.300  # m left at the rear doors
_CONTROL = (0.90, 1.80)  # m, shortest and longest control room
_QUIET = (0.70, 0.45)  # m of the quiet room's length, without people and for each
_FLOATING = {"light": 22.0, "usual": 27.0, "heavy": 40.0}  # kg for each m² of the room's faces, with what stands in it
COOLER_FROM = 24.0  # °C of the hottest day from which a cooler is put in
_SECTION = (1.6, 1.85)  # m, width and height inside


@dataclass(frozen=True, slots=True)
class Plan:
    """Answers, weight, sizes [m] and floating mass [kg] that several sections need."""

    answers: Answers
    weight: str
    length: float
    height: float
    control_rear: float
    quiet_front: float
    quiet_rear: float
    floating: float

    @property
    def has_quiet(self) -> bool:
        """Whether there is a quiet room."""
        return self.answers.quiet_people > 0 and self.answers.use != "other"

    @property
    def room(self) -> str:
        """Room that is heated, cooled and worked in first."""
        return "control_room" if self.has_quiet else "workshop"

    @property
    def is_cooled(self) -> bool:
        """Whether the hottest day asks for a cooler."""
        return self.answers.hottest >= COOLER_FROM

    @property
    def middle(self) -> float:
        """Station of the quiet room's middle [m]."""
        return (self.quiet_front + self.quiet_rear) / 2.0


def plan_of(answers: Answers, weight: str, library: Library) -> Plan:
    """Lay out a van for some answers: the quiet room gets what the control room does not need."""
    body = library.find(VanBody, answers.body)
    length, height = body.load_length.value, body.steel_floor_to_bow.value
    wanted = _QUIET[0] + _QUIET[1] * answers.quiet_people
    control = min(max(length - wanted - PASSAGE - LOBBY, _CONTROL[0]), _CONTROL[1])
    front, rear = control + PASSAGE, length - LOBBY
    faces = 2.0 * ((rear - front) * sum(_SECTION) + _SECTION[0] * _SECTION[1])
    return Plan(answers, weight, length, height, control, front, rear,
                 _FLOATING[weight] * faces + 80.0 * answers.quiet_people)  # fmt: skip


def in_mm(value: float) -> int:
    """Metres as whole millimetres."""
    return round(value * 1000.0)
