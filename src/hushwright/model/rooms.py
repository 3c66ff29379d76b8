"""Rooms: what remains of the vehicle's section after the build-ups, and the surfaces round them."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hushwright.document.schema import BuildFile
from hushwright.document.schema.rooms import Room as TypedRoom
from hushwright.document.schema.surfaces import Faces, SurfaceBuildUp
from hushwright.errors import InvalidInput
from hushwright.library.records import Blanket
from hushwright.model.bridges import resolve_bridges
from hushwright.model.build import LayerInPlace, MountSet, Ribs, Room, Surface, TreatmentInPlace, VehicleInPlace
from hushwright.model.layers import resolve_layers
from hushwright.model.section import Section, shrunk
from hushwright.model.taking import Path, Taker, dotted

_SPACE_TOLERANCE = 0.003  # m, how far a build-up may overlap a space before it is called too thick
_PLAIN_FACES = ("left", "right", "ceiling", "floor", "front", "rear")


@dataclass(frozen=True, slots=True)
class Extent:
    """A room's name and stations, and what lies before and behind it."""

    name: str
    purpose: str
    front: float
    rear: float
    ahead: str
    behind: str
    space_ahead: float
    space_behind: float


def resolve_rooms(
    taker: Taker, root: BuildFile, vehicle: VehicleInPlace, mounts: tuple[MountSet, ...]
) -> tuple[Room, ...]:
    """All rooms with their sections, surfaces and treatments, front first."""
    _check_names(taker, root)
    rooms = (
        _room(taker, root, extent, vehicle, mounts)
        for extent in _extents(taker, root.rooms, vehicle)
    )  # fmt: skip
    return tuple(room for room in rooms if room is not None)


def _check_names(taker: Taker, root: BuildFile) -> None:
    names = tuple(root.rooms)
    for name in root.surfaces:
        taker.name_of(name, names, ("surfaces", name), "room")
    for index, treatment in enumerate(root.treatments):
        taker.name_of(treatment.room, names, ("treatments", index, "room"), "room")
        taker.name_of(treatment.on, _PLAIN_FACES, ("treatments", index, "on"), "face")


def _extents(taker: Taker, rooms: dict[str, TypedRoom], vehicle: VehicleInPlace) -> list[Extent]:
    stations = [
        (
            name,
            room.purpose,
            taker.quantity(("rooms", name, "front"), room.front, "length", label=f"{name} front station"),
            taker.quantity(("rooms", name, "rear"), room.rear, "length", label=f"{name} rear station"),
        )
        for name, room in rooms.items()
    ]
    for name, _, front, rear in stations:
        _check_stations(taker, name, front, rear, vehicle)
    stations = sorted((each for each in stations if each[3] > each[2]), key=lambda each: each[2])
    for before, after in zip(stations, stations[1:], strict=False):
        if after[2] < before[3] - _SPACE_TOLERANCE:
            taker.say("rooms-overlap", ("rooms", after[0], "front"), f"{after[2]:.3f} m",
                      f"{before[0]} ends only at {before[3]:.3f} m", "stations run rearward; leave room for the wall between")  # fmt: skip
    found = []
    for index, (name, purpose, front, rear) in enumerate(stations):
        ahead = stations[index - 1] if index else None
        behind = stations[index + 1] if index + 1 < len(stations) else None
        found.append(
            Extent(name, purpose, front, rear,
                   ahead[0] if ahead else "cab", behind[0] if behind else "outdoors",
                   front - (ahead[3] if ahead else 0.0), (behind[2] if behind else vehicle.load_length) - rear)
        )  # fmt: skip
    return found


def _check_stations(taker: Taker, name: str, front: float, rear: float, vehicle: VehicleInPlace) -> None:
    if rear <= front:
        taker.say("stations-reversed", ("rooms", name, "rear"), f"{rear:.3f} m",
                  f"lies before the room's front at {front:.3f} m", "stations run rearward from the B-pillar line")  # fmt: skip
    if front < -_SPACE_TOLERANCE or rear > vehicle.load_length + _SPACE_TOLERANCE:
        taker.say("room-outside-vehicle", ("rooms", name), f"{front:.3f} to {rear:.3f} m",
                  f"the load space runs from 0 to {vehicle.load_length:.3f} m", "shorten the room")  # fmt: skip


