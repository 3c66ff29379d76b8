"""A file read part by part is the file read whole: every node, value, style and place."""

import random
import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.plain_builds import plain_build

from hushwright.document import outline, read
from hushwright.document.nodes import _alone, compose
from hushwright.document.pieces import composed_in_pieces
from hushwright.errors import UnreadableDocument

EXAMPLES = sorted((Path(__file__).parents[3] / "examples").glob("*.yaml"))
SMALL = """\
# head
title: 'a: b'   # said
note: "x # y"
brief: {tallest: 1.8 m,
  shoes: 3 cm}
# between
rooms:
  quiet: {front: 1}   # one

  # inside
fittings:
  - name: desk
    mass: 40 kg
  - {name: lamp}
empty:
last:
- 1
- two
"""

ODD = ["{", "}", "[", ": ", "\n", "\nkey: 1", "#", " #", "- ", '"', "'", "&a ", "*a", "| ", "  ", "x", ",", "%", "!t ",
       "\n---\n", "<<: "]  # fmt: skip


def told(node: object) -> tuple[object, ...]:
    """Everything of a node that anybody asks for; where the whole file ends does not matter."""
    marks = tuple((m.index, m.line, m.column) for m in (node.start_mark, node.end_mark))  # type: ignore[attr-defined]
    style = tuple(getattr(node, name, None) for name in ("style", "flow_style", "id", "tag"))
    value = node.value  # type: ignore[attr-defined]
    if isinstance(value, str):
        return (*marks, *style, value)
    return (*marks, *style, *(tuple(map(told, each)) if isinstance(each, tuple) else told(each) for each in value))


def agrees(text: str) -> bool:
    """Whether the text was read in pieces, and then so as the whole is."""
    found = composed_in_pieces(text, _alone)
    if found is None:
        return False
    assert told(found)[2:] == told(_alone(text))[2:]
    return True


@pytest.mark.parametrize("path", EXAMPLES[:2], ids=lambda path: path.stem)
def test_examples_are_read_in_pieces_as_they_are_whole(path: Path) -> None:
    assert agrees(path.read_text(encoding="utf-8"))


def test_a_small_file_with_every_oddity_is_read_in_pieces() -> None:
    assert agrees(SMALL)
    assert agrees(SMALL.rstrip("\n"))
    assert agrees(SMALL + "\n\n# end\n")


@given(st.integers(0, 10_000))
@settings(max_examples=60, deadline=None)
def test_whatever_is_typed_into_a_file_is_read_as_the_whole_would_be(seed: int) -> None:
    chance = random.Random(seed)
    text = SMALL
    for _ in range(chance.randrange(1, 4)):
        at = chance.randrange(len(text))
        piece = chance.choice(ODD)
        text = text[:at] + piece + text[at + chance.randrange(3) :]
    try:
        whole = told(_alone(text))
    except UnreadableDocument:
        with pytest.raises(UnreadableDocument):
            compose(text, "x")
        return
    assert told(compose(text, "x"))[2:] == whole[2:]


@pytest.mark.parametrize(
    "text", [SMALL.replace("3 cm", "&a 3 cm").replace("40 kg", "*a"), SMALL.replace("\n", "\r\n"), "a: 1\n",
             SMALL.replace("title:", "? title\n:"), re.sub("note:.*", "note: |\n  one\n  two", SMALL)],
)  # fmt: skip
def test_what_reaches_from_part_to_part_is_read_whole(text: str) -> None:
    assert not agrees(text)


def test_parts_from_memory_are_as_those_read_anew() -> None:
    text = plain_build()
    chance = random.Random(8)
    for _ in range(25):
        lines = text.split("\n")
        at = chance.randrange(len(lines))
        act = chance.choice(("number", "number", "gone", "twice", "anchor"))
        lines[at : at + 1] = {
            "number": [re.sub(r"\d+", lambda _: str(chance.randrange(1, 99)), lines[at])],
            "gone": [],
            "twice": [lines[at], lines[at]],
            "anchor": [lines[at].replace(": ", ": &a ", 1)],
        }[act]
        edited = "\n".join(lines)
        found = _read_and_laid_out(edited)
        read.KNOWN_PARTS.forget()
        outline.KNOWN_PARTS.forget()
        assert found == _read_and_laid_out(edited)
        read.read_document_text(text, "van.yaml")
        if act == "number":
            text = edited


def _read_and_laid_out(text: str) -> tuple[object, ...]:
    document, problems = read.read_document_text(text, "van.yaml")
    try:
        entry: object = outline.outline(text)
    except UnreadableDocument as problem:
        entry = problem.diagnostics
    lines = None if document is None else (dict(document.lines), dict(document.kept))
    return document, lines, problems, entry
