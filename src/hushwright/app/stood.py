"""How a verdict stood before: an arrow only where the same question is asked in the same state."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from hushwright.report.labels import OUTCOMES
from hushwright.report.units_out import CURVES, restated, shown_difference
from hushwright.report.verdict_text import chance_told
from hushwright.units import System
from hushwright.verdicts.worsening import trifles_worse

if TYPE_CHECKING:
    from hushwright.verdicts.verdict import Verdict

RANK: Final = {"fails": 0, "unproven": 1, "meets": 2, "not_applicable": 3}
_OUTCOME_LOST = 1e6  # trifles that a worse outcome counts

Told = Callable[["Verdict", System, float], str]


def margin_text(one: Verdict, system: System, like: float = 0.0) -> str:
    """Margin as a person reads it; the chance beside it where the outcome is open."""
    if one.margin is None:
        return ""
    told = chance_told(one)
    text = shown_difference(one.margin, one.kind, system, signed=True, like=like)
    return f"{text}, {told}" if told else text


def spare_text(one: Verdict, system: System, like: float = 0.0) -> str:
    """Margin in words: how much there is to spare, or how much too much or too little it is.

    ``like`` is the larger one where two margins are told: both stand in its unit.
    """
    if one.margin is None:
        return ""
    size = shown_difference(abs(one.margin), one.kind, system, like=like)
    if one.kind in CURVES:
        size = f"{size} {one.kind}"
    amiss = "too much" if one.sense == "at_most" else "too little"
    is_nothing = not any(digit in size.split(" ")[0] for digit in "123456789")
    return "just at its limit" if is_nothing else f"{size} {'to spare' if one.margin > 0.0 else amiss}"


def asked(one: Verdict, system: System) -> str:
    """Question of a verdict with its state."""
    state = f" {one.state.replace('_', ' ')}" if one.state else ""
    return f"{restated(one.question, system)}{state}"


def like_both(old: Verdict | None, now: Verdict | None) -> float:
    """The larger of two margins: before and after are written in one unit."""
    return max((abs(one.margin) for one in (old, now) if one is not None and one.margin is not None), default=0.0)


def change_of(old: Verdict, now: Verdict, system: System, told: Told) -> dict[str, str]:
    """Change of one question: how it stood, and an arrow where more or less can be said; nothing where all is alike."""
    if old.id != now.id:
        return {}
    like = like_both(old, now)
    texts = [f"{OUTCOMES[one.verdict].lower()} {told(one, system, like)}".strip() for one in (old, now)]
    if texts[0] == texts[1] and old.state == now.state:
        return {}
    was = texts[0]
    if old.verdict == now.verdict and old.margin is not None:
        was = told(replace(old, chance=None), system, like)
    if old.state != now.state:
        return {"before": f"{was} ({old.state.replace('_', ' ') or 'no state'})", "arrow": "", "change": ""}
    better = _is_better(old, now)
    if better is None:
        return {"before": was, "arrow": "", "change": ""}
    return {"before": was, "arrow": "↑" if better else "↓", "change": "better," if better else "worse,"}


def _is_better(old: Verdict, now: Verdict) -> bool | None:
    """Whether a question stands better than before; `None` where a number came or went and the outcome stayed."""
    if old.verdict != now.verdict:
        return RANK[now.verdict] > RANK[old.verdict]
    if old.margin is None or now.margin is None:
        return None
    if old.margin != now.margin:
        return now.margin > old.margin
    return None if old.chance is None or now.chance is None else now.chance > old.chance


def change_of_group(
    now: Sequence[Verdict], before: Sequence[Verdict], worst: Verdict, decided: Verdict, system: System
) -> dict[str, str]:
    """Change of a group whose ``worst`` verdict is shown and whose worst one was ``decided`` before.

    The line of change is that of the question that is shown. What another question did stands beside it in full
    (``more``), the one that has become worse first, and ``beside`` says in a few words that there is one.
    """
    earlier = {one.id: one for one in before}
    old = earlier.get(worst.id)
    own = change_of(old, worst, system, spare_text) if old is not None else {}
    fallen = _fallen(now, earlier) if own.get("arrow") != "↓" else None
    more = [] if fallen is None else [f"worse: {_told_of(earlier[fallen.id], fallen, system)}"]
    if decided.id != worst.id and (fallen is None or decided.id != fallen.id):
        present = next((one for one in now if one.id == decided.id), None)
        more.append(f"decided before: {_told_of(decided, present, system)}")
    if not own and not more:
        return {}
    if not own:
        own = {"before": "not asked before" if old is None else "as before", "arrow": "", "change": ""}
    beside = "another is worse" if fallen is not None else "another decided before" if more else ""
    return {**own, "more": "; ".join(more), "beside": beside}


def _told_of(old: Verdict, now: Verdict | None, system: System) -> str:
    """Another question of the group with both of its margins."""
    like = like_both(old, now)
    was = spare_text(old, system, like) or OUTCOMES[old.verdict].lower()
    if now is None:
        return f"{asked(old, system)} was {was}, not asked now"
    change = change_of(old, now, system, spare_text)
    present = spare_text(now, system, like) or OUTCOMES[now.verdict].lower()
    if not change:
        return f"{asked(now, system)} {present}, as before"
    arrow = f"{change['arrow']} " if change["arrow"] else ""
    return f"{arrow}{present}, was {change['before']}: {asked(now, system)}"


def _fallen(now: Sequence[Verdict], earlier: dict[str, Verdict]) -> Verdict | None:
    """What has become worse by more than a trifle: the largest change."""
    falls = [(_fall(earlier[one.id], one), one) for one in now if one.id in earlier]
    fall, found = max(falls, key=lambda each: each[0], default=(0.0, None))
    return found if fall > 1.0 else None


def _fall(old: Verdict, now: Verdict) -> float:
    """How far a question has become worse, in trifles; a worse outcome counts more than any number."""
    if old.state != now.state:
        return 0.0
    return _OUTCOME_LOST * (RANK[old.verdict] - RANK[now.verdict]) + trifles_worse(old, now)
