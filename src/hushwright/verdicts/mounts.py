"""Do the mounts carry and isolate: loads, spread, natural frequency, snubbers."""

from __future__ import annotations

from hushwright.evaluation.results import Evaluation
from hushwright.library.records import Limit
from hushwright.verdicts.check import Case, Check

_CRASH = "Mounts do not hold a room in a crash; restraint into the vehicle's structure does. Licensed practice decides."


def _limit(evaluation: Evaluation, name: str) -> tuple[float, str]:
    """Limit of the library, and what it is with where it comes from."""
    limit = evaluation.build.library.find(Limit, name)
    sentence = limit.sentence.rstrip(".")
    return limit.value.value, f"{sentence[0].lower()}{sentence[1:]}: {limit.source}"


def _group(evaluation: Evaluation, name: str) -> tuple[float, float, str]:
    group = next(each for each in evaluation.build.mounts if each.name == name)
    return group.lowest_load, group.highest_load, group.place


def _least(evaluation: Evaluation) -> tuple[Case, ...]:
    use, basis = _limit(evaluation, "mount least load use")
    cases = []
    for found in evaluation.mounts:
        lowest, _, place = _group(evaluation, found.group)
        cases.append(Case(found.state, found.state, evaluation.quantities[f"mount-least/{found.state}"], use * lowest,
                          f"lowest load of the mount in the build; {basis}", f"{place}.lowest_load",
                          hint="take out mounts, or take softer ones: each is to carry {short} more"))  # fmt: skip
    return tuple(cases)


def _most(evaluation: Evaluation) -> tuple[Case, ...]:
    use, basis = _limit(evaluation, "mount load use")
    cases = []
    for found in evaluation.mounts:
        _, highest, place = _group(evaluation, found.group)
        cases.append(Case(found.state, found.state, evaluation.quantities[f"mount-most/{found.state}"], use * highest,
                          f"highest load of the mount in the build; {basis}", f"{place}.highest_load",
                          hint="add mounts, or move them under the load: each is to carry {short}"
                               " less", caution=_CRASH))  # fmt: skip
    return tuple(cases)


def _spread(evaluation: Evaluation) -> tuple[Case, ...]:
    limit, basis = _limit(evaluation, "mount spread of loads")
    return tuple(
        Case(found.state, found.state, evaluation.quantities[f"mount-spread/{found.state}"], limit, basis,
             _group(evaluation, found.group)[2], hint="move the mounts towards the heavy end")
        for found in evaluation.mounts
    )  # fmt: skip


def _frequency(evaluation: Evaluation) -> tuple[Case, ...]:
    limit, basis = _limit(evaluation, "floor natural frequency")
    return tuple(
        Case(found.state, found.state, evaluation.quantities[f"floor-frequency/{found.state}"], limit, basis,
             _group(evaluation, found.group)[2],
             hint="take softer mounts or fewer, or a deeper air space, until it lies {short} lower"
                  f"; the floor helps above {found.helps_above:.0f} Hz and harms at its resonance")
        for found in evaluation.mounts
    )  # fmt: skip


def _snubbers(evaluation: Evaluation) -> tuple[Case, ...]:
    limit, basis = _limit(evaluation, "snubber gap")
    return tuple(
        Case(found.state, found.state, evaluation.quantities[f"snubber/{found.state}"], limit, basis,
             f"{_group(evaluation, found.group)[2]}.snubber_gap",
             hint="widen the gap by {short}, or take mounts that sink and creep less; a snubber that touches is a"
                  " bridge",
             caution=_CRASH)
        for found in evaluation.mounts
        if found.snubber_clear is not None
    )  # fmt: skip


def _crash_travel(evaluation: Evaluation) -> tuple[Case, ...]:
    cases = []
    for found in evaluation.structure.anchoring:
        if found.snubbers is not None:
            _, basis = _limit(evaluation, "mount shear")
            one, place = found.snubbers, _group(evaluation, evaluation.mounts[0].group)[2]
            hint = ("stop the room {short} sooner, by a smaller gap or stiffer snubbers"
                    f"; with a gap of {1000 * one.gap:.0f} mm the snubbers see {one.peak_force / 1000:.0f}"
                    f" kN")  # fmt: skip
            cases.append(Case(found.state, found.state, evaluation.quantities[f"snubber-crash/{found.state}"],
                              one.mount_travel, f"share of the mount's free height that its shear may be; {basis}",
                              f"{place}.snubber_gap", hint=hint, caution=_CRASH))  # fmt: skip
    return tuple(cases)


def _bridges(evaluation: Evaluation) -> tuple[Case, ...]:
    return tuple(
        Case(found.state, found.state, evaluation.quantities[f"bridges/{found.state}"], 0.0,
             "what is fixed to two bodies passes sound round the mounts: common practice, no source",
             found.bridges[0][1] if found.bridges else "fittings",
             hint=f"fix to one body alone, or part by a mount:"
                  f" {', '.join(name for name, _ in found.bridges)}" if found.bridges else "")
        for found in evaluation.structure.anchoring
        if found.room_mass is not None
    )  # fmt: skip


_NONE = "no floor on mounts"
CHECKS = (
    Check("mount-least-load", "Mounts", "Does every mount carry enough to isolate?", "at_least", _least, _NONE),
    Check("mount-most-load", "Mounts", "Does no mount carry too much?", "at_most", _most, _NONE),
    Check("mount-spread", "Mounts", "Do the mounts share the load evenly?", "at_most", _spread, _NONE),
    Check("floor-frequency", "Mounts", "Is the floor soft enough on its mounts and its air?", "at_most", _frequency,
          _NONE),
    Check("snubber-clear", "Mounts", "Do the snubbers stay clear in use?", "at_least", _snubbers,
          "no floor on mounts, or no snubbers"),
    Check("snubber-crash", "Mounts", "Do the snubbers stop the room before the mounts tear?", "at_most", _crash_travel,
          "no snubbers, or no state in which the van drives"),
    Check("bridges", "Mounts", "Is nothing fixed to the floating room and to another body?", "at_most", _bridges,
          "no floor on mounts, or no state in which the van drives", counts="what is fixed to both"),
)  # fmt: skip
