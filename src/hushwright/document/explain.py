"""Problems as a person reads them: place, value and reason, what to do."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from hushwright.errors import Diagnostic, Place


def format_diagnostics(diagnostics: Sequence[Diagnostic]) -> str:
    """Write every problem in order, each with its place, value, reason and hint.

    Examples
    --------
    >>> place = Place("van.yaml", 42, ("surfaces", "left", "layers", 2, "thickness"))
    >>> one = Diagnostic("out-of-range", place, "50 m", "this lies above 100 mm", "perhaps 50 mm?")
    >>> print(format_diagnostics([one]))
    van.yaml, line 42: surfaces.left.layers.2.thickness
      50 m: this lies above 100 mm
      perhaps 50 mm?      problem 1 of 1 · out-of-range
    """
    number = len(diagnostics)
    return "\n".join(_one(diagnostic, at, number) for at, diagnostic in enumerate(diagnostics, start=1))


def merged(*lists: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """Several lists of problems as one in file order, each problem once.

    The first list is that of reading. What could not be read is left out, so that later remarks, and names of left-out
    parts that are not found, may be about that alone: they wait until the file can be read.
    """
    read, *later = (tuple(one) for one in lists)
    faulty = {key for one in read if one.severity == "error" for key in one.place.path if isinstance(key, str)}
    found = [*read, *(one for each in later for one in each if not (faulty and _follows(one, faulty)))]
    return tuple(sorted(dict.fromkeys(found), key=lambda diagnostic: diagnostic.place.line))


def _follows(one: Diagnostic, faulty: set[str]) -> bool:
    """Whether a problem may come of a faulty part that was left out."""
    return one.severity == "warning" or (one.reference == "unknown-name" and one.value in faulty)


def _one(diagnostic: Diagnostic, at: int, number: int) -> str:
    value = f"“{diagnostic.value}”" if diagnostic.value.endswith(":") else diagnostic.value
    reason = f"{value}: {diagnostic.note}" if value else diagnostic.note
    word = "remark" if diagnostic.severity == "warning" else "problem"
    count = f"{word} {at} of {number} · {diagnostic.reference}"
    last = f"{diagnostic.hint}      {count}" if diagnostic.hint else count
    return f"{_place(diagnostic.place)}\n  {reason}\n  {last}"


def _place(place: Place) -> str:
    """Place as `hushwright set` takes it, list items counted from 0."""
    keys = place.dotted
    head = ", line ".join(text for text in (place.file or "the text", str(place.line) if place.line else "") if text)
    return f"{head}: {keys}" if keys else head
