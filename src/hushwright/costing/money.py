"""Money in decimals: rounding to what can be paid, shares that add up to the whole, tax by rate."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import ROUND_HALF_UP, Decimal
from typing import Final

from hushwright.errors import InvalidInput

NOTHING: Final = Decimal(0)
_DIGITS: Final = 9  # of a typed number after the point, far beyond any price

# Digits after the point of ISO 4217 currencies that have not two (memory).
_MINOR: Final[Mapping[str, int]] = {
    **dict.fromkeys(("CLP", "ISK", "JPY", "KRW", "PYG", "UGX", "VND", "XAF", "XOF"), 0),
    **dict.fromkeys(("BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"), 3),
}


def exact(number: float) -> Decimal:
    """Decimal that a typed number stands for: the shortest that reads back as the same number.

    Parameters
    ----------
    number : float
        Number as read from a file [-].

    Returns
    -------
    Decimal
        Same number without the error of its binary form [-].

    Examples
    --------
    >>> exact(18.40), exact(0.1) * 3
    (Decimal('18.4'), Decimal('0.3'))
    """
    return Decimal(repr(round(float(number), _DIGITS)))


def smallest_coin(currency: str) -> Decimal:
    """Least amount that can be paid in a currency.

    Parameters
    ----------
    currency : str
        Three letters after ISO 4217.

    Returns
    -------
    Decimal
        One cent, or what stands for it [currency].

    Examples
    --------
    >>> smallest_coin("EUR"), smallest_coin("JPY")
    (Decimal('0.01'), Decimal('1'))
    """
    return Decimal(1).scaleb(-_MINOR.get(currency, 2))


def payable(amount: Decimal, coin: Decimal) -> Decimal:
    """Amount rounded to the smallest coin, half of one away from zero.

    Parameters
    ----------
    amount : Decimal
        Any amount [currency].
    coin : Decimal
        Smallest coin, see :func:`smallest_coin` [currency].

    Returns
    -------
    Decimal
        Whole coins [currency].

    Examples
    --------
    >>> payable(Decimal("2.345"), Decimal("0.01")), payable(Decimal("-2.345"), Decimal("0.01"))
    (Decimal('2.35'), Decimal('-2.35'))
    """
    return amount.quantize(coin, ROUND_HALF_UP)


def allotted(amount: Decimal, weights: Sequence[Decimal], coin: Decimal) -> tuple[Decimal, ...]:
    """Amount divided in proportion to weights, in whole coins that add up to it exactly.

    Parameters
    ----------
    amount : Decimal
        What is divided, whole coins [currency].
    weights : sequence of Decimal, length n
        Not negative; at least one above zero unless the amount is nothing [-].
    coin : Decimal
        Smallest coin [currency].

    Returns
    -------
    tuple of Decimal, length n
        Parts [currency].

    Raises
    ------
    InvalidInput
        If a weight is negative, or all are zero.

    Notes
    -----
    Every part is rounded towards zero; the coins left go to the parts that lost most (largest remainders).

    Examples
    --------
    >>> [str(part) for part in allotted(Decimal("10.00"), [Decimal(1)] * 3, Decimal("0.01"))]
    ['3.34', '3.33', '3.33']
    """
    total = sum(weights, NOTHING)
    if any(weight < 0 for weight in weights) or total <= 0:
        raise InvalidInput(
            f"weights {', '.join(map(str, weights)) or 'none'} divide nothing; all are at least 0, one above"
        )
    coins = int(amount / coin)
    wanted = [abs(coins) * weight / total for weight in weights]
    parts = [int(each) for each in wanted]
    left = abs(coins) - sum(parts)
    for at in sorted(range(len(parts)), key=lambda at: (parts[at] - wanted[at], at))[:left]:
        parts[at] += 1
    sign = -1 if coins < 0 else 1
    return tuple(sign * part * coin for part in parts)


def taxes(net_by_rate: Mapping[Decimal, Decimal], coin: Decimal) -> tuple[tuple[Decimal, Decimal, Decimal], ...]:
    """Tax on the sum of each rate, highest rate first.

    Parameters
    ----------
    net_by_rate : mapping of Decimal to Decimal
        Sum without tax [currency] by rate [-].
    coin : Decimal
        Smallest coin [currency].

    Returns
    -------
    tuple of tuple
        Rate [-], sum without tax and tax [currency].

    Notes
    -----
    Tax is rounded once on the sum of a rate, not line by line: that is how an invoice that states its rates adds up.

    Examples
    --------
    >>> taxes({Decimal("0.19"): Decimal("100.00")}, Decimal("0.01"))
    ((Decimal('0.19'), Decimal('100.00'), Decimal('19.00')),)
    """
    rates = sorted(net_by_rate, reverse=True)
    return tuple((rate, net_by_rate[rate], payable(rate * net_by_rate[rate], coin)) for rate in rates)
