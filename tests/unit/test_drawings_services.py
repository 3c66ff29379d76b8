"""Single-line diagram, schedules and routes: every circuit, line and route of the Build is there."""

from dataclasses import replace

import pytest
from tests.coupled import DEMO, build_of

from hushwright.drawings.electrical import circuit_schedule, routes, signal_schedule, single_lines
from hushwright.drawings.paper import PAPERS, paper_named, placed, room_for_drawing
from hushwright.drawings.primitives import Balloon, Drawing, Polyline, Text
from hushwright.drawings.things import things_of
from hushwright.evaluation.chargers import with_chargers
from hushwright.evaluation.results_wiring import WiringResults
from hushwright.evaluation.wiring import wiring_of
from hushwright.model.build import Build


def demo() -> Build:
    return build_of(DEMO)


def wiring() -> WiringResults:
    return wiring_of(demo(), {})


def words(drawings: tuple[Drawing, ...]) -> set[str]:
    return {each.text for drawing in drawings for each in drawing.elements if isinstance(each, Text)}


@pytest.mark.parametrize("paper", PAPERS)
def test_every_circuit_is_in_the_diagram_with_its_conductor_and_fuse(paper: str) -> None:
    drawings = single_lines(wiring(), paper_named(paper), "metric")
    said = words(drawings)
    drawn = {each.part for drawing in drawings for each in drawing.elements if isinstance(each, Polyline)}
    assert wiring().circuits
    for circuit in wiring().circuits:
        assert circuit.name in drawn
        assert circuit.name.replace("_", " ") in said
        assert any(text.startswith(circuit.conductor) for text in said)
        assert {each.replace("_", " ") for each in circuit.gives_to} <= said


@pytest.mark.parametrize("paper", PAPERS)
def test_the_diagram_fits_on_its_paper(paper: str) -> None:
    width, height = room_for_drawing(paper_named(paper), with_key=False)
    for drawing in single_lines(wiring(), paper_named(paper), "us"):
        shown = placed(drawing, 1.0, "us")
        assert shown.width <= width
        assert shown.height <= height


def test_a_charger_stands_between_its_source_and_the_bank() -> None:
    told = {each.name: each for each in with_chargers(wiring(), demo()).circuits}
    assert told["charger_in"].gives_to == ("shore_charger",)
    assert told["charger_out"].takes_from == "shore_charger"
    assert told["panels_in"].takes_from == "panels_controller"
    assert told["shore_in"].takes_from == "shore"
    said = words(single_lines(with_chargers(wiring(), demo(), linked=True), paper_named("A3"), "metric"))
    assert {"shore", "shore charger", "panels", "panels controller", "engine", "engine charger"} <= said


@pytest.mark.parametrize("paper", PAPERS)
def test_the_diagram_with_chargers_fits_on_its_paper(paper: str) -> None:
    width, height = room_for_drawing(paper_named(paper), with_key=False)
    for drawing in single_lines(with_chargers(wiring(), demo(), linked=True), paper_named(paper), "us"):
        shown = placed(drawing, 1.0, "us")
        assert shown.width <= width
        assert shown.height <= height


def test_circuits_in_a_ring_are_all_drawn() -> None:
    first = wiring().circuits[0]
    ring = tuple(replace(first, name=f"c{i}", takes_from=f"n{i}", gives_to=(f"n{(i + 1) % 3}",)) for i in range(3))
    (drawing,) = single_lines(replace(wiring(), circuits=ring), paper_named("A4"), "metric")
    assert {"c0", "c1", "c2", "n0", "n1", "n2"} <= words((drawing,))


def test_many_circuits_go_on_to_another_sheet() -> None:
    first = wiring().circuits[0]
    many = tuple(replace(first, name=f"c{i}", takes_from=f"s{i}", gives_to=(f"n{i}",)) for i in range(60))
    drawings = single_lines(replace(wiring(), circuits=many), paper_named("A4"), "metric")
    assert len(drawings) > 1
    assert {f"c{i}" for i in range(60)} <= words(drawings)


def test_a_van_without_circuits_has_no_diagram() -> None:
    assert single_lines(WiringResults(), paper_named("A4"), "metric") == ()


def test_schedules_have_a_row_for_each_circuit_and_line() -> None:
    build = demo()
    assert [row[0] for row in circuit_schedule(wiring(), "metric").rows[1:]] == [
        circuit.name.replace("_", " ") for circuit in wiring().circuits
    ]
    assert build.signals is not None
    assert [row[0] for row in signal_schedule(build, "us").rows[1:]] == [
        line.name.replace("_", " ") for line in build.signals.lines
    ]
    for table in (circuit_schedule(wiring(), "metric"), signal_schedule(build, "metric")):
        assert {len(row) for row in table.rows} == {len(table.widths)}


def test_every_route_is_drawn_where_it_runs() -> None:
    build = demo()
    drawing = routes(build)
    lines = {each.part: each.points for each in drawing.elements if isinstance(each, Polyline)}
    for route in build.routes:
        assert lines[route.name] == tuple((station, -y) for station, y, _ in route.points)
    assert len(drawing.key) == len(build.routes)


def test_every_opening_and_fitting_has_its_number_in_the_plan() -> None:
    from hushwright.drawings.plan import plan

    drawing = plan(demo())
    marks = {each.text for each in drawing.elements if isinstance(each, Balloon)}
    assert marks == {mark for mark, _ in drawing.key}
    assert {mark for mark in marks if mark.isdigit()} == {thing.number for thing in things_of(demo())}
    assert {opening.name for opening in demo().openings} <= {thing.part for thing in things_of(demo())}
    assert {item.name for item in demo().masses if item.group == "fittings"} <= {t.part for t in things_of(demo())}
