"""For each part of the build file a small text with every field that the schema declares, and other values for them."""

import math
from collections.abc import Iterator
from functools import lru_cache

from hushwright.app.blanks import blank_of, item_of
from hushwright.document.fields import FieldSpec, Section
from hushwright.document.leaves import example_of
from hushwright.document.outline import Entry, outline
from hushwright.document.parts import add_item, set_deep
from hushwright.document.read import read_document_text
from hushwright.document.schema import BuildFile
from hushwright.document.shapes import Items, Named, OneSection, fields_of, sections_in
from hushwright.errors import InvalidInput, UnreadableDocument
from hushwright.library.read import read_library
from hushwright.units import format_quantity, parse_quantity

HEAD = "hushwright: 1\n"


@lru_cache(maxsize=1)
def full_parts() -> dict[str, str]:
    """A small text for each part of the file; together they hold every class of section, each kind in one list."""
    begun: set[object] = set()
    return {top.name: _begun(top.name, begun) for top in outline(HEAD).children if top.form != "value"}


def _begun(name: str, begun: set[object]) -> str:
    library, text = read_library(), HEAD
    while True:
        root = outline(text)
        top = root.find((name,))
        assert top is not None
        short = next(((one, kind) for one in _growing(top) for kind in _kinds_missing(one, begun)), None)
        if short is not None:
            entry, kind = short
            begun.add((_shape_of(entry), kind))
            new = item_of(entry, root, library, kind)
            named = (*entry.path, f"new_{kind}")
            text = set_deep(text, named, new) if entry.form == "map" else add_item(text, entry.path, new)
            continue
        entry = next((one for one in _open_ends(top) if _classes(one) - begun), None)  # type: ignore[assignment]
        if entry is None:
            return text
        begun |= _classes(entry)
        kinds = entry.kinds or ("",)
        begun.add((_shape_of(entry), kinds[0]))
        text = set_deep(text, entry.path, blank_of(entry, root, library, kinds[0]))


def _kinds_missing(entry: Entry, begun: set[object]) -> list[str]:
    here = {child.key for child in entry.children}
    return [kind for kind in entry.kinds if kind not in here and (_shape_of(entry), kind) not in begun]


def _growing(entry: Entry) -> Iterator[Entry]:
    """Lists and maps that hold sections of several kinds."""
    if entry.form in ("list", "map") and entry.given and not entry.fixed and len(entry.kinds) > 1:
        yield entry
    for child in entry.children:
        yield from _growing(child)


def _shape_of(entry: Entry) -> object:
    shape = entry.shape
    inner = shape.each[0] if isinstance(shape, Items) else shape.each if isinstance(shape, Named) else shape
    return inner.classes if isinstance(inner, OneSection) else entry.path[-2:]


def _classes(entry: Entry) -> set[object]:
    """What tells a section from others: its classes, or for lists and maps of values the field itself."""
    inner = _shape_of(entry)
    return {inner, (inner, entry.form)}


def _open_ends(entry: Entry) -> Iterator[Entry]:
    if entry.form != "value" and not entry.given:
        yield entry
        return
    for child in entry.children:
        yield from _open_ends(child)


def values_in(entry: Entry) -> Iterator[Entry]:
    """Every single value of a part."""
    if entry.form == "value":
        yield entry
    for child in entry.children:
        yield from values_in(child)


def fields_in(text: str, name: str) -> Iterator[Entry]:
    """Single values of a part, those of one declaration once."""
    top = outline(text).find((name,))
    assert top is not None
    seen: set[int] = set()
    for entry in values_in(top):
        if entry.spec is not None and id(entry.spec) not in seen:
            seen.add(id(entry.spec))
            yield entry


def sections_of(model: type[Section] = BuildFile) -> set[type[Section]]:
    """All classes of sections below one."""
    found = {model}
    for one in fields_of(model).values():
        for section, _ in sections_in(one.shape, ()):
            if section not in found:
                found |= sections_of(section)
    return found


def declared() -> dict[int, str]:
    """Every field that is declared, by the identity of its declaration."""
    return {
        id(field.spec): f"{section.__name__}.{name}"
        for section in sections_of()
        for name, field in fields_of(section).items()
    }


def another(text: str, entry: Entry) -> str:
    """Another value that can stand at a place of a text.

    Raises
    ------
    InvalidInput
        If none of those tried can.
    """
    assert entry.spec is not None
    for new in _tried(entry.spec, entry.text):
        if new == entry.text:
            continue
        try:
            _, problems = read_document_text(set_deep(text, entry.path, new), "x.yaml")
        except (InvalidInput, UnreadableDocument):
            continue
        depth = len(entry.path)
        if not any(one.severity == "error" and one.place.path[:depth] == entry.path for one in problems):
            return new
    raise InvalidInput(f"no other value found for {'.'.join(map(str, entry.path))}: {entry.text!r}")


def _tried(spec: FieldSpec, now: str) -> Iterator[str]:
    if spec.form == "choice":
        yield from spec.choices
    elif spec.form == "flag":
        yield from ("true", "false")
    elif spec.form == "count":
        yield from (str(each) for each in range(1, 12))
    elif spec.form == "quantity":
        assert spec.kind is not None
        start = parse_quantity(now or example_of(spec), spec.kind).value
        ends = [end for end in (spec.low, spec.high) if end is not None and math.isfinite(end)]
        for value in (1.02 * start, 0.98 * start, start + 1.0, *ends, *((0.7 * start + 0.3 * end) for end in ends)):
            yield format_quantity(value, spec.kind, "metric", 5)
        yield from ("7", "08:30", "2026-03-04")
    else:
        yield from ("another word", "2026-03-04", "08:30", "7")
