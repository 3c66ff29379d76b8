"""Takes each value from the file or the library, and notes what is uncertain, assumed or wrong."""

from __future__ import annotations

import difflib
import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TypeVar

from hushwright.document.document import Document
from hushwright.document.values import Value
from hushwright.errors import Diagnostic, Mend, Severity
from hushwright.library.library import Library, UnknownRecord
from hushwright.library.records import Limit, Record, Source, Spread
from hushwright.library.values import NO_SOURCE
from hushwright.model.wishes import Assumption, Input
from hushwright.units import Kind, format_quantity

Path = tuple[str | int, ...]
R = TypeVar("R", bound=Record)
COMMON = str(Source(NO_SOURCE))


@lru_cache(maxsize=65536)
def dotted(path: Path) -> str:
    """Path as a person types it."""
    return ".".join(str(key) for key in path)


@dataclass(slots=True)
class Noted:
    """What one step of a resolution has read that could be shifted, and what it has noted."""

    read: set[str] = field(default_factory=set)
    inputs: list[Input] = field(default_factory=list)
    assumptions: list[Assumption] = field(default_factory=list)


class Taker:
    """Collects inputs, assumptions and diagnostics while one Build is resolved.

    ``shifts`` moves single inputs by an amount, so that the same resolution serves sensitivities.
    """

    def __init__(self, document: Document, library: Library, shifts: Mapping[str, float]) -> None:
        self.document = document
        self.library = library
        self.shifts = shifts
        self.inputs: dict[str, Input] = {}
        self.assumptions: dict[str, Assumption] = {}
        self.diagnostics: list[Diagnostic] = []
        self.noted = Noted()

    def begin(self) -> None:
        """Begin a step: what it reads and notes is told apart from what came before."""
        self.noted = Noted()

    def say(
        self, reference: str, path: Path, value: str, note: str, hint: str = "", severity: Severity = "error",
        mends: tuple[Mend, ...] = (),
    ) -> None:  # fmt: skip
        """Note a problem at a place of the file; mends that were computed are told before the hint's own words."""
        told = ", or ".join(f"{each.says} {1000.0 * each.length:.10g} mm" for each in mends)
        hint = "; ".join(each for each in (told, hint) if each)
        self.diagnostics.append(Diagnostic(reference, self.document.place(path), value, note, hint, severity, mends))

    def say_fit(
        self, reference: str, path: Path, value: str, note: str, hint: str = "", severity: Severity = "error",
        mends: tuple[Mend, ...] = (),
    ) -> None:  # fmt: skip
        """Note something that does not fit by a little; an input moved for a sensitivity may do so."""
        if not self.shifts:
            self.say(reference, path, value, note, hint, severity, mends)

    def assume(self, path: Path, text: str, source: str) -> None:
        """Note that the file leaves something out."""
        assumed = Assumption(dotted(path), text, source)
        self.noted.assumptions.append(assumed)
        self.assumptions.setdefault(assumed.path, assumed)

    def quantity(
        self, path: Path, given: Value | None, kind: Kind, *, fallback: Spread | None = None, source: str = "",
        label: str = "",
    ) -> float:  # fmt: skip
        """Value in SI: from the file, else from the library."""
        name = dotted(path)
        label = label or str(path[-1]).replace("_", " ")
        if given is None or given.unknown:
            if fallback is None:
                self.say("value-needed", path, "unknown", "has no value and the library has none to fill it",
                         "type a value with its unit")  # fmt: skip
                return 0.0
            source = source or COMMON
            self.assume(path, f"{label} {format_quantity(fallback.value, kind, 'metric')}", source)
            return self.uncertain(name, fallback.value, fallback.standard_uncertainty, "typical", kind, label,
                                  (fallback.low, fallback.high))  # fmt: skip
        origin = f"{given.origin}, {given.by}" if given.by else given.origin
        return self.uncertain(name, given.value, given.standard_uncertainty, origin, kind, label, _ends(given))

    def convention(self, path: Path, given: Value | None, kind: Kind, limit: str, label: str) -> float:
        """Value in SI: from the file, else the library's limit of that name, taken as a convention without a spread."""
        record = self.library.find(Limit, limit)
        return self.quantity(path, given, kind, fallback=Spread.point(record.value.value), source=str(record.source),
                             label=label)  # fmt: skip

    def uncertain(
        self, name: str, value: float, spread: float, origin: str, kind: Kind, label: str,
        ends: tuple[float, float] | None = None,
    ) -> float:  # fmt: skip
        """Value with the shift that is asked for; noted as an input when it has a spread."""
        self.noted.read.add(name)
        if spread > 0.0:
            noted = Input(name, value, spread, origin, kind, label, ends)
            self.noted.inputs.append(noted)
            self.inputs.setdefault(name, noted)
        return value + self.shifts.get(name, 0.0)

    def record(self, kind: type[R], name: str, path: Path) -> R | None:
        """Record of the library or of the file by name; an unknown name is noted."""
        try:
            return self.library.find(kind, name)
        except UnknownRecord as problem:
            near = " or ".join(problem.suggestions)
            hint = f"perhaps {near}?" if near else f"`hushwright materials {problem.kind}` lists what there is"
            self.say("unknown-record", path, name, f"no {problem.kind} of the library is called {name!r}", hint)
            return None

    def name_of(self, name: str, among: tuple[str, ...], path: Path, what: str) -> bool:
        """Whether a name is among those that exist; noted when not."""
        if name in among:
            return True
        near = difflib.get_close_matches(name, among, n=2)
        hint = f"perhaps {' or '.join(near)}?" if near else f"there are {', '.join(among) or 'none'}"
        self.say("unknown-name", path, name, f"no {what} is called {name!r}", hint)
        return False


def _ends(given: Value) -> tuple[float, float] | None:
    """Ends of a range as typed; a plus or minus has none."""
    if given.distribution != "rectangular" or given.unknown:
        return None
    half = given.standard_uncertainty * math.sqrt(3.0)
    return given.value - half, given.value + half
