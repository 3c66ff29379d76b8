"""The gap round the inner box as one space: what goes round edges instead of straight through."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from hushwright.evaluation.faces import Setting, inner_partition, opening_partition, outer_partition, predict
from hushwright.evaluation.guard import at
from hushwright.evaluation.layers import gap_depth, porous_of
from hushwright.evaluation.links import (
    CAB,
    OUTDOORS,
    Link,
    bands,
    leaf_depth,
    openings_in,
    openings_of_skin,
    slit_through,
    stands_in_inner_leaf,
)
from hushwright.evaluation.results import Bands
from hushwright.model.build import Build, OpeningInPlace, Room, StateOfUse, Surface
from hushwright.physics.acoustics.bands import FREQUENCIES, N_BANDS
from hushwright.physics.acoustics.gap_network import GapTransfer, Junction, Segment, gap_transfer
from hushwright.physics.acoustics.leaks import joint_transmission_area
from hushwright.physics.acoustics.partition import Partition
from hushwright.physics.acoustics.slits import Slit, circular_hole_transmission, joint_reduction

FloatArray = NDArray[np.float64]

_UNCERTAINTY = 5.0  # dB, energy balance of a gap that nobody has measured; common practice, no source
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
        _behind(surface, openings_in(build, room, surface.face), _in_front(build, room, surface), state.open, setting)
        for surface in room.surfaces
        if surface.last_cavity is not None
    ]


def _in_front(build: Build, room: Room, surface: Surface) -> tuple[OpeningInPlace, ...]:
    """Openings of the vehicle's skin in front of a face that let sound into the space behind its lining.

    Those of any other room than the quiet one lead into the room itself: their reveal closes that space.
    """
    if surface.beyond not in (OUTDOORS, CAB) or room.purpose != "quiet":
        return ()
    return openings_of_skin(build, room, surface.face)


@lru_cache(maxsize=2048)
def _behind(
    surface: Surface,
    inside: tuple[OpeningInPlace, ...],
    outside: tuple[OpeningInPlace, ...],
    open_: tuple[str, ...],
    setting: Setting,
) -> _Behind:
    with at(surface.place):
        return _space_behind(surface, inside, outside, open_, setting)


def _space_behind(
    surface: Surface,
    inside: tuple[OpeningInPlace, ...],
    outside: tuple[OpeningInPlace, ...],
    open_: tuple[str, ...],
    setting: Setting,
) -> _Behind:
    outer = surface.area * _factor(outer_partition(surface, setting), setting) if surface.outer_leaf else None
    inner = surface.area * _factor(inner_partition(surface, setting), setting)
    outer = np.full(N_BANDS, surface.area) if outer is None else outer
    inner_slits = sum((_inner_slit(each, open_, setting) for each in inside), np.full(N_BANDS, _LEAST))
    outer_slits = _outer_slits(surface, outside, open_, setting)
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
    if not stands_in_inner_leaf(opening):
        return np.zeros(N_BANDS)
    if opening.name in open_:
        return np.full(N_BANDS, opening.area * opening.number)
    return slit_through(opening, leaf_depth(opening), setting)


def _outer_slits(
    surface: Surface, openings: tuple[OpeningInPlace, ...], open_: tuple[str, ...], setting: Setting
) -> FloatArray:
    """Slits of the vehicle's doors and holes in its skin in front of this face, or the edge of a dividing wall."""
    total = np.full(N_BANDS, _LEAST)
    if surface.beyond not in (OUTDOORS, CAB):
        return np.asarray(total + _edge_slit(surface, setting))
    for each in openings:
        if each.name in open_:
            total = total + each.area * each.number
        elif each.kind == "hole" and each.filled == "open":
            radius = (each.area / np.pi) ** 0.5
            factor = circular_hole_transmission(radius, max(each.depth, 1e-4), FREQUENCIES, setting.air)
            total = total + each.area * each.number * factor
        else:
            total = total + _closed(each, setting)
    return total


def _closed(opening: OpeningInPlace, setting: Setting) -> FloatArray:
    """What a shut opening of the skin lets through: its slit and, for a pane, the pane."""
    through = slit_through(opening, _SKIN_SEAL_DEPTH, setting)
    pane = opening_partition(opening, setting) if opening.kind == "vehicle window" else None
    return through if pane is None else through + opening.area * opening.number * _factor(pane, setting)


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
    own = np.asarray(transfer.own[index])
    found = []
    for target, other in enumerate(behind):
        if other.surface.room != quiet:
            continue
        if target == index:
            # Straight through both leaves is the transfer matrix; only ways with a slit in them are left.
            through = each.outer * own * each.slit_share + each.outer_slits * own
        else:
            through = (each.outer + each.outer_slits) * np.asarray(transfer.transfer[index][target])
        found.append(_link(each.surface, other.surface, through))
        if each.surface.room != quiet and target != index:
            inward = (each.inner + each.inner_slits) * np.asarray(transfer.transfer[index][target])
            found.append(_link(each.surface, other.surface, inward, first=each.surface.room))
    return found


def _link(source: Surface, target: Surface, through: FloatArray, first: str | None = None) -> Link:
    beyond = source.beyond if first is None else first
    face = source.face if beyond in (OUTDOORS, CAB) or first is not None else "rear"
    return Link(f"round the gap to {target.face.replace('_', ' ')}", beyond, face, target.room, target.face,
                target.area, bands(through), bands(_UNCERTAINTY), target.place, "gap")  # fmt: skip
