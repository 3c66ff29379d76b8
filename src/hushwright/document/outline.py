"""A build file laid out as its fields, for a screen: what is typed and what could be, faulty values included."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from hushwright.document.fields import FieldSpec
from hushwright.document.last_used import LastUsed
from hushwright.document.nodes import Node, Path, compose, is_mapping, is_null, is_scalar, is_sequence, line_of, shown
from hushwright.document.read import FORMAT_KEY, LENGTHS_KEY
from hushwright.document.shapes import Field, Items, Leaf, Named, OneSection, Shape, fields_of


@dataclass(frozen=True, slots=True)
class Entry:
    """One field, item or named part.

    ``form`` says what it is: ``value``, ``section``, ``list``, ``map`` or ``strange`` (no such key exists). ``text`` is
    a value as typed, ``origin``, ``plus_minus`` and ``by`` what stands beside it. ``key`` names the kind of a section
    where there are several, ``kinds`` those that could stand here.
    """

    path: Path
    name: str
    form: str
    spec: FieldSpec | None
    given: bool = False
    line: int = 0
    text: str = ""
    origin: str = ""
    plus_minus: str = ""
    by: str = ""
    key: str = ""
    kinds: tuple[str, ...] = ()
    required: bool = False
    fixed: bool = False  # a list of a certain length
    children: tuple[Entry, ...] = ()
    shape: Shape | None = None
    lengths: str = ""  # of the whole file: unit of lengths that are typed without one

    def find(self, path: Path) -> Entry | None:
        """The entry at a path below this one."""
        if self.path == path:
            return self
        for child in self.children:
            if path[: len(child.path)] == child.path:
                return child.find(path)
        return None


def outline(text: str, model: Any = None) -> Entry:
    """Lay out a build file's text as its fields, those that are left out included.

    Parameters
    ----------
    text
        The build file's text.
    model
        Top section of the file; the whole build file when left out.

    Raises
    ------
    UnreadableDocument
        If the text is no YAML or no build file.

    Examples
    --------
    >>> outline("brief: {tallest: 1.8 m}").find(("brief", "tallest")).text
    '1.8 m'
    """
    if model is None:
        from hushwright.document.schema import BuildFile

        model = BuildFile
    top = OneSection((model,))
    root = compose(text, "")
    parts = _section((), top, root, text)
    return Entry((), "", "section", None, given=True, line=1, shape=top, lengths=_unit_of_lengths(root), **parts)


def _unit_of_lengths(root: Node) -> str:
    pairs = root.value if root is not None and is_mapping(root) else ()
    return next((str(part.value) for name, part in pairs if name.value == LENGTHS_KEY and is_scalar(part)), "")


def empty_entry(one: Field, path: Path) -> Entry:
    """A field that is left out."""
    return _blank(one.name, one.spec, one.shape, path, required=one.required)


_FORMS = {Leaf: "value", OneSection: "section", Items: "list", Named: "map"}

_Parts = dict[str, Any]
"""What a node adds to its blank entry."""


def _blank(name: str, spec: FieldSpec, shape: Shape, path: Path, *, required: bool = False, **parts: Any) -> Entry:
    kinds: tuple[str, ...] = ()
    inner = shape.each[0] if isinstance(shape, Items) else shape.each if isinstance(shape, Named) else shape
    if isinstance(inner, OneSection) and len(inner.classes) > 1:
        kinds = tuple(one.key for one in inner.classes)
    whole: _Parts = {
        "form": _FORMS[type(shape)], "spec": spec, "kinds": kinds, "required": required,
        "fixed": isinstance(shape, Items) and not shape.any_length, "shape": shape, **parts,
    }  # fmt: skip
    return Entry(path, name, **whole)


def _filled(
    name: str, spec: FieldSpec, shape: Shape, path: Path, node: Node, text: str, *, required: bool = False
) -> Entry:
    """The entry with what the file says; every entry is made once, since a file has thousands."""
    if is_null(node):
        return _blank(name, spec, shape, path, required=required, line=line_of(node))
    parts = _parts(spec, shape, path, node, text)
    return _blank(name, spec, shape, path, required=required, given=True, line=line_of(node), **parts)


def _parts(spec: FieldSpec, shape: Shape, path: Path, node: Node, text: str) -> _Parts:
    if isinstance(shape, Leaf):
        return _value(node, text)
    if isinstance(shape, OneSection):
        return _section(path, shape, node, text)
    if isinstance(shape, Items):
        return _list(spec, shape, path, node, text)
    return _map(spec, shape, path, node, text)


def _value(node: Node, text: str) -> _Parts:
    if is_mapping(node) and any(is_scalar(name) and name.value == "is" for name, _ in node.value):
        parts = {name.value: part.value for name, part in node.value if is_scalar(name) and is_scalar(part)}
        return {
            "text": parts.get("is", ""), "origin": parts.get("from", ""), "plus_minus": parts.get("plus_minus", ""),
            "by": parts.get("by", ""),
        }  # fmt: skip
    return {"text": node.value if is_scalar(node) else shown(node, text)}


def _section(path: Path, shape: OneSection, node: Node, text: str) -> _Parts:
    if not is_mapping(node):
        return {"form": "strange", "text": shown(node, text)}
    given = {name.value: (name, part) for name, part in node.value if is_scalar(name)}
    chosen = shape.chosen(tuple(given))
    if len(chosen) != 1:
        return {"children": tuple(_strange(path, name, part, text) for name, (_, part) in given.items())}
    fields = fields_of(chosen[0])
    children = []
    for name, one in fields.items():
        at = (*path, name)
        if name in given and path:
            children.append(_filled(name, one.spec, one.shape, at, given[name][1], text, required=one.required))
        elif name in given:
            children.append(_part(one, *given[name], text))
        else:
            children.append(empty_entry(one, at))
    top = (FORMAT_KEY, LENGTHS_KEY) if not path else ()
    children += [
        _strange(path, name, part, text) for name, (_, part) in given.items() if name not in fields and name not in top
    ]
    return {"key": chosen[0].key, "children": tuple(children)}


KNOWN_PARTS = LastUsed[Entry](160)
"""Parts at the top by everything that they are laid out from: an edit changes one of thirty."""


def _part(one: Field, name: Node, node: Node, text: str) -> Entry:
    """A part at the top, from memory where the same text stood in the same line; what *name stands for may change."""
    stands = text[name.start_mark.index : node.end_mark.index]
    wanted = (one.name, id(one.shape), line_of(node), stands)
    known = KNOWN_PARTS.get(wanted)
    if known is None or "*" in stands or known.shape is not one.shape:
        known = _filled(one.name, one.spec, one.shape, (one.name,), node, text, required=one.required)
        KNOWN_PARTS.keep(wanted, known)
    return known


def _strange(path: Path, name: str, node: Node, text: str) -> Entry:
    return Entry((*path, name), name, "strange", None, given=True, line=line_of(node), text=shown(node, text))


def _list(spec: FieldSpec, shape: Items, path: Path, node: Node, text: str) -> _Parts:
    nodes = node.value if is_sequence(node) else [node]
    children = []
    for at, part in enumerate(nodes):
        each = shape.each[0] if shape.any_length else shape.each[min(at, len(shape.each) - 1)]
        inside = (*path, at) if is_sequence(node) else path
        children.append(_filled(str(at + 1), spec, each, inside, part, text))
    return {"children": tuple(children)}


def _map(spec: FieldSpec, shape: Named, path: Path, node: Node, text: str) -> _Parts:
    if not is_mapping(node):
        return {"form": "strange", "text": shown(node, text)}
    children = [
        _filled(name.value, spec, shape.each, (*path, name.value), part, text)
        for name, part in node.value
        if is_scalar(name)
    ]
    return {"children": tuple(children)}
