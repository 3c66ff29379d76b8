"""Processes that compute, so that the screen never waits; they can be stopped at any moment."""

from __future__ import annotations

import asyncio
import itertools
import multiprocessing
import os
import threading
import time
from collections.abc import Callable
from dataclasses import replace
from multiprocessing.connection import Connection
from multiprocessing.context import SpawnProcess
from typing import Any

from hushwright.app.computing import Computed, Order, Reading, Stage, provisional, refused, serve, whole

MOST_PROCESSES = 3
"""Each holds the laws and what it has learnt, about 150 MB; more share too few inputs to be worth that."""

Early = Callable[[Computed], None]


class _Ended(Exception):
    """A process is gone."""


class _Hand:
    """One process, and the thread that listens to it."""

    def __init__(self, heard: Callable[[Stage | None], None]) -> None:
        context = multiprocessing.get_context("spawn")
        ours, theirs = context.Pipe()
        self.connection: Connection[Any, Any] = ours
        self.process: SpawnProcess = context.Process(
            target=serve, args=(theirs,), daemon=True, name="hushwright computes"
        )
        self.process.start()
        theirs.close()
        self._heard = heard
        threading.Thread(target=self._listen, daemon=True).start()

    def _listen(self) -> None:
        while True:
            try:
                stage: Stage | None = self.connection.recv()
            except (EOFError, OSError, TypeError):  # closed here while it waits
                stage = None
            self._heard(stage)
            if stage is None:
                return

    def end(self) -> None:
        self.process.kill()
        self.process.join(2.0)
        self.connection.close()


class Worker:
    """As many processes as there are cores, each with its own share of the inputs, so that what it learns stays useful.

    They begin with the first text, take one text after the other, and drop one that is overtaken.
    """

    def __init__(self, shares: int | None = None) -> None:
        self.shares = shares or max(1, min(os.cpu_count() or 1, MOST_PROCESSES))
        self._lock = asyncio.Lock()
        self._numbers = itertools.count(1)
        self._hands: list[_Hand] = []
        self._inbox: asyncio.Queue[Stage | None] | None = None
        self._name = ""
        self._cancelled = False

    async def compute(
        self, text: str, name: str, already: Reading | None = None, early: Early | None = None,
        earlier: Computed | None = None,
    ) -> Computed | None:  # fmt: skip
        """Compute a text, or what was read of it already; `None` where it was cancelled or overtaken.

        ``early`` is called with the nominal numbers as soon as they are there; ``earlier`` lends them its spreads.
        """
        # The build stays here: it is resolved there with the records of that process.
        already = None if already is None else Reading(already.document, None, already.problems)
        async with self._lock:
            self._cancelled, self._name = False, name
            begin = time.perf_counter()
            for attempt in (1, 2):
                try:
                    found = await self._answered(Order(next(self._numbers), text, name, already), early, earlier)
                except _Ended:
                    self.stop()
                    if self._cancelled or attempt == 2:
                        return None
                else:
                    return None if found is None else replace(found, seconds=time.perf_counter() - begin)
                finally:
                    self._inbox = None
        return None

    def begin(self) -> None:
        """Start the processes before the first text comes; needs a running event loop."""
        loop = asyncio.get_running_loop()
        if all(hand.process.is_alive() for hand in self._hands) and self._hands:
            return
        self.stop()
        hands: list[_Hand] = []
        hands.extend(_Hand(self._listener(loop, hands)) for _ in range(self.shares))
        self._hands = hands

    def cancel(self) -> None:
        """Give up what is being computed; the next text begins new processes."""
        self._cancelled = True
        for hand in self._hands:
            hand.process.kill()

    def overtake(self, name: str) -> None:
        """Drop what is being computed of a file, because its text has changed; what the processes know stays."""
        if self._inbox is not None and self._name == name:
            self._inbox.put_nowait(Stage(0, 0))

    def stop(self) -> None:
        """End the processes."""
        hands, self._hands = self._hands, []
        for hand in hands:
            hand.end()

    def _listener(self, loop: asyncio.AbstractEventLoop, hands: list[_Hand]) -> Callable[[Stage | None], None]:
        """What one of these processes says; those that were replaced are heard no more."""

        def heard(stage: Stage | None) -> None:
            try:
                loop.call_soon_threadsafe(arrived, stage)
            except RuntimeError:
                return  # the program ends

        def arrived(stage: Stage | None) -> None:
            if self._inbox is not None and self._hands is hands:
                self._inbox.put_nowait(stage)

        return heard

    async def _answered(self, order: Order, early: Early | None, earlier: Computed | None) -> Computed | None:
        self.begin()
        self._inbox = asyncio.Queue()
        await self._send(order)
        nominal: Stage | None = None
        parts: dict[int, Stage] = {}
        while nominal is None or nominal.nominal is None or len(parts) < self.shares:
            stage = await self._inbox.get()
            if stage is None:
                raise _Ended
            if stage.number == 0:
                return None  # overtaken
            if stage.number != order.number:
                continue
            if stage.nominal is not None:
                nominal = stage
                if early is not None:
                    before = earlier.evaluation if earlier is not None else None
                    early(provisional(order.text, stage.nominal, before, stage.problems))
            elif stage.changes is not None:
                parts[stage.share] = stage
            else:
                return refused(order.text, stage.problems)
        changes = tuple(each for part in parts.values() for each in part.changes or ())
        return whole(order.text, nominal.nominal, changes, nominal.problems)

    async def _send(self, order: Order) -> None:
        """Hand each process its share; a process that is busy takes it when it next looks up."""
        loop = asyncio.get_running_loop()
        try:
            await asyncio.gather(*(
                loop.run_in_executor(None, hand.connection.send, replace(order, share=share, shares=self.shares))
                for share, hand in enumerate(self._hands)
            ))  # fmt: skip
        except OSError as problem:
            raise _Ended from problem
