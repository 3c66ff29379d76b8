"""Rooms: what remains of the vehicle's section after the build-ups, and the surfaces round them."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hushwright.document.schema import BuildFile
from hushwright.document.schema.surfaces import Faces, SurfaceBuildUp
from hushwright.errors import InvalidInput, Mend
from hushwright.library.records import Blanket, Limit
from hushwright.model.battens import placed_battens
from hushwright.model.bridges import resolve_bridges
from hushwright.model.build import LayerInPlace, MountSet, Ribs, Room, Surface, TreatmentInPlace, VehicleInPlace
from hushwright.model.ends import check_ends_built
from hushwright.model.layers import resolve_layers
from hushwright.model.mending import down, mend_of_depth, up
from hushwright.model.pads import check_pads
from hushwright.model.section import LEAST_HEIGHT, Section, shrunk
from hushwright.model.stations import SHORTEST, SPACE_TOLERANCE, Extent
from hushwright.model.taking import Path, Taker, dotted
from hushwright.model.wheel_boxes import Shape, WheelBoxes

_LEFT_OVER = 0.01  # m, from which a space that no layer fills is told
_PLAIN_FACES = ("left", "right", "ceiling", "floor", "front", "rear")


def resolve_rooms(
    taker: Taker,
    root: BuildFile,
    extents: tuple[Extent, ...],
    vehicle: VehicleInPlace,
    mounts: tuple[MountSet, ...],
) -> tuple[Room, ...]:
    """All rooms with their sections, surfaces and treatments, front first."""
    _check_names(taker, root)
    check_ends_built(taker, root, extents)
    rooms = (_room(taker, root, extent, vehicle, mounts) for extent in extents)
    return tuple(room for room in rooms if room is not None)


def _check_names(taker: Taker, root: BuildFile) -> None:
    names = tuple(root.rooms)
    for name in root.surfaces:
        taker.name_of(name, names, ("surfaces", name), "room")
    for index, treatment in enumerate(root.treatments):
        if treatment.room:
            taker.name_of(treatment.room, names, ("treatments", index, "room"), "room")
        elif not any(room.purpose == "quiet" for room in root.rooms.values()):
            taker.say("value-needed", ("treatments", index), "", "names no room, and there is no quiet room",
                      "add `room:`")  # fmt: skip
        taker.name_of(treatment.on, _PLAIN_FACES, ("treatments", index, "on"), "face")


def _room(
    taker: Taker, root: BuildFile, extent: Extent, vehicle: VehicleInPlace, mounts: tuple[MountSet, ...]
) -> Room | None:
    at: Path = ("rooms", extent.name)
    build_ups = _build_ups(taker, root.surfaces.get(extent.name), extent, vehicle, mounts)
    depth = {face: _taken(layers) for face, (layers, _) in build_ups.items()}
    _check_ends(taker, extent, depth, build_ups)
    _check_bare(taker, extent, build_ups)
    try:
        section = shrunk(vehicle.section, depth["left"], depth["right"], depth["floor"],
                         vehicle.floor_to_bow - depth["ceiling"])  # fmt: skip
    except InvalidInput as problem:
        taker.say("layers-too-thick", ("surfaces", extent.name), extent.name, str(problem),
                  "thin the build-ups or take a wider or higher body",
                  mends=_room_left(build_ups, depth, vehicle))  # fmt: skip
        return None
    boxes = WheelBoxes.in_room(extent, vehicle, section, depth["wheel_boxes"])
    if not boxes.check(taker, extent, section, build_ups["wheel_boxes"][0]):
        return None
    surfaces = []
    for face, (layers, typed) in build_ups.items():
        shapes = boxes.shapes() if face == "wheel_boxes" else (_shape(face, section, extent, boxes),)
        for name, area, width, height, centre in shapes:
            if area <= 0.0:
                continue
            bridges = resolve_bridges(taker, root, extent.purpose, name, layers, typed.bridged, typed.bridges_path,
                                      area)  # fmt: skip
            built, battens = placed_battens(name, extent.front, (width, height), layers, mounts, boxes)
            check_pads(taker, root, (extent.front, height), built, battens, mounts)
            surfaces.append(
                Surface(extent.name, name, _beyond(name, extent), built, bridges, area, width, height, centre,
                        _edge_gap(taker, typed), dotted(typed.path), battens)
            )  # fmt: skip
    treatments = _treatments(taker, root, extent)
    return Room(extent.name, extent.purpose, extent.front, extent.rear, section, tuple(surfaces), treatments,
                boxes.volume, dotted(at))  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Face:
    """What the file says of a face, and where: layers, bridges and edge gap may stand in different places."""

    path: Path
    bridges_path: Path
    gap_path: Path
    layered: SurfaceBuildUp | None
    bridged: SurfaceBuildUp | None
    slit: SurfaceBuildUp | None


_BuildUp = tuple[tuple[LayerInPlace, ...], _Face]


def _edge_gap(taker: Taker, face: _Face) -> float:
    """Slit round the outer leaf [m]; unknown, it is that of ordinary work."""
    if face.slit is None:
        return 0.0
    usual = taker.library.find(Limit, "joint gap, ordinary work")
    gap = taker.quantity((*face.gap_path, "edge_gap"), face.slit.edge_gap, "length", fallback=usual.value,
                         source=str(usual.source), label="edge gap")  # fmt: skip
    return max(gap, 0.0)


def _taken(layers: tuple[LayerInPlace, ...]) -> float:
    return sum(layer.thickness for layer in layers if layer.kind not in ("skin", "damping"))


def _beyond(face: str, extent: Extent) -> str:
    return {"front": extent.ahead, "rear": extent.behind}.get(face, "outdoors")


def _build_ups(
    taker: Taker, faces: Faces | None, extent: Extent, vehicle: VehicleInPlace, mounts: tuple[MountSet, ...]
) -> dict[str, _BuildUp]:
    found: dict[str, _BuildUp] = {}
    for face in (*_PLAIN_FACES, "wheel_boxes"):
        typed = _typed_face(taker, faces, face, extent.name)
        ribs, extra = _ribs_behind(face, vehicle)
        if typed.layered is not None and typed.layered.layers:
            layers = resolve_layers(taker, typed.layered.layers, (*typed.path, "layers"), vehicle, ribs=ribs,
                                    extra_depth=extra, mounts=mounts if face == "floor" else None)  # fmt: skip
        else:
            layers = _bare(taker, face, extent, vehicle, typed.path)
        found[face] = (layers, typed)
    return found


def _ribs_behind(face: str, vehicle: VehicleInPlace) -> tuple[Ribs | None, float]:
    if face in ("left", "right"):
        return vehicle.ribs, 0.0
    return (vehicle.bows, vehicle.bows.depth) if face == "ceiling" else (None, 0.0)


def _typed_face(taker: Taker, faces: Faces | None, face: str, room: str) -> _Face:
    """Build-up of one face; with ``same_as`` the layers are another's, bridges and edge gap its own where given."""
    path: Path = ("surfaces", room, face)
    typed: SurfaceBuildUp | None = getattr(faces, face) if faces is not None else None
    if typed is None or not typed.same_as:
        return _Face(path, path, path, typed, typed, typed)
    other = getattr(faces, typed.same_as, None)
    if typed.same_as == face or not isinstance(other, SurfaceBuildUp) or other.same_as:
        taker.say("unknown-name", (*path, "same_as"), typed.same_as, "no build-up of this room has that name",
                  "name a face of this room that has layers of its own")  # fmt: skip
        return _Face(path, path, path, typed, typed, typed)
    if typed.layers:
        taker.say("key-without-effect", (*path, "layers"), "layers", "say nothing beside `same_as`",
                  "leave out one of the two", severity="warning")  # fmt: skip
    there: Path = ("surfaces", room, typed.same_as)
    own_bridges, own_gap = (key in typed.model_fields_set for key in ("bridges", "edge_gap"))
    return _Face(there, path if own_bridges else there, path if own_gap else there,
                 other, typed if own_bridges else other, typed if own_gap else other)  # fmt: skip


