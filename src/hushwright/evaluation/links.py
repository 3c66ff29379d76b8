"""Ways of the sound between two spaces: faces, doors, windows, slits, holes, each with what it lets through.

A link's ``through`` is area times transmission factor [m²] per band for diffuse sound; it is the same both ways.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike

from hushwright.evaluation.faces import (
    Setting,
    opening_partition,
    predict,
    surface_partition,
)
from hushwright.evaluation.guard import at
from hushwright.evaluation.results import Bands
from hushwright.model.build import Build, LayerInPlace, OpeningInPlace, Room, StateOfUse, Surface, hash_once
from hushwright.physics.acoustics.bands import FREQUENCIES, N_BANDS
from hushwright.physics.acoustics.leaks import joint_transmission_area, niche_allowance
from hushwright.physics.acoustics.partition import DIFFUSE, PartitionResult
from hushwright.physics.acoustics.quadrature import Incidence
from hushwright.physics.acoustics.slits import Slit, circular_hole_transmission, joint_reduction

OUTDOORS = "outdoors"
CAB = "cab"
_SLIT_UNCERTAINTY = 3.0  # dB beside the spread of its width; common practice, no source
_HOLE_UNCERTAINTY = 3.0  # dB; common practice, no source
_DUCT_UNCERTAINTY = 4.0  # dB until duct noise is computed; common practice, no source
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
    family: str = ""  # ways of one family are predicted by the same law and wrong together
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


def openings_in(build: Build, room: Room, face: str) -> tuple[OpeningInPlace, ...]:
    """Openings in one face of a room, those of the vehicle's own skin left out."""
    return _by_face(build.openings)[0].get((room.name, face), ())


def openings_of_skin(build: Build, room: Room, face: str) -> tuple[OpeningInPlace, ...]:
    """Openings of the vehicle's skin in front of one face of a room."""
    return _by_face(build.openings)[1].get((room.name, face), ())


def open_area(build: Build, room: Room, open_: tuple[str, ...]) -> float:
    """Area of all openings of a room that stand open to the space beyond [m²]."""
    found = [each for surface in room.surfaces for each in openings_in(build, room, surface.face)]
    found += [each for surface in room.surfaces for each in _vehicle_openings(build, room, surface)]
    return sum(each.area * each.number for each in found if all(name in open_ for name in _chain(build, each)))


Openings = dict[tuple[str, str], tuple[OpeningInPlace, ...]]


@lru_cache(maxsize=64)
def _by_face(openings: tuple[OpeningInPlace, ...]) -> tuple[Openings, Openings]:
    own: Openings = {}
    skin: Openings = {}
    for each in openings:
        found, at_face = (skin if each.in_vehicle else own), (each.room, each.face)
        found[at_face] = (*found.get(at_face, ()), each)
    return own, skin


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
        openings = openings_in(build, room, surface.face) + _vehicle_openings(build, room, surface)
        found += _face(surface, openings, setting, inside)
        for opening in openings:
            if opening.run:
                continue  # its run is the way, see `air_ways`
            chain = _chain(build, opening)
            found += _opening(opening, chain, surface, state.open, setting, inside)
    return found


def _chain(build: Build, opening: OpeningInPlace) -> tuple[str, ...]:
    """Names of an opening and of all that one has to pass before it."""
    names = [opening.name]
    at = opening
    while at.behind and at.behind not in names:
        names.append(at.behind)
        at = next((each for each in build.openings if each.name == at.behind), at)
    return tuple(names)


def _vehicle_openings(build: Build, room: Room, surface: Surface) -> tuple[OpeningInPlace, ...]:
    """Openings of the vehicle that lead straight into a room; the gap round a quiet one takes them itself."""
    if room.purpose == "quiet" or surface.beyond != OUTDOORS:
        return ()
    return openings_of_skin(build, room, surface.face)


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
                result.standard_uncertainty, surface.place, "through", family=result.construction)  # fmt: skip
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
    opening: OpeningInPlace,
    chain: tuple[str, ...],
    surface: Surface,
    open_: tuple[str, ...],
    setting: Setting,
    incidence: Incidence,
) -> tuple[Link, ...]:
    with at(opening.place):
        return _through(opening, chain, surface, open_, setting, incidence)


