"""A moved build in the rooms of the nominal one: millimetres of tolerance do not change how a room sounds."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TypeVar

from hushwright.model.build import (
    BridgeInPlace,
    Build,
    GapEdge,
    LayerInPlace,
    OpeningInPlace,
    Room,
    Surface,
    VehicleInPlace,
)
from hushwright.model.section import Section

CLOSE = 0.01
"""Share [-] by which lengths and areas may differ and still be held: 0.04 dB in every factor of size, and modes move by
a twentieth of a third octave. Tests hold it against the full computation."""

T = TypeVar("T")
N = TypeVar("N", Room, OpeningInPlace)


def held_geometry(moved: Build, nominal: Build) -> Build:
    """Moved build for the sound, with the nominal shapes wherever they differ by less than one percent.

    Layers, leaves, stiffnesses, slits and everything else stay as moved. Parts that come out equal are the nominal
    objects themselves, so that what was computed for them is found again.

    Parameters
    ----------
    moved : Build
        Build with one input shifted.
    nominal : Build
        Build as the file has it.

    Returns
    -------
    Build
        For levels only; mass, axles and headroom are computed from the moved one.
    """
    return replace(
        moved,
        climate=nominal.climate if moved.climate == nominal.climate else moved.climate,
        vehicle=_vehicle(moved.vehicle, nominal.vehicle),
        rooms=_each(moved.rooms, nominal.rooms, _room),
        openings=_each(moved.openings, nominal.openings, _opening),
        gap_edges=_edges(moved.gap_edges, nominal.gap_edges),
    )


def _each(moved: tuple[N, ...], nominal: tuple[N, ...], hold: Callable[[N, N], N]) -> tuple[N, ...]:
    by_name = {each.name: each for each in nominal}
    return tuple(hold(each, by_name[each.name]) if each.name in by_name else each for each in moved)


def _same(moved: T, nominal: T) -> T:
    return nominal if moved == nominal else moved


def near(first: float, second: float) -> bool:
    """Whether two sizes differ by less than what is held."""
    return abs(first - second) <= CLOSE * max(abs(first), abs(second))


def _near_sections(first: Section, second: Section) -> bool:
    one, other = first.polygon, second.polygon
    size = max(first.height, first.floor_width)
    return len(one) == len(other) and all(
        abs(a - b) <= CLOSE * size
        for here, there in zip(one, other, strict=True)
        for a, b in zip(here, there, strict=True)
    )


def _vehicle(moved: VehicleInPlace, nominal: VehicleInPlace) -> VehicleInPlace:
    close = (
        _near_sections(moved.section, nominal.section)
        and near(moved.load_length, nominal.load_length)
        and near(moved.floor_to_bow, nominal.floor_to_bow)
    )
    if not close:
        return moved
    return _same(
        replace(moved, section=nominal.section, load_length=nominal.load_length, floor_to_bow=nominal.floor_to_bow),
        nominal,
    )


def _room(moved: Room, nominal: Room) -> Room:
    surfaces = {each.face: each for each in nominal.surfaces}
    close = (
        _near_sections(moved.section, nominal.section)
        and near(moved.length, nominal.length)
        and [each.face for each in moved.surfaces] == list(surfaces)
        and all(_near_surfaces(each, surfaces[each.face]) for each in moved.surfaces)
    )
    if not close:
        return moved
    held = tuple(_surface(each, surfaces[each.face]) for each in moved.surfaces)
    return _same(
        replace(moved, front=nominal.front, rear=nominal.rear, section=nominal.section, surfaces=held,
                wheel_box_volume=nominal.wheel_box_volume),
        nominal,
    )  # fmt: skip


def _near_surfaces(moved: Surface, nominal: Surface) -> bool:
    return near(moved.area, nominal.area) and near(moved.width, nominal.width) and near(moved.height, nominal.height)


def _surface(moved: Surface, nominal: Surface) -> Surface:
    return _same(
        replace(moved, area=nominal.area, width=nominal.width, height=nominal.height, centre=nominal.centre,
                bridges=_bridges(moved.bridges, nominal.bridges), layers=_layers(moved.layers, nominal.layers),
                battens=nominal.battens if len(moved.battens) == len(nominal.battens) else moved.battens),
        nominal,
    )  # fmt: skip


def _layers(moved: tuple[LayerInPlace, ...], nominal: tuple[LayerInPlace, ...]) -> tuple[LayerInPlace, ...]:
    """Battens are shared out over the face, so that their spacing follows its width."""
    if len(moved) != len(nominal):
        return moved
    return tuple(_spaced(each, other) for each, other in zip(moved, nominal, strict=True))


def _spaced(moved: LayerInPlace, nominal: LayerInPlace) -> LayerInPlace:
    if moved.cavity is None or nominal.cavity is None:
        return moved
    frame, other = moved.cavity.frame, nominal.cavity.frame
    if frame is None or other is None or frame.spacing == other.spacing or not near(frame.spacing, other.spacing):
        return moved
    held = replace(moved.cavity, frame=replace(frame, spacing=other.spacing))
    return _same(replace(moved, cavity=held), nominal)


def _bridges(moved: tuple[BridgeInPlace, ...], nominal: tuple[BridgeInPlace, ...]) -> tuple[BridgeInPlace, ...]:
    """Bridges per area follow the area."""
    if len(moved) != len(nominal):
        return moved
    return tuple(
        replace(each, density=other.density) if each.kind == other.kind and near(each.density, other.density) else each
        for each, other in zip(moved, nominal, strict=True)
    )


def _opening(moved: OpeningInPlace, nominal: OpeningInPlace) -> OpeningInPlace:
    return _same(replace(moved, centre=nominal.centre, mass=nominal.mass), nominal)


def _edges(moved: tuple[GapEdge, ...], nominal: tuple[GapEdge, ...]) -> tuple[GapEdge, ...]:
    if len(moved) != len(nominal):
        return moved
    return tuple(
        replace(each, length=other.length) if near(each.length, other.length) else each
        for each, other in zip(moved, nominal, strict=True)
    )
