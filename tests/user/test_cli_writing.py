"""Where a command cannot write it says so in a sentence with what to do, before it computes, and harms no file."""

import errno
from pathlib import Path

import pytest
from tests.plain_builds import plain_build

from hushwright.cli.main import run
from hushwright.cli.writing import unwritable

CALLS = {
    "report, a file for the folder": ("report {file} --out {file}", "is a file"),
    "report, one paper over the build file": ("report {file} --only quote --out {file}", "is a file"),
    "report, one paper over another's PDF name": ("report {file} --only quote --out {own}", "is no PDF"),
    "report, below a file": ("report {file} --only quote --out {file}/quote.pdf", "is a file"),
    "report, several into what is named like a file": ("report {file} --out {folder}/papers.pdf", "named like a file"),
    "draw, several into what is named like a file": ("draw {file} --out {folder}/plan.svg", "named like a file"),
    "draw, a file for the folder": ("draw {file} --out {file}", "is a file"),
    "draw, below a file": ("draw {file} --out {file}/drawings", "is a file"),
    "cost, over the build file": ("cost {file} --xlsx {file}", "is no workbook"),
    "cost, a folder": ("cost {file} --xlsx {folder}", "is a folder"),
    "cost, no such folder": ("cost {file} --xlsx {folder}/none/cost.xlsx", "there is no folder"),
    "change, over the build file": ("change {file} {file} --out {file}", "is no PDF"),
    "change, a folder": ("change {file} {file} --out {folder}", "is a folder"),
    "first, there already": ("first {file} --usual", "stays as it is"),
    "first, no such folder": ("first {folder}/none/van.yaml --usual", "no such folder"),
    "first, over the build file": ("first --usual --pdf {file}", "is no PDF"),
    "new, there already": ("new {file}", "stays as it is"),
    "new, a folder": ("new {folder}", "is a folder"),
    "quieten, there already": ("quieten {file} --write {file}", "stays as it is"),
    "quieten, no such folder": ("quieten {file} --write {folder}/none/van.yaml", "no such folder"),
    "wiring, there already": ("wiring {file} --course x --picture {file}", "stays as it is"),
    "measure, below a file": ("measure {file}/van.yaml", "nothing lies in it"),
    "timeline, a folder": ("timeline {folder}", "is a folder"),
}


@pytest.mark.parametrize(("call", "word"), CALLS.values(), ids=CALLS)
def test_what_cannot_be_written_is_told_with_what_to_do(
    call: str, word: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    names = {"file": tmp_path / "my-van.yaml", "folder": tmp_path / "folder", "own": tmp_path / "letter.pdf"}
    text = plain_build()
    names["file"].write_text(text, encoding="utf-8")
    names["own"].write_text("my own letter", encoding="utf-8")
    names["folder"].mkdir()
    assert run([each.format(**names) for each in call.split()]) == 2
    told = capsys.readouterr()
    assert word in told.err
    assert "Errno" not in told.err
    assert ";" in told.err or "perhaps" in told.err or "give the name" in told.err
    assert "Written" not in told.out
    assert names["file"].read_text(encoding="utf-8") == text
    assert names["own"].read_text(encoding="utf-8") == "my own letter"


@pytest.mark.parametrize(
    ("number", "word"),
    [
        (errno.EACCES, "does not let you write"),
        (errno.EROFS, "does not let you write"),
        (errno.ENOSPC, "disk is full"),
        (errno.ENAMETOOLONG, "too long"),
        (errno.EIO, "does not take"),
    ],
)
def test_what_the_system_refuses_is_told_in_words(number: int, word: str) -> None:
    assert word in unwritable(Path("out/van.pdf"), OSError(number, "system words"))
    assert "system words" not in unwritable(Path("out/van.pdf"), OSError(number, "system words"))
