"""Modes of a prismatic room: finite elements over the cross-section, cosines along the length."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.polygons import (
    Polygon,
    distance_to_edges,
    edge_lengths,
    points_inside,
    polygon_area,
)
from hushwright.physics.air import AIR_20C, Air

FloatArray = NDArray[np.float64]

_ELEMENTS_PER_WAVELENGTH = 2.5  # quadratic triangles: frequency error 1 % at the very top, far less below
_DENSE_LIMIT = 600  # unknowns; above it a sparse shift-invert solver is quicker than the dense one


@dataclass(frozen=True, slots=True)
class SectionModes:
    """Modes of a rigid-walled cross-section.

    Parameters
    ----------
    polygon : tuple of (y, z)
        Corners of the cross-section [m].
    wavenumbers : tuple of float, shape (n_mode,)
        Wavenumber of each section mode [rad/m], rising; the first is 0.
    highest_frequency : float
        Frequency up to which the list is complete [Hz].

    References
    ----------
    .. [1] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009, ch. 3.

    Examples
    --------
    >>> SectionModes(((0.0, 0.0), (1.0, 0.0), (1.0, 1.0)), (0.0,), 100.0).wavenumbers
    (0.0,)
    """

    polygon: Polygon
    wavenumbers: tuple[float, ...]
    highest_frequency: float


@dataclass(frozen=True, slots=True)
class RoomMode:
    """One mode of a prismatic room.

    Parameters
    ----------
    frequency : float
        Natural frequency [Hz].
    section_index : int
        Number of the section mode [-]; 0 is constant over the section.
    length_index : int
        Half waves along the length [-].

    References
    ----------
    .. [1] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009, ch. 3.

    Examples
    --------
    >>> RoomMode(76.3, 0, 1).length_index
    1
    """

    frequency: float
    section_index: int
    length_index: int


@dataclass(frozen=True, slots=True, eq=False)
class SectionShapes:
    """Mode shapes of a cross-section, sampled inside and along every edge; arrays are read-only.

    Parameters
    ----------
    wavenumbers : ndarray, shape (n_mode,)
        Section wavenumbers [rad/m].
    points : ndarray, shape (n_point, 2)
        Inner quadrature points (y, z) [m].
    weights : ndarray, shape (n_point,)
        Quadrature weights [m²]; their sum is the area.
    values : ndarray, shape (n_point, n_mode)
        Shapes at ``points`` [-], mean square over the section 1.
    edge_places : tuple of ndarray, each shape (n_node,)
        Distance along each edge from its first corner [m].
    edge_values : tuple of ndarray, each shape (n_node, n_mode)
        Shapes along each edge [-].

    References
    ----------
    .. [1] O. C. Zienkiewicz and R. L. Taylor, *The Finite Element Method*, 5th ed., Butterworth-Heinemann, 2000.

    Examples
    --------
    >>> square = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
    >>> round(float(section_shapes(square, 8.0).weights.sum()), 6)
    1.0
    """

    wavenumbers: FloatArray
    points: FloatArray
    weights: FloatArray
    values: FloatArray
    edge_places: tuple[FloatArray, ...]
    edge_values: tuple[FloatArray, ...]


def _mesh(polygon: Polygon, size: float) -> tuple[FloatArray, NDArray[np.int64]]:
    """Delaunay triangles over boundary points and a staggered inner grid, without those outside the polygon."""
    from scipy.spatial import Delaunay

    corners = np.asarray(polygon, dtype=np.float64)
    boundary = []
    for start, end, length in zip(corners, np.roll(corners, -1, axis=0), edge_lengths(polygon), strict=True):
        steps = max(1, math.ceil(length / size - 1e-9))
        boundary.append(start + (end - start) * (np.arange(steps) / steps)[:, None])
    low, high = corners.min(axis=0), corners.max(axis=0)
    rows = max(1, round((high[1] - low[1]) / (size * 0.866)))
    inner = []
    for row in range(1, rows):
        z = low[1] + (high[1] - low[1]) * row / rows
        columns = max(1, math.ceil((high[0] - low[0]) / size))
        y = low[0] + (high[0] - low[0]) * (np.arange(columns) + (0.5 if row % 2 else 0.0)) / columns
        inner.append(np.column_stack([y, np.full(columns, z)]))
    points = np.vstack(boundary)
    if inner:
        grid = np.vstack(inner)
        grid = grid[points_inside(polygon, grid)]
        points = np.vstack([points, grid[distance_to_edges(polygon, grid) > 0.4 * size]])
    triangles = Delaunay(points).simplices.astype(np.int64)
    first, second, third = (points[triangles[:, i]] for i in range(3))
    doubled = (second - first)[:, 0] * (third - first)[:, 1] - (second - first)[:, 1] * (third - first)[:, 0]
    keep = points_inside(polygon, (first + second + third) / 3.0) & (np.abs(doubled) > 1e-6 * size**2)
    return points, triangles[keep]


def _check_mesh(points: FloatArray, triangles: NDArray[np.int64], polygon: Polygon) -> None:
    first, second, third = (points[triangles[:, i]] for i in range(3))
    doubled = (second - first)[:, 0] * (third - first)[:, 1] - (second - first)[:, 1] * (third - first)[:, 0]
    covered = 0.5 * float(np.abs(doubled).sum())
    if abs(covered / polygon_area(polygon) - 1.0) > 1e-6:
        raise InvalidInput(
            f"cross-section {polygon} was meshed to {covered:.4f} m² of {polygon_area(polygon):.4f} m²; "
            "edges must not cross and corners must not coincide"
        )


@lru_cache(maxsize=64)
def section_shapes(polygon: Polygon, highest_wavenumber: float, element_size: float | None = None) -> SectionShapes:
    """Modes and shapes of a rigid-walled cross-section by quadratic finite elements; memoised.

    Parameters
    ----------
    polygon : tuple of (y, z)
        Corners of the cross-section in order [m].
    highest_wavenumber : float
        Modes up to this wavenumber are returned [rad/m].
    element_size : float, optional
        Edge length of the triangles [m]; by default a share of the shortest wavelength and of the section.

    Returns
    -------
    SectionShapes
        Wavenumbers [rad/m] and shapes [-].

    Raises
    ------
    InvalidInput
        If the polygon is degenerate or crosses itself, or ``highest_wavenumber`` ≤ 0.

    Notes
    -----
    ``∇²φ + κ²φ = 0`` with zero normal slope at the walls; P2 triangles, so the error of κ² falls with the fourth
    power of the element size where the section has no re-entrant corner.

    References
    ----------
    .. [1] O. C. Zienkiewicz and R. L. Taylor, *The Finite Element Method*, 5th ed., Butterworth-Heinemann, 2000.

    Examples
    --------
    >>> square = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
    >>> round(float(section_shapes(square, 8.0).wavenumbers[1]), 2)
    3.14
    """
    if not highest_wavenumber > 0.0:
        raise InvalidInput(f"highest wavenumber is {highest_wavenumber} rad/m; it must be above 0")
    area = polygon_area(polygon)
    size = element_size or min(2.0 * math.pi / highest_wavenumber / _ELEMENTS_PER_WAVELENGTH, 0.35 * math.sqrt(area))
    points, triangles = _mesh(polygon, size)
    _check_mesh(points, triangles, polygon)
    return _solve(polygon, points, triangles, highest_wavenumber)


def _solve(
    polygon: Polygon, points: FloatArray, triangles: NDArray[np.int64], highest_wavenumber: float
) -> SectionShapes:
    import skfem
    from skfem.models.poisson import laplace, mass

    basis = skfem.Basis(skfem.MeshTri(points.T, triangles.T), skfem.ElementTriP2(), intorder=4)
    squares, nodal = _eigenpairs(laplace.assemble(basis), mass.assemble(basis), highest_wavenumber, polygon)
    nodal = nodal * math.sqrt(polygon_area(polygon))
    # Few points are enough for sums over the section and keep the sample small.
    sampler = skfem.Basis(basis.mesh, skfem.ElementTriP2(), intorder=2)
    values = np.stack([np.asarray(sampler.interpolate(column)).ravel() for column in nodal.T], axis=1)
    places, traces = _edge_traces(polygon, basis.doflocs.T, nodal)
    shapes = SectionShapes(
        np.sqrt(np.maximum(squares, 0.0)),
        np.asarray(sampler.global_coordinates()).reshape(2, -1).T,
        np.asarray(sampler.dx).ravel(),
        values,
        places,
        traces,
    )
    for array in (shapes.wavenumbers, shapes.points, shapes.weights, shapes.values, *places, *traces):
        array.setflags(write=False)
    return shapes


def _eigenpairs(
    stiffness: object, inertia: object, highest_wavenumber: float, polygon: Polygon
) -> tuple[FloatArray, FloatArray]:
    """Eigenpairs up to the wavenumber; Weyl's count says how many to ask the sparse solver for."""
    from scipy import linalg
    from scipy.sparse import csc_matrix
    from scipy.sparse.linalg import eigsh

    left, right = csc_matrix(stiffness), csc_matrix(inertia)
    limit = highest_wavenumber**2
    if left.shape[0] <= _DENSE_LIMIT:
        squares, vectors = linalg.eigh(left.toarray(), right.toarray(), subset_by_value=(-1.0, limit))
    else:
        count = polygon_area(polygon) * limit / (4 * math.pi) + sum(edge_lengths(polygon)) * highest_wavenumber / (
            4 * math.pi
        )
        wanted = min(left.shape[0] - 2, math.ceil(1.15 * count) + 8)
        # A fixed start vector makes the result the same on every run.
        start = np.ones(left.shape[0]) + 0.1 * np.cos(np.arange(left.shape[0]))
        squares, vectors = eigsh(left, k=wanted, M=right, sigma=-1.0, which="LM", v0=start)
        order = np.argsort(squares)
        squares, vectors = squares[order], vectors[:, order]
        squares, vectors = squares[squares <= limit], vectors[:, squares <= limit]
    squares = squares.copy()
    squares[0] = 0.0  # rigid walls: the constant shape is exact, the solver leaves rounding noise
    return squares, vectors


