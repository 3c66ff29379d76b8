"""Is it legal on its axles: plated masses in every state driven on the road."""

from __future__ import annotations

from hushwright.evaluation.results import Evaluation
from hushwright.verdicts.check import Case, Check

_WEIGH = "Only a weighbridge ticket of the finished van counts; local rules and the plate decide."


def _of(evaluation: Evaluation, name: str, limit: float, place: str) -> tuple[Case, ...]:
    return tuple(
        Case(state.name, state.name, evaluation.quantities[f"{name}/{state.name}"], limit, "plated mass in the build file",
             place, hint=_heaviest(evaluation), caution=_WEIGH)
        for state in evaluation.build.states
        if state.road
    )  # fmt: skip


def _heaviest(evaluation: Evaluation) -> str:
    items = sorted(evaluation.build.masses, key=lambda item: -item.mass)[:3]
    return "heaviest: " + ", ".join(f"{item.name} {item.mass:.0f} kg" for item in items) if items else ""


def _total(evaluation: Evaluation) -> tuple[Case, ...]:
    return _of(evaluation, "payload", evaluation.build.vehicle.plated.total, "vehicle.plated.total")


def _front(evaluation: Evaluation) -> tuple[Case, ...]:
    return _of(evaluation, "front-axle", evaluation.build.vehicle.plated.front, "vehicle.plated.front")


def _rear(evaluation: Evaluation) -> tuple[Case, ...]:
    return _of(evaluation, "rear-axle", evaluation.build.vehicle.plated.rear, "vehicle.plated.rear")


_NONE = "no state in which the van drives"
CHECKS = (
    Check("road-mass", "Mass", "Is the van within its plated mass on the road?", "at_most", _total, _NONE),
    Check("front-axle", "Mass", "Is the front axle within its plated mass?", "at_most", _front, _NONE),
    Check("rear-axle", "Mass", "Is the rear axle within its plated mass?", "at_most", _rear, _NONE),
)  # fmt: skip
