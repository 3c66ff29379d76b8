"""Sound reduction of a partition: direct, resonant and bridged transmission of a finite build-up."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES, N_BANDS
from hushwright.physics.acoustics.bridges import Bridge, BridgeEnd, bridge_transmission
from hushwright.physics.acoustics.layers import (
    BondedPlates,
    DampedPlate,
    Layer,
    LimpMass,
    LooseBoards,
    Plate,
)
from hushwright.physics.acoustics.matrices import State, Wave, march, panel_impedance
from hushwright.physics.acoustics.plates import LIMP_STIFFNESS, Leaf, free_wave
from hushwright.physics.acoustics.radiation import radiation_efficiency, radiation_factor
from hushwright.physics.acoustics.resonances import LeafLayers, Resonance, find_resonances, split_leaves
from hushwright.physics.acoustics.spread import classify, standard_uncertainty
from hushwright.physics.air import AIR_20C, Air

FloatArray = NDArray[np.float64]
ComplexArray = NDArray[np.complex128]

_GOLDEN = 0.6180339887498949
_EXACT_BELOW = 24.0
"""Wavenumber times diagonal up to which the radiation factor is integrated; above, the closed form is within 0.1 dB."""


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

    Raises
    ------
    InvalidInput
        If there is no layer or a side is not positive.

    References
    ----------
    .. [1] ISO 10140-2:2021: the sound reduction index of an element of given size.

    Examples
    --------
    >>> Partition((LimpMass(10.0, 0.0125),), 3.6, 2.78).area
    10.008
    """

    layers: tuple[Layer, ...]
    width: float
    height: float
    bridges: tuple[Bridge, ...] = ()
    radius: float | None = None

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
class Quadrature:
    """Number of directions and of frequencies per third octave over which is averaged [-]."""

    angles: int = 16
    per_band: int = 8

    def __post_init__(self) -> None:
        if self.angles < 4 or self.per_band < 1:
            raise InvalidInput(f"{self.angles} angles × {self.per_band} frequencies; at least 4 × 1 are needed")


DEFAULT = Quadrature()
FINE = Quadrature(96, 10)


@dataclass(frozen=True, slots=True)
class Incidence:
    """Polar angles [rad] from which sound arrives with equal strength per solid angle; all of them is a diffuse field."""

    lowest: float = 0.0
    highest: float = math.pi / 2.0

    def __post_init__(self) -> None:
        if not 0.0 <= self.lowest < self.highest <= math.pi / 2.0 + 1e-12:
            raise InvalidInput(f"angles {self.lowest} to {self.highest} rad; they must rise within 0 to π/2")


DIFFUSE = Incidence()


