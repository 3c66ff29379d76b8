"""What to measure next: the inputs whose uncertainty keeps verdicts unproven, by their share of u²."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.evaluation.results import Evaluation
from hushwright.verdicts.verdict import Verdict


@dataclass(frozen=True, slots=True)
class MeasureNext:
    """An input, the share of u² it has in each verdict, and what it is now."""

    path: str
    label: str
    origin: str
    kind: str
    value: float
    standard_uncertainty: float
    share: float
    verdicts: tuple[tuple[str, float], ...]
    ends: tuple[float, float] | None = None


def measure_next(
    evaluation: Evaluation, verdicts: tuple[Verdict, ...], *, all_verdicts: bool = False
) -> tuple[MeasureNext, ...]:
    """Rank the inputs by the largest share of u² that they have in a verdict that is not proven.

    Parameters
    ----------
    evaluation : Evaluation
        With its inputs.
    verdicts : tuple of Verdict
        Judged.
    all_verdicts : bool, optional
        Count verdicts that are decided, too.

    Returns
    -------
    tuple of MeasureNext
        Largest share first; inputs without effect are left out.
    """
    shares = _shares(verdicts, all_verdicts=all_verdicts)
    found = []
    for known in evaluation.build.inputs:
        named = shares.get(known.path)
        if not named:
            continue
        ranked = tuple(sorted(named.items(), key=lambda pair: -pair[1]))
        found.append(MeasureNext(known.path, known.label, known.origin, known.kind, known.value,
                                 known.standard_uncertainty, ranked[0][1], ranked, known.ends))  # fmt: skip
    return tuple(sorted(found, key=lambda each: -each.share))


def _shares(verdicts: tuple[Verdict, ...], *, all_verdicts: bool) -> dict[str, dict[str, float]]:
    """Share of u² by input and verdict."""
    shares: dict[str, dict[str, float]] = {}
    for verdict in verdicts:
        total = (verdict.uncertainty or 0.0) ** 2
        if total <= 0.0 or (verdict.verdict != "unproven" and not all_verdicts):
            continue
        for each in verdict.contributions:
            shares.setdefault(each.path, {})[verdict.id] = each.change**2 / total
    return shares
