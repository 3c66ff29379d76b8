"""Long answers come from a process of their own, so that the screen never waits; each can be given up at any moment."""

from __future__ import annotations

import asyncio
import multiprocessing
from collections.abc import AsyncIterator, Callable
from functools import lru_cache
from multiprocessing.connection import Connection
from multiprocessing.context import SpawnProcess
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from hushwright.search.comparing import Compared

Step = tuple[int, "Compared"]
"""How many there will be, and the next."""


def serve(connection: Connection) -> None:
    """Compare what is asked, one build-up after the other, until nobody listens; ``None`` ends each."""
    from hushwright.search.comparing import AS_BUILT, Compared, Comparison

    while True:
        try:
            found = Comparison(*connection.recv())
            try:
                for each in found:
                    connection.send((found.number, each))
            except (BrokenPipeError, KeyboardInterrupt):
                return
            except Exception as problem:
                connection.send((1, Compared(AS_BUILT, problem=f"something went wrong inside hushwright: {problem}")))
            connection.send(None)
        except (EOFError, OSError, KeyboardInterrupt):
            return


class Answerer:
    """One process that answers questions bit by bit; it begins with the first and keeps what it has learnt.

    ``serve`` gets a connection: a question comes, every part of the answer goes, and ``None`` ends it.
    """

    def __init__(self, serve: Callable[[Connection], None], name: str) -> None:
        self._serve, self._name = serve, name
        self._process: SpawnProcess | None = None
        self._connection: Connection[Any, Any] | None = None
        self._lock = asyncio.Lock()

    async def answers(self, *question: Any) -> AsyncIterator[Any]:
        """Every part of an answer as soon as it is there; ends early where it was given up."""
        async with self._lock:
            connection = self._begun()
            try:
                connection.send(question)
                while True:
                    part = await asyncio.get_running_loop().run_in_executor(None, connection.recv)
                    if part is None:
                        return
                    yield part
            except (EOFError, OSError):
                self.stop()

    def stop(self) -> None:
        """Give up, and end the process."""
        process, connection = self._process, self._connection
        self._process = self._connection = None
        if process is not None:
            process.kill()
        if connection is not None and process is not None:
            process.join(2.0)

    def _begun(self) -> Connection[Any, Any]:
        if self._connection is not None and self._process is not None and self._process.is_alive():
            return self._connection
        context = multiprocessing.get_context("spawn")
        ours, theirs = context.Pipe()
        self._process = context.Process(target=self._serve, args=(theirs,), daemon=True, name=self._name)
        self._process.start()
        theirs.close()
        self._connection = ours
        return ours


class Comparer(Answerer):
    """One process that compares."""

    def __init__(self) -> None:
        super().__init__(serve, "hushwright compares")

    async def run(self, text: str, file: str, face: str) -> AsyncIterator[Step]:
        """Every build-up as soon as it is computed."""
        async for step in self.answers(text, file, face):
            yield step


@lru_cache(maxsize=1)
def comparer() -> Comparer:
    """The one of this program."""
    return Comparer()
