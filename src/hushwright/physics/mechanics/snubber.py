"""Stops beside the mounts: silent while their gap is open, a bridge once it is closed."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hushwright.errors import InvalidInput
from hushwright.physics.mechanics._guard import not_negative


@dataclass(frozen=True, slots=True)
class Snubber:
    """A stop that holds the floor in a crash or a corner and must not touch in use.

    Parameters
    ----------
    gap : float
        Clear gap when the stop was set [m].
    contact_stiffness : float, optional
        Stiffness once it touches [N/m]; infinite for metal on metal.

    Raises
    ------
    InvalidInput
        If the gap is negative or the stiffness not above zero.

    References
    ----------
    .. [1] Common practice, no source.

    Examples
    --------
    >>> Snubber(gap=0.006).touches(0.002), Snubber(gap=0.001).touches(-0.002)
    (False, True)
    """

    gap: float
    contact_stiffness: float = math.inf

    def __post_init__(self) -> None:
        not_negative("snubber gap", self.gap, "m")
        if not self.contact_stiffness > 0.0:
            raise InvalidInput(f"snubber contact stiffness is {self.contact_stiffness} N/m; it must be above zero")

    def touches(self, travel: float) -> bool:
        """Whether the floor, moved from where the stop was set, has closed the gap.

        Parameters
        ----------
        travel : float
            Movement of the floor since the stop was set [m], either way.

        Returns
        -------
        bool
            True when the gap is closed [-].

        References
        ----------
        .. [1] Common practice, no source.
        """
        return abs(travel) >= self.gap

    def stiffness(self, travel: float) -> float:
        """Stiffness the stop adds beside the mounts: none, or that of the contact.

        Parameters
        ----------
        travel : float
            Movement of the floor since the stop was set [m], either way.

        Returns
        -------
        float
            Added stiffness [N/m]; infinite makes the stop a rigid bridge.

        References
        ----------
        .. [1] Common practice, no source.
        """
        return self.contact_stiffness if self.touches(travel) else 0.0
