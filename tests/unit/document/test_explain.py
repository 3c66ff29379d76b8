"""Problems are told as place, value and reason, and what to do."""

from tests.plain_builds import plain_build

from hushwright.document.explain import format_diagnostics, merged
from hushwright.document.read import read_document_text
from hushwright.errors import Diagnostic, Place
from hushwright.library.read import read_library
from hushwright.model.resolve import resolve


def problem(line, reference="out-of-range", value="50 m", hint="perhaps 50 mm?", severity="error"):
    place = Place("van.yaml", line, ("layers", 2, "thickness"))
    return Diagnostic(reference, place, value, "this lies above 100 mm", hint, severity)


def test_each_problem_has_place_value_reason_hint_and_number():
    told = format_diagnostics([problem(42), problem(57, value="", hint="", severity="warning")])
    assert told.splitlines() == [
        "van.yaml, line 42: layers.2.thickness",
        "  50 m: this lies above 100 mm",
        "  perhaps 50 mm?      problem 1 of 2 · out-of-range",
        "van.yaml, line 57: layers.2.thickness",
        "  this lies above 100 mm",
        "  remark 2 of 2 · out-of-range",
    ]


def test_a_whole_file_has_no_line():
    told = format_diagnostics([Diagnostic("file-empty", Place("van.yaml"), "", "the file is empty", "")])
    assert told.splitlines()[0] == "van.yaml"


def test_lists_of_problems_merge_in_file_order_each_once():
    assert [one.place.line for one in merged([problem(9), problem(2)], [problem(5), problem(9)])] == [2, 5, 9]


def test_what_follows_of_a_part_that_could_not_be_read_waits():
    read = [Diagnostic("unknown-unit", Place("van.yaml", 3, ("openings", "window", "width")), "7 foo", "", "")]
    of_window = Diagnostic("unknown-name", Place("van.yaml", 9, ("states", "open")), "window", "", "")
    of_another = Diagnostic("unknown-name", Place("van.yaml", 9, ("states", "open")), "widow", "", "")
    remark = problem(12, severity="warning")
    assert merged(read, [of_window, of_another, remark]) == (read[0], of_another)
    assert merged([], [of_window, remark]) == (of_window, remark)


def test_a_faulty_layer_is_told_once_and_moves_no_number_after_it():
    text = plain_build().replace(
        "        - {limp: heavy sheet, thickness: 30}\n",
        "        - {limp: heavy sheet, thicknes: 30}\n        - {limp: heavy shet, thickness: 30}\n",
        1,
    )
    document, problems = read_document_text(text, "van.yaml")
    assert document is not None
    told = merged(problems, resolve(document, read_library())[1])
    assert [(one.reference, one.place.dotted) for one in told] == [
        ("unknown-key", "surfaces.quiet_room.left.layers.0.thicknes"),
        ("unknown-record", "surfaces.quiet_room.left.layers.1.limp"),
    ]
    assert told[1].place.line == told[0].place.line + 1
