"""An empty list means none; where a list that is left out means something else, it is told instead of guessed."""

from collections.abc import Iterator

import pytest
from tests.full_build import full_parts

from hushwright.document.fields import Section
from hushwright.document.outline import Entry, outline
from hushwright.document.parts import set_deep
from hushwright.document.read import read_document_text
from hushwright.document.schema import BuildFile
from hushwright.document.shapes import Items, Named, OneSection, Shape, fields_of


def lists_in(section: type[Section], seen: set[type[Section]]) -> Iterator[tuple[str, bool]]:
    """Every list of the schema that may be left out, and whether leaving it out means more than nothing."""
    if section in seen:
        return
    seen.add(section)
    for name, field in fields_of(section).items():
        if isinstance(field.shape, Items) and not field.required and not field.spec.shortest:
            yield f"{section.__name__}.{name}", bool(field.spec.left_out_means)
        for inner in sections_of(field.shape):
            yield from lists_in(inner, seen)


def sections_of(shape: Shape) -> Iterator[type[Section]]:
    if isinstance(shape, OneSection):
        yield from shape.classes
    elif isinstance(shape, Items):
        for each in shape.each:
            yield from sections_of(each)
    elif isinstance(shape, Named):
        yield from sections_of(shape.each)


LISTS = dict(lists_in(BuildFile, set()))


def lists_of(entry: Entry) -> Iterator[Entry]:
    if entry.form == "list" and entry.given and entry.spec is not None and not entry.fixed and not entry.required:
        yield entry
    for child in entry.children:
        yield from lists_of(child)


def test_lists_of_both_kinds_exist() -> None:
    assert {"HeaterUnit.runs_in", "PowerLoad.states", "Drawn.sections", "Fitting.fixed_to"} < {
        name for name, means in LISTS.items() if means
    }
    assert not LISTS["State.open"]
    assert not LISTS["BuildFile.treatments"]


@pytest.mark.parametrize("part", full_parts())
def test_an_empty_list_is_taken_where_it_means_none_and_told_where_it_would_not(part: str) -> None:
    text = full_parts()[part]
    before = {(one.reference, one.place.path) for one in read_document_text(text, "van.yaml")[1]}
    for entry in lists_of(outline(text)):
        assert entry.spec is not None
        found = read_document_text(set_deep(text, entry.path, "[]"), "van.yaml")[1]
        told = [one for one in found if one.place.path == entry.path and (one.reference, entry.path) not in before]
        if entry.spec.left_out_means:
            (one,) = told
            assert one.reference == "empty-list"
            assert entry.spec.left_out_means in one.note
            assert one.hint
        else:
            assert "empty-list" not in {one.reference for one in told}
