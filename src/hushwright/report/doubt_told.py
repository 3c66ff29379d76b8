"""Why the range of a background is wide, in words, and what narrows it."""

from __future__ import annotations

from hushwright.evaluation.sound.doubt import Doubt, doubt_of
from hushwright.report.units_out import shown
from hushwright.search.first_look import FirstLook
from hushwright.units import System
from hushwright.verdicts.check import slug
from hushwright.verdicts.verdict import Verdict

_CAUSES = (
    ("outdoors", "how loud such a place is"), ("ways", "what walls, floor and fans let through"),
    ("vehicle", "one van from another"), ("places", "one spot in the room from another"),
    ("inputs", "sizes and materials"),
)  # fmt: skip
_WORTH = 0.05
"""Share of u² from which a cause is named."""


def doubt_told(look: FirstLook, system: System) -> str:
    """Best guess of the quiet inside, why its range is as wide as it is, and what to measure; empty without one."""
    verdict = next((each.worst for each in look.chosen.topics if each.name == "quiet inside"), None)
    if verdict is None or verdict.value is None or verdict.kind not in ("NC", "NR", "level_a"):
        return ""
    evaluation = look.evaluation
    for found in evaluation.backgrounds:
        quantity = evaluation.quantities.get(f"background/{found.key}")
        if quantity is not None and verdict.id == f"background-{slug(found.key)}":
            return _told(verdict, doubt_of(found, quantity, evaluation.build), system)
    return ""


def _told(verdict: Verdict, doubt: Doubt, system: System) -> str:
    assert verdict.value is not None
    whole = verdict.uncertainty or 0.0
    parts = [(getattr(doubt, key), words) for key, words in _CAUSES]
    parts = sorted((part for part in parts if part[0] ** 2 >= _WORTH * whole**2), key=lambda part: -part[0])
    guess = shown(float(round(verdict.value)), verdict.kind, system)
    text = (
        f"Best guess {guess} ±{2.0 * whole:.0f}. What makes it wide: "
        + ", ".join(f"{words} ±{2.0 * size:.0f}" for size, words in parts)
        + " (they add as squares)."
    )
    narrowed = []
    if doubt.left_with_level < whole - 0.05:
        narrowed.append(f"a level meter at the place leaves ±{2.0 * doubt.left_with_level:.0f}")
    if doubt.left_with_vans < whole - 0.05:
        three = "three measured vans of the workshop"
        narrowed.append(f"{three} leave ±{2.0 * doubt.left_with_vans:.0f}")
    if len(narrowed) == 2:
        narrowed.append(f"both ±{2.0 * doubt.left_with_both:.0f}")
    if narrowed:
        text += f" To narrow it: {', '.join(narrowed)}."
    return f"{text} To halve it, measure in the finished room before linings and gear go in."
