"""What differs between two revisions of a build file, value by value."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Final

from hushwright.document.fields import Section
from hushwright.document.values import Value

_NAMES: Final = ("name", "operation", "situation", "of", "revision", "what")
"""Fields by which items of a list are known again when their place in it has changed."""


@dataclass(frozen=True, slots=True)
class FieldChange:
    """One value that differs; ``old`` or ``new`` is empty where it is not there."""

    path: str
    old: str
    new: str


def changed_fields(old: Section, new: Section) -> tuple[FieldChange, ...]:
    """Every given value that differs, in the order of the file.

    Parameters
    ----------
    old, new : Section
        Roots of two documents.

    Returns
    -------
    tuple of FieldChange
        Items of lists are told apart by their name where they have one, else by their number.
    """
    before, after = dict(_flat(old, "")), dict(_flat(new, ""))
    paths = list(dict.fromkeys([*before, *after]))
    return tuple(
        FieldChange(path, before.get(path, ""), after.get(path, ""))
        for path in paths
        if before.get(path) != after.get(path)
    )


def _flat(node: Any, path: str) -> Iterator[tuple[str, str]]:
    """Every given value with its path and as it was typed."""
    if isinstance(node, Section):
        for name, part in node.__dict__.items():
            if name in node.model_fields_set:
                yield from _flat(part, f"{path}.{name}" if path else name)
    elif isinstance(node, dict):
        for name, part in node.items():
            yield from _flat(part, f"{path}.{name}")
    elif isinstance(node, tuple):
        for name, part in _named_items(node):
            yield from _flat(part, f"{path}.{name}")
    elif node is not None:
        yield path, _typed(node)


def _named_items(items: tuple[Any, ...]) -> Iterator[tuple[str, Any]]:
    """Items by their name, with a number where two have the same."""
    seen: dict[str, int] = {}
    for number, item in enumerate(items):
        name = next((str(getattr(item, each)) for each in _NAMES if getattr(item, each, "")), str(number))
        size = getattr(item, "size", None)
        if isinstance(size, Value):
            name = f"{name} {size.text}"
        seen[name] = seen.get(name, 0) + 1
        yield (name if seen[name] == 1 else f"{name} ({seen[name]})"), item


def _typed(value: Any) -> str:
    if isinstance(value, Value):
        spread = f" ±{2.0 * value.standard_uncertainty:.3g}" if value.standard_uncertainty else ""
        origin = f", {value.origin}" if value.origin not in ("stated",) else ""
        return f"{value.text or value.value}{spread if '..' not in value.text else ''}{origin}"
    return {True: "yes", False: "no"}.get(value, str(value)) if isinstance(value, bool) else str(value)
