"""A build file to a document, with every problem found, in file order."""

from __future__ import annotations

import os
import re
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any, Final, overload

from hushwright.document.document import Document, Root
from hushwright.document.fields import FrozenDict, Section
from hushwright.document.files import read_text
from hushwright.document.last_used import LastUsed
from hushwright.document.leaves import LeafProblem, read_leaf, stand_in
from hushwright.document.nodes import (
    Node,
    Path,
    compose,
    is_mapping,
    is_null,
    is_scalar,
    is_sequence,
    line_of,
    shown,
)
from hushwright.document.shapes import Field, Items, Leaf, Named, OneSection, Shape, fields_of, walk_fields
from hushwright.errors import Diagnostic, Place, UnreadableDocument
from hushwright.units import BareLength

FORMAT_KEY = "hushwright"
LENGTHS_KEY = "lengths"
LENGTH_UNITS: tuple[BareLength, ...] = ("mm", "in")


class _Faulty:
    """Stands for a node that could not be read and whose problem is already on the list."""


FAULTY: Final = _Faulty()
LEFT_OUT: Final = _Faulty()


@overload
def read_document(path: str | os.PathLike[str]) -> tuple[Document | None, tuple[Diagnostic, ...]]: ...
@overload
def read_document(
    path: str | os.PathLike[str], model: type[Root]
) -> tuple[Document[Root] | None, tuple[Diagnostic, ...]]: ...
def read_document(
    path: str | os.PathLike[str], model: Any = None
) -> tuple[Document[Any] | None, tuple[Diagnostic, ...]]:
    """Read a build file.

    Parameters
    ----------
    path
        The file.
    model
        Top section of the file; the whole build file when left out.

    Returns
    -------
    document, diagnostics
        What is readable (``None`` when a required part of the top section is not), and every problem in the order of
        the file. A faulty node is left out and its neighbours are read all the same.
    """
    file = os.fspath(path)
    try:
        text = read_text(file)
    except UnreadableDocument as problem:
        return None, problem.diagnostics
    return read_document_text(text, file, model)


def read_document_text(
    text: str, file: str = "", model: Any = None
) -> tuple[Document[Any] | None, tuple[Diagnostic, ...]]:
    """Read a build file from its text; otherwise as :func:`read_document`."""
    if model is None:
        from hushwright.document.schema import BuildFile

        model = BuildFile
    try:
        node = compose(text, file)
    except UnreadableDocument as problem:
        return None, problem.diagnostics
    reader = _Reader(text, file, model)
    root = reader.read_root(node)
    found, substitute = reader.diagnostics, None
    if found:
        other = _Reader(text, file, model, stand_ins=True)
        whole = other.read_root(node)
        found = [one for one in found if one in set(other.diagnostics)]
        substitute = Document(whole, file, other.lines, text, other.kept) if isinstance(whole, Section) else None
    in_order = tuple(sorted(found, key=lambda one: one.place.line))
    if not isinstance(root, Section):
        return None, in_order
    return Document(root, file, reader.lines, text, reader.kept, substitute), in_order


@dataclass(frozen=True, slots=True)
class _Part:
    """A part at the top of a file as it was read."""

    read: Any
    diagnostics: tuple[Diagnostic, ...]
    lines: dict[Path, int]
    kept: dict[Path, tuple[int, ...]]


KNOWN_PARTS = LastUsed[_Part](160)
"""Parts by everything that they are read from."""
_TIED = re.compile(r"[&*]")  # may stand for what is written elsewhere


