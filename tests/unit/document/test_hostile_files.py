"""Files that are no build file are refused with what to do, quickly, and never with a traceback."""

import time
from pathlib import Path

import pytest
from tests.unit.document.small_schema import WHOLE, Top

from hushwright.document.explain import format_diagnostics
from hushwright.document.files import LARGEST_FILE
from hushwright.document.read import read_document, read_document_text

BOMB = "a: &a [x, x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"{name}: &{name} [{', '.join([f'*{before}'] * 10)}]\n" for before, name in zip("abcdefgh", "bcdefghi", strict=True)
)

TEXTS = {
    "a key without its colon": ("vehicle\npeople: 4\n", "broken-yaml", 2),
    "two colons in a line": ("title: one: two\n", "broken-yaml", 1),
    "an open brace": ("vehicle: {wheelbase: 4.3 m\npeople: 4\n", "broken-yaml", 2),
    "an open bracket": ("heights: [1 m, 2 m\n", "broken-yaml", 2),
    "an open quote": ('title: "demo\npeople: 4\n', "broken-yaml", 1),
    "feet and inch marks in double quotes": ('vehicle:\n  wheelbase: "6\'3""\n', "broken-yaml", 2),
    "a dedent that fits nothing": ("vehicle:\n    wheelbase: 4.3 m\n  side: left\n", "broken-yaml", 3),
    "a list beside keys": ("people: 4\n- one\n", "broken-yaml", 2),
    "a tab as indent": ("vehicle:\n\twheelbase: 4.3 m\n", "tab-in-indentation", 2),
    "two documents": ("people: 4\n---\npeople: 5\n", "several-documents", 2),
    "an alias to nothing": ("title: *nobody\n", "broken-yaml", 1),
    "a value that begins with a sign of YAML": ("title: @home\n", "broken-yaml", 1),
    "a tag that makes objects": ("title: !!python/object:os.system [ls]\n", "yaml-tag", 1),
    "a tag of its own": ("vehicle: !van {wheelbase: 4.3 m}\n", "yaml-tag", 1),
    "an anchor bomb": (BOMB, "too-many-aliases", 5),
    "a part inside itself": ("rooms: &r\n  a: *r\n", "alias-loop", 1),
    "a thousand brackets": ("title: " + "[" * 5000, "nested-too-deeply", 1),
    "a thousand lists in one line": ("title: x\n" + "- " * 3000, "broken-yaml", 2),
    "a thousand lists in lists": ("- " * 3000, "nested-too-deeply", 0),
    "only remarks": ("# nothing yet\n", "file-empty", 0),
    "a control character": ("title: a\x01b\n", "file-binary", 1),
    "one word": ("hello\n", "not-a-section", 1),
    "a list": ("- hello\n", "not-a-section", 1),
    "a newer format": ("hushwright: 2\nunheard_of: 5\n", "newer-format", 1),
    "a format that is no number": ("hushwright: new\nvehicle: {wheelbase: 4 m}\n", "not-a-count", 1),
}


@pytest.mark.parametrize("what", TEXTS)
def test_a_broken_text_is_refused_with_one_reason(what):
    text, reference, line = TEXTS[what]
    started = time.perf_counter()
    _, problems = read_document_text(text, "van.yaml", Top)
    assert time.perf_counter() - started < 5.0
    assert [(one.reference, one.place.line) for one in problems] == [(reference, line)]
    told = format_diagnostics(problems)
    assert "Traceback" not in told
    assert "van.yaml" in told


BYTES = {
    "an empty file": (b"", "file-empty", 0),
    "blank lines": (b" \n\r\n", "file-empty", 0),
    "only a byte order mark": ("\ufeff\n".encode(), "file-empty", 0),
    "UTF-16 with a mark": (WHOLE.encode("utf-16"), "file-not-utf8", 0),
    "UTF-16 without a mark": (WHOLE.encode("utf-16-le"), "file-not-utf8", 0),
    "a western 8-bit encoding": ("people: 4\ntitle: Käse\n".encode("latin-1"), "file-not-utf8", 2),
    "a picture": (b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 20, "file-binary", 0),
    "a compressed file": (b"\x1f\x8b\x08" + bytes((7 * n) % 255 + 1 for n in range(4000)), "file-binary", 0),
    "a huge file": (b"# x\n" * (3_000_000 // 4), "file-too-large", 0),
}


@pytest.mark.parametrize("what", BYTES)
def test_a_file_that_is_no_text_is_refused(tmp_path, what):
    raw, reference, line = BYTES[what]
    path = tmp_path / "van.yaml"
    path.write_bytes(raw)
    document, problems = read_document(path, Top)
    assert document is None
    assert [(one.reference, one.place.line) for one in problems] == [(reference, line)]


def test_the_largest_file_allowed_is_well_above_a_build_file():
    assert len(WHOLE) * 100 < LARGEST_FILE < 2_000_000


def test_a_folder_names_the_build_file_in_it(tmp_path):
    (tmp_path / "van.yaml").write_text(WHOLE, encoding="utf-8")
    _, problems = read_document(tmp_path, Top)
    assert problems[0].reference == "file-is-folder"
    assert "van.yaml" in problems[0].hint


def test_a_missing_file_names_one_that_is_called_nearly_so(tmp_path):
    (tmp_path / "van.yaml").write_text(WHOLE, encoding="utf-8")
    _, problems = read_document(tmp_path / "vann.yaml", Top)
    assert problems[0].reference == "file-missing"
    assert "van.yaml" in problems[0].hint
    _, problems = read_document(tmp_path / "nowhere" / "van.yaml", Top)
    assert "no folder" in problems[0].hint


def test_a_file_one_may_not_read_is_said(tmp_path, monkeypatch):
    path = tmp_path / "van.yaml"
    path.write_text(WHOLE, encoding="utf-8")

    def refuse(*_arguments):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("pathlib.Path.open", refuse)
    _, problems = read_document(path, Top)
    assert problems[0].reference == "file-not-readable"


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="only where the system has endless files")
def test_an_endless_file_is_refused():
    _, problems = read_document("/dev/zero", Top)
    assert problems[0].reference == "file-too-large"


def test_a_name_with_a_zero_in_it_is_refused(tmp_path):
    _, problems = read_document(f"{tmp_path}/a\x00b", Top)
    assert problems[0].reference == "file-not-readable"
