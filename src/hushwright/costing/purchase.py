"""What is bought for what is needed: waste, whole packs, price."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal

from hushwright.costing.money import NOTHING, payable
from hushwright.errors import InvalidInput

_SLACK = Decimal("1e-6")
"""Share of a pack that is rounding of lengths and areas and needs no further pack."""


@dataclass(frozen=True, slots=True)
class Bought:
    """What is bought: amount with waste, packs, amount in them, what they cost."""

    with_waste: Decimal
    packs: int
    amount: Decimal
    cost: Decimal


def bought(
    need: Decimal,
    price: Decimal,
    coin: Decimal,
    *,
    waste: Decimal = NOTHING,
    pack: Decimal = NOTHING,
    packs: int = 0,
    bars: int = 0,
) -> Bought:
    """Whole packs for a need, and their cost.

    Parameters
    ----------
    need : Decimal
        What is built in, in the unit of the price [-].
    price : Decimal
        Price of one unit [currency].
    coin : Decimal
        Smallest coin [currency].
    waste : Decimal, optional
        Added to the need, as a share of it [-].
    pack : Decimal, optional
        Least amount that is sold, and every further step; 0 where any amount is sold [-].
    packs : int, optional
        Packs that a layout takes, in place of the waste; 0 where there is none [-].
    bars : int, optional
        Packs that cannot be fewer, because no piece is glued from offcuts; the waste counts as well [-].

    Returns
    -------
    Bought
        Never less than the need with its waste.

    Raises
    ------
    InvalidInput
        If need, price, waste or pack is negative.

    Examples
    --------
    28 m² with a tenth of waste from sheets of 3.125 m² at 20 a square metre: ten sheets.

    >>> sheets = bought(Decimal(28), Decimal(20), Decimal("0.01"), waste=Decimal("0.1"), pack=Decimal("3.125"))
    >>> sheets.packs, str(sheets.amount), str(sheets.cost)
    (10, '31.250', '625.00')

    A layout for the saw that takes eleven:

    >>> bought(Decimal(28), Decimal(20), Decimal("0.01"), pack=Decimal("3.125"), packs=11).packs
    11
    """
    for name, value in (("need", need), ("price", price), ("waste", waste), ("pack", pack)):
        if value < 0:
            raise InvalidInput(f"{name} is {value}; it cannot be below zero")
    wanted = need * (1 + waste)
    if pack == 0:
        return Bought(wanted, 0, wanted, payable(wanted * price, coin))
    if packs:
        wanted = need
    taken = max(int((wanted / pack - _SLACK).to_integral_value(ROUND_CEILING)), packs, bars) if wanted else 0
    return Bought(wanted, taken, taken * pack, payable(taken * pack * price, coin))


def hours_worked(amount: Decimal, seconds: Decimal) -> Decimal:
    """Hours for an amount at a time per unit, to a hundredth.

    Parameters
    ----------
    amount : Decimal
        How much is worked, in the unit of the time [-].
    seconds : Decimal
        Time for one unit [s].

    Returns
    -------
    Decimal
        Time [h].

    Examples
    --------
    >>> hours_worked(Decimal("12.5"), Decimal(1500))
    Decimal('5.21')
    """
    return payable(amount * seconds / 3600, Decimal("0.01"))
