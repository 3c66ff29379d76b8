"""The schedule of circuits from the command line, as a workshop reads it."""

import csv
import io
from pathlib import Path

import pytest
from tests.unit.wiring_cases import WIRED

from hushwright.cli.main import run


@pytest.fixture
def van(tmp_path: Path) -> str:
    file = tmp_path / "van.yaml"
    file.write_text(WIRED, encoding="utf-8")
    return str(file)


def test_the_schedule_names_each_circuit_and_the_rules(van: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["wiring", van]) == 0
    told = capsys.readouterr().out
    assert "rules ABYC E-11" in told
    assert all(name in told for name in ("main", "converter lead", "board", "2 × 35 mm²", "licensed electrician"))
    assert max(map(len, told.splitlines())) <= 100


def test_the_table_can_be_read_as_numbers_in_us_units(van: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["wiring", van, "--csv", "--units", "us"]) == 0
    rows = list(csv.DictReader(io.StringIO(capsys.readouterr().out)))
    main = next(row for row in rows if row["circuit"] == "main")
    assert float(main["way [ft]"]) == pytest.approx(1.0 / 0.3048, abs=0.001)
    assert float(main["conductor [kcmil]"]) == pytest.approx(35.0 / 0.5067, rel=1e-3)
    assert float(main["fuse [A]"]) <= float(main["carries [A]"])
    assert all("mm" not in cell for row in rows for cell in row.values())


def test_an_unknown_route_is_told_with_its_line(van: str, capsys: pytest.CaptureFixture[str]) -> None:
    Path(van).write_text(WIRED.replace("route: feed", "route: feet"), encoding="utf-8")
    assert run(["wiring", van]) == 2
    problems = capsys.readouterr().err
    assert "feed" in problems
    assert "line" in problems
