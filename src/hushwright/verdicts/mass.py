"""Is it legal on its axles: plated masses in every state driven on the road."""

from __future__ import annotations

from collections.abc import Callable

from hushwright.evaluation.mass.mass import heaviest_wheel, left_surplus, untyped_sides
from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.results.mass import MassResult, ScaleResult
from hushwright.model.build import Build, MassItem
from hushwright.verdicts.check import Case, Check, of_library
from hushwright.verdicts.hints import SHORT

_WEIGH = "Only a weighbridge ticket of the finished van counts; local rules and the plate decide."


def _of(
    evaluation: Evaluation, name: str, limit: float, part: str, hint: Callable[[Evaluation, str], str]
) -> tuple[Case, ...]:
    place = f"vehicle.plated.{part}"
    return tuple(
        Case(state.name, state.name, evaluation.quantities[f"{name}/{state.name}"], limit, _basis(evaluation, place),
             place, hint=hint(evaluation, state.name), caution=_WEIGH)
        for state in evaluation.build.states
        if state.road
    )  # fmt: skip


def _basis(evaluation: Evaluation, place: str) -> str:
    """Plate as typed, or the figure of the body's class where the file gives none."""
    assumed = next((each for each in evaluation.assumptions if each.path == place), None)
    if assumed is None:
        return "plated mass in the build file"
    return f"plated mass of this class of body, not of this van: {assumed.source}"


def _heaviest(evaluation: Evaluation, state: str) -> str:
    build = evaluation.build
    added = sum(item.mass for item in build.masses)
    payload = build.vehicle.plated.total - build.vehicle.kerb.total
    told = f"the conversion takes {added:.0f} kg of a payload of {payload:.0f} kg"
    off = f"take {SHORT} off"
    changes = _changes(evaluation, state, taken=True)
    gone = sum(each.mass for each in evaluation.structure.changes if each.state == state and each.moved_to is None)
    quantity = evaluation.quantities[f"payload/{state}"]
    left = quantity.value + 2.0 * quantity.standard_uncertainty - build.vehicle.plated.total - gone
    if changes and left <= 0.0:
        return f"{changes}; {told}"
    if changes:
        told = f"{told}; even without the {gone:.0f} kg of its heaviest fittings {left:.0f} kg are too many"
    items = sorted((item for item in build.masses if not (changes and item.fitting)), key=lambda item: -item.mass)[:3]
    return f"{off}; {told}; heaviest: " + ", ".join(
        f"{item.name.replace('_', ' ')} {item.mass:.0f} kg" for item in items
    )


def _changes(evaluation: Evaluation, state: str, *, taken: bool) -> str:
    """What must go or move to be surely legal, in words."""
    found = [each for each in evaluation.structure.changes if each.state == state]
    gone = [f"{each.fitting} {each.mass:.0f} kg" for each in found if each.moved_to is None]
    moved = [f"{each.fitting} {each.mass:.0f} kg from station {each.station:.2f} m to {each.moved_to:.2f} m"
             for each in found if each.moved_to is not None]  # fmt: skip
    parts = [f"take out {', '.join(gone)}"] if gone and taken else []
    return "; ".join(parts + ([f"move {', '.join(moved)}"] if moved and not taken else []))


def _where(evaluation: Evaluation, state: str) -> str:
    moved = _changes(evaluation, state, taken=False)
    if moved:
        return moved
    centre = evaluation.build.centre_of_masses
    if centre is None:
        return ""
    station, across, up = centre
    side = "left" if across >= 0.0 else "right"
    over_ground = up + evaluation.build.vehicle.floor_over_ground
    return (f"move heavy parts the other way, or take {SHORT} off; the conversion's centre lies at station"
            f" {station:.2f} m, {1000 * abs(across):.0f} mm {side} of the"
            f" middle, {over_ground:.2f} m over the ground")  # fmt: skip


def _total(evaluation: Evaluation) -> tuple[Case, ...]:
    return _of(evaluation, "payload", evaluation.build.vehicle.plated.total, "total", _heaviest)


def _front(evaluation: Evaluation) -> tuple[Case, ...]:
    return _of(evaluation, "front-axle", evaluation.build.vehicle.plated.front, "front", _where)


def _rear(evaluation: Evaluation) -> tuple[Case, ...]:
    return _of(evaluation, "rear-axle", evaluation.build.vehicle.plated.rear, "rear", _where)


def _by_limit(
    evaluation: Evaluation, name: str, key: str, place: str, hint: Callable[[MassResult], str]
) -> tuple[Case, ...]:
    """Cases of a quantity of every road state against a limit of the library."""
    limit, basis = of_library(evaluation, name)
    return tuple(
        Case(result.state, result.state, evaluation.quantities[f"{key}/{result.state}"], limit, basis, place,
             hint=hint(result), caution=_WEIGH)
        for result in _on_the_road(evaluation)
    )  # fmt: skip


def _on_the_road(evaluation: Evaluation) -> list[MassResult]:
    road = {state.name for state in evaluation.build.states if state.road}
    return [result for result in evaluation.masses if result.state in road]


