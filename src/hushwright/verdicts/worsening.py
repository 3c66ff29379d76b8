"""How much worse a margin has become, counted in what is not worth a word."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:  # the first page of the app tells what got worse, and does not wait for the laws
    from hushwright.verdicts.verdict import Verdict

HARDLY: Final = 0.05
"""Share [-] of its standard uncertainty by which a number may get worse without a word; common practice, no source."""

_HARDLY_OF_LIMIT = 0.005  # likewise of the limit, where the number has no uncertainty
_LEAST = 1e-9  # so that rounding is no change


def trifle(one: Verdict) -> float:
    """Amount, in the unit of a verdict, by which its margin may shrink without a word."""
    if one.uncertainty:
        return HARDLY * one.uncertainty
    return max(_HARDLY_OF_LIMIT * abs(one.limit or 0.0), _LEAST)


def trifles_worse(old: Verdict, now: Verdict) -> float:
    """How much worse a question has become, in trifles; more than one is worth a word, 0 where nothing is counted.

    Parameters
    ----------
    old, now : Verdict
        The same question before and now.

    Returns
    -------
    float
        Loss of margin over the trifle of the older verdict [-].
    """
    if old.margin is None or now.margin is None:
        return 0.0
    return (old.margin - now.margin) / trifle(old)
