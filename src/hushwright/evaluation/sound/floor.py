"""The quiet room on its mounts: loads, swing, what the floor passes."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from hushwright.evaluation.guard import at
from hushwright.evaluation.results import MountLoad, MountsResult
from hushwright.library.records import Sheet
from hushwright.model.build import Build, LayerInPlace, MassItem, MountSet, Room, StateOfUse, Surface, VehicleInPlace
from hushwright.physics.acoustics.bands import FREQUENCIES
from hushwright.physics.air import STANDARD_GRAVITY, Air
from hushwright.physics.mechanics.air_spring import (
    UnderFloorAir,
    floor_resonance,
    flow_path_of_rectangle,
    piston_air_stiffness,
)
from hushwright.physics.mechanics.elastic_mount import ElasticMount
from hushwright.physics.mechanics.insertion_loss import floor_reduction_improvement
from hushwright.physics.mechanics.mobility import (
    bay_mobility,
    beam_mobility,
    floating_floor_mobility,
    joined_mobility,
    plate_mobility,
)
from hushwright.physics.mechanics.mounted_floor import MountedRoom, PlacedMount, settle
from hushwright.physics.mechanics.rigid_body import RigidBody, box_body, combined_body
from hushwright.physics.mechanics.suspension import swing_modes

_PERSON = (0.4, 0.5, 1.7)  # m, a standing person as a box; common practice, no source
_LEAST_LOAD_TIME = 60.0  # s after which a mount's load is read; creep is counted from there (decades of time)
_LEAST_LOAD_RANGE = 0.1  # kg between lowest and highest load, so that a range exists
_COLD, _NEUTRAL, _HOT = -10.0, 20.0, 40.0  # °C of the cold factor, of the data and beyond; common practice, no source
_DEPTH_STEP = 1e-4  # m; a tenth of a millimetre of the floor's air space moves no level by more than 0.02 dB
_LEAST_SIZE = 0.05  # m, so that a part has some inertia
_RUBBER_TRAVEL = 0.4  # share of the free height a mount without a record can be pressed; common practice, no source


ComplexArray = NDArray[np.complex128]


@dataclass(frozen=True, slots=True)
class Floating:
    """A floating room at rest in one state, for the sound domain and for headroom."""

    result: MountsResult
    mean_height: float
    count: int


def settled(build: Build, floating: Floating | None) -> Build:
    """Build as it stands when its mounts are loaded: the floor's air space is shallower by what they give."""
    room = build.room_for("quiet")
    if room is None or room.surface("floor") is None or floating is None:
        return build
    group = next(each for each in build.mounts if each.name == floating.result.group)
    loaded = _lowered(room, round((group.free_height - floating.mean_height) / _DEPTH_STEP) * _DEPTH_STEP)
    return replace(build, rooms=tuple(loaded if each is room else each for each in build.rooms))


@lru_cache(maxsize=256)
def _lowered(room: Room, given: float) -> Room:
    """Room whose floor has sunk [m]; equal rooms are one object, so that what hangs on them is found again."""
    floor = room.surface("floor")
    assert floor is not None
    layers = tuple(
        replace(layer, thickness=layer.thickness - given) if layer.kind == "floor_mounts" else layer
        for layer in floor.layers
    )
    loaded = replace(floor, layers=layers)
    return replace(room, surfaces=tuple(loaded if surface is floor else surface for surface in room.surfaces))


@lru_cache(maxsize=256)
def mass_on_mounts(build: Build, state: StateOfUse) -> tuple[MassItem, ...]:
    """Everything fixed to the quiet body alone and aboard in a state."""
    return tuple(item for item in build.aboard(state) if item.fixed_to == ("quiet",) and item.mass > 0.0)


@lru_cache(maxsize=64)
def _lightest(build: Build) -> tuple[MassItem, ...]:
    """What stands on the mounts in the state in which that is least."""
    return min((mass_on_mounts(build, each) for each in build.states), key=_mass_of)


