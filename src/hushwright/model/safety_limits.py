"""Limits of safety: as the file types them, else the library's with how sure it is."""

from __future__ import annotations

from hushwright.document.values import Value
from hushwright.library.safety import SafetyLimit
from hushwright.model.safety_in_place import LimitInPlace
from hushwright.model.taking import Path, Taker, dotted
from hushwright.units import Kind, format_quantity


def limit_of(taker: Taker, path: Path, given: Value | None, kind: Kind, name: str) -> LimitInPlace:
    """Limit that somebody typed and answers for, else the library's.

    Parameters
    ----------
    taker : Taker
        Takes values, notes what is assumed.
    path : tuple
        Where the file has it.
    given : Value or None
        As typed.
    kind : str
        Kind of quantity.
    name : str
        Limit of safety in the library.

    Returns
    -------
    LimitInPlace
        A typed one is never doubted.
    """
    if given is not None and not given.unknown:
        return LimitInPlace(taker.quantity(path, given, kind, label=name), f"{name}: limit in the build file", "",
                            dotted(path))  # fmt: skip
    record = taker.library.find(SafetyLimit, name)
    taker.assume(path, f"{name} {format_quantity(record.value.value, kind, 'metric')}", str(record.source))
    return LimitInPlace(record.value.value, f"{name}: {record.source}", record.doubt, dotted(path))