@dataclass
class _Reader:
    text: str
    file: str
    model: type[Section]
    bare_length: BareLength = None
    stand_ins: bool = False  # whether another value is read in place of each that is refused
    diagnostics: list[Diagnostic] = field(default_factory=list)
    lines: dict[Path, int] = field(default_factory=dict)
    kept: dict[Path, tuple[int, ...]] = field(default_factory=dict)  # of lists from which faulty items are left out

    def say(self, reference: str, path: Path, line: int, value: str, note: str, hint: str = "") -> _Faulty:
        self.diagnostics.append(Diagnostic(reference, Place(self.file, line, path), value, note, hint))
        return FAULTY

    def read_root(self, node: Node) -> Section | _Faulty:
        model = self.model
        if not is_mapping(node):
            hint = f"begin with a key, for example {next(iter(fields_of(model)))}: …"
            return self.say("not-a-section", (), line_of(node), shown(node, self.text), "this is no build file", hint)
        declared = {key.value: value for key, value in node.value if is_scalar(key)}
        if FORMAT_KEY in declared and self._is_newer(declared[FORMAT_KEY]):
            return FAULTY
        if LENGTHS_KEY in declared:
            self._declare_lengths(declared[LENGTHS_KEY])
        return self.read_section(node, model, (), 1, skip=(LENGTHS_KEY, FORMAT_KEY))

    def _is_newer(self, node: Node) -> bool:
        version = fields_of(self.model).get(FORMAT_KEY)
        newest = int(version.spec.high or 1) if version is not None else 1
        text = node.value.strip() if is_scalar(node) else ""
        if not re.fullmatch("[0-9]{1,6}", text):
            if version is None:
                hint = f"write {FORMAT_KEY}: {newest}"
                note = "the format version is a whole number"
                self.say("format-version", (FORMAT_KEY,), line_of(node), shown(node, self.text), note, hint)
            return False
        if int(text) > newest:
            note = f"the file is written for format {text}; this program reads formats up to {newest}"
            self.say("newer-format", (FORMAT_KEY,), line_of(node), text, note, "bring the program up to date")
            return True
        return False

    def _declare_lengths(self, node: Node) -> None:
        text = node.value if is_scalar(node) else ""
        if text in LENGTH_UNITS:
            self.bare_length = text
            return
        note = "bare lengths can be declared in mm or in only"
        self.say("unknown-choice", (LENGTHS_KEY,), line_of(node), shown(node, self.text), note, "write lengths: mm")

    def read_shape(self, one: Field, shape: Shape, node: Node, path: Path, line: int) -> Any:
        """Read a node as the shape its field asks for."""
        self.lines[path] = line
        if isinstance(shape, Leaf):
            return self.read_leaf(one, node, path)
        if isinstance(shape, OneSection):
            return self.read_one_section(shape, node, path, line)
        if isinstance(shape, Items):
            return self.read_items(one, shape, node, path)
        return self.read_named(one, shape, node, path)

    def read_leaf(self, one: Field, node: Node, path: Path) -> Any:
        try:
            return read_leaf(one.spec, node, self.text, self.bare_length)
        except LeafProblem as problem:
            line = line_of(problem.node)
            at = (*path, *problem.inside)
            self.say(problem.reference, at, line, shown(problem.node, self.text), problem.note, problem.hint)
            return stand_in(one.spec, one.default) if self.stand_ins else FAULTY

    def read_one_section(self, shape: OneSection, node: Node, path: Path, line: int) -> Section | _Faulty:
        if not is_mapping(node):
            keys = [one.key for one in shape.classes] if len(shape.classes) > 1 else list(fields_of(shape.classes[0]))
            note = f"a section stands here, with keys like {', '.join(keys[:5])}"
            hint = f"write {keys[0]}: … under it"
            return self.say("not-a-section", path, line_of(node), shown(node, self.text), note, hint)
        present = tuple(key.value for key, _ in node.value if is_scalar(key))
        chosen = shape.chosen(present)
        if len(chosen) == 1:
            return self.read_section(node, chosen[0], path, line)
        keys = [one.key for one in shape.classes]
        value = ", ".join(present)
        if not chosen:
            note = f"one of these keys says what it is: {', '.join(keys)}"
            return self.say("unknown-kind", path, line, value, note, _did_you_mean(present, keys))
        both = " and ".join(one.key for one in chosen)
        return self.say("two-kinds", path, line, value, f"{both} exclude each other", "make two items of it")

    def read_items(self, one: Field, shape: Items, node: Node, path: Path) -> tuple[Any, ...] | _Faulty:
        if not is_sequence(node):
            if is_scalar(node) and one.spec.form in ("words", "choice") and shape.any_length:
                found = self.read_shape(one, shape.each[0], node, (*path, 0), line_of(node))
                return FAULTY if found is FAULTY else (found,)
            note = "a list stands here"
            hint = "write each item on its own line after a dash"
            return self.say("not-a-list", path, line_of(node), shown(node, self.text), note, hint)
        if not node.value and (means := one.spec.left_out_means):
            note = f"an empty list is not none: it would count as left out, which means {means}"
            return self.say("empty-list", path, line_of(node), "[]", note, "take the key out, or list what is meant")
        read: dict[int, Any] = {}
        split = self._split_items(node, path)
        for at, item in enumerate(node.value):
            each = shape.each[0] if shape.any_length else shape.each[min(at, len(shape.each) - 1)]
            if at in split:
                continue
            found = self.read_shape(one, each, item, (*path, at), line_of(item))
            if found is not FAULTY:
                read[at] = found
        fault = len(read) < len(node.value)
        if self._wrong_length(one, shape, node, path) or (fault and not shape.any_length):
            return FAULTY
        if fault:
            self._close_up_lines(path, list(read))
        return tuple(read.values())

    def _close_up_lines(self, path: Path, kept: list[int]) -> None:
        """A faulty item is left out, so the lines of those after it move to their place in the document."""
        self.kept[path] = tuple(kept)
        depth = len(path)
        inside = [one for one in self.lines if len(one) > depth and one[:depth] == path]
        lines = {one: self.lines.pop(one) for one in inside}
        for one, line in lines.items():
            if one[depth] in kept:
                self.lines[(*path, kept.index(int(one[depth])), *one[depth + 1 :])] = line

    def _wrong_length(self, one: Field, shape: Items, node: Node, path: Path) -> bool:
        number = len(node.value)
        least = one.spec.shortest if shape.any_length else len(shape.each)
        most = one.spec.longest if shape.any_length else len(shape.each)
        if one.spec.form not in ("quantity", "section"):
            least, most = 0, None
        if number >= least and (most is None or number <= most):
            return False
        wanted = str(least) if least == most else f"at least {least}" if number < least else f"at most {most}"
        note = f"the list has {number} items; it needs {wanted}"
        self.say("list-length", path, line_of(node), shown(node, self.text), note)
        return True

    def _split_items(self, node: Node, path: Path) -> set[int]:
        """Positions of a list whose number YAML has split at a decimal comma, ``[1,83 m]``, with its rest."""
        split: set[int] = set()
        if not node.flow_style:
            return split
        for at, (item, after) in enumerate(pairwise(node.value)):
            if not (is_scalar(item) and is_scalar(after)) or not item.value.lstrip("+-").isdecimal():
                continue
            between = self.text[item.end_mark.index : after.start_mark.index]
            if between == "," and after.value[:1].isdigit() and not after.value.isdecimal():
                self._say_comma((*path, at), line_of(item), f"{item.value},{after.value}")
                split |= {at, at + 1}
        return split

    def _say_comma(self, path: Path, line: int, typed: str) -> None:
        note = "a comma inside { } or [ ] ends the value, so a decimal comma cannot stand here"
        self.say("decimal-comma", path, line, typed, note, f'write {typed.replace(",", ".")} or "{typed}"')

    def read_named(self, one: Field, shape: Named, node: Node, path: Path) -> FrozenDict | _Faulty:
        if not is_mapping(node):
            note = "names of your own stand here, each with its part under it"
            return self.say("not-a-section", path, line_of(node), shown(node, self.text), note, "write name: …")
        found: dict[str, Any] = {}
        for name, key, value in self.keys_of(node, path):
            part = self.read_shape(one, shape.each, value, (*path, name), line_of(key))
            if part is not FAULTY:
                found[name] = part
        return FrozenDict(found)

    def keys_of(self, node: Node, path: Path) -> list[tuple[str, Node, Node]]:
        """Keys of a mapping with their nodes; keys given twice or that are no words are said and left out."""
        seen: dict[str, Node] = {}
        found = []
        for key, value in node.value:
            line = line_of(key)
            if not is_scalar(key):
                self.say("not-a-key", path, line, shown(key, self.text), "a key is one word", "put the text in quotes")
            elif key.value in seen:
                note = f"the key is given twice; the first is in line {line_of(seen[key.value])}"
                self.say("duplicate-key", (*path, key.value), line, key.value, note, "take one of them out")
            else:
                seen[key.value] = key
                found.append((key.value, key, value))
        return found

    def read_section(
        self, node: Node, model: type[Section], path: Path, line: int, skip: tuple[str, ...] = ()
    ) -> Section | _Faulty:
        """Read every key of a section; the section stands when everything required could be read."""
        self.lines[path] = line
        fields = fields_of(model)
        found: dict[str, Any] = {}
        whole = True
        keys = self.keys_of(node, path)
        split = self._split_at_comma(keys, path)
        meant: set[str] = set()
        for name, key, value in keys:
            one = fields.get(name)
            if name in split:
                if self.stand_ins and one is not None and isinstance(one.shape, Leaf):
                    found[name] = stand_in(one.spec, one.default)
                whole = whole and not (one is not None and one.required and name not in found)
                continue
            if one is None:
                if name in skip:
                    continue
                near = self.say_unknown(key, fields, path, [one for one, _, _ in keys])
                meant.add(near)
                if not (near and self.stand_ins):
                    continue
                one = fields[near]  # what may be meant is tried in the place of what is not known
                name = near
            part = self.read_field(one, key, value, (*path, name))
            if part is FAULTY:
                whole = whole and not one.required
            elif part is not LEFT_OUT:
                found[name] = part
        given = {name: (key, value) for name, key, value in keys}
        for name, one in fields.items():
            if not one.required or name in found or (name in given and not is_null(given[name][1])):
                continue
            whole = False
            if name in meant:
                continue  # an unknown key like it has been said, and asks for this one
            at = line_of(given[name][0]) if name in given else line
            note = f"{name} has no value" if name in given else f"{name} is missing"
            self.say("missing-key", (*path, name), at, "", f"{note}: {one.spec.sentence}", _how(one))
        if not whole:
            return FAULTY
        section = model.model_construct(_fields_set=set(found), **_with_defaults(found, fields))
        for name, note, hint in section.contradictions():
            where = (*path, name) if name else path
            self.say("contradiction", where, self.lines.get(where, line), _typed(found.get(name)), note, hint)
        return section

    def read_field(self, one: Field, key: Node, value: Node, path: Path) -> Any:
        if is_null(value):
            return LEFT_OUT
        if len(path) > 1:
            return self.read_shape(one, one.shape, value, path, line_of(key))
        text = self.text[key.start_mark.index : value.end_mark.index]
        return self._read_part(text, one, key, value)

    def _read_part(self, text: str, one: Field, key: Node, value: Node) -> Any:
        """A part at the top, from memory where the same text stood in the same line: an edit changes one of thirty."""
        wanted = (self.model, self.file, self.bare_length, self.stand_ins, line_of(key), text)
        known = None if _TIED.search(text) else KNOWN_PARTS.get(wanted)
        if known is None:
            alone = _Reader(self.text, self.file, self.model, self.bare_length, self.stand_ins)
            read = alone.read_shape(one, one.shape, value, (one.name,), line_of(key))
            known = _Part(read, tuple(alone.diagnostics), alone.lines, alone.kept)
            KNOWN_PARTS.keep(wanted, known)
        self.diagnostics.extend(known.diagnostics)
        self.lines.update(known.lines)
        self.kept.update(known.kept)
        return known.read

    def _split_at_comma(self, keys: list[tuple[str, Node, Node]], path: Path) -> set[str]:
        """Keys whose value YAML has split at a decimal comma, ``{depth: 1,83 m}``, with the rest it made a key of."""
        split: set[str] = set()
        for (before, _, value), (name, key, rest) in pairwise(keys):
            if name[:1].isdigit() and is_null(rest) and is_scalar(value) and value.value.lstrip("+-").isdecimal():
                self._say_comma((*path, before), line_of(key), f"{value.value},{name}")
                split |= {before, name}
        return split

    def say_unknown(self, key: Node, fields: dict[str, Field], path: Path, given: list[str]) -> str:
        """Say that a key is not known, and return the one that may be meant."""
        name = key.value
        near = _near((name,), [one for one in fields if one not in given])
        hint = f"did you mean {near}?" if near else _belongs(name, self.model)
        there = "" if hint else _near((name,), [one for one in fields if one in given])
        hint = hint or (f"did you mean {there}, which is there already?" if there else "")
        note = "there is no such key here; there are " + ", ".join(list(fields)[:12])
        if len(fields) > 12:
            note += " …"
        self.say("unknown-key", (*path, name), line_of(key), name, note, hint)
        return near


