"""How the faces and places of a prismatic room couple to its modes; geometry only, memoised."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES, band_edges
from hushwright.physics.acoustics.gauss import gauss_nodes
from hushwright.physics.acoustics.polygons import Polygon, distance_to_edges, mirrored_edges, points_inside
from hushwright.physics.acoustics.section_shapes import section_shapes

FloatArray = NDArray[np.float64]

PARTS_PER_BAND: Final = 3
"""Each third octave is split into this many parts; inside a part resonances are averaged in closed form."""

_MARGIN: Final = 1.06  # modes up to this factor above the highest part are kept; beyond, they are far from resonance
_PLACES: Final = 15  # places across and up the section, those near walls left out
_WALL_DISTANCE: Final = 0.25  # m; places nearer to a wall are no place for a head or a microphone (ISO 16283-1: 0.5 m)


@dataclass(frozen=True, slots=True)
class SharedFace:
    """Geometry of a radiating face.

    Parameters
    ----------
    kind : str
        "end" or "edge" [-]; both ends of a prism couple alike.
    edge_index : int
        Edge of the cross-section, −1 for an end [-].
    share : float
        Radiating part of the whole face [-], 0–1.
    sides : tuple of float
        The two sides of the whole face taken as a rectangle [m].

    References
    ----------
    .. [1] Plane geometry.

    Examples
    --------
    >>> SharedFace("edge", 0, 1.0, (1.6, 2.25)).share
    1.0
    """

    kind: str
    edge_index: int
    share: float
    sides: tuple[float, float]


def part_edges(band_count: int, speed_of_sound: float) -> tuple[FloatArray, FloatArray]:
    """Lowest and highest wavenumber of every part of the first bands.

    Parameters
    ----------
    band_count : int
        Number of bands from 25 Hz [-].
    speed_of_sound : float
        Speed of sound [m/s].

    Returns
    -------
    tuple of two ndarrays, shape (3 · band_count,)
        Wavenumbers [rad/m].

    References
    ----------
    .. [1] IEC 61260-1:2014, clause 5.

    Examples
    --------
    >>> low, high = part_edges(2, 343.0)
    >>> low.shape, bool(np.allclose(low[1:], high[:-1]))
    ((6,), True)
    """
    lower, upper = band_edges(FREQUENCIES[:band_count])
    steps = np.arange(PARTS_PER_BAND + 1) / PARTS_PER_BAND
    edges = 2.0 * np.pi / speed_of_sound * lower[:, None] * (upper / lower)[:, None] ** steps
    return np.asarray(edges[:, :-1].ravel()), np.asarray(edges[:, 1:].ravel())


def _highest_wavenumber(band_count: int, speed_of_sound: float) -> float:
    return float(part_edges(band_count, speed_of_sound)[1][-1]) * _MARGIN


def _half_waves(length: float, highest: float) -> NDArray[np.int64]:
    return np.arange(math.floor(highest * length / math.pi) + 1, dtype=np.int64)


def modal_grid(polygon: Polygon, length: float, speed_of_sound: float, band_count: int) -> FloatArray:
    """Wavenumber of every mode, section mode by half waves along the length.

    Parameters
    ----------
    polygon : tuple of (y, z)
        Cross-section [m].
    length : float
        Length of the room [m].
    speed_of_sound : float
        Speed of sound [m/s].
    band_count : int
        Number of bands from 25 Hz that are to be covered [-].

    Returns
    -------
    ndarray, shape (n_section, n_length)
        Wavenumbers [rad/m].

    References
    ----------
    .. [1] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009, ch. 3.

    Examples
    --------
    >>> square = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
    >>> float(modal_grid(square, 2.0, 343.0, 8)[0, 1].round(3))
    1.571
    """
    highest = _highest_wavenumber(band_count, speed_of_sound)
    section = section_shapes(polygon, highest).wavenumbers
    along = _half_waves(length, highest) * (math.pi / length)
    return np.asarray(np.hypot(section[:, None], along[None, :]))


def _directions(half_plane: bool) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Trace directions of a diffuse field: unit trace components and weights that add up to 1."""
    cosine, weight = gauss_nodes(4)
    sine = np.sqrt(1.0 - (0.5 * (cosine + 1.0)) ** 2)
    count = 8 if half_plane else 6
    azimuth = (np.arange(count) + 0.5) / count * (math.pi if half_plane else 0.5 * math.pi)
    first = (sine[:, None] * np.cos(azimuth)).ravel()
    second = (sine[:, None] * np.sin(azimuth)).ravel()
    return first, second, np.repeat(0.5 * weight / count, count)


def _patches(share: float) -> tuple[tuple[float, float], ...]:
    """Where a part of an interval may lie: its start, middle and end; the whole interval when it is all of it."""
    if share > 0.98:
        return ((0.0, 1.0),)
    return tuple((start, start + share) for start in (0.0, 0.5 * (1.0 - share), 1.0 - share))


