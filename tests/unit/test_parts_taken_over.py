"""A moved build takes over the parts that read nothing that has moved: what a part reads has to be compared."""

from collections import defaultdict
from collections.abc import Callable
from dataclasses import fields, replace

import pytest
from tests.coupled import DEMO, build_of
from tests.unit.test_sound_remembered import TEXTS, Watched, forget

from hushwright.evaluation import sensitivity
from hushwright.evaluation.couple import couple
from hushwright.evaluation.held import held_geometry
from hushwright.evaluation.parts import READS, Parts
from hushwright.evaluation.sensitivity import changes_by
from hushwright.model.build import Build
from hushwright.model.resolve import moved
from hushwright.model.wishes import BriefInPlace


@pytest.mark.parametrize("example", sorted(TEXTS))
def test_a_part_reads_nothing_that_is_not_compared(example: str, monkeypatch: pytest.MonkeyPatch) -> None:
    build, read = build_of(TEXTS[example]), defaultdict(set)
    plain = Parts.take

    def take(self: Parts, name: str, build: Build, law: Callable, *others: object) -> object:
        def watched(quantities: dict) -> object:
            forget()  # what another part has worked out is read again
            with monkeypatch.context() as patched:
                for kind in (Build, BriefInPlace):
                    for each in fields(kind):
                        told = Watched(f"{kind.__name__}.{each.name}", kind.__dict__[each.name], read[name])
                        patched.setattr(kind, each.name, told)
                return law(quantities)

        return plain(self, name, build, watched, *others)

    monkeypatch.setattr(Parts, "take", take)
    couple(build)
    assert read.keys() == READS.keys()
    for name, reads in READS.items():
        compared = {f"Build.{each}" for each in (*reads.build, "brief")}
        assert read[name] <= compared | {f"BriefInPlace.{each}" for each in reads.brief}, name


def test_only_what_an_input_reaches_is_worked_out_again() -> None:
    build = build_of(DEMO)
    nominal = couple(build)
    each = next(one for one in build.inputs if one.path == "fittings.6.mass")
    other = moved(build, {each.path: each.standard_uncertainty})
    assert other is not None
    heavier = couple(other, held_geometry(other, build), beside=nominal)
    anew = {name for name in READS if heavier.parts[name] is not nominal.parts[name]}
    assert {"masses", "structure"} <= anew
    assert anew.isdisjoint({"air", "signals", "wiring", "use"})


@pytest.mark.parametrize("example", ["archive-van", "repair-workshop-van"])
def test_what_an_input_changes_is_the_same_with_every_part_worked_out_anew(example: str) -> None:
    build = build_of(TEXTS[example])
    nominal = couple(build)
    inputs = [one for one in build.inputs if not one.path.startswith("library.")][::3]
    sensitivity.forget()
    found = changes_by(build, nominal, inputs)
    sensitivity.forget()
    assert found == changes_by(build, replace(nominal, parts={}), inputs)
