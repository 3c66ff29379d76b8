"""Faces and openings of all rooms as walls of the heat network, each listed once."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.evaluation.heat.case import Heated
from hushwright.evaluation.heat.layers import ThermalBuildUp, thermal_build_up
from hushwright.evaluation.results.heat import FaceHeat
from hushwright.model.build import LayerInPlace, OpeningInPlace, Room, Surface, TreatmentInPlace
from hushwright.physics.thermal.conduction import SurfaceResistances, surface_resistances
from hushwright.physics.thermal.layers import HeatFlow

CAB = "cab"
SUNLIT = "sunlit "
"""Before the name of a face of the vehicle on which the sun may shine."""
UNDERSIDE = "outside"
_SUNLIT = {"left": "left", "right": "right", "ceiling": "roof", "front": "front", "rear": "rear"}
_COLD: dict[str, HeatFlow] = {"ceiling": "up", "floor": "down"}
_HOT: dict[str, HeatFlow] = {"ceiling": "down", "floor": "up"}
_LEAVES = ("door", "window")
_BEHIND_FURNITURE, _AT_GLASS = 0.25, 0.13
"""m²·K/W, surface resistances where mould is judged; ISO 13788."""

_SOLAR_FACTOR = {1: 0.8, 2: 0.7}
"""Total solar energy transmittance [-] by number of panes; three and more 0.6; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Wall:
    """A face or an opening: what is beyond it, its area [m²] and layers, outside first."""

    name: str
    room: str
    beyond: str  # another room, "cab", "outside", or the sunlit face
    face: str
    area: float
    layers: tuple[LayerInPlace, ...]
    treatments: tuple[TreatmentInPlace, ...]
    glazed: bool
    place: str


@dataclass(frozen=True, slots=True)
class Pane:
    """Glass through which the sun shines into a room: face of the vehicle, area [m²], solar factor [-]."""

    room: str
    face: str
    area: float
    solar_factor: float


def walls_of(case: Heated) -> tuple[Wall, ...]:
    """Every face and opening through which heat passes, a wall between two rooms once."""
    rooms = {room.name: room for room in case.rooms}
    found: list[Wall] = []
    joined: set[frozenset[str]] = set()
    for room in case.rooms:
        for surface in room.surfaces:
            other = rooms.get(surface.beyond)
            if other is not None:
                pair = frozenset((room.name, other.name))
                if pair in joined or not _facing(surface, other):
                    continue
                joined.add(pair)
            found += _walls(case, room, surface, other)
    return tuple(each for each in found if each.layers and each.area > 0.0)


def _facing(surface: Surface, other: Room) -> tuple[LayerInPlace, ...]:
    """Layers of both rooms between them, seen from the room of the surface: theirs first."""
    theirs = [each.layers for each in other.surfaces if each.beyond == surface.room]
    beyond = tuple(layer for layers in theirs for layer in reversed(layers))
    return (*beyond, *surface.layers)


def _walls(case: Heated, room: Room, surface: Surface, other: Room | None) -> list[Wall]:
    treatments = tuple(each for each in room.treatments if each.face == surface.face)
    sunlit = _SUNLIT.get(surface.face)
    outdoors = UNDERSIDE if sunlit is None else SUNLIT + sunlit
    beyond = surface.beyond if other is not None or surface.beyond == CAB else outdoors
    layers = surface.layers if other is None else _facing(surface, other)
    doors = [each for each in _openings(case, room, surface, other) if _layers_of(case, surface, each)]
    area = surface.area - sum(each.area * each.number for each in doors)
    found = [Wall(surface.name, room.name, beyond, surface.face, max(area, 0.0), layers, treatments, False,
                  surface.place)]  # fmt: skip
    for each in doors:
        found.append(Wall(each.name, room.name, beyond, surface.face, each.area * each.number,
                          _layers_of(case, surface, each), (), each.kind in _GLAZED, each.place))  # fmt: skip
    return found


_GLAZED = ("window", "vehicle window")


