"""``hushwright report`` and ``hushwright change`` as a workshop uses them."""

from pathlib import Path

import pytest
from pypdf import PdfReader
from tests.coupled import edited
from tests.reference.test_hand_cost import BUILD

from hushwright.cli.main import run
from hushwright.report.papers.every_paper import PAPERS


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("papers") / "build.yaml"
    path.write_text(edited(BUILD, ("hushwright: 1\n", "hushwright: 1\ntitle: Plain van\ndate: 2026-05-04\n")))
    return path


def test_every_paper_lands_in_a_folder_beside_the_file(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["report", str(file)]) == 0
    folder = file.with_name("build-papers")
    assert {path.stem for path in folder.iterdir()} == set(PAPERS)
    assert capsys.readouterr().out.count("Written: ") == len(PAPERS)
    assert "Plain van" in PdfReader(folder / "quote.pdf").pages[0].extract_text()


def test_one_paper_goes_where_it_is_sent_and_is_the_same_every_time(file: Path, tmp_path: Path) -> None:
    paths = [tmp_path / "deep" / "one.pdf", tmp_path / "two.pdf"]
    for path in paths:
        assert run(["report", str(file), "--only", "promise", "--out", str(path)]) == 0
    assert paths[0].read_bytes() == paths[1].read_bytes()


def test_letter_paper_for_the_us(file: Path, tmp_path: Path) -> None:
    sizes = {}
    for units in ("metric", "us"):
        path = tmp_path / f"{units}.pdf"
        assert run(["report", str(file), "--only", "quote", "--out", str(path), "--units", units]) == 0
        box = PdfReader(path).pages[0].mediabox
        sizes[units] = (round(float(box.width)), round(float(box.height)))
    assert sizes == {"metric": (595, 842), "us": (612, 792)}


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--only", "promises"], "perhaps promise?"),
        (["--only", "xyz"], "there are dossier"),
        (["--out", "/proc/x"], "cannot be"),
    ],
)
def test_what_cannot_be_written_is_said(
    file: Path, capsys: pytest.CaptureFixture[str], arguments: list[str], said: str
) -> None:
    assert run(["report", str(file), *arguments]) == 2
    assert said in capsys.readouterr().err


def test_a_change_is_told_and_printed(file: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    other = tmp_path / "new.yaml"
    other.write_text(file.read_text().replace("price: 80", "price: 90").replace("2026-05-04", "2026-06-01"))
    assert run(["change", str(file), str(other)]) == 0
    told = capsys.readouterr().out
    assert "prices.items.heavy sheet.price" in told
    assert "2026-05-04 to 2026-06-01" in told
    assert max(map(len, told.splitlines())) <= 100
    assert run(["change", str(file), str(other), "--out", str(tmp_path / "change.pdf")]) == 0
    text = PdfReader(tmp_path / "change.pdf").pages[0].extract_text()
    assert "Change order" in text
    assert run(["change", str(file), str(tmp_path / "missing.yaml")]) == 2
