"""Slits, holes, joints and the sum of elements that share an opening or a face."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES, N_BANDS
from hushwright.physics.air import AIR_20C, Air

FloatArray = NDArray[np.float64]
ComplexArray = NDArray[np.complex128]
Incident = Literal["diffuse", "normal"]
Position = Literal["middle", "edge"]

_EULER = 0.577215664901533
_WIDEST_VISCOUS = 0.5e-3  # m: at and below it friction on the two faces of the slit rules
_NARROWEST_INVISCID = 1.0e-3  # m: at and above it the loss-free slit is used as published
_PER_BAND = 25  # frequencies per third octave: slit resonances are much narrower than a band


@dataclass(frozen=True, slots=True)
class Slit:
    """A straight gap between two flat faces.

    Parameters
    ----------
    width : float
        Clear width of the gap [m], > 0.
    depth : float
        Way through it [m], > 0.
    position : {"middle", "edge"}, optional
        In the middle of a flat wall or in a corner beside another face [-]. A gap round a door leaf, beside
        its frame, is at an edge.

    Raises
    ------
    InvalidInput
        If a dimension is not above 0 or the slit is wider than 0.1 m.

    References
    ----------
    .. [1] M. C. Gomperts and T. Kihlman, *Acustica* 18 (1967) 144–150.

    Examples
    --------
    >>> Slit(1e-3, 0.04, "edge").width
    0.001
    """

    width: float
    depth: float
    position: Position = "middle"

    def __post_init__(self) -> None:
        if not 0.0 < self.width <= 0.1:
            raise InvalidInput(f"slit width is {self.width} m; slits are above 0 and at most 0.1 m wide")
        if not self.depth > 0.0:
            raise InvalidInput(f"slit depth is {self.depth} m; it must be above 0")


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


def _frequencies(frequency: ArrayLike) -> FloatArray:
    values = np.atleast_1d(np.asarray(frequency, dtype=np.float64))
    if values.size == 0 or not np.all(values > 0.0):
        raise InvalidInput(f"frequencies are {values.tolist()} Hz; each must be above 0")
    return values


def _end_correction(reduced: FloatArray) -> FloatArray:
    """Gomperts' end correction as a share of the width, ``e = (ln(8/K) − γ)/π``."""
    return np.asarray((np.log(8.0 / reduced) - _EULER) / math.pi)


def slit_transmission(
    slit: Slit, frequency: ArrayLike = FREQUENCIES, air: Air = AIR_20C, *, incident: Incident = "diffuse"
) -> FloatArray:
    r"""Transmission factor of a slit, referred to its own open area.

    Parameters
    ----------
    slit : Slit
        Width, depth [m] and position.
    frequency : array_like, shape (n_band,), optional
        Frequency [Hz], > 0.
    air : Air, optional
        Air in the slit; density, speed of sound, viscosity [-].
    incident : {"diffuse", "normal"}, optional
        Sound field on the source side [-].

    Returns
    -------
    ndarray, shape (n_band,)
        Transmission factor [-]; above 1 where the slit gathers sound from beside it.

    Raises
    ------
    InvalidInput
        If a frequency is ≤ 0.

    Notes
    -----
    From 1 mm upwards the loss-free slit [1]_ (as [2]_, eq. 4.99):

    .. math:: \tau = \frac{mK\cos^2 Ke}{2n^2\left(\frac{\sin^2(KX+2Ke)}{\cos^2 Ke}
              +\frac{K^2}{2n^2}\left(1+\cos KX\cos(KX+2Ke)\right)\right)}

    with K = kw, X = d/w, m = 8 (diffuse) or 4 (normal), n = 1 (middle) or ½ (edge). Up to 0.5 mm the same slit as a
    two-port with the density and compressibility of air between two close faces, friction and heat exchange
    included [3]_; both ends keep the radiation load of the loss-free one. Between, the levels are mixed over the
    logarithm of the width, so that nothing jumps. Valid while K < 1 or so.

    References
    ----------
    .. [1] M. C. Gomperts and T. Kihlman, *Acustica* 18 (1967) 144–150.
    .. [2] C. Hopkins, *Sound Insulation*, Butterworth-Heinemann, 2007, section 4.3.10.
    .. [3] J.-F. Allard and N. Atalla, *Propagation of Sound in Porous Media*, 2nd ed., Wiley, 2009, ch. 4 (slits).

    Examples
    --------
    >>> (-10.0 * np.log10(slit_transmission(Slit(2e-3, 0.05), [500.0, 1000.0]))).round(1).tolist()
    [5.3, 7.0]
    """
    values = _frequencies(frequency)
    share = (math.log(slit.width) - math.log(_WIDEST_VISCOUS)) / math.log(_NARROWEST_INVISCID / _WIDEST_VISCOUS)
    if share >= 1.0:
        return _inviscid(slit, values, air, incident)
    if share <= 0.0:
        return _viscous(slit, values, air, incident)
    mixed = share * np.log(_inviscid(slit, values, air, incident)) + (1.0 - share) * np.log(
        _viscous(slit, values, air, incident)
    )
    return np.asarray(np.exp(mixed))


