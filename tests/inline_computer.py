"""A computer for the app that computes at once in the process of the test."""

import asyncio
from collections.abc import Callable

from hushwright.app.computing import Computed, Order, Reading, compute, provisional, stages_of


class Inline:
    """Computes at once, and counts."""

    def __init__(self) -> None:
        self.texts: list[str] = []

    async def compute(
        self, text: str, name: str, already: Reading | None = None, early: Callable[[Computed], None] | None = None,
        earlier: Computed | None = None,
    ) -> Computed | None:  # fmt: skip
        self.texts.append(text)
        await asyncio.sleep(0)
        return compute(text, name)

    def begin(self) -> None:
        """Nothing to make ready."""

    def overtake(self, name: str, text: str = "") -> None:
        """Nothing to drop."""

    def cancel(self) -> None:
        """Nothing to give up."""

    def stop(self) -> None:
        """Nothing to end."""


class InStages(Inline):
    """Tells nominal numbers after an edit, and the whole only when it is let go."""

    def __init__(self) -> None:
        super().__init__()
        self.go = asyncio.Event()

    async def compute(
        self, text: str, name: str, already: Reading | None = None, early: Callable[[Computed], None] | None = None,
        earlier: Computed | None = None,
    ) -> Computed | None:  # fmt: skip
        self.texts.append(text)
        await asyncio.sleep(0)
        if earlier is not None and early is not None:
            stage = next(stages_of(Order(0, text, name)))
            assert stage.nominal is not None
            early(provisional(text, stage.nominal, earlier, stage.problems))
            await self.go.wait()
        return compute(text, name)
