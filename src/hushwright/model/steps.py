"""Steps of a resolution: what reads nothing of what is moved is taken from the nominal Build as it stands."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Concatenate, ParamSpec, TypeVar

from hushwright.library.library import Library
from hushwright.model.taking import Taker
from hushwright.model.wishes import Assumption, Input

P = ParamSpec("P")
R = TypeVar("R")


@dataclass(frozen=True, slots=True, eq=False)
class Step:
    """One step as it was taken for the nominal Build: what it read, what it noted, what came out."""

    library: Library
    arguments: tuple[Any, ...]
    read: frozenset[str]
    inputs: tuple[Input, ...]
    assumptions: tuple[Assumption, ...]
    value: Any


class Steps:
    """Takes the steps of one resolution in their order, and remembers them for the next.

    Parameters
    ----------
    taker : Taker
        Where values come from.
    known : mapping of name to Step
        Steps of the nominal Build of the same document; empty where there is none.
    """

    def __init__(self, taker: Taker, known: Mapping[str, Step]) -> None:
        self.taker = taker
        self.known = known
        self.taken: dict[str, Step] = {}

    def take(self, law: Callable[Concatenate[Taker, P], R], *arguments: P.args, **named: P.kwargs) -> R:
        """Result of a step that takes values from file or library.

        The nominal result serves where neither a value that the step read is shifted nor an argument has changed.
        """
        known = self.known.get(law.__name__)
        if known is not None and self._holds(known, arguments):
            for one in known.inputs:
                self.taker.inputs.setdefault(one.path, one)
            for assumed in known.assumptions:
                self.taker.assumptions.setdefault(assumed.path, assumed)
            self.taken[law.__name__] = known
            return known.value  # type: ignore[no-any-return]
        self.taker.begin()
        library = self.taker.library
        value = law(self.taker, *arguments, **named)
        if known is not None and value == known.value:
            value = known.value  # the object itself: what was computed from it is found again
        if not self.taker.shifts:
            noted = self.taker.noted
            self.taken[law.__name__] = Step(
                library, arguments, frozenset(noted.read), tuple(noted.inputs), tuple(noted.assumptions), value
            )
        return value

    def derive(self, law: Callable[P, R], *arguments: P.args, **named: P.kwargs) -> R:
        """Result of a step that follows from its arguments alone."""

        def plain(_taker: Taker, /, *given: P.args, **words: P.kwargs) -> R:
            return law(*given, **words)

        plain.__name__ = law.__name__
        return self.take(plain, *arguments, **named)

    def _holds(self, known: Step, arguments: tuple[Any, ...]) -> bool:
        return (
            known.library is self.taker.library
            and known.read.isdisjoint(self.taker.shifts)
            and all(one is other for one, other in zip(arguments, known.arguments, strict=True))
        )
