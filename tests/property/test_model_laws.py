"""Laws of the build: unit systems agree, thicker layers leave less room, masses add, nothing legal breaks it."""

from __future__ import annotations

import re
from contextlib import suppress
from functools import cache
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.coupled import DEMO, build_of, library

from hushwright.document.document import Document
from hushwright.document.fields import Section
from hushwright.document.read import read_document_text
from hushwright.document.schema import BuildFile
from hushwright.document.shapes import fields_of, walk_fields
from hushwright.document.values import Value, unknown_value
from hushwright.errors import InvalidInput
from hushwright.evaluation.couple import couple
from hushwright.evaluation.guard import CannotEvaluate, at, located
from hushwright.evaluation.mass.mass import masses_in
from hushwright.model.build import Build
from hushwright.model.resolve import resolve

_NUMBER = r"-?\d+(?:\.\d+)?"
_KILOGRAM = 0.45359237  # kg in a pound, exact (international yard and pound agreement, 1959)
_LENGTHS = {path[-1] for path, one in walk_fields(BuildFile) if one.spec.kind == "length"}
_BARE = {
    path[-1] for path, one in walk_fields(BuildFile) if one.spec.form == "count" or one.spec.kind in ("count", "money")
}
_LENGTH_KEYS = "|".join(sorted((_LENGTHS - _BARE) | {"is"}))


def in_inches_and_pounds(text: str) -> str:
    """The same file with bare lengths in inches and masses in pounds."""
    lines = []
    for line in text.splitlines():
        if line.startswith(("lengths:", "title:", "note:")):
            lines.append(line.replace("lengths: mm", "lengths: in"))
            continue
        changed = re.sub(rf"({_NUMBER}) mm\b", lambda found: f"{float(found[1]) / 25.4:.9f} in", line)
        changed = re.sub(
            rf"\b({_LENGTH_KEYS}): ({_NUMBER})(?=[,}}\s]|$)(?! [a-zA-Z%])",
            lambda found: f"{found[1]}: {float(found[2]) / 25.4:.9f}",
            changed,
        )
        lines.append(re.sub(rf"({_NUMBER}) kg\b(?!/)", lambda found: f"{float(found[1]) / _KILOGRAM:.9f} lb", changed))
    return "\n".join(lines) + "\n"


def test_inches_and_pounds_give_the_same_build() -> None:
    text = in_inches_and_pounds(DEMO.replace("0..0.3 mm", "0.1 mm").replace("0..0.1 mm", "0.1 mm")
                                .replace("0..0.15 mm", "0.1 mm").replace("0.05..0.3 mm", "0.1 mm"))  # fmt: skip
    metric = build_of(DEMO.replace("0..0.3 mm", "0.1 mm").replace("0..0.1 mm", "0.1 mm")
                      .replace("0..0.15 mm", "0.1 mm").replace("0.05..0.3 mm", "0.1 mm"))  # fmt: skip
    other = build_of(text)
    assert "2080" not in text
    assert " lb" in text
    assert [each.name for each in other.masses] == [each.name for each in metric.masses]
    for one, two in zip(metric.masses, other.masses, strict=True):
        assert (two.mass, two.station, two.y, two.z) == pytest.approx((one.mass, one.station, one.y, one.z), abs=1e-6)
    for one, two in zip(metric.rooms, other.rooms, strict=True):
        assert two.volume == pytest.approx(one.volume, rel=1e-7)
        assert [each.area for each in two.surfaces] == pytest.approx([each.area for each in one.surfaces], rel=1e-7)
    assert other.vehicle.kerb.total == pytest.approx(metric.vehicle.kerb.total)
    assert other.mounts[0].places[0] == pytest.approx(metric.mounts[0].places[0])
    assert [each.path for each in other.inputs] == [each.path for each in metric.inputs]


@settings(max_examples=30)
@given(st.floats(min_value=0.0, max_value=0.03))
def test_a_deeper_space_leaves_a_smaller_room(more: float) -> None:
    document = _demo()
    path = ("surfaces", "quiet_room", "left", "layers", 2, "cavity")
    build, _ = resolve(document.with_value(path, 0.093 + more), library())
    assert build is not None
    before, after = build_of(DEMO).rooms[1], build.rooms[1]
    assert after.volume <= before.volume
    # Both sides share the build-up: the upright part loses twice what it gains in depth.
    assert before.section.width_at(0.8) - after.section.width_at(0.8) == pytest.approx(2.0 * more, abs=1e-9)


@settings(max_examples=30)
@given(st.floats(min_value=0.006, max_value=0.02))
def test_a_thicker_sheet_weighs_more_and_takes_height(thickness: float) -> None:
    path = ("surfaces", "quiet_room", "floor", "layers", 4, "thickness")
    build, _ = resolve(_demo().with_value(path, thickness), library())
    assert build is not None
    change = thickness - 0.009
    assert (build.rooms[1].section.height - build_of(DEMO).rooms[1].section.height) == pytest.approx(-change, abs=1e-9)
    heavier = _added(build) - _added(build_of(DEMO))
    assert heavier == 0.0 or (heavier > 0.0) == (change > 0.0)


