"""Forces at doors, and how cuts lie to ribs and to each other."""

from __future__ import annotations

import math

from hushwright.evaluation.guard import at
from hushwright.evaluation.results import Quantity
from hushwright.evaluation.results.mass import CutResult, DoorResult
from hushwright.model.build import Build
from hushwright.model.cuts_in_place import CutInPlace, DoorInPlace
from hushwright.physics.mechanics.doors import DoorLeaf, door_forces, hinge_loads, operating_force_class

_SEAL_SPREAD = 0.1  # share of the force, from how evenly seals are set; common practice, no source
_CUTTING = 0.003  # m, how closely a cut lies where it is drawn; common practice, no source
_SHEET = 0.002  # m, how closely ribs lie at their spacing; common practice, no source


def doors_of(build: Build) -> tuple[DoorResult, ...]:
    """Every door that the workshop builds, closed against its seals."""
    return tuple(_door(door) for door in build.doors)


def _door(door: DoorInPlace) -> DoorResult:
    with at(door.place):
        leaf = DoorLeaf(door.width, door.height, door.mass, door.seal_force, door.seal_rows)
        forces = door_forces(leaf, door.handle_distance, lever_advantage=door.latch_ratio)
        hung = hinge_loads(leaf, door.hinge_spacing, door.hinge_stiffness)
    hand = forces.lever_force if door.latch_ratio > 1.0 else forces.hand_force
    hinge = math.sqrt(
        hung.horizontal**2 + (hung.vertical / door.hinges) ** 2 + (forces.hinge_separation / door.hinges) ** 2
    )
    return DoorResult(
        door.name, door.mass, leaf.total_seal_force, hand, forces.hand_force, forces.latch_preload / door.latches,
        hinge, hung.vertical, hung.sag, operating_force_class(hand), door.place,
    )  # fmt: skip


def door_quantities(build: Build, doors: tuple[DoorResult, ...], quantities: dict[str, Quantity]) -> None:
    """What the verdicts on doors ask."""
    for door, result in zip(build.doors, doors, strict=True):
        name = result.name
        quantities[f"door-hand/{name}"] = Quantity(result.hand, "force", _SEAL_SPREAD * result.hand)
        quantities[f"door-latch/{name}"] = Quantity(result.latch, "force", _SEAL_SPREAD * result.latch)
        u = math.hypot(_SEAL_SPREAD, build.tolerances.mass) * result.hinge
        quantities[f"door-hinge/{name}"] = Quantity(result.hinge, "force", u)
        quantities[f"door-sag/{name}"] = Quantity(result.sag, "length", build.tolerances.mass * result.sag)
        if door.kind == "window":
            continue  # nobody rolls anything over its sill
        quantities[f"door-threshold/{name}"] = Quantity(door.threshold, "length")


def cuts_of(build: Build) -> tuple[CutResult, ...]:
    """Every cut with the sheet left to its neighbours."""
    return tuple(_cut(cut, [other for other in build.cuts if other is not cut]) for cut in build.cuts)


def _cut(cut: CutInPlace, others: list[CutInPlace]) -> CutResult:
    beside = {other.name: _between(cut, other) for other in others if other.face == cut.face}
    nearest = min(beside, key=lambda name: beside[name]) if beside else ""
    members = cut.members
    return CutResult(
        cut.name, cut.face, (cut.along, cut.up), cut.reinforcement,
        None if members is None else _to_member(cut), "" if members is None else members.word,
        members is not None and members.first is not None, beside.get(nearest), nearest, max(cut.width, cut.height),
        cut.place,
    )  # fmt: skip


def _to_member(cut: CutInPlace) -> float:
    """Sheet left to the nearest flange; the most there can be where the first member's station is not known."""
    members = cut.members
    assert members is not None
    half = (cut.width + members.width) / 2.0
    if members.first is None:
        return members.spacing / 2.0 - half
    over = (cut.along - members.first) % members.spacing
    return min(over, members.spacing - over) - half


def _between(one: CutInPlace, other: CutInPlace) -> float:
    """Sheet left between two cuts of one face; below zero they meet."""
    along, up = abs(one.along - other.along), abs(one.up - other.up)
    if one.round and other.round:
        return math.hypot(along, up) - (one.width + other.width) / 2.0
    free = along - (one.width + other.width) / 2.0, up - (one.height + other.height) / 2.0
    if free[0] > 0.0 and free[1] > 0.0:
        return math.hypot(*free)
    return max(free)


def cut_quantities(build: Build, cuts: tuple[CutResult, ...], quantities: dict[str, Quantity]) -> None:
    """What the verdicts on cuts ask: the worst of all cuts for each question."""
    with_members = [cut for cut in cuts if cut.to_member is not None]
    if with_members:
        worst = min(with_members, key=lambda cut: cut.to_member or 0.0)
        unknown = [cut.name for cut in with_members if not cut.member_known]
        notes = (f"the station of the first rib or bow is not given, for the cuts: {', '.join(unknown)}",)
        value = worst.to_member or 0.0
        quantities["cut-rib"] = Quantity(value, "length", math.hypot(_CUTTING, _SHEET),
                                         validity=notes if unknown else ())  # fmt: skip
    paired = [cut.to_cut for cut in cuts if cut.to_cut is not None]
    if paired:
        quantities["cut-apart"] = Quantity(min(paired), "length", math.sqrt(2.0) * _CUTTING)
    if not cuts:
        return
    behind = sum(len(cut.behind) for cut in build.cuts)
    unsought = tuple(
        f"{cut.name}: not looked for before cutting: {', '.join(cut.not_looked_for)}"
        for cut in build.cuts if cut.not_looked_for
    )  # fmt: skip
    quantities["cut-behind"] = Quantity(float(behind), "count", validity=unsought)
    bare = [max(cut.width, cut.height) for cut in build.cuts if cut.reinforcement == "none"]
    quantities["cut-reinforced"] = Quantity(max(bare, default=0.0), "length", _CUTTING if bare else 0.0)
    quantities["cut-sealed"] = Quantity(float(sum(not cut.sealed for cut in build.cuts)), "count")
