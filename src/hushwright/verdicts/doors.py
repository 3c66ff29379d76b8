"""Doors that close by hand and stay closed, and cuts that meet nothing."""

from __future__ import annotations

from collections.abc import Callable

from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.results.mass import CutResult, DoorResult
from hushwright.model.cuts_in_place import CutInPlace, DoorInPlace
from hushwright.verdicts.check import Case, Check, of_library, state_of_takes
from hushwright.verdicts.hints import ENOUGH, SHORT

_SHUT_IN = "A door must open from inside without power and without strength; local rules on ways out decide."
_CUT = (
    "Before any cut look for harness, airbag, fuel line and belt anchor behind it, and read the body-builder's "
    "guidance of the vehicle's maker; what is cut near them is for licensed practice."
)


def _doors(
    key: str,
    limit: Callable[[Evaluation, DoorInPlace], tuple[float, str]],
    field: str,
    hint: Callable[[DoorResult], str],
) -> Callable[[Evaluation], tuple[Case, ...]]:
    def cases(evaluation: Evaluation) -> tuple[Case, ...]:
        found = []
        doors = {door.name: door for door in evaluation.build.doors}
        for result in evaluation.structure.doors:
            door = doors[result.name]
            most, basis = limit(evaluation, door)
            quantity = evaluation.quantities.get(f"{key}/{door.name}")
            if quantity is None:  # the sill of a window is no threshold
                continue
            found.append(Case(door.name, state_of_takes(evaluation), quantity, most, basis,
                              f"{door.place}.hardware.{field}", hint=hint(result), caution=_SHUT_IN))  # fmt: skip
        return tuple(found)

    return cases


def _typed_or(name: str, field: str) -> Callable[[Evaluation, DoorInPlace], tuple[float, str]]:
    """Limit of the file, else the library's of that name."""

    def limit(evaluation: Evaluation, door: DoorInPlace) -> tuple[float, str]:
        place = f"{door.place}.hardware.{field}"
        assumed = any(each.path == place for each in evaluation.assumptions)
        value: float = getattr(door, field)
        return value, of_library(evaluation, name)[1] if assumed else f"{name} in the build file"

    return limit


def _of_library(name: str) -> Callable[[Evaluation, DoorInPlace], tuple[float, str]]:
    def limit(evaluation: Evaluation, _door: DoorInPlace) -> tuple[float, str]:
        return of_library(evaluation, name)

    return limit


def _hand(door: DoorResult) -> str:
    forced = f"the seals push with {door.seal_force:.0f} N; a plain handle would need {door.hand_alone:.0f} N"
    called = f"class {door.force_class} of EN 12217" if door.force_class else "beyond the classes of EN 12217"
    return f"take softer seals or fewer rows, or a longer lever: {SHORT} less at the hand; {forced}; {called}"


def _latch(door: DoorResult) -> str:
    return f"add latches, or take ones that hold {ENOUGH}; each holds {door.latch:.0f} N against the seals"


def _hinge(door: DoorResult) -> str:
    return (
        f"take hinges that carry {ENOUGH}, or space them farther; {door.mass:.0f} kg hang on them,"
        f" {door.hinge_weight:.0f} N, and the seals push"
    )


def _sag(_door: DoorResult) -> str:
    return f"space the hinges farther apart, or screw them to a stiffer frame: {SHORT} less sag is wanted"


def _threshold(_door: DoorResult) -> str:
    return f"lower the threshold by {SHORT}, put a ramp on both sides, or take a drop seal over a flush floor"


def _cut_place(cut: CutResult | CutInPlace | None) -> str:
    return cut.place if cut is not None else "cuts"


def _one(evaluation: Evaluation, key: str, limit: float, basis: str, place: str, hint: str) -> tuple[Case, ...]:
    """Case of the worst cut."""
    return (Case("vehicle", "", evaluation.quantities[key], limit, basis, place, hint=hint, caution=_CUT),)


def _ribs(evaluation: Evaluation) -> tuple[Case, ...]:
    cuts = [cut for cut in evaluation.structure.cuts if cut.to_member is not None]
    if not cuts:
        return ()
    worst = min(cuts, key=lambda cut: cut.to_member or 0.0)
    limit, basis = of_library(evaluation, "cut to rib")
    left = 1000 * (worst.to_member or 0.0)
    hint = f"move {worst.name} {SHORT} off; it leaves {left:.0f} mm to the next {worst.member}" if left > 0.0 else (
        f"move {worst.name} to the middle of a bay; it runs {-left:.0f} mm into or past a {worst.member}")  # fmt: skip
    if not worst.member_known:
        hint = f"measure where the first {worst.member} stands and type `first`; {hint} at best"
    return _one(evaluation, "cut-rib", limit, basis, worst.place, hint)


