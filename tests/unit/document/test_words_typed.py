"""Texts of a file that no page can hold or show are refused at their place."""

import pytest

from hushwright.document import nodes
from hushwright.document.nodes import compose
from hushwright.document.read import read_document_text
from hushwright.errors import UnreadableDocument

HEAD = "lengths: mm\nbrief: {tallest: 1700}\nvehicle: {}\n"


@pytest.mark.parametrize(
    ("text", "reference", "note"),
    [
        ("title: " + "a" * 121 + "\n", "text-too-long", "at most 120 fit"),
        ("note: " + "a" * 4001 + "\n", "text-too-long", "at most 4000 fit"),
        ('title: "red \\e[31m"\n', "character-unprintable", "U+001B"),
    ],
)
def test_a_text_that_no_page_takes_is_refused(text: str, reference: str, note: str) -> None:
    _, problems = read_document_text(text + HEAD, "van.yaml")
    (found,) = [one for one in problems if one.place.path in (("title",), ("note",))]
    assert found.reference == reference
    assert note in found.note
    assert found.hint


def test_a_file_beyond_measure_is_told_its_size_and_not_repetitions_that_it_has_not(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(nodes, "MOST_NODES", 600)
    fittings = "".join(f"  - {{name: box {at}, mass: 1 kg, station: 1000, height: 500}}\n" for at in range(90))
    with pytest.raises(UnreadableDocument) as refused:
        compose(f"{HEAD}fittings:\n{fittings}", "van.yaml")
    (problem,) = refused.value.diagnostics
    assert problem.reference == "too-many-values"
    assert "more than 600" in problem.note
