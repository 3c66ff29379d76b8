"""What inputs change is remembered by what they are moved from: a part that is left out of it must not matter."""

from dataclasses import fields, replace

import pytest
from tests.coupled import DEMO, build_of, edited, library
from tests.unit.test_sound_remembered import TEXTS, Watched, forget

from hushwright.document.read import read_document_text
from hushwright.document.schema import BuildFile
from hushwright.evaluation import sensitivity
from hushwright.evaluation.couple import couple
from hushwright.evaluation.evaluate import changes_of, completed, evaluate_nominal
from hushwright.evaluation.sensitivity import NOT_MOVED
from hushwright.model.build import Build
from hushwright.model.resolve import resolve

OF_THEM = {"title", "file", "papers", "costs", "drawn", "assumptions", "document", "library", "inputs", "steps"}
"""Fields of a build that the parts in NOT_MOVED come to, and those by which it is resolved again."""


@pytest.mark.parametrize("example", sorted(TEXTS))
@pytest.mark.parametrize("name", [*NOT_MOVED, "budget"])
def test_a_part_that_no_input_moves_comes_to_nothing_else_in_a_build(example: str, name: str) -> None:
    document, _ = read_document_text(TEXTS[example], "build.yaml")
    assert document is not None
    root = document.root
    if name == "budget":
        without = root.model_copy(update={"brief": root.brief.model_copy(update={name: None})})
    else:
        without = root.model_copy(update={name: BuildFile.model_fields[name].get_default(call_default_factory=True)})
    build, _ = resolve(document, library())
    other, _ = resolve(replace(document, root=without), library())
    assert build is not None
    assert other is not None
    assert [each.path for each in build.inputs] == [each.path for each in other.inputs]
    for each in fields(Build):
        if each.name not in OF_THEM:
            assert getattr(build, each.name) == getattr(other, each.name), each.name


@pytest.mark.parametrize("example", sorted(TEXTS))
def test_what_is_coupled_reads_nothing_of_them(example: str, monkeypatch: pytest.MonkeyPatch) -> None:
    build = build_of(TEXTS[example])
    read: set[str] = set()
    forget()
    with monkeypatch.context() as patched:
        for each in fields(Build):
            patched.setattr(Build, each.name, Watched(each.name, Build.__dict__[each.name], read))
        couple(build)
    assert len(read) > len(OF_THEM)
    assert read & OF_THEM <= {"library"}


def test_a_price_is_changed_without_moving_any_input_again(monkeypatch: pytest.MonkeyPatch) -> None:
    nominal, known = evaluate_nominal(build_of(DEMO))
    whole = completed(nominal, changes_of(nominal, known, nominal.build.inputs))
    cheaper, other = evaluate_nominal(build_of(edited(DEMO, ("total: 58000", "total: 57000"))))
    monkeypatch.setattr(sensitivity, "_moved", lambda *_: pytest.fail("an input was moved again"))
    again = completed(cheaper, changes_of(cheaper, other, cheaper.build.inputs))
    assert {key: each.contributions for key, each in again.quantities.items()} == {
        key: each.contributions for key, each in whole.quantities.items()
    }


def test_an_edit_that_inputs_are_moved_from_moves_them_again() -> None:
    nominal, known = evaluate_nominal(build_of(DEMO))
    before = changes_of(nominal, known, nominal.build.inputs)
    heavier, other = evaluate_nominal(build_of(edited(DEMO, ("cavity: 93", "cavity: 91"))))
    assert changes_of(heavier, other, heavier.build.inputs) != before
