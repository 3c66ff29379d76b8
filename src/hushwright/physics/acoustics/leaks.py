"""Joints, small openings and the sum of elements that share a face; slits themselves are in `slits`."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES, N_BANDS
from hushwright.physics.acoustics.slits import Slit, joint_reduction
from hushwright.physics.air import AIR_20C, Air

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Element:
    """A part of a composite: its area and sound reduction index.

    Parameters
    ----------
    area : float
        Area [m²], > 0.
    reduction : tuple of float, shape (n_band,)
        Sound reduction index [dB].

    Raises
    ------
    InvalidInput
        If the area is not above 0.

    References
    ----------
    .. [1] EN ISO 12354-3:2017, section 4.

    Examples
    --------
    >>> Element(1.0, (20.0,)).area
    1.0
    """

    area: float
    reduction: tuple[float, ...]

    def __post_init__(self) -> None:
        if not self.area > 0.0:
            raise InvalidInput(f"element area is {self.area} m²; it must be above 0")


def joint_transmission_area(joint: ArrayLike, length: float) -> FloatArray:
    """Open area that passes as much sound as a joint.

    Parameters
    ----------
    joint : array_like, shape (n_band,)
        Joint sound reduction index R_s [dB].
    length : float
        Length of the joint [m], ≥ 0.

    Returns
    -------
    ndarray, shape (n_band,)
        Transmission factor times area [m²]: ``l · 1 m · 10^(−R_s/10)``.

    Raises
    ------
    InvalidInput
        If the length is negative.

    References
    ----------
    .. [1] ISO 10140-1:2021, annex on joints and seals.

    Examples
    --------
    >>> joint_transmission_area([40.0], 5.0).tolist()
    [0.0005]
    """
    if length < 0.0:
        raise InvalidInput(f"joint length is {length} m; it cannot be negative")
    return np.asarray(length * 10.0 ** (-np.asarray(joint, dtype=np.float64) / 10.0))


def small_element_transmission_area(normalized_level_difference: ArrayLike) -> FloatArray:
    """Open area that passes as much sound as a small element such as an air inlet.

    Parameters
    ----------
    normalized_level_difference : array_like, shape (n_band,)
        Element normalized level difference D_n,e [dB].

    Returns
    -------
    ndarray, shape (n_band,)
        Transmission factor times area [m²]: ``10 m² · 10^(−D_n,e/10)``.

    References
    ----------
    .. [1] EN ISO 12354-3:2017, section 4; ISO 10140-2:2021.

    Examples
    --------
    >>> small_element_transmission_area([40.0]).tolist()
    [0.001]
    """
    return np.asarray(10.0 * 10.0 ** (-np.asarray(normalized_level_difference, dtype=np.float64) / 10.0))


def composite_reduction(
    elements: tuple[Element, ...], open_area: ArrayLike = 0.0, *, total_area: float | None = None
) -> FloatArray:
    """Sound reduction index of elements side by side.

    Parameters
    ----------
    elements : tuple of Element
        Areas [m²] and reductions; all with the same number of bands.
    open_area : array_like, shape (n_band,), optional
        Transmission factor times area of joints, holes and small elements [m²].
    total_area : float, optional
        Area the result refers to [m²]; the sum of the elements when left out.

    Returns
    -------
    ndarray, shape (n_band,)
        Sound reduction index of the whole [dB].

    Raises
    ------
    InvalidInput
        If there is no element, or the total area is not above 0.

    Notes
    -----
    ``−10 lg[(Σ S_i·10^(−R_i/10) + open area)/S]``.

    References
    ----------
    .. [1] EN ISO 12354-3:2017, eq. for R′.
    .. [2] M. J. Crocker and J. P. Arenas, *Engineering Acoustics*, Wiley, 2021, ch. 12.

    Examples
    --------
    >>> composite_reduction((Element(9.5, (59.0,)), Element(1.08, (35.0,)))).round(1).tolist()
    [44.8]
    """
    if not elements:
        raise InvalidInput("composite of 0 elements; at least one is needed")
    area = sum(element.area for element in elements) if total_area is None else total_area
    if not area > 0.0:
        raise InvalidInput(f"total area is {area} m²; it must be above 0")
    passing = sum(element.area * 10.0 ** (-np.asarray(element.reduction) / 10.0) for element in elements)
    return np.asarray(-10.0 * np.log10((passing + np.asarray(open_area, dtype=np.float64)) / area))


def door_cap(
    area: float, perimeter: float, slit: Slit, frequency: ArrayLike = FREQUENCIES, air: Air = AIR_20C
) -> FloatArray:
    """Highest sound reduction a leaf can show with a gap round it, however good the leaf.

    Parameters
    ----------
    area : float
        Area of the leaf [m²], > 0.
    perimeter : float
        Length of the gap [m], > 0.
    slit : Slit
        The gap [m].
    frequency : array_like, shape (n_band,), optional
        Frequency [Hz], > 0.
    air : Air, optional
        Air in the gap [-].

    Returns
    -------
    ndarray, shape (n_band,)
        Sound reduction index of the gap alone, referred to the leaf [dB].

    Raises
    ------
    InvalidInput
        If the area or perimeter is not above 0.

    References
    ----------
    .. [1] M. C. Gomperts and T. Kihlman, *Acustica* 18 (1967) 144–150.

    Examples
    --------
    A 2.0 m × 0.9 m leaf, 40 mm thick, with 1 mm all round.

    >>> round(float(door_cap(1.8, 5.8, Slit(1e-3, 0.04, "edge"), 500.0)[0]))
    25
    """
    if not (area > 0.0 and perimeter > 0.0):
        raise InvalidInput(f"leaf of {area} m² with a gap of {perimeter} m; both must be above 0")
    passing = joint_transmission_area(joint_reduction(slit, frequency, air), perimeter)
    return np.asarray(10.0 * np.log10(area / passing))


@dataclass(frozen=True, slots=True)
class NicheAllowance:
    """What a niche in front of a pane changes, and how unsure that is.

    Parameters
    ----------
    allowance : tuple of float, shape (27,)
        To be added to the sound reduction index [dB].
    standard_uncertainty : tuple of float, shape (27,)
        Standard uncertainty of it [dB].

    References
    ----------
    .. [1] R. W. Guy and P. Sauer, The influence of sills and reveals on sound transmission loss, *Applied Acoustics*
       17 (1984) (from memory).

    Examples
    --------
    >>> NicheAllowance((1.0,) * 27, (1.5,) * 27).allowance[0]
    1.0
    """

    allowance: tuple[float, ...]
    standard_uncertainty: tuple[float, ...]


def niche_allowance(depth: float, width: float, height: float, coincidence: float) -> NicheAllowance:
    """What the reveal of a window changes below coincidence.

    Parameters
    ----------
    depth : float
        Depth of the niche on the side where it is deeper [m], ≥ 0.
    width : float
        Clear width of the niche [m], > 0.
    height : float
        Clear height of the niche [m], > 0.
    coincidence : float
        Coincidence frequency of the pane [Hz], > 0.

    Returns
    -------
    NicheAllowance
        Allowance and its standard uncertainty [dB].

    Raises
    ------
    InvalidInput
        If a dimension is out of range.

    Notes
    -----
    The sides of the niche shade the pane from grazing waves: seen from its middle, waves meet it up to
    ``θ = arctan(s/2d)``, s the mean side, in place of 78° for a flush pane, so a limp pane gains
    ``10 lg[ln cos²78° / ln cos²θ]`` where that is positive. It fades out over the octave below coincidence.
    Laboratories that move one pane in its opening saw up to 8 dB between places, only below coincidence [2]_;
    a rectangular spread of that width that grows with depth over half the mean side is the uncertainty.
    The angle rule is our own reading, not a standard's.

    References
    ----------
    .. [1] K. A. Mulholland, H. D. Parbrook and A. Cummings, *J. Sound Vib.* 6 (1967) 324–334 (limiting angle; from
       memory).
    .. [2] The effect of a deep niche on the laboratory measurement of transmission loss, *J. Acoust. Soc. Am.* 68
       (1980) S26.

    Examples
    --------
    >>> round(niche_allowance(0.1, 0.74, 0.56, 1200.0).allowance[10], 1)
    1.1
    """
    if depth < 0.0 or not min(width, height, coincidence) > 0.0:
        raise InvalidInput(
            f"niche {depth} m deep, {width} m wide, {height} m high, coincidence {coincidence} Hz: depth from 0, "
            "the others above 0"
        )
    half_side = 0.25 * (width + height)
    flush = math.log(math.cos(math.radians(78.0)) ** 2)
    limited = -math.log1p((half_side / depth) ** 2) if depth > 0.0 else flush
    gain = max(0.0, 10.0 * math.log10(flush / limited))
    fade = np.clip(np.log2(coincidence / FREQUENCIES), 0.0, 1.0)
    spread = 8.0 / math.sqrt(12.0) * min(1.0, depth / half_side)
    return NicheAllowance(tuple((gain * fade).tolist()), tuple((spread * fade).tolist()))


def band_tuple(values: ArrayLike) -> tuple[float, ...]:
    """The 27 band values as a hashable tuple.

    Parameters
    ----------
    values : array_like, shape (27,) or a single value
        Values per band [-]; a single one holds for all bands.

    Returns
    -------
    tuple of float, shape (27,)
        The same values [-].

    Raises
    ------
    InvalidInput
        If there are neither 27 values nor one.

    References
    ----------
    .. [1] IEC 61260-1:2014 for the bands.

    Examples
    --------
    >>> len(band_tuple(30.0))
    27
    """
    array = np.asarray(values, dtype=np.float64).ravel()
    if array.size not in (1, N_BANDS):
        raise InvalidInput(f"{array.size} values given; there are {N_BANDS} bands")
    return tuple(float(value) for value in np.broadcast_to(array, (N_BANDS,)))
