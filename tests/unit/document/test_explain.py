"""Problems are told as place, value and reason, and what to do."""

from hushwright.document.explain import format_diagnostics, merged
from hushwright.errors import Diagnostic, Place


def problem(line, reference="out-of-range", value="50 m", hint="perhaps 50 mm?", severity="error"):
    place = Place("van.yaml", line, ("layers", 2, "thickness"))
    return Diagnostic(reference, place, value, "this lies above 100 mm", hint, severity)


def test_each_problem_has_place_value_reason_hint_and_number():
    told = format_diagnostics([problem(42), problem(57, value="", hint="", severity="warning")])
    assert told.splitlines() == [
        "van.yaml, line 42: layers / 3 / thickness",
        "  50 m: this lies above 100 mm",
        "  perhaps 50 mm?      problem 1 of 2 · out-of-range",
        "van.yaml, line 57: layers / 3 / thickness",
        "  this lies above 100 mm",
        "  remark 2 of 2 · out-of-range",
    ]


def test_a_whole_file_has_no_line():
    told = format_diagnostics([Diagnostic("file-empty", Place("van.yaml"), "", "the file is empty", "")])
    assert told.splitlines()[0] == "van.yaml"


def test_lists_of_problems_merge_in_file_order_each_once():
    assert [one.place.line for one in merged([problem(9), problem(2)], [problem(5), problem(9)])] == [2, 5, 9]
