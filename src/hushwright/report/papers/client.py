"""Two pages for the client: what the van will do, what is open, what it costs, what to mind."""

from __future__ import annotations

import math
from collections.abc import Sequence

from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS
from hushwright.report.cost import coins
from hushwright.report.labels import OUTCOMES
from hushwright.report.papers.blocks import Block, Heading, Paper, Say, Table
from hushwright.report.papers.common import Case, spoken, title_of, without_low_octaves
from hushwright.report.units_out import shown, shown_spread
from hushwright.report.verdict_text import SENSES, largest_of, worst_first, yes_or_no
from hushwright.verdicts.judge import GROUPS
from hushwright.verdicts.verdict import Verdict, likelihood

_OPEN, _MET, _MINDED = 9, 12, 6
_PITCHES = (("low hum", 0.0, 200.0), ("murmur", 200.0, 2500.0), ("hiss", 2500.0, math.inf))  # Hz, common practice
_PITCHES_TOLD = (
    "Low hum is that of engines and far lorries, murmur that of voices, hiss that of leaves and moving air; bands and "
    "levels stand in the dossier."
)
_MARKS = (
    "MEETS: it holds even where things come out worse than expected. UNPROVEN: it may come out either way, and how "
    "likely it is kept stands beside it, or something is not known yet; measuring the van settles it. FAILS: it does "
    "not hold even where things come out better."
)
_ONCE = (
    "The counts at the head are of every verdict in every state. Below, a question that is asked in several states or "
    "places stands once, as it comes out worst."
)
_FIRST = ("Quiet", "Air", "Heat", "Space", "Power", "Safety", "Budget", "Papers", "Mass")
"""Groups that a client asks after first; the others are the workshop's own."""
_COLUMNS, _WIDTHS = ("", "question", "expected", "wanted"), (1, 2.6, 2.4, 1.3)
_WORDS = (
    ("dB(A)", "dB(A): level as the ear weighs it; ten more sound about twice as loud."),
    ("NC", "NC: curve for a quiet room, band by band; a lower number is quieter."),
    ("NR", "NR: curve for a quiet room, band by band; a lower number is quieter."),
)


def client(case: Case) -> Paper:
    """Short summary that fits on two pages."""
    blocks: list[Block] = [*title_of(case, "Summary for the client"), Say(_counted(case.verdicts), "strong")]
    blocks += [*_sound(case), *_verdicts(case), *_people(case), *_price(case), *_mind(case)]
    return Paper("client", "Summary for the client", tuple(blocks))


def _counted(verdicts: Sequence[Verdict]) -> str:
    """How everything came out, in a sentence."""
    count = {word: sum(one.verdict == word for one in verdicts) for word in ("meets", "unproven", "fails")}
    failing = f"{count['fails']} fail" if count["fails"] else "none surely fails"
    return (
        f"Of {sum(count.values())} verdicts {count['meets']} surely meet, {count['unproven']} are unproven, {failing}."
    )


def _sound(case: Case) -> list[Block]:
    rows = []
    for one in case.evaluation.backgrounds:
        inside = next((line for line in one.lines if line.name == "dB(A)"), None)
        if inside is not None:
            heard = by_ear(one.audibility) if len(one.audibility) == len(one.levels) else ""
            rows.append((spoken(one.situation), spoken(one.state), f"{inside.value:.0f} dB(A)", heard))
    if not rows:
        return []
    columns = ("outside", "state", "inside", "by ear")
    table = Table(columns, tuple(rows), (1, 1.5, 0.8, 3.4), small=True)
    return [Heading("How quiet it is inside", 2), table, Say(_PITCHES_TOLD, "small")]


def by_ear(audibility: Sequence[str]) -> str:
    """What of low, middle and high sound is heard, in words.

    Examples
    --------
    >>> by_ear(["just heard"] * 4 + ["not heard"] * 23)
    'some low hum may just be heard'
    >>> by_ear(["heard"] * 15 + ["just heard"] * 12)
    'low hum and murmur are heard; some hiss may just be heard'
    """
    told: dict[str, list[str]] = {"heard": [], "just heard": []}
    for name, lowest, highest in _PITCHES:
        pairs = zip(THIRD_OCTAVE_BANDS, audibility, strict=True)
        words = {word for band, word in pairs if lowest <= band < highest}
        found = next((word for word in told if word in words), None)
        if found:
            told[found].append(name)
    heard, just = (" and ".join(each) for each in told.values())
    parts = [f"{heard} {'are' if ' and ' in heard else 'is'} heard"] if heard else []
    parts += [f"some {just} may just be heard"] if just else []
    return "; ".join(parts) or "nothing is heard"


def _verdicts(case: Case) -> list[Block]:
    """Of each group the worst first, one a question, so that no group is lost."""
    opened = _from_all_groups(case, ("fails", "unproven"))
    unsure = {one.question for one in case.verdicts if one.verdict in ("fails", "unproven")}
    met = [one for one in _from_all_groups(case, ("meets",)) if one.question not in unsure]
    blocks: list[Block] = [Say(_MARKS, "small"), Say(_ONCE, "small")] if opened or met else []
    blocks += _open(case, opened)
    if met:
        asked = [one for one in met if one.group in _FIRST]
        met = [*asked, *(one for one in met if one.group not in _FIRST)]
        rows = tuple(_row(case, one) for one in met[:_MET])
        blocks += [Heading("What holds", 2), Table(_COLUMNS, rows, _WIDTHS, small=True, mark=0)]
        blocks += _further(met[_MET:])
    return blocks + _explained(case, [*opened, *met[:_MET]])


