"""Plane geometry of a cross-section."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from hushwright.errors import InvalidInput

FloatArray = NDArray[np.float64]
Polygon = tuple[tuple[float, float], ...]


def polygon_area(polygon: Polygon) -> float:
    """Area of a simple polygon.

    Parameters
    ----------
    polygon : tuple of (y, z)
        Corners in order, either way round [m].

    Returns
    -------
    float
        Area [m²].

    Raises
    ------
    InvalidInput
        If there are fewer than three corners or they enclose no area.

    References
    ----------
    .. [1] Gauss's area formula.

    Examples
    --------
    >>> polygon_area(((0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (0.0, 1.0)))
    2.0
    """
    area = abs(_signed_area(polygon)) if len(polygon) >= 3 else 0.0
    if area <= 0.0:
        raise InvalidInput(f"cross-section {polygon} encloses no area; at least three corners not in one line")
    return area


def _signed_area(polygon: Polygon) -> float:
    following = (*polygon[1:], polygon[0])
    return 0.5 * sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(polygon, following, strict=True))


def edge_lengths(polygon: Polygon) -> tuple[float, ...]:
    """Length of every edge; edge i runs from corner i to corner i + 1.

    Parameters
    ----------
    polygon : tuple of (y, z)
        Corners in order [m].

    Returns
    -------
    tuple of float
        Edge lengths [m].

    References
    ----------
    .. [1] Plane geometry.

    Examples
    --------
    >>> edge_lengths(((0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (0.0, 1.0)))
    (2.0, 1.0, 2.0, 1.0)
    """
    following = (*polygon[1:], polygon[0])
    return tuple(math.dist(a, b) for a, b in zip(polygon, following, strict=True))


@lru_cache(maxsize=256)
def mirrored_edges(polygon: Polygon) -> tuple[int, ...]:
    """For each edge the first edge that it equals when a symmetric polygon is mirrored left to right; else itself.

    Parameters
    ----------
    polygon : tuple of (y, z)
        Corners [m].

    Returns
    -------
    tuple of int
        One number per edge [-].

    References
    ----------
    .. [1] Plane geometry.

    Examples
    --------
    >>> mirrored_edges(((-1.0, 0.0), (1.0, 0.0), (0.8, 2.0), (-0.8, 2.0)))
    (0, 1, 2, 1)
    """
    count = len(polygon)
    middle = 0.5 * (min(corner[0] for corner in polygon) + max(corner[0] for corner in polygon))

    def key(corner: tuple[float, float], side: float) -> tuple[float, float]:
        return round(side * (corner[0] - middle), 9) + 0.0, round(corner[1], 9)

    place = {key(corner, 1.0): index for index, corner in enumerate(polygon)}
    twins = [place.get(key(corner, -1.0)) for corner in polygon]
    if None in twins:
        return tuple(range(count))
    found = []
    for index in range(count):
        # Mirrored, an edge runs the other way: it starts at the twin of its end.
        twin = twins[(index + 1) % count]
        found.append(index if twin is None or twins[index] != (twin + 1) % count else min(index, twin))
    return tuple(found)


def points_inside(polygon: Polygon, points: FloatArray) -> NDArray[np.bool_]:
    """Whether points lie inside a polygon.

    Parameters
    ----------
    polygon : tuple of (y, z)
        Corners in order [m].
    points : ndarray, shape (n_point, 2)
        Points [m].

    Returns
    -------
    ndarray of bool, shape (n_point,)
        True inside [-]; on the edge either answer may come.

    Notes
    -----
    Even-odd rule: count how many edges a ray towards +y crosses.

    References
    ----------
    .. [1] Plane geometry.

    Examples
    --------
    >>> points_inside(((0.0, 0.0), (1.0, 0.0), (1.0, 1.0)), np.array([[0.8, 0.5], [0.2, 0.5]])).tolist()
    [True, False]
    """
    return _inside(np.asarray(polygon, dtype=np.float64), points)


def _inside(polygon: FloatArray, points: FloatArray) -> NDArray[np.bool_]:
    ends = np.roll(polygon, -1, axis=0)
    y, z = points[:, 0][:, None], points[:, 1][:, None]
    spans = (polygon[:, 1] > z) != (ends[:, 1] > z)
    rise = np.where(ends[:, 1] == polygon[:, 1], 1.0, ends[:, 1] - polygon[:, 1])
    crossing = polygon[:, 0] + (z - polygon[:, 1]) * (ends[:, 0] - polygon[:, 0]) / rise
    inside: NDArray[np.bool_] = np.count_nonzero(spans & (y < crossing), axis=1) % 2 == 1
    return inside


def distance_to_edges(polygon: Polygon, points: FloatArray) -> FloatArray:
    """Distance of points to the nearest edge of a polygon.

    Parameters
    ----------
    polygon : tuple of (y, z)
        Corners in order [m].
    points : ndarray, shape (n_point, 2)
        Points [m].

    Returns
    -------
    ndarray, shape (n_point,)
        Distance [m].

    References
    ----------
    .. [1] Plane geometry.

    Examples
    --------
    >>> square = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
    >>> distance_to_edges(square, np.array([[0.5, 0.25]])).tolist()
    [0.25]
    """
    start = np.asarray(polygon, dtype=np.float64)
    along = np.roll(start, -1, axis=0) - start
    offset = points[:, None, :] - start
    share = np.clip(np.sum(offset * along, axis=2) / np.sum(along**2, axis=1), 0.0, 1.0)
    nearest = np.linalg.norm(offset - share[:, :, None] * along, axis=2)
    return np.asarray(nearest.min(axis=1), dtype=np.float64)
