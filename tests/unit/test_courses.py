"""Ways of circuits and lines through the van: legs add up to the circuit, neighbours are found where they are."""

import math
from pathlib import Path

import pytest
from tests.coupled import DEMO, evaluation_of

from hushwright.app.courses import course_of, course_picture
from hushwright.cli.main import app
from hushwright.drawings.courses import course as drawn
from hushwright.drawings.courses import letter
from hushwright.evaluation.wiring.beside import CLOSE, _close_to
from hushwright.evaluation.wiring.courses import course_of_circuit, course_of_line
from hushwright.verdicts.judge import judge


def test_legs_of_a_circuit_add_up_to_its_length_and_drop_with_the_circuits_before_it() -> None:
    evaluation = evaluation_of(DEMO)
    for circuit in evaluation.wiring.circuits:
        course = course_of_circuit(evaluation, circuit.name)
        assert course is not None
        own = [leg for leg in course.legs if leg.owner == circuit.name]
        assert sum(leg.length for leg in own) == pytest.approx(circuit.length, rel=1e-9)
        assert sum(leg.drop or 0.0 for leg in own) == pytest.approx(circuit.drop * circuit.voltage, rel=1e-9)
        assert course.length == pytest.approx(sum(leg.length for leg in course.legs))
        for leg in own:
            if leg.points:
                assert leg.length >= math.dist(*leg.points) * (1.0 - 1e-9)  # slack only adds


def test_lines_lead_from_where_they_come_to_where_they_go() -> None:
    evaluation = evaluation_of(DEMO)
    course = course_of_line(evaluation, "tie_lines")
    assert course is not None
    assert [stop.kind for stop in course.stops] == ["end", "passage", "end"]
    assert course_of_line(evaluation, "nothing") is None
    assert course_of_circuit(evaluation, "nothing") is None


def test_a_way_runs_beside_another_over_the_length_that_is_near() -> None:
    """By hand: 2 m at 5 cm, then away at a right angle: near until 15 cm, so 10 cm more."""
    way = ((0.0, 0.0, 0.0), (4.0, 0.0, 0.0))
    other = ((1.0, 0.05, 0.0), (3.0, 0.05, 0.0), (3.0, 1.05, 0.0))
    along, nearest = _close_to(other, way)
    assert along == pytest.approx(2.0 + CLOSE - 0.05, abs=0.026)
    assert nearest == pytest.approx(0.05, abs=1e-9)


def test_each_mark_of_the_picture_has_its_words_and_stands_in_both_views() -> None:
    evaluation = evaluation_of(DEMO)
    course = course_of_circuit(evaluation, "quiet_feed")
    assert course is not None
    marks = [mark for mark, _ in drawn(evaluation.build, course).key]
    assert marks == [*"12345", *"ABCDEFG"]
    shown, rows = course_picture(evaluation, course, "us")
    assert all(shown["svg"].count(f">{mark}<") >= 2 for mark in marks)
    assert any(" ft" in row["cells"][1] or " in" in row["cells"][1] for row in rows)
    assert letter(25), letter(26) == ("Z", "AA")


def test_every_verdict_on_a_circuit_or_a_line_leads_to_its_way() -> None:
    evaluation = evaluation_of(DEMO)
    for one in judge(evaluation):
        if one.place.startswith(("power.circuits.", "signals.lines.")):
            assert course_of(one, evaluation) is not None, one.id
    whole = next(one for one in judge(evaluation) if one.id == "fused-all")
    course = course_of(whole, evaluation)
    assert course is not None
    assert course.name == max(evaluation.wiring.circuits, key=lambda each: each.drop).name


def test_a_course_is_told_and_drawn_from_the_command_line(tmp_path: Path) -> None:
    from typer.testing import CliRunner

    demo = str(Path(__file__).resolve().parents[2] / "examples" / "archive-van.yaml")
    picture = tmp_path / "way.svg"
    call = ["wiring", demo, "--course", "quiet_feed", "--picture", str(picture)]
    done = CliRunner().invoke(app, call)
    assert done.exit_code == 0, done.output
    assert "fuse 10 A miniature breaker, quiet feed" in done.output
    assert picture.read_text(encoding="utf-8").startswith("<svg")
    again = CliRunner().invoke(app, call)
    assert again.exit_code == 2
    wrong = CliRunner().invoke(app, ["wiring", demo, "--course", "quiet feed"])
    assert wrong.exit_code == 2
    assert "there are bank_lead" in wrong.output
