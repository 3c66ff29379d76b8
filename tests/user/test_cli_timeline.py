"""The session over time, in a terminal and for a spreadsheet."""

import csv
import io
from pathlib import Path

import pytest
from tests.coupled import edited
from tests.plain_builds import plain_build
from tests.unit.heat_cases import BITTER, HEATER, van

from hushwright.cli.main import run
from hushwright.report.csv_out import csv_text
from hushwright.report.timeline_columns import Moments

SESSION = (
    "  crew_on_the_road: 2\n",
    "  crew_on_the_road: 2\n  session: [{state: record, duration: 30 min}, {state: drive, duration: 10 min}]\n",
)
COLD = edited(van(BITTER.replace(HEATER, "")), SESSION)
BARE = plain_build()


@pytest.fixture(name="cold")
def _cold(tmp_path: Path) -> str:
    place = tmp_path / "cold.yaml"
    place.write_text(COLD, encoding="utf-8")
    return str(place)


def test_the_session_shows_people_air_heat_and_background_room_by_room(
    cold: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["timeline", cold]) == 0
    text = capsys.readouterr().out
    for word in ("record 30 min, drive 10 min", "people", "CO₂", "humidity", "hottest day", "coldest day", "quay"):
        assert word in text, word
    assert "o quiet room" in text
    assert all(len(line) <= 100 for line in text.splitlines())


def test_people_leave_when_the_phase_ends(cold: str, capsys: pytest.CaptureFixture[str]) -> None:
    run(["timeline", cold, "--csv"])
    rows = list(csv.DictReader(io.StringIO(capsys.readouterr().out)))
    assert len(rows) == 41  # a row a minute, both ends
    people = {float(row["time [min]"]): (row["state"], row["quiet_room people"]) for row in rows}
    assert people[0.0] == ("record", "2")
    assert people[30.0] == people[40.0] == ("drive", "0")


def test_no_cell_is_taken_for_a_formula_and_numbers_stay_numbers(cold: str, capsys: pytest.CaptureFixture[str]) -> None:
    run(["timeline", cold, "--csv"])
    rows = list(csv.reader(io.StringIO(capsys.readouterr().out)))
    assert not [cell for row in rows for cell in row if cell.startswith(("=", "+", "-", "@", "\t"))]
    coldest = [float(row[rows[0].index("quiet_room coldest day [°C]")]) for row in rows[1:]]
    assert min(coldest) < 0.0
    assert csv_text([("=1+1", "@a", "\tb", -2.0, 1e-7)]).split(",") == ["'=1+1", "'@a", "'\tb", " -2", "1e-07"]


def test_fahrenheit_tells_the_same_temperature(cold: str, capsys: pytest.CaptureFixture[str]) -> None:
    last = []
    for units, unit in (("metric", "°C"), ("us", "°F")):
        run(["timeline", cold, "--csv", "--units", units])
        rows = list(csv.DictReader(io.StringIO(capsys.readouterr().out)))
        last.append(float(rows[-1][f"quiet_room coldest day [{unit}]"]))
    assert last[1] == pytest.approx(32.0 + 1.8 * last[0], abs=0.02)


def test_what_the_file_does_not_hold_is_named_with_the_reason(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    place = tmp_path / "bare.yaml"
    place.write_text(BARE, encoding="utf-8")
    assert run(["timeline", str(place)]) == 0
    text = capsys.readouterr().out
    assert "not computed: temperature, for the file has no `climate`" in text
    assert "not computed: background" in text


def test_what_is_taken_holds_to_the_end_of_its_step_and_the_last_row_is_of_the_session() -> None:
    moments = Moments((0.0, 600.0, 1200.0), ("pause", "record", "record"), ())
    assert moments.held((0.0, 600.0, 1200.0, 1800.0), (802.0, 882.0, 0.0, 0.0)) == (802.0, 882.0, 882.0)
    assert moments.held((0.0, 600.0), (802.0, 882.0))[-1] is None  # nothing is known there
