"""One value is changed and every other byte stays."""

import pytest
from tests.unit.document.small_schema import WHOLE, Top

from hushwright.document.read import read_document_text
from hushwright.document.save import set_value
from hushwright.errors import InvalidInput


@pytest.mark.parametrize(
    ("path", "new", "old_text", "new_text"),
    [
        ("people", "5", "people: 4\n", "people: 5\n"),
        ("title", "other van", "title: demo            # names it", "title: other van            # names it"),
        ("vehicle.rib_depth", "55 mm", "rib_depth: 50..60 mm", "rib_depth: 55 mm"),
        ("vehicle.wheelbase", "4320 mm", "{is: 4300 mm, from", "{is: 4320 mm, from"),
        ("vehicle.wheelbase.by", "laser", "by: tape}", "by: laser}"),
        (
            "vehicle.wheelbase", "{is: 4.32 m}",
            "{is: 4300 mm, from: measured, plus_minus: 10 mm, by: tape}", "{is: 4.32 m}",
        ),
        ("rooms.quiet_room.rear", "4000 mm", 'rear: "4050 mm"', 'rear: "4000 mm"'),
        ("rooms.quiet_room.layers.0.thickness", "12 mm", "thickness: 9 mm", "thickness: 12 mm"),
        ("rooms.quiet_room.layers.2.thickness", "1,5 in", "thickness: 3/4 in}", 'thickness: "1,5 in"}'),
        ("rooms.quiet_room.corner.1", "6'4\"", "6 ft 3 in]", "6'4\"]"),
        ("heights.0", "1.1 m", "[1 m, 1.5 m", "[1.1 m, 1.5 m"),
        ("heights", "[1 m]", "heights: [1 m, 1.5 m, unknown]", "heights: [1 m]"),
        ("title", "one: two", "title: demo ", 'title: "one: two" '),
        ("title", "a # b", "title: demo ", 'title: "a # b" '),
        ("title", 'say "no": now', "title: demo ", "title: 'say \"no\": now' "),
    ],
)  # fmt: skip
def test_only_the_value_at_the_path_changes(path, new, old_text, new_text):
    assert WHOLE.count(old_text) == 1
    assert set_value(WHOLE, path, new) == WHOLE.replace(old_text, new_text)


@pytest.mark.parametrize(
    ("path", "new", "before", "after"),
    [
        ("loudness", "55 dB", "coverage: 75 %\n", "coverage: 75 %\nloudness: 55 dB"),
        ("vehicle.glued", "false", "  side: right\n", "  side: right\n  glued: false\n"),
        ("vehicle.wheelbase.from", "supplier", None, None),
        (
            "rooms.quiet_room.layers.0.note", "x",
            "        thickness: 9 mm\n", "        thickness: 9 mm\n        note: x\n",
        ),
        (
            "rooms.quiet_room.layers.2.joint", "loose",
            "thickness: 3/4 in}", "thickness: 3/4 in, joint: loose}",
        ),
    ],
)  # fmt: skip
def test_a_missing_key_is_added_where_its_section_is(path, new, before, after):
    changed = set_value(WHOLE, path, new)
    if before is not None:
        assert changed.rstrip("\n") == WHOLE.replace(before, after).rstrip("\n")


def test_a_key_is_added_after_the_remark_of_the_last_line():
    text = "vehicle:\n  wheelbase: 4.3 m  # as listed\n\n# the rest\npeople: 4\n"
    assert set_value(text, "vehicle.side", "left") == (
        "vehicle:\n  wheelbase: 4.3 m  # as listed\n  side: left\n\n# the rest\npeople: 4\n"
    )


def test_an_empty_section_takes_its_first_key():
    assert set_value("vehicle:\npeople: 4\n", "vehicle.side", "left") == "vehicle:\n  side: left\npeople: 4\n"
    assert set_value("vehicle: {}\n", "vehicle.side", "left") == "vehicle: {side: left}\n"


def test_an_empty_value_is_filled():
    assert set_value("vehicle:\n  side:\npeople: 4\n", "vehicle.side", "left") == (
        "vehicle:\n  side: left\npeople: 4\n"
    )
    assert set_value("vehicle: {side: , glued: true}\n", "vehicle.side", "left") == (
        "vehicle: {side: left , glued: true}\n"
    )


def test_line_ends_and_a_byte_order_mark_stay():
    windows = "\ufeff" + WHOLE.replace("\n", "\r\n")
    assert set_value(windows, "people", "5") == windows.replace("people: 4", "people: 5")
    added = set_value(windows, "vehicle.glued", "false")
    assert added == windows.replace("  side: right\r\n", "  side: right\r\n  glued: false\r\n")


def test_an_anchor_stays_in_front_of_its_value():
    assert set_value("title: &t demo\n", "title", "other") == "title: &t other\n"


@pytest.mark.parametrize(
    ("text", "path", "new", "says"),
    [
        (WHOLE, "vehicle", "5", "is a section"),
        (WHOLE, "vehicle.axles.front", "5 mm", "cannot be set"),
        (WHOLE, "heights.7", "5 m", "only a key"),
        (WHOLE, "people.one", "5", "holds no keys"),
        (WHOLE, "title", "two\nlines", "one line"),
        (WHOLE, "vehicle.wheelbase", "{is: 4.3 m", "break the file"),
        (WHOLE, "heights", "[1 m, ]]", "break the file"),
        ("title: |\n  one\n  two\npeople: 4\n", "title", "x", "several lines"),
        ("title: &t demo\nnote: *t\n", "note", "x", "repeats"),
        ("title: &t demo\nnote: *t\n", "title", "x", "repeated elsewhere"),
        ("heights: [&h 1 m, *h]\n", "heights.1", "2 m", "repeats"),
    ],
)
def test_what_cannot_be_changed_safely_is_refused(text, path, new, says):
    with pytest.raises(InvalidInput, match=says):
        set_value(text, path, new)


def test_a_changed_file_is_read_with_the_new_value():
    changed = set_value(WHOLE, "vehicle.wheelbase", "4.4 m")
    document, problems = read_document_text(changed, "van.yaml", Top)
    assert problems == ()
    assert document.root.vehicle.wheelbase.value == 4.4
    assert document.root.vehicle.wheelbase.by == "tape"
