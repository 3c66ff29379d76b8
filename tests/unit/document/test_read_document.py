"""A build file is read whole, and every problem in it is said at once, in file order."""

import math

import pytest
from tests.unit.document.small_schema import WHOLE, Cavity, Sheet, Top

from hushwright.document.fields import FrozenDict, Quantity, Section, flag, quantity
from hushwright.document.read import read_document, read_document_text


def read(text):
    return read_document_text(text, "van.yaml", Top)


def references(text):
    return [(one.reference, one.place.line, one.place.dotted) for one in read(text)[1]]


def test_a_whole_file_is_read_without_a_problem():
    document, problems = read(WHOLE)
    assert problems == ()
    root = document.root
    assert root.people == 4
    assert root.vehicle.wheelbase.value == 4.3
    assert root.vehicle.wheelbase.standard_uncertainty == 0.005
    assert root.vehicle.wheelbase.origin == "measured"
    assert root.vehicle.wheelbase.by == "tape"
    assert root.vehicle.rib_depth.distribution == "rectangular"
    assert root.vehicle.rib_depth.standard_uncertainty == pytest.approx(0.01 / math.sqrt(12))
    room = root.rooms["quiet_room"]
    assert [type(layer) for layer in room.layers] == [Sheet, Cavity, Sheet]
    assert room.layers[2].thickness.value == 0.01905
    assert room.corner[1].value == 1.905
    assert root.heights[2].unknown
    assert root.coverage.value == 0.75
    assert root.loudness.value == 60.0
    assert root.loudness.origin == "assumed"


def test_what_is_read_can_be_hashed_and_not_changed():
    document, _ = read(WHOLE)
    assert hash(document.root) == hash(read(WHOLE)[0].root)
    assert isinstance(document.root.rooms, FrozenDict)
    with pytest.raises(TypeError):
        document.root.rooms["other"] = None
    with pytest.raises(ValueError, match="frozen"):
        document.root.people = 5


def test_each_value_has_its_line():
    document, _ = read(WHOLE)
    lines = WHOLE.splitlines()
    for path, says in [
        (("vehicle", "wheelbase"), "wheelbase"),
        (("rooms", "quiet_room"), "quiet_room"),
        (("rooms", "quiet_room", "layers", 0, "thickness"), "thickness: 9 mm"),
        (("rooms", "quiet_room", "layers", 1), "cavity"),
        (("heights", 1), "heights"),
    ]:
        assert says in lines[document.place(path).line - 1]


def test_a_left_out_value_stands_where_its_section_does():
    document, _ = read(WHOLE)
    assert document.place("vehicle.glued").line == document.place("vehicle").line == 5


FAULTY = """\
people: many
vehicle:
  wheelbase: 4300
  ribdepth: 55 mm
  side: lef
  glued: perhaps
rooms:
  quiet_room:
    front: 1800 mm
    rear: 40500 mm
    layers:
      - cavty: 93 mm
      - sheet: birch
      - sheet: birch
        cavity: 93 mm
      - sheet: birch
        thickness: 9 m
  other: big
  other: {}
heights: 1 m
loudness: 60 dB(A)
coverage: {is: 75 %, from: guessed}
"""


def test_all_problems_are_said_at_once_in_file_order():
    document, problems = read(FAULTY)
    assert document is None  # the van's wheelbase is required
    assert [(one.reference, one.place.line, one.place.dotted) for one in problems] == [
        ("not-a-count", 1, "people"),
        ("bare-number", 3, "vehicle.wheelbase"),
        ("unknown-key", 4, "vehicle.ribdepth"),
        ("unknown-choice", 5, "vehicle.side"),
        ("not-a-flag", 6, "vehicle.glued"),
        ("out-of-range", 10, "rooms.quiet_room.rear"),
        ("unknown-kind", 12, "rooms.quiet_room.layers.0"),
        ("missing-key", 13, "rooms.quiet_room.layers.1.thickness"),
        ("two-kinds", 14, "rooms.quiet_room.layers.2"),
        ("out-of-range", 17, "rooms.quiet_room.layers.3.thickness"),
        ("not-a-section", 18, "rooms.other"),
        ("duplicate-key", 19, "rooms.other"),
        ("not-a-list", 20, "heights"),
        ("wrong-unit", 21, "loudness"),
        ("unknown-choice", 22, "coverage.from"),
    ]


