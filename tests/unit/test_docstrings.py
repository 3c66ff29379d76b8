"""Every law says its parameters, units, shapes, sources and an example, in the words of the nomenclature."""

import ast
import csv
import dataclasses
import importlib
import inspect
import pkgutil
import re
from collections.abc import Iterator
from functools import cached_property
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest
from numpydoc.docscrape import NumpyDocString

import hushwright.physics

ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "src" / "hushwright"
NOMENCLATURE = ROOT / "docs" / "reference" / "nomenclature.csv"

NUMERIC = re.compile(r"\b(float|int|complex|ArrayLike|NDArray|floating|Bands)\b")
ARRAY = re.compile(r"\b(ArrayLike|NDArray)\b|tuple\[float, \.\.\.\]|Sequence\[float\]")
UNIT = re.compile(r"\[([^\[\]]+)\]")
# A shape, a count of values, or the function where it is said.
SHAPE = re.compile(r"shape|length|scalar|values|one per|of any|see `")
# Modules that read published tables; the rows carry their own sources.
TABLES = ("acoustics.published.",)
# Names that take the unit of what they belong to.
GENERIC = {"value", "values", "low", "high", "limit", "step", "standard_uncertainty"}
SYNONYMS = {
    "young_modulus": "youngs_modulus",
    "elastic_modulus": "youngs_modulus",
    "poisson_ratio": "poisson",
    "mass_per_area": "surface_density",
    "areal_density": "surface_density",
    "weight": "mass",
    "airflow": "volume_flow_rate",
    "flow_rate": "volume_flow_rate",
    "friction_factor": "darcy_friction_factor",
    "humidity": "relative_humidity",
    "sound_speed": "speed_of_sound",
    "sound_level": "sound_pressure_level",
    "critical_frequency": "coincidence_frequency",
    "damping": "loss_factor",
    "flow_resistance": "flow_resistivity",
    "transmission_factor": "transmission_coefficient",
}
# Each stands for two or three quantities across our domains, or for nothing in particular.
AMBIGUOUS = {"R", "c", "alpha", "eta", "lambda_", "U", "Q", "data", "info", "params", "utils", "manager", "helper"}


@dataclasses.dataclass(frozen=True)
class Entry:
    """One public thing of physics: a function, a frozen value, or a method or property of one."""

    path: str
    kind: str
    thing: Any

    @cached_property
    def documented(self) -> NumpyDocString:
        return NumpyDocString(inspect.getdoc(self.thing) or "")

    @cached_property
    def annotations(self) -> dict[str, str]:
        """Parameter → annotation as written; for a value, its fields."""
        if self.kind == "value":
            return {field.name: str(field.type) for field in dataclasses.fields(self.thing) if field.init}
        parameters = inspect.signature(self.thing).parameters.values()
        return {each.name: str(each.annotation) for each in parameters if each.name not in ("self", "cls")}

    @cached_property
    def described(self) -> dict[str, tuple[str, str]]:
        """Parameter → its type and its text as documented; a value may list its fields as attributes."""
        sections = [self.documented["Parameters"], self.documented["Attributes"] if self.kind == "value" else []]
        return {
            name.strip().lstrip("*"): (each.type, " ".join(each.desc))
            for section in sections
            for each in section
            for name in each.name.split(",")
        }

    @cached_property
    def unit_of_all(self) -> str:
        """The one unit that a small value without a list of fields states for all of them, or nothing."""
        units = set(UNIT.findall(inspect.getdoc(self.thing) or ""))
        return units.pop() if self.kind == "value" and not self.described and len(units) == 1 else ""

    @cached_property
    def returned(self) -> str:
        """Annotation of what comes back."""
        thing = self.thing.fget if self.kind == "property" else self.thing
        return str(inspect.signature(thing).return_annotation)


def units_in(text: str) -> list[str]:
    """Units as stated; the reference of a level is not part of its unit."""
    return [unit.split(" re ")[0] for unit in UNIT.findall(text)]


def public_members(holder: str, cls: type) -> Iterator[Entry]:
    for name, member in vars(cls).items():
        if name.startswith("_"):
            continue
        if isinstance(member, property):
            yield Entry(f"{holder}.{name}", "property", member)
        elif isinstance(member, classmethod | staticmethod):
            yield Entry(f"{holder}.{name}", "method", getattr(cls, name))
        elif inspect.isfunction(member):
            yield Entry(f"{holder}.{name}", "method", member)


def public_entries(module: ModuleType) -> Iterator[Entry]:
    short = module.__name__.removeprefix("hushwright.physics.")
    for name, thing in vars(module).items():
        if name.startswith("_") or getattr(thing, "__module__", None) != module.__name__:
            continue
        unwrapped = inspect.unwrap(thing) if callable(thing) else thing
        if inspect.isfunction(unwrapped):
            yield Entry(f"{short}.{name}", "function", unwrapped)
        elif inspect.isclass(thing):
            if dataclasses.is_dataclass(thing):
                yield Entry(f"{short}.{name}", "value", thing)
            yield from public_members(f"{short}.{name}", thing)


def modules_of_physics() -> tuple[list[ModuleType], dict[str, str]]:
    """Return what can be imported, and what cannot with its reason, so that one broken module hides no other."""
    modules, broken = [], {}
    for found in pkgutil.walk_packages(hushwright.physics.__path__, "hushwright.physics.", onerror=lambda name: None):
        if found.name.rpartition(".")[2].startswith("_"):
            continue
        try:
            modules.append(importlib.import_module(found.name))
        except Exception as error:
            broken[found.name] = repr(error)
    return modules, broken


