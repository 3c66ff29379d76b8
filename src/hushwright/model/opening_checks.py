"""Whether openings can be where the file puts them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from hushwright.document.schema.openings import Opening
from hushwright.model.build import OpeningInPlace, Room, VehicleInPlace
from hushwright.model.section import Section
from hushwright.model.taking import Path, Taker

LEAVES = ("door", "window", "vehicle door", "vehicle window")
_EDGE = 0.02  # m, how far an edge may pass the finished face before it is told; frames overlap by more
_OF_LEAVES = ("layers", "seals", "behind")
_NEEDS_KIND: Mapping[str, tuple[str, ...]] = {
    **dict.fromkeys(_OF_LEAVES, LEAVES),
    "frames": ("door", "window", "vehicle window"),
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
    section = owner.section if owner is not None else vehicle.section
    front, rear = (owner.front, owner.rear) if owner is not None else (0.0, vehicle.load_length)
    beyond = _beyond(opening, section, front, rear)
    if beyond > _EDGE:
        face = f"{owner.name}.{opening.face}" if owner is not None else f"vehicle.{opening.face}"
        taker.say_fit("opening-outside-face", ("openings", opening.name), f"{1000 * beyond:.0f} mm too far",
                      f"the opening reaches beyond {face}", "check its size, sill and offset")  # fmt: skip


def _beyond(opening: OpeningInPlace, section: Section, front: float, rear: float) -> float:
    """How far an opening reaches beyond its face [m]; negative inside."""
    station, across, middle = opening.centre
    low, high = middle - opening.height / 2.0, middle + opening.height / 2.0
    if opening.face in ("front", "rear"):
        clear = min(section.half_width_at(side, each) for side in ("left", "right") for each in (low, high))
        return max(abs(across) + opening.width / 2.0 - clear, section.floor_height - low, high - section.ceiling_height)
    ends = max(front - (station - opening.width / 2.0), station + opening.width / 2.0 - rear)
    if opening.face in ("ceiling", "floor"):
        width = section.ceiling_width if opening.face == "ceiling" else section.floor_width
        return max(ends, opening.height / 2.0 - width / 2.0)
    return max(ends, section.floor_height - low, high - section.ceiling_height)


def check_overlaps(taker: Taker, openings: Iterable[OpeningInPlace]) -> None:
    """Note openings that lie in each other."""
    listed = tuple(openings)
    for index, first in enumerate(listed):
        for second in listed[index + 1 :]:
            same = (first.in_vehicle, first.room, first.face) == (second.in_vehicle, second.room, second.face)
            in_series = second.behind == first.name or first.behind == second.name
            if same and not in_series and _common(first, second) > _EDGE:
                taker.say_fit("openings-overlap", ("openings", second.name), f"{1000 * _common(first, second):.0f} mm",
                              f"{second.name} reaches into {first.name}", "move one of them")  # fmt: skip


def _common(first: OpeningInPlace, second: OpeningInPlace) -> float:
    """How far two openings of one face reach into each other, the lesser of both directions [m]."""
    along = 1 if first.face in ("front", "rear") else 0
    up = 1 if first.face in ("ceiling", "floor") else 2
    return min(
        (first.width + second.width) / 2.0 - abs(first.centre[along] - second.centre[along]),
        (first.height + second.height) / 2.0 - abs(first.centre[up] - second.centre[up]),
    )


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
                              f"{surface.name} has only {surface.area:.2f} m²", "make them smaller")  # fmt: skip
