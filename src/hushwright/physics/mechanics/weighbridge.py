"""Scale readings against the list: what is not accounted for and where it must sit."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hushwright.errors import InvalidInput
from hushwright.physics.mechanics._guard import FloatArray, not_negative
from hushwright.physics.mechanics.axles import WHEELS, Axles, PlacedMass

_SURE = 2.0  # standard uncertainties: the coverage factor of ISO/IEC Guide 98-3 for about 95 %


@dataclass(frozen=True, slots=True)
class Reconciliation:
    """What the scales say beyond the list.

    Parameters
    ----------
    unaccounted_mass : float
        Mass on the scales less the mass listed [kg]; below zero when something listed is not there.
    mass_uncertainty : float
        Standard uncertainty of that mass [kg].
    wheel_differences : tuple of four floats
        Reading less listed load of each wheel, in the order of `axles.WHEELS` [kg].
    place : tuple of two floats, optional
        Where the unaccounted mass must sit, x forward and y left [m]; none when it is not sure that there is any.
    place_uncertainty : tuple of two floats, optional
        Standard uncertainty of the place [m].
    forward_moment : float
        Moment of the difference about the middle of the wheelbase [kg·m]; not zero at no mass means misplaced.
    forward_uncertainty : float
        Standard uncertainty of that moment [kg·m].
    side_moment : float
        Moment of the difference about the middle plane, left positive [kg·m].
    side_uncertainty : float
        Standard uncertainty of that moment [kg·m].

    References
    ----------
    .. [1] ISO/IEC Guide 98-3:2008.

    Examples
    --------
    >>> Reconciliation(5.0, 10.0, (1.0, 1.0, 1.0, 2.0), None, None, 0.0, 20.0, 0.0, 8.0).agrees
    True
    """

    unaccounted_mass: float
    mass_uncertainty: float
    wheel_differences: tuple[float, float, float, float]
    place: tuple[float, float] | None
    place_uncertainty: tuple[float, float] | None
    forward_moment: float
    forward_uncertainty: float
    side_moment: float
    side_uncertainty: float

    @property
    def agrees(self) -> bool:
        """Whether mass and both moments agree with the list within twice their uncertainty."""
        pairs = (
            (self.unaccounted_mass, self.mass_uncertainty),
            (self.forward_moment, self.forward_uncertainty),
            (self.side_moment, self.side_uncertainty),
        )
        return all(abs(value) <= _SURE * spread for value, spread in pairs)

    @property
    def misplaced(self) -> bool:
        """Whether the mass agrees while a moment does not: something listed sits elsewhere."""
        return abs(self.unaccounted_mass) <= _SURE * self.mass_uncertainty and not self.agrees


def reconcile(
    listed: Sequence[PlacedMass], readings: Sequence[float], axles: Axles, reading_uncertainty: float
) -> Reconciliation:
    """Hold four scale readings against the listed masses.

    Parameters
    ----------
    listed : sequence of PlacedMass, length n_mass
        Everything that should be on the wheels, with uncertainties.
    readings : sequence of floats, length 4
        Scale readings in the order of `axles.WHEELS` [kg].
    axles : Axles
        Where the axles are.
    reading_uncertainty : float
        Standard uncertainty of one reading [kg].

    Returns
    -------
    Reconciliation
        Unaccounted mass [kg], its place [m] and uncertainties.

    Raises
    ------
    InvalidInput
        If there are not four readings above zero.

    Notes
    -----
    Mass and moments of the readings less those of the list; the place is their quotient. Uncertainties of readings and
    listed masses are independent and add in squares; that of the quotient is first-order. Height cannot be seen on
    level scales. One-sided loads cross from axle to axle in a stiff body, so that only the sums of axles and of sides
    are used, not the diagonal.

    References
    ----------
    .. [1] ISO/IEC Guide 98-3:2008.

    Examples
    --------
    40 kg over the rear left wheel that nobody has listed:

    >>> axles = Axles(2.0, -2.0, 1.7, 1.7)
    >>> found = reconcile([PlacedMass("van", 2800.0, (0.0, 0.0, 0.9))], (700.0, 700.0, 740.0, 700.0), axles, 2.0)
    >>> found.unaccounted_mass, [round(value, 2) for value in found.place]
    (40.0, [-2.0, 0.85])
    """
    if len(readings) != len(WHEELS) or not all(math.isfinite(value) and value > 0.0 for value in readings):
        raise InvalidInput(f"readings are {list(readings)} kg; {len(WHEELS)} numbers above zero are needed")
    not_negative("reading uncertainty", reading_uncertainty, "kg")
    middle = 0.5 * (axles.front + axles.rear)
    half = 0.5 * axles.wheelbase
    sides = 0.5 * np.array([axles.front_track, -axles.front_track, axles.rear_track, -axles.rear_track])
    # Rows: mass, moment forward of the middle, moment to the left.
    arms = np.array([np.ones(4), [half, half, -half, -half], sides])
    masses = np.array([each.mass for each in listed])
    places = np.array([[1.0, each.position[0] - middle, each.position[1]] for each in listed]).reshape(-1, 3).T
    spreads = np.array([each.standard_uncertainty for each in listed])
    difference = arms @ np.asarray(readings, dtype=np.float64) - places @ masses
    covariance = reading_uncertainty**2 * arms @ arms.T + (places * spreads**2) @ places.T
    mass, forward, side = (float(value) for value in difference)
    spread = np.sqrt(np.maximum(np.diag(covariance), 0.0))
    place, place_spread = _place(difference, covariance, middle)
    return Reconciliation(
        mass,
        float(spread[0]),
        _wheel_differences(listed, readings, axles),
        place,
        place_spread,
        forward,
        float(spread[1]),
        side,
        float(spread[2]),
    )


def _place(
    difference: FloatArray, covariance: FloatArray, middle: float
) -> tuple[tuple[float, float] | None, tuple[float, float] | None]:
    mass = float(difference[0])
    if mass == 0.0 or abs(mass) <= _SURE * math.sqrt(max(float(covariance[0, 0]), 0.0)):
        return None, None
    spreads, values = [], []
    for row in (1, 2):
        quotient = float(difference[row]) / mass
        gradient = np.zeros(3)
        gradient[0], gradient[row] = -quotient / mass, 1.0 / mass
        values.append(quotient)
        spreads.append(math.sqrt(max(float(gradient @ covariance @ gradient), 0.0)))
    return (middle + values[0], values[1]), (spreads[0], spreads[1])


def _wheel_differences(
    listed: Sequence[PlacedMass], readings: Sequence[float], axles: Axles
) -> tuple[float, float, float, float]:
    loads = np.zeros(4)
    for each in listed:
        front = (each.position[0] - axles.rear) / axles.wheelbase
        lean = (each.position[1] / axles.front_track, each.position[1] / axles.rear_track)
        shares = (front * (0.5 + lean[0]), front * (0.5 - lean[0]))
        loads += each.mass * np.array([*shares, (1.0 - front) * (0.5 + lean[1]), (1.0 - front) * (0.5 - lean[1])])
    found = np.asarray(readings, dtype=np.float64) - loads
    return float(found[0]), float(found[1]), float(found[2]), float(found[3])
