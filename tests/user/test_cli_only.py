"""One group of verdicts at a time, as a builder asks."""

import json
from pathlib import Path

import pytest
from tests.unit.structure_cases import CUT, HELD_ROOM

from hushwright.cli.main import run
from hushwright.verdicts.judge import CHECKS, GROUPS


@pytest.fixture(name="file")
def _file(tmp_path: Path) -> str:
    place = tmp_path / "van.yaml"
    place.write_text(HELD_ROOM, encoding="utf-8")
    return str(place)


def test_every_check_is_in_a_group_that_can_be_asked_for() -> None:
    assert {check.group for check in CHECKS} <= set(GROUPS)


def test_one_group_shows_its_verdicts_and_its_part_alone(file: str, capsys: pytest.CaptureFixture[str]) -> None:
    run(["check", file, "--only", "mass"])
    text = capsys.readouterr().out
    assert "road-mass-drive" in text
    assert "\nMass\n" in text
    assert "MEETS  headroom" not in text
    assert "\nAnchoring\n" not in text


def test_more_groups_and_json_hold_no_other_group(file: str, capsys: pytest.CaptureFixture[str]) -> None:
    run(["check", file, "--only", "Anchoring", "--only", "Space", "--json"])
    found = {one["group"] for one in json.loads(capsys.readouterr().out)["verdicts"]}
    assert found == {"Anchoring", "Space"}


def test_the_exit_code_is_that_of_the_group(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    cut = tmp_path / "cut.yaml"
    cut.write_text(CUT.replace("seal: gasket, ", ""), encoding="utf-8")
    assert run(["check", str(cut), "--only", "Doors"]) == 1
    assert run(["check", str(cut), "--only", "Space"]) == 0
    assert "cuts-sealed" not in capsys.readouterr().out.split("Headroom")[-1]


def test_an_unknown_group_gets_a_near_one(file: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["check", file, "--only", "Masses"]) == 2
    assert "perhaps Mass?" in capsys.readouterr().err
    assert run(["check", file, "--only", "xyz"]) == 2
    assert "Anchoring" in capsys.readouterr().err
