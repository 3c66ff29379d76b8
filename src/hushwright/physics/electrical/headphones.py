"""Headphones on one amplifier: what it has to drive, and how loud they become."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from hushwright.errors import InvalidInput
from hushwright.physics._guard import not_negative, positive

_MILLIWATT = 1e-3


@dataclass(frozen=True, slots=True)
class HeadphoneBranch:
    """Alike headphones in parallel at the end of one cable.

    Parameters
    ----------
    impedance : float
        Of one headphone [Ω].
    number : int, optional
        How many are plugged in [-].
    cable_resistance : float, optional
        Of both conductors of the cable together [Ω].

    Raises
    ------
    InvalidInput
        If the impedance or the number is not above zero, or the resistance negative.

    References
    ----------
    .. [1] Ohm's law; resistances stand for impedances, as data sheets give one number.

    Examples
    --------
    >>> HeadphoneBranch(64.0, 4, cable_resistance=1.0).input_impedance
    17.0
    """

    impedance: float
    number: int = 1
    cable_resistance: float = 0.0

    def __post_init__(self) -> None:
        positive("impedance of a headphone", self.impedance, "Ω")
        not_negative("resistance of the cable", self.cable_resistance, "Ω")
        if self.number < 1:
            raise InvalidInput(f"number of headphones is {self.number}; at least one is plugged in")

    @property
    def input_impedance(self) -> float:
        """What the amplifier sees at the near end of the cable.

        Returns
        -------
        float
            Impedance [Ω].

        References
        ----------
        .. [1] Ohm's law.
        """
        return self.cable_resistance + self.impedance / self.number


@dataclass(frozen=True, slots=True)
class AmplifierLoad:
    """An amplifier with all that is plugged in.

    Attributes
    ----------
    impedance : float
        All branches in parallel [Ω].
    voltage : float
        At the amplifier's socket [V].
    current : float
        Out of the amplifier [A].
    power : float
        Into all branches [W].
    headphone_voltages : tuple of float, shape (n_branch,)
        At the headphones of each branch [V].
    """

    impedance: float
    voltage: float
    current: float
    power: float
    headphone_voltages: tuple[float, ...]


def amplifier_load(
    voltage: float, branches: Sequence[HeadphoneBranch], *, output_impedance: float = 0.0
) -> AmplifierLoad:
    r"""What an amplifier has to drive, and the voltage at each headphone.

    Parameters
    ----------
    voltage : float
        Effective voltage of the amplifier without a load [V].
    branches : sequence of HeadphoneBranch, length n_branch
        What is plugged in, in parallel.
    output_impedance : float, optional
        Of the amplifier [Ω].

    Returns
    -------
    AmplifierLoad
        Impedance [Ω], voltages [V], current [A] and power [W].

    Raises
    ------
    InvalidInput
        If nothing is plugged in, the voltage is not above zero or the output impedance negative.

    Notes
    -----
    .. math:: Z = 1/\sum_i 1/(R_i + Z_i/n_i),\qquad
              U_i = U_0 \frac{Z}{R_a + Z} \cdot \frac{Z_i/n_i}{R_i + Z_i/n_i}

    Impedances are taken as resistances. The voltage holds while the amplifier does not run into its limit of current.

    References
    ----------
    .. [1] Ohm's law and the voltage divider.

    Examples
    --------
    Ten ohms before a headphone of ten ohms halve its voltage:

    >>> amplifier_load(1.0, [HeadphoneBranch(10.0)], output_impedance=10.0).headphone_voltages
    (0.5,)
    """
    positive("voltage of the amplifier", voltage, "V")
    not_negative("output impedance", output_impedance, "Ω")
    if not branches:
        raise InvalidInput("no headphone is plugged in; a load needs at least one")
    impedance = 1.0 / sum(1.0 / each.input_impedance for each in branches)
    current = voltage / (output_impedance + impedance)
    socket = current * impedance
    reached = tuple(socket * each.impedance / each.number / each.input_impedance for each in branches)
    return AmplifierLoad(impedance, socket, current, socket * current, reached)


def sensitivity_per_volt(sensitivity: float, impedance: float) -> float:
    r"""Level of a headphone at one volt, from its level at one milliwatt.

    Parameters
    ----------
    sensitivity : float
        Sound pressure level at 1 mW [dB re 20 µPa].
    impedance : float
        Of the headphone [Ω].

    Returns
    -------
    float
        Sound pressure level at 1 V [dB re 20 µPa].

    Raises
    ------
    InvalidInput
        If the impedance is not above zero.

    Notes
    -----
    .. math:: S_V = S_{mW} - 10 \lg (0.001\,Z)

    References
    ----------
    .. [1] Power is the square of the voltage over the impedance.

    Examples
    --------
    >>> round(sensitivity_per_volt(98.0, 32.0), 2)
    112.95
    """
    positive("impedance of a headphone", impedance, "Ω")
    return sensitivity - 10.0 * math.log10(_MILLIWATT * impedance)


def headphone_level(sensitivity: float, voltage: float) -> float:
    r"""Level at the ear for a voltage at the headphone.

    Parameters
    ----------
    sensitivity : float
        Sound pressure level at 1 V [dB re 20 µPa].
    voltage : float
        Effective voltage at the headphone [V].

    Returns
    -------
    float
        Sound pressure level [dB re 20 µPa].

    Raises
    ------
    InvalidInput
        If the voltage is not above zero.

    Notes
    -----
    .. math:: L = S_V + 20 \lg (U / 1\,\mathrm{V})

    Sensitivities are stated at 500 Hz or 1 kHz, where A-weighting changes little: the level stands for dB(A) of music
    and voice within some decibels.

    References
    ----------
    .. [1] Definition of the level.

    Examples
    --------
    >>> headphone_level(114.0, 0.1)
    94.0
    """
    positive("voltage at the headphone", voltage, "V")
    return sensitivity + 20.0 * math.log10(voltage)