def _interval_squares(
    places: FloatArray, values: FloatArray, length: float, trace: FloatArray, share: float, squares: bool
) -> FloatArray:
    """⟨|∫ψ e^{jκs} ds|²⟩ over patches of an interval, over patch length squared; shape (trace, mode)."""
    total = np.zeros((trace.size, values.shape[1]))
    patches = _patches(share)
    for low, high in patches:
        nodes, weight = gauss_nodes(14)
        points = (low + (high - low) * 0.5 * (nodes + 1.0)) * length
        shapes = np.stack([np.interp(points, places, column) for column in values.T], axis=1)
        if squares:
            total += (0.5 * weight) @ shapes**2
        else:
            total += np.abs((np.exp(1j * trace[:, None] * points) * (0.5 * weight)) @ shapes) ** 2
    return np.asarray(total / len(patches))


@lru_cache(maxsize=64)
def _over_length(length: float, highest: float, trace: tuple[float, ...], share: float, squares: bool) -> FloatArray:
    """Squares over patches of the length; all edges of a section share them."""
    half_waves = _half_waves(length, highest)
    fine = np.linspace(0.0, length, 161)
    cosines = np.where(half_waves > 0, math.sqrt(2.0), 1.0) * np.cos(np.outer(fine, half_waves) * math.pi / length)
    return _interval_squares(fine, cosines, length, np.asarray(trace), share, squares)


def _edge_coupling(
    polygon: Polygon, length: float, highest: float, k: FloatArray, face: SharedFace, squares: bool
) -> FloatArray:
    shapes = section_shapes(polygon, highest)
    first, second, weight = _directions(half_plane=False)
    side = math.sqrt(face.share)
    edge = face.sides[0]
    over_edge = _interval_squares(
        shapes.edge_places[face.edge_index],
        shapes.edge_values[face.edge_index],
        edge,
        np.outer(k, first).ravel(),
        side,
        squares,
    )
    over_length = _over_length(length, highest, tuple(np.outer(k, second).ravel().tolist()), side, squares)
    grid = (k.size, first.size, -1)
    return np.asarray(
        np.einsum("d,fdm,fdn->fmn", weight, over_edge.reshape(grid), over_length.reshape(grid), optimize=True)
    )


def _end_coupling(
    polygon: Polygon, length: float, highest: float, k: FloatArray, face: SharedFace, squares: bool
) -> FloatArray:
    shapes = section_shapes(polygon, highest)
    along = np.where(_half_waves(length, highest) > 0, 2.0, 1.0)
    patches, counts = _end_patches(polygon, shapes.points, face.share)
    weights = np.where(patches, shapes.weights, 0.0)
    weights /= weights.sum(axis=1, keepdims=True)
    share = counts / counts.sum()
    if squares:
        over_section = (share @ (weights @ shapes.values**2))[None, :]
        return np.asarray(over_section[:, :, None] * along)
    cosines, sines, direction_weight = _section_waves(polygon, highest, tuple(k.tolist()))
    weighted = (weights.T[:, :, None] * shapes.values[:, None, :]).reshape(shapes.points.shape[0], -1)
    total = np.square(cosines @ weighted) + np.square(sines @ weighted)
    each = total.reshape(2, k.size, direction_weight.size, share.size, -1)
    over_section = np.einsum("d,p,sfdpm->fm", direction_weight, share, each, optimize=True)
    return np.asarray(over_section[:, :, None] * along)


