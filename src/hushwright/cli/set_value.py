"""``hushwright set``: one value changed, every other byte kept."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

import typer

from hushwright.cli.options import FileArgument, refuse, refuse_file
from hushwright.cli.output import say

if TYPE_CHECKING:
    from hushwright.errors import Diagnostic


def set_command(
    file: FileArgument,
    path: Annotated[str, typer.Argument(metavar="PATH", help="Where the value stands: vehicle.ribs.depth; list items "
                                        "count from 0.")],
    value: Annotated[str, typer.Argument(metavar="VALUE", help="New value as it would be typed in the file: 95 mm.")],
) -> None:  # fmt: skip
    """Change one value of a build file.

    Every other byte stays; a value that does not fit is refused, and the file is saved whole or not at all.
    """
    from hushwright.document.files import read_text
    from hushwright.document.save import digest, save_atomically, set_value
    from hushwright.errors import InvalidInput, UnreadableDocument

    try:
        before = read_text(file)
        after = set_value(before, path, value)
    except UnreadableDocument as problem:
        refuse_file(problem.diagnostics)
    except InvalidInput as problem:
        refuse(f"{file}: {problem}")
    new_problems = _problems_brought(before, after, file)
    if new_problems:
        refuse_file(new_problems)
    try:
        save_atomically(file, after, digest(before))
    except UnreadableDocument as problem:
        refuse_file(problem.diagnostics)
    say(_change(before, after, path, file))
    if before != after and not is_one_build_up(after):
        say(f"Next: hushwright check {file}\n      hushwright change OLD {file}, with OLD a copy of the file as it was")


def _problems_brought(before: str, after: str, file: str) -> tuple[Diagnostic, ...]:
    """Errors that the changed text has and the text before had not."""
    known = {(one.reference, one.place.path, one.note) for one in _errors(before, file)}
    return tuple(
        one for one in _errors(after, file) if (one.reference, one.place.path, one.note) not in known
    )  # fmt: skip


def _errors(text: str, file: str) -> tuple[Diagnostic, ...]:
    from hushwright.document.explain import merged
    from hushwright.document.read import read_document_text
    from hushwright.document.schema import BuildFile, PartitionFile
    from hushwright.library.read import read_library
    from hushwright.model.resolve import resolve

    model: Any = PartitionFile if is_one_build_up(text) else BuildFile
    document, problems = read_document_text(text, file, model)
    if document is not None and model is BuildFile:
        problems = merged(problems, resolve(document, read_library())[1])
    elif document is not None:
        from hushwright.evaluation.sound.single import evaluate_partition

        problems = merged(problems, evaluate_partition(document, read_library())[1])
    return tuple(one for one in problems if one.severity == "error")


def is_one_build_up(text: str) -> bool:
    """Whether a text is the small file of one build-up: its layers stand at the top."""
    return any(line.startswith("layers:") for line in text.splitlines())


def _change(before: str, after: str, path: str, file: str) -> str:
    """Line of the change with the text before and after."""
    old, new = before.splitlines(), after.splitlines()
    line = next((at for at, (one, other) in enumerate(zip(old, new, strict=False), 1) if one != other), 0)
    if not line and len(old) == len(new):
        return f"{file}: {path} has that value already; nothing is changed."
    if len(old) != len(new):
        line = line or min(len(old), len(new)) + 1
        return f"{file}, line {line}: {path}\n  after   {new[line - 1].strip()}"
    return f"{file}, line {line}: {path}\n  before  {old[line - 1].strip()}\n  after   {new[line - 1].strip()}"
