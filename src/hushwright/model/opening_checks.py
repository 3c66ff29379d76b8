"""Whether openings can be where the file puts them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from hushwright.document.schema.openings import Opening
from hushwright.model.build import OpeningInPlace, Room, VehicleInPlace
from hushwright.model.mending import EDGE, beyond, common, mends_of_overlap, mends_of_place, too_far_where
from hushwright.model.taking import Path, Taker

LEAVES = ("door", "window", "vehicle door", "vehicle window")
HUNG = ("door", "window")
"""Kinds whose leaf or pane the workshop builds."""
_OF_LEAVES = ("layers", "seals", "behind")
_NEEDS_KIND: Mapping[str, tuple[str, ...]] = {
    **dict.fromkeys(_OF_LEAVES, LEAVES),
    "frames": ("door", "window", "vehicle window"),
    "overlap": HUNG,
    "reveal": ("window", "vehicle window"),
    "filled": ("gland", "hole"),
    "depth": ("gland", "hole"),
    "insertion_loss": ("duct",),
    "run": ("duct",),
}


def check_keys(taker: Taker, typed: Opening, at: Path) -> None:
    """Note keys that say nothing for this kind of opening."""
    for key, kinds in _NEEDS_KIND.items():
        if key in typed.model_fields_set and typed.kind not in kinds:
            taker.say("key-without-effect", (*at, key), key, f"says nothing about a {typed.kind}",
                      f"it belongs to {', '.join(kinds)}", severity="warning")  # fmt: skip
    if typed.diameter is not None and (typed.width is not None or typed.height is not None):
        taker.say("key-without-effect", (*at, "diameter"), "diameter", "stands beside a width or height",
                  "a round opening has a diameter alone", severity="warning")  # fmt: skip


def check_behind(taker: Taker, openings: Mapping[str, Opening]) -> None:
    """Note doors that are behind nothing, or behind each other in a circle."""
    for name, opening in openings.items():
        path: Path = ("openings", name, "behind")
        if not opening.behind or not taker.name_of(opening.behind, tuple(openings), path, "opening"):
            continue
        chain, at = [name], opening
        while at.behind and at.behind in openings and at.behind not in chain:
            chain.append(at.behind)
            at = openings[at.behind]
        if at.behind == name:
            taker.say("behind-in-a-circle", path, opening.behind, f"one never gets in: {' → '.join([*chain, name])}",
                      "name the door that one passes before this one")  # fmt: skip


def check_place(taker: Taker, opening: OpeningInPlace, owner: Room | None, vehicle: VehicleInPlace) -> None:
    """Note an opening that reaches beyond its face."""
    too_far = beyond(opening, owner, vehicle)
    if too_far > EDGE:
        whose = owner.name.replace("_", " ") if owner is not None else "the vehicle"
        mends = mends_of_place(opening, owner, vehicle)
        edge, free = too_far_where(opening, owner, vehicle)
        taker.say_fit("opening-outside-face", ("openings", opening.name), f"{1000 * too_far:.0f} mm too far",
                      f"{opening.name.replace('_', ' ')} reaches {edge} the {opening.face} of {whose}, {free}",
                      "" if mends else "check its size, sill and offset", mends=mends)  # fmt: skip


def check_overlaps(
    taker: Taker, openings: Iterable[OpeningInPlace], rooms: Iterable[Room], vehicle: VehicleInPlace
) -> None:
    """Note openings that lie in each other."""
    listed, owners = tuple(openings), {room.name: room for room in rooms}
    for index, first in enumerate(listed):
        for second in listed[index + 1 :]:
            same = (first.in_vehicle, first.room, first.face) == (second.in_vehicle, second.room, second.face)
            in_series = second.behind == first.name or first.behind == second.name
            if same and not in_series and common(first, second) > EDGE:
                owner = None if second.in_vehicle else owners.get(second.room)
                mends = mends_of_overlap(first, second, owner, vehicle)
                taker.say_fit("openings-overlap", ("openings", second.name), f"{1000 * common(first, second):.0f} mm",
                              f"{second.name} reaches into {first.name}", "" if mends else "move one of them",
                              mends=mends)  # fmt: skip


def check_areas(taker: Taker, openings: Iterable[OpeningInPlace], rooms: Iterable[Room]) -> None:
    """Note faces that have more opening than area."""
    listed = tuple(openings)
    for room in rooms:
        for surface in room.surfaces:
            inside = [
                each for each in listed if not each.in_vehicle and (each.room, each.face) == (room.name, surface.face)
            ]
            before = {each.behind for each in inside}  # of two doors one behind the other the inner one takes the area
            area = sum(each.area * each.number for each in inside if each.name not in before)
            if inside and area > surface.area:
                taker.say_fit("openings-too-large", ("openings", inside[-1].name), f"{area:.2f} m²",
                              f"{surface.name} has only {surface.area:.2f} m²",
                              f"make them {area - surface.area:.2f} m² smaller together")  # fmt: skip