@lru_cache(maxsize=8)
def _section_waves(polygon: Polygon, highest: float, k: tuple[float, ...]) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Real and imaginary part of e^{jκ·r} at the points of a section, shape (2 · k · d, point), and weights (d,).

    Each direction is followed by what it is mirrored left to right: half the cosines serve both. Points in a row share
    their height.
    """
    y, z = section_shapes(polygon, highest).points.T
    first, second, weight = _directions(half_plane=True)
    rightward = first > 0.0
    across = np.outer(np.outer(k, first[rightward]), y)
    heights, row = np.unique(z, return_inverse=True)
    up = np.outer(np.outer(k, second[rightward]), heights)
    cosine_y, sine_y, cosine_z, sine_z = np.cos(across), np.sin(across), np.cos(up)[:, row], np.sin(up)[:, row]
    even, odd = cosine_y * cosine_z, sine_y * sine_z
    rising, turning = cosine_y * sine_z, sine_y * cosine_z
    real = np.concatenate([even - odd, even + odd])
    imaginary = np.concatenate([rising + turning, rising - turning])
    return real, imaginary, weight[rightward]


def _end_patches(polygon: Polygon, points: FloatArray, share: float) -> tuple[NDArray[np.bool_], FloatArray]:
    """Patches of an end, (patch, point), and how often each counts.

    They are the section shrunk towards its middle and towards the corners that stick out most. Where it is symmetric,
    those on the right stand for those on the left, too.
    """
    whole = np.ones((1, points.shape[0]), dtype=np.bool_)
    if share > 0.98:
        return whole, np.ones(1)
    corners = np.asarray(polygon, dtype=np.float64)
    symmetric = mirrored_edges(polygon) != tuple(range(len(polygon)))
    outward = ((1, 1), (1, -1)) if symmetric else ((1, 1), (1, -1), (-1, 1), (-1, -1))
    pivots = [points.mean(axis=0), *(corners[np.argmax(corners @ each)] for each in outward)]
    masks = np.array([points_inside(polygon, pivot + (points - pivot) / math.sqrt(share)) for pivot in pivots])
    counts = np.array([1.0, *(2.0 if symmetric else 1.0 for _ in outward)])
    filled = masks.any(axis=1)
    return (masks[filled], counts[filled]) if filled.any() else (whole, np.ones(1))


def radiation_factor_forced(wavenumber: FloatArray, sides: tuple[float, float]) -> FloatArray:
    """Radiation factor of a baffled rectangle that a diffuse field moves.

    Parameters
    ----------
    wavenumber : ndarray, shape (n,)
        Wavenumber in air [1/m], > 0.
    sides : tuple of float
        The two sides [m], > 0.

    Returns
    -------
    ndarray, shape (n,)
        Radiated power over ρ c S ⟨v²⟩ [-].

    Raises
    ------
    InvalidInput
        If a side is not above 0.

    Notes
    -----
    The velocity is correlated as the forcing field is, ``sin(kr)/(kr)``, so that
    ``σ = (k²/2π S) ∬∬ (sin kr / kr)² dS dS'``; k²S/2π for a small face, growing as ½ ln(k√S) for a large one.

    References
    ----------
    .. [1] E. C. Sewell, *J. Sound Vib.* 12 (1970) 21–32 (the same quantity in closed approximation).
    .. [2] F. Fahy and P. Gardonio, *Sound and Structural Vibration*, 2nd ed., Academic Press, 2007, ch. 3.

    Examples
    --------
    A 10 m² square at 50 Hz; ½(ln(k√S) + 0.16) after Sewell is 0.62.

    >>> round(float(radiation_factor_forced(np.array([0.916]), (3.162, 3.162))[0]), 2)
    0.62
    """
    width, height = sides
    if not min(sides) > 0.0:
        raise InvalidInput(f"sides are {sides} m; both must be above 0")
    nodes, weight = gauss_nodes(40)
    share, weight = 0.5 * (nodes + 1.0), 0.5 * weight
    # Squared nodes crowd where the sinc is narrow.
    share, weight = share**2, 2.0 * weight * share
    distance = np.hypot(width * share[:, None], height * share[None, :])
    overlap = np.outer(weight * (1.0 - share), weight * (1.0 - share))
    phase = wavenumber[:, None] * distance.ravel()
    sinc = np.sin(phase) / phase
    return np.asarray(2.0 * width * height * wavenumber**2 / np.pi * (np.square(sinc) @ overlap.ravel()))


@lru_cache(maxsize=128)
def coupling(
    polygon: Polygon, length: float, speed_of_sound: float, band_count: int, face: SharedFace
) -> tuple[FloatArray, FloatArray]:
    """Coupling of a face to every mode, for velocity in the traces of a diffuse field; memoised.

    Parameters
    ----------
    polygon : tuple of (y, z)
        Cross-section [m].
    length : float
        Length of the room [m].
    speed_of_sound : float
        Speed of sound [m/s].
    band_count : int
        Number of bands from 25 Hz [-].
    face : SharedFace
        Face or part of a face [-].

    Returns
    -------
    tuple of two ndarrays
        Coupling ``|∫ψ v dS|²/(S²⟨v²⟩)`` [-], shape (n_part, n_section, n_length), and the forced radiation factor [-],
        shape (n_part,). Read-only.

    Notes
    -----
    A part of a face may lie anywhere on it: the mean over its extreme and middle places.

    References
    ----------
    .. [1] P. M. Morse and K. U. Ingard, *Theoretical Acoustics*, McGraw-Hill, 1968, ch. 9.

    Examples
    --------
    >>> square = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
    >>> force, radiation = coupling(square, 2.0, 343.0, 6, SharedFace("edge", 0, 1.0, (1.0, 2.0)))
    >>> round(float(force[0, 0, 0]), 2)
    0.97
    """
    highest = _highest_wavenumber(band_count, speed_of_sound)
    low, high = part_edges(band_count, speed_of_sound)
    scale = math.sqrt(face.share)
    radiation = radiation_factor_forced(0.5 * (low + high), (face.sides[0] * scale, face.sides[1] * scale))
    compute = _edge_coupling if face.kind == "edge" else _end_coupling
    # The coupling changes slowly with frequency: once per band is enough, and a third of the work.
    middle = 2.0 * np.pi / speed_of_sound * FREQUENCIES[:band_count]
    force = np.repeat(compute(polygon, length, highest, middle, face, False), PARTS_PER_BAND, axis=0)
    force.setflags(write=False)
    radiation.setflags(write=False)
    return force, radiation


@lru_cache(maxsize=128)
def face_squares(
    polygon: Polygon, length: float, speed_of_sound: float, band_count: int, face: SharedFace
) -> FloatArray:
    """Mean square of every mode on a face; memoised.

    Parameters
    ----------
    polygon : tuple of (y, z)
        Cross-section [m].
    length : float
        Length of the room [m].
    speed_of_sound : float
        Speed of sound [m/s].
    band_count : int
        Number of bands from 25 Hz [-].
    face : SharedFace
        Face or part of a face [-].

    Returns
    -------
    ndarray, shape (1, n_section, n_length)
        Mean squares [-]. Read-only.

    References
    ----------
    .. [1] P. M. Morse and K. U. Ingard, *Theoretical Acoustics*, McGraw-Hill, 1968, ch. 9.

    Examples
    --------
    >>> square = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
    >>> round(float(face_squares(square, 2.0, 343.0, 6, SharedFace("end", -1, 1.0, (1.0, 1.0)))[0, 0, 1]), 2)
    2.0
    """
    compute = _edge_coupling if face.kind == "edge" else _end_coupling
    lowest = 2.0 * np.pi / speed_of_sound * FREQUENCIES[:1]
    found = compute(polygon, length, _highest_wavenumber(band_count, speed_of_sound), lowest, face, True)
    found.setflags(write=False)
    return found


@lru_cache(maxsize=128)
def place_squares(
    polygon: Polygon,
    length: float,
    speed_of_sound: float,
    band_count: int,
    place: tuple[float, float, float] | None = None,
) -> tuple[FloatArray, FloatArray]:
    """Squared mode shapes at places in the room, section and length apart; memoised.

    Parameters
    ----------
    polygon : tuple of (y, z)
        Cross-section [m].
    length : float
        Length of the room [m].
    speed_of_sound : float
        Speed of sound [m/s].
    band_count : int
        Number of bands from 25 Hz [-].
    place : tuple of float, optional
        One place (x, y, z) [m]; left out, places at least 0.25 m (in small rooms less) from the walls.

    Returns
    -------
    tuple of two ndarrays, shapes (n_point, n_section) and (n_station, n_length)
        Squares of the shapes [-]. Read-only.

    Raises
    ------
    InvalidInput
        If the place is outside the room.

    References
    ----------
    .. [1] ISO 16283-1:2014, on microphone places (there 0.5 m from walls, too much for a van).

    Examples
    --------
    >>> square = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
    >>> section, along = place_squares(square, 2.0, 343.0, 6, (0.0, 0.5, 0.5))
    >>> along.round(3).tolist()
    [[1.0, 2.0]]
    """
    highest = _highest_wavenumber(band_count, speed_of_sound)
    shapes = section_shapes(polygon, highest)
    if place is None:
        section = shapes.at(_inner_places(polygon)) ** 2
        margin = min(_WALL_DISTANCE, 0.2 * length)
        stations = np.linspace(margin, length - margin, 8)
    else:
        target = np.array([place[1:]])
        if not points_inside(polygon, target)[0]:
            raise InvalidInput(f"place (y, z) = {place[1:]} m is outside the cross-section")
        section = shapes.at(target) ** 2
        if not 0.0 <= place[0] <= length:
            raise InvalidInput(f"place is {place[0]} m along a room of {length} m")
        stations = np.array([place[0]])
    half_waves = _half_waves(length, highest)
    along = np.where(half_waves > 0, 2.0, 1.0) * np.cos(np.outer(stations, half_waves) * math.pi / length) ** 2
    section.setflags(write=False)
    along.setflags(write=False)
    return section, along


def _inner_places(polygon: Polygon) -> FloatArray:
    """Even grid of places in the section away from its walls."""
    corners = np.asarray(polygon, dtype=np.float64)
    low, size = corners.min(axis=0), np.ptp(corners, axis=0)
    across, up = (low[axis] + size[axis] * (np.arange(_PLACES) + 0.5) / _PLACES for axis in (0, 1))
    grid = np.stack(np.meshgrid(across, up), axis=-1).reshape(-1, 2)
    grid = grid[points_inside(polygon, grid)]
    depth = distance_to_edges(polygon, grid)
    return np.asarray(grid[depth >= min(_WALL_DISTANCE, 0.4 * float(depth.max()))])
