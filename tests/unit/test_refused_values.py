"""A value that is refused is one problem: nothing that follows from its being missing is told beside it."""

from collections.abc import Iterator

import pytest
from tests.coupled import DEMO, edited, library
from tests.plain_builds import two_rooms

from hushwright.document.explain import merged
from hushwright.document.nodes import Node, Path, compose, is_mapping, is_null, is_scalar
from hushwright.document.read import read_document_text
from hushwright.document.schema import PartitionFile
from hushwright.errors import Diagnostic
from hushwright.evaluation.sound.single import evaluate_partition
from hushwright.model.resolve import resolve

REFUSED = ("-987654321", ".nan")
WALL = """\
layers:
  - {sheet: birch plywood, thickness: 12 mm}
  - {cavity: 100 mm, fill: rock wool 40 kg/m3}
  - {sheet: birch plywood, thickness: 9 mm}
area: 4 m2
bridges: [{kind: line, spacing: 600 mm}]
"""


def problems_of(text: str) -> tuple[Diagnostic, ...]:
    document, problems = read_document_text(text, "van.yaml")
    return problems if document is None else merged(problems, resolve(document, library())[1])


def values_in(node: Node, path: Path = ()) -> Iterator[tuple[Path, Node]]:
    """Every single value of a text with its path."""
    if is_scalar(node):
        if not is_null(node):
            yield path, node
        return
    for at, part in enumerate(node.value):
        key, child = (part[0].value, part[1]) if is_mapping(node) else (at, part)
        yield from values_in(child, (*path, key))


def broken(text: str, every: int) -> Iterator[tuple[Path, str]]:
    """The text with one value after the other made impossible."""
    for path, node in list(values_in(compose(text, "")))[::every]:
        for bad in REFUSED:
            yield path, text[: node.start_mark.index] + bad + text[node.end_mark.index :]


@pytest.mark.parametrize(("text", "every"), [(DEMO, 251), (two_rooms(), 2)], ids=["demo", "two rooms"])
def test_one_refused_value_is_one_problem(text: str, every: int) -> None:
    tried = 0
    for path, changed in broken(text, every):
        document, refused = read_document_text(changed, "van.yaml")
        if not refused:
            continue  # words, and the names of states, take anything
        tried += 1
        found = refused if document is None else merged(refused, resolve(document, library())[1])
        assert len(found) == 1, (path, [(each.place.dotted, each.note) for each in found])
    assert tried > 8


@pytest.mark.parametrize(
    "change",
    [
        ("price: 2380, buys: power", "price: -2380, buys: power"),
        ("price: 2380, buys: power", "prise: 2380, buys: power"),
        ("level: 87 dB(A)", "level: .nan"),
        ("thickness: 10.8", "thickness: 0"),
        ("rear: 1650", "rear: 99999"),
    ],
)  # fmt: skip
def test_what_follows_from_a_refused_value_waits(change: tuple[str, str]) -> None:
    assert len(problems_of(edited(DEMO, change))) == 1


def test_another_problem_is_told_beside_a_refused_value() -> None:
    text = edited(DEMO, ("price: 2380, buys: power", "price: -2380, buys: power"), ("open: [side_door]", "open: [x]"))
    assert [each.reference for each in problems_of(text)] == ["out-of-range", "unknown-name"]


@pytest.mark.parametrize(
    "change",
    [("area: 4 m2", "area: -4 m2"), ("thickness: 12 mm", "thickness: 0 mm"), ("spacing: 600 mm", "spacing: .nan")],
)
def test_a_refused_value_of_one_build_up_is_one_problem(change: tuple[str, str]) -> None:
    document, refused = read_document_text(edited(WALL, change), "wall.yaml", PartitionFile)
    assert document is not None
    assert len(merged(refused, evaluate_partition(document, library())[1])) == 1