@settings(max_examples=30)
@given(st.floats(min_value=0.0, max_value=900.0), st.floats(min_value=-1.0, max_value=4.0))
def test_a_mass_adds_to_the_total_and_to_the_axles_by_its_station(mass: float, station: float) -> None:
    document = _demo().with_value(("fittings", 0, "mass"), mass).with_value(("fittings", 0, "station"), station)
    build, _ = resolve(document, library())
    empty, _ = resolve(document.with_value(("fittings", 0, "mass"), 0.0), library())
    assert build is not None
    assert empty is not None
    drive = build.states[2]
    loaded, bare = masses_in(build, drive), masses_in(empty, drive)
    mass *= 1.07  # this one is not weighed: it brings its share of what is not yet listed
    assert loaded.total - bare.total == pytest.approx(mass, abs=1e-6)
    assert loaded.rear - bare.rear == pytest.approx(mass * (station + 1.45) / (2.85 + 1.45), abs=1e-6)


@cache
def _demo() -> Document:
    document, _ = read_document_text(DEMO, "build.yaml")
    assert document is not None
    return document


def _added(build: Build) -> float:
    return sum(each.mass for each in build.masses)


# Any legal file: values moved within their bounds, left out, unknown, names swapped, lists shortened and doubled.


def _edits(node: Any, path: tuple[str | int, ...] = ()) -> list[tuple[tuple[str | int, ...], Any]]:
    """Every place of a document, with the declaration that bounds it."""
    found = []
    if isinstance(node, Section):
        for name, one in fields_of(type(node)).items():
            found.append(((*path, name), one))
            found += _edits(node.__dict__[name], (*path, name))
    elif isinstance(node, tuple):
        for index, each in enumerate(node):
            found += _edits(each, (*path, index))
    elif isinstance(node, dict):
        for name, each in node.items():
            found += _edits(each, (*path, name))
    return found


PLACES = _edits(_demo().root)


@st.composite
def legal_documents(draw: st.DrawFn) -> Document:
    """The demo with one to four fields changed to something else that the reader would accept."""
    document = _demo()
    for _ in range(draw(st.integers(1, 4))):
        path, one = draw(st.sampled_from(PLACES))
        try:
            old = document.value_at(path)
        except ValueError:
            continue  # a list before it was shortened
        new = draw(_replacement(one, old))
        document = document.with_value(path, new)
    return document


def _replacement(one: Any, old: Any) -> st.SearchStrategy[Any]:
    spec = one.spec
    default = [] if one.required else [st.just(one.default)]
    if isinstance(old, tuple):
        ways = [old[:-1], old[1:], old + old[-1:], tuple(reversed(old)), ()]
        return st.one_of(*default, *(st.just(way) for way in ways if len(way) >= spec.shortest))
    if isinstance(old, (Section, dict)) or (spec.form == "section"):
        return st.one_of(*default) if default else st.just(old)
    if spec.form == "quantity":
        low = spec.low if spec.low is not None else -100.0
        high = spec.high if spec.high is not None else 1e6
        numbers = st.floats(low, high).map(lambda number: Value(number, text=f"{number}"))
        near = [Value(old.value * share) for share in (0.8, 0.95, 1.05, 1.2)] if isinstance(old, Value) else []
        inside = [each for each in near if low <= each.value <= high] or [Value(low)]
        ends = st.sampled_from([low, high]).map(Value)
        return st.one_of(*default, st.sampled_from(inside), numbers, ends, st.just(unknown_value()))
    if spec.form == "choice":
        return st.sampled_from(spec.choices)
    if spec.form == "count":
        return st.integers(int(spec.low or 0), int(spec.high or 50))
    words = [
        "",
        "left",
        "quiet_room",
        "control_room.rear",
        "side_door",
        "birch plywood",
        "rock wool 40 kg/m3",
        "NC 20",
        "nowhere",
    ]
    return st.one_of(*default, st.sampled_from(words))


@pytest.mark.filterwarnings("ignore:Generating overly large repr")
@settings(max_examples=300)
@given(legal_documents())
def test_any_legal_file_gives_a_build_or_says_why_not(document: Document) -> None:
    build, found = resolve(document, library())
    assert (build is None) == any(each.severity == "error" for each in found)
    assert all(each.note and each.reference and each.place.file for each in found)


@pytest.mark.filterwarnings("ignore:Generating overly large repr")
@settings(max_examples=25)
@given(legal_documents())
def test_any_build_can_be_coupled_or_says_where_a_law_ends(document: Document) -> None:
    build, _ = resolve(document, library())
    if build is None:
        return
    with suppress(CannotEvaluate), located(document):
        assert couple(build).space or not build.rooms


def test_what_no_law_can_compute_is_told_with_its_line() -> None:
    with pytest.raises(CannotEvaluate) as problem, located(_demo()), at("openings.window"):
        raise InvalidInput("a pane of 0 m is none")
    assert problem.value.diagnostic is not None
    assert problem.value.diagnostic.place.line == _demo().place("openings.window").line