def _openings(case: Heated, room: Room, surface: Surface, other: Room | None) -> list[OpeningInPlace]:
    """Doors and windows in a face, from either side of a wall between rooms; panes of the vehicle in the face."""
    theirs = {each.face for each in other.surfaces if each.beyond == room.name} if other is not None else set()
    found = []
    for each in case.openings:
        here = each.room == room.name and each.face == surface.face
        there = other is not None and each.room == other.name and each.face in theirs
        if (here or there) and (each.kind in _LEAVES or (each.kind == "vehicle window" and room.purpose != "quiet")):
            found.append(each)
    return found


def _layers_of(case: Heated, surface: Surface, opening: OpeningInPlace) -> tuple[LayerInPlace, ...]:
    """Layers of a door; one that is behind another keeps what lies outside the inner leaf of its wall."""
    cut = surface.last_cavity
    if opening.behind and cut is not None and not any(layer.is_cavity for layer in opening.layers):
        return (*surface.layers[: cut + 1], *opening.layers) if opening.layers else ()
    return opening.layers


def panes_of(case: Heated) -> tuple[Pane, ...]:
    """Glass towards the sun: panes of the vehicle straight into a room, or with a window of the room behind them."""
    found = []
    for each in case.openings:
        if each.kind != "vehicle window" or each.face not in _SUNLIT:
            continue
        inner = next((one for one in case.openings if one.behind == each.name and one.kind == "window"), None)
        room = next((one for one in case.rooms if one.name == (inner or each).room), None)
        if room is None or (room.purpose == "quiet" and inner is None):
            continue
        panes = sum(layer.kind == "glass" for layer in (*each.layers, *(inner.layers if inner is not None else ())))
        area = min(each.area, inner.area) if inner is not None else each.area
        found.append(Pane(room.name, _SUNLIT[each.face], area * each.number, _SOLAR_FACTOR.get(max(panes, 1), 0.6)))
    return tuple(found)


def build_up_of(case: Heated, wall: Wall, *, hot: bool) -> ThermalBuildUp:
    """Strips of a wall for a warm room, or for a hot day."""
    flow = (_HOT if hot else _COLD).get(wall.face, "horizontal")
    sheet = (case.vehicle.skin.name, case.vehicle.skin_thickness)
    return thermal_build_up(wall.layers, wall.treatments, case.climate.materials, sheet, flow)


def surfaces_of(case: Heated, wall: Wall, flow: HeatFlow, wind: float) -> SurfaceResistances:
    """Surface resistances of a wall; still air on both sides of one between rooms or towards the cab."""
    found = surface_resistances(flow, wind)
    if wall.beyond == CAB or any(room.name == wall.beyond for room in case.rooms):
        return SurfaceResistances(found.inside, found.inside)
    return found


def surface_factor_of(case: Heated, wall: Wall) -> float:
    """Temperature factor of the coldest place of a wall's surface, as mould is judged."""
    build_up = build_up_of(case, wall, hot=False)
    outside = surfaces_of(case, wall, build_up.heat_flow, _DESIGN_WIND).outside
    return build_up.coldest_factor(outside, _AT_GLASS if wall.glazed else _BEHIND_FURNITURE)


_DESIGN_WIND = 4.0
"""m/s, ISO 6946."""


def faces_of(case: Heated, walls: tuple[Wall, ...]) -> tuple[FaceHeat, ...]:
    """What every wall lets through in winter, by the standard's surfaces."""
    found = []
    for wall in walls:
        build_up = build_up_of(case, wall, hot=False)
        mixed = build_up.resistance(surfaces_of(case, wall, build_up.heat_flow, _DESIGN_WIND))
        found.append(
            FaceHeat(
                wall.name, wall.room, wall.beyond, wall.area, mixed.transmittance, 1.0 / mixed.upper,
                1.0 / mixed.lower, surface_factor_of(case, wall),
                mixed.validity, wall.place,
            )
        )  # fmt: skip
    return tuple(found)
