"""Calls as a shell makes them: help, version, pipes, encodings, breaks, and what must never be seen."""

import os
import socket
import subprocess
import sys
import time
from pathlib import Path

import pytest

from hushwright.cli import reading
from hushwright.cli.main import run
from hushwright.cli.output import encodable
from hushwright.cli.reference import COMMANDS, PAGE, reference_page

ROOT = Path(__file__).parents[2]
COMMAND = [sys.executable, "-P", "-c", "import sys; from hushwright.cli.main import run; sys.exit(run())"]


def called(*arguments: str, **environment: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [*COMMAND, *arguments], capture_output=True, stdin=subprocess.DEVNULL, env={**os.environ, **environment},
        check=False,
    )  # fmt: skip


def test_help_comes_fast_and_names_every_command() -> None:
    times = []
    for _round in range(3):
        begun = time.perf_counter()
        done = called("--help")
        times.append(time.perf_counter() - begun)
    text = done.stdout.decode()
    assert done.returncode == 0
    assert all(f"\n  {command} " in text for command in COMMANDS)
    assert min(times) < 0.5  # 0.07 s on the machine at hand; the bound leaves room for a busy one


def test_help_imports_nothing_heavy() -> None:
    code = (
        "import sys; from hushwright.cli.main import run; run(['--help']);"
        " sys.exit(any(name in sys.modules for name in ('numpy', 'scipy', 'pydantic', 'ruamel', 'rich')))"
    )
    assert subprocess.run([sys.executable, "-P", "-c", code], capture_output=True, check=False).returncode == 0


def test_the_first_page_waits_for_no_law_and_for_no_client_of_other_servers(tmp_path: Path) -> None:
    with socket.socket() as trial:
        trial.bind(("127.0.0.1", 0))
        port = trial.getsockname()[1]
    code = (
        "import os, sys; from hushwright.app.workspace import Workspace; from hushwright.cli.main import run\n"
        "kinds = ('aiohttp', 'requests', 'hushwright.evaluation', 'hushwright.physics')\n"
        "def listening(self): os._exit(sum(name in sys.modules for name in kinds))\n"
        f"Workspace.tidy = listening; run(['open', {str(tmp_path)!r}, '--no-show', '--port', '{port}']); os._exit(9)"
    )
    assert subprocess.run([sys.executable, "-P", "-c", code], capture_output=True, check=False).returncode == 0


def test_the_version_is_that_of_the_package(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["--version"]) == 0
    assert capsys.readouterr().out.startswith("hushwright 0.")


@pytest.mark.parametrize(
    "arguments",
    [["paint"], ["check"], ["check", "a.yaml", "--units", "cubits"], ["--loud"], ["set", "a.yaml", "b"]],
    ids=" ".join,
)
def test_a_wrong_call_is_exit_code_two(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert run(arguments) == 2
    told = capsys.readouterr().err
    assert "Usage" in told or "no such file" in told


def test_ascii_terminals_get_plain_characters_and_nothing_is_lost() -> None:
    done = called("materials", "sheet", "ply", PYTHONIOENCODING="ascii", PYTHONUTF8="0")
    assert done.returncode == 0
    assert b"710 kg/m3" in done.stdout
    assert b"?" not in done.stdout
    assert encodable("±2 dB ─ ▆", "utf-8") == "±2 dB ─ ▆"
    assert encodable("±2 dB ─ ▆", "cp1252") == "+/-2 dB - 6"


def test_every_character_of_the_sketches_has_a_plain_form() -> None:
    from hushwright.report.sketches import SKETCHES

    text = "".join(drawing for _, drawing in SKETCHES)
    assert "?" not in encodable(text, "ascii")


@pytest.mark.skipif(os.name == "nt", reason="closed pipes are told differently there")
def test_a_closed_pipe_is_no_error() -> None:
    with subprocess.Popen([*COMMAND, "materials", "blanket"], stdout=subprocess.PIPE, stderr=subprocess.PIPE) as child:
        assert child.stdout is not None
        assert child.stderr is not None
        child.stdout.close()
        told = child.stderr.read()
        assert child.wait(30) == 141
    assert told == b""


def test_a_break_from_the_keyboard_ends_quietly(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def broken(*_arguments: object, **_options: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(reading, "read_evaluation", broken)
    assert run(["check", "a.yaml"]) == 130
    assert capsys.readouterr().err.strip() == "Stopped."


def test_an_unexpected_error_is_a_sentence_with_a_reference(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def broken(*_arguments: object, **_options: object) -> None:
        raise ZeroDivisionError("the ribs are nowhere")

    monkeypatch.setattr(reading, "read_evaluation", broken)
    assert run(["check", "a.yaml"]) == 2
    told = capsys.readouterr().err
    assert "the ribs are nowhere" in told
    assert "reference ZeroDivisionError at " in told
    assert "Traceback" not in told
    with pytest.raises(ZeroDivisionError):
        run(["--debug", "check", "a.yaml"])
    with pytest.raises(ZeroDivisionError):
        run(["check", "a.yaml", "--debug"])


def test_the_reference_page_is_up_to_date() -> None:
    assert (ROOT / PAGE).read_text(encoding="utf-8") == reference_page()


def test_the_reference_page_names_every_command() -> None:
    from hushwright.cli.main import app
    from hushwright.cli.reference import COMMANDS

    names = {each.name or each.callback.__name__.replace("_", "-") for each in app.registered_commands if each.callback}
    assert set(COMMANDS) == names
