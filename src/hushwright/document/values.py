"""A number from a build file together with how sure it is."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal, get_args

Origin = Literal["measured", "supplier", "typical", "assumed", "stated"]
Distribution = Literal["normal", "rectangular"]
WRITABLE_ORIGINS: tuple[str, ...] = tuple(name for name in get_args(Origin) if name != "stated")


@dataclass(frozen=True, slots=True)
class Value:
    """One quantity in SI (levels in dB, temperatures in °C, charge in Ah) with its spread and origin.

    Parameters
    ----------
    value
        The number; for an interval its middle, for ``unknown`` nan until the library fills it.
    standard_uncertainty
        One standard deviation, in the unit of the value.
    origin
        Where the number is from; ``stated`` is a plain number without a word about its origin.
    distribution
        ``normal`` for a ``plus_minus``, ``rectangular`` for an interval.
    unknown
        True where the file says ``unknown``.
    by
        Who or what says so, as typed.
    text
        The value as typed in the file.

    Examples
    --------
    >>> Value(0.093, standard_uncertainty=0.001, origin="measured", text="93 mm").shifted(0.001).value
    0.094
    """

    value: float
    standard_uncertainty: float = 0.0
    origin: Origin = "stated"
    distribution: Distribution = "normal"
    unknown: bool = False
    by: str = ""
    text: str = ""

    def shifted(self, by: float) -> Value:
        """Return the same value moved by an amount in its own unit; origin and spread stay."""
        return replace(self, value=self.value + by)

    @property
    def is_uncertain(self) -> bool:
        """Whether the value is unknown or carries a spread."""
        return self.unknown or self.standard_uncertainty > 0.0


def from_half_width(
    value: float, plus_minus: float, *, origin: Origin = "stated", by: str = "", text: str = ""
) -> Value:
    """Value with a ``plus_minus``, which is two standard uncertainties."""
    return Value(value, plus_minus / 2.0, origin, "normal", by=by, text=text)


def from_interval(low: float, high: float, *, origin: Origin = "stated", by: str = "", text: str = "") -> Value:
    """Value known to lie between two ends: the middle, with the spread of a rectangle."""
    return Value((low + high) / 2.0, (high - low) / math.sqrt(12.0), origin, "rectangular", by=by, text=text)


def unknown_value(*, by: str = "", text: str = "unknown") -> Value:
    """Value that the file says is unknown; the library's interval replaces it later."""
    return Value(math.nan, origin="assumed", unknown=True, by=by, text=text)
