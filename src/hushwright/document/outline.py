"""A build file laid out as its fields, for a screen: what is typed and what could be, faulty values included."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from hushwright.document.fields import FieldSpec
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
    root = compose(text, "")
    at_top = Entry((), "", "section", None, given=True, line=1, shape=OneSection((model,)))
    return _section(at_top, OneSection((model,)), root, text)


def empty_entry(one: Field, path: Path) -> Entry:
    """A field that is left out."""
    return _blank(one.name, one.spec, one.shape, path, required=one.required)


def _blank(name: str, spec: FieldSpec, shape: Shape, path: Path, *, required: bool = False) -> Entry:
    forms = {Leaf: "value", OneSection: "section", Items: "list", Named: "map"}
    kinds: tuple[str, ...] = ()
    inner = shape.each[0] if isinstance(shape, Items) else shape.each if isinstance(shape, Named) else shape
    if isinstance(inner, OneSection) and len(inner.classes) > 1:
        kinds = tuple(one.key for one in inner.classes)
    fixed = isinstance(shape, Items) and not shape.any_length
    return Entry(
        path, name, forms[type(shape)], spec, kinds=kinds, required=required, fixed=fixed, shape=shape
    )  # fmt: skip


def _with(entry: Entry, **changes: Any) -> Entry:
    from dataclasses import replace

    return replace(entry, **changes)


def _filled(entry: Entry, node: Node, text: str) -> Entry:
    """The entry with what the file says."""
    entry = _with(entry, given=not is_null(node), line=line_of(node))
    shape = entry.shape
    if is_null(node) or entry.spec is None:
        return entry
    if isinstance(shape, Leaf):
        return _value(entry, node, text)
    if isinstance(shape, OneSection):
        return _section(entry, shape, node, text)
    if isinstance(shape, Items):
        return _list(entry, shape, node, text)
    assert isinstance(shape, Named)
    return _map(entry, shape, node, text)


def _value(entry: Entry, node: Node, text: str) -> Entry:
    if is_mapping(node) and any(is_scalar(name) and name.value == "is" for name, _ in node.value):
        parts = {name.value: part.value for name, part in node.value if is_scalar(name) and is_scalar(part)}
        return _with(
            entry, text=parts.get("is", ""), origin=parts.get("from", ""), plus_minus=parts.get("plus_minus", ""),
            by=parts.get("by", ""),
        )  # fmt: skip
    return _with(entry, text=node.value if is_scalar(node) else shown(node, text))


def _section(entry: Entry, shape: OneSection, node: Node, text: str) -> Entry:
    if not is_mapping(node):
        return _with(entry, form="strange", text=shown(node, text))
    given = {name.value: (name, part) for name, part in node.value if is_scalar(name)}
    chosen = shape.chosen(tuple(given))
    if len(chosen) != 1:
        return _with(entry, children=tuple(_strange(entry, name, part, text) for name, (_, part) in given.items()))
    fields = fields_of(chosen[0])
    children = []
    for name, one in fields.items():
        blank = empty_entry(one, (*entry.path, name))
        children.append(_filled(blank, given[name][1], text) if name in given else blank)
    top = (FORMAT_KEY, LENGTHS_KEY) if not entry.path else ()
    children += [
        _strange(entry, name, part, text)
        for name, (_, part) in given.items()
        if name not in fields and name not in top
    ]
    return _with(entry, key=chosen[0].key, children=tuple(children))


def _strange(entry: Entry, name: str, node: Node, text: str) -> Entry:
    return Entry((*entry.path, name), name, "strange", None, given=True, line=line_of(node), text=shown(node, text))


def _list(entry: Entry, shape: Items, node: Node, text: str) -> Entry:
    assert entry.spec is not None
    nodes = node.value if is_sequence(node) else [node]
    children = []
    for at, part in enumerate(nodes):
        each = shape.each[0] if shape.any_length else shape.each[min(at, len(shape.each) - 1)]
        path = (*entry.path, at) if is_sequence(node) else entry.path
        children.append(_filled(_blank(str(at + 1), entry.spec, each, path), part, text))
    return _with(entry, children=tuple(children))


def _map(entry: Entry, shape: Named, node: Node, text: str) -> Entry:
    assert entry.spec is not None
    if not is_mapping(node):
        return _with(entry, form="strange", text=shown(node, text))
    children = [
        _filled(_blank(name.value, entry.spec, shape.each, (*entry.path, name.value)), part, text)
        for name, part in node.value
        if is_scalar(name)
    ]
    return _with(entry, children=tuple(children))
