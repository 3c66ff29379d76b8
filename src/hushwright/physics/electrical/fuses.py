"""Fuses: ratings that are made, what they interrupt, and what they protect."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hushwright.errors import InvalidInput
from hushwright.physics._guard import not_negative, positive
from hushwright.physics.electrical import _wiring_tables as tables
from hushwright.physics.electrical.conductors import Conductor, RuleSet

SELECTIVE_RATIO = 1.6
"""Ratings of two fuses in series so that the nearer one opens alone [-]: IEC 60269, class gG."""
_FROM_MEMORY = "what this type of fuse interrupts is from memory; type its maker's `interrupt_rating`"


@dataclass(frozen=True, slots=True)
class InterruptRating:
    """Greatest current that a fuse interrupts.

    Parameters
    ----------
    current : float or None
        Current [A]; `None` where nothing is known at that voltage.
    notes : tuple of str
        Reasons for which a verdict cannot rest on it.

    Examples
    --------
    >>> InterruptRating(20_000.0, ()).current
    20000.0
    """

    current: float | None
    notes: tuple[str, ...]


def interrupt_rating(fuse_type: str, voltage: float) -> InterruptRating:
    """What a type of fuse interrupts on direct current, where its maker's rating is not known.

    Parameters
    ----------
    fuse_type : str
        ``class T``, ``bolt-down strip``, ``terminal post``, ``blade``, ``bolted strip`` or ``miniature breaker``.
    voltage : float
        Voltage of the circuit [V].

    Returns
    -------
    InterruptRating
        Current [A] with notes.

    Raises
    ------
    InvalidInput
        If the type is unknown or the voltage impossible.

    Notes
    -----
    The rating falls with the voltage; above the highest voltage of its type a fuse is of no use.

    References
    ----------
    .. [1] UL 248-15, ISO 8820-3, common ratings of the types; memory.

    Examples
    --------
    >>> interrupt_rating("terminal post", 25.6).current
    5000.0
    """
    positive("voltage", voltage, "V")
    if fuse_type not in tables.INTERRUPT:
        raise InvalidInput(f"type of fuse is {fuse_type!r}; there are {', '.join(tables.INTERRUPT)}")
    for highest, current in tables.INTERRUPT[fuse_type]:
        if voltage <= highest:
            return InterruptRating(current, (_FROM_MEMORY,))
    return InterruptRating(None, (f"a {fuse_type} has no rating for {voltage:g} V here; type its maker's",))


def smallest_fuse(current: float) -> float | None:
    """Smallest rating that is made and carries a current.

    Parameters
    ----------
    current : float
        Current [A].

    Returns
    -------
    float or None
        Rating [A]; `None` above the largest.

    Raises
    ------
    InvalidInput
        If the current is impossible.

    References
    ----------
    .. [1] Common practice, no source.

    Examples
    --------
    >>> smallest_fuse(11.0)
    15.0
    """
    not_negative("current", current, "A")
    return next((float(each) for each in tables.FUSE_RATINGS if each >= current), None)


def fuse_limit(conductor: Conductor, ampacity: float | None, rules: RuleSet, *, alternating: bool) -> float | None:
    """Largest fuse that protects a conductor.

    Parameters
    ----------
    conductor : Conductor
        Its size.
    ampacity : float or None
        What it carries [A].
    rules : str
        ``ABYC E-11``, ``ISO 13297`` or ``NEC 551``.
    alternating : bool
        Whether it carries mains voltage.

    Returns
    -------
    float or None
        Rating [A]; `None` where the rules have no figure.

    Notes
    -----
    The ampacity, never more. ABYC E-11 lets the next larger rating pass up to 150 % where none is made that equals the
    ampacity, and NEC 240.4(B) something alike; that is a ceiling and is not used here. NEC caps thin conductors below
    their ampacity: 240.4(D) on mains voltage, Table 552.10(E)(1) on low voltage.

    References
    ----------
    .. [1] ABYC E-11 11.10; ISO 10133 clause 8; NFPA 70, 240.4(D) and 552.10(E).

    Examples
    --------
    >>> from hushwright.physics.electrical.conductors import conductor_of_gauge
    >>> fuse_limit(conductor_of_gauge("14"), None, "NEC 551", alternating=False)
    15.0
    """
    if rules != "NEC 551":
        return ampacity
    caps = tables.NEC_SMALL if alternating else tables.NEC_LOW_VOLTAGE
    below = [cap for size, cap in caps.items() if _area(size) <= conductor.conductor_area * 1.000001]
    thicker = not below or conductor.conductor_area > _area("10") * 1.000001
    cap = math.inf if thicker else max(below)
    limit = min(cap, math.inf if ampacity is None else ampacity)
    return None if math.isinf(limit) else limit


def _area(size: str) -> float:
    return next(area for name, area, _ in tables.AWG if name == size) * 1e-6


def first_fuse_distance(rules: RuleSet, *, sheathed: bool, from_bank: bool) -> float:
    """How far from its source the first fuse may be.

    Parameters
    ----------
    rules : str
        ``ABYC E-11``, ``ISO 13297`` or ``NEC 551``.
    sheathed : bool
        Whether the conductor has a sheath or conduit up to it.
    from_bank : bool
        Whether it starts at the terminals of the bank.

    Returns
    -------
    float
        Distance along the conductor [m].

    References
    ----------
    .. [1] ABYC E-11: 7 in, sheathed 72 in from a battery and 40 in from other sources; memory, high confidence.
    .. [2] ISO 10133 clause 8: 200 mm; memory, high confidence.
    .. [3] NFPA 70, 552.10(E)(4): 18 in; found.

    Examples
    --------
    >>> first_fuse_distance("ABYC E-11", sheathed=False, from_bank=True)
    0.1778
    """
    if rules == "ISO 13297":
        return 0.2
    if rules == "NEC 551":
        return 18 * 0.0254
    if not sheathed:
        return 7 * 0.0254
    return (72 if from_bank else 40) * 0.0254