def test_hints_name_what_was_meant():
    hints = {one.place.dotted: one.hint for one in read(FAULTY)[1]}
    assert hints["vehicle.ribdepth"] == "did you mean rib_depth?"
    assert hints["vehicle.side"] == "did you mean left?"
    assert hints["rooms.quiet_room.layers.0"] == "did you mean cavity?"
    assert hints["rooms.quiet_room.layers.3.thickness"] == "perhaps 9 mm or 9 cm?"
    assert "lengths: mm" in hints["vehicle.wheelbase"]
    assert "add thickness:" in hints["rooms.quiet_room.layers.1.thickness"]


def test_a_key_in_the_wrong_section_is_sent_where_it_belongs():
    _, problems = read("vehicle: {wheelbase: 4.3 m, people: 4}\nrib_depth: 55 mm\n")
    assert [one.hint for one in problems] == ["it belongs at the top", "it belongs under vehicle"]


def test_nothing_is_proposed_where_nothing_is_near():
    _, problems = read("vehicle: {wheelbase: 4.3 m}\nouter: 5\n")
    assert [(one.reference, one.hint) for one in problems] == [("unknown-key", "")]


def test_parts_are_not_merged():
    _, problems = read("vehicle:\n  <<: {side: left}\n  wheelbase: 4.3 m\n")
    assert [one.reference for one in problems] == ["unknown-key"]
    assert "write the keys out" in problems[0].hint


def test_every_problem_shows_the_value_and_the_file():
    for problem in read(FAULTY)[1]:
        assert problem.place.file == "van.yaml"
        assert problem.note
        assert problem.value or problem.reference == "missing-key"


def test_a_faulty_item_is_left_out_and_its_neighbours_keep_their_lines():
    text = "vehicle: {wheelbase: 4.3 m}\nheights:\n  - 1 m\n  - 20 m\n  - 1.5 m\n"
    document, problems = read(text)
    assert [one.place.dotted for one in problems] == ["heights.1"]
    assert [value.value for value in document.root.heights] == [1.0, 1.5]
    assert document.place("heights.1").line == 5


def test_a_faulty_optional_value_leaves_its_section_standing():
    document, problems = read("vehicle: {wheelbase: 4.3 m, rib_depth: 5 m}\n")
    assert [one.reference for one in problems] == ["out-of-range"]
    assert document.root.vehicle.rib_depth is None


def test_a_missing_required_section_is_said():
    assert references("people: 2\n") == [("missing-key", 1, "vehicle")]
    assert references("vehicle:\n") == [("missing-key", 1, "vehicle")]
    assert references("vehicle:\n  wheelbase:\n") == [("missing-key", 2, "vehicle.wheelbase")]


def test_bare_lengths_are_read_where_they_are_declared():
    document, problems = read("lengths: mm\nvehicle: {wheelbase: 4300, rib_depth: 50..60}\nheights: [1000, 5 ft]\n")
    assert problems == ()
    assert document.root.vehicle.wheelbase.value == 4.3
    assert document.root.heights[1].value == pytest.approx(1.524)
    document, _ = read("lengths: in\nvehicle: {wheelbase: 170}\n")
    assert document.root.vehicle.wheelbase.value == pytest.approx(4.318)


def test_the_declaration_holds_for_lengths_only():
    assert references("lengths: mm\nvehicle: {wheelbase: 4300}\nloudness: 60\n") == [("bare-number", 3, "loudness")]


def test_lengths_can_only_be_declared_in_mm_or_in():
    found = references("lengths: cubits\nvehicle: {wheelbase: 4.3 m}\n")
    assert found == [("unknown-choice", 1, "lengths")]


@pytest.mark.parametrize(
    ("value", "reference", "dotted"),
    [
        ("{from: measured}", "missing-key", "vehicle.wheelbase"),
        ("{is: 4.3 m, form: measured}", "unknown-key", "vehicle.wheelbase.form"),
        ("{is: 4.3 m, is: 4.4 m}", "duplicate-key", "vehicle.wheelbase.is"),
        ("{is: [4.3 m], from: measured}", "not-a-value", "vehicle.wheelbase.is"),
        ("{is: 4.3 m, plus_minus: 2 kg}", "wrong-unit", "vehicle.wheelbase"),
        ("{is: 4.3 m, plus_minus: -2 mm}", "unreadable-quantity", "vehicle.wheelbase"),
        ("{is: 4..5 m, plus_minus: 2 mm}", "unreadable-quantity", "vehicle.wheelbase"),
        ("{is: unknown, plus_minus: 2 mm}", "unreadable-quantity", "vehicle.wheelbase"),
        ("{is: 43 m, from: measured}", "out-of-range", "vehicle.wheelbase"),
        ("1..3 m", "out-of-range", "vehicle.wheelbase"),
        ("[4.3 m]", "not-a-value", "vehicle.wheelbase"),
        ("{is: 4,3 m, from: measured}", "decimal-comma", "vehicle.wheelbase.is"),
        ("1,830 mm", "ambiguous-number", "vehicle.wheelbase"),
    ],
)
def test_a_value_with_a_fault_is_refused_at_its_place(value, reference, dotted):
    found = references(f"vehicle:\n  wheelbase: {value}\n")
    assert found == [(reference, 2, dotted)]


