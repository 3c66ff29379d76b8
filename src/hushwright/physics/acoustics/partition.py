"""Sound reduction of a partition: direct, resonant and bridged transmission of a finite build-up."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics._grid import Peak, coincidence_peak, depth_peak, focus, lattice, radiation_grid
from hushwright.physics.acoustics._ways import Field, LeafWave, leaf_wave
from hushwright.physics.acoustics.bands import N_BANDS
from hushwright.physics.acoustics.bridges import Bridge
from hushwright.physics.acoustics.constants import EDGE_FACTOR
from hushwright.physics.acoustics.layers import (
    BondedPlates,
    DampedPlate,
    Gap,
    Layer,
    LooseBoards,
    Plate,
)
from hushwright.physics.acoustics.matrices import Wave, fluid_groups
from hushwright.physics.acoustics.plates import LIMP_STIFFNESS, free_wave
from hushwright.physics.acoustics.quadrature import DEFAULT, DIFFUSE, FINE, Incidence, Quadrature
from hushwright.physics.acoustics.radiation import radiation_factor
from hushwright.physics.acoustics.resonances import LeafLayers, Resonance, find_resonances, split_leaves
from hushwright.physics.acoustics.spaces import settled_absorption
from hushwright.physics.acoustics.spread import classify, is_glass, standard_uncertainty
from hushwright.physics.air import AIR_20C, Air

__all__ = [
    "DEFAULT", "DIFFUSE", "FINE", "Incidence", "Partition", "PartitionResult", "Quadrature", "sound_reduction",
]  # fmt: skip

FloatArray = NDArray[np.float64]

_DEPTH_ORDERS = 4


@dataclass(frozen=True, slots=True)
class Partition:
    """A flat or slightly curved build-up of finite size.

    Parameters
    ----------
    layers : tuple of Layer
        Layers, outside in (thickness [m]).
    width : float
        Width [m].
    height : float
        Height [m].
    bridges : tuple of Bridge, optional
        Ribs, studs, screws between leaves (per area [1/m] or [1/m²]).
    radius : float or None, optional
        Radius of curvature of the outer leaf [m].
    edge_factor : float, optional
        Gain of the radiation of the edges below coincidence [-], 1 simply supported in a flat wall, 2 clamped or in a
        niche.

    Raises
    ------
    InvalidInput
        If there is no layer or a side is not positive.

    References
    ----------
    .. [1] ISO 10140-2:2021: the sound reduction index of an element of given size.

    Examples
    --------
    >>> from hushwright.physics.acoustics.layers import LimpMass
    >>> Partition((LimpMass(10.0, 0.0125),), 3.6, 2.78).area
    10.008
    """

    layers: tuple[Layer, ...]
    width: float
    height: float
    bridges: tuple[Bridge, ...] = ()
    radius: float | None = None
    edge_factor: float = EDGE_FACTOR

    def __post_init__(self) -> None:
        if not self.layers:
            raise InvalidInput("0 layers given; a partition needs one or more")
        for side in (self.width, self.height):
            if not 0.05 <= side <= 100.0:
                raise InvalidInput(f"partition is {self.width} m × {self.height} m; each side must be 0.05 to 100 m")

    @property
    def area(self) -> float:
        """Area [m²]."""
        return self.width * self.height

    @property
    def perimeter(self) -> float:
        """Perimeter [m]."""
        return 2.0 * (self.width + self.height)


@dataclass(frozen=True, slots=True)
class PartitionResult:
    """Sound reduction of a partition with its parts.

    Parameters
    ----------
    reduction : tuple of float, 27 values
        Sound reduction index of all ways together [dB].
    direct : tuple of float, 27 values
        Transmission factor of the forced waves [-].
    resonant : tuple of float, 27 values
        What the free waves of the leaves add to it [-].
    bridged : tuple of float, 27 values
        Transmission factor of the bridges [-].
    resonances : tuple of Resonance
        Where the partition is weak [Hz].
    surface_density : float
        Mass per area [kg/m²].
    thickness : float
        Thickness of the whole build-up [m].
    construction : str
        Class of construction, one of `spread.CONSTRUCTIONS`.
    standard_uncertainty : tuple of float, 27 values
        Standard uncertainty of the method for this class [dB].
    rating_uncertainty : float
        Standard uncertainty of a single-number rating [dB].
    validity : tuple of str
        One sentence per limit of the method that this partition leaves; empty inside it.
    """

    reduction: tuple[float, ...]
    direct: tuple[float, ...]
    resonant: tuple[float, ...]
    bridged: tuple[float, ...]
    resonances: tuple[Resonance, ...]
    surface_density: float
    thickness: float
    construction: str
    standard_uncertainty: tuple[float, ...]
    rating_uncertainty: float
    validity: tuple[str, ...]


def sound_reduction(
    partition: Partition,
    *,
    air: Air = AIR_20C,
    quadrature: Quadrature = DEFAULT,
    incidence: Incidence = DIFFUSE,
) -> PartitionResult:
    r"""Sound reduction index of a partition by third octaves.

    Parameters
    ----------
    partition : Partition
        Layers, size [m] and bridges.
    air : Air, optional
        Air on both sides and in the gaps (density [kg/m³]).
    quadrature : Quadrature, optional
        Directions and frequencies per band [-].
    incidence : Incidence, optional
        Polar angles of the sound [rad]; a diffuse field by default.

    Returns
    -------
    PartitionResult
        Sound reduction [dB], shares [-], resonances [Hz], uncertainty [dB] and validity.

    Notes
    -----
    Direct: ``τ = ∫|2/(A + B/Z + CZ + D)|²/(σ cosθ) sin2θ dθ`` with ``Z = ρcσ(θ)`` of the finite panel on both faces
    [1]_ [2]_. Resonant: each leaf passes more by free waves below its coincidence,
    ``r = (π/2)(f_c/f)σ_r²/η / ∫2σ sinθ dθ``, and the parts multiply, ``τ_direct·(Π(1 + r) − 1)`` [3]_. Bridged: see
    `bridges.bridge_transmission`. Details and limits: docs/methods/partition.md.

    References
    ----------
    .. [1] J.-F. Allard and N. Atalla, *Propagation of Sound in Porous Media*, 2nd ed., Wiley, 2009, ch. 11 and 12.
    .. [2] J. L. Davy, *J. Acoust. Soc. Am.* 126 (2009) 694–702.
    .. [3] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 6.

    Examples
    --------
    A limp board of 10 kg/m² in an opening of 10 m² at 100 Hz; ISO 15186-3 prints 14.8 dB.

    >>> from hushwright.physics.acoustics.layers import LimpMass
    >>> result = sound_reduction(Partition((LimpMass(10.0, 0.0125),), 3.6, 2.78))
    >>> round(result.reduction[6], 1)
    14.9
    """
    layers = tuple(layer for layer in partition.layers if layer.thickness > 0.0 or layer.surface_density > 0.0)
    leaves = split_leaves(layers)
    layers = _settle(layers, leaves)
    grid = lattice(quadrature, incidence)
    factor = radiation_grid(quadrature, incidence, partition.width, partition.height, air.speed_of_sound)
    size = (partition.width, partition.height)
    ends = [leaf_wave(leaf, size, partition.edge_factor, grid.frequency[:, 0], air) for leaf in leaves]
    orthotropic = _is_orthotropic(layers)
    if not orthotropic:
        grid, first = focus(grid, incidence, _peaks(layers, ends, grid.frequency[:, 0], air))
        wavenumber = 2.0 * np.pi * grid.frequency[first:] / air.speed_of_sound
        sharp = radiation_factor(wavenumber, grid.cosine[first:], partition.width, partition.height)
        factor = np.concatenate([factor[:first], sharp])
    across = grid.across if orthotropic else None
    wave = Wave(grid.frequency, grid.sine_squared, across, air, partition.perimeter / partition.area)
    field = Field(layers, leaves, wave, grid, factor)
    states = field.march_inwards()
    direct = field.direct(states)
    extra = np.prod([field.resonant_gain(end) for end in ends], axis=0) if ends else np.ones_like(direct)
    resonant = direct * (extra - 1.0)
    bridged = (
        field.bridged(partition.bridges, states, ends)
        if partition.bridges and len(leaves) > 1
        else np.zeros_like(direct)
    )
    return _result(partition, layers, leaves, air, (direct, resonant, bridged))


def _settle(layers: tuple[Layer, ...], leaves: tuple[LeafLayers, ...]) -> tuple[Layer, ...]:
    """Layers with the losses of every gap filled in by its kind."""
    settled = list(layers)
    depths = fluid_groups(layers)
    for index, layer in enumerate(layers):
        if isinstance(layer, Gap) and (layer.edge_absorption is None or layer.face_absorption is None):
            beside = [leaf for leaf in leaves if leaf.last < index][-1:] + [
                leaf for leaf in leaves if leaf.first > index
            ][:1]
            glass = len(beside) == 2 and all(is_glass(leaf) for leaf in beside)
            edge, face = settled_absorption(layer, depths[index], between_glass=glass)
            settled[index] = replace(layer, edge_absorption=edge, face_absorption=face)
    return tuple(settled)


def _peaks(layers: tuple[Layer, ...], ends: list[LeafWave], frequency: FloatArray, air: Air) -> list[Peak]:
    """Coincidences and standing waves that differ, in an order of their own so that both directions see one grid."""
    stiff = [end for end in ends if end.leaf.bending_stiffness[0] > LIMP_STIFFNESS]
    stiff.sort(key=lambda end: (float(end.free.coincidence[0]), float(end.free.total_loss[-1])))
    leaves = {
        (round(float(end.free.coincidence[0])), round(1e3 * float(end.free.total_loss[-1]))): coincidence_peak(
            frequency, end.free.coincidence, end.free.total_loss
        )
        for end in stiff
    }
    depths = {
        round(depth, 4)
        for layer, depth in zip(layers, fluid_groups(layers), strict=True)
        if isinstance(layer, Gap) and layer.fill_thickness == 0.0
    }
    spaces = [
        depth_peak(frequency, air.speed_of_sound / (2.0 * depth), order)
        for depth in sorted(depths)
        for order in range(1, _DEPTH_ORDERS + 1)
        if order * air.speed_of_sound / (2.0 * depth) < frequency[-1]
    ]
    return [*leaves.values(), *spaces]


def _is_orthotropic(layers: tuple[Layer, ...]) -> bool:
    plates: list[Plate] = []
    for layer in layers:
        if isinstance(layer, Plate):
            plates.append(layer)
        elif isinstance(layer, DampedPlate):
            plates.append(layer.plate)
        elif isinstance(layer, BondedPlates | LooseBoards):
            plates.extend(layer.plates)
    return any(plate.youngs_modulus_across is not None for plate in plates)


def _band_mean(values: FloatArray) -> FloatArray:
    return np.asarray(values.reshape(N_BANDS, -1).mean(axis=1))


def _result(
    partition: Partition,
    layers: tuple[Layer, ...],
    leaves: tuple[LeafLayers, ...],
    air: Air,
    ways: tuple[FloatArray, FloatArray, FloatArray],
) -> PartitionResult:
    direct, resonant, bridged = (_band_mean(way) for way in ways)
    reduction = -10.0 * np.log10(direct + resonant + bridged)
    construction = classify(leaves, partition.bridges)
    widths, rating = standard_uncertainty(construction)
    resonances = find_resonances(layers, partition.radius, air)
    return PartitionResult(
        reduction=tuple(map(float, reduction)),
        direct=tuple(map(float, direct)),
        resonant=tuple(map(float, resonant)),
        bridged=tuple(map(float, bridged)),
        resonances=resonances,
        surface_density=sum(layer.surface_density for layer in layers),
        thickness=sum(layer.thickness for layer in layers),
        construction=construction,
        standard_uncertainty=widths,
        rating_uncertainty=rating,
        validity=_validity(partition, leaves, resonances),
    )


def _validity(
    partition: Partition, leaves: tuple[LeafLayers, ...], resonances: tuple[Resonance, ...]
) -> tuple[str, ...]:
    """One sentence per limit that is left."""
    notes = []
    for number, leaf in enumerate(leaves, start=1):
        stiffness = sum(
            float(free_wave(layer, np.array([100.0])).bending_stiffness[0])
            for layer in leaf.layers
            if isinstance(layer, Plate | DampedPlate | BondedPlates | LooseBoards)
        )
        if leaf.surface_density > 0.0 and stiffness > LIMP_STIFFNESS:
            curve = 1.0 / partition.width**2 + 1.0 / partition.height**2
            first = math.pi / 2.0 * math.sqrt(stiffness / leaf.surface_density) * curve
            if first > 50.0:
                notes.append(
                    f"Leaf {number} has its first mode at {first:.0f} Hz; below that its edges decide, not its mass."
                )
    notes += [
        f"The outer leaf is curved: below its ring frequency of {ring.frequency:.0f} Hz it is stiffer than "
        "the method takes it."
        for ring in resonances
        if ring.kind == "ring"
    ]
    return tuple(notes)
