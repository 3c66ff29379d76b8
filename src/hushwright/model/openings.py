"""Doors, windows, glands, ducts, holes."""

from __future__ import annotations

import math
from dataclasses import replace

from hushwright.document.schema import BuildFile
from hushwright.document.schema.openings import Opening, SealLine
from hushwright.library.records import Seal
from hushwright.model.battens import placed_battens
from hushwright.model.build import LayerInPlace, OpeningInPlace, Room, SealInPlace, VehicleInPlace
from hushwright.model.layers import resolve_layers
from hushwright.model.masses import mass_of_leaf
from hushwright.model.octaves import octave_values
from hushwright.model.opening_checks import (
    HUNG,
    LEAVES,
    check_areas,
    check_behind,
    check_keys,
    check_overlaps,
    check_place,
)
from hushwright.model.rooms import perimeter
from hushwright.model.taking import Path, Taker, dotted
from hushwright.model.wheel_boxes import WheelBoxes

VEHICLE_FACES = ("left", "right", "front", "rear", "ceiling", "floor")
ROOM_FACES = VEHICLE_FACES
_DOOR_SKIN = "vehicle door"
OVERLAP_OF_A_ROW = 0.015
"""m that a leaf lies over its frame for each row of seals; common practice, no source."""
_SHORTER = 0.01  # m, from which a way through is told to be shorter than its wall


def resolve_openings(
    taker: Taker, root: BuildFile, vehicle: VehicleInPlace, rooms: tuple[Room, ...]
) -> tuple[OpeningInPlace, ...]:
    """All openings in place."""
    found = []
    check_behind(taker, root.openings)
    for name, opening in root.openings.items():
        at: Path = ("openings", name)
        check_keys(taker, opening, at)
        owner, _, face = opening.face.partition(".")
        if not _face_known(taker, owner, face, root, rooms, at):
            continue
        placed = _opening(taker, name, opening, owner, face, root, vehicle, rooms, at)
        if placed is not None:
            check_place(taker, placed, next((room for room in rooms if room.name == owner), None), vehicle)
            found.append(placed)
    check_areas(taker, found, rooms)
    check_overlaps(taker, found, rooms, vehicle)
    return tuple(found)


def _face_known(taker: Taker, owner: str, face: str, root: BuildFile, rooms: tuple[Room, ...], at: Path) -> bool:
    """Whether the face is there; one of a room that could not be resolved is passed over, its room is noted."""
    if owner == "vehicle":
        return taker.name_of(face, VEHICLE_FACES, (*at, "face"), "face of the vehicle")
    if not taker.name_of(owner, (*root.rooms, "vehicle"), (*at, "face"), "room"):
        return False
    if not taker.name_of(face, ROOM_FACES, (*at, "face"), f"face of {owner}"):
        return False
    room = next((room for room in rooms if room.name == owner), None)
    return room is not None and room.surface(face) is not None


def _opening(
    taker: Taker,
    name: str,
    typed: Opening,
    owner: str,
    face: str,
    root: BuildFile,
    vehicle: VehicleInPlace,
    rooms: tuple[Room, ...],
    at: Path,
) -> OpeningInPlace | None:
    size = _size(taker, typed, at)
    if size is None:
        return None
    width, height, round_ = size
    area = math.pi / 4.0 * width**2 if round_ else width * height
    overlap = _overlap(taker, typed, owner, at)
    below = 0.0 if typed.kind == "door" else overlap  # a door has the floor there
    leaf = (width + 2.0 * overlap, height + overlap + below)
    layers, _ = placed_battens(face, 0.0, leaf, _layers(taker, typed, vehicle, at), (), WheelBoxes())
    in_vehicle = owner == "vehicle"
    sill = taker.quantity((*at, "sill"), typed.sill, "length")
    offset = taker.quantity((*at, "offset"), typed.offset, "length")
    room = _room_behind(face, offset, rooms) if in_vehicle else owner
    length = perimeter(
        width + overlap, height + (overlap + below) / 2.0, round_=round_
    )  # seals lie midway over the frame
    found = OpeningInPlace(
        name=name, kind=typed.kind, room=room, face=face, in_vehicle=in_vehicle, width=width, height=height, area=area,
        number=typed.number, round=round_, layers=layers, frames=typed.frames,
        reveal=taker.quantity((*at, "reveal"), typed.reveal, "length"),
        seals=_seals(taker, typed.seals, length, (*at, "seals")),
        behind=typed.behind, filled=typed.filled,
        depth=_depth(taker, typed, owner, face, rooms, vehicle, at),
        insertion_loss=_insertion_loss(taker, typed, at),
        run=_run_of(taker, typed, root, owner, at),
        centre=_centre(face, owner, sill + height / 2.0, offset, rooms, vehicle),
        mass=0.0, place=dotted(at), overlap=overlap,
    )  # fmt: skip
    return replace(found, mass=mass_of_leaf(found, layers))


def _depth(
    taker: Taker, typed: Opening, owner: str, face: str, rooms: tuple[Room, ...], vehicle: VehicleInPlace, at: Path
) -> float:
    """Way through a hole or gland: as given, else through the whole build-up of its face."""
    room = next((room for room in rooms if room.name == owner), None)
    surface = room.surface(face) if room is not None else None
    wall = sum(layer.thickness for layer in surface.layers) if surface is not None else vehicle.skin_thickness
    if typed.depth is not None and not typed.depth.unknown:
        depth = taker.quantity((*at, "depth"), typed.depth, "length")
        if typed.kind in ("gland", "hole") and depth < wall - _SHORTER:
            taker.say_fit("shorter-than-wall", (*at, "depth"), f"{1000 * depth:.0f} mm",
                          f"the wall there is {1000 * wall:.0f} mm thick", "give the whole way through it",
                          severity="warning")  # fmt: skip
        return depth
    if typed.kind in ("gland", "hole"):
        taker.assume((*at, "depth"), f"it goes straight through the wall, {1000 * wall:.0f} mm", "build-up of its face")
    return wall


