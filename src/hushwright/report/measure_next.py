"""What to measure next: inputs by their share of the uncertainty that keeps a verdict open, as text and for JSON."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from hushwright.model.wishes import Input
from hushwright.report.layout import shortened, wrapped
from hushwright.report.units_out import bare_number, shown, shown_spread, unit_of
from hushwright.report.verdict_text import percent_cell
from hushwright.units import System
from hushwright.verdicts.measure_next import MeasureNext

LISTED = 8
_LEAST_SHARE = 0.005


def measure_next_lines(ranked: Sequence[MeasureNext], system: System) -> list[str]:
    """Two lines an input: its share of u² and what it is now, then where it stands and what it keeps open."""
    lines: list[str] = []
    for one in [each for each in ranked if each.share >= _LEAST_SHARE][:LISTED]:
        lines.append(
            f"  {percent_cell(one.share):>5}  {shortened(one.label, 40)}, now {now(one, system)}, {one.origin}"
        )
        lines += wrapped(f"{one.path}; {told_verdicts(one)}", indent=9, hanging=9)
    return lines


def now(one: MeasureNext | Input, system: System) -> str:
    """Value with its spread as it was given: ±, which is 2u, or the ends of a range."""
    value = shown(one.value, one.kind, system)
    if one.ends is not None:
        return f"{value} ({between(one, system)})"
    return f"{value} {shown_spread(2.0 * one.standard_uncertainty, one.kind, system)}"


def between(one: MeasureNext | Input, system: System) -> str:
    """Ends of a range alone; value and ± where there is none."""
    return now(one, system) if one.ends is None else " to ".join(shown(end, one.kind, system) for end in one.ends)


def told_verdicts(one: MeasureNext) -> str:
    """Verdict it weighs most in, and how many others it weighs in."""
    others = sum(share >= _LEAST_SHARE for _, share in one.verdicts[1:])
    return one.verdicts[0][0] + (f" and {others} more" if others else "")


def measure_next_nodes(ranked: Sequence[MeasureNext], system: System) -> list[dict[str, Any]]:
    """Return the whole list for JSON."""
    return [
        {
            "path": one.path,
            "label": one.label,
            "origin": one.origin,
            "value": bare_number(one.value, one.kind, system),
            "unit": unit_of(one.kind, system),
            "uncertainty": bare_number(one.standard_uncertainty, one.kind, system, is_difference=True),
            "share": round(one.share, 4),
            "verdicts": {name: round(share, 4) for name, share in one.verdicts},
        }
        for one in ranked
    ]
