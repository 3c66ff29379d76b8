"""Level differences between two rooms as field measurements state them."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FloatArray


def standardized_level_difference(
    level_difference: ArrayLike, reverberation_time: ArrayLike, *, reference_time: float = 0.5
) -> FloatArray:
    """Level difference for a receiving room with the reference reverberation time.

    Parameters
    ----------
    level_difference : array_like, shape (n_band,)
        Level in the source room minus level in the receiving room [dB].
    reverberation_time : array_like, shape (n_band,)
        Reverberation time of the receiving room [s], > 0.
    reference_time : float, optional
        Reference reverberation time [s], 0.5 for dwellings.

    Returns
    -------
    ndarray, shape (n_band,)
        Standardized level difference DnT [dB].

    Raises
    ------
    InvalidInput
        If a time is not above zero.

    Notes
    -----
    ``DnT = D + 10 lg(T/T0)`` [1]_. The standard covers rooms from 10 to 250 m³; a smaller room is outside it.

    References
    ----------
    .. [1] ISO 16283-1:2014, *Field measurement of sound insulation – Airborne*, clause 3.

    Examples
    --------
    >>> round(float(standardized_level_difference(40.0, 0.25)), 2)
    36.99
    """
    time = np.asarray(reverberation_time, dtype=np.float64)
    if np.any(~(time > 0.0)) or not reference_time > 0.0:
        raise InvalidInput(
            f"reverberation time {time.tolist()} s, reference {reference_time} s; both must be above zero"
        )
    return np.asarray(np.asarray(level_difference, dtype=np.float64) + 10.0 * np.log10(time / reference_time))


def apparent_sound_reduction_index(level_difference: ArrayLike, area: float, absorption_area: ArrayLike) -> FloatArray:
    """Sound reduction index of the dividing wall with everything that goes round it.

    Parameters
    ----------
    level_difference : array_like, shape (n_band,)
        Level in the source room minus level in the receiving room [dB].
    area : float
        Area of the common wall [m²], > 0.
    absorption_area : array_like, shape (n_band,)
        Equivalent absorption area of the receiving room [m²], > 0.

    Returns
    -------
    ndarray, shape (n_band,)
        Apparent sound reduction index R' [dB].

    Raises
    ------
    InvalidInput
        If an area is not above zero.

    Notes
    -----
    ``R' = D + 10 lg(S/A)`` [1]_, for diffuse fields in both rooms.

    References
    ----------
    .. [1] ISO 16283-1:2014, clause 3.

    Examples
    --------
    >>> round(float(apparent_sound_reduction_index(40.0, 10.0, 10.0)), 1)
    40.0
    """
    absorbing = np.asarray(absorption_area, dtype=np.float64)
    if not area > 0.0 or np.any(~(absorbing > 0.0)):
        raise InvalidInput(f"area {area} m², absorption area {absorbing.tolist()} m²; both must be above zero")
    return np.asarray(np.asarray(level_difference, dtype=np.float64) + 10.0 * np.log10(area / absorbing))
