"""Records that a life hangs on: limits of safety with how sure they are, and papers that an authority asks for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from hushwright.errors import InvalidInput
from hushwright.library.base import Record
from hushwright.library.surroundings import Limit
from hushwright.library.values import words

__all__ = ["CONFIDENCES", "PAPER_ITEMS", "PaperRecord", "SafetyLimit"]

CONFIDENCES: Final = ("high", "medium", "low")
PAPER_ITEMS: Final = (
    "category", "seats and belts", "glazing", "mass certificate", "electrical certificate", "height", "insurance",
)  # fmt: skip
"""What every list of papers is asked for."""


def _checked(name: str, confidence: str) -> None:
    if confidence not in CONFIDENCES:
        raise InvalidInput(f"{name}: confidence is {confidence!r}; it is one of {', '.join(CONFIDENCES)}")


@dataclass(frozen=True, slots=True, kw_only=True)
class SafetyLimit(Limit):
    """A limit of safety; one that is not sure makes its verdict unproven."""

    confidence: str = words("How sure the value is: high, medium, low.")

    def __post_init__(self) -> None:
        Record.__post_init__(self)
        _checked(self.name, self.confidence)

    @property
    def doubt(self) -> str:
        """Why a verdict may not rest on this limit; empty where it may."""
        origin = self.source.found_or_memory
        if origin == "found" or (origin in ("memory", "computed") and self.confidence == "high"):
            return ""
        if origin == "typical":
            return (
                "the limit is common practice without a source: ask the authority, or type the limit that holds for you"
            )
        return f"the limit is known from memory with {self.confidence} confidence: look it up, or type it"


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperRecord(Record):
    """What one jurisdiction asks for under one item; a list to begin with, never the law."""

    jurisdiction: str = words("Where it holds.")
    item: str = words("Which paper it is about.")
    sentence: str = words("What is known of it.")
    confidence: str = words("How sure that is: high, medium, low.")

    def __post_init__(self) -> None:
        Record.__post_init__(self)
        _checked(self.name, self.confidence)