MODULES, BROKEN = modules_of_physics()
ENTRIES = [entry for module in MODULES for entry in public_entries(module)]
FUNCTIONS = [entry for entry in ENTRIES if entry.kind == "function" and not entry.path.startswith(TABLES)]
WITH_PARAMETERS = [entry for entry in ENTRIES if entry.kind != "property" and entry.annotations]
WITH_RESULT = [entry for entry in ENTRIES if entry.kind != "value"]

each_entry = pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry.path)
each_function = pytest.mark.parametrize("entry", FUNCTIONS, ids=lambda entry: entry.path)
each_with_parameters = pytest.mark.parametrize("entry", WITH_PARAMETERS, ids=lambda entry: entry.path)
each_with_result = pytest.mark.parametrize("entry", WITH_RESULT, ids=lambda entry: entry.path)


def nomenclature() -> dict[str, dict[str, str]]:
    with NOMENCLATURE.open(encoding="utf-8", newline="") as file:
        return {row["name"]: row for row in csv.DictReader(file)}


NAMED = nomenclature()


def test_every_module_of_physics_can_be_imported() -> None:
    assert not BROKEN


@each_entry
def test_it_says_in_a_sentence_what_it_is(entry: Entry) -> None:
    written = inspect.getdoc(entry.thing) or ""
    generated = entry.kind == "value" and written.startswith(f"{entry.thing.__name__}(")
    assert written
    assert not generated


@each_with_parameters
def test_documented_parameters_are_those_of_the_signature(entry: Entry) -> None:
    if entry.unit_of_all:
        return
    assert list(entry.described) == list(entry.annotations)


@each_with_parameters
def test_every_number_that_goes_in_has_its_unit(entry: Entry) -> None:
    if entry.unit_of_all:
        return
    bare = [
        name
        for name, annotation in entry.annotations.items()
        if NUMERIC.search(annotation) and not UNIT.search(entry.described.get(name, ("", ""))[1])
    ]
    assert not bare


@each_with_parameters
def test_every_array_that_goes_in_has_its_shape(entry: Entry) -> None:
    shapeless = [
        name
        for name, annotation in entry.annotations.items()
        if ARRAY.search(annotation) and not SHAPE.search(" ".join(entry.described.get(name, ("", ""))))
    ]
    assert not shapeless


@each_with_result
def test_every_number_that_comes_out_has_its_unit(entry: Entry) -> None:
    if not NUMERIC.search(entry.returned):
        return
    if entry.kind == "function":
        text = " ".join(f"{each.type} {' '.join(each.desc)}" for each in entry.documented["Returns"])
    else:
        text = inspect.getdoc(entry.thing) or ""
    assert UNIT.search(text)


@each_function
def test_a_law_names_its_source(entry: Entry) -> None:
    assert entry.documented["References"]


@each_function
def test_a_law_shows_an_example(entry: Entry) -> None:
    assert ">>>" in "\n".join(entry.documented["Examples"])


@each_entry
def test_names_are_whole_words_of_one_meaning(entry: Entry) -> None:
    names = {entry.path.rpartition(".")[2]}
    if entry.kind != "property":
        names |= set(entry.annotations)
    assert not names & AMBIGUOUS


@each_with_parameters
def test_one_quantity_has_one_name(entry: Entry) -> None:
    others = {name: SYNONYMS[name] for name in entry.annotations if name in SYNONYMS}
    assert not others


@each_with_parameters
def test_a_named_quantity_has_the_unit_of_the_nomenclature(entry: Entry) -> None:
    wrong = {}
    for name, (_type, text) in entry.described.items():
        numeric = NUMERIC.search(entry.annotations.get(name, ""))
        if name not in NAMED or name in GENERIC or not numeric:
            continue
        units = units_in(text)
        if NAMED[name]["unit"] not in units:
            wrong[name] = (units, NAMED[name]["unit"])
    assert not wrong


def test_one_name_has_one_unit_in_all_of_physics() -> None:
    """Names outside the nomenclature are held to each other."""
    units: dict[str, dict[str, list[str]]] = {}
    for entry in WITH_PARAMETERS:
        for name, (_type, text) in entry.described.items():
            numeric = name not in GENERIC and NUMERIC.search(entry.annotations.get(name, ""))
            if numeric and (found := units_in(text)):
                units.setdefault(name, {}).setdefault(found[0], []).append(entry.path)
    assert not {name: found for name, found in units.items() if len(found) > 1}


def test_the_nomenclature_is_complete_in_itself() -> None:
    assert len(NAMED) > 60
    for name, row in NAMED.items():
        assert re.fullmatch(r"[a-z][a-z0-9_]*", name), name
        assert row["unit"], name
        assert row["definition"], name
        assert row["standard"], name


SOURCES = sorted(path for path in SOURCE.rglob("*.py") if "physics" not in path.parts)


def is_overload(node: ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef) -> bool:
    """Whether it is a signature for type checkers alone."""
    return any("overload" in ast.unparse(decorator) for decorator in node.decorator_list)


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.relative_to(SOURCE).as_posix())
def test_everything_public_says_what_it_is_for(path: Path) -> None:
    module = ast.parse(path.read_text(encoding="utf-8"))
    defined = ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef
    public = [node for node in module.body if isinstance(node, defined) and not node.name.startswith("_")]
    members = [
        member
        for node in public
        if isinstance(node, ast.ClassDef)
        for member in node.body
        if isinstance(member, defined) and not member.name.startswith("_")
    ]
    silent = [node.name for node in (*public, *members) if not ast.get_docstring(node) and not is_overload(node)]
    assert ast.get_docstring(module), "the module itself"
    assert not silent
