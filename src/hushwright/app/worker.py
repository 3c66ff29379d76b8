"""Processes that compute, so that the screen never waits; they can be stopped at any moment."""

from __future__ import annotations

import asyncio
import contextlib
import itertools
import multiprocessing
import os
import queue
import sys
import threading
import time
from collections.abc import Callable
from dataclasses import replace
from itertools import chain
from multiprocessing.connection import Connection
from multiprocessing.context import SpawnProcess
from multiprocessing.reduction import ForkingPickler
from typing import TYPE_CHECKING, Any

from hushwright.app.computing import (
    Computed,
    Order,
    Reading,
    Stage,
    document_of,
    from_halves,
    provisional,
    ready_to_judge,
    refused,
    serve,
    whole,
    with_reading,
)

if TYPE_CHECKING:
    from hushwright.document.document import Document
    from hushwright.errors import Diagnostic
    from hushwright.evaluation.parts import Part
    from hushwright.evaluation.results import Evaluation
    from hushwright.evaluation.sensitivity import InputChanges

MOST_PROCESSES = 3
"""Each holds the laws and what it has learnt, 200 MB at first and up to about 600 MB after an hour of edits."""

_HAND_OVER = 0.001
"""s, after which a thread that draws lets those through that speak to the processes; five times that by default."""

_OVERTAKEN = -1
"""Stands for the share of a process where a newer text has come."""

_NOTHING = Order(0, "", "")

Early = Callable[[Computed], None]


class _Ended(Exception):
    """A process is gone."""


class _Hand:
    """One process, and the threads that speak and listen to it."""

    def __init__(self, share: int, shares: int, heard: Callable[[Stage | None], None]) -> None:
        context = multiprocessing.get_context("spawn")
        ours, theirs = context.Pipe()
        self.connection: Connection[Any, Any] = ours
        self.process: SpawnProcess = context.Process(
            target=serve, args=(theirs, share, shares), daemon=True, name="hushwright computes"
        )
        self.process.start()
        theirs.close()
        self._heard = heard
        self._orders: queue.SimpleQueue[bytes | None] = queue.SimpleQueue()
        for act in (self._speak, self._listen):
            threading.Thread(target=act, daemon=True).start()

    def order(self, pickled: bytes) -> None:
        """Hand over an order without waiting; a process that is busy takes the newest when it next looks up."""
        self._orders.put(pickled)

    def end(self) -> None:
        """Kill the process and wait until it is gone."""
        self._orders.put(None)
        self.process.kill()
        self.process.join(2.0)
        self.connection.close()

    def _speak(self) -> None:
        while (order := self._orders.get()) is not None:
            try:
                self.connection.send_bytes(order)
            except OSError:  # the process is gone; whoever listens to it tells
                return

    def _listen(self) -> None:
        while True:
            try:
                stage: Stage | None = self.connection.recv()
            except (EOFError, OSError, TypeError):  # closed here while it waits
                stage = None
            self._heard(stage)
            if stage is None:
                return


