"""Sound reduction of each face and opening as built, memoised by value."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache

from hushwright.evaluation.layers import acoustic_layers
from hushwright.library.library import Library
from hushwright.model.build import BridgeInPlace, LayerInPlace, OpeningInPlace, Surface, VehicleInPlace, hash_once
from hushwright.physics.acoustics.bridges import Bridge, LineBridge, PointBridge, spacer_bridge
from hushwright.physics.acoustics.glazing import sealed_unit_bridges
from hushwright.physics.acoustics.layers import Layer
from hushwright.physics.acoustics.partition import DIFFUSE, Partition, PartitionResult, sound_reduction
from hushwright.physics.acoustics.quadrature import Incidence, Quadrature
from hushwright.physics.air import Air

QUADRATURE = Quadrature()
_METAL_LOSS = 0.01  # of screwed battens and fixings; common practice, no source

reduction_of = lru_cache(maxsize=4096)(sound_reduction)
"""`sound_reduction`, each different partition computed once."""


@dataclass(frozen=True, slots=True)
class Setting:
    """What all faces of one Build share: air, temperature, the vehicle's skin."""

    air: Air
    temperature: float
    vehicle: VehicleInPlace | None
    library: Library
    kept_hash: int = field(default=0, init=False, repr=False, compare=False)

    def __hash__(self) -> int:
        return hash_once(self)


@lru_cache(maxsize=2048)
def surface_layers(surface: Surface, setting: Setting) -> tuple[Layer, ...]:
    """Acoustic layers of a face, outside in."""
    return acoustic_layers(surface.layers, setting.vehicle, setting.library, setting.temperature,
                           height=surface.height)  # fmt: skip


@lru_cache(maxsize=2048)
def surface_partition(surface: Surface, setting: Setting) -> Partition:
    """Partition of a whole face with its bridges."""
    layers = surface_layers(surface, setting)
    width, height = _sides(surface.area, surface.width, surface.height)
    bridges = tuple(_bridge(bridge) for bridge in surface.bridges)
    radius = None
    if setting.vehicle is not None and surface.layers and surface.layers[0].kind == "skin":
        radius = setting.vehicle.roof_radius if surface.face == "ceiling" else None
    return Partition(layers, width, height, bridges, radius)


def _sides(area: float, width: float, height: float) -> tuple[float, float]:
    """Sides of the rectangle with this area and this proportion, at least the 50 mm that the method takes."""
    scale = (area / (width * height)) ** 0.5
    return max(width * scale, 0.05), max(height * scale, 0.05)


def _bridge(bridge: BridgeInPlace) -> Bridge:
    if bridge.kind == "line":
        return LineBridge(bridge.density, bridge.stiffness, loss_factor=_METAL_LOSS)
    return PointBridge(bridge.density, bridge.stiffness, _METAL_LOSS)


@lru_cache(maxsize=2048)
def opening_partition(
    opening: OpeningInPlace, setting: Setting, *, outside: tuple[LayerInPlace, ...] = ()
) -> Partition | None:
    """Partition of a door leaf or window, with what one has to pass before it; `None` for a plain hole."""
    if not opening.layers:
        return None
    layers = acoustic_layers((*outside, *opening.layers), setting.vehicle, setting.library, setting.temperature,
                             height=opening.height)  # fmt: skip
    width, height = _sides(opening.area, opening.width, opening.height)
    bridges: tuple[Bridge, ...] = ()
    if opening.frames == "common" and any(layer.is_cavity for layer in opening.layers):
        # The common frame is a line all round, its length spread over the area.
        bridges = (spacer_bridge(width, height),)
    elif opening.frames != "common":
        bridges = sealed_unit_bridges(layers, width, height)
    return Partition(layers, width, height, bridges)


def predict(partition: Partition, setting: Setting, incidence: Incidence = DIFFUSE) -> PartitionResult:
    """Sound reduction of a partition in this air."""
    return reduction_of(partition, air=setting.air, quadrature=QUADRATURE, incidence=incidence)


@lru_cache(maxsize=2048)
def outer_partition(surface: Surface, setting: Setting) -> Partition:
    """Only what lies outside the outermost cavity, as sound enters the gap."""
    layers = acoustic_layers(surface.outer_leaf, setting.vehicle, setting.library, setting.temperature,
                             height=surface.height)  # fmt: skip
    width, height = _sides(surface.area, surface.width, surface.height)
    return Partition(layers, width, height)


@lru_cache(maxsize=2048)
def inner_partition(surface: Surface, setting: Setting) -> Partition:
    """Only the inner leaf, as sound leaves the gap."""
    layers = acoustic_layers(surface.inner_leaf, setting.vehicle, setting.library, setting.temperature,
                             height=surface.height)  # fmt: skip
    width, height = _sides(surface.area, surface.width, surface.height)
    return Partition(layers, width, height)
