"""Where a partition is weak: mass-air-mass, coincidence, ring and cavity frequencies."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.layers import (
    BondedPlates,
    DampedPlate,
    Gap,
    GluedFoam,
    Layer,
    LooseBoards,
    PerforatedFacing,
    Plate,
    PorousLayer,
)
from hushwright.physics.acoustics.plates import coincidence_frequency, free_wave
from hushwright.physics.acoustics.porous import effective_bulk_modulus
from hushwright.physics.air import AIR_20C, Air

_HIGHEST = 40_000.0  # Hz; higher coincidences concern nobody

Kind = Literal["mass-air-mass", "coincidence", "ring", "cavity"]


@dataclass(frozen=True, slots=True)
class Resonance:
    """One frequency at which a partition is weak.

    Parameters
    ----------
    kind : str
        One of mass-air-mass, coincidence, ring and cavity.
    frequency : float
        Frequency [Hz].
    text : str
        The leaves concerned, in words.
    """

    kind: Kind
    frequency: float
    text: str


@dataclass(frozen=True, slots=True)
class LeafLayers:
    """One leaf: its layers and where they stand.

    Parameters
    ----------
    first : int
        Place of its first layer in the partition [-].
    last : int
        Place of its last layer [-].
    layers : tuple of Layer
        Layers that move as one (thickness [m]).
    bay : tuple of float or None
        Perimeter [m] and area [m²] of the field between ribs or studs; None is the whole partition.
    """

    first: int
    last: int
    layers: tuple[Layer, ...]
    bay: tuple[float, float] | None

    @property
    def surface_density(self) -> float:
        """Mass per area [kg/m²]."""
        return sum(layer.surface_density for layer in self.layers)


def split_leaves(layers: Sequence[Layer]) -> tuple[LeafLayers, ...]:
    """Leaves of a partition, outside in.

    Parameters
    ----------
    layers : sequence of Layer
        Layers, outside in (thickness [m]).

    Returns
    -------
    tuple of LeafLayers
        What moves as one: layers without a space or spring between them. Facings with holes are no leaf.

    References
    ----------
    .. [1] F. Fahy and P. Gardonio, *Sound and Structural Vibration*, 2nd ed., Academic Press, 2007, ch. 5.

    Examples
    --------
    >>> from hushwright.physics.acoustics.layers import Gap, LimpMass
    >>> len(split_leaves([LimpMass(5.0), Gap(0.05), LimpMass(5.0), LimpMass(1.0)]))
    2
    """
    leaves: list[LeafLayers] = []
    current: list[int] = []
    for index, layer in enumerate((*layers, Gap(1.0))):
        if isinstance(layer, Gap | PorousLayer | GluedFoam | PerforatedFacing):
            if current:
                members = tuple(layers[i] for i in current)
                leaves.append(LeafLayers(current[0], current[-1], members, _bay(layers, current[0], current[-1])))
                current = []
        else:
            current.append(index)
    return tuple(leaves)


def _bay(layers: Sequence[Layer], first: int, last: int) -> tuple[float, float] | None:
    """Bay of the space beside a leaf, the inner side first."""
    for index in (last + 1, first - 1):
        if 0 <= index < len(layers):
            layer = layers[index]
            if isinstance(layer, Gap) and layer.bay_perimeter is not None and layer.bay_area is not None:
                return layer.bay_perimeter, layer.bay_area
    return None


def mass_air_mass_resonance(outer: float, inner: float, gap: float, *, fill: bool = False, air: Air = AIR_20C) -> float:
    r"""Frequency at which two leaves swing on the air between them, for sound straight on.

    Parameters
    ----------
    outer : float
        Surface density of one leaf [kg/m²].
    inner : float
        Surface density of the other leaf [kg/m²].
    gap : float
        Depth of the space [m].
    fill : bool, optional
        Whether wool makes the air isothermal [-].
    air : Air, optional
        Air in the gap (pressure [Pa]).

    Returns
    -------
    float
        Frequency [Hz].

    Raises
    ------
    InvalidInput
        If a mass or the gap is not positive.

    Notes
    -----
    ``f0 = 1/(2π)·sqrt(s(1/m1 + 1/m2))`` with ``s = ρc²/d``, or ``p/d`` where a fill takes the heat [1]_.

    References
    ----------
    .. [1] F. Fahy and P. Gardonio, *Sound and Structural Vibration*, 2nd ed., Academic Press, 2007, ch. 5.

    Examples
    --------
    >>> round(mass_air_mass_resonance(10.0, 10.0, 0.1))
    85
    """
    if not (outer > 0.0 and inner > 0.0 and gap > 0.0):
        raise InvalidInput(f"leaves of {outer} and {inner} kg/m² over {gap} m; all three must be positive")
    stiffness = (air.pressure if fill else air.density * air.speed_of_sound**2) / gap
    return math.sqrt(stiffness * (1.0 / outer + 1.0 / inner)) / (2.0 * math.pi)


def ring_frequency(plate: Plate, radius: float) -> float:
    """Frequency at which a curved plate is as long around as a stretching wave.

    Parameters
    ----------
    plate : Plate
        The plate (Young's modulus [Pa], density [kg/m³]).
    radius : float
        Radius of curvature [m].

    Returns
    -------
    float
        Ring frequency [Hz].

    Raises
    ------
    InvalidInput
        If the radius is not positive.

    Notes
    -----
    ``f_r = sqrt(E/(ρ(1 − ν²)))/(2π r)`` [1]_. Below it curvature stiffens the plate.

    References
    ----------
    .. [1] F. Fahy and P. Gardonio, *Sound and Structural Vibration*, 2nd ed., Academic Press, 2007, ch. 3.

    Examples
    --------
    >>> round(ring_frequency(Plate(0.001, 7800.0, 199.64e9, 0.28, 0.01), 4.0))
    210
    """
    if not radius > 0.0:
        raise InvalidInput(f"radius is {radius} m; it must be positive")
    speed = math.sqrt(plate.youngs_modulus / (plate.density * (1.0 - plate.poisson**2)))
    return speed / (2.0 * math.pi * radius)


def find_resonances(layers: Sequence[Layer], radius: float | None, air: Air) -> tuple[Resonance, ...]:
    """All resonances of a partition by rising frequency.

    Parameters
    ----------
    layers : sequence of Layer
        Layers, outside in (thickness [m]).
    radius : float or None
        Radius of curvature of the first leaf [m].
    air : Air
        Air (speed of sound [m/s]).

    Returns
    -------
    tuple of Resonance
        Kind, frequency [Hz] and leaves.

    Notes
    -----
    The leaves on the springs between them are one chain; its natural frequencies come from the symmetric eigenvalue
    problem of mass and stiffness [1]_, so three leaves have two. A space is a spring of its real bulk modulus at 100
    Hz, glued foam one of its dynamic stiffness.

    References
    ----------
    .. [1] F. Fahy and P. Gardonio, *Sound and Structural Vibration*, 2nd ed., Academic Press, 2007, ch. 5.

    Examples
    --------
    >>> from hushwright.physics.acoustics.layers import Gap, LimpMass
    >>> pair = find_resonances([LimpMass(10.0), Gap(0.1), LimpMass(10.0)], None, AIR_20C)
    >>> [(r.kind, round(r.frequency)) for r in pair]
    [('mass-air-mass', 85), ('cavity', 1716)]
    """
    leaves = split_leaves(layers)
    found = _chain(layers, leaves, air) + _coincidences(leaves, air) + _cavities(layers, leaves, air)
    if radius is not None:
        outer = [layer for leaf in leaves[:1] for layer in leaf.layers]
        bare = [layer.plate if isinstance(layer, DampedPlate) else layer for layer in outer]
        plates = [layer for layer in bare if isinstance(layer, Plate)]
        found += [Resonance("ring", ring_frequency(plates[0], radius), "leaf 1, curved")] if plates else []
    return tuple(sorted(found, key=lambda resonance: resonance.frequency))


def _spring(layers: Sequence[Layer], air: Air) -> float:
    """Stiffness per area [N/m³] of what lies between two leaves."""
    compliance = 0.0
    frequency = np.array([100.0])
    adiabatic = air.density * air.speed_of_sound**2
    for layer in layers:
        if isinstance(layer, GluedFoam):
            compliance += 1.0 / layer.dynamic_stiffness
        elif isinstance(layer, PorousLayer):
            compliance += layer.thickness / float(effective_bulk_modulus(layer.porous, frequency, air=air).real[0])
        elif isinstance(layer, Gap):
            blanket = layer.fill_thickness if layer.fill is not None else 0.0
            compliance += (layer.thickness - blanket) / adiabatic
            if layer.fill is not None:
                compliance += blanket / float(effective_bulk_modulus(layer.fill, frequency, air=air).real[0])
    return 1.0 / compliance if compliance > 0.0 else math.inf


def _chain(layers: Sequence[Layer], leaves: tuple[LeafLayers, ...], air: Air) -> list[Resonance]:
    """Natural frequencies of the leaves on their springs."""
    if len(leaves) < 2:
        return []
    masses = np.array([leaf.surface_density for leaf in leaves])
    springs = [_spring(layers[a.last + 1 : b.first], air) for a, b in zip(leaves[:-1], leaves[1:], strict=True)]
    if any(math.isinf(s) for s in springs) or np.any(masses <= 0.0):
        return []
    matrix = np.zeros((len(leaves), len(leaves)))
    for index, spring in enumerate(springs):
        matrix[index : index + 2, index : index + 2] += spring * np.array([[1.0, -1.0], [-1.0, 1.0]])
    root = np.sqrt(masses)
    values, vectors = np.linalg.eigh(matrix / np.outer(root, root))
    found = []
    for value, vector in list(zip(values, vectors.T, strict=True))[1:]:
        widest = int(np.argmax(np.abs(np.diff(vector / root)) * np.sqrt(springs)))
        frequency = math.sqrt(max(float(value), 0.0)) / (2.0 * math.pi)
        found.append(Resonance("mass-air-mass", frequency, f"leaves {widest + 1} and {widest + 2}"))
    return found


def _coincidences(leaves: tuple[LeafLayers, ...], air: Air) -> list[Resonance]:
    """Coincidence of every leaf, whose sheets bend side by side; two where a sheet is orthotropic."""
    found = []
    for number, leaf in enumerate(leaves, start=1):
        panels = [layer for layer in leaf.layers if isinstance(layer, Plate | DampedPlate | BondedPlates | LooseBoards)]
        up = across = 0.0
        for panel in panels:
            plate = panel.plate if isinstance(panel, DampedPlate) else panel
            if isinstance(plate, Plate) and plate.youngs_modulus_across is not None:
                up, across = up + plate.bending_stiffness, across + plate.bending_stiffness_across
            else:
                stiffness = float(free_wave(panel, np.array([1000.0])).bending_stiffness[0])
                up, across = up + stiffness, across + stiffness
        for stiffness in sorted({up, across}):
            if stiffness > 0.0 and leaf.surface_density > 0.0:
                frequency = coincidence_frequency(leaf.surface_density, stiffness, air=air)
                if frequency < _HIGHEST:
                    found.append(Resonance("coincidence", frequency, f"leaf {number}"))
    return found


def _cavities(layers: Sequence[Layer], leaves: tuple[LeafLayers, ...], air: Air) -> list[Resonance]:
    """First standing wave across the depth of each space without a fill."""
    found = []
    for number, (a, b) in enumerate(zip(leaves[:-1], leaves[1:], strict=True), start=1):
        between = layers[a.last + 1 : b.first]
        gaps = [layer for layer in between if isinstance(layer, Gap)]
        if gaps and len(gaps) == len(between) and all(gap.fill_thickness == 0.0 for gap in gaps):
            depth = sum(gap.thickness for gap in gaps)
            found.append(
                Resonance("cavity", air.speed_of_sound / (2.0 * depth), f"between leaves {number} and {number + 1}")
            )
    return found
