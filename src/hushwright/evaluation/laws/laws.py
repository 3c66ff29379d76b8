"""The laws of physics by name, each with what its own text says of it: parameters, units, formula, source, example."""

from __future__ import annotations

import dataclasses
import importlib
import inspect
import pkgutil
import re
import sys
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any, Final

import hushwright.physics

DOMAINS: Final = ("air", "acoustics", "airflow", "thermal", "electrical", "mechanics")
"""Domains of physics; `air` is the state of the air, which all of them share."""

_ROOT = hushwright.physics.__name__ + "."
_SECTION = re.compile(r"^(?P<title>[A-Z][A-Za-z ]+)\n-{3,}$", re.MULTILINE)
_UNIT = re.compile(r"\[([^\[\]]+)\](?!_)")
_ROWS = re.compile(r"shape \((?:[^,()]+, *){1,}[^,() ][^()]*\)")
_ENTRY = re.compile(r"^(?P<names>\S[^:\n]*?)(?: : (?P<type>.*))?$")


@dataclass(frozen=True)
class Parameter:
    """One thing that a law takes: name, what it means, units named in that text, annotation as written.

    ``several`` where any number of them is taken, ``keyed`` where each has a name of its own, ``rows`` where it is a
    table of numbers.
    """

    name: str
    meaning: str
    units: tuple[str, ...]
    annotation: str
    default: str | None = None
    several: bool = False
    rows: bool = False
    keyed: bool = False

    @property
    def needed(self) -> bool:
        """Whether the law has no value of its own for it."""
        return self.default is None and not self.several and not self.keyed


@dataclass(frozen=True)
class Law:
    """One public function of physics as its own text tells it; also what follows from a small value, and its functions.

    ``stands_as`` is the path within the module: ``natural_frequency``, ``Air``, ``Snubber.touches``.
    """

    name: str
    module: str
    stands_as: str
    summary: str
    parameters: tuple[Parameter, ...]
    returns: str
    result_units: tuple[str, ...]
    extended: str
    notes: str
    references: str
    example: str

    @property
    def domain(self) -> str:
        """First part of the module's name."""
        return self.module.partition(".")[0]

    @property
    def function(self) -> Callable[..., Any]:
        """The law itself."""
        holder, _, method = self.stands_as.rpartition(".")
        loaded = importlib.import_module(_ROOT + self.module)
        found: Callable[..., Any] = getattr(loaded, holder or method)
        return _of_value(found, method) if holder else found


@cache
def laws() -> tuple[Law, ...]:
    """Every public law in the order of domains, modules and places; names that stand twice with their module."""
    found = [(module, *one) for domain in DOMAINS for module in _modules(domain) for one in _public(module)]
    count = Counter(name for _module, name, _thing in found)
    return tuple(
        _law(name if count[name] == 1 else f"{module.rpartition('.')[2]}.{name}", module, name, thing)
        for module, name, thing in found
    )


def laws_like(words: str, among: tuple[Law, ...]) -> tuple[Law, ...]:
    """Laws that hold every one of the words, in name, sentence, parameters, formula or source; those named so first."""
    asked = [word.casefold() for word in re.split(r"[\s_]+", words) if word]
    found = [law for law in among if all(word in _searched(law) for word in asked)]
    return tuple(sorted(found, key=lambda law: (DOMAINS.index(law.domain), not _names(law, asked))))


def _names(law: Law, asked: list[str]) -> bool:
    return any(word in law.name.casefold() for word in asked)


def fields_of(kind: type) -> tuple[Parameter, ...]:
    """Parameters of a small value that a law takes or gives."""
    text = inspect.getdoc(kind) or ""
    described = _described(_sections(text).get("Parameters", "") + "\n" + _sections(text).get("Attributes", ""))
    units = set(_UNIT.findall(text))
    of_all = units.pop() if not described and len(units) == 1 else ""
    return tuple(
        _parameter(field.name, described.get(field.name, of_all and f"[{of_all}]"), str(field.type),
                   None if _must(field) else _shown_default(field.default))
        for field in dataclasses.fields(kind)
        if field.init
    )  # fmt: skip


def units_in(text: str) -> tuple[str, ...]:
    """Units that a text names in brackets; the reference of a level is not part of its unit."""
    return tuple(unit.split(" re ")[0] for unit in _UNIT.findall(text))


def _must(field: dataclasses.Field[Any]) -> bool:
    return field.default is dataclasses.MISSING and field.default_factory is dataclasses.MISSING


def _searched(law: Law) -> str:
    names = " ".join(one.name.replace("_", " ") for one in law.parameters)
    parts = (law.name.replace("_", " "), law.name, law.summary, names, law.extended, law.notes, law.references)
    return " ".join(parts).casefold()


def _modules(domain: str) -> tuple[str, ...]:
    """Modules of a domain without those that are its own affair, as `acoustics.leaks`."""
    top = importlib.import_module(_ROOT + domain)
    if not hasattr(top, "__path__"):
        return (domain,)
    return tuple(f"{domain}.{one.name}" for one in pkgutil.iter_modules(top.__path__) if not one.name.startswith("_"))