def floating_room(build: Build, state: StateOfUse, air: Air) -> Floating | None:
    """Quiet room on its mounts in one state, `None` where nothing floats."""
    room = build.room_for("quiet")
    floor = room.surface("floor") if room is not None else None
    group = _group(build, floor)
    if room is None or floor is None or group is None:
        return None
    items, people = mass_on_mounts(build, state), state.people_in(room.name)
    at_rest = _float(items, people, _lightest(build), build.brief.person_mass, room, floor, group, build.vehicle,
                     build.brief.air_temperature, air)  # fmt: skip
    return replace(at_rest, result=replace(at_rest.result, state=state.name))


@dataclass(frozen=True, slots=True)
class FirstDay:
    """A stage of the building a minute after it is set on the mounts, nobody in it: mass [kg], mounts, swing [Hz]."""

    stage: str
    mass: float
    loads: tuple[MountLoad, ...]
    without_air: float
    with_air: float


def on_the_first_day(build: Build, air: Air) -> tuple[FirstDay, ...]:
    """The floor alone, as it is pushed before walls stand on it, and the finished room before anybody is in it."""
    room = build.room_for("quiet")
    floor = room.surface("floor") if room is not None else None
    group = _group(build, floor)
    if floor is None or group is None:
        return ()
    finished = _lightest(build)
    own = f"{floor.name.replace('.', ' ', 1)}, "
    alone = tuple(item for item in finished if item.group == "build-ups" and item.name.startswith(own))
    stages = (("floor alone", alone), ("finished room, empty", finished))
    return tuple(_first_day(name, items, build, floor, group, air) for name, items in stages if items)


def _first_day(
    stage: str, items: tuple[MassItem, ...], build: Build, floor: Surface, group: MountSet, air: Air
) -> FirstDay:
    body = combined_body([box_body(item.mass, (-item.station, item.y, item.z), _size(item.size)) for item in items])
    with at(group.place):
        found = _placed(body, floor, group, build.brief.air_temperature, at_once=True)
    loads = tuple(MountLoad(place, each.load / STANDARD_GRAVITY, each.deflection, each.status)
                  for place, each in zip(group.places, found.states, strict=True))  # fmt: skip
    space = under_floor(floor, group, found.mean_height)
    return FirstDay(stage, body.mass, loads, _vertical(body.mass, found),
                    floor_resonance(body.mass, found.vertical_stiffness, space, air))  # fmt: skip


def _mass_of(items: tuple[MassItem, ...]) -> float:
    return sum(item.mass for item in items)


def _group(build: Build, floor: Surface | None) -> MountSet | None:
    if floor is None:
        return None
    for layer in floor.layers:
        if layer.cavity is not None and layer.cavity.mount_group:
            return next((each for each in build.mounts if each.name == layer.cavity.mount_group), None)
    return None


@lru_cache(maxsize=256)
def _float(
    items: tuple[MassItem, ...],
    people: int,
    emptiest: tuple[MassItem, ...],
    person_mass: float,
    room: Room,
    floor: Surface,
    group: MountSet,
    vehicle: VehicleInPlace,
    temperature: float,
    air: Air,
) -> Floating:
    with at(group.place):
        body = _body(items, people, person_mass, room)
        found = _at_rest(body, floor, group, vehicle, temperature, air)
        if group.snubber_gap is None:
            return found
        set_on = _body(emptiest, 0, person_mass, room) if emptiest else body
        clear = group.snubber_gap - _sunk(found.result.loads, _placed(set_on, floor, group, temperature, at_once=True))
        return replace(found, result=replace(found.result, snubber_clear=clear))


def _placed(body: RigidBody, floor: Surface, group: MountSet, temperature: float, *, at_once: bool) -> MountedRoom:
    """Room on its mounts, as they stand the day it is set on them or after the years of the file."""
    mount = elastic_mount(group)
    placed = [PlacedMount((-station, y, floor.centre[2]), mount) for station, y in group.places]
    return settle(body, placed, temperature, _LEAST_LOAD_TIME if at_once else max(group.load_time, _LEAST_LOAD_TIME))


