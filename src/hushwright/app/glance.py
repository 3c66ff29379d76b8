"""Verdicts at a glance: one tile a group, its worst verdict, and what the last edit changed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, Final

from hushwright.app.named import WISH, Named, parts_meant, parts_to_change, pieces_of, said_path
from hushwright.app.stood import RANK, asked, change_of, change_of_group, like_both, margin_text, spare_text
from hushwright.document.nodes import parse_path
from hushwright.report.labels import OUTCOMES
from hushwright.report.told_apart import told_apart
from hushwright.report.units_out import restated, shown, shown_spread
from hushwright.report.verdict_text import chance_told, count_of_outcomes, largest_of, worst_first
from hushwright.units import System
from hushwright.verdicts.verdict import likelihood

if TYPE_CHECKING:
    from hushwright.verdicts.verdict import Verdict

SIGNS: Final = {"fails": "▲", "unproven": "◐", "meets": "●", "not_applicable": "–"}
"""Shape of each outcome; the word stands beside it, so that colour carries nothing alone."""

FILLED: Final = {"very unlikely": "○", "unlikely": "◔", "as likely as not": "◐", "likely": "◕", "very likely": "◕"}
"""Shape of what is open: a circle filled as far as it is likely to turn into the full one of what meets."""

METHOD: Final = "the way of computing itself: its laws and simplifications, not the sizes and materials of this van"
"""What of a spread no better input takes away."""

PROVISIONAL: Final = "provisional: "
"""Said before a state that was judged before the spread of its number is worked out."""


def tiles(
    now: Sequence[Verdict], before: Sequence[Verdict], system: System, *, provisional: bool = False,
    placed: Mapping[str, int] | None = None,
) -> list[dict[str, Any]]:  # fmt: skip
    """One tile a group: worst verdict, margin, state, and how it stood before the last edit where that differs.

    ``placed`` is the place of each group in sight; without it the worst comes first. Provisional ones have the spreads
    from before the edit: where anything differs, the word says so.
    """
    earlier = {one.group: one for one in reversed(worst_first(before))}
    found = []
    idle = []
    order = placed or groups_worst_first(before if provisional and before else now)
    for group in sorted(groups_of(now), key=lambda each: order.get(each, len(order))):
        worst = worst_first([one for one in now if one.group == group])[0]
        if worst.verdict == "not_applicable" and all(
            one.verdict == "not_applicable" for one in now if one.group == group
        ):
            idle.append(group)
            continue
        old = earlier.get(group)
        tile = _tile(worst, next((one for one in before if one.id == worst.id), None), system)
        if old is not None:
            ours = [one for one in now if one.group == group]
            tile |= change_of_group(ours, [one for one in before if one.group == group], worst, old, system)
        if provisional and (old is None or tile["before"]):
            tile["word"] = PROVISIONAL + tile["word"]
        found.append(tile)
    if idle:
        found.append({"group": "Not asked", "outcome": "not_applicable", "sign": SIGNS["not_applicable"], "word": "",
                      "margin": "", "what": f"nothing here to judge: {', '.join(idle)}", "before": ""})  # fmt: skip
    return found


def groups_of(verdicts: Sequence[Verdict]) -> tuple[str, ...]:
    """Groups in the order in which a builder asks."""
    if not verdicts:
        return ()
    from hushwright.verdicts.judge import GROUPS  # with every law behind it: the first page does not wait for that

    there = dict.fromkeys(one.group for one in verdicts)
    return (*(one for one in GROUPS if one in there), *(one for one in there if one not in GROUPS))


def groups_worst_first(verdicts: Sequence[Verdict]) -> dict[str, int]:
    """Place of each group in sight: by its worst verdict, what is alike in the order in which a builder asks."""
    worst: dict[str, Verdict] = {}
    for one in worst_first(verdicts):
        worst.setdefault(one.group, one)
    ranked = sorted(groups_of(verdicts), key=lambda each: (RANK[worst[each].verdict], _step(worst[each])))
    return {group: at for at, group in enumerate(ranked)}


def _step(one: Verdict) -> int:
    """Step of the likelihood of an open verdict; one that lacks a number stands in the middle."""
    if one.verdict != "unproven":
        return 0
    words = list(FILLED)
    return words.index(likelihood(one.chance)) if one.chance is not None else words.index("as likely as not")


def sign_of(one: Verdict) -> str:
    """Shape of a verdict."""
    if one.verdict != "unproven" or one.chance is None:
        return SIGNS[one.verdict]
    return FILLED[likelihood(one.chance)]


def _tile(worst: Verdict, old: Verdict | None, system: System) -> dict[str, Any]:
    return {
        "group": worst.group,
        "outcome": worst.verdict,
        "sign": sign_of(worst),
        "word": f"{OUTCOMES[worst.verdict].lower()}{_how_likely(worst)}",
        "margin": spare_text(worst, system, like_both(old, worst)),
        "what": asked(worst, system) if worst.verdict != "not_applicable" else "",
        "before": "",
    }


def _how_likely(one: Verdict) -> str:
    """Chance of an open verdict, short enough for a tile; where the number would do, the reason stands in the row."""
    told = chance_told(one)
    return "" if not told else f", {told}" if told.endswith(")") else ", see the reason"


def glance_of(verdicts: Sequence[Verdict]) -> dict[str, Any]:
    """A whole build in one line."""
    if not verdicts:
        return {"outcome": "", "sign": "", "glance": "not computed", "groups": []}
    worst = worst_first(verdicts)[0]
    groups = []
    for group in groups_of(verdicts):
        one = worst_first([each for each in verdicts if each.group == group])[0]
        groups.append({"group": group, "outcome": one.verdict, "sign": sign_of(one),
                       "word": OUTCOMES[one.verdict].lower()})  # fmt: skip
    return {
        "outcome": worst.verdict, "sign": sign_of(worst), "glance": count_of_outcomes(verdicts), "groups": groups,
    }  # fmt: skip


def rows(
    verdicts: Sequence[Verdict], before: Sequence[Verdict], group: str, system: System, *, provisional: bool = False,
    parts: Mapping[str, Named] | None = None,
) -> list[dict[str, Any]]:  # fmt: skip
    """Verdicts of one group, worst first, as the screen lists them."""
    earlier = {one.id: one for one in before}
    named = parts or {}
    listed = [one for one in worst_first(verdicts) if one.group == group]
    found = [_row(one, earlier.get(one.id), system, named) for one in listed]
    for row, of_which in zip(found, told_apart(listed), strict=True):
        row["state"] = ", ".join(each for each in (of_which, row["state"]) if each)
        if provisional and (row["id"] not in earlier or row["before"]):
            row["word"] = PROVISIONAL + row["word"]
    return found


def _row(one: Verdict, old: Verdict | None, system: System, parts: Mapping[str, Named]) -> dict[str, Any]:
    value = limit = ""
    like = max(largest_of(one), largest_of(old) if old is not None else 0.0)
    if one.value is not None:
        spread = f" {shown_spread(2.0 * one.uncertainty, one.kind, system, like=like)}" if one.uncertainty else ""
        named = f"{one.counts}: " if one.counts else ""
        value = f"{named}{shown(one.value, one.kind, system, like=like)}{spread}"
    if one.limit is not None:
        sense = "at most" if one.sense == "at_most" else "at least"
        limit = f"{sense} {shown(one.limit, one.kind, system, like=like)}"
    row: dict[str, Any] = {
        "id": one.id, "outcome": one.verdict, "sign": sign_of(one), "word": OUTCOMES[one.verdict].lower(),
        "question": restated(one.question, system), "state": one.state.replace("_", " "), "value": value,
        "limit": limit, "margin": margin_text(one, system, like_both(old, one)),
        "basis": restated(one.basis, system), "place": one.place,
        "place_said": said_path(parse_path(one.place)), "is_wish": one.place.split(".")[0] == WISH,
        "hint": pieces_of(restated(one.hint, system), parts_meant(one, parts)),
        "parts": [{"name": restated(each.name, system), "place": each.place, "drawn": each.drawn, "face": each.face,
                   "said": each.said or (each.place if each.name != each.place else "")}
                  for each in parts_to_change(one, parts)],
        "reason": restated(one.reason, system),
        "caution": restated(one.caution, system), "validity": [restated(note, system) for note in one.validity],
        "lines": [f"{line.name}: {line.told}; {restated(line.text, system)}" for line in one.lines],
        "shares": _shares(one, system), "before": "",
    }  # fmt: skip
    if old is not None:
        row |= change_of(old, one, system, margin_text)
    return row


def _shares(one: Verdict, system: System) -> list[dict[str, Any]]:
    """What the spread is made of, largest share of u² first."""
    if not one.uncertainty:
        return []
    whole = one.uncertainty**2
    found = [{"label": METHOD, "path": "", "share": one.method_uncertainty**2 / whole, "change": ""}]
    found += [
        {"label": each.label, "path": each.path, "share": each.change**2 / whole,
         "change": shown_spread(abs(each.change), one.kind, system)}
        for each in one.contributions
    ]  # fmt: skip
    ranked = sorted(found, key=lambda each: -float(str(each["share"])))
    return [each for each in ranked[:8] if float(str(each["share"])) >= 0.005]
