"""Loads at the anchors of the floating room and of heavy fittings, and what the snubbers do."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache
from typing import get_args

from hushwright.evaluation.guard import at
from hushwright.evaluation.results import Quantity
from hushwright.evaluation.results.mass import AnchoringResult, AnchorResult, SnubberResult
from hushwright.evaluation.sound.floor import Floating, mass_on_mounts
from hushwright.library.records import Limit
from hushwright.model.anchoring_in_place import AnchorInPlace, HeldFitting, Place
from hushwright.model.build import Build, StateOfUse
from hushwright.physics.air import STANDARD_GRAVITY
from hushwright.physics.mechanics.fixings import fixing_count, spreader_side, stop_contact
from hushwright.physics.mechanics.restraint import (
    CargoRule,
    Direction,
    RestraintShares,
    anchor_loads,
    cargo_rule,
    design_level,
)

_HEAVIEST_VAN = 7500.0  # kg, end of the rule for delivery vans; above it that of road transport holds
_STRENGTH_SPREAD = 0.1  # share of what an anchor carries, built as drawn; common practice, no source
_TO_ROOM = "the floating room"


def anchoring_of(build: Build, state: StateOfUse, floating: Floating | None) -> AnchoringResult:
    """How everything is held in a state that drives."""
    anchoring = build.anchoring
    with at("restraint"):
        level, cargo = design_level(anchoring.design_level, anchoring.design_basis), _cargo(build)
    items = mass_on_mounts(build, state)
    mass = sum(item.mass for item in items) if floating is not None else None
    snubbers = _snubbers(build, floating, mass or 0.0)
    room = None
    if mass and anchoring.room:
        centre = tuple(sum(item.mass * each for item, each in zip(items, axis, strict=True)) / mass
                       for axis in zip(*((item.station, item.y, item.z) for item in items), strict=True))  # fmt: skip
        room = _struck(_held(build, _TO_ROOM, mass, (centre[0], centre[1], centre[2]), anchoring.room, level, cargo,
                             "restraint.anchors"), snubbers, build)  # fmt: skip
    held = _aboard(build, state)
    fittings = tuple(
        _held(build, each.name, each.mass, each.centre, each.anchors, level, cargo, f"{each.place}.restraint")
        for each in held if each.anchors
    )  # fmt: skip
    return AnchoringResult(
        state.name, anchoring.design_level, anchoring.design_basis,
        (cargo.forward, cargo.rearward, cargo.sideways), cargo.basis, mass, room,
        tuple(sorted(fittings, key=lambda each: -each.used)),
        tuple((each.name, each.mass, each.place) for each in held if not each.anchors),
        snubbers, _bridges(build),
    )  # fmt: skip


def anchoring_quantities(build: Build, result: AnchoringResult, quantities: dict[str, Quantity]) -> None:
    """What the verdicts on anchoring ask, at the design level and under the cargo rule."""
    u, state = math.hypot(build.tolerances.mass, _STRENGTH_SPREAD), result.state
    if result.room_mass is not None:
        unsaid = () if build.anchoring.given else ("the file does not say how the floating room is held",)
        quantities[f"room-anchors/{state}"] = Quantity(float(len(build.anchoring.room)), "count", validity=unsaid)
    if result.room is not None:
        _used(f"room/{state}", (result.room,), u, quantities)
    if result.fittings:
        _used(f"fittings/{state}", result.fittings, u, quantities)
    held = [each for each in (result.room, *result.fittings) if each is not None]
    if held:
        in_skin = sum(each.in_skin for each in held)
        quantities[f"skin-anchors/{state}"] = Quantity(float(in_skin), "count")
    if build.anchoring.fittings:
        quantities[f"held-unsaid/{state}"] = Quantity(float(len(result.not_said)), "count")
    if result.room_mass is not None:
        quantities[f"bridges/{state}"] = Quantity(float(len(result.bridges)), "count")
    if result.snubbers is not None:
        unsaid = () if build.anchoring.snubbers_given else ("the stiffness of the snubbers is not given",)
        quantities[f"snubber-crash/{state}"] = Quantity(
            result.snubbers.travel, "length", build.tolerances.mass * result.snubbers.travel, validity=unsaid
        )


def _used(key: str, held: Iterable[AnchorResult], u: float, quantities: dict[str, Quantity]) -> None:
    """Load over strength of the worst held body, at both levels."""
    bodies = tuple(held)
    for name, values in (("held", [each.used for each in bodies]), ("cargo", [each.cargo_used for each in bodies])):
        worst = max(range(len(bodies)), key=lambda index: values[index])
        assumed = [each.name for each in bodies if each.strength_assumed]
        notes = (f"the strength of anchors is not given for: {', '.join(assumed)}",) if assumed else ()
        quantities[f"{name}-{key}"] = Quantity(values[worst], "share", u * values[worst], validity=notes)


def _cargo(build: Build) -> RestraintShares:
    """Cargo rule of the file; vans above its range fall to that of road transport."""
    plated = round(build.vehicle.plated.total)  # plates are whole kilograms, whatever unit they were typed in
    name = build.anchoring.rule
    known: tuple[CargoRule, ...] = get_args(CargoRule)
    rule = next(each for each in known if each == name)
    if rule == "van" and plated > _HEAVIEST_VAN:
        rule = "road"
    return cargo_rule(plated, rule)


def _aboard(build: Build, state: StateOfUse) -> list[HeldFitting]:
    """Heavy fittings that are aboard in a state."""
    return [each for each in build.anchoring.fittings if each.name not in state.unloaded]


def _held(
    build: Build,
    name: str,
    mass: float,
    centre: tuple[float, float, float],
    anchors: tuple[AnchorInPlace, ...],
    level: RestraintShares,
    cargo: RestraintShares,
    place: str,
) -> AnchorResult:
    with at(place):
        load, index, direction, used = _worst(mass, centre, anchors, level)
        cargo_load, _, _, cargo_used = _worst(mass, centre, anchors, cargo)
    anchoring = build.anchoring
    return AnchorResult(
        name, mass, centre, len(anchors), anchors[index].strength, load, direction, used, cargo_load, cargo_used,
        fixing_count(load, anchoring.bolt_strength),
        spreader_side(max(load, 1.0), build.vehicle.skin_thickness, anchoring.sheet_shear),
        any(anchor.seat == "skin" for anchor in anchors), any(anchor.strength_assumed for anchor in anchors), place,
    )  # fmt: skip


def _struck(room: AnchorResult, snubbers: SnubberResult | None, build: Build) -> AnchorResult:
    """Room that gathers speed over the gap of its snubbers before its anchors hold it."""
    if snubbers is None:
        return room
    load, anchoring = room.load * snubbers.blow, build.anchoring
    return replace(
        room, load=load, used=room.used * snubbers.blow, blow=snubbers.blow,
        bolts=fixing_count(load, anchoring.bolt_strength),
        spreader=spreader_side(max(load, 1.0), build.vehicle.skin_thickness, anchoring.sheet_shear),
    )  # fmt: skip


@lru_cache(maxsize=512)
def _worst(
    mass: float, centre: tuple[float, float, float], anchors: tuple[AnchorInPlace, ...], shares: RestraintShares
) -> tuple[float, int, str, float]:
    """Largest load over strength of any anchor in any direction: load [N], anchor, direction, share."""
    places = [_axes(anchor.at) for anchor in anchors]
    directions: tuple[Direction, ...] = get_args(Direction)
    worst = (0.0, 0, "", -1.0)
    for direction in directions:
        for index, load in enumerate(anchor_loads(mass, _axes(centre), places, shares, direction)):
            used = load.resultant / anchors[index].strength
            if used > worst[3]:
                worst = (load.resultant, index, direction, used)
    return worst


def loads_at_worst(build: Build, held: AnchorResult) -> tuple[tuple[Place, Place], ...]:
    """Place [m] and force [N] of each anchor of a body, pushed where it loads one of them most; front is less x."""
    bodies = {each.name: each.anchors for each in build.anchoring.fittings}
    anchors = build.anchoring.room if held.name == _TO_ROOM else bodies[held.name]
    level = design_level(build.anchoring.design_level, build.anchoring.design_basis)
    directions: tuple[Direction, ...] = get_args(Direction)
    direction = next(each for each in directions if each == held.direction)
    loads = anchor_loads(held.mass, _axes(held.centre), [_axes(each.at) for each in anchors], level, direction)
    x, y, z = zip(*(load.force for load in loads), strict=True)
    forces = zip((-held.blow * each for each in x), (held.blow * each for each in y), (held.blow * each for each in z),
                 strict=True)  # fmt: skip
    return tuple((each.at, force) for each, force in zip(anchors, forces, strict=True))


def _axes(place: tuple[float, float, float]) -> tuple[float, float, float]:
    return -place[0], place[1], place[2]


def _snubbers(build: Build, floating: Floating | None, mass: float) -> SnubberResult | None:
    """Forward travel and force of the room on its snubbers at the design level."""
    if floating is None or mass <= 0.0:
        return None
    group = next(each for each in build.mounts if each.name == floating.result.group)
    clear = floating.result.snubber_clear
    if group.snubber_gap is None or clear is None:
        return None
    shear = build.library.find(Limit, "mount shear").value.value
    force = build.anchoring.design_level * mass * STANDARD_GRAVITY
    travel = shear * group.free_height
    with at(group.place):
        found = stop_contact(force, max(group.snubber_gap, 0.0), build.anchoring.snubber_stiffness,
                             group.lateral_stiffness * floating.count, max(group.snubber_gap - clear, 0.0),
                             travel)  # fmt: skip
    blow = max(found.peak_force / force, 1.0)
    return SnubberResult(group.snubber_gap, found.travel, travel, found.peak_force, blow, found.bottoms)


def _bridges(build: Build) -> tuple[tuple[str, str], ...]:
    """Fittings fixed to the floating room and to another body; cables are asked for their loops with the routes."""
    found = {
        item.fitting: item.place
        for item in build.masses
        if item.fitting and "quiet" in item.fixed_to and set(item.fixed_to) & {"body", "control"}
    }
    return tuple(found.items())
