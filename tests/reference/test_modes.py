"""Modes against closed forms and Long's table 8.1."""

import math
import tomllib
from pathlib import Path

import numpy as np
import pytest

from hushwright.physics.acoustics.modes import cross_section_modes, modal_density, room_modes
from hushwright.physics.acoustics.polygons import distance_to_edges, points_inside
from hushwright.physics.air import Air

TABLE = tomllib.loads((Path(__file__).parent / "tables" / "room_examples.toml").read_text(encoding="utf-8"))


def box(width, height):
    return ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))


def air_with_speed(speed):
    # c = sqrt(1.4 · 287.055 · T), ISO 2533
    return Air(temperature=speed**2 / (1.4 * 287.055) - 273.15)


def test_first_modes_are_those_long_prints():
    """Long, Architectural Acoustics 2e, table 8.1 (7 m × 5 m × 3 m); read at half the last printed digit."""
    example = TABLE["modes_long"]
    length, width, height = example["room_m"]
    air = air_with_speed(example["speed_of_sound_fits_m_s"])
    section = cross_section_modes(box(width, height), 80.0, air)
    found = room_modes(section, length, 80.0, air)
    for mode, printed in zip(found, example["first_modes_hz"], strict=False):
        assert mode.frequency == pytest.approx(printed, abs=0.051)
    assert [mode.length_index for mode in found[:6]] == [index[0] for index in example["mode_indices"]]


def test_modal_density_is_the_one_long_prints():
    """Long, table 8.1: 34 modes per hertz at 1 kHz in 7 m × 5 m × 3 m."""
    example = TABLE["modes_long"]
    a, b, c = example["room_m"]
    air = air_with_speed(example["speed_of_sound_fits_m_s"])
    density = modal_density(1000.0, a * b * c, 2 * (a * b + b * c + a * c), 4 * (a + b + c), air)
    assert density == pytest.approx(example["modal_density_1khz_per_hz"], abs=0.5)


def test_rectangle_has_the_wavenumbers_of_its_cosines():
    """κ = π·sqrt((i/a)² + (j/b)²), closed form (Kuttruff, Room Acoustics, ch. 3)."""
    width, height, air = 1.6, 1.9, Air()
    section = cross_section_modes(box(width, height), 500.0, air)
    exact = sorted(math.pi * math.hypot(i / width, j / height) for i in range(12) for j in range(12))
    for found, expected in zip(section.wavenumbers[1:], exact[1:], strict=False):
        assert found == pytest.approx(expected, rel=5e-3)
    low = [value for value in section.wavenumbers if value < 0.5 * section.wavenumbers[-1]]
    assert low == pytest.approx(exact[: len(low)], rel=5e-4)


def test_right_isosceles_triangle_has_the_even_modes_of_its_square():
    """Closed form: cos(iπy)cos(jπz) + cos(jπy)cos(iπz) in half a unit square (memory)."""
    section = cross_section_modes(((0.0, 0.0), (1.0, 0.0), (1.0, 1.0)), 600.0)
    exact = sorted(math.pi * math.hypot(i, j) for i in range(6) for j in range(i + 1))
    for found, expected in zip(section.wavenumbers[:8], exact, strict=False):
        assert found == pytest.approx(expected, rel=1e-3)


def test_error_falls_faster_than_any_fixed_power_of_the_degree():
    """p-version, smooth waves: a tenth per degree and more (Szabó & Babuška, Finite Element Analysis)."""
    exact = sorted(math.pi * math.hypot(i / 1.6, j / 1.9) for i in range(6) for j in range(6))[7]
    errors = [
        cross_section_modes(box(1.6, 1.9), 400.0, degree=degree).wavenumbers[7] ** 2 / exact**2 - 1.0
        for degree in (5, 7, 9, 11)
    ]
    assert all(error > 0.0 for error in errors)
    assert all(after < 0.1 * before for before, after in zip(errors, errors[1:], strict=False))


LEANING = ((-0.9, 0.0), (0.9, 0.0), (0.9, 1.2), (0.86, 1.6), (0.72, 2.0), (-0.6, 2.0), (-0.84, 1.6), (-0.9, 1.2))
STEPPED = ((0.0, 0.0), (1.2, 0.0), (1.2, 0.3), (1.6, 0.3), (1.6, 1.9), (0.0, 1.9))


@pytest.mark.parametrize(("polygon", "within"), [(LEANING, 2e-4), (STEPPED, 6e-3)])
def test_section_agrees_with_small_triangles(polygon, within):
    """Second opinion: quadratic triangles of scikit-fem on a fine mesh; an inner corner costs some accuracy."""
    skfem = pytest.importorskip("skfem")
    from scipy.linalg import eigh
    from skfem.models.poisson import laplace, mass

    mesh = skfem.MeshTri(*triangles(polygon, 0.08))
    basis = skfem.Basis(mesh, skfem.ElementTriP2(), intorder=4)
    squares = eigh(laplace.assemble(basis).toarray(), mass.assemble(basis).toarray(), subset_by_index=(1, 20))[0]
    found = np.array(cross_section_modes(polygon, 500.0).wavenumbers[1:21])
    assert found == pytest.approx(np.sqrt(squares), rel=within)


def triangles(polygon, size):
    """Delaunay triangles inside a polygon whose corners lie on a grid of this size, or nearly."""
    from scipy.spatial import Delaunay

    corners = np.array(polygon)
    points = [corners]
    for start, end in zip(corners, np.roll(corners, -1, axis=0), strict=True):
        steps = max(1, math.ceil(float(np.hypot(*(end - start))) / size))
        points.append(start + (end - start) * (np.arange(1, steps) / steps)[:, None])
    low, high = corners.min(axis=0), corners.max(axis=0)
    grid = np.stack(np.meshgrid(*(np.arange(a + 0.4 * size, b, size) for a, b in zip(low, high, strict=True))), axis=-1)
    grid = grid.reshape(-1, 2)
    inner = grid[points_inside(polygon, grid)]
    points.append(inner[distance_to_edges(polygon, inner) > 0.4 * size])
    every = np.vstack(points)
    simplices = Delaunay(every).simplices
    sides = every[simplices[:, 1:]] - every[simplices[:, :1]]
    flat = np.abs(sides[:, 0, 0] * sides[:, 1, 1] - sides[:, 0, 1] * sides[:, 1, 0]) < 1e-6 * size**2
    kept = points_inside(polygon, every[simplices].mean(axis=1)) & ~flat
    return every.T, simplices[kept].T
