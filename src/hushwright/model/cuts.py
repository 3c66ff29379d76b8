"""Holes in the vehicle and doors with their hardware."""

from __future__ import annotations

import math

from hushwright.document.schema import BuildFile
from hushwright.document.schema.cuts import LOOKED_FOR, Cut, DoorHardware
from hushwright.document.values import Value
from hushwright.errors import Mend
from hushwright.library.records import Seal
from hushwright.model.build import LayerInPlace, OpeningInPlace, VehicleInPlace
from hushwright.model.cuts_in_place import CutInPlace, DoorInPlace, Members
from hushwright.model.masses import mass_of_leaf
from hushwright.model.mending import down
from hushwright.model.opening_checks import HUNG
from hushwright.model.taking import Path, Taker, dotted

_ENDS = ("front", "rear")
_LEVEL = ("roof", "floor")
_HANDLE_SHARE, _HINGE_SHARE = 0.9, 0.7  # of the width and of the height; common practice, no source
_OVER_THE_EDGE = 0.05  # m by which a cut may pass the load space before it is told


def resolve_cuts(taker: Taker, root: BuildFile, vehicle: VehicleInPlace) -> tuple[CutInPlace, ...]:
    """All holes in the vehicle that have a size."""
    found = [_cut(taker, root, name, cut, vehicle) for name, cut in root.cuts.items()]
    return tuple(cut for cut in found if cut is not None)


def _cut(taker: Taker, root: BuildFile, name: str, typed: Cut, vehicle: VehicleInPlace) -> CutInPlace | None:
    at: Path = ("cuts", name)
    along = taker.quantity((*at, "station"), typed.station, "length", label=f"{name} station")
    up = taker.quantity((*at, "at"), typed.at, "length", label=f"{name} place across")
    if typed.diameter is not None:
        width = height = taker.quantity((*at, "diameter"), typed.diameter, "length")
    elif typed.width is not None and typed.height is not None:
        width = taker.quantity((*at, "width"), typed.width, "length")
        height = taker.quantity((*at, "height"), typed.height, "length")
    else:
        taker.say("value-needed", at, name, "has no size", "give `width` and `height`, or `diameter`")
        return None
    if typed.face not in _ENDS and along > vehicle.load_length + _OVER_THE_EDGE:
        taker.say_fit("cut-outside", (*at, "station"), f"{along:.3f} m",
                      f"the load space ends at {vehicle.load_length:.3f} m",
                      "stations run rearward from the B-pillar line", severity="warning")  # fmt: skip
    return CutInPlace(
        name, typed.face, along, up, width, height, typed.diameter is not None,
        _members(taker, root, typed.face, vehicle), typed.behind,
        tuple(each for each in LOOKED_FOR if each not in typed.looked_for),
        typed.reinforcement, typed.seal != "none", dotted(at),
    )  # fmt: skip


def _members(taker: Taker, root: BuildFile, face: str, vehicle: VehicleInPlace) -> Members | None:
    """Ribs behind a side, bows under the roof; members of floor and ends are not in the file."""
    if face in ("left", "right"):
        typed = root.vehicle.ribs
        first = None if typed is None or typed.first is None else taker.quantity(
            ("vehicle", "ribs", "first"), typed.first, "length", label="station of the first rib"
        )  # fmt: skip
        return Members(first, vehicle.ribs.spacing, vehicle.ribs.width, "rib")
    if face == "roof":
        bows = root.vehicle.bows
        first = None if bows is None or bows.first is None else taker.quantity(
            ("vehicle", "bows", "first"), bows.first, "length", label="station of the first bow"
        )  # fmt: skip
        return Members(first, vehicle.bows.spacing, vehicle.bows.width, "bow")
    return None


