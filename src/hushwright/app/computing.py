"""The four verbs as the screen needs them: at once what is cheap, in another process what takes longer."""

from __future__ import annotations

import time
from dataclasses import dataclass
from typing import TYPE_CHECKING

from hushwright.errors import Diagnostic, Place

if TYPE_CHECKING:
    from multiprocessing.connection import Connection

    from hushwright.document.document import Document
    from hushwright.evaluation.results import Evaluation
    from hushwright.model.build import Build
    from hushwright.verdicts.measure_next import MeasureNext
    from hushwright.verdicts.verdict import Verdict


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
    """A text taken through all four verbs."""

    text: str
    evaluation: Evaluation | None
    verdicts: tuple[Verdict, ...]
    measure_next: tuple[MeasureNext, ...]
    problems: tuple[Diagnostic, ...]
    seconds: float


def read(text: str, name: str) -> Reading:
    """Read and resolve a text."""
    from hushwright.document.read import read_document_text

    return _resolved(*read_document_text(text, name))


def _resolved(document: Document | None, problems: tuple[Diagnostic, ...]) -> Reading:
    from hushwright.document.explain import merged
    from hushwright.library.read import read_library
    from hushwright.model.resolve import resolve

    if document is None:
        return Reading(None, None, problems)
    build, more = resolve(document, read_library())
    return Reading(document, build, merged(problems, more))


def compute(text: str, name: str, read_already: Reading | None = None) -> Computed:
    """Take a text through all four verbs; nothing that a file can hold is raised.

    What was read of it already spares reading it again; it is resolved anew, with the records of this process.
    """
    from hushwright.evaluation.couple import evaluate
    from hushwright.evaluation.guard import CannotEvaluate
    from hushwright.verdicts.judge import judge
    from hushwright.verdicts.measure_next import measure_next

    begin = time.perf_counter()
    known = read_already.document if read_already is not None else None
    reading = read(text, name) if read_already is None else _resolved(known, read_already.problems)
    if reading.build is None or reading.errors:
        return Computed(text, None, (), (), reading.problems, time.perf_counter() - begin)
    try:
        evaluation = evaluate(reading.build)
    except CannotEvaluate as refused:
        if refused.diagnostic is None:
            raise
        return Computed(text, None, (), (), (*reading.problems, refused.diagnostic), time.perf_counter() - begin)
    verdicts = judge(evaluation)
    ranked = tuple(measure_next(evaluation, verdicts))
    return Computed(text, evaluation, verdicts, ranked, reading.problems, time.perf_counter() - begin)


def serve(connection: Connection) -> None:
    """Answer with what was computed for each text that comes; runs in a process of its own until nobody listens."""
    import os

    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    while True:
        try:
            text, name, already = connection.recv()
        except (EOFError, OSError, KeyboardInterrupt):
            return
        try:
            connection.send(compute(text, name, already))
        except (BrokenPipeError, KeyboardInterrupt):
            return
        except Exception as problem:
            connection.send(Computed(text, None, (), (), (_unexpected(problem, name),), 0.0))


def _unexpected(problem: Exception, name: str) -> Diagnostic:
    said = " ".join(str(problem).split())[:200] or type(problem).__name__
    return Diagnostic("unexpected", Place(name), "", f"something went wrong inside hushwright: {said}",
                      "undo the last change; `hushwright --debug check` shows the details")  # fmt: skip
