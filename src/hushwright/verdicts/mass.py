"""Is it legal on its axles: plated masses in every state driven on the road."""

from __future__ import annotations

from hushwright.evaluation.results import Evaluation
from hushwright.verdicts.check import Case, Check

_WEIGH = "Only a weighbridge ticket of the finished van counts; local rules and the plate decide."


def _of(evaluation: Evaluation, name: str, limit: float, part: str, hint: str) -> tuple[Case, ...]:
    place = f"vehicle.plated.{part}"
    return tuple(
        Case(state.name, state.name, evaluation.quantities[f"{name}/{state.name}"], limit, _basis(evaluation, place),
             place, hint=hint, caution=_WEIGH)
        for state in evaluation.build.states
        if state.road
    )  # fmt: skip


def _basis(evaluation: Evaluation, place: str) -> str:
    """Plate as typed, or the figure of the body's class where the file gives none."""
    assumed = next((each for each in evaluation.assumptions if each.path == place), None)
    if assumed is None:
        return "plated mass in the build file"
    return f"plated mass of this class of body, not of this van: {assumed.source}"


def _heaviest(evaluation: Evaluation) -> str:
    build = evaluation.build
    added = sum(item.mass for item in build.masses)
    payload = build.vehicle.plated.total - build.vehicle.kerb.total
    items = sorted(build.masses, key=lambda item: -item.mass)[:3]
    told = f"the conversion takes {added:.0f} kg of a payload of {payload:.0f} kg"
    return f"{told}; heaviest: " + ", ".join(f"{item.name.replace('_', ' ')} {item.mass:.0f} kg" for item in items)


def _where(evaluation: Evaluation) -> str:
    centre = evaluation.build.centre_of_masses
    if centre is None:
        return ""
    station, across, up = centre
    side = "left" if across >= 0.0 else "right"
    over_ground = up + evaluation.build.vehicle.floor_over_ground
    return (f"the conversion's centre lies at station {station:.2f} m, {1000 * abs(across):.0f} mm {side} of the"
            f" middle, {over_ground:.2f} m over the ground; move heavy parts the other way")  # fmt: skip


def _total(evaluation: Evaluation) -> tuple[Case, ...]:
    return _of(evaluation, "payload", evaluation.build.vehicle.plated.total, "total", _heaviest(evaluation))


def _front(evaluation: Evaluation) -> tuple[Case, ...]:
    return _of(evaluation, "front-axle", evaluation.build.vehicle.plated.front, "front", _where(evaluation))


def _rear(evaluation: Evaluation) -> tuple[Case, ...]:
    return _of(evaluation, "rear-axle", evaluation.build.vehicle.plated.rear, "rear", _where(evaluation))


_NONE = "no state in which the van drives"
CHECKS = (
    Check("road-mass", "Mass", "Is the van within its plated mass on the road?", "at_most", _total, _NONE),
    Check("front-axle", "Mass", "Is the front axle within its plated mass?", "at_most", _front, _NONE),
    Check("rear-axle", "Mass", "Is the rear axle within its plated mass?", "at_most", _rear, _NONE),
)  # fmt: skip
