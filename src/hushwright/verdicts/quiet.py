"""Is it quiet: background in each situation, rain, the other room, the neighbours."""

from __future__ import annotations

import math
from collections.abc import Sequence

from hushwright.evaluation.results import AtNeighbours, Background, BetweenRooms, Evaluation, PathLevel, Quantity
from hushwright.evaluation.sound.between import required_margin
from hushwright.evaluation.sound.deciding import deciding_of
from hushwright.model.build import Target
from hushwright.verdicts.check import Case, Check
from hushwright.verdicts.seals import leaf_not_seals

_OF_ONE_WAY = 0.25
"""Share [-] of what may come in that the quietened ways may still bring together, at the least."""
_NAMED = 6
_NOISE = "Sustained loud sound harms hearing; local rules on noise decide."
_NEIGHBOUR = "Local rules on noise decide what neighbours have to bear, at which hours."


def _weakest(paths: tuple[PathLevel, ...], count: int = 3) -> str:
    named = [f"{path.name} {100 * path.share:.0f} %" for path in paths[:count] if path.share >= 0.005]
    return "begin with what lets most through: " + ", ".join(named) if named else ""


def enough(paths: Sequence[PathLevel], over: float) -> tuple[int, int]:
    """Fewest ways and how much each of them has to fall [dB], so that the sum falls by what is too much [dB].

    Shares of the ways sum to one; no way and nothing where there is nothing too much.
    """
    if over <= 0.0:
        return 0, 0
    allowed, left = 10.0 ** (-over / 10.0), 1.0
    for count, path in enumerate(paths, start=1):
        left -= path.share
        gain = allowed - left
        if gain > _OF_ONE_WAY * allowed:
            return count, math.ceil(10.0 * math.log10(sum(each.share for each in paths[:count]) / gain))
    return 0, 0


def _quieter(paths: Sequence[PathLevel], over: float, doubt: float) -> str:
    """What would just do, and what would do even with the uncertainty [dB] against it."""
    count, by = enough(paths, over)
    all_of_them, surely = enough(paths, over + doubt) if doubt > 0.0 else (0, 0)
    sure = f"to be sure of it (its doubt is ±{doubt:.1f} dB)"
    if not count:
        return f"quieten by {surely} dB{_named(paths, all_of_them, sure)}" if all_of_them else ""
    if count == all_of_them:
        return f"quieten by {by} dB, by {surely} dB {sure}{_named(paths, count)}"
    told = f"quieten by {by} dB{_named(paths, count)}"
    return f"{told}; {sure} by {surely} dB{_named(paths, all_of_them)}" if all_of_them else told


def _named(paths: Sequence[PathLevel], count: int, beside: str = "") -> str:
    named = ", ".join(each.name for each in paths[:count][:_NAMED])
    left = count - _NAMED
    more = f" and {left} smaller way{'s' if left > 1 else ''}" if left > 0 else ""
    return f"{' each' if count > 1 else ''}{f' {beside}' if beside else ''}: {named}{more}"


def _what_to_do(found: Background | BetweenRooms | AtNeighbours, evaluation: Evaluation, over: float) -> str:
    """What would do, and the ways that let most through where the limit is decided."""
    band, paths = deciding_of(found, evaluation.build)
    told = what_to_quieten(paths, over, _quantity(found, evaluation), band)
    return "; ".join(each for each in (told, leaf_not_seals(paths, evaluation)) if each)


def what_to_quieten(paths: tuple[PathLevel, ...], over: float, quantity: Quantity, band: str = "") -> str:
    """By how much to quieten which ways, and which let most through in the band that decides."""
    told = _weakest(paths)
    if band:
        told = told.replace("lets most through:", f"lets most through in {band}, which decides:")
    doubt = 2.0 * quantity.standard_uncertainty
    return "; ".join(each for each in (_quieter(paths, over, doubt), told) if each)


def _quantity(found: Background | BetweenRooms | AtNeighbours, evaluation: Evaluation) -> Quantity:
    """What is judged of a sound."""
    if isinstance(found, Background):
        return evaluation.quantities[f"background/{found.key}"]
    group = "rooms" if isinstance(found, BetweenRooms) else "neighbours"
    return evaluation.quantities[f"{group}/{found.state}"]


def _background(evaluation: Evaluation) -> tuple[Case, ...]:
    targets = {situation.name: situation for situation in evaluation.build.brief.situations}
    cases = []
    for found in evaluation.backgrounds:
        situation = targets.get(found.situation)
        if situation is None or found.key.startswith("rain/"):
            continue
        question = f"Is the quiet room quiet enough for takes: {found.situation}?"
        cases.append(_case(evaluation, found, situation.target, situation.place, question))
    return tuple(cases)


def _case(evaluation: Evaluation, found: Background, target: Target | None, place: str, question: str = "") -> Case:
    """Background held against its target; in a hearing test no band may lie over its limit."""
    limit = None if target is None else 0.0 if target.kind == "hearing test" else target.value
    basis = target.basis if target is not None else "the brief names no limit"
    quantity = _quantity(found, evaluation)
    hint = _what_to_do(found, evaluation, 0.0 if limit is None else quantity.value - limit)
    return Case(found.key, found.state, quantity, limit, basis, target.place if target is not None else place,
                hint=hint, lines=found.lines, question=question)  # fmt: skip


def _rain(evaluation: Evaluation) -> tuple[Case, ...]:
    rain = evaluation.build.brief.rain
    if rain is None:
        return ()
    _, target, place = rain
    return tuple(
        _case(evaluation, found, target, place) for found in evaluation.backgrounds if found.key.startswith("rain/")
    )


def _rooms(evaluation: Evaluation) -> tuple[Case, ...]:
    monitor = evaluation.build.brief.monitor
    if monitor is None:
        return ()
    limit, basis = required_margin(evaluation.build)
    cases = []
    for found in evaluation.between_rooms:
        quantity = _quantity(found, evaluation)
        cases.append(Case(found.state, found.state, quantity, limit, basis, f"{monitor[3]}.below",
                          hint=_what_to_do(found, evaluation, limit - quantity.value), caution=_NOISE))  # fmt: skip
    return tuple(cases)


def _neighbours(evaluation: Evaluation) -> tuple[Case, ...]:
    neighbours = evaluation.build.brief.neighbours
    if neighbours is None:
        return ()
    distance, side, limit, place = neighbours
    basis = f"limit in the build file, at {distance:g} m to the {side}"
    cases = []
    for found in evaluation.neighbours:
        quantity = _quantity(found, evaluation)
        cases.append(Case(found.state, found.state, quantity, limit, basis, f"{place}.limit",
                          hint=_what_to_do(found, evaluation, quantity.value - limit), caution=_NEIGHBOUR))  # fmt: skip
    return tuple(cases)


CHECKS = (
    Check("background", "Quiet", "Is the quiet room quiet enough for takes?", "at_most", _background,
          "no quiet room, no situation outside, or no state in which takes are recorded"),
    Check("rain", "Quiet", "Is it quiet enough while it rains?", "at_most", _rain, "the brief names no rain"),
    Check("rooms", "Quiet", "Does the direct sound stay far enough under the monitor level?", "at_least", _rooms,
          "no quiet room beside a control room, or no monitor level in the brief"),
    Check("neighbours", "Quiet", "Do the neighbours get little enough?", "at_most", _neighbours,
          "the brief names no neighbours, or there is no quiet room"),
)  # fmt: skip
