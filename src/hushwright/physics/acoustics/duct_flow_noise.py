"""Sound that the air itself makes in ducts, bends, dampers and silencers."""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from hushwright.physics.acoustics.bands import OCTAVE_BANDS, FloatArray
from hushwright.physics.acoustics.duct_bands import DUCT_OCTAVES, DuctPower, power_from_octaves
from hushwright.physics.acoustics.spaces import require_range
from hushwright.physics.air import AIR_20C, Air

_OCTAVES: Final[FloatArray] = np.array(OCTAVE_BANDS)
# Constants of the bend and damper rules printed for feet; 41.3 dB turns 50 lg U + 10 lg S + 10 lg D into metres, and
# their 10 lg(f/63) is kept.
_FROM_FEET: Final = (50.0 + 20.0 + 10.0) * math.log10(1.0 / 0.3048)
_SPREAD: Final = 6.0  # dB: common practice, no source; see docs/methods/duct-sound.md for how rules and sheets differ

# Long 2014; Bies 2017: octave level of a silencer's own noise below its total, 63 Hz to 8 kHz.
_SILENCER_SHAPE: Final = (4.0, 4.0, 6.0, 8.0, 13.0, 18.0, 23.0, 28.0)


def _flow(velocity: float, area: float) -> None:
    require_range("air velocity", velocity, 0.0, 100.0, "m/s")
    require_range("duct area", area, 0.0, 100.0, "m²", open_low=True)


def _power(levels: FloatArray, basis: str, spread: float = _SPREAD, notes: list[str] | None = None) -> DuctPower:
    return power_from_octaves(levels, OCTAVE_BANDS, standard_uncertainty=spread, basis=basis, notes=notes or [])


def silence(basis: str = "no flow") -> DuctPower:
    """No sound at all.

    Parameters
    ----------
    basis : str, optional
        Why there is none [-].

    Returns
    -------
    DuctPower
        −inf [dB] in every band.

    References
    ----------
    .. [1] ISO 80000-8:2020.

    Examples
    --------
    >>> silence().sound_power_level[0]
    -inf
    """
    return DuctPower((-math.inf,) * 27, (0.0,) * 27, basis=basis)


def straight_duct_total(velocity: float, area: float) -> float:
    """Total flow noise of a straight duct.

    Parameters
    ----------
    velocity : float
        Mean air velocity [m/s], > 0.
    area : float
        Clear area [m²].

    Returns
    -------
    float
        Sound power level [dB re 1 pW].

    Raises
    ------
    InvalidInput
        If a value is impossible.

    Notes
    -----
    ``7 + 50 lg U + 10 lg S``.

    References
    ----------
    .. [1] VDI 2081-1:2001 and the worked example of VDI 2081-2:2005.

    Examples
    --------
    >>> round(straight_duct_total(5.83, 0.2))
    38
    """
    _flow(velocity, area)
    if velocity == 0.0:
        return -math.inf
    return 7.0 + 50.0 * math.log10(velocity) + 10.0 * math.log10(area)


def straight_duct_noise(velocity: float, area: float) -> DuctPower:
    """Flow noise of a straight duct per band.

    Parameters
    ----------
    velocity : float
        Mean air velocity [m/s].
    area : float
        Clear area [m²].

    Returns
    -------
    DuctPower
        Sound power levels [dB].

    Raises
    ------
    InvalidInput
        If a value is impossible.

    Notes
    -----
    Octaves: total level ``− 2 − 26 lg(1.14 + 0.02 f/U)``.

    References
    ----------
    .. [1] VDI 2081-1:2001.

    Examples
    --------
    >>> round(straight_duct_noise(10.0, 0.04).octaves[2], 1)
    35.4
    """
    total = straight_duct_total(velocity, area)
    if velocity == 0.0:
        return silence()
    levels = total - 2.0 - 26.0 * np.log10(1.14 + 0.02 * _OCTAVES / velocity)
    return _power(levels, "flow noise of a straight duct (VDI 2081-1)")


def blockage_factor(loss_coefficient: float, *, single_blade: bool = False) -> float:
    """Share of the section that is left free by a damper or by vanes.

    Parameters
    ----------
    loss_coefficient : float
        Total pressure loss over the velocity pressure [-], > 0.
    single_blade : bool, optional
        Whether a damper has one blade [-]; otherwise many, or vanes.

    Returns
    -------
    float
        Free share [-].

    Raises
    ------
    InvalidInput
        If the coefficient is not above 0.

    Notes
    -----
    ``(√C − 1)/(C − 1)``, ½ at C = 1; for one blade and C above 4 ``0.68 C^−0.15 − 0.22`` [1]_ (from memory). One blade
    closed so far that this falls below that of many blades keeps theirs.

    References
    ----------
    .. [1] D. D. Reynolds and J. M. Bledsoe, *Algorithms for HVAC Acoustics*, ASHRAE, 1991.

    Examples
    --------
    >>> round(blockage_factor(1.0), 3), round(blockage_factor(9.0), 3)
    (0.5, 0.25)
    """
    require_range("loss coefficient", loss_coefficient, 0.0, 1e5, "", open_low=True)
    many = 1.0 / (1.0 + math.sqrt(loss_coefficient))  # the same as (√C − 1)/(C − 1), and smooth at 1
    if single_blade and loss_coefficient > 4.0:
        return max(many, 0.68 * math.pow(loss_coefficient, -0.15) - 0.22)
    return many


