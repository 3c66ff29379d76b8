"""A document answers where a value stands, and changes only into another document."""

import math
import time

import pytest
from tests.unit.document.small_schema import WHOLE, Top

from hushwright.document.document import Document
from hushwright.document.read import read_document_text
from hushwright.document.values import Value
from hushwright.errors import InvalidInput


@pytest.fixture(scope="module")
def document():
    found, problems = read_document_text(WHOLE, "van.yaml", Top)
    assert problems == ()
    return found


def test_a_value_is_found_by_keys_or_as_typed(document):
    assert document.value_at("rooms.quiet_room.layers.1.cavity").value == 0.093
    assert document.value_at(("rooms", "quiet_room", "layers", 1, "cavity")).text == "93 mm"
    assert document.value_at("") is document.root


@pytest.mark.parametrize(
    "path",
    ["wheels", "vehicle.rib", "rooms.other", "rooms.quiet_room.layers.7", "people.one", "vehicle.contradictions"],
)
def test_a_path_to_nothing_says_what_there_is(document, path):
    with pytest.raises(InvalidInput, match="there is no"):
        document.value_at(path)
    with pytest.raises(InvalidInput, match="there is no"):
        document.with_value(path, 1.0)


def test_a_changed_value_makes_a_new_document(document):
    path = ("rooms", "quiet_room", "layers", 1, "cavity")
    changed = document.with_value(path, 0.1)
    assert changed.value_at(path).value == 0.1
    assert document.value_at(path).value == 0.093
    assert changed != document
    assert changed.with_value(path, 0.093) == document
    assert changed.root.vehicle is document.root.vehicle


def test_a_number_keeps_the_spread_and_origin_and_a_value_brings_its_own(document):
    moved = document.with_value("vehicle.wheelbase", 4.4).value_at("vehicle.wheelbase")
    assert (moved.value, moved.standard_uncertainty, moved.origin) == (4.4, 0.005, "measured")
    replaced = document.with_value("vehicle.wheelbase", Value(4.5)).value_at("vehicle.wheelbase")
    assert replaced == Value(4.5)


def test_an_unknown_value_can_be_filled(document):
    assert math.isnan(document.value_at("heights.2").value)
    filled = document.with_value("heights.2", 1.9).value_at("heights.2")
    assert filled.value == 1.9
    assert not filled.unknown


def test_words_and_counts_can_be_replaced_too(document):
    assert document.with_value("vehicle.side", "left").root.vehicle.side == "left"
    assert document.with_value("people", 3).root.people == 3


def test_uncertain_inputs_are_those_with_a_spread_or_unknown(document):
    found = [".".join(str(key) for key in path) for path, _ in document.uncertain_inputs()]
    assert found == ["vehicle.wheelbase", "vehicle.rib_depth", "heights.2"]


def test_left_out_fields_are_listed_with_their_declaration(document):
    found = {".".join(str(key) for key in path): spec for path, spec in document.left_out()}
    assert found["vehicle.glued"].default_text == "true"
    assert found["loudness"].default_text == "60 dB"
    assert "vehicle.side" not in found
    assert "people" not in found


def test_a_value_is_replaced_in_less_than_a_tenth_of_a_millisecond(document):
    path = ("rooms", "quiet_room", "layers", 1, "cavity")
    best = math.inf
    for _ in range(20):
        started = time.perf_counter()
        for _ in range(50):
            document.with_value(path, 0.1)
        best = min(best, (time.perf_counter() - started) / 50)
    assert best < 100e-6


def test_a_document_without_a_file_has_places_without_lines(document):
    loose = Document(document.root)
    assert loose.place("vehicle.wheelbase").line == 0


def test_a_section_can_be_written_in_python_as_in_the_file():
    top = Top(vehicle={"wheelbase": {"is": "4.3 m", "from": "supplier"}}, heights=["1 m", 2.0], coverage="75 %")
    assert top.vehicle.wheelbase.origin == "supplier"
    assert [value.value for value in top.heights] == [1.0, 2.0]
    assert top.coverage.value == 0.75
    with pytest.raises(ValueError, match="extra"):
        Top(vehicle={"wheelbase": "4.3 m"}, wheels=4)
