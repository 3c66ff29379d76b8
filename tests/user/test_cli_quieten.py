"""``hushwright quieten``: steps on the terminal and as JSON, the new file, and what is refused."""

import json
from pathlib import Path

import pytest
from tests.plain_builds import plain_build

from hushwright.cli.main import run

BUILD = plain_build(
    brief="  outdoors:\n    - {situation: quay, octaves: {hz_125: 60 dB, hz_500: 55 dB, hz_2000: 45 dB}, "
    "comes_from: all round, limit: 36 dB(A)}\n",
    left="        - {sheet: birch plywood, thickness: 9}   # of the yard\n"
    "        - {cavity: 60}\n        - {sheet: birch plywood, thickness: 12}\n",
)


def test_steps_are_listed_and_written_to_a_new_file_that_check_agrees_with(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    old, new = tmp_path / "van.yaml", tmp_path / "quieter.yaml"
    old.write_text(BUILD, encoding="utf-8")
    assert run(["quieten", str(old), "--nominal", "--write", str(new)]) == 1
    told = capsys.readouterr().out
    assert "The number meets, it is not sure: 41 dB(A) now" in told
    assert "1  quiet room left: " in told
    assert "surfaces.quiet_room.left.layers" in told
    assert "measure" in told
    assert old.read_text(encoding="utf-8") == BUILD
    assert "# of the yard" in new.read_text(encoding="utf-8")
    run(["quieten", str(new), "--nominal", "--json"])
    found = json.loads(capsys.readouterr().out)
    assert found["steps"] == []
    assert found["start"] <= found["limit"]
    assert f"{found['start']:.1f}".removesuffix(".0") + " dB(A) ±" in told


def test_json_has_every_step_with_what_it_takes(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "van.yaml"
    path.write_text(BUILD, encoding="utf-8")
    assert run(["quieten", str(path), "--nominal", "--json", "--verdict", "background-quay-record"]) == 1
    found = json.loads(capsys.readouterr().out)
    assert found["verdict"] == "background-quay-record"
    assert found["ending"] == "number"
    assert found["number_meets_after"] == len(found["steps"]) > 0
    assert sum(step["gain"] for step in found["steps"]) == pytest.approx(found["start"] - found["end"], abs=1e-3)
    takes = {"mass", "mass_is_known", "money", "without_price", "headroom", "width", "length", "wheel_boxes"}
    assert set(found["steps"][0]["takes"]) == takes


def test_what_cannot_be_searched_is_refused_with_what_there_is(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "van.yaml"
    path.write_text(BUILD, encoding="utf-8")
    assert run(["quieten", str(path), "--verdict", "road-mass-drive"]) == 2
    assert "there are: background-quay-record" in capsys.readouterr().err
    assert run(["quieten", str(path), "--write", str(path)]) == 2
    assert "choose another name" in capsys.readouterr().err