def _with_defaults(found: dict[str, Any], fields: dict[str, Field]) -> dict[str, Any]:
    return {name: found.get(name, one.default) for name, one in fields.items()}


def _typed(value: Any) -> str:
    return getattr(value, "text", "") or (str(value) if isinstance(value, (str, int)) else "")


def _how(one: Field) -> str:
    from hushwright.document.leaves import example_of

    return f"add {one.name}: {example_of(one.spec)}"


def _belongs(name: str, model: type[Section]) -> str:
    """Say where a key is known that is not known here."""
    if name == "<<":
        return "write the keys out; parts are not merged in a build file"
    places = dict.fromkeys(path[:-1] for path, one in walk_fields(model) if one.name == name)
    if not places or len(places) > 3:
        return ""
    return "it belongs " + " or ".join(f"under {'.'.join(place)}" if place else "at the top" for place in places)


def _did_you_mean(words: tuple[str, ...], known: list[str]) -> str:
    near = _near(words, known)
    return f"did you mean {near}?" if near else ""


def _near(words: tuple[str, ...], known: list[str]) -> str:
    from difflib import get_close_matches

    for word in words:
        tidy = word.lower().replace(" ", "_").replace("-", "_")
        close = get_close_matches(tidy, known, n=1, cutoff=0.7)
        if close:
            return close[0]
    return ""
