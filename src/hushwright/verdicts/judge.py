"""Evaluation → Verdicts."""

from __future__ import annotations

from hushwright.errors import InvalidInput
from hushwright.evaluation.results import Evaluation
from hushwright.verdicts import (
    air,
    anchoring,
    cost,
    doors,
    heat,
    mass,
    mounts,
    papers,
    power,
    quiet,
    safety,
    signals,
    space,
    use,
    venue,
    wiring,
)
from hushwright.verdicts.check import Check, verdicts_of
from hushwright.verdicts.verdict import Verdict

CHECKS: tuple[Check, ...] = (*quiet.CHECKS, *air.CHECKS, *heat.CHECKS, *space.CHECKS, *use.CHECKS,
                              *mounts.CHECKS, *mass.CHECKS,
                              *anchoring.CHECKS, *doors.CHECKS, *safety.CHECKS, *venue.CHECKS, *papers.CHECKS,
                              *power.CHECKS, *wiring.CHECKS, *signals.CHECKS, *cost.CHECKS)  # fmt: skip
"""Every check, in the order in which a builder asks."""

GROUPS: tuple[str, ...] = (
    "Quiet",
    "Air",
    "Heat",
    "Mass",
    "Space",
    "Mounts",
    "Anchoring",
    "Doors",
    "Safety",
    "Papers",
    "Power",
    "Wiring",
    "Signals",
    "Budget",
)
"""Groups of checks, in the order in which a builder asks."""

_RANK = {"fails": 0, "unproven": 1, "meets": 2, "not_applicable": 3}


def judge(evaluation: Evaluation, *, provisional: bool = False) -> tuple[Verdict, ...]:
    """Judge an Evaluation: every check with every case, worst first.

    Parameters
    ----------
    evaluation : Evaluation
        What was computed.
    provisional : bool, optional
        Whether the caller knows that shares of the inputs are missing or lent, and says so beside every verdict.

    Returns
    -------
    tuple of Verdict
        Fails first, then unproven with the least chance first, meets, not applicable.

    Raises
    ------
    InvalidInput
        If the Evaluation is not complete: without the shares of the inputs verdicts would be too sure.
    """
    if not evaluation.complete and not provisional:
        raise InvalidInput("the shares of the inputs are not worked out yet, so nothing can be judged for good")
    found = [verdict for check in CHECKS for verdict in verdicts_of(check, evaluation)]
    return tuple(sorted(found, key=lambda each: (_RANK[each.verdict], each.chance if each.chance is not None else 2.0)))
