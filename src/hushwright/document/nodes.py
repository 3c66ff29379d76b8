"""Text to YAML nodes with their marks: composed once, never turned into plain Python objects."""

from __future__ import annotations

import re
import warnings
from functools import lru_cache
from typing import Any

from hushwright.document.files import refusal
from hushwright.document.pieces import composed_in_pieces
from hushwright.errors import UnreadableDocument

Node = Any  # ruamel's nodes carry no types
Path = tuple[str | int, ...]
MOST_NODES = 50_000
DEEPEST_BRACKETS = 50

# What the YAML reader says, what it means in a build file, and what to do.
_PROBLEMS: tuple[tuple[str, str, str], ...] = (
    (r"mapping values are not allowed", "a key stands where none can be",
     "indent it like its neighbours; put a text that holds a colon in quotes"),
    (r"undefined alias", "*name points to nothing", "write the value out; * begins a reference in YAML"),
    (r"flow sequence", "a list in [ ] is not closed or lacks a comma", "close it with ]"),
    (r"flow mapping", "a group in { } is not closed or lacks a comma", "close it with }"),
    (r"quoted scalar", "a quoted text is not closed, or holds the quote itself",
     "close the quote; write 6 ft 3 in instead of feet and inch marks in quotes"),
    (r"could not find expected ':'", "a key lacks its colon", "write key: value"),
    (r"character '([%@`])' that cannot start", "a value cannot begin with this character", "put the value in quotes"),
    (r"expected the node content", "a bracket is closed that was not opened", "take it out, or quote the text"),
    (r"block (collection|mapping|sequence)|expected <block end>", "the line does not fit those above it",
     "indent it like its neighbours, all with the same number of spaces"),
)  # fmt: skip


def compose(text: str, file: str) -> Node:
    """Compose the one YAML document of a text; the nodes are shared by all who ask again and are never changed.

    Raises
    ------
    UnreadableDocument
        If the text is no YAML, holds more than one document, is nested or shared beyond measure or uses tags.
    """
    try:
        return _composed(text)
    except UnreadableDocument:
        return _compose(text, file)  # once more, so that what is refused names its file


@lru_cache(maxsize=6)
def _composed(text: str) -> Node:
    root = composed_in_pieces(text, _alone)
    if root is None:
        return _alone(text)
    # An item takes one of these signs and is three nodes at most; pieces repeat nothing, and were looked at alone.
    if 3 * sum(map(text.count, ":,-[{?")) > MOST_NODES:
        _refuse_bombs(root, text, "")
    return root


def _alone(text: str) -> Node:
    return _compose(text, "")


def _compose(text: str, file: str) -> Node:
    _refuse_deep_brackets(text, file)
    from ruamel.yaml import YAML
    from ruamel.yaml.error import MarkedYAMLError, ReusedAnchorWarning, YAMLError

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", ReusedAnchorWarning)
            root = YAML(typ="safe", pure=True).compose(text)
    except RecursionError:
        raise refusal(file, "nested-too-deeply", "brackets or lists are nested too deeply to be meant", "") from None
    except MarkedYAMLError as problem:
        raise _explained(problem, text, file) from None
    except YAMLError as problem:
        raise _unprintable(problem, text, file) from None
    except (ValueError, AttributeError, TypeError, IndexError, KeyError) as problem:
        # Escapes and directives that the YAML reader itself trips over.
        note = f"the YAML reader stumbles: {str(problem)[:80]}"
        raise refusal(file, "broken-yaml", note, "look for a stray escape or directive") from None
    if root is None:
        raise refusal(file, "file-empty", "the file holds only remarks", "start from an example: hushwright new FILE")
    _refuse_bombs(root, text, file)
    return root


def _refuse_deep_brackets(text: str, file: str) -> None:
    """Refuse early what would cost the YAML reader seconds before it gives up."""
    depth = 0
    for match in re.finditer(r"[\[\]{}]", text):
        depth = depth + 1 if match[0] in "[{" else max(depth - 1, 0)
        if depth > DEEPEST_BRACKETS:
            line = text.count("\n", 0, match.start()) + 1
            note = f"brackets are nested more than {DEEPEST_BRACKETS} deep"
            raise refusal(file, "nested-too-deeply", note, "close them where they end", line=line)


