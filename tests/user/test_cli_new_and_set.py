"""Writing files: an example is copied once, a value is changed and nothing else."""

from pathlib import Path

import pytest

from hushwright.cli.main import run


def test_new_leaves_out_the_tale_of_the_example_s_results(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "my-van.yaml"
    assert run(["new", str(file)]) == 0
    written, example = (each.read_text(encoding="utf-8").splitlines()
                        for each in (file, Path(__file__).parents[2] / "examples" / "archive-van.yaml"))  # fmt: skip
    assert [line[0] for line in written[:3]] == ["#", "#", "h"]
    assert written[2:] == example[example.index("hushwright: 1") :]
    assert f"hushwright check {file}" in capsys.readouterr().out


def test_new_never_overwrites(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "my-van.yaml"
    file.write_text("mine", encoding="utf-8")
    assert run(["new", str(file)]) == 2
    assert file.read_text(encoding="utf-8") == "mine"
    assert "stays as it is" in capsys.readouterr().err


def test_new_into_a_missing_folder_says_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["new", str(tmp_path / "none" / "van.yaml")]) == 2
    assert "no such folder" in capsys.readouterr().err
    assert run(["new", str(tmp_path)]) == 2
    assert str(tmp_path) in capsys.readouterr().err


def test_new_lists_examples_and_refuses_others(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["new", "--list"]) == 0
    assert capsys.readouterr().out.startswith("archive-van ")
    assert run(["new", str(tmp_path / "van.yaml"), "--from", "hovercraft"]) == 2
    assert "archive-van" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


TYPED = (
    b"\xef\xbb\xbfhushwright: 1\r\nbrief:\r\n  tallest:   1.80 m   # the bass\r\nvehicle: {front_axle: -1450 mm}\r\n"
)


def test_set_changes_one_value_and_keeps_every_other_byte(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "van.yaml"
    file.write_bytes(TYPED)
    assert run(["set", str(file), "brief.tallest", "6 ft 3 in"]) == 0
    assert file.read_bytes() == TYPED.replace(b"1.80 m", b"6 ft 3 in")
    told = capsys.readouterr().out
    assert "1.80 m" in told
    assert "6 ft 3 in" in told
    assert told.index("1.80 m") < told.index("6 ft 3 in")
    assert f"hushwright check {file}" in told
    assert f"hushwright change OLD {file}" in told


@pytest.mark.parametrize(("path", "meant"), [("breif.tallest", "brief"), ("brief.tallets", "tallest")])
def test_set_asks_whether_a_misspelt_key_is_another(
    path: str, meant: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "van.yaml"
    file.write_bytes(TYPED)
    assert run(["set", str(file), path, "1.90 m"]) == 2
    assert f"did you mean {meant}" in capsys.readouterr().err
    assert file.read_bytes() == TYPED


def test_set_takes_a_value_that_begins_with_a_minus(tmp_path: Path) -> None:
    file = tmp_path / "van.yaml"
    file.write_bytes(TYPED)
    assert run(["set", str(file), "vehicle.front_axle", "-1400 mm"]) == 0
    assert file.read_bytes() == TYPED.replace(b"-1450", b"-1400")


@pytest.mark.parametrize(
    ("path", "value", "reason"),
    [
        ("brief.tallest", "18 m", "18 m"),
        ("brief.tallest", "tall", "tall"),
        ("brief.talest", "1.8 m", "talest"),
        ("vehicle.body", "hovercraft", "hovercraft"),
        ("brief", "1.8 m", "brief"),
        ("vehicle.ribs.9.depth", "50 mm", "ribs"),
    ],
)
def test_set_refuses_what_does_not_fit_and_leaves_the_file(
    path: str, value: str, reason: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "van.yaml"
    file.write_bytes(TYPED)
    assert run(["set", str(file), path, value]) == 2
    assert reason in capsys.readouterr().err
    assert file.read_bytes() == TYPED
    assert [each.name for each in tmp_path.iterdir()] == ["van.yaml"]


def test_set_says_the_same_as_check_would(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "van.yaml"
    file.write_bytes(TYPED)
    run(["set", str(file), "brief.tallest", "18 m"])
    refused = capsys.readouterr().err
    file.write_bytes(TYPED.replace(b"1.80 m", b"18 m"))
    run(["check", str(file)])
    assert capsys.readouterr().err == refused


def test_a_file_with_another_fault_can_still_be_mended(tmp_path: Path) -> None:
    file = tmp_path / "van.yaml"
    file.write_bytes(TYPED.replace(b"vehicle:", b"vehicel:"))
    assert run(["set", str(file), "brief.tallest", "1.9 m"]) == 0
    assert b"1.9 m" in file.read_bytes()


def test_a_build_up_on_its_own_is_changed_and_checked_too(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "wall.yaml"
    typed = b"layers:\n  - {sheet: birch plywood, thickness: 9 mm}\narea: 1 m2\n"
    file.write_bytes(typed)
    assert run(["set", str(file), "layers.0.thickness", "12 mm"]) == 0
    assert file.read_bytes() == typed.replace(b"9 mm", b"12 mm")
    assert run(["set", str(file), "layers.0.sheet", "birch plywod"]) == 2
    assert "birch plywood" in capsys.readouterr().err


def test_setting_the_same_value_changes_nothing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "van.yaml"
    file.write_bytes(TYPED)
    assert run(["set", str(file), "brief.tallest", "1.80 m"]) == 0
    assert "nothing is changed" in capsys.readouterr().out
    assert file.read_bytes() == TYPED
