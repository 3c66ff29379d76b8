"""What flows into a short circuit."""

from __future__ import annotations

from hushwright.errors import InvalidInput
from hushwright.physics._guard import not_negative, positive


def short_circuit_current(voltage: float, resistance: float, loop_resistance: float = 0.0) -> float:
    """Current into a dead short behind a source and its cable.

    Parameters
    ----------
    voltage : float
        Voltage of the source without load [V].
    resistance : float
        Its own resistance [Ω].
    loop_resistance : float
        Of the cable out and back up to the short [Ω].

    Returns
    -------
    float
        Current [A].

    Raises
    ------
    InvalidInput
        If nothing limits the current, or a number is impossible.

    Notes
    -----
    Ohm's law: no inductance, and no electronics of a bank that switch off. The first makes the current rise in
    milliseconds, the second may fail closed; neither lets a smaller fuse do.

    References
    ----------
    .. [1] Ohm's law.

    Examples
    --------
    >>> round(short_circuit_current(26.4, 0.008, 0.002))
    2640
    """
    total = not_negative("resistance", resistance, "Ω") + not_negative("loop resistance", loop_resistance, "Ω")
    if total <= 0.0:
        raise InvalidInput(f"resistance is {total} Ω; a short behind nothing has no bound")
    return positive("voltage", voltage, "V") / total


def bank_short_circuit(current: float, parallel: int) -> float:
    """Short circuit of a bank of alike batteries: strings side by side add, batteries in a row do not.

    Parameters
    ----------
    current : float
        Short circuit of one battery [A].
    parallel : int
        Strings side by side [-].

    Returns
    -------
    float
        Current [A].

    Raises
    ------
    InvalidInput
        If a number is impossible.

    References
    ----------
    .. [1] ABYC E-11, ratings of batteries for interrupting devices; found.

    Examples
    --------
    >>> bank_short_circuit(2400.0, 3)
    7200.0
    """
    return positive("current", current, "A") * positive("strings side by side", parallel, "")