class Worker:
    """As many processes as there are cores, each with its own share of the inputs, so that what it learns stays useful.

    They begin with the first text, take one text after the other, and drop one that is overtaken.
    """

    def __init__(self, shares: int | None = None) -> None:
        self.shares = shares or max(1, min(os.cpu_count() or 1, MOST_PROCESSES))
        self._lock = asyncio.Lock()
        self._numbers = itertools.count(1)
        self._hands: list[_Hand] = []
        self._inbox: asyncio.Queue[Stage | None] = asyncio.Queue()
        self._sent = _NOTHING
        self._ahead = False  # whether nobody has asked yet for the answer to what was sent
        self._busy = False
        self._cancelled = False

    async def compute(
        self, text: str, name: str, already: Reading | None = None, early: Early | None = None,
        earlier: Computed | None = None,
    ) -> Computed | None:  # fmt: skip
        """Compute a text; `None` where it was cancelled or overtaken.

        What was read of it already spares reading it again; it is resolved there, with the records of each process.
        ``early`` is called with the nominal numbers as soon as they are there; ``earlier`` lends them its spreads.
        """
        async with self._lock:
            self._cancelled, self._busy = False, True
            begin = time.perf_counter()
            asyncio.get_running_loop().run_in_executor(None, ready_to_judge)  # while the processes work
            try:
                for _ in range(2):
                    self.begin()
                    try:
                        found = await self._answered(self._order(text, name, already), already, early, earlier)
                    except _Ended:
                        self.stop()
                        if self._cancelled:
                            return None
                    else:
                        return None if found is None else replace(found, seconds=time.perf_counter() - begin)
            finally:
                self._busy = False
        return None

    def begin(self) -> None:
        """Start the processes before the first text comes; needs a running event loop."""
        loop = asyncio.get_running_loop()
        if self._hands and all(hand.process.is_alive() for hand in self._hands):
            return
        self.stop()
        sys.setswitchinterval(_HAND_OVER)
        os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # they inherit it: more threads make small matrices slow
        inbox: asyncio.Queue[Stage | None] = asyncio.Queue()
        self._inbox = inbox

        def heard(stage: Stage | None) -> None:
            with contextlib.suppress(RuntimeError):  # the program ends
                loop.call_soon_threadsafe(inbox.put_nowait, stage)

        self._hands = [_Hand(share, self.shares, heard) for share in range(self.shares)]

    def cancel(self) -> None:
        """Give up what is being computed; the next text begins new processes."""
        self._cancelled = True
        for hand in self._hands:
            hand.process.kill()

    def overtake(self, name: str, text: str = "") -> None:
        """Drop what is being computed of a file, because its text has changed; what the processes know stays.

        They begin with the new text at once, where there is one: it is asked for as soon as it has been read here.
        """
        if self._busy:
            if self._sent.name != name:
                return  # another file's turn
            self._inbox.put_nowait(Stage(self._sent.number, _OVERTAKEN))
        if text and self._hands and document_of(text, name)[0] is not None:
            self._send(text, name, *document_of(text, name))
            self._ahead = True

    def stop(self) -> None:
        """End the processes."""
        self._ahead = False
        hands, self._hands = self._hands, []
        for hand in hands:
            hand.end()

    def _order(self, text: str, name: str, already: Reading | None) -> Order:
        """Order for a text: the one that was sent ahead, or a new one."""
        ahead, self._ahead = self._ahead, False
        if already is None or already.build is None:
            self._send(text, name)
        elif not ahead or (self._sent.text, self._sent.name) != (text, name):
            self._send(text, name, *document_of(text, name))
        return self._sent

    def _send(
        self, text: str, name: str, document: Document | None = None, problems: tuple[Diagnostic, ...] = ()
    ) -> None:
        self._sent = Order(next(self._numbers), text, name, document=document, problems=problems)
        pickled = bytes(ForkingPickler.dumps(self._sent))
        for hand in self._hands:
            hand.order(pickled)

    async def _answered(
        self, order: Order, already: Reading | None, early: Early | None, earlier: Computed | None
    ) -> Computed | None:
        nominal: Evaluation | None = None
        problems: tuple[Diagnostic, ...] = ()
        halves = Halves(already)
        parts: dict[int, tuple[InputChanges, ...]] = {}
        while nominal is None or len(parts) < self.shares:
            stage = await self._inbox.get()
            if stage is None:
                raise _Ended
            if stage.number != order.number:
                continue
            if stage.share == _OVERTAKEN:
                return None
            if stage.changes is not None:
                parts[stage.share] = stage.changes
            elif stage.nominal is None and stage.silent is None and not stage.sound:
                return refused(order.text, stage.problems)
            elif nominal is None:
                nominal, wrong = halves.joined(stage)
                if wrong:
                    return refused(order.text, (*stage.problems, *wrong))
                if nominal is not None:
                    problems = stage.problems
                    if early is not None:
                        early(provisional(order.text, nominal, earlier, problems))
        return whole(order.text, nominal, tuple(chain.from_iterable(parts.values())), problems)


class Halves:
    """The nominal Evaluation as it comes: whole from one process, or in two halves from two."""

    def __init__(self, reading: Reading | None) -> None:
        self._reading = reading
        self._silent: dict[str, Part] | None = None
        self._sound = b""

    def joined(self, stage: Stage) -> tuple[Evaluation | None, tuple[Diagnostic, ...]]:
        """The nominal Evaluation as soon as it is all there, or why it cannot be joined."""
        from hushwright.evaluation.guard import CannotEvaluate

        if stage.nominal is not None:
            return with_reading(stage.nominal, self._reading), ()
        self._silent, self._sound = stage.silent or self._silent, stage.sound or self._sound
        build = None if self._reading is None else self._reading.build
        if self._silent is None or not self._sound or build is None:
            return None, ()
        try:
            return from_halves(build, self._silent, self._sound), ()
        except CannotEvaluate as problem:
            if problem.diagnostic is None:
                raise
            return None, (problem.diagnostic,)
