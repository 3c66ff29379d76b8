"""The check report as a person reads it, on a small van judged by hand."""

import json
import re
from dataclasses import replace
from pathlib import Path

import pytest
from tests.coupled import DEMO, build_of

from hushwright.cli import reading
from hushwright.cli.main import run
from hushwright.evaluation.results import Evaluation
from hushwright.report import labels
from hushwright.report.as_json import check_json
from hushwright.report.explain import explanation
from hushwright.report.measure_next import measure_next_lines, measure_next_nodes
from hushwright.report.measure_sheet import measure_sheet
from hushwright.report.method_steps import steps_of
from hushwright.report.sections import between_rooms, faces
from hushwright.report.text import check_report
from hushwright.units import System
from hushwright.verdicts.judge import CHECKS
from hushwright.verdicts.measure_next import MeasureNext, measure_next
from hushwright.verdicts.verdict import Verdict

Verdicts = tuple[Verdict, ...]
METRIC = re.compile(r"\d\s?(?:mm|cm|m|km|kg|kg/m[²³]|m[²³]|N/mm|N/m|kN|kPa|Pa|MPa|°C|l/s|l|mm/h)(?![\w/²³])")
WORDS = Path(__file__).parents[2] / "docs" / "decisions" / "words.md"
SYSTEMS: tuple[System, ...] = ("metric", "us")


def screens(evaluation: Evaluation, verdicts: Verdicts, system: System) -> dict[str, str]:
    return {
        "check": check_report(
            evaluation, verdicts, measure_next_lines(measure_next(evaluation, verdicts), system), system
        ),
        "measure": measure_sheet(evaluation.build, every_input(evaluation, verdicts), system),
        **{f"explain {one.id}": explanation(one, evaluation, system) for one in verdicts},
    }


def every_input(evaluation: Evaluation, verdicts: Verdicts) -> tuple[MeasureNext, ...]:
    return measure_next(evaluation, verdicts, all_verdicts=True)


def test_no_line_is_wider_than_a_hundred_columns(evaluation: Evaluation, verdicts: Verdicts) -> None:
    for system in SYSTEMS:
        for name, text in screens(evaluation, verdicts, system).items():
            wide = [line for line in text.splitlines() if len(line) > 100]
            assert not wide, f"{name}: {wide}"


def test_us_units_leave_no_metric_number_on_any_screen(evaluation: Evaluation, verdicts: Verdicts) -> None:
    for name, text in screens(evaluation, verdicts, "us").items():
        assert not METRIC.findall(text), f"{name}: {[m.group() for m in METRIC.finditer(text)]}"


def test_metric_units_leave_no_us_number_on_any_screen(evaluation: Evaluation, verdicts: Verdicts) -> None:
    for name, text in screens(evaluation, verdicts, "metric").items():
        assert not re.findall(r"\d\s?(?:in|ft|lb|lbf|ft²|ft³|psi|°F|cfm)\b", text), name


def test_verdicts_come_worst_first_each_with_its_word(evaluation: Evaluation, verdicts: Verdicts) -> None:
    text = check_report(evaluation, verdicts, [], "metric")
    order = [text.index(word) for word in ("\nFAILS ", "\nUNPROVEN ", "\nMEETS ", "\nNOT APPLICABLE ")]
    assert order == sorted(order)
    assert "\x1b" not in text


def test_a_verdict_shows_value_limit_margin_spread_basis_state_and_hint(
    evaluation: Evaluation, verdicts: Verdicts
) -> None:
    text = check_report(evaluation, verdicts, [], "metric")
    block = text[text.index("UNPROVEN  quiet-quay") : text.index("MEETS")]
    for part in (
        "33.1 dB(A) ±6 dB (2u)", "at most 35 dB(A)", "+1.9 dB", "chance likely (74 %)", "state record", "(line 4)",
        "try ", "duct noise is not computed",
    ):  # fmt: skip
        assert part in block
    assert "chance" not in text[text.index("FAILS") : text.index("UNPROVEN  ")]


