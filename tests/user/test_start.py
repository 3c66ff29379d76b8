"""start.py as a person meets it, with an environment that holds a stand-in for the command line, to stay fast."""

import ast
import importlib.util
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).parents[2]
STAND_IN = """
import os, sys
def run():
    print([*sys.argv], os.getcwd())
    return int(os.environ.get("STAND_IN_CODE", "0"))
"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give a copy of the project that counts as installed, in a folder whose name has spaces and an umlaut."""
    folder = tmp_path_factory.mktemp("start") / "van für alle"
    (folder / "examples").mkdir(parents=True)
    (folder / "examples/archive-van.yaml").touch()
    (folder / "benchmarks").mkdir()
    for name in ("one", "two"):
        (folder / f"benchmarks/bench_{name}.py").write_text(f"print('result of {name}')", encoding="utf-8")
    for name in ("start.py", "pyproject.toml", "constraints.txt"):
        shutil.copy(ROOT / name, folder)
    start = loaded(folder)
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", str(folder / ".venv")], check=True)
    where = "import sysconfig; print(sysconfig.get_path('purelib'))"
    site = Path(subprocess.check_output([str(start.PYTHON), "-c", where], encoding="utf-8").strip())
    (site / "hushwright/cli").mkdir(parents=True)
    (site / "hushwright/__init__.py").touch()
    (site / "hushwright/cli/__init__.py").touch()
    (site / "hushwright/cli/main.py").write_text(STAND_IN, encoding="utf-8")
    start.MARK.write_text(start.mark_of_this_installation(), encoding="utf-8")
    return folder


def loaded(folder: Path) -> ModuleType:
    specification = importlib.util.spec_from_file_location("start_under_test", folder / "start.py")
    assert specification is not None
    assert specification.loader is not None
    module = importlib.util.module_from_spec(specification)
    specification.loader.exec_module(module)
    return module


def started(folder: Path, *arguments: str, code: int = 0, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, str(folder / "start.py"), *arguments],
        env=os.environ | {"STAND_IN_CODE": str(code), "PYTHONIOENCODING": "utf-8"},
        cwd=cwd,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        encoding="utf-8",
        check=False,
    )


@pytest.mark.parametrize(("of_check", "of_start"), [(0, 0), (1, 0), (2, 2), (70, 70)])
def test_a_start_succeeds_whenever_the_check_ran(folder: Path, of_check: int, of_start: int) -> None:
    done = started(folder, code=of_check)
    assert done.returncode == of_start
    assert ("Where to look next" in done.stdout) == (of_start == 0)
    assert "['hushwright', 'check'," in done.stdout


def test_anything_else_is_handed_over_as_typed_in_the_folder_of_the_caller(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "os.py").write_text("raise SystemExit('shadowed')", encoding="utf-8")
    done = started(folder, "check", "my van.yaml", "--json", code=1, cwd=tmp_path)
    assert done.returncode == 1
    assert done.stdout.strip() == f"['hushwright', 'check', 'my van.yaml', '--json'] {tmp_path}"
    assert done.stderr == ""


def test_benchmarks_run_one_after_the_other(folder: Path) -> None:
    done = started(folder, "bench")
    assert done.returncode == 0
    assert done.stdout.index("result of one") < done.stdout.index("== two") < done.stdout.index("result of two")


def test_one_benchmark_runs_by_its_name(folder: Path) -> None:
    assert "result of one" not in started(folder, "bench", "two").stdout
    assert started(folder, "bench", "seven").returncode == 2


