"""The demo van from the command line, as a new user meets it."""

import contextlib
import io
import json
import math
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from hushwright.cli.main import run
from hushwright.cli.reading import read_evaluation
from hushwright.report.explain import explanation
from hushwright.report.explained import LONGEST, TERMS, terms_in
from hushwright.verdicts.judge import judge

DEMO = Path(__file__).parents[2] / "examples" / "archive-van.yaml"
METRIC = re.compile(r"\d\s?(?:mm|cm|m|km|kg|kg/m[²³]|m[²³]|N/mm|N/m|kN|kPa|Pa|MPa|°C|l/s|l|mm/h)(?![\w/²³])")
WALL = """\
title: Side wall
layers:
  - skin: body
  - {damping: damping, thickness: 2 mm, coverage: 55 %}
  - {cavity: 93 mm, fill: rock wool 40 kg/m3}
  - {sheet: birch plywood, thickness: 9 mm}
width: 2.25 m
height: 1.9 m
"""


@pytest.fixture(name="us_text", scope="module")
def _us_text() -> str:
    printed = io.StringIO()
    with contextlib.redirect_stdout(printed):
        assert run(["check", str(DEMO), "--units", "us", "--all"]) in (0, 1)
    return printed.getvalue()


def test_a_van_without_a_quiet_room_is_judged_in_a_process_of_its_own(tmp_path: Path) -> None:
    file = tmp_path / "bare.yaml"
    file.write_text("brief: {tallest: 1.8 m}\nvehicle: {}\n", encoding="utf-8")
    code = "import sys; from hushwright.cli.main import run; sys.exit(run())"
    done = subprocess.run(
        [sys.executable, "-P", "-c", code, "check", str(file)], capture_output=True, encoding="utf-8",
        env={**os.environ, "PYTHONUTF8": "1"}, check=False,
    )  # fmt: skip
    assert done.returncode in (0, 1), done.stderr
    assert "NOT APPLICABLE  background" in done.stdout
    assert "remark 1 of 1" in done.stderr


def test_the_demo_in_us_units_shows_no_metric_number(us_text: str) -> None:
    found = [us_text[max(hit.start() - 30, 0) : hit.end()] for hit in METRIC.finditer(us_text)]
    assert not found


def test_the_demo_report_has_every_part_and_fits_the_terminal(us_text: str) -> None:
    for heading in ("Verdicts", "Weakest paths", "Isolation between the rooms", "Resonances", "Headroom", "Mounts",
                    "Mass", "Assumptions", "Cautions"):  # fmt: skip
        assert f"\n{heading}\n" in us_text
    assert max(map(len, us_text.splitlines())) <= 100


def test_the_demo_as_json_agrees_with_its_exit_code_and_two_unit_systems(capsys: pytest.CaptureFixture[str]) -> None:
    nodes = {}
    for units in ("metric", "us"):
        code = run(["check", str(DEMO), "--json", "--units", units])
        nodes[units] = json.loads(capsys.readouterr().out)
        outcomes = {one["verdict"] for one in nodes[units]["verdicts"]}
        assert code == (1 if outcomes & {"fails", "unproven"} else 0)
    for metric, us in zip(nodes["metric"]["verdicts"], nodes["us"]["verdicts"], strict=True):
        assert metric["verdict"] == us["verdict"]
        factor = {
            "mm": 1 / 25.4,
            "mm/min": 1 / 25.4,
            "kg": 1 / 0.45359237,
            "N": 1 / 4.4482216152605,
            "l/s": 60.0 / 0.3048**3 / 1000.0,
            "m/s": 60.0 / 0.3048,
            "°C": 1.8,
            "kg/m2": 0.3048**2 / 0.45359237,
            "m2": 1 / 0.3048**2,
            "mm2": 1 / (math.pi / 4.0 * 0.0254**2 * 1000.0),  # kcmil
        }.get(metric["unit"], 1.0)
        if metric["value"] is not None:
            freezing = 32.0 if metric["unit"] == "°C" else 0.0
            assert us["value"] == pytest.approx(metric["value"] * factor + freezing, rel=1e-4)
    paths = nodes["metric"]["paths"]
    for background in paths["background"]:
        assert sum(way["share"] for way in background["ways"]) == pytest.approx(1.0, abs=1e-3)
        assert len(background["inside_db"]) == len(paths["bands_hz"])


def test_every_verdict_of_the_demo_can_be_explained() -> None:
    evaluation, _ = read_evaluation(str(DEMO))
    for verdict in judge(evaluation):
        assert not METRIC.findall(explanation(verdict, evaluation, "us"))
        text = explanation(verdict, evaluation, "metric")
        assert verdict.id in text
        assert "\nSources\n" in text
        assert max(map(len, text.splitlines())) <= 100
        if verdict.id.startswith(("background", "rain", "rooms", "neighbours")):
            assert "\nWeakest paths\n" in text


def test_one_build_up_gives_the_json_of_the_design(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "wall.yaml"
    file.write_text(WALL, encoding="utf-8")
    assert run(["partition", str(file), "--json"]) == 0
    node = json.loads(capsys.readouterr().out)
    assert node["bands_hz"][0] == 50
    assert node["bands_hz"][-1] == 5000
    assert len(node["bands_hz"]) == len(node["sound_reduction_index_db"]) == 21
    assert {"rw", "c", "ctr", "stc", "surface_density", "thickness", "mass_air_mass_resonance_hz", "validity"} <= set(
        node
    )
    # 0.9 mm steel with pads, 93 mm wool, 9 mm plywood: √(1.4·101 kPa/0.093 m·(1/8.2+1/6.4))/2π is 104 Hz for air that
    # stays adiabatic, 88 Hz for isothermal air in wool (plain arithmetic).
    (resonance,) = node["mass_air_mass_resonance_hz"]
    assert 80 < resonance < 110
    assert run(["partition", str(file)]) == 0
    text = capsys.readouterr().out
    assert f"Rw (C; Ctr) {node['rw']} ({node['c']}; {node['ctr']}) dB" in text
    assert max(map(len, text.splitlines())) <= 100


def test_a_build_up_with_an_unknown_material_is_explained(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "wall.yaml"
    file.write_text(WALL.replace("birch plywood", "birch plywod"), encoding="utf-8")
    assert run(["partition", str(file)]) == 2
    told = capsys.readouterr().err
    assert "line 6" in told
    assert "birch plywood" in told


def test_the_sheet_for_the_demo_ranks_by_effect(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["measure", str(DEMO), "--units", "us"]) == 0
    text = capsys.readouterr().out
    assert "Section, seen from the rear doors" in text
    shares = [int(hit) for hit in re.findall(r"^     (\d+) % of the spread", text, re.M)]
    assert shares == sorted(shares, reverse=True)
    assert not METRIC.findall(text)
    assert max(map(len, text.splitlines())) <= 100


def test_the_whole_report_ends_with_its_words_explained(us_text: str) -> None:
    foot = us_text[us_text.rindex("\nWords\n") :]
    for term in TERMS:
        assert len(term.says) <= LONGEST, term.name
        # Each word of the table is one that a reader meets: the demo's long report has it above its foot.
        assert term in terms_in(us_text[: us_text.rindex("\nWords\n")]), term.name
        assert f"  {term.name} " in foot
    names = [term.name.casefold() for term in TERMS]
    assert names == sorted(names)
