"""Typed arguments of a law to the values that it takes: numbers with units, lists, words, small values by parts."""

from __future__ import annotations

import collections.abc
import dataclasses
import re
import types
from dataclasses import dataclass, field
from typing import Any, Final, Literal, Union, get_args, get_origin

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import Diagnostic, InvalidInput, Place
from hushwright.evaluation.laws.kinds import SEQUENCES, TYPED, Node, annotation_of, concrete, fits, how_typed, spelled
from hushwright.evaluation.laws.laws import Parameter, fields_of
from hushwright.evaluation.laws.units import number_in, with_last_unit
from hushwright.units import UnreadableQuantity

_TIMES = re.compile(r"([1-9][0-9]{0,2})\s*[x×*]\s*(.*)")
_WORDS: Final = {"yes": True, "no": False, "true": True, "false": False}


class Unread(Exception):
    """A value could not be read; why is among the problems."""


@dataclass
class Reader:
    """Reads arguments and gathers what is wrong with them."""

    where: str = "hushwright law"
    problems: list[Diagnostic] = field(default_factory=list)

    def refuse(
        self, path: str, value: str, note: str, hint: str = "", reference: str = "unreadable-argument"
    ) -> Unread:
        """Note a problem; what comes back is to be raised."""
        place = Place(self.where, 0, tuple(path.split(".")))
        self.problems.append(Diagnostic(reference, place, value, note, hint))
        return Unread()

    def parameters(self, wanted: tuple[Parameter, ...], owner: Any, node: Node, path: str = "") -> dict[str, Any]:
        """Value of every parameter for which something was typed; unknown and missing names are problems."""
        names = [one.name for one in wanted]
        for name in node:
            if name not in names and name != TYPED:
                self._unknown(path + name, name, node[name].get(TYPED, ""), names)
        found: dict[str, Any] = {}
        failed = False
        for one in wanted:
            where = path + one.name
            try:
                if one.name in node and one.rows and ";" in node[one.name].get(TYPED, ""):
                    found[one.name] = self._rows(one, node[one.name][TYPED], where)
                elif one.name in node:
                    found[one.name] = self.value(annotation_of(one, owner), one.units, node[one.name], where)
                elif one.needed:
                    raise self.refuse(where, "", "is missing", how_typed(one, owner), "missing-argument")
            except Unread:
                failed = True
        if failed:
            raise Unread
        return found

    def value(self, kind: Any, units: tuple[str, ...], node: Node, path: str) -> Any:
        """Value of one annotation."""
        kind = concrete(kind)
        typed = node.get(TYPED)
        if typed == "" and kind is not str:
            raise self.refuse(path, "", "there is no value after the equals sign", "")
        if get_origin(kind) in (Union, types.UnionType) and kind != ArrayLike:
            return self._one_of(get_args(kind), units, node, path)
        if get_origin(kind) is collections.abc.Mapping or get_origin(kind) is dict:
            item = get_args(kind)[1]
            return {name: self.value(item, units, part, f"{path}.{name}") for name, part in node.items() if name}
        if dataclasses.is_dataclass(kind) and isinstance(kind, type):
            return self._small_value(kind, node, path)
        if get_origin(kind) in SEQUENCES and typed is None:
            return self._list_of_parts(kind, units, node, path)
        if typed is None:
            raise self.refuse(path, "", "has no parts", f"write {path}=…")
        return self._typed(kind, units, typed, path)

    def _typed(self, kind: Any, units: tuple[str, ...], typed: str, path: str) -> Any:
        name = path.rpartition(".")[2]
        if typed.strip().casefold() == "none" and get_origin(kind) in SEQUENCES:
            return ()
        if kind == ArrayLike or get_origin(kind) is np.ndarray or kind is np.ndarray:
            return self._array(kind, units, typed, path)
        if get_origin(kind) in SEQUENCES:
            return self._row(kind, units, typed, path)
        if get_origin(kind) is Literal:
            return self._word(get_args(kind), typed, path)
        if kind is str:
            return typed
        if kind is bool:
            return self._word(tuple(_WORDS), typed, path, _WORDS)
        return self._number(kind, units, typed, path, name)

    def _number(self, kind: Any, units: tuple[str, ...], typed: str, path: str, name: str) -> Any:
        if kind is complex:
            try:
                return complex(re.sub(r"[\s()]", "", typed).replace("i", "j").replace("−", "-"))
            except ValueError:
                pass  # a plain quantity is a complex number too
        try:
            number = number_in(typed, units[0] if units else "-", name)
        except UnreadableQuantity as refused:
            raise self.refuse(
                path, typed, refused.note, refused.hint.partition(", or declare")[0], refused.reference
            ) from None
        if kind is not int and not getattr(kind, "__name__", "").startswith("int"):
            return number
        if not float(number).is_integer():
            raise self.refuse(path, typed, "is no whole number", "")
        return int(number)

    def _word(self, words: tuple[Any, ...], typed: str, path: str, meaning: dict[str, Any] | None = None) -> Any:
        plain = {str(word).replace("_", " "): word for word in words}
        number = re.match(r"[0-9]+(?= |$)", typed)  # a number that is one of a few may have its unit
        tidy = (number[0] if number is not None and number[0] in plain else typed).strip().casefold().replace("_", " ")
        match = next((word for text, word in plain.items() if text.casefold() == tidy), None)
        if match is None:
            raise self.refuse(path, typed, "is none of the words here", f"one of: {', '.join(map(str, words))}")
        return meaning[match] if meaning else match

    def _array(self, kind: Any, units: tuple[str, ...], typed: str, path: str) -> Any:
        of = "" if kind == ArrayLike else str(kind)
        is_complex = "complex" in of or (of == "" and re.search(r"[0-9]\s*[ij]\b", typed) is not None)
        item = complex if is_complex else int if "int" in of else float
        numbers = [self._typed(item, units, text, path) for text in _split(typed)]
        is_one = kind == ArrayLike and len(numbers) == 1 and not typed.rstrip().endswith((",", ";"))
        return numbers[0] if is_one else np.asarray(numbers)

    def _rows(self, one: Parameter, typed: str, path: str) -> Any:
        rows = [[self._number(float, one.units, text, path, one.name) for text in _split(row)]
                for row in typed.split(";")]  # fmt: skip
        if len({len(row) for row in rows}) > 1:
            raise self.refuse(path, typed, "has rows of different lengths", "")
        return np.asarray(rows)

    def _row(self, kind: Any, units: tuple[str, ...], typed: str, path: str) -> Any:
        items = get_args(kind)
        endless = get_origin(kind) is not tuple or (len(items) == 2 and items[1] is Ellipsis)
        nested = any(get_origin(item) in SEQUENCES for item in items)
        texts = [text.strip() for text in typed.split(";")] if nested else _split(typed)
        if not endless and len(texts) != len(items):
            raise self.refuse(path, typed, f"has {len(texts)} values where {len(items)} are needed", "")
        kinds = [items[0]] * len(texts) if endless else list(items)
        by_column = len(units) == len(texts) > 1 and not endless  # each column has its own unit
        found = [self.value(each, units[at : at + 1] if by_column else units, {TYPED: text}, path)
                 for at, (each, text) in enumerate(zip(kinds, texts, strict=True))]  # fmt: skip
        return tuple(found)

    def _list_of_parts(self, kind: Any, units: tuple[str, ...], node: Node, path: str) -> Any:
        items = get_args(kind)
        endless = get_origin(kind) is not tuple or (len(items) == 2 and items[1] is Ellipsis)
        for name in node:
            if not name.isdecimal() or int(name) >= len(node):
                note = "the parts of a list are counted from 0, without a gap"
                raise self.refuse(f"{path}.{name}", "", note, f"write {path}.0…, {path}.1…")
        if not endless and len(node) != len(items):
            raise self.refuse(path, "", f"has {len(node)} parts where {len(items)} are needed", "")
        ordered = sorted(node.items(), key=lambda one: int(one[0]))
        return tuple(
            self.value(items[0] if endless else items[at], units, part, f"{path}.{name}")
            for at, (name, part) in enumerate(ordered)
        )

    def _small_value(self, kind: type, node: Node, path: str) -> Any:
        parts = fields_of(kind)
        node = {name: part for name, part in node.items() if name != TYPED or spelled(part) != spelled(kind.__name__)}
        if TYPED in node:
            names = ", ".join(f"{path}.{one.name}" for one in parts if one.needed) or f"{path}.{parts[0].name}"
            raise self.refuse(path, node[TYPED], "is given by its parts", f"write {names}, each with =")
        found = self.parameters(parts, kind, node, f"{path}.")
        try:
            return kind(**found)
        except InvalidInput as refused:
            raise self.refuse(path, "", str(refused), "", "out-of-range") from None

    def _one_of(self, kinds: tuple[Any, ...], units: tuple[str, ...], node: Node, path: str) -> Any:
        """Value of the first kind that what was typed fits."""
        typed = node.get(TYPED)
        if typed is not None and typed.strip().casefold() == "none" and types.NoneType in kinds:
            return None
        likely = [kind for kind in kinds if kind is not types.NoneType and fits(concrete(kind), node)]
        named = [kind.__name__ for kind in likely if dataclasses.is_dataclass(kind) and isinstance(kind, type)]
        if len(named) > 1:
            words = " or ".join(f"{path}={spelled(name)}" for name in named)
            raise self.refuse(path, "", "can be several things with these parts", f"say which: {words}")
        refusals: list[list[Diagnostic]] = []
        for kind in likely or [kind for kind in kinds if kind is not types.NoneType]:
            attempt = Reader(self.where)
            try:
                return attempt.value(kind, units, node, path)
            except Unread:
                refusals.append(attempt.problems)
        self.problems += refusals[0]
        raise Unread

    def _unknown(self, path: str, name: str, typed: str, names: list[str]) -> None:
        from difflib import get_close_matches

        near = get_close_matches(name, names, n=1)
        hint = f"perhaps {near[0]}?" if near else f"it takes {', '.join(names) or 'nothing'}"
        self.refuse(path, typed, "is not among what is taken here", hint, "unknown-argument")


def _split(typed: str) -> list[str]:
    """Texts of a list: parted by semicolons, or else by commas; one at the end makes a list of a single value.

    ``27 x 60 dB`` stands for the same value 27 times.
    """
    texts = [text.strip() for text in typed.split(";" if ";" in typed else ",")]
    texts = with_last_unit(texts[:-1] if len(texts) > 1 and not texts[-1] else texts)
    found: list[str] = []
    for text in texts:
        times = _TIMES.fullmatch(text)
        found += [text] if times is None else [times[2]] * int(times[1])
    return found
