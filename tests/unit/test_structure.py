"""Files and functions stay small enough to read, and an error shows the value it complains of."""

import ast
import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
FOLDERS = ("src", "tests", "tools", "benchmarks")
LONGEST_FILE = 500
LONGEST_FUNCTION = 60  # lines of code: the docstring, which physics needs long, does not count
RAISES_THAT_SHOW_THE_VALUE = 0.9
MARKERS = ("TO" + "DO", "FIX" + "ME", "X" * 3, "NotImplemented" + "Error", "pragma: " + "no cover", "assert " + "True")

FILES = [*sorted(path for folder in FOLDERS for path in (ROOT / folder).rglob("*.py")), ROOT / "start.py"]


# Files for people: what is in them goes out with the project.
SPOKEN = sorted(
    path
    for pattern in ("*.md", "*.toml", "*.txt", "*.py", "docs/**/*.md", "docs/**/*.csv", "examples/*", ".ci/*")
    for path in ROOT.glob(pattern)
    if path.is_file()
)
HERE_ALONE = ("/" + "work/", "/" + "root/", "/" + "tmp/", "file" + "://", "/" + "home/")


@cache
def text(path: Path) -> str:
    return path.read_text(encoding="utf-8")


def name_of(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def functions(path: Path) -> Iterator[ast.FunctionDef | ast.AsyncFunctionDef]:
    for node in ast.walk(ast.parse(text(path))):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            yield node


def lines_of_code(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    first = function.body[0]
    documented = ast.get_docstring(function) is not None
    docstring = (first.end_lineno or first.lineno) - first.lineno + 1 if documented else 0
    return (function.end_lineno or function.lineno) - function.lineno + 1 - docstring


@pytest.mark.parametrize("path", FILES, ids=name_of)
def test_a_file_is_short_enough_to_read(path: Path) -> None:
    length = len(text(path).splitlines())
    assert length <= LONGEST_FILE


@pytest.mark.parametrize("path", FILES, ids=name_of)
def test_a_function_is_short_enough_to_see(path: Path) -> None:
    lengths = {function.name: lines_of_code(function) for function in functions(path)}
    long = {name: length for name, length in lengths.items() if length > LONGEST_FUNCTION}
    assert not long, f"{name_of(path)}: {long}"


@pytest.mark.parametrize("path", FILES, ids=name_of)
def test_nothing_is_left_for_later(path: Path) -> None:
    left = [word for word in MARKERS if word in text(path)]
    assert not left, f"{name_of(path)}: {left}"


@pytest.mark.parametrize("path", [*FILES, *SPOKEN], ids=name_of)
def test_no_file_names_a_place_on_one_machine(path: Path) -> None:
    named = [place for place in HERE_ALONE if place in text(path)]
    assert not named


def test_every_file_that_the_package_reads_is_installed_with_it() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    globs = project["tool"]["setuptools"]["package-data"]
    source = ROOT / "src"
    installed = {
        path
        for package, patterns in globs.items()
        for pattern in patterns
        for path in source.joinpath(*package.split(".")).glob(pattern)
    }
    read = {
        path
        for path in (source / "hushwright").rglob("*")
        if path.is_file() and path.suffix not in (".py", ".pyc") and not path.name.startswith(".")
    }
    assert read <= installed, sorted(name_of(path) for path in read - installed)


def shows_a_value(error: ast.expr) -> bool:
    """Whether the message is made of more than constant text."""
    if not isinstance(error, ast.Call):
        return False
    arguments = [*error.args, *(keyword.value for keyword in error.keywords)]
    return any(not isinstance(argument, ast.Constant) for argument in arguments)


def test_errors_of_physics_show_the_value() -> None:
    raises = {
        f"{name_of(path)}:{node.lineno}": shows_a_value(node.exc)
        for path in FILES
        if "physics" in path.parts
        for node in ast.walk(ast.parse(text(path)))
        if isinstance(node, ast.Raise) and node.exc is not None
    }
    silent = [place for place, shown in raises.items() if not shown]
    assert len(silent) <= (1 - RAISES_THAT_SHOW_THE_VALUE) * len(raises), silent
