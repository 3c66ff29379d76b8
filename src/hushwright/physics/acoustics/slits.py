"""Sound through slits and holes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES
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


_LARGEST_LOSS = 250.0  # Np along the slit, over 2000 dB


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
    # Beyond this loss nothing measurable passes, and the hyperbolic functions would overflow.
    phase = phase.real + 1j * np.clip(phase.imag, -_LARGEST_LOSS, _LARGEST_LOSS)
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
