"""A memory of what was asked for last: so much of it and no more."""

from __future__ import annotations

from collections.abc import Hashable
from typing import Generic, TypeVar

Held = TypeVar("Held")


class LastUsed(Generic[Held]):
    """What was worked out, by everything that it comes from; what was asked for longest ago goes first.

    Parameters
    ----------
    most : int
        How many are held.

    Examples
    --------
    >>> memory = LastUsed[str](2)
    >>> memory.keep(1, "one"), memory.keep(2, "two"), memory.get(1), memory.keep(3, "three")
    (None, None, 'one', None)
    >>> memory.get(1), memory.get(2)
    ('one', None)
    """

    def __init__(self, most: int) -> None:
        self._most = most
        self._held: dict[Hashable, Held] = {}

    def get(self, wanted: Hashable) -> Held | None:
        """What is held, which from now on is the one asked for last."""
        held = self._held.pop(wanted, None)
        if held is not None:
            self._held[wanted] = held
        return held

    def keep(self, wanted: Hashable, held: Held) -> None:
        """Hold it as the one asked for last."""
        self._held.pop(wanted, None)
        while len(self._held) >= self._most:
            self._held.pop(next(iter(self._held)), None)
        self._held[wanted] = held

    def forget(self) -> None:
        """Hold nothing."""
        self._held.clear()
