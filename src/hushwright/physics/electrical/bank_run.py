"""A bank over time: what it gives and takes step by step, and what it loses."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hushwright.errors import InvalidInput
from hushwright.physics._guard import positive, share
from hushwright.physics.electrical.bank import HOUR, open_circuit_voltage, stored_energy

FloatArray = NDArray[np.float64]

_CORRECTIONS = 3
_SAME = 5e-4
"""Times that the change of a step is taken anew, until it moves by less than this share of the capacity."""


@dataclass(frozen=True, slots=True)
class BankLaw:
    """What a bank is and what its watch lets it do.

    Parameters
    ----------
    cells : int
        Cells in series [-].
    rated_capacity : float
        Charge when full [Ah].
    resistance : float
        Resistance of the whole bank [Ω].
    charge_returned : float
        Charge that comes back out of what is put in [-].
    lowest_charge : float
        Lowest state of charge that is used [-].
    highest_charge : float
        Highest state of charge that is used [-].
    discharge_current : float
        Greatest lasting current out [A].
    charge_current : float
        Greatest lasting current in [A].
    """

    cells: int
    rated_capacity: float
    resistance: float
    charge_returned: float
    lowest_charge: float
    highest_charge: float
    discharge_current: float
    charge_current: float

    def check(self) -> None:
        """Raise where a figure cannot be."""
        positive("cells in series", self.cells, "")
        positive("rated capacity", self.rated_capacity, "Ah")
        positive("resistance", self.resistance, "Ω")
        positive("share of charge that returns", share("share of charge that returns", self.charge_returned), "")
        positive("discharge current", self.discharge_current, "A")
        if not 0.0 <= self.lowest_charge < self.highest_charge <= 1.0:
            window = f"{self.lowest_charge} to {self.highest_charge}"
            raise InvalidInput(f"window of the charge is {window}; it lies in 0 to 1, upward")


@dataclass(frozen=True, slots=True, eq=False)
class BankRun:
    """A bank over time, side by side in several cases.

    Parameters
    ----------
    state_of_charge : ndarray, shape (n_step + 1, n_case)
        At the ends of the steps [-].
    current : ndarray, shape (n_step, n_case)
        Into the bank [A]; below zero what it gives.
    power : ndarray, shape (n_step, n_case)
        Into its terminals [W]; below zero what it gives.
    resistance_loss : ndarray, shape (n_step, n_case)
        Lost in its resistance [W].
    charge_loss : ndarray, shape (n_step, n_case)
        Lost because not all charge returns [W].
    stored : ndarray, shape (n_step + 1, n_case)
        Energy at rest [J].
    """

    state_of_charge: FloatArray
    current: FloatArray
    power: FloatArray
    resistance_loss: FloatArray
    charge_loss: FloatArray
    stored: FloatArray


def run_bank(
    bank: BankLaw, start: FloatArray, wanted: FloatArray, may_charge: FloatArray, step: float
) -> BankRun:  # fmt: skip
    r"""Follow a bank through surplus and want.

    Parameters
    ----------
    bank : BankLaw
        The bank.
    start : ndarray, shape (n_case,)
        State of charge at the begin [-].
    wanted : ndarray, shape (n_step, n_case)
        Power that is over, to be put in [W]; below zero power that lacks.
    may_charge : ndarray, shape (n_step, n_case)
        1 where the cells may be charged, 0 where they are too cold [-].
    step : float
        Length of a step [s].

    Returns
    -------
    BankRun
        What the bank did within its window and currents; what it could not do is wanted less its power.

    Raises
    ------
    InvalidInput
        If a figure of the bank cannot be, a start is no share, or shapes differ.

    Notes
    -----
    .. math:: \frac{\mathrm{d}q}{\mathrm{d}t} = \begin{cases} \eta_q I & I > 0 \\ I & I < 0 \end{cases},
              \qquad P = I\,(U_0(q) + R I)

    The voltage at rest is taken in the middle of each step, which is sought again where the change of the step before
    does not serve. No loss to speed of
    discharge beyond the resistance: for these cells Peukert's exponent is 1.01 to 1.05.

    References
    ----------
    .. [1] S. Sunil, K. R. Pattipati and B. Balasingam, *IEEE Transactions on Instrumentation and Measurement*, 2025.
    .. [2] N. Omar et al., *Energies* 6 (2013), 5625-5646, on Peukert's law for lithium-ion cells.

    Examples
    --------
    520 W for an hour out of a full bank of 8 cells and 200 Ah.

    >>> bank = BankLaw(8, 200.0, 0.008, 0.995, 0.1, 1.0, 200.0, 100.0)
    >>> run = run_bank(bank, np.array([1.0]), np.full((12, 1), -520.0), np.ones((12, 1)), 300.0)
    >>> round(float(run.state_of_charge[-1, 0]), 3)
    0.903
    """
    bank.check()
    if wanted.ndim != 2 or wanted.shape != may_charge.shape or start.shape != wanted.shape[1:]:
        raise InvalidInput(f"shapes are {start.shape}, {wanted.shape}, {may_charge.shape}; they must fit")
    if np.any((start < 0.0) | (start > 1.0)):
        raise InvalidInput(f"state of charge at the begin is {start.tolist()}; a share lies between 0 and 1")
    charge, current, rest = _follow(bank, start, wanted, may_charge, positive("step", step, "s"))
    lost = bank.resistance * current * current
    put_in = np.maximum(current, 0.0) * rest * (1.0 - bank.charge_returned)
    shares = np.clip(charge / (bank.rated_capacity * HOUR), 0.0, 1.0)
    return BankRun(shares, current, rest * current + lost, lost, put_in,
                   stored_energy(shares, bank.cells, bank.rated_capacity))  # fmt: skip


def _follow(
    bank: BankLaw, start: FloatArray, wanted: FloatArray, may_charge: FloatArray, step: float
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Charge [A·s] at the ends of the steps, current [A] and voltage at rest [V] in them."""
    full, returned, twice = bank.rated_capacity * HOUR, bank.charge_returned, 2.0 * bank.resistance
    low, high = bank.lowest_charge * full, bank.highest_charge * full
    places = np.linspace(0.0, 1.0, 2001)
    table = open_circuit_voltage(places) * bank.cells
    charge, now = np.empty((len(wanted) + 1, start.size)), start * full
    current, rest = np.empty(wanted.shape), np.empty(wanted.shape)
    most_in = bank.charge_current * may_charge
    fourfold = 2.0 * twice * wanted
    places *= full
    charge[0], change = now, np.zeros(start.size)
    for index in range(len(wanted)):
        most_out = np.minimum(np.maximum(now - low, 0.0) / step, bank.discharge_current)
        taken = np.minimum(most_in[index], np.maximum(high - now, 0.0) / (returned * step))
        for _ in range(_CORRECTIONS):
            expected = change
            voltage = np.interp(now + 0.5 * expected, places, table)
            flow = (np.sqrt(np.maximum(voltage * voltage + fourfold[index], 0.0)) - voltage) / twice
            flow = np.maximum(np.minimum(flow, taken), -most_out)
            change = np.where(flow > 0.0, returned * flow, flow) * step
            if np.abs(change - expected).max() < _SAME * full:
                break
        now = now + change
        charge[index + 1], current[index], rest[index] = now, flow, voltage
    return charge, current, rest