def _room(
    taker: Taker, root: BuildFile, extent: Extent, vehicle: VehicleInPlace, mounts: tuple[MountSet, ...]
) -> Room | None:
    at: Path = ("rooms", extent.name)
    build_ups = _build_ups(taker, root.surfaces.get(extent.name), extent, vehicle, mounts)
    depth = {face: _taken(layers) for face, (layers, _, _) in build_ups.items()}
    _check_ends(taker, extent, depth)
    try:
        section = shrunk(vehicle.section, depth["left"], depth["right"], depth["floor"],
                         vehicle.floor_to_bow - depth["ceiling"])  # fmt: skip
    except InvalidInput as problem:
        taker.say("layers-too-thick", ("surfaces", extent.name), "", str(problem),
                  "thin the build-ups or take a wider or higher body")  # fmt: skip
        return None
    boxes = _WheelBoxes.in_room(extent, vehicle, section, depth["wheel_boxes"])
    surfaces = []
    for face, (layers, typed, path) in build_ups.items():
        shapes = boxes.shapes() if face == "wheel_boxes" else (_shape(face, section, extent, boxes),)
        for name, area, width, height, centre in shapes:
            if area <= 0.0:
                continue
            bridges = resolve_bridges(taker, root, extent.name, name, layers, typed, path, area)
            gap = taker.quantity((*path, "edge_gap"), typed.edge_gap, "length") if typed is not None else 0.0
            surfaces.append(
                Surface(extent.name, name, _beyond(name, extent), layers, bridges, area, width, height, centre, gap,
                        dotted(path))
            )  # fmt: skip
    treatments = _treatments(taker, root, extent.name)
    return Room(extent.name, extent.purpose, extent.front, extent.rear, section, tuple(surfaces), treatments,
                boxes.volume, dotted(at))  # fmt: skip


def _taken(layers: tuple[LayerInPlace, ...]) -> float:
    return sum(layer.thickness for layer in layers if layer.kind not in ("skin", "damping"))


def _beyond(face: str, extent: Extent) -> str:
    return {"front": extent.ahead, "rear": extent.behind}.get(face, "outdoors")


def _build_ups(
    taker: Taker, faces: Faces | None, extent: Extent, vehicle: VehicleInPlace, mounts: tuple[MountSet, ...]
) -> dict[str, tuple[tuple[LayerInPlace, ...], SurfaceBuildUp | None, Path]]:
    found = {}
    for face in (*_PLAIN_FACES, "wheel_boxes"):
        typed, path = _typed_face(taker, faces, face, extent.name)
        ribs, extra = _ribs_behind(face, vehicle)
        if typed is not None and typed.layers:
            layers = resolve_layers(taker, typed.layers, (*path, "layers"), vehicle, ribs=ribs, extra_depth=extra,
                                    mounts=mounts)  # fmt: skip
        else:
            layers = _bare(taker, face, extent, vehicle, path)
        found[face] = (layers, typed, path)
    return found


def _ribs_behind(face: str, vehicle: VehicleInPlace) -> tuple[Ribs | None, float]:
    if face in ("left", "right"):
        return vehicle.ribs, 0.0
    return (vehicle.bows, vehicle.bows.depth) if face == "ceiling" else (None, 0.0)


def _typed_face(taker: Taker, faces: Faces | None, face: str, room: str) -> tuple[SurfaceBuildUp | None, Path]:
    path: Path = ("surfaces", room, face)
    typed: SurfaceBuildUp | None = getattr(faces, face) if faces is not None else None
    if typed is None or not typed.same_as:
        return typed, path
    other = getattr(faces, typed.same_as, None)
    if typed.same_as == face or not isinstance(other, SurfaceBuildUp) or other.same_as:
        taker.say("unknown-name", (*path, "same_as"), typed.same_as, "no build-up of this room has that name",
                  "name a face of this room that has layers of its own")  # fmt: skip
        return typed, path
    return other, ("surfaces", room, typed.same_as)


def _bare(
    taker: Taker, face: str, extent: Extent, vehicle: VehicleInPlace, path: Path
) -> tuple[LayerInPlace, ...]:
    """Bare sheet where the file says nothing: the vehicle's skin, or at an end between rooms nothing at all."""
    if face == "front" and extent.ahead != "cab":
        return ()
    if face == "rear" and extent.behind != "outdoors":
        return ()
    if face != "wheel_boxes" or vehicle.wheel_boxes is not None:
        taker.assume(path, f"{extent.name} {face.replace('_', ' ')} is bare sheet", "nothing is given")
    density = vehicle.skin.density.value * vehicle.skin_thickness
    return (LayerInPlace("skin", f"body skin, {vehicle.skin.name}", vehicle.skin_thickness, density, vehicle.skin,
                         dotted(path)),)  # fmt: skip


