"""What a converter loses: its own draw, a part that goes with the load, a part with its square; or a typed curve."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput
from hushwright.physics._guard import not_negative

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class ConverterLoss:
    """Losses over the load, both as shares of the rating: straight between points, or a parabola.

    Parameters
    ----------
    own : float
        Loss without load [-].
    linear : float
        Loss that goes with the load [-].
    square : float
        Loss that goes with its square [-].
    load_shares : tuple of float, any length
        Loads of a typed curve [-]; empty for the parabola.
    losses : tuple of float, same length
        Losses there [-].
    """

    own: float
    linear: float = 0.0
    square: float = 0.0
    load_shares: tuple[float, ...] = ()
    losses: tuple[float, ...] = ()

    def at(self, load_share: ArrayLike) -> FloatArray:
        """Loss at a load.

        Parameters
        ----------
        load_share : array_like, of any shape
            Load over the rating [-].

        Returns
        -------
        ndarray, same shape
            Loss over the rating [-].
        """
        load = np.asarray(load_share, dtype=np.float64)
        if not self.load_shares:
            return np.asarray(self.own + load * (self.linear + self.square * load), dtype=np.float64)
        steepest = (self.losses[-1] - self.losses[-2]) / (self.load_shares[-1] - self.load_shares[-2])
        beyond = np.maximum(load - self.load_shares[-1], 0.0) * steepest
        return np.asarray(np.interp(load, self.load_shares, self.losses) + beyond, dtype=np.float64)

    def efficiency(self, load_share: float) -> float:
        """Efficiency at a load.

        Parameters
        ----------
        load_share : float
            Load over the rating [-].

        Returns
        -------
        float
            Power out over power in [-].
        """
        return load_share / (load_share + float(self.at(load_share)))


def loss_by_efficiencies(own_share: float, best: float, full: float) -> ConverterLoss:
    r"""Losses of a converter by its own draw, its highest efficiency and that at its rating.

    Parameters
    ----------
    own_share : float
        Own draw over the rating [-], > 0.
    best : float
        Highest efficiency [-].
    full : float
        Efficiency at the rating [-].

    Returns
    -------
    ConverterLoss
        The parabola.

    Raises
    ------
    InvalidInput
        If the efficiencies are no shares in that order, or no parabola through them has a part that grows with the
        load.

    Notes
    -----
    With losses :math:`v_0 + v_1 p + v_2 p^2` over the rating, the efficiency is highest where
    :math:`p = \sqrt{v_0/v_2}`, and

    .. math:: \frac{1}{\eta_\mathrm{best}} - 1 = v_1 + 2\sqrt{v_0 v_2}, \qquad
              \frac{1}{\eta_\mathrm{full}} - 1 = v_0 + v_1 + v_2.

    References
    ----------
    .. [1] H. Schmidt and D. U. Sauer, "Wechselrichter-Wirkungsgrade", *Sonnenenergie* 4 (1996), three-term losses.

    Examples
    --------
    >>> loss = loss_by_efficiencies(0.008, 0.93, 0.88)
    >>> round(loss.efficiency(1.0), 4), round(loss.efficiency(0.05), 3), round(loss.efficiency(0.27), 3)
    (0.88, 0.847, 0.93)
    """
    if not 0.0 < full <= best < 1.0:
        raise InvalidInput(f"efficiencies are {best} at best and {full} at the rating; they lie below 1 in that order")
    own = not_negative("own draw over the rating", own_share, "")
    lost_best, lost_full = 1.0 / best - 1.0, 1.0 / full - 1.0
    root = math.sqrt(own) + math.sqrt(lost_full - lost_best)
    linear = lost_best - 2.0 * math.sqrt(own) * root
    if linear < 0.0:
        raise InvalidInput(f"own draw is {own_share} of the rating; with that no efficiency of {best} is reached")
    return ConverterLoss(own, linear, root * root)


def loss_by_points(own_share: float, points: Sequence[tuple[float, float]]) -> ConverterLoss:
    """Losses of a converter by points of its efficiency.

    Parameters
    ----------
    own_share : float
        Own draw over the rating [-].
    points : sequence of pairs
        Loads over the rating and efficiencies there [-].

    Returns
    -------
    ConverterLoss
        Straight between the points, from the own draw on.

    Raises
    ------
    InvalidInput
        If there is no point, a load stands twice or is not above zero, or an efficiency is not above zero and below
        or at one.

    References
    ----------
    .. [1] Loss is load over efficiency less load; interpolated because it is nearly straight where efficiency is not.

    Examples
    --------
    >>> round(loss_by_points(0.008, [(0.1, 0.9), (0.5, 0.94), (1.0, 0.9)]).efficiency(0.3), 3)
    0.933
    """
    ordered = sorted(points)
    loads = [load for load, _ in ordered]
    if not ordered or loads[0] <= 0.0 or len(set(loads)) < len(loads):
        raise InvalidInput(f"loads of the curve are {loads}; each must be above zero and stand once")
    for load, efficiency in ordered:
        if not 0.0 < efficiency <= 1.0:
            raise InvalidInput(f"efficiency is {efficiency} at {load} of the rating; it lies above 0 and not over 1")
    own = not_negative("own draw over the rating", own_share, "")
    losses = (own, *(load / efficiency - load for load, efficiency in ordered))
    return ConverterLoss(own, load_shares=(0.0, *loads), losses=losses)