@dataclass(frozen=True, slots=True)
class PartitionResult:
    """Sound reduction of a partition with its parts.

    ``reduction`` R [dB] and the transmission factors [-] of the three ways have one value per third octave (27).
    ``standard_uncertainty`` [dB] is that of the method for this class of construction, ``rating_uncertainty`` [dB] that of
    a single number. ``validity`` holds one sentence per limit of the method that this partition leaves.
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


@dataclass(frozen=True, slots=True, eq=False)
class _Grid:
    """Frequencies (rows) and directions (columns) with weights that sum to one along a row."""

    frequency: FloatArray
    place: FloatArray
    cosine: FloatArray
    sine_squared: FloatArray
    across: FloatArray
    weight: FloatArray
    pressure_weight: FloatArray


@lru_cache(maxsize=16)
def _grid(quadrature: Quadrature, incidence: Incidence) -> _Grid:
    """Rank-one lattice: each frequency of a band shifts the directions, so the band sees all of them.

    Mid-points in θ crowd where sin²θ is 0 or 1, which is where coincidence and grazing waves need them.
    """
    count = quadrature.per_band
    part = (np.arange(count) + 0.5) / count - 0.5
    frequency = (FREQUENCIES[:, None] * 10.0 ** (0.1 * part)).reshape(-1, 1)
    order = np.arange(frequency.size)[:, None]
    shift = np.mod(0.5 + (order % count) * _GOLDEN, 1.0) if count < 4 else (np.mod(order * _stride(count), count) + 0.5) / count
    place = (np.arange(quadrature.angles)[None, :] + shift) / quadrature.angles
    theta = incidence.lowest + (incidence.highest - incidence.lowest) * place
    turn = np.mod(np.arange(quadrature.angles)[None, :] * _GOLDEN + order * math.sqrt(2.0), 1.0)
    cosine = np.cos(theta)
    weight = np.sin(2.0 * theta)
    weight = weight / weight.sum(axis=1, keepdims=True)
    span = math.sin(incidence.highest) ** 2 - math.sin(incidence.lowest) ** 2
    return _Grid(
        frequency,
        np.broadcast_to((place), cosine.shape),
        cosine,
        np.square(np.sin(theta)),
        np.square(np.cos(np.pi / 2.0 * turn)),
        weight,
        weight * span / (4.0 * cosine),
    )


def _stride(count: int) -> int:
    """A step near the golden share of a count that has no common divisor with it."""
    step = max(1, round(count * _GOLDEN))
    while math.gcd(step, count) != 1:
        step += 1
    return step


def _focus(grid: _Grid, quadrature: Quadrature, incidence: Incidence, ends: list[_LeafWave]) -> tuple[_Grid, int]:
    """Grid with directions drawn towards the coincidence of each leaf, and the first row that differs.

    Half of the directions follow bells as wide as the coincidence, so that few of them find a sharp one.
    """
    frequency = grid.frequency[:, 0]
    limp = [end.leaf.bending_stiffness[0] <= LIMP_STIFFNESS for end in ends]
    peaks = {
        (round(float(end.coincidence[0])), round(1e3 * float(end.total_loss[-1]))): end
        for end, soft in zip(ends, limp, strict=True)
        if not soft
    }
    rows = np.zeros(frequency.size, dtype=bool)
    for end in peaks.values():
        rows |= frequency > end.coincidence
    if not rows.any():
        return grid, frequency.size
    first = int(np.argmax(rows))
    knots = np.linspace(-1.0, 1.0, 33) * 1.45
    spans = [np.linspace(incidence.lowest, incidence.highest, 17)[None, :].repeat(frequency.size - first, axis=0)]
    bells = []
    for end in peaks.values():
        sine = np.sqrt(np.minimum(end.coincidence[first:] / frequency[first:], 1.0))
        centre = np.arcsin(sine)
        breadth = np.clip(0.25 * end.total_loss[first:] * np.tan(np.minimum(centre, 1.4)), 0.004, 0.2)
        bells.append((centre[:, None], breadth[:, None]))
        spans.append(np.clip(centre[:, None] + breadth[:, None] * np.tan(knots), incidence.lowest, incidence.highest))
    table = np.sort(np.concatenate(spans, axis=1), axis=1)
    share = _share(table, bells, incidence)
    place = grid.place[first:]
    theta = np.array([np.interp(at, x, y) for at, x, y in zip(place, share, table, strict=True)])
    density = _density(theta, bells, incidence)
    return _with_directions(grid, first, theta, 1.0 / density, incidence), first


def _share(theta: FloatArray, bells: list[tuple[FloatArray, FloatArray]], incidence: Incidence) -> FloatArray:
    """Share of directions below an angle: half evenly, half in bells."""
    span = incidence.highest - incidence.lowest
    total = 0.5 * (theta - incidence.lowest) / span
    for centre, breadth in bells:
        start = np.arctan((incidence.lowest - centre) / breadth)
        stop = np.arctan((incidence.highest - centre) / breadth)
        total = total + 0.5 / len(bells) * (np.arctan((theta - centre) / breadth) - start) / (stop - start)
    return np.asarray(total)


def _density(theta: FloatArray, bells: list[tuple[FloatArray, FloatArray]], incidence: Incidence) -> FloatArray:
    """Derivative of `_share`."""
    total = np.full(theta.shape, 0.5 / (incidence.highest - incidence.lowest))
    for centre, breadth in bells:
        start = np.arctan((incidence.lowest - centre) / breadth)
        stop = np.arctan((incidence.highest - centre) / breadth)
        total += 0.5 / len(bells) / (breadth * (1.0 + np.square((theta - centre) / breadth)) * (stop - start))
    return total


def _with_directions(
    grid: _Grid, first: int, theta: FloatArray, spacing: FloatArray, incidence: Incidence
) -> _Grid:
    """The grid with other directions from a row on."""
    cosine, sine = np.cos(theta), np.sin(theta)
    weight = 2.0 * sine * cosine * spacing
    weight /= weight.sum(axis=1, keepdims=True)
    span = math.sin(incidence.highest) ** 2 - math.sin(incidence.lowest) ** 2

    def joined(base: FloatArray, new: FloatArray) -> FloatArray:
        return np.concatenate([base[:first], new])

    return _Grid(
        grid.frequency,
        grid.place,
        joined(grid.cosine, cosine),
        joined(grid.sine_squared, np.square(sine)),
        grid.across,
        joined(grid.weight, weight),
        joined(grid.pressure_weight, weight * span / (4.0 * cosine)),
    )


@lru_cache(maxsize=64)
def _radiation(quadrature: Quadrature, incidence: Incidence, width: float, height: float, speed: float) -> FloatArray:
    """Radiation factor on the grid, integrated where the panel is small against the wavelength."""
    grid = _grid(quadrature, incidence)
    wave = 2.0 * np.pi * grid.frequency / speed
    factor = radiation_factor(wave, grid.cosine, width, height)
    small = int(np.searchsorted(wave[:, 0] * math.hypot(width, height), _EXACT_BELOW))
    if small:
        factor[:small] = radiation_factor(wave[:small], grid.cosine[:small], width, height, exact=True)
    factor.setflags(write=False)
    return factor


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
    Direct: ``τ = ∫|2/(A + B/Z + CZ + D)|²/(σ cosθ) sin2θ dθ`` with ``Z = ρcσ(θ)`` of the finite panel on both faces [1]_ [2]_.
    Resonant: each leaf passes more by free waves below its coincidence,
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

    >>> result = sound_reduction(Partition((LimpMass(10.0, 0.0125),), 3.6, 2.78))
    >>> round(result.reduction[6], 1)
    14.9
    """
    layers = tuple(layer for layer in partition.layers if layer.thickness > 0.0 or layer.surface_density > 0.0)
    leaves = split_leaves(layers)
    grid = _grid(quadrature, incidence)
    factor = _radiation(quadrature, incidence, partition.width, partition.height, air.speed_of_sound)
    ends = [_leaf_wave(leaf, partition, grid.frequency[:, 0], air) for leaf in leaves]
    orthotropic = _is_orthotropic(layers)
    if not orthotropic:
        grid, first = _focus(grid, quadrature, incidence, ends)
        wavenumber = 2.0 * np.pi * grid.frequency[first:] / air.speed_of_sound
        sharp = radiation_factor(wavenumber, grid.cosine[first:], partition.width, partition.height)
        factor = np.concatenate([factor[:first], sharp])
    across = grid.across if orthotropic else None
    wave = Wave(grid.frequency, grid.sine_squared, across, air, partition.perimeter / partition.area)
    field = _Field(partition, layers, leaves, wave, grid, factor)
    states = field.march_inwards()
    direct = field.direct(states)
    extra = np.prod([field.resonant_gain(end) for end in ends], axis=0) if ends else np.ones_like(direct)
    resonant = direct * (extra - 1.0)
    bridged = field.bridged(states, ends) if partition.bridges and len(leaves) > 1 else np.zeros_like(direct)
    return _result(partition, layers, leaves, air, (direct, resonant, bridged))


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


