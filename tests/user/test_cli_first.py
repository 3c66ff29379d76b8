"""``hushwright first``: asked at the keyboard or answered on the line, a page and a build file that can be checked."""

import io
from pathlib import Path

import pytest

from hushwright.cli.main import run

ONE = ["--answer", "use=other", "--answer", "crew=3"]


def test_first_prints_the_page_and_writes_a_build_that_check_reads(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "idea.yaml"
    assert run(["first", str(file), *ONE]) == 0
    told = capsys.readouterr().out
    assert told.startswith("First look: ")
    assert f"Next: hushwright check {file}" in told
    assert run(["check", str(file), "--only", "Space"]) in (0, 1)


def test_first_never_overwrites(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "idea.yaml"
    file.write_text("mine", encoding="utf-8")
    assert run(["first", str(file), "--answer", "use=other"]) == 2
    assert file.read_text(encoding="utf-8") == "mine"
    assert "stays as it is" in capsys.readouterr().err


def test_first_tells_every_wrong_answer_at_once(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["first", "--answer", "tallest=9", "--answer", "colour=red"]) == 2
    told = capsys.readouterr().err
    assert "tallest" in told
    assert "colour" in told
    assert "Traceback" not in told
    assert run(["first", "--answer", "tallest", "--answer", "hours"]) == 2
    told = capsys.readouterr().err
    assert "QUESTION=ANSWER, not 'tallest', 'hours'" in told
    assert run(["first", "--answer", "hours=2", "--answer", "hours=3"]) == 2
    assert "answered twice" in capsys.readouterr().err


def test_first_asks_again_where_an_answer_cannot_be_read(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    typed = ["", "other", "0", "1", "2", "tall", "1.75 m", *[""] * 9]
    monkeypatch.setattr("sys.stdin", io.StringIO("\n".join(typed) + "\n"))
    assert run(["first"]) == 0
    said = capsys.readouterr()
    assert said.err.count("How tall") == 2
    assert "1750 mm" in said.out


def test_first_ends_with_a_sentence_when_the_answers_end(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("hovercraft\n"))
    assert run(["first"]) == 2
    assert "ended before" in capsys.readouterr().err


def test_questions_are_listed_with_their_choices(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["first", "--questions"]) == 0
    told = capsys.readouterr().out
    assert "tallest" in told
    assert "harbour quay" in told


def test_the_page_as_pdf_is_one_sheet_with_every_topic(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    from pypdf import PdfReader

    file = tmp_path / "look.pdf"
    assert run(["first", *ONE, "--pdf", str(file)]) == 0
    pages = PdfReader(file).pages
    text = " ".join(pages[0].extract_text().split())
    assert len(pages) == 1
    assert all(name in text for name in ("height to stand in", "mass on the road", "hours without a plug", "price"))
    assert "licensed practice" in text
    assert f"Written: {file}" in capsys.readouterr().out
