"""Source and Spread: what every library value carries; and how a record declares its fields."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Any, Literal

from hushwright.errors import InvalidInput

Origin = Literal["found", "memory", "computed", "typical"]
ORIGINS: tuple[Origin, ...] = ("found", "memory", "computed", "typical")
NO_SOURCE = "common practice, no source"

# Unit of a table column → factor to SI (levels, temperatures in °C and charge stay as they are).
COLUMN_UNITS: dict[str, float] = {
    "-": 1.0,
    "dB": 1.0,
    "degC": 1.0,
    "K": 1.0,
    "kg": 1.0,
    "kg/m2": 1.0,
    "kg/m3": 1.0,
    "m": 1.0,
    "mm": 1e-3,
    "um": 1e-6,
    "m2": 1.0,
    "N": 1.0,
    "N/m": 1.0,
    "N/mm": 1e3,
    "MPa": 1e6,
    "GPa": 1e9,
    "Pa s/m": 1.0,
    "Pa s/m2": 1.0,
    "Hz": 1.0,
    "Hz:degC": 1.0,
    "mm/h": 1e-3 / 3600.0,
    "m/s": 1.0,
    "W/(m K)": 1.0,
    "J/(kg K)": 1.0,
}


@dataclass(frozen=True, slots=True)
class Source:
    """Where a record comes from.

    ``found_or_memory`` is ``found`` (read in a public copy), ``memory`` (known from the named work, no copy
    opened), ``computed`` (worked out from a named formula) or ``typical`` (common practice, no source).
    """

    text: str
    edition: str = ""
    found_or_memory: Origin = "typical"
    page: str = ""

    def __post_init__(self) -> None:
        if not self.text.strip():
            raise InvalidInput("a record without a source cannot load: source text is empty")
        if self.found_or_memory not in ORIGINS:
            raise InvalidInput(f"found_or_memory is {self.found_or_memory!r}; it is one of {', '.join(ORIGINS)}")

    @property
    def published(self) -> bool:
        """Whether a published work stands behind the record (``typical`` does not)."""
        return self.found_or_memory != "typical"

    def __str__(self) -> str:
        parts = [self.text, self.edition, self.page]
        return ", ".join(part for part in parts if part) + f" ({self.found_or_memory})"


@dataclass(frozen=True, slots=True)
class Spread:
    """A value with the plausible range of its class; a single point when low = value = high."""

    value: float
    low: float
    high: float

    def __post_init__(self) -> None:
        if not all(math.isfinite(number) for number in (self.value, self.low, self.high)):
            raise InvalidInput(f"spread {self.value} [{self.low}..{self.high}] is not finite")
        if not self.low <= self.value <= self.high:
            raise InvalidInput(f"spread {self.value} is outside its own range {self.low}..{self.high}")

    @classmethod
    def point(cls, value: float) -> Spread:
        """Spread without a range."""
        return cls(value, value, value)

    @property
    def standard_uncertainty(self) -> float:
        """Standard uncertainty of the rectangular range, width/√12, in the unit of the value."""
        return (self.high - self.low) / math.sqrt(12.0)

    def times(self, factor: float) -> Spread:
        """Same spread in another unit or scaled by a positive factor."""
        return Spread(self.value * factor, self.low * factor, self.high * factor)

    def __float__(self) -> float:
        return self.value


def quantity(unit: str, sentence: str, *, optional: bool = False) -> Any:
    """Declare a Spread field: the unit of its table column and one sentence."""
    return _declared("spread", sentence, unit, optional, None)


def number(unit: str, sentence: str, *, default: float | None = None) -> Any:
    """Declare a plain float field, SI inside, ``unit`` in the table."""
    return _declared("number", sentence, unit, default is not None, default)


def numbers(unit: str, sentence: str, *, optional: bool = True) -> Any:
    """Declare a tuple of floats, typed in the table with blanks between."""
    return _declared("numbers", sentence, unit, optional, ())


def points(unit: str, sentence: str) -> Any:
    """Declare a tuple of pairs, typed in the table as ``first:second first:second``."""
    return _declared("points", sentence, unit, False, ())


def words(sentence: str, *, default: str | None = None) -> Any:
    """Declare a text field."""
    return _declared("words", sentence, "", default is not None, default)


def names(sentence: str) -> Any:
    """Declare a tuple of texts, typed in the table with semicolons between."""
    return _declared("names", sentence, "", True, ())


def _declared(form: str, sentence: str, unit: str, optional: bool, default: object) -> Any:
    if unit and unit not in COLUMN_UNITS:
        raise InvalidInput(f"column unit {unit!r} is not known; known are {', '.join(COLUMN_UNITS)}")
    metadata = {"form": form, "unit": unit, "sentence": sentence, "optional": optional}
    return field(metadata=metadata, default=default) if optional else field(metadata=metadata)
