"""The list of cables, as a person asks for it."""

import csv
import io
from pathlib import Path

import pytest
from tests.unit.signal_cases import WIRED

from hushwright.cli.main import run


@pytest.fixture
def van(tmp_path: Path) -> str:
    file = tmp_path / "van.yaml"
    file.write_text(WIRED, encoding="utf-8")
    return str(file)


def test_the_list_says_how_much_cable_to_buy(van: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["signals", van]) == 0
    told = capsys.readouterr().out
    assert "total: 6 cables, 33 m" in told
    assert "socket, plug" in told
    assert max(map(len, told.splitlines())) <= 100


def test_us_units_are_never_mixed_with_metric_ones(van: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["signals", van, "--units", "us"]) == 0
    told = capsys.readouterr().out
    assert " mm" not in told
    assert " m\n" not in told
    assert "ft" in told


def test_the_table_for_spreadsheets_has_a_row_for_each_line(van: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["signals", van, "--csv"]) == 0
    rows = list(csv.DictReader(io.StringIO(capsys.readouterr().out)))
    assert [(row["line"], row["number"], row["length [mm]"]) for row in rows] == [
        ("tie_lines", "4", "6000"), ("phones", "1", "5000"), ("talk", "1", "4000"),
    ]  # fmt: skip


def test_signals_stand_in_the_check_on_their_own(van: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["check", van, "--only", "Signals"]) == 0
    told = capsys.readouterr().out
    assert "headphone-ceiling-at-desk" in told or "headphone-ceiling-singers" in told
    assert "gear heard in the quiet room (record)" in told
