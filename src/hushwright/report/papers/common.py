"""Parts that several papers share: title, verdict cards, cautions, lines of the text report as blocks."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from hushwright.evaluation.options import OptionResult
from hushwright.evaluation.results import Evaluation
from hushwright.report.labels import OUTCOMES, label
from hushwright.report.papers.blocks import Block, Caution, Fixed, Heading, Judged, Say
from hushwright.report.units_out import restated
from hushwright.report.verdict_text import count_of_outcomes, numbers_of, placed
from hushwright.units import System
from hushwright.verdicts.verdict import Verdict


@dataclass(frozen=True, slots=True)
class Case:
    """Everything that a paper is made of."""

    evaluation: Evaluation
    verdicts: tuple[Verdict, ...]
    options: tuple[OptionResult, ...]
    system: System

    def told(self, text: str) -> str:
        """Prose in the wanted units."""
        return restated(text, self.system)


def spoken(name: str) -> str:
    """Name of a room, state or opening as it is printed."""
    return name.replace("_", " ").replace(".", ", ")


def title_of(case: Case, kind: str) -> list[Block]:
    """Head of a paper: build, what it is, of which revision."""
    build = case.evaluation.build
    root = build.document.root
    drawn = build.drawn
    named = [f"revision {drawn.revision}" if drawn.revision else "", f"job {drawn.number}" if drawn.number else ""]
    line = " · ".join(text for text in (kind, root.date, *named) if text)
    blocks: list[Block] = [Say(build.title or "Untitled build", "title"), Say(line, "lead")]
    return blocks + ([Say(case.told(root.note))] if root.note else [])


def summary(verdicts: Sequence[Verdict]) -> str:
    """How everything came out, in one line."""
    return count_of_outcomes(verdicts)


def card(case: Case, one: Verdict) -> Judged:
    """A verdict with everything that is said about it."""
    lines = [(line.name, f"{line.value:.1f} {line.unit}; {case.told(line.text)}") for line in one.lines]
    basis = case.told(one.basis)
    where = placed(one.place, case.evaluation.build.document) if one.place else ""
    lines += [(label("basis"), "; ".join(text for text in (basis, where) if text))]
    lines += [(label("reason"), case.told(one.reason)), (label("hint"), case.told(one.hint))]
    lines += [(label("validity"), case.told(note)) for note in one.validity]
    lines += [(label("caution"), case.told(one.caution))]
    name = f"{one.id}, state {spoken(one.state)}" if one.state else one.id
    return Judged(OUTCOMES[one.verdict], name, case.told(one.question), "   ".join(numbers_of(one, case.system)),
                  tuple((name, told) for name, told in lines if told))  # fmt: skip


def cautions(case: Case, verdicts: Iterable[Verdict] | None = None) -> list[Block]:
    """Every caution once, in frames."""
    chosen = case.verdicts if verdicts is None else verdicts
    texts = dict.fromkeys(case.told(one.caution) for one in chosen if one.caution)
    return [Caution(text) for text in texts]


def as_blocks(lines: Sequence[str], level: int = 2) -> list[Block]:
    """Lines of the text report: their headings as headings, the rest in a typewriter face."""
    blocks: list[Block] = []
    held: list[str] = []

    def put() -> None:
        while held and not held[0].strip():
            held.pop(0)
        while held and not held[-1].strip():
            held.pop()
        if held:
            blocks.append(Fixed(tuple(held)))
        held.clear()

    for line in lines:
        if set(line) == {"─"} and held and len(held[-1]) == len(line):
            heading = held.pop()
            put()
            blocks.append(Heading(heading, level))
        else:
            held.append(line)
    put()
    return blocks