def _inviscid(slit: Slit, frequency: FloatArray, air: Air, incident: Incident) -> FloatArray:
    k_w = 2.0 * math.pi * frequency / air.speed_of_sound * slit.width
    end = k_w * _end_correction(k_w)
    through = k_w * slit.depth / slit.width
    field = 8.0 if incident == "diffuse" else 4.0
    place = 2.0 * (1.0 if slit.position == "middle" else 0.25)
    losses = k_w**2 / place * (1.0 + np.cos(through) * np.cos(through + 2.0 * end))
    resonance = np.sin(through + 2.0 * end) ** 2 / np.cos(end) ** 2
    return np.asarray(field * k_w * np.cos(end) ** 2 / (place * (resonance + losses)))


def slit_fluid(frequency: ArrayLike, width: float, air: Air = AIR_20C) -> tuple[ComplexArray, ComplexArray]:
    r"""Effective density and bulk modulus of air between two close flat faces.

    Parameters
    ----------
    frequency : array_like, shape (n_band,)
        Frequency [Hz], > 0.
    width : float
        Distance of the faces [m], > 0.
    air : Air, optional
        Air between them [-].

    Returns
    -------
    tuple of two ndarrays, shape (n_band,)
        Complex density [kg/m³] and bulk modulus [Pa], for the time factor e^{jωt}.

    Raises
    ------
    InvalidInput
        If a frequency or the width is ≤ 0.

    Notes
    -----
    ``ρ/(1 − tanh(s)/s)`` and ``γp/(1 + (γ−1)·tanh(s√Pr)/(s√Pr))`` with ``s = (w/2)·sqrt(jωρ/μ)``; at low frequency
    jωρ tends to the flow resistance 12 μ/w² of a slit.

    References
    ----------
    .. [1] M. R. Stinson, *J. Acoust. Soc. Am.* 89 (1991) 550–558.
    .. [2] J.-F. Allard and N. Atalla, *Propagation of Sound in Porous Media*, 2nd ed., Wiley, 2009, ch. 4.

    Examples
    --------
    >>> density, modulus = slit_fluid([1.0], 0.1e-3)
    >>> round(float((2j * math.pi * density[0]).real / (12.0 * AIR_20C.viscosity / 1e-8)), 3)
    1.0
    """
    if not width > 0.0:
        raise InvalidInput(f"slit width is {width} m; it must be above 0")
    angular = 2.0 * math.pi * _frequencies(frequency)
    shear = 0.5 * width * np.sqrt(1j * angular * air.density / air.viscosity)
    heat = shear * math.sqrt(air.prandtl_number)
    density = air.density / (1.0 - _tanh_over(shear))
    modulus = air.density * air.speed_of_sound**2 / (1.0 + (air.heat_capacity_ratio - 1.0) * _tanh_over(heat))
    return np.asarray(density, dtype=np.complex128), np.asarray(modulus, dtype=np.complex128)


def _tanh_over(argument: ComplexArray) -> ComplexArray:
    """tanh(s)/s; tanh is 1 to machine accuracy beyond 20, where cosh would overflow later on."""
    bounded = np.where(argument.real > 20.0, 20.0 + 0.0j, argument)
    return np.asarray(np.tanh(bounded) / argument, dtype=np.complex128)


def _viscous(slit: Slit, frequency: FloatArray, air: Air, incident: Incident) -> FloatArray:
    """Two-port of the narrow slit between two radiation loads; loss-free it is Gomperts' slit to second order."""
    angular = 2.0 * math.pi * frequency
    k_w = angular / air.speed_of_sound * slit.width
    place = 1.0 if slit.position == "middle" else 0.5
    resistance = k_w / (2.0 * place)
    load = resistance + 1j * np.tan(k_w * _end_correction(k_w))
    density, modulus = slit_fluid(frequency, slit.width, air)
    impedance = np.sqrt(density * modulus) / air.characteristic_impedance
    phase = angular * np.sqrt(density / modulus) * slit.depth
    blocked = 2.0 * load * np.cos(phase) + 1j * np.sin(phase) * (impedance + load**2 / impedance)
    field = 2.0 if incident == "diffuse" else 1.0
    return np.asarray(field / place * 4.0 * resistance / np.abs(blocked) ** 2)