def resolve_doors(taker: Taker, root: BuildFile, openings: tuple[OpeningInPlace, ...]) -> tuple[DoorInPlace, ...]:
    """Doors that the workshop builds, with seals and hardware."""
    found = []
    for opening in openings:
        typed = root.openings[opening.name]
        at: Path = ("openings", opening.name)
        if opening.kind not in HUNG or opening.in_vehicle:
            if typed.hardware is not None:
                taker.say("key-without-effect", (*at, "hardware"), opening.kind,
                          "only doors and windows that the workshop builds are judged by their hardware",
                          "leave it out", severity="warning")  # fmt: skip
            continue
        if opening.kind == "window" and typed.hardware is None:
            continue  # fixed: nothing hangs on hinges
        if opening.mass > 0.0:
            found.append(_door(taker, root, opening, at))
    return tuple(found)


def _door(taker: Taker, root: BuildFile, opening: OpeningInPlace, at: Path) -> DoorInPlace:
    typed = root.openings[opening.name]
    hung = typed.hardware or DoorHardware()
    on: Path = (*at, "hardware")
    width, height = opening.width, opening.height
    handle = _within(taker, (*on, "handle_distance"), hung.handle_distance, _HANDLE_SHARE * width, width)
    frames = frames_of(opening)
    mass = max(mass_of_leaf(opening, each) for each in frames) / opening.number
    spacing = _within(taker, (*on, "hinge_spacing"), hung.hinge_spacing, _HINGE_SHARE * height, height)
    return DoorInPlace(
        opening.name, width, height, mass, _seal_force(taker, root, opening, at),
        math.ceil(opening.seals.rows / len(frames)) if opening.seals is not None else 0,
        handle,
        taker.convention((*on, "hand_force"), hung.hand_force, "force", "hand force on a door", "most for a hand"),
        taker.quantity((*on, "latch_ratio"), hung.latch_ratio, "count", label="pull of the latch over the hand"),
        hung.latches,
        taker.convention((*on, "latch_strength"), hung.latch_strength, "force", "latch strength", "what a latch holds"),
        hung.hinges, spacing,
        taker.convention((*on, "hinge_strength"), hung.hinge_strength, "force", "hinge strength",
                         "what a hinge carries"),
        taker.convention((*on, "hinge_stiffness"), hung.hinge_stiffness, "stiffness", "hinge stiffness",
                         "stiffness of a hinge with its seat"),
        taker.quantity((*on, "threshold"), hung.threshold, "length", label="height of the threshold"),
        dotted(at), len(frames), opening.kind,
    )  # fmt: skip


def frames_of(opening: OpeningInPlace) -> tuple[tuple[LayerInPlace, ...], ...]:
    """Layers of what hangs on hinges of its own: each pane of a window whose frames are separate, else the whole."""
    spaces = [index for index, layer in enumerate(opening.layers) if layer.is_cavity]
    if opening.kind != "window" or opening.frames != "separate" or not spaces:
        return (opening.layers,)
    return opening.layers[: spaces[-1]], opening.layers[spaces[-1] :]


def _within(taker: Taker, path: Path, given: Value | None, usual: float, most: float) -> float:
    """Distance on the leaf, from the file or the usual share; one beyond the leaf is told and the leaf's edge taken."""
    if given is None or given.unknown:
        taker.assume(path, f"{str(path[-1]).replace('_', ' ')} {1000 * usual:.0f} mm", "common practice, no source")
        return usual
    value = taker.quantity(path, given, "length")
    if value > most:
        taker.say_fit("beyond-the-leaf", path, f"{value:.3f} m", f"the leaf is {most:.3f} m there",
                      "measure from the hinge line, on the leaf",
                      mends=(Mend("set it to", path, down(most)),))  # fmt: skip
        return most
    return value


def _seal_force(taker: Taker, root: BuildFile, opening: OpeningInPlace, at: Path) -> float:
    typed = root.openings[opening.name].seals
    if opening.seals is None or typed is None:
        return 0.0
    seal: Seal = opening.seals.seal
    return max(taker.quantity((*at, "seals", "force"), typed.force, "force_per_length",
                              fallback=seal.force_per_length, source=str(seal.source),
                              label="force of the seal"), 0.0)  # fmt: skip
