"""The build in three dimensions: closed solids with names, and the whole as glTF with y upward.

Every solid is a prism: an outline with holes, moved along one way. The axes of the scene are those that other programs
expect: x to the right of the van, y up, z rearward, in metres.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from hushwright.drawings.geometry import bands, battens_over
from hushwright.drawings.layers import TONES, tone_of
from hushwright.drawings.parts import Part, Vector, parts_of
from hushwright.drawings.primitives import Point, area_of, box
from hushwright.drawings.things import things_of
from hushwright.model.build import Build, Room
from hushwright.model.parts import MOUNT_PAD

if TYPE_CHECKING:
    import trimesh

_EDGE = [0.03, 0.04, 0.05, 1.0]
_TRIANGLES = 4  # mode of a primitive of glTF; less is points and lines
_SEE_THROUGH = {"room": 60, "body": 40, "route": 255}


@dataclass(frozen=True, slots=True)
class Solid:
    """A prism: its outline and holes in a plane, the frame of that plane, how thick it is, and in which colour."""

    name: str
    part: str  # part of the build that it shows
    outline: tuple[Point, ...]
    holes: tuple[tuple[Point, ...], ...]
    corner: Vector
    along: Vector
    up: Vector
    outward: Vector
    thickness: float
    colour: tuple[int, int, int, int]

    @property
    def volume(self) -> float:
        """Volume [m³]."""
        return (area_of(self.outline) - sum(area_of(hole) for hole in self.holes)) * self.thickness


def solids_of(build: Build, *, with_air: bool = False) -> tuple[Solid, ...]:
    """Every solid of the scene.

    Parameters
    ----------
    build : Build
        The build.
    with_air : bool
        Whether the air of the rooms is there as solids of its own.

    Returns
    -------
    tuple of Solid
        Sheet parts, steel floor and sides, mounts, bearers, fittings of known size; names are unique.
    """
    found = [*_body(build), *(_of_part(part) for part in parts_of(build)), *_mounts(build), *_bearers(build),
             *_fittings(build)]  # fmt: skip
    if with_air:
        found += [solid for room in build.rooms for solid in air_of(build, room)]
    return tuple(found)


def _colour(tone: str, see_through: int = 255) -> tuple[int, int, int, int]:
    text = TONES[tone]
    return int(text[1:3], 16), int(text[3:5], 16), int(text[5:7], 16), see_through


def _of_part(part: Part) -> Solid:
    frame = part.frame
    return Solid(f"{part.code} {part.label}", f"{part.room}.{part.face}", part.outline, part.holes, frame.corner,
                 frame.along, frame.up, frame.outward, part.thickness,
                 _colour(tone_of(part.kind) or "sheet"))  # fmt: skip


def _body(build: Build) -> Iterator[Solid]:
    """Steel floor and the sheet of both sides, plane by plane."""
    vehicle = build.vehicle
    half, long, sheet = vehicle.section.floor_width / 2.0, vehicle.load_length, vehicle.skin_thickness
    steel = _colour("metal", _SEE_THROUGH["body"])
    yield Solid("steel floor", "vehicle", box((0.0, 0.0), (long, 2.0 * half)), (), (0.0, -half, 0.0), (1.0, 0.0, 0.0),
                (0.0, 1.0, 0.0), (0.0, 0.0, -1.0), sheet, steel)  # fmt: skip
    for face, sign in (("left", 1.0), ("right", -1.0)):
        line = vehicle.section.left if face == "left" else vehicle.section.right
        for index, (low, high) in enumerate(zip(line, line[1:], strict=False), 1):
            run = ((high[0] - low[0]) ** 2 + (high[1] - low[1]) ** 2) ** 0.5
            up = (0.0, (high[0] - low[0]) / run, (high[1] - low[1]) / run)
            yield Solid(f"skin {face} {index}", "vehicle", box((0.0, 0.0), (long, run)), (), (0.0, low[0], low[1]),
                        (1.0, 0.0, 0.0), up, (0.0, sign * up[2], -sign * up[1]), sheet, steel)  # fmt: skip


def _mounts(build: Build) -> Iterator[Solid]:
    for group in build.mounts:
        for index, (station, y) in enumerate(group.places, 1):
            yield _block(f"mount {group.name} {index}", group.name, (station, y, group.free_height / 2.0),
                         (MOUNT_PAD, MOUNT_PAD, group.free_height), _colour("limp"))  # fmt: skip


def _bearers(build: Build) -> Iterator[Solid]:
    """Bearers over the mounts, each as it is cut, under the plate of the floating floor."""
    for room in build.rooms:
        floor = room.surface("floor")
        if floor is None:
            continue
        tops = {floor.layers.index(band.layer): band.inner for band in bands(floor)}
        for number, (piece, (along, across)) in enumerate(zip(floor.battens, battens_over(floor), strict=True), 1):
            space = floor.layers[piece.layer].cavity
            if space is not None and space.frame is not None:
                deep, top = space.frame.depth, tops[piece.layer]
                centre = (along[0] + along[1]) / 2.0, (across[0] + across[1]) / 2.0, top - deep / 2.0
                size = along[1] - along[0], across[1] - across[0], deep
                yield _block(f"bearer {room.name} {number}", floor.name, centre, size, _colour("sheet"))


def _fittings(build: Build) -> Iterator[Solid]:
    """Fittings whose base is known; as high as twice their centre of gravity lies over the floor of their room."""
    for thing in things_of(build):
        along, across, high = thing.size
        if thing.layer != "fittings" or along <= 0.0 or across <= 0.0:
            continue
        tall = high if high > 0.0 else min(max(2.0 * thing.z, 0.05), 0.6)
        yield _block(f"{thing.number} {thing.part}", thing.part, (thing.station, thing.y, thing.z),
                     (along, across, tall), _colour("covering"))  # fmt: skip


def _block(name: str, part: str, centre: Vector, size: Vector, colour: tuple[int, int, int, int]) -> Solid:
    corner = (centre[0] - size[0] / 2.0, centre[1] - size[1] / 2.0, centre[2] - size[2] / 2.0)
    return Solid(name, part, box((0.0, 0.0), (size[0], size[1])), (), corner, (1.0, 0.0, 0.0), (0.0, 1.0, 0.0),
                 (0.0, 0.0, 1.0), size[2], colour)  # fmt: skip


def air_of(build: Build, room: Room) -> tuple[Solid, ...]:
    """Air of a room as slices along the van: between the wheel boxes narrower than before and behind them."""
    left, right = room.surface("wheel_box_left"), room.surface("wheel_box_right")
    boxes = build.vehicle.wheel_boxes
    polygon = room.section.polygon
    if boxes is None or left is None or right is None:
        return (_slice(room, "air", polygon, room.front, room.rear),)
    lining = left.thickness
    start, end = max(room.front, boxes[2] - lining), min(room.rear, boxes[3] + lining)
    half, top = boxes[0] / 2.0 - lining, boxes[1] + lining
    slices = (
        ("air before", polygon, room.front, start),
        ("air between", _notched(room, half, top), start, end),
        ("air behind", polygon, end, room.rear),
    )
    return tuple(_slice(room, *each) for each in slices if each[3] - each[2] > 1e-9)


def _slice(room: Room, word: str, outline: tuple[Point, ...], front: float, rear: float) -> Solid:
    return Solid(f"{room.name} {word}", room.name, outline, (), (front, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0),
                 (1.0, 0.0, 0.0), rear - front, _colour("glass", _SEE_THROUGH["room"]))  # fmt: skip


def _notched(room: Room, half: float, top: float) -> tuple[Point, ...]:
    """Section without its two wheel boxes, each an upright rectangle at the foot of a side."""
    from shapely import Polygon
    from shapely import box as rectangle
    from shapely.geometry.polygon import orient

    foot, wide = room.section.floor_height, room.section.floor_width / 2.0
    whole = Polygon(room.section.polygon)
    for sign in (-1.0, 1.0):
        ys = sorted((sign * half, sign * wide))
        whole = whole.difference(rectangle(ys[0], foot, ys[1], top))
    return tuple((float(y), float(z)) for y, z in orient(whole).exterior.coords[:-1])


def mesh_of(solid: Solid) -> trimesh.Trimesh:
    """Closed mesh of a solid in the axes of the scene."""
    import numpy as np
    from trimesh import Trimesh
    from trimesh.creation import extrude_triangulation

    points, triangles = _triangles(solid)
    flat = extrude_triangulation(points, triangles, height=solid.thickness)
    frame = np.column_stack([_in_scene(way) for way in (solid.along, solid.up, solid.outward)])
    vertices = flat.vertices @ frame.T + np.asarray(_in_scene(solid.corner))
    faces = flat.faces if np.linalg.det(frame) > 0.0 else flat.faces[:, ::-1]
    colours = np.tile(np.array(solid.colour, dtype=np.uint8), (len(faces), 1))
    return Trimesh(vertices=vertices, faces=faces, face_colors=colours, process=False)


def _in_scene(way: Vector) -> Vector:
    """Station, y left, z up to x right, y up, z rearward."""
    return (-way[1], way[2], way[0])


def _triangles(solid: Solid) -> tuple[Any, Any]:
    """Triangles of the plane that keep to its outline and holes."""
    import numpy as np
    from shapely import Polygon, constrained_delaunay_triangles

    shape = Polygon(solid.outline, list(solid.holes))
    corners: dict[Point, int] = {}
    triangles = []
    for triangle in constrained_delaunay_triangles(shape).geoms:
        ring = [tuple(map(float, point)) for point in triangle.exterior.coords[:-1]]
        turn = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, [*ring[1:], ring[0]], strict=True))
        ring = ring if turn > 0.0 else ring[::-1]
        triangles.append([corners.setdefault((point[0], point[1]), len(corners)) for point in ring])
    return np.array(list(corners)), np.array(triangles)


def edges_of(solid: Solid) -> tuple[tuple[Vector, Vector], ...]:
    """Ends of every edge of a solid, in the axes of the scene: round each face of its outline, and between the two."""
    import numpy as np

    frame = np.column_stack([_in_scene(way) for way in (solid.along, solid.up, solid.outward)])
    corner = np.asarray(_in_scene(solid.corner))

    def at(point: Point, height: float) -> Vector:
        x, y, z = map(float, frame @ (point[0], point[1], height) + corner)
        return x, y, z

    found = []
    for ring in (solid.outline, *solid.holes):
        for here, there in zip(ring, (*ring[1:], ring[0]), strict=True):
            found += [(at(here, height), at(there, height)) for height in (0.0, solid.thickness)]
            found.append((at(here, 0.0), at(here, solid.thickness)))
    return tuple(found)


def gltf(build: Build, *, with_air: bool = False, part: str = "", with_edges: bool = False) -> bytes:
    """The scene as one binary glTF file.

    Parameters
    ----------
    build : Build
        The build.
    with_air : bool
        Whether the air of the rooms is in it.
    part : str
        Only what shows this part of the build, `quiet_room.left`; everything when left out.
    with_edges : bool
        Whether the edges are drawn as lines, for who looks at it on a screen.

    Returns
    -------
    bytes
        A ``.glb`` file, the same for the same input.
    """
    from trimesh import Scene, load_path

    scene = Scene()
    for solid in solids_of(build, with_air=with_air):
        if part in ("", solid.part):
            scene.add_geometry(mesh_of(solid), node_name=solid.name, geom_name=solid.name)
            if with_edges and solid.outline:
                lines = load_path(edges_of(solid))
                scene.add_geometry(lines, node_name=f"{solid.name}, edges", geom_name=f"{solid.name}, edges")
    made: object = scene.export(file_type="glb", tree_postprocessor=_matt)  # type: ignore[no-untyped-call]
    assert isinstance(made, bytes)
    return made


def _matt(tree: dict[str, Any]) -> None:
    """Say that nothing is of bare metal, which is what a viewer takes where no material is named."""
    matt = {"metallicFactor": 0.0, "roughnessFactor": 0.9}
    tree["materials"] = [
        {"doubleSided": True, "pbrMetallicRoughness": matt},
        {"pbrMetallicRoughness": {**matt, "baseColorFactor": _EDGE}},
    ]
    for mesh in tree.get("meshes", []):
        for primitive in mesh["primitives"]:
            is_line = primitive.get("mode", _TRIANGLES) < _TRIANGLES
            primitive["material"] = int(is_line)
            if is_line:
                primitive["attributes"].pop("COLOR_0", None)