def test_states_in_which_all_is_the_same_share_one_block(evaluation: Evaluation, verdicts: Verdicts) -> None:
    *others, fair = verdicts
    again = replace(fair, id="quiet-fair-side-door-open", state="side_door_open")
    text = check_report(evaluation, (*others, again, fair), [], "metric")
    assert "FAILS  quiet-fair-side-door-open, quiet-fair  (states side_door_open, record)" in text
    assert text.count("value NC 38.2") == 1
    assert "2 fail" in text


def test_the_three_lines_of_a_verdict_on_quiet_are_shown(evaluation: Evaluation, verdicts: Verdicts) -> None:
    text = check_report(evaluation, verdicts, [], "metric")
    assert re.search(r"^ +dB\(A\) +43\.1 dB\(A\)", text, re.M)
    assert re.search(r"^ +voice bands +30\.0 dB; NC 28", text, re.M)


def test_measure_next_ranks_by_share(evaluation: Evaluation, verdicts: Verdicts) -> None:
    nodes = measure_next_nodes(measure_next(evaluation, verdicts), "metric")
    assert [node["path"] for node in nodes] == ["vehicle.ribs.depth", "vehicle.skin.thickness"]
    assert nodes[0]["share"] == pytest.approx(4.0 / 9.0, abs=1e-3)
    assert nodes[1]["share"] == pytest.approx(1.0 / 9.0, abs=1e-3)


def test_the_sheet_lists_every_uncertain_value_of_the_van(evaluation: Evaluation, verdicts: Verdicts) -> None:
    text = measure_sheet(evaluation.build, every_input(evaluation, verdicts), "metric")
    for one in evaluation.build.inputs:
        if one.path.startswith("vehicle."):
            assert one.label in text
    assert text.index("rib depth") < text.index("skin thickness") < text.index("roof radius")
    assert "section of the body" in text


def test_the_sheet_asks_for_the_levels_of_every_situation() -> None:
    build = build_of(DEMO)
    text = measure_sheet(build, (), "metric")
    for name, level in (("quay", 54), ("fair", 65)):  # sums of the brief's octaves, A-weighted by hand
        assert f"{name}, now {level} dB(A), octaves of the brief; brief.outdoors." in text
    assert text.count("meter, its class") == len(build.brief.situations)
    us = measure_sheet(build, (), "us")
    assert "5 ft over ground" in " ".join(us.split())
    assert max(map(len, us.splitlines())) <= 100


def test_an_explanation_shows_the_arithmetic_the_shares_and_the_sources(
    evaluation: Evaluation, verdicts: Verdicts
) -> None:
    text = explanation(verdicts[3], evaluation, "metric")
    assert "margin = NC 25 − NC 38.2 = -13.2" in text
    assert re.search(r"81 % +method", text)
    assert re.search(r"16 % +rib depth +55 mm", text)
    assert "common practice, no source" in text


def test_json_has_the_fields_of_schema_one(evaluation: Evaluation, verdicts: Verdicts) -> None:
    text = check_json(
        evaluation, verdicts, measure_next_nodes(measure_next(evaluation, verdicts), "metric"), (), "metric"
    )
    assert text.isascii()
    node = json.loads(text)
    assert node["schema"] == 1
    assert {"build", "verdicts", "assumptions", "paths"} <= set(node)
    wanted = ["id", "group", "question", "state", "value", "unit", "limit", "margin", "uncertainty", "chance"]
    wanted += ["verdict", "basis", "place"]
    for one in node["verdicts"]:
        assert list(one)[: len(wanted)] == wanted
    assert [one["verdict"] for one in node["verdicts"]] == ["fails", "unproven", "meets", "not_applicable"]
    assert node["verdicts"][3]["value"] is None
    assert node["verdicts"][3]["limit"] is None
    assert node["verdicts"][2]["value"] == 1898.0
    assert node["verdicts"][2]["unit"] == "mm"


