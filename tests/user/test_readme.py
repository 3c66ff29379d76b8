"""The README's five minutes are run as they are printed, in a folder of their own."""

from __future__ import annotations

import contextlib
import io
import re
import shlex
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from hushwright.cli.main import run
from hushwright.evaluation import evaluate as evaluating
from hushwright.evaluation.results import Evaluation
from hushwright.model.build import Build

OWN_PROCESS = ("check",)
ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def commands() -> list[list[str]]:
    """Every `python3 start.py …` of the README that is handed to hushwright, without its comment."""
    found = []
    for line in re.findall(r"^python3 start\.py (.*)$", README, flags=re.MULTILINE):
        words = shlex.split(line, comments=True)
        if words and words[0] not in ("test", "bench"):
            found.append(words)
    return found


def yaml_block(name: str) -> str:
    """The YAML block of the README that begins with a comment naming a file."""
    match = re.search(rf"```yaml\n# {re.escape(name)}\n(.*?)```", README, flags=re.DOTALL)
    assert match is not None
    return match.group(1)


def hushwright(folder: Path, *words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "hushwright", *words], cwd=folder, capture_output=True, encoding="utf-8", check=False
    )


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("workshop")
    (place / "wall.yaml").write_text(yaml_block("wall.yaml"), encoding="utf-8")
    return place


def test_the_readme_shows_every_kind_of_command() -> None:
    assert {words[0] for words in commands()} >= {"new", "check", "measure", "set", "materials", "partition"}


def evaluated_once() -> Callable[[Build], Evaluation]:
    """Evaluate each text of a file once."""
    known: dict[str, Evaluation] = {}
    plain = evaluating.evaluate

    def evaluate(build: Build) -> Evaluation:
        text = build.document.text
        if text not in known:
            known[text] = plain(build)
        return known[text]

    return evaluate


def in_this_process(words: list[str]) -> tuple[int, str, str]:
    printed, told = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(printed), contextlib.redirect_stderr(told):
        code = run(words)
    return code, printed.getvalue(), told.getvalue()


def test_every_command_of_the_readme_runs_as_printed(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The first check in a process of its own; the others here, where a file is worked out once."""
    monkeypatch.chdir(folder)
    monkeypatch.setattr(evaluating, "evaluate", evaluated_once())
    seen: set[str] = set()
    for words in commands():
        if words[0] in seen or words[0] not in OWN_PROCESS:
            code, said, told = in_this_process(words)
        else:
            done = hushwright(folder, *words)
            code, said, told = done.returncode, done.stdout, done.stderr
        seen.add(words[0])
        assert code in ((0, 1) if words[0] == "check" else (0,)), (words, said, told)
        assert "Traceback" not in told
        assert said.strip()


def test_files_the_readme_links_to_exist() -> None:
    for target in re.findall(r"\]\((?!https?:)([^)#]+)\)", README):
        assert (ROOT / target).exists(), target


def test_the_picture_is_what_the_demo_prints_today(monkeypatch: pytest.MonkeyPatch) -> None:
    picture = (ROOT / "docs" / "check.svg").read_text(encoding="utf-8")
    monkeypatch.chdir(ROOT)
    _, said, _ = in_this_process(["check", "examples/archive-van.yaml"])
    for line in said.splitlines()[:3]:
        assert line.strip() in picture or not line.strip()


def test_the_module_ends_with_the_code_of_the_command(folder: Path) -> None:
    (folder / "empty.yaml").write_text("", encoding="utf-8")
    assert hushwright(folder, "check", "empty.yaml").returncode == 2