def _wheel(evaluation: Evaluation) -> tuple[Case, ...]:
    def hint(result: MassResult) -> str:
        used, axle = heaviest_wheel(evaluation.build, result)
        share = f"{100 * used:.0f} % of half its axle's plate"
        return f"move load off the {axle} wheel that bears most, at {share}; tyres have their own limit"

    return _by_limit(evaluation, "wheel load use", "wheel", "vehicle.plated", hint)


def _sides(evaluation: Evaluation) -> tuple[Case, ...]:
    """Left against right; what nobody places across the van is told, since its place is in the uncertainty."""
    limit, basis = of_library(evaluation, "side balance")
    results = {result.state: result for result in evaluation.masses}
    found = []
    for state in evaluation.build.states:
        if not state.road:
            continue
        untyped = [item for item, _ in untyped_sides(evaluation.build, state)]
        place = untyped[0].place if untyped else "fittings"
        found.append(
            Case(state.name, state.name, evaluation.quantities[f"side-balance/{state.name}"], limit,
                 basis + _taken_in_the_middle(untyped), place,
                 hint=_levelled(evaluation.build, results[state.name], untyped), caution=_WEIGH)
        )  # fmt: skip
    return tuple(found)


def _taken_in_the_middle(untyped: list[MassItem]) -> str:
    if not untyped:
        return ""
    return f"; places across the van of {_named(untyped)} are not typed: the middle, give or take what the van is wide"


def _levelled(build: Build, result: MassResult, untyped: list[MassItem]) -> str:
    """What levels the van: first say where things stand, then move some."""
    surplus = left_surplus(result)
    heavy, light = ("left", "right") if surplus >= 0.0 else ("right", "left")
    shift = abs(surplus) * build.mass_basis.track_width / 2.0
    moved = f"move {shift:.0f} kg by 1 m to the {light}; the {heavy} side carries {abs(surplus):.0f} kg more"
    moved = moved if shift >= 1.0 else ""
    typed = f"type how far left or right {_named(untyped)} stand" if untyped else ""
    return "; ".join(each for each in (typed, moved) if each)


def _named(items: list[MassItem]) -> str:
    """The first three by name, the others counted."""
    names = [item.fitting for item in items[:3]]
    return ", ".join(names) + (f" and {len(items) - 3} more" if len(items) > 3 else "")


def _steering(evaluation: Evaluation) -> tuple[Case, ...]:
    def hint(result: MassResult) -> str:
        return f"move mass forward; the front axle carries {result.front:.0f} kg of {result.total:.0f} kg"

    return _by_limit(evaluation, "steering axle share", "steering-axle", "vehicle.front_axle", hint)


def _stability(evaluation: Evaluation) -> tuple[Case, ...]:
    def hint(result: MassResult) -> str:
        return f"move heavy parts down; the centre of gravity lies {result.centre[2]:.2f} m over the ground"

    return _by_limit(evaluation, "static stability factor", "stability", "vehicle.track_width", hint)


def _scales(evaluation: Evaluation) -> tuple[Case, ...]:
    limit, basis = of_library(evaluation, "unaccounted mass")
    return tuple(
        Case(f"{scales.stage}-{number}", scales.stage, evaluation.quantities[f"scales/{scales.place}"], limit,
             f"{basis}; scales read {scales.read:.0f} kg, listed are {scales.listed:.0f} kg", scales.place,
             hint=_unaccounted(scales), caution=_WEIGH)
        for number, scales in enumerate(evaluation.structure.scales, start=1)
    )  # fmt: skip


def _unaccounted(scales: ScaleResult) -> str:
    """Where what nobody listed must sit."""
    more = "that nobody listed" if scales.unaccounted > 0.0 else "listed that is not there"
    if scales.at is not None and scales.at_uncertainty is not None:
        station, y = scales.at
        side = "left" if y >= 0.0 else "right"
        along, across = (2.0 * each for each in scales.at_uncertainty)
        return (f"look for {abs(scales.unaccounted):.0f} kg {more}: near station {station:.2f} m ± {along:.2f} m,"
                f" {abs(y):.2f} m"
                f" ± {across:.2f} m to the {side}")  # fmt: skip
    if scales.misplaced:
        return "look for what sits elsewhere than listed: the mass agrees and its place does not"
    return f"list what is new since: {scales.unaccounted:+.0f} kg beyond the list, too little to say where"


_NONE = "no state in which the van drives"
CHECKS = (
    Check("road-mass", "Mass", "Is the van within its plated mass on the road?", "at_most", _total, _NONE),
    Check("front-axle", "Mass", "Is the front axle within its plated mass?", "at_most", _front, _NONE),
    Check("rear-axle", "Mass", "Is the rear axle within its plated mass?", "at_most", _rear, _NONE),
    Check("wheel-load", "Mass", "Does no wheel carry more than half its axle's plate?", "at_most", _wheel, _NONE),
    Check("side-balance", "Mass", "Are left and right about equally heavy?", "at_most", _sides, _NONE),
    Check("steering-share", "Mass", "Does the front axle carry enough to steer?", "at_least", _steering, _NONE),
    Check("stability", "Mass", "Is the centre of gravity low enough for the track?", "at_least", _stability, _NONE),
    Check("scales", "Mass", "Do the scales agree with the list?", "at_most", _scales, "the van was not weighed yet"),
)  # fmt: skip
