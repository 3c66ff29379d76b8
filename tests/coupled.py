"""Build files as text, changed in one place, taken through the verbs: what tests of the coupled result share."""

import re
from functools import lru_cache
from pathlib import Path

from hushwright.document.read import read_document_text
from hushwright.evaluation.evaluate import Core, couple, evaluate
from hushwright.evaluation.results import Evaluation, PathLevel
from hushwright.library.library import Library
from hushwright.library.read import read_library
from hushwright.model.build import Build
from hushwright.model.resolve import resolve
from hushwright.verdicts.judge import judge
from hushwright.verdicts.verdict import Verdict

DEMO = (Path(__file__).parents[1] / "examples" / "archive-van.yaml").read_text(encoding="utf-8")


@lru_cache(maxsize=1)
def library() -> Library:
    """The library, read once."""
    return read_library()


@lru_cache(maxsize=128)
def build_of(text: str) -> Build:
    """Build of a file's text; an error in it fails the test that uses it."""
    document, diagnostics = read_document_text(text, "build.yaml")
    assert document is not None, diagnostics
    build, more = resolve(document, library())
    errors = [each for each in (*diagnostics, *more) if each.severity == "error"]
    assert build is not None, more
    assert not errors, errors
    return build


@lru_cache(maxsize=128)
def core_of(text: str) -> Core:
    """Everything that is coupled, without the shares of the inputs."""
    return couple(build_of(text))


@lru_cache(maxsize=16)
def evaluation_of(text: str) -> Evaluation:
    """The whole Evaluation, shares of the inputs included."""
    return evaluate(build_of(text))


@lru_cache(maxsize=16)
def verdicts_of(text: str) -> dict[str, Verdict]:
    """Verdicts by identifier."""
    return {each.id: each for each in judge(evaluation_of(text))}


def edited(text: str, *changes: tuple[str, str]) -> str:
    """Text with parts replaced; a part that is not there is a mistake of the test."""
    for old, new in changes:
        assert old in text, f"{old!r} is not in the build file"
        text = text.replace(old, new)
    return text


STILL = re.sub(
    r"\n  gear:\n(?:    .*\n)+", "\n", edited(DEMO, ("      runs_in: [record, record_side_door_open, pause]\n", ""))
)
"""The demo with its fans at rest and without gear that sounds."""


def value_of(text: str, key: str) -> float:
    """Value of one quantity."""
    return core_of(text).quantities[key].value


def paths_to_quiet(text: str, key: str) -> dict[str, PathLevel]:
    """Ways into the quiet room in one background, by name."""
    found = next(each for each in core_of(text).backgrounds if each.key == key)
    return {each.name: each for each in found.paths}


def paths_between(text: str, state: str = "record") -> dict[str, PathLevel]:
    """Ways from the quiet room to the control room, by name."""
    found = next(each for each in core_of(text).between_rooms if each.state == state)
    return {each.name: each for each in found.paths}
