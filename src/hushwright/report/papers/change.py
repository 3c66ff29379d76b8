"""The change order: what differs between two revisions, and what that does to price, mass and every verdict."""

from __future__ import annotations

from decimal import Decimal

from hushwright.document.changes import changed_fields
from hushwright.report.cost import coins
from hushwright.report.cost_text import signed
from hushwright.report.labels import OUTCOMES
from hushwright.report.papers.blocks import Block, Caution, Heading, Paper, Say, Signatures, Table
from hushwright.report.papers.common import Case, cautions, spoken, summary
from hushwright.report.units_out import shown
from hushwright.report.verdict_text import worst_first
from hushwright.verdicts.judge import GROUPS
from hushwright.verdicts.verdict import Verdict

_NOTHING = "–"


def change_order(old: Case, new: Case) -> Paper:
    """Fields that changed; price, mass, verdicts before and after; lines to sign.

    Parameters
    ----------
    old, new : Case
        Two revisions, evaluated and judged.
    """
    before, after = old.evaluation.build, new.evaluation.build
    changes = changed_fields(before.document.root, after.document.root)
    revisions = " to ".join(build.document.root.date or build.file for build in (before, after))
    blocks: list[Block] = [Say(after.title or "Untitled build", "title"), Say(f"Change order · {revisions}", "lead")]
    rows = tuple((each.path, each.old or _NOTHING, each.new or _NOTHING) for each in changes)
    blocks += [Say(_in_short(old, new, len(rows)), "strong"), *_price(old, new), *_mass(old, new)]
    blocks += _verdicts(old, new)
    opened = [one for one in new.verdicts if _worse(_before(old, one), one)]
    if opened:
        blocks += [Heading("Cautions"), *cautions(new, opened)]
    blocks += [Caution("Nothing of it is built before both have signed."), Signatures(("workshop", "client"))]
    blocks.append(Heading("What changes in the file"))
    blocks.append(
        Table(("place in the file", "was", "becomes"), rows, (2, 1.5, 1.5), small=True) if rows else Say("Nothing.")
    )
    return Paper("change-order", "Change order", tuple(blocks))


def _in_short(old: Case, new: Case, fields: int) -> str:
    """Price, mass and verdicts in a sentence each, before the tables."""
    told = [f"Values of the file that change: {fields}; they stand at the end."]
    was, is_ = old.evaluation.cost, new.evaluation.cost
    if was.quote is not None and is_.quote is not None and was.currency == is_.currency:
        difference = signed(is_.quote.gross - was.quote.gross)
        told.append(f"Price with tax {coins(is_.quote.gross)} {is_.currency}, {difference}.")
    heaviest = max(new.evaluation.masses, key=lambda one: one.total, default=None)
    before = next((one for one in old.evaluation.masses if heaviest and one.state == heaviest.state), None)
    if heaviest is not None and before is not None:
        mass = shown(heaviest.total, "mass", new.system)
        difference = shown(heaviest.total - before.total, "mass", new.system, signed=True)
        told.append(f"Mass, state {spoken(heaviest.state)}: {mass}, {difference}.")
    ways = [_way(_before(old, one), one) for one in new.verdicts]
    told.append(
        f"Verdicts: {ways.count('worse')} get worse, {ways.count('better')} better, {ways.count('new')} are new."
    )
    return " ".join(told)


def _price(old: Case, new: Case) -> list[Block]:
    was, is_ = old.evaluation.cost, new.evaluation.cost
    blocks: list[Block] = [Heading("Price")]
    if was.quote is None or is_.quote is None:
        return [*blocks, Say("One of the two files has no prices, so no difference can be told.")]
    if was.currency != is_.currency:
        return [*blocks, Say(f"One is in {was.currency}, the other in {is_.currency}.")]
    names = dict.fromkeys(share.name for share in (*was.by_purpose, *is_.by_purpose))
    rows = []
    for name in names:
        one, other = (
            next((share.total for share in cost.by_purpose if share.name == name), Decimal(0)) for cost in (was, is_)
        )
        if one != other:
            rows.append((name, coins(one), coins(other), signed(other - one)))
    for name, one, other in (
        ("without tax", was.quote.net, is_.quote.net),
        ("with tax", was.quote.gross, is_.quote.gross),
    ):
        rows.append((name, coins(one), coins(other), signed(other - one)))
    columns = (f"[{is_.currency}]", "was", "becomes", "difference")
    blocks.append(Table(columns, tuple(rows), (2, 1, 1, 1), right=(1, 2, 3), total=True))
    fresh = {each.name for each in is_.unpriced} - {each.name for each in was.unpriced}
    if fresh:
        blocks.append(Caution(f"Without a price, and not in the difference: {', '.join(sorted(fresh))}."))
    return blocks


