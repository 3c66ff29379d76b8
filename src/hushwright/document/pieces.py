"""YAML composed part by part: of an edited file only the part that changed is read anew."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache
from typing import Any

from hushwright.errors import UnreadableDocument

Node = Any
_TOP_KEY = re.compile(r"^[A-Za-z][A-Za-z0-9_]*:(?=[ \r\n]|$)", re.MULTILINE)
# What can reach from one part into another, or is read otherwise in the middle of a file; such files are read whole.
_TIED = re.compile(r"[\t\r\ufeff]|(?:^|[-:,\[{?])[ ]*[&*!|>]|^(?:---|\.\.\.|%)|<<", re.MULTILINE)
_FEWEST = 4


def composed_in_pieces(text: str, compose: Callable[[str], Node]) -> Node | None:
    """Compose a text from its parts at the top; `None` where it has to be read whole.

    Parameters
    ----------
    text
        The whole text.
    compose
        Composes one text; what it refuses is left to the whole.
    """
    begins = [match.start() for match in _TOP_KEY.finditer(text)]
    if len(begins) < _FEWEST or _TIED.search(re.sub(r"(?m)(?:^|[ ])#.*$", "", text)):
        return None
    if re.sub(r"(?m)^[ ]*(?:#.*)?$", "", text[: begins[0]]).strip():
        return None
    pairs: list[tuple[Node, Node]] = []
    first: Node = None
    line = text.count("\n", 0, begins[0])
    for begin, end in zip(begins, [*begins[1:], len(text)], strict=True):
        piece = text[begin:end]
        try:
            root = _piece(piece, compose)
        except UnreadableDocument:
            return None
        if root.id != "mapping" or root.flow_style or len(root.value) != 1:
            return None
        first = first or root
        pairs += _placed(piece, compose, begin, line)
        line += piece.count("\n")
    whole = _copy(first)
    whole.value = pairs
    whole.start_mark = _mark(first.start_mark, begins[0], text.count("\n", 0, begins[0]))
    whole.end_mark = Place(len(text), line, len(text) - text.rfind("\n") - 1)
    return whole


@lru_cache(maxsize=160)
def _piece(piece: str, compose: Callable[[str], Node]) -> Node:
    return compose(piece)


@lru_cache(maxsize=160)
def _placed(piece: str, compose: Callable[[str], Node], begin: int, line: int) -> list[tuple[Node, Node]]:
    """Name and node of a piece as it stands in the whole text."""
    root = _piece(piece, compose)
    return [(_moved(name, begin, line), _moved(part, begin, line)) for name, part in root.value]


def _moved(node: Node, by: int, lines: int) -> Node:
    """A copy of a node with everything in it, farther down in the text."""
    moved = _copy(node)
    moved.start_mark, moved.end_mark = _mark(node.start_mark, by, lines), _mark(node.end_mark, by, lines)
    if node.id == "mapping":
        moved.value = [(_moved(name, by, lines), _moved(part, by, lines)) for name, part in node.value]
    elif node.id == "sequence":
        moved.value = [_moved(part, by, lines) for part in node.value]
    return moved


def _copy(node: Node) -> Node:
    copy = object.__new__(type(node))
    kind: type = type(node)
    for name in _slots(kind):
        if hasattr(node, name):
            setattr(copy, name, getattr(node, name))
    return copy


@lru_cache(maxsize=8)
def _slots(kind: type) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for each in kind.__mro__ for name in getattr(each, "__slots__", ())))


class Place:
    """A place in a text: position, line and column from zero."""

    __slots__ = ("column", "index", "line")

    def __init__(self, index: int, line: int, column: int) -> None:
        self.index = index
        self.line = line
        self.column = column


def _mark(mark: Any, by: int, lines: int) -> Place:
    return Place(mark.index + by, mark.line + lines, mark.column)
