"""Several changes of a build file as one: values set, items added and taken out, every other byte kept."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from hushwright.document.nodes import Node, Path, compose, is_mapping, is_null, is_scalar
from hushwright.document.parts import add_item, remove_part, set_deep
from hushwright.document.save import typed_text, walk
from hushwright.errors import InvalidInput
from hushwright.units import format_quantity

_IN_INCHES = re.compile(r"in\b|ft|['\"′″]")
_BARE = re.compile(r"[-+]?[0-9.]+")


@dataclass(frozen=True, slots=True)
class Edit:
    """One change: ``set`` a value, ``add`` an item to a list (before another one, or at its end), ``remove`` a part."""

    what: Literal["set", "add", "remove"]
    path: Path
    text: str = ""
    before: int | None = None


def edited(text: str, edits: Iterable[Edit]) -> str:
    """Return the text with all changes made, one after the other.

    Raises
    ------
    InvalidInput
        If one of them cannot be made.
    UnreadableDocument
        If the text is no YAML.

    Examples
    --------
    >>> edited("layers: [{sheet: MDF, thickness: 12}]", [Edit("set", ("layers", 0, "thickness"), "18")])
    'layers: [{sheet: MDF, thickness: 18}]'
    """
    for each in edits:
        if each.what == "set":
            text = set_deep(text, each.path, each.text)
        elif each.what == "add":
            text = add_item(text, each.path, each.text, each.before)
        else:
            text = remove_part(text, each.path)
    return text


def in_brackets(text: str, path: Path) -> tuple[str, ...]:
    r"""Items of a list of the file, each as it would be written on one line.

    Raises
    ------
    InvalidInput
        If there is no list at the path.

    Examples
    --------
    >>> in_brackets("layers:\n- skin: body\n- {cavity: 90, frame: {depth: 28}}", ("layers",))
    ('{skin: body}', '{cavity: 90, frame: {depth: 28}}')
    """
    nodes = walk(compose(text, ""), path)
    if len(nodes) != len(path) + 1 or is_scalar(nodes[-1]) or is_mapping(nodes[-1]):
        raise InvalidInput(f"there is no list {'.'.join(map(str, path))}")
    return tuple(_flow(item) for item in nodes[-1].value)


def _flow(node: Node) -> str:
    if is_scalar(node):
        if is_null(node):
            return ""
        return typed_text(str(node.value), in_flow=True, quote=node.style or "", whole=False)
    if is_mapping(node):
        return f"{{{', '.join(f'{name.value}: {_flow(part)}' for name, part in node.value)}}}"
    return f"[{', '.join(_flow(part) for part in node.value)}]"


def bare_unit(text: str) -> str:
    r"""Unit of bare lengths that a file declares, empty where it has none.

    Examples
    --------
    >>> bare_unit("hushwright: 1\nlengths: mm")
    'mm'
    """
    found = re.search(r"^lengths:[ \t]*(mm|in)\b", text, re.MULTILINE)
    return found[1] if found else ""


def written_length(value: float, before: str, bare: str) -> str:
    """Write a length as its neighbour is written: bare where the file has bare lengths, in inches where it has those.

    Examples
    --------
    >>> written_length(1.795, "1800", "mm"), written_length(1.8034, "72 in", ""), written_length(1.795, "1.8 m", "")
    ('1795', '71 in', '1795 mm')
    >>> written_length(0.0125, "12", "mm"), written_length(0.0125, "12 mm", "")
    ('12.5', '12.5 mm')
    """
    is_bare = not before or bool(_BARE.fullmatch(before.strip()))
    if is_bare and bare == "mm":
        return f"{round(1000.0 * value, 1):.10g}"
    if is_bare and bare == "in":
        return f"{round(value / 0.0254, 3):.10g}"
    if _IN_INCHES.search(before):
        return f"{round(value / 0.0254, 3):.10g} in"
    return format_quantity(round(value, 4), "length", "metric", 5) if abs(value) < 10.0 else f"{round(value, 3)} m"
