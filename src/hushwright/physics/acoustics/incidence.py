"""Outdoor sound on the faces of a vehicle: which level goes with the sound reduction index of each."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES, N_BANDS
from hushwright.physics.acoustics.gauss import gauss_nodes
from hushwright.physics.acoustics.outdoors import pressure_rise

FloatArray = NDArray[np.float64]
Facing = Literal["front", "rear", "left", "right", "roof", "floor"]

_NORMALS: dict[str, tuple[float, float, float]] = {
    "front": (1.0, 0.0, 0.0),
    "rear": (-1.0, 0.0, 0.0),
    "left": (0.0, 1.0, 0.0),
    "right": (0.0, -1.0, 0.0),
    "roof": (0.0, 0.0, 1.0),
    "floor": (0.0, 0.0, -1.0),
}
_DIRECTIONS = 72  # per ring of bearings
_ONE_KILOHERTZ = 16  # number of the band at which it is decided which way most sound comes


@dataclass(frozen=True, slots=True)
class OutdoorSource:
    """Where the sound outside comes from.

    Parameters
    ----------
    bearing : float
        Middle of the directions [rad], from the nose of the vehicle, to the left positive.
    half_width : float
        Half of the range of bearings that it fills [rad], 0 to π; π is all round.
    lowest_elevation : float, optional
        Lowest angle above the horizon [rad].
    highest_elevation : float, optional
        Highest angle above the horizon [rad].

    Raises
    ------
    InvalidInput
        If an angle is out of range.

    References
    ----------
    .. [1] ISO 8855:2011 for axes and bearing.

    Examples
    --------
    >>> OutdoorSource(math.pi / 2, 0.5).half_width
    0.5
    """

    bearing: float
    half_width: float
    lowest_elevation: float = 0.0
    highest_elevation: float = 0.35

    def __post_init__(self) -> None:
        if not 0.0 <= self.half_width <= math.pi + 1e-9:
            raise InvalidInput(f"half width of the source is {self.half_width} rad; from 0 to π")
        if not -0.5 * math.pi <= self.lowest_elevation <= self.highest_elevation <= 0.5 * math.pi:
            raise InvalidInput(
                f"elevations {self.lowest_elevation} to {self.highest_elevation} rad; rising, from −π/2 to π/2"
            )


@dataclass(frozen=True, slots=True)
class FaceIncidence:
    """Sound on one face, relative to the level where the vehicle stands, without it.

    Parameters
    ----------
    at_face : tuple of float, shape (27,)
        Level on the hard face minus free-field level [dB].
    incident : tuple of float, shape (27,)
        Level that goes with R minus free-field level [dB]: the power that meets an area S is
        ``L + incident − 6 + 10 lg S``.
    lowest : float
        Smallest angle from the normal [rad] for which R is to be taken.
    highest : float
        Largest angle from the normal [rad]; 0 to π/2 together mean a diffuse field.
    lit_share : float
        Part of the incident power at 1 kHz that comes straight from the source [-].

    References
    ----------
    .. [1] EN ISO 12354-3:2017.

    Examples
    --------
    >>> FaceIncidence((6.0,) * 27, (6.0,) * 27, 0.0, 0.5, 1.0).lit_share
    1.0
    """

    at_face: tuple[float, ...]
    incident: tuple[float, ...]
    lowest: float
    highest: float
    lit_share: float


def face_incidence(
    face: Facing,
    source: OutdoorSource,
    shadow: tuple[float, ...],
    width: float,
    height: float,
    *,
    normal_elevation: float = 0.0,
) -> FaceIncidence:
    r"""Level on a face of the vehicle and the level and angles that go with its sound reduction index.

    Parameters
    ----------
    face : {"front", "rear", "left", "right", "roof", "floor"}
        Face of the vehicle [-].
    source : OutdoorSource
        Range of directions of the sound [rad].
    shadow : tuple of float, shape (27,) or (1,)
        How far below the free-field level the sound is that reaches this face round the vehicle [dB], ≥ 0.
    width : float
        Width of the face [m], > 0.
    height : float
        Height of the face [m], > 0.
    normal_elevation : float, optional
        How far the normal of a side leans upwards [rad].

    Returns
    -------
    FaceIncidence
        Levels relative to the free field [dB] and range of angles [rad].

    Raises
    ------
    InvalidInput
        If the face is unknown, the shadow negative or a dimension not above 0.

    Notes
    -----
    R compares transmitted with incident power, ``W = 10^(−R/10)·S·p²/(4ρc)``. A plane wave at θ brings
    ``S·cosθ·p²/(ρc)``, so its level with R is the free-field level + ``10 lg(4 cosθ)``: 6 dB head on, 3 dB at 60°;
    from all directions the mean of cosθ is ¼ and nothing is added. The level on the face rises by up to 6 dB, less
    where the face is small against the wave (:func:`hushwright.physics.acoustics.outdoors.pressure_rise`); the
    incident power below that keeps step with the squared pressure, since a small face does not gather more than
    passes it. Every direction brings at least what bends round the vehicle, free field less ``shadow``, taken as
    diffuse. Where more than half of the power at 1 kHz comes that way, R for a diffuse field is the right one.

    References
    ----------
    .. [1] EN ISO 12354-3:2017, annexes; ISO 16283-3:2016 (loudspeaker at 45°: −1.5 dB; road traffic: −3 dB).
    .. [2] C. Hopkins, *Sound Insulation*, Butterworth-Heinemann, 2007, section 3.4.

    Examples
    --------
    >>> sideways = OutdoorSource(bearing=math.pi / 2, half_width=0.0, highest_elevation=0.0)
    >>> seen = face_incidence("left", sideways, (10.0,), 4.3, 1.9)
    >>> round(seen.incident[26], 1), round(face_incidence("right", sideways, (10.0,), 4.3, 1.9).incident[26], 1)
    (6.0, -10.0)
    """
    if face not in _NORMALS:
        raise InvalidInput(f"face is {face!r}; known are {', '.join(_NORMALS)}")
    if len(shadow) not in (1, N_BANDS) or min(shadow) < 0.0:
        raise InvalidInput(f"shadow is {shadow} dB; one value or {N_BANDS}, none negative")
    if not (width > 0.0 and height > 0.0):
        raise InvalidInput(f"face is {width} m × {height} m; both must be above 0")
    cosine, weight = _cosines(face, source, normal_elevation)
    lit = cosine > 1e-9
    bent = 10.0 ** (-np.broadcast_to(np.asarray(shadow, dtype=np.float64), (N_BANDS,)) / 10.0)
    # Doubled pressure is a factor 4 in energy; the rise is 1 to 4, so both cases below stay between them.
    mean_angle = math.acos(float(np.average(cosine[lit], weights=weight[lit]))) if lit.any() else 0.5 * math.pi
    rise = 10.0 ** (pressure_rise(FREQUENCIES, width, height, mean_angle) / 10.0)
    straight = np.where(lit, cosine, 0.0)[:, None] * rise
    power = np.maximum(straight, bent)
    squared = np.where(lit[:, None], np.maximum(rise, bent), bent)
    incident = weight @ power
    seen = (straight > bent)[:, _ONE_KILOHERTZ]
    share = float(weight[seen] @ power[seen, _ONE_KILOHERTZ] / incident[_ONE_KILOHERTZ])
    angles = np.arccos(np.clip(cosine[seen], -1.0, 1.0))
    straight_rules = share > 0.5
    return FaceIncidence(
        tuple((10.0 * np.log10(weight @ squared)).tolist()),
        tuple((10.0 * np.log10(incident)).tolist()),
        _rounded(float(angles.min()), down=True) if straight_rules else 0.0,
        _rounded(float(angles.max()), down=False) if straight_rules else 0.5 * math.pi,
        share,
    )


def _rounded(angle: float, *, down: bool) -> float:
    """Steps of 5°, so that near-equal directions share a memoised partition; the range never closes."""
    step = math.radians(5.0)
    steps = math.floor(angle / step + 1e-9) if down else math.floor(angle / step + 1e-9) + 1
    return min(steps * step, 0.5 * math.pi)


def _cosines(face: str, source: OutdoorSource, normal_elevation: float) -> tuple[FloatArray, FloatArray]:
    """Cosine to the normal of every direction of the source, and weights by solid angle that add up to 1."""
    x, y, z = _NORMALS[face]
    lean = normal_elevation if z == 0.0 else 0.0
    normal = np.array([x * math.cos(lean), y * math.cos(lean), z if z else math.sin(lean)])
    offsets = (np.arange(_DIRECTIONS) + 0.5) / _DIRECTIONS * 2.0 - 1.0
    bearings = source.bearing + source.half_width * offsets
    nodes, weight = gauss_nodes(8)
    span = 0.5 * (source.highest_elevation - source.lowest_elevation)
    elevations = source.lowest_elevation + span * (nodes + 1.0)
    weight = weight * np.cos(elevations) + 1e-12
    directions = np.stack(
        [
            np.outer(np.cos(elevations), np.cos(bearings)),
            np.outer(np.cos(elevations), np.sin(bearings)),
            np.outer(np.sin(elevations), np.ones(_DIRECTIONS)),
        ],
        axis=-1,
    ).reshape(-1, 3)
    weights = np.repeat(weight / weight.sum() / _DIRECTIONS, _DIRECTIONS)
    return np.asarray(directions @ normal), weights