def _edge_traces(
    polygon: Polygon, nodes: FloatArray, nodal: FloatArray
) -> tuple[tuple[FloatArray, ...], tuple[FloatArray, ...]]:
    corners = np.asarray(polygon, dtype=np.float64)
    places, traces = [], []
    for start, end, length in zip(corners, np.roll(corners, -1, axis=0), edge_lengths(polygon), strict=True):
        direction = (end - start) / length
        offset = nodes - start
        along = offset @ direction
        across = offset[:, 0] * direction[1] - offset[:, 1] * direction[0]
        on_edge = np.flatnonzero((np.abs(across) < 1e-7) & (along > -1e-7) & (along < length + 1e-7))
        order = on_edge[np.argsort(along[on_edge])]
        places.append(along[order])
        traces.append(nodal[order])
    return tuple(places), tuple(traces)


def cross_section_modes(
    polygon: Polygon, highest_frequency: float, air: Air = AIR_20C, *, element_size: float | None = None
) -> SectionModes:
    """Modes of a rigid-walled cross-section.

    Parameters
    ----------
    polygon : tuple of (y, z)
        Corners of the cross-section in order [m].
    highest_frequency : float
        Frequency up to which modes are wanted [Hz], > 0.
    air : Air, optional
        Air in the room, gives the speed of sound [m/s].
    element_size : float, optional
        Edge length of the triangles [m]; chosen from the wavelength when left out.

    Returns
    -------
    SectionModes
        Wavenumbers of the section modes [rad/m].

    Raises
    ------
    InvalidInput
        If the polygon is degenerate or crosses itself, or the frequency is ≤ 0.

    Notes
    -----
    See :func:`section_shapes`. Rigid walls; damping enters later as modal decay.

    References
    ----------
    .. [1] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009, ch. 3.

    Examples
    --------
    >>> modes = cross_section_modes(((0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (0.0, 1.0)), 300.0)
    >>> round(modes.wavenumbers[1], 3)
    1.571
    """
    if not highest_frequency > 0.0:
        raise InvalidInput(f"highest frequency is {highest_frequency} Hz; it must be above 0")
    wavenumber = 2.0 * math.pi * highest_frequency / air.speed_of_sound
    # Finer than sums over many modes need, since these frequencies are shown one by one.
    finer = min(0.5 * math.pi / wavenumber, 0.35 * math.sqrt(polygon_area(polygon)))
    shapes = section_shapes(polygon, wavenumber, element_size or finer)
    return SectionModes(polygon, tuple(float(value) for value in shapes.wavenumbers), highest_frequency)


