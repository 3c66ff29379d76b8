"""Can people stand and pass: headroom and clear width."""

from __future__ import annotations

from hushwright.evaluation.results import Evaluation, SpaceResult
from hushwright.verdicts.check import Case, Check

_PURPOSES = ("quiet", "control")


def _rooms(evaluation: Evaluation) -> list[SpaceResult]:
    wanted = {room.name for room in evaluation.build.rooms if room.purpose in _PURPOSES}
    return [result for result in evaluation.space if result.room in wanted]


def _headroom(evaluation: Evaluation) -> tuple[Case, ...]:
    brief = evaluation.build.brief
    needed = brief.stature + brief.shoes + brief.clearance
    basis = "tallest person, shoes and clearance in the brief"
    return tuple(
        Case(result.room, "record", evaluation.quantities[f"headroom/{result.room}"], needed, basis, "brief.tallest",
             hint=_thickest(result))
        for result in _rooms(evaluation)
    )  # fmt: skip


def _thickest(result: SpaceResult) -> str:
    layers = sorted((item for item in result.stack if item.thickness < 0.0), key=lambda item: item.thickness)[:2]
    named = ", ".join(f"{item.name} {-1000 * item.thickness:.0f} mm" for item in layers)
    return f"most height goes to: {named}" if named else ""


def _width(evaluation: Evaluation) -> tuple[Case, ...]:
    brief = evaluation.build.brief
    return tuple(
        Case(result.room, "record", evaluation.quantities[f"width/{result.room}"], brief.shoulder_width,
             "clear width at the shoulders in the brief; its default is common practice, no source",
             "brief.shoulder_width")
        for result in _rooms(evaluation)
    )  # fmt: skip


CHECKS = (
    Check("headroom", "Space", "Can the tallest person stand upright?", "at_least", _headroom,
          "no quiet or control room"),
    Check("clear-width", "Space", "Is it wide enough at the shoulders?", "at_least", _width,
          "no quiet or control room"),
)  # fmt: skip
