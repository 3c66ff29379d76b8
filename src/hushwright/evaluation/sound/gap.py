"""The gap round the inner box as one space: what goes round edges instead of straight through."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from hushwright.evaluation.guard import at
from hushwright.evaluation.layers import gap_depth, porous_of
from hushwright.evaluation.results import Bands
from hushwright.evaluation.sound.faces import Setting, inner_partition, opening_partition, outer_partition, predict
from hushwright.evaluation.sound.links import CAB, Link, bands, duct_through, hole_through, leaf_depth, slit_through
from hushwright.evaluation.sound.passages import (
    OUTDOORS,
    openings_in,
    openings_of_skin,
    outer_ones,
    passed,
    stands_in_inner_leaf,
)
from hushwright.model.build import Build, OpeningInPlace, Room, StateOfUse, Surface
from hushwright.physics.acoustics.bands import FREQUENCIES, N_BANDS
from hushwright.physics.acoustics.gap_network import GapTransfer, Junction, Segment, gap_transfer
from hushwright.physics.acoustics.leaks import joint_transmission_area
from hushwright.physics.acoustics.partition import Partition
from hushwright.physics.acoustics.slits import Slit, joint_reduction

FloatArray = NDArray[np.float64]

_UNCERTAINTY = bands(5.0)  # dB, energy balance of a gap that nobody has measured; common practice, no source
_LEAST = 1e-14  # m²
_SKIN_SEAL_DEPTH = 0.02  # m, land of the seals of the vehicle's own doors; common practice, no source
_HIGHEST_REDUCTION = 140.0


@dataclass(frozen=True, slots=True, eq=False)
class _Behind:
    """The gap behind one face: what lets sound in from outside and out to the room."""

    surface: Surface
    outer: FloatArray  # m² through the outer leaf
    inner: FloatArray  # m² through the inner leaf
    outer_slits: FloatArray
    inner_slits: FloatArray
    segment: Segment

    @property
    def slit_share(self) -> FloatArray:
        """Part of what leaves inward that takes the slits."""
        return np.asarray(self.inner_slits / (self.inner + self.inner_slits))


def gap_links(build: Build, state: StateOfUse, setting: Setting) -> list[Link]:
    """Ways into the quiet room round the gap, face by face, from outdoors and from the room ahead."""
    quiet = build.room_for("quiet")
    if quiet is None:
        return []
    behind = [each for room in build.rooms for each in _room(build, room, state, setting)
              if room is quiet or _meets(room, quiet)]  # fmt: skip
    if not behind:
        return []
    return list(_round(tuple(behind), _junctions(build, quiet, behind), setting, quiet.name, quiet.place))


@lru_cache(maxsize=256)
def _round(
    behind: tuple[_Behind, ...], junctions: tuple[Junction, ...], setting: Setting, quiet: str, place: str
) -> tuple[Link, ...]:
    with at(place):
        transfer = gap_transfer(tuple(each.segment for each in behind), junctions, setting.air)
    return tuple(link for index, each in enumerate(behind) for link in _from(index, each, behind, transfer, quiet))


def _meets(room: Room, quiet: Room) -> bool:
    """Whether the spaces behind a room's linings can reach the gap of the quiet room."""
    front = quiet.surface("front")
    return front is not None and front.beyond == room.name


def _room(build: Build, room: Room, state: StateOfUse, setting: Setting) -> list[_Behind]:
    return [
        _behind(surface, _in_inner_leaf(build, room, surface), _in_front(build, room, surface, state.open),
                outer_ones(build, room, surface.face), state.open, setting)
        for surface in room.surfaces
        if surface.last_cavity is not None
    ]  # fmt: skip


def _in_inner_leaf(build: Build, room: Room, surface: Surface) -> tuple[OpeningInPlace, ...]:
    """Openings that stand only in the inner leaf of a face."""
    found = openings_in(build, room, surface.face)
    return tuple(each for each in found if stands_in_inner_leaf(passed(build, each), surface))


