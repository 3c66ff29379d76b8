"""The document: a build file as typed values, with the line of each."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any, Generic, cast

from typing_extensions import TypeVar

from hushwright.document.fields import FieldSpec, FrozenDict, Section
from hushwright.document.nodes import Path, parse_path
from hushwright.document.shapes import fields_of
from hushwright.document.values import Value
from hushwright.errors import InvalidInput, Place

if TYPE_CHECKING:
    from hushwright.document.schema import BuildFile

Root = TypeVar("Root", bound=Section, default="BuildFile")


@dataclass(frozen=True)
class Document(Generic[Root]):
    """A build file as read. A change is a new document.

    Parameters
    ----------
    root
        The whole file as its top section.
    file
        Name of the file as the user gave it.
    lines
        Line of each value and section, by its path of keys.
    text
        The text as read; :meth:`with_value` leaves it, :func:`hushwright.document.save.set_value` changes it.
    kept
        Positions in the file of the items of a list from which faulty ones are left out, by its path.
    stand_in
        Where values were refused: the same document with others in their place. A problem that the two do not share
        follows from a refused value.
    """

    root: Root
    file: str = ""
    lines: Mapping[Path, int] = field(default_factory=dict, compare=False, repr=False)
    text: str = field(default="", repr=False)
    kept: Mapping[Path, tuple[int, ...]] = field(default_factory=dict, compare=False, repr=False)
    stand_in: Document[Root] | None = field(default=None, compare=False, repr=False)

    def place(self, path: Path | str) -> Place:
        """Where a value stands; what is left out stands where its section does."""
        keys = _keys(path)
        for length in range(len(keys), -1, -1):
            line = self.lines.get(keys[:length])
            if line is not None:
                return Place(self.file, line, self._typed(keys))
        return Place(self.file, 0, self._typed(keys))

    def _typed(self, keys: Path) -> Path:
        """Path as it stands in the file, where faulty items before it are counted too."""
        typed: Path = ()
        for key in keys:
            positions = self.kept.get(typed, ())
            typed = (*typed, positions[key] if isinstance(key, int) and key < len(positions) else key)
        return typed

    def value_at(self, path: Path | str) -> Any:
        """Return the value, section, list or map at a path; list positions count from 0.

        Raises
        ------
        InvalidInput
            If there is nothing at that path; the message names what there is.
        """
        node: Any = self.root
        keys = _keys(path)
        for depth, key in enumerate(keys):
            node = _child(node, key, keys[:depth])
        return node

    def with_value(self, path: Path | str, new: Value | float | object) -> Document[Root]:
        """Return the document with one value replaced; a number keeps the spread and origin that were there.

        Nothing is checked again: this is for sensitivities and searches, which stay near what was read.
        """
        return replace(self, root=cast("Root", _replaced(self.root, _keys(path), new, ())), stand_in=None)

    def values(self) -> Iterator[tuple[Path, Value]]:
        """Every quantity with its path, defaults of left-out fields included."""
        return _values(self.root, ())

    def uncertain_inputs(self) -> tuple[tuple[Path, Value], ...]:
        """Every quantity that is unknown or carries a spread, with its path."""
        return tuple((path, value) for path, value in self.values() if value.is_uncertain)

    def left_out(self) -> tuple[tuple[Path, FieldSpec], ...]:
        """Fields that the file leaves out and that are filled by a default or from the library, with their path."""
        return tuple(_left_out(self.root, ()))


def _keys(path: Path | str) -> Path:
    return parse_path(path) if isinstance(path, str) else tuple(path)


def _child(node: Any, key: str | int, before: Path) -> Any:
    if isinstance(node, Section):
        # Field values live in the instance's own dict; class attributes such as methods are not fields.
        if key in node.__dict__:
            return node.__dict__[str(key)]
        there: Any = node.__dict__
    elif isinstance(node, FrozenDict):
        name = str(key)
        if name in node:
            return node[name]
        there = node
    elif isinstance(node, tuple):
        if isinstance(key, int) and 0 <= key < len(node):
            return node[key]
        there = range(len(node))
    else:
        there = ()
    at = ".".join(str(one) for one in before) or "the top of the file"
    found = ", ".join(str(one) for one in there) or "nothing"
    raise InvalidInput(f"there is no {key!r} at {at}; there is {found}")


def _replaced(node: Any, keys: Path, new: object, before: Path) -> object:
    if not keys:
        if isinstance(new, (int, float)) and not isinstance(new, bool):
            if isinstance(node, Value):
                return replace(node, value=float(new), unknown=False)
            if node is None:
                return Value(float(new))
        return new
    key = keys[0]
    child = _replaced(_child(node, key, before), keys[1:], new, (*before, key))
    if isinstance(node, Section):
        return node.model_copy(update={str(key): child})
    if isinstance(node, FrozenDict):
        return node.replaced(str(key), child)
    at = int(key)
    return (*node[:at], child, *node[at + 1 :])


def _parts(node: Any) -> Iterator[tuple[str | int, Any]]:
    if isinstance(node, Section):
        yield from node.__dict__.items()
    elif isinstance(node, dict):
        yield from node.items()
    elif isinstance(node, tuple):
        yield from enumerate(node)


def _values(node: Any, path: Path) -> Iterator[tuple[Path, Value]]:
    for key, part in _parts(node):
        if isinstance(part, Value):
            yield (*path, key), part
        elif isinstance(part, (Section, dict, tuple)):
            yield from _values(part, (*path, key))


def _left_out(node: Any, path: Path) -> Iterator[tuple[Path, FieldSpec]]:
    if isinstance(node, Section):
        for name, one in fields_of(type(node)).items():
            if name not in node.model_fields_set and (one.spec.default_text or one.spec.fallback):
                yield (*path, name), one.spec
    for key, part in _parts(node):
        if isinstance(part, (Section, dict, tuple)):
            yield from _left_out(part, (*path, key))