def circular_hole_transmission(
    radius: float, depth: float, frequency: ArrayLike = FREQUENCIES, air: Air = AIR_20C
) -> FloatArray:
    r"""Transmission factor of a round hole, referred to its own area.

    Parameters
    ----------
    radius : float
        Radius of the hole [m], > 0.
    depth : float
        Way through it [m], ≥ 0.
    frequency : array_like, shape (n_band,), optional
        Frequency [Hz], > 0.
    air : Air, optional
        Air in the hole [-].

    Returns
    -------
    ndarray, shape (n_band,)
        Transmission factor [-].

    Raises
    ------
    InvalidInput
        If the radius, depth or a frequency is out of range.

    Notes
    -----
    A plug of air between two baffled pistons:

    .. math:: \tau = \frac{4R_0}{4R_0^2(\cos kd - X_0\sin kd)^2+((R_0^2-X_0^2+1)\sin kd+2X_0\cos kd)^2}

    ``R₀ = 1 − 2J₁(2ka)/(2ka)``, ``X₀ = 2H₁(2ka)/(2ka)``. Loss-free: below about 1 mm radius friction lets through less.

    References
    ----------
    .. [1] G. P. Wilson and W. W. Soroka, *J. Acoust. Soc. Am.* 37 (1965) 286–297.
    .. [2] C. Hopkins, *Sound Insulation*, Butterworth-Heinemann, 2007, eq. 4.102.

    Examples
    --------
    >>> round(-10.0 * math.log10(circular_hole_transmission(5e-3, 0.05, 1000.0)[0]), 1)
    16.7
    """
    from scipy.special import j1, struve

    if not radius > 0.0 or depth < 0.0:
        raise InvalidInput(f"hole of radius {radius} m and depth {depth} m: radius above 0, depth at least 0")
    k = 2.0 * math.pi * _frequencies(frequency) / air.speed_of_sound
    argument = 2.0 * k * radius
    resistance = 1.0 - 2.0 * j1(argument) / argument
    reactance = 2.0 * struve(1, argument) / argument
    cosine, sine = np.cos(k * depth), np.sin(k * depth)
    in_phase = 4.0 * resistance**2 * (cosine - reactance * sine) ** 2
    quadrature = ((resistance**2 - reactance**2 + 1.0) * sine + 2.0 * reactance * cosine) ** 2
    return np.asarray(4.0 * resistance / (in_phase + quadrature))


def slit_resonance(slit: Slit, order: int = 1, air: Air = AIR_20C) -> float:
    """Frequency at which a slit lets most through.

    Parameters
    ----------
    slit : Slit
        Width and depth [m].
    order : int, optional
        Number of half waves in the slit [-], ≥ 1.
    air : Air, optional
        Air in the slit [-].

    Returns
    -------
    float
        Frequency [Hz] where depth + 2·e·width is that number of half waves.

    Raises
    ------
    InvalidInput
        If ``order`` < 1.

    References
    ----------
    .. [1] C. Hopkins, *Sound Insulation*, Butterworth-Heinemann, 2007, eq. 4.101.

    Examples
    --------
    >>> round(slit_resonance(Slit(5e-3, 0.1)))
    1546
    """
    if order < 1:
        raise InvalidInput(f"order of the slit resonance is {order}; it counts from 1")
    frequency = order * air.speed_of_sound / (2.0 * slit.depth)
    for _ in range(60):
        reduced = np.array([2.0 * math.pi * frequency / air.speed_of_sound * slit.width])
        length = slit.depth + 2.0 * slit.width * float(_end_correction(reduced)[0])
        frequency = order * air.speed_of_sound / (2.0 * length)
    return frequency


def joint_reduction(
    slit: Slit, frequency: ArrayLike = FREQUENCIES, air: Air = AIR_20C, *, incident: Incident = "diffuse"
) -> FloatArray:
    """Joint sound reduction index R_s of an open slit, per metre of its length.

    Parameters
    ----------
    slit : Slit
        Width, depth [m] and position.
    frequency : array_like, shape (n_band,), optional
        Middle of each third octave [Hz], > 0.
    air : Air, optional
        Air in the slit [-].
    incident : {"diffuse", "normal"}, optional
        Sound field on the source side [-].

    Returns
    -------
    ndarray, shape (n_band,)
        R_s [dB] of the third octave, reference length 1 m and area 1 m².

    Notes
    -----
    Energy mean of :func:`slit_transmission` over the third octave.

    References
    ----------
    .. [1] ISO 10140-1:2021, annex on joints and seals.

    Examples
    --------
    >>> round(float(joint_reduction(Slit(1e-3, 0.04, "edge"), 500.0)[0]))
    30
    """
    middle = _frequencies(frequency)
    steps = 10.0 ** (0.1 * ((np.arange(_PER_BAND) + 0.5) / _PER_BAND - 0.5))
    fine = slit_transmission(slit, np.outer(middle, steps).ravel(), air, incident=incident)
    mean = fine.reshape(middle.size, _PER_BAND).mean(axis=1)
    return np.asarray(-10.0 * np.log10(mean * slit.width))


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
