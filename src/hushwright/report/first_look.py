"""The first look on one page: feasible, tight, hard to reach or not, with ranges, and what to measure first."""

from __future__ import annotations

from collections.abc import Sequence

from hushwright.report.doubt_told import doubt_told
from hushwright.report.layout import heading, labelled, table, wrapped
from hushwright.report.measure_next import now
from hushwright.report.told_apart import told_apart
from hushwright.report.units_out import restated, shown
from hushwright.report.verdict_text import count_of_outcomes, percent
from hushwright.search.first_look import MENDED, FirstLook, Mend, Topic, Trial
from hushwright.search.heavier import NoQuieter
from hushwright.search.questions import Answers
from hushwright.units import System
from hushwright.verdicts.verdict import Verdict, likelihood

TRY = "quiet: what to try"
BESIDE = "What else does not hold yet"
WORDS = "tight: open; hard to reach: open, less than one chance in three; feasible and not: with all doubt."
_MEASURED = 6
_SUREST = 0.9999
_PAGE = 84  # columns of an A4 page in a fixed type
_ON_THE_VAN = "measure it on the van itself: the method alone"
_TRIALS = ["", "quiet inside", "mass on the road", ""]
_SENSES = {"at_most": "at most", "at_least": "at least"}
CAUTION = (
    "A first look rests on typical figures and ranges, not on this van. It decides nothing: weigh and measure the "
    "donor van, and leave mains, batteries, restraint and the law to licensed practice and the local rules."
)


def first_look_page(look: FirstLook, system: System) -> str:
    """Page of a first look.

    Parameters
    ----------
    look : FirstLook
        Answers and verdicts.
    system : str
        ``metric`` or ``us``.

    Returns
    -------
    str
        At most a page of A4 in a fixed type.
    """
    title = f"First look: {look.chosen.word}"
    lines = [title, "═" * len(title)]
    lines += wrapped(told_answers(look.answers, system), indent=2, hanging=2, width=_PAGE)
    lines += ["", *table(topic_rows(look, system), gap=2)]
    lines += [*wrapped(WORDS, indent=2, hanging=2, width=_PAGE), ""]
    if doubt := doubt_told(look, system):
        lines += labelled("how quiet, how sure", doubt, column=24, width=_PAGE)
    for name, told in begin_with(look, system):
        lines += labelled(name, told, column=24, width=_PAGE)
    if beside := told_beside(look, system):
        lines += heading(BESIDE)
        lines += [line for told in beside for line in wrapped(told, indent=2, hanging=4, width=_PAGE)]
    if len(look.trials) > 1:
        lines += [
            *heading("How heavy to build"),
            *table([_TRIALS, *(_trial(each, look.chosen, system) for each in look.trials)]),
        ]
        lines += [line for told in told_no_quieter(look) for line in wrapped(told, indent=2, hanging=2, width=_PAGE)]
    lines += heading("What to measure first")
    lines += [f"  {line}" for line in measured_first(look, system)]
    lines += _open_ends(look)
    return "\n".join([*lines, "", *wrapped(restated(CAUTION, system), width=_PAGE)])


def topic_rows(look: FirstLook, system: System) -> list[list[str]]:
    """Topic, word, range, what is wanted and how likely, one row each."""
    return [_row(each, system) for each in look.chosen.topics]


def trial_rows(look: FirstLook, system: System) -> list[list[str]]:
    """Weights of the quiet room that were tried, with quiet and mass."""
    return [_trial(each, look.chosen, system) for each in look.trials]


def told_no_quieter(look: FirstLook) -> list[str]:
    """Why a heavier quiet room comes out no quieter, where it does."""
    return [_no_quieter(each) for each in look.no_quieter]


def _no_quieter(one: NoQuieter) -> str:
    band = f"In {one.band}, which decides, what" if one.band else "What"
    ways = ", ".join(
        f"{each.name} {percent(each.share)}" + (f" ({each.change:+.0f} dB)" if abs(each.change) >= 0.5 else "")
        for each in one.ways
    )
    told = (
        f"The {one.heavier} room is no quieter than the {one.lighter} one. {band} weight keeps out falls from "
        f"{percent(one.share_before)} to {percent(one.share_after)} of the sound; the rest comes by {ways}."
    )
    if one.swallows_less:
        told += " Heavier leaves also swallow less low sound in the room, so the same fan is louder in it."
    return f"{told} Mend these first, then weight pays."


def begin_with(look: FirstLook, system: System) -> list[tuple[str, str]]:
    """Topics that are not feasible, with what to begin with, and what to try on the ways of the sound."""
    found = []
    for each in look.chosen.topics:
        if each.worst is not None and each.word in ("tight", "hard to reach", "not feasible"):
            short = _short(each.worst)
            if each.name == MENDED and look.mends:  # their ways follow; room for them on the page
                short = "; ".join(part.partition(":")[0] if part.startswith("to be sure") else part
                                  for part in short.split("; "))  # fmt: skip
            found.append((each.name, restated(_asked(each.worst) + short, system)))
            if each.name == MENDED and look.mends:
                found.append((TRY, restated(_tried(look.mends), system)))
    return found


