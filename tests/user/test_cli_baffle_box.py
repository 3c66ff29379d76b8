"""A baffle box for a run, as a person asks for it."""

from pathlib import Path

import pytest

from hushwright.cli.main import run

DEMO = str(Path(__file__).parents[2] / "examples" / "archive-van.yaml")


def test_the_line_it_prints_goes_into_the_file(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert run(["baffle-box", DEMO, "extract"]) == 0
    told = capsys.readouterr().out
    line = next(each.strip() for each in told.splitlines() if each.strip().startswith("- {baffle_box"))
    text = Path(DEMO).read_text(encoding="utf-8")
    box = "- {baffle_box: 900, width: 350, height: 250, lining: 40, absorber: melamine foam, baffles: 3, passage: 70}"
    assert box in text
    changed = tmp_path / "van.yaml"
    changed.write_text(text.replace(box, line), encoding="utf-8")
    assert run(["check", str(changed), "--json"]) in (0, 1)


def test_less_space_and_a_lower_curve_say_what_is_missing(capsys: pytest.CaptureFixture[str]) -> None:
    call = ["baffle-box", DEMO, "extract", "--length", "12 in", "--nc", "15", "--units", "us"]
    assert run(call) == 1
    told = capsys.readouterr().out
    assert "comes nearest" in told
    assert " mm" not in told
    assert max(map(len, told.splitlines())) <= 150


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["exhaust"], "no run 'exhaust'"),
        (["fresh_air"], "does not end in a quiet room"),
        (["extract", "--length", "long"], "long"),
        (["extract", "--height", "80 mm"], "no box within"),
    ],
)
def test_what_cannot_be_designed_is_refused_with_a_reason(
    capsys: pytest.CaptureFixture[str], arguments: list[str], said: str
) -> None:
    assert run(["baffle-box", DEMO, *arguments]) == 2
    found = capsys.readouterr()
    assert said in found.err
    assert "Something went wrong" not in found.err