def _through(
    opening: OpeningInPlace,
    chain: tuple[str, ...],
    surface: Surface,
    open_: tuple[str, ...],
    setting: Setting,
    incidence: Incidence,
) -> tuple[Link, ...]:
    name = opening.name.replace("_", " ")
    base = Link(name, surface.beyond, _outer_face(surface), surface.room, surface.face, opening.area * opening.number,
                bands(NEVER), bands(_HOLE_UNCERTAINTY), opening.place, "opening")  # fmt: skip
    if all(each in open_ for each in chain):
        return (replace(base, through=bands(opening.area * opening.number), name=f"{name}, open"),)
    if opening.kind == "duct":
        return (_duct(base, opening),)
    if opening.kind in ("gland", "hole"):
        return (_hole(base, opening, setting),)
    return _leaf(base, opening, surface, open_, setting, incidence)


def _duct(base: Link, opening: OpeningInPlace) -> Link:
    loss = octaves_over_thirds(opening.insertion_loss)
    through = opening.area * opening.number * 10.0 ** (-np.asarray(loss) / 10.0)
    return replace(base, through=bands(through), uncertainty=bands(_DUCT_UNCERTAINTY), kind="duct")


def octaves_over_thirds(pairs: tuple[tuple[float, float], ...]) -> Bands:
    """Octave values held over their thirds, the outer ones on to the ends; nothing where none are given."""
    if not pairs:
        return bands(0.0)
    centres = np.log2(np.array([pair[0] for pair in pairs]))
    values = np.array([pair[1] for pair in pairs])
    at = np.argmin(np.abs(centres[:, None] - np.log2(FREQUENCIES)[None, :]), axis=0)
    return bands(values[at])


def _hole(base: Link, opening: OpeningInPlace, setting: Setting) -> Link:
    if opening.filled == "packed with putty":
        return replace(base, through=bands(NEVER), kind="hole", note="packed: nothing counted")
    if opening.filled == "sealed":
        ring = 2.0 * (opening.width + opening.height) if not opening.round else np.pi * opening.width
        through = opening.number * slit_area(_SEALED_RING, opening.depth, float(ring), 1, setting)
        return replace(base, through=bands(through), kind="hole", note="slit of 0.1 mm left round a sealed gland")
    radius = (opening.area / np.pi) ** 0.5
    factor = circular_hole_transmission(radius, max(opening.depth, 1e-4), FREQUENCIES, setting.air)
    return replace(base, through=bands(opening.area * opening.number * factor), kind="hole")


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
    surface: Surface,
    open_: tuple[str, ...],
    setting: Setting,
    incidence: Incidence,
) -> tuple[Link, ...]:
    outside = _outside_layers(opening, surface, open_)
    partition = opening_partition(opening, setting, outside=outside)
    if partition is None:
        return ()
    result = predict(partition, setting, incidence)
    factor = np.asarray(result.direct) + np.asarray(result.resonant) + np.asarray(result.bridged)
    allowance, spread = _niche(opening, result)
    through = opening.area * opening.number * factor * 10.0 ** (-np.asarray(allowance) / 10.0)
    uncertainty = np.hypot(result.standard_uncertainty, spread)
    leaf = replace(base, through=bands(through), uncertainty=bands(uncertainty), family=result.construction)
    if outside:
        return (leaf,)  # its slit opens into the gap, not outdoors
    slit = slit_through(opening, leaf_depth(opening), setting)
    if not np.any(slit > 2.0 * NEVER):
        return (leaf,)
    return leaf, replace(base, name=f"{base.name}, slit at its seals", through=bands(slit), kind="slit",
                          uncertainty=bands(_SLIT_UNCERTAINTY))  # fmt: skip


def _outside_layers(opening: OpeningInPlace, surface: Surface, open_: tuple[str, ...]) -> tuple[LayerInPlace, ...]:
    """What sound passes before a door that stands only in the inner leaf: the rest of the face.

    Only a door behind another opening has something before it; any other stands through the whole face.
    """
    if not stands_in_inner_leaf(opening) or surface.last_cavity is None or opening.behind in open_:
        return ()
    return surface.layers[: surface.last_cavity + 1]


def stands_in_inner_leaf(opening: OpeningInPlace) -> bool:
    """Whether an opening lies only in the inner leaf, behind another one, and not through the whole face."""
    return bool(opening.behind) and not opening.in_vehicle and not any(layer.is_cavity for layer in opening.layers)


def _niche(opening: OpeningInPlace, result: PartitionResult) -> tuple[Bands, Bands]:
    if opening.reveal <= 0.0 or opening.kind not in ("window", "vehicle window"):
        return bands(0.0), bands(0.0)
    coincidence = min((each.frequency for each in result.resonances if each.kind == "coincidence"), default=2000.0)
    niche = niche_allowance(opening.reveal, opening.width, opening.height, coincidence)
    return niche.allowance, niche.standard_uncertainty