def _further(left: Sequence[Verdict]) -> list[Block]:
    """How many more questions there are, group by group."""
    if not left:
        return []
    counts = [(group, sum(one.group == group for one in left)) for group in GROUPS]
    told = ", ".join(f"{group} {count}" for group, count in counts if count)
    return [Say(f"{len(left)} more questions stand in the dossier: {told}.", "small")]


def _explained(case: Case, told: Sequence[Verdict]) -> list[Block]:
    """Words of the tables, and what a curve leaves out."""
    kinds = {one.kind for one in told} | {"dB(A)"}
    texts = [text for name, text in _WORDS if name in kinds]
    for _, target, heard in without_low_octaves(case, told):
        beside = f" With it, {heard:.0f} dB(A) are expected inside." if heard is not None else ""
        texts.append(f"The limit {target.text} does not count low hum, which may be heard.{beside}")
    return [Say(" ".join(dict.fromkeys(texts)), "small")]


def _open(case: Case, opened: list[Verdict]) -> list[Block]:
    """What fails, then what is unproven, each under its own heading."""
    fails = [one for one in opened if one.verdict == "fails"]
    told = [*fails, *(one for one in opened if one.verdict != "fails")][:_OPEN]
    blocks: list[Block] = []
    for heading, failing in (("What does not hold yet", True), ("What is not sure yet", False)):
        rows = tuple(_row(case, one) for one in told if (one.verdict == "fails") == failing)
        if rows:
            blocks += [Heading(heading, 2), Table(_COLUMNS, rows, _WIDTHS, small=True, mark=0)]
    left = [one for one in opened if all(one is not each for each in told)]
    return blocks + _further(left)


def _from_all_groups(case: Case, outcomes: tuple[str, ...]) -> list[Verdict]:
    """Verdicts of some outcomes, one a question: the first of every group, then the second of every group …

    Groups that a client asks after stand before those of the workshop.
    """
    chosen: dict[str, list[Verdict]] = {}
    asked: set[str] = set()
    for one in worst_first(case.verdicts):
        known = one.value is not None or one.verdict == "unproven"  # what nobody says is open, and is told
        if known and one.verdict in outcomes and one.question not in asked:
            asked.add(one.question)
            chosen.setdefault(one.group, []).append(one)
    order = [*_FIRST, *(group for group in GROUPS if group not in _FIRST)]
    rows = [chosen[group] for group in order if group in chosen]
    most = max(map(len, rows), default=0)
    return [row[at] for at in range(most) for row in rows if at < len(row)]


def _row(case: Case, one: Verdict) -> tuple[str, str, str, str]:
    """Outcome, question, what is expected and what is wanted."""
    question = case.told(one.question)
    if one.group == "Papers":
        return OUTCOMES[one.verdict], question, "yes" if one.verdict == "meets" else "not yet", ""
    if one.value is None:
        return OUTCOMES[one.verdict], question, f"not known yet: {case.told(one.reason)}", ""
    if answer := yes_or_no(one):
        return OUTCOMES[one.verdict], question, f"{answer}{_why(case, one)}", ""
    like = largest_of(one)
    value = shown(one.value, one.kind, case.system, like=like)
    if one.uncertainty:
        spread = shown_spread(2.0 * one.uncertainty, one.kind, case.system, like=like)
        value += f", give or take {spread.removeprefix('±')}"
    named = f"{one.counts}: {value}" if one.counts else value
    limit = "" if one.limit is None else f"{SENSES[one.sense]} {shown(one.limit, one.kind, case.system, like=like)}"
    if one.kind == "margin":  # how far a level is over a limit that has a number in every band
        what, limit = ("allowed", "not over it") if one.sense == "at_most" else ("needed", "not under it")
        named = f"{'under' if value[0] == '-' else 'over'} what is {what} by {value.removeprefix('-')}"
    return OUTCOMES[one.verdict], question, f"{named}{_why(case, one)}", limit


def _why(case: Case, one: Verdict) -> str:
    """Of an open verdict how likely it is kept, or the reason where its number would do."""
    if one.verdict != "unproven":
        return ""
    if one.margin is not None and abs(one.margin) >= 2.0 * (one.uncertainty or 0.0):
        return f"; {case.told(one.reason)}" if one.reason else ""
    return "" if one.chance is None else f"; {likelihood(one.chance)} to be kept"


def _people(case: Case) -> list[Block]:
    rooms = [
        f"{spoken(one.room)}: {shown(one.headroom_centre, 'length', case.system)} to stand in, "
        f"{shown(one.clear_width_shoulder, 'length', case.system)} wide at the shoulders, "
        f"{shown(one.floor_area, 'area', case.system)} of floor"
        for one in case.evaluation.space
    ]
    return [Heading("Room", 2), *(Say(text) for text in rooms)] if rooms else []


def _price(case: Case) -> list[Block]:
    cost = case.evaluation.cost
    if cost.quote is None:
        return []
    told = f"{coins(cost.quote.net)} {cost.currency} without tax, {coins(cost.quote.gross)} {cost.currency} with tax"
    if cost.unpriced:
        told += f"; {len(cost.unpriced)} things have no price yet and are not in it"
    return [Heading("What it costs", 2), Say(f"{told}. The quote has the lines, options and terms.")]


def _mind(case: Case) -> list[Block]:
    """Cautions of what is not sure first."""
    texts = list(dict.fromkeys(case.told(one.caution) for one in worst_first(case.verdicts) if one.caution))
    if not texts:
        return []
    more = [Say(f"{len(texts) - _MINDED} more cautions stand in the dossier.", "small")] if len(texts) > _MINDED else []
    return [Heading("Mind", 2), *(Say(f"– {text}") for text in texts[:_MINDED]), *more]
