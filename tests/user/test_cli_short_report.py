"""What a person sees without asking for everything, and hints where a call misses by a little."""

from pathlib import Path

import pytest
from tests.coupled import DEMO, evaluation_of, verdicts_of

from hushwright.cli import reading
from hushwright.cli.main import run
from hushwright.evaluation.results import Evaluation
from hushwright.report.text import check_report
from hushwright.verdicts.verdict import Verdict

WALL = "layers:\n  - {sheet: birch plywood, thickness: 12 mm}\narea: 4 m2\n"


def test_what_to_do_first_stands_right_under_the_count(
    evaluation: Evaluation, verdicts: tuple[Verdict, ...]
) -> None:  # fmt: skip
    text = check_report(evaluation, verdicts, [], "metric", whole=False)
    first = text[text.index("To do first") : text.index("\nVerdicts\n")]
    assert "1. Is the quiet room quiet enough at the fair? A cavity of 140 mm" in first
    assert "(quiet-fair)" in first


def test_the_short_report_tells_each_open_question_once_and_what_meets_by_group(
    evaluation: Evaluation, verdicts: tuple[Verdict, ...]
) -> None:
    short = check_report(evaluation, verdicts, [], "metric", whole=False)
    whole = check_report(evaluation, verdicts, [], "metric")
    met = short[short.index("\nMEETS\n") : short.index("\nNOT APPLICABLE")]
    (line,) = [line for line in met.splitlines() if "headroom" in line]
    assert line.split()[:2] == ["space", "1"]
    assert "at least 1850 mm" in line
    for name in (
        "FAILS  quiet-fair",
        "UNPROVEN  quiet-quay",
        "NOT APPLICABLE  rain",
        "\nWeakest paths\n",
        "\nCautions\n",
    ):
        assert name in short
    assert "\nResonances\n" in whole
    assert "\nResonances\n" not in short
    assert "--all" in short
    assert len(short.splitlines()) < len(whole.splitlines())


def test_a_question_open_in_several_places_is_told_once_with_the_others_under_it() -> None:
    short = check_report(evaluation_of(DEMO), tuple(verdicts_of(DEMO).values()), [], "metric", whole=False)
    assert short.split("\nVerdicts\n")[1].count("Do people sit without a draught?") == 1
    for one in verdicts_of(DEMO).values():
        if one.verdict == "unproven":
            assert one.id in short
    assert len(short.splitlines()) < 480


def test_each_command_points_to_the_other_for_the_other_kind_of_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    wall, van = tmp_path / "wall.yaml", tmp_path / "van.yaml"
    wall.write_text(WALL, encoding="utf-8")
    van.write_text("brief: {tallest: 1.8 m}\nvehicle: {}\n", encoding="utf-8")
    assert run(["check", str(wall)]) == 2
    assert f"hushwright partition {wall}" in capsys.readouterr().err
    assert run(["partition", str(van)]) == 2
    told = capsys.readouterr().err
    assert f"hushwright check {van}" in told
    assert "problem 1 of 1" in told


def test_an_unknown_verdict_is_met_with_near_ones_never_with_all(
    monkeypatch: pytest.MonkeyPatch,
    evaluation: Evaluation,
    verdicts: tuple[Verdict, ...],
    small: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.setattr(reading, "read_evaluation", lambda _file, **_options: (evaluation, ()))
    monkeypatch.setattr(reading, "judged", lambda _evaluation: verdicts)
    assert run(["check", str(small), "--explain", "quiet"]) == 2
    assert "perhaps quiet-quay or quiet-fair?" in capsys.readouterr().err
    assert run(["check", str(small), "--explain", "zzz"]) == 2
    told = capsys.readouterr().err
    assert "headroom" not in told
    assert "without --explain" in told