def test_json_in_us_units_gives_the_same_length(evaluation: Evaluation, verdicts: Verdicts) -> None:
    text = check_json(evaluation, verdicts, [], (), "us")
    headroom = json.loads(text)["verdicts"][2]
    assert headroom["unit"] == "in"
    assert headroom["value"] == pytest.approx(1898.0 / 25.4, rel=1e-5)
    assert headroom["margin"] == pytest.approx(48.0 / 25.4, rel=1e-5)


def test_every_check_has_its_steps_with_a_source() -> None:
    for check in CHECKS:
        steps = steps_of(check.reference)
        assert steps, check.reference
        assert all(what and source for what, source in steps)


def listed_words() -> set[str]:
    lines = WORDS.read_text(encoding="utf-8").splitlines()
    return {line.split("|")[1].strip().casefold() for line in lines if line.startswith("| ")}


def test_every_label_and_heading_is_in_the_list_of_words() -> None:
    shown = {*labels.OUTCOMES.values(), *labels.HEADINGS.values(), *labels.LABELS.values()}
    assert not {word for word in shown if word.casefold() not in listed_words()}


def test_every_heading_on_a_screen_is_a_declared_one(evaluation: Evaluation, verdicts: Verdicts) -> None:
    declared = {*labels.HEADINGS.values()}
    for text in screens(evaluation, verdicts, "metric").values():
        lines = text.splitlines()
        found = {lines[at - 1] for at, line in enumerate(lines) if line and set(line) == {"─"}}
        assert found
        assert found <= declared, found - declared


@pytest.fixture(name="_by_hand")
def _judge_by_hand(monkeypatch: pytest.MonkeyPatch, evaluation: Evaluation, verdicts: Verdicts) -> None:
    monkeypatch.setattr(reading, "read_evaluation", lambda *_args, **_options: (evaluation, ()))
    monkeypatch.setattr(reading, "judged", lambda _evaluation: verdicts)


@pytest.mark.usefixtures("_by_hand")
def test_the_exit_code_tells_whether_something_is_open(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["check", "small.yaml"]) == 1
    assert run(["check", "small.yaml", "--explain", "headroom"]) == 0
    assert run(["check", "small.yaml", "--explain", "rain"]) == 0
    assert run(["check", "small.yaml", "--state", "drive"]) == 0
    assert run(["check", "small.yaml", "--state", "record", "--json"]) == 1
    capsys.readouterr()


@pytest.mark.usefixtures("_by_hand")
def test_one_state_shows_its_verdicts_and_those_of_every_state(capsys: pytest.CaptureFixture[str]) -> None:
    run(["check", "small.yaml", "--state", "drive", "--json"])
    assert [one["id"] for one in json.loads(capsys.readouterr().out)["verdicts"]] == ["headroom"]


@pytest.mark.usefixtures("_by_hand")
@pytest.mark.parametrize("pasted", ["quiet-fa\u200bir", "quiet-\u00adfair\ufeff", "quiet- fair", "quietfair, state x"])
def test_the_name_of_a_verdict_may_be_pasted_from_a_page(pasted: str, capsys: pytest.CaptureFixture[str]) -> None:
    run(["check", "small.yaml", "--explain", pasted])
    assert ": quiet-fair" in capsys.readouterr().out


@pytest.mark.usefixtures("_by_hand")
def test_an_unknown_verdict_or_state_gets_the_names_there_are(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["check", "small.yaml", "--explain", "quiet-fare"]) == 2
    assert "quiet-fair" in capsys.readouterr().err
    assert run(["check", "small.yaml", "--state", "parade"]) == 2
    assert "record" in capsys.readouterr().err


def test_the_level_difference_is_shown_plain_and_standardized(evaluation: Evaluation) -> None:
    text = "\n".join(between_rooms(evaluation, "metric"))
    assert "difference D" in text
    assert "DnT,w 46 dB" in text


def test_faces_carry_the_outdoor_indoor_class(evaluation: Evaluation) -> None:
    assert "OITC" in "\n".join(faces(evaluation, "metric"))
