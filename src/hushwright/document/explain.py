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
    van.yaml, line 42: surfaces / left / layers / 3 / thickness
      50 m: this lies above 100 mm
      perhaps 50 mm?      problem 1 of 1 · out-of-range
    """
    number = len(diagnostics)
    return "\n".join(_one(diagnostic, at, number) for at, diagnostic in enumerate(diagnostics, start=1))


def merged(*lists: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """Several lists of problems as one in file order, each problem once."""
    every = dict.fromkeys(diagnostic for one in lists for diagnostic in one)
    return tuple(sorted(every, key=lambda diagnostic: diagnostic.place.line))


def _one(diagnostic: Diagnostic, at: int, number: int) -> str:
    value = f"“{diagnostic.value}”" if diagnostic.value.endswith(":") else diagnostic.value
    reason = f"{value}: {diagnostic.note}" if value else diagnostic.note
    word = "remark" if diagnostic.severity == "warning" else "problem"
    count = f"{word} {at} of {number} · {diagnostic.reference}"
    last = f"{diagnostic.hint}      {count}" if diagnostic.hint else count
    return f"{_place(diagnostic.place)}\n  {reason}\n  {last}"


def _place(place: Place) -> str:
    """Place with list items counted from one, as a person counts."""
    keys = " / ".join(str(key + 1) if isinstance(key, int) else key for key in place.path)
    head = ", line ".join(text for text in (place.file or "the text", str(place.line) if place.line else "") if text)
    return f"{head}: {keys}" if keys else head