def _bare(taker: Taker, face: str, extent: Extent, vehicle: VehicleInPlace, path: Path) -> tuple[LayerInPlace, ...]:
    """Bare sheet where the file says nothing: the vehicle's skin, or at an end between rooms nothing at all."""
    if face == "front" and extent.ahead != "cab":
        return ()
    if face == "rear" and extent.behind != "outdoors":
        return ()
    if face != "wheel_boxes" or vehicle.wheel_boxes is not None:
        stands = "are" if face == "wheel_boxes" else "is"
        taker.assume(path, f"{extent.name} {face.replace('_', ' ')} {stands} bare sheet", "nothing is given")
    density = vehicle.skin.density.value * vehicle.skin_thickness
    return (LayerInPlace("skin", f"body skin, {vehicle.skin.name}", vehicle.skin_thickness, density, vehicle.skin,
                         dotted(path)),)  # fmt: skip


def _check_bare(taker: Taker, extent: Extent, build_ups: dict[str, _BuildUp]) -> None:
    """A quiet room without a single build-up is most likely forgotten."""
    given = any(typed.layered is not None and typed.layered.layers for _, typed in build_ups.values())
    if extent.purpose == "quiet" and not given:
        taker.say("quiet-room-bare", ("rooms", extent.name), extent.name,
                  "no face of the quiet room has a build-up: it is judged as bare sheet",
                  f"add `surfaces: {extent.name}:` with layers", severity="warning")  # fmt: skip


