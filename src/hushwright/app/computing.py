"""The four verbs as the screen needs them: at once what is cheap, in other processes what takes longer."""

from __future__ import annotations

import pickle
import time
from collections.abc import Callable, Generator, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from hushwright.errors import Diagnostic, Place

if TYPE_CHECKING:
    from multiprocessing.connection import Connection

    from hushwright.document.document import Document
    from hushwright.evaluation.couple import Core
    from hushwright.evaluation.parts import Part
    from hushwright.evaluation.results import Evaluation
    from hushwright.evaluation.sensitivity import InputChanges
    from hushwright.model.build import Build
    from hushwright.verdicts.measure_next import MeasureNext
    from hushwright.verdicts.verdict import Verdict


_IDLE = 1.5
"""s without an order, after which nobody is likely to be typing."""

_MOST_UNSEARCHED, _WORTH_SEARCHING = 2_000_000, 20_000
"""New objects after which a search for circles comes at once, and from which one is worth a pause."""

_BEHIND = 5
"""Steps of priority by which the other processes stand behind; a fourth of what the system knows."""


@dataclass(frozen=True, slots=True)
class Reading:
    """A text as read and resolved, with every problem; the build is `None` where it cannot be resolved."""

    document: Document | None
    build: Build | None
    problems: tuple[Diagnostic, ...]

    @property
    def errors(self) -> tuple[Diagnostic, ...]:
        """Problems that stand in the way."""
        return tuple(one for one in self.problems if one.severity == "error")


@dataclass(frozen=True, slots=True)
class Computed:
    """A text taken through all four verbs.

    Where its Evaluation is not complete, the verdicts are provisional: what the inputs add to the spread is that of an
    earlier text of the same file, or missing, and then there are no verdicts yet.
    """

    text: str
    evaluation: Evaluation | None
    verdicts: tuple[Verdict, ...]
    measure_next: tuple[MeasureNext, ...]
    problems: tuple[Diagnostic, ...]
    seconds: float


@dataclass(frozen=True, slots=True)
class Order:
    """A text to compute, and which share of its inputs: number ``share`` of ``shares``.

    Who has read the text already sends what came of it along, and needs no build back.
    """

    number: int
    text: str
    name: str
    share: int = 0
    shares: int = 1
    document: Document | None = None
    problems: tuple[Diagnostic, ...] = ()


@dataclass(frozen=True, slots=True)
class Stage:
    """Part of an answer: the nominal Evaluation, or half of it, what some inputs change, or problems that end it."""

    number: int
    share: int
    nominal: Evaluation | None = None
    silent: dict[str, Part] | None = None
    sound: bytes = b""  # pickled; nobody opens it where the nominal Evaluation comes as a whole
    changes: tuple[InputChanges, ...] | None = None
    problems: tuple[Diagnostic, ...] = ()


def read(text: str, name: str) -> Reading:
    """Read and resolve a text."""
    return _resolved(*document_of(text, name))


def _resolved(document: Document | None, problems: tuple[Diagnostic, ...]) -> Reading:
    from hushwright.document.explain import merged
    from hushwright.library.read import read_library
    from hushwright.model.resolve import resolve

    if document is None:
        return Reading(None, None, problems)
    build, more = resolve(document, read_library())
    return Reading(document, build, merged(problems, more))


@lru_cache(maxsize=4)
def document_of(text: str, name: str) -> tuple[Document | None, tuple[Diagnostic, ...]]:
    """Read a text; the last few are kept, since what is typed is read before it is taken, and asked for after that."""
    from hushwright.document.read import read_document_text

    return read_document_text(text, name)


def compute(text: str, name: str) -> Computed:
    """Take a text through all four verbs in this process; nothing that a file can hold is raised."""
    begin = time.perf_counter()
    stages = tuple(stages_of(Order(0, text, name)))
    nominal = next((one.nominal for one in stages if one.nominal is not None), None)
    changes = next((one.changes for one in stages if one.changes is not None), None)
    if nominal is None or changes is None:
        return refused(text, stages[-1].problems, time.perf_counter() - begin)
    found = whole(text, nominal, changes, stages[0].problems)
    return replace(found, seconds=time.perf_counter() - begin)


