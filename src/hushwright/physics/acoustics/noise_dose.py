"""Noise over a working day: permissible time, exposure over eight hours."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput

WORKING_DAY: Final = 8.0 * 3600.0
"""s, the day to which exposure is referred; ISO 9612 (memory)."""

EQUAL_ENERGY: Final = 10.0 * np.log10(2.0)
"""dB for twice the energy, which standards round to 3."""


def permissible_time(level: float, criterion_level: float, exchange_rate: float) -> float:
    """Time for which a level may last before a day's dose is full.

    Parameters
    ----------
    level : float
        A-weighted level [dB].
    criterion_level : float
        Level that fills the dose in eight hours [dB].
    exchange_rate : float
        Rise in level that halves the time [dB].

    Returns
    -------
    float
        Time [s].

    Raises
    ------
    InvalidInput
        If the exchange rate is not above zero.

    Notes
    -----
    ``T = 8 h / 2^((L − L_c)/q)``.

    References
    ----------
    .. [1] 29 CFR 1910.95, table G-16a (q = 5 dB); NIOSH 98-126 (q = 3 dB).

    Examples
    --------
    >>> permissible_time(100.0, 90.0, 5.0) / 3600.0, permissible_time(94.0, 85.0, 3.0) / 3600.0
    (2.0, 1.0)
    """
    if not exchange_rate > 0.0:
        raise InvalidInput(f"exchange rate is {exchange_rate} dB; it must be above zero")
    return float(WORKING_DAY / 2.0 ** ((level - criterion_level) / exchange_rate))


def exposure_level(levels: ArrayLike, durations: ArrayLike, exchange_rate: float = EQUAL_ENERGY) -> float:
    r"""Level over eight hours that weighs as much as the parts of a day.

    Parameters
    ----------
    levels : array_like, shape (n_part,)
        A-weighted level of each part [dB].
    durations : array_like, shape (n_part,)
        Time of each part [s], ≥ 0.
    exchange_rate : float, optional
        Rise in level that halves the time [dB]; equal energy when left out.

    Returns
    -------
    float
        Exposure over eight hours [dB]; −inf for a day without noise.

    Raises
    ------
    InvalidInput
        If lengths differ, a time is below zero, or all together are more than a day and night.

    Notes
    -----
    .. math:: L_{EX,8h} = \frac{q}{\lg 2}\lg\left(\frac{1}{8\,\mathrm{h}}\sum_i T_i\,2^{L_i/q}\right)

    With q = 10 lg 2 this is the mean of the energy.

    References
    ----------
    .. [1] ISO 9612:2009 (memory); 29 CFR 1910.95, appendix A (time-weighted average at q = 5 dB).

    Examples
    --------
    >>> round(exposure_level([94.0, 80.0], [3600.0, 7 * 3600.0]), 1)
    86.1
    """
    level, time = np.asarray(levels, dtype=np.float64), np.asarray(durations, dtype=np.float64)
    if level.shape != time.shape or level.ndim != 1:
        raise InvalidInput(f"{level.shape} levels and {time.shape} times given; one of each is needed for every part")
    if not exchange_rate > 0.0:
        raise InvalidInput(f"exchange rate is {exchange_rate} dB; it must be above zero")
    if np.any(~(time >= 0.0)) or float(time.sum()) > 86_400.0:
        raise InvalidInput(f"times of {time.tolist()} s are no parts of one day")
    weighed = float(np.sum(time * 2.0 ** (level / exchange_rate))) / WORKING_DAY
    return float(exchange_rate * np.log2(weighed)) if weighed > 0.0 else -np.inf
