"""A process that computes, so that the screen never waits; it can be stopped at any moment."""

from __future__ import annotations

import asyncio
import multiprocessing
from multiprocessing.connection import Connection
from multiprocessing.context import SpawnProcess
from typing import Any

from hushwright.app.computing import Computed, Reading, serve


class Worker:
    """One process that computes one text after the other; it begins with the first and keeps what it has learnt."""

    def __init__(self) -> None:
        self._lock = asyncio.Lock()
        self._process: SpawnProcess | None = None
        self._connection: Connection[Any, Any] | None = None
        self._cancelled = False

    async def compute(self, text: str, name: str, already: Reading | None = None) -> Computed | None:
        """Compute a text, or what was read of it already; `None` where it was cancelled."""
        # The build stays here: it is resolved there with the records of that process.
        already = None if already is None else Reading(already.document, None, already.problems)
        async with self._lock:
            self._cancelled = False
            for attempt in (1, 2):
                connection = self._begun()
                try:
                    connection.send((text, name, already))
                    found: Computed = await asyncio.get_running_loop().run_in_executor(None, connection.recv)
                except (EOFError, OSError):
                    self.stop()
                    if self._cancelled or attempt == 2:
                        return None
                else:
                    return found
        return None

    def cancel(self) -> None:
        """Give up what is being computed; the next text begins a new process."""
        self._cancelled = True
        if self._process is not None:
            self._process.kill()

    def stop(self) -> None:
        """End the process."""
        process, connection = self._process, self._connection
        self._process = self._connection = None
        if process is not None:
            process.kill()
            process.join(2.0)
        if connection is not None:
            connection.close()

    def _begun(self) -> Connection[Any, Any]:
        if self._connection is not None and self._process is not None and self._process.is_alive():
            return self._connection
        self.stop()
        context = multiprocessing.get_context("spawn")
        ours, theirs = context.Pipe()
        self._process = context.Process(target=serve, args=(theirs,), daemon=True, name="hushwright computes")
        self._process.start()
        theirs.close()
        self._connection = ours
        return ours
