"""Sound that runs along the vehicle skin past the dividing wall: resonant bending waves over ribs and edges."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES
from hushwright.physics.acoustics.ribs import Rib, Sheet, skin_velocity_difference
from hushwright.physics.air import AIR_20C, Air

FloatArray = NDArray[np.float64]

_LEAST_UNCERTAINTY = 4.0  # dB; flanking over thin ribbed sheet that nobody has measured; assumed, no source


@dataclass(frozen=True, slots=True)
class FlankingPath:
    """A flanking path per band.

    Parameters
    ----------
    reduction : tuple of float, shape (27,)
        Flanking sound reduction index, referred to the separating area [dB].
    standard_uncertainty : tuple of float, shape (27,)
        Standard uncertainty while nothing was measured [dB].

    References
    ----------
    .. [1] EN ISO 12354-1:2017.

    Examples
    --------
    >>> FlankingPath((60.0,) * 27, (5.0,) * 27).reduction[0]
    60.0
    """

    reduction: tuple[float, ...]
    standard_uncertainty: tuple[float, ...]


def structural_reverberation_time(loss_factor: ArrayLike, frequency: ArrayLike = FREQUENCIES) -> FloatArray:
    """Structural reverberation time of a sheet.

    Parameters
    ----------
    loss_factor : array_like, shape (n_band,)
        Total loss factor [-], > 0.
    frequency : array_like, shape (n_band,), optional
        Frequency [Hz], > 0.

    Returns
    -------
    ndarray, shape (n_band,)
        Reverberation time [s], ``2.2/(f η)``.

    Raises
    ------
    InvalidInput
        If a loss factor is not above 0.

    References
    ----------
    .. [1] EN ISO 12354-1:2017, annex C.

    Examples
    --------
    >>> round(float(structural_reverberation_time([0.02], [500.0])[0]), 2)
    0.22
    """
    losses = np.asarray(loss_factor, dtype=np.float64)
    if not np.all(losses > 0.0):
        raise InvalidInput(f"smallest loss factor is {float(losses.min())}; it must be above 0")
    return np.asarray(2.2 / (np.asarray(frequency, dtype=np.float64) * losses))


def equivalent_absorption_length(
    area: float, reverberation_time: ArrayLike, frequency: ArrayLike = FREQUENCIES, air: Air = AIR_20C
) -> FloatArray:
    """Equivalent absorption length of a structural element.

    Parameters
    ----------
    area : float
        Area of the element [m²], > 0.
    reverberation_time : array_like, shape (n_band,)
        Structural reverberation time [s], > 0.
    frequency : array_like, shape (n_band,), optional
        Frequency [Hz].
    air : Air, optional
        Air, for the speed of sound [m/s].

    Returns
    -------
    ndarray, shape (n_band,)
        Length [m]: ``2.2 π² S/(c T_s) · sqrt(1000 Hz/f)``.

    Raises
    ------
    InvalidInput
        If the area is not above 0.

    References
    ----------
    .. [1] EN ISO 12354-1:2017, section 4.

    Examples
    --------
    >>> round(float(equivalent_absorption_length(4.0, [0.2], [1000.0])[0]), 2)
    1.27
    """
    if not area > 0.0:
        raise InvalidInput(f"element area is {area} m²; it must be above 0")
    root = np.sqrt(1000.0 / np.asarray(frequency, dtype=np.float64))
    return np.asarray(2.2 * np.pi**2 * area / (air.speed_of_sound * np.asarray(reverberation_time)) * root)


def velocity_level_difference_from_index(
    vibration_reduction_index: ArrayLike, edge_length: float, first_length: ArrayLike, second_length: ArrayLike
) -> FloatArray:
    """Direction-averaged velocity level difference from a vibration reduction index.

    Parameters
    ----------
    vibration_reduction_index : array_like, shape (n_band,)
        K_ij [dB].
    edge_length : float
        Length of the junction [m], > 0.
    first_length : array_like, shape (n_band,)
        Equivalent absorption length of one element [m].
    second_length : array_like, shape (n_band,)
        Equivalent absorption length of the other [m].

    Returns
    -------
    ndarray, shape (n_band,)
        Velocity level difference [dB]: ``K − 10 lg(l/sqrt(a_i a_j))``.

    Raises
    ------
    InvalidInput
        If the length is not above 0.

    References
    ----------
    .. [1] EN ISO 12354-1:2017, section 4; ISO 10848-1:2017.

    Examples
    --------
    >>> velocity_level_difference_from_index([5.0], 2.0, [2.0], [2.0]).tolist()
    [5.0]
    """
    if not edge_length > 0.0:
        raise InvalidInput(f"junction length is {edge_length} m; it must be above 0")
    mean = np.sqrt(np.asarray(first_length, dtype=np.float64) * np.asarray(second_length, dtype=np.float64))
    return np.asarray(np.asarray(vibration_reduction_index, dtype=np.float64) - 10.0 * np.log10(edge_length / mean))


def flanking_reduction(
    first_reduction: ArrayLike,
    second_reduction: ArrayLike,
    velocity_level_difference: ArrayLike,
    separating_area: float,
    first_area: float,
    second_area: float,
) -> FloatArray:
    """Flanking sound reduction index of one path.

    Parameters
    ----------
    first_reduction : array_like, shape (n_band,)
        Sound reduction index of the driven element, resonant part only [dB].
    second_reduction : array_like, shape (n_band,)
        Sound reduction index of the radiating element, resonant part only [dB].
    velocity_level_difference : array_like, shape (n_band,)
        Direction-averaged velocity level difference between them [dB].
    separating_area : float
        Area the result refers to [m²], > 0.
    first_area : float
        Area of the driven element [m²], > 0.
    second_area : float
        Area of the radiating element [m²], > 0.

    Returns
    -------
    ndarray, shape (n_band,)
        R_ij [dB]: ``(R_i + R_j)/2 + D_v + 10 lg(S_s/sqrt(S_i S_j))``.

    Raises
    ------
    InvalidInput
        If an area is not above 0.

    Notes
    -----
    Holds for free bending waves: the forced part of R stays where it is driven and must be left out.

    References
    ----------
    .. [1] EN ISO 12354-1:2017, section 4.

    Examples
    --------
    >>> flanking_reduction([40.0], [44.0], [6.0], 3.0, 3.0, 3.0).tolist()
    [48.0]
    """
    if not min(separating_area, first_area, second_area) > 0.0:
        raise InvalidInput(f"areas are {separating_area}, {first_area} and {second_area} m²; all must be above 0")
    mean = 0.5 * (np.asarray(first_reduction, dtype=np.float64) + np.asarray(second_reduction, dtype=np.float64))
    geometry = 10.0 * math.log10(separating_area / math.sqrt(first_area * second_area))
    return np.asarray(mean + np.asarray(velocity_level_difference, dtype=np.float64) + geometry)


def flanking_rating(
    first_rating: float,
    second_rating: float,
    vibration_reduction_index: float,
    separating_area: float,
    junction_length: float,
    improvement: float = 0.0,
) -> float:
    """Weighted flanking sound reduction index by the simplified model.

    Parameters
    ----------
    first_rating : float
        Weighted sound reduction index of the driven element [dB].
    second_rating : float
        Weighted sound reduction index of the radiating element [dB].
    vibration_reduction_index : float
        K_ij [dB].
    separating_area : float
        Area of the separating element [m²], > 0.
    junction_length : float
        Length of the junction [m], > 0; the reference length is 1 m.
    improvement : float, optional
        Improvement by linings [dB].

    Returns
    -------
    float
        R_ij,w [dB].

    Raises
    ------
    InvalidInput
        If the area or the length is not above 0.

    References
    ----------
    .. [1] EN ISO 12354-1:2017, simplified model and annex H (example H.3).

    Examples
    --------
    >>> round(flanking_rating(49.0, 49.0, 12.4, 11.5, 4.5), 1)
    65.5
    """
    if not (separating_area > 0.0 and junction_length > 0.0):
        raise InvalidInput(f"area {separating_area} m², junction {junction_length} m; both must be above 0")
    geometry = 10.0 * math.log10(separating_area / junction_length)
    return 0.5 * (first_rating + second_rating) + improvement + vibration_reduction_index + geometry


def skin_flanking(
    first_reduction: tuple[float, ...],
    second_reduction: tuple[float, ...],
    sheet: Sheet,
    bays: tuple[float, ...],
    ribs: tuple[Rib, ...],
    first_receiving: int,
    height: float,
    separating_area: float,
) -> FlankingPath:
    """Flanking along one face of the vehicle skin, with the uncertainty of what nobody has measured.

    Parameters
    ----------
    first_reduction : tuple of float, shape (27,)
        Resonant part of the sound reduction index from the source room into the skin [dB].
    second_reduction : tuple of float, shape (27,)
        Resonant part of the sound reduction index from the skin into the receiving room [dB].
    sheet : Sheet
        Skin with its damping [-].
    bays : tuple of float, shape (n_bay,)
        Length of each bay along the vehicle in order [m].
    ribs : tuple of Rib, shape (n_bay − 1,)
        Ribs between them [-].
    first_receiving : int
        Number of the first bay of the receiving room [-].
    height : float
        Length of the junction: height of the side or width of the roof [m], > 0.
    separating_area : float
        Area of the dividing wall, to which the result refers [m²].

    Returns
    -------
    FlankingPath
        Flanking sound reduction index and its standard uncertainty [dB].

    Raises
    ------
    InvalidInput
        If a dimension is out of range.

    Notes
    -----
    The uncertainty is 4 dB (assumed, no source) together with a rectangular spread between the skin as ribbed and the
    same skin without ribs, which is how far wrong a rib's fastening can make the difference.

    References
    ----------
    .. [1] EN ISO 12354-1:2017, section 4.
    .. [2] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 6.

    Examples
    --------
    >>> path = skin_flanking((30.0,) * 27, (60.0,) * 27, Sheet(7.0, 13.5, (0.05,) * 27), (0.5,) * 4, (Rib(1.0),) * 3, 2,
    ...                      1.8, 3.0)
    >>> min(path.standard_uncertainty) >= 4.0
    True
    """
    if not height > 0.0:
        raise InvalidInput(f"junction length is {height} m; it must be above 0")
    difference = np.asarray(skin_velocity_difference(sheet, bays, ribs, first_receiving))
    smooth = np.asarray(skin_velocity_difference(sheet, bays, (Rib(0.0),) * len(ribs), first_receiving))
    reduction = flanking_reduction(
        first_reduction,
        second_reduction,
        difference,
        separating_area,
        height * sum(bays[:first_receiving]),
        height * sum(bays[first_receiving:]),
    )
    spread = np.hypot(_LEAST_UNCERTAINTY, (difference - smooth) / math.sqrt(12.0))
    return FlankingPath(tuple(reduction.tolist()), tuple(spread.tolist()))
