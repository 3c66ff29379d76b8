"""Partitions per second against a plain NumPy loop of the same formulas, and cost against layers, angles and bands."""

from __future__ import annotations

import math
import time

import numpy as np

from hushwright.physics.acoustics.bands import FREQUENCIES
from hushwright.physics.acoustics.bridges import LineBridge
from hushwright.physics.acoustics.layers import Gap, LimpMass, Plate, Porous
from hushwright.physics.acoustics.partition import DEFAULT, FINE, Partition, Quadrature, sound_reduction
from hushwright.physics.acoustics.porous import effective_bulk_modulus, effective_density
from hushwright.physics.acoustics.radiation import radiation_factor
from hushwright.physics.acoustics.spaces import settled_absorption
from hushwright.physics.air import AIR_20C

STEEL = Plate(0.0008, 7800.0, 199.64e9, 0.28, 0.016)
BOARD = Plate(0.0125, 680.0, 2.03e9, 0.3, 0.03)
PLY = Plate(0.015, 600.0, 8.3e9, 0.3, 0.045)
WOOL = Porous(8_000.0, 0.98, 1.0, 30.0)
GAP = Gap(0.06, WOOL, 0.05, bay_perimeter=3.8, bay_area=0.9)
WALL = (STEEL, GAP, LimpMass(5.0, 0.0025), PLY, Gap(0.03, WOOL, 0.03), BOARD, BOARD)
SIZE = (3.0, 1.8)


def seconds(job, least=0.3) -> float:
    """Mean time of a warm call."""
    job()
    count, start = 0, time.perf_counter()
    while time.perf_counter() - start < least:
        job()
        count += 1
    return (time.perf_counter() - start) / count


def plain_loop(layers, quadrature) -> np.ndarray:
    """Direct way only: two-by-two matrices, one frequency and one angle at a time, the formulas of the method."""
    air = AIR_20C
    perimeter_per_area = 2 * (SIZE[0] + SIZE[1]) / (SIZE[0] * SIZE[1])
    theta = (np.arange(quadrature.angles) + 0.5) / quadrature.angles * math.pi / 2
    weight = np.sin(2 * theta) / np.sin(2 * theta).sum()
    passed = np.zeros(len(FREQUENCIES))
    for band, middle in enumerate(FREQUENCIES):
        for part in range(quadrature.per_band):
            frequency = middle * 10 ** (0.1 * ((part + 0.5) / quadrature.per_band - 0.5))
            omega = 2 * math.pi * frequency
            for angle, share in zip(theta, weight, strict=True):
                trace = omega / air.speed_of_sound * math.sin(angle)
                total = np.eye(2, dtype=complex)
                for layer in layers:
                    for matrix in _matrices(layer, omega, trace, perimeter_per_area, air):
                        total = total @ matrix
                factor = float(radiation_factor(omega / air.speed_of_sound, math.cos(angle), *SIZE))
                impedance = air.characteristic_impedance * factor
                a, b, c, d = total.ravel()
                passed[band] += (
                    share / quadrature.per_band * abs(2 / (a + b / impedance + c * impedance + d)) ** 2
                    / (factor * math.cos(angle))
                )  # fmt: skip
    return -10 * np.log10(passed)


def _matrices(layer, omega, trace, perimeter_per_area, air):
    if isinstance(layer, LimpMass):
        return [np.array([[1, 1j * omega * layer.surface_density], [0, 1]])]
    if isinstance(layer, Plate):
        stiffness = layer.bending_stiffness * (1 + 1j * layer.loss_factor)
        stiffness /= 1 + layer.bending_stiffness * trace**2 / layer.shear_stiffness
        return [np.array([[1, 1j * omega * layer.surface_density - 1j * stiffness * trace**4 / omega], [0, 1]])]
    rim = layer.bay_perimeter / layer.bay_area if layer.bay_area else perimeter_per_area
    edge, face = settled_absorption(layer, layer.thickness, between_glass=False)
    loss = edge * rim / math.pi + face / layer.thickness
    wave = omega / air.speed_of_sound * np.sqrt(1 - 1j * air.speed_of_sound / omega * loss)
    clear = (layer.thickness - layer.fill_thickness) / 2
    density = complex(effective_density(layer.fill, omega / 2 / math.pi))
    modulus = complex(effective_bulk_modulus(layer.fill, omega / 2 / math.pi))
    outside = _fluid(air.density, wave, clear, omega, trace)
    return [outside, _fluid(density, omega * np.sqrt(density / modulus), layer.fill_thickness, omega, trace), outside]


def _fluid(density, wave, thickness, omega, trace):
    normal = np.sqrt(wave**2 - trace**2)
    impedance = omega * density / normal
    phase = normal * thickness
    return np.array([[np.cos(phase), 1j * impedance * np.sin(phase)], [1j / impedance * np.sin(phase), np.cos(phase)]])


def main() -> None:
    partition = Partition(WALL, *SIZE, (LineBridge(1 / 0.6, 3e6),))
    free = Partition(WALL, *SIZE)
    print(f"typical van wall, {len(WALL)} layers, {DEFAULT.angles} angles x {DEFAULT.per_band} frequencies a band")
    whole, unbridged = seconds(lambda: sound_reduction(partition)), seconds(lambda: sound_reduction(free))
    start = time.perf_counter()
    loop = plain_loop(WALL, Quadrature(8, 1))
    points = time.perf_counter() - start
    scaled = points * DEFAULT.angles * DEFAULT.per_band / 8
    rows = [
        ("with bridges, all three ways", whole),
        ("without bridges", unbridged),
        ("plain loop, direct way only, scaled to as many points", scaled),
    ]
    for name, value in rows:
        print(f"  {name:55s} {1e3 * value:9.2f} ms {1 / value:9.1f} a second")
    print(f"  gain over the loop {scaled / unbridged:.0f} times")
    ours = -10 * np.log10(sound_reduction(free, quadrature=Quadrature(8, 1)).direct)
    print(f"  loop and method differ by {float(np.median(np.abs(loop - ours))):.2f} dB (median over bands, 8 angles)")

    print("cost against layers (DEFAULT)")
    for count in (1, 3, 5, 7):
        value = seconds(lambda count=count: sound_reduction(Partition(WALL[:count], *SIZE)), 0.15)
        print(f"  {count} layers {1e3 * value:8.2f} ms")
    print("cost against angles and frequencies a band (7 layers)")
    for angles, per_band in ((8, 4), (16, 4), (16, 8), (32, 8), (FINE.angles, FINE.per_band)):
        quadrature = Quadrature(angles, per_band)
        value = seconds(lambda q=quadrature: sound_reduction(free, quadrature=q), 0.15)
        print(f"  {angles:3d} x {per_band:2d} {1e3 * value:8.2f} ms")
    print("first call of a new size (radiation factor of that size)")
    start = time.perf_counter()
    sound_reduction(Partition(WALL, 2.345, 1.678))
    print(f"  {1e3 * (time.perf_counter() - start):.2f} ms")


if __name__ == "__main__":
    main()