def test_a_decimal_comma_in_braces_is_explained_once():
    found = references("vehicle: {wheelbase: 4,30 m, side: left}\n")
    assert found == [("decimal-comma", 1, "vehicle.wheelbase")]
    found = references("vehicle: {wheelbase: 4.3 m}\nheights: [1,83 m, 2 m]\n")
    assert found == [("decimal-comma", 2, "heights.0")]
    _, problems = read("vehicle: {wheelbase: 4,30 m}\n")
    assert "4.30 m" in problems[0].hint


def test_a_decimal_comma_outside_braces_is_read():
    document, problems = read("vehicle:\n  wheelbase: 4,3 m\n")
    assert problems == ()
    assert document.root.vehicle.wheelbase.value == 4.3


def test_plus_minus_is_two_standard_uncertainties_or_a_percentage():
    document, _ = read("vehicle: {wheelbase: {is: 4.3 m, plus_minus: 2 %}}\ncoverage: {is: 50 %, plus_minus: 4 %}\n")
    assert document.root.vehicle.wheelbase.standard_uncertainty == pytest.approx(0.043)
    assert document.root.coverage.standard_uncertainty == pytest.approx(0.02)


def test_one_word_stands_for_a_list_of_one():
    document, problems = read("vehicle: {wheelbase: 4.3 m}\nfixed_to: body\n")
    assert problems == ()
    assert document.root.fixed_to == ("body",)


def test_lists_of_a_wrong_length_are_said():
    assert references("vehicle: {wheelbase: 4.3 m}\nheights: [1 m, 1 m, 1 m, 1 m, 1 m]\n") == [
        ("list-length", 2, "heights")
    ]
    text = "vehicle: {wheelbase: 4.3 m}\nrooms: {a: {front: 0 m, rear: 1 m, corner: [1 m]}}\n"
    assert references(text) == [("list-length", 2, "rooms.a.corner")]


def test_a_section_says_what_contradicts_in_it():
    text = "vehicle: {wheelbase: 4.3 m}\nrooms:\n  a:\n    front: 2 m\n    rear: 1 m\n"
    assert references(text) == [("contradiction", 5, "rooms.a.rear")]


def test_text_too_long_for_its_field_is_said():
    assert references(f"title: {'x' * 41}\nvehicle: {{wheelbase: 4.3 m}}\n") == [("text-too-long", 1, "title")]


def test_aliases_are_read_like_the_value_they_repeat():
    text = "vehicle: {wheelbase: &w 4.3 m}\nheights: [&h 1 m, *h, *h]\n"
    document, problems = read(text)
    assert problems == ()
    assert [value.value for value in document.root.heights] == [1.0, 1.0, 1.0]


def test_the_path_may_be_any_path_of_a_file(tmp_path):
    path = tmp_path / "van.yaml"
    path.write_text(WHOLE, encoding="utf-8")
    document, problems = read_document(path, Top)
    assert problems == ()
    assert document.file == str(path)
    assert document.text == WHOLE


def test_quantities_by_name_and_flags_in_words_are_read():
    class Loads(Section):
        """Loads by name."""

        loads: dict[str, Quantity] = quantity("power", "Loads.", low=0, high=1e4, default={})
        quiet: bool = flag("Whether it is quiet.", default=False)

    text = "loads: {lamp: 12 W, fan: {is: 30 W, from: supplier}, pump: 5 V}\nquiet: yes\n"
    document, problems = read_document_text(text, "van.yaml", Loads)
    assert [(one.reference, one.place.dotted) for one in problems] == [("wrong-unit", "loads.pump")]
    assert {name: value.value for name, value in document.root.loads.items()} == {"lamp": 12.0, "fan": 30.0}
    assert document.root.quiet is True


def test_line_ends_and_a_byte_order_mark_change_nothing():
    plain, _ = read(WHOLE)
    other, problems = read("\ufeff" + WHOLE.replace("\n", "\r\n"))
    assert problems == ()
    assert other.root == plain.root
    assert other.lines == plain.lines
