"""A bank of lithium iron phosphate cells: voltage at rest, stored energy, current for a power, sag."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput
from hushwright.physics._guard import positive

FloatArray = NDArray[np.float64]

NOMINAL_CELL = 3.2
"""V, nominal voltage of one cell; common practice."""

HOUR = 3600.0
# Sunil, Pattipati and Balasingam 2025, charge and discharge at C/32 averaged, break points of a piecewise linear fit.
_CHARGE = np.array([0.0, 0.0033, 0.0117, 0.0267, 0.0534, 0.0885, 0.2972, 0.9833, 0.995, 1.0])
_VOLTAGE = np.array([2.0102, 2.4177, 2.7405, 2.9299, 3.0872, 3.1942, 3.2772, 3.3511, 3.418, 3.5981])
_BELOW = np.concatenate(([0.0], np.cumsum(np.diff(_CHARGE) * (_VOLTAGE[1:] + _VOLTAGE[:-1]) / 2.0)))
"""Integral of the voltage over the state of charge up to each break point [V]."""


def open_circuit_voltage(state_of_charge: ArrayLike) -> FloatArray:
    """Voltage of one lithium iron phosphate cell at rest.

    Parameters
    ----------
    state_of_charge : array_like, of any shape
        Charge left over the rated capacity [-], 0 to 1.

    Returns
    -------
    ndarray, same shape
        Voltage [V].

    Raises
    ------
    InvalidInput
        If a state of charge is no share.

    Notes
    -----
    Straight between the published break points. Charging and discharging curves differ by some 20 mV and by
    temperature; the mean of both is taken.

    References
    ----------
    .. [1] S. Sunil, K. R. Pattipati and B. Balasingam, *IEEE Transactions on Instrumentation and Measurement*, 2025,
       pseudo open-circuit voltage of a lithium iron phosphate cell.

    Examples
    --------
    >>> [round(float(value), 3) for value in open_circuit_voltage([0.0534, 0.5, 0.9833])]
    [3.087, 3.299, 3.351]
    """
    return np.asarray(np.interp(_shares(state_of_charge), _CHARGE, _VOLTAGE), dtype=np.float64)


def stored_energy(state_of_charge: ArrayLike, cells: int, rated_capacity: float) -> FloatArray:
    r"""Energy that a bank gives at rest down to nothing.

    Parameters
    ----------
    state_of_charge : array_like, of any shape
        Charge left over the rated capacity [-], 0 to 1.
    cells : int
        Cells in series [-].
    rated_capacity : float
        Charge when full [Ah].

    Returns
    -------
    ndarray, same shape
        Energy [J].

    Raises
    ------
    InvalidInput
        If a state of charge is no share, or cells or capacity are not above zero.

    Notes
    -----
    .. math:: W(s) = n\,C \int_0^s U(s')\,\mathrm{d}s'

    References
    ----------
    .. [1] S. Sunil, K. R. Pattipati and B. Balasingam, *IEEE Transactions on Instrumentation and Measurement*, 2025.

    Examples
    --------
    A bank of 8 cells and 200 Ah holds 5.2 kWh.

    >>> round(float(stored_energy(1.0, 8, 200.0)) / 3.6e6, 2)
    5.23
    """
    shares = _shares(state_of_charge)
    index = np.clip(np.searchsorted(_CHARGE, shares, side="right") - 1, 0, _CHARGE.size - 2)
    part = shares - _CHARGE[index]
    slope = (_VOLTAGE[index + 1] - _VOLTAGE[index]) / (_CHARGE[index + 1] - _CHARGE[index])
    integral = _BELOW[index] + part * (_VOLTAGE[index] + slope * part / 2.0)
    scale = positive("cells in series", cells, "") * positive("rated capacity", rated_capacity, "Ah") * HOUR
    return np.asarray(scale * integral, dtype=np.float64)


def bank_current(power: ArrayLike, rest_voltage: ArrayLike, resistance: float) -> FloatArray:
    r"""Current of a bank for a power at its terminals.

    Parameters
    ----------
    power : array_like, of any shape
        Power into the bank [W]; below zero what is taken from it.
    rest_voltage : array_like, same shape or one value
        Voltage at rest [V].
    resistance : float
        Resistance of the bank [Ω].

    Returns
    -------
    ndarray, same shape
        Current into the bank [A]; below zero what it gives.

    Raises
    ------
    InvalidInput
        If the resistance is not above zero, or more is asked than any current gives.

    Notes
    -----
    .. math:: P = I (U_0 + I R) \quad\Rightarrow\quad I = \frac{\sqrt{U_0^2 + 4 R P} - U_0}{2 R}

    The greatest power that can be taken is :math:`U_0^2 / 4R`.

    References
    ----------
    .. [1] Ohm's law; IEC 60050-131.

    Examples
    --------
    2 kW out of 26 V behind 8 mΩ: 78.8 A, for the voltage sags to 25.4 V.

    >>> round(float(bank_current(-2000.0, 26.0, 0.008)), 1)
    -78.8
    """
    positive("resistance", resistance, "Ω")
    rest, wanted = np.asarray(rest_voltage, dtype=np.float64), np.asarray(power, dtype=np.float64)
    under = rest * rest + 4.0 * resistance * wanted
    if np.any(under < 0.0):
        most = float(np.min(rest * rest)) / (4.0 * resistance)
        raise InvalidInput(f"power is {float(np.min(wanted)):.0f} W; no current of this bank gives over {most:.0f} W")
    return np.asarray((np.sqrt(under) - rest) / (2.0 * resistance), dtype=np.float64)


def sagged_voltage(power: float, rest_voltage: float, resistance: float) -> float:
    r"""Voltage at the terminals of a bank while a power is taken.

    Parameters
    ----------
    power : float
        Power that is taken [W], ≥ 0.
    rest_voltage : float
        Voltage at rest [V].
    resistance : float
        Resistance of the bank [Ω].

    Returns
    -------
    float
        Voltage [V].

    Raises
    ------
    InvalidInput
        If the resistance is not above zero, or more is asked than any current gives.

    Notes
    -----
    .. math:: U = U_0 - R I

    References
    ----------
    .. [1] Ohm's law; IEC 60050-131.

    Examples
    --------
    >>> round(sagged_voltage(2000.0, 26.0, 0.008), 2)
    25.37
    """
    return rest_voltage + resistance * float(bank_current(-power, rest_voltage, resistance))


def _shares(state_of_charge: ArrayLike) -> FloatArray:
    shares = np.asarray(state_of_charge, dtype=np.float64)
    if not np.all((shares >= 0.0) & (shares <= 1.0)):
        wrong = shares[~((shares >= 0.0) & (shares <= 1.0))].ravel()[0]
        raise InvalidInput(f"state of charge is {wrong}; a share lies between 0 and 1")
    return shares