def _in_front(build: Build, room: Room, surface: Surface, open_: tuple[str, ...]) -> tuple[OpeningInPlace, ...]:
    """Openings that let sound into the space behind a face: those of the vehicle's skin, and outer leaves of doors.

    Those that lead into any other room than the quiet one do not: their reveal closes that space. Nor do doors one
    behind the other that all stand open: what enters there goes straight on.
    """
    found = outer_ones(build, room, surface.face)
    if surface.beyond in (OUTDOORS, CAB) and room.purpose == "quiet":
        found = tuple(dict.fromkeys((*openings_of_skin(build, room, surface.face), *found)))
    doors = [passed(build, each) for each in openings_in(build, room, surface.face)]
    straight = {each for leaves in doors if all(one.name in open_ for one in leaves) for each in leaves[1:]}
    return tuple(each for each in found if each not in straight)


@lru_cache(maxsize=2048)
def _behind(
    surface: Surface,
    inside: tuple[OpeningInPlace, ...],
    outside: tuple[OpeningInPlace, ...],
    leading_on: tuple[OpeningInPlace, ...],
    open_: tuple[str, ...],
    setting: Setting,
) -> _Behind:
    with at(surface.place):
        return _space_behind(surface, inside, outside, leading_on, open_, setting)


def _space_behind(
    surface: Surface,
    inside: tuple[OpeningInPlace, ...],
    outside: tuple[OpeningInPlace, ...],
    leading_on: tuple[OpeningInPlace, ...],
    open_: tuple[str, ...],
    setting: Setting,
) -> _Behind:
    outer = surface.area * _factor(outer_partition(surface, setting), setting) if surface.outer_leaf else None
    inner = surface.area * _factor(inner_partition(surface, setting), setting)
    outer = np.full(N_BANDS, surface.area) if outer is None else outer
    # Straight through an outer leaf and the door behind it is the transfer matrix of both, as for the face itself.
    outer = outer + sum((_pane(each, open_, setting) for each in leading_on), np.zeros(N_BANDS))
    inner_slits = sum((_inner_slit(each, open_, setting) for each in inside), np.full(N_BANDS, _LEAST))
    outer_slits = _outer_slits(surface, outside, leading_on, open_, setting)
    layer = surface.layers[surface.last_cavity or 0]
    space = layer.cavity
    assert space is not None
    depth = max(gap_depth(layer), 1e-3)
    fill = None if space.fill is None else porous_of(space.fill)
    share = 0.0 if fill is None else min(space.fill_thickness / depth, 1.0)
    segment = Segment(
        surface.name, surface.area, depth, _reduction(inner + inner_slits, surface.area),
        _reduction(outer + outer_slits, surface.area), fill, share,
    )  # fmt: skip
    return _Behind(surface, outer, inner, outer_slits, np.asarray(inner_slits), segment)


def _factor(partition: Partition, setting: Setting) -> FloatArray:
    result = predict(partition, setting)
    return np.asarray(np.sum([result.direct, result.resonant, result.bridged], axis=0))


def _reduction(through: FloatArray, area: float) -> Bands:
    return bands(np.minimum(-10.0 * np.log10(np.maximum(through, _LEAST) / area), _HIGHEST_REDUCTION))


def _inner_slit(opening: OpeningInPlace, open_: tuple[str, ...], setting: Setting) -> FloatArray:
    """Slit round a door that stands only in the inner leaf; a whole open door when it stands open."""
    if opening.name in open_:
        return np.full(N_BANDS, opening.area * opening.number)
    return slit_through(opening, leaf_depth(opening), setting)


def _outer_slits(
    surface: Surface,
    openings: tuple[OpeningInPlace, ...],
    leading_on: tuple[OpeningInPlace, ...],
    open_: tuple[str, ...],
    setting: Setting,
) -> FloatArray:
    """Slits, holes and panes in the outer leaf of this face, and the edge of a dividing wall."""
    total = np.full(N_BANDS, _LEAST)
    if surface.beyond not in (OUTDOORS, CAB):
        total = total + _edge_slit(surface, setting)
    for each in openings:
        total = total + _let_in(each, open_, setting)
        if each not in leading_on:
            total = total + _pane(each, open_, setting)
    return np.asarray(total)


