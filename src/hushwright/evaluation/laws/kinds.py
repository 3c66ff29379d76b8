"""What the annotations of laws ask for: numbers, words, lists, small values, and whether it can be typed at all."""

from __future__ import annotations

import collections.abc
import dataclasses
import inspect
import re
import types
from collections.abc import Iterator
from typing import Any, Final, Literal, Union, get_args, get_origin

import numpy as np
from numpy.typing import ArrayLike

from hushwright.evaluation.laws.laws import Parameter, fields_of, module_of

Node = dict[str, Any]
"""Typed texts by the parts of their names: `plate.thickness=12 mm` stands under `plate`, then `thickness`."""

TYPED: Final = ""
"""Key of what was typed for the part itself."""

SEQUENCES: Final = (tuple, list, collections.abc.Sequence, collections.abc.Iterable)
_DEEP: Final = 6


def concrete(kind: Any) -> Any:
    """What stands for an idea: the pieces of a duct run for a piece as such; any other kind as it is."""
    if inspect.isclass(kind) and inspect.isabstract(kind):
        # A class with slots leaves a twin behind that its module no longer holds.
        kinds = tuple(each for each in kind.__subclasses__() if module_of(each).get(each.__name__) is each)
        return Union[kinds]  # noqa: UP007 - known only when it runs
    return kind


def spelled(name: str) -> str:
    """Name of a small value as it is typed: `MitredBend` as `mitred bend`."""
    return re.sub(r"(?<=[a-z])(?=[A-Z])|_", " ", name).strip().casefold()


def annotation_of(parameter: Parameter, owner: Any) -> Any:
    """Annotation as a type; names in it are those of the owner's module."""
    kind = eval(parameter.annotation, module_of(owner))  # our own source, never what a person typed
    if parameter.keyed:
        return types.GenericAlias(dict, (str, kind))
    return types.GenericAlias(tuple, (kind, ...)) if parameter.several else kind


def cannot_be_typed(parameters: tuple[Parameter, ...], owner: Any) -> tuple[str, ...]:
    """Names of what no text can stand for: functions, networks, solved fields."""
    return tuple(one.name for one in parameters if one.needed and not _typable(annotation_of(one, owner), _DEEP))


def small_values(parameter: Parameter, owner: Any) -> tuple[type, ...]:
    """Kinds of small value that a parameter, or one of its list, can be."""
    flat = _flat(annotation_of(parameter, owner))
    return tuple(kind for kind in flat if dataclasses.is_dataclass(kind) and isinstance(kind, type))


def words_of(parameter: Parameter, owner: Any) -> tuple[str, ...]:
    """Words or numbers of which one is taken, where there are but a few."""
    kinds = [each for each in _flat(annotation_of(parameter, owner)) if get_origin(each) is Literal]
    return tuple(str(word) for kind in kinds for word in get_args(kind))


def is_list(parameter: Parameter, owner: Any) -> bool:
    """Whether several of them are taken."""
    return get_origin(annotation_of(parameter, owner)) in SEQUENCES


def how_typed(parameter: Parameter, owner: Any) -> str:
    """Hint how a parameter is typed."""
    kinds = small_values(parameter, owner)
    if kinds:
        parts = [one.name for one in fields_of(kinds[0]) if one.needed] or [one.name for one in fields_of(kinds[0])][:1]
        listed = ".0" if is_list(parameter, owner) else ""
        return f"write {', '.join(f'{parameter.name}{listed}.{part}=…' for part in parts)}"
    return f"write {parameter.name}=…: {parameter.meaning}"


def _flat(kind: Any) -> Iterator[Any]:
    """A kind itself, or what a union or a list is made of."""
    kind = concrete(kind)
    if kind != ArrayLike and (get_origin(kind) in (Union, types.UnionType) or get_origin(kind) in SEQUENCES):
        for each in get_args(kind):
            yield from _flat(each)
    else:
        yield kind


def _typable(kind: Any, deep: int) -> bool:
    kind = concrete(kind)
    origin = get_origin(kind)
    if kind == ArrayLike or origin in (Literal, np.ndarray) or kind in (float, int, str, bool, complex, np.ndarray):
        return True
    if origin in (Union, types.UnionType):
        return any(_typable(each, deep) for each in get_args(kind) if each is not types.NoneType)
    if origin in SEQUENCES:
        return all(_typable(each, deep) for each in get_args(kind) if each is not Ellipsis)
    if origin in (collections.abc.Mapping, dict):
        return get_args(kind)[0] is str and _typable(get_args(kind)[1], deep)
    if dataclasses.is_dataclass(kind) and isinstance(kind, type) and deep > 0:
        return all(_typable(annotation_of(one, kind), deep - 1) for one in fields_of(kind) if one.needed)
    return False


def fits(kind: Any, node: Node) -> bool:
    """Whether the parts typed are those of a kind."""
    is_sequence = get_origin(kind) in SEQUENCES
    if TYPED in node and dataclasses.is_dataclass(kind) and isinstance(kind, type):
        return spelled(node[TYPED]) == spelled(kind.__name__)
    if TYPED in node:
        several = ";" in node[TYPED] or "," in node[TYPED]
        return is_sequence == several
    if is_sequence:
        return all(name.isdecimal() for name in node)
    if dataclasses.is_dataclass(kind) and isinstance(kind, type):
        parts = fields_of(kind)
        return set(node) <= {one.name for one in parts} and {one.name for one in parts if one.needed} <= set(node)
    return False
