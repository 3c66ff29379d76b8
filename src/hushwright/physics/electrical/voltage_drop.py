"""Voltage lost along a cable, and the thinnest conductor that keeps it small."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.errors import InvalidInput
from hushwright.physics._guard import not_negative, positive
from hushwright.physics.electrical.conductors import (
    CIRCULAR_MIL,
    RULE_SETS,
    Conductor,
    Gauge,
    RuleSet,
    conductors,
    resistance_at,
)

_FOOT = 0.3048
_CONSTANT = {"ABYC E-11": 10.75, "NEC 551": 12.9}
_TEMPERATURE = {"ABYC E-11": 29.0, "NEC 551": 82.0}  # °C of copper at which these constants hold
_METRIC_TEMPERATURE = 40.0  # °C of a conductor that carries what it should; common practice, no source


@dataclass(frozen=True, slots=True)
class CountedResistance:
    """Resistance of a conductor as the rules count a drop, one way.

    Parameters
    ----------
    per_length : float
        Resistance [Ω/m].
    temperature : float
        Of the copper [°C].
    basis : str
        Table or constant, and the area taken.

    Examples
    --------
    >>> CountedResistance(0.0086, 40.0, "IEC 60228").temperature
    40.0
    """

    per_length: float
    temperature: float
    basis: str


def counted_resistance(conductor: Conductor, rules: RuleSet) -> CountedResistance:
    """Resistance of a metre of conductor as the rules count the drop, and where it is from.

    Parameters
    ----------
    conductor : Conductor
        Its size.
    rules : str
        ``ABYC E-11``, ``ISO 13297`` or ``NEC 551``.

    Returns
    -------
    CountedResistance
        Resistance, temperature and source.

    Raises
    ------
    InvalidInput
        If the rules are unknown.

    Notes
    -----
    See `loop_resistance`.

    References
    ----------
    .. [1] ABYC E-11, NFPA 70 chapter 9, IEC 60228.

    Examples
    --------
    >>> round(1000 * counted_resistance(conductors("mm2")[4], "ISO 13297").per_length, 3)
    8.607
    """
    if rules not in RULE_SETS:
        raise InvalidInput(f"rules are {rules!r}; there are {', '.join(RULE_SETS)}")
    constant = _CONSTANT.get(rules)
    if constant is None or conductor.name.endswith("mm²"):
        metric = conductor.name.endswith("mm²")
        basis = "greatest resistance of IEC 60228, class 5" if metric else "copper of IEC 60028 over the nominal area"
        return CountedResistance(resistance_at(conductor.resistance_per_length, _METRIC_TEMPERATURE),
                                 _METRIC_TEMPERATURE, f"{basis}, from 20 °C to 40 °C")  # fmt: skip
    least = rules == "ABYC E-11"
    area = conductor.least_area if least else conductor.conductor_area
    over = "least area of SAE J1127" if least else "nominal area"
    return CountedResistance(constant * CIRCULAR_MIL / _FOOT / area, _TEMPERATURE[rules],
                             f"{constant:g} Ω·CM/ft of {rules} over the {over}")  # fmt: skip


def loop_resistance(conductor: Conductor, length: float, rules: RuleSet) -> float:
    """Resistance out and back, as the rules count the drop.

    Parameters
    ----------
    conductor : Conductor
        Its size.
    length : float
        One way [m].
    rules : str
        ``ABYC E-11``, ``ISO 13297`` or ``NEC 551``.

    Returns
    -------
    float
        Resistance [Ω].

    Raises
    ------
    InvalidInput
        If the rules are unknown or a number is impossible.

    Notes
    -----
    ABYC E-11 and NEC divide a constant by the area in circular mils: 10.75 Ω·CM/ft with the least area of SAE J1127,
    which is copper at 29 °C, and 12.9 Ω·CM/ft with the nominal area, which is copper at 82 °C. Metric sizes take the
    greatest resistance of IEC 60228 at 40 °C; the constant of ISO 10133, 0.0164 Ω·mm²/m, is a fifth below that
    and is not used.

    References
    ----------
    .. [1] ABYC E-11, NFPA 70 chapter 9, IEC 60228.

    Examples
    --------
    >>> round(1000 * loop_resistance(conductors("AWG")[4], 3.2, "ABYC E-11"), 1)
    24.2
    """
    not_negative("length", length, "m")
    return counted_resistance(conductor, rules).per_length * 2.0 * length


def voltage_drop(current: float, conductor: Conductor, length: float, rules: RuleSet) -> float:
    """Voltage lost out and back.

    Parameters
    ----------
    current : float
        Current [A].
    conductor : Conductor
        Its size.
    length : float
        One way [m].
    rules : str
        ``ABYC E-11``, ``ISO 13297`` or ``NEC 551``.

    Returns
    -------
    float
        Voltage [V].

    Raises
    ------
    InvalidInput
        If the rules are unknown or a number is impossible.

    Notes
    -----
    Resistance alone: up to 35 mm² the reactance at 60 Hz is below a tenth of it.

    References
    ----------
    .. [1] ABYC E-11, NFPA 70 chapter 9, IEC 60228.

    Examples
    --------
    >>> round(voltage_drop(10.0, conductors("AWG")[4], 3.2, "ABYC E-11"), 3)
    0.242
    """
    return not_negative("current", current, "A") * loop_resistance(conductor, length, rules)


def needed_area(current: float, loop_length: float, voltage_drop: float, constant: float = 10.75) -> float:
    """Area that keeps the drop, by the constant for circular mils.

    Parameters
    ----------
    current : float
        Current [A].
    loop_length : float
        Out and back [m].
    voltage_drop : float
        Allowed drop [V].
    constant : float
        Ohms of one circular mil a foot long [Ω·CM/ft].

    Returns
    -------
    float
        Area [m²].

    Raises
    ------
    InvalidInput
        If a number is impossible.

    References
    ----------
    .. [1] ABYC E-11: CM = K · I · L / E.

    Examples
    --------
    >>> round(needed_area(10.0, 21 * 0.3048, 0.36) / CIRCULAR_MIL, 1)
    6270.8
    """
    drop = positive("voltage drop", voltage_drop, "V")
    return constant * CIRCULAR_MIL / _FOOT * not_negative("current", current, "A") * loop_length / drop


def thinnest_for_drop(
    current: float, length: float, voltage_drop: float, rules: RuleSet, gauge: Gauge
) -> Conductor | None:
    """Thinnest conductor that keeps the drop.

    Parameters
    ----------
    current : float
        Current [A].
    length : float
        One way [m].
    voltage_drop : float
        Allowed drop [V].
    rules : str
        ``ABYC E-11``, ``ISO 13297`` or ``NEC 551``.
    gauge : str
        ``AWG`` or ``mm2``.

    Returns
    -------
    Conductor or None
        `None` where the thickest does not.

    Raises
    ------
    InvalidInput
        If the rules are unknown or a number is impossible.

    References
    ----------
    .. [1] ABYC E-11, NFPA 70 chapter 9, IEC 60228.

    Examples
    --------
    >>> thinnest_for_drop(10.0, 10.5 * 0.3048, 0.36, "ABYC E-11", "AWG").name
    '10 AWG'
    """
    positive("voltage drop", voltage_drop, "V")
    not_negative("current", current, "A")
    return next(
        (each for each in conductors(gauge) if current * loop_resistance(each, length, rules) <= voltage_drop), None
    )
