"""The four verbs in order, as commands need them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from hushwright.cli.options import refuse_file, tell_remarks

if TYPE_CHECKING:
    from hushwright.errors import Diagnostic
    from hushwright.evaluation.results import Evaluation
    from hushwright.evaluation.sound.single import SinglePartition
    from hushwright.model.build import Build
    from hushwright.verdicts.verdict import Verdict


def read_build(file: str, *, as_json: bool = False) -> tuple[Build, tuple[Diagnostic, ...]]:
    """Build of a file and the remarks on it; every problem is printed at once and ends the call."""
    from hushwright.document.explain import merged
    from hushwright.document.read import read_document
    from hushwright.library.read import read_library
    from hushwright.model.resolve import resolve

    document, read_problems = read_document(file)
    if document is None:
        refuse_file(_of_other_kind(file, read_problems, "layers"), as_json=as_json)
    build, resolve_problems = resolve(document, read_library())
    diagnostics = merged(read_problems, resolve_problems)
    if build is None or any(one.severity == "error" for one in diagnostics):
        refuse_file(diagnostics, as_json=as_json)
    return build, diagnostics


def read_evaluation(file: str, *, as_json: bool = False) -> tuple[Evaluation, tuple[Diagnostic, ...]]:
    """Evaluation of a build file and the remarks on it."""
    build, remarks = read_build(file, as_json=as_json)
    if not as_json:
        tell_remarks(remarks)
    from hushwright.evaluation.evaluate import evaluate
    from hushwright.evaluation.guard import CannotEvaluate

    try:
        return evaluate(build), remarks
    except CannotEvaluate as refused:
        if refused.diagnostic is None:
            raise
        refuse_file((refused.diagnostic,), as_json=as_json)


def judged(evaluation: Evaluation) -> tuple[Verdict, ...]:
    """Verdicts of an evaluation."""
    from hushwright.verdicts.judge import judge

    return judge(evaluation)


def read_partition(file: str, *, as_json: bool = False) -> SinglePartition:
    """Prediction of one build-up on its own; every problem is printed at once and ends the call."""
    from hushwright.document.explain import merged
    from hushwright.document.read import read_document
    from hushwright.document.schema import PartitionFile

    document, read_problems = read_document(file, PartitionFile)
    if document is None:
        refuse_file(_of_other_kind(file, read_problems, "brief"), as_json=as_json)
    from hushwright.evaluation.sound.single import evaluate_partition
    from hushwright.library.read import read_library

    single, problems = evaluate_partition(document, read_library())
    diagnostics = merged(read_problems, problems)
    if single is None or any(one.severity == "error" for one in diagnostics):
        refuse_file(diagnostics, as_json=as_json)
    if not as_json:
        tell_remarks(diagnostics)
    return single


_OTHER_COMMAND = {
    "layers": ("this is one build-up on its own, not the file of a van", "hushwright partition"),
    "brief": ("this is the file of a van, not one build-up on its own", "hushwright check"),
}


def _of_other_kind(file: str, problems: tuple[Diagnostic, ...], key: str) -> tuple[Diagnostic, ...]:
    """One problem in place of all where a file with this key at the top belongs to the other command."""
    from hushwright.errors import Diagnostic, Place

    if not any(one.reference == "unknown-key" and one.place.path == (key,) for one in problems):
        return problems
    note, command = _OTHER_COMMAND[key]
    return (Diagnostic("other-kind-of-file", Place(file), "", note, f"`{command} {file}` takes it"),)