def _check_ends(taker: Taker, extent: Extent, depth: dict[str, float]) -> None:
    for face, space in (("front", extent.space_ahead), ("rear", extent.space_behind)):
        if depth[face] > space + _SPACE_TOLERANCE and not taker.shifts:
            taker.say("layers-too-thick", ("surfaces", extent.name, face), f"{1000 * depth[face]:.0f} mm",
                      f"the space there is {1000 * space:.0f} mm deep", "move the station or thin the layers")  # fmt: skip
        elif 0.0 < depth[face] < space - 0.01 and not taker.shifts:
            taker.say("space-left-over", ("surfaces", extent.name, face), f"{1000 * depth[face]:.0f} mm",
                      f"the space there is {1000 * space:.0f} mm deep; the rest stays empty",
                      "deepen the cavity or move the station", severity="warning")  # fmt: skip


Shape = tuple[str, float, float, float, tuple[float, float, float]]


def _shape(face: str, section: Section, extent: Extent, boxes: _WheelBoxes) -> Shape:
    length, middle = extent.rear - extent.front, (extent.front + extent.rear) / 2.0
    z = section.floor_height + section.height / 2.0
    if face in ("left", "right"):
        run = section.side_length(face)
        y = section.half_width_at(face, z) * (1.0 if face == "left" else -1.0)
        return face, run * length - boxes.side_area, length, run, (middle, y, z)
    if face == "ceiling":
        return face, section.ceiling_width * length, length, section.ceiling_width, (middle, 0.0, section.ceiling_height)
    if face == "floor":
        area = section.floor_width * length - boxes.floor_area
        return face, area, length, section.floor_width, (middle, 0.0, section.floor_height)
    station = extent.front if face == "front" else extent.rear
    width = section.area / section.height
    return face, section.area, width, section.height, (station, 0.0, z)


@dataclass(frozen=True, slots=True)
class _WheelBoxes:
    """What the finished wheel boxes take from a room, both sides together."""

    intrusion: float = 0.0
    rise: float = 0.0
    length: float = 0.0
    ends: int = 0
    middle: float = 0.0
    half_between: float = 0.0
    floor_height: float = 0.0

    @classmethod
    def in_room(cls, extent: Extent, vehicle: VehicleInPlace, section: Section, lining: float) -> _WheelBoxes:
        if vehicle.wheel_boxes is None:
            return cls()
        between, height, front, rear = vehicle.wheel_boxes
        start, end = max(extent.front, front - lining), min(extent.rear, rear + lining)
        half = between / 2.0 - lining
        intrusion = section.half_width_at("left", section.floor_height) - half
        rise = height + lining - section.floor_height
        if end <= start or intrusion <= 0.0 or rise <= 0.0:
            return cls()
        ends = (front - lining > extent.front) + (rear + lining < extent.rear)
        return cls(intrusion, rise, end - start, ends, (start + end) / 2.0, half, section.floor_height)

    @property
    def volume(self) -> float:
        return 2.0 * self.intrusion * self.rise * self.length

    @property
    def side_area(self) -> float:
        return self.rise * self.length

    @property
    def floor_area(self) -> float:
        return 2.0 * self.intrusion * self.length

    def shapes(self) -> tuple[Shape, ...]:
        area = (self.intrusion + self.rise) * self.length + self.ends * self.intrusion * self.rise
        y, z = self.half_between + self.intrusion / 2.0, self.floor_height + self.rise / 2.0
        height = self.intrusion + self.rise
        return (
            ("wheel_box_left", area, self.length, height, (self.middle, y, z)),
            ("wheel_box_right", area, self.length, height, (self.middle, -y, z)),
        )


def _treatments(taker: Taker, root: BuildFile, room: str) -> tuple[TreatmentInPlace, ...]:
    found = []
    for index, typed in enumerate(root.treatments):
        at: Path = ("treatments", index)
        if typed.room != room:
            continue
        blanket = taker.record(Blanket, typed.absorber, (*at, "absorber"))
        if blanket is None:
            continue
        found.append(
            TreatmentInPlace(
                room, typed.on, blanket,
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
