"""A prismatic room, its faces and when its field is diffuse."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES, N_BANDS
from hushwright.physics.acoustics.polygons import Polygon, polygon_area
from hushwright.physics.air import AIR_20C, Air

FloatArray = NDArray[np.float64]

_HIGHEST_CROSSOVER = 500.0  # Hz; above it a third octave of a van's room holds more than fifty modes
_DECAY = 6.0 * math.log(10.0)  # reverberation time times twice the decay constant of the pressure


@dataclass(frozen=True, slots=True)
class RoomField:
    """A prismatic room and what it absorbs.

    Parameters
    ----------
    polygon : tuple of (y, z)
        Corners of the cross-section in order [m].
    length : float
        Length along the vehicle [m], > 0.
    absorption_area : tuple of float, shape (27,)
        Equivalent absorption area per band [m²], > 0.
    air : Air, optional
        Air in the room; density and speed of sound [-].

    Raises
    ------
    InvalidInput
        If the length or an absorption area is not above 0 or there are not 27 of them.

    References
    ----------
    .. [1] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009, ch. 3 and 5.

    Examples
    --------
    >>> room = RoomField(((0.0, 0.0), (1.6, 0.0), (1.6, 1.9), (0.0, 1.9)), 2.25, (5.0,) * 27)
    >>> round(room.volume, 2)
    6.84
    """

    polygon: Polygon
    length: float
    absorption_area: tuple[float, ...]
    air: Air = AIR_20C

    def __post_init__(self) -> None:
        if not self.length > 0.0:
            raise InvalidInput(f"room length is {self.length} m; it must be above 0")
        if len(self.absorption_area) != N_BANDS:
            raise InvalidInput(f"{len(self.absorption_area)} absorption areas given; there are {N_BANDS} bands")
        if not min(self.absorption_area) > 0.0:
            raise InvalidInput(f"smallest absorption area is {min(self.absorption_area)} m²; it must be above 0")
        polygon_area(self.polygon)

    @property
    def volume(self) -> float:
        """Volume [m³]."""
        return polygon_area(self.polygon) * self.length


@dataclass(frozen=True, slots=True)
class FaceOnRoom:
    """A face, or a part of one, through which sound enters or leaves a prismatic room.

    Parameters
    ----------
    kind : {"end_front", "end_rear", "edge"}
        Which face [-]: one of the two ends or the face over an edge of the cross-section.
    edge_index : int or None
        For ``"edge"``, the number of the edge [-]; it runs from corner i to corner i + 1.
    area : float
        Area that radiates [m²]; smaller than the face for a door or window, whose place is then taken as
        anywhere on it.

    Raises
    ------
    InvalidInput
        If the area is not above 0, or ``edge_index`` is missing or not wanted.

    References
    ----------
    .. [1] ISO 80000-8:2020 for area and direction of sound power.

    Examples
    --------
    >>> FaceOnRoom("edge", 1, 2.4).edge_index
    1
    """

    kind: Literal["end_front", "end_rear", "edge"]
    edge_index: int | None
    area: float

    def __post_init__(self) -> None:
        if not self.area > 0.0:
            raise InvalidInput(f"face area is {self.area} m²; it must be above 0")
        if (self.kind == "edge") != (self.edge_index is not None):
            raise InvalidInput(f"face {self.kind!r} with edge index {self.edge_index}: only an edge has an index")


@dataclass(frozen=True, slots=True)
class PointSource:
    """A small source in a room: a loudspeaker or a voice.

    Parameters
    ----------
    place : tuple of float
        Place (x, y, z) [m]; x from the front end rearward, y and z as in the polygon.

    References
    ----------
    .. [1] ISO 8855:2011 for the axes y and z.

    Examples
    --------
    >>> PointSource((0.5, 0.0, 1.2)).place[0]
    0.5
    """

    place: tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Gain:
    """Room level over radiated power level, per band.

    Parameters
    ----------
    gain : tuple of float, shape (27,)
        Space-mean sound pressure level minus sound power level [dB].
    spread : tuple of float, shape (27,)
        Standard deviation of the level over places in the room [dB].
    modal_share : tuple of float, shape (27,)
        1 where the modal sum was used, 0 where the diffuse field was, between in the cross-fade [-].

    References
    ----------
    .. [1] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009.

    Examples
    --------
    >>> Gain((0.0,) * 27, (1.0,) * 27, (1.0,) * 27).spread[0]
    1.0
    """

    gain: tuple[float, ...]
    spread: tuple[float, ...]
    modal_share: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class SourceGain:
    """Level in a source room over the source's sound power level, per band.

    Parameters
    ----------
    space_mean : tuple of float, shape (27,)
        Space-mean sound pressure level minus sound power level [dB].
    at_face : tuple of float, shape (27,)
        Level that goes with R at the face, minus sound power level [dB]: the power that meets an area S is
        this level − 6 + 10 lg S; it is the blocked pressure level on the face − 3 dB.
    spread : tuple of float, shape (27,)
        Standard deviation of the level over places in the room [dB].

    References
    ----------
    .. [1] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009.

    Examples
    --------
    >>> SourceGain((0.0,) * 27, (1.0,) * 27, (2.0,) * 27).at_face[0]
    1.0
    """

    space_mean: tuple[float, ...]
    at_face: tuple[float, ...]
    spread: tuple[float, ...]


def reverberation_times(room: RoomField) -> FloatArray:
    """Reverberation time that belongs to the absorption area.

    Parameters
    ----------
    room : RoomField
        Room with its absorption area [m²].

    Returns
    -------
    ndarray, shape (27,)
        Reverberation time [s], ``24 ln10 · V/(c A)``.

    References
    ----------
    .. [1] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009, section 5.1.

    Examples
    --------
    >>> room = RoomField(((0.0, 0.0), (1.6, 0.0), (1.6, 1.9), (0.0, 1.9)), 2.25, (5.0,) * 27)
    >>> round(float(reverberation_times(room)[0]), 3)
    0.22
    """
    return 4.0 * _DECAY * room.volume / (room.air.speed_of_sound * np.asarray(room.absorption_area))


def crossover_frequency(room: RoomField) -> float:
    """Frequency at which the modal sum hands over to the diffuse field.

    Parameters
    ----------
    room : RoomField
        Room with its absorption area per band [m²].

    Returns
    -------
    float
        Lowest band at which f ≥ 2000·sqrt(T/V) with T of that band, between bands by that rule's own value;
        at most 500 [Hz].

    Notes
    -----
    The limit of 500 Hz only matters in rooms with next to no absorption; by then a third octave of a van's
    room holds more than fifty modes, and statistics have enough of them.

    References
    ----------
    .. [1] M. R. Schroeder and K. H. Kuttruff, *J. Acoust. Soc. Am.* 34 (1962) 76–80.

    Examples
    --------
    >>> room = RoomField(((0.0, 0.0), (1.6, 0.0), (1.6, 1.9), (0.0, 1.9)), 2.25, (5.0,) * 27)
    >>> round(crossover_frequency(room))
    359
    """
    own = 2000.0 * np.sqrt(reverberation_times(room) / room.volume)
    reached = np.flatnonzero(own <= FREQUENCIES)
    first = int(reached[0]) if reached.size else N_BANDS - 1
    lower = float(FREQUENCIES[first - 1]) if first else 0.0
    return min(max(float(own[first]), lower), _HIGHEST_CROSSOVER)


def diffuse_spread(frequency: FloatArray, reverberation_time: FloatArray) -> FloatArray:
    """Standard deviation of third-octave levels over places in a diffuse field.

    Parameters
    ----------
    frequency : ndarray, shape (n_band,)
        Mid-band frequency [Hz].
    reverberation_time : ndarray, shape (n_band,)
        Reverberation time [s].

    Returns
    -------
    ndarray, shape (n_band,)
        Standard deviation [dB].

    Notes
    -----
    ``5.57/sqrt(1 + 0.238 B T)`` with the bandwidth B; the constants from memory.

    References
    ----------
    .. [1] D. Lubman, *J. Acoust. Soc. Am.* 44 (1968) 1491–1502.

    Examples
    --------
    >>> diffuse_spread(np.array([1000.0]), np.array([0.2])).round(2).tolist()
    [1.61]
    """
    bandwidth = frequency * (10.0**0.05 - 10.0**-0.05)
    return np.asarray(5.57 / np.sqrt(1.0 + 0.238 * bandwidth * reverberation_time))
