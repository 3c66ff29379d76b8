"""Sound power of fans: from figures of their data sheet, or estimated from volume flow and pressure."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import exact_midband
from hushwright.physics.acoustics.duct_bands import DUCT_OCTAVES, DuctPower, power_from_octaves
from hushwright.physics.acoustics.spaces import require_range

FanKind = Literal[
    "forward curved", "airfoil large", "airfoil small", "radial low pressure", "radial medium pressure",
    "radial high pressure", "vaneaxial low hub", "vaneaxial medium hub", "vaneaxial high hub", "tubeaxial large",
    "tubeaxial small", "propeller",
]  # fmt: skip
WheelKind = Literal["backward curved", "forward curved", "axial"]

_CUBIC_FOOT_PER_MINUTE: Final = 0.3048**3 / 60.0  # m³/s
_INCH_OF_WATER: Final = 249.0889  # Pa, conventional
_SMALL_FLOW: Final = 0.3  # m³/s: below it fan laws drawn from building fans are outside their experience
_LAW_UNCERTAINTY: Final = 4.0  # dB, VDI 2081-1 (memory): scatter of the fan law
_SCATTER: Final = 13.0 / 1.645  # dB: one handbook's own sheet and its own law differ by up to 13 dB
_SMALL_FAN_UNCERTAINTY: Final = 8.0  # dB, common practice, no source

# Long, Architectural Acoustics, 2nd ed., table 13.5: octaves 63 Hz to 8 kHz, octave of the blades and its increment.
_SPECIFIC: Final[dict[str, tuple[tuple[float, ...], float, float]]] = {
    "forward curved": ((53, 53, 43, 36, 36, 31, 26, 21), 500, 2),
    "airfoil large": ((40, 40, 39, 34, 30, 23, 19, 17), 250, 3),
    "airfoil small": ((45, 45, 43, 39, 34, 28, 24, 19), 250, 3),
    "radial low pressure": ((56, 47, 43, 39, 37, 32, 29, 26), 125, 8),
    "radial medium pressure": ((58, 54, 45, 42, 38, 33, 29, 26), 125, 8),
    "radial high pressure": ((61, 58, 53, 48, 46, 44, 41, 38), 125, 8),
    "vaneaxial low hub": ((49, 43, 43, 48, 47, 45, 38, 34), 125, 6),
    "vaneaxial medium hub": ((49, 43, 46, 43, 41, 36, 30, 28), 125, 6),
    "vaneaxial high hub": ((53, 52, 51, 51, 49, 47, 43, 40), 125, 6),
    "tubeaxial large": ((51, 46, 47, 49, 47, 46, 39, 37), 63, 7),
    "tubeaxial small": ((48, 47, 49, 53, 52, 51, 43, 40), 63, 7),
    "propeller": ((48, 51, 58, 56, 55, 52, 46, 42), 63, 5),
}
# Long, table 13.6: lower edge of the class of static efficiency relative to its peak, and the correction [dB].
_EFFICIENCY: Final = ((0.90, 0.0), (0.85, 3.0), (0.75, 6.0), (0.65, 9.0), (0.55, 12.0), (0.50, 15.0), (0.0, 16.0))
_CASING: Final = (0.0, 0.0, 5.0, 10.0, 15.0, 20.0, 22.0, 25.0)  # Long, table 13.8
# VDI 2081-1: constant of the law; 34 is that of its worked example, the other two are from memory.
_WHEEL: Final[dict[str, float]] = {"backward curved": 34.0, "forward curved": 36.0, "axial": 42.0}


@dataclass(frozen=True, slots=True)
class FanDuty:
    """What a fan does at its operating point.

    Parameters
    ----------
    volume_flow_rate : float
        Air it delivers [m³/s].
    total_pressure : float
        Total pressure rise [Pa].
    rotational_speed : float or None, optional
        Speed of the wheel [1/s]; None where it is not known.
    blade_count : int or None, optional
        Blades of the wheel [-]; None where it is not known.
    relative_efficiency : float, optional
        Static efficiency over its peak value [-], 0 to 1; 1 is the best point of the fan.

    Raises
    ------
    InvalidInput
        If a value is impossible.

    References
    ----------
    .. [1] ISO 5801:2017 for flow and pressure.

    Examples
    --------
    >>> FanDuty(0.033, 120.0).relative_efficiency
    1.0
    """

    volume_flow_rate: float
    total_pressure: float
    rotational_speed: float | None = None
    blade_count: int | None = None
    relative_efficiency: float = 1.0

    def __post_init__(self) -> None:
        require_range("volume flow of the fan", self.volume_flow_rate, 0.0, 100.0, "m³/s", open_low=True)
        require_range("total pressure of the fan", self.total_pressure, 0.0, 20_000.0, "Pa", open_low=True)
        require_range("relative efficiency", self.relative_efficiency, 0.0, 1.0, "")
        if self.rotational_speed is not None:
            require_range("rotational speed", self.rotational_speed, 0.0, 1000.0, "1/s", open_low=True)
        if self.blade_count is not None:
            require_range("blade count", self.blade_count, 1, 200, "")


def blade_passing_frequency(rotational_speed: float, blade_count: int) -> float:
    """Tone of the blades.

    Parameters
    ----------
    rotational_speed : float
        Speed of the wheel [1/s].
    blade_count : int
        Blades of the wheel [-].

    Returns
    -------
    float
        Frequency [Hz] at which blades pass a fixed point.

    Raises
    ------
    InvalidInput
        If the speed is not above 0 or there is no blade.

    References
    ----------
    .. [1] M. Long, *Architectural Acoustics*, 2nd ed., Academic Press, 2014, eq. 13.4.

    Examples
    --------
    >>> round(blade_passing_frequency(1200.0 / 60.0, 12), 6)
    240.0
    """
    if not rotational_speed > 0.0 or blade_count < 1:
        raise InvalidInput(f"{blade_count} blades at {rotational_speed} 1/s: one blade or more, speed above 0")
    return rotational_speed * blade_count


def efficiency_correction(relative_efficiency: float) -> float:
    """What a fan is louder by away from its best point.

    Parameters
    ----------
    relative_efficiency : float
        Static efficiency over its peak value [-], 0 to 1.

    Returns
    -------
    float
        Correction of the estimated sound power level [dB].

    Raises
    ------
    InvalidInput
        If it is outside 0 to 1.

    References
    ----------
    .. [1] M. Long, *Architectural Acoustics*, 2nd ed., Academic Press, 2014, table 13.6.

    Examples
    --------
    >>> efficiency_correction(0.8)
    6.0
    """
    require_range("relative efficiency", relative_efficiency, 0.0, 1.0, "")
    return next(correction for edge, correction in _EFFICIENCY if relative_efficiency >= edge)


def casing_attenuation() -> tuple[float, ...]:
    """What the casing of a fan keeps from the room it stands in.

    Returns
    -------
    tuple of float
        Attenuation [dB] of the octaves 63 Hz to 8 kHz.

    References
    ----------
    .. [1] M. Long, *Architectural Acoustics*, 2nd ed., Academic Press, 2014, table 13.8.

    Examples
    --------
    >>> casing_attenuation()[2]
    5.0
    """
    return _CASING


def specific_sound_power(kind: FanKind) -> tuple[float, ...]:
    """Specific sound power of a kind of fan, without the increment of its blades.

    Parameters
    ----------
    kind : str
        Build of the fan [-].

    Returns
    -------
    tuple of float
        Level [dB] of the octaves 63 Hz to 8 kHz at 1 ft³/min and 1 in of water.

    Raises
    ------
    InvalidInput
        If the kind is not in the table.

    References
    ----------
    .. [1] M. Long, *Architectural Acoustics*, 2nd ed., Academic Press, 2014, table 13.5.

    Examples
    --------
    >>> specific_sound_power("propeller")[2]
    58
    """
    if kind not in _SPECIFIC:
        raise InvalidInput(f"{kind!r} is no kind of fan; known are {', '.join(_SPECIFIC)}")
    return _SPECIFIC[kind][0]


def _blade_octave(duty: FanDuty, otherwise: float) -> float:
    """Nominal octave of the blade tone."""
    if duty.rotational_speed is None or duty.blade_count is None:
        return otherwise
    tone = blade_passing_frequency(duty.rotational_speed, duty.blade_count)
    distance = np.abs(np.log2(exact_midband(np.array(DUCT_OCTAVES)) / tone))
    return DUCT_OCTAVES[int(np.argmin(distance))]


def _small(duty: FanDuty, spread: float) -> tuple[float, list[str]]:
    """Standard uncertainty and note of a fan below the experience of the laws."""
    if duty.volume_flow_rate >= _SMALL_FLOW:
        return spread, []
    note = f"fan of {duty.volume_flow_rate:.3g} m³/s: the law is drawn from larger fans, uncertainty widened"
    return math.hypot(spread, _SMALL_FAN_UNCERTAINTY), [note]


def estimated_fan_power(duty: FanDuty, kind: FanKind = "forward curved") -> DuctPower:
    """Sound power a fan sends into its duct, from its specific sound power.

    Parameters
    ----------
    duty : FanDuty
        Operating point (flow [m³/s], pressure [Pa]).
    kind : str, optional
        Build of the fan [-].

    Returns
    -------
    DuctPower
        Levels [dB] into the inlet or the outlet duct, with the scatter of the method.

    Raises
    ------
    InvalidInput
        If the kind is not in the table.

    Notes
    -----
    ``L_W = K_F + 10 lg(Q/1 ft³/min) + 10 lg(p/1 in of water) + C_eff + blade increment`` in the octave of the blades
    [1]_. Older books have 20 lg p. The worked sheet of the same book starts from levels 1 to 13 dB lower for the same
    duty: taken here as the half-width of a 90 % interval (u = 7.9 dB). Below 0.3 m³/s another 8 dB is added in squares
    (common practice, no source).

    References
    ----------
    .. [1] M. Long, *Architectural Acoustics*, 2nd ed., Academic Press, 2014, eq. 13.1, tables 13.5 and 13.6.

    Examples
    --------
    >>> duty = FanDuty(2.36, 498.0, relative_efficiency=0.8)
    >>> [round(level) for level in estimated_fan_power(duty, "forward curved").octaves]
    [99, 99, 89, 84, 82, 77, 72, 67]
    """
    specific = specific_sound_power(kind)
    _, octave, increment = _SPECIFIC[kind]
    size = 10.0 * math.log10(duty.volume_flow_rate / _CUBIC_FOOT_PER_MINUTE)
    size += 10.0 * math.log10(duty.total_pressure / _INCH_OF_WATER) + efficiency_correction(duty.relative_efficiency)
    levels = np.array(specific) + size
    levels[DUCT_OCTAVES.index(_blade_octave(duty, octave))] += increment
    spread, notes = _small(duty, _SCATTER)
    basis = f"specific sound power of a fan, {kind} (Long 2014, table 13.5)"
    return power_from_octaves(levels, standard_uncertainty=spread, basis=basis, notes=notes)


def fan_law_level(duty: FanDuty, wheel: WheelKind = "backward curved") -> float:
    """Total sound power level of a fan after its flow and pressure.

    Parameters
    ----------
    duty : FanDuty
        Operating point (flow [m³/s], pressure [Pa]).
    wheel : {"backward curved", "forward curved", "axial"}, optional
        Kind of wheel [-].

    Returns
    -------
    float
        Total sound power level in the duct [dB re 1 pW].

    Raises
    ------
    InvalidInput
        If the wheel is none of them.

    Notes
    -----
    ``L_W = K + 10 lg(V/1 m³/s) + 20 lg(Δp/1 Pa)`` [1]_, K = 34 dB for a backward curved radial wheel; 36 dB for a
    forward curved and 42 dB for an axial wheel are from memory. Good for ±4 dB.

    References
    ----------
    .. [1] VDI 2081-1:2001 and the worked example of VDI 2081-2:2005.

    Examples
    --------
    >>> round(fan_law_level(FanDuty(16_000 / 3600, 600.0)), 1)
    96.0
    """
    if wheel not in _WHEEL:
        raise InvalidInput(f"{wheel!r} is no wheel of the fan law; known are {', '.join(_WHEEL)}")
    return (
        _WHEEL[wheel]
        + 10.0 * math.log10(duty.volume_flow_rate)
        + 20.0 * math.log10(duty.total_pressure)
        + efficiency_correction(duty.relative_efficiency)
    )


def fan_law_power(duty: FanDuty, wheel: WheelKind = "backward curved") -> DuctPower:
    """Sound power of a fan per band from the fan law and the relative spectrum.

    Parameters
    ----------
    duty : FanDuty
        Operating point (flow [m³/s], pressure [Pa], speed [1/s]).
    wheel : {"backward curved", "forward curved", "axial"}, optional
        Kind of wheel [-].

    Returns
    -------
    DuctPower
        Levels [dB] and their standard uncertainty.

    Raises
    ------
    InvalidInput
        If the speed of the wheel is not given or the wheel is unknown.

    Notes
    -----
    Octave level less total level: ``−5 − 5 (lg St + 0.4)²`` with ``St = f/(π n)`` [1]_, which is that of a backward
    curved wheel; for other wheels it is a stand-in and says so.

    References
    ----------
    .. [1] VDI 2081-1:2001 and the worked example of VDI 2081-2:2005.

    Examples
    --------
    >>> duty = FanDuty(16_000 / 3600, 600.0, rotational_speed=1250.0 / 60.0)
    >>> [round(level) for level in fan_law_power(duty).octaves[:3]]
    [90, 89, 86]
    """
    if duty.rotational_speed is None:
        raise InvalidInput(f"rotational speed is {duty.rotational_speed}; the spectrum of the fan law needs it")
    strouhal = np.array(DUCT_OCTAVES) / (math.pi * duty.rotational_speed)
    levels = fan_law_level(duty, wheel) - 5.0 - 5.0 * (np.log10(strouhal) + 0.4) ** 2
    spread, notes = _small(duty, math.hypot(_LAW_UNCERTAINTY, 3.0))  # 3 dB for the shape, common practice, no source
    if wheel != "backward curved":
        notes.append(f"{wheel} wheel: constant from memory, spectrum that of a backward curved wheel")
        spread = math.hypot(spread, 3.0)
    return power_from_octaves(levels, standard_uncertainty=spread, basis="fan law of VDI 2081-1", notes=notes)
