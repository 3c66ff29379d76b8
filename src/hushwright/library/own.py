"""Records that a build file brings along, whole or in the likeness of a library record."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import MISSING, fields
from typing import Any, TypeVar

from hushwright.errors import InvalidInput
from hushwright.library.base import Record
from hushwright.library.values import Source, Spread

R = TypeVar("R", bound=Record)

STATED = Source("stated in the build file")


def own_record(
    kind: type[R],
    name: str,
    values: Mapping[str, object],
    *,
    source: Source = STATED,
    like: R | None = None,
    note: str = "",
) -> R:
    """Record of a build file.

    Parameters
    ----------
    kind : record class
        What it is, ``Sheet``.
    name : str
        Its name in the build file.
    values : mapping of str to Spread, float, str or tuple
        Its fields in SI; a plain number for a field with a range becomes a point.
    source : Source, optional
        Where the values come from.
    like : record of the same kind, optional
        Gives the fields that ``values`` leaves out.
    note : str, optional
        Note of the record; by default it names what it is like.

    Raises
    ------
    InvalidInput
        If a field is unknown, missing, of the wrong form, or beyond what matter allows.

    Examples
    --------
    >>> from hushwright.library.materials import Sheet
    >>> from hushwright.library.read import read_library
    >>> birch = read_library().find(Sheet, "birch plywood")
    >>> own_record(Sheet, "my ply", {"density": 680.0}, like=birch).youngs_modulus == birch.youngs_modulus
    True
    """
    declared = {each.name: each for each in fields(kind) if "form" in each.metadata}
    unknown = [key for key in values if key not in declared]
    if unknown:
        raise InvalidInput(f"{name}: {unknown[0]!r} is no field of it; fields are {', '.join(declared)}")
    filled: dict[str, Any] = {key: getattr(like, key) for key in declared} if like is not None else {}
    filled.update({key: _fitting(name, key, value, declared[key].metadata["form"]) for key, value in values.items()})
    missing = [key for key, each in declared.items() if key not in filled and each.default is MISSING]
    if missing:
        raise InvalidInput(f"{name}: {', '.join(missing)} missing; name them, or a library record it is like")
    words = note or (f"otherwise like {like.name}" if like is not None else "")
    return kind(name=name, source=source, note=words, **filled)


def _fitting(name: str, key: str, value: object, form: str) -> object:
    if form == "spread" and isinstance(value, int | float) and not isinstance(value, bool):
        return Spread.point(float(value))
    wanted: dict[str, tuple[type, ...]] = {"spread": (Spread,), "number": (int, float), "words": (str,)}
    if not isinstance(value, wanted.get(form, (tuple,))) or isinstance(value, bool):
        raise InvalidInput(f"{name}: {key} is {value!r}; it is a {form}")
    return value
