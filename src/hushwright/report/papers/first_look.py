"""The first look as a paper of one page."""

from __future__ import annotations

from hushwright.report.doubt_told import doubt_told
from hushwright.report.first_look import (
    BESIDE,
    CAUTION,
    WORDS,
    begin_with,
    measured_first,
    told_answers,
    told_beside,
    told_no_quieter,
    topic_rows,
    trial_rows,
)
from hushwright.report.papers.blocks import Block, Caution, Heading, Paper, Say, Table
from hushwright.report.papers.from_lines import in_words
from hushwright.report.units_out import restated
from hushwright.search.first_look import FirstLook
from hushwright.units import System


def first_look_paper(look: FirstLook, system: System) -> Paper:
    """Page of a first look, to lay before a client.

    Parameters
    ----------
    look : FirstLook
        Answers and verdicts.
    system : {"metric", "us"}
        Units of every number.
    """
    topics = tuple(tuple(row) for row in topic_rows(look, system))
    blocks: list[Block] = [
        Heading(f"First look: {look.chosen.word}"),
        Say(told_answers(look.answers, system)),
        Table(("", "", "range", "wanted", ""), topics, (1.5, 1.0, 1.8, 1.4, 1.8)),
        Say(WORDS, "small"),
    ]
    if doubt := doubt_told(look, system):
        blocks += [Heading("How quiet, and how sure", 2), Say(doubt)]
    open_topics = tuple((name, in_words(told)) for name, told in begin_with(look, system))
    if open_topics:
        blocks += [Heading("Where to begin", 2), Table(("", ""), open_topics, (1, 4))]
    if beside := told_beside(look, system):
        blocks += [Heading(BESIDE, 2), *(Say(line) for line in beside)]
    if len(look.trials) > 1:
        trials = tuple(tuple(row) for row in trial_rows(look, system))
        columns = ("leaves", "quiet inside", "mass on the road", "")
        blocks += [Heading("How heavy to build", 2), Table(columns, trials, (0.8, 1.6, 1.6, 2.2))]
        blocks += [Say(told, "small") for told in told_no_quieter(look)]
    blocks += [Heading("What to measure first", 2), *(Say(line, "small") for line in measured_first(look, system))]
    blocks.append(Caution(restated(CAUTION, system)))
    return Paper("first-look", f"First look: {look.chosen.word}", tuple(blocks))
