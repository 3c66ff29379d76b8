"""Ways of the sound between two spaces: faces, doors, windows, slits, holes, each with what it lets through.

A link's ``through`` is area times transmission factor [m²] per band for diffuse sound; it is the same both ways.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike

from hushwright.evaluation.guard import at
from hushwright.evaluation.results import Bands
from hushwright.evaluation.sound.faces import (
    Setting,
    opening_partition,
    predict,
    surface_partition,
)
from hushwright.evaluation.sound.passages import OUTDOORS, leading_in, passed, stands_in_inner_leaf
from hushwright.model.build import Build, LayerInPlace, OpeningInPlace, Room, StateOfUse, Surface, hash_once
from hushwright.physics.acoustics.bands import FREQUENCIES, N_BANDS
from hushwright.physics.acoustics.leaks import joint_transmission_area, niche_allowance
from hushwright.physics.acoustics.partition import DIFFUSE, PartitionResult
from hushwright.physics.acoustics.quadrature import Incidence
from hushwright.physics.acoustics.slits import Slit, circular_hole_transmission, joint_reduction

CAB = "cab"
_SLIT_UNCERTAINTY = 3.0  # dB beside the spread of its width; common practice, no source
_HOLE_UNCERTAINTY = 3.0  # dB; common practice, no source
_DUCT_UNCERTAINTY = 4.0  # dB of what a duct lets through as an opening; common practice, no source
_LEAST_SLIT = 1e-6  # m; narrower is closed
_SEALED_RING = 1e-4  # m, slit left round a sealed gland; common practice, no source
NEVER = 1e-14  # m², nothing passes


@dataclass(frozen=True, slots=True)
class Link:
    """One way between two spaces."""

    name: str
    first: str
    first_face: str
    second: str
    second_face: str
    area: float
    through: Bands
    uncertainty: Bands
    place: str
    kind: str  # "through" | "bridges" | "opening" | "slit" | "hole" | "duct" | "gap" | "flanking"
    note: str = ""
    family: str = ""  # ways of one family are predicted by the same law and wrong together in part
    build_up: str = ""  # of one family, ways of one build-up are wrong together wholly
    kept_hash: int = field(default=0, init=False, repr=False, compare=False)

    def __hash__(self) -> int:
        return hash_once(self)

    @property
    def reduction(self) -> Bands:
        """Sound reduction index referred to its own area [dB]."""
        return tuple(-10.0 * np.log10(np.maximum(np.asarray(self.through), NEVER) / self.area))

    def reversed(self) -> Link:
        """The same way, walked back."""
        return replace(self, first=self.second, first_face=self.second_face, second=self.first,
                       second_face=self.first_face)  # fmt: skip


def bands(values: ArrayLike) -> Bands:
    """Floats of 27 bands."""
    array = np.asarray(values, dtype=np.float64)
    return tuple(array.tolist()) if array.ndim else (float(array),) * N_BANDS


def links_of(
    build: Build, room: Room, state: StateOfUse, setting: Setting, incidence: Mapping[str, Incidence] | None = None
) -> list[Link]:
    """All straight links of one room to what lies beyond its faces; a wall between rooms belongs to the room behind it.

    ``incidence`` gives the angles from which sound meets the vehicle's faces; a diffuse field where it says nothing.
    """
    found: list[Link] = []
    for surface in room.surfaces:
        if not surface.layers:
            continue
        inside = (incidence or {}).get(surface.face, DIFFUSE) if surface.beyond == OUTDOORS else DIFFUSE
        openings = leading_in(build, room, surface)
        found += _face(surface, openings, setting, inside)
        for opening in openings:
            if opening.run:
                continue  # its run is the way, see `air_ways`
            found += _opening(passed(build, opening), surface, state.open, setting, inside)
    return found


def _build_up(surface: Surface) -> str:
    """What a face is built like: floor, wheel boxes, walls between rooms, and all that is a lining before the body."""
    if surface.face == "floor":
        return "floor"
    if surface.face.startswith("wheel_box"):
        return "wheel boxes"
    return "walls" if surface.beyond in (OUTDOORS, CAB) else "dividing wall"


@lru_cache(maxsize=4096)
def _face(
    surface: Surface, openings: tuple[OpeningInPlace, ...], setting: Setting, incidence: Incidence
) -> tuple[Link, ...]:
    with at(surface.place):
        return _straight(surface, openings, setting, incidence)


def _straight(
    surface: Surface, openings: tuple[OpeningInPlace, ...], setting: Setting, incidence: Incidence
) -> tuple[Link, ...]:
    area = max(surface.area - sum(each.area * each.number for each in openings if _takes_area(each)), 0.05)
    result = predict(surface_partition(surface, setting), setting, incidence)
    plain = np.asarray(result.direct) + np.asarray(result.resonant)
    name = f"{surface.room} {surface.face}".replace("_", " ")
    base = Link(name, surface.beyond, _outer_face(surface), surface.room, surface.face, area, bands(area * plain),
                result.standard_uncertainty, surface.place, "through", family=result.construction,
                build_up=_build_up(surface))  # fmt: skip
    if not any(result.bridged):
        return (base,)
    cause = ", ".join(dict.fromkeys(bridge.cause for bridge in surface.bridges))
    return base, replace(base, name=f"{name}, {cause}", through=bands(area * np.asarray(result.bridged)),
                         kind="bridges", note=cause)  # fmt: skip


def _takes_area(opening: OpeningInPlace) -> bool:
    return opening.kind in ("door", "window", "vehicle door", "vehicle window")


def _outer_face(surface: Surface) -> str:
    """Face of the space beyond that this surface is: the rear of the room ahead, else the vehicle's own."""
    if surface.beyond in (OUTDOORS, CAB):
        return surface.face
    return "rear" if surface.face == "front" else "front"


