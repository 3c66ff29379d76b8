"""Can people stand and pass: headroom and clear width."""

from __future__ import annotations

from hushwright.evaluation.results import Evaluation, SpaceResult
from hushwright.verdicts.check import Case, Check, state_of_takes
from hushwright.verdicts.hints import SHORT

_PURPOSES = ("quiet", "control", "other")
_NONE = "no room in which people stand"


def _rooms(evaluation: Evaluation) -> list[SpaceResult]:
    wanted = {room.name for room in evaluation.build.rooms if room.purpose in _PURPOSES}
    return [result for result in evaluation.space if result.room in wanted]


def _headroom(evaluation: Evaluation) -> tuple[Case, ...]:
    brief = evaluation.build.brief
    needed = brief.stature + brief.shoes + brief.clearance
    basis = (f"tallest person {1000 * brief.stature:.0f} mm, shoes {1000 * brief.shoes:.0f} mm and air over the head "
             f"{1000 * brief.clearance:.0f} mm{_assumed(evaluation, 'brief.shoes', 'brief.clearance')}")  # fmt: skip
    return tuple(
        Case(result.room, state_of_takes(evaluation), evaluation.quantities[f"headroom/{result.room}"], needed, basis,
             "brief.tallest", hint=_thickest(result),
             question=f"Can the tallest person stand upright in the {_spoken(result.room)}?")
        for result in _rooms(evaluation)
    )  # fmt: skip


def _spoken(room: str) -> str:
    return room.replace("_", " ")


def _assumed(evaluation: Evaluation, *paths: str) -> str:
    """Where values of the brief come from when the file leaves them out."""
    sources = dict.fromkeys(each.source for each in evaluation.assumptions if each.path in paths)
    return f"; left out in the brief: {', '.join(sources)}" if sources else ""


def _thickest(result: SpaceResult) -> str:
    layers = sorted((item for item in result.stack if item.thickness < 0.0), key=lambda item: item.thickness)[:2]
    named = ", ".join(f"{item.name} {-1000 * item.thickness:.0f} mm" for item in layers)
    return f"take {SHORT} out of the height of the build-ups; most goes to: {named}" if named else f"give {SHORT}"


def _width(evaluation: Evaluation) -> tuple[Case, ...]:
    brief = evaluation.build.brief
    basis = f"clear width at the shoulders in the brief{_assumed(evaluation, 'brief.shoulder_width')}"
    return tuple(
        Case(result.room, state_of_takes(evaluation), evaluation.quantities[f"width/{result.room}"],
             brief.shoulder_width, basis, "brief.shoulder_width",
             hint="take {short} out of the build-ups of the sides, both together",
             question=f"Is the {_spoken(result.room)} wide enough at the shoulders?")
        for result in _rooms(evaluation)
    )  # fmt: skip


CHECKS = (
    Check("headroom", "Space", "Can the tallest person stand upright?", "at_least", _headroom, _NONE),
    Check("clear-width", "Space", "Is it wide enough at the shoulders?", "at_least", _width, _NONE),
)
