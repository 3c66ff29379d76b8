"""The least that a new section or item says: its required fields, each with something that can be read."""

from __future__ import annotations

from hushwright.app.suggestions import suggestions
from hushwright.document.fields import FieldSpec, Section
from hushwright.document.leaves import example_of
from hushwright.document.nodes import Path
from hushwright.document.outline import Entry
from hushwright.document.save import typed_text
from hushwright.document.shapes import Field, Items, Leaf, Named, OneSection, Shape, fields_of
from hushwright.library.library import Library

_NEW_NAME = "new"
_DATES = "21 July"


def blank_of(entry: Entry, root: Entry, library: Library, kind: str = "") -> str:
    """Text for a section, list, map or item that begins; ``kind`` says which where there are several."""
    assert entry.shape is not None
    assert entry.spec is not None
    return _text(entry.shape, entry.spec, entry.path, root, library, kind)


def item_of(entry: Entry, root: Entry, library: Library, kind: str = "") -> str:
    """Text for one item more in a list, or one part more in a map."""
    shape = entry.shape
    assert entry.spec is not None
    if isinstance(shape, Items):
        return _text(shape.each[-1], entry.spec, (*entry.path, 0), root, library, kind)
    assert isinstance(shape, Named)
    return _text(shape.each, entry.spec, (*entry.path, _NEW_NAME), root, library, kind)


def _text(shape: Shape, spec: FieldSpec, path: Path, root: Entry, library: Library, kind: str) -> str:
    if isinstance(shape, Leaf):
        return _leaf(spec, path, root, library)
    if isinstance(shape, OneSection):
        chosen = next((one for one in shape.classes if one.key == kind), shape.classes[0])
        return _section(chosen, path, root, library)
    if isinstance(shape, Items):
        number = max(spec.shortest, 1) if shape.any_length else len(shape.each)
        each = [_text(shape.each[min(at, len(shape.each) - 1)], spec, (*path, at), root, library, kind)
                for at in range(number)]  # fmt: skip
        return f"[{', '.join(each)}]"
    return f"{{{_NEW_NAME}: {_text(shape.each, spec, (*path, _NEW_NAME), root, library, kind)}}}"


def _section(section: type[Section], path: Path, root: Entry, library: Library) -> str:
    """Required fields; where nothing is, the first field, so that the section is there at all."""
    fields = fields_of(section)
    wanted = [one for one in fields.values() if one.required]
    if not wanted:
        wanted = [one for one in fields.values() if isinstance(one.shape, Leaf) and one.spec.form != "words"][:1]
    parts = [_field(one, path, root, library) for one in wanted]
    return f"{{{', '.join(parts)}}}"


def _field(one: Field, path: Path, root: Entry, library: Library) -> str:
    return f"{one.name}: {_text(one.shape, one.spec, (*path, one.name), root, library, '')}"


def _leaf(spec: FieldSpec, path: Path, root: Entry, library: Library) -> str:
    text = example_of(spec)
    if spec.form == "words":
        entry = Entry(path, str(path[-1]), "value", spec)
        found = suggestions(entry, root, library)
        text = found[0] if found else _DATES if "Day of the year" in spec.sentence else _NEW_NAME
    return typed_text(text, in_flow=True, quote="", whole=False)