@lru_cache(maxsize=4096)
def _opening(
    leaves: tuple[OpeningInPlace, ...],
    surface: Surface,
    open_: tuple[str, ...],
    setting: Setting,
    incidence: Incidence,
) -> tuple[Link, ...]:
    with at(leaves[0].place):
        return _through(leaves, surface, open_, setting, incidence)


def _through(
    leaves: tuple[OpeningInPlace, ...],
    surface: Surface,
    open_: tuple[str, ...],
    setting: Setting,
    incidence: Incidence,
) -> tuple[Link, ...]:
    """Ways through one opening and what stands before it, inside first."""
    opening, before = leaves[0], leaves[1:]
    name = opening.name.replace("_", " ")
    base = Link(name, surface.beyond, _outer_face(surface), surface.room, surface.face, opening.area * opening.number,
                bands(NEVER), bands(_HOLE_UNCERTAINTY), opening.place, "opening")  # fmt: skip
    if all(each.name in open_ for each in leaves):
        return (replace(base, through=bands(opening.area * opening.number), name=f"{name}, open"),)
    if opening.kind == "duct":
        return (_duct(base, opening),)
    if opening.kind in ("gland", "hole"):
        return (_hole(base, opening, setting),)
    if opening.name in open_:
        # Behind a shut outer leaf sound comes by the gap between them; where there is none, that leaf is the way.
        return () if surface.last_cavity is not None else _through(before, surface, open_, setting, incidence)
    outside = _outside_layers(leaves, surface, open_)
    return _leaf(base, opening, outside, setting, incidence)


def _duct(base: Link, opening: OpeningInPlace) -> Link:
    return replace(base, through=bands(duct_through(opening)), uncertainty=bands(_DUCT_UNCERTAINTY), kind="duct")


def duct_through(opening: OpeningInPlace) -> np.ndarray:
    """Area times transmission factor of a duct without a run [m²]: its area less what is lost in it."""
    loss = octaves_over_thirds(opening.insertion_loss)
    return np.asarray(opening.area * opening.number * 10.0 ** (-np.asarray(loss) / 10.0))


def octaves_over_thirds(pairs: tuple[tuple[float, float], ...]) -> Bands:
    """Octave values held over their thirds, the outer ones on to the ends; nothing where none are given."""
    if not pairs:
        return bands(0.0)
    centres = np.log2(np.array([pair[0] for pair in pairs]))
    values = np.array([pair[1] for pair in pairs])
    at = np.argmin(np.abs(centres[:, None] - np.log2(FREQUENCIES)[None, :]), axis=0)
    return bands(values[at])


_HOLE_NOTES = {"packed with putty": "packed: nothing counted", "sealed": "slit of 0.1 mm left round a sealed gland"}


