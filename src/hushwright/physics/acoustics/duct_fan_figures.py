"""Sound power of fans from the figures of their data sheets, and at another speed."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES, THIRD_OCTAVE_BANDS
from hushwright.physics.acoustics.duct_bands import DUCT_OCTAVES, DuctPower, power_from_octaves
from hushwright.physics.acoustics.duct_fan import FanKind, specific_sound_power
from hushwright.physics.acoustics.spaces import require_range
from hushwright.physics.acoustics.weighting import a_weighted_level


def measured_fan_power(
    levels: ArrayLike,
    bands: Sequence[float] = DUCT_OCTAVES,
    *,
    standard_uncertainty: float = 2.0,
    basis: str = "data sheet of the fan",
) -> DuctPower:
    """Sound power of a fan from octave levels of its data sheet.

    Parameters
    ----------
    levels : array_like, shape (n_octave,)
        Sound power levels in the duct [dB re 1 pW].
    bands : sequence of float, length n_octave, optional
        Nominal octaves [Hz].
    standard_uncertainty : float, optional
        Standard uncertainty of the figures [dB]; 2 dB is common practice, no source.
    basis : str, optional
        Source of the figures [-].

    Returns
    -------
    DuctPower
        Levels [dB] of 27 bands, those outside the octaves assumed.

    Raises
    ------
    InvalidInput
        If the octaves are no unbroken run.

    References
    ----------
    .. [1] ISO 5136:2003, *Determination of sound power radiated into a duct by fans*.

    Examples
    --------
    >>> measured_fan_power([62, 60, 57, 55, 52, 47, 41, 33]).octaves[0]
    62.0
    """
    return power_from_octaves(levels, bands, standard_uncertainty=standard_uncertainty, basis=basis)


def fan_power_from_level_a(
    sound_power_level: float, kind: FanKind = "forward curved", *, standard_uncertainty: float = 3.0
) -> DuctPower:
    """Sound power per band where a data sheet only gives one A-weighted figure.

    Parameters
    ----------
    sound_power_level : float
        A-weighted sound power level [dB].
    kind : str, optional
        Build of the fan, for the shape of its spectrum [-].
    standard_uncertainty : float, optional
        Standard uncertainty of the figure [dB].

    Returns
    -------
    DuctPower
        Levels [dB] whose A-weighted sum is the figure.

    Raises
    ------
    InvalidInput
        If the kind is not in the table or the level is no number.

    Notes
    -----
    The shape is that of the specific sound power of the kind; since one figure says nothing of the bass, 5 dB is added
    in squares to the uncertainty of each band (common practice, no source).

    References
    ----------
    .. [1] M. Long, *Architectural Acoustics*, 2nd ed., Academic Press, 2014, table 13.5; IEC 61672-1:2013.

    Examples
    --------
    >>> round(a_weighted_level(fan_power_from_level_a(48.0).sound_power_level), 1)
    48.0
    """
    require_range("A-weighted sound power level", sound_power_level, -20.0, 150.0, "dB")
    shape = power_from_octaves(specific_sound_power(kind))
    present = a_weighted_level(shape.sound_power_level)
    levels = np.array(shape.octaves) + sound_power_level - present
    note = f"only {sound_power_level:g} dB(A) is known: spectrum assumed to be that of a fan, {kind}"
    power = power_from_octaves(levels, standard_uncertainty=math.hypot(standard_uncertainty, 5.0), notes=[note])
    return replace(power, assumed=THIRD_OCTAVE_BANDS, basis="A-weighted figure and shape of Long 2014, table 13.5")


def power_from_pressure(sound_pressure_level: float, distance: float, directivity_factor: float = 1.0) -> float:
    """Sound power level from the sound pressure level a data sheet quotes at a distance.

    Parameters
    ----------
    sound_pressure_level : float
        Level at that distance in a free field [dB re 20 µPa], per band or A-weighted.
    distance : float
        Distance from the source [m], > 0.
    directivity_factor : float, optional
        1 free to all sides, 2 on a floor [-].

    Returns
    -------
    float
        Sound power level [dB re 1 pW].

    Raises
    ------
    InvalidInput
        If the distance or the factor is not above 0.

    References
    ----------
    .. [1] ISO 3744:2010.

    Examples
    --------
    >>> round(power_from_pressure(30.0, 3.0), 1)
    50.5
    """
    require_range("distance", distance, 0.0, 1000.0, "m", open_low=True)
    require_range("directivity factor", directivity_factor, 0.0, 100.0, "", open_low=True)
    return sound_pressure_level + 10.0 * math.log10(4.0 * math.pi * distance**2 / directivity_factor)


def power_at_speed(power: DuctPower, speed_ratio: float) -> DuctPower:
    """Sound power of the same fan on the same duct at another speed.

    Parameters
    ----------
    power : DuctPower
        Sound power at the speed that is known (levels [dB]).
    speed_ratio : float
        New speed over known speed [-], 0.1 to 2.

    Returns
    -------
    DuctPower
        Levels [dB] at the new speed.

    Raises
    ------
    InvalidInput
        If the ratio is out of range.

    Notes
    -----
    ``50 lg(n/n₀)``: flow goes with n, pressure with n², so 10 lg V + 20 lg Δp goes with 50 lg n [1]_. The spectrum
    keeps its place; below half the known speed the uncertainty grows by 2 dB (common practice, no source).

    References
    ----------
    .. [1] VDI 2081-1:2001, fan law.

    Examples
    --------
    >>> round(power_at_speed(measured_fan_power([60.0] * 8), 0.5).octaves[0], 1)
    44.9
    """
    require_range("speed ratio", speed_ratio, 0.1, 2.0, "")
    levels = power.array() + 50.0 * math.log10(speed_ratio)
    wider = 0.0 if speed_ratio >= 0.5 else 2.0
    spread = tuple(math.hypot(each, wider) for each in power.standard_uncertainty)
    return replace(power, sound_power_level=tuple(levels.tolist()), standard_uncertainty=spread)


def tone_band(frequency: float) -> float:
    """Third octave in which a tone falls.

    Parameters
    ----------
    frequency : float
        Frequency of the tone [Hz], 22.4 to 11 220.

    Returns
    -------
    float
        Nominal third octave [Hz].

    Raises
    ------
    InvalidInput
        If it lies outside the 27 bands.

    References
    ----------
    .. [1] IEC 61260-1:2014, clause 5.

    Examples
    --------
    >>> tone_band(240.0)
    250
    """
    number = round(10.0 * math.log10(frequency / FREQUENCIES[0])) if frequency > 0.0 else -1
    if not 0 <= number < len(THIRD_OCTAVE_BANDS):
        raise InvalidInput(f"tone of {frequency} Hz lies outside the bands 25 Hz to 10 kHz")
    return THIRD_OCTAVE_BANDS[number]