def _tried(mends: Sequence[Mend]) -> str:
    """Parts of the build with what single changes take off their ways."""
    told = []
    for each in mends:
        changes = ", ".join(f"{what} {gain:.0f} dB" for what, gain in each.changes)
        told.append(f"{each.part} ({percent(each.share)}): {changes or 'none takes off 1 dB'}")
    return f"each change alone, off its own way: {'; '.join(told)}"


def _asked(verdict: Verdict) -> str:
    """Question of a verdict that counts, as its topic has no number to show; and why it fails."""
    reason = f" {verdict.reason};" if verdict.verdict == "fails" and verdict.reason else ""
    return f"{verdict.question}{reason} " if verdict.kind == "count" else reason.lstrip() + " " * bool(reason)


def told_beside(look: FirstLook, system: System) -> list[str]:
    """What else the build does not hold yet: every question, worst value against what is wanted."""
    failing = look.chosen.beside
    return [_beside(each, on, system) for each, on in zip(failing, told_apart(failing), strict=True)]


def _beside(verdict: Verdict, on: str, system: System) -> str:
    same = f"({', '.join(each for each in (on, verdict.state.replace('_', ' ')) if each)})" if on else ""
    question = f"{verdict.question} {same}".rstrip()
    if verdict.kind == "count" or verdict.limit is None:
        return question
    limit = f"{_SENSES[verdict.sense]} {shown(verdict.limit, verdict.kind, system)}"
    return f"{question} {range_of(verdict, system)}, wanted {limit}"


def _short(verdict: Verdict) -> str:
    """Hint of a verdict; what its doubt rests on stands apart where the method makes most of it."""
    told = [part for part in (verdict.hint or verdict.reason).split("; ") if not part.startswith(_ON_THE_VAN)]
    return "; ".join(told) or verdict.hint


def measured_first(look: FirstLook, system: System) -> list[str]:
    """Inputs whose spread keeps verdicts open, what they are now and where that is from."""
    return [f"{one.label}: now {now(one, system)}, {one.origin}" for one in look.measure[:_MEASURED]]


def told_answers(answers: Answers, system: System) -> str:
    """What was answered, as a sentence."""
    inside = f"{answers.quiet_people} in the quiet room, {answers.control_people} in the control room"
    if answers.use == "other" or not answers.quiet_people:
        inside = "no quiet room"
    level = "" if answers.outdoor_level is None else f" at {answers.outdoor_level:g}{_sure_to(answers)} dB(A)"
    return (
        f"{answers.body}; {answers.use}; {inside}; {answers.crew} on the road; tallest"
        f" {shown(answers.tallest, 'length', system)}; {answers.place}{level}; hottest day"
        f" {shown(answers.hottest, 'temperature', system)}; {answers.hours / 3600.0:g} h without a plug;"
        f" {answers.gear:g} W of equipment."
    )


def _sure_to(answers: Answers) -> str:
    return "" if answers.level_within is None else f" ±{answers.level_within:g}"


def range_of(verdict: Verdict, system: System) -> str:
    """Value less and plus twice its standard uncertainty."""
    assert verdict.value is not None
    spread = 2.0 * (verdict.uncertainty or 0.0)
    low, high = (shown(verdict.value + sign * spread, verdict.kind, system) for sign in (-1.0, 1.0))
    return low if low == high else f"{low} to {high}"


def _row(topic: Topic, system: System) -> list[str]:
    verdict = topic.worst
    if verdict is None:
        return [topic.name, topic.word, "", "", ""]
    if verdict.kind == "count":  # how many things are wrong says less than the word, unless it does not hold
        if verdict.verdict == "meets" or verdict.limit is None or not verdict.counts:
            return [topic.name, topic.word, "", "", ""]
        return [topic.name, topic.word, f"{verdict.counts}: {verdict.value:g}",
                f"{_SENSES[verdict.sense]} {verdict.limit:g}", ""]  # fmt: skip
    if verdict.limit is None:
        return [topic.name, topic.word, range_of(verdict, system), "", ""]
    limit = f"{_SENSES[verdict.sense]} {shown(verdict.limit, verdict.kind, system)}"
    chance = "" if verdict.chance is None else f"{likelihood(verdict.chance)} ({percent(_never_sure(verdict.chance))})"
    return [topic.name, topic.word, range_of(verdict, system), limit, chance]


def _never_sure(chance: float) -> float:
    """Chance as it is told: a first look knows nothing for certain."""
    return min(max(chance, 1.0 - _SUREST), _SUREST)


def _trial(trial: Trial, chosen: Trial, system: System) -> list[str]:
    told = {each.name: each for each in trial.topics}
    cells = ["" if (worst := told[name].worst) is None else range_of(worst, system) for name in _TRIALS[1:3]]
    return [trial.weight, *cells, "taken: the best chance of all together" if trial is chosen else ""]


def _open_ends(look: FirstLook) -> list[str]:
    """How many verdicts the build has in all, for `check`."""
    told = count_of_outcomes(look.verdicts)
    return ["", f"  All verdicts of the build: {told}."]
