"""A reader who leaves at the first line (`| head`) costs nobody the file that a command was to write."""

import io
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest
from tests.plain_builds import plain_build

from hushwright.cli.main import READER_LEFT, run

CALLS = {
    "first": ("first {out}/new.yaml --usual --pdf {out}/new.pdf", ("new.yaml", "new.pdf")),
    "new": ("new {out}/new.yaml", ("new.yaml",)),
    "quieten": ("quieten {file} --write {out}/new.yaml", ("new.yaml",)),
    "wiring": ("wiring {file} --course light --picture {out}/new.svg", ("new.svg",)),
    "cost": ("cost {file} --xlsx {out}/new.xlsx", ("new.xlsx",)),
    "report": ("report {file} --only hold-points --only purchase --out {out}", ("hold-points.pdf", "purchase.pdf")),
    "change": ("change {file} {file} --out {out}/new.pdf", ("new.pdf",)),
    "draw": ("draw {file} --sheet plan --format svg --out {out}", ("plan.svg",)),
}


class Closed(io.StringIO):
    """Stream whose other end is closed."""

    def write(self, text: str) -> int:
        raise BrokenPipeError


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("pipe") / "van.yaml"
    path.write_text(plain_build(), encoding="utf-8")
    return path


@pytest.fixture(autouse=True)
def found_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """What takes seconds to find is here already: only who writes and prints when is asked."""
    look = SimpleNamespace(text="hushwright: 1\n", evaluation=SimpleNamespace(build=None))
    monkeypatch.setattr("hushwright.search.first_look.first_look", lambda *_given: look)
    monkeypatch.setattr("hushwright.search.mending.with_mends", lambda given: given)
    monkeypatch.setattr("hushwright.report.first_look.first_look_page", lambda *_given: "First look: all is well")
    monkeypatch.setattr("hushwright.report.papers.first_look.first_look_paper", lambda *_given: None)
    found = SimpleNamespace(steps=("line the ceiling",), text="hushwright: 1\n", ending="meets")
    monkeypatch.setattr("hushwright.cli.quieten._searched", lambda _search: found)
    monkeypatch.setattr("hushwright.search.quietening.Quietening", lambda *_given, **_named: None)
    monkeypatch.setattr("hushwright.report.quieten.quietened_text", lambda *_given: "One step")
    monkeypatch.setattr("hushwright.report.papers.setting.paper_pdf", lambda *_given: b"%PDF")
    monkeypatch.setattr("hushwright.evaluation.wiring.courses.course_of_circuit", lambda *_given: "light")
    drawing = SimpleNamespace(title="The way of light", key=(), remarks=())
    monkeypatch.setattr("hushwright.drawings.courses.course", lambda *_given: drawing)
    monkeypatch.setattr("hushwright.drawings.svg.svg", lambda *_given: "<svg/>")


@pytest.mark.parametrize(("call", "files"), CALLS.values(), ids=CALLS)
def test_every_file_is_written_though_nobody_reads(
    call: str, files: tuple[str, ...], file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "stdout", Closed())
    monkeypatch.setattr(sys, "stderr", Closed())
    assert run([part.format(out=tmp_path, file=file) for part in call.split()]) == READER_LEFT
    assert [name for name in files if not (tmp_path / name).is_file()] == []


def test_a_value_is_set_though_nobody_reads(file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    copy = tmp_path / "van.yaml"
    copy.write_bytes(file.read_bytes())
    monkeypatch.setattr(sys, "stdout", Closed())
    assert run(["set", str(copy), "title", "Quay"]) == READER_LEFT
    assert "Quay" in copy.read_text()


def test_the_page_is_shown_though_its_file_cannot_be_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("hushwright.cli.first._check_places", lambda *_names: None)
    (tmp_path / "taken.yaml").write_text("mine")
    assert run(["first", str(tmp_path / "taken.yaml"), "--usual"]) == 2
    assert capsys.readouterr().out.startswith("First look: ")