def _public(module: str) -> Iterator[tuple[str, Any]]:
    """Functions of a module, its small values from which something follows, and the functions of those."""
    loaded = importlib.import_module(_ROOT + module)
    for name, thing in vars(loaded).items():
        if name.startswith("_") or getattr(thing, "__module__", None) != loaded.__name__:
            continue
        if inspect.isclass(thing):
            members = {key: one for key, one in vars(thing).items() if not key.startswith("_")}
            methods = [(f"{name}.{key}", one) for key, one in members.items() if inspect.isfunction(one)]
            if dataclasses.is_dataclass(thing) and any(isinstance(one, property) for one in members.values()):
                yield name, thing
            yield from methods if dataclasses.is_dataclass(thing) else ()
        elif callable(thing) and inspect.isfunction(inspect.unwrap(thing)):
            yield name, thing


def _of_value(kind: Any, method: str) -> Callable[..., Any]:
    """Function of a small value as one of its fields and of what the function takes."""
    fields = {field.name for field in dataclasses.fields(kind) if field.init}

    def law(**given: Any) -> Any:
        holder = kind(**{name: value for name, value in given.items() if name in fields})
        return getattr(holder, method)(**{name: value for name, value in given.items() if name not in fields})

    law.__module__ = kind.__module__
    return law


def _law(name: str, module: str, stands_as: str, thing: Any) -> Law:
    sections = _sections(inspect.getdoc(thing) or "")
    summary, _, extended = sections[""].partition("\n\n")
    holder = getattr(importlib.import_module(_ROOT + module), stands_as.partition(".")[0])
    of_holder = _sections(inspect.getdoc(holder) or "")
    returns = " ".join(_described(sections.get("Returns", "")).values())
    units = units_in(returns) or (units_in(summary) if holder is not thing else ())

    def said(title: str) -> str:
        return (sections.get(title) or of_holder.get(title, "")).strip()

    return Law(
        name=name, module=module, stands_as=stands_as, summary=" ".join(summary.split()),
        parameters=(fields_of(holder) if inspect.isclass(holder) else ()) + _own_parameters(thing, sections),
        returns=returns, result_units=units, extended=extended.strip(), notes=said("Notes"),
        references=said("References"), example=said("Examples"),
    )  # fmt: skip


def _own_parameters(thing: Any, sections: dict[str, str]) -> tuple[Parameter, ...]:
    """Parameters of a function; those of a small value are its fields."""
    if inspect.isclass(thing):
        return ()
    listed = sections.get("Parameters", "")
    described = _described(listed)
    tables = {name for line in listed.splitlines() if _ROWS.search(line) for name in re.split(r"[ ,:]+", line.strip())}
    return tuple(
        _parameter(one.name, described.get(one.name, ""), str(one.annotation),
                   None if one.default is one.empty else _shown_default(one.default),
                   several=one.kind is one.VAR_POSITIONAL, rows=one.name in tables, keyed=one.kind is one.VAR_KEYWORD)
        for one in inspect.signature(thing).parameters.values()
        if one.name != "self"
    )  # fmt: skip


def _parameter(
    name: str,
    meaning: str,
    annotation: str,
    default: str | None,
    *,
    several: bool = False,
    rows: bool = False,
    keyed: bool = False,
) -> Parameter:
    return Parameter(name, meaning, units_in(meaning), annotation, default, several, rows, keyed)


def _shown_default(default: object) -> str:
    if default is None:
        return "none"
    if isinstance(default, str | bool | int | float):
        return {True: "yes", False: "no"}[default] if isinstance(default, bool) else f"{default}"
    if isinstance(default, tuple) and len(default) <= 8 and all(isinstance(one, int | float) for one in default):
        return ", ".join(f"{one:g}" for one in default) or "none"
    return "its own"


def _sections(text: str) -> dict[str, str]:
    """Title of each section → its text; the beginning stands under the empty title."""
    parts = _SECTION.split(text)
    return {
        "": parts[0].strip(),
        **{title: body.strip("\n") for title, body in zip(parts[1::2], parts[2::2], strict=True)},
    }


def _described(section: str) -> dict[str, str]:
    """Name → meaning of each entry of a section; several names of one meaning stand before it with commas."""
    found: dict[str, list[str]] = {}
    names: list[str] = []
    for line in section.splitlines():
        entry = _ENTRY.match(line) if line and not line[0].isspace() else None
        if entry is not None:
            names = [name.strip().lstrip("*") for name in entry["names"].split(",")]
            if entry["type"] is None and not entry["names"].lstrip("*").replace("_", "").isalnum():
                names = [entry["names"]]
            found |= {name: [] for name in names}
        else:
            for name in names:
                found[name].append(line.strip())
    return {name: " ".join(" ".join(lines).split()) for name, lines in found.items()}


def module_of(kind: Any) -> dict[str, Any]:
    """Names that annotations of a function or class are written in."""
    return dict(vars(sys.modules[kind.__module__]))