@dataclass(frozen=True, slots=True, eq=False)
class _LeafWave:
    """A leaf with its free waves: what `BridgeEnd` needs apart from its forced velocity."""

    position: LeafLayers
    leaf: Leaf
    efficiency: FloatArray
    total_loss: FloatArray
    coincidence: FloatArray


def _leaf_wave(position: LeafLayers, partition: Partition, frequency: FloatArray, air: Air) -> _LeafWave:
    """Free waves of one leaf; its boards and sheets bend side by side."""
    mass = position.surface_density
    stiffness: FloatArray = np.zeros_like(frequency)
    lost: FloatArray = np.zeros_like(frequency)
    for layer in position.layers:
        if isinstance(layer, Plate | DampedPlate | BondedPlates | LooseBoards):
            panel = free_wave(layer, frequency)
            stiffness = stiffness + panel.bending_stiffness
            lost = lost + panel.bending_stiffness * panel.loss_factor
    stiffness = np.maximum(stiffness, LIMP_STIFFNESS)
    coincidence = air.speed_of_sound**2 / (2.0 * np.pi) * np.sqrt(mass / stiffness)
    perimeter, area = position.bay or (partition.perimeter, partition.area)
    efficiency = radiation_efficiency(frequency, coincidence, perimeter, area, air=air)
    radiated = 2.0 * air.characteristic_impedance * efficiency / (2.0 * np.pi * frequency * mass)
    leaf = Leaf(mass, stiffness, lost / stiffness)
    return _LeafWave(position, leaf, efficiency, np.maximum(leaf.loss_factor, 1e-5) + radiated, coincidence)