def _let_in(opening: OpeningInPlace, open_: tuple[str, ...], setting: Setting) -> FloatArray:
    """What an opening of the outer leaf lets in beside its leaf: all of it when open, a hole, a duct, a slit."""
    if opening.name in open_:
        return np.full(N_BANDS, opening.area * opening.number)
    if opening.kind == "duct":
        return duct_through(opening) if not opening.run else np.zeros(N_BANDS)  # a run is a way of its own
    if opening.kind in ("hole", "gland"):
        return hole_through(opening, setting)
    depth = _SKIN_SEAL_DEPTH if opening.in_vehicle else leaf_depth(opening)
    return slit_through(opening, depth, setting)


def _pane(opening: OpeningInPlace, open_: tuple[str, ...], setting: Setting) -> FloatArray:
    """What a shut leaf lets through; doors of the vehicle are skin, which the face already counts."""
    leaf = None if opening.kind == "vehicle door" or opening.name in open_ else opening_partition(opening, setting)
    return np.zeros(N_BANDS) if leaf is None else opening.area * opening.number * _factor(leaf, setting)


def _edge_slit(surface: Surface, setting: Setting) -> FloatArray:
    if surface.edge_gap < 1e-6:
        return np.zeros(N_BANDS)
    depth = max(sum(layer.thickness for layer in surface.outer_leaf), 1e-3)
    length = 2.0 * (surface.width + surface.height)
    slit = Slit(surface.edge_gap, depth, "edge")
    return np.asarray(joint_transmission_area(joint_reduction(slit, FREQUENCIES, setting.air), length))


def _junctions(build: Build, quiet: Room, behind: list[_Behind]) -> tuple[Junction, ...]:
    depth = {each.surface.name: each.segment.thickness for each in behind}
    found = []
    for edge in build.gap_edges:
        first, second = f"{quiet.name}.{edge.first}", f"{quiet.name}.{edge.second}"
        if first in depth and second in depth:
            aperture = min(edge.depth, depth[first], depth[second])
            found.append(Junction(first, second, edge.length, aperture))
    front = quiet.surface("front")
    if front is None or front.edge_gap <= 0.0:
        return tuple(found)
    way = sum(layer.thickness for layer in front.outer_leaf)
    for face, length in (("left", front.height), ("right", front.height), ("ceiling", front.width)):
        ahead, here = f"{front.beyond}.{face}", f"{quiet.name}.{face}"
        if ahead in depth and here in depth:
            found.append(
                Junction(ahead, here, length, min(front.edge_gap, depth[ahead], depth[here]), way, damped=False)
            )
    return tuple(found)


def _from(index: int, each: _Behind, behind: tuple[_Behind, ...], transfer: GapTransfer, quiet: str) -> list[Link]:
    """Links from the space outside one face, round the gap, to every face of the quiet room."""
    own, onward = np.asarray(transfer.own[index]), np.asarray(transfer.transfer[index])
    found = []
    for target, other in enumerate(behind):
        if other.surface.room != quiet:
            continue
        if target == index:
            # Straight through both leaves is the transfer matrix; only ways with a slit in them are left.
            through = each.outer * own * each.slit_share + each.outer_slits * own
        else:
            through = (each.outer + each.outer_slits) * onward[target]
        found.append(_link(each.surface, other.surface, through))
        if each.surface.room != quiet and target != index:
            inward = (each.inner + each.inner_slits) * onward[target]
            found.append(_link(each.surface, other.surface, inward, first=each.surface.room))
    return found


def _link(source: Surface, target: Surface, through: FloatArray, first: str | None = None) -> Link:
    beyond = source.beyond if first is None else first
    face = source.face if beyond in (OUTDOORS, CAB) or first is not None else "rear"
    return Link(f"round the gap to {target.face.replace('_', ' ')}", beyond, face, target.room, target.face,
                target.area, bands(through), _UNCERTAINTY, target.place, "gap")  # fmt: skip
