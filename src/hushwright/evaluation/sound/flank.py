"""Ways of structure-borne sound: along the vehicle's skin past the dividing wall, and up through the mounts."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from hushwright.evaluation.guard import at
from hushwright.evaluation.results import Bands
from hushwright.evaluation.sound.faces import Setting, outer_partition, predict, surface_layers, surface_partition
from hushwright.evaluation.sound.floor import Floating, base_mobility
from hushwright.evaluation.sound.links import Link, bands
from hushwright.evaluation.sound.passages import OUTDOORS
from hushwright.model.build import Build, Room, Surface, VehicleInPlace
from hushwright.physics.acoustics.bands import FREQUENCIES, N_BANDS
from hushwright.physics.acoustics.flanking import skin_flanking
from hushwright.physics.acoustics.layers import BondedPlates, DampedPlate, LooseBoards, Plate
from hushwright.physics.acoustics.mounts_path import MountedFloor, airborne_velocity_squared, mount_borne_power
from hushwright.physics.acoustics.plates import Leaf, free_wave
from hushwright.physics.acoustics.resonant import resonant_transmission
from hushwright.physics.acoustics.ribs import Rib, Sheet

_FACES = ("left", "right", "ceiling")
_REFERENCE_PRESSURE = 2e-5  # Pa, ISO 80000-8
_LEAST_FACTOR = 1e-14
_LEAST_BAY = 0.05  # m
_RADIATION_LOSS = 0.002  # least loss of a leaf in place; common practice, no source
_MOUNT_UNCERTAINTY = 5.0  # dB, mobilities of plates for a ribbed floor; common practice, no source


def flanking_links(build: Build, setting: Setting) -> list[Link]:
    """Along the skin from the room ahead of the quiet room, over its sides and roof."""
    quiet = build.room_for("quiet")
    front = quiet.surface("front") if quiet is not None else None
    ahead = next((room for room in build.rooms if front is not None and room.name == front.beyond), None)
    if quiet is None or front is None or ahead is None:
        return []
    links = (_along(build.vehicle, face, ahead, quiet, front, setting) for face in _FACES)
    return [link for link in links if link is not None]


def _along(
    vehicle: VehicleInPlace, face: str, ahead: Room, quiet: Room, front: Surface, setting: Setting
) -> Link | None:
    first, second = ahead.surface(face), quiet.surface(face)
    if first is None or second is None:
        return None
    return _between(vehicle, (first, second), (ahead.length, quiet.length), (front.width, front.height), setting)


@lru_cache(maxsize=512)
def _between(
    vehicle: VehicleInPlace,
    faces: tuple[Surface, Surface],
    lengths: tuple[float, float],
    wall: tuple[float, float],
    setting: Setting,
) -> Link | None:
    with at(faces[1].place):
        return _skin_link(vehicle, faces, lengths, wall, setting)


def _skin_link(
    vehicle: VehicleInPlace,
    faces: tuple[Surface, Surface],
    lengths: tuple[float, float],
    wall: tuple[float, float],
    setting: Setting,
) -> Link | None:
    first, second = faces
    face = second.face
    area = wall[0] * wall[1]
    spacing = vehicle.bows.spacing if face == "ceiling" else vehicle.ribs.spacing
    driven, radiating = (_side(each, spacing, setting) for each in faces)
    if driven is None or radiating is None:
        return None
    bays, first_receiving = _bays(*lengths, spacing)
    rib = _rib(vehicle, face)
    length = wall[0] if face == "ceiling" else wall[1]
    path = skin_flanking(
        bands(driven.reduction), bands(radiating.reduction), _skin(second, setting), bays, (rib,) * (len(bays) - 1),
        first_receiving, length, area,
    )  # fmt: skip
    through = area * 10.0 ** (-np.asarray(path.reduction) / 10.0)
    spreads = (path.standard_uncertainty, driven.uncertainty, radiating.uncertainty)
    uncertainty = np.sqrt(np.sum(np.square(spreads), axis=0))
    return Link(f"along the skin, {face}", first.room, face, second.room, face, area, bands(through),
                bands(uncertainty), second.place, "flanking")  # fmt: skip


@dataclass(frozen=True, slots=True, eq=False)
class _Side:
    """Skin on one side of the dividing wall: reduction that goes with its free waves, twice for its lining."""

    reduction: NDArray[np.float64]
    uncertainty: Bands


def _side(surface: Surface, spacing: float, setting: Setting) -> _Side | None:
    """Bare skin by its free waves, and what its lining adds.

    A flanking path takes half of the reduction of each side but the whole of each lining (EN ISO 12354-1), so the
    lining counts twice here. Above coincidence free and forced waves are the same ones.
    """
    leaf = leaf_wave(surface, setting)
    if leaf is None or not surface.layers or surface.layers[0].kind != "skin":
        return None
    bay = (max(min(spacing, surface.width), _LEAST_BAY), max(surface.height, _LEAST_BAY))
    passed = resonant_transmission(leaf, FREQUENCIES, 2.0 * (bay[0] + bay[1]), bay[0] * bay[1], air=setting.air)
    lined = predict(surface_partition(surface, setting), setting)
    bare = np.asarray(predict(outer_partition(surface, setting), setting).reduction)
    free = np.where(passed > 0.0, -10.0 * np.log10(np.maximum(passed, _LEAST_FACTOR)), bare)
    return _Side(free + 2.0 * (np.asarray(lined.reduction) - bare), lined.standard_uncertainty)


def _bays(ahead: float, behind: float, spacing: float) -> tuple[tuple[float, ...], int]:
    """Bays between ribs on both sides of the dividing wall."""
    before, after = (max(1, round(length / spacing)) for length in (ahead, behind))
    return (ahead / before,) * before + (behind / after,) * after, before


def _rib(vehicle: VehicleInPlace, face: str) -> Rib:
    """Hat section of skin sheet: depth and width of the rib, thickness of the skin."""
    shape = vehicle.bows if face == "ceiling" else vehicle.ribs
    sheet, thickness = vehicle.skin, vehicle.skin_thickness
    depth, width = max(shape.depth, 1e-3), max(shape.width, 1e-3)
    developed = 2.0 * depth + width
    mass = sheet.density.value * thickness * developed
    modulus = sheet.youngs_modulus.value
    second_moment = thickness * (2.0 * depth**3 / 3.0 + width * depth**2)
    closed = 4.0 * (depth * width) ** 2 * thickness / (2.0 * (depth + width))
    shear = modulus / (2.0 * (1.0 + sheet.poisson.value))
    inertia = mass * depth**2 / 3.0
    return Rib(mass, modulus * second_moment, inertia, shear * closed)


def leaf_wave(surface: Surface, setting: Setting, *, inner: bool = False) -> Leaf | None:
    """Free bending wave of the outer or inner leaf, `None` where it has no stiff sheet."""
    layers = surface_layers(surface, setting)
    ordered = layers[::-1] if inner else layers
    panel = next((each for each in ordered if isinstance(each, Plate | DampedPlate | BondedPlates | LooseBoards)), None)
    return None if panel is None else free_wave(panel, FREQUENCIES)


def _skin(surface: Surface, setting: Setting) -> Sheet:
    leaf = leaf_wave(surface, setting)
    assert leaf is not None
    losses = np.maximum(np.broadcast_to(leaf.loss_factor, (N_BANDS,)), _RADIATION_LOSS)
    stiffness = float(np.mean(np.broadcast_to(leaf.bending_stiffness, (N_BANDS,))))
    return Sheet(leaf.surface_density, stiffness, bands(losses))


def mount_link(build: Build, setting: Setting, floating: Floating | None) -> Link | None:
    """Steel floor shaken by the sound under it, mounts, floating floor.

    The result is linear in the incident power, so a level of 0 dB outside gives area times transmission factor.
    """
    quiet = build.room_for("quiet")
    floor = quiet.surface("floor") if quiet is not None else None
    if quiet is None or floor is None or floating is None:
        return None
    group = next(each for each in build.mounts if each.name == floating.result.group)
    return _mounts(floor, floating, group.stands_on, setting)


@lru_cache(maxsize=512)
def _mounts(floor: Surface, floating: Floating, stands_on: str, setting: Setting) -> Link | None:
    with at(floor.place):
        return _up_through(floor, floating, stands_on, setting)


def _up_through(floor: Surface, floating: Floating, stands_on: str, setting: Setting) -> Link | None:
    leaf = leaf_wave(floor, setting, inner=True)
    if leaf is None or leaf_wave(floor, setting) is None:
        return None
    outer = predict(outer_partition(floor, setting), setting)
    velocity = airborne_velocity_squared(bands(0.0), outer.reduction, floor.width, floor.height, setting.air)
    loss = np.maximum(np.broadcast_to(leaf.loss_factor, (N_BANDS,)), _RADIATION_LOSS)
    mounted = MountedFloor(floor.height, floor.width, leaf.surface_density, float(np.mean(leaf.bending_stiffness)),
                           bands(loss), floating.result.mass)  # fmt: skip
    assert setting.vehicle is not None
    base = tuple(base_mobility(floor, setting.vehicle, stands_on).tolist())
    borne = mount_borne_power(bands(velocity), base, floating.result.improvement, floating.count, mounted, setting.air)
    intensity = _REFERENCE_PRESSURE**2 / (4.0 * setting.air.characteristic_impedance)
    through = np.asarray(borne.power) / intensity
    return Link("up through the mounts", OUTDOORS, "floor", floor.room, "floor", floor.area, bands(through),
                bands(_MOUNT_UNCERTAINTY), floor.place, "mounts")  # fmt: skip