def refused(text: str, problems: tuple[Diagnostic, ...], seconds: float = 0.0) -> Computed:
    """A text that cannot be computed, with why."""
    return Computed(text, None, (), (), problems, seconds)


def stages_of(order: Order, overtaken: Callable[[], bool] = lambda: False) -> Iterator[Stage]:
    """Answer an order stage by stage; ends without its last stage where a newer order has overtaken it.

    The process with the first share tells the nominal Evaluation as soon as it has it. Where its sound is new and there
    is another process, that one tells the sound at the same time as this one tells all else.
    """
    from hushwright.evaluation.evaluate import changes_of
    from hushwright.evaluation.guard import CannotEvaluate
    from hushwright.evaluation.sensitivity import dealt

    known = order.document is not None
    reading = _resolved(order.document, order.problems) if known else read(order.text, order.name)
    if reading.build is None or reading.errors:
        yield Stage(order.number, order.share, problems=reading.problems)
        return
    begin = _without_sound_first if order.share == 0 else _with_sound_first
    try:
        found = yield from begin(order, reading.build, reading.problems, overtaken)
        if found is None:
            return
        build, core = found
        changes: list[InputChanges] = []
        for each in dealt(build.inputs, order.share, order.shares):
            if overtaken():
                return
            changes.extend(changes_of(build, core, (each,)))
    except CannotEvaluate as problem:
        if problem.diagnostic is None:
            raise
        yield Stage(order.number, order.share, problems=(*reading.problems, problem.diagnostic))
        return
    yield Stage(order.number, order.share, changes=tuple(changes))


_Begun = Generator[Stage, None, "tuple[Build, Core] | None"]


def _without_sound_first(
    order: Order, build: Build, problems: tuple[Diagnostic, ...], overtaken: Callable[[], bool]
) -> _Begun:
    """Nominal numbers of the first process; without the sound at first, where that has to be worked out."""
    from hushwright.evaluation.evaluate import joined_nominal, silent_parts, sound_alone, sounds_as_before, with_build

    known = order.document is not None
    silent = silent_parts(build)
    halves = known and order.shares > 1 and not sounds_as_before(build)
    if halves:
        yield Stage(order.number, 0, silent=silent.light(), problems=problems)
        if overtaken():
            return None
    nominal, core = joined_nominal(build, silent, sound_alone(build))
    if not halves:
        yield Stage(order.number, 0, nominal=with_build(nominal, None) if known else nominal, problems=problems)
    return nominal.build, core


def _with_sound_first(
    order: Order, build: Build, problems: tuple[Diagnostic, ...], overtaken: Callable[[], bool]
) -> _Begun:
    """What the inputs are moved from; the second process tells the sound of it first."""
    from hushwright.evaluation.evaluate import core_alone, silent_parts, sound_alone
    from hushwright.evaluation.guard import CannotEvaluate

    if order.share == 1 and order.document is not None:
        try:
            sound = sound_alone(build)
        except CannotEvaluate:
            silent_parts(build)  # what is wrong there is told first, whichever process finds it
            raise
        yield Stage(order.number, 1, sound=pickle.dumps(sound.light(), pickle.HIGHEST_PROTOCOL), problems=problems)
        if overtaken():
            return None
    return core_alone(build)


def from_halves(build: Build, silent: dict[str, Part], sound: bytes) -> Evaluation:
    """Nominal Evaluation from what two processes have told of it.

    Raises
    ------
    CannotEvaluate
        If what needs both lies outside what its law takes.
    """
    from hushwright.evaluation.evaluate import joined_nominal
    from hushwright.evaluation.parts import Parts

    return joined_nominal(build, Parts(found=dict(silent)), pickle.loads(sound))[0]


