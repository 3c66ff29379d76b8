"""Laws as text: the list of them, one with what it takes and where it is from, and what it gives."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Any, Final

from hushwright.evaluation.laws.calls import Amount, Answer, beyond_hand
from hushwright.evaluation.laws.kinds import cannot_be_typed, is_list, small_values, spelled, words_of
from hushwright.evaluation.laws.laws import Law, Parameter, fields_of
from hushwright.report.formula_text import formula_text
from hushwright.report.law_numbers import told, told_all
from hushwright.report.layout import WIDTH, counted, heading, labelled, shortened, table, wrapped
from hushwright.units import System

_LABEL_COLUMN: Final = 14
_DEEP: Final = 3
_NOT_BY_HAND: Final = "not by hand"


def laws_text(laws: Sequence[Law]) -> str:
    """Laws by domain, one line each."""
    lines: list[str] = []
    for domain, group in groupby(laws, key=lambda law: law.domain):
        several = tuple(group)
        lines += heading(f"{domain}, {counted(len(several), 'law')}")
        column = 2 + max(len(law.name) for law in several)
        lines += [_line(law, column) for law in several]
    how = "hushwright law NAME says what a law takes and where it is from, NAME parameter=value … computes it."
    return "\n".join([*lines[1:], "", *wrapped(how, indent=2)])


def _line(law: Law, column: int) -> str:
    remark = f" ({_NOT_BY_HAND})" if cannot_be_typed(law.parameters, law.function) else ""
    return f"  {law.name.ljust(column)}{shortened(_plain(law.summary) + remark, WIDTH - 2 - column)}".rstrip()


def law_text(law: Law, system: System, answer: Answer | None = None) -> str:
    """One law in full; one that needs nothing with the answer that it gives as it stands."""
    lines = [*heading(f"{law.name} ({law.module})")[1:], "", *wrapped(_plain(law.summary))]
    for paragraph in _paragraphs(law.extended):
        lines += ["", *wrapped(paragraph)]
    lines += ["", *_takes(law, system)]
    for label, text in (("gives", law.returns), ("formula", law.notes), ("source", law.references)):
        for paragraph in _paragraphs(text):
            lines += labelled(label, paragraph, column=_LABEL_COLUMN)
            label = ""
    if law.example:
        lines += ["", "  example", *(f"    {line}".rstrip() for line in law.example.splitlines())]
    lines += ["", *wrapped(_how(law), indent=2)]
    if answer is not None:
        lines += ["", "  with nothing given", *_answer_lines(answer, system)]
    return "\n".join(lines)


def _takes(law: Law, system: System) -> Iterator[str]:
    if not law.parameters:
        yield "  takes nothing"
        return
    yield "  takes"
    yield from _parameter_lines(law.parameters, law.function, system)
    yield from _parts(law.parameters, law.function, "", system, set(), _DEEP)


def _parts(
    parameters: Sequence[Parameter], owner: Any, path: str, system: System, shown: set[type], deep: int
) -> Iterator[str]:
    """Parts of the small values among parameters, and theirs; each kind once."""
    for one in parameters if deep > 0 else ():
        kinds = small_values(one, owner)
        stem = f"{path}{one.name}.0" if is_list(one, owner) else f"{path}{one.name}"
        for kind in kinds:
            if kind in shown:
                continue
            shown.add(kind)
            named = f" ({spelled(kind.__name__)})" if len(kinds) > 1 else ""
            yield from ("", f"  parts of {stem}{named}, typed {stem}.part=value")
            yield from _parameter_lines(fields_of(kind), kind, system)
            yield from _parts(fields_of(kind), kind, f"{stem}.", system, shown, deep - 1)


def _parameter_lines(parameters: Sequence[Parameter], owner: Any, system: System) -> Iterator[str]:
    column = 6 + max((len(one.name) for one in parameters), default=0)
    for one in parameters:
        words = words_of(one, owner)
        told_words = f"One of: {', '.join(words)}. " if words and not all(word in one.meaning for word in words) else ""
        text = f"{_plain(one.meaning)} {told_words}{_left_out(one, system)}".strip()
        yield from labelled(one.name, text or "small value", indent=4, column=column)


def _left_out(one: Parameter, system: System) -> str:
    """What holds where it is left out."""
    if one.default is None:
        return ""
    if one.default in ("none", "its own", ""):
        return "May be left out."
    unit = one.units[0] if one.units else ""
    try:
        return f"Left out: {told(float(one.default), unit, one.name, system)}."
    except ValueError:
        return f"Left out: {one.default}."


def _how(law: Law) -> str:
    barred = cannot_be_typed(law.parameters, law.function)
    if barred:
        return f"{', '.join(barred)} cannot be typed; {beyond_hand(law)}."
    needed = [one for one in law.parameters if one.needed or one.several]
    texts = [f"{one.name}=…" if not small_values(one, law.function) else f"{one.name}.…=…" for one in needed]
    return " ".join(["Computed by: hushwright law", law.name, *texts])


def answer_text(answer: Answer, system: System) -> str:
    """What a law was given and what it gives."""
    lines = [*heading(answer.law.name)[1:], "", *wrapped(_plain(answer.law.summary)), ""]
    lines += _amounts("given", answer.given, system)
    lines += ["", *_answer_lines(answer, system)]
    lines += labelled("", _plain(answer.law.returns), column=_LABEL_COLUMN)
    for remark in answer.remarks:
        lines += ["", *wrapped(f"Remark: {remark}", indent=2, hanging=4)]
    return "\n".join(lines)


def _answer_lines(answer: Answer, system: System) -> list[str]:
    found = answer.found
    beside = _beside(answer)
    if beside is not None:
        return _two_columns(beside, found, system)
    if found.parts:
        return list(_amounts("result", found.parts, system))
    return list(_amount_lines("result", found, 2, _LABEL_COLUMN, system))


def _amounts(title: str, amounts: Sequence[Amount], system: System) -> Iterator[str]:
    flat = [(name, one) for each in amounts for name, one in _leaves(each, each.name)]
    if flat:
        yield f"  {title}"
        column = 6 + max(len(name) for name, _one in flat)
        for name, one in flat:
            yield from _amount_lines(name, one, 4, column, system)


def _leaves(amount: Amount, path: str) -> Iterator[tuple[str, Amount]]:
    if not amount.parts:
        yield path, amount
    for part in amount.parts:
        yield from _leaves(part, f"{path}.{part.name}")


def _amount_lines(name: str, one: Amount, indent: int, column: int, system: System) -> Iterator[str]:
    value = one.value
    if isinstance(value, tuple) and value and all(isinstance(row, tuple) for row in value):
        for at, row in enumerate(value):
            yield from labelled(name if at == 0 else "", told(row, one.unit, one.name, system), indent=indent,
                                column=column)  # fmt: skip
        return
    yield from labelled(name, told(value, one.unit, one.name, system), indent=indent, column=column)


def _beside(answer: Answer) -> Amount | None:
    """The one list among what was given that is as long as the list that came out."""
    value = answer.found.value
    if not isinstance(value, tuple) or len(value) < 2 or any(isinstance(row, tuple) for row in value):
        return None
    alike = [one for one in answer.given if isinstance(one.value, tuple) and len(one.value) == len(value)]
    return alike[0] if len(alike) == 1 else None


def _two_columns(beside: Amount, found: Amount, system: System) -> list[str]:
    given: Any = beside.value
    value: Any = found.value
    left = told_all(given, beside.unit, beside.name, system)
    right = told_all(value, found.unit, found.name, system)
    return table([(beside.name, "result"), *zip(left, right, strict=True)], right=(0, 1), gap=4)


def _paragraphs(text: str) -> list[str]:
    """Paragraphs, each source on its own."""
    return [part for block in re.split(r"\n\s*\n|\n(?=\.\. \[)", text) if (part := _plain(block))]


def _plain(text: str) -> str:
    """Text without the marks of its typesetting."""
    if "math::" in text or "\\sqrt" in text:
        text = formula_text(text)
    text = re.sub(r"\.\. (?=\[\d+\])", "", text)
    text = re.sub(r"``|(?<=\])_\b|(?<=\])_(?=\W|$)", "", text)
    text = re.sub(r":\w+:`~?([^`]+)`", r"\1", text)
    text = re.sub(r"(?<![\w*·×])\*([^*\s](?:[^*]*[^*\s])?)\*(?![\w*])", r"\1", text)
    return " ".join(text.split())
