"""`hushwright draw` as a person calls it."""

import re
from pathlib import Path

import pytest

from hushwright.cli.main import run

DEMO = str(Path(__file__).parents[2] / "examples" / "archive-van.yaml")


def test_one_sheet_is_drawn_into_a_folder_that_is_made(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "made" / "here"
    assert run(["draw", DEMO, "--out", str(out), "--sheet", "plan", "--paper", "a4"]) == 0
    assert (out / "drawings.pdf").read_bytes().startswith(b"%PDF")
    assert f"Written: {out / 'drawings.pdf'}" in capsys.readouterr().out


SECTIONS = ("section-a", "section-b", "section-c")


@pytest.mark.parametrize(
    ("form", "names"),
    [
        ("svg", {f"{each}.svg" for each in SECTIONS}),
        ("dxf", {f"{each}.dxf" for each in SECTIONS}),
        ("gltf", {"scene.glb"}),
    ],
)
def test_every_format_has_its_files(tmp_path: Path, form: str, names: set[str]) -> None:
    assert run(["draw", DEMO, "--out", str(tmp_path), "--sheet", "section", "--format", form]) == 0
    assert {each.name for each in tmp_path.iterdir()} == names


def test_parts_are_one_dxf_each(tmp_path: Path) -> None:
    assert run(["draw", DEMO, "--out", str(tmp_path), "--sheet", "parts-1", "--format", "dxf", "--units", "us"]) == 0
    names = sorted(each.name for each in tmp_path.iterdir())
    assert names[0] == "part-p01.dxf"
    assert not any(name.startswith("parts-") for name in names)


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (["--sheet", "attic"], "no sheet is called 'attic'; there are plan, left-side"),
        (["--paper", "A9"], "no paper is called 'A9'; there are A4, A3, Letter, Tabloid"),
    ],
)
def test_a_wrong_call_says_what_there_is(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], call: list[str], said: str
) -> None:
    assert run(["draw", DEMO, "--out", str(tmp_path), *call]) == 2
    assert said in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


def test_a_folder_that_is_a_file_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    taken = tmp_path / "taken"
    taken.write_text("mine")
    assert run(["draw", DEMO, "--out", str(taken), "--sheet", "plan"]) == 2
    assert "nothing can be written into it" in capsys.readouterr().err
    assert taken.read_text() == "mine"


def test_a_name_of_the_file_cannot_leave_the_folder(tmp_path: Path) -> None:
    text = Path(DEMO).read_text(encoding="utf-8").replace("  roof_gland:\n", '  "../../roof gland":\n')
    file = tmp_path / "van.yaml"
    file.write_text(text, encoding="utf-8")
    out = tmp_path / "out"
    run(["draw", str(file), "--out", str(out), "--sheet", "template", "--format", "svg"])
    assert {each.name for each in tmp_path.iterdir()} <= {"van.yaml", "out"}


def test_a_section_outside_the_van_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = Path(DEMO).read_text(encoding="utf-8")
    wrong = "sections: [{name: A, station: 6000}, {name: B, station: 900}, {name: B, station: 1000}]"
    text, count = re.subn(r"sections: \[\{name: A, station: 850\}.*?\]", wrong, text)
    assert count == 1
    file = tmp_path / "van.yaml"
    file.write_text(text, encoding="utf-8")
    assert run(["draw", str(file), "--out", str(tmp_path), "--sheet", "section-b", "--format", "svg"]) == 0
    said = capsys.readouterr().err
    assert "the load space runs from 0 to 4.350 m" in said
    assert "two sections have this name" in said
