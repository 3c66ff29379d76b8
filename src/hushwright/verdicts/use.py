"""Does everything that moves clear the rest, and can the person at the desk reach, see and hear?"""

from __future__ import annotations

from hushwright.evaluation.results import Evaluation
from hushwright.verdicts.check import Case, Check
from hushwright.verdicts.hints import SHORT

_NOTHING_MOVES = "no fitting has an `envelope` and no door a `swing`"
_NO_PLACE = "the build names no such place at the desk"


def _clearances(evaluation: Evaluation) -> tuple[Case, ...]:
    return tuple(
        Case(one.state, one.state, evaluation.quantities[f"clearance/{one.state}"], 0.0,
             "two things never take the same room", one.place, hint=_hint(one.nearest, one.distance),
             caution="Keep ways out free in every state." if one.distance < 0.0 else "",
             question=f"Does all that moves clear the rest in state {one.state.replace('_', ' ')}?")
        for one in evaluation.use.clearances
    )  # fmt: skip


def _hint(nearest: tuple[str, str], distance: float) -> str:
    verb = "strikes" if distance < 0.0 else "comes nearest to"
    return f"move one of the two by {SHORT}; {nearest[0].replace('_', ' ')} {verb} {nearest[1].replace('_', ' ')}"


def _one(key: str, limit: str | float, basis: str, place: str, hint: str, evaluation: Evaluation) -> tuple[Case, ...]:
    quantity = evaluation.quantities.get(key)
    if quantity is None:
        return ()
    work = evaluation.build.use.workplace
    wanted = float(getattr(work, limit)) if isinstance(limit, str) else limit
    return (Case("seat", "", quantity, wanted, basis, place, hint=hint),)


def _knees(evaluation: Evaluation) -> tuple[Case, ...]:
    return _one("knee-room", 0.0, "height of the thighs in `workplace`", "workplace.desk_underside",
                "raise the underside of the desk by {short}, or lower the seat as much", evaluation)  # fmt: skip


def _reach(evaluation: Evaluation) -> tuple[Case, ...]:
    return _one("reach", "reach", "reach in `workplace`", "workplace.controls",
                f"bring {evaluation.use.far_control} {SHORT} nearer to the seat; it is"
                f" farthest", evaluation)  # fmt: skip


def _sight(evaluation: Evaluation) -> tuple[Case, ...]:
    return _one("sight-line", 0.0, "the line from eye to face passes the clear window", "workplace.singers",
                f"move window, seat or singer {evaluation.use.hidden_singer}, who is nearest to its edge, by {SHORT}",
                evaluation)  # fmt: skip


def _speakers(evaluation: Evaluation) -> tuple[Case, ...]:
    return _one("speaker-angle", "base_tolerance", "base angle and tolerance in `workplace`", "workplace.speakers",
                "draw the loudspeakers apart or together until seat and both make the wanted triangle",
                evaluation)  # fmt: skip


def _camera(evaluation: Evaluation) -> tuple[Case, ...]:
    return _one("camera-field", 0.0, "half the field of the camera, about the first singer", "workplace.camera",
                f"take a field {SHORT} wider to each side, or move the camera farther off; singer"
                f" {evaluation.use.outside_picture} is farthest out",
                evaluation)  # fmt: skip


CHECKS = (
    Check("clearance", "Space", "Does all that moves clear the rest?", "at_least", _clearances, _NOTHING_MOVES),
    Check("knee-room", "Space", "Is there room for the knees under the desk?", "at_least", _knees, _NO_PLACE),
    Check("reach", "Space", "Can everything be reached from the seat?", "at_most", _reach, _NO_PLACE),
    Check("sight-line", "Space", "Is every singer seen through the window?", "at_least", _sight, _NO_PLACE),
    Check("speaker-angle", "Space", "Do seat and loudspeakers make the wanted triangle?", "at_most", _speakers,
          _NO_PLACE),
    Check("camera-field", "Space", "Does the camera show every singer?", "at_least", _camera, _NO_PLACE),
)  # fmt: skip