def _hole(base: Link, opening: OpeningInPlace, setting: Setting) -> Link:
    through = bands(hole_through(opening, setting))
    return replace(base, through=through, kind="hole", note=_HOLE_NOTES.get(opening.filled, ""))


def hole_through(opening: OpeningInPlace, setting: Setting) -> np.ndarray:
    """Area times transmission factor of a hole or gland as it is filled [m²]."""
    if opening.filled == "packed with putty":
        return np.full(N_BANDS, NEVER)
    if opening.filled == "sealed":
        ring = 2.0 * (opening.width + opening.height) if not opening.round else np.pi * opening.width
        return opening.number * slit_area(_SEALED_RING, opening.depth, float(ring), 1, setting)
    radius = (opening.area / np.pi) ** 0.5
    factor = circular_hole_transmission(radius, max(opening.depth, 1e-4), FREQUENCIES, setting.air)
    return np.asarray(opening.area * opening.number * factor)


def slit_through(opening: OpeningInPlace, depth: float, setting: Setting) -> np.ndarray:
    """Area times transmission factor of the slit along an opening's seals [m²]."""
    if opening.seals is None or opening.seals.residual_gap < _LEAST_SLIT:
        return np.full(N_BANDS, NEVER)
    seals = opening.seals
    return opening.number * slit_area(seals.residual_gap, depth, seals.length, seals.rows, setting)


@lru_cache(maxsize=1024)
def slit_area(width: float, depth: float, length: float, rows: int, setting: Setting) -> np.ndarray:
    """Rows one behind the other act as one slit as deep as all of them: the air between is not absorbed."""
    slit = Slit(width, max(depth, 1e-3) * rows, "edge")
    return np.asarray(joint_transmission_area(joint_reduction(slit, FREQUENCIES, setting.air), length))


def leaf_depth(opening: OpeningInPlace) -> float:
    """Way through the slit beside a leaf: its seal land, at most 30 mm of the leaf's thickness."""
    return min(sum(layer.thickness for layer in opening.layers), 0.03)


def _leaf(
    base: Link,
    opening: OpeningInPlace,
    outside: tuple[LayerInPlace, ...],
    setting: Setting,
    incidence: Incidence,
) -> tuple[Link, ...]:
    partition = opening_partition(opening, setting, outside=outside)
    if partition is None:
        return ()
    result = predict(partition, setting, incidence)
    factor = np.asarray(result.direct) + np.asarray(result.resonant) + np.asarray(result.bridged)
    allowance, spread = _niche(opening, result)
    through = opening.area * opening.number * factor * 10.0 ** (-np.asarray(allowance) / 10.0)
    uncertainty = np.hypot(result.standard_uncertainty, spread)
    leaf = replace(base, through=bands(through), uncertainty=bands(uncertainty), family=result.construction,
                   build_up=opening.kind)  # fmt: skip
    if outside:
        return (leaf,)  # its slit opens into the gap, not outdoors
    slit = slit_through(opening, leaf_depth(opening), setting)
    if not np.any(slit > 2.0 * NEVER):
        return (leaf,)
    return leaf, replace(base, name=f"{base.name}, slit at its seals", through=bands(slit), kind="slit",
                          uncertainty=bands(_SLIT_UNCERTAINTY))  # fmt: skip


def _outside_layers(
    leaves: tuple[OpeningInPlace, ...], surface: Surface, open_: tuple[str, ...]
) -> tuple[LayerInPlace, ...]:
    """What sound passes before a door that stands only in the inner leaf: the leaf before it and the space between.

    Only a door behind another opening of its face has something before it; any other stands through the whole face.
    """
    if not stands_in_inner_leaf(leaves, surface) or leaves[1].name in open_:
        return ()
    assert surface.last_cavity is not None
    return (*leaves[1].layers, surface.layers[surface.last_cavity])


def _niche(opening: OpeningInPlace, result: PartitionResult) -> tuple[Bands, Bands]:
    if opening.reveal <= 0.0 or opening.kind not in ("window", "vehicle window"):
        return bands(0.0), bands(0.0)
    coincidence = min((each.frequency for each in result.resonances if each.kind == "coincidence"), default=2000.0)
    niche = niche_allowance(opening.reveal, opening.width, opening.height, coincidence)
    return niche.allowance, niche.standard_uncertainty