def _apart(evaluation: Evaluation) -> tuple[Case, ...]:
    cuts = [cut for cut in evaluation.structure.cuts if cut.to_cut is not None]
    if not cuts:
        return ()
    worst = min(cuts, key=lambda cut: cut.to_cut or 0.0)
    limit, basis = of_library(evaluation, "cut to cut")
    hint = f"move {worst.name} and {worst.nearest_cut} {SHORT} farther apart"
    return _one(evaluation, "cut-apart", limit, basis, worst.place, hint)


def _behind(evaluation: Evaluation) -> tuple[Case, ...]:
    cuts = evaluation.build.cuts
    if "cut-behind" not in evaluation.quantities:
        return ()
    struck = [cut for cut in cuts if cut.behind]
    unsought = [cut for cut in cuts if cut.not_looked_for]
    told = [f"move {cut.name} off {', '.join(cut.behind)}" for cut in struck]
    told += [f"look behind {cut.name} for {', '.join(cut.not_looked_for)}" for cut in unsought]
    worst = next(iter((*struck, *unsought)), None)
    return _one(evaluation, "cut-behind", 0.0, "nothing that lives behind the sheet is cut: common practice, no source",
                _cut_place(worst), "; ".join(told))  # fmt: skip


def _reinforced(evaluation: Evaluation) -> tuple[Case, ...]:
    if "cut-behind" not in evaluation.quantities:
        return ()
    bare = [cut for cut in evaluation.build.cuts if cut.reinforcement == "none"]
    worst = max(bare, key=lambda cut: max(cut.width, cut.height), default=None)
    limit, basis = of_library(evaluation, "cut without reinforcement")
    hint = f"put a ring or frame round {worst.name}" if worst is not None else ""
    return _one(evaluation, "cut-reinforced", limit, basis, _cut_place(worst), hint)


def _sealed(evaluation: Evaluation) -> tuple[Case, ...]:
    if "cut-behind" not in evaluation.quantities:
        return ()
    open_ = [cut for cut in evaluation.build.cuts if not cut.sealed]
    hint = f"seal and paint: {', '.join(cut.name for cut in open_)}; water and rust come in" if open_ else ""
    return _one(evaluation, "cut-sealed", 0.0, "every cut is sealed and its edge painted: common practice, no source",
                _cut_place(open_[0] if open_ else None), hint)  # fmt: skip


_NO_DOOR, _NO_CUT = "no door that the workshop builds", "no cuts in the vehicle"
CHECKS = (
    Check("door-hand-force", "Doors", "Can a hand close the door against its seals?", "at_most",
          _doors("door-hand", _typed_or("hand force on a door", "hand_force"), "hand_force", _hand), _NO_DOOR),
    Check("door-latch", "Doors", "Do the latches hold the door against its seals?", "at_most",
          _doors("door-latch", _typed_or("latch strength", "latch_strength"), "latch_strength", _latch), _NO_DOOR),
    Check("door-hinges", "Doors", "Do the hinges carry leaf and seals?", "at_most",
          _doors("door-hinge", _typed_or("hinge strength", "hinge_strength"), "hinge_strength", _hinge), _NO_DOOR),
    Check("door-sag", "Doors", "Does the door hang without dragging?", "at_most",
          _doors("door-sag", _of_library("door sag"), "hinge_stiffness", _sag), _NO_DOOR),
    Check("door-threshold", "Doors", "Can people and trolleys pass the threshold?", "at_most",
          _doors("door-threshold", _of_library("door threshold"), "threshold", _threshold), _NO_DOOR),
    Check("cut-clear-of-ribs", "Doors", "Does every cut stay clear of ribs and bows?", "at_least", _ribs, _NO_CUT),
    Check("cuts-apart", "Doors", "Do cuts leave sheet between them?", "at_least", _apart, "no two cuts in one face"),
    Check("cuts-behind", "Doors", "Is nothing behind the cuts that must not be cut?", "at_most", _behind, _NO_CUT,
          counts="cuts with something behind"),
    Check("cuts-reinforced", "Doors", "Are large cuts reinforced?", "at_most", _reinforced, _NO_CUT),
    Check("cuts-sealed", "Doors", "Is every cut sealed?", "at_most", _sealed, _NO_CUT, counts="cuts left open"),
)  # fmt: skip