def damper_noise(
    velocity: float, area: float, height: float, loss_coefficient: float, *, single_blade: bool = False
) -> DuctPower:
    """Noise of a damper in a duct.

    Parameters
    ----------
    velocity : float
        Mean air velocity in the duct [m/s].
    area : float
        Clear area of the duct [m²].
    height : float
        Height of the duct across the damper axis [m].
    loss_coefficient : float
        Total pressure loss over the velocity pressure [-], > 0.
    single_blade : bool, optional
        Whether it has one blade [-].

    Returns
    -------
    DuctPower
        Sound power levels [dB].

    Raises
    ------
    InvalidInput
        If a value is impossible.

    Notes
    -----
    In feet: ``K + 10 lg(f/63) + 50 lg U_c + 10 lg S + 10 lg D`` with U_c the velocity in the free share,
    ``St = f D/U_c``, ``K = −36.3 − 10.7 lg St`` up to St = 25, ``−1.1 − 35.9 lg St`` above [1]_ (from memory, the same
    in a public copy of another guide).

    References
    ----------
    .. [1] D. D. Reynolds and J. M. Bledsoe, *Algorithms for HVAC Acoustics*, ASHRAE, 1991.

    Examples
    --------
    >>> round(damper_noise(3.0, 0.0123, 0.125, 2.0).octaves[2], 1)
    19.0
    """
    _flow(velocity, area)
    require_range("duct height", height, 0.0, 5.0, "m", open_low=True)
    if velocity == 0.0:
        return silence()
    constricted = velocity / blockage_factor(loss_coefficient, single_blade=single_blade)
    strouhal = np.log10(_OCTAVES * height / constricted)
    shape = np.where(strouhal <= math.log10(25.0), -36.3 - 10.7 * strouhal, -1.1 - 35.9 * strouhal)
    return _power(shape + _scale(constricted, area, height), "damper noise (Reynolds and Bledsoe 1991)")


def _scale(velocity: float, area: float, length: float) -> FloatArray:
    """Terms of speed, area, size and frequency that bends and dampers share."""
    size = 50.0 * math.log10(velocity) + 10.0 * math.log10(area * length) + _FROM_FEET
    return np.asarray(10.0 * np.log10(_OCTAVES / 63.0) + size)


def bend_noise(velocity: float, area: float, *, rounding: float = 0.0) -> DuctPower:
    """Noise of a 90° bend without vanes.

    Parameters
    ----------
    velocity : float
        Mean air velocity in the duct [m/s].
    area : float
        Clear area of the duct [m²].
    rounding : float, optional
        Radius of the inner edge over the equivalent diameter [-], ≥ 0; 0 is a sharp bend.

    Returns
    -------
    DuctPower
        Sound power levels [dB].

    Raises
    ------
    InvalidInput
        If a value is impossible.

    Notes
    -----
    In feet: ``K + 10 lg(f/63) + 50 lg U + 10 lg S + 10 lg D``, D the diameter of equal area, ``St = f D/U``,
    ``K = −9.21 − 16.48 lg St − 5.05 lg² St`` [1]_, plus ``(1 − r/0.13)(6.793 − 1.86 lg St)`` for edges rounded with
    less than 0.13 of the diameter, where that is positive (from memory; K the same in a public copy of another guide).
    Below St = 0.5 both keep the value they have there.

    References
    ----------
    .. [1] D. D. Reynolds and J. M. Bledsoe, *Algorithms for HVAC Acoustics*, ASHRAE, 1991.

    Examples
    --------
    >>> round(bend_noise(3.0, 0.0123).octaves[2], 1)
    16.7
    """
    _flow(velocity, area)
    require_range("rounding of the bend", rounding, 0.0, 10.0, "")
    if velocity == 0.0:
        return silence()
    diameter = math.sqrt(4.0 * area / math.pi)
    strouhal = np.log10(np.maximum(0.5, _OCTAVES * diameter / velocity))
    shape = -9.21 - 16.48 * strouhal - 5.05 * strouhal**2
    edge = max(0.0, 1.0 - rounding / 0.13) * np.maximum(0.0, 6.793 - 1.86 * strouhal)
    return _power(shape + edge + _scale(velocity, area, diameter), "bend noise (Reynolds and Bledsoe 1991)")


