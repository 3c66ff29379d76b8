"""What a field's annotation asks for: one leaf, a list, a map by name, or one of several sections."""

from __future__ import annotations

import types
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any, Union, get_args, get_origin

from hushwright.document.fields import FieldSpec, Section, field_specs
from hushwright.document.values import Value
from hushwright.errors import InvalidInput


@dataclass(frozen=True, slots=True)
class Leaf:
    """A single value; the declaration of its field says which."""


@dataclass(frozen=True, slots=True)
class OneSection:
    """One section, or one of several told apart by their key."""

    classes: tuple[type[Section], ...]

    def chosen(self, keys: tuple[str, ...]) -> tuple[type[Section], ...]:
        """Classes whose key is among the keys present; the only class is always meant."""
        if len(self.classes) == 1:
            return self.classes
        return tuple(one for one in self.classes if one.key in keys)


@dataclass(frozen=True, slots=True)
class Items:
    """A list; ``each`` holds one shape for lists of any length, or one for each place."""

    each: tuple[Shape, ...]
    any_length: bool


@dataclass(frozen=True, slots=True)
class Named:
    """A map by names of the writer's own."""

    each: Shape


Shape = Leaf | OneSection | Items | Named


@dataclass(frozen=True, slots=True)
class Field:
    """One field as the reader needs it."""

    name: str
    spec: FieldSpec
    shape: Shape
    required: bool
    default: Any


@cache
def fields_of(model: type[Section]) -> dict[str, Field]:
    """Return the fields of a section with their shapes, in the order of the class."""
    specs = field_specs(model)
    missing = [name for name in model.model_fields if name not in specs]
    if missing:
        raise InvalidInput(f"{model.__name__}.{missing[0]} is not declared with quantity(), words(), section() …")
    return {
        name: Field(name, specs[name], shape_of(info.annotation), info.is_required(), info.default)
        for name, info in model.model_fields.items()
    }


def shape_of(annotation: Any) -> Shape:
    """Return the shape an annotation asks for; ``| None`` and ``Annotated`` are looked through."""
    origin = get_origin(annotation)
    if origin is Annotated:
        return shape_of(get_args(annotation)[0])
    if origin in (Union, types.UnionType):
        return _union(tuple(one for one in get_args(annotation) if one is not type(None)), annotation)
    if origin is tuple:
        parts = get_args(annotation)
        if len(parts) == 2 and parts[1] is Ellipsis:
            return Items((shape_of(parts[0]),), any_length=True)
        return Items(tuple(shape_of(part) for part in parts), any_length=False)
    if origin is dict:
        return Named(shape_of(get_args(annotation)[1]))
    if isinstance(annotation, type):
        if issubclass(annotation, Section):
            return OneSection((annotation,))
        if issubclass(annotation, (Value, str, int, float, bool)):
            return Leaf()
    raise InvalidInput(f"a field of the build file cannot be declared as {annotation!r}")


def _union(members: tuple[Any, ...], annotation: Any) -> Shape:
    if len(members) == 1:
        return shape_of(members[0])
    shapes = [shape_of(member) for member in members]
    classes = tuple(one for shape in shapes if isinstance(shape, OneSection) for one in shape.classes)
    if len(classes) != len(members) or not all(one.key for one in classes):
        raise InvalidInput(f"a union can only be of sections that each name their key: {annotation!r}")
    return OneSection(classes)


def walk_fields(model: type[Section], path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Field]]:
    """Every field with its path pattern: ``*`` stands for a list position or a name of the writer's own.

    Where sections are told apart by their key, the pattern names it: ``layers.*.sheet.thickness``.
    """
    for name, one in fields_of(model).items():
        yield (*path, name), one
        for section, inner in sections_in(one.shape, (*path, name)):
            yield from walk_fields(section, inner)


def sections_in(shape: Shape, path: tuple[str, ...]) -> Iterator[tuple[type[Section], tuple[str, ...]]]:
    """Sections that a shape leads to, each with its path pattern."""
    if isinstance(shape, OneSection):
        for section in shape.classes:
            yield section, (*path, section.key) if len(shape.classes) > 1 else path
    elif isinstance(shape, Items):
        for each in dict.fromkeys(shape.each):
            yield from sections_in(each, (*path, "*"))
    elif isinstance(shape, Named):
        yield from sections_in(shape.each, (*path, "*"))
