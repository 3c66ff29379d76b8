"""A typed value is taken only if it can be read: otherwise it is shown with the reason, and the file stays."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from hushwright.app.computing import document_of
from hushwright.app.session import Session, written
from hushwright.document.edits import bare_unit
from hushwright.document.files import LARGEST_FILE
from hushwright.document.nodes import Path, compose
from hushwright.errors import InvalidInput, UnreadableDocument
from hushwright.units.as_typed import Unclear, plainly


class NotTaken(InvalidInput):
    """What was typed cannot be read as the value of its field; ``offers`` are texts that would do."""

    def __init__(self, note: str, offers: tuple[str, ...] = ()) -> None:
        super().__init__(note)
        self.note = note
        self.offers = offers


def take_value(session: Session, path: Path, typed: str, seen: str) -> bool:
    """Set one value as typed; a number is written into the file in its plain form.

    Raises
    ------
    NotTaken
        If it cannot be read; the note says why and what would do.
    Overtaken
        If another window has changed the value meanwhile.
    """
    typed = _plain(session, path, typed)
    try:
        changed = written(session.text, path, typed)
    except InvalidInput as problem:
        raise NotTaken(str(problem)) from None
    except UnreadableDocument as problem:
        raise NotTaken(problem.diagnostics[0].note) from None
    _, problems = document_of(changed, session.name)
    for one in problems:
        if one.severity == "error" and one.place.path[: len(path)] == path:
            raise NotTaken(f"{one.note}{f'; {one.hint}' if one.hint else ''}", _offered(one.hint))
    return session.set_values({path: typed}, seen={path: seen})


def take_parts(session: Session, path: Path, parts: Mapping[str, str]) -> bool:
    """Set a value with where it is from and its spread; a plus or minus takes the unit of its value.

    Raises
    ------
    NotTaken
        If the plus or minus cannot be read.
    """
    entry, spread = session.outline().find(path), parts.get("plus_minus", "").strip()
    spec = entry.spec if entry is not None else None
    if spec is not None and spec.kind is not None and spread and not spread.endswith("%"):
        bare: Any = bare_unit(session.text) or None
        try:
            spread = plainly(spread, spec.kind, standing=parts.get("is", ""), bare_length=bare)
        except Unclear as problem:
            raise NotTaken(f"plus or minus: {problem.note}", problem.offers) from None
    return session.set_parts(path, {**parts, "plus_minus": spread})


def _plain(session: Session, path: Path, typed: str) -> str:
    """What was typed, as the file has it; the unit that stands in the field is meant where none is typed."""
    entry = session.outline().find(path)
    spec = entry.spec if entry is not None else None
    if entry is None or spec is None or entry.form != "value" or spec.form not in ("quantity", "count"):
        return typed
    bare: Any = bare_unit(session.text) or None
    try:
        return plainly(typed, spec.kind, low=spec.low, high=spec.high, standing=entry.text or spec.default_text,
                       bare_length=bare)  # fmt: skip
    except Unclear as problem:
        raise NotTaken(problem.note, problem.offers) from None


def _offered(hint: str) -> tuple[str, ...]:
    """Texts that a hint proposes instead.

    Examples
    --------
    >>> _offered("perhaps 1.75 m?"), _offered("like 93 mm")
    (('1.75 m',), ())
    """
    found = re.fullmatch(r"(?:perhaps|did you mean) ([^?]+)\?", hint)
    return tuple(found[1].split(" or ")) if found else ()


def take_text(session: Session, text: str) -> bool:
    """Take a whole text as one step, if it can be read as a file at all.

    Raises
    ------
    NotTaken
        If it is no YAML.
    """
    if len(text.encode("utf-8")) > LARGEST_FILE:
        raise NotTaken(f"the text has more than {LARGEST_FILE // 1024} kB, more than any build file")
    try:
        compose(text, session.name)
    except UnreadableDocument as problem:
        one = problem.diagnostics[0]
        raise NotTaken(f"line {one.place.line}: {one.note}{f'; {one.hint}' if one.hint else ''}") from None
    return session.change(text, "edit the text")
