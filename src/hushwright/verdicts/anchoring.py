"""Does it hold in a crash: the floating room, heavy fittings, what they are anchored in."""

from __future__ import annotations

import math
from collections.abc import Callable

from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.results.mass import AnchoringResult, AnchorResult
from hushwright.library.records import Limit
from hushwright.verdicts.check import Case, Check
from hushwright.verdicts.hints import SHORT

_CRASH = (
    "Whether anything holds in a crash is for a test or a licensed engineer to say: this sheet only adds up statics. "
    "Anchors go into the vehicle's structure after the body-builder's guidance of its maker, never into skin."
)
_SURE = 1.2
"""Over the load worked out, so that its spread is met; common practice, no source."""
_FEWEST = 3.0  # anchors that hold a body against turning


def _room_anchors(evaluation: Evaluation) -> tuple[Case, ...]:
    return tuple(
        Case(each.state, each.state, evaluation.quantities[f"room-anchors/{each.state}"], _FEWEST,
             "statics: three anchors that are not on one line keep a body from turning", _room_place(evaluation),
             hint=f"anchor the room by three points at least; {each.room_mass:.0f} kg float, mounts and snubbers"
                  f" alone hold them only down", caution=_CRASH)
        for each in evaluation.structure.anchoring
        if each.room_mass is not None
    )  # fmt: skip


def _room_place(evaluation: Evaluation) -> str:
    """Anchors of the room in the file; the mounts where it names none."""
    build = evaluation.build
    return "restraint.anchors" if build.anchoring.room else next((each.place for each in build.mounts), "restraint")


def _levels(each: AnchoringResult, *, crash: bool) -> str:
    """Basis of a load, with the other level beside it."""
    design = f"design level {each.design_level:g} times the weight in every direction ({each.design_basis})"
    forward, rearward, sideways = each.cargo_shares
    cargo = f"cargo rule {forward:g} forward, {rearward:g} rearward, {sideways:g} sideways ({each.cargo_basis})"
    return f"{design}; {cargo} beside it" if crash else f"{cargo}; a cargo rule is no crash rule"


def _told(held: AnchorResult, *, crash: bool) -> str:
    """Loads, fixings and plate of the anchor that is used most."""
    if not crash:
        return (
            f"add anchors for {SHORT} of their strength, or take stronger ones; {held.name}:"
            f" {held.cargo_load:.0f} N on the anchor that is loaded most"
        )
    other = f"; under the cargo rule {100 * held.cargo_used:.0f} %"
    blow = f", {held.blow:.1f} times the even push by the gap of the snubbers" if held.blow > 1.0 else ""
    pushed = f"{held.name}, {held.mass:.0f} kg, pushed {held.direction}"
    return (f"{_stronger(held)}; {pushed}: {held.load:.0f} N{blow}, on one of {held.anchors} anchors that carries"
            f" {held.strength:.0f}"
            f" N{other}; bolts at each: {held.bolts}; a plate on bare sheet would be"
            f" {1000 * held.spreader:.0f} mm square, and belongs on a member")  # fmt: skip


def _stronger(held: AnchorResult) -> str:
    """How many anchors like these are enough for the load."""
    enough = math.ceil(held.anchors * max(held.used, 0.0) * _SURE)
    if enough <= held.anchors:
        return "keep its anchors"
    return f"hold it by {enough} such anchors instead of {held.anchors}, or by {held.load * _SURE:.0f} N each"


def _room(crash: bool) -> Callable[[Evaluation], tuple[Case, ...]]:
    key = "held" if crash else "cargo"

    def cases(evaluation: Evaluation) -> tuple[Case, ...]:
        return tuple(
            Case(each.state, each.state, evaluation.quantities[f"{key}-room/{each.state}"], 1.0,
                 _levels(each, crash=crash), "restraint.anchors", hint=_told(each.room, crash=crash), caution=_CRASH)
            for each in evaluation.structure.anchoring
            if each.room is not None
        )  # fmt: skip

    return cases


def _fittings(crash: bool) -> Callable[[Evaluation], tuple[Case, ...]]:
    key = "held" if crash else "cargo"

    def cases(evaluation: Evaluation) -> tuple[Case, ...]:
        found = []
        for each in evaluation.structure.anchoring:
            if each.fittings:
                worst = max(each.fittings, key=lambda held: held.used if crash else held.cargo_used)
                found.append(Case(each.state, each.state, evaluation.quantities[f"{key}-fittings/{each.state}"], 1.0,
                                  _levels(each, crash=crash), worst.place, hint=_told(worst, crash=crash),
                                  caution=_CRASH))  # fmt: skip
        return tuple(found)

    return cases


def _skin(evaluation: Evaluation) -> tuple[Case, ...]:
    found = []
    for each in evaluation.structure.anchoring:
        held = [*(() if each.room is None else (each.room,)), *each.fittings]
        named = [one for one in held if one.in_skin]
        if held:
            hint = f"move to a rib, sill or cross member: {', '.join(one.name for one in named)}"
            found.append(Case(each.state, each.state, evaluation.quantities[f"skin-anchors/{each.state}"], 0.0,
                              "sheet between members bends long before it carries: common practice, no source",
                              named[0].place if named else held[0].place, hint=hint if named else "",
                              caution=_CRASH))  # fmt: skip
    return tuple(found)


def _unsaid(evaluation: Evaluation) -> tuple[Case, ...]:
    heavy = evaluation.build.library.find(Limit, "heavy fitting")
    found = []
    for each in evaluation.structure.anchoring:
        quantity = evaluation.quantities.get(f"held-unsaid/{each.state}")
        if quantity is not None:
            place = each.not_said[0][2] if each.not_said else "fittings"
            found.append(Case(each.state, each.state, quantity, 0.0,
                              f"every fitting from {heavy.value.value:.0f} kg up says how it is held: {heavy.source}",
                              place, hint=_names(each), caution=_CRASH))  # fmt: skip
    return tuple(found)


def _names(each: AnchoringResult) -> str:
    """Fittings of which nobody says how they are held."""
    names = ", ".join(f"{name} {mass:.0f} kg" for name, mass, _ in each.not_said)
    return f"add `restraint` to {names}; or leave them behind in this state with `unloaded`" if names else ""


_NO_ROAD = "no state in which the van drives"
CHECKS = (
    Check("room-anchors", "Anchoring", "Is the floating room held by anchors?", "at_least", _room_anchors,
          "no floor on mounts, or no state in which the van drives"),
    Check("room-holds", "Anchoring", "Do the anchors hold the floating room at the design level?", "at_most",
          _room(True), "no anchors of a floating room"),
    Check("room-holds-cargo", "Anchoring", "Do they hold it under the cargo rule?", "at_most", _room(False),
          "no anchors of a floating room"),
    Check("fittings-hold", "Anchoring", "Do the anchors hold every heavy fitting at the design level?", "at_most",
          _fittings(True), "no fitting that says how it is held"),
    Check("fittings-hold-cargo", "Anchoring", "Do they hold every heavy fitting under the cargo rule?", "at_most",
          _fittings(False), "no fitting that says how it is held"),
    Check("structure-not-skin", "Anchoring", "Is everything anchored in structure, nothing in skin?", "at_most",
          _skin, "no anchors", counts="anchors in skin"),
    Check("heavy-fittings", "Anchoring", "Is it known how every heavy fitting is held?", "at_most", _unsaid,
          f"no heavy fitting, or {_NO_ROAD}", counts="heavy fittings without a word"),
)  # fmt: skip