def test_the_test_command_runs_style_types_and_tests(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    start = loaded(folder)
    commands: list[list[str]] = []
    monkeypatch.setattr(start, "run", lambda command, folder=None: commands.append(command[2:]) or 0)
    assert start.main(["test"]) == 0
    assert [command[0] for command in commands] == ["ruff", "mypy", "pytest"]
    commands.clear()
    start.main(["test", "tests/unit", "-x"])
    assert commands == [["pytest", "tests/unit", "-x"]]


def test_one_failing_tool_fails_the_test_command_and_is_named(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    start = loaded(folder)
    monkeypatch.setattr(start, "run", lambda command, folder=None: int("mypy" in command))
    assert start.main(["test"]) == 1
    assert capsys.readouterr().err == "Not passed: mypy.\n"


def test_installation_is_repeated_when_a_file_changed_or_the_folder_moved(folder: Path, tmp_path: Path) -> None:
    assert loaded(folder).is_installed()
    moved = tmp_path / "moved"
    shutil.copytree(folder, moved, symlinks=True)
    start = loaded(moved)
    assert not start.is_installed()
    start.MARK.write_text(start.mark_of_this_installation(), encoding="utf-8")
    assert start.is_installed()
    with (moved / "constraints.txt").open("a", encoding="utf-8") as file:
        file.write("# changed\n")
    assert not start.is_installed()


def test_uv_is_used_when_it_is_there_and_an_environment_is_made_once(folder: Path, tmp_path: Path) -> None:
    assert [step[0] for step in loaded(folder).installation_steps("uv")] == ["uv"]  # the environment is there
    assert loaded(folder).installation_steps(None)[0][-1] == "ensurepip"  # uv leaves pip out of it
    for name in ("start.py", "pyproject.toml", "constraints.txt"):
        shutil.copy(ROOT / name, tmp_path)
    make, install = loaded(tmp_path).installation_steps(None)
    assert make[1:3] == ["-m", "venv"]
    assert install[1:4] == ["-m", "pip", "install"]
    assert install[-2:] == ["--editable", f"{tmp_path}[dev]"]


def test_a_failed_installation_says_what_the_installer_said(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    start = loaded(folder)
    monkeypatch.setattr(start, "is_installed", lambda: False)
    monkeypatch.setattr(start.shutil, "which", lambda name: None)
    failing = [sys.executable, "-c", "import sys; sys.exit('no way to the network')"]
    monkeypatch.setattr(start, "installation_steps", lambda uv: [failing])
    assert start.main([]) == 2
    said = capsys.readouterr().err
    assert "no way to the network" in said
    assert "could not be installed" in said


@pytest.mark.parametrize("lacking", ["venv", "ensurepip"])
def test_a_python_without_venv_is_told_the_package_before_anything_is_made(
    lacking: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    for name in ("start.py", "pyproject.toml", "constraints.txt"):
        shutil.copy(ROOT / name, tmp_path)
    start = loaded(tmp_path)
    monkeypatch.setattr(start.shutil, "which", lambda name: None)
    monkeypatch.setattr(start, "find_spec", lambda name: None if name == lacking else object())
    assert start.main([]) == 2
    said = capsys.readouterr().err
    assert f"no module {lacking}" in said
    assert f"apt install python3.{sys.version_info.minor}-venv" in said
    assert not (tmp_path / ".venv").exists()


@pytest.mark.parametrize(("said", "told"), [
    ("ERROR: Temporary failure in name resolution", "network is needed for this once"),
    ("ERROR: Could not find a version that satisfies the requirement x>=77 (from versions: none)", "network is needed"),
    ("error: Failed to fetch: `simple/numpy/`", "network is needed for this once"),
    ("OSError: [Errno 28] No space left on device", "no room left"),
    ("something else", "room on the disk"),
])  # fmt: skip
def test_what_the_installer_says_is_followed_by_what_to_do(
    folder: Path, said: str, told: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    start = loaded(folder)
    monkeypatch.setattr(start, "run_steps", lambda steps: said)
    assert start.install() == 2
    lines = capsys.readouterr().err.splitlines()
    assert "brought up to date" in lines[0]
    assert said in lines[1]
    assert told in lines[-1]


def test_once_set_up_nothing_is_asked_of_the_network(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    start = loaded(folder)
    monkeypatch.setattr(start, "run_steps", lambda steps: pytest.fail(f"ran {steps}"))
    ran: list[list[str]] = []
    monkeypatch.setattr(start, "run", lambda command, folder=None: ran.append(command) or 0)
    assert start.main([]) == start.main(["test", "-x"]) == start.main(["check", "van.yaml"]) == 0
    assert not [word for command in ran for word in command if word in ("pip", "uv", "install")]


def test_where_uv_fails_pip_is_tried(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    start = loaded(folder)
    tried: list[list[str]] = []
    monkeypatch.setattr(start.shutil, "which", lambda name: "uv")
    answers = iter(["no", ""])
    monkeypatch.setattr(start, "run_steps", lambda steps: tried.append(steps[-1]) or next(answers))
    assert start.install() == 0
    assert [step[0] for step in tried] == ["uv", str(start.PYTHON)]
    assert "Installed in" in capsys.readouterr().err


def test_a_folder_that_cannot_be_written_to_is_said_plainly(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    start = loaded(folder)
    monkeypatch.setattr(start, "is_installed", lambda: False)
    monkeypatch.setattr(start.os, "access", lambda path, mode: False)
    assert start.main(["check"]) == 2
    assert "cannot be written to" in capsys.readouterr().err


def test_a_copy_without_the_demo_is_said_to_be_incomplete(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    start = loaded(folder)
    monkeypatch.setattr(start, "DEMO", Path("examples/none.yaml"))
    assert start.main([]) == 2
    assert "not complete" in capsys.readouterr().err


def test_an_old_python_gets_a_sentence() -> None:
    text = (ROOT / "start.py").read_text(encoding="utf-8")
    ast.parse(text, feature_version=(3, 7))
    pretend = "import runpy, sys; sys.version_info = (3, 9, 2); runpy.run_path(sys.argv[1], run_name='__main__')"
    done = subprocess.run(
        [sys.executable, "-c", pretend, str(ROOT / "start.py")], capture_output=True, encoding="utf-8", check=False
    )
    assert done.returncode == 1
    said = "Hushwright needs Python 3.11 or newer; this is Python 3.9. "
    assert re.fullmatch(re.escape(said) + r"Start it with python3\.1\d instead\.|" + re.escape(said) + "Install one .*",
                        done.stderr.strip())  # fmt: skip


def test_only_the_standard_library_and_no_call_of_one_system_alone() -> None:
    tree = ast.parse((ROOT / "start.py").read_text(encoding="utf-8"))
    imported = {alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names}
    imported |= {(node.module or "").partition(".")[0] for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    assert imported <= sys.stdlib_module_names - {"fcntl", "pwd", "grp", "resource", "termios", "posix", "signal"}
    called = {node.attr for node in ast.walk(tree) if isinstance(node, ast.Attribute)}
    assert not {name for name in called if name.startswith(("execv", "execl", "fork", "spawn", "chmod", "getuid"))}


def test_its_own_share_of_a_second_start_is_under_a_fifth_of_a_second(folder: Path) -> None:
    start = loaded(folder)
    direct = [str(start.PYTHON), "-P", "-c", start.HAND_OVER, "--help"]
    shares = []
    for _round in range(3):
        begun = computing_of_children()
        subprocess.run(direct, capture_output=True, check=True)
        between = computing_of_children()
        started(folder, "--help")
        shares.append(computing_of_children() - between - (between - begun))
    assert min(shares) < 0.2


def computing_of_children() -> float:
    """Seconds of the processor, which do not hang on what else the machine does."""
    spent = os.times()
    return spent.children_user + spent.children_system
