"""The brief as it stands in the file: every wish with what it means."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from hushwright.document.fields import Section
from hushwright.document.shapes import fields_of
from hushwright.document.values import Value
from hushwright.report.papers.blocks import Block, Heading, Say, Table
from hushwright.report.papers.common import Case, spoken, without_code_marks
from hushwright.report.units_out import shown
from hushwright.units import System

_OCTAVE = re.compile(r"hz_\d+")


def brief_blocks(case: Case) -> list[Block]:
    """Wishes, states of use and tolerances, as the file gives them."""
    root = case.evaluation.build.document.root
    blocks: list[Block] = [
        Heading("Brief and targets", fresh=True),
        Say("What the client asks for, as the build file says it; what is left out is among the assumptions."),
        _given(root.brief, "", case.system),
        Heading("States of use", 2),
        Table(("state", "people", "open", "fans run", "takes", "road"), _states(case), (1.3, 2, 1.5, 1.6, 0.6, 0.6)),
    ]
    return blocks


def _given(section: Section, at: str, system: System) -> Table:
    rows = tuple(_rows(section, at, system))
    return Table(("wish", "value", "what it is"), rows, (1.5, 1.4, 3.0), small=True)


def _rows(node: Section, at: str, system: System) -> Iterator[tuple[str, str, str]]:
    """Every given field of a section: where, value in the wanted units, its sentence."""
    for name, one in fields_of(type(node)).items():
        if name not in node.model_fields_set:
            continue
        here = f"{at}, {_worded(name)}" if at and name != "octaves" else at or _worded(name)
        for inner, value in _leaves(node.__dict__[name], here):
            if isinstance(value, Section):
                yield from _rows(value, inner, system)
            elif isinstance(value, Value):
                text = "unknown" if value.unknown else shown(value.value, one.spec.kind or "count", system)
                yield inner, text, for_people(one.spec.sentence)
            elif value is not None:
                yield inner, str(value), for_people(one.spec.sentence)


def for_people(sentence: str) -> str:
    """Sentence of a field for who reads no build file: without what may be typed and what holds where it is left out.

    Examples
    --------
    >>> for_people("What the background may be: `NC 25`, `NR 20`; left out, the usual one for the use.")
    'What the background may be.'
    >>> for_people("Sum, in the currency of `prices`.")
    'Sum.'
    """
    told = sentence.split("; left out,")[0]
    head, marked, _ = told.partition("`")
    if marked:
        cut = max(head.rfind(each) for each in (": ", "; ", ", "))
        told = head[:cut] if cut > 0 else without_code_marks(told)
    return f"{told.rstrip('.')}."


def _worded(name: str) -> str:
    """Name of a field in words; ``hz_63`` is an octave."""
    return f"{name[3:]} Hz octave" if _OCTAVE.fullmatch(name) else spoken(name)


def _own_name(value: Any) -> str:
    """What an item of a list is called by its own field, if at all."""
    named = value.__dict__.get("situation", "") if isinstance(value, Section) else ""
    return spoken(named) if isinstance(named, str) else ""


def _leaves(value: Any, at: str) -> Iterator[tuple[str, Any]]:
    if isinstance(value, tuple) and value and all(isinstance(each, str) for each in value):
        yield at, ", ".join(map(spoken, value))
    elif isinstance(value, tuple):
        for number, each in enumerate(value, start=1):
            yield from _leaves(each, _own_name(each) or f"{at} {number}")
    elif isinstance(value, dict):
        for name, each in value.items():
            yield from _leaves(each, f"{at}, {spoken(name)}")
    else:
        yield at, value


def _states(case: Case) -> tuple[tuple[str, ...], ...]:
    return tuple(
        (
            spoken(state.name),
            ", ".join(f"{number} in {spoken(where)}" for where, number in state.people if number) or "nobody",
            ", ".join(map(spoken, state.open)) or "all shut",
            ", ".join(map(spoken, state.fans)) or "none",
            "yes" if state.takes else "no",
            "yes" if state.road else "no",
        )
        for state in case.evaluation.build.states
    )
