"""Signal lines: where their treble ends, what the field of other cables and a second earth add, how a hole fills."""

from __future__ import annotations

import math

from hushwright.errors import InvalidInput
from hushwright.physics._guard import not_negative, positive

_VACUUM_PERMEABILITY = 4e-7 * math.pi
"""H/m, magnetic constant."""

_FILL = {1: 0.53, 2: 0.31}
_FILL_OF_MORE = 0.40


def roll_off_frequency(source_impedance: float, capacitance: float) -> float:
    r"""Frequency at which a line has lost 3 dB to its own capacitance.

    Parameters
    ----------
    source_impedance : float
        Of what drives the line, conductors included [Ω].
    capacitance : float
        Of the whole cable [F].

    Returns
    -------
    float
        Frequency [Hz]; infinite without capacitance.

    Raises
    ------
    InvalidInput
        If the impedance is not above zero or the capacitance negative.

    Notes
    -----
    .. math:: f = \frac{1}{2\pi R C}

    The receiving impedance lies in parallel to the source and moves the frequency up; left out it errs on the dull
    side. Sources with a coil ring besides and are not described by one resistance.

    References
    ----------
    .. [1] First-order low-pass.

    Examples
    --------
    >>> round(roll_off_frequency(10_000.0, 600e-12))
    26526
    """
    positive("source impedance", source_impedance, "Ω")
    if not_negative("capacitance", capacitance, "F") == 0.0:
        return math.inf
    return 1.0 / (2.0 * math.pi * source_impedance * capacitance)


def mutual_inductance(length: float, distance: float, spacing: float, own_spacing: float) -> float:
    r"""Mutual inductance of two parallel pairs of conductors in one plane.

    Parameters
    ----------
    length : float
        How far they run beside each other [m].
    distance : float
        Between the middles of the pairs [m].
    spacing : float
        Between the two conductors of the disturbing pair [m].
    own_spacing : float
        Between the two conductors of the disturbed pair [m].

    Returns
    -------
    float
        Mutual inductance [H].

    Raises
    ------
    InvalidInput
        If a length is negative, a spacing not above zero, or the pairs overlap.

    Notes
    -----
    .. math:: M = \frac{\mu_0 l}{2\pi} \ln\frac{d^2 - \left(\frac{s - w}{2}\right)^2}
                                             {d^2 - \left(\frac{s + w}{2}\right)^2}

    from the fields of four long straight conductors; far away it falls with the square of the distance. Pairs one
    over the other or turned by a right angle couple less: one plane is the worst case. Twisting is not counted.

    References
    ----------
    .. [1] H. W. Ott, *Electromagnetic Compatibility Engineering*, Wiley, 2009, ch. 2 (field of a long straight
       conductor, B = μ0 I/(2π r)).

    Examples
    --------
    >>> round(1e9 * mutual_inductance(1.0, 0.1, 0.01, 0.002), 3)
    0.401
    """
    not_negative("length side by side", length, "m")
    positive("distance of the cables", distance, "m")
    positive("spacing of the conductors", spacing, "m")
    positive("spacing of the conductors", own_spacing, "m")
    inner, outer = abs(spacing - own_spacing) / 2.0, (spacing + own_spacing) / 2.0
    if distance <= outer:
        raise InvalidInput(f"distance of the cables is {distance} m; with spacings of {spacing} and {own_spacing} m"
                           " they lie on each other")  # fmt: skip
    ratio = (distance**2 - inner**2) / (distance**2 - outer**2)
    return _VACUUM_PERMEABILITY * length / (2.0 * math.pi) * math.log(ratio)


def coupled_voltage(current: float, frequency: float, inductance: float) -> float:
    r"""Voltage that an alternating current induces in a neighbouring line.

    Parameters
    ----------
    current : float
        Effective alternating current in the neighbour [A].
    frequency : float
        Its frequency [Hz].
    inductance : float
        Mutual inductance of the two [H].

    Returns
    -------
    float
        Effective voltage in the line [V].

    Raises
    ------
    InvalidInput
        If one of them is negative.

    Notes
    -----
    .. math:: U = 2\pi f M I

    References
    ----------
    .. [1] Law of induction.

    Examples
    --------
    >>> round(1e6 * coupled_voltage(5.0, 100.0, 0.4e-9), 3)
    1.257
    """
    not_negative("current", current, "A")
    not_negative("frequency", frequency, "Hz")
    not_negative("mutual inductance", inductance, "H")
    return 2.0 * math.pi * frequency * inductance * current


def rejected_voltage(voltage: float, rejection: float) -> float:
    r"""What is left of a voltage common to both conductors of a line after its receiver.

    Parameters
    ----------
    voltage : float
        Voltage against earth that both conductors share [V].
    rejection : float
        Common-mode rejection of the line in use [dB].

    Returns
    -------
    float
        Voltage in the signal [V].

    Raises
    ------
    InvalidInput
        If one of them is negative.

    Notes
    -----
    .. math:: U' = U \cdot 10^{-r/20}

    Receivers without a transformer that state 60 to 80 dB keep 30 to 50 dB with sources of real balance; good
    transformers keep about 100 dB.

    References
    ----------
    .. [1] Common-mode rejection as in IEC 60268-3 (memory).

    Examples
    --------
    >>> round(1e3 * rejected_voltage(1.0, 60.0), 6)
    1.0
    """
    not_negative("voltage", voltage, "V")
    return float(voltage * 10.0 ** (-not_negative("rejection", rejection, "dB") / 20.0))


def voltage_ratio_level(voltage: float, reference: float) -> float:
    r"""Level of one voltage over another.

    Parameters
    ----------
    voltage : float
        The voltage [V].
    reference : float
        What it is held against [V].

    Returns
    -------
    float
        Level difference [dB].

    Raises
    ------
    InvalidInput
        If one of them is not above zero.

    Notes
    -----
    .. math:: 20 \lg (U/U_0)

    References
    ----------
    .. [1] Definition of the level.

    Examples
    --------
    >>> round(voltage_ratio_level(316e-6, 0.316))
    -60
    """
    return 20.0 * math.log10(positive("voltage", voltage, "V") / positive("reference voltage", reference, "V"))


def permitted_fill(number: int) -> float:
    """Share of a hole's cross-section that cables may fill.

    Parameters
    ----------
    number : int
        Cables in the hole [-].

    Returns
    -------
    float
        Share of the cross-section [-].

    Raises
    ------
    InvalidInput
        If there is no cable.

    Notes
    -----
    Two cables jam more easily than three: hence less for two than for more.

    References
    ----------
    .. [1] NEC (NFPA 70), chapter 9, table 1.

    Examples
    --------
    >>> permitted_fill(1), permitted_fill(2), permitted_fill(5)
    (0.53, 0.31, 0.4)
    """
    if number < 1:
        raise InvalidInput(f"number of cables is {number}; at least one passes the hole")
    return _FILL.get(number, _FILL_OF_MORE)
