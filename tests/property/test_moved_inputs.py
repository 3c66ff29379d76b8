"""A moved input resolves only what reads it: what comes out is the whole file resolved with that shift."""

from dataclasses import fields
from pathlib import Path

import pytest

from hushwright.document.read import read_document_text
from hushwright.library.read import read_library
from hushwright.model.build import Build
from hushwright.model.resolve import moved, resolve

EXAMPLES = sorted((Path(__file__).resolve().parents[2] / "examples").glob("*.yaml"))
NOT_COMPARED = ("steps", "document", "library")


def build_of(file: Path) -> Build:
    document, _ = read_document_text(file.read_text(encoding="utf-8"), file.name)
    build, diagnostics = resolve(document, read_library())
    assert build is not None, diagnostics
    return build


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)
def test_moving_an_input_resolves_to_what_the_whole_file_does(file: Path) -> None:
    build = build_of(file)
    assert build.inputs
    for each in build.inputs:
        for sign in (1.0, -1.0):
            shifts = {each.path: sign * each.standard_uncertainty}
            whole, _ = resolve(build.document, build.library, shifts=shifts)
            part = moved(build, shifts)
            assert (part is None) == (whole is None), each.path
            if part is None or whole is None:
                continue
            for one in fields(Build):
                if one.name not in NOT_COMPARED:
                    assert getattr(part, one.name) == getattr(whole, one.name), (each.path, one.name)


def test_what_reads_nothing_of_the_shift_is_the_nominal_object_itself() -> None:
    build = build_of(next(file for file in EXAMPLES if file.stem == "archive-van"))
    other = moved(build, {"vehicle.kerb_height": 0.01})
    assert other is not None
    assert other.rooms is build.rooms
    assert other.wiring is build.wiring


def test_a_shift_that_breaks_a_part_leaves_no_build() -> None:
    build = build_of(next(file for file in EXAMPLES if file.stem == "archive-van"))
    assert moved(build, {"vehicle.floor_to_bow": -1.9}) is None
