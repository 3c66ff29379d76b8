"""Wheels, weighings, anchoring, doors and cuts in the check report."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Any

from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.results.mass import (
    AnchoringResult,
    AnchorResult,
    CutResult,
    DoorResult,
    MassChange,
    MassResult,
    ScaleResult,
)
from hushwright.report.labels import heading as words
from hushwright.report.labels import label
from hushwright.report.layout import heading, shortened, table, wrapped
from hushwright.report.units_out import bare_number, restated, shown, unit_of
from hushwright.report.verdict_text import percent
from hushwright.units import System

_NAME_WIDTH = 30


def wheels(evaluation: Evaluation, system: System) -> list[str]:
    """Load of each wheel, centre of gravity and stability by state; scales; what must go or move."""
    if not evaluation.masses:
        return []
    columns = ("state", "front_left", "front_right", "rear_left", "rear_right")
    rows = [tuple(label(column) for column in columns)]
    rows += [(one.state, *(shown(load, "mass", system) for load in one.wheels)) for one in evaluation.masses]
    first = evaluation.masses[0]
    lines = ["", *table(rows, right=range(1, 5)), "", *table(_centres(evaluation.masses, system), right=range(1, 4))]
    lines.append(f"  {label('not_yet_listed')} {shown(first.not_yet_listed, 'mass', system)}")
    return lines + _scales(evaluation.structure.scales, system) + _changes(evaluation, system)


def _centres(results: Sequence[MassResult], system: System) -> list[tuple[str, ...]]:
    """Centre of gravity and stability of each state."""
    rows = [(label("centre"), label("station"), label("centre_height"), label("stability"))]
    for one in results:
        station, _, height = one.centre
        rows.append((one.state, shown(station, "length", system), shown(height, "length", system),
                     f"{one.stability:.2f}"))  # fmt: skip
    return [*rows]


def _scales(results: Sequence[ScaleResult], system: System) -> list[str]:
    if not results:
        return []
    rows = [(label("weighed"), label("read"), label("listed"), label("unaccounted"), "", label("place"))]
    for one in results:
        at = "" if one.at is None else (
            f"{label('station')} {shown(one.at[0], 'length', system)}, offset {shown(one.at[1], 'length', system)}"
        )  # fmt: skip
        told = ", ".join(text for text in (one.stage, one.date) if text)
        rows.append((told, shown(one.read, "mass", system), shown(one.listed, "mass", system),
                     shown(one.unaccounted, "mass", system, signed=True),
                     f"±{shown(2.0 * one.uncertainty, 'mass', system)}", at))  # fmt: skip
    return ["", *table(rows, right=(1, 2, 3, 4))]


def _changes(evaluation: Evaluation, system: System) -> list[str]:
    lines: list[str] = []
    for one in evaluation.structure.changes:
        mass, station = shown(one.mass, "mass", system), shown(one.station, "length", system)
        told = f"take out {one.fitting}, {mass} at station {station}" if one.moved_to is None else (
            f"move {one.fitting}, {mass}, from station {station} to {shown(one.moved_to, 'length', system)}"
        )  # fmt: skip
        lines += wrapped(f"{label('hint')} ({label('state')} {one.state}): {told}", indent=2, hanging=4)
    return ["", *lines] if lines else []


def anchoring(evaluation: Evaluation, system: System) -> list[str]:
    """Loads at the anchors at the design level, the cargo rule beside it."""
    lines: list[str] = []
    for one in evaluation.structure.anchoring[:1]:
        lines += _anchoring(one, system)
    return [*heading(words("anchoring")), *lines] if lines else []


def _anchoring(one: AnchoringResult, system: System) -> list[str]:
    held = [*(() if one.room is None else (one.room,)), *one.fittings]
    if not held and not one.not_said and one.room_mass is None:
        return []
    forward, rearward, sideways = one.cargo_shares
    cargo = f"{label('cargo_rule')} {forward:g} forward, {rearward:g} rearward, {sideways:g} sideways"
    level = f"{label('design_level')} {one.design_level:g}, {one.design_basis}"
    text = f"{level}; {cargo}, {one.cargo_basis}; in multiples of the weight"
    lines = wrapped(restated(text, system), indent=2, hanging=4)
    if held:
        rows = [("", label("mass"), label("anchors"), label("load"), label("strength"), label("used"),
                 label("cargo_rule"), label("bolts"), label("pushed"))]  # fmt: skip
        most = max(max(each.load, each.strength) for each in held)
        lines += table([*rows, *(_held(each, most, system) for each in held)], right=range(1, 8))
    if one.snubbers is not None:
        snubbers = one.snubbers
        lines += wrapped(
            f"{label('snubbers')}: gap {shown(snubbers.gap, 'length', system)}, forward travel"
            f" {shown(snubbers.travel, 'length', system)} of {shown(snubbers.mount_travel, 'length', system)},"
            f" up to {_force(snubbers.peak_force, system)} if the push is sudden and stays: {snubbers.blow:.1f} times"
            " the even push",
            indent=2, hanging=4,
        )  # fmt: skip
    return lines


def _held(one: AnchorResult, most: float, system: System) -> tuple[str, ...]:
    load, strength = (_force(each, system, most) for each in (one.load, one.strength))
    return (shortened(one.name, _NAME_WIDTH), shown(one.mass, "mass", system), f"{one.anchors}", load, strength,
            percent(one.used), percent(one.cargo_used), f"{one.bolts}", one.direction)  # fmt: skip


def _force(value: float, system: System, like: float = 0.0) -> str:
    """Force to three digits: statics of a crash are no better known."""
    return shown(float(f"{value:.3g}"), "force", system, like=like)


def doors(evaluation: Evaluation, system: System) -> list[str]:
    """Forces at each door, and each cut with its neighbours."""
    structure = evaluation.structure
    lines: list[str] = []
    if structure.doors:
        rows = [("", label("mass"), label("seals"), label("hand"), label("latch"), label("hinge"), label("sag"))]
        rows += [(shortened(one.name, _NAME_WIDTH), shown(one.mass, "mass", system), _force(one.seal_force, system),
                  _force(one.hand, system), _force(one.latch, system), _force(one.hinge, system),
                  shown(one.sag, "length", system)) for one in structure.doors]  # fmt: skip
        lines += table(rows, right=range(1, 7))
    if structure.cuts:
        cuts = [
            (label("cut"), label("face"), label("size"), label("to_member"), label("to_cut"), label("reinforcement"))
        ]
        cuts += [(shortened(one.name, _NAME_WIDTH), one.face, shown(one.size, "length", system),
                  "" if one.to_member is None else f"{shown(one.to_member, 'length', system)} to a {one.member}",
                  "" if one.to_cut is None else f"{shown(one.to_cut, 'length', system)} to {one.nearest_cut}",
                  one.reinforcement)
                 for one in structure.cuts]  # fmt: skip
        lines += [*([""] if lines else []), *table(cuts, right=(2, 3))]
    return [*heading(words("doors")), *lines] if lines else []


def structure_nodes(evaluation: Evaluation, system: System) -> dict[str, Any]:
    """Everything of mass, anchoring, doors and cuts for JSON; lengths, masses and forces in the units named."""
    structure = evaluation.structure
    return {
        "mass": {
            "unit": unit_of("mass", system),
            "length_unit": unit_of("length", system),
            "states": [_mass_node(one, system) for one in evaluation.masses],
            "scales": [_scale_node(one, system) for one in structure.scales],
            "changes": [_change_node(one, system) for one in structure.changes],
        },
        "anchoring": [_anchoring_node(one, system) for one in structure.anchoring],
        "doors": {
            "unit": unit_of("force", system),
            "doors": [_door_node(one, system) for one in structure.doors],
            "cuts": [_cut_node(one, system) for one in structure.cuts],
        },
    }


def _mass_node(one: MassResult, system: System) -> dict[str, Any]:
    mass, length = partial(bare_number, kind="mass", system=system), partial(bare_number, kind="length", system=system)
    station, offset, height = one.centre
    return {
        "state": one.state, "total": mass(one.total), "front": mass(one.front), "rear": mass(one.rear),
        "wheels": [mass(load) for load in one.wheels], "station": length(station), "offset": length(offset),
        "height_over_ground": length(height), "stability_factor": round(one.stability, 4),
        "not_yet_listed": mass(one.not_yet_listed), "unaccounted": mass(one.unaccounted),
    }  # fmt: skip


def _scale_node(one: ScaleResult, system: System) -> dict[str, Any]:
    mass = partial(bare_number, kind="mass", system=system)
    station, offset = (None, None) if one.at is None else (bare_number(each, "length", system) for each in one.at)
    return {
        "stage": one.stage, "read": mass(one.read), "listed": mass(one.listed), "unaccounted": mass(one.unaccounted),
        "uncertainty": mass(one.uncertainty), "station": station, "offset": offset, "place": one.place,
    }  # fmt: skip


def _change_node(one: MassChange, system: System) -> dict[str, Any]:
    return {
        "state": one.state, "fitting": one.fitting, "mass": bare_number(one.mass, "mass", system),
        "station": bare_number(one.station, "length", system), "moved_to": bare_number(one.moved_to, "length", system),
    }  # fmt: skip


def _door_node(one: DoorResult, system: System) -> dict[str, Any]:
    force = partial(bare_number, kind="force", system=system)
    return {
        "name": one.name, "mass": bare_number(one.mass, "mass", system), "seals": force(one.seal_force),
        "hand": force(one.hand), "latch": force(one.latch), "hinge": force(one.hinge),
        "sag": bare_number(one.sag, "length", system), "place": one.place,
    }  # fmt: skip


def _cut_node(one: CutResult, system: System) -> dict[str, Any]:
    length = partial(bare_number, kind="length", system=system)
    return {
        "name": one.name, "face": one.face, "reinforcement": one.reinforcement,
        "at": [length(each) for each in one.at], "size": length(one.size), "to_member": length(one.to_member),
        "member": one.member, "to_cut": length(one.to_cut), "nearest_cut": one.nearest_cut, "place": one.place,
    }  # fmt: skip


def _anchoring_node(one: AnchoringResult, system: System) -> dict[str, Any]:
    held = [*(() if one.room is None else (one.room,)), *one.fittings]
    return {
        "state": one.state,
        "design_level": one.design_level,
        "cargo_rule": {"shares": list(one.cargo_shares), "basis": restated(one.cargo_basis, system)},
        "unit": unit_of("force", system),
        "held": [
            {"name": each.name, "anchors": each.anchors, "load": bare_number(each.load, "force", system),
             "strength": bare_number(each.strength, "force", system), "used": round(each.used, 4),
             "cargo_used": round(each.cargo_used, 4), "bolts": each.bolts,
             "spreader": bare_number(each.spreader, "length", system), "in_skin": each.in_skin, "place": each.place}
            for each in held
        ],
        "not_said": [name for name, _, _ in one.not_said],
    }  # fmt: skip