def room_modes(
    section: SectionModes, length: float, highest_frequency: float, air: Air = AIR_20C
) -> tuple[RoomMode, ...]:
    """Modes of a prism: section modes combined with half waves along the length.

    Parameters
    ----------
    section : SectionModes
        Modes of the cross-section [rad/m].
    length : float
        Length of the prism [m], > 0.
    highest_frequency : float
        Frequency up to which modes are listed [Hz]; not above that of ``section``.
    air : Air, optional
        Air in the room, gives the speed of sound [m/s].

    Returns
    -------
    tuple of RoomMode
        Modes by rising frequency [Hz]; the constant-pressure mode at 0 Hz is left out.

    Raises
    ------
    InvalidInput
        If ``length`` ≤ 0 or ``highest_frequency`` is above that of the section.

    Notes
    -----
    ``f = c/(2π) · sqrt(κ² + (nπ/L)²)``.

    References
    ----------
    .. [1] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009, ch. 3.

    Examples
    --------
    >>> section = cross_section_modes(((0.0, 0.0), (1.6, 0.0), (1.6, 1.9), (0.0, 1.9)), 120.0)
    >>> [round(mode.frequency) for mode in room_modes(section, 2.25, 120.0)]
    [76, 90, 107, 118]
    """
    if not length > 0.0:
        raise InvalidInput(f"room length is {length} m; it must be above 0")
    if highest_frequency > section.highest_frequency * (1.0 + 1e-9):
        raise InvalidInput(
            f"modes up to {highest_frequency} Hz asked, the section's reach {section.highest_frequency} Hz"
        )
    limit = 2.0 * math.pi * highest_frequency / air.speed_of_sound
    found = []
    for index, wavenumber in enumerate(section.wavenumbers):
        for half_waves in range(math.floor(limit * length / math.pi) + 1):
            total = math.hypot(wavenumber, half_waves * math.pi / length)
            if 0.0 < total <= limit:
                found.append(RoomMode(total * air.speed_of_sound / (2.0 * math.pi), index, half_waves))
    return tuple(sorted(found, key=lambda mode: mode.frequency))


def modal_density(
    frequency: float, volume: float, surface_area: float, edge_length: float, air: Air = AIR_20C
) -> float:
    """Average number of room modes per hertz.

    Parameters
    ----------
    frequency : float
        Frequency [Hz], ≥ 0.
    volume : float
        Volume of the room [m³].
    surface_area : float
        Area of all its faces [m²].
    edge_length : float
        Length of all its edges [m].
    air : Air, optional
        Air in the room, gives the speed of sound [m/s].

    Returns
    -------
    float
        Modes per hertz [1/Hz].

    Raises
    ------
    InvalidInput
        If the frequency is negative.

    Notes
    -----
    ``4πVf²/c³ + πSf/(2c²) + L/(8c)``, exact on average for a box.

    References
    ----------
    .. [1] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009, section 3.2.

    Examples
    --------
    >>> round(modal_density(1000.0, 105.0, 142.0, 60.0))
    35
    """
    if frequency < 0.0:
        raise InvalidInput(f"frequency is {frequency} Hz; it cannot be negative")
    speed = air.speed_of_sound
    return (
        4.0 * math.pi * volume * frequency**2 / speed**3
        + math.pi * surface_area * frequency / (2.0 * speed**2)
        + edge_length / (8.0 * speed)
    )
