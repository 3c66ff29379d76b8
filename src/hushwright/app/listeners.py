"""Who hears of a change, until they have heard enough."""

from __future__ import annotations

from collections.abc import Callable, Iterator

Listener = Callable[[], None]


class Listeners:
    """Listeners in the order in which they came; one that leaves while others are told disturbs nobody."""

    def __init__(self) -> None:
        self._all: list[Listener] = []

    def add(self, listener: Listener) -> Callable[[], None]:
        """Take in a listener; what is returned ends that, and may be called again."""
        self._all.append(listener)

        def end() -> None:
            if listener in self._all:
                self._all.remove(listener)

        return end

    def __iter__(self) -> Iterator[Listener]:
        return iter(tuple(self._all))