def _at_rest(
    body: RigidBody, floor: Surface, group: MountSet, vehicle: VehicleInPlace, temperature: float, air: Air
) -> Floating:
    at_rest = _placed(body, floor, group, temperature, at_once=False)
    loads = tuple(
        MountLoad(place, each.load / STANDARD_GRAVITY, each.deflection, each.status)
        for place, each in zip(group.places, at_rest.states, strict=True)
    )
    modes = swing_modes(body, at_rest.supports)
    vertical = _vertical(body.mass, at_rest)
    space = under_floor(floor, group, at_rest.mean_height)
    base = base_mobility(floor, vehicle, group.stands_on)
    improvement = _improvement(at_rest, floor, space, body.mass, base, air)
    notes = _of_the_most_pressed(at_rest)
    with_air = floor_resonance(body.mass, at_rest.vertical_stiffness, space, air)
    result = MountsResult(
        group.name, "", body.mass, loads, tuple((mode.motion, mode.frequency) for mode in modes), vertical, with_air,
        math.sqrt(2.0) * with_air, improvement, None, notes,
    )  # fmt: skip
    return Floating(result, at_rest.mean_height, len(loads))


def _of_the_most_pressed(at_rest: MountedRoom) -> tuple[str, ...]:
    """Notes of the mounts, each once: with the numbers of the mount that gives most."""
    told: dict[str, str] = {}
    for each in sorted(at_rest.states, key=lambda state: -state.deflection):
        for note in each.notes:
            told.setdefault(re.sub(r"\d+(?:\.\d+)?", "#", note), f"most loaded mount {note}")
    return tuple(told.values())


def _body(items: tuple[MassItem, ...], people: int, person_mass: float, room: Room) -> RigidBody:
    bodies = [
        box_body(item.mass, (-item.station, item.y, item.z), _size(item.size)) for item in items
    ]  # fmt: skip
    if people:
        middle = (-(room.front + room.rear) / 2.0, 0.0, room.section.floor_height + _PERSON[2] / 2.0)
        bodies.append(box_body(people * person_mass, middle, (room.length / 2.0, _PERSON[1], _PERSON[2])))
    return combined_body(bodies)


def _size(size: tuple[float, float, float]) -> tuple[float, float, float]:
    along, across, up = (max(each, _LEAST_SIZE) for each in size)
    return along, across, up


def elastic_mount(group: MountSet) -> ElasticMount:
    """Mount with the numbers of the file or the record."""
    travel = group.record.free_travel.value if group.record is not None else _RUBBER_TRAVEL * group.free_height
    return ElasticMount(
        static_stiffness=group.static_stiffness,
        shear_stiffness=group.lateral_stiffness,
        lowest_load=group.lowest_load * STANDARD_GRAVITY,
        highest_load=max(group.highest_load, group.lowest_load + _LEAST_LOAD_RANGE) * STANDARD_GRAVITY,
        free_height=group.free_height,
        free_travel=min(travel, group.free_height),
        dynamic_ratio=max(group.dynamic_ratio, 1.0),
        loss_factor=group.loss_factor,
        creep_per_decade=min(max(group.creep_per_decade, 0.0), 1.0),
        temperature_stiffening=((_COLD, max(group.cold_factor, 1.0)), (_NEUTRAL, 1.0), (_HOT, 1.0)),
    )


def _vertical(mass: float, settled: MountedRoom) -> float:
    return math.sqrt(settled.vertical_stiffness / mass) / (2.0 * math.pi)


def _sunk(loads: tuple[MountLoad, ...], as_set: MountedRoom) -> float:
    """Most that any mount has moved [m] since the snubbers were set, in the empty room and before any creep."""
    return max(abs(now.deflection - then.deflection) for now, then in zip(loads, as_set.states, strict=True))


def under_floor(floor: Surface, group: MountSet, height: float) -> UnderFloorAir:
    """Air under the floor, its edges as the file says."""
    length, width = max(floor.width, floor.height), min(floor.width, floor.height)
    bearers = next(
        (layer.cavity.frame for layer in floor.layers if layer.kind == "floor_mounts" and layer.cavity), None
    )
    depth = height + (bearers.depth if bearers is not None else 0.0)
    path = flow_path_of_rectangle(length, width, all_edges_open=group.edges != "closed")
    open_share = 0.0 if group.edges == "closed" else 1.0
    resistivity = 0.0
    if group.edges == "filled":
        fill = next((layer.cavity.fill for layer in floor.layers if layer.cavity and layer.cavity.fill), None)
        resistivity = fill.flow_resistivity.value if fill is not None else _EDGE_WOOL
    return UnderFloorAir(floor.area, depth, path, open_share, flow_resistivity=resistivity)


