"""Whatever stands in the file, a person gets place, reason and exit code 2, and never a traceback."""

import json
import re
from pathlib import Path

import pytest

from hushwright.cli.main import run

WHOLE = "hushwright: 1\nbrief: {tallest: 1.8 m}\nvehicle: {}\n"
BOMB = "a: &a [x, x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"{new}: &{new} [{', '.join([f'*{old}'] * 10)}]\n" for old, new in zip("abcdef", "bcdefg", strict=True)
)
BROKEN: dict[str, tuple[bytes, str]] = {
    "binary": (b"\x7fELF\x02\x01\x00\x00\x00\x01", "not a text file"),
    "empty": (b"", "empty"),
    "utf16": (WHOLE.encode("utf-16"), "UTF-16"),
    "huge": (b"# filling\n" * 200_000, "more than any build file"),
    "duplicate_key": ((WHOLE + "title: a\ntitle: b\n").encode(), "given twice"),
    "unknown_key": ((WHOLE + "titel: a\n").encode(), "did you mean title?"),
    "wrong_unit": (WHOLE.replace("1.8 m", "1.8 kg").encode(), "1.8 kg"),
    "missing_value": (b"hushwright: 1\nbrief: {}\nvehicle: {}\n", "tallest"),
    "anchor_bomb": (BOMB.encode(), "*name"),
    "broken_yaml": (b"brief: {tallest: 1.8 m\nvehicle: {}\n", "not closed"),
    "newer_format": (WHOLE.replace("hushwright: 1", "hushwright: 99").encode(), "format 99"),
    "unknown_material": (WHOLE.replace("vehicle: {}", "vehicle: {body: hovercraft}").encode(), "hovercraft"),
}


@pytest.mark.parametrize("name", BROKEN)
@pytest.mark.parametrize("command", ["check", "measure"])
def test_a_broken_file_is_explained(
    name: str, command: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    content, expected = BROKEN[name]
    file = tmp_path / "van.yaml"
    file.write_bytes(content)
    assert run([command, str(file)]) == 2
    told = capsys.readouterr()
    assert expected in told.err
    assert re.search(r"problem \d of \d", told.err)
    assert "Traceback" not in told.err
    assert told.out == ""


@pytest.mark.parametrize("command", [["check"], ["partition"], ["measure"], ["set"]], ids=str)
def test_a_folder_or_nothing_at_all_is_no_build_file(
    command: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rest = ["title", "x"] if command == ["set"] else []
    for file, reason in ((tmp_path, "folder"), (tmp_path / "none.yaml", "no such file")):
        assert run([*command, str(file), *rest]) == 2
        assert reason in capsys.readouterr().err


def test_every_problem_is_told_at_once_and_in_file_order(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "van.yaml"
    file.write_text("brief: {tallest: 1.8 kg}\nvehicle: {body: hovercraft}\ntitel: x\n", encoding="utf-8")
    assert run(["check", str(file)]) == 2
    told = capsys.readouterr().err
    assert [told.index(line) for line in ("line 1", "line 3")] == sorted(told.index(x) for x in ("line 1", "line 3"))
    assert "problem 2 of 2" in told or "problem 3 of 3" in told


def test_problems_come_as_json_too(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "van.yaml"
    file.write_text(WHOLE.replace("1.8 m", "1.8 kg"), encoding="utf-8")
    assert run(["check", str(file), "--json"]) == 2
    node = json.loads(capsys.readouterr().out)
    assert node["schema"] == 1
    (problem,) = [one for one in node["problems"] if one["severity"] == "error"]
    assert problem["line"] == 2
    assert problem["value"] == "1.8 kg"
