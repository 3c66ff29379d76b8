"""Room statistics: reverberation time in closed form, Schroeder frequency, level of a source in a room.

All of it presumes a diffuse field; in a room of a few cubic metres that holds only well above the Schroeder frequency.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FloatArray
from hushwright.physics.air import AIR_20C, Air


def _decay_time(volume: float, area: ArrayLike, air: Air) -> FloatArray:
    """Time for 60 dB, ``24 ln 10/c · V/A`` [s]; infinite where nothing absorbs."""
    if not volume > 0.0:
        raise InvalidInput(f"volume is {volume} m³; it must be above zero")
    absorbing = np.asarray(area, dtype=np.float64)
    if np.any(~(absorbing >= 0.0)):
        raise InvalidInput(f"absorption area is {absorbing.tolist()} m²; it must not be negative")
    with np.errstate(divide="ignore"):
        return np.asarray(24.0 * math.log(10.0) / air.speed_of_sound * volume / absorbing)


def _checked(areas: Sequence[float], absorption: ArrayLike, *, below_one: bool) -> tuple[FloatArray, FloatArray]:
    """Areas with shape (n, 1, …) and coefficients with shape (n, …)."""
    surface = np.asarray(areas, dtype=np.float64)
    coefficient = np.asarray(absorption, dtype=np.float64)
    if surface.ndim != 1 or coefficient.shape[:1] != surface.shape or np.any(~(surface > 0.0)):
        raise InvalidInput(f"areas {surface.tolist()} m² do not fit {coefficient.shape[:1]} rows of absorption")
    if np.any(~(coefficient >= 0.0)) or (below_one and np.any(coefficient >= 1.0)):
        raise InvalidInput(f"absorption coefficient is {coefficient.tolist()}; it must be from 0 to below 1")
    return surface.reshape(-1, *([1] * (coefficient.ndim - 1))), coefficient


def sabine_reverberation_time(volume: float, absorption_area: ArrayLike, *, air: Air = AIR_20C) -> FloatArray:
    """Reverberation time after Sabine.

    Parameters
    ----------
    volume : float
        Volume of the room [m³], > 0.
    absorption_area : array_like, shape (n_band,)
        Equivalent absorption area with air and people [m²].
    air : Air, optional
        Air (speed of sound [m/s]).

    Returns
    -------
    ndarray, shape (n_band,)
        Reverberation time [s].

    Raises
    ------
    InvalidInput
        If the volume is not above zero or an area is negative.

    Notes
    -----
    ``T = 24 ln 10/c · V/A`` [1]_. Holds for small and evenly spread absorption.

    References
    ----------
    .. [1] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009, ch. 5; EN 12354-6:2003.

    Examples
    --------
    >>> round(float(sabine_reverberation_time(120.0, 31.6)), 2)
    0.61
    """
    return _decay_time(volume, absorption_area, air)


def eyring_reverberation_time(
    volume: float, areas: Sequence[float], absorption: ArrayLike, *, air_area: ArrayLike = 0.0, air: Air = AIR_20C
) -> FloatArray:
    """Reverberation time after Eyring.

    Parameters
    ----------
    volume : float
        Volume of the room [m³], > 0.
    areas : sequence of float, length n_surface
        Areas of the surfaces [m²].
    absorption : array_like, shape (n_surface, ...)
        Absorption coefficients [-], 0 to below 1.
    air_area : array_like, shape (n_band,) or scalar, optional
        Absorption area of the air [m²].
    air : Air, optional
        Air (speed of sound [m/s]).

    Returns
    -------
    ndarray, shape (...)
        Reverberation time [s].

    Raises
    ------
    InvalidInput
        If shapes do not fit or a coefficient is out of range.

    Notes
    -----
    ``A = −S ln(1 − ᾱ)`` with the mean coefficient by area [1]_.

    References
    ----------
    .. [1] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009, ch. 5.

    Examples
    --------
    >>> round(float(eyring_reverberation_time(120.0, [158.0], [0.2])), 2)
    0.55
    """
    surface, coefficient = _checked(areas, absorption, below_one=True)
    mean = np.sum(surface * coefficient, axis=0) / surface.sum()
    return _decay_time(volume, -surface.sum() * np.log1p(-mean) + np.asarray(air_area), air)


def millington_reverberation_time(
    volume: float, areas: Sequence[float], absorption: ArrayLike, *, air_area: ArrayLike = 0.0, air: Air = AIR_20C
) -> FloatArray:
    """Reverberation time after Millington.

    Parameters
    ----------
    volume : float
        Volume of the room [m³], > 0.
    areas : sequence of float, length n_surface
        Areas of the surfaces [m²].
    absorption : array_like, shape (n_surface, ...)
        Absorption coefficients [-], 0 to below 1.
    air_area : array_like, shape (n_band,) or scalar, optional
        Absorption area of the air [m²].
    air : Air, optional
        Air (speed of sound [m/s]).

    Returns
    -------
    ndarray, shape (...)
        Reverberation time [s].

    Raises
    ------
    InvalidInput
        If shapes do not fit or a coefficient is out of range.

    Notes
    -----
    ``A = −Σ S_i ln(1 − α_i)`` [1]_; one surface near α = 1 makes it too short.

    References
    ----------
    .. [1] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009, ch. 5.

    Examples
    --------
    >>> round(float(millington_reverberation_time(100.0, [60.0, 40.0], [0.3, 0.6])), 2)
    0.28
    """
    surface, coefficient = _checked(areas, absorption, below_one=True)
    return _decay_time(volume, -np.sum(surface * np.log1p(-coefficient), axis=0) + np.asarray(air_area), air)


def _axis_pairs(dimensions: tuple[float, float, float], absorption: ArrayLike) -> tuple[FloatArray, FloatArray, float]:
    """Areas of the three pairs of opposite walls, their Eyring exponents, and the volume."""
    length, width, height = dimensions
    pairs = (2.0 * width * height, 2.0 * length * height, 2.0 * length * width)
    surface, coefficient = _checked(pairs, absorption, below_one=True)
    return surface, -np.log1p(-coefficient), length * width * height


def fitzroy_reverberation_time(
    dimensions: tuple[float, float, float], absorption: ArrayLike, *, air: Air = AIR_20C
) -> FloatArray:
    """Reverberation time of a box after Fitzroy, for absorption unlike in the three directions.

    Parameters
    ----------
    dimensions : tuple of three floats
        Length, width, height [m].
    absorption : array_like, shape (3, ...)
        Mean coefficients [-] of the pairs of walls at the ends of length, width and height, above 0 and below 1.
    air : Air, optional
        Air (speed of sound [m/s]).

    Returns
    -------
    ndarray, shape (...)
        Reverberation time [s].

    Raises
    ------
    InvalidInput
        If shapes do not fit or a coefficient is out of range.

    Notes
    -----
    Arithmetic mean, weighted by area, of the Eyring times with each pair's coefficient on all walls [1]_.

    References
    ----------
    .. [1] D. Fitzroy, *J. Acoust. Soc. Am.* 31 (1959) 893–897.

    Examples
    --------
    >>> round(float(fitzroy_reverberation_time((8.0, 5.0, 3.0), [0.5, 0.1, 0.1])), 2)
    0.97
    """
    surface, exponent, volume = _axis_pairs(dimensions, absorption)
    total = surface.sum()
    times = _decay_time(volume, total * exponent, air)
    return np.asarray(np.sum(surface / total * times, axis=0))


def arau_reverberation_time(
    dimensions: tuple[float, float, float], absorption: ArrayLike, *, air: Air = AIR_20C
) -> FloatArray:
    """Reverberation time of a box after Arau-Puchades, for absorption unlike in the three directions.

    Parameters
    ----------
    dimensions : tuple of three floats
        Length, width, height [m].
    absorption : array_like, shape (3, ...)
        Mean coefficients [-] of the pairs of walls at the ends of length, width and height, above 0 and below 1.
    air : Air, optional
        Air (speed of sound [m/s]).

    Returns
    -------
    ndarray, shape (...)
        Reverberation time [s].

    Raises
    ------
    InvalidInput
        If shapes do not fit or a coefficient is out of range.

    Notes
    -----
    Geometric mean, weighted by area, of the Eyring times with each pair's coefficient on all walls [1]_.

    References
    ----------
    .. [1] H. Arau-Puchades, *Acustica* 65 (1988) 163–180.

    Examples
    --------
    >>> round(float(arau_reverberation_time((8.0, 5.0, 3.0), [0.5, 0.1, 0.1])), 2)
    0.81
    """
    surface, exponent, volume = _axis_pairs(dimensions, absorption)
    total = surface.sum()
    times = _decay_time(volume, total * exponent, air)
    return np.asarray(np.exp(np.sum(surface / total * np.log(times), axis=0)))


def schroeder_frequency(volume: float, reverberation_time: float) -> float:
    """Frequency above which modes overlap enough for statistics.

    Parameters
    ----------
    volume : float
        Volume of the room [m³], > 0.
    reverberation_time : float
        Reverberation time in the region of the result [s], ≥ 0.

    Returns
    -------
    float
        Frequency [Hz].

    Raises
    ------
    InvalidInput
        If a value is out of range.

    Notes
    -----
    ``f = 2000 sqrt(T/V)`` [1]_: three modes in the width of one.

    References
    ----------
    .. [1] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009, ch. 3.

    Examples
    --------
    >>> round(schroeder_frequency(200.0, 1.0), 1)
    141.4
    """
    if not (volume > 0.0 and reverberation_time >= 0.0):
        raise InvalidInput(f"volume {volume} m³ or reverberation time {reverberation_time} s is out of range")
    return 2000.0 * math.sqrt(reverberation_time / volume)


def room_constant(area: float, absorption: ArrayLike) -> FloatArray:
    """Room constant.

    Parameters
    ----------
    area : float
        Area of all surfaces [m²], > 0.
    absorption : array_like, shape (n_band,)
        Mean absorption coefficient [-], 0 to below 1.

    Returns
    -------
    ndarray
        Room constant [m²].

    Raises
    ------
    InvalidInput
        If a value is out of range.

    Notes
    -----
    ``S ᾱ/(1 − ᾱ)`` [1]_.

    References
    ----------
    .. [1] L. L. Beranek, *Acoustics*, McGraw-Hill, 1954, ch. 10.

    Examples
    --------
    >>> round(float(room_constant(100.0, 0.2)), 1)
    25.0
    """
    surface, coefficient = _checked([area], np.asarray(absorption)[np.newaxis], below_one=True)
    return np.asarray((surface * coefficient / (1.0 - coefficient))[0])


def level_in_room(
    sound_power_level: ArrayLike,
    absorption_area: ArrayLike,
    distance: float = math.inf,
    directivity_factor: float = 1.0,
) -> FloatArray:
    """Sound pressure level of a source in a room with a diffuse field.

    Parameters
    ----------
    sound_power_level : array_like, shape (n_band,)
        Sound power level of the source [dB re 1 pW].
    absorption_area : array_like, shape (n_band,)
        Equivalent absorption area, or the room constant where much is absorbed [m²], > 0.
    distance : float, optional
        Distance from the source [m]; infinite for the reverberant field alone.
    directivity_factor : float, optional
        Directivity factor [-]; 2 on the floor, 4 in an edge, 8 in a corner.

    Returns
    -------
    ndarray, shape (n_band,)
        Sound pressure level [dB re 20 µPa].

    Raises
    ------
    InvalidInput
        If a value is out of range.

    Notes
    -----
    ``L = Lw + 10 lg(Q/(4π r²) + 4/A)`` [1]_, above the Schroeder frequency only; below it modes decide.

    References
    ----------
    .. [1] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009, ch. 5.

    Examples
    --------
    >>> round(float(level_in_room(80.0, 4.0)), 1)
    80.0
    """
    area = np.asarray(absorption_area, dtype=np.float64)
    if np.any(~(area > 0.0)) or not distance > 0.0 or not directivity_factor > 0.0:
        raise InvalidInput(
            f"absorption area {area.tolist()} m², distance {distance} m and directivity factor {directivity_factor} "
            "must be above zero"
        )
    direct = directivity_factor / (4.0 * math.pi * distance**2)
    return np.asarray(sound_power_level, dtype=np.float64) + 10.0 * np.log10(direct + 4.0 / area)
