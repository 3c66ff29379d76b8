"""Steps to quiet are looked for in a process of its own; every window on a build sees the same search."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Callable, Sequence
from functools import lru_cache
from multiprocessing.connection import Connection
from time import monotonic
from typing import TYPE_CHECKING, Any
from weakref import WeakKeyDictionary

from hushwright.app.comparing import Answerer

if TYPE_CHECKING:
    from hushwright.app.desk import OpenBuild
    from hushwright.search.quiet_steps import Looking, Quietened, QuietStep
    from hushwright.verdicts.verdict import Verdict

STEPS = "Steps to quiet"
FIND = "Find steps to quiet"
_ASKED = ("background-", "rain-", "rooms-", "neighbours-", "fans-alone-", "fans-in-takes-")
"""How the verdicts on a sound begin."""


def to_be_quietened(verdicts: Sequence[Verdict]) -> tuple[Verdict, ...]:
    """Verdicts on a sound that steps can be looked for: not met, with a limit; the one farthest over it first."""
    found = [one for one in verdicts if one.verdict in ("fails", "unproven") and one.margin is not None
             and one.id.startswith(_ASKED)]  # fmt: skip
    return tuple(sorted(found, key=lambda one: one.margin or 0.0))


def serve(connection: Connection) -> None:
    """Look for steps for each text that comes, until nobody listens; a problem is told as text, ``None`` ends each."""
    from hushwright.errors import InvalidInput
    from hushwright.evaluation.guard import CannotEvaluate
    from hushwright.search.quietening import Quietening

    while True:
        try:
            text, file, verdict, start = connection.recv()
            try:
                for each in Quietening(text, file, verdict, start):
                    connection.send(each)
            except (BrokenPipeError, KeyboardInterrupt):
                return
            except (InvalidInput, CannotEvaluate) as problem:
                connection.send(str(problem))
            except Exception as problem:
                connection.send(f"something went wrong inside hushwright: {problem}")
            connection.send(None)
        except (EOFError, OSError, KeyboardInterrupt):
            return


class Quietener(Answerer):
    """One process that looks for steps to quiet."""

    def __init__(self) -> None:
        super().__init__(serve, "hushwright quietens")

    async def run(self, text: str, file: str, verdict: str, start: Any) -> AsyncIterator[Looking | Quietened | str]:
        """How far the search is, then its answer; or the problem that ends it."""
        async for part in self.answers(text, file, verdict, start):
            yield part


@lru_cache(maxsize=1)
def quietener() -> Quietener:
    """The one of this program."""
    return Quietener()


class QuietSearch:
    """The search of one open build: how far it is, what it found, and how many of its steps the file has by now."""

    def __init__(self, opened: OpenBuild) -> None:
        self.opened = opened
        self.begun = ""  # text from which it began
        self.verdict = ""
        self.progress = ""
        self.problem = ""
        self.found: Quietened | None = None
        self.so_far: list[tuple[QuietStep, str, str]] = []  # steps taken, with kind and currency
        self._known: dict[str, frozenset[int]] = {}  # texts, and the steps that each has
        self.listeners: list[Callable[[], None]] = []
        self._task: asyncio.Task[None] | None = None
        self._begun_at = 0.0

    @property
    def told(self) -> str:
        """How far it is: what is being tried, steps found so far, seconds; else why it ended."""
        if not self.is_running:
            return self.problem
        number = len(self.steps())
        found = f"{number} step{'s' if number != 1 else ''} found" if number else "no step found yet"
        return f"{self.progress} · {found} · {monotonic() - self._begun_at:.0f} s"

    @property
    def is_running(self) -> bool:
        """Whether it looks just now."""
        return self._task is not None and not self._task.done()

    def begin(self, verdict: str) -> None:
        """Look for steps that meet a verdict of the present text."""
        if self.is_running:
            return
        self.begun, self.verdict = self.opened.session.text, verdict
        self.found, self.problem, self.progress, self.so_far = None, "", "Computing …", []
        self._known = {}
        self._begun_at = monotonic()
        self._task = asyncio.get_running_loop().create_task(self._run())
        self._tell()

    def cancel(self) -> None:
        """Give it up."""
        quietener().stop()

    def steps(self) -> list[tuple[QuietStep, str, str]]:
        """Steps with kind and currency: of the answer, until then those taken so far."""
        if self.found is not None:
            return [(each, self.found.kind, self.found.currency) for each in self.found.steps]
        return self.so_far

    def taken(self) -> frozenset[int] | None:
        """Steps that the file has; `None` where it has been changed in another way, or steps are still being found."""
        if self.is_running and self.found is None:
            return None
        known = {self.begun: frozenset[int](), **self._known}
        for at, (step, _, _) in enumerate(self.steps()):
            known.setdefault(step.text, frozenset(range(at + 1)))
        return known.get(self.opened.session.text)

    def needs(self) -> tuple[frozenset[int], ...]:
        """For each step the earlier ones that it needs."""
        from hushwright.search.quiet_steps import needs_of

        return needs_of([step for step, _, _ in self.steps()])

    def with_step(self, at: int) -> str:
        """The present text with one step more; its needs are there already.

        Raises
        ------
        InvalidInput
            If the present text cannot have it.
        """
        from hushwright.document.edits import edited

        taken = self.taken() or frozenset()
        step = self.steps()[at][0]
        text = step.text if taken == frozenset(range(at)) else edited(self.opened.session.text, step.edits)
        self._known[text] = taken | {at}
        return text

    async def _tick(self) -> None:
        """Tell the seconds while nothing else is told."""
        while True:
            await asyncio.sleep(1.0)
            self._tell()

    async def _run(self) -> None:
        ticking = asyncio.get_running_loop().create_task(self._tick())
        try:
            await self._search()
        finally:
            ticking.cancel()
        self.progress = ""
        self._task = None
        self._tell()

    async def _search(self) -> None:
        from hushwright.evaluation.evaluate import with_build
        from hushwright.search.quiet_steps import Quietened

        computed = self.opened.computed
        start = None
        if computed is not None and computed.text == self.begun and computed.evaluation is not None:
            start = with_build(computed.evaluation, None)  # it is resolved again there
        async for each in quietener().run(self.begun, self.opened.session.name, self.verdict, start):
            if isinstance(each, str):
                self.problem = each
            elif isinstance(each, Quietened):
                self.found = each
            else:
                self.progress = said(each)
                if each.anew:
                    self.so_far = [(step, each.kind, each.currency) for step in each.anew]
                if each.step is not None:
                    self.so_far.append((each.step, each.kind, each.currency))
            self._tell()
            await asyncio.sleep(0)
        if self.found is None and not self.problem:
            self.problem = "given up; what was found so far can be taken" if self.so_far else "given up"

    def _tell(self) -> None:
        for listener in tuple(self.listeners):
            listener()


_SEARCHES: WeakKeyDictionary[OpenBuild, QuietSearch] = WeakKeyDictionary()


def search_of(opened: OpenBuild) -> QuietSearch:
    """Search of an open build, the same for every window."""
    if opened not in _SEARCHES:
        _SEARCHES[opened] = QuietSearch(opened)
    return _SEARCHES[opened]


def said(looking: Looking) -> str:
    """How far a search is, in words."""
    if not looking.round:
        return f"{looking.trying} …"
    if looking.step is not None:
        return f"Round {looking.round}: a step is taken"
    return f"Round {looking.round}, change {looking.done} of {looking.number}: {looking.trying}"