def _insertion_loss(taker: Taker, typed: Opening, at: Path) -> tuple[tuple[float, float], ...]:
    path = (*at, "insertion_loss")
    if typed.kind != "duct":
        return ()
    pairs = octave_values(taker, typed.insertion_loss, path)
    if not pairs and not typed.run:
        taker.assume(path, "the duct is an open hole, nothing is lost in it", "nothing is given")
    return pairs


def _run_of(taker: Taker, typed: Opening, root: BuildFile, owner: str, at: Path) -> str:
    """Run that passes a duct, which its own insertion loss would overrule."""
    if typed.kind != "duct" or not typed.run:
        return ""
    runs = root.air.runs if root.air is not None else {}
    if not taker.name_of(typed.run, tuple(runs), (*at, "run"), "run"):
        return ""
    if owner not in (runs[typed.run].takes_from, runs[typed.run].gives_to):
        taker.say("run-elsewhere", (*at, "run"), typed.run, f"neither takes air from {owner} nor gives any to it",
                  "name a run of this room", severity="error")  # fmt: skip
        return ""
    if typed.insertion_loss is not None:
        taker.say("key-without-effect", (*at, "run"), typed.run, "stands beside an insertion loss, which counts",
                  "take one of them out", severity="warning")  # fmt: skip
        return ""
    return typed.run


def _size(taker: Taker, typed: Opening, at: Path) -> tuple[float, float, bool] | None:
    if typed.diameter is not None:
        diameter = taker.quantity((*at, "diameter"), typed.diameter, "length")
        return diameter, diameter, True
    if typed.width is None or typed.height is None:
        taker.say("value-needed", at, typed.kind, "has no size", "give `width` and `height`, or `diameter`")
        return None
    return (
        taker.quantity((*at, "width"), typed.width, "length"),
        taker.quantity((*at, "height"), typed.height, "length"),
        False,
    )


def _overlap(taker: Taker, typed: Opening, owner: str, at: Path) -> float:
    """How far a leaf that the workshop builds lies over its frame: as given, else room for each row of seals."""
    path = (*at, "overlap")
    if typed.kind not in HUNG or owner == "vehicle":
        return 0.0
    if typed.overlap is not None and not typed.overlap.unknown:
        return taker.quantity(path, typed.overlap, "length", label=f"overlap of {at[-1]}")
    if typed.seals is None:
        return 0.0
    usual = OVERLAP_OF_A_ROW * typed.seals.rows
    taker.assume(path, f"{str(at[-1]).replace('_', ' ')} lies {1000 * usual:.0f} mm over its frame",
                 "room for each row of seals; common practice, no source")  # fmt: skip
    return usual


def _layers(taker: Taker, typed: Opening, vehicle: VehicleInPlace, at: Path) -> tuple[LayerInPlace, ...]:
    if typed.layers:
        return resolve_layers(taker, typed.layers, (*at, "layers"), vehicle)
    if typed.kind == _DOOR_SKIN:
        density = vehicle.skin.density.value * vehicle.skin_thickness
        taker.assume((*at, "layers"), "this door of the vehicle is bare sheet", "nothing is given")
        return (LayerInPlace("skin", f"body skin, {vehicle.skin.name}", vehicle.skin_thickness, density, vehicle.skin,
                             dotted(at)),)  # fmt: skip
    if typed.kind in LEAVES:
        taker.say("value-needed", at, typed.kind, "has no layers", "list the panes or the leaf under `layers`")
    return ()


def _seals(taker: Taker, typed: SealLine | None, length: float, at: Path) -> SealInPlace | None:
    if typed is None:
        return None
    seal = taker.record(Seal, typed.seal, (*at, "seal"))
    if seal is None:
        return None
    gap = taker.quantity((*at, "residual_gap"), typed.residual_gap, "length", fallback=seal.residual_gap,
                         source=str(seal.source), label="residual slit of the seal")  # fmt: skip
    return SealInPlace(seal, typed.rows, max(gap, 0.0), length)


def _room_behind(face: str, offset: float, rooms: tuple[Room, ...]) -> str:
    """Room at whose station an opening of the vehicle lies; an end of the vehicle belongs to the room next to it."""
    if not rooms:
        return ""
    if face == "rear":
        return rooms[-1].name
    if face == "front":
        return rooms[0].name
    return next((room.name for room in rooms if room.front <= offset <= room.rear), rooms[-1].name)


def _centre(
    face: str, owner: str, height: float, offset: float, rooms: tuple[Room, ...], vehicle: VehicleInPlace
) -> tuple[float, float, float]:
    room = next((room for room in rooms if room.name == owner), None)
    if face in ("front", "rear"):
        if room is None:
            return (0.0 if face == "front" else vehicle.load_length), offset, height
        return (room.front if face == "front" else room.rear), offset, height
    section = room.section if room is not None else vehicle.section
    side = "right" if face.endswith("right") else "left"
    y = 0.0 if face in ("ceiling", "floor") else section.half_width_at(side, height)
    return offset, -y if side == "right" else y, height