_EDGE_WOOL = 10_000.0  # Pa·s/m², a light wool along the edges; common practice, no source


def _improvement(
    settled: MountedRoom, floor: Surface, space: UnderFloorAir, mass: float, base: ComplexArray, air: Air
) -> tuple[float, ...]:
    """Level that the mounts keep from the floor against one screwed down [dB]."""
    bolted = sum(
        max(1, round(bridge.density * floor.area))
        for bridge in floor.bridges
        if bridge.kind == "point" and bridge.stiffness is None
    )
    count = len(settled.paths) + bolted
    springs = [path for path in settled.paths if not path.is_rigid] or [settled.paths[0]]
    inner = leaf_of(floor.inner_leaf)
    over = floating_floor_mobility(mass, count, floor.area, inner.stiffness, inner.surface_density, FREQUENCIES)
    values = floor_reduction_improvement(
        springs[0], count, base, over, FREQUENCIES,
        air_stiffness=piston_air_stiffness(space, FREQUENCIES, air), rigid_count=settled.rigid_count + bolted,
    )  # fmt: skip
    return tuple(float(value) for value in values)


@dataclass(frozen=True, slots=True)
class PlainLeaf:
    """A leaf as one plate: mass [kg/m²] and bending stiffness [N·m] of its sheets side by side."""

    surface_density: float
    stiffness: float


def leaf_of(layers: tuple[LayerInPlace, ...]) -> PlainLeaf:
    """Sheets of a leaf, each bending about its own middle: the least stiffness the leaf can have."""
    stiffness = 0.0
    for layer in layers:
        if isinstance(layer.record, Sheet):
            poisson = layer.record.poisson.value
            stiffness += layer.record.youngs_modulus.value * layer.thickness**3 / 12.0 / (1.0 - poisson**2)
    return PlainLeaf(sum(layer.surface_density for layer in layers), max(stiffness, _LIMP))


_LIMP = 1e-3  # N·m, so that a leaf without a sheet still has a mobility


def base_mobility(floor: Surface, vehicle: VehicleInPlace, stands_on: str) -> ComplexArray:
    """Driving-point mobility of the vehicle's floor under a mount [m/(N·s)]: beaded sheet, on a member or between."""
    return _base(leaf_of(floor.outer_leaf), vehicle, stands_on)


@lru_cache(maxsize=256)
def _base(steel: PlainLeaf, vehicle: VehicleInPlace, stands_on: str) -> ComplexArray:
    stiffness = steel.stiffness * math.sqrt(max(vehicle.beading, 1.0))  # beads stiffen one direction: geometric mean
    if stands_on == "sheet":
        bay = (max(vehicle.ribs.spacing, _LEAST_BAY), max(vehicle.ribs.spacing, _LEAST_BAY))
        place = (_IN_BAY[0] * bay[0], _IN_BAY[1] * bay[1])
        return bay_mobility(stiffness, steel.surface_density, bay, place, _LOSS_OF_SHEET, FREQUENCIES)
    depth, width, thickness = _CROSS_MEMBER
    if stands_on == "rib":
        depth, width = max(vehicle.ribs.depth, _LEAST_RIB), max(vehicle.ribs.width, _LEAST_RIB)
        thickness = vehicle.skin_thickness
    rigidity = vehicle.skin.youngs_modulus.value * thickness * (2.0 * depth**3 / 3.0 + width * depth**2)
    mass_per_length = vehicle.skin.density.value * thickness * (2.0 * depth + width)
    sheet = plate_mobility(stiffness, steel.surface_density)
    return joined_mobility(sheet, beam_mobility(rigidity, mass_per_length, FREQUENCIES))


_LEAST_RIB = 0.005  # m, a body without ribs still has folds; common practice, no source
_LEAST_BAY = 0.05  # m
_CROSS_MEMBER = (0.05, 0.08, 0.0012)  # m, depth, width and sheet of a hat under the floor; common practice, no source
_IN_BAY = (0.37, 0.41)  # where on a bay of sheet a mount stands, on no line of symmetry; common practice, no source
_LOSS_OF_SHEET = 0.02  # mounted sheet with what lies on it; common practice, no source
