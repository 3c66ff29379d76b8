"""Layers of a face as heat and vapour see them: bays, ribs, battens and absorbers side by side."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from itertools import product

from hushwright.library.records import Facing
from hushwright.library.thermal import ThermalMaterial
from hushwright.model.faces import CavityInPlace, LayerInPlace, TreatmentInPlace
from hushwright.physics.air import AIR_20C
from hushwright.physics.thermal.conduction import (
    BuildUpSection,
    MixedResistance,
    SurfaceResistances,
    mixed_thermal_resistance,
)
from hushwright.physics.thermal.layers import AirLayer, HeatFlow, KnownLayer, SolidLayer, ThermalLayer
from hushwright.physics.thermal.matrices import AIR_HEAT_CAPACITY
from hushwright.physics.thermal.moisture import VapourLayer
from hushwright.physics.thermal.rooms import two_node_capacities

_AIR_CONDUCTIVITY = 0.025
"""W/(m·K), still air inside a hollow rib; ISO 6946."""

_WIDEST_AIR = 0.3
"""m, ISO 6946; a wider space holds back no more than that."""

_WEBS = 2.0
"""Webs of a hollow rib that carry heat across it; common practice, no source."""

_THINNEST = 1e-6
"""m, parts thinner than that are none."""


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a section: heat, thickness of still air that holds back as much vapour [m], heat capacity, name."""

    layer: ThermalLayer
    diffusion: float
    capacity: float  # J/(m²·K)
    name: str


@dataclass(frozen=True, slots=True)
class ThermalSection:
    """A strip of a face with the same parts, outside first."""

    share: float
    parts: tuple[Part, ...]
    name: str


@dataclass(frozen=True, slots=True)
class ThermalBuildUp:
    """A face as strips side by side, all cut at the same depths."""

    sections: tuple[ThermalSection, ...]
    heat_flow: HeatFlow

    def resistance(self, surfaces: SurfaceResistances) -> MixedResistance:
        """Total resistance between both surfaces' surroundings [m²·K/W]."""
        cut = [BuildUpSection(each.share, tuple(part.layer for part in each.parts)) for each in self.sections]
        return mixed_thermal_resistance(cut, self.heat_flow, surfaces)

    @property
    def bay(self) -> ThermalSection:
        """Strip with the largest share: between ribs and battens."""
        return max(self.sections, key=lambda each: each.share)

    def capacities(self) -> tuple[float, float]:
        """Heat capacity that follows the outer and the inner surface [J/(m²·K)]."""
        mean = [
            sum(each.share * each.parts[index].capacity for each in self.sections)
            for index in range(len(self.bay.parts))
        ]
        resistances = [part.layer.resistance(self.heat_flow) for part in self.bay.parts]
        skin, _, leaf = two_node_capacities(list(zip(resistances, mean, strict=True)))
        return skin, leaf

    def coldest_factor(self, outside: float, inside: float) -> float:
        """Temperature factor of the inside surface where the least holds the heat back [-]."""
        lowest = min(sum(part.layer.resistance(self.heat_flow) for part in each.parts) for each in self.sections)
        return 1.0 - inside / (outside + lowest + inside)

    def vapour_layers(self) -> tuple[VapourLayer, ...]:
        """Layers between ribs for heat and vapour, outside first."""
        return tuple(VapourLayer(part.layer.resistance(self.heat_flow), part.diffusion) for part in self.bay.parts)


@lru_cache(maxsize=1024)
def thermal_build_up(
    layers: tuple[LayerInPlace, ...],
    treatments: tuple[TreatmentInPlace, ...],
    materials: tuple[tuple[str, ThermalMaterial], ...],
    rib_sheet: tuple[str, float],
    heat_flow: HeatFlow,
) -> ThermalBuildUp:
    """Strips of a face side by side.

    Parameters
    ----------
    layers : tuple of LayerInPlace
        Layers, outside first.
    treatments : tuple of TreatmentInPlace
        Absorbers on the finished face.
    materials : tuple of pairs
        Heat and vapour values by the name of a record.
    rib_sheet : tuple of str and float
        Material of the body's ribs and thickness of their sheet [m].
    heat_flow : {"horizontal", "up", "down"}
        Direction of the heat.

    Returns
    -------
    ThermalBuildUp
        Every combination of rib or bay, batten or none, absorber or none that has a share.
    """
    known = dict(materials)
    ribs, battens = _share(layers, ribs=True), _share(layers, ribs=False)
    covered = min(sum(each.coverage for each in treatments), 1.0)
    sections = []
    for (in_rib, rib), (in_frame, frame), (in_front, front) in product(_both(ribs), _both(battens), _both(covered)):
        parts: list[Part] = []
        for layer in layers:
            if layer.cavity is not None:
                parts += _cavity(layer, layer.cavity, known, rib_sheet, heat_flow, in_rib=in_rib, in_frame=in_frame)
            elif layer.thickness > _THINNEST:
                parts.append(_solid(layer, known))
        for treatment in treatments:
            parts.append(_absorber(treatment, known, here=in_front))
        named = [word for word, there in (("rib", in_rib), ("batten", in_frame), ("absorber", in_front)) if there]
        sections.append(ThermalSection(rib * frame * front, tuple(parts), " and ".join(named) or "bay"))
    return ThermalBuildUp(tuple(sections), heat_flow)


