"""Lines to a sum: without tax, tax by rate, with tax. The sums are those of the lines as printed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from hushwright.costing.money import NOTHING, payable, taxes


@dataclass(frozen=True, slots=True)
class QuoteLine:
    """One line: what it buys, material and labour as sold, and the rate of its tax."""

    name: str
    material: Decimal
    labour: Decimal
    tax_rate: Decimal

    @property
    def net(self) -> Decimal:
        """Without tax."""
        return self.material + self.labour


@dataclass(frozen=True, slots=True)
class Quote:
    """Lines, sum without tax, tax by rate (rate, net, tax), and what is paid."""

    lines: tuple[QuoteLine, ...]
    net: Decimal
    taxes: tuple[tuple[Decimal, Decimal, Decimal], ...]
    gross: Decimal


def quoted(lines: Iterable[QuoteLine], coin: Decimal) -> Quote:
    """Sum of lines, tax once on the sum of each rate.

    Parameters
    ----------
    lines : iterable of QuoteLine
        Each in whole coins [currency].
    coin : Decimal
        Smallest coin [currency].

    Returns
    -------
    Quote
        Lines with sums [currency].

    Examples
    --------
    >>> line = QuoteLine("Room", Decimal("10.00"), Decimal("5.05"), Decimal("0.19"))
    >>> quoted([line], Decimal("0.01")).gross
    Decimal('17.91')
    """
    listed = tuple(lines)
    by_rate: dict[Decimal, Decimal] = {}
    for line in listed:
        by_rate[line.tax_rate] = by_rate.get(line.tax_rate, NOTHING) + line.net
    net = payable(sum((line.net for line in listed), NOTHING), coin)
    taxed = taxes(by_rate, coin)
    return Quote(listed, net, taxed, net + sum((tax for _, _, tax in taxed), NOTHING))
