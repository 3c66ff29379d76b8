"""Sound outdoors: what a face of a box radiates to the neighbours, and what reaches each face from outside."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FloatArray, energy_sum_level

Face = Literal["left", "right", "front", "rear", "roof", "floor"]
Bearing = Literal["left", "right", "front", "rear", "all round"]

FACES: Final[tuple[Face, ...]] = ("left", "right", "front", "rear", "roof", "floor")
_OPPOSITE: Final[Mapping[str, str]] = {"left": "right", "right": "left", "front": "rear", "rear": "front"}
_BAFFLE_STEP: Final = 115.0  # m·Hz, frequency times width at which half of the 6 dB is reached


@dataclass(frozen=True, slots=True)
class Shadow:
    """How much less [dB] reaches the faces that do not look at the source.

    ``side``: the faces beside it, passed at grazing incidence; ``lee``: the face turned away. All are library values,
    common practice, no source.
    """

    side: float
    lee: float
    roof: float
    floor: float


def segment_sound_power(
    inside_level: ArrayLike, reduction: ArrayLike, area: float, *, diffusivity_term: float = -6.0
) -> FloatArray:
    """Sound power that a segment of the shell radiates to the outside.

    Parameters
    ----------
    inside_level : array_like, shape (n_band,)
        Sound pressure level inside, near the segment [dB].
    reduction : array_like, shape (n_band,)
        Sound reduction index of the segment [dB].
    area : float
        Area [m²], > 0.
    diffusivity_term : float, optional
        −6 dB for a diffuse field in front of a reflecting inner face, up to −3 dB for a long or absorbing room [dB].

    Returns
    -------
    ndarray, shape (n_band,)
        Sound power level [dB re 1 pW].

    Raises
    ------
    InvalidInput
        If the area is not above zero or the term is not between −6 and 0 dB.

    Notes
    -----
    ``Lw = Lp + Cd − R' + 10 lg S`` [1]_, equation 2.

    References
    ----------
    .. [1] EN 12354-4:2000, *Transmission of indoor sound to the outside*.

    Examples
    --------
    >>> round(float(segment_sound_power(70.0, 28.2, 200.0, diffusivity_term=-5.0)), 1)
    59.8
    """
    if not area > 0.0 or not -6.0 <= diffusivity_term <= 0.0:
        raise InvalidInput(f"area {area} m² must be above zero, diffusivity term {diffusivity_term} dB from −6 to 0")
    level = np.asarray(inside_level, dtype=np.float64)
    return level + diffusivity_term - np.asarray(reduction, dtype=np.float64) + 10.0 * math.log10(area)


def spreading_in_front(width: float, height: float, distance: float) -> float:
    """Attenuation from a radiating upright face to a point in front of its middle, over hard ground.

    Parameters
    ----------
    width, height : float
        Size of the face [m], > 0.
    distance : float
        Distance from the face [m], > 0.

    Returns
    -------
    float
        Sound power level minus sound pressure level [dB].

    Raises
    ------
    InvalidInput
        If a length is not above zero.

    Notes
    -----
    ``−10 lg [4/(π w h) · arctan(w/2d) · arctan(h/2d)]``: a quarter space (wall and ground reflect), far away
    ``10 lg π d²`` [1]_. Written from memory of annex E; it gives all four printed values of annex G.

    References
    ----------
    .. [1] EN 12354-4:2000, annex E and table G.9.

    Examples
    --------
    >>> round(spreading_in_front(60.0, 10.0, 25.0), 1)
    34.4
    """
    if not (width > 0.0 and height > 0.0 and distance > 0.0):
        raise InvalidInput(f"face {width} m x {height} m at {distance} m; lengths must be above zero")
    seen = math.atan(width / (2.0 * distance)) * math.atan(height / (2.0 * distance))
    return -10.0 * math.log10(4.0 / (math.pi * width * height) * seen)


def level_at_distance(
    sound_power_level: ArrayLike,
    width: float,
    height: float,
    distance: float,
    *,
    directivity_index: ArrayLike = 0.0,
    air_attenuation: ArrayLike = 0.0,
) -> FloatArray:
    """Level that one radiating face of a box gives at a distance, over hard ground.

    Parameters
    ----------
    sound_power_level : array_like, shape (n_band,)
        Sound power level of the face [dB re 1 pW].
    width, height : float
        Size of the face [m].
    distance : float
        Distance of the receiver [m].
    directivity_index : array_like, shape (n_band,) or scalar, optional
        0 for a receiver in front of the face; negative for a face that looks elsewhere [dB].
    air_attenuation : array_like, shape (n_band,) or scalar, optional
        Attenuation by the air [dB/m].

    Returns
    -------
    ndarray, shape (n_band,)
        Sound pressure level [dB].

    Raises
    ------
    InvalidInput
        If a length is not above zero.

    Notes
    -----
    `spreading_in_front` with the directivity of the face and the absorption of the air. No barriers, soft ground or
    weather: within some tens of metres they are small beside the 3 dB and more of the directivity. Faces add in energy.

    References
    ----------
    .. [1] EN 12354-4:2000, annex E.

    Examples
    --------
    >>> round(float(level_at_distance(60.0, 3.0, 2.0, 10.0)), 1)
    35.0
    """
    spread = spreading_in_front(width, height, distance)
    power = np.asarray(sound_power_level, dtype=np.float64)
    loss = np.asarray(air_attenuation, dtype=np.float64) * distance
    return np.asarray(power - spread + np.asarray(directivity_index) - loss)


def pressure_rise(frequency: ArrayLike, width: float, height: float, incidence_angle: float = 0.0) -> FloatArray:
    r"""Rise of the pressure on a hard face of a box above the free field of the same wave.

    Parameters
    ----------
    frequency : array_like, shape (n_band,)
        Frequency [Hz], > 0.
    width, height : float
        Size of the face [m], > 0.
    incidence_angle : float, optional
        Angle from the normal [rad], 0 to π/2.

    Returns
    -------
    ndarray, shape (n_band,)
        Rise [dB], 0 to 6.02.

    Raises
    ------
    InvalidInput
        If a value is out of range.

    Notes
    -----
    None where the face is small against the wave, doubled pressure where it is large. Between both a first-order step,
    half way at ``f = 115/(w cos θ)`` with the smaller side w in metres (common practice, no source); grazing sound
    finds no face to rise on.

    References
    ----------
    .. [1] ISO 16283-3:2016 for the doubled pressure on a large façade.

    Examples
    --------
    >>> pressure_rise([20.0, 4000.0], 3.0, 2.0).round(1).tolist()
    [0.7, 6.0]
    """
    f = np.asarray(frequency, dtype=np.float64)
    if np.any(~(f > 0.0)) or not (width > 0.0 and height > 0.0 and 0.0 <= incidence_angle <= math.pi / 2):
        raise InvalidInput(
            f"frequency {f.tolist()} Hz, face {width} m x {height} m or angle {incidence_angle} rad is out of range"
        )
    ratio = f * min(width, height) * math.cos(incidence_angle) / (_BAFFLE_STEP * math.sqrt(2.0))
    return np.asarray(10.0 * np.log10((1.0 + 4.0 * ratio**2) / (1.0 + ratio**2)))


def diffuse_equivalent_level(face_level: ArrayLike, incidence_angle: float | None = None) -> FloatArray:
    """Level of the diffuse field that sends as much power into a face as the sound outdoors does.

    Parameters
    ----------
    face_level : array_like, shape (n_band,)
        Level at the hard face, pressure rise included [dB].
    incidence_angle : float, optional
        Angle of one wave from the normal [rad], 0 to below π/2; without it sound from all angles, such as traffic.

    Returns
    -------
    ndarray, shape (n_band,)
        Level L1 for ``L1 − R + 10 lg(S/A)`` with the sound reduction index R of a diffuse field [dB].

    Raises
    ------
    InvalidInput
        If the angle is out of range.

    Notes
    -----
    A wave of surface level L brings ``p² cos θ/(4 ρc)``, a diffuse field of level L1 ``p1²/(4 ρc)``: that makes
    ``L + 10 lg cos θ``, −1.5 dB at 45° and −3 dB over all angles [1]_. With an R of the same angle it is exact for one
    wave.

    References
    ----------
    .. [1] ISO 16283-3:2016, *Field measurement of façade sound insulation*, clauses 3.12 and 3.13.

    Examples
    --------
    >>> round(float(diffuse_equivalent_level(60.0, math.pi / 4)), 1), round(float(diffuse_equivalent_level(60.0)), 1)
    (58.5, 57.0)
    """
    if incidence_angle is not None and not 0.0 <= incidence_angle < math.pi / 2:
        raise InvalidInput(f"angle of incidence is {incidence_angle} rad; it must be from 0 to below π/2")
    share = 0.5 if incidence_angle is None else math.cos(incidence_angle)
    return np.asarray(np.asarray(face_level, dtype=np.float64) + 10.0 * math.log10(share))


def face_levels(
    free_field_level: ArrayLike,
    bearing: Bearing,
    shadow: Shadow,
    *,
    rise: Mapping[Face, ArrayLike] | None = None,
) -> dict[Face, FloatArray]:
    """Level at each face of a box for a source whose bearing is known.

    Parameters
    ----------
    free_field_level : array_like, shape (n_band,)
        Level of the sound where the box stands, without the box [dB].
    bearing : {"left", "right", "front", "rear", "all round"}
        Side on which the source is; "all round" is a quarter of the energy from each side [-].
    shadow : Shadow
        How much less reaches the other faces [dB].
    rise : mapping of face to array, shape (n_band,), optional
        Pressure rise of a face when it looks at the source [dB], from `pressure_rise`; none by default.

    Returns
    -------
    dict
        Level at each of the six faces [dB]; `diffuse_equivalent_level` makes it fit a sound reduction index.

    Raises
    ------
    InvalidInput
        If the bearing is unknown.

    Notes
    -----
    One bearing: the face towards it gets level and rise, the others the level less their shadow. All round: the four
    bearings with a quarter of the energy each, added for every face.

    References
    ----------
    .. [1] Common practice, no source, for the shadow values.

    Examples
    --------
    >>> levels = face_levels(60.0, "left", Shadow(side=3.0, lee=10.0, roof=5.0, floor=8.0))
    >>> float(levels["left"]), float(levels["right"]), float(levels["roof"])
    (60.0, 50.0, 55.0)
    """
    free = np.asarray(free_field_level, dtype=np.float64)
    if bearing == "all round":
        quarter = free - 10.0 * math.log10(4.0)
        sides: tuple[Bearing, ...] = ("left", "right", "front", "rear")
        parts = [face_levels(quarter, side, shadow, rise=rise) for side in sides]
        return {face: energy_sum_level(np.stack([part[face] for part in parts]), axis=0) for face in FACES}
    if bearing not in _OPPOSITE:
        raise InvalidInput(f"bearing is {bearing!r}; it is left, right, front, rear or all round")
    change: dict[str, ArrayLike] = dict.fromkeys(_OPPOSITE, -shadow.side)
    change[bearing] = (rise or {}).get(bearing, 0.0)
    change[_OPPOSITE[bearing]] = -shadow.lee
    change |= {"roof": -shadow.roof, "floor": -shadow.floor}
    return {face: np.asarray(free + np.asarray(change[face], dtype=np.float64)) for face in FACES}