def with_reading(nominal: Evaluation, reading: Reading | None) -> Evaluation:
    """Give an Evaluation the build that was read here, where it came without; otherwise it stays as it is."""
    from hushwright.evaluation.evaluate import with_build

    return nominal if reading is None or reading.build is None else with_build(nominal, reading.build)


def provisional(text: str, nominal: Evaluation, earlier: Computed | None, problems: tuple[Diagnostic, ...]) -> Computed:
    """Nominal numbers, judged with the spreads of an earlier text of the file; without one, no verdicts yet."""
    from hushwright.evaluation.evaluate import with_earlier_shares
    from hushwright.verdicts.judge import judge

    if earlier is None or earlier.evaluation is None:
        return Computed(text, nominal, (), (), problems, 0.0)
    lent = with_earlier_shares(nominal, earlier.evaluation)
    return Computed(text, lent, judge(lent, provisional=True), (), problems, 0.0)


def whole(
    text: str, nominal: Evaluation, changes: tuple[InputChanges, ...], problems: tuple[Diagnostic, ...]
) -> Computed:
    """Join the nominal numbers with what every input changes, and judge."""
    from hushwright.evaluation.evaluate import completed
    from hushwright.verdicts.judge import judge
    from hushwright.verdicts.measure_next import measure_next

    evaluation = completed(nominal, changes)
    verdicts = judge(evaluation)
    return Computed(text, evaluation, verdicts, tuple(measure_next(evaluation, verdicts)), problems, 0.0)


def serve(connection: Connection, share: int, shares: int) -> None:
    """Answer each order that comes, the newest first; runs in a process of its own until nobody listens."""
    _give_way(share)
    _make_ready()
    without_pauses()
    while True:
        try:
            if not connection.poll(_IDLE):
                collect_cycles()
            order: Order = connection.recv()
            while connection.poll():
                order = connection.recv()
        except (EOFError, OSError, KeyboardInterrupt):
            return
        try:
            for stage in stages_of(replace(order, share=share, shares=shares), connection.poll):
                connection.send(stage)
        except (BrokenPipeError, KeyboardInterrupt):
            return
        except Exception as problem:
            connection.send(Stage(order.number, share, problems=(_unexpected(problem, order.name),)))


def _give_way(share: int) -> None:
    """Let the screen and the process with the nominal numbers go first where there are fewer cores than processes."""
    import os

    if share > 0 and hasattr(os, "nice"):
        os.nice(_BEHIND)


def without_pauses() -> None:
    """Keep what is loaded out of the search for objects in circles, and search when nobody edits.

    A search takes 10 to 500 ms with all that is learnt, and by default it comes in mid-edit. An edit leaves some
    twenty thousand objects, so one still comes after about a hundred edits without a pause.
    """
    import gc

    gc.collect()
    gc.freeze()
    gc.set_threshold(_MOST_UNSEARCHED, 1_000, 1_000)


def collect_cycles() -> None:
    """Collect values that hold each other in a ring, at a moment when nobody waits, if there is enough to search."""
    import gc

    if gc.get_count()[0] > _WORTH_SEARCHING:
        gc.collect()


def ready_to_judge() -> None:
    """Load what joins and judges numbers, before they come; costs nothing the second time."""
    import hushwright.evaluation.evaluate
    import hushwright.verdicts.judge
    import hushwright.verdicts.measure_next  # noqa: F401


def _make_ready() -> None:
    """Load what every order needs, while nobody waits yet."""
    import hushwright.document.read
    import hushwright.evaluation.evaluate  # noqa: F401
    from hushwright.library.read import read_library

    read_library()


def _unexpected(problem: Exception, name: str) -> Diagnostic:
    said = " ".join(str(problem).split())[:200] or type(problem).__name__
    return Diagnostic("unexpected", Place(name), "", f"something went wrong inside hushwright: {said}",
                      "undo the last change; `hushwright --debug check` shows the details")  # fmt: skip
