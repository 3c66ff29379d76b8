"""What comes from outside enters at one place, and nothing heavy is imported before it is needed."""

import ast
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "src"
FILES = sorted((SOURCE / "hushwright").rglob("*.py"))

# package from outside → rooms it may be imported in ("" is everywhere); docs/decisions/0002 says why each is there
ENTRANCES = {
    "numpy": {"physics", "evaluation", "costing", "search", "drawings", "model"},
    "scipy": {"physics", "evaluation", "search"},
    "pydantic": {"document", "library"},
    "pydantic_core": {"document"},
    "typing_extensions": {"document"},
    "ruamel": {"document"},
    "typer": {"cli"},
    "fluids": {"physics"},
    "pvlib": {"physics"},
    "h5py": {"physics"},
    "nicegui": {"app"},
    "fastapi": {"app"},
    "typst": {"drawings"},
    "font_source_sans_pro": {"drawings"},
    "ezdxf": {"drawings"},
    "shapely": {"drawings", "evaluation"},
    "trimesh": {"drawings"},
    "openpyxl": {"report"},
}
# Each takes 0.1 s or more to import, so that it waits for the call that needs it.
SLOW_PARTS_OF_SCIPY = ("scipy.signal", "scipy.stats", "scipy.optimize")
PAPER = ("typst", "font_source_sans_pro", "ezdxf", "shapely", "trimesh", "openpyxl")
ONLY_INSIDE_FUNCTIONS = (*SLOW_PARTS_OF_SCIPY, "fluids", "pvlib", "h5py", *PAPER)


@cache
def tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


def imported_names(node: ast.AST) -> tuple[str, ...]:
    if isinstance(node, ast.Import):
        return tuple(alias.name for alias in node.names)
    if isinstance(node, ast.ImportFrom) and node.module and not node.level:
        return (node.module, *(f"{node.module}.{alias.name}" for alias in node.names))
    return ()


def is_type_checking(node: ast.AST) -> bool:
    return isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test)


def statements_run_on_import(node: ast.AST) -> Iterator[ast.AST]:
    """Everything under a module that runs when it is imported: no function bodies, nothing for type checkers alone."""
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda) or is_type_checking(child):
            continue
        yield child
        yield from statements_run_on_import(child)


def name_of(path: Path) -> str:
    return path.relative_to(SOURCE).as_posix()


def room_of(path: Path) -> str:
    return path.relative_to(SOURCE / "hushwright").parts[0].removesuffix(".py")


@pytest.mark.parametrize("path", FILES, ids=name_of)
def test_packages_from_outside_enter_where_they_belong(path: Path) -> None:
    outside = {
        name.split(".")[0]
        for node in ast.walk(tree(path))
        for name in imported_names(node)
        if name.split(".")[0] not in sys.stdlib_module_names | {"hushwright", "__future__"}
    }
    strangers = {name for name in outside if room_of(path) not in ENTRANCES.get(name, set())}
    assert not strangers, f"{name_of(path)} imports {sorted(strangers)}; see ENTRANCES and docs/decisions/0002"


@pytest.mark.parametrize("path", FILES, ids=name_of)
def test_nothing_imports_the_package_as_a_whole_or_relatively(path: Path) -> None:
    for node in ast.walk(tree(path)):
        assert "hushwright" not in imported_names(node), f"{name_of(path)}:{node.lineno}"
        assert not (isinstance(node, ast.ImportFrom) and node.level), f"{name_of(path)}:{node.lineno}"


@pytest.mark.parametrize("path", FILES, ids=name_of)
def test_slow_imports_wait_for_the_call_that_needs_them(path: Path) -> None:
    early = {
        name
        for node in statements_run_on_import(tree(path))
        for name in imported_names(node)
        if name.startswith(tuple(f"{slow}." for slow in ONLY_INSIDE_FUNCTIONS)) or name in ONLY_INSIDE_FUNCTIONS
    }
    assert not early, f"{name_of(path)} imports {sorted(early)} at the top"


def test_every_package_that_is_installed_for_users_has_an_entrance() -> None:
    import tomllib

    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    spelled = {"ruamel.yaml": "ruamel", "font-source-sans-pro": "font_source_sans_pro"}
    required = {line.split(">=")[0] for line in project["dependencies"]}
    assert {spelled.get(name, name) for name in required} <= set(ENTRANCES)


def test_constraints_pin_every_required_package_by_name_and_version_alone() -> None:
    import re
    import tomllib

    lines = (ROOT / "constraints.txt").read_text(encoding="utf-8").splitlines()
    pins = [line for line in lines if line and not line.startswith("#")]
    assert all(re.fullmatch(r"[A-Za-z0-9._-]+==[0-9][A-Za-z0-9.!+]*", pin) for pin in pins)
    pinned = {re.sub(r"[-_.]+", "-", pin.split("==")[0]).lower() for pin in pins}
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    wanted = project["dependencies"] + project["optional-dependencies"]["dev"]
    missing = {name for line in wanted if (name := re.sub(r"[-_.]+", "-", line.split(">=")[0]).lower()) not in pinned}
    assert not missing