def _mass(old: Case, new: Case) -> list[Block]:
    """Total and axles of every state that both have."""
    known = {one.state: one for one in old.evaluation.masses}
    rows = []
    for one in new.evaluation.masses:
        was = known.get(one.state)
        if was is None:
            continue
        for name, before, after in (
            ("total", was.total, one.total),
            ("front axle", was.front, one.front),
            ("rear axle", was.rear, one.rear),
        ):
            difference = shown(after - before, "mass", new.system, signed=True)
            told = (shown(before, "mass", new.system), shown(after, "mass", new.system), difference)
            if told[0] != told[1]:
                rows.append((f"{spoken(one.state)}, {name}", *told))
    if not rows:
        return [Heading("Mass"), Say("Stays as it is.")] if known else []
    return [
        Heading("Mass"),
        Table(("state", "was", "becomes", "difference"), tuple(rows), (2, 1, 1, 1), right=(1, 2, 3), small=True),
    ]


def _verdicts(old: Case, new: Case) -> list[Block]:
    """Those that get worse, those that turn otherwise, those whose number moves; then how many stay in each group."""
    rows, same = [], []
    turned = {"worse": 0, "new": 1, "better": 1}
    for one in sorted(worst_first(new.verdicts), key=lambda one: turned.get(_way(_before(old, one), one), 2)):
        was = _before(old, one)
        if was is not None and (was.verdict, _number(new, was)) == (one.verdict, _number(new, one)):
            same.append(one)
            continue
        rows.append((new.told(one.question), one.id, _outcome(new, was), _outcome(new, one), _way(was, one)))
    gone = [one for one in old.verdicts if one.id not in {each.id for each in new.verdicts}]
    rows += [(old.told(one.question), one.id, _outcome(old, one), "no longer asked", "") for one in gone]
    blocks: list[Block] = [Heading("Verdicts"), Say(f"Was: {summary(old.verdicts)}. Becomes: {summary(new.verdicts)}.")]
    columns = ("question", "verdict", "was", "becomes", "")
    blocks.append(
        Table(columns, tuple(rows), (2.2, 1.8, 1.5, 1.5, 0.7), small=True) if rows else Say("Every verdict stays.")
    )
    return [*blocks, Say(_unchanged(same), "small")] if same else blocks


def _unchanged(same: list[Verdict]) -> str:
    """How many verdicts stay as they are, group by group."""
    counts = [(group, sum(one.group == group for one in same)) for group in GROUPS]
    told = ", ".join(f"{group} {count}" for group, count in counts if count)
    return f"Unchanged: {len(same)} more, each with the same outcome, value and limit ({told})."


def _before(old: Case, one: Verdict) -> Verdict | None:
    return next((each for each in old.verdicts if each.id == one.id), None)


def _number(case: Case, one: Verdict) -> str:
    """Value and limit as they are printed: what rounds to the same is the same."""
    value = "" if one.value is None else shown(one.value, one.kind, case.system)
    return f"{value} {'' if one.limit is None else shown(one.limit, one.kind, case.system)}"


def _outcome(case: Case, one: Verdict | None) -> str:
    if one is None:
        return "not asked"
    value = "" if one.value is None else f", {shown(one.value, one.kind, case.system)}"
    return f"{OUTCOMES[one.verdict]}{value}"


_RANK = {"fails": 0, "unproven": 1, "not_applicable": 2, "meets": 3}


def _worse(was: Verdict | None, one: Verdict) -> bool:
    return one.verdict in ("fails", "unproven") and (was is None or _RANK[one.verdict] < _RANK[was.verdict])


def _way(was: Verdict | None, one: Verdict) -> str:
    if was is None:
        return "new"
    if _RANK[one.verdict] != _RANK[was.verdict]:
        return "worse" if _RANK[one.verdict] < _RANK[was.verdict] else "better"
    if was.margin is None or one.margin is None:
        return ""
    return "more margin" if one.margin > was.margin else "less margin" if one.margin < was.margin else ""
