"""How the floating room and heavy fittings are held, from the file or by the conventions of the library."""

from __future__ import annotations

import numpy as np

from hushwright.document.schema import BuildFile
from hushwright.document.schema.anchoring import FittingRestraint, Restraint, RoomAnchor
from hushwright.document.values import Value
from hushwright.library.records import Limit
from hushwright.model.anchoring_in_place import Anchoring, AnchorInPlace, HeldFitting
from hushwright.model.build import MassItem
from hushwright.model.parts import MOUNT_PAD, MountSet
from hushwright.model.taking import Path, Taker, dotted

_FEWEST = 3  # anchors that hold a body against turning
_ONE_LINE = 0.02  # m, spread of anchors across their line below which they are on one
_ANCHOR_PLATE = 0.04  # m across washer or plate of an anchor; common practice, no source
_LOW = 0.15  # m over the steel floor, below which an anchor stands between the mounts
_AT: Path = ("restraint",)


def resolve_anchoring(
    taker: Taker, root: BuildFile, masses: tuple[MassItem, ...], mounts: tuple[MountSet, ...]
) -> Anchoring:
    """Join what the file says of restraint with the conventions of the library."""
    typed = root.restraint or Restraint()
    level = taker.library.find(Limit, "design level of restraint")
    chosen = typed.design_level is not None and not typed.design_level.unknown
    return Anchoring(
        given=root.restraint is not None,
        rule=typed.rule,
        design_level=taker.convention((*_AT, "design_level"), typed.design_level, "count",
                                      "design level of restraint", "design level of restraint"),
        design_basis="chosen in the build file" if chosen else str(level.source),
        bolt_strength=taker.convention((*_AT, "bolt_strength"), typed.bolt_strength, "force", "bolt strength",
                                       "what one bolt carries"),
        sheet_shear=taker.convention((*_AT, "sheet_shear"), typed.sheet_shear, "modulus", "shear stress of sheet",
                                     "shear stress that sheet bears"),
        snubber_stiffness=taker.convention((*_AT, "snubber_stiffness"), typed.snubber_stiffness, "stiffness",
                                           "snubber stiffness", "stiffness of the snubbers in one direction"),
        snubbers_given=typed.snubber_stiffness is not None and not typed.snubber_stiffness.unknown,
        room=_clear_of_mounts(taker, _room_anchors(taker, typed), mounts),
        fittings=_fittings(taker, root, masses),
    )  # fmt: skip


def _clear_of_mounts(
    taker: Taker, anchors: tuple[AnchorInPlace, ...], mounts: tuple[MountSet, ...]
) -> tuple[AnchorInPlace, ...]:
    """Note low anchors that stand where the pad of a mount is."""
    least = (MOUNT_PAD + _ANCHOR_PLATE) / 2.0
    places = [(station, y, group.name) for group in mounts for station, y in group.places]
    for each in anchors:
        station, y, height = each.at
        hit = next((place for place in places if height < _LOW and abs(station - place[0]) < least
                    and abs(y - place[1]) < least), None)  # fmt: skip
        if hit is not None:
            path: Path = ("restraint", "anchors", int(each.place.rsplit(".", 1)[-1]))
            taker.say_fit("anchor-on-mount", path, f"station {1000 * station:.0f} mm",
                          f"a mount of {hit[2].replace('_', ' ')} stands there, at {1000 * hit[0]:.0f} mm: pad and"
                          f" anchor take {1000 * least:.0f} mm from middle to middle",
                          f"move the anchor along the van by {1000 * (least - abs(station - hit[0])):.0f} mm or more",
                          severity="warning")  # fmt: skip
    return anchors


def _room_anchors(taker: Taker, typed: Restraint) -> tuple[AnchorInPlace, ...]:
    found = tuple(_room_anchor(taker, anchor, index) for index, anchor in enumerate(typed.anchors))
    if found and on_one_line(found):
        taker.say_fit("anchors-on-one-line", (*_AT, "anchors"), f"{len(found)} anchors",
                      "let the room turn: three that are not on one line are needed",
                      "set anchors at the corners")  # fmt: skip
    return found


def _room_anchor(taker: Taker, typed: RoomAnchor, index: int) -> AnchorInPlace:
    at: Path = (*_AT, "anchors", index)
    place = (
        taker.quantity((*at, "station"), typed.station, "length", label=f"anchor {index + 1} station"),
        taker.quantity((*at, "offset"), typed.offset, "length", label=f"anchor {index + 1} offset"),
        taker.quantity((*at, "height"), typed.height, "length", label=f"anchor {index + 1} height"),
    )
    strength, assumed = _strength(taker, typed.strength, at)
    return AnchorInPlace(place, strength, assumed, typed.seat, dotted(at))


def _strength(taker: Taker, typed: Value | None, at: Path) -> tuple[float, bool]:
    if typed is not None and not typed.unknown:
        return taker.quantity((*at, "strength"), typed, "force", label="what one anchor carries"), False
    return taker.convention((*at, "strength"), None, "force", "anchor strength", "what one anchor carries"), True


def on_one_line(anchors: tuple[AnchorInPlace, ...]) -> bool:
    """Whether a body on these anchors could turn about a line through them."""
    if len(anchors) < _FEWEST:
        return True
    places = np.array([anchor.at for anchor in anchors])
    return float(np.linalg.svd(places - places.mean(axis=0), compute_uv=False)[1]) < _ONE_LINE


def _fittings(taker: Taker, root: BuildFile, masses: tuple[MassItem, ...]) -> tuple[HeldFitting, ...]:
    """Fittings that are heavy or say how they are held; those spread along the van are fixed along it."""
    heavy = taker.library.find(Limit, "heavy fitting").value.value
    found = []
    by_place: dict[str, list[MassItem]] = {}
    for item in masses:
        by_place.setdefault(item.place, []).append(item)
    for index, fitting in enumerate(root.fittings):
        at: Path = ("fittings", index)
        own = by_place.get(dotted(at), [])
        mass = sum(item.mass for item in own)
        along = fitting.length is not None and fitting.restraint is None
        if mass <= 0.0 or along or (mass < heavy and fitting.restraint is None):
            continue
        centre = (own[0].station, own[0].y, own[0].z)
        anchors = () if fitting.restraint is None else _base(taker, fitting.restraint, centre, (*at, "restraint"))
        found.append(HeldFitting(own[0].fitting, mass, centre, anchors, dotted(at)))
    return tuple(found)


def _base(
    taker: Taker, typed: FittingRestraint, centre: tuple[float, float, float], at: Path
) -> tuple[AnchorInPlace, ...]:
    """Anchors in two rows along the van, evenly over the base."""
    length = taker.quantity((*at, "base_length"), typed.base_length, "length")
    width = taker.quantity((*at, "base_width"), typed.base_width, "length")
    height = centre[2]
    if typed.base_height is not None and not typed.base_height.unknown:
        height = taker.quantity((*at, "base_height"), typed.base_height, "length")
    strength, assumed = _strength(taker, typed.strength, at)
    left = (typed.anchors + 1) // 2
    rows = [(1.0, left), (-1.0, typed.anchors - left)]
    return tuple(
        AnchorInPlace(
            (centre[0] + length * (_share(number, count) - 0.5), centre[1] + side * width / 2.0, height),
            strength, assumed, typed.seat, dotted(at),
        )
        for side, count in rows
        for number in range(count)
    )  # fmt: skip


def _share(number: int, count: int) -> float:
    return 0.5 if count == 1 else number / (count - 1)