def _explained(problem: Any, text: str, file: str) -> UnreadableDocument:
    mark = problem.problem_mark or problem.context_mark
    line = mark.line + 1 if mark is not None else 1
    said = f"{problem.context or ''} {problem.problem or ''}"
    shown = _line(text, line)
    tab = _first_tab(text)
    if r"'\t'" in said or "\t" in said or (tab and tab <= line and "character" in said):
        note = "the line is indented with a tab, which YAML does not allow"
        return refusal(file, "tab-in-indentation", note, "indent with spaces", line=tab or line)
    if "another document" in said:
        note = "--- begins a second document; a build file is one"
        return refusal(file, "several-documents", note, "take the --- line out or split the file", line=line)
    for pattern, note, hint in _PROBLEMS:
        if re.search(pattern, said):
            begun = problem.context_mark.line + 1 if problem.context_mark is not None else line
            if pattern == "quoted scalar":
                line, shown = begun, _line(text, begun)
            elif begun != line:
                note = f"{note} (begun in line {begun})"
            return refusal(file, "broken-yaml", note, hint, line=line, value=shown)
    return refusal(file, "broken-yaml", f"this is not YAML: {said.strip()}", "", line=line, value=shown)


def _unprintable(problem: Any, text: str, file: str) -> UnreadableDocument:
    position = getattr(problem, "position", None)
    if not isinstance(position, int):
        return refusal(file, "broken-yaml", f"this is not YAML: {str(problem).splitlines()[0]}", "")
    line = text.count("\n", 0, position) + 1
    note = f"the line holds a control character ({ord(text[position]):#04x})" if position < len(text) else "odd ending"
    return refusal(file, "file-binary", note, "type the line again", line=line)


def _line(text: str, line: int) -> str:
    lines = text.splitlines()
    return lines[line - 1].strip()[:60] if 0 < line <= len(lines) else ""


def _first_tab(text: str) -> int:
    match = re.search(r"^ *\t", text, re.MULTILINE)
    return text.count("\n", 0, match.start()) + 1 if match else 0


def _refuse_bombs(root: Node, text: str, file: str) -> None:
    """Count nodes as if every alias were written out, without writing them out; refuse loops and tags."""
    sizes: dict[int, int] = {}
    open_nodes: set[int] = set()

    def size(node: Node) -> int:
        mine = id(node)
        if mine in sizes:
            return sizes[mine]
        line = node.start_mark.line + 1
        if mine in open_nodes:
            raise refusal(file, "alias-loop", "a part refers to itself", "write the value out", line=line)
        if has_tag(node, text):
            note = "a YAML tag (!…) has no meaning in a build file"
            raise refusal(
                file, "yaml-tag", note, "take the tag out; put a text that begins with ! in quotes", line=line
            )
        total = 1
        if not is_scalar(node):
            open_nodes.add(mine)
            children = [part for pair in node.value for part in pair] if is_mapping(node) else node.value
            total += sum(size(child) for child in children)
            open_nodes.discard(mine)
        if total > MOST_NODES:
            if not re.search(r"[*][A-Za-z0-9_]", text):
                note = f"the file holds more than {MOST_NODES} keys and values, more than any van"
                raise refusal(file, "too-many-values", note, "take out what is listed again and again", line=line)
            note = f"written out, the parts repeated by *name come to more than {MOST_NODES} values"
            raise refusal(file, "too-many-aliases", note, "write the values out", line=line)
        sizes[mine] = total
        return total

    size(root)


def is_scalar(node: Node) -> bool:
    """Whether the node is a single value."""
    return isinstance(node.value, str)


def is_mapping(node: Node) -> bool:
    """Whether the node holds keys and values."""
    return bool(node.id == "mapping")


def is_sequence(node: Node) -> bool:
    """Whether the node is a list."""
    return bool(node.id == "sequence")


def is_null(node: Node) -> bool:
    """Whether nothing (or ``~``, ``null``) is written."""
    return is_scalar(node) and node.style is None and node.value in ("", "~", "null", "Null", "NULL")


def has_tag(node: Node, text: str) -> bool:
    """Whether the node is written with an explicit tag."""
    at = node.start_mark.index
    head = text[at : at + 200]
    if head.startswith("&"):
        head = head[len(head.split(maxsplit=1)[0]) :].lstrip()
    return head.startswith("!")


def line_of(node: Node) -> int:
    """Line of the node, counted from one."""
    return int(node.start_mark.line) + 1


def shown(node: Node, text: str) -> str:
    """The node as typed, shortened to one line."""
    raw = node.value if is_scalar(node) else text[node.start_mark.index : node.end_mark.index]
    raw = " ".join(raw.split())
    return raw if len(raw) <= 60 else f"{raw[:57]}…"


def parse_path(dotted: str) -> Path:
    """Split ``surfaces.quiet_room.left.layers.2`` into keys and list positions (counted from 0).

    Examples
    --------
    >>> parse_path("layers.2.thickness")
    ('layers', 2, 'thickness')
    """
    return tuple(int(part) if part.isdecimal() else part for part in dotted.strip().strip(".").split(".") if part)
