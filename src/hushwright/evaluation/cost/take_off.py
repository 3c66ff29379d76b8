"""Quantities from geometry: what everything in the build takes of material, parts and work."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import lru_cache

from hushwright.evaluation.cost.services import devices_of, lines_of, wires_of
from hushwright.evaluation.results.cost import Thing
from hushwright.model.air_in_place import (
    BaffleBoxInPlace,
    BendInPlace,
    DuctShape,
    FanInPlace,
    FilterInPlace,
    FlexibleInPlace,
    GrilleInPlace,
    Piece,
    ReducerInPlace,
    RunInPlace,
    StraightInPlace,
)
from hushwright.model.battens import pieces_of
from hushwright.model.build import Build, LayerInPlace, MountSet, OpeningInPlace, Room, Surface
from hushwright.model.faces import CavityInPlace
from hushwright.model.strips import bays_of

BUILD_UPS, OPENINGS, MOUNTS, TREATMENTS, AIR, CLIMATE, CUTS, ANCHORING, FITTINGS, VEHICLE = (
    "build-ups", "openings", "mounts", "treatments", "air", "climate", "cuts", "anchoring", "fittings", "vehicle",
)  # fmt: skip
DONOR = "donor van"


def things_of(build: Build) -> tuple[Thing, ...]:
    """Everything that is bought or worked on, place by place.

    Parameters
    ----------
    build : Build
        What is there.

    Returns
    -------
    tuple of Thing
        With every amount that can be counted from the geometry.
    """
    found = [Thing("vehicle", DONOR, None, VEHICLE, DONOR, (("piece", 1.0),), "vehicle")]
    for room in build.rooms:
        found += _room(room, build.openings)
    for opening in build.openings:
        found += _opening(opening, _purpose(build, opening.room))
    for door in build.doors:
        at = f"openings.{door.name}.hardware"
        rooms = [each.room for each in build.openings if each.name == door.name]
        buys = _purpose(build, rooms[0]) if rooms else "rooms"
        found += [Thing(kind, kind, None, OPENINGS, buys, (("piece", float(number * door.frames)),), at)
                  for kind, number in (("latch", door.latches), ("hinge", door.hinges)) if number]  # fmt: skip
    found += [_mount(group) for group in build.mounts]
    for run in build.air.runs:
        found += [each for piece in run.pieces if (each := _piece(run, piece)) is not None]
    found += [*devices_of(build), *wires_of(build), *lines_of(build)]
    return (*found, *_climate(build), *_cuts(build), *_anchors(build), *_fittings(build))


def _purpose(build: Build, room: str) -> str:
    purpose = next((each.purpose for each in build.rooms if each.name == room), "")
    return "isolation" if purpose == "quiet" else "rooms"


def _room(room: Room, openings: tuple[OpeningInPlace, ...]) -> list[Thing]:
    buys = "isolation" if room.purpose == "quiet" else "rooms"
    found: list[Thing] = []
    for surface in room.surfaces:
        area = net_area(room, surface, openings)
        for layer in surface.layers:
            found += [replace(each, bays=bays_of(surface, layer)) for each in _layer(layer, area, BUILD_UPS, buys)]
            found += _timber(pieces_of(surface, layer), layer, BUILD_UPS, buys)
    for treatment in room.treatments:
        face = room.surface(treatment.face)
        area = (face.area if face is not None else 0.0) * treatment.coverage
        blanket = treatment.blanket
        found.append(
            _sheet("absorber", blanket.name, treatment.thickness, area, blanket.density.value, TREATMENTS,
                   "room acoustics", treatment.place)
        )  # fmt: skip
    return found


def net_area(room: Room, surface: Surface, openings: tuple[OpeningInPlace, ...]) -> float:
    """Area of a face without its openings [m²]."""
    holes = sum(
        each.area * each.number
        for each in openings
        if not each.in_vehicle and (each.room, each.face) == (room.name, surface.face)
    )
    return max(surface.area - holes, 0.0)


def _layer(layer: LayerInPlace, area: float, group: str, buys: str) -> list[Thing]:
    if layer.kind == "skin":
        return []
    if layer.cavity is not None:
        return _space(layer, layer.cavity, area, group, buys)
    density = layer.surface_density / (layer.thickness * layer.coverage) if layer.thickness * layer.coverage else 0.0
    return [_sheet(layer.kind, layer.name, layer.thickness, area * layer.coverage, density, group, buys, layer.place)]


def _sheet(
    kind: str, name: str, thickness: float, area: float, density: float, group: str, buys: str, place: str
) -> Thing:
    volume = area * thickness
    amounts = (("m2", area), ("m3", volume), ("kg", volume * density))
    return Thing(kind, name, thickness, group, buys, amounts, place)


def _space(layer: LayerInPlace, space: CavityInPlace, area: float, group: str, buys: str) -> list[Thing]:
    """Wool of a cavity; nothing for air alone."""
    found = []
    if space.fill is not None and space.fill_thickness > 0.0:
        found.append(_sheet("fill", space.fill.name, space.fill_thickness, area, space.fill.density.value, group, buys,
                            f"{layer.place}.fill"))  # fmt: skip
    return found


def _timber(pieces: tuple[float, ...], layer: LayerInPlace, group: str, buys: str) -> list[Thing]:
    """Battens or bearers of a face, as many and as long as they are drawn."""
    frame = layer.cavity.frame if layer.cavity is not None else None
    if frame is None:
        return []
    length = math.fsum(pieces)
    volume = length * frame.width * frame.depth
    amounts = (("m", length), ("m3", volume), ("kg", volume * frame.sheet.density.value))
    kind = "bearer" if layer.kind == "floor_mounts" else "batten"
    return [Thing(kind, frame.sheet.name, frame.depth, group, buys, amounts, layer.place, pieces=pieces)]


def _opening(opening: OpeningInPlace, buys: str) -> list[Thing]:
    found: list[Thing] = []
    for layer in opening.layers:
        whole = _layer(layer, opening.leaf_area * opening.number, OPENINGS, buys)
        found += [replace(each, bays=bays_of(opening, layer)) for each in whole]
        found += _timber(pieces_of(opening, layer), layer, OPENINGS, buys)
    if opening.seals is not None and not opening.in_vehicle:  # the van's own doors have theirs
        length = opening.seals.length * opening.seals.rows * opening.number
        found.append(Thing("seal", opening.seals.seal.name, None, OPENINGS, buys, (("m", length),),
                           f"{opening.place}.seals"))  # fmt: skip
    pieces = (("piece", float(opening.number)), ("m2", opening.area * opening.number))
    shown = opening.name.replace("_", " ")
    if opening.kind == "gland":
        found.append(Thing("gland", "gland", opening.width, OPENINGS, buys, pieces[:1], opening.place))
    elif opening.kind in ("door", "window"):  # fitted as one piece; its parts are bought
        found.append(Thing(opening.kind, shown, None, OPENINGS, buys, pieces, opening.place, is_bought=False))
    return found


def _mount(group: MountSet) -> Thing:
    name = group.record.name if group.record is not None else group.name.replace("_", " ")
    return Thing("mount", name, None, MOUNTS, "isolation", (("piece", float(len(group.places))),), group.place)


def _piece(run: RunInPlace, piece: Piece) -> Thing | None:
    """A piece of a run; open pipe ends are nothing."""
    what = piece.what
    place = piece.place

    def part(kind: str, size: float | None, length: float | None = None, area: float | None = None) -> Thing:
        amounts = [("piece", 1.0)]
        amounts += [("m", length)] if length is not None else []
        amounts += [("m2", area)] if area is not None else []
        return Thing(kind, kind, size, AIR, "air", tuple(amounts), place)

    if isinstance(what, GrilleInPlace):
        return None if what.bare else part("grille", what.shape.width, area=what.shape.area)
    if isinstance(what, StraightInPlace):
        wall = _girth(what.shape) * what.length
        return part("lined duct" if what.lining > 0.0 else "duct", what.shape.width, what.length, wall)
    if isinstance(what, FlexibleInPlace):
        return part("lined flexible duct" if what.lined else "flexible duct", what.diameter, what.length)
    if isinstance(what, BendInPlace):
        return part("bend", what.shape.width)
    if isinstance(what, ReducerInPlace):
        return part("reducer", what.after.width)
    if isinstance(what, FilterInPlace):
        return part("filter", None)
    if isinstance(what, BaffleBoxInPlace):
        amounts = (("piece", 1.0), ("m2", _box_faces(what)), ("m3", what.length * what.width * what.height))
        return Thing("baffle box", "baffle box", None, AIR, "air", amounts, place)
    assert isinstance(what, FanInPlace)
    return Thing("fan", f"fan {piece.name}" if not piece.name.startswith("fan") else piece.name, None, AIR, "air",
                 (("piece", 1.0),), place)  # fmt: skip


def _girth(shape: DuctShape) -> float:
    return math.pi * shape.width if shape.round else 2.0 * (shape.width + shape.height)


def _box_faces(box: BaffleBoxInPlace) -> float:
    """Faces of a box with its baffles, which leave a passage each [m²]."""
    length, width, height = box.length, box.width, box.height
    return 2.0 * (length * width + length * height + width * height) + box.baffles * height * (width - box.passage)


def _climate(build: Build) -> Iterator[Thing]:
    if build.climate is None:
        return
    for kind, devices in (("heater", build.climate.heaters), ("cooler", build.climate.coolers)):
        for device in devices:
            room = device.room.replace("_", " ")
            yield Thing(kind, f"{kind} {room}", None, CLIMATE, "warmth and cooling", (("piece", 1.0),), device.place)


def _cuts(build: Build) -> Iterator[Thing]:
    for cut in build.cuts:
        edge = math.pi * cut.width if cut.round else 2.0 * (cut.width + cut.height)
        amounts = (("piece", 1.0), ("m", edge))
        yield Thing(
            "cut", f"cut {cut.name.replace('_', ' ')}", None, CUTS, "rooms", amounts, cut.place, is_bought=False
        )
        if cut.reinforcement not in ("", "none"):
            yield Thing(cut.reinforcement, cut.reinforcement, None, CUTS, "rooms", amounts, cut.place)


def _anchors(build: Build) -> Iterator[Thing]:
    if build.anchoring.room:
        number = float(len(build.anchoring.room))
        yield Thing("anchor", "anchor", None, ANCHORING, "safety", (("piece", number),), "restraint.anchors")


def _fittings(build: Build) -> Iterator[Thing]:
    lengths = {f"fittings.{index}": typed.length for index, typed in enumerate(build.document.root.fittings)}
    for item in build.masses:
        if not item.fitting or item.liquid:
            continue
        length = lengths.get(item.place)
        amounts = [("piece", 1.0), ("kg", item.mass)]
        amounts += [("m", length.value)] if length is not None and not length.unknown else []
        yield Thing("fitting", item.name, None, FITTINGS, "fittings", tuple(amounts), item.place)


@lru_cache(maxsize=64)
def together(things: tuple[Thing, ...]) -> tuple[Thing, ...]:
    """Things of one name and size in one line each, whatever they are built into; in order of their first place."""
    found: dict[tuple[str, str, float | None], list[Thing]] = {}
    for each in things:
        size = None if each.size is None else round(each.size, 6)
        found.setdefault((each.kind, each.name, size), []).append(each)
    return tuple(_joined(same) for same in found.values())


def _joined(same: list[Thing]) -> Thing:
    units = [unit for unit, _ in same[0].amounts]
    amounts = tuple((unit, summed(same, unit)) for unit in units)
    first = same[0]
    pieces = tuple(piece for each in same for piece in each.pieces)
    bays = tuple(bay for each in same for bay in each.bays)
    return replace(first, amounts=amounts, pieces=pieces, bays=bays)


def summed(things: Iterable[Thing], unit: str) -> float:
    """Amount of all of them in one unit."""
    return math.fsum(each.amount(unit) or 0.0 for each in things)