def vane_spectrum(strouhal_number: float) -> float:
    """Characteristic spectrum of a bend with turning vanes.

    Parameters
    ----------
    strouhal_number : float
        Frequency times duct height over the velocity between the vanes [-], ≥ 1.

    Returns
    -------
    float
        Spectrum term K [dB].

    Raises
    ------
    InvalidInput
        If the number is below 1.

    Notes
    -----
    ``−47.5 − 7.69 (lg St)^2.5``.

    References
    ----------
    .. [1] D. D. Reynolds and J. M. Bledsoe, *Algorithms for HVAC Acoustics*, ASHRAE, 1991.

    Examples
    --------
    >>> round(vane_spectrum(38.4))
    -72
    """
    require_range("Strouhal number", strouhal_number, 1.0, 1e6, "")
    return -47.5 - 7.69 * math.pow(math.log10(strouhal_number), 2.5)


def vaned_bend_noise(
    velocity: float, area: float, height: float, chord: float, vane_count: int, loss_coefficient: float
) -> DuctPower:
    """Noise of a 90° bend with turning vanes.

    Parameters
    ----------
    velocity : float
        Mean air velocity in the duct [m/s].
    area : float
        Clear area of the duct [m²].
    height : float
        Height of the duct along the vanes [m].
    chord : float
        Chord of a vane [m].
    vane_count : int
        Number of vanes [-], ≥ 1.
    loss_coefficient : float
        Total pressure loss over the velocity pressure [-], > 0.

    Returns
    -------
    DuctPower
        Sound power levels [dB].

    Raises
    ------
    InvalidInput
        If a value is impossible.

    Notes
    -----
    In feet: ``K + 10 lg(f/63) + 50 lg U_c + 10 lg S + 10 lg C_D + 10 lg n``; below St = 1 the spectrum term is kept.

    References
    ----------
    .. [1] D. D. Reynolds and J. M. Bledsoe, *Algorithms for HVAC Acoustics*, ASHRAE, 1991.

    Examples
    --------
    >>> round(vaned_bend_noise(3.0, 0.04, 0.2, 0.05, 4, 0.3).octaves[2], 1)
    3.8
    """
    _flow(velocity, area)
    require_range("duct height", height, 0.0, 5.0, "m", open_low=True)
    require_range("chord of a vane", chord, 0.0, 2.0, "m", open_low=True)
    require_range("vane count", vane_count, 1, 1000, "")
    if velocity == 0.0:
        return silence()
    constricted = velocity / blockage_factor(loss_coefficient)
    strouhal = np.maximum(1.0, _OCTAVES * height / constricted)
    shape = np.array([vane_spectrum(float(number)) for number in strouhal]) + 10.0 * math.log10(vane_count)
    return _power(shape + _scale(constricted, area, chord), "bend with vanes (Reynolds and Bledsoe 1991)")


def silencer_noise(velocity: float, passage_count: int, height: float, air: Air = AIR_20C) -> DuctPower:
    """Noise of the air between the baffles of a silencer.

    Parameters
    ----------
    velocity : float
        Air velocity in the passages [m/s].
    passage_count : int
        Passages side by side [-], ≥ 1.
    height : float
        Height of a passage [m].
    air : Air, optional
        Air in the passages [-]; the rule is for 20 °C.

    Returns
    -------
    DuctPower
        Sound power levels [dB].

    Raises
    ------
    InvalidInput
        If a value is impossible.

    Notes
    -----
    Total ``55 lg U + 10 lg n + 10 lg(H/1 mm) − 45`` [1]_ (from memory), octaves below it by 4, 4, 6, 8, 13, 18, 23 and
    28 dB; scaled with the density of the air.

    References
    ----------
    .. [1] A. Fry (ed.), *Noise Control in Building Services*, Pergamon, 1988; as Long 2014 and Bies 2017 (octaves).

    Examples
    --------
    >>> round(silencer_noise(10.0, 1, 0.3).octaves[0], 1)
    30.8
    """
    _flow(velocity, 1.0)
    require_range("passage count", passage_count, 1, 1000, "")
    require_range("height of the passage", height, 0.0, 5.0, "m", open_low=True)
    if velocity == 0.0:
        return silence()
    total = 55.0 * math.log10(velocity) + 10.0 * math.log10(passage_count * 1000.0 * height) - 45.0
    total += 10.0 * math.log10(air.density / AIR_20C.density)
    levels = total - np.array(_SILENCER_SHAPE)
    return power_from_octaves(
        levels, DUCT_OCTAVES, standard_uncertainty=_SPREAD, basis="silencer noise (Fry 1988, octaves of Long 2014)"
    )
