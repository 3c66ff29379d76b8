"""A verdict: a target or limit with value, margin, uncertainty, basis, place and state."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

if TYPE_CHECKING:  # the first page of the app shows verdicts, and does not wait for what they come from
    from hushwright.evaluation.results import Contribution, Line

Outcome = Literal["meets", "fails", "unproven", "not_applicable"]
Sense = Literal["at_most", "at_least"]


@dataclass(frozen=True, slots=True)
class Verdict:
    """One question, answered.

    ``kind`` is the kind of quantity of ``value``, ``limit`` and ``margin`` (a kind of `hushwright.units`, or ``NC``,
    ``NR``, ``margin`` whose unit is dB); a positive margin is good.
    """

    id: str
    group: str
    question: str
    state: str
    kind: str
    value: float | None
    limit: float | None
    sense: Sense
    margin: float | None
    uncertainty: float | None
    chance: float | None
    verdict: Outcome
    basis: str
    place: str
    reason: str = ""
    hint: str = ""
    caution: str = ""
    lines: tuple[Line, ...] = ()
    contributions: tuple[Contribution, ...] = ()
    method_uncertainty: float = 0.0
    validity: tuple[str, ...] = ()
    counts: str = ""  # what a bare number counts


def outcome(margin: float, uncertainty: float, *, valid: bool) -> Outcome:
    """Judge a margin: it must survive twice the standard uncertainty, either way.

    Parameters
    ----------
    margin : float
        Limit minus value for an at-most limit, value minus limit for an at-least one.
    uncertainty : float
        Standard uncertainty in the same unit, ≥ 0.
    valid : bool
        Whether the method is inside its range.

    Returns
    -------
    str
        ``meets``, ``fails`` or ``unproven``.

    Examples
    --------
    >>> outcome(3.0, 1.0, valid=True), outcome(-3.0, 1.0, valid=True), outcome(1.0, 1.0, valid=True)
    ('meets', 'fails', 'unproven')
    """
    if not valid:
        return "unproven"
    if margin - 2.0 * uncertainty >= 0.0:
        return "meets"
    return "fails" if margin + 2.0 * uncertainty < 0.0 else "unproven"


LIKELIHOODS: Final = (
    (0.10, "very unlikely"),
    (1.0 / 3.0, "unlikely"),
    (2.0 / 3.0, "as likely as not"),
    (0.90, "likely"),
)
"""Words for a probability below a bound; from the last bound on it is ``very likely``."""


def likelihood(chance: float) -> str:
    """Word for a probability.

    Parameters
    ----------
    chance : float
        Probability, 0 to 1.

    Returns
    -------
    str
        ``very unlikely``, ``unlikely``, ``as likely as not``, ``likely`` or ``very likely``.

    Notes
    -----
    Terms and bounds are those of the IPCC without its outermost ones: what is left open between twice the standard
    uncertainty either way has a probability of 2 % to 98 %.

    References
    ----------
    IPCC, Guidance Notes for Lead Authors of the IPCC Fourth Assessment Report on Addressing Uncertainties, 2005,
    likelihood scale: very likely 90 to 99 %, likely 66 to 90 %, about as likely as not 33 to 66 %, unlikely 10 to
    33 %, very unlikely 1 to 10 %; thirds are taken for 33 % and 66 %.

    Examples
    --------
    >>> likelihood(0.04), likelihood(0.5), likelihood(0.95)
    ('very unlikely', 'as likely as not', 'very likely')
    """
    return next((word for bound, word in LIKELIHOODS if chance < bound), "very likely")


def chance_of_meeting(margin: float, uncertainty: float) -> float:
    """Probability that the limit is met, for a normal spread.

    Parameters
    ----------
    margin : float
        Margin, positive is good.
    uncertainty : float
        Standard uncertainty in the same unit, ≥ 0.

    Returns
    -------
    float
        Probability, 0 to 1.

    Examples
    --------
    >>> round(chance_of_meeting(1.0, 1.0), 3), chance_of_meeting(1.0, 0.0)
    (0.841, 1.0)
    """
    if uncertainty <= 0.0:
        return 1.0 if margin >= 0.0 else 0.0
    return 0.5 * (1.0 + math.erf(margin / uncertainty / math.sqrt(2.0)))