def _room_left(build_ups: dict[str, _BuildUp], depth: dict[str, float], vehicle: VehicleInPlace) -> tuple[Mend, ...]:
    """A space of floor or ceiling made shallower, where height is what lacks."""
    lacking = LEAST_HEIGHT - (vehicle.floor_to_bow - depth["ceiling"] - depth["floor"])
    if lacking <= 0.0:
        return ()
    return tuple(mend for face in ("ceiling", "floor")
                 for mend in mend_of_depth(build_ups[face][0], lacking, f"the {face}"))  # fmt: skip


def _check_ends(taker: Taker, extent: Extent, depth: dict[str, float], build_ups: dict[str, _BuildUp]) -> None:
    for face, space in (("front", extent.space_ahead), ("rear", extent.space_behind)):
        path = ("surfaces", extent.name, face)
        if depth[face] > space + SPACE_TOLERANCE:
            there = f"the space there is {1000 * space:.0f} mm deep" if space > 0.0 else "there is no space for it"
            taker.say_fit("layers-too-thick", path, f"{1000 * depth[face]:.0f} mm", there, "or thin its layers",
                          mends=_end_mends(extent, face, depth[face] - space, build_ups[face]))  # fmt: skip
        elif 0.0 < depth[face] < space - _LEFT_OVER:
            taker.say_fit("space-left-over", path, f"{1000 * depth[face]:.0f} mm",
                          f"the space there is {1000 * space:.0f} mm deep; the rest stays empty",
                          "deepen the cavity or move the station", severity="warning")  # fmt: skip


def _end_mends(extent: Extent, face: str, excess: float, build_up: _BuildUp) -> tuple[Mend, ...]:
    """The station moved away from the wall, or the wall's space made shallower."""
    front = face == "front"
    station = up(extent.front + excess) if front else down(extent.rear - excess)
    length = extent.rear - station if front else station - extent.front
    name = extent.name.replace("_", " ")
    moved = (Mend(f"move the {face} of {name} to", ("rooms", extent.name, face), station),)
    return (moved if length >= SHORTEST else ()) + mend_of_depth(build_up[0], excess, f"the {face} of {name}")


def _shape(face: str, section: Section, extent: Extent, boxes: WheelBoxes) -> Shape:
    length, middle = extent.rear - extent.front, (extent.front + extent.rear) / 2.0
    z = section.floor_height + section.height / 2.0
    if face in ("left", "right"):
        run = section.side_length(face)
        y = section.half_width_at(face, z) * (1.0 if face == "left" else -1.0)
        return face, run * length - boxes.side_area, length, run, (middle, y, z)
    if face == "ceiling":
        width = section.ceiling_width
        return face, width * length, length, width, (middle, 0.0, section.ceiling_height)
    if face == "floor":
        area = section.floor_width * length - boxes.floor_area
        return face, area, length, section.floor_width, (middle, 0.0, section.floor_height)
    station = extent.front if face == "front" else extent.rear
    width = section.area / section.height
    return face, section.area, width, section.height, (station, 0.0, z)


def _treatments(taker: Taker, root: BuildFile, extent: Extent) -> tuple[TreatmentInPlace, ...]:
    quiet = next((name for name, room in root.rooms.items() if room.purpose == "quiet"), "")
    found = []
    for index, typed in enumerate(root.treatments):
        at: Path = ("treatments", index)
        if (typed.room or quiet) != extent.name or typed.on not in _PLAIN_FACES:
            continue
        blanket = taker.record(Blanket, typed.absorber, (*at, "absorber"))
        if blanket is None:
            continue
        found.append(
            TreatmentInPlace(
                extent.name, typed.on, blanket,
                taker.quantity((*at, "thickness"), typed.thickness, "length", label="absorber thickness"),
                taker.quantity((*at, "coverage"), typed.coverage, "share", label="absorber coverage"),
                taker.quantity((*at, "air_behind"), typed.air_behind, "length", label="air behind the absorber"),
                dotted(at),
            )
        )  # fmt: skip
    return tuple(found)


def perimeter(width: float, height: float, *, round_: bool) -> float:
    """Edge length of an opening [m]."""
    return math.pi * width if round_ else 2.0 * (width + height)
