"""The three ways through a partition on one grid: forced, free waves, bridges; internal."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hushwright.physics.acoustics._grid import Grid
from hushwright.physics.acoustics.bridges import Bridge, BridgeEnd, bridge_transmission
from hushwright.physics.acoustics.layers import BondedPlates, DampedPlate, Layer, LooseBoards, Plate
from hushwright.physics.acoustics.matrices import State, Wave, march, panel_impedance
from hushwright.physics.acoustics.plates import LIMP_STIFFNESS, Leaf, free_wave
from hushwright.physics.acoustics.resonances import LeafLayers
from hushwright.physics.acoustics.resonant import FreeWaves, free_waves, resonant_over_mass_law
from hushwright.physics.air import Air

FloatArray = NDArray[np.float64]
ComplexArray = NDArray[np.complex128]


@dataclass(frozen=True, slots=True, eq=False)
class LeafWave:
    """A leaf with its free waves: what `BridgeEnd` needs apart from its forced velocity."""

    position: LeafLayers
    leaf: Leaf
    free: FreeWaves


def leaf_wave(
    position: LeafLayers, size: tuple[float, float], edge_factor: float, frequency: FloatArray, air: Air
) -> LeafWave:
    """Free waves of one leaf; its boards and sheets bend side by side."""
    mass = position.surface_density
    panels = tuple(
        layer for layer in position.layers if isinstance(layer, Plate | DampedPlate | BondedPlates | LooseBoards)
    )
    leaf = free_wave(panels, frequency, mass)
    perimeter, area = position.bay or (2.0 * (size[0] + size[1]), size[0] * size[1])
    return LeafWave(position, leaf, free_waves(leaf, frequency, perimeter, area, edge_factor=edge_factor, air=air))


@dataclass(frozen=True, slots=True, eq=False)
class Field:
    """One evaluation: the grid, the layers, and the three ways through."""

    layers: tuple[Layer, ...]
    leaves: tuple[LeafLayers, ...]
    wave: Wave
    grid: Grid
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

    def alone(self, end: LeafWave) -> FloatArray:
        """Squared velocity [m²/s²] of one leaf alone per incident pressure of 1 Pa."""
        start = np.zeros(1, dtype=np.complex128)
        own = sum((panel_impedance(layer, self.wave) for layer in end.position.layers), start)
        return np.asarray(np.square(np.abs(2.0 / (own + 2.0 * self.impedance))))

    def resonant_gain(self, end: LeafWave) -> FloatArray:
        """Transmission of one leaf with its free waves over that of its forced waves, below its coincidence."""
        frequency = self.grid.frequency[:, 0]
        if end.leaf.bending_stiffness[0] <= LIMP_STIFFNESS:
            return np.ones_like(frequency)
        spread = self.grid.weight * self.factor / self.grid.cosine
        forced = np.sum(
            np.square(np.abs(2.0 / (1j * self.wave.omega * end.leaf.surface_density + 2.0 * self.impedance))) * spread,
            axis=1,
        )
        whole = np.sum(self.alone(end) * spread, axis=1)
        ratio = resonant_over_mass_law(end.leaf, end.free, frequency) / np.sum(spread, axis=1)
        return np.where(frequency < end.free.coincidence, np.maximum(forced * (1.0 + ratio) / whole, 1.0), 1.0)

    def bridged(self, bridges: tuple[Bridge, ...], states: list[State], ends: list[LeafWave]) -> FloatArray:
        """Transmission factor of all bridges, at most that of the leaves locked together."""
        outwards = self.march_outwards()
        total: FloatArray = np.zeros(self.grid.frequency.size)
        for bridge in bridges:
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

    def _end(self, states: list[State], near: LeafWave, far: LeafWave, *, outside: bool) -> BridgeEnd:
        """Velocity difference of two leaves for sound on the side of the near one."""
        scale = self._per_incident(states)
        count = len(self.layers)

        def velocity(position: LeafLayers) -> ComplexArray:
            index = count - position.last - 1 if outside else position.first
            return np.asarray(states[index][1] * scale)

        moved = np.square(np.abs(velocity(near.position) - velocity(far.position)))
        alone = self.alone(near)
        forced = np.sum(np.minimum(moved, alone) * self.grid.pressure_weight, axis=1)
        decoupling = forced / np.sum(alone * self.grid.pressure_weight, axis=1)
        return BridgeEnd(near.leaf, forced, near.free.efficiency, near.free.total_loss, decoupling)
