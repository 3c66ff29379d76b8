"""The import contracts hold, and every one of them can fail."""

import os
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PROJECT = ROOT / "pyproject.toml"
LINT = "import sys; from importlinter.cli import lint_imports as lint; sys.exit(lint(sys.argv[1], no_cache=True))"

# contract → file in a copy of the sources → one line that must not be there
TRESPASSES = {
    "Data flows one way": ("errors.py", "from hushwright.physics.air import Air"),
    "Domains of physics share the state of air and nothing else": (
        "physics/mechanics/trespass.py",
        "from hushwright.physics.acoustics.bands import FREQUENCIES",
    ),
    "Laws know no unit strings, no workshop, no vehicle: of ours only errors": (
        "physics/acoustics/trespass.py",
        "from hushwright.units import parse_quantity",
    ),
    "The build says what is there, not how it behaves": (
        "model/trespass.py",
        "from hushwright.physics.air import Air",
    ),
    "No circle among neighbours, at any depth": (
        "physics/acoustics/trespass.py",
        "from hushwright.physics.acoustics.trespass_back import thing",
    ),
    "pydantic only in document and library": ("physics/acoustics/trespass.py", "from pydantic import BaseModel"),
    "ruamel.yaml only in document": ("library/trespass.py", "from ruamel.yaml import YAML"),
    "typer only in cli": ("document/trespass.py", "import typer"),
    "scikit-fem only in tests": ("physics/mechanics/trespass.py", "import skfem"),
    "fluids only in the airflow of physics": ("physics/acoustics/trespass.py", "import fluids"),
    "the haze map only in the heat of physics": ("physics/airflow/trespass.py", "import h5py"),
    "nicegui only in app": ("report/trespass.py", "import nicegui"),
    "Typesetting, drawing files, plane geometry and scenes only in drawings; tables of cells only in report": (
        "verdicts/trespass.py",
        "import typst",
    ),
}


def contract_states(source: Path) -> dict[str, str]:
    """Name of every contract with KEPT or BROKEN, for the package in ``source``."""
    environment = os.environ | {"PYTHONPATH": str(source), "COLUMNS": "200"}
    done = subprocess.run(
        [sys.executable, "-c", LINT, str(PROJECT)],
        env=environment,
        cwd=source,
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    states = dict(re.findall(r"^(.+) (KEPT|BROKEN)", done.stdout, re.MULTILINE))
    assert states, done.stdout + done.stderr
    return states


@pytest.fixture
def copied_source(tmp_path: Path) -> Path:
    """Give a copy of the sources to trespass in, with every room that the trespasses enter."""
    source = tmp_path / "src"
    shutil.copytree(ROOT / "src", source, ignore=shutil.ignore_patterns("__pycache__", "*.egg-info"))
    package = source / "hushwright"
    for file, _line in TRESPASSES.values():
        folder = (package / file).parent
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "__init__.py").touch()
    (package / "physics/acoustics/trespass_back.py").write_text(
        "from hushwright.physics.acoustics.trespass import thing\n", encoding="utf-8"
    )
    (package / "physics/acoustics/trespass.py").touch()
    return source


def test_every_contract_has_a_trespass_that_breaks_it() -> None:
    contracts = tomllib.loads(PROJECT.read_text(encoding="utf-8"))["tool"]["importlinter"]["contracts"]
    assert {contract["name"] for contract in contracts} == set(TRESPASSES)


def test_contracts_hold() -> None:
    states = contract_states(ROOT / "src")
    assert states == dict.fromkeys(TRESPASSES, "KEPT")


def test_the_copy_is_clean_before_anyone_trespasses(copied_source: Path) -> None:
    assert contract_states(copied_source) == dict.fromkeys(TRESPASSES, "KEPT")


@pytest.mark.parametrize("contract", TRESPASSES)
def test_one_wrong_import_breaks_the_contract(contract: str, copied_source: Path) -> None:
    file, line = TRESPASSES[contract]
    path = copied_source / "hushwright" / file
    before = path.read_text(encoding="utf-8") if path.exists() else ""
    path.write_text(f"{before}\n{line}\n", encoding="utf-8")
    assert contract_states(copied_source)[contract] == "BROKEN"


def test_a_folder_in_no_layer_breaks_the_order(copied_source: Path) -> None:
    (copied_source / "hushwright/attic").mkdir()
    (copied_source / "hushwright/attic/__init__.py").touch()
    assert contract_states(copied_source)["Data flows one way"] == "BROKEN"
