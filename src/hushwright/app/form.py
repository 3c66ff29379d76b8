"""The form of one section, made from the declarations of its fields and what the file says."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from hushwright.app.suggestions import library_kind, suggestions
from hushwright.document.fields import FieldSpec
from hushwright.document.leaves import example_of
from hushwright.document.nodes import Path
from hushwright.document.outline import Entry
from hushwright.errors import Diagnostic
from hushwright.library.library import Library
from hushwright.units import System, format_quantity, spoken

Node = dict[str, Any]
GENERAL = "general"
"""Name of the first part of the form: what stands at the top of the file and is no section."""


def parts_of(root: Entry, problems: Iterable[Diagnostic]) -> list[Node]:
    """The parts of the form in the order of the file, each with the number of its errors and whether it is there."""
    wrong = [one.place.path for one in problems if one.severity == "error"]
    at_top = [child for child in root.children if child.form == "value"]
    parts = [_part(GENERAL, at_top, wrong)]
    parts += [_part(child.name, [child], wrong) for child in root.children if child.form != "value"]
    return parts


def _part(name: str, entries: list[Entry], wrong: list[Path]) -> Node:
    number = sum(any(path[:1] == entry.path[:1] for entry in entries) for path in wrong)
    return {"name": name, "label": titled(name), "errors": number, "given": any(one.given for one in entries)}


def form_of(
    root: Entry, part: str, library: Library, problems: Iterable[Diagnostic], assumed: Mapping[str, str], system: System
) -> tuple[list[Node], dict[str, list[str]]]:
    """Entries of one part as the screen takes them, and the words that its fields may hold by the name of their list.

    Parameters
    ----------
    root
        The whole file laid out.
    part
        Name of a part, as :func:`parts_of` gives it.
    library
        Names that fields may hold.
    problems
        Everything that is wrong or odd, shown at its field.
    assumed
        What is assumed for fields that are left out, by path.
    system
        Units of limits.
    """
    entries = [child for child in root.children if (child.form == "value" if part == GENERAL else child.name == part)]
    writer = _Writer(root, library, tuple(problems), assumed, system)
    return [writer.node(entry) for entry in entries], writer.lists


def is_bare(text: str) -> bool:
    """Whether a quantity is typed without a unit.

    Examples
    --------
    >>> is_bare("12.5"), is_bare("1/2 in"), is_bare("")
    (True, False, False)
    """
    return re.fullmatch(r"[-+0-9.,/ ]+", text) is not None


class _Writer:
    """What every node of one form has in common."""

    def __init__(
        self,
        root: Entry,
        library: Library,
        problems: tuple[Diagnostic, ...],
        assumed: Mapping[str, str],
        system: System,
    ) -> None:
        self.root = root
        self.library = library
        self.problems = problems
        self.assumed = assumed
        self.system: System = system
        self.lists: dict[str, list[str]] = {}

    def node(self, entry: Entry) -> Node:
        """One entry with everything in it."""
        dotted = ".".join(map(str, entry.path))
        node: Node = {
            "path": list(entry.path), "id": dotted, "label": self._label(entry), "form": entry.form,
            "given": entry.given, "problems": self._problems(entry),
        }  # fmt: skip
        spec = entry.spec
        if spec is not None and not self._is_item(entry):
            node |= {"sentence": spec.sentence.replace("`", ""), "required": entry.required}
        if entry.form == "value" and spec is not None:
            node |= self._value(entry, spec, dotted)
        elif entry.form == "strange":
            node |= {"text": entry.text, "sentence": "There is no such key here."}
        else:
            node |= {"key": entry.key, "kinds": list(entry.kinds), "fixed": entry.fixed, "line": entry.line,
                     "note": self._note(entry), "children": [self.node(child) for child in entry.children]}  # fmt: skip
        return node

    def _value(self, entry: Entry, spec: FieldSpec, dotted: str) -> Node:
        node: Node = {
            "what": spec.form, "text": entry.text, "origin": entry.origin, "plusMinus": entry.plus_minus,
            "by": entry.by, "limits": self._limits(spec), "like": example_of(spec), "leftOut": self._left_out(entry),
            "assumed": self.assumed.get(dotted, ""),
        }  # fmt: skip
        if spec.form == "quantity" and spec.kind is not None:
            node |= {"kind": spoken(spec.kind), "unit": self._unit_of_bare(entry, spec)}
        if spec.form == "choice":
            node["choices"] = list(spec.choices)
        elif spec.form == "flag":
            node["choices"] = ["true", "false"]
        elif spec.form == "words":
            node["list"] = library_kind(spec) or next(str(key) for key in reversed(entry.path) if isinstance(key, str))
            if node["list"] not in self.lists:
                self.lists[node["list"]] = list(suggestions(entry, self.root, self.library))
        return node

    def _unit_of_bare(self, entry: Entry, spec: FieldSpec) -> str:
        """Unit in which the file counts a length that is typed without one; nothing where a unit stands."""
        return self.root.lengths if spec.kind == "length" and is_bare(entry.text) else ""

    def _left_out(self, entry: Entry) -> str:
        spec = entry.spec
        if spec is None or self._is_item(entry) or entry.required:
            return ""
        if spec.default_text:
            return f"left out: {spec.default_text}"
        return f"left out: from the {spec.fallback}" if spec.fallback else ""

    def _limits(self, spec: FieldSpec) -> str:
        low, high = (self._bound(spec, end) for end in (spec.low, spec.high))
        if low and high:
            return f"{low} to {high}"
        return f"from {low}" if low else f"up to {high}" if high else ""

    def _bound(self, spec: FieldSpec, value: float | None) -> str:
        if value is None:
            return ""
        if spec.kind is None:
            return str(int(value))
        return format_quantity(value, spec.kind, self.system, 4)

    def _note(self, entry: Entry) -> str:
        """What an item or a part says of itself, to be read while it is closed."""
        if entry.form == "list":
            return f"{len(entry.children)}" if entry.children else ""
        texts = [
            child.text for child in entry.children
            if child.given and child.form == "value" and child.name not in ("hushwright", "note")
        ]  # fmt: skip
        return " · ".join(texts[:4])

    def _label(self, entry: Entry) -> str:
        last = entry.path[-1] if entry.path else ""
        if isinstance(last, int):
            return f"{last + 1}" + (f" {titled(entry.key).lower()}" if entry.key else "")
        parent = self.root.find(entry.path[:-1])
        return str(last) if parent is not None and parent.form == "map" else titled(str(last))

    def _is_item(self, entry: Entry) -> bool:
        parent = self.root.find(entry.path[:-1])
        return parent is not None and parent.form in ("list", "map")

    def _problems(self, entry: Entry) -> list[Node]:
        """Problems whose place this is; those of a part that is not shown stand at the nearest one above."""
        found = []
        for one in self.problems:
            path = one.place.path
            if path == entry.path or (
                path[: len(entry.path)] == entry.path and not any(path[: len(c.path)] == c.path for c in entry.children)
            ):
                found.append({"note": one.note, "hint": one.hint, "severity": one.severity, "value": one.value})
        return found


def titled(name: str) -> str:
    """Name of a key as a label.

    Examples
    --------
    >>> titled("floor_to_bow"), titled("hz_1000")
    ('Floor to bow', '1000 Hz')
    """
    band = re.fullmatch(r"hz_([0-9]+)", name)
    if band:
        return f"{band[1]} Hz"
    words = name.replace("_", " ")
    return words[:1].upper() + words[1:]