def _both(share: float) -> tuple[tuple[bool, float], ...]:
    """Strips without and with something that has a share."""
    return tuple((there, part) for there, part in ((False, 1.0 - share), (True, share)) if part > 0.0)


def _share(layers: tuple[LayerInPlace, ...], *, ribs: bool) -> float:
    """Share of the face that ribs or battens take; the largest where several spaces have some."""
    shares = [0.0]
    for layer in layers:
        if layer.cavity is None:
            continue
        if ribs and layer.cavity.ribs is not None and layer.cavity.ribs.depth > 0.0:
            shares.append(layer.cavity.ribs.width / layer.cavity.ribs.spacing)
        if not ribs and layer.cavity.frame is not None and layer.cavity.frame.depth > 0.0:
            shares.append(layer.cavity.frame.width / layer.cavity.frame.spacing)
    return min(max(shares), 1.0)


def _solid(layer: LayerInPlace, known: Mapping[str, ThermalMaterial]) -> Part:
    name = str(getattr(layer.record, "name", layer.name))
    material = known[name]
    perforated = isinstance(layer.record, Facing) and layer.record.open_area_ratio is not None
    factor = 1.0 if perforated else material.vapour_resistance_factor.value
    # What the layer leaves free lets vapour through beside it.
    through = layer.coverage / (layer.thickness * factor) + (1.0 - layer.coverage) / layer.thickness
    return Part(
        SolidLayer(layer.thickness, material.conductivity.value),
        1.0 / through,
        layer.surface_density * material.heat_capacity.value,
        name,
    )


def _absorber(treatment: TreatmentInPlace, known: Mapping[str, ThermalMaterial], *, here: bool) -> Part:
    """Absorber with the air behind it; nothing in the strip beside it."""
    if not here:
        return Part(KnownLayer(0.0), _THINNEST, 0.0, "free face")
    material, thick = known[treatment.blanket.name], treatment.thickness
    behind = treatment.air_behind
    resistance = thick / material.conductivity.value
    if behind > _THINNEST:
        resistance += AirLayer(min(behind, _WIDEST_AIR)).resistance("horizontal")
    return Part(
        KnownLayer(resistance),
        thick * material.vapour_resistance_factor.value + behind,
        thick * treatment.blanket.density.value * material.heat_capacity.value,
        treatment.blanket.name,
    )


def _cavity(
    layer: LayerInPlace,
    space: CavityInPlace,
    known: Mapping[str, ThermalMaterial],
    rib_sheet: tuple[str, float],
    heat_flow: HeatFlow,
    *,
    in_rib: bool,
    in_frame: bool,
) -> list[Part]:
    """Parts of a space from outside to inside; the wool lies against its outer side."""
    depth = layer.thickness + space.extra_depth
    rib = min(space.ribs.depth, depth) if space.ribs is not None else 0.0
    frame = min(space.frame.depth, depth) if space.frame is not None else 0.0
    wool = min(space.fill_thickness, depth) if space.fill is not None else 0.0
    cuts = sorted({0.0, depth, rib, depth - frame, wool})
    parts = []
    for begin, end in zip(cuts, cuts[1:], strict=False):
        thick, middle = end - begin, (begin + end) / 2.0
        if thick <= _THINNEST:
            continue
        if in_rib and middle < rib:
            parts.append(_rib(space, known, rib_sheet, thick))
        elif in_frame and middle > depth - frame and space.frame is not None:
            sheet = space.frame.sheet
            parts.append(_of(known[sheet.name], sheet.name, sheet.density.value, thick))
        elif middle < wool and space.fill is not None:
            parts.append(_of(known[space.fill.name], space.fill.name, space.fill.density.value, thick))
        else:
            parts.append(_air(depth - wool, thick, heat_flow))
    return parts


def _of(material: ThermalMaterial, name: str, density: float, thick: float) -> Part:
    return Part(SolidLayer(thick, material.conductivity.value), thick * material.vapour_resistance_factor.value,
                thick * density * material.heat_capacity.value, name)  # fmt: skip


def _air(whole: float, thick: float, heat_flow: HeatFlow) -> Part:
    """Part of an air space: its portion of what the whole space holds back."""
    resistance = AirLayer(min(whole, _WIDEST_AIR)).resistance(heat_flow) * thick / whole
    return Part(KnownLayer(resistance), thick, thick * AIR_20C.density * AIR_HEAT_CAPACITY, "air")


def _rib(
    space: CavityInPlace, known: Mapping[str, ThermalMaterial], rib_sheet: tuple[str, float], thick: float
) -> Part:
    """Hollow rib of sheet: its webs carry the heat over the width of its flange."""
    assert space.ribs is not None
    name, sheet = rib_sheet
    webs = min(_WEBS * sheet / space.ribs.width, 1.0)
    material = known[name]
    conductivity = webs * material.conductivity.value + (1.0 - webs) * _AIR_CONDUCTIVITY
    return Part(SolidLayer(thick, conductivity), thick * material.vapour_resistance_factor.value, 0.0, "rib")
