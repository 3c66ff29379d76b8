"""What to measure next: inputs by their share of the uncertainty that keeps a verdict open."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from hushwright.report.layout import shortened, table
from hushwright.report.verdict_text import percent
from hushwright.units import System
from hushwright.verdicts.verdict import Verdict

LISTED = 8
_LEAST_SHARE = 0.005


@dataclass(frozen=True, slots=True)
class RankedInput:
    """An input, the largest share of u² it has in any verdict, and which verdict that is."""

    path: str
    label: str
    share: float
    verdict: str


def ranked(verdicts: Sequence[Verdict]) -> tuple[RankedInput, ...]:
    """Inputs of the verdicts by their largest share of u², largest first."""
    best: dict[str, RankedInput] = {}
    for verdict in verdicts:
        whole = verdict.uncertainty**2 if verdict.uncertainty else 0.0
        for one in verdict.contributions if whole > 0.0 else ():
            share = one.change**2 / whole
            if one.path not in best or share > best[one.path].share:
                best[one.path] = RankedInput(one.path, one.label, share, verdict.id)
    return tuple(sorted(best.values(), key=lambda one: (-one.share, one.path)))


def open_inputs(verdicts: Sequence[Verdict]) -> tuple[RankedInput, ...]:
    """Inputs whose uncertainty keeps a verdict unproven."""
    return tuple(one for one in ranked([v for v in verdicts if v.verdict == "unproven"]) if one.share >= _LEAST_SHARE)


def measure_next_lines(verdicts: Sequence[Verdict], system: System) -> list[str]:
    """Rows of the list: share of u², input, where it stands, which verdict it keeps open."""
    rows = [
        (percent(one.share), shortened(one.label, 34), shortened(one.path, 44), shortened(one.verdict, 12))
        for one in open_inputs(verdicts)[:LISTED]
    ]
    return table(rows, right=(0,))


def measure_next_nodes(verdicts: Sequence[Verdict], system: System) -> list[dict[str, Any]]:
    """Return the same list for JSON."""
    return [
        {"path": one.path, "label": one.label, "share": round(one.share, 4), "verdict": one.verdict}
        for one in open_inputs(verdicts)
    ]