@dataclass(frozen=True, slots=True, eq=False)
class _Field:
    """One evaluation: the grid, the layers, and the three ways through."""

    partition: Partition
    layers: tuple[Layer, ...]
    leaves: tuple[LeafLayers, ...]
    wave: Wave
    grid: _Grid
    factor: FloatArray

    @property
    def impedance(self) -> FloatArray:
        """Radiation impedance [Pa·s/m] of the finite panel."""
        return np.asarray(self.wave.air.characteristic_impedance * self.factor)

    def march_inwards(self) -> list[State]:
        """States for sound from outside; the receiving side moves at 1 m/s."""
        ones = np.ones(self.factor.shape, dtype=np.complex128)
        return march(self.layers, self.wave, (self.impedance * ones, ones))

    def march_outwards(self) -> list[State]:
        """States for sound from inside."""
        ones = np.ones(self.factor.shape, dtype=np.complex128)
        return march(self.layers[::-1], self.wave, (self.impedance * ones, ones))

    def _per_incident(self, states: list[State]) -> ComplexArray:
        """Velocity of the receiving side [m/s] per incident pressure of 1 Pa."""
        pressure, velocity = states[-1]
        return np.asarray(2.0 / (pressure + self.impedance * velocity))

    def direct(self, states: list[State]) -> FloatArray:
        """Transmission factor of the forced waves at each frequency."""
        passed = np.square(np.abs(self.impedance * self._per_incident(states)))
        return np.asarray(np.sum(passed * self.grid.weight / (self.factor * self.grid.cosine), axis=1))

    def alone(self, end: _LeafWave) -> FloatArray:
        """Squared velocity [m²/s²] of one leaf alone per incident pressure of 1 Pa."""
        start = np.zeros(1, dtype=np.complex128)
        own = sum((panel_impedance(layer, self.wave) for layer in end.position.layers), start)
        return np.asarray(np.square(np.abs(2.0 / (own + 2.0 * self.impedance))))

    def resonant_gain(self, end: _LeafWave) -> FloatArray:
        """Transmission of one leaf with its free waves over that of its forced waves, below its coincidence."""
        frequency = self.grid.frequency[:, 0]
        if end.leaf.bending_stiffness[0] <= LIMP_STIFFNESS:
            return np.ones_like(frequency)
        spread = self.grid.weight * self.factor / self.grid.cosine
        forced = np.sum(np.square(np.abs(2.0 / (1j * self.wave.omega * end.leaf.surface_density + 2.0 * self.impedance))) * spread, axis=1)
        whole = np.sum(self.alone(end) * spread, axis=1)
        free = 0.5 * np.pi * end.coincidence / frequency * np.square(end.efficiency) / end.total_loss
        ratio = free / np.sum(spread, axis=1)
        return np.where(frequency < end.coincidence, np.maximum(forced * (1.0 + ratio) / whole, 1.0), 1.0)

    def bridged(self, states: list[State], ends: list[_LeafWave]) -> FloatArray:
        """Transmission factor of all bridges, at most that of the leaves locked together."""
        outwards = self.march_outwards()
        total: FloatArray = np.zeros(self.grid.frequency.size)
        for bridge in self.partition.bridges:
            first, second = sorted(index % len(ends) for index in bridge.leaves)
            outer = self._end(states, ends[first], ends[second], outside=True)
            inner = self._end(outwards, ends[second], ends[first], outside=False)
            total = total + bridge_transmission(bridge, outer, inner, self.grid.frequency[:, 0], self.wave.air)
        return np.minimum(total, self._locked())

    def _locked(self) -> FloatArray:
        """Forced transmission of all leaves moving as one mass."""
        mass = sum(leaf.surface_density for leaf in self.leaves)
        impedance = 1j * self.wave.omega * mass
        passed = np.square(np.abs(2.0 / (2.0 + impedance / self.impedance)))
        return np.asarray(np.sum(passed * self.grid.weight / (self.factor * self.grid.cosine), axis=1))

    def _end(self, states: list[State], near: _LeafWave, far: _LeafWave, *, outside: bool) -> BridgeEnd:
        """Velocity difference of two leaves for sound on the side of the near one."""
        scale = self._per_incident(states)
        count = len(self.layers)

        def velocity(position: LeafLayers) -> ComplexArray:
            index = count - position.last - 1 if outside else position.first
            return np.asarray(states[index][1] * scale)

        moved = np.square(np.abs(velocity(near.position) - velocity(far.position)))
        forced = np.sum(np.minimum(moved, self.alone(near)) * self.grid.pressure_weight, axis=1)
        return BridgeEnd(near.leaf, forced, near.efficiency, near.total_loss)


def _band_mean(values: FloatArray) -> FloatArray:
    return values.reshape(N_BANDS, -1).mean(axis=1)


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
                notes.append(f"Leaf {number} has its first mode at {first:.0f} Hz; below that its edges decide, not its mass.")
    notes += [
        f"The outer leaf is curved: below its ring frequency of {ring.frequency:.0f} Hz it is stiffer than the method takes it."
        for ring in resonances
        if ring.kind == "ring"
    ]
    return tuple(notes)
